use super::*;
use crate::table::rows;

const TABLE: &str = include_str!("../../../tables/dates.csv");

/// Bank holidays on weekdays from December 2025 to the end of 2027 (`holidays` 0.109 on
/// `PyPI`).
const ENGLAND: [&str; 18] = [
    "2025-12-25",
    "2025-12-26",
    "2026-01-01",
    "2026-04-03",
    "2026-04-06",
    "2026-05-04",
    "2026-05-25",
    "2026-08-31",
    "2026-12-25",
    "2026-12-28",
    "2027-01-01",
    "2027-03-26",
    "2027-03-29",
    "2027-05-03",
    "2027-05-31",
    "2027-08-30",
    "2027-12-27",
    "2027-12-28",
];

/// The same of Scotland.
const SCOTLAND: [&str; 22] = [
    "2025-12-01",
    "2025-12-25",
    "2025-12-26",
    "2026-01-01",
    "2026-01-02",
    "2026-04-03",
    "2026-05-04",
    "2026-05-25",
    "2026-06-15",
    "2026-08-03",
    "2026-11-30",
    "2026-12-25",
    "2026-12-28",
    "2027-01-01",
    "2027-01-04",
    "2027-03-26",
    "2027-05-03",
    "2027-05-31",
    "2027-08-02",
    "2027-11-30",
    "2027-12-27",
    "2027-12-28",
];

/// A day of the Gregorian calendar, counted year by year and month by month.
fn day(text: &str) -> Day {
    let number = |part: &str| part.parse::<i32>().expect("a number");
    let mut parts = text.split('-').map(number);
    let mut part = || parts.next().expect("year, month and day");
    let (year, month, day) = (part(), part(), part());
    let leap = |year: i32| year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = |from: i32, to: i32| (from..to).map(|year| 365 + i32::from(leap(year))).sum::<i32>();
    let years = if year >= 1970 { days(1970, year) } else { -days(year, 1970) };
    let february = 28 + i32::from(leap(year));
    let months = [31, february, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let before = usize::try_from(month - 1).expect("a month");
    Day(years + months[..before].iter().sum::<i32>() + day - 1)
}

fn closed(holidays: &[&str]) -> Calendar {
    Calendar { closed: holidays.iter().map(|text| day(text)).collect(), ..calendar() }
}

#[test]
fn the_table_of_days_is_met() {
    let columns = [
        "id",
        "function",
        "today",
        "late",
        "make_days",
        "booked",
        "minutes",
        "day0",
        "ready",
        "source",
        "grade",
    ];
    let all = rows(TABLE, columns);
    let (england, scotland) = (closed(&ENGLAND), closed(&SCOTLAND));
    for [id, function, today, late, make_days, booked, minutes, day0, ready, source, grade] in &all {
        let today = day(today);
        let whole = |text: &str| text.parse::<i64>().expect("a whole number");
        match function.as_str() {
            "england" => lead_time(id, &england, today, late, make_days, (day0, ready)),
            "scotland" => lead_time(id, &scotland, today, late, make_days, (day0, ready)),
            "bench" => {
                let load = vec![super::booked(today, whole(booked))];
                let (first, done) = done(&Calendar { load, ..calendar() }, whole(minutes), on(today));
                assert_eq!([first, done].map(|day| day.to_string()), [day0.as_str(), ready], "{id}");
            }
            // the day of the week, and how many days it is from 1 January 1970
            "day" => {
                let week = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
                assert_eq!(
                    (week[today.weekday()], i64::from(today.0)),
                    (day0.as_str(), whole(ready)),
                    "{id}"
                );
                assert_eq!(format!("day {today}"), *id);
            }
            other => panic!("{id}: no function {other}"),
        }
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 66, "rows of the table");
}

/// A lead time in working days, as rest after an order that is done on its first day,
/// and counted directly.
fn lead_time(id: &str, shop: &Calendar, today: Day, late: &str, make_days: &str, expected: (&str, &str)) {
    let late = match late {
        "yes" => true,
        "no" => false,
        other => panic!("{id}: late is {other}"),
    };
    let make_days: u32 = make_days.parse().expect("days");
    let shop = Calendar { rest_days: make_days, ..shop.clone() };
    for time in [0, 1, 300] {
        let found = dates(&shop, None, minutes(time), When { today, late }, None).expect("dates");
        let got = (found.first.to_string(), found.leaves.to_string());
        assert_eq!((got.0.as_str(), got.1.as_str()), expected, "{id}");
    }
    let first = working_day_after(&shop, today, 0).expect("a day");
    let moved = u32::from(late && first == today);
    let counted = [moved, moved + make_days].map(|count| working_day_after(&shop, today, count));
    assert_eq!(counted, [Some(day(expected.0)), Some(day(expected.1))], "{id}");
}
