//! A failure in the words of gRPC: a status with `ErrorInfo` and `BadRequest`
//! (`google/rpc/error_details.proto`).

use std::collections::HashMap;

use pennantry_contract::reasons::Kind;
use tonic::{Code, Status};
use tonic_types::{ErrorDetails, FieldViolation, StatusExt};

use crate::failure::Failure;

/// The domain of the reasons.
pub const DOMAIN: &str = "pennantry";
/// Characters of a message; what is longer is cut, because it travels in a header.
const MESSAGE_CHARS: usize = 1_000;
/// Bytes of violations. Details travel in a header, in base64, and many clients take no
/// more than 8 KiB of headers: beyond this the first violations are told, and how many
/// are left out. The JSON doors tell all of them.
const VIOLATION_BYTES: usize = 5_000;

/// The status that a failure is.
pub fn status(failure: Failure) -> Status {
    let Failure { kind, detail, violations } = failure;
    let count = violations.len();
    let mut bytes = 0_usize;
    let told: Vec<FieldViolation> = violations
        .into_iter()
        .map(|violation| FieldViolation {
            field: violation.field,
            description: violation.message,
            reason: violation.reason,
            localized_message: None,
        })
        .take_while(|violation| {
            let each = violation.field.len() + violation.description.len() + violation.reason.len();
            bytes = bytes.saturating_add(each).saturating_add(16);
            bytes <= VIOLATION_BYTES
        })
        .collect();
    let mut metadata = HashMap::new();
    if told.len() < count {
        metadata.insert("violationsLeftOut".to_owned(), (count - told.len()).to_string());
    }
    let mut details = ErrorDetails::new();
    details.set_error_info(kind.as_str(), DOMAIN, metadata);
    if !told.is_empty() {
        details.set_bad_request(told);
    }
    let message: String = detail.chars().take(MESSAGE_CHARS).collect();
    Status::with_error_details(kind.grpc_code(), message, details)
}

/// The failure that a status is which the library made by itself, before or instead of a
/// call; nothing where it is better left as it is.
pub fn failure(status: &Status, most_bytes: usize) -> Option<Failure> {
    if !status.details().is_empty() {
        return None;
    }
    match status.code() {
        // A message that is no protobuf, or not framed as one. The library calls that an
        // internal error; here it is the caller's.
        Code::Internal => Some(Failure::new(
            Kind::Unreadable,
            format!("the message cannot be read ({}): send a message of this contract", status.message()),
        )),
        // The second is a packed message that grows too large; what is ours has details.
        Code::OutOfRange | Code::ResourceExhausted => Some(Failure::new(
            Kind::TooLarge,
            format!(
                "the message has more than {most_bytes} bytes, the most that is read: ask for less in one call"
            ),
        )),
        _ => None,
    }
}
