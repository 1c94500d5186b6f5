//! Which days count, and counting them.

use crate::shop::{Calendar, Day, Service};

/// Bench time of a day in thousandths of a minute: of all who are in, where the shop
/// is open.
pub fn capacity(calendar: &Calendar, day: Day) -> i128 {
    let weekday = day.weekday();
    let mut sum = 0;
    for person in &calendar.people {
        let time = person.week.get(weekday).map_or(0, |time| time.milli_minutes());
        if time > 0 && !has(&person.off, day) {
            sum += i128::from(time);
        }
    }
    if sum > 0 && has(&calendar.closed, day) { 0 } else { sum }
}

/// Whether anybody works at the bench on that day.
pub fn works(calendar: &Calendar, day: Day) -> bool {
    capacity(calendar, day) > 0
}

/// Whether the service carries on that day.
pub fn carries(service: &Service, day: Day) -> bool {
    service.week.get(day.weekday()).copied().unwrap_or(false) && !has(&service.closed, day)
}

/// Whether a day is in a list that is in order.
fn has(days: &[Day], day: Day) -> bool {
    days.binary_search(&day).is_ok()
}

/// The day of a kind that comes `count` such days after the first one from `from` on;
/// none where it is not among the `limit` days from there.
pub fn nth(from: Day, count: u32, limit: u32, steps: &mut u64, on: impl Fn(Day) -> bool) -> Option<Day> {
    find(from, 1, count, limit, steps, on)
}

/// The same towards the past: `count` such days before the last one up to `from`.
pub fn nth_back(from: Day, count: u32, limit: u32, steps: &mut u64, on: impl Fn(Day) -> bool) -> Option<Day> {
    find(from, -1, count, limit, steps, on)
}

fn find(
    from: Day,
    way: i32,
    count: u32,
    limit: u32,
    steps: &mut u64,
    on: impl Fn(Day) -> bool,
) -> Option<Day> {
    let (mut day, mut left) = (from, count);
    for _ in 0..limit {
        *steps += 1;
        if on(day) {
            if left == 0 {
                return Some(day);
            }
            left -= 1;
        }
        day = day + way;
    }
    None
}
