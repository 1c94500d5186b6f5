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

use super::figures::{day, fixed};
use super::scale::{Axis, px};
use super::words::put;

/// How much of a fabric's past and future is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Window {
    /// Weeks of the past.
    pub past: usize,
    /// Weeks to come.
    pub coming: usize,
    /// Most days of the shelf that are drawn one by one; beyond, one in seven is, and those of deliveries.
    pub days: usize,
}

/// Most fabrics with which a page shows a whole year of each.
const FEW: usize = 100;

/// What is drawn of each where there are so many: a page has to stay small enough to open.
pub(super) fn window(fabrics: usize) -> Window {
    if fabrics <= FEW {
        Window { past: 52, coming: 26, days: 182 }
    } else {
        Window { past: 26, coming: 13, days: 28 }
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
}

impl<'a> Drawn<'a> {
    /// What of a fabric is drawn; nothing where the report has no day or the fabric no detail.
    pub(super) fn new(report: &'a BurnReport, place: usize, fabric: &'a BurnFabric) -> Option<Self> {
        let window = window(report.fabrics.len());
        let (detail, today) = (fabric.detail.as_ref()?, day(&report.date)?);
        let past = &detail.past[detail.past.len().saturating_sub(window.past)..];
        let coming = &detail.coming[..detail.coming.len().min(window.coming)];
        let shelf = shelf::days(detail, today, window.days);
        Some(Self { fabric, detail, today, past, coming, shelf, place })
    }

    /// Weeks from the morning of the report to that of a day.
    fn weeks_to(&self, iso: &str) -> Option<f64> {
        Some(f64::from((day(iso)? - self.today).get_days()) / 7.0)
    }

    /// Both drawings.
    pub(super) fn both(&self) -> String {
        format!("{}{}", burn::draw(self), shelf::draw(self))
    }
}

/// Width of a drawing.
const WIDTH: f64 = 420.0;
/// Its height.
const HEIGHT: f64 = 230.0;
/// Where the axis of weeks is.
const FOOT: f64 = 190.0;
/// What a character of a tick or a label takes at most, on average.
const CHARACTER: f64 = 6.3;

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
    svg.push_str("<g class=tick>");
    for tick in up.ticks() {
        let y = px(up.at(tick));
        put!(grid, "M{} {y}H{}", px(along.from), px(along.to));
        put!(svg, "<text class=end x={} y={y} dy=4>{}</text>", px(along.from - 6.0), tick_text(up, tick));
    }
    for tick in along.ticks() {
        let x = px(along.at(tick));
        put!(grid, "M{x} {}v4", px(FOOT));
        put!(svg, "<text class=mid x={x} y={}>{}</text>", px(FOOT + 17.0), week_text(tick));
    }
    let (x, y) = (px(along.from.midpoint(along.to)), px(HEIGHT - 6.0));
    put!(svg, "<text class=mid x={x} y={y}>{}</text>", names.1);
    put!(svg, "<text x=0 y=12>{}</text></g>", names.0);
    put!(svg, "<path class=grid d=\"{grid}\"/>");
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
