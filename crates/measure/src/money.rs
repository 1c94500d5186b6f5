//! Money and rates. Which currency is the shop's affair: one catalogue, one currency.

use std::iter::Sum;
use std::ops::{Add, Neg, Sub};

use crate::{BenchTime, Length, Rounding, divide};

/// An amount in whole minor units, such as pence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(i64);

impl Money {
    /// Nothing.
    pub const ZERO: Money = Money(0);

    /// An amount from minor units.
    pub const fn from_minor(minor: i64) -> Money {
        Money(minor)
    }

    /// The amount in minor units.
    pub const fn minor(self) -> i64 {
        self.0
    }

    /// `self * numerator / denominator`, rounded as named; saturates at the ends
    /// of the type, which no amount within the bounds comes near.
    pub fn scaled(self, numerator: i128, denominator: i128, rounding: Rounding) -> Money {
        Money(narrow(divide(i128::from(self.0) * numerator, denominator, rounding)))
    }
}

impl Add for Money {
    type Output = Money;
    fn add(self, other: Money) -> Money {
        Money(self.0 + other.0)
    }
}

impl Sub for Money {
    type Output = Money;
    fn sub(self, other: Money) -> Money {
        Money(self.0 - other.0)
    }
}

impl Neg for Money {
    type Output = Money;
    fn neg(self) -> Money {
        Money(-self.0)
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Money>>(all: I) -> Money {
        Money(all.map(Money::minor).sum())
    }
}

/// Money per something, in millionths of a minor unit: finer than money, so that
/// only the product is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Rate(i64);

impl Rate {
    /// A rate from millionths of a minor unit.
    pub const fn from_micro_minor(micro: i64) -> Rate {
        Rate(micro)
    }

    /// The rate in millionths of a minor unit.
    pub const fn micro_minor(self) -> i64 {
        self.0
    }

    /// What a length costs at this rate a metre.
    pub fn per_metre(self, length: Length, rounding: Rounding) -> Money {
        let fine = i128::from(self.0) * length.wide();
        Money(narrow(divide(fine, 1_000_000 * 1_000_000, rounding)))
    }

    /// What bench time costs at this rate an hour.
    pub fn per_hour(self, time: BenchTime, rounding: Rounding) -> Money {
        let fine = i128::from(self.0) * i128::from(time.milli_minutes());
        Money(narrow(divide(fine, 60_000 * 1_000_000, rounding)))
    }
}

fn narrow(wide: i128) -> i64 {
    i64::try_from(wide).unwrap_or(if wide < 0 { i64::MIN } else { i64::MAX })
}
