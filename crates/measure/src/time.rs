//! Time at the bench.

use std::ops::{Add, Mul};

use crate::{Length, Rounding, divide};

/// Bench time in thousandths of a minute.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct BenchTime(i64);

impl BenchTime {
    /// No time.
    pub const ZERO: BenchTime = BenchTime(0);

    /// A time from thousandths of a minute.
    pub const fn from_milli_minutes(milli: i64) -> BenchTime {
        BenchTime(milli)
    }

    /// The time in thousandths of a minute.
    pub const fn milli_minutes(self) -> i64 {
        self.0
    }

    /// What a length takes at this time a metre, up to the next thousandth.
    pub fn per_metre(self, length: Length) -> BenchTime {
        let wide = divide(i128::from(self.0) * length.wide(), 1_000_000, Rounding::Up);
        BenchTime(i64::try_from(wide).unwrap_or(i64::MAX))
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
