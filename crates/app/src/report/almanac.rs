//! The days around a morning: which week each lies in, and whether the bench is open.

use pennantry_forecast::demand::days::Week;

use super::Morning;
use super::words::{date, monday};

/// Weeks of the past that are looked at: ten years.
pub(super) const PAST_WEEKS: i32 = 520;
/// Weeks to come that are looked at, that of the morning among them: two years.
pub(super) const COMING_WEEKS: i32 = 104;

/// Days in a row.
#[derive(Debug, Clone)]
pub(super) struct Almanac {
    /// The day of the report.
    pub today: i32,
    /// The Monday of its week.
    pub monday: i32,
    /// Open days that a week has as a rule: as most weeks of the last year have, the greater of
    /// two that are as many; 1 at the least.
    pub usual: u32,
    first: i32,
    days: Vec<(Week, bool)>,
}

impl Almanac {
    pub(super) fn of(morning: &Morning<'_>) -> Almanac {
        let today = morning.today;
        let this = monday(today);
        let first = this.saturating_sub(PAST_WEEKS * 7);
        let end = this.saturating_add(COMING_WEEKS * 7);
        let days = (first..end).map(|day| {
            let iso = date(day).iso_week_date();
            let week = Week { year: i32::from(iso.year()), week: iso.week().unsigned_abs() };
            (week, (morning.open)(day))
        });
        let mut almanac = Almanac { today, monday: this, usual: 1, first, days: days.collect() };
        almanac.usual = almanac.most_common();
        almanac
    }

    fn most_common(&self) -> u32 {
        let mut often = [0_u32; 8];
        for week in 1..=52 {
            let from = self.monday.saturating_sub(7 * week);
            if let Some(times) = often.get_mut(self.open_between(from, from.saturating_add(7)).count()) {
                *times += 1;
            }
        }
        let most = (1..8_u32).zip(often.iter().skip(1)).max_by_key(|(_, times)| **times);
        most.filter(|(_, times)| **times > 0).map_or(1, |(days, _)| days)
    }

    /// The first day that is looked at.
    pub(super) fn first(&self) -> i32 {
        self.first
    }

    /// The day after the last one that is looked at.
    pub(super) fn end(&self) -> i32 {
        let days = i32::try_from(self.days.len()).unwrap_or(i32::MAX);
        self.first.saturating_add(days)
    }

    fn at(&self, day: i32) -> Option<(Week, bool)> {
        let place = i64::from(day) - i64::from(self.first);
        self.days.get(usize::try_from(place).ok()?).copied()
    }

    /// The week of a day; of one that is not looked at, that of the morning.
    pub(super) fn week(&self, day: i32) -> Week {
        let this = || self.at(self.today).map_or(Week { year: 1970, week: 1 }, |day| day.0);
        self.at(day).map_or_else(this, |day| day.0)
    }

    /// Whether the bench is open; not on a day that is not looked at.
    pub(super) fn open(&self, day: i32) -> bool {
        self.at(day).is_some_and(|day| day.1)
    }

    /// Open days from one day up to, and without, another.
    pub(super) fn open_between(&self, from: i32, to: i32) -> impl Iterator<Item = i32> {
        (from.max(self.first)..to.min(self.end())).filter(|day| self.open(*day))
    }
}
