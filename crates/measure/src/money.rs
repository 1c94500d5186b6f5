//! Money and rates. Which currency is the shop's affair: one catalogue, one currency.
//!
//! A rate is finer than money by a factor of a million, so a price a metre can be
//! multiplied by a length to the micrometre and is rounded once, at the end.

use std::iter::Sum;
use std::ops::{Add, Neg, Sub};

use crate::{BenchTime, Length, Rounding, divide};

/// An amount in whole minor units, such as pence; a refund is below nought.
///
/// Sums and differences are exact. How many minor units make a major one is the
/// catalogue's to say.
///
/// ```
/// use pennantry_measure::Money;
/// let lines = [Money::from_minor(4_250), Money::from_minor(875)];
/// assert_eq!(lines.into_iter().sum::<Money>(), Money::from_minor(5_125));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(i64);

impl Money {
    /// Nothing.
    pub const ZERO: Money = Money(0);

    /// An amount from minor units.
    ///
    /// ```
    /// # use pennantry_measure::Money;
    /// assert_eq!(Money::from_minor(250) - Money::from_minor(300), -Money::from_minor(50));
    /// ```
    pub const fn from_minor(minor: i64) -> Money {
        Money(minor)
    }

    /// The amount in minor units, exactly.
    ///
    /// ```
    /// # use pennantry_measure::Money;
    /// assert_eq!(Money::from_minor(250).minor(), 250);
    /// ```
    pub const fn minor(self) -> i64 {
        self.0
    }

    /// `self * numerator / denominator`, rounded as named; saturates at the ends
    /// of the type, which no amount within the bounds comes near. A denominator of nought
    /// gives nothing.
    ///
    /// ```
    /// use pennantry_measure::{Money, Rounding};
    /// // the tax of 20 % that a price of 50.02 includes: 20/120 of it
    /// let tax = Money::from_minor(5_002).scaled(20, 120, Rounding::HalfUp);
    /// assert_eq!(tax, Money::from_minor(834));
    /// ```
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
/// only the product is rounded. A rate of 9.60 a metre is 960 000 000.
///
/// ```
/// use pennantry_measure::{Length, Money, Rate, Rounding};
/// let a_metre = Rate::from_micro_minor(960_000_000);
/// let cloth = Length::from_mm(1_200);
/// assert_eq!(a_metre.per_metre(cloth, Rounding::HalfUp), Money::from_minor(1_152));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Rate(i64);

impl Rate {
    /// A rate from millionths of a minor unit.
    ///
    /// ```
    /// # use pennantry_measure::Rate;
    /// assert_eq!(Rate::from_micro_minor(1_500_000).micro_minor(), 1_500_000);
    /// ```
    pub const fn from_micro_minor(micro: i64) -> Rate {
        Rate(micro)
    }

    /// The rate in millionths of a minor unit, exactly.
    ///
    /// ```
    /// # use pennantry_measure::Rate;
    /// assert_eq!(Rate::default().micro_minor(), 0);
    /// ```
    pub const fn micro_minor(self) -> i64 {
        self.0
    }

    /// What a length costs at this rate a metre, rounded as named to the minor unit;
    /// saturates at the ends of the type.
    ///
    /// ```
    /// use pennantry_measure::{Length, Money, Rate, Rounding};
    /// // 0.45 a metre, 6.82 m: 306.9 pence
    /// let a_metre = Rate::from_micro_minor(45_000_000);
    /// let binding = Length::from_mm(6_820);
    /// assert_eq!(a_metre.per_metre(binding, Rounding::HalfUp), Money::from_minor(307));
    /// assert_eq!(a_metre.per_metre(binding, Rounding::Down), Money::from_minor(306));
    /// ```
    pub fn per_metre(self, length: Length, rounding: Rounding) -> Money {
        let fine = i128::from(self.0) * length.wide();
        Money(narrow(divide(fine, 1_000_000 * 1_000_000, rounding)))
    }

    /// What bench time costs at this rate an hour, rounded as named to the minor unit;
    /// saturates at the ends of the type.
    ///
    /// ```
    /// use pennantry_measure::{BenchTime, Money, Rate, Rounding};
    /// // 18.00 an hour, 47.5 minutes
    /// let an_hour = Rate::from_micro_minor(1_800_000_000);
    /// let bench = BenchTime::from_milli_minutes(47_500);
    /// assert_eq!(an_hour.per_hour(bench, Rounding::HalfUp), Money::from_minor(1_425));
    /// ```
    pub fn per_hour(self, time: BenchTime, rounding: Rounding) -> Money {
        let fine = i128::from(self.0) * i128::from(time.milli_minutes());
        Money(narrow(divide(fine, 60_000 * 1_000_000, rounding)))
    }
}

fn narrow(wide: i128) -> i64 {
    i64::try_from(wide).unwrap_or(if wide < 0 { i64::MIN } else { i64::MAX })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_half_minor_unit_goes_away_from_nought() {
        let a_metre = Rate::from_micro_minor(1_000_000);
        for (mm, up, half_up, down) in [
            (499, 1, 0, 0),
            (500, 1, 1, 0),
            (501, 1, 1, 0),
            (-499, -1, 0, 0),
            (-500, -1, -1, 0),
            (1_000, 1, 1, 1),
        ] {
            let cost = |rounding| a_metre.per_metre(Length::from_mm(mm), rounding).minor();
            assert_eq!(
                (cost(Rounding::Up), cost(Rounding::HalfUp), cost(Rounding::Down)),
                (up, half_up, down),
                "{mm}"
            );
        }
    }

    #[test]
    fn an_hour_is_sixty_minutes_to_the_thousandth() {
        // 36.00 an hour is a penny a second; half a penny is 8 1/3 thousandths of a minute
        let an_hour = Rate::from_micro_minor(3_600_000_000);
        for (milli, minor) in
            [(60_000, 3_600), (1_000, 60), (8, 0), (9, 1), (24, 1), (25, 2), (6_000_000, 360_000)]
        {
            let cost = an_hour.per_hour(BenchTime::from_milli_minutes(milli), Rounding::HalfUp);
            assert_eq!(cost, Money::from_minor(minor), "{milli}");
        }
    }

    /// Markup 30 % of 5.00 is 6.50, margin 30 % is 7.14: open business course text.
    #[test]
    fn a_markup_and_a_margin_are_two_things() {
        let cost = Money::from_minor(500);
        assert_eq!(cost.scaled(130, 100, Rounding::HalfUp), Money::from_minor(650));
        assert_eq!(cost.scaled(100, 70, Rounding::HalfUp), Money::from_minor(714));
    }

    #[test]
    fn what_is_beyond_the_type_stays_at_its_end() {
        let most = Money::from_minor(i64::MAX);
        assert_eq!(most.scaled(2, 1, Rounding::Down), most);
        assert_eq!((-most).scaled(2, 1, Rounding::Down), Money::from_minor(i64::MIN));
        assert_eq!(most.scaled(1, 0, Rounding::Down), Money::ZERO);
        let rate = Rate::from_micro_minor(i64::MAX);
        assert_eq!(rate.per_metre(Length::from_um(i64::MAX), Rounding::Up), most);
    }

    proptest! {
        #[test]
        fn a_refund_mirrors_its_charge(
            micro in 0_i64..=10_000_000_000, um in 0_i64..=2_000_000_000, milli in 0_i64..=100_000_000,
        ) {
            for rounding in [Rounding::Up, Rounding::Down, Rounding::HalfUp, Rounding::HalfEven] {
                let (rate, back) = (Rate::from_micro_minor(micro), Rate::from_micro_minor(-micro));
                let (length, time) = (Length::from_um(um), BenchTime::from_milli_minutes(milli));
                prop_assert_eq!(rate.per_metre(length, rounding), -back.per_metre(length, rounding));
                prop_assert_eq!(rate.per_hour(time, rounding), -back.per_hour(time, rounding));
                let charge = rate.per_metre(length, rounding);
                prop_assert_eq!((-charge).scaled(20, 120, rounding), -charge.scaled(20, 120, rounding));
            }
        }

        #[test]
        fn net_and_tax_by_subtraction_sum_to_the_total(total in -1_000_000_000_i64..=1_000_000_000, milli in 0_i128..=100_000) {
            let total = Money::from_minor(total);
            let tax = total.scaled(milli, 100_000 + milli, Rounding::HalfUp);
            let net = total - tax;
            prop_assert_eq!(net + tax, total);
            prop_assert!(tax.minor().abs() <= total.minor().abs());
        }
    }
}
