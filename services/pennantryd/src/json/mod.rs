//! The reading stage: bytes of standard proto3 JSON to a message of the contract, and
//! messages to bytes.
//!
//! Reading is one call of the JSON library where the body is as it should be. Only a
//! body that this refuses is read a second time, slowly, along the tables of the
//! contract, to find the first fault and say it in words: a body that is not JSON at
//! all before anything else, then faults of meaning in the order of the text. What is
//! wrong with the values of a readable request is not looked at here: that is checking,
//! and checking lists everything at once.
//!
//! The slow reading is also the measure of what is accepted, and accepts what the
//! standard mapping does and the library alone does not: `null` for any field not
//! given, `9.0` and `9e0` for a whole number. As in the standard, numbers may come as
//! strings, enum values as numbers, and keys by their proto names. Entries of a list
//! are never null. A key given twice is refused even when one of the two is null, so a
//! body with a null in it always takes the slow way.
//!
//! # Example
//! ```
//! use pennantry_contract::{table, v1};
//! use pennantryd::json;
//!
//! let enquiry: v1::Enquiry = json::read(&table::ENQUIRY, br#"{"pennantCount":9,"gapMm":20}"#)?;
//! assert_eq!((enquiry.pennant_count, enquiry.gap_mm), (Some(9), Some(20.0)));
//!
//! let refused = json::read::<v1::Enquiry>(&table::ENQUIRY, br#"{"pennant":{"widthMm":[190]}}"#);
//! assert_eq!(refused.err().map(|fault| fault.path).as_deref(), Some("pennant.widthMm"));
//! # Ok::<(), json::Unreadable>(())
//! ```

pub(crate) mod hint;
mod node;
mod number;
mod walk;
mod words;
mod write;

#[cfg(test)]
mod attack;
#[cfg(test)]
mod tests;

use pennantry_contract::reasons::ViolationReason;
use pennantry_contract::table;
use serde::de::DeserializeOwned;

pub use write::{Unwritable, write};

/// The first fault of a body that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}{message}", words::prefix(path))]
pub struct Unreadable {
    /// Where, in JSON names, such as `colourOrder.fabricCodes[2]`; empty for the body
    /// itself. At most 200 characters.
    pub path: String,
    /// What kind of fault.
    pub reason: ViolationReason,
    /// What is wrong, with what came, what is allowed and what to do next.
    pub message: String,
}

/// Reads a message from a body.
///
/// `message` is the table of `T`; it names what is allowed when something is refused.
pub fn read<T: DeserializeOwned>(message: &'static table::Message, bytes: &[u8]) -> Result<T, Unreadable> {
    if !has_null(bytes)
        && let Ok(read) = serde_json::from_slice(bytes)
    {
        return Ok(read);
    }
    read_slowly(message, bytes)
}

/// The library takes a key twice when the first of the two was null; the slow way does not.
fn has_null(bytes: &[u8]) -> bool {
    bytes.windows(4).any(|window| window == b"null")
}

#[cold]
fn read_slowly<T: DeserializeOwned>(message: &'static table::Message, bytes: &[u8]) -> Result<T, Unreadable> {
    let body = node::parse(bytes).map_err(|fault| walk::with_range(message, fault))?;
    let mended = walk::body(message, &body)?;
    // The walk has compared every value with its field, so nothing is left for the
    // library to refuse; the attack tests hold the two against each other.
    T::deserialize(mended).map_err(|error| Unreadable {
        path: String::new(),
        reason: ViolationReason::WrongType,
        message: format!("the body cannot be read as {}: {error}", message.name),
    })
}
