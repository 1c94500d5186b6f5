//! What each field by itself refuses, made from the contract's tables: a new field is
//! covered when the contract gets it.

use pennantry_contract::table::{self, Audience, Field, Kind, Message};
use serde_json::{Value, json};

use super::{Stage, complaints, dressed};
use crate::doors::{House, Json};

/// One bad value of one field.
struct Bad {
    body: Value,
    path: String,
    stage: Stage,
    /// Any of these.
    reason: &'static str,
    /// What the message has to name.
    text: Vec<String>,
}

/// A field and the way to it from the enquiry.
struct At {
    steps: Vec<&'static Field>,
}

impl At {
    fn field(&self) -> &'static Field {
        self.steps.last().expect("a field")
    }

    /// Whether it lies in what the shop alone may say, which the public door hears nothing of.
    fn is_for_staff(&self) -> bool {
        self.steps.iter().any(|step| step.audience == Audience::Shop)
    }

    /// The JSON door that hears it.
    fn door(&self) -> Json {
        if self.is_for_staff() { Json::Private } else { Json::Public }
    }

    /// Path in JSON names; an entry of a list is its first.
    fn path(&self) -> String {
        let above = &self.steps[..self.steps.len() - 1];
        let mut path = String::new();
        for step in above {
            path.push_str(step.json_name);
            path.push_str(if step.repeated { "[0]." } else { "." });
        }
        path + self.field().json_name
    }

    /// An otherwise good enquiry with this value in this field.
    fn body(&self, value: Value) -> Value {
        let mut inner = value;
        for (depth, step) in self.steps.iter().enumerate().rev() {
            let mut message = json!({});
            if depth > 0 {
                fill(&mut message, self.steps[depth - 1], step);
            }
            message[step.json_name] = inner;
            let in_list = depth > 0 && self.steps[depth - 1].repeated;
            inner = if in_list { json!([message]) } else { message };
        }
        if self.steps[0].oneof.is_none() {
            inner["flaggedMm"] = json!(6200);
        }
        inner
    }
}

/// What has to be given beside a field of an inner message.
fn fill(message: &mut Value, outer: &Field, given: &Field) {
    let Kind::Message(inner) = outer.kind else { return };
    for field in inner.fields.iter().filter(|field| field.required && field.name != given.name) {
        message[field.json_name] = match field.kind {
            Kind::Double | Kind::Uint32 => json!(field.most),
            _ if field.json_name == "code" => json!("oak-button"),
            _ if field.json_name == "reason" => json!("the last one came late"),
            _ => json!("GB"),
        };
    }
}

/// Every field of the enquiry, inner ones as well.
fn every(message: &'static Message, above: &[&'static Field], found: &mut Vec<At>) {
    for field in message.fields {
        let steps: Vec<&'static Field> = above.iter().copied().chain([field]).collect();
        found.push(At { steps: steps.clone() });
        if let Kind::Message(inner) = field.kind {
            every(inner, &steps, found);
        }
    }
}

fn fields() -> Vec<At> {
    let mut found = Vec::new();
    every(&table::ENQUIRY, &[], &mut found);
    assert!(found.len() > 40, "the enquiry has {} fields only", found.len());
    found
}

/// The bounds of a number, as messages name them.
fn range(field: &Field) -> Vec<String> {
    [field.least, field.most].into_iter().flatten().map(|bound| format!("{bound}")).collect()
}

fn bad_values(at: &At) -> Vec<Bad> {
    let field = at.field();
    let path = at.path();
    let entry = |value: Value| if field.repeated { json!([value]) } else { value };
    let entry_path = if field.repeated { format!("{path}[0]") } else { path.clone() };
    let mut found = Vec::new();
    let mut bad = |value: Value, path: &str, stage: Stage, reason: &'static str, text: Vec<String>| {
        found.push(Bad { body: at.body(value), path: path.to_owned(), stage, reason, text });
    };
    if field.repeated {
        bad(json!(5), &path, Stage::Read, "WRONG_TYPE", vec!["5".into()]);
        bad(json!([null]), &entry_path, Stage::Read, "WRONG_TYPE", vec![]);
    }
    let wrong = |value: &Value| vec![value.to_string().trim_matches('"').to_owned()];
    match field.kind {
        Kind::Double => {
            let (least, most) = (field.least.expect("a least"), field.most.expect("a most"));
            for value in [least - 1.0, most + 1.0] {
                let text = range(field).into_iter().chain([format!("{value}")]).collect();
                bad(json!(value), &path, Stage::Check, "OUT_OF_RANGE", text);
            }
            for value in [json!(1e308), json!(9_007_199_254_740_993_i64)] {
                bad(value, &path, Stage::Check, "OUT_OF_RANGE", range(field));
            }
            for text in ["NaN", "Infinity", "-Infinity"] {
                bad(json!(text), &path, Stage::Check, "NOT_FINITE", range(field));
            }
            if field.json_name.ends_with("Mm") {
                bad(json!(least + 0.000_5), &path, Stage::Check, "LENGTH_TOO_FINE", range(field));
            }
            for value in [json!(true), json!("much"), json!({}), json!([1])] {
                bad(value, &path, Stage::Read, "WRONG_TYPE", vec![]);
            }
        }
        Kind::Uint32 => {
            let (least, most) = (field.least.expect("a least"), field.most.expect("a most"));
            for value in [-1_i64, 4_294_967_296, 9_007_199_254_740_993] {
                let text = range(field).into_iter().chain([value.to_string()]).collect();
                bad(json!(value), &path, Stage::Read, "OUT_OF_RANGE", text);
            }
            let above = json!(1_000_000_000);
            bad(
                above,
                &path,
                Stage::Check,
                "OUT_OF_RANGE",
                range(field).into_iter().chain(["1000000000".into()]).collect(),
            );
            bad(json!(most + 1.0), &path, Stage::Check, "OUT_OF_RANGE", range(field));
            if least > 0.0 {
                bad(json!(least - 1.0), &path, Stage::Check, "OUT_OF_RANGE", range(field));
            }
            for value in [json!("NaN"), json!(true), json!([1]), json!({}), json!(1.5)] {
                bad(value, &path, Stage::Read, "WRONG_TYPE", vec![]);
            }
        }
        Kind::Enum(_) => {
            for value in [json!("NO_SUCH_VALUE"), json!(99), json!(-1), json!("")] {
                let text = wrong(&value);
                bad(entry(value), &entry_path, Stage::Read, "UNKNOWN_VALUE", text);
            }
            bad(entry(json!(true)), &entry_path, Stage::Read, "WRONG_TYPE", wrong(&json!(true)));
        }
        Kind::String => {
            for value in [json!(5), json!(true), json!({})] {
                bad(entry(value), &entry_path, Stage::Read, "WRONG_TYPE", vec![]);
            }
        }
        Kind::Bool => {
            for value in [json!(5), json!("yes"), json!({})] {
                bad(entry(value), &entry_path, Stage::Read, "WRONG_TYPE", vec![]);
            }
        }
        Kind::Message(_) => {
            for value in [json!(5), json!("text"), json!(true)] {
                let text = wrong(&value);
                bad(entry(value), &entry_path, Stage::Read, "WRONG_TYPE", text);
            }
            let path = format!("{entry_path}.noSuchField");
            bad(
                entry(json!({"noSuchField": 1})),
                &path,
                Stage::Read,
                "UNKNOWN_FIELD",
                vec!["noSuchField".into()],
            );
        }
        Kind::Int64 => {
            let (least, most) = (field.least.expect("a least"), field.most.expect("a most"));
            for value in [least - 1.0, most + 1.0, -5.0] {
                let text = range(field).into_iter().chain([format!("{value}")]).collect();
                bad(json!(format!("{value}")), &path, Stage::Check, "OUT_OF_RANGE", text);
            }
            for value in [json!("much"), json!(true), json!({}), json!([1]), json!(1.5)] {
                bad(value, &path, Stage::Read, "WRONG_TYPE", vec![]);
            }
        }
    }
    found
}

#[tokio::test]
async fn every_field_refuses_what_its_rule_does_not_allow() {
    let house = House::demo().await;
    let mut found = Vec::new();
    let mut asked = 0;
    for at in fields() {
        for bad in bad_values(&at) {
            let enquiry = bad.body.to_string();
            for door in Json::BOTH {
                let body = dressed(door, &enquiry);
                let kept_out = at.is_for_staff() && door == Json::Public && bad.stage == Stage::Check;
                let (violations, text) = if kept_out {
                    ([(at.steps[0].json_name, "STAFF_ONLY")], [].as_slice())
                } else {
                    ([(bad.path.as_str(), bad.reason)], bad.text.as_slice())
                };
                let told = complaints(&house, door, body.as_bytes(), bad.stage, &violations, text).await;
                found.extend(told.into_iter().map(|complaint| format!("{enquiry} ({door:?}): {complaint}")));
                asked += 1;
            }
        }
    }
    assert!(found.is_empty(), "{} of {asked}:\n{}", found.len(), found.join("\n"));
    assert!(asked > 600, "only {asked} bodies sent");
    house.has_taken_no_step_and_still_answers().await;
    house.close().await;
}

/// Every number is taken at both ends of its range, and told to be out of that range just
/// beyond the greater one.
#[tokio::test]
async fn both_ends_of_every_range_are_in_it() {
    let house = House::demo().await;
    let mut found = Vec::new();
    let mut asked = 0;
    for at in fields() {
        let field = at.field();
        let (Kind::Double | Kind::Uint32, Some(least), Some(most)) = (field.kind, field.least, field.most)
        else {
            continue;
        };
        let (path, range) = (at.path(), range(field));
        for (value, within) in [(least, true), (most, true), (most + 1.0, false)] {
            let body = at.body(json!(value));
            let body = dressed(at.door(), &body.to_string());
            let answer = house.json(at.door(), body.as_bytes()).await.answer;
            let violations = answer.err().map(|refused| refused.violations).unwrap_or_default();
            // the shop's own range, and what does not fit, have other words
            let told = violations.iter().any(|v| {
                let text = &v.message;
                v.field == path && text.contains("is out of range") && range.iter().all(|b| text.contains(b))
            });
            if told == within {
                found.push(format!("{body}: {violations:?}"));
            }
            asked += 1;
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    assert!(asked > 60, "only {asked} bodies sent");
    house.close().await;
}

/// A text or a list with one more than the most is refused by its own field.
#[tokio::test]
async fn one_more_than_the_most_of_a_text_or_a_list_is_refused() {
    let house = House::demo().await;
    let mut found = Vec::new();
    let mut asked = 0;
    for at in fields() {
        let field = at.field();
        let Some(most) = field.most else { continue };
        let most: usize = format!("{most:.0}").parse().expect("a count");
        let (value, reason) = match (field.repeated, field.json_name) {
            // 20 001 of these are over the limit of the body before they are over their own
            (true, "fabricCodes") => continue,
            (true, "trimmings") => (json!(vec![json!({"code": "oak-button"}); most + 1]), "TOO_LONG"),
            (true, "ends") => (json!(vec![json!({}); most + 1]), "TOO_LONG"),
            (true, "jurisdictions") => (json!(vec!["JURISDICTION_GB"; most + 1]), "TOO_LONG"),
            (true, other) => panic!("{other}: say here what its entries are"),
            (false, "wantedDate" | "asOfDate") => (json!("2026-12-041"), "BAD_DATE"),
            (false, "countryCode") => (json!("GBR"), "UNKNOWN_CODE"),
            (false, _) if matches!(field.kind, Kind::String) => (json!("A".repeat(most + 1)), "TOO_LONG"),
            (false, _) => continue,
        };
        let body = at.body(value);
        let body = dressed(at.door(), &body.to_string());
        let refused = house.json(at.door(), body.as_bytes()).await.answer.expect_err("it is refused");
        let path = at.path();
        let there = refused.violations.iter().any(|v| v.field == path && v.reason == reason);
        if refused.reason != "INVALID_ENQUIRY" || !there {
            found.push(format!("{body}: {refused:?}"));
        }
        asked += 1;
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    assert!(asked >= 10, "only {asked} bodies sent");
    house.has_taken_no_step_and_still_answers().await;
    house.close().await;
}

/// A field that is null is a field that was not given.
#[tokio::test]
async fn null_is_not_given() {
    let house = House::demo().await;
    let plain = house.public_json(&json!({"flaggedMm": 6200})).await.answer;
    assert!(plain.is_ok(), "{plain:?}");
    for at in fields().iter().filter(|at| at.steps.len() == 1) {
        let mut body = at.body(Value::Null);
        body["flaggedMm"] = json!(6200);
        let told = house.public_json(&body).await.answer;
        assert_eq!(told, plain, "{body}");
    }
    house.close().await;
}

/// Every number has a least and a most: the table of bounds has no hole.
#[test]
fn every_number_of_the_enquiry_has_its_range() {
    for at in fields() {
        let field = at.field();
        if matches!(field.kind, Kind::Double | Kind::Uint32) {
            assert!(field.least.is_some() && field.most.is_some(), "{} has no range", at.path());
        }
    }
}
