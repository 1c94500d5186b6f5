//! What the shop does when it is asked: the use cases.
//!
//! Between the doors and the calculation. It owns no wire, no configuration and no
//! clock: every use case takes `now`, turns it into the shop's order day once, and
//! lets the pure crates work.

pub mod quote;
pub mod report;
pub mod restock;
pub mod stock;

use std::sync::Arc;

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Span, Timestamp};
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
    /// How it buys its cloth.
    pub restock: Arc<restock::Restock>,
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

    /// Noon at the shop on a day: the instant as of which a quote of that day is worked.
    /// Where a change of the clocks skips noon, as long after it as the clocks jump.
    ///
    /// # Errors
    /// The day is at an end of the calendar.
    pub fn noon(&self, date: Date) -> Result<Timestamp, jiff::Error> {
        Ok(date.at(12, 0, 0, 0).to_zoned(self.zone.clone())?.timestamp())
    }

    /// The instant from which a quote of that order day holds no longer: the end of the
    /// last of [`Shop::valid_days`] after it.
    ///
    /// # Errors
    /// The day is at an end of the calendar.
    pub fn expires(&self, ordered: Date) -> Result<Timestamp, jiff::Error> {
        let after = Span::new().try_days(i64::from(self.shop.valid_days))?;
        first_instant(ordered.checked_add(after)?.tomorrow()?, &self.zone)
    }
}

/// The first instant of a day: its midnight, or where a change of the clocks skips that,
/// the instant of the change.
///
/// ```
/// # use pennantry_app::first_instant;
/// let cairo = jiff::tz::TimeZone::get("Africa/Cairo").unwrap();
/// // the last Friday of April begins at one o'clock (IANA time zone database, rule Egypt)
/// let first = first_instant(jiff::civil::date(2026, 4, 24), &cairo).unwrap();
/// assert_eq!(first.to_string(), "2026-04-23T22:00:00Z");
/// ```
///
/// # Errors
/// The day is at an end of the calendar.
pub fn first_instant(date: Date, zone: &TimeZone) -> Result<Timestamp, jiff::Error> {
    let begun = date.to_zoned(zone.clone())?;
    let instant = begun.timestamp();
    if begun.time() == Time::midnight() {
        return Ok(instant);
    }
    // The clocks jumped over midnight, and perhaps not from midnight itself.
    let just_after = instant.checked_add(SignedDuration::from_nanos(1))?;
    Ok(zone.preceding(just_after).next().map_or(instant, |change| change.timestamp()))
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

#[cfg(test)]
mod tests;
