//! The report of every night, without anybody's doing.
//!
//! It is due at [`DUE`] by the shop's clock, clear of the hours that clocks usually skip or
//! repeat, and belongs to that day of the shop: one report a day, whichever server makes it and
//! however often it looks. A time that a clock skips is taken as long after the gap as it lies
//! within it, one that comes twice is taken the first time (RFC 5545, section 3.3.5). What was
//! missed while no server ran is made up in the order of the days.

use std::collections::BTreeSet;
use std::sync::Arc;

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use pennantry_app::day;
use pennantry_app::stock::{at, instant as of_ledger};
use pennantry_ledger::report::{Again, ReportHead, ReportState};
use pennantry_ledger::rules::At;
use pennantry_ledger::{Error, Ledger};

use super::run::{self, Started};
use crate::convert::stock::write::date as written;
use crate::listen::Stop;
use crate::service::Service;

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

/// Days whose report is to be made, in order: of the last fourteen up to the last one that is due,
/// those of which there is no report, whatever became of it; but none of before the first report
/// there is, and none of before the day on which the stock began. Where there never was a report,
/// the last day alone; where there are later ones alone, none: a clock that is put back makes
/// nothing due again.
///
/// Of a stock in which nothing ever happened there is nothing to be made up but what lies between
/// reports of those days.
pub fn missing(last_due: Date, known: &[ReportHead], began: Option<i32>) -> Vec<i32> {
    let last_due = day(last_due).0;
    if known.is_empty() {
        return vec![last_due];
    }
    let window = last_due - MADE_UP + 1;
    let had: BTreeSet<i32> = known.iter().map(|head| head.day).filter(|day| *day <= last_due).collect();
    let first = match began {
        Some(began) => had.first().map(|first| *(first.max(&began))),
        None => had.range(window..).next().copied().or(had.last().map(|_| last_due)),
    };
    let Some(first) = first else { return Vec::new() };
    // a day that is due has its report, however short a time the stock has been there
    let first = first.max(window).min(last_due);
    (first..=last_due).filter(|day| !had.contains(day)).collect()
}

/// How long a report that failed is left alone.
const AGAIN_SECONDS: i64 = 600;

/// One look: makes whatever is due and not there, one day after the other, and goes on with
/// what another server has left. What was stopped stays so. How many were made.
///
/// # Errors
/// The store cannot be had.
pub async fn round(service: &Arc<Service>, ledger: &Ledger, due: Time, stop: &Stop) -> Result<Made, Error> {
    let now = service.now();
    let last = last_due(now, &service.catalogue().zone, due);
    let last_day = day(last).0;
    let zone = service.catalogue().zone.clone();
    let today = day_at(at(now), &zone);
    let recent = last_day.saturating_sub(MADE_UP).saturating_add(1)..=last_day;
    let mut days: Vec<(i32, Again)> = Vec::new();
    let mut known = Vec::new();
    for head in ledger.report_list(i32::MIN, i32::MAX, KNOWN).await? {
        // begun on a day to come: by a clock that was ahead
        if day_at(head.started, &zone) <= today {
            known.push(head);
            continue;
        }
        if ledger.report_disown(head.day, AHEAD, at(now)).await? {
            tracing::warn!(day = %written(head.day), "a burn-rate report of a clock that was ahead is disowned");
        }
        if recent.contains(&head.day) {
            days.push((head.day, Again::Unfinished));
        }
    }
    for head in known.iter().rev().filter(|head| recent.contains(&head.day)) {
        match head.state {
            // taken over where its lease is over, and let be otherwise
            ReportState::Running => days.push((head.day, Again::Never)),
            // unless another server has made it meanwhile
            ReportState::Failed if is_old(head, at(now)) => days.push((head.day, Again::Unfinished)),
            // made before its own day: its day has come
            ReportState::Done if is_foretold(head, &zone) => {
                days.push((head.day, Again::Unfinished));
            }
            ReportState::Failed | ReportState::Done | ReportState::Cancelled => {}
        }
    }
    let began = ledger.events(0, 1).await?.first().map(|first| day_at(first.event.at, &zone));
    days.extend(missing(last, &known, began).into_iter().map(|day| (day, Again::Never)));
    days.sort_by_key(|(day, _)| *day);
    days.dedup_by_key(|(day, _)| *day);
    let mut made = Made::default();
    for (day, anew) in days {
        if stop.has_begun() {
            break;
        }
        let Started::Here(mut told) = run::start(service, ledger, day, anew, stop).await? else { continue };
        while told.borrow_and_update().head.state == ReportState::Running && told.changed().await.is_ok() {}
        match told.borrow().head.state {
            ReportState::Done => made.done += 1,
            ReportState::Failed => made.failed += 1,
            ReportState::Running | ReportState::Cancelled => {}
        }
    }
    Ok(made)
}

/// How many reports a look has made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Made {
    /// Done.
    pub done: u32,
    /// Failed.
    pub failed: u32,
}

/// Heads that are looked at: more than are ever made up.
const KNOWN: u32 = 60;
/// Why a report of a clock that was ahead is none.
const AHEAD: &str = "it was begun by a clock that was ahead: it is made anew when its day comes";

/// The day of the shop at an instant.
fn day_at(at: At, zone: &TimeZone) -> i32 {
    day(zone.to_datetime(of_ledger(at)).date()).0
}

/// Whether it was begun before its own day; what was made in another zone is of that one's days.
fn is_foretold(head: &ReportHead, zone: &TimeZone) -> bool {
    zone.iana_name() == Some(head.zone.as_str()) && head.started < run::day_begins(head.day, zone)
}

fn is_old(head: &ReportHead, now: At) -> bool {
    // a clock that was set back makes nothing wait for ever
    let since = now.0.abs_diff(head.finished.unwrap_or(head.started).0);
    since >= AGAIN_SECONDS.unsigned_abs() * 1_000_000
}

#[cfg(test)]
mod tests {
    use super::*;

    fn zone(name: &str) -> TimeZone {
        TimeZone::get(name).unwrap()
    }

    fn date(text: &str) -> Date {
        text.parse().unwrap()
    }

    fn head(text: &str, state: ReportState) -> ReportHead {
        ReportHead {
            day: day(date(text)).0,
            state,
            runner: String::new(),
            lease_until: At(0),
            started: At(0),
            finished: None,
            done: 0,
            of: 0,
            zone: String::new(),
            revision: String::new(),
            note: String::new(),
        }
    }

    /// Clock changes of the time zone database (IANA, 2026f).
    #[test]
    fn a_time_that_is_skipped_comes_after_the_gap_and_one_that_is_doubled_comes_once() {
        let two = Time::constant(2, 0, 0, 0);
        for (name, day, due, instant_wanted) in [
            // 01:00 to 02:00 is skipped: 02:00 is there once
            ("Europe/London", "2026-03-29", two, "2026-03-29T01:00:00Z"),
            ("Europe/London", "2026-03-29", Time::constant(1, 30, 0, 0), "2026-03-29T01:30:00Z"),
            // 01:00 to 02:00 comes twice: the first time counts
            ("Europe/London", "2026-10-25", two, "2026-10-25T02:00:00Z"),
            ("Europe/London", "2026-10-25", Time::constant(1, 30, 0, 0), "2026-10-25T00:30:00Z"),
            ("Europe/Paris", "2026-03-29", two, "2026-03-29T01:00:00Z"),
            ("Europe/Paris", "2026-10-25", two, "2026-10-25T00:00:00Z"),
            ("America/New_York", "2026-03-08", two, "2026-03-08T07:00:00Z"),
            ("America/New_York", "2026-11-01", two, "2026-11-01T07:00:00Z"),
            // half an hour is skipped
            ("Australia/Lord_Howe", "2026-10-04", two, "2026-10-03T15:30:00Z"),
            // midnight itself is skipped
            ("America/Santiago", "2026-09-06", Time::constant(0, 0, 0, 0), "2026-09-06T04:00:00Z"),
            // the usual time is neither skipped nor doubled in any of these
            ("Europe/London", "2026-03-29", DUE, "2026-03-29T02:15:00Z"),
            ("Europe/Paris", "2026-10-25", DUE, "2026-10-25T02:15:00Z"),
        ] {
            let found = instant(date(day), &zone(name), due).unwrap();
            assert_eq!(found.to_string(), instant_wanted, "{name} {day} {due}");
            // it is due from that instant on, and belongs to that day for as long as it lasts
            assert_eq!(last_due(found, &zone(name), due), date(day), "{name} {day} {due}");
            let just_before = found.checked_sub(jiff::SignedDuration::from_nanos(1)).unwrap();
            assert_eq!(
                last_due(just_before, &zone(name), due),
                date(day).yesterday().unwrap(),
                "{name} {day}"
            );
        }
    }

    /// Every minute of two years in five zones: the day that is due never goes back and never
    /// leaps, whatever the clocks do.
    #[test]
    fn each_day_is_due_once_and_in_order() {
        for name in
            ["Europe/London", "Europe/Paris", "America/Santiago", "Australia/Lord_Howe", "Africa/Cairo"]
        {
            let zone = zone(name);
            for due in [DUE, Time::constant(0, 0, 0, 0), Time::constant(2, 0, 0, 0)] {
                let mut now: Timestamp = "2026-01-01T12:00:00Z".parse().unwrap();
                let mut last = last_due(now, &zone, due);
                for _ in 0..(730 * 24 * 4) {
                    now += jiff::SignedDuration::from_mins(15);
                    let next = last_due(now, &zone, due);
                    assert!(
                        next == last || next == last.tomorrow().unwrap(),
                        "{name} {due} {now}: {last} {next}"
                    );
                    last = next;
                }
            }
        }
    }

    #[test]
    fn what_was_missed_is_made_up_in_order_and_nothing_twice() {
        let today = date("2026-11-30");
        let made = |known: &[ReportHead]| -> Vec<i32> {
            missing(today, known, Some(0)).iter().map(|found| found - day(today).0).collect()
        };
        assert_eq!(made(&[]), [0], "the first one is of today alone");
        assert_eq!(made(&[head("2026-11-30", ReportState::Done)]), [0; 0]);
        for state in [ReportState::Done, ReportState::Failed, ReportState::Cancelled, ReportState::Running] {
            assert_eq!(made(&[head("2026-11-29", state)]), [0]);
            assert_eq!(
                made(&[head("2026-11-27", state), head("2026-11-20", state)]),
                [-9, -8, -7, -6, -5, -4, -2, -1, 0]
            );
        }
        // after a long time only the last fortnight
        assert_eq!(made(&[head("2025-11-30", ReportState::Done)]), (-13..=0).collect::<Vec<i32>>());
        // a gap is made up though today's is there, and none of before the first
        let holes = ["2026-11-30", "2026-11-28", "2026-11-25"].map(|date| head(date, ReportState::Done));
        assert_eq!(made(&holes), [-4, -3, -1]);
        // a new shop that has one of long ago made first has none from before its stock began
        let old = [head("2025-01-01", ReportState::Done)];
        let began = |days: i32| -> Vec<i32> {
            let began = day(today).0 - days;
            missing(today, &old, Some(began)).iter().map(|found| found - day(today).0).collect()
        };
        assert_eq!((began(0), began(2)), (vec![0], vec![-2, -1, 0]));
        assert_eq!(missing(today, &old, None), [day(today).0]);
        // a clock that was put back past the first one makes none of the day before
        assert_eq!(made(&[head("2026-12-01", ReportState::Done)]), [0; 0]);
        // one of a day to come, made under another zone, stands in nobody's way
        let both = [head("2026-12-01", ReportState::Done), head("2026-11-29", ReportState::Done)];
        assert_eq!(made(&both), [0]);
    }
}
