//! The drawings of a fabric: what is used of it by the week, and what is free by the day.
//!
//! Both have metres upwards and weeks to the right, counted from the morning of the report. Lines
//! differ by dash and weight, so that a copy in black and white reads as well:
//!
//! | what | how |
//! |---|---|
//! | use of a week | a bar; hatched where it was out on some days, and so is at least so much |
//! | written late | a ring above the bar |
//! | expected use | a heavy stepped line within a dotted band: four weeks of five are above its lower edge, nine of ten below its upper |
//! | free | a heavy line that steps down evening by evening, up where an order comes |
//! | reorder point | a dashed line with its figure |
//! | deliveries, day of zero | thin leaders up to their words |
//!
//! Each has a title and a description; [`workings`](super::workings) has its figures as a table.

mod burn;
mod shelf;

use jiff::civil::Date;
use pennantry_contract::v1::{BurnDetail, BurnFabric, BurnReport, ComingWeek, PastWeek, ShelfDay};

use super::figures::{day, fixed, short_date, short_time, time};
use super::scale::{Axis, px};
use super::words::{Esc, put};

/// How much of a fabric's past and future is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Window {
    /// Weeks of the past.
    pub past: usize,
    /// Weeks to come.
    pub coming: usize,
    /// Most days of the shelf that are drawn one by one; beyond, one in seven is, and those of deliveries.
    pub days: usize,
    /// Days of a shelf that does not run out which are drawn at most.
    pub ahead: i32,
}

/// Most fabrics with which a page shows a whole year of each.
const FEW: usize = 100;

/// Whether there are so many fabrics that those for which nothing is to be done are told in short.
pub(super) fn many(fabrics: usize) -> bool {
    fabrics > FEW
}

/// What is drawn of each where there are so many: a page has to stay small enough to open.
pub(super) fn window(fabrics: usize) -> Window {
    if many(fabrics) {
        Window { past: 13, coming: 8, days: 28, ahead: 56 }
    } else {
        Window { past: 52, coming: 26, days: 182, ahead: 182 }
    }
}

/// A fabric as it is drawn.
pub(super) struct Drawn<'a> {
    /// The fabric.
    pub fabric: &'a BurnFabric,
    /// Its detail.
    pub detail: &'a BurnDetail,
    /// Day of the report.
    pub today: Date,
    /// The last weeks of the past, the oldest first.
    pub past: &'a [PastWeek],
    /// The first weeks to come.
    pub coming: &'a [ComingWeek],
    /// Days of the shelf that are drawn.
    pub shelf: Vec<&'a ShelfDay>,
    /// Its place in the report, from 1: names of its parts have it.
    pub place: usize,
    /// Whether it is one of so many that its tables are short.
    pub many: bool,
}

impl<'a> Drawn<'a> {
    /// What of a fabric is drawn; nothing where the report has no day or the fabric no detail.
    pub(super) fn new(report: &'a BurnReport, place: usize, fabric: &'a BurnFabric) -> Option<Self> {
        let window = window(report.fabrics.len());
        let (detail, today) = (fabric.detail.as_ref()?, day(&report.date)?);
        let past = &detail.past[detail.past.len().saturating_sub(window.past)..];
        let coming = &detail.coming[..detail.coming.len().min(window.coming)];
        let shelf = shelf::days(detail, today, window);
        let many = many(report.fabrics.len());
        Some(Self { fabric, detail, today, past, coming, shelf, place, many })
    }

    /// Weeks from the morning of the report to that of a day.
    fn weeks_to(&self, iso: &str) -> Option<f64> {
        Some(f64::from((day(iso)? - self.today).get_days()) / 7.0)
    }

    /// A day in a table: whole, or where there are so many fabrics without its year and its element;
    /// without its year as well where the row above has the same.
    pub(super) fn dated(&self, iso: &str, year: &mut Option<i16>) -> String {
        let of = day(iso).map(Date::year);
        if of.is_some() && of == *year {
            return if self.many { Esc(&short_date(iso)).to_string() } else { short_time(iso) };
        }
        *year = of;
        time(iso)
    }

    /// Both drawings.
    pub(super) fn both(&self) -> String {
        format!("{}{}", burn::draw(self), shelf::draw(self))
    }
}

/// Width of a drawing.
const WIDTH: f64 = 380.0;
/// Its height.
const HEIGHT: f64 = 240.0;
/// Where the axis of weeks is.
const FOOT: f64 = 198.0;
/// What a character of a tick or a label takes at most, on average.
const CHARACTER: f64 = 7.2;

/// An axis of metres up to a length in millimetres, and where the drawing begins to its right.
fn metres_axis(least_mm: f64, most_mm: f64, head: f64) -> (Axis, f64) {
    let axis = Axis::holding(least_mm / 1000.0, most_mm / 1000.0, FOOT, head);
    let longest = axis.ticks().iter().map(|tick| tick_text(&axis, *tick).chars().count()).max().unwrap_or(1);
    (axis, 12.0 + CHARACTER * super::figures::number(longest))
}

fn tick_text(axis: &Axis, tick: f64) -> String {
    if tick.abs() >= 1e12 { format!("{tick:.0e}") } else { fixed(tick, axis.decimals) }
}

/// A length on an axis of metres.
fn height(axis: &Axis, mm: f64) -> f64 {
    axis.at(if mm.is_finite() { mm / 1000.0 } else { 0.0 })
}

/// The frame of a drawing: grid, ticks, names of the axes.
fn frame(svg: &mut String, up: &Axis, along: &Axis, names: (&str, &str)) {
    let mut grid = String::new();
    put!(svg, "<g class=tick><text x=0 y=13>{}</text></g><g class=\"tick end\">", names.0);
    for tick in up.ticks() {
        let y = up.at(tick);
        put!(grid, "M{} {}H{}", px(along.from), px(y), px(along.to));
        put!(svg, "<text x={} y={}>{}</text>", px(along.from - 6.0), px(y + 4.0), tick_text(up, tick));
    }
    svg.push_str("</g><g class=\"tick mid\">");
    for tick in along.ticks() {
        let x = along.at(tick);
        put!(grid, "M{} {}v4", px(x), px(FOOT));
        // the words of a tick at the very end stay inside
        let inside = x.min(WIDTH - 14.0);
        put!(svg, "<text x={} y={}>{}</text>", px(inside), px(FOOT + 18.0), week_text(tick));
    }
    let (x, y) = (px(along.from.midpoint(along.to)), px(HEIGHT - 6.0));
    put!(svg, "<text x={x} y={y}>{}</text></g><path class=grid d=\"{grid}\"/>", names.1);
    put!(svg, "<path class=axis d=\"M{} {}H{}\"/>", px(along.from), px(up.at(0.0)), px(along.to));
}

fn week_text(tick: f64) -> String {
    match tick {
        0.0 => String::from("now"),
        tick if tick > 0.0 => format!("+{tick:.0}"),
        tick => format!("\u{2212}{:.0}", tick.abs()),
    }
}

/// A drawing with its title and description.
fn svg(name: &str, title: &str, description: &str, inside: &str) -> String {
    format!(
        "<svg viewBox=\"0 0 {WIDTH} {HEIGHT}\" role=img aria-labelledby=\"{name}t {name}d\">\
         <title id={name}t>{title}</title><desc id={name}d>{description}</desc>{inside}</svg>"
    )
}
