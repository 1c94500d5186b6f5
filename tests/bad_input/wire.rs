//! Bodies that are wrong before they are JSON, and what only gRPC can say.

use pennantry_contract::v1;
use serde_json::json;

use crate::doors::{House, Json, Refused};

/// A body of so many bytes: a good enquiry with room after it.
fn padded(bytes: usize) -> Vec<u8> {
    let mut body = br#"{"flaggedMm": 6200}"#.to_vec();
    body.resize(bytes, b' ');
    body
}

fn only(refused: &Refused) -> (&str, &str) {
    let [violation] = refused.violations.as_slice() else { panic!("one violation: {refused:?}") };
    (violation.field.as_str(), violation.reason.as_str())
}

#[tokio::test]
async fn bodies_that_are_no_json_are_refused() {
    let house = House::demo().await;
    for door in Json::BOTH {
        for (what, body) in [("empty", Vec::new()), ("not UTF-8", b"{\"lettering\": \"\xFF\xFE\"}".to_vec())]
        {
            let told = house.json(door, &body).await;
            assert_eq!(told.status, 400, "{what} at {door:?}");
            let refused = told.answer.expect_err("it is refused");
            assert_eq!(refused.reason, "UNREADABLE", "{what} at {door:?}");
            assert_eq!(only(&refused), ("", "MALFORMED_JSON"), "{what} at {door:?}");
        }
    }
    house.has_taken_no_step_and_still_answers().await;
    house.close().await;
}

/// Nesting, as in case B20: beyond the limit it is refused in words, however deep.
#[tokio::test]
async fn nesting_beyond_the_limit_is_refused() {
    let house = House::demo().await;
    for door in Json::BOTH {
        for depth in [33, 127, 128, 129, 10_000] {
            let body = format!("{{\"flaggedMm\": {}{}}}", "[".repeat(depth), "]".repeat(depth));
            let told = house.json(door, body.as_bytes()).await;
            assert_eq!(told.status, 400, "{depth} deep at {door:?}");
            let refused = told.answer.expect_err("it is refused");
            assert_eq!(refused.reason, "UNREADABLE", "{depth} deep at {door:?}");
            let (_, reason) = only(&refused);
            assert_eq!(reason, "TOO_DEEP", "{depth} deep at {door:?}");
            assert!(refused.violations[0].message.contains("32"), "{refused:?}");
        }
    }
    house.has_taken_no_step_and_still_answers().await;
    house.close().await;
}

#[tokio::test]
async fn a_body_over_the_limit_is_too_large() {
    let house = House::demo().await;
    let limit = pennantry_measure::bounds::BODY_BYTES;
    for door in Json::BOTH {
        for bytes in [limit + 1, 4 * limit] {
            let told = house.json(door, &padded(bytes)).await;
            assert_eq!(told.status, 413, "{bytes} bytes at {door:?}");
            let refused = told.answer.expect_err("it is refused");
            assert_eq!(refused.reason, "TOO_LARGE", "{bytes} bytes at {door:?}");
            assert!(refused.detail.contains(&limit.to_string()), "{refused:?}");
        }
    }
    house.has_taken_no_step_and_still_answers().await;
    let told = house.json(Json::Public, &padded(limit)).await;
    assert_eq!(told.status, 200, "a body of the limit itself is read");
    house.close().await;
}

/// Numbers of enums that the contract does not name are never read as the zero value.
#[tokio::test]
async fn unknown_numbers_of_enums_are_refused_over_grpc() {
    let house = House::demo().await;
    for number in [99, -1] {
        let pennant = v1::Pennant { shape: Some(number), ..v1::Pennant::default() };
        let enquiry = v1::Enquiry {
            length: Some(v1::enquiry::Length::FlaggedMm(6200.0)),
            pennant: Some(pennant),
            ..v1::Enquiry::default()
        };
        let refused = house.grpc(&enquiry).await.expect_err("it is refused");
        assert_eq!(refused.reason, "INVALID_ENQUIRY");
        assert_eq!(only(&refused), ("pennant.shape", "UNKNOWN_VALUE"));
        assert!(refused.violations[0].message.contains(&number.to_string()), "{refused:?}");
        assert!(refused.violations[0].message.contains("SHAPE_TRIANGLE"), "{refused:?}");
    }
    house.has_taken_no_step_and_still_answers().await;
    house.close().await;
}

/// Text from outside comes back as text: no control character reaches a header.
#[tokio::test]
async fn what_is_said_again_is_said_again_unharmed() {
    let house = House::demo().await;
    let code = "50 % crème – £\n\u{0}\"<b>";
    let request = json!({"flaggedMm": 6200, "designCode": code});
    for door in Json::BOTH {
        let body = match door {
            Json::Public => request.to_string(),
            Json::Private => json!({"enquiry": request}).to_string(),
        };
        let refused = house.json(door, body.as_bytes()).await.answer.expect_err("it is refused");
        let message = &refused.violations[0].message;
        assert!(message.contains("50 % crème – £"), "{message}");
        assert!(!message.chars().any(char::is_control), "{message:?}");
    }
    let enquiry = v1::Enquiry { design_code: Some(code.to_owned()), ..v1::Enquiry::default() };
    let refused = house.grpc(&enquiry).await.expect_err("it is refused");
    assert!(refused.violations[0].message.contains("50 % crème – £"), "{refused:?}");
    // ten thousand characters are told, not repeated
    let long = v1::Enquiry { design_code: Some("£".repeat(10_000)), ..v1::Enquiry::default() };
    let refused = house.grpc(&long).await.expect_err("it is refused");
    assert!(refused.violations[0].message.contains("10000"), "{refused:?}");
    assert!(refused.violations[0].message.len() < 1_024, "{refused:?}");
    house.has_taken_no_step_and_still_answers().await;
    house.close().await;
}
