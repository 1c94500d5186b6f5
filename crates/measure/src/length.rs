//! Lengths and areas.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub};

/// A length in whole micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

impl Length {
    /// No length.
    pub const ZERO: Length = Length(0);

    /// A length from micrometres.
    pub const fn from_um(um: i64) -> Length {
        Length(um)
    }

    /// A length from whole millimetres.
    pub const fn from_mm(mm: i64) -> Length {
        Length(mm * 1_000)
    }

    /// The length in micrometres.
    pub const fn um(self) -> i64 {
        self.0
    }

    /// The length in micrometres, for products.
    pub fn wide(self) -> i128 {
        i128::from(self.0)
    }

    /// The length without its sign.
    pub const fn abs(self) -> Length {
        Length(self.0.abs())
    }
}

/// Millimetres with as many decimals as it takes, and the unit: `24.643 mm`.
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

/// A rectangle's area.
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

/// An area in whole square micrometres.
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
