//! Amounts and instants.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Neg, Sub, SubAssign};

use pennantry_measure::Length;

/// How much of a material: whole micrometres of what is measured, single things of what is
/// counted. Never a fraction, so sums are exact.
///
/// ```
/// use pennantry_ledger::rules::Amount;
/// use pennantry_measure::Length;
/// let bolt = Amount::of_length(Length::from_mm(3_000));
/// assert_eq!(bolt - Amount::of_length(Length::from_mm(2_600)), Amount(400_000));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Amount(pub i64);

impl Amount {
    /// Nothing.
    pub const ZERO: Amount = Amount(0);
    /// The most that one piece may hold: a hundred kilometres, or as many things as that has
    /// micrometres. Sums of millions of pieces stay within the type.
    pub const MOST: Amount = Amount(100_000_000_000);

    /// A length.
    pub const fn of_length(length: Length) -> Amount {
        Amount(length.um())
    }

    /// As a length.
    pub const fn length(self) -> Length {
        Length::from_um(self.0)
    }

    /// Whether there is any.
    pub const fn is_some(self) -> bool {
        self.0 > 0
    }

    /// The amount, or nothing where it is below nought.
    pub fn or_none(self) -> Amount {
        self.max(Amount::ZERO)
    }
}

impl Add for Amount {
    type Output = Amount;
    fn add(self, other: Amount) -> Amount {
        Amount(self.0.saturating_add(other.0))
    }
}

impl Sub for Amount {
    type Output = Amount;
    fn sub(self, other: Amount) -> Amount {
        Amount(self.0.saturating_sub(other.0))
    }
}

impl Neg for Amount {
    type Output = Amount;
    fn neg(self) -> Amount {
        Amount(self.0.saturating_neg())
    }
}

impl AddAssign for Amount {
    fn add_assign(&mut self, other: Amount) {
        *self = *self + other;
    }
}

impl SubAssign for Amount {
    fn sub_assign(&mut self, other: Amount) {
        *self = *self - other;
    }
}

impl Sum for Amount {
    fn sum<I: Iterator<Item = Amount>>(amounts: I) -> Amount {
        amounts.fold(Amount::ZERO, Add::add)
    }
}

/// An instant: microseconds from the first of January 1970, UTC.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct At(pub i64);

impl At {
    /// The instant so many seconds later.
    pub const fn after_seconds(self, seconds: i64) -> At {
        At(self.0.saturating_add(seconds.saturating_mul(1_000_000)))
    }
}
