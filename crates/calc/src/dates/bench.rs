//! What the bench has free, day by day.

use pennantry_measure::BenchTime;

use super::count::capacity;
use super::{HORIZON, NoDay, last_of};
use crate::quote::When;
use crate::shop::{Booked, Calendar, Day};

/// A calendar and the load that goes before the order.
pub struct Bench<'a> {
    pub calendar: &'a Calendar,
    pub load: &'a [Booked],
}

/// A day at the bench, in thousandths of a minute.
struct AtBench {
    day: Day,
    capacity: i128,
    /// What the load leaves of it.
    free: i128,
}

impl Bench<'_> {
    /// The days from today on, what is left of the load carried from each to the next. Load
    /// of earlier days was worked on them, as far as they could hold it.
    fn days(&self, today: Day) -> impl Iterator<Item = AtBench> {
        let horizon = i32::try_from(HORIZON).unwrap_or(i32::MAX);
        // what was promised longer ago than the horizon is taken to begin there
        let start = self.load.first().map_or(today, |booked| booked.day.max(today - horizon).min(today));
        let (mut load, mut left, mut next) = (self.load, 0, start);
        let days = std::iter::repeat_with(move || {
            let day = next;
            next = next + 1;
            while let Some((booked, later)) = load.split_first()
                && booked.day <= day
            {
                left += minutes(booked.time);
                load = later;
            }
            let capacity = capacity(self.calendar, day);
            let worked = capacity.min(left);
            left -= worked;
            AtBench { day, capacity, free: capacity - worked }
        });
        let before = today.0.saturating_sub(start.0);
        days.skip(usize::try_from(before).unwrap_or(0)).take(usize::try_from(HORIZON).unwrap_or(usize::MAX))
    }

    /// The day from which an order is worked and the day on which it is done.
    pub fn take(&self, time: BenchTime, when: When, steps: &mut u64) -> Result<(Day, Day), NoDay> {
        let (mut first, mut left) = (None, minutes(time));
        for at in self.days(when.today) {
            *steps += 1;
            if !at.takes_up(when) {
                continue;
            }
            let first = *first.get_or_insert(at.day);
            left -= at.free;
            if left <= 0 {
                return Ok((first, at.day));
            }
        }
        let to = last_of(when.today);
        Err(match first {
            Some(_) => NoDay::Booked { to },
            None => NoDay::Closed { from: when.today + i32::from(when.late), to },
        })
    }

    /// What is free for an order up to and including the day `last`.
    pub fn free(&self, when: When, last: Day) -> BenchTime {
        let days = self.days(when.today).take_while(|at| at.day <= last);
        let free = days.filter(|at| at.takes_up(when)).map(|at| at.free).sum::<i128>();
        BenchTime::from_milli_minutes(i64::try_from(free).unwrap_or(i64::MAX))
    }

    /// The last day after today from which an order finds its time free up to the working
    /// day `last`.
    pub fn order_by(&self, time: BenchTime, last: Day, today: Day, steps: &mut u64) -> Option<Day> {
        let time = minutes(time);
        // a wanted day years ahead is looked at from its own end
        let from = today.max(last - i32::try_from(HORIZON).unwrap_or(i32::MAX) + 1);
        let days = self.days(from).take_while(|at| at.day <= last).filter(|at| at.day > today);
        let free: Vec<(Day, i128)> = days.map(|at| (at.day, at.free)).collect();
        let mut sum = 0;
        for (day, free) in free.into_iter().rev() {
            *steps += 1;
            sum += free;
            // an order of no time needs nothing free
            if sum >= time {
                return Some(day);
            }
        }
        None
    }
}

impl AtBench {
    /// Whether an order may be worked on that day: a working day, and not the one whose
    /// cut-off has passed.
    fn takes_up(&self, when: When) -> bool {
        self.capacity > 0 && !(when.late && self.day == when.today)
    }
}

/// In thousandths of a minute, never below nought, wide enough for any sum.
fn minutes(time: BenchTime) -> i128 {
    i128::from(time.milli_minutes().max(0))
}
