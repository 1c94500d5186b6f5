//! Getting faster with practice: Crawford's unit curve, with a floor.
//!
//! | figure | formula | rounding |
//! |---|---|---|
//! | exponent | `b = log₂ r`, where a doubling leaves the share `r` of the time | none |
//! | share of the `n`-th | `max(nᵇ, floor)`, of the time of the first | a billionth, to the nearest |
//! | time of the `n`-th | `T₁ ·` its share | up to the thousandth of a minute |
//! | time of the first `n` | `T₁ ·` the sum of their shares | up, once |
//!
//! Tables of such factors are in textbooks of operations management (Krajewski and
//! others, *Operations Management*, 12th edition): at 80 % the tenth takes 0.477 of the
//! first, ten take 6.315. Wright's reading of the same `b` gives it to the average of all
//! so far, and ten take 4.765. The two must not be mixed; this is Crawford's, which
//! claims the less.
//!
//! # Why a floor
//! Without one the curve never flattens. A kilometre of 4 762 pennants at 90 %, the first
//! in 2 minutes, would be claimed in 51.7 hours, where 158.7 are needed at an even pace:
//! a third. Hands have a pace below which practice no longer takes them, so each
//! operation says the least share that the time can fall to. At a floor of 60 % the
//! curve ends with the 28th, and the kilometre takes 95.3 hours.
//!
//! # How it is summed
//! The curve is above its floor for the first `k = floor^(1/b)`; what comes after is a
//! plain product. Of those `k` the first [`DIRECT`] are added one by one. The rest is
//! the Euler-Maclaurin sum with two corrections, so an order of any size takes the same
//! few steps. From `m = DIRECT` to `n`, with `f(x) = xᵇ`:
//!
//! ```text
//! ∫ f  +  (f(n) − f(m)) / 2  +  (f′(n) − f′(m)) / 12  −  (f‴(n) − f‴(m)) / 720
//! ```
//!
//! Derivatives of `xᵇ` change sign from one to the next and only shrink, so what is left
//! out is below the first term left out, `|b (b−1) (b−2) (b−3) (b−4)| m^(b−5) / 30 240`:
//! at most 1.2 · 10⁻¹³ of the first one's time for any `b` from −1 to 0 (derived).
//!
//! Only `+ - * /` are the machine's own; powers and logarithms are from `libm`, and a
//! factor becomes a whole number of billionths before it meets a time: the same bits
//! anywhere.

use pennantry_measure::{BenchTime, Percent, Rounding, divide};

use super::milli;
use crate::shop::Learning;

#[cfg(test)]
mod tests;

/// How many are added one by one.
const DIRECT: u32 = 64;
/// Shares are counted in billionths.
pub(super) const BILLION: i128 = 1_000_000_000;
/// Billionths in a thousandth of a percent.
const BILLIONTHS_A_MILLI: i128 = 10_000;
/// The least rate: below it a doubling would take no longer than what came before it.
const LEAST_RATE: i64 = 50_001;

/// The time of the `nth`, from 1, of which the first takes `first`: up to the next
/// thousandth of a minute. A nought counts as 1.
///
/// ```
/// use pennantry_calc::labour::learned_unit;
/// use pennantry_calc::shop::Learning;
/// use pennantry_measure::{BenchTime, Percent};
/// let learning = Learning { rate: Percent::from_milli(90_000), floor: Percent::from_milli(60_000) };
/// let first = BenchTime::from_milli_minutes(2_000);
/// // 2 · 0.9 · 0.9 for two doublings; from the 29th on, the floor
/// assert_eq!(learned_unit(first, 4, learning).milli_minutes(), 1_620);
/// assert_eq!(learned_unit(first, 29, learning).milli_minutes(), 1_200);
/// ```
pub fn learned_unit(first: BenchTime, nth: u32, learning: Learning) -> BenchTime {
    times(first, Curve::new(learning).unit(nth))
}

/// The time of the first `count` of them together, of which the very first takes
/// `first`: up to the next thousandth of a minute.
///
/// Never below the floor's share of an even pace, never above that pace. Rates that are
/// not above 50 % and at most 100 %, and floors that are not above 0 % and at most 100 %,
/// count as the nearest that are: the catalogue lets none through.
///
/// ```
/// use pennantry_calc::labour::learned_total;
/// use pennantry_calc::shop::Learning;
/// use pennantry_measure::{BenchTime, Percent};
/// let learning = Learning { rate: Percent::from_milli(90_000), floor: Percent::from_milli(60_000) };
/// let first = BenchTime::from_milli_minutes(4_000);
/// // 25 pennants, the first in 4 minutes: 70.853, and not 100
/// assert_eq!(learned_total(first, 25, learning).milli_minutes(), 70_853);
/// ```
pub fn learned_total(first: BenchTime, count: u32, learning: Learning) -> BenchTime {
    times(first, Curve::new(learning).total(count))
}

/// So many billionths of a time, up.
pub(super) fn times(first: BenchTime, billionths: i128) -> BenchTime {
    let wide = i128::from(first.milli_minutes()).saturating_mul(billionths);
    milli(divide(wide, BILLION, Rounding::Up))
}

/// A learning curve; shares of the first one's time are told in billionths.
pub(super) struct Curve {
    /// Share that a doubling leaves, in `50_001..=100_000`.
    rate: i64,
    /// `b + 1`, above 0 and at most 1.
    integral: f64,
    /// Least share, in billionths.
    floor: i128,
    /// Where the curve meets its floor.
    meets: f64,
}

impl Curve {
    pub(super) fn new(learning: Learning) -> Curve {
        let whole = Percent::WHOLE.milli();
        let rate = learning.rate.milli().clamp(LEAST_RATE, whole);
        let floor = learning.floor.milli().clamp(1, whole);
        let share = |milli: i64| f64::from(u32::try_from(milli).unwrap_or_default()) / 100_000.0;
        // from twice the rate: close to 50 % the digits of b + 1 would be lost in b
        let integral = libm::log2(2.0 * share(rate));
        let meets = libm::pow(share(floor), 1.0 / (integral - 1.0));
        Curve { rate, integral, floor: i128::from(floor) * BILLIONTHS_A_MILLI, meets }
    }

    /// Share of the `nth`.
    pub(super) fn unit(&self, nth: u32) -> i128 {
        billionths(self.power(nth.max(1), 0.0)).max(self.floor)
    }

    /// Sum of the shares of the first `count`.
    pub(super) fn total(&self, count: u32) -> i128 {
        if self.rate == Percent::WHOLE.milli() {
            return i128::from(count) * BILLION;
        }
        // both sides of the meeting take the same there, so a last digit that puts one
        // of them on the other side changes nothing
        let learned = if self.meets < f64::from(count) { floor(self.meets) } else { count };
        billionths(self.sum(learned)) + i128::from(count - learned) * self.floor
    }

    /// `1 + 2ᵇ + … + nᵇ`.
    fn sum(&self, n: u32) -> f64 {
        // the small ones first, so that none is lost beside a large sum
        let direct = (1..=n.min(DIRECT)).rev().fold(0.0, |sum, nth| sum + self.power(nth, 0.0));
        if n > DIRECT { direct + self.beyond(DIRECT, n) } else { direct }
    }

    /// `(m + 1)ᵇ + … + nᵇ`, by Euler and Maclaurin.
    fn beyond(&self, m: u32, n: u32) -> f64 {
        let (b, c) = (self.integral - 1.0, self.integral);
        let rise = |less: f64| self.power(n, less) - self.power(m, less);
        let ratio = libm::log(f64::from(n) / f64::from(m));
        // (nᶜ − mᶜ) / c, without losing the digits of a difference where c is small
        let integral = self.power(m, -1.0) * libm::expm1(c * ratio) / c;
        let third = b * (b - 1.0) * (b - 2.0) * rise(3.0);
        integral + rise(0.0) / 2.0 + b * rise(1.0) / 12.0 - third / 720.0
    }

    /// `n ^ (b − less)`.
    fn power(&self, n: u32, less: f64) -> f64 {
        libm::pow(f64::from(n), self.integral - 1.0 - less)
    }
}

/// Billionths of a double, to the nearest.
fn billionths(value: f64) -> i128 {
    let whole = floor(value);
    let rest = floor(libm::round((value - f64::from(whole)) * 1e9));
    i128::from(whole) * BILLION + i128::from(rest)
}

/// The whole part of a double; below nought is nought, and no sum of at most 2³² shares
/// is above the type.
fn floor(value: f64) -> u32 {
    // 2⁵², beside which the digits of a whole number stand in the low bits as they are
    const WHOLES: f64 = 4_503_599_627_370_496.0;
    let whole = libm::floor(value).clamp(0.0, f64::from(u32::MAX));
    u32::try_from((whole + WHOLES).to_bits() & ((1 << 52) - 1)).unwrap_or(u32::MAX)
}
