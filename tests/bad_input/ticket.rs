//! What a ticket may not be before anybody looks whether it holds.

use pennantry_contract::v1;
use serde_json::json;

use crate::doors::{House, Refused};

/// A body of the public door, and what is wrong with it: status reason, path, reason.
const BODIES: [(&str, &str, &str, &str); 13] = [
    ("{}", "INVALID_ENQUIRY", "token", "MISSING"),
    (r#"{"token": ""}"#, "INVALID_ENQUIRY", "token", "MISSING"),
    (r#"{"token": null}"#, "INVALID_ENQUIRY", "token", "MISSING"),
    (r#"{"token": "LONG"}"#, "INVALID_ENQUIRY", "token", "TOO_LONG"),
    (r#"{"token": 5}"#, "UNREADABLE", "token", "WRONG_TYPE"),
    (r#"{"token": true}"#, "UNREADABLE", "token", "WRONG_TYPE"),
    (r#"{"token": ["a"]}"#, "UNREADABLE", "token", "WRONG_TYPE"),
    (r#"{"token": {}}"#, "UNREADABLE", "token", "WRONG_TYPE"),
    (r#"{"token": "a", "token": "b"}"#, "UNREADABLE", "token", "REPEATED_FIELD"),
    (r#"{"ticket": {"token": "a"}}"#, "UNREADABLE", "ticket", "UNKNOWN_FIELD"),
    (r#"{"Token": "a"}"#, "UNREADABLE", "Token", "UNKNOWN_FIELD"),
    (r#"["a"]"#, "UNREADABLE", "", "WRONG_TYPE"),
    (r#""a""#, "UNREADABLE", "", "WRONG_TYPE"),
];

fn only(refused: &Refused) -> (&str, &str, &str) {
    let [violation] = refused.violations.as_slice() else { panic!("one violation: {refused:?}") };
    (refused.reason.as_str(), violation.field.as_str(), violation.reason.as_str())
}

#[tokio::test]
async fn a_body_that_is_no_ticket_is_refused_in_words_by_both_doors() {
    let house = House::demo().await;
    for (body, reason, field, why) in BODIES {
        let body = body.replace("LONG", &"A".repeat(4_001));
        let shown: String = body.chars().take(60).collect();
        let public = house.post(house.public(), "/v1/quotes/check", body.as_bytes()).await;
        let whole = format!("{{\"ticket\": {body}}}");
        let path = "/pennantry.v1.QuoteService/CheckQuote";
        let private = house.post(house.private(), path, whole.as_bytes()).await;
        for reply in [public, private] {
            assert_eq!(reply.status, 400, "{shown}");
            let refused = House::problem(&reply);
            assert_eq!(only(&refused), (reason, field, why), "{shown}: {refused:?}");
            assert!(refused.violations[0].message.len() < 400, "it is told, not repeated: {shown}");
        }
    }
    for body in ["", "{", "{\"token\": \"a\"", "\u{0}"] {
        let reply = house.post(house.public(), "/v1/quotes/check", body.as_bytes()).await;
        assert_eq!(
            (reply.status.as_u16(), House::problem(&reply).reason.as_str()),
            (400, "UNREADABLE"),
            "{body}"
        );
    }
    house.has_taken_no_step_and_still_answers().await;
    house.close().await;
}

#[tokio::test]
async fn a_call_without_a_ticket_is_refused_over_grpc_too() {
    let house = House::demo().await;
    let long = "é".repeat(4_001);
    for (ticket, why) in [(None, "MISSING"), (Some(String::new()), "MISSING"), (Some(long), "TOO_LONG")] {
        let request = v1::CheckQuoteRequest { ticket: ticket.map(|token| v1::Ticket { token }) };
        let status = house.quotes().check_quote(request).await.expect_err("it is refused");
        assert_eq!(only(&House::refusal_of(&status)), ("INVALID_ENQUIRY", "token", why));
    }
    // without the field there is nothing to look at: the same by the twin
    let reply = house.post(house.private(), "/pennantry.v1.QuoteService/CheckQuote", b"{}").await;
    assert_eq!(only(&House::problem(&reply)), ("INVALID_ENQUIRY", "token", "MISSING"));
    house.close().await;
}

/// Text of any kind that is no ticket is told as one that is not this shop's.
#[tokio::test]
async fn text_that_is_no_ticket_is_answered() {
    let house = House::demo().await;
    for token in ["a", ".", "\u{0}", "<b>", "é", "a.b", " ", "\u{202e}", "../../etc", "%00"] {
        let body = json!({"token": token}).to_string();
        let reply = house.post(house.public(), "/v1/quotes/check", body.as_bytes()).await;
        assert_eq!(reply.status, 200, "{token:?}");
        let check: v1::QuoteCheck = serde_json::from_slice(&reply.body).expect("a finding");
        assert!(!check.valid && check.fault() == v1::TicketFault::NotOurs, "{token:?}: {check:?}");
    }
    house.close().await;
}
