//! The length below which no plan can get.
//!
//! The longest of these, rounded down:
//! - the cloth's area, `N A / W`, with the area `A` of the piece;
//! - one drop, or the lesser of drop and width where pieces may lie on their side;
//! - for triangles and blunts that lie upright or turned by half, with `c` between
//!   neighbours, `N h ((w + t)/2 + c) / (W − (w − t)/2 + c)`. Derived: along every line
//!   across the cloth the pieces and the gaps between them add up; the cloth left of the
//!   first piece averages at least `(w − t)/4` because its side leans, the cloth right of
//!   the last piece likewise; so `L (W − (w − t)/2 + c) ≥ N (A + c h)`.
//!
//! | shape | area |
//! |---|---|
//! | triangle, blunt | `(w + t) h / 2` |
//! | swallowtail, points clipped to `f` | `w h − d (w − 2 f) / 2` |
//! | shield, point clipped to `f` | `w h₁ + (h − h₁)(w + f) / 2` |
//! | scallop of rise `f` | `w (h − f) + w f (2/3 + 2/15 y + 4/35 y² + …)`, `y = 4 f² / (w² + 4 f²)` |
//! | rectangle | `w h` |
//!
//! The series of the circular segment follows from Euler's series of the arctangent
//! (L. Euler, *Institutiones calculi differentialis*, 1755); the factor from one term to
//! the next is `y (2 k + 4) / (2 k + 5)`, so every part of it is below the area.

use pennantry_measure::{Length, Rounding, divide};

use super::Job;
use super::rows::{alternates, direction, foot};
use crate::outline::{Outline, um};
use crate::shop::{Direction, Shape};

/// Terms of the series; `y` is at most a half, so what is left out is below a part in
/// 2³².
const TERMS: u64 = 32;
/// Bits behind the point of the series.
const BITS: u32 = 60;

pub(super) fn bound(job: &Job) -> Length {
    if job.pieces == 0 {
        return Length::ZERO;
    }
    let outline = &job.outline;
    let (w, h, t) = (outline.width.wide(), outline.drop.wide(), foot(outline).wide());
    let (cloth, clear) = (job.cloth_width.wide(), job.clearance.wide());
    let pieces = i128::from(job.pieces);
    let area = um(divide(pieces * twice_area(outline), 2 * cloth, Rounding::Down));
    if direction(job) == Direction::FourWay {
        return area.max(outline.drop.min(outline.width));
    }
    if !alternates(outline.shape) {
        return area.max(outline.drop);
    }
    let margins = divide(pieces * h * (w + t + 2 * clear), 2 * cloth - w + t + 2 * clear, Rounding::Down);
    area.max(um(margins)).max(outline.drop)
}

/// Twice the area in square micrometres; of a scallop, rounded down.
pub(super) fn twice_area(outline: &Outline) -> i128 {
    let (w, h) = (outline.width.wide(), outline.drop.wide());
    let (detail, flat) = (outline.detail.wide(), outline.flat.wide());
    match outline.shape {
        Shape::Triangle | Shape::Blunt => (w + foot(outline).wide()) * h,
        Shape::Swallowtail => 2 * w * h - detail * (w - 2 * flat),
        Shape::Shield => 2 * w * detail + (h - detail) * (w + flat),
        Shape::Scallop => 2 * w * (h - detail) + twice_segment(w, detail),
        Shape::Rectangle => 2 * w * h,
    }
}

/// Twice the area of a circular segment of a chord and a rise, rounded down.
fn twice_segment(chord: i128, rise: i128) -> i128 {
    let square = 4 * rise * rise;
    let ratio = divide(square << 40, chord * chord + square, Rounding::Down);
    let ratio = u128::try_from(ratio).unwrap_or(0);
    let one = 1_u64 << BITS;
    // twice 2/3, then twice 2/15 of the ratio
    let mut sum = one / 3 * 4;
    let mut term = one / 15 * 4;
    for k in 1..=TERMS {
        let shrunk = (u128::from(term) * ratio) >> 40;
        term = u64::try_from(shrunk).unwrap_or(0);
        if term == 0 {
            break;
        }
        sum += term;
        term -= term.div_ceil(2 * k + 5);
    }
    // the sum is below two, times a chord and a rise below a hundred metres
    (chord * rise * i128::from(sum)) >> BITS
}
