//! When an order is done, leaves and arrives.

use crate::shop::Day;

/// The days of an order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dates {
    /// First working day on which the bench can take it up.
    pub first: Day,
    /// Day on which the bench is done with it.
    pub done: Day,
    /// Day on which it leaves.
    pub leaves: Day,
    /// First and last day on which it may arrive; none without a service.
    pub arrives: Option<(Day, Day)>,
    /// Whether the wanted day is kept, where one was said and there is a service.
    pub kept: Option<bool>,
    /// Last day on which to order for the wanted day; none where that has passed.
    pub order_by: Option<Day>,
    /// Whether days lie beyond those for which days off are known.
    pub estimated: bool,
    /// Days looked at: the same for the same order, always.
    pub steps: u64,
}
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no day")]
pub struct NoDay;
pub fn dates(
    _: &crate::shop::Calendar,
    _: Option<&crate::shop::Service>,
    _: pennantry_measure::BenchTime,
    _: crate::quote::When,
    _: Option<Day>,
) -> Result<Dates, NoDay> {
    Err(NoDay)
}
pub fn dates_before_all(
    _: &crate::shop::Calendar,
    _: Option<&crate::shop::Service>,
    _: pennantry_measure::BenchTime,
    _: crate::quote::When,
    _: Option<Day>,
) -> Result<Dates, NoDay> {
    Err(NoDay)
}
pub fn most_time_by(
    _: &crate::shop::Calendar,
    _: Option<&crate::shop::Service>,
    _: crate::quote::When,
    _: Day,
) -> pennantry_measure::BenchTime {
    pennantry_measure::BenchTime::ZERO
}
