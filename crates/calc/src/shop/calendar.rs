//! When the bench works, and what it has promised already.

use std::fmt;
use std::ops::{Add, Sub};

use pennantry_measure::{BenchTime, Percent};

/// A day, numbered from the first of January 1970. What calendar it is on is the
/// caller's affair: nothing here reads a clock.
///
/// ```
/// use pennantry_calc::shop::Day;
/// // 24 November 2026 is a Tuesday
/// assert_eq!(Day(20_781).weekday(), 1);
/// assert_eq!(Day(0).weekday(), 3);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(pub i32);

impl Day {
    /// The day of the week, Monday 0 to Sunday 6.
    pub fn weekday(self) -> usize {
        usize::try_from((self.0.rem_euclid(7) + 3) % 7).unwrap_or(0)
    }
}

impl Add<i32> for Day {
    type Output = Day;
    fn add(self, days: i32) -> Day {
        Day(self.0.saturating_add(days))
    }
}

impl Sub<i32> for Day {
    type Output = Day;
    fn sub(self, days: i32) -> Day {
        Day(self.0.saturating_sub(days))
    }
}

/// As `YYYY-MM-DD` in the Gregorian calendar.
///
/// ```
/// use pennantry_calc::shop::Day;
/// assert_eq!(Day(20_781).to_string(), "2026-11-24");
/// assert_eq!(Day(11_016).to_string(), "2000-02-29");
/// ```
impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // days from 1 March 0000, in eras of 400 years: Hinnant, "chrono-compatible
        // low-level date algorithms" (published)
        let z = i64::from(self.0) + 719_468;
        let era = z.div_euclid(146_097);
        let day_of_era = z.rem_euclid(146_097);
        let year_of_era =
            (day_of_era - day_of_era / 1_460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
        let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
        let shifted = (5 * day_of_year + 2) / 153;
        let day = day_of_year - (153 * shifted + 2) / 5 + 1;
        let month = if shifted < 10 { shifted + 3 } else { shifted - 9 };
        let year = year_of_era + era * 400 + i64::from(month <= 2);
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

/// When the bench works.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Calendar {
    /// Who works at the bench. Never empty.
    pub people: Vec<Person>,
    /// Days on which nobody works, in order.
    pub closed: Vec<Day>,
    /// Last day for which the days off are known; what falls after it is an estimate.
    pub known_to: Day,
    /// Time of the day from which an order counts from the next working day, in minutes
    /// after midnight at the shop.
    pub cut_off: u32,
    /// Working days that an order rests between the bench and the post.
    pub rest_days: u32,
    /// Bench time promised already, in the order of the days.
    pub load: Vec<Booked>,
    /// What it costs to be made before all that is promised already, as a share of the
    /// goods' price; none where the shop does not offer that.
    pub rush: Option<Percent>,
}

/// Who works at the bench.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// Name.
    pub name: String,
    /// Bench time on each day of the week, Monday first.
    pub week: [BenchTime; 7],
    /// Days off, in order.
    pub off: Vec<Day>,
}

/// Bench time promised already. What a day cannot hold goes on to the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Booked {
    /// The day from which it is worked.
    pub day: Day,
    /// How much.
    pub time: BenchTime,
}

impl Calendar {
    /// The most bench time that a day of an ordinary week has: one bench day.
    pub fn bench_day(&self) -> BenchTime {
        let of = |weekday: usize| {
            self.people
                .iter()
                .filter_map(|person| person.week.get(weekday))
                .fold(BenchTime::ZERO, |sum, time| sum + *time)
        };
        (0..7).map(of).max().unwrap_or(BenchTime::ZERO)
    }
}
