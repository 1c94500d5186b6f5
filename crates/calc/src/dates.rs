//! When an order is done, leaves and arrives.
//!
//! | day | rule |
//! |---|---|
//! | capacity of a day | bench time of all who are in on it; none where the shop is closed |
//! | working day | a day that has capacity |
//! | first | the first working day from today on; after the cut-off of a working day the next |
//! | load | worked from its day on, before the order; what a day cannot hold goes on to the next |
//! | done | the day on which the order's last minute is worked, in the time that the load leaves |
//! | leaves | `rest_days` working days after done |
//! | arrives | least and most transit after it leaves, in the carrier's own days |
//!
//! Days are counted *after* the day from which they count: an order that is done on a
//! Friday and rests for one working day leaves on Monday. A parcel that is posted on a
//! day on which the carrier is off counts from the carrier's next day. This is how
//! lead times are told in working days (common practice, no source).
//!
//! Load of earlier days was worked on them, as far as they could hold it; what they could
//! not is still to be done today. The order may be split over days. One that takes no bench
//! time is done on its first day.
//!
//! A worked example: 300 minutes a day, Monday to Friday, and an order of 88. With 180
//! minutes booked, 120 are free today and it is done today. With 600 booked, today and
//! tomorrow are full and it is done on the third working day.
//!
//! # The last day to order
//!
//! It is worked out with the load just as it is given: asking again on that day, with
//! nothing changed, keeps the wanted day, and asking on the day after does not. What is free
//! on a day does not depend on when it is asked, so the search goes back from the last day
//! on which the order may be done, and the first day from which enough is free is the last
//! day to order.
//!
//! Nothing is rounded: all is whole thousandths of a minute and whole days.

use pennantry_measure::BenchTime;

use crate::quote::When;
use crate::shop::{Calendar, Day, Service};

mod bench;
mod count;
#[cfg(test)]
mod tests;

use bench::Bench;
pub use count::works;
use count::{carries, nth, nth_back};

/// Days looked at, at most, from today until the order leaves, and as many again until
/// it arrives: three years and a little (a choice of this program, no source). A bench
/// that is shut or booked for longer has no day to promise.
pub const HORIZON: u32 = 1_100;

/// The days of an order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dates {
    /// The working day from which it counts: today, or the next after the cut-off. What is
    /// promised already may leave nothing free on it.
    pub first: Day,
    /// Day on which the bench is done with it.
    pub done: Day,
    /// Day on which it leaves.
    pub leaves: Day,
    /// First and last day on which it may arrive; none without a service.
    pub arrives: Option<(Day, Day)>,
    /// Whether the wanted day is kept, where one was said and that can be told.
    pub kept: Option<bool>,
    /// Last day on which to order for the wanted day; none where that has passed. It is
    /// today after the cut-off only where ordering now still keeps the wanted day.
    pub order_by: Option<Day>,
    /// Whether days lie beyond those for which days off are known.
    pub estimated: bool,
    /// The same of the last day to order, which counts back from the wanted day.
    pub order_by_estimated: bool,
    /// Days looked at: the same for the same order, always.
    pub steps: u64,
}

/// Why there is no day to promise. Every day named is within [`HORIZON`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoDay {
    /// Nobody works at the bench.
    #[error("the bench has no working day from {from} to {to}")]
    Closed {
        /// First day looked at.
        from: Day,
        /// Last day looked at.
        to: Day,
    },
    /// The load, the order or both are more than the bench can do.
    #[error("with what it has promised already, the bench is not done with this order by {to}")]
    Booked {
        /// Last day looked at.
        to: Day,
    },
    /// The order is done, and too few working days follow for it to rest.
    #[error("done on {done}, it has not rested for its working days by {to}")]
    Rest {
        /// Day on which it is done.
        done: Day,
        /// Last day looked at.
        to: Day,
    },
    /// The service has too few days to carry it.
    #[error("posted on {from}, it has not arrived by {to}: the service has too few days on which it carries")]
    Carrier {
        /// Day on which it leaves.
        from: Day,
        /// Last day looked at.
        to: Day,
    },
}

/// The days of an order that takes `time`, worked after all that is booked.
///
/// # Errors
/// [`NoDay`] where one of its days does not come within [`HORIZON`].
///
/// ```
/// use pennantry_calc::dates::dates;
/// use pennantry_calc::quote::When;
/// use pennantry_calc::shop::{Booked, Calendar, Day, Person};
/// use pennantry_measure::BenchTime;
/// let minutes = |m: i64| BenchTime::from_milli_minutes(m * 1_000);
/// let tuesday = Day(20_781); // 24 November 2026
/// let calendar = Calendar {
///     people: vec![Person {
///         name: String::from("Ada"),
///         week: [300, 300, 300, 300, 300, 0, 0].map(minutes),
///         off: vec![],
///     }],
///     closed: vec![],
///     known_to: Day(21_183), // the end of 2027
///     cut_off: 14 * 60,
///     rest_days: 1,
///     load: vec![Booked { day: tuesday, time: minutes(600) }],
///     rush: None,
/// };
/// let when = When { today: tuesday, late: false };
/// // two full days, Thursday at the bench, a day of rest
/// let found = dates(&calendar, None, minutes(88), when, None)?;
/// assert_eq!((found.first, found.done, found.leaves), (tuesday, tuesday + 2, tuesday + 3));
/// # Ok::<(), pennantry_calc::dates::NoDay>(())
/// ```
pub fn dates(
    calendar: &Calendar,
    service: Option<&Service>,
    time: BenchTime,
    when: When,
    wanted: Option<Day>,
) -> Result<Dates, NoDay> {
    days_of(&Bench { calendar, load: &calendar.load }, service, time, when, wanted)
}

/// The days of a rushed order: it is worked before all that is booked, as if there were
/// no load. [`Dates::order_by`] is the last day on which to order it so.
///
/// # Errors
/// [`NoDay`] as for [`dates`].
pub fn dates_before_all(
    calendar: &Calendar,
    service: Option<&Service>,
    time: BenchTime,
    when: When,
    wanted: Option<Day>,
) -> Result<Dates, NoDay> {
    days_of(&Bench { calendar, load: &[] }, service, time, when, wanted)
}

/// The most bench time that an order may take and still arrive by the wanted day,
/// worked after all that is booked; nought where no time would do. Without a service,
/// to leave by that day.
///
/// The exact inverse of [`dates`]: where an order of no time keeps the wanted day, one
/// of this time does too, and one of a thousandth of a minute more does not.
///
/// ```
/// use pennantry_calc::dates::most_time_by;
/// use pennantry_calc::quote::When;
/// use pennantry_calc::shop::{Booked, Calendar, Day, Person};
/// use pennantry_measure::BenchTime;
/// let minutes = |m: i64| BenchTime::from_milli_minutes(m * 1_000);
/// let tuesday = Day(20_781);
/// let calendar = Calendar {
///     people: vec![Person { name: String::from("Ada"), week: [minutes(300); 7], off: vec![] }],
///     closed: vec![],
///     known_to: Day(21_183),
///     cut_off: 14 * 60,
///     rest_days: 0,
///     load: vec![Booked { day: tuesday, time: minutes(480) }],
///     rush: None,
/// };
/// // nothing is free today, 120 minutes tomorrow
/// let when = When { today: tuesday, late: false };
/// assert_eq!(most_time_by(&calendar, None, when, tuesday + 1), minutes(120));
/// ```
pub fn most_time_by(calendar: &Calendar, service: Option<&Service>, when: When, wanted: Day) -> BenchTime {
    most_of(&Bench { calendar, load: &calendar.load }, service, when, wanted)
}

/// The same of a rushed order: the exact inverse of [`dates_before_all`].
pub fn most_time_before_all(
    calendar: &Calendar,
    service: Option<&Service>,
    when: When,
    wanted: Day,
) -> BenchTime {
    most_of(&Bench { calendar, load: &[] }, service, when, wanted)
}

/// The working day that comes `count` working days after the first one from `from` on;
/// none where that is not within [`HORIZON`].
///
/// ```
/// use pennantry_calc::dates::working_day_after;
/// use pennantry_calc::shop::{Calendar, Day, Person};
/// use pennantry_measure::BenchTime;
/// let minutes = |m: i64| BenchTime::from_milli_minutes(m * 1_000);
/// let calendar = Calendar {
///     people: vec![Person {
///         name: String::from("Ada"),
///         week: [300, 300, 300, 300, 300, 0, 0].map(minutes),
///         off: vec![],
///     }],
///     closed: vec![Day(20_784)], // Friday 27 November 2026
///     known_to: Day(21_183),
///     cut_off: 14 * 60,
///     rest_days: 0,
///     load: vec![],
///     rush: None,
/// };
/// assert_eq!(working_day_after(&calendar, Day(20_784), 0), Some(Day(20_787))); // Monday
/// assert_eq!(working_day_after(&calendar, Day(20_783), 1), Some(Day(20_787)));
/// ```
pub fn working_day_after(calendar: &Calendar, from: Day, count: u32) -> Option<Day> {
    nth(from, count, HORIZON, &mut 0, |day| works(calendar, day))
}

fn days_of(
    bench: &Bench,
    service: Option<&Service>,
    time: BenchTime,
    when: When,
    wanted: Option<Day>,
) -> Result<Dates, NoDay> {
    let mut steps = 0;
    let calendar = bench.calendar;
    let to = last_of(when.today);
    let (first, done) = bench.take(time, when, &mut steps)?;
    let leaves =
        nth(done, calendar.rest_days, days_between(done, to), &mut steps, |day| works(calendar, day))
            .ok_or(NoDay::Rest { done, to })?;
    let mut found = Dates {
        first,
        done,
        leaves,
        arrives: None,
        kept: None,
        order_by: None,
        estimated: leaves > calendar.known_to,
        order_by_estimated: false,
        steps,
    };
    let Some(service) = service else { return Ok(found) };
    let arrives = arrival(service, leaves, &mut steps)?;
    found.arrives = Some(arrives);
    found.estimated |= arrives.1 > calendar.known_to;
    if let Some(wanted) = wanted {
        let kept = arrives.1 <= wanted;
        found.kept = Some(kept);
        if kept {
            // a later day than today where there is one within the cap of the search;
            // ordering now keeps it in any case
            let later = last_done(calendar, Some(service), wanted, wanted, &mut steps)
                .and_then(|last| bench.order_by(time, last, when.today, &mut steps));
            found.order_by = Some(later.unwrap_or(when.today));
            found.order_by_estimated = wanted > calendar.known_to;
        }
    }
    found.steps = steps;
    Ok(found)
}

fn most_of(bench: &Bench, service: Option<&Service>, when: When, wanted: Day) -> BenchTime {
    let end = last_of(when.today);
    // nothing that leaves in time arrives later than this, and a day beyond asks no more
    let wanted = wanted.min(last_of(end));
    last_done(bench.calendar, service, wanted, end, &mut 0)
        .map_or(BenchTime::ZERO, |last| bench.free(when, last))
}

/// First and last day on which a parcel may arrive.
fn arrival(service: &Service, leaves: Day, steps: &mut u64) -> Result<(Day, Day), NoDay> {
    let (least, most) = ordered(service.transit);
    let to = last_of(leaves);
    let on = |day| carries(service, day);
    let both = nth(leaves, least, HORIZON, steps, on).and_then(|first| {
        nth(first, most - least, days_between(first, to), steps, on).map(|last| (first, last))
    });
    both.ok_or(NoDay::Carrier { from: leaves, to })
}

/// The last working day on which an order may be done to leave by `end` and to arrive
/// by the wanted day.
fn last_done(
    calendar: &Calendar,
    service: Option<&Service>,
    wanted: Day,
    end: Day,
    steps: &mut u64,
) -> Option<Day> {
    let posted = match service {
        Some(service) => {
            nth_back(wanted, ordered(service.transit).1, 2 * HORIZON, steps, |day| carries(service, day))?
        }
        None => wanted,
    };
    nth_back(posted.min(end), calendar.rest_days, 2 * HORIZON, steps, |day| works(calendar, day))
}

fn ordered((one, other): (u32, u32)) -> (u32, u32) {
    (one.min(other), one.max(other))
}

/// The last day looked at from `day` on.
fn last_of(day: Day) -> Day {
    day + i32::try_from(HORIZON).unwrap_or(i32::MAX) - 1
}

/// How many days there are from `from` to `to`, both counted.
fn days_between(from: Day, to: Day) -> u32 {
    u32::try_from(i64::from(to.0) - i64::from(from.0) + 1).unwrap_or(0)
}
