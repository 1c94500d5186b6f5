//! Findings about small children, asked at the public door: the worked cases of the
//! reference and some of our own, in `golden/child.toml`.

use std::collections::{BTreeMap, BTreeSet};

use pennantry_contract::v1;
use serde::Deserialize;
use serde_json::Value;

use crate::doors::House;
use crate::{catalogue, golden, patch};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Cases {
    /// Changes to the demo catalogue for whatever is laid over the base.
    catalogue: toml::Table,
    base: toml::Table,
    case: Vec<Case>,
}

/// A case of `golden/child.toml`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    /// Row of the reference that it checks.
    #[serde(default)]
    id: Option<String>,
    what: String,
    /// Not laid over the base.
    #[serde(default)]
    alone: bool,
    request: toml::Table,
    #[serde(default)]
    catalogue: toml::Table,
    /// Findings of the reference.
    findings: Vec<String>,
    /// Findings that the design adds.
    #[serde(default)]
    added: Vec<String>,
    outcome: String,
    #[serde(default)]
    lowest: Option<f64>,
    /// Remedies of some rules, word by word.
    #[serde(default)]
    remedies: BTreeMap<String, String>,
}

fn cases() -> Cases {
    let text = std::fs::read_to_string(golden::folder().join("child.toml")).expect("the cases");
    toml::from_str(&text).expect("the cases are TOML")
}

/// Rows of the reference tables that these cases check.
pub fn ids() -> Vec<String> {
    cases().case.into_iter().filter_map(|case| case.id).collect()
}

/// One table laid over another; `{ removed = true }` takes a key away.
fn lay_over(base: &mut Value, over: &Value) {
    let (Value::Object(base), Value::Object(over)) = (base, over) else { return };
    for (key, value) in over {
        if value.get("removed").is_some() {
            base.remove(key).expect("there is something to remove");
        } else if value.is_object() && base.get(key).is_some_and(Value::is_object) {
            lay_over(base.get_mut(key).expect("it is there"), value);
        } else {
            let mut fresh = value.clone();
            strip(&mut fresh);
            base.insert(key.clone(), fresh);
        }
    }
}

/// A table without what is removed of nothing.
fn strip(value: &mut Value) {
    if let Value::Object(map) = value {
        map.retain(|_, inner| inner.get("removed").is_none());
    }
}

impl Cases {
    fn request(&self, case: &Case) -> Value {
        let json = |table: &toml::Table| serde_json::to_value(table).expect("TOML without dates is JSON");
        if case.alone {
            return json(&case.request);
        }
        let mut request = json(&self.base);
        let mut over = json(&case.request);
        // a key that the base has not is not removed from it
        if let (Some(near), Some(base)) =
            (over.get_mut("near").and_then(Value::as_object_mut), request.get("near"))
        {
            near.retain(|key, value| value.get("removed").is_none() || base.get(key).is_some());
        }
        lay_over(&mut request, &over);
        request
    }
}

/// `R03/EU restrict`.
fn spoken(finding: &v1::Finding) -> String {
    let outcome = finding.outcome().as_str_name().trim_start_matches("OUTCOME_").to_lowercase();
    match finding.jurisdiction() {
        v1::Jurisdiction::Unspecified => format!("{} {outcome}", finding.rule_id),
        whose => {
            let whose = whose.as_str_name().trim_start_matches("JURISDICTION_");
            format!("{}/{whose} {outcome}", finding.rule_id)
        }
    }
}

fn complaints(case: &Case, found: &v1::ChildFinding) -> Vec<String> {
    let mut wrong = Vec::new();
    let told: Vec<String> = found.findings.iter().map(spoken).collect();
    let mut wanted: Vec<&String> = case.findings.iter().chain(&case.added).collect();
    let mut sorted: Vec<&String> = told.iter().collect();
    wanted.sort();
    sorted.sort();
    if wanted != sorted {
        wrong.push(format!("expected {wanted:?}, found {sorted:?}"));
    }
    let outcome =
        found.outcome().as_str_name().trim_start_matches("OUTCOME_").to_lowercase().replace('_', " ");
    if outcome != case.outcome {
        wrong.push(format!("expected {}, found {outcome}", case.outcome));
    }
    if case.lowest.is_some() && found.lowest_mm.map(f64::to_bits) != case.lowest.map(f64::to_bits) {
        wrong.push(format!("expected {:?} lowest, found {:?}", case.lowest, found.lowest_mm));
    }
    for (rule, remedy) in &case.remedies {
        let first = found.findings.iter().find(|finding| finding.rule_id == *rule);
        if first.map(|finding| finding.remedy.as_str()) != Some(remedy) {
            wrong.push(format!("{rule}: expected \"{remedy}\", found {first:?}"));
        }
    }
    // the worst first
    if !found.findings.is_sorted_by_key(|finding| -finding.outcome) {
        wrong.push(format!("out of order: {told:?}"));
    }
    let acknowledged: BTreeSet<&str> = found
        .findings
        .iter()
        .filter(|finding| matches!(finding.outcome(), v1::Outcome::Restrict | v1::Outcome::Ask))
        // no word of acknowledgement helps where it is refused
        .filter(|_| found.outcome() != v1::Outcome::Refuse)
        .map(|finding| finding.rule_id.as_str())
        .collect();
    if acknowledged != found.acknowledge.iter().map(String::as_str).collect() {
        wrong.push(format!("to be acknowledged: {:?}", found.acknowledge));
    }
    for finding in &found.findings {
        let texts = [&finding.text, &finding.measured, &finding.limit, &finding.source, &finding.remedy];
        if texts.iter().any(|text| text.trim().is_empty()) || finding.basis == 0 || finding.figure == 0 {
            wrong.push(format!("something is left out: {finding:?}"));
        }
    }
    wrong
}

/// Every answer, with its case.
async fn answers() -> Vec<(String, Case, v1::ChildFinding)> {
    let cases = cases();
    let asked = |case: &Case| {
        let mut changes = if case.alone { toml::Table::new() } else { cases.catalogue.clone() };
        changes.extend(case.catalogue.clone());
        (cases.request(case), patch::patched(catalogue::demo(), &changes))
    };
    let asked: Vec<(Value, String)> = cases.case.iter().map(asked).collect();
    let mut houses: BTreeMap<String, House> = BTreeMap::new();
    let mut answers = Vec::new();
    for (case, (request, text)) in cases.case.into_iter().zip(asked) {
        if !houses.contains_key(&text) {
            houses.insert(text.clone(), House::open(&text).await);
        }
        let told = houses[&text].public_json(&request).await.answer;
        let quote = told.unwrap_or_else(|refused| panic!("{}: {request}: {refused:?}", case.what));
        let name = format!("{} ({})", case.id.as_deref().unwrap_or("own"), case.what);
        answers.push((name, case, quote.child.expect("a finding, or that there is none")));
    }
    for house in houses.into_values() {
        house.close().await;
    }
    answers
}

#[tokio::test]
async fn every_worked_case_is_found_as_in_the_reference() {
    let mut found = Vec::new();
    let answers = answers().await;
    for (name, case, answer) in &answers {
        found.extend(complaints(case, answer).into_iter().map(|complaint| format!("{name}: {complaint}")));
    }
    assert!(found.is_empty(), "{} of {}:\n{}", found.len(), answers.len(), found.join("\n"));
    assert!(answers.len() > 80, "only {} cases", answers.len());
}

/// A rule that no enquiry can trigger counts as not built.
#[test]
fn every_rule_has_a_case_that_triggers_it() {
    let cases = cases().case;
    let said: BTreeSet<&str> = cases
        .iter()
        .flat_map(|case| case.findings.iter().chain(&case.added))
        .filter_map(|finding| finding.split(' ').next())
        .collect();
    let mut silent = Vec::new();
    for rule in pennantry_calc::child::RULES.iter().copied().flatten() {
        for whose in rule.whose {
            let name = match whose {
                pennantry_calc::child::Whose::Of(whose) => {
                    format!("{}/{}", rule.id, format!("{whose:?}").to_uppercase())
                }
                pennantry_calc::child::Whose::Everywhere => rule.id.to_owned(),
                // told as everywhere's: where nothing is known of the place
                pennantry_calc::child::Whose::Elsewhere => continue,
            };
            if !said.contains(name.as_str()) {
                silent.push(name);
            }
        }
    }
    assert!(silent.is_empty(), "no case for {silent:?}");
}

#[test]
fn a_wrong_finding_is_found() {
    let finding = |rule: &str, outcome: v1::Outcome| v1::Finding {
        rule_id: rule.to_owned(),
        jurisdiction: v1::Jurisdiction::Eu.into(),
        outcome: outcome.into(),
        text: "t".into(),
        measured: "m".into(),
        limit: "l".into(),
        source: "s".into(),
        remedy: "r".into(),
        basis: 1,
        figure: 1,
    };
    let case: Case = toml::from_str(
        "what = 'w'\nfindings = ['R03/EU restrict', 'R04/EU warn']\noutcome = 'restrict'\nlowest = 1500\n[request]",
    )
    .expect("a case");
    let right = v1::ChildFinding {
        outcome: v1::Outcome::Restrict.into(),
        findings: vec![finding("R03", v1::Outcome::Restrict), finding("R04", v1::Outcome::Warn)],
        lowest_mm: Some(1500.0),
        acknowledge: vec!["R03".into()],
        ..v1::ChildFinding::default()
    };
    assert_eq!(complaints(&case, &right), Vec::<String>::new());
    let swapped = right.findings.iter().rev().cloned().collect();
    assert_eq!(complaints(&case, &v1::ChildFinding { findings: swapped, ..right.clone() }).len(), 1);
    let fewer = right.findings[..1].to_vec();
    assert_eq!(complaints(&case, &v1::ChildFinding { findings: fewer, ..right.clone() }).len(), 1);
    assert_eq!(complaints(&case, &v1::ChildFinding { lowest_mm: Some(1499.0), ..right.clone() }).len(), 1);
    assert_eq!(complaints(&case, &v1::ChildFinding { acknowledge: Vec::new(), ..right }).len(), 1);
}
