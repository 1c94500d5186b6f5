//! Quantities from which each string is cheaper, without making more cost less.
//!
//! The goods of `q` strings come to `B(q)` without a break. With what the highest break up
//! to `q` takes off, they come to `O(q) = B(q) · (1 − off)`, half up. Just below a break
//! that may be more than at the break itself; so no quantity costs more than any break
//! above it:
//!
//! > `goods(q) = min( O(q), O(k) for every break k > q )`
//!
//! Then `goods(q) ≤ goods(q + 1)` wherever `B(q) ≤ B(q + 1)`: between breaks both sides have
//! the same breaks above them and the same share off, and at a break `k = q + 1` its own
//! `O(k)` is among those on the left. Under a price list `B` never falls. With cost-plus it
//! is what the strings cost when they are worked out as an order of their own, and falls
//! only where more strings take less: a roll of binding that is cheaper whole, a plan that
//! was a little dearer and simpler.
//!
//! Example: 1.00 a string, 10 % off from 10. Nine cost 9.00 and ten cost 9.00; without the
//! cap, 95 and 96 at 5 % from 96 would cost 95.00 and 91.20: here both are 91.20.

use pennantry_measure::{Money, Percent, Rounding};

use crate::shop::Break;

/// What is taken off at a quantity.
///
/// ```
/// use pennantry_calc::price::off;
/// use pennantry_calc::shop::Break;
/// use pennantry_measure::Percent;
/// let ten = Break { from: 10, off: Percent::from_milli(5_000) };
/// assert_eq!(off(&[ten], 9), Percent::from_milli(0));
/// assert_eq!(off(&[ten], 10), ten.off);
/// ```
pub fn off(breaks: &[Break], quantity: u32) -> Percent {
    breaks.iter().rev().find(|one| one.from <= quantity).map_or_else(Percent::default, |one| one.off)
}

/// An amount with a share taken off, half up.
pub fn less(amount: Money, off: Percent) -> Money {
    let whole = i128::from(Percent::WHOLE.milli());
    amount.scaled(whole - i128::from(off.milli()), whole, Rounding::HalfUp)
}

/// The goods at a quantity, by what they come to there without a break. What they come to
/// at a break above it is asked for by `above`, which may answer none where that is
/// certainly not less than the amount that it is given, after what is off.
///
/// ```
/// use pennantry_calc::price::with_breaks;
/// use pennantry_calc::shop::Break;
/// use pennantry_measure::{Money, Percent};
/// let breaks = [Break { from: 96, off: Percent::from_milli(5_000) }];
/// let goods = |quantity: u32| {
///     let at = |quantity: u32| Money::from_minor(100 * i64::from(quantity));
///     with_breaks(&breaks, quantity, at(quantity), |one, _| Some(at(one.from))).minor()
/// };
/// assert_eq!([90, 91, 92, 95, 96, 97].map(goods), [9_000, 9_100, 9_120, 9_120, 9_120, 9_215]);
/// ```
pub fn with_breaks(
    breaks: &[Break],
    quantity: u32,
    goods: Money,
    mut above: impl FnMut(&Break, Money) -> Option<Money>,
) -> Money {
    let own = less(goods, off(breaks, quantity));
    breaks
        .iter()
        .filter(|one| one.from > quantity)
        .fold(own, |least, one| above(one, least).map_or(least, |there| least.min(less(there, one.off))))
}
