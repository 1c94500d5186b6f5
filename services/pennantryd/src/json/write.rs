//! Messages to bytes.

use std::io;

use serde::Serialize;
use serde_json::ser::Formatter;

/// A message that has no JSON: a number in it is not finite, or an enum has a number
/// without a name. Either is a fault of the program, not of a caller.
#[derive(Debug, thiserror::Error)]
#[error("a message cannot be written as JSON: {0}")]
pub struct Unwritable(#[from] serde_json::Error);

/// The compact form, in which null does not exist: absent fields are left out, so the
/// only thing that the library would write as null is a number that is not finite.
struct NoNull;

impl Formatter for NoNull {
    fn write_null<W: ?Sized + io::Write>(&mut self, _: &mut W) -> io::Result<()> {
        Err(io::Error::new(io::ErrorKind::InvalidData, "a number is not finite"))
    }
}

/// Writes a message in standard proto3 JSON: lowerCamelCase, zeros printed, what is
/// absent left out, 64 bit numbers as strings, one line.
///
/// # Example
/// ```
/// use pennantry_contract::v1::Money;
///
/// let money = Money { currency_code: "GBP".to_owned(), minor_units: 0 };
/// assert_eq!(pennantryd::json::write(&money)?, br#"{"currencyCode":"GBP","minorUnits":"0"}"#);
/// # Ok::<(), pennantryd::json::Unwritable>(())
/// ```
pub fn write<T: Serialize>(message: &T) -> Result<Vec<u8>, Unwritable> {
    // A quote with its marks is some ten kilobytes; growing from nothing would copy it often.
    let mut bytes = Vec::with_capacity(16 * 1024);
    message.serialize(&mut serde_json::Serializer::with_formatter(&mut bytes, NoNull))?;
    Ok(bytes)
}
