//! Bench time by operation, and days.

use pennantry_contract::table;
use pennantry_contract::v1;

use super::page::{Page, Side};
use super::{Style, price};
use crate::words;

/// The sections.
pub fn write(page: &mut Page, quote: &v1::Quote, style: Style) {
    if let Some(labour) = &quote.labour {
        page.heading("BENCH, for all strings");
        write_labour(page, labour);
    }
    page.heading("DATES");
    match &quote.dates {
        Some(dates) => write_dates(page, quote, dates, style),
        None => page.line("none: bench or post have no day for it"),
    }
}

fn write_labour(page: &mut Page, labour: &v1::Labour) {
    let right = Side::Right;
    let mut rows = Vec::new();
    for operation in &labour.operations {
        let driver = words::told(&table::DRIVER, operation.driver).unwrap_or_default();
        let counted =
            format!("{} {driver}{}", operation.count, if is_one(operation.count) { "" } else { "s" });
        rows.push(vec![minutes(operation.minutes), "min".to_owned(), operation.name.clone(), counted]);
    }
    if let Some(allowance) = &labour.allowance {
        let basis = words::told(&table::ALLOWANCE_BASIS, allowance.basis);
        let of = basis.map(|basis| format!("{} % of the {basis}", allowance.percent));
        rows.push(vec![
            minutes(allowance.minutes),
            "min".to_owned(),
            "Allowance".to_owned(),
            of.unwrap_or_default(),
        ]);
    }
    rows.push(vec![minutes(labour.minutes), "min".to_owned(), "at the bench".to_owned(), String::new()]);
    page.table(&[right, Side::Left, Side::Left, Side::Left], &rows);
    page.line(&format!(
        "what is done once an order: {} min a string, {} min a metre",
        labour.set_up_minutes_per_string, labour.set_up_minutes_per_metre
    ));
}

fn is_one(count: f64) -> bool {
    (count - 1.0).abs() < f64::EPSILON
}

/// Minutes with three decimals, so that points stand under each other; the contract has no more.
fn minutes(minutes: f64) -> String {
    format!("{minutes:.3}")
}

fn write_dates(page: &mut Page, quote: &v1::Quote, dates: &v1::Dates, style: Style) {
    let estimated = if dates.estimated { ", estimated" } else { "" };
    let mut all = vec![
        ("begins", dates.begin_date.clone()),
        ("done", dates.done_date.clone()),
        ("leaves", format!("{}{estimated}", dates.leave_date)),
    ];
    if let (Some(from), Some(to)) = (&dates.arrive_from, &dates.arrive_to) {
        let arrives = if from == to { from.clone() } else { format!("{from} to {to}") };
        all.push(("arrives", format!("{arrives}{estimated}")));
    }
    let wanted = quote.understood.as_ref().and_then(|asked| asked.wanted_date.as_ref());
    if let Some(wanted) = wanted {
        let kept = match dates.wanted_kept {
            Some(true) => "kept",
            Some(false) => "not kept",
            None => "not told whether it is kept",
        };
        all.push(("wanted by", format!("{wanted}, {kept}")));
    }
    if let Some(day) = &dates.order_by_date {
        let estimated = if dates.order_by_estimated { ", estimated" } else { "" };
        all.push(("order by", format!("{day}{estimated}")));
    }
    page.pairs(&all);
    for way in &dates.ways {
        page.line(&format!("to keep it: {}", way.text));
        page.below(&told(way, quote, style));
    }
}

/// What goes with a way to keep the wanted day.
fn told(way: &v1::WayToKeep, quote: &v1::Quote, style: Style) -> String {
    let mm = |mm| style.unit.shown(mm);
    let construction = words::told(&table::CONSTRUCTION, way.construction);
    let digits = quote.price.as_ref().map_or(0, |price| price.minor_digits);
    let total =
        way.total.as_ref().map(|total| format!("{} {}", total.currency_code, price::amount(total, digits)));
    let mut parts = vec![
        format!("{} pennants", way.pennant_count),
        format!("gap {}", mm(way.gap_mm)),
        format!("tails {}", mm(way.tail_mm)),
    ];
    parts.extend(construction);
    if !way.service_code.is_empty() {
        parts.push(format!("by {}", way.service_code));
    }
    parts.push(format!("leaves {}", way.leave_date));
    parts.push(format!("arrives by {}", way.arrive_to));
    parts.extend(total.map(|total| format!("total {total}")));
    parts.join(", ")
}
