//! What the shop does when it is asked: the use cases.
//!
//! Between the doors and the calculation. It owns no wire, no configuration and no
//! clock: every use case takes `now`, turns it into the shop's order day once, and
//! lets the pure crates work.

pub mod quote;

use std::sync::Arc;

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use pennantry_calc::quote::When;
use pennantry_calc::shop::{Day, Shop};

/// A catalogue as it was read: quotes are computed on a snapshot of it.
#[derive(Debug, Clone)]
pub struct Catalogue {
    /// The shop.
    pub shop: Arc<Shop>,
    /// Digest of the file it was read from.
    pub revision: String,
    /// Where the shop's clock hangs.
    pub zone: TimeZone,
}

impl Catalogue {
    /// The shop's calendar day at an instant.
    ///
    /// Half past midnight in London summer time is already the next day there:
    ///
    /// ```
    /// # use pennantry_app::order_day;
    /// let london = jiff::tz::TimeZone::get("Europe/London").unwrap();
    /// let now: jiff::Timestamp = "2026-07-01T23:30:00Z".parse().unwrap();
    /// assert_eq!(order_day(now, &london).to_string(), "2026-07-02");
    /// ```
    pub fn order_day(&self, now: Timestamp) -> Date {
        order_day(now, &self.zone)
    }
}

impl Catalogue {
    /// The shop's day at an instant, and whether its cut-off has passed on it.
    pub fn when(&self, now: Timestamp) -> When {
        let local = self.zone.to_datetime(now);
        let minutes = u32::try_from(i32::from(local.hour()) * 60 + i32::from(local.minute())).unwrap_or(0);
        When { today: day(local.date()), late: minutes >= self.shop.calendar.cut_off }
    }
}

/// A day of the calendar as a numbered one.
///
/// ```
/// # use pennantry_app::day;
/// use pennantry_calc::shop::Day;
/// assert_eq!(day(jiff::civil::date(2026, 11, 24)), Day(20_781));
/// assert_eq!(day(jiff::civil::date(1969, 12, 31)), Day(-1));
/// ```
pub fn day(date: Date) -> Day {
    let since = date.duration_since(jiff::civil::date(1970, 1, 1)).as_hours() / 24;
    Day(i32::try_from(since).unwrap_or(i32::MAX))
}

/// The calendar day at an instant in a zone.
pub fn order_day(now: Timestamp, zone: &TimeZone) -> Date {
    zone.to_datetime(now).date()
}
