//! Lists of values: texts, lengths, numbers and days.

use jiff::civil::Date;
use pennantry_calc::shop::Day;
use pennantry_measure::bounds::Bound;
use pennantry_measure::{BenchTime, Length};
use toml::de::DeValue;

use super::node::{Key, Node, Table, places};

/// The day from which days are numbered.
const FIRST: Date = Date::constant(1970, 1, 1);
/// Days that a catalogue may name.
pub const DAYS: Bound<Date> = Bound { least: Date::constant(2000, 1, 1), most: Date::constant(2199, 12, 31) };
const DAY_FORM: &str = "a day from \"2000-01-01\" to \"2199-12-31\" in quotes, year, month and day";
const TWICE: &str = "is in this list already: leave one of the two out";
const TIME_FORM: &str = "a time of the day from \"00:00\" to \"24:00\" in quotes";

/// As many entries as it takes, neither more nor fewer.
pub(super) const fn exactly(count: usize) -> Bound<usize> {
    Bound { least: count, most: count }
}

impl<'d> Table<'_, 'd, '_> {
    /// A list, with its entries read one by one; those beyond the most are not looked at.
    pub(super) fn entries<T>(
        &mut self,
        key: Key,
        form: &str,
        count: Bound<usize>,
        mut read: impl FnMut(&mut Self, &Node<'d>) -> Option<T>,
    ) -> Option<Vec<T>> {
        let node = self.required(key, form)?;
        let DeValue::Array(list) = node.value else {
            self.note_found(&node, &format!("is not a list: write {form} ({})", key.what));
            return None;
        };
        let counts = self.counts(&node, list, count, key.what);
        let entries = places(list, &node).into_iter().take(count.most);
        let read: Vec<Option<T>> = entries.map(|entry| read(self, &entry)).collect();
        read.into_iter().collect::<Option<Vec<T>>>().filter(|_| counts)
    }

    /// A list of texts, each once.
    pub(super) fn texts<T>(
        &mut self,
        key: Key,
        form: &str,
        count: Bound<usize>,
        mut read: impl FnMut(&mut Self, &Node<'d>, &str) -> Option<T>,
    ) -> Option<Vec<T>> {
        let mut seen: Vec<&str> = Vec::new();
        self.entries(key, form, count, |table, entry| {
            let text = table.text_of(entry, key, "a name in quotes")?;
            if seen.contains(&text) {
                table.note_found(entry, TWICE);
            }
            seen.push(text);
            read(table, entry, text)
        })
    }

    /// A list of words, each one out of a few and each once.
    pub(super) fn choices<T: Copy>(
        &mut self,
        key: Key,
        form: &str,
        count: Bound<usize>,
        of: &[(&str, T)],
    ) -> Option<Vec<T>> {
        self.texts(key, form, count, |table, entry, _| table.choice_of(entry, key, of))
    }

    /// A list of lengths.
    pub(super) fn lengths(
        &mut self,
        key: Key,
        form: &str,
        count: Bound<usize>,
        bound: Bound<Length>,
    ) -> Option<Vec<Length>> {
        self.entries(key, form, count, |table, entry| table.length_of(entry, key, bound))
    }

    /// Bench time on each day of the week, Monday first.
    pub(super) fn week(&mut self, key: Key, bound: Bound<i64>) -> Option<[BenchTime; 7]> {
        let form = "seven times in square brackets, Monday first, such as [60, 60, 60, 60, 60, 0, 0]";
        let times =
            self.entries(key, form, exactly(7), |table, entry| table.minutes_of(entry, key, bound))?;
        times.try_into().ok()
    }

    /// Days in square brackets, each once, put in order.
    pub(super) fn days(&mut self, key: Key) -> Option<Vec<Day>> {
        let form = "days in square brackets, such as [\"2026-12-25\", \"2027-01-01\"]";
        let count = Bound { least: 0, most: 1_000 };
        let mut seen: Vec<Day> = Vec::new();
        let mut days = self.entries(key, form, count, |table, entry| {
            let day = table.day_of(entry, key)?;
            if seen.contains(&day) {
                table.note_found(entry, TWICE);
            }
            seen.push(day);
            Some(day)
        })?;
        days.sort_unstable();
        Some(days)
    }

    /// One day.
    pub(super) fn day(&mut self, key: Key) -> Option<Day> {
        let node = self.required(key, DAY_FORM)?;
        self.day_of(&node, key)
    }

    fn day_of(&mut self, node: &Node<'d>, key: Key) -> Option<Day> {
        let text = self.text_of(node, key, DAY_FORM)?;
        let Some(date) = date(text) else {
            return self.accept(node, key, DAY_FORM, None, "is no day of the calendar");
        };
        let day = DAYS.holds(date).then(|| number_of(date)).flatten();
        self.accept(node, key, DAY_FORM, day, "is out of range")
    }

    /// A time of the day, in minutes after midnight.
    pub(super) fn time_of_day(&mut self, key: Key) -> Option<u32> {
        let node = self.required(key, TIME_FORM)?;
        let text = self.text_of(&node, key, TIME_FORM)?;
        self.accept(&node, key, TIME_FORM, minutes_after_midnight(text), "is no time of the day")
    }
}

/// A day of the calendar, written `YYYY-MM-DD` and in no other way.
fn date(text: &str) -> Option<Date> {
    let digit_or_hyphen = |(byte, place): (u8, usize)| match place {
        4 | 7 => byte == b'-',
        _ => byte.is_ascii_digit(),
    };
    let written = text.len() == 10 && text.bytes().zip(0..).all(digit_or_hyphen);
    if written { text.parse().ok() } else { None }
}

fn number_of(date: Date) -> Option<Day> {
    FIRST.until(date).ok().map(|span| Day(span.get_days()))
}

/// `14:00` is 840; `24:00` is the end of the day.
fn minutes_after_midnight(text: &str) -> Option<u32> {
    let (hours, minutes) = text.split_once(':')?;
    let two_digits = |part: &str| part.len() == 2 && part.bytes().all(|byte| byte.is_ascii_digit());
    if !two_digits(hours) || !two_digits(minutes) {
        return None;
    }
    let (hours, minutes) = (hours.parse::<u32>().ok()?, minutes.parse::<u32>().ok()?);
    Some(hours * 60 + minutes).filter(|of_day| minutes < 60 && *of_day <= 24 * 60)
}
