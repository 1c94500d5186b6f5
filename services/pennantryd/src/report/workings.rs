//! One click deeper: the figures of the drawings, lots and orders, methods and errors.

use jiff::civil::Date;
use pennantry_contract::v1::{BackTest, BurnDetail, BurnReport, ComingWeek, MethodScore, PastWeek};

use super::drawing::{Drawn, many, window};
use super::figures::{day, fixed, metres, time};
use super::words::{Esc, class, counted, put};

/// The figures of both drawings, as tables.
pub(super) fn drawn(drawn: &Drawn<'_>) -> String {
    let mut out = String::from("<details><summary>The drawings in figures</summary><div class=tables>");
    past(&mut out, drawn);
    coming(&mut out, drawn);
    out.push_str("</div></details>");
    out
}

fn past(out: &mut String, drawn: &Drawn<'_>) {
    if drawn.past.is_empty() {
        out.push_str("<p>No week of its use is over yet.</p>");
        return;
    }
    let left = drawn.detail.past.len() - drawn.past.len();
    let before = match left {
        0 => String::new(),
        n => format!("; {} before these in the JSON", counted(n, "week", "weeks")),
    };
    put!(
        out,
        "<table class=\"plain last\"><caption>Used, the latest week first{before}</caption><thead><tr><th scope=col>Week from\
         <th scope=col>Used <small>m</small><th scope=col>Open days<th scope=col>To be said</thead><tbody>",
    );
    let mut year = None;
    for week in drawn.past.iter().rev() {
        put!(out, "<tr><th scope=row>{}", drawn.dated(&week.monday, &mut year));
        put!(out, "<td>{}<td>{}<td>{}", metres(week.used_mm), week.open_days, said(week));
    }
    out.push_str("</table>");
}

/// What is special about a week.
fn said(week: &PastWeek) -> String {
    let mut said = Vec::new();
    if week.out_days > 0 {
        said.push(format!("at least so much: out for {}", counted(number(week.out_days), "day", "days")));
    }
    if week.restated {
        said.push(String::from("some written late"));
    }
    if week.open_days == 0 {
        said.push(String::from("closed"));
    }
    said.join("; ")
}

fn number(count: u32) -> usize {
    usize::try_from(count).unwrap_or(usize::MAX)
}

fn coming(out: &mut String, drawn: &Drawn<'_>) {
    let weeks = weeks(drawn);
    if weeks.is_empty() {
        out.push_str("<p>What is to come is not known yet.</p>");
        return;
    }
    out.push_str(
        "<table class=\"plain last\"><caption>Expected use, and what is free when the week is over</caption><thead><tr>\
         <th scope=col>Week from<th scope=col>Expected <small>m</small><th scope=col>At least <small>m</small>\
         <th scope=col>At most <small>m</small><th scope=col>Open days<th scope=col>Free <small>m</small>\
         <th scope=col>To be said</thead><tbody>",
    );
    let mut year = None;
    for (week, monday) in weeks {
        put!(out, "<tr><th scope=row>{}", drawn.dated(&week.monday, &mut year));
        put!(out, "<td>{}<td>{}", metres(week.expected_mm), metres(week.low_mm));
        put!(out, "<td>{}<td>{}", metres(week.high_mm), week.open_days);
        let days = || {
            drawn
                .detail
                .shelf_line
                .iter()
                .filter(|shelf| day(&shelf.date).is_some_and(|day| within(day, monday)))
        };
        let free =
            days().next_back().map_or_else(|| String::from("not known"), |shelf| metres(shelf.free_mm));
        let come = days().filter(|shelf| shelf.delivery_mm > 0.0);
        let mut said: Vec<String> = come
            .map(|shelf| format!("{} come on {}", metres(shelf.delivery_mm), time(&shelf.date)))
            .collect();
        if let Some(zero) = drawn.detail.runs_out_date.as_deref()
            && day(zero).is_some_and(|day| within(day, monday))
        {
            said.push(format!("runs out on {}", time(zero)));
        }
        put!(out, "<td>{free}<td>{}", said.join("; "));
    }
    out.push_str("</table>");
}

/// Weeks that are drawn, in either drawing, with their Mondays.
fn weeks<'a>(drawn: &Drawn<'a>) -> Vec<(&'a ComingWeek, Date)> {
    let last = drawn.shelf.last().and_then(|shelf| day(&shelf.date));
    let all = drawn.detail.coming.iter().enumerate().filter_map(|(place, week)| {
        let monday = day(&week.monday)?;
        let drawn_there = last.is_some_and(|last| monday <= last);
        let told = place < drawn.coming.len() || (drawn_there && (!drawn.many || marked(drawn, monday)));
        told.then_some((week, monday))
    });
    all.collect()
}

/// Whether something comes, or it runs out, in the week of a Monday.
fn marked(drawn: &Drawn<'_>, monday: Date) -> bool {
    let inside = |iso: &str| day(iso).is_some_and(|day| within(day, monday));
    let comes = drawn.shelf.iter().any(|shelf| shelf.delivery_mm > 0.0 && inside(&shelf.date));
    comes || drawn.detail.runs_out_date.as_deref().is_some_and(inside)
}

/// Whether a day is in the week of a Monday.
fn within(day: Date, monday: Date) -> bool {
    (0..7).contains(&(day - monday).get_days())
}

/// Dye lots on the shelf, and orders to come.
pub(super) fn lots_and_orders(detail: &BurnDetail) -> String {
    let mut out = String::from("<details><summary>Dye lots and orders</summary><div class=tables>");
    if detail.lots.is_empty() {
        out.push_str("<p>No piece lies on the shelf.</p>");
    } else {
        out.push_str(
            "<table class=plain><caption>Dye lots, the longest single length first</caption><thead><tr>\
             <th scope=col>Lot<th scope=col>Longest <small>m</small><th scope=col>On hand <small>m</small>\
             <th scope=col>Pieces</thead><tbody>",
        );
        for lot in &detail.lots {
            let name = if lot.lot.is_empty() { "not known" } else { &lot.lot };
            put!(out, "<tr><th scope=row><bdi>{}</bdi><td>{}", Esc(name), metres(lot.longest_mm));
            put!(out, "<td>{}<td>{}", metres(lot.on_hand_mm), lot.pieces);
        }
        out.push_str("</table>");
    }
    if detail.orders.is_empty() {
        out.push_str("<p>Nothing is on order.</p>");
    } else {
        out.push_str(
            "<table class=plain><caption>Orders on which something is to come</caption><thead><tr>\
             <th scope=col>Order<th scope=col>From<th scope=col>Expected<th scope=col>To come <small>m</small></thead><tbody>",
        );
        for order in &detail.orders {
            let (id, from) = (Esc(&order.order_id), Esc(&order.supplier));
            put!(out, "<tr><th scope=row><bdi>{id}</bdi><td class=w><bdi>{from}</bdi>");
            put!(out, "<td>{}", time(&order.expected_date));
            if order.late_days > 0 {
                put!(out, ", {} late", counted(number(order.late_days), "day", "days"));
            }
            put!(out, "<td>{}", metres(order.outstanding_mm));
        }
        out.push_str("</table>");
    }
    out.push_str("</div></details>");
    out
}

fn error(value: Option<f64>) -> String {
    value.map_or_else(|| String::from("<td class=w>none"), |value| format!("<td>{}", fixed(value, 3)))
}

fn season(seasonal: bool) -> &'static str {
    if seasonal { " with the season" } else { "" }
}

/// Notes that stand here and not at the head of a fabric: they matter to who works a figure after.
pub(super) const DEEPER: [&str; 1] = ["DRAWN"];

/// Kind of demand, the method that was chosen, and how well each would have foretold the past.
pub(super) fn methods(detail: &BurnDetail) -> String {
    let (kind, means) = class(detail.demand_class);
    let mut out =
        format!("<details><summary>Method and errors</summary><p>Demand: {kind}, that is, {means}.");
    let figure = |value: Option<f64>| value.map(|value| fixed(value, 3));
    match (figure(detail.interval), figure(detail.size_variation)) {
        (Some(interval), Some(variation)) => {
            put!(
                out,
                " Weeks between uses: {interval} on average; squared variation of their size: {variation}."
            );
        }
        (Some(interval), None) => put!(out, " Weeks between uses: {interval} on average."),
        (None, _) => out.push_str(" Weeks between uses: not known before the second of them."),
    }
    if detail.method.is_empty() {
        out.push_str(" No method is chosen: there is too little to choose by.</p>");
    } else {
        let method = Esc(&detail.method);
        put!(out, " Method: <bdi>{method}</bdi>{}.</p>", season(detail.seasonal));
    }
    if !detail.scores.is_empty() {
        out.push_str(
            "<table class=plain><caption>What was tried; the lowest score wins</caption><thead><tr>\
             <th scope=col>Method<th scope=col>Score<th scope=col>RMSSE<th scope=col>Pinball\
             <th scope=col>Bias<th scope=col>Weeks</thead><tbody>",
        );
        for score in &detail.scores {
            let chosen = score.method == detail.method && score.seasonal == detail.seasonal;
            put!(out, "{}<td>{}", tried(score, chosen), score.weeks);
        }
        out.push_str("</table>");
        out.push_str("<p><a href=\"#methods\">How the errors are reckoned</a>.</p>");
    }
    for note in detail.notes.iter().filter(|note| DEEPER.contains(&note.code.as_str())) {
        put!(out, "<p><bdi>{}</bdi></p>", Esc(&note.message));
    }
    out.push_str("</details>");
    out
}

/// What the errors are, as the back-test works them.
const ERRORS: &str = "RMSSE is the root mean squared error of each week foretold, one week ahead and more, over the root mean \
     squared change from one week to the next before the test. Pinball is the loss of the upper quantile of what the weeks \
     of the horizon used together, over the mean week before the test times those weeks. Bias is the mean error over \
     that mean week; above nought it foretold too little. \u{201c}None\u{201d}: the past never changes, or too little was foretold.";

fn tried(score: &MethodScore, chosen: bool) -> String {
    let mut row = if chosen { String::from("<tr class=sum>") } else { String::from("<tr>") };
    put!(row, "<th scope=row><bdi>{}</bdi>{}", Esc(&score.method), season(score.seasonal));
    if chosen {
        row.push_str(", chosen");
    }
    for value in [score.score, score.rmsse, score.pinball, score.bias] {
        row.push_str(&error(value));
    }
    row
}

/// How well the methods would have foretold the past, over all fabrics, and the season.
pub(super) fn whole(report: &BurnReport) -> String {
    let mut out = String::new();
    match &report.back_test {
        Some(test) => back_test(&mut out, test),
        None => out.push_str("<p>No history is long enough yet to try the methods on the past.</p>"),
    }
    if report.season.is_empty() {
        let why = report.notes.iter().find(|note| note.code == "NO_SEASON" || note.code == "NO_HISTORY");
        let why = why.map_or("No season is in this report.", |note| &note.message);
        put!(out, "<p>{}</p>", Esc(why));
    } else {
        out.push_str(
            "<details><summary>The season, week by week</summary><p>Use of a week against a usual one, \
             pooled over all fabrics: 1 is usual.</p><ol class=season>",
        );
        for week in &report.season {
            put!(out, "<li>Week {}: {}", week.week, fixed(week.index, 2));
        }
        out.push_str("</ol></details>");
    }
    out
}

fn back_test(out: &mut String, test: &BackTest) {
    let fabrics = counted(number(test.fabrics), "fabric", "fabrics");
    let weeks = counted(number(test.weeks), "week", "weeks");
    put!(
        out,
        "<details><summary>Methods and their errors over all fabrics</summary><table class=plain><caption>{fabrics}, \
         {weeks} at most foretold of each; means</caption><thead><tr><th scope=col>Method<th scope=col>Tried\
         <th scope=col>Chosen<th scope=col>RMSSE<th scope=col>Pinball<th scope=col>Bias</thead><tbody>"
    );
    for row in &test.rows {
        put!(out, "<tr><th scope=row><bdi>{}</bdi><td>{}<td>{}", Esc(&row.method), row.tried, row.chosen);
        for value in [row.rmsse, row.pinball, row.bias] {
            out.push_str(&error(value));
        }
    }
    out.push_str(
        "</table><p>A row is the mean over the fabrics for which its method was tried, those in use alone: rows of different \
         fabrics cannot be compared, and which method is the better for a fabric stands in its own table. ",
    );
    put!(out, "{ERRORS}</p></details>");
}

/// How to read the drawings, once for all of them.
pub(super) fn key(report: &BurnReport) -> String {
    let shown = window(report.fabrics.len());
    let sample = |inside: &str| {
        format!("<li><svg viewBox=\"0 0 44 18\" width=44 height=18 aria-hidden=true>{inside}</svg> ")
    };
    let mut out = String::from("<ul class=key>");
    let rows = [
        ("<path class=use d=\"M8 18V6h8V18zM20 18V2h8V18z\"/>", "used in a week"),
        ("<path class=least d=\"M14 18V4h14V18z\"/>", "at least so much: it was out on some days"),
        (
            "<path class=ring d=\"M20 8a2 2 0 1 0 4 0a2 2 0 1 0-4 0\"/><path class=use d=\"M18 18V13h8V18z\"/>",
            "some of it was written late",
        ),
        (
            "<path class=band d=\"M2 3H42V16H2z\"/><path class=middle d=\"M2 10H42\"/>",
            "expected; four weeks of five use more than the lower edge, nine of ten less than the upper",
        ),
        ("<path class=free d=\"M2 4H12V8H22V12H32V16H42\"/>", "free, evening by evening"),
        ("<path class=reorder d=\"M2 9H42\"/>", "reorder point: what is free and coming is judged by it"),
        ("<path class=comes d=\"M22 2V16\"/>", "a delivery"),
        ("<path class=zero d=\"M22 0V9\"/><path class=cross d=\"M22 12m-4-4l8 8m0-8l-8 8\"/>", "runs out"),
    ];
    for (inside, words) in rows {
        put!(out, "{}{words}", sample(inside));
    }
    put!(out, "</ul><p class=why>Drawn are at most {} weeks back and {} ahead", shown.past, shown.coming);
    if many(report.fabrics.len()) {
        out.push_str(
            ", and the line of the shelf goes straight over a week: there are very many fabrics. Those for which \
             nothing is to be done are told in short",
        );
    }
    out.push_str(".</p>");
    out
}
