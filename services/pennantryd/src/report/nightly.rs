//! The report of every night, without anybody's doing.
//!
//! It is due at [`DUE`] by the shop's clock, clear of the hours that clocks usually skip or
//! repeat, and belongs to that day of the shop: one report a day, whichever server makes it and
//! however often it looks. A time that a clock skips is taken as long after the gap as it lies
//! within it, one that comes twice is taken the first time (RFC 5545, section 3.3.5). What was
//! missed while no server ran is made up in the order of the days.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use pennantry_app::day;
use pennantry_ledger::report::ReportHead;

/// When it is due.
pub const DUE: Time = Time::constant(3, 15, 0, 0);
/// Mornings that are made up at most: those before them are of no use any longer.
const MADE_UP: i32 = 14;

/// The last day whose report is due.
pub fn last_due(now: Timestamp, zone: &TimeZone, due: Time) -> Date {
    let date = zone.to_datetime(now).date();
    match instant(date, zone, due) {
        Some(due) if due <= now => date,
        _ => date.saturating_sub(1.day()),
    }
}

/// The instant at which the report of a day is due; none at an end of the calendar.
pub fn instant(date: Date, zone: &TimeZone, due: Time) -> Option<Timestamp> {
    zone.to_ambiguous_timestamp(date.to_datetime(due)).compatible().ok()
}

/// Days whose report is to be made, in order: up to the last one that is due, from the one
/// after the last of which there is any report, whatever became of it. Where there never was
/// one, the last alone.
pub fn missing(last_due: Date, known: &[ReportHead]) -> Vec<i32> {
    let last_due = day(last_due).0;
    match known.iter().map(|head| head.day).filter(|day| *day <= last_due).max() {
        None => vec![last_due],
        Some(known) => (known.saturating_add(1).max(last_due - MADE_UP + 1)..=last_due).collect(),
    }
}
