//! Cases as data: each file under `golden/quotes` is a request with hand-worked
//! expectations, sent through every door of a real server.

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::path::PathBuf;

use pennantry_contract::v1;
use serde::Deserialize;
use serde_json::Value;

use crate::doors::{Answer, House, Refused};
use crate::paths::{self, Found};
use crate::{catalogue, patch};

/// One file of `golden/quotes`.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    /// Name of the file, without its ending.
    #[serde(skip)]
    pub name: String,
    /// What it shows.
    title: String,
    /// Where the expected values come from.
    source: String,
    /// How far they can be trusted.
    grade: String,
    /// Rows of the reference tables that it checks.
    #[serde(default, deserialize_with = "one_or_more")]
    pub id: Vec<String>,
    /// Changes to the demo catalogue.
    #[serde(default)]
    catalogue: toml::Table,
    /// The enquiry, in the keys of the contract's JSON. `@2` is the catalogue's second fabric.
    request: toml::Table,
    /// Paths into the answer, and what is there.
    #[serde(default)]
    expect: toml::Table,
    /// Why it is refused, where it is.
    refused: Option<Refusal>,
}

/// An expected refusal.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Refusal {
    /// Reason of the whole.
    reason: String,
    /// Every violation, in order.
    #[serde(default)]
    violations: Vec<Expected>,
}

impl Refusal {
    /// Whether it says of fields what is wrong with them.
    pub fn names_fields(&self) -> bool {
        !self.violations.is_empty()
    }
}

/// An expected violation; what is not said may be anything.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Expected {
    field: String,
    reason: String,
    /// Values that the message has to name.
    text: Vec<String>,
}

fn one_or_more<'de, D: serde::Deserializer<'de>>(reader: D) -> Result<Vec<String>, D::Error> {
    #[derive(Deserialize)]
    #[serde(untagged)]
    enum Ids {
        One(String),
        More(Vec<String>),
    }
    Ok(match Ids::deserialize(reader)? {
        Ids::One(id) => vec![id],
        Ids::More(ids) => ids,
    })
}

/// Grades that a case may claim.
pub const GRADES: [&str; 4] = ["published", "trade", "derived", "from memory"];

/// The folder of a kind of committed data.
pub fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("golden")
}

/// Every case, in the order of names.
pub fn cases() -> Vec<Case> {
    let listed = std::fs::read_dir(folder().join("quotes")).expect("the cases can be listed");
    let mut files: Vec<PathBuf> = listed.map(|entry| entry.expect("an entry").path()).collect();
    files.sort();
    let cases: Vec<Case> = files
        .iter()
        .map(|path| {
            let text = std::fs::read_to_string(path).expect("a case is text");
            let mut case: Case =
                toml::from_str(&text).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
            case.name = path.file_stem().expect("a name").to_string_lossy().into_owned();
            case
        })
        .collect();
    assert!(cases.len() > 80, "only {} cases found", cases.len());
    cases
}

impl Case {
    /// The enquiry as JSON, on a catalogue with these fabrics.
    pub fn request(&self, fabrics: &[String]) -> Value {
        let request = serde_json::to_value(&self.request).expect("TOML without dates is JSON");
        named(request, fabrics)
    }

    /// The catalogue it is asked at, as text.
    pub fn catalogue(&self) -> String {
        patch::patched(catalogue::demo(), &self.catalogue)
    }

    /// Whether it is asked at the demo catalogue as it is.
    pub fn plain(&self) -> bool {
        self.catalogue.is_empty()
    }

    /// Whether it needs the shop's view, which the public door does not give.
    pub fn private(&self) -> bool {
        self.request.get("view").and_then(toml::Value::as_str) == Some("VIEW_SHOP")
    }
}

/// A value with every `@n` in its texts replaced by the code of the n-th fabric.
fn named(value: Value, fabrics: &[String]) -> Value {
    match value {
        Value::String(text) => Value::String(codes(&text, fabrics)),
        Value::Array(list) => list.into_iter().map(|entry| named(entry, fabrics)).collect(),
        Value::Object(map) => map.into_iter().map(|(key, entry)| (key, named(entry, fabrics))).collect(),
        other => other,
    }
}

fn codes(text: &str, fabrics: &[String]) -> String {
    fabrics
        .iter()
        .zip(1..)
        .fold(text.to_owned(), |text, (code, place)| text.replace(&format!("@{place}"), code))
}

/// Complaints about an answer.
fn compare(case: &Case, answer: &Value, fabrics: &[String]) -> Vec<String> {
    let expected = case.expect.iter().map(|(path, expected)| {
        let expected = serde_json::to_value(expected).expect("TOML without dates is JSON");
        (codes(path, fabrics), named(expected, fabrics))
    });
    complaints(&expected.collect(), answer)
}

/// Complaints about an answer: paths into it, and what is expected there.
pub fn complaints(expected: &serde_json::Map<String, Value>, answer: &Value) -> Vec<String> {
    let mut found = Vec::new();
    for (path, expected) in expected {
        if let Err(complaint) = agrees(&paths::follow(answer, path), expected, answer) {
            found.push(format!("{path}: {complaint}"));
        }
    }
    found
}

fn agrees(there: &Found, expected: &Value, answer: &Value) -> Result<(), String> {
    let disagree = || Err(format!("expected {expected}, found {}", told(there)));
    let same = match (there, expected) {
        (Found::One(one), Value::Object(rule)) => match one {
            None => rule.get("absent") == Some(&Value::Bool(true)),
            Some(one) => holds(one, rule, answer)?,
        },
        (Found::All(list), Value::Object(rule)) => holds_for_all(list, rule)?,
        (Found::One(one), plain) => one.as_ref().is_some_and(|one| equal(one, plain)),
        (Found::All(list), Value::Array(wanted)) => {
            list.len() == wanted.len() && list.iter().zip(wanted).all(|(one, plain)| equal(one, plain))
        }
        (Found::All(_), _) => false,
    };
    if same { Ok(()) } else { disagree() }
}

fn told(there: &Found) -> String {
    match there {
        Found::One(None) => "nothing".to_owned(),
        Found::One(Some(value)) => value.to_string(),
        Found::All(list) => Value::Array(list.clone()).to_string(),
    }
}

/// Numbers are equal by value, whole or not; everything else as it is.
fn equal(one: &Value, other: &Value) -> bool {
    match (one.as_f64(), other.as_f64()) {
        (Some(one), Some(other)) => one.partial_cmp(&other) == Some(Ordering::Equal),
        _ => one == other,
    }
}

/// `{ value, tolerance }`, `{ same = path }`, `{ contains = [...] }`.
fn holds(one: &Value, rule: &serde_json::Map<String, Value>, answer: &Value) -> Result<bool, String> {
    if let (Some(value), Some(tolerance)) = (number(rule, "value"), number(rule, "tolerance")) {
        return Ok(one.as_f64().is_some_and(|one| (one - value).abs() <= tolerance));
    }
    if let Some(path) = rule.get("same").and_then(Value::as_str) {
        return Ok(paths::follow(answer, path) == Found::One(Some(one.clone())));
    }
    if let Some(texts) = rule.get("contains").and_then(Value::as_array) {
        let text = one.as_str().unwrap_or_default();
        return Ok(texts.iter().all(|part| part.as_str().is_some_and(|part| text.contains(part))));
    }
    if rule.contains_key("absent") {
        return Ok(false);
    }
    Err(format!("no such rule for one value: {rule:?}"))
}

/// `{ sum }`, `{ order = "ABA", of = [...] }`.
fn holds_for_all(list: &[Value], rule: &serde_json::Map<String, Value>) -> Result<bool, String> {
    if let Some(sum) = number(rule, "sum") {
        let total: f64 = list.iter().filter_map(Value::as_f64).sum();
        return Ok(total.partial_cmp(&sum) == Some(Ordering::Equal));
    }
    if let (Some(order), Some(of)) =
        (rule.get("order").and_then(Value::as_str), rule.get("of").and_then(Value::as_array))
    {
        let letters: Option<String> = list
            .iter()
            .map(|one| of.iter().position(|entry| entry == one))
            .map(|place| place.and_then(|place| ('A'..='Z').nth(place)))
            .collect();
        return Ok(letters.as_deref() == Some(order));
    }
    Err(format!("no such rule for a list: {rule:?}"))
}

fn number(rule: &serde_json::Map<String, Value>, key: &str) -> Option<f64> {
    rule.get(key).and_then(Value::as_f64)
}

/// Complaints about a refusal.
pub fn compare_refusal(expected: &Refusal, refused: &Refused) -> Vec<String> {
    let mut found = Vec::new();
    if refused.reason != expected.reason {
        found.push(format!("expected {}, found {}", expected.reason, refused.reason));
    }
    let told: Vec<(&str, &str)> =
        refused.violations.iter().map(|v| (v.field.as_str(), v.reason.as_str())).collect();
    let wanted: Vec<(&str, &str)> =
        expected.violations.iter().map(|v| (v.field.as_str(), v.reason.as_str())).collect();
    if told != wanted {
        found.push(format!("expected violations {wanted:?}, found {:?}", refused.violations));
        return found;
    }
    for (violation, expected) in refused.violations.iter().zip(&expected.violations) {
        for text in expected.text.iter().filter(|text| !violation.message.contains(text.as_str())) {
            found.push(format!("{}: \"{}\" does not name {text}", violation.field, violation.message));
        }
    }
    found
}

fn judge(case: &Case, answer: &Answer, fabrics: &[String]) -> Vec<String> {
    match (answer, &case.refused) {
        (Ok(quote), None) => {
            let json = serde_json::to_value(quote).expect("a message is JSON");
            compare(case, &json, fabrics)
        }
        (Err(refused), Some(expected)) => compare_refusal(expected, refused),
        (Ok(_), Some(_)) => vec!["answered, but a refusal is expected".to_owned()],
        (Err(refused), None) => vec![format!("refused: {refused:?}")],
    }
}

/// Asks one case at every door.
async fn ask(house: &House, case: &Case) -> Vec<String> {
    let request = case.request(&house.fabrics);
    let enquiry: v1::Enquiry = match serde_json::from_value(request.clone()) {
        Ok(enquiry) => enquiry,
        Err(fault) => return vec![format!("not an enquiry: {fault}")],
    };
    let mut found = Vec::new();
    let mut note = |door: &str, complaints: Vec<String>| {
        found.extend(complaints.into_iter().map(|complaint| format!("{door}: {complaint}")));
    };
    let grpc = house.grpc(&enquiry).await;
    note("gRPC", judge(case, &grpc, &house.fabrics));
    let twin = house.private_json(&request).await;
    note("private JSON", judge(case, &twin.answer, &house.fabrics));
    if !case.private() {
        let public = house.public_json(&request).await;
        note("public JSON", judge(case, &public.answer, &house.fabrics));
        // the text itself, and not only what it decodes to
        if let (None, Ok(text)) = (&case.refused, serde_json::from_slice::<Value>(&public.body)) {
            note("public text", compare(case, &text, &house.fabrics));
        }
    }
    found
}

#[tokio::test]
async fn every_case_is_answered_as_worked_by_hand() {
    let mut houses: BTreeMap<String, House> = BTreeMap::new();
    let mut found = Vec::new();
    for case in cases() {
        let text = case.catalogue();
        if !houses.contains_key(&text) {
            houses.insert(text.clone(), House::open(&text).await);
        }
        let complaints = ask(&houses[&text], &case).await;
        found.extend(complaints.into_iter().map(|complaint| format!("{}: {complaint}", case.name)));
    }
    for house in houses.into_values() {
        house.close().await;
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn every_case_says_where_it_comes_from() {
    for case in cases() {
        assert!(!case.title.is_empty() && !case.source.is_empty(), "{}: no title or source", case.name);
        assert!(GRADES.contains(&case.grade.as_str()), "{}: no such grade: {}", case.name, case.grade);
        assert!(case.refused.is_some() == case.expect.is_empty(), "{}: expects nothing, or both", case.name);
        let refused = case.refused.iter().all(|refused| !refused.violations.is_empty());
        assert!(refused, "{}: a refusal names its violations", case.name);
    }
}

/// The two requests of the README are the cases of the same name.
#[test]
fn the_requests_of_the_readme_are_cases() {
    for (file, name) in [("story.json", "story-gap-spread"), ("pencil.json", "pencil-nine-and-equal-tails")] {
        let text = std::fs::read_to_string(folder().join(file)).expect("the request is there");
        let request: Value = serde_json::from_str(&text).expect("the request is JSON");
        let all = cases();
        let case = all.iter().find(|case| case.name == name).expect("the case is there");
        assert_eq!(request, case.request(&[]), "{file}");
    }
}

#[test]
fn a_wrong_figure_is_found() {
    let case: Case = toml::from_str(
        "title = 't'\nsource = 's'\ngrade = 'derived'\n[request]\n[expect]\n\
         'a' = 1\n'b' = { value = 2.0, tolerance = 0.5 }\n'c' = { absent = true }\n'd[*]' = [1, 2]\n\
         'd[*].e' = { sum = 3 }",
    )
    .expect("a case");
    let right = serde_json::json!({"a": 1.0, "b": 2.4, "d": [1, 2]});
    // the lists do not have e, which sums to nought
    assert_eq!(compare(&case, &right, &[]).len(), 1);
    let wrong = serde_json::json!({"a": 1.001, "b": 2.6, "c": 0, "d": [1, 3]});
    assert_eq!(compare(&case, &wrong, &[]).len(), 5);
}
