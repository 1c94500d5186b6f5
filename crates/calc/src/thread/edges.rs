//! How long a pennant's edges are below its top: what is sewn together all round.
//!
//! With width `w`, drop `h` and detail `d`:
//!
//! | shape | edges | length |
//! |---|---|---|
//! | triangle | two sides | `√(w² + 4 h²)` |
//! | blunt | two sides, the foot `d` | `√((w − d)² + 4 h²) + d` |
//! | swallowtail | two sides, the notch `d` deep | `2 h + √(w² + 4 d²)` |
//! | shield | two straight sides `d`, two to the point | `2 d + √(w² + 4 (h − d)²)` |
//! | scallop | two sides, an arc that rises by `d` | `2 (h − d) + (w² + 4 d²) / 2 d · arctan (2 d / w)` |
//! | rectangle | two sides, the foot | `2 h + w` |
//!
//! Plane geometry (derived): two equal slanted lines are one root, and an arc of radius
//! `(w² + 4 d²) / 8 d` turns by `4 arctan (2 d / w)`. Up to the micrometre, as thread is
//! needed. Roots are taken in whole numbers; the arc is a double, its one function from
//! `libm`.

use pennantry_measure::{Length, ceil_sqrt};

use crate::outline::{Finished, um};
use crate::shop::Shape;

/// 2⁵², from which on a double holds nothing but whole numbers.
const WHOLES: f64 = 4_503_599_627_370_496.0;

/// All edges of a finished pennant but its top.
pub(super) fn below_top(finished: &Finished) -> Length {
    let (width, drop) = (finished.width.wide(), finished.drop.wide());
    let detail = finished.detail.wide();
    um(match finished.shape {
        Shape::Triangle => slants(width, drop),
        Shape::Blunt => slants(width - detail, drop) + detail,
        Shape::Swallowtail => 2 * drop + slants(width, detail),
        Shape::Shield => 2 * detail + slants(width, drop - detail),
        Shape::Scallop => 2 * (drop - detail) + arc(finished.width, finished.detail),
        Shape::Rectangle => 2 * drop + width,
    })
}

/// Two equal lines that lean by half of `across` each and go down by `down`: up.
fn slants(across: i128, down: i128) -> i128 {
    let (across, down) = (across.unsigned_abs(), down.unsigned_abs());
    i128::try_from(ceil_sqrt(across * across + 4 * down * down)).unwrap_or(i128::MAX)
}

/// The arc over `width` that rises by `rise`: up. No rise is the straight line.
fn arc(width: Length, rise: Length) -> i128 {
    if width <= Length::ZERO || rise <= Length::ZERO {
        return width.wide();
    }
    // bounds keep both below 2³¹ micrometres by far
    let float = |length: Length| f64::from(i32::try_from(length.um()).unwrap_or(i32::MAX));
    let (width, twice) = (float(width), 2.0 * float(rise));
    let arc = (width * width + twice * twice) / twice * libm::atan(twice / width);
    // beside 2⁵² the digits of a whole number stand in the low bits as they are
    let digits = (libm::ceil(arc).min(WHOLES - 1.0) + WHOLES).to_bits() & ((1 << 52) - 1);
    i128::from(digits)
}
