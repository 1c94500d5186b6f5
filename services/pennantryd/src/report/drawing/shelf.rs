//! What is free of a fabric, evening by evening, to the day on which it runs out.

use jiff::civil::Date;
use pennantry_contract::v1::{BurnDetail, ShelfDay};

use super::super::figures::{date, day, metres, number, short_date};
use super::super::scale::{Axis, px};
use super::super::words::{Esc, put};
use super::{CHARACTER, Drawn, Window, frame, height, metres_axis, svg};

/// Days that are drawn after the last that matters.
const AFTER: i32 = 14;
/// Least days that are drawn.
const LEAST_DAYS: i32 = 28;
/// Rows of words above the drawing.
const ROWS: usize = 3;
/// Where the first of them stands, below the name of the axis.
const FIRST_ROW: f64 = 29.0;
/// Height of such a row.
const ROW: f64 = 15.0;

/// Days that are drawn: up to a while after it has run out and everything has come, the same
/// evenings as in the message; of a long line one in seven, and those around deliveries.
pub(super) fn days(detail: &BurnDetail, today: Date, window: Window) -> Vec<&ShelfDay> {
    let after = |iso: &str| day(iso).map(|day| (day - today).get_days());
    let zero = detail.runs_out_date.as_deref().and_then(after);
    let come = detail.shelf_line.iter().filter(|day| day.delivery_mm > 0.0);
    let come = come.filter_map(|day| after(&day.date)).max();
    let last =
        zero.map_or(window.ahead, |zero| zero.max(come.unwrap_or(0)).saturating_add(AFTER).max(LEAST_DAYS));
    let within = |day: &&ShelfDay| after(&day.date).is_some_and(|day| day <= last);
    let all: Vec<&ShelfDay> = detail.shelf_line.iter().filter(within).collect();
    if all.len() <= window.days {
        return all;
    }
    let matters = |place: usize| {
        let zero = all.get(place).is_some_and(|day| detail.runs_out_date.as_deref() == Some(&day.date));
        zero || all.get(place).is_some_and(|day| day.delivery_mm > 0.0)
    };
    let kept = (0..all.len()).filter(|place| {
        place % 7 == 6 || place + 1 == all.len() || matters(*place) || matters(place.saturating_add(1))
    });
    kept.filter_map(|place| all.get(place).copied()).collect()
}

/// Something that is marked: where, and in which words.
struct Mark {
    weeks: f64,
    y_mm: f64,
    class: &'static str,
    words: String,
}

/// The drawing; words where nobody can say.
pub(super) fn draw(drawn: &Drawn<'_>) -> String {
    if drawn.shelf.is_empty() {
        return String::from(
            "<p class=none>No drawing of the shelf: how fast it goes down is not known yet.</p>",
        );
    }
    let marks = marks(drawn);
    let reorder = drawn.detail.buying.as_ref().and_then(|buying| buying.reorder_point_mm);
    let levels = || drawn.shelf.iter().map(|day| day.free_mm).chain([drawn.fabric.free_mm]);
    let most = levels().chain(reorder).filter(|mm| mm.is_finite()).fold(0.0, f64::max);
    let least = levels().filter(|mm| mm.is_finite()).fold(0.0, f64::min);
    let end = drawn.shelf.last().and_then(|day| drawn.weeks_to(&day.date)).unwrap_or(0.0) + 1.0 / 7.0;
    // the words above need their rows before the axis can say where it begins
    let left = metres_axis(least, most, 0.0).1;
    let along = Axis::weeks(0.0, end.max(1.0), left, super::WIDTH - 8.0);
    let rows = placed(&marks, &along);
    let used = rows.iter().filter_map(|row| row.map(|(row, ..)| row + 1)).max().unwrap_or(0);
    let head = FIRST_ROW + ROW * number(used) + 10.0;
    let (up, _) = metres_axis(least, most, head);

    let mut inside = String::new();
    let name = format!("weeks from {}", date(&drawn.today.to_string()));
    frame(&mut inside, &up, &along, ("metres free", &name));
    for (mark, row) in marks.iter().zip(&rows) {
        let (x, y) = (along.at(mark.weeks), height(&up, mark.y_mm));
        let top = row.map_or(head, |(row, ..)| FIRST_ROW + ROW * number(row) + 4.0);
        put!(inside, "<path class={} d=\"M{} {}V{}\"/>", mark.class, px(x), px(top), px(y));
    }
    if let Some(point) = reorder {
        let y = height(&up, point);
        put!(inside, "<path class=reorder d=\"M{} {}H{}\"/>", px(along.from), px(y), px(along.to));
        let words = format!("reorder point {}", metres(point));
        let (class, x, y) = clearest(drawn, &up, &along, y, &words);
        put!(inside, "<text class=\"{class} halo\" x={} y={}>{words}</text>", px(x), px(y));
    }
    line(&mut inside, drawn, &up, &along);
    for (mark, row) in marks.iter().zip(&rows) {
        if mark.class == "zero" {
            let (x, y) = (px(along.at(mark.weeks)), px(height(&up, mark.y_mm)));
            put!(inside, "<path class=cross d=\"M{x} {y}m-4-4l8 8m0-8l-8 8\"/>");
        }
        if let Some((row, anchor, x)) = row {
            let y = px(FIRST_ROW + ROW * number(*row));
            put!(inside, "<text class=\"{anchor} halo\" x={} y={y}>{}</text>", px(*x), Esc(&mark.words));
        }
    }
    let title = format!("What is free of {}, to come", Esc(&drawn.fabric.name));
    svg(&format!("f{}s", drawn.place), &title, &described(drawn), &inside)
}

/// The line: level until an evening, then down to what is left, or up to what has come. Over
/// evenings that are left out it goes straight.
fn line(inside: &mut String, drawn: &Drawn<'_>, up: &Axis, along: &Axis) {
    let mut level = px(height(up, drawn.fabric.free_mm));
    let mut path = format!("M{} {level}", px(along.at(0.0)));
    let mut before = -1.0 / 7.0;
    for day in &drawn.shelf {
        let Some(weeks) = drawn.weeks_to(&day.date) else { continue };
        let (x, y) = (px(along.at(weeks + 1.0 / 7.0)), px(height(up, day.free_mm)));
        if weeks - before > 1.5 / 7.0 {
            put!(path, "L{x} {y}");
        } else if y != level {
            // a day on which nothing is used needs no corner
            put!(path, "H{x}V{y}");
        }
        (level, before) = (y, weeks);
    }
    put!(path, "H{}", px(along.to));
    put!(inside, "<path class=free d=\"{path}\"/>");
}

/// Where words at a level stay furthest from the line: at either end, above or below.
fn clearest(drawn: &Drawn<'_>, up: &Axis, along: &Axis, y: f64, words: &str) -> (&'static str, f64, f64) {
    let wide = CHARACTER * number(words.chars().count()) + 4.0;
    let (left, right) = ((along.from, along.from + wide), (along.to - wide, along.to));
    let mut best = (f64::MIN, ("end", along.to, y - 5.0));
    // words stand on their line: their middle is 5 higher
    for baseline in [y - 5.0, y + 14.0] {
        for (class, x, (from, to)) in [("end", along.to, right), ("start", along.from + 4.0, left)] {
            let room = clear(drawn, up, along, baseline - 5.0, from, to);
            if baseline < super::FOOT - 3.0 && room > best.0 + 1.0 {
                best = (room, (class, x, baseline));
            }
        }
    }
    best.1
}

/// How far the line stays from a height, between two places.
fn clear(drawn: &Drawn<'_>, up: &Axis, along: &Axis, y: f64, from: f64, to: f64) -> f64 {
    let level = |mm: f64| (height(up, mm) - y).abs();
    let first = if from <= along.from { level(drawn.fabric.free_mm) } else { f64::MAX };
    let evenings = drawn.shelf.iter().filter(|day| {
        let x = drawn.weeks_to(&day.date).map(|weeks| along.at(weeks + 1.0 / 7.0));
        x.is_some_and(|x| (from..=to).contains(&x))
    });
    evenings.map(|day| level(day.free_mm)).fold(first, f64::min)
}

/// The day of zero, then deliveries: in this order they get their words.
fn marks(drawn: &Drawn<'_>) -> Vec<Mark> {
    let evening = |iso: &str| drawn.weeks_to(iso).map(|weeks| weeks.max(-1.0 / 7.0) + 1.0 / 7.0);
    let mut marks = Vec::new();
    if let Some(out) = drawn.detail.runs_out_date.as_deref()
        && let Some(weeks) = evening(out)
        && drawn.shelf.last().and_then(|day| evening(&day.date)).is_some_and(|end| weeks <= end)
    {
        let words = format!("runs out {}", date(out));
        marks.push(Mark { weeks, y_mm: 0.0, class: "zero", words });
    }
    for day in drawn.shelf.iter().filter(|day| day.delivery_mm > 0.0) {
        let Some(weeks) = evening(&day.date) else { continue };
        let words = format!("+{} on {}", metres(day.delivery_mm), short_date(&day.date));
        marks.push(Mark { weeks, y_mm: day.free_mm, class: "comes", words });
    }
    marks
}

/// Row, anchor and place of the words of each mark, where there is room for them.
fn placed(marks: &[Mark], along: &Axis) -> Vec<Option<(usize, &'static str, f64)>> {
    let mut taken: Vec<Vec<(f64, f64)>> = vec![Vec::new(); ROWS];
    let mut placed = Vec::new();
    for mark in marks {
        let wide = CHARACTER * number(mark.words.chars().count()) + 6.0;
        let x = along.at(mark.weeks);
        let (anchor, from) = if x + wide <= super::WIDTH { ("start", x) } else { ("end", x - wide) };
        let free =
            |row: &Vec<(f64, f64)>| row.iter().all(|(left, right)| from + wide < *left || from > *right);
        let row = taken.iter().position(free);
        if let Some(row) = row.and_then(|row| taken.get_mut(row)) {
            row.push((from, from + wide));
        }
        placed.push(row.map(|row| (row, anchor, if anchor == "start" { x - 1.0 } else { x + 1.0 })));
    }
    placed
}

fn described(drawn: &Drawn<'_>) -> String {
    let mut told = format!("{} m are free now.", metres(drawn.fabric.free_mm));
    match drawn.detail.runs_out_date.as_deref() {
        Some(out) => put!(told, " It runs out on {}.", Esc(&date(out))),
        None => told.push_str(" It does not run out within the days that were looked at."),
    }
    for day in drawn.shelf.iter().filter(|day| day.delivery_mm > 0.0) {
        put!(told, " {} m come on {}.", metres(day.delivery_mm), Esc(&date(&day.date)));
    }
    if let Some(point) = drawn.detail.buying.as_ref().and_then(|buying| buying.reorder_point_mm) {
        put!(told, " Reorder point: {} m.", metres(point));
    }
    told
}
