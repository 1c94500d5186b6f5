//! What stands on a net target: the fee of the payment and the tax.
//!
//! Of what is paid, `P`, the tax and the fee `p · P + f` go away, and the postage is paid
//! on. What is to be kept for the goods is `N`. With a tax of `t` and postage `D` before tax:
//!
//! > `P / (1 + t) − p · P − f − D = N`, so `P = (N + D + f) / (1 / (1 + t) − p)`
//!
//! and the goods are `P` less the delivery `D · (1 + t)`, up to the next minor unit, or
//! half up where there is no fee. Where prices are written without tax the same is divided
//! by `1 + t`. Nothing is rounded on the way.
//!
//! A share of the *cost* added on top is not enough: 3 % of 10 000 added make 10 300, of
//! which the fee leaves 9 991. To keep 100.00 after 2.9 % and 0.30 takes
//! `(100 + 0.30) / 0.971 = 103.2956`, so 103.30.
//!
//! Consumers may not be charged for paying by card in the United Kingdom and the Union (from
//! memory): the fee is in the price and never a line of it.

use pennantry_measure::{Money, Percent, Rounding, divide};

use crate::shop::{Fee, Surplus};

/// What stands on a net target.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Upon {
    /// The fee.
    pub fee: Fee,
    /// The rate of the tax; nought where there is none.
    pub rate: Percent,
    /// Whether prices are written with the tax in them.
    pub included: bool,
    /// The postage, before tax, on which the fee is paid too.
    pub postage: Money,
}

impl Upon {
    /// What the goods are to be sold at so that so much is kept.
    ///
    /// ```
    /// use pennantry_calc::price::Upon;
    /// use pennantry_calc::shop::Fee;
    /// use pennantry_measure::{Money, Percent};
    /// let fee = Fee { share: Percent::from_milli(2_900), fixed: Money::from_minor(30) };
    /// let upon = Upon { fee, ..Upon::default() };
    /// assert_eq!(upon.goods(Money::from_minor(10_000)), Money::from_minor(10_330));
    /// ```
    pub fn goods(&self, net: Money) -> Money {
        let whole = i128::from(Percent::WHOLE.milli());
        let taxed = whole + i128::from(self.rate.milli());
        if self.fee == Fee::default() {
            return if self.included { net.scaled(taxed, whole, Rounding::HalfUp) } else { net };
        }
        let share = i128::from(self.fee.share.milli());
        let kept = i128::from(net.minor()) + i128::from(self.fee.fixed.minor());
        // both in the square of a whole
        let wanted = kept * whole * whole + share * taxed * i128::from(self.postage.minor());
        // the catalogue keeps fee and tax together below the whole
        let left = (whole * whole - share * taxed).max(1);
        let minor = if self.included {
            divide(wanted * taxed, left * whole, Rounding::Up)
        } else {
            divide(wanted, left, Rounding::Up)
        };
        Money::from_minor(i64::try_from(minor).unwrap_or(i64::MAX))
    }

    /// The delivery of the postage, with the tax in it where prices include it, half up.
    pub fn delivery(&self) -> Money {
        Upon { fee: Fee::default(), ..*self }.goods(self.postage)
    }

    /// The fee on an amount that is paid, half up; none where nothing is paid.
    pub fn fee_on(&self, paid: Money) -> Money {
        if paid == Money::ZERO {
            return Money::ZERO;
        }
        let share =
            paid.scaled(self.fee.share.milli().into(), Percent::WHOLE.milli().into(), Rounding::HalfUp);
        share + self.fee.fixed
    }
}

/// The price before tax that a cost comes to, half up. A margin is a share of the price, a
/// mark-up a share of the cost. The catalogue keeps margins below 100 %; one that is not
/// counts as a thousandth of a percent below it.
///
/// ```
/// use pennantry_calc::price::net_target;
/// use pennantry_calc::shop::Surplus;
/// use pennantry_measure::{Money, Percent};
/// let thirty = Percent::from_milli(30_000);
/// let cost = Money::from_minor(500);
/// assert_eq!(net_target(cost, Surplus::Markup(thirty)), Money::from_minor(650));
/// assert_eq!(net_target(cost, Surplus::Margin(thirty)), Money::from_minor(714));
/// ```
pub fn net_target(cost: Money, surplus: Surplus) -> Money {
    let whole = i128::from(Percent::WHOLE.milli());
    match surplus {
        Surplus::Margin(share) => above(cost, share, Rounding::HalfUp),
        Surplus::Markup(share) => cost.scaled(whole + i128::from(share.milli()), whole, Rounding::HalfUp),
    }
}

/// The price before tax of which a cost leaves a share.
pub(super) fn above(cost: Money, margin: Percent, rounding: Rounding) -> Money {
    let whole = i128::from(Percent::WHOLE.milli());
    cost.scaled(whole, (whole - i128::from(margin.milli())).max(1), rounding)
}
