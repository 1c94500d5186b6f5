//! What goes wrong, before it is put into the words of one door.

use pennantry_contract::reasons::{Kind, ViolationReason};
use pennantry_contract::v1;

/// A refusal or a fault, the same for every door.
#[derive(Debug, Clone, PartialEq)]
pub struct Failure {
    /// Which row of the error table.
    pub kind: Kind,
    /// What it is, in words for the caller. Never a cause from inside.
    pub detail: String,
    /// Every violation, in the order of the fields.
    pub violations: Vec<v1::FieldViolation>,
}

impl Failure {
    /// A failure without violations.
    pub fn new(kind: Kind, detail: impl Into<String>) -> Failure {
        Failure { kind, detail: detail.into(), violations: Vec::new() }
    }

    /// A readable enquiry that cannot stand.
    pub fn refused(violations: Vec<v1::FieldViolation>) -> Failure {
        let detail = match violations.as_slice() {
            [one] => format!("one thing stands in the way: {}", one.message),
            many => format!("{} things stand in the way; each is listed with its field", many.len()),
        };
        Failure { kind: Kind::InvalidEnquiry, detail, violations }
    }

    /// A fault of the program: the cause is logged here, once, and stays inside.
    pub fn internal(cause: &str) -> Failure {
        tracing::error!(cause, "internal fault");
        Failure::new(
            Kind::Internal,
            "something went wrong inside; nothing was changed; try again, and tell the shop if it stays",
        )
    }
}

/// One violation of one field.
pub fn violation(field: &str, reason: ViolationReason, message: String) -> v1::FieldViolation {
    v1::FieldViolation { field: field.to_owned(), reason: reason.as_str().to_owned(), message }
}
