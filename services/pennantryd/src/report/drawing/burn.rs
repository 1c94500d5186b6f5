//! What was used of a fabric, week by week, and what is expected to be.

use pennantry_contract::v1::{ComingWeek, PastWeek};

use super::super::absent::{Told, unknown as unknown_words};
use super::super::figures::{date, metres};
use super::super::scale::{Axis, px};
use super::super::words::{Esc, counted, put};
use super::{Drawn, frame, height, metres_axis, svg};

/// Least weeks on either side of the morning, so that a bar is no wall.
const LEAST_WEEKS: f64 = 4.0;
/// How far down the drawing begins.
const HEAD: f64 = 42.0;

/// The drawing; words where there is nothing to draw.
pub(super) fn draw(drawn: &Drawn<'_>) -> String {
    if drawn.past.is_empty() && drawn.coming.is_empty() {
        return String::from("<p class=none>No drawing of its use yet: its first week is not over.</p>");
    }
    let weeks = |monday: &str| drawn.weeks_to(monday).unwrap_or(0.0);
    let first = drawn.past.first().map_or(0.0, |week| weeks(&week.monday));
    let last = drawn.coming.last().map_or(0.0, |week| weeks(&week.monday) + 1.0);
    let past = drawn.past.iter().map(|week| week.used_mm);
    let most = past.chain(drawn.coming.iter().map(|week| week.high_mm.max(week.expected_mm)));
    let (up, left) = metres_axis(0.0, most.filter(|mm| mm.is_finite()).fold(0.0, f64::max), HEAD);
    // where nothing is expected, words need their room
    let last = if drawn.coming.is_empty() { last.max(first.abs() * 0.7).ceil() } else { last };
    let along = Axis::weeks(first.min(-LEAST_WEEKS), last.max(LEAST_WEEKS), left, super::WIDTH - 8.0);

    let mut inside = String::new();
    let name = format!("weeks from {}", date(&drawn.today.to_string()));
    frame(&mut inside, &up, &along, ("metres a week", &name));
    band(&mut inside, drawn, &up, &along);
    bars(&mut inside, drawn, &up, &along);
    let now = px(along.at(0.0));
    put!(inside, "<path class=now d=\"M{now} {}V{}\"/>", px(HEAD - 8.0), px(super::FOOT));
    if drawn.coming.is_empty() {
        let x = px(along.at(0.0).midpoint(along.to));
        let y = px(super::FOOT.midpoint(HEAD));
        put!(inside, "<text class=mid x={x} y={y}>{}</text>", unknown(drawn));
    }
    if !drawn.past.is_empty() && drawn.past.iter().all(|week| week.used_mm <= 0.0) {
        let x = px(along.from.midpoint(along.at(0.0)));
        put!(inside, "<text class=mid x={x} y={}>nothing was used</text>", px(super::FOOT - 10.0));
    }
    let title = format!("Use of {} by the week", Esc(&drawn.fabric.name));
    svg(&format!("f{}u", drawn.place), &title, &described(drawn), &inside)
}

/// Bars of the past: plain, and hatched where the use is at least so much.
fn bars(inside: &mut String, drawn: &Drawn<'_>, up: &Axis, along: &Axis) {
    let (mut plain, mut least, mut rings) = (String::new(), String::new(), String::new());
    let wide = along.at(1.0) - along.at(0.0);
    for week in drawn.past {
        let Some(at) = drawn.weeks_to(&week.monday) else { continue };
        let x = along.at(at) + wide * 0.1;
        let top = height(up, week.used_mm);
        let bars = if week.out_days > 0 { &mut least } else { &mut plain };
        if week.used_mm > 0.0 || week.out_days > 0 {
            let bottom = px(super::FOOT);
            put!(bars, "M{} {bottom}V{}h{}V{bottom}z", px(x), px(top), px(wide * 0.8));
        }
        if week.restated {
            put!(rings, "M{} {}a2 2 0 1 0 4 0a2 2 0 1 0-4 0", px(x + wide * 0.4 - 2.0), px(top - 5.0));
        }
    }
    for (class, path) in [("use", plain), ("least", least), ("ring", rings)] {
        if !path.is_empty() {
            put!(inside, "<path class={class} d=\"{path}\"/>");
        }
    }
    let used = drawn.past.iter().any(|week| week.used_mm > 0.0);
    let named = drawn.past.iter().rfind(|week| used && week.out_days > 0);
    if let Some((week, at)) = named.and_then(|week| Some((week, drawn.weeks_to(&week.monday)?))) {
        label(inside, week, along.at(at + 0.5), up, along);
    }
}

/// Words above the drawing, led to the latest of the hatched bars.
fn label(inside: &mut String, week: &PastWeek, x: f64, up: &Axis, along: &Axis) {
    let top = height(up, week.used_mm) - if week.restated { 9.0 } else { 2.0 };
    put!(inside, "<path class=comes d=\"M{} {}V{}\"/>", px(x), px(HEAD - 10.0), px(top));
    let x = px(x.clamp(along.from + 26.0, along.to - 26.0));
    put!(inside, "<text class=\"mid halo\" x={x} y={}>at least</text>", px(HEAD - 14.0));
}

/// What stands where nothing is foretold.
fn unknown(drawn: &Drawn<'_>) -> &'static str {
    match unknown_words(drawn.fabric) {
        Told::Words(words, _) => words,
        _ => "not known",
    }
}

/// The band of what is expected, and its middle, both in steps of a week.
fn band(inside: &mut String, drawn: &Drawn<'_>, up: &Axis, along: &Axis) {
    let weeks: Vec<_> =
        drawn.coming.iter().filter_map(|week| Some((drawn.weeks_to(&week.monday)?, week))).collect();
    let Some((first, _)) = weeks.first() else { return };
    let from = px(along.at(*first));
    let place = |mm: f64| px(height(up, mm));
    let steps = |of: fn(&ComingWeek) -> f64| -> Vec<(String, String)> {
        weeks.iter().map(|(at, week)| (px(along.at(at + 1.0)), place(of(week)))).collect()
    };
    let over = stepped(&from, &steps(|week| week.high_mm));
    let middle = stepped(&from, &steps(|week| week.expected_mm));
    // back along the lower edge
    let mut under = String::new();
    let mut level = String::new();
    for (at, week) in weeks.iter().rev() {
        let low = place(week.low_mm);
        if low != level {
            put!(under, "V{low}");
        }
        put!(under, "H{}", px(along.at(*at)));
        level = low;
    }
    put!(inside, "<path class=band d=\"{over}{under}z\"/><path class=middle d=\"{middle}\"/>");
}

/// A line of levels, each up to a place; a corner stands where the level changes.
fn stepped(from: &str, steps: &[(String, String)]) -> String {
    let mut path = String::new();
    let mut level = "";
    for (to, y) in steps {
        if path.is_empty() {
            put!(path, "M{from} {y}");
        } else if y != level {
            put!(path, "V{y}");
        }
        put!(path, "H{to}");
        level = y;
    }
    path
}

fn described(drawn: &Drawn<'_>) -> String {
    let mut told = String::new();
    if let (Some(first), Some(last)) = (drawn.past.first(), drawn.past.last()) {
        let all: f64 = drawn.past.iter().map(|week| week.used_mm).sum();
        let weeks = counted(drawn.past.len(), "week", "weeks");
        let (from, to) = (date(&first.monday), date(&last.monday));
        put!(told, "{weeks}, Mondays {} to {}: {} m used.", Esc(&from), Esc(&to), metres(all));
        let most = drawn.past.iter().max_by(|one, other| one.used_mm.total_cmp(&other.used_mm));
        if let Some(most) = most.filter(|week| week.used_mm > 0.0) {
            put!(told, " Most in that of {}: {} m.", Esc(&date(&most.monday)), metres(most.used_mm));
        }
        let out = drawn.past.iter().filter(|week| week.out_days > 0).count();
        if out > 0 {
            put!(told, " At least so much, as it was out: {}.", counted(out, "week", "weeks"));
        }
    }
    match (drawn.coming.first(), drawn.coming.last()) {
        (Some(next), Some(_)) => {
            let all: f64 = drawn.coming.iter().map(|week| week.expected_mm).sum();
            let weeks = counted(drawn.coming.len(), "week", "weeks");
            put!(told, " Expected in the {weeks} to come: {} m.", metres(all));
            put!(told, " The next: {} m, from {}", metres(next.expected_mm), metres(next.low_mm));
            put!(told, " to {} m.", metres(next.high_mm));
        }
        _ => told.push_str(" What is to come is not known yet."),
    }
    told
}
