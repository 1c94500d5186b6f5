//! Facing pairs: two rows foot to foot, the second shifted between the feet of the first.
//!
//! With the second row shifted by `s`, at most half a pitch, and the clearance `c` between
//! the edges of both, a pair takes
//!
//! | shape | slope `m` of its foot | length of the pair |
//! |---|---|---|
//! | swallowtail, notch `d`, points clipped to `f` | `2 d / (w − 2 f)` | `2 (h − d) + m (w − s + c) + c √(1 + m²)` |
//! | shield, sides `h₁`, point clipped to `f` | `2 (h − h₁) / (w − f)` | `2 h₁ + m (w − s) + c √(1 + m²)` |
//! | scallop, arc of radius `R` | | `2 (h − R) + √((2 R + c)² − s²)` |
//!
//! The slanted edges of the two rows are parallel, and `c` apart square to the edge. A
//! notch of a swallowtail takes two points of the other row, which stand `c` apart, so
//! that the nearer one is only `s − c` beyond the notch's edge. Two arcs are `c` apart
//! when their centres are `2 R + c` apart; with chord `w` and rise `f` the radius is
//! `R = (w² + 4 f²) / 8 f`.
//!
//! Where points are clipped the formulas hold for the edges between the clips, as if the
//! points were sharp; they are never nearer than that.
//!
//! A row of `k` leaves a slack. Shifted by all of the slack, or by half a pitch where
//! that is less, both rows hold `k`; shifted by half a pitch the second row holds one
//! fewer at the worst. A pair that is no shorter than two plain rows is none.
//!
//! Plane geometry; lengths are rounded up.

use pennantry_measure::{Rounding, ceil_sqrt, divide};

use super::rows::{Cut, Unit};
use crate::shop::{Direction, Shape};

/// How a pair lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Pair {
    /// The shift of its second row, in half micrometres.
    pub half_shift: i64,
}

/// The pairs that are worth it: the one with as many pieces as two plain rows, and the
/// shorter one with one fewer.
pub(super) fn pairs(cut: &Cut, units: &mut Vec<Unit>) {
    if cut.direction == Direction::OneWay || cut.per_row == 0 {
        return;
    }
    let taken = 2 * cut.width + cut.half_pitch * i64::from(cut.per_row - 1);
    let slack = 2 * cut.cloth - taken;
    // the pitch of shapes with straight sides is a whole number of micrometres
    let most = cut.half_pitch / 2;
    let mut least = 2 * cut.drop + cut.gap;
    for (half_shift, count) in [(slack.min(most), 2 * cut.per_row), (most, 2 * cut.per_row - 1)] {
        let Some(length) = length(cut, half_shift).filter(|length| *length < least) else { continue };
        // a single piece has no second row
        if count > 1 {
            units.push(Unit { pair: Some(Pair { half_shift }), count, length });
            least = length;
        }
    }
}

/// The length of a pair of a shift, up to the micrometre; none where the shape has none,
/// or where the shift gains nothing.
fn length(cut: &Cut, half_shift: i64) -> Option<i64> {
    let outline = &cut.outline;
    let wide = i128::from;
    let (width, drop, clearance) = (wide(cut.width), wide(cut.drop), wide(cut.clearance));
    let shift = wide(half_shift);
    let (detail, flat) = (outline.detail.wide(), outline.flat.wide());
    // straight part, rise and run of the slope, and the shift that it gains by
    let (straight, rise, run, gained) = match outline.shape {
        Shape::Swallowtail => (drop - detail, 2 * detail, width - 2 * flat, shift - 2 * clearance),
        Shape::Shield => (detail, 2 * (drop - detail), width - flat, shift),
        Shape::Scallop => return arcs(width, drop, detail, clearance, shift),
        Shape::Triangle | Shape::Blunt | Shape::Rectangle => return None,
    };
    if rise <= 0 || run <= 0 || gained <= 0 {
        return None;
    }
    let square = 4 * clearance * clearance * (rise * rise + run * run);
    let root = i128::try_from(ceil_sqrt(square.unsigned_abs())).ok()?;
    let slanted = divide(rise * (2 * width - gained) + root, 2 * run, Rounding::Up);
    i64::try_from(2 * straight + slanted).ok()
}

/// The length of a pair of scallops.
fn arcs(width: i128, drop: i128, rise: i128, clearance: i128, half_shift: i128) -> Option<i64> {
    if rise <= 0 || half_shift <= 0 {
        return None;
    }
    // twice the radius is (w² + 4 f²) / 4 f; all is taken times 8 f
    let (diameter, scale) = (2 * (width * width + 4 * rise * rise), 8 * rise);
    let between = diameter + clearance * scale;
    let across = half_shift * scale / 2;
    let square = u128::try_from(between * between - across * across).ok()?;
    let root = i128::try_from(ceil_sqrt(square)).ok()?;
    i64::try_from(divide(2 * drop * scale + root - diameter, scale, Rounding::Up)).ok()
}
