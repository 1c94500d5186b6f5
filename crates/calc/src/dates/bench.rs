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
    /// The days from today on, what is left of the load carried from each to the next.
    fn days(&self, today: Day) -> impl Iterator<Item = AtBench> {
        let (mut load, mut left, mut next) = (self.load, 0, today);
        let days = std::iter::repeat_with(move || {
            let day = next;
            next = next + 1;
            // on the first day all that is older too
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
        days.take(usize::try_from(HORIZON).unwrap_or(usize::MAX))
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

    /// The last day after today on which an order finds its time free by the working
    /// day `last`, with all load up to then still to be done.
    pub fn order_by(&self, time: BenchTime, last: Day, today: Day, steps: &mut u64) -> Option<Day> {
        let time = minutes(time);
        let (mut load, _) = self.load.split_at(self.load.partition_point(|booked| booked.day <= last));
        let whole: i128 = load.iter().map(|booked| minutes(booked.time)).sum();
        // of the days from `day` to `last`: capacity, load, and the most that load was above it
        let (mut held, mut booked, mut over) = (0, 0, 0);
        let mut day = last;
        for _ in 0..HORIZON {
            if day <= today {
                break;
            }
            *steps += 1;
            held += capacity(self.calendar, day);
            // an order of no time needs nothing free
            if time == 0 || held - whole + over >= time {
                return Some(day);
            }
            while let Some((at, sooner)) = load.split_last()
                && at.day >= day
            {
                booked += minutes(at.time);
                load = sooner;
            }
            over = over.max(booked - held);
            day = day - 1;
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
