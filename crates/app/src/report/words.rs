//! How lengths and days read in a sentence.

use std::fmt;

use jiff::civil::Date;
use pennantry_measure::Length;

/// Days from the first of January 1970 that a calendar of ours has: up to the year 9000 either
/// way, so that whatever is added to one of them still has a date.
const MOST_DAY: i32 = 2_500_000;

/// A length in metres, to the centimetre, and finer where it is not a whole one: `4.00 m`,
/// `0.125 m`.
pub(super) fn metres(length: Length) -> String {
    let um = length.um();
    let sign = if um < 0 { "-" } else { "" };
    let um = um.unsigned_abs();
    let fine = format!("{:06}", um % 1_000_000);
    let (cm, finer) = fine.split_at_checked(2).unwrap_or((&fine, ""));
    format!("{sign}{}.{cm}{} m", um / 1_000_000, finer.trim_end_matches('0'))
}

/// A length as the subject of its sentence: `4.00 m are`, `1.00 m is`, `nothing is`.
pub(super) fn lies(length: Length) -> String {
    match length.um() {
        ..=0 => "nothing is".to_owned(),
        1_000_000 => "1.00 m is".to_owned(),
        _ => format!("{} are", metres(length)),
    }
}

/// So many days or weeks, in words.
pub(super) fn several(count: u64, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
}

/// The date of a numbered day; the nearest there is for one that has none.
pub(super) fn date(day: i32) -> Date {
    let first = jiff::civil::date(1970, 1, 1);
    let span = jiff::Span::new().try_days(day.clamp(-MOST_DAY, MOST_DAY));
    span.and_then(|span| first.checked_add(span)).unwrap_or(first)
}

/// The Monday of a day's week. The first day there is was a Thursday.
pub(super) fn monday(day: i32) -> i32 {
    day.saturating_sub((day.rem_euclid(7) + 3) % 7)
}

/// A day as a person says it, with its year where that is not today's.
pub(super) struct Said {
    /// The day.
    pub day: i32,
    /// From which it is looked at.
    pub today: i32,
}

impl fmt::Display for Said {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (day, today) = (date(self.day), date(self.today));
        let year = if day.year() == today.year() { "" } else { " %Y" };
        write!(f, "{}", day.strftime(&format!("%A %-d %B{year}")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_read_in_metres() {
        for (um, said) in [
            (4_000_000, "4.00 m"),
            (125_000, "0.125 m"),
            (-1_230_000, "-1.23 m"),
            (12_345_678, "12.345678 m"),
            (0, "0.00 m"),
        ] {
            assert_eq!(metres(Length::from_um(um)), said);
        }
        assert_eq!(
            [0, 1_000, 2_500].map(|mm| lies(Length::from_mm(mm))),
            ["nothing is", "1.00 m is", "2.50 m are"]
        );
    }

    #[test]
    fn days_read_as_people_say_them() {
        // 3 December 2026 is a Thursday; 4 January 2027 a Monday (any calendar)
        let said = |day| Said { day, today: 20_790 }.to_string();
        assert_eq!(said(20_790), "Thursday 3 December");
        assert_eq!(said(20_822), "Monday 4 January 2027");
        assert_eq!(
            (monday(20_790), monday(20_787), monday(20_793), monday(20_794)),
            (20_787, 20_787, 20_787, 20_794)
        );
        assert_eq!(monday(-1), -3);
        // no day is without a date
        for day in [i32::MIN, i32::MAX, 0] {
            assert!(!said(day).is_empty());
        }
    }
}
