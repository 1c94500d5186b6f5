//! Figures as people read them: metres, dates, money.
//!
//! | what | in the message | here | rounding |
//! |---|---|---|---|
//! | length | 1234567.5 mm | `1,234.57` (metres) | to the nearest, 2 decimals |
//! | day | 2026-12-07 | `Mon 7 Dec 2026` | |
//! | instant | 2026-12-07T03:15:00Z | `03:15 on Mon 7 Dec 2026` by the shop's clock | down to the minute |
//! | money | 8940 GBP | `89.40 GBP` | none: minor digits by ISO 4217 |

use jiff::civil::Date;
use jiff::tz::TimeZone;
use pennantry_contract::v1::Money;

use super::words::{Esc, put, shown};
use crate::catalogue;

/// Metres with two decimals and commas between thousands: to the nearest centimetre, halves
/// away from nought. Rounded as whole centimetres, which a double holds exactly; 1005 mm as
/// 1.005 m is a little less than its half.
pub(super) fn metres(mm: f64) -> String {
    fixed((mm / 10.0).round() / 100.0, 2)
}

/// A number with so many decimals, commas between thousands, a minus as printers set it.
pub(super) fn fixed(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return String::from("not a number");
    }
    let text = format!("{:.decimals$}", value.abs());
    let nought = !text.bytes().any(|digit| (b'1'..=b'9').contains(&digit));
    let (whole, rest) = text.split_at(text.find('.').unwrap_or(text.len()));
    let mut grouped = String::from(if value < 0.0 && !nought { "\u{2212}" } else { "" });
    for (place, digit) in whole.chars().enumerate() {
        if place > 0 && (whole.len() - place).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    grouped.push_str(rest);
    grouped
}

/// Every digit of a figure, without noughts behind it; as spreadsheets read it.
pub(super) fn exact(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return String::from("not a number");
    }
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    String::from(if text == "-0" { "0" } else { text })
}

/// A day of the message, where it is one.
pub(super) fn day(iso: &str) -> Option<Date> {
    iso.parse().ok()
}

/// `Mon 7 Dec 2026`; what is no day is shown as it is.
pub(super) fn date(iso: &str) -> String {
    day(iso).map_or_else(|| shown(iso), |day| day.strftime("%a %-d %b %Y").to_string())
}

/// `7 Dec`, for tables in which the year is plain.
pub(super) fn short_date(iso: &str) -> String {
    day(iso).map_or_else(|| shown(iso), |day| day.strftime("%-d %b").to_string())
}

/// A day in a page.
pub(super) fn time(iso: &str) -> String {
    element(iso, &date(iso))
}

/// A day in a page, without its year and the day of its week.
pub(super) fn short_time(iso: &str) -> String {
    element(iso, &short_date(iso))
}

fn element(iso: &str, told: &str) -> String {
    match day(iso) {
        Some(day) => format!("<time datetime={day}>{}</time>", Esc(told)),
        None => Esc(told).to_string(),
    }
}

/// `03:15 on Mon 7 Dec 2026`, by the clock of a zone.
pub(super) fn clock(instant: &str, zone: &str) -> String {
    let Ok(stamp) = instant.parse::<jiff::Timestamp>() else { return shown(instant) };
    match TimeZone::get(zone) {
        Ok(zone) => stamp.to_zoned(zone).strftime("%H:%M on %a %-d %b %Y").to_string(),
        Err(_) => stamp.to_zoned(TimeZone::UTC).strftime("%H:%M UTC on %a %-d %b %Y").to_string(),
    }
}

/// An instant in a page.
pub(super) fn moment(instant: &str, zone: &str) -> String {
    let told = clock(instant, zone);
    match instant.parse::<jiff::Timestamp>() {
        Ok(stamp) => format!("<time datetime=\"{stamp}\">{}</time>", Esc(&told)),
        Err(_) => Esc(&told).to_string(),
    }
}

/// An amount without its currency: `89.40`.
///
/// A currency that is not on the list has no digits that anybody knows: then the amount is told in
/// minor units.
pub(super) fn amount(money: &Money) -> String {
    let Some(digits) = catalogue::minor_digits(&money.currency_code) else {
        return format!("{} minor units", money.minor_units);
    };
    let digits = usize::try_from(digits).unwrap_or(0);
    let sign = if money.minor_units < 0 { "-" } else { "" };
    // with a nought before the point
    let text = format!("{:0>width$}", money.minor_units.unsigned_abs(), width = digits + 1);
    let (major, rest) = text.split_at(text.len().saturating_sub(digits));
    format!("{sign}{major}{}{rest}", if rest.is_empty() { "" } else { "." })
}

/// An amount as people read it: `1,089.40 GBP`.
pub(super) fn money(money: &Money) -> String {
    let plain = amount(money);
    let digits = plain.find(|c: char| !c.is_ascii_digit() && c != '-').unwrap_or(plain.len());
    let (whole, rest) = plain.split_at(digits);
    let (sign, whole) = whole.strip_prefix('-').map_or(("", whole), |whole| ("\u{2212}", whole));
    let mut told = String::from(sign);
    for (place, digit) in whole.chars().enumerate() {
        if place > 0 && (whole.len() - place).is_multiple_of(3) {
            told.push(',');
        }
        told.push(digit);
    }
    put!(told, "{rest} {}", shown(&money.currency_code));
    told
}

/// Sums of money, one for each currency, in the order in which they are met.
pub(super) fn sums<'a>(all: impl Iterator<Item = &'a Money>) -> Vec<Money> {
    let mut sums: Vec<Money> = Vec::new();
    for money in all {
        match sums.iter_mut().find(|sum| sum.currency_code == money.currency_code) {
            Some(sum) => sum.minor_units = sum.minor_units.saturating_add(money.minor_units),
            None => sums.push(money.clone()),
        }
    }
    sums
}

/// Sums as people read them, joined; nothing where there is none.
pub(super) fn told_sums(sums: &[Money]) -> Option<String> {
    let all: Vec<String> = sums.iter().map(money).collect();
    (!all.is_empty()).then(|| all.join(" and "))
}

/// A count as a coordinate.
pub(super) fn number(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::from(u32::MAX), f64::from)
}
