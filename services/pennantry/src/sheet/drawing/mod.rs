//! The string as it hangs, drawn to scale in characters.
//!
//! # Scale
//!
//! One column stands for a whole number of millimetres ([`frame`]); a row of characters is
//! taken to be two columns tall. An edge at x from the left end of the finished binding is
//! drawn at column `x / scale`, to the nearest, a half to the right: each edge by itself, so
//! no error adds up. A side slopes by whole columns, to the nearest, at the middle of each
//! row's height ([`shape`]).
//!
//! # Breaks
//!
//! What does not fit at a scale at which a gap and a slope can be seen is broken, and the
//! break says how many pennants are left out; a long tail is broken likewise. Within each
//! part the scale holds; across a break it does not.
//!
//! # Letters
//!
//! A pennant is filled with the letter of its fabric, which [`Keys`] explain. A letter of
//! the lettering stands free in the middle of its pennant.

mod canvas;
mod frame;
mod shape;

use pennantry_contract::v1;

use self::canvas::Canvas;
pub use self::frame::{Frame, Window};
use self::shape::Outline;
use crate::length::from_wire;
use pennantry_measure::Length;

/// Letters that stand for fabrics.
const LETTERS: &str = "abcdefghijklmnopqrstuvwxyz";
/// Stands for a fabric for which there is no letter left.
const OTHER: char = '*';
/// Fills a pennant whose fabric the answer does not list.
const UNLISTED: char = '.';

/// What is drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawing {
    /// The lines, from the binding down.
    pub lines: Vec<String>,
    /// Where things stand.
    pub frame: Frame,
    /// Whether there are pennants whose fabric is not listed.
    pub unlisted: bool,
}

/// Which letter stands for which fabric, in the order first hung.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Keys(Vec<String>);

impl Keys {
    /// Of the marks; where they are not listed, of the cloth.
    pub fn of(quote: &v1::Quote) -> Keys {
        let marks = quote.layout.iter().filter_map(|layout| layout.positions.as_ref());
        let marks = marks.flat_map(|places| {
            let listed = places.marks.iter();
            listed.chain(&places.first).chain(&places.last).map(|mark| mark.fabric_code.as_str())
        });
        let pennants = i32::from(v1::ClothRole::Pennants);
        let cloth =
            quote.fabrics.iter().filter(|used| used.role == pennants).map(|used| used.fabric_code.as_str());
        let listed =
            quote.layout.iter().filter_map(|layout| layout.positions.as_ref()).any(|p| !p.marks.is_empty());
        let mut keys = Vec::new();
        for code in marks.chain(cloth.filter(|_| !listed)) {
            if !code.is_empty() && !keys.iter().any(|key| key == code) {
                keys.push(code.to_owned());
            }
        }
        Keys(keys)
    }

    /// The letter of a fabric.
    pub fn letter(&self, code: &str) -> char {
        let place = self.0.iter().position(|key| key == code);
        place.map_or(UNLISTED, |place| LETTERS.chars().nth(place).unwrap_or(OTHER))
    }

    /// Every letter with its fabric.
    pub fn told(&self) -> Vec<String> {
        self.0.iter().map(|code| format!("{} {code}", self.letter(code))).collect()
    }
}

/// Draws a layout; nothing where its lengths cannot be drawn.
pub fn draw(quote: &v1::Quote, keys: &Keys) -> Option<Drawing> {
    let layout = quote.layout.as_ref()?;
    let um = |mm: f64| from_wire(mm).map(Length::um);
    let string = frame::Strung {
        count: i64::from(layout.pennant_count),
        width: um(layout.top_width_mm)?,
        drop: um(layout.top_drop_mm)?,
        flagged: um(layout.flagged_mm)?,
        tail: um(layout.tail_mm)?,
        overall: um(layout.overall_mm)?,
    };
    let frame = frame::choose(&string)?;
    let outline = Outline::of(quote, string.width, string.drop)?;
    let rows = rows(string.drop, frame.scale_um);
    let mut canvas = Canvas::new(frame.columns(), rows + 2);
    for window in &frame.windows {
        canvas.span(0, window.column, window.end_column(frame.scale_um), '─');
    }
    for mark in &frame.breaks {
        canvas.words(0, mark.column, &mark.words);
    }
    hooks(&mut canvas, layout, &frame, string.overall);
    let mut unlisted = false;
    for place in frame.drawn(string.count) {
        let left = string.left_of(place);
        let (Some(from), Some(to)) = (frame.column(left), frame.column_end(left + string.width)) else {
            continue;
        };
        let mark = mark(layout, place);
        let fill = mark.map_or(UNLISTED, |mark| keys.letter(&mark.fabric_code));
        unlisted |= fill == UNLISTED;
        // at least one column, however narrow
        let columns = (from, to.max(from + 1));
        pennant(&mut canvas, &outline, columns, rows, frame.scale_um, fill);
        if let Some(letter) = mark.map(|mark| mark.letter.as_str()).filter(|letter| !letter.is_empty()) {
            canvas.letter(if rows > 1 { 2 } else { 1 }, columns, letter);
        }
        canvas.number(rows + 1, columns, place + 1);
    }
    if let (Some(first), Some(last)) = (frame.windows.first(), frame.windows.last()) {
        canvas.end(0, first.column, '├');
        canvas.end(0, last.end_column(frame.scale_um).saturating_sub(1), '┤');
    }
    Some(Drawing { lines: canvas.lines(), frame, unlisted })
}

/// Rows that a drop takes, to the nearest, at least one.
fn rows(drop: i64, scale: i64) -> usize {
    usize::try_from((drop + scale) / (2 * scale)).unwrap_or(1).max(1)
}

/// Fills each row between the two sides.
fn pennant(
    canvas: &mut Canvas,
    outline: &Outline,
    (from, to): (usize, usize),
    rows: usize,
    scale: i64,
    fill: char,
) {
    let columns = |um: i64| usize::try_from((um + scale / 2) / scale).unwrap_or(0);
    let middle = from + (to - from) / 2;
    for row in 0..rows {
        let depth = i64::try_from(row).unwrap_or(0).saturating_mul(2).saturating_add(1).saturating_mul(scale);
        let slice = outline.at(depth);
        let inset = columns(slice.inset);
        let (left, right) = (from + inset, to.saturating_sub(inset));
        if left < right {
            canvas.span(row + 1, left, right, fill);
        } else if slice.is_there {
            canvas.span(row + 1, middle.min(to - 1), (middle + 1).min(to), fill);
        }
        if let Some(notch) = slice.notch {
            let half = columns(notch).min((to - from) / 2);
            // an even width has its middle between two columns
            let right = if (to - from).is_multiple_of(2) { middle + half } else { middle + half + 1 };
            canvas.span(row + 1, middle.saturating_sub(half).max(from), right.min(to), ' ');
        }
    }
}

/// The hooks between the outer ones, on the binding.
fn hooks(canvas: &mut Canvas, layout: &v1::Layout, frame: &Frame, overall: i64) {
    for hook in layout.hang.iter().flat_map(|hang| &hang.hooks) {
        let at = from_wire(hook.at_mm).map(|at| overall / 2 + at.um());
        if let Some(column) = at.and_then(|at| frame.column(at)) {
            canvas.end(0, column, 'o');
        }
    }
}

/// The mark of a pennant, where the answer lists it.
fn mark(layout: &v1::Layout, place: i64) -> Option<&v1::Mark> {
    let positions = layout.positions.as_ref()?;
    if positions.marks.is_empty() {
        let last = i64::from(layout.pennant_count) - 1;
        return match place {
            0 => positions.first.as_ref(),
            _ if place == last => positions.last.as_ref(),
            _ => None,
        };
    }
    positions.marks.get(usize::try_from(place).ok()?)
}

#[cfg(test)]
mod tests;
