//! Days, open and closed, to open days, weeks and use per window.
//!
//! A closed day is no observation. A movement dated on a closed day goes to the next open
//! day; what is still on its way after the last day is said, not lost. So 420 used in a
//! week of five open days are 84 an open day, and 60 a calendar day.
//!
//! Days are consecutive numbers from any first day. Weeks are given by the caller as ISO
//! years and week numbers (ISO 8601): there is no calendar in here. A lead time runs in
//! calendar days, so it is converted by counting the open days of its actual window.

use super::Error;
use super::number::{MOST, exact, quotient};
use super::series::{Bucket, Series};

/// An ISO week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Week {
    /// The ISO year, which near New Year differs from the calendar's.
    pub year: i32,
    /// 1 to 53.
    pub week: u8,
}

impl Week {
    /// Whether it is a week that can be: ISO 8601 has 52 or 53 a year.
    pub(super) fn stands(self) -> bool {
        (1..=53).contains(&self.week)
    }

    /// Whether it comes right after another, as far as that can be told without a
    /// calendar: after week 52 may come 53 or the first.
    pub(super) fn follows(self, before: Week) -> bool {
        if self.year == before.year {
            self.week == before.week.saturating_add(1)
        } else {
            before.year.checked_add(1) == Some(self.year) && self.week == 1 && before.week >= 52
        }
    }
}

/// One day as it was recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Day {
    /// Its number: one more than the day before.
    pub number: i64,
    /// The ISO week it lies in.
    pub week: Week,
    /// Whether the shop was open.
    pub open: bool,
    /// Whether there was stock to use. Of a closed day this says nothing.
    pub stocked: bool,
    /// What was used, returns already moved to the day of their issue.
    pub amount: i64,
}

/// Checked days, with what was dated on closed days moved on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Days {
    days: Vec<Day>,
    waiting: i64,
}

/// Use over a window of days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Use {
    /// All that was used.
    pub sum: f64,
    /// Days of the calendar in the window.
    pub calendar_days: usize,
    /// Open days in it.
    pub open_days: usize,
    /// Open days with stock.
    pub stocked_days: usize,
    /// Per day of the calendar.
    pub per_calendar_day: Option<f64>,
    /// Per open day; nothing where none was open.
    pub per_open_day: Option<f64>,
    /// Per open day with stock: the rate to plan with. Nothing where there was none.
    pub per_stocked_day: Option<f64>,
}

/// Weeks, and which they are.
#[derive(Debug, Clone, PartialEq)]
pub struct Weekly {
    /// Use per week.
    pub series: Series,
    /// The week of each bucket.
    pub weeks: Vec<Week>,
}

impl Days {
    /// Checks days and moves what is dated on closed ones.
    ///
    /// # Errors
    /// No day or more than 10 000; a day that does not follow the one before; a week that
    /// is none or runs back; an amount below nought or above 2⁵³.
    pub fn new(days: &[Day]) -> Result<Days, Error> {
        let first = days.first().ok_or(Error::Empty)?;
        if days.len() > MOST {
            return Err(Error::TooMany { given: days.len(), most: MOST });
        }
        let mut moved: Vec<Day> = Vec::with_capacity(days.len());
        let mut waiting = 0_i64;
        let (mut wanted, mut before) = (first.number, first.week);
        for (at, day) in days.iter().enumerate() {
            if day.number != wanted {
                return Err(Error::DayOutOfOrder { at, wanted, found: day.number });
            }
            let Week { year, week } = day.week;
            if !day.week.stands() || (day.week != before && !day.week.follows(before)) {
                return Err(Error::Week { at, year, week });
            }
            if day.amount < 0 {
                return Err(Error::Negative { at, amount: exact(day.amount).unwrap_or(f64::MIN) });
            }
            waiting = waiting.saturating_add(day.amount);
            exact(waiting).ok_or(Error::NotExact { at })?;
            let amount = if day.open { std::mem::take(&mut waiting) } else { 0 };
            moved.push(Day { amount, ..*day });
            (wanted, before) = (wanted.saturating_add(1), day.week);
        }
        Ok(Days { days: moved, waiting })
    }

    /// What was dated on closed days after the last open one: it belongs to a day to come.
    pub fn waiting(&self) -> i64 {
        self.waiting
    }

    /// Open days only, each a bucket, and the number of the day of each.
    ///
    /// # Errors
    /// [`Error::Empty`] where no day was open.
    pub fn open(&self) -> Result<(Series, Vec<i64>), Error> {
        let open: Vec<&Day> = self.days.iter().filter(|day| day.open).collect();
        let bucket = |day: &&Day| bucket(std::slice::from_ref(*day));
        let series = Series::new(&open.iter().map(bucket).collect::<Vec<_>>(), 1)?;
        Ok((series, open.iter().map(|day| day.number).collect()))
    }

    /// One bucket for each week, those without an open day too.
    ///
    /// The first and the last week can be cut short; they have fewer open days, and are
    /// taken for what they are.
    pub fn weekly(&self, usual_open_days: u32) -> Result<Weekly, Error> {
        let weeks = self.days.chunk_by(|a, b| a.week == b.week);
        let buckets: Vec<Bucket> = weeks.clone().map(bucket).collect();
        let weeks = weeks.filter_map(|days| days.first().map(|day| day.week)).collect();
        Ok(Weekly { series: Series::new(&buckets, usual_open_days)?, weeks })
    }

    /// Use over the last so many days of the calendar, or all of them where there are
    /// fewer.
    pub fn window(&self, last: usize) -> Use {
        let days = self.days.iter().rev().take(last);
        let open_days = days.clone().filter(|day| day.open).count();
        let stocked_days = days.clone().filter(|day| day.open && day.stocked).count();
        let calendar_days = days.len();
        let sum: f64 = days.filter_map(|day| exact(day.amount)).sum();
        let per = |days: usize| quotient(sum, super::number::count(days));
        Use {
            sum,
            calendar_days,
            open_days,
            stocked_days,
            per_calendar_day: per(calendar_days),
            per_open_day: per(open_days),
            per_stocked_day: per(stocked_days),
        }
    }
}

/// Some days as one bucket. Their sum cannot overflow a `Series`' bound unseen: it
/// saturates far above it.
fn bucket(days: &[Day]) -> Bucket {
    let open = days.iter().filter(|day| day.open);
    let number = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    Bucket {
        amount: days.iter().fold(0, |sum: i64, day| sum.saturating_add(day.amount)),
        open_days: number(open.clone().count()),
        stocked_days: number(open.filter(|day| day.stocked).count()),
    }
}
