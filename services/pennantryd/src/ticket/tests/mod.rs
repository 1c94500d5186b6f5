//! Tickets: sealed, opened, and everything that is not to open.

mod file;
mod keys;
mod seal;
mod tampered;

use pennantry_contract::v1;

use super::{Keys, Promise, seal};

/// The bytes 0 to 31.
const COUNTED: &str = "AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8";
/// 32 times the byte 7.
const SEVENS: &str = "BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwc";

fn counted() -> Keys {
    Keys::read(COUNTED).unwrap()
}

fn promise() -> Promise {
    Promise {
        understood: Some(v1::Enquiry {
            length: Some(v1::enquiry::Length::FlaggedMm(6200.0)),
            lettering: Some("ADA".to_owned()),
            ..v1::Enquiry::default()
        }),
        catalogue_revision: "0123456789abcdef".to_owned(),
        order_date: "2026-11-24".to_owned(),
        expire_second: 1_796_774_400,
        currency_code: "GBP".to_owned(),
        minor_digits: 2,
        total_minor_units: 7_739,
        leave_date: "2026-11-25".to_owned(),
        arrive_to: "2026-11-28".to_owned(),
        child_outcome: v1::Outcome::Ask.into(),
        ..Promise::default()
    }
}

fn token(promise: &Promise, keys: &Keys) -> String {
    seal(promise, keys).unwrap().token.unwrap()
}
