//! Reservations: a table of many, and one as a list for the bench of what to take from where.

use pennantry_contract::{table, v1};

use super::piece::header;
use super::{Look, or_dash, replayed, second};
use crate::sheet::page::{Page, Side};
use crate::typed::amount::{is_some, told};
use crate::words;

/// A list of reservations.
pub fn list(reservations: &[v1::Reservation], look: &Look) -> String {
    let mut page = look.page();
    page.heading("RESERVATIONS, the latest first");
    if reservations.is_empty() {
        page.line("none that was asked for");
    }
    rows(&mut page, reservations, look);
    page.finish()
}

/// A line a reservation.
pub fn rows(page: &mut Page, reservations: &[v1::Reservation], look: &Look) {
    if reservations.is_empty() {
        return;
    }
    let mut rows = vec![header(["reservation", "leaves", "total", "order", "stands"])];
    for one in reservations {
        let short = if one.short { ", SHORT" } else { "" };
        let summary = if one.summary.is_empty() { String::new() } else { format!(": {}", one.summary) };
        rows.push(vec![
            one.reservation_id.clone(),
            or_dash(one.leave_date.as_deref().unwrap_or_default()),
            one.total.as_ref().map_or_else(|| "-".to_owned(), |total| look.money(total)),
            or_dash(&one.order_reference),
            stands(one) + short + &summary,
        ]);
    }
    let (left, right) = (Side::Left, Side::Right);
    page.table(&[left, left, right, left, left], &rows);
}

fn stands(one: &v1::Reservation) -> String {
    let state = words::told(&table::RESERVATION_STATE, one.state).unwrap_or_else(|| "not told".to_owned());
    match &one.expire_time {
        Some(until) if one.state() == v1::ReservationState::Held => {
            format!("{state} until {}", second(until))
        }
        _ => state,
    }
}

/// One reservation by itself.
pub fn one(reservation: &v1::Reservation, look: &Look) -> String {
    let mut page = look.page();
    write(&mut page, reservation, look);
    page.finish()
}

/// All there is to say of one, the list of what to take among it.
pub fn write(page: &mut Page, one: &v1::Reservation, look: &Look) {
    page.heading(&format!("RESERVATION {}: {}", one.reservation_id, stands(one)));
    replayed(page, one.replayed);
    if !one.summary.is_empty() {
        page.line(&one.summary);
    }
    let mut facts = Vec::new();
    facts.extend(one.total.as_ref().map(|total| format!("total {}", look.money(total))));
    facts.extend(one.leave_date.as_ref().map(|day| format!("leaves {day}")));
    facts.extend(one.arrive_to.as_ref().map(|day| format!("arrives by {day}")));
    if one.bench_minutes > 0.0 {
        facts.push(format!("{} minutes of the bench", one.bench_minutes));
    }
    if !one.order_reference.is_empty() {
        facts.push(format!("order {}", one.order_reference));
    }
    if !facts.is_empty() {
        page.line(&facts.join(", "));
    }
    let times = [
        ("taken", Some(second(&one.create_time)).filter(|time| !time.is_empty())),
        ("can be extended until", one.extend_until.as_deref().map(second)),
        ("confirmed", one.confirm_time.as_deref().map(second)),
        ("in the place of", one.supersedes_id.clone()),
        ("its place was taken by", one.superseded_by_id.clone()),
    ];
    let mut told: Vec<String> = times
        .iter()
        .filter_map(|(words, value)| value.as_ref().map(|value| format!("{words} {value}")))
        .collect();
    if !one.holder.is_empty() {
        told.push(format!("by {}", one.holder));
    }
    if !told.is_empty() {
        page.line(&told.join(", "));
    }
    if !one.acknowledged_rule_ids.is_empty() {
        page.line(&format!("acknowledged: {}", one.acknowledged_rule_ids.join(", ")));
    }
    for (words, text) in
        [("taken though a rule stood in the way", &one.override_reason), ("why", &one.reason)]
    {
        if !text.is_empty() {
            page.line(&format!("{words}: {text}"));
        }
    }
    for notice in &one.notices {
        page.line(&format!("{}: {}", notice.code, notice.message));
    }
    lines(page, one, look);
}

/// What to take from where.
fn lines(page: &mut Page, one: &v1::Reservation, look: &Look) {
    if one.lines.is_empty() {
        return;
    }
    let amount = |of: &Option<v1::Quantity>| told(of.as_ref(), look.unit);
    page.heading("TO TAKE FROM THE SHELF");
    let mut rows = vec![header(["line", "lies", "label", "take", "shapes", "code", "lot", "for"])];
    for line in &one.lines {
        let mut what = vec![line.purpose.clone()];
        if line.remnant {
            what.push("begun: use it up first".to_owned());
        }
        for (amount, words) in [(&line.used, "used"), (&line.spoiled, "spoiled")] {
            if is_some(amount.as_ref()) {
                what.push(format!("{} {words}", told(amount.as_ref(), look.unit)));
            }
        }
        if line.shapes_cut > 0 {
            what.push(format!("{} of the shapes cut", line.shapes_cut));
        }
        what.retain(|words| !words.is_empty());
        rows.push(vec![
            line.line.to_string(),
            or_dash(&line.location),
            line.piece_id.clone(),
            amount(&line.wanted),
            if line.shapes > 0 { line.shapes.to_string() } else { "-".to_owned() },
            line.code.clone(),
            or_dash(&line.lot),
            what.join(", "),
        ]);
    }
    let (left, right) = (Side::Left, Side::Right);
    page.table(&[right, left, left, right, right, left, left, left], &rows);
    for line in one.lines.iter().filter(|line| is_some(line.missing.as_ref())) {
        page.line(&format!("SHORT: of line {} {} is missing", line.line, amount(&line.missing)));
    }
    if one.short {
        page.line(&format!("plan what is missing anew with: pennantry amend {}", one.reservation_id));
    }
}
