//! Lengths and areas.
//!
//! Sums, differences and whole multiples of lengths are exact, so nothing here rounds.
//! Where a length is divided, [`divide`](crate::divide) names the rounding.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub};

/// A length in whole micrometres; below nought is allowed (an overlap is a gap below
/// nought).
///
/// A micrometre is fine enough to hold every sixteenth of an inch to within half of it
/// and every tenth, hundredth and thousandth of a millimetre exactly. The type reaches
/// beyond nine million kilometres; what may be asked for ends at two
/// ([`bounds`](crate::bounds)), so sums of lengths within the bounds cannot overflow.
///
/// ```
/// use pennantry_measure::Length;
/// // nine pennants 190 mm wide and the eight gaps of 20 mm between them
/// let flagged = Length::from_mm(190) * 9 + Length::from_mm(20) * 8;
/// assert_eq!(flagged, Length::from_mm(1_870));
/// assert_eq!(flagged.to_string(), "1870 mm");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

impl Length {
    /// No length.
    pub const ZERO: Length = Length(0);

    /// A length from micrometres.
    ///
    /// ```
    /// # use pennantry_measure::Length;
    /// assert_eq!(Length::from_um(24_643).to_string(), "24.643 mm");
    /// ```
    pub const fn from_um(um: i64) -> Length {
        Length(um)
    }

    /// A length from whole millimetres, at most 9 223 372 036 854 775 of them either
    /// way.
    ///
    /// ```
    /// # use pennantry_measure::Length;
    /// assert_eq!(Length::from_mm(25), Length::from_um(25_000));
    /// ```
    pub const fn from_mm(mm: i64) -> Length {
        Length(mm * 1_000)
    }

    /// The length in micrometres, exactly.
    ///
    /// ```
    /// # use pennantry_measure::Length;
    /// assert_eq!(Length::from_mm(-3).um(), -3_000);
    /// ```
    pub const fn um(self) -> i64 {
        self.0
    }

    /// The length in micrometres as 128 bits, for products before a division.
    ///
    /// ```
    /// use pennantry_measure::{Length, Rounding, divide};
    /// // 690 mm shared out over 28 gaps, to the nearest micrometre
    /// let gap = divide(Length::from_mm(690).wide(), 28, Rounding::HalfUp);
    /// assert_eq!(gap, 24_643);
    /// ```
    pub fn wide(self) -> i128 {
        i128::from(self.0)
    }

    /// The length without its sign.
    ///
    /// ```
    /// # use pennantry_measure::Length;
    /// assert_eq!(Length::from_mm(-5).abs(), Length::from_mm(5));
    /// ```
    pub const fn abs(self) -> Length {
        Length(self.0.abs())
    }
}

/// Millimetres with as many decimals as it takes, and the unit: `24.643 mm`, `-5 mm`.
///
/// Exact, and read back by [`written::length`](crate::written::length).
impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let um = self.0.unsigned_abs();
        let (whole, rest) = (um / 1_000, um % 1_000);
        if rest == 0 {
            return write!(f, "{sign}{whole} mm");
        }
        let decimals = format!("{rest:03}");
        write!(f, "{sign}{whole}.{} mm", decimals.trim_end_matches('0'))
    }
}

impl Add for Length {
    type Output = Length;
    fn add(self, other: Length) -> Length {
        Length(self.0 + other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Length) {
        self.0 += other.0;
    }
}

impl Sub for Length {
    type Output = Length;
    fn sub(self, other: Length) -> Length {
        Length(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length(-self.0)
    }
}

impl Mul<i64> for Length {
    type Output = Length;
    fn mul(self, times: i64) -> Length {
        Length(self.0 * times)
    }
}

/// A rectangle's area, exactly.
impl Mul<Length> for Length {
    type Output = Area;
    fn mul(self, other: Length) -> Area {
        Area(self.wide() * other.wide())
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Length>>(all: I) -> Length {
        Length(all.map(Length::um).sum())
    }
}

/// An area in whole square micrometres, in 128 bits: a square metre is a million
/// millions of them.
///
/// ```
/// use pennantry_measure::{Area, Length};
/// // half of the rectangle about a triangle of 200 by 250 mm
/// let rectangle = Length::from_mm(200) * Length::from_mm(250);
/// assert_eq!(rectangle, Area::from_um2(50_000_000_000));
/// assert_eq!(rectangle.um2() / 2, 25_000 * 1_000_000);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Area(i128);

impl Area {
    /// An area from square micrometres.
    pub const fn from_um2(um2: i128) -> Area {
        Area(um2)
    }

    /// The area in square micrometres.
    pub const fn um2(self) -> i128 {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_length_shows_millimetres_with_the_decimals_it_takes() {
        for (um, shown) in [
            (0, "0 mm"),
            (1, "0.001 mm"),
            (-1, "-0.001 mm"),
            (500, "0.5 mm"),
            (12_500, "12.5 mm"),
            (178_690, "178.69 mm"),
            (24_643, "24.643 mm"),
            (-305_000, "-305 mm"),
            (2_000_000_000, "2000000 mm"),
            (i64::MIN, "-9223372036854775.808 mm"),
        ] {
            assert_eq!(Length::from_um(um).to_string(), shown);
        }
    }

    #[test]
    fn an_area_does_not_overflow_at_the_bounds() {
        let most = crate::bounds::LENGTH.most;
        assert_eq!((most * most).um2(), 4_000_000_000_000_000_000);
        let far = Length::from_um(i64::MAX);
        assert_eq!((far * far).um2(), i128::from(i64::MAX) * i128::from(i64::MAX));
    }

    proptest! {
        #[test]
        fn lengths_add_up_like_whole_numbers(um in prop::collection::vec(-2_000_000_000_i64..=2_000_000_000, 0..50)) {
            let sum: Length = um.iter().copied().map(Length::from_um).sum();
            prop_assert_eq!(sum.um(), um.iter().sum::<i64>());
            let mut one_by_one = Length::ZERO;
            for um in &um {
                one_by_one += Length::from_um(*um);
            }
            prop_assert_eq!(one_by_one, sum);
            prop_assert_eq!(sum - sum, Length::ZERO);
            prop_assert_eq!(sum * -1, -sum);
            prop_assert_eq!((-sum).abs(), sum.abs());
        }

        #[test]
        fn shown_decimals_are_the_micrometres(um in any::<i64>()) {
            let shown = Length::from_um(um).to_string();
            let number = shown.strip_suffix(" mm").expect("the unit");
            let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
            prop_assert!(!decimals.ends_with('0'));
            let digits = format!("{whole}{decimals:0<3}");
            prop_assert_eq!(digits.parse::<i64>(), Ok(um));
        }
    }
}
