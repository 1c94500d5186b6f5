//! Time at the bench.

use std::ops::{Add, Mul};

use crate::{Length, Rounding, divide};

/// Bench time in thousandths of a minute: 2.5 minutes are 2 500. Sums and whole
/// multiples are exact.
///
/// ```
/// use pennantry_measure::BenchTime;
/// // 15 minutes to set up, and 29 pennants at 2.4 minutes
/// let pennants = BenchTime::from_milli_minutes(2_400) * 29;
/// assert_eq!((BenchTime::from_milli_minutes(15_000) + pennants).milli_minutes(), 84_600);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct BenchTime(i64);

impl BenchTime {
    /// No time.
    pub const ZERO: BenchTime = BenchTime(0);

    /// A time from thousandths of a minute.
    ///
    /// ```
    /// # use pennantry_measure::BenchTime;
    /// assert_eq!(BenchTime::from_milli_minutes(0), BenchTime::ZERO);
    /// ```
    pub const fn from_milli_minutes(milli: i64) -> BenchTime {
        BenchTime(milli)
    }

    /// The time in thousandths of a minute, exactly.
    ///
    /// ```
    /// # use pennantry_measure::BenchTime;
    /// assert_eq!(BenchTime::from_milli_minutes(400).milli_minutes(), 400);
    /// ```
    pub const fn milli_minutes(self) -> i64 {
        self.0
    }

    /// What a length takes at this time a metre, up to the next thousandth of a minute:
    /// time is needed, not promised. Saturates at the ends of the type.
    ///
    /// ```
    /// use pennantry_measure::{BenchTime, Length};
    /// // 1.5 minutes a metre, 6.8005 m: 10.200 75 minutes
    /// let a_metre = BenchTime::from_milli_minutes(1_500);
    /// assert_eq!(a_metre.per_metre(Length::from_um(6_800_500)).milli_minutes(), 10_201);
    /// ```
    pub fn per_metre(self, length: Length) -> BenchTime {
        let wide = divide(i128::from(self.0) * length.wide(), 1_000_000, Rounding::Up);
        BenchTime(i64::try_from(wide).unwrap_or(if wide < 0 { i64::MIN } else { i64::MAX }))
    }
}

impl Add for BenchTime {
    type Output = BenchTime;
    fn add(self, other: BenchTime) -> BenchTime {
        BenchTime(self.0 + other.0)
    }
}

impl Mul<i64> for BenchTime {
    type Output = BenchTime;
    fn mul(self, times: i64) -> BenchTime {
        BenchTime(self.0 * times)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn time_a_metre_goes_up_to_the_next_thousandth() {
        let a_metre = BenchTime::from_milli_minutes(1_000);
        for (um, milli) in [(0, 0), (1, 1), (999, 1), (1_000, 1), (1_001, 2), (1_000_000, 1_000), (-1, -1)] {
            assert_eq!(a_metre.per_metre(Length::from_um(um)).milli_minutes(), milli, "{um}");
        }
        let long = BenchTime::from_milli_minutes(i64::MAX);
        assert_eq!(long.per_metre(Length::from_um(i64::MAX)), long);
        assert_eq!(long.per_metre(Length::from_um(i64::MIN)).milli_minutes(), i64::MIN);
    }
}
