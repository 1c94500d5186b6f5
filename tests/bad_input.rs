//! Bad input: every violation is told with its path, its value and what is allowed;
//! none of it reaches the geometry; the server answers on.

mod fields;
mod ticket;
mod wire;

use serde::Deserialize;

use crate::doors::{House, Json};
use crate::golden;

/// A body of `golden/bad_input.toml`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    #[serde(default)]
    id: Option<String>,
    body: String,
    stage: Stage,
    violations: Vec<(String, String)>,
    #[serde(default)]
    text: Vec<String>,
    /// The body is broken as a whole, so it is not put inside another.
    #[serde(default)]
    alone: bool,
    /// Whether it is about what staff alone may say.
    #[serde(default)]
    staff: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Stage {
    Read,
    Check,
}

impl Stage {
    fn reason(self) -> &'static str {
        match self {
            Stage::Read => "UNREADABLE",
            Stage::Check => "INVALID_ENQUIRY",
        }
    }
}

#[derive(Deserialize)]
struct Cases {
    case: Vec<Case>,
}

fn cases() -> Vec<Case> {
    let text = std::fs::read_to_string(golden::folder().join("bad_input.toml")).expect("the bodies");
    toml::from_str::<Cases>(&text).expect("the bodies are TOML").case
}

/// Rows of the reference tables that these bodies check.
pub fn ids() -> Vec<String> {
    cases().into_iter().filter_map(|case| case.id).collect()
}

/// The bodies themselves.
pub fn bodies() -> Vec<String> {
    cases().into_iter().map(|case| case.body).collect()
}

/// Sends a body to one door and says what is wrong with how it is refused.
///
/// `violations` are paths within the enquiry, the same by both doors, and reasons, in order.
async fn complaints(
    house: &House,
    door: Json,
    body: &[u8],
    stage: Stage,
    violations: &[(&str, &str)],
    text: &[String],
) -> Vec<String> {
    let told = house.json(door, body).await;
    let status = told.status;
    let Err(refused) = told.answer else { return vec!["it was answered".to_owned()] };
    let mut found = Vec::new();
    if status != 400 || refused.reason != stage.reason() {
        found.push(format!("expected 400 {}, found {status} {}", stage.reason(), refused.reason));
    }
    let wanted: Vec<(String, String)> =
        violations.iter().map(|(field, reason)| ((*field).to_owned(), (*reason).to_owned())).collect();
    let listed: Vec<(String, String)> =
        refused.violations.iter().map(|v| (v.field.clone(), v.reason.clone())).collect();
    if listed != wanted {
        found.push(format!("expected {wanted:?}, found {:?}", refused.violations));
    } else if let Some(first) = refused.violations.first() {
        for part in text.iter().filter(|part| !first.message.contains(part.as_str())) {
            found.push(format!("\"{}\" does not name {part}", first.message));
        }
    }
    found
}

/// The body as a door wants it.
fn dressed(door: Json, enquiry: &str) -> String {
    match door {
        Json::Public => enquiry.to_owned(),
        Json::Private => format!("{{\"enquiry\": {enquiry}}}"),
    }
}

#[tokio::test]
async fn every_bad_body_is_refused_in_words_and_none_reaches_the_geometry() {
    let house = House::demo().await;
    let mut found = Vec::new();
    for case in cases() {
        let violations: Vec<(&str, &str)> =
            case.violations.iter().map(|(field, reason)| (field.as_str(), reason.as_str())).collect();
        for door in Json::BOTH {
            if case.alone && door == Json::Private {
                continue;
            }
            // what staff alone may say is not looked into at the public door
            if case.staff && door == Json::Public {
                let only = [(case.violations[0].0.split('.').next().unwrap_or_default(), "STAFF_ONLY")];
                let told = complaints(&house, door, case.body.as_bytes(), case.stage, &only, &[]).await;
                found.extend(
                    told.into_iter().map(|complaint| format!("{} ({door:?}): {complaint}", case.name)),
                );
                continue;
            }
            let body = dressed(door, &case.body);
            let told = complaints(&house, door, body.as_bytes(), case.stage, &violations, &case.text).await;
            found.extend(told.into_iter().map(|complaint| format!("{} ({door:?}): {complaint}", case.name)));
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    house.has_taken_no_step_and_still_answers().await;
    house.close().await;
}

/// A discount is staff's to give: the public door refuses one, the private one gives it, and
/// in the buyer's view all that is told of it is its line.
#[tokio::test]
async fn a_discount_is_given_at_the_private_door_alone() {
    let house = House::demo().await;
    let body = serde_json::json!({
        "flaggedMm": 6200,
        "discount": {"percent": 10, "reason": "the last one came late"},
    });
    let text = ["private door".to_owned(), "leave it out".to_owned()];
    let refused = [("discount", "STAFF_ONLY")];
    let told =
        complaints(&house, Json::Public, body.to_string().as_bytes(), Stage::Check, &refused, &text).await;
    assert!(told.is_empty(), "{told:?}");
    house.has_taken_no_step_and_still_answers().await;
    let quote = house.private_json(&body).await.answer.expect("a quote");
    assert_eq!(quote.understood.and_then(|understood| understood.discount), None);
    let lines: Vec<String> = quote.price.expect("a price").lines.into_iter().map(|line| line.code).collect();
    assert_eq!(lines, ["GOODS", "DISCOUNT", "DELIVERY"]);
    house.close().await;
}
