//! Bench time, first step: a set-up, so much a pennant, so much a metre.
//!
//! `set-up + strings · (pennants · time a pennant + overall length · time a metre)`
//!
//! The set-up is counted once an order. All three times are the catalogue's: published
//! times for one pennant differ by a factor of ten with the construction, so none is
//! built in. Operations with their own drivers, allowances and learning are not in it.

use pennantry_measure::{BenchTime, Length, Rounding, divide};

use crate::shop::{Method, Shop};

/// Bench time for `quantity` strings of `count` pennants each on `overall` of binding.
/// The metres of one string are taken up to the next thousandth of a minute.
pub fn minutes(shop: &Shop, method: &Method, count: u32, overall: Length, quantity: u32) -> BenchTime {
    let one = method.per_pennant * i64::from(count) + shop.bench.per_metre.per_metre(overall);
    shop.bench.set_up + one * i64::from(quantity)
}

/// Bench days in tenths, half up; nought where the day has no length.
///
/// ```
/// use pennantry_calc::labour::bench_days_tenths;
/// use pennantry_measure::BenchTime;
/// let minutes = |m: i64| BenchTime::from_milli_minutes(1_000 * m);
/// assert_eq!(bench_days_tenths(minutes(630), minutes(360)), 18); // 1.75 days
/// ```
pub fn bench_days_tenths(bench: BenchTime, day: BenchTime) -> i64 {
    let tenths =
        divide(i128::from(bench.milli_minutes()) * 10, i128::from(day.milli_minutes()), Rounding::HalfUp);
    i64::try_from(tenths).unwrap_or(i64::MAX)
}
