//! Masses, and what weighs so much an area or a length.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Mul, Sub};

use crate::{Area, Length, Percent, Rounding, divide};

/// A mass in milligrams: 122.4 g are 122 400. Sums and whole multiples are exact.
///
/// ```
/// use pennantry_measure::Mass;
/// // nine buttons of 1.2 g and a label
/// let finish = Mass::from_mg(1_200) * 9 + Mass::from_mg(450);
/// assert_eq!(finish.to_string(), "11.25 g");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Mass(i64);

impl Mass {
    /// No mass.
    pub const ZERO: Mass = Mass(0);

    /// A mass from milligrams.
    ///
    /// ```
    /// # use pennantry_measure::Mass;
    /// assert_eq!(Mass::from_mg(0), Mass::ZERO);
    /// ```
    pub const fn from_mg(mg: i64) -> Mass {
        Mass(mg)
    }

    /// A mass from whole grams.
    ///
    /// ```
    /// # use pennantry_measure::Mass;
    /// assert_eq!(Mass::from_grams(2), Mass::from_mg(2_000));
    /// ```
    pub const fn from_grams(grams: i64) -> Mass {
        Mass(grams * 1_000)
    }

    /// The mass in milligrams, exactly.
    ///
    /// ```
    /// # use pennantry_measure::Mass;
    /// assert_eq!(Mass::from_grams(122).mg(), 122_000);
    /// ```
    pub const fn mg(self) -> i64 {
        self.0
    }

    /// In whole grams, up: what a weighed parcel is declared at.
    ///
    /// ```
    /// # use pennantry_measure::Mass;
    /// assert_eq!(Mass::from_mg(99_200).grams_up(), 100);
    /// assert_eq!(Mass::from_mg(100_000).grams_up(), 100);
    /// ```
    pub fn grams_up(self) -> i64 {
        narrow(divide(i128::from(self.0), 1_000, Rounding::Up))
    }

    /// A share of the mass, rounded as named to the milligram.
    ///
    /// ```
    /// # use pennantry_measure::{Mass, Percent, Rounding};
    /// let spread = Mass::from_grams(140).share(Percent::from_milli(5_000), Rounding::Up);
    /// assert_eq!(spread, Mass::from_grams(7));
    /// ```
    pub fn share(self, share: Percent, rounding: Rounding) -> Mass {
        let parts = i128::from(self.0) * i128::from(share.milli());
        Mass(narrow(divide(parts, i128::from(Percent::WHOLE.milli()), rounding)))
    }
}

impl Add for Mass {
    type Output = Mass;
    fn add(self, other: Mass) -> Mass {
        Mass(self.0 + other.0)
    }
}

impl Sub for Mass {
    type Output = Mass;
    fn sub(self, other: Mass) -> Mass {
        Mass(self.0 - other.0)
    }
}

impl Mul<i64> for Mass {
    type Output = Mass;
    fn mul(self, times: i64) -> Mass {
        Mass(self.0 * times)
    }
}

impl Sum for Mass {
    fn sum<I: Iterator<Item = Mass>>(all: I) -> Mass {
        Mass(all.map(Mass::mg).sum())
    }
}

/// Grams with as many decimals as it takes, and the unit. Exact.
impl fmt::Display for Mass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let mg = self.0.unsigned_abs();
        let (whole, rest) = (mg / 1_000, mg % 1_000);
        if rest == 0 {
            return write!(f, "{sign}{whole} g");
        }
        write!(f, "{sign}{whole}.{} g", format!("{rest:03}").trim_end_matches('0'))
    }
}

/// Mass of an area, in milligrams a square metre: cloth of 140 g/m² is 140 000.
///
/// ```
/// use pennantry_measure::{Length, MassPerArea, Rounding};
/// // a pennant of 200 x 250, two triangles of 150 g/m²: 7.5 g
/// let cloth = MassPerArea::from_mg_per_m2(150_000);
/// let pennant = Length::from_mm(200) * Length::from_mm(250);
/// assert_eq!(cloth.of(pennant, Rounding::HalfUp).to_string(), "7.5 g");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct MassPerArea(i64);

impl MassPerArea {
    /// From milligrams a square metre.
    ///
    /// ```
    /// # use pennantry_measure::MassPerArea;
    /// assert_eq!(MassPerArea::from_mg_per_m2(140_000).mg_per_m2(), 140_000);
    /// ```
    pub const fn from_mg_per_m2(mg: i64) -> MassPerArea {
        MassPerArea(mg)
    }

    /// In milligrams a square metre, exactly.
    ///
    /// ```
    /// # use pennantry_measure::MassPerArea;
    /// assert_eq!(MassPerArea::default().mg_per_m2(), 0);
    /// ```
    pub const fn mg_per_m2(self) -> i64 {
        self.0
    }

    /// What an area weighs, rounded as named to the milligram; saturates at the ends of
    /// the type.
    ///
    /// ```
    /// use pennantry_measure::{Length, MassPerArea, Rounding};
    /// let cloth = MassPerArea::from_mg_per_m2(100_000);
    /// let metre = Length::from_mm(1_000) * Length::from_mm(1_500);
    /// assert_eq!(cloth.of(metre, Rounding::HalfUp).to_string(), "150 g");
    /// ```
    pub fn of(self, area: Area, rounding: Rounding) -> Mass {
        Mass(narrow(divide(i128::from(self.0) * area.um2(), 1_000_000_000_000, rounding)))
    }
}

/// Mass of a length, in micrograms a metre: binding of 6.0 g/m is 6 000 000, thread of
/// tex 27 (27 g/km) is 27 000.
///
/// ```
/// use pennantry_measure::{Length, MassPerLength, Rounding};
/// let binding = MassPerLength::from_ug_per_m(6_000_000);
/// assert_eq!(binding.of(Length::from_mm(5_600), Rounding::HalfUp).to_string(), "33.6 g");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct MassPerLength(i64);

impl MassPerLength {
    /// From micrograms a metre.
    ///
    /// ```
    /// # use pennantry_measure::MassPerLength;
    /// assert_eq!(MassPerLength::from_ug_per_m(27_000).ug_per_m(), 27_000);
    /// ```
    pub const fn from_ug_per_m(ug: i64) -> MassPerLength {
        MassPerLength(ug)
    }

    /// In micrograms a metre, exactly.
    ///
    /// ```
    /// # use pennantry_measure::MassPerLength;
    /// assert_eq!(MassPerLength::default().ug_per_m(), 0);
    /// ```
    pub const fn ug_per_m(self) -> i64 {
        self.0
    }

    /// What a length weighs, rounded as named to the milligram; saturates at the ends of
    /// the type.
    ///
    /// ```
    /// use pennantry_measure::{Length, MassPerLength, Rounding};
    /// // 47.06 m of thread of tex 27
    /// let thread = MassPerLength::from_ug_per_m(27_000);
    /// assert_eq!(thread.of(Length::from_mm(47_060), Rounding::HalfUp).mg(), 1_271);
    /// ```
    pub fn of(self, length: Length, rounding: Rounding) -> Mass {
        Mass(narrow(divide(i128::from(self.0) * length.wide(), 1_000_000_000, rounding)))
    }
}

fn narrow(wide: i128) -> i64 {
    i64::try_from(wide).unwrap_or(if wide < 0 { i64::MIN } else { i64::MAX })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_half_milligram_goes_as_named() {
        let a_metre = MassPerLength::from_ug_per_m(1_000);
        for (mm, up, half_up, down) in [(499, 1, 0, 0), (500, 1, 1, 0), (501, 1, 1, 0), (1_000, 1, 1, 1)] {
            let mass = |rounding| a_metre.of(Length::from_mm(mm), rounding).mg();
            assert_eq!(
                (mass(Rounding::Up), mass(Rounding::HalfUp), mass(Rounding::Down)),
                (up, half_up, down),
                "{mm}"
            );
        }
    }

    /// 120 g/m² cut 50 wide is 6.0 g/m (derived); 5.6 m of it 33.6 g.
    #[test]
    fn a_strip_of_cloth_weighs_as_its_area() {
        let cloth = MassPerArea::from_mg_per_m2(120_000);
        let strip = Length::from_mm(50) * Length::from_mm(5_600);
        assert_eq!(cloth.of(strip, Rounding::HalfUp), Mass::from_mg(33_600));
    }

    #[test]
    fn a_mass_shows_the_decimals_it_takes() {
        for (mg, shown) in
            [(0, "0 g"), (1, "0.001 g"), (-1_500, "-1.5 g"), (122_000, "122 g"), (99_200, "99.2 g")]
        {
            assert_eq!(Mass::from_mg(mg).to_string(), shown);
        }
    }

    #[test]
    fn what_is_beyond_the_type_stays_at_its_end() {
        let heavy = MassPerArea::from_mg_per_m2(i64::MAX);
        let wide = Length::from_mm(2_000_000) * Length::from_mm(2_000_000);
        assert_eq!(heavy.of(wide, Rounding::Up).mg(), i64::MAX);
    }
}
