//! Days and midnights at the shop. Changes of the clocks are those of the IANA time zone
//! database.

use jiff::civil::date;
use jiff::tz::TimeZone;

use super::first_instant;

#[test]
fn a_day_begins_at_its_first_instant_wherever_the_shop_is() {
    for (zone, day, instant, why) in [
        ("Europe/London", date(2026, 12, 9), "2026-12-09T00:00:00Z", "winter: UTC"),
        ("Europe/London", date(2026, 7, 1), "2026-06-30T23:00:00Z", "summer: UTC+1"),
        ("Pacific/Auckland", date(2026, 12, 9), "2026-12-08T11:00:00Z", "UTC+13"),
        // rule Egypt: last Friday of April, 0:00 to 1:00, from UTC+2 to UTC+3
        ("Africa/Cairo", date(2026, 4, 24), "2026-04-23T22:00:00Z", "midnight is skipped"),
        // rule Chile: first Sunday from the 2nd of September, 4:00 UTC, from UTC-4 to UTC-3
        ("America/Santiago", date(2026, 9, 6), "2026-09-06T04:00:00Z", "midnight is skipped"),
        // rule Toronto 1919: 30 March, 23:30 to 0:30, from UTC-5 to UTC-4
        ("America/Toronto", date(1919, 3, 31), "1919-03-31T04:30:00Z", "half of it is before midnight"),
        // rule Cuba: first Sunday of November, 1:00 back to 0:00, from UTC-4 to UTC-5
        ("America/Havana", date(2026, 11, 1), "2026-11-01T04:00:00Z", "midnight is there twice"),
        // rule Brazil 2018: 18 February, 0:00 back to 23:00, from UTC-2 to UTC-3
        ("America/Sao_Paulo", date(2018, 2, 18), "2018-02-18T03:00:00Z", "the hour before is there twice"),
    ] {
        let zone = TimeZone::get(zone).unwrap();
        assert_eq!(first_instant(day, &zone).unwrap().to_string(), instant, "{day} {why}");
        // there is nothing of that day before
        let before = instant.parse::<jiff::Timestamp>().unwrap() - jiff::SignedDuration::from_nanos(1);
        assert!(zone.to_datetime(before).date() < day, "{day} {why}");
    }
}
