//! Lengths as they are typed and shown, and on the wire.
//!
//! # Typed
//!
//! What [`written`] reads, with one rule more: a number needs its unit, but for a plain 0.
//! A counter works in millimetres in the morning and in inches after lunch; a bare `20`
//! is a slip in one of the two.
//!
//! # Shown
//!
//! The contract's lengths are whole micrometres, and every unit shows all of them:
//!
//! | unit | shown | decimals at most |
//! |---|---|---|
//! | mm, cm, m | decimal, exact | 3, 4, 6 |
//! | in | sixteenths, where that length read back is the same micrometre; else decimal | 5 |
//! | ft, yd | whole feet or yards and the rest in inches, likewise | 5 |
//!
//! The only rounding is that of decimal inches, to the nearest hundred-thousandth, a half
//! away from nought: 0.254 µm, finer than the micrometre that it stands for, so no two
//! lengths look alike. A sixteenth is 1 587.5 µm: 1 588 µm shows as `1/16 in`, 1 587 µm as
//! `0.06248 in`.

use clap::ValueEnum;
use pennantry_measure::{Length, Rounding, divide, written};

/// Micrometres of an inch.
const INCH_UM: i64 = 25_400;

/// The unit in which lengths are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub enum Unit {
    /// Millimetres.
    #[default]
    Mm,
    /// Centimetres.
    Cm,
    /// Metres.
    M,
    /// Inches, in sixteenths where that is the length.
    In,
    /// Feet and inches.
    Ft,
    /// Yards and inches.
    Yd,
}

/// Reads a length of a flag.
///
/// # Errors
/// What is wrong with it, and what may be written instead.
///
/// ```
/// use pennantry::length;
/// use pennantry_measure::Length;
/// assert_eq!(length::typed("7 1/2 in"), Ok(Length::from_um(190_500)));
/// assert_eq!(length::typed("0"), Ok(Length::ZERO));
/// assert_eq!(length::typed("20"), Err("\"20\" has no unit: write 20 mm, 20 cm, 20 m, 20 in, 20 ft or 20 yd".into()));
/// ```
pub fn typed(text: &str) -> Result<Length, String> {
    let length = written::length(text).map_err(|fault| fault.to_string())?;
    let text = text.trim();
    let has_unit = text.chars().any(|c| c.is_alphabetic() || "\"'′″’”".contains(c));
    if length != Length::ZERO && !has_unit {
        return Err(format!(
            "\"{text}\" has no unit: write {text} mm, {text} cm, {text} m, {text} in, {text} ft or {text} yd"
        ));
    }
    Ok(length)
}

/// Millimetres of the contract: the double nearest to r/1000.
///
/// ```
/// use pennantry_measure::Length;
/// assert_eq!(pennantry::length::to_wire(Length::from_um(24_643)), 24.643);
/// ```
pub fn to_wire(length: Length) -> f64 {
    // digits to digits: the language has no checked conversion, and below 2^53 both
    // the reading and the division give the nearest double
    length.um().to_string().parse::<f64>().map_or(f64::NAN, |um| um / 1000.0)
}

/// The micrometres that millimetres of the contract mean, to the nearest. Nothing where it
/// is no length at all.
///
/// ```
/// use pennantry_measure::Length;
/// assert_eq!(pennantry::length::from_wire(24.643), Some(Length::from_um(24_643)));
/// assert_eq!(pennantry::length::from_wire(f64::NAN), None);
/// ```
pub fn from_wire(mm: f64) -> Option<Length> {
    let um = (mm * 1000.0).round();
    // beyond this, doubles are too far apart to mean micrometres
    if !um.is_finite() || um.abs() > 9e12 {
        return None;
    }
    format!("{um:.0}").parse().ok().map(Length::from_um)
}

impl Unit {
    /// Millimetres of the contract in this unit, with its name.
    ///
    /// ```
    /// use pennantry::length::Unit;
    /// assert_eq!(Unit::Mm.shown(24.643), "24.643 mm");
    /// assert_eq!(Unit::In.shown(190.5), "7 1/2 in");
    /// assert_eq!(Unit::Ft.shown(6200.0), "20 ft 4.09449 in");
    /// ```
    pub fn shown(self, mm: f64) -> String {
        from_wire(mm).map_or_else(|| format!("{mm} mm"), |length| self.length(length))
    }

    /// A place in a cutting plan, which the contract has to half a micrometre: one decimal
    /// more. What is not whole micrometres has no fraction of an inch; its decimals, one
    /// more too, are rounded to the nearest, a half away from nought.
    ///
    /// ```
    /// use pennantry::length::Unit;
    /// assert_eq!(Unit::Mm.fine(101.5855), "101.5855 mm");
    /// assert_eq!(Unit::Ft.fine(101.5855), "3.999429 in");
    /// assert_eq!(Unit::In.fine(190.5), "7 1/2 in");
    /// ```
    pub fn fine(self, mm: f64) -> String {
        // tenths of a micrometre, read as a length ten times as long
        let tenths = match from_wire(mm * 10.0) {
            Some(long) if long.um() % 10 != 0 => long.um(),
            _ => return self.shown(mm),
        };
        let sign = if tenths < 0 { "-" } else { "" };
        let tenths = i128::from(tenths.abs());
        let shown = match self {
            Unit::Mm => format!("{} mm", decimal(tenths, 4)),
            Unit::Cm => format!("{} cm", decimal(tenths, 5)),
            Unit::M => format!("{} m", decimal(tenths, 7)),
            Unit::In | Unit::Ft | Unit::Yd => {
                let inches = divide(tenths * 1_000_000, i128::from(INCH_UM) * 10, Rounding::HalfUp);
                format!("{} in", decimal(inches, 6))
            }
        };
        format!("{sign}{shown}")
    }

    /// A length in this unit, with its name.
    pub fn length(self, length: Length) -> String {
        let sign = if length.um() < 0 { "-" } else { "" };
        let um = length.abs().um();
        let shown = match self {
            Unit::Mm => format!("{} mm", decimal(um.into(), 3)),
            Unit::Cm => format!("{} cm", decimal(um.into(), 4)),
            Unit::M => format!("{} m", decimal(um.into(), 6)),
            Unit::In => format!("{} in", inches(um)),
            Unit::Ft => whole_and_inches(um, 12 * INCH_UM, "ft"),
            Unit::Yd => whole_and_inches(um, 36 * INCH_UM, "yd"),
        };
        format!("{sign}{shown}")
    }
}

/// Digits with a point so many places from the right, noughts at the end left out.
fn decimal(digits: i128, places: usize) -> String {
    let all = format!("{digits:0>width$}", width = places + 1);
    let (whole, rest) = all.split_at(all.len() - places);
    let rest = rest.trim_end_matches('0');
    if rest.is_empty() { whole.to_owned() } else { format!("{whole}.{rest}") }
}

fn whole_and_inches(um: i64, unit_um: i64, name: &str) -> String {
    let (whole, rest) = (um / unit_um, um % unit_um);
    match (whole, rest) {
        (0, _) => format!("{} in", inches(rest)),
        (_, 0) => format!("{whole} {name}"),
        _ => format!("{whole} {name} {} in", inches(rest)),
    }
}

/// Inches of so many micrometres: a fraction in its lowest terms, or decimals.
fn inches(um: i64) -> String {
    let sixteenths = divide(i128::from(um) * 16, INCH_UM.into(), Rounding::HalfUp);
    let back = divide(sixteenths * i128::from(INCH_UM), 16, Rounding::HalfUp);
    if back != i128::from(um) {
        return decimal(divide(i128::from(um) * 100_000, INCH_UM.into(), Rounding::HalfUp), 5);
    }
    let (whole, mut over, mut under) = (sixteenths / 16, sixteenths % 16, 16);
    while over > 0 && over % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    match (whole, over) {
        (_, 0) => whole.to_string(),
        (0, _) => format!("{over}/{under}"),
        _ => format!("{whole} {over}/{under}"),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Worked by hand from 25.4 mm to the inch, 12 inches to the foot, 3 feet to the yard
    /// (international yard and pound agreement, 1959).
    #[test]
    fn every_unit_shows_the_same_length() {
        let cases = [
            // 6.2 m = 244.094488 in = 20 ft 4.094488 in = 6 yd 28.094488 in
            (
                6_200_000,
                ["6200 mm", "620 cm", "6.2 m", "244.09449 in", "20 ft 4.09449 in", "6 yd 28.09449 in"],
            ),
            // 7 1/2 in
            (190_500, ["190.5 mm", "19.05 cm", "0.1905 m", "7 1/2 in", "7 1/2 in", "7 1/2 in"]),
            // 3 yd is 9 ft is 108 in
            (2_743_200, ["2743.2 mm", "274.32 cm", "2.7432 m", "108 in", "9 ft", "3 yd"]),
            // 1/16 in is 1 587.5 um and reads as 1 588
            (1_588, ["1.588 mm", "0.1588 cm", "0.001588 m", "1/16 in", "1/16 in", "1/16 in"]),
            // 1 587 / 25 400 = 0.062480
            (1_587, ["1.587 mm", "0.1587 cm", "0.001587 m", "0.06248 in", "0.06248 in", "0.06248 in"]),
            (-20_000, ["-20 mm", "-2 cm", "-0.02 m", "-0.7874 in", "-0.7874 in", "-0.7874 in"]),
            (1, ["0.001 mm", "0.0001 cm", "0.000001 m", "0.00004 in", "0.00004 in", "0.00004 in"]),
            (0, ["0 mm", "0 cm", "0 m", "0 in", "0 in", "0 in"]),
        ];
        for (um, shown) in cases {
            let units = [Unit::Mm, Unit::Cm, Unit::M, Unit::In, Unit::Ft, Unit::Yd];
            assert_eq!(units.map(|unit| unit.length(Length::from_um(um))), shown, "{um}");
        }
    }

    #[test]
    fn a_bare_number_is_refused_with_what_to_write() {
        for bare in ["20", "6.2", "2 500", "-3", " 7 "] {
            let refused = typed(bare).unwrap_err();
            assert!(refused.contains("no unit") && refused.contains(" mm"), "{refused}");
        }
        for good in ["20 mm", "7\"", "3′ 4½″", "0", "0.0", "-0", "1 yd 6 in"] {
            assert!(typed(good).is_ok(), "{good}");
        }
        assert!(typed("7 1/2").unwrap_err().contains("unit"));
        assert!(typed("3 furlongs").unwrap_err().contains("furlongs"));
    }

    #[test]
    fn what_is_no_length_is_shown_as_it_came() {
        assert_eq!(Unit::In.shown(f64::INFINITY), "inf mm");
        assert_eq!(from_wire(1e300), None);
    }

    proptest! {
        #[test]
        fn nothing_is_lost_on_the_wire(um in -2_000_000_000_000_i64..2_000_000_000_000) {
            let length = Length::from_um(um);
            prop_assert_eq!(from_wire(to_wire(length)), Some(length));
        }

        /// What is shown in a metric unit or in fractions reads back as the same length; decimal
        /// inches, finer than what is read, differ for each micrometre.
        #[test]
        fn nothing_is_lost_in_showing(um in -30_000_000_i64..30_000_000) {
            let length = Length::from_um(um);
            for unit in [Unit::Mm, Unit::Cm, Unit::M] {
                prop_assert_eq!(typed(&unit.length(length)), Ok(length));
            }
            for unit in [Unit::In, Unit::Ft, Unit::Yd] {
                let shown = unit.length(length);
                if !shown.contains('.') {
                    prop_assert_eq!(typed(&shown), Ok(length), "{}", shown);
                }
                prop_assert_ne!(shown, unit.length(Length::from_um(um + 1)));
            }
        }
    }
}
