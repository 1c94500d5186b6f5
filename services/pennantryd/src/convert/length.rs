//! Millimetres on the wire, micrometres inside: read and written here alone.
//!
//! A double v is r micrometres, r = round(1000 v), where |v - r/1000| is at most
//! 0.000 001 mm. So 24.643 is read as 24 643 um although no double is exactly
//! 24.643, and 24.6435 is refused, not rounded. Written is the double nearest
//! r/1000, which reads back as r.

use pennantry_measure::Length;

/// The furthest that a double may be from whole micrometres. Unit mm.
const SLACK_MM: f64 = 0.000_001;
/// Beyond this, doubles are too far apart to mean micrometres. Unit um.
const MOST_UM: f64 = 9e12;

/// Why a double is no length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// Not a number, or infinite.
    NotFinite,
    /// Finer than a micrometre.
    TooFine,
    /// Beyond any bound.
    TooLarge,
}

/// Reads millimetres.
///
/// ```
/// use pennantryd::convert::length::{Fault, read};
/// assert_eq!(read(24.643).unwrap().um(), 24_643);
/// assert_eq!(read(-0.0).unwrap().um(), 0);
/// assert_eq!(read(24.6435), Err(Fault::TooFine));
/// assert_eq!(read(f64::NAN), Err(Fault::NotFinite));
/// ```
///
/// # Errors
/// See [`Fault`].
pub fn read(mm: f64) -> Result<Length, Fault> {
    if !mm.is_finite() {
        return Err(Fault::NotFinite);
    }
    let um = (mm * 1000.0).round();
    if um.abs() > MOST_UM {
        return Err(Fault::TooLarge);
    }
    if (mm - um / 1000.0).abs() > SLACK_MM {
        return Err(Fault::TooFine);
    }
    // whole and below 2^53: its digits are exact
    whole(um).map(Length::from_um).ok_or(Fault::TooLarge)
}

/// Writes millimetres: the double nearest to r/1000.
///
/// ```
/// use pennantry_measure::Length;
/// assert_eq!(pennantryd::convert::length::write(Length::from_um(24_643)), 24.643);
/// ```
pub fn write(length: Length) -> f64 {
    number(length.um()) / 1000.0
}

/// A double as a message says it back: as JSON writes it, and a whole one without a point.
///
/// ```
/// use pennantryd::convert::length::spoken;
/// let said = [f64::NEG_INFINITY, f64::NAN, 9_007_199_254_740_992.0, 1e308, 24.6435].map(spoken);
/// assert_eq!(said, ["-Infinity", "NaN", "9007199254740992", "1e308", "24.6435"]);
/// ```
pub fn spoken(value: f64) -> String {
    if value.is_infinite() {
        return String::from(if value > 0.0 { "Infinity" } else { "-Infinity" });
    }
    let text = format!("{value:?}");
    text.strip_suffix(".0").map_or(text.clone(), String::from)
}

/// A whole number as a double; exact below 2^53 in magnitude.
pub fn number(whole: i64) -> f64 {
    let high = whole / 1_000_000_000;
    let low = whole % 1_000_000_000;
    let part = |n: i64| i32::try_from(n).map_or(0.0, f64::from);
    part(high) * 1e9 + part(low)
}

/// A whole double as an integer, where it is one of less than 9e15.
fn whole(value: f64) -> Option<i64> {
    let high = (value / 1e9).trunc();
    let low = value - high * 1e9;
    Some(i64::from(small(high)?) * 1_000_000_000 + i64::from(small(low)?))
}

/// A whole double of less than 2^31 in magnitude, bit by bit: the language has no
/// checked conversion from doubles.
fn small(value: f64) -> Option<i32> {
    let mut rest = value.abs();
    if rest >= 2_147_483_648.0 || rest.fract() != 0.0 {
        return None;
    }
    let mut result = 0_i32;
    let mut bit = 30;
    while bit >= 0 {
        let weight = 1_i32 << bit;
        if rest >= f64::from(weight) {
            rest -= f64::from(weight);
            result |= weight;
        }
        bit -= 1;
    }
    Some(if value < 0.0 { -result } else { result })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_micrometre_reads_back() {
        let mut um = 1_i64;
        while um < 2_000_000_000_000 {
            for value in [um - 1, um, um + 1, -um] {
                let length = Length::from_um(value);
                assert_eq!(read(write(length)), Ok(length));
            }
            um = um * 3 + 7;
        }
    }

    #[test]
    fn the_reading_rule_has_its_edges() {
        assert_eq!(read(1.000_000_9), Ok(Length::from_mm(1)));
        assert_eq!(read(1.000_001_1), Err(Fault::TooFine));
        assert_eq!(read(0.000_5), Err(Fault::TooFine));
        assert_eq!(read(1e308), Err(Fault::TooLarge));
        assert_eq!(read(f64::INFINITY), Err(Fault::NotFinite));
        assert_eq!(read(9_007_199_254_740_993.0), Err(Fault::TooLarge));
        assert_eq!(read(2_000_000.001), Ok(Length::from_um(2_000_000_001)));
    }
}
