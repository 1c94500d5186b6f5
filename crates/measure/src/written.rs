//! Lengths as people write them: `2.5 m`, `7 1/2 in`, `3 ft 4½ in`.
//!
//! # What is read
//!
//! | written | means |
//! |---|---|
//! | `2500`, `2500 mm`, `250 cm`, `2.5 m`, `2,5 m` | 2 500 mm: a bare number is millimetres |
//! | `2 500 mm`, with any kind of space | 2 500 mm: digits in threes |
//! | `7 in`, `7 in.`, `7"`, `7''`, `7 inches` | 177.8 mm |
//! | `7 1/2 in`, `7-1/2 in`, `7½"`, `7.5 in` | 190.5 mm |
//! | `3 ft 4 1/2 in`, `3′ 4½″` | 1 028.7 mm |
//! | `5 yd`, `1 yd 6 in`, `2 m 50 cm` | larger units before smaller ones of the same family |
//! | `-20 mm`, `−20 mm` | below nought, the sign in front of all of it |
//!
//! An inch is 25.4 mm exactly, a foot 12 inches, a yard 3 feet (international yard and
//! pound agreement, 1959). Capitals do not matter.
//!
//! # Rounding
//!
//! Everything is worked in whole numbers. The last step that is written down must be a
//! micrometre or more: `0.0005 mm` and `0.12345 in` are too fine. A step of a
//! micrometre or more that is not a whole number of them is rounded once, to the
//! nearest micrometre, a half away from nought: 1/64 in is 396.875 µm and reads as
//! 397 µm. Metric decimals never need it.
//!
//! # What is refused
//!
//! See [`LengthTextError`]. Notably `2,500 m`, which is 2.5 m to one reader and
//! 2 500 m to another, and `7 1/2` without its unit, where inches are likely meant and
//! millimetres would be understood.

mod error;
mod scan;
#[cfg(test)]
mod tests;

pub use error::LengthTextError;

use self::scan::{Number, Rest, Scan};
use crate::{Length, Rounding, divide};

/// Characters of a text at most, spaces at its ends left out.
pub const MOST_CHARACTERS: usize = 40;

/// Micrometres that a written length may have at most, either way: 2 000 000 m.
///
/// What an order may ask for is far less: [`bounds`](crate::bounds).
pub const MOST: Length = Length::from_mm(2_000_000_000);

/// Reads a length as people write it.
///
/// # Errors
/// [`LengthTextError`], which says what is wrong, with which part of the text, and what
/// may be written instead. No text panics.
///
/// ```
/// use pennantry_measure::{Length, written};
/// assert_eq!(written::length("2.5 m"), Ok(Length::from_mm(2_500)));
/// assert_eq!(written::length("7 1/2 in"), Ok(Length::from_um(190_500)));
/// assert_eq!(written::length("1/64 in"), Ok(Length::from_um(397)));
/// let wrong = written::length("3 furlongs").unwrap_err();
/// assert_eq!(
///     wrong.to_string(),
///     "\"furlongs\" is not a unit of length known here: write mm, cm, m, in, ft or yd"
/// );
/// ```
pub fn length(text: &str) -> Result<Length, LengthTextError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(LengthTextError::Empty);
    }
    let characters = text.chars().count();
    if characters > MOST_CHARACTERS {
        return Err(LengthTextError::TooLong { characters });
    }
    let mut scan = Scan::new(text);
    let negative = scan.minus();
    let mut sum = 0_i128;
    let mut last: Option<Part> = None;
    while !scan.is_done() {
        let part = part(&mut scan)?;
        if let Some(before) = last {
            before.goes_before(part, text)?;
        }
        sum += part.um;
        last = Some(part);
    }
    if last.is_none() {
        return Err(LengthTextError::NoNumber { text: text.to_owned() });
    }
    // judged before the sign, and wide: the least number of the type has no magnitude in it
    let magnitude = i64::try_from(sum).ok().filter(|um| *um <= MOST.um());
    let um = magnitude.ok_or_else(|| LengthTextError::OutOfRange { text: text.to_owned() })?;
    Ok(Length::from_um(if negative { -um } else { um }))
}

/// A number with its unit.
#[derive(Clone, Copy)]
struct Part {
    um: i128,
    whole: bool,
    unit: Option<Unit>,
}

impl Part {
    /// Whether another part may follow: whole feet before inches, whole metres before
    /// centimetres.
    fn goes_before(self, next: Part, text: &str) -> Result<(), LengthTextError> {
        match (self.unit, next.unit) {
            (Some(large), Some(small))
                if self.whole && large.um > small.um && large.metric == small.metric =>
            {
                Ok(())
            }
            _ => Err(LengthTextError::Muddled { text: text.to_owned() }),
        }
    }
}

fn part(scan: &mut Scan) -> Result<Part, LengthTextError> {
    let number = scan.number()?;
    let unit = match scan.word() {
        Some(word) => Some(Unit::named(&word).ok_or(LengthTextError::UnknownUnit { unit: word })?),
        None => None,
    };
    if unit.is_none() && matches!(number.part, Rest::Fraction { .. }) {
        return Err(LengthTextError::NoUnit { text: scan.text().to_owned() });
    }
    Ok(Part {
        um: number.times(unit.unwrap_or(Unit::MILLIMETRE).um, scan.text())?,
        whole: number.is_whole(),
        unit,
    })
}

impl Number {
    /// This many of a unit in micrometres, rounded to the nearest, a half up.
    fn times(self, unit_um: i128, text: &str) -> Result<i128, LengthTextError> {
        // 64 bits times the largest unit: far inside 128
        let whole = i128::from(self.whole) * unit_um;
        let (Rest::Decimals { numerator, denominator } | Rest::Fraction { numerator, denominator }) =
            self.part
        else {
            return Ok(whole);
        };
        if unit_um < i128::from(denominator) {
            return Err(LengthTextError::TooFine { text: text.to_owned() });
        }
        Ok(whole + divide(i128::from(numerator) * unit_um, i128::from(denominator), Rounding::HalfUp))
    }
}

/// A unit of length.
#[derive(Clone, Copy)]
struct Unit {
    um: i128,
    metric: bool,
}

impl Unit {
    const MILLIMETRE: Unit = Unit { um: 1_000, metric: true };

    fn named(word: &str) -> Option<Unit> {
        let (um, metric) = match word.to_ascii_lowercase().as_str() {
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => (1_000, true),
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => (10_000, true),
            "m" | "metre" | "metres" | "meter" | "meters" => (1_000_000, true),
            "in" | "inch" | "inches" | "\"" => (25_400, false),
            "ft" | "foot" | "feet" | "'" => (304_800, false),
            "yd" | "yds" | "yard" | "yards" => (914_400, false),
            _ => return None,
        };
        Some(Unit { um, metric })
    }
}
