//! How much: a length with its unit of what is measured, a plain number of what is counted.
//!
//! | typed | means |
//! |---|---|
//! | `2.4 m`, `7 1/2 in` | that length |
//! | `200` | two hundred things |
//! | `0` | no things; `0 m` is no length |

use std::fmt;
use std::str::FromStr;

use pennantry_contract::v1::{self, quantity};
use pennantry_measure::Length;

use crate::length::{Unit, to_wire, typed};

/// How much.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amount {
    /// Of what is measured.
    Length(Length),
    /// Of what is counted.
    Count(u32),
}

impl FromStr for Amount {
    type Err = String;

    /// Reads an amount.
    ///
    /// ```
    /// use pennantry::typed::Amount;
    /// use pennantry_measure::Length;
    /// assert_eq!("2.4 m".parse(), Ok(Amount::Length(Length::from_mm(2_400))));
    /// assert_eq!("200".parse(), Ok(Amount::Count(200)));
    /// assert!("2.4".parse::<Amount>().is_err());
    /// ```
    fn from_str(text: &str) -> Result<Amount, String> {
        let text = text.trim();
        if !text.is_empty() && text.chars().all(|c| c.is_ascii_digit()) {
            let count =
                text.parse().map_err(|_| format!("{text} things are too many: write at most {}", u32::MAX));
            return count.map(Amount::Count);
        }
        let length =
            typed(text).map_err(|fault| format!("{fault}; a whole number alone is a count of things"))?;
        if length < Length::ZERO {
            return Err(format!("\"{text}\" is below nought: write how much it is, without a sign"));
        }
        Ok(Amount::Length(length))
    }
}

impl Amount {
    /// As the contract has it.
    pub fn to_wire(self) -> v1::Quantity {
        let amount = match self {
            Amount::Length(length) => quantity::Amount::LengthMm(to_wire(length)),
            Amount::Count(count) => quantity::Amount::Count(count),
        };
        v1::Quantity { amount: Some(amount) }
    }

    /// Words of a command line, such as `7`, `1/2` and `in`, read as one amount.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn of_words(words: &[String]) -> Result<Amount, String> {
        words.join(" ").parse()
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Amount::Length(length) => f.write_str(&Unit::M.length(*length)),
            Amount::Count(count) => count.fmt(f),
        }
    }
}

/// An amount of an answer; a dash where there is none.
///
/// ```
/// use pennantry::length::Unit;
/// use pennantry::typed::amount::told;
/// let some = "2.4 m".parse::<pennantry::typed::Amount>()?.to_wire();
/// assert_eq!((told(Some(&some), Unit::M), told(None, Unit::M)), ("2.4 m".to_owned(), "-".to_owned()));
/// # Ok::<(), String>(())
/// ```
pub fn told(quantity: Option<&v1::Quantity>, unit: Unit) -> String {
    match quantity.and_then(|quantity| quantity.amount) {
        Some(quantity::Amount::LengthMm(mm)) => unit.shown(mm),
        Some(quantity::Amount::Count(count)) => count.to_string(),
        None => "-".to_owned(),
    }
}

/// Whether an amount of an answer is more than nothing.
pub fn is_some(quantity: Option<&v1::Quantity>) -> bool {
    match quantity.and_then(|quantity| quantity.amount) {
        Some(quantity::Amount::LengthMm(mm)) => mm > 0.0,
        Some(quantity::Amount::Count(count)) => count > 0,
        None => false,
    }
}
