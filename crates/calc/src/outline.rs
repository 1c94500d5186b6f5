//! What is cut out of the cloth for one pennant, from its finished size.
//!
//! A pennant's finished size is the one at its top edge, which the binding hides: the
//! insertion lies within it. Only the two slanted sides get a seam, because the top
//! stays raw inside the binding. With top width `w`, drop `h`, seam `s`, and `a` the
//! angle of a side to the middle line (`tan a = w / 2h`), both sides move outward by
//! `s`, square to themselves:
//!
//! | figure | formula | written without the angle |
//! |---|---|---|
//! | cut width | `w + 2 s / cos a` | `w + s √(w² + 4 h²) / h` |
//! | cut drop | `h + s / sin a` | `h + s √(w² + 4 h²) / w` |
//!
//! A size seen at the binding's edge is first raised along its own sides by the
//! insertion `t`: `w + 2 t tan a` and `h + t`.
//!
//! The formulas are plane geometry: a line moved outward by `s`. The root is taken in
//! whole numbers, so the result is exact: what is cut is the least whole micrometre
//! that holds the seam (cloth needed: up), and a size read back from a cut outline is
//! the nearest one.

use pennantry_measure::{Length, Percent, Rounding, ceil_sqrt, divide};

use crate::shop::Shape;

#[cfg(test)]
mod tests;

/// A finished pennant, its size at the top edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Finished {
    /// Its shape.
    pub shape: Shape,
    /// Width of its top edge.
    pub width: Length,
    /// Drop from the top edge, insertion and all.
    pub drop: Length,
    /// What its shape has beside: see [`Shape`].
    pub detail: Length,
}

/// The piece that is cut, its seams in it, lying with its straight top first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Outline {
    /// Its shape. A triangle whose tip is clipped is a blunt one.
    pub shape: Shape,
    /// Width at its top.
    pub width: Length,
    /// From its top to its furthest point.
    pub drop: Length,
    /// Blunt: width of the foot. Swallowtail: from the furthest point up to the notch.
    /// Shield: length of the straight sides. Scallop: rise of the arc. Otherwise nought.
    pub detail: Length,
    /// Width of a point that is clipped square: of a shield's one, of each of a
    /// swallowtail's two. Otherwise nought.
    pub flat: Length,
}

impl Outline {
    /// A triangle, base at the top.
    pub const fn triangle(width: Length, drop: Length) -> Outline {
        Outline { shape: Shape::Triangle, width, drop, detail: Length::ZERO, flat: Length::ZERO }
    }
    pub fn area(&self) -> pennantry_measure::Area {
        pennantry_measure::Area::from_um2((self.width * self.drop).um2() / 2)
    }
}

/// The outline to cut for a finished pennant.
pub fn cut(finished: &Finished, seam: Length, clip_tips: bool) -> Outline {
    let _ = clip_tips;
    triangle(finished.width, finished.drop, seam)
}

/// The outline to cut for a triangle of this finished size at its top edge: each
/// slanted side moved outward by the seam, up to the micrometre. No seam at the top.
///
/// ```
/// use pennantry_calc::outline::triangle;
/// use pennantry_measure::Length;
/// let cut = triangle(Length::from_mm(200), Length::from_mm(250), Length::from_mm(10));
/// assert_eq!((cut.width, cut.drop), (Length::from_um(221_541), Length::from_um(276_926)));
/// ```
pub fn triangle(top_width: Length, top_drop: Length, seam: Length) -> Outline {
    let root = grown_root(top_width, top_drop, seam);
    Outline::triangle(
        top_width + um(divide(root, top_drop.wide(), Rounding::Up)),
        top_drop + um(divide(root, top_width.wide(), Rounding::Up)),
    )
}

/// How much wider along the base a triangle gets when both its sides move outward by
/// `distance`, square to themselves: `distance · √(w² + 4 h²) / h`, up to the
/// micrometre. Nought for nought, exactly.
///
/// ```
/// use pennantry_calc::outline::spread;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(spread(mm(190), mm(210), mm(5)), Length::from_um(10_976));
/// assert_eq!(spread(mm(190), mm(210), mm(0)), mm(0));
/// ```
pub fn spread(width: Length, drop: Length, distance: Length) -> Length {
    um(divide(grown_root(width, drop, distance), drop.wide(), Rounding::Up))
}

/// `distance · √(w² + 4 h²)`, up: a root up and then a quotient up is the quotient up.
fn grown_root(width: Length, drop: Length, distance: Length) -> i128 {
    signed(ceil_sqrt(grown_square(width, drop, distance)))
}

/// `distance² · (w² + 4 h²)`, 10²⁵ at the most that the bounds let through.
fn grown_square(width: Length, drop: Length, distance: Length) -> u128 {
    let square = |length: Length| length.wide().unsigned_abs() * length.wide().unsigned_abs();
    square(distance) * (square(width) + 4 * square(drop))
}

/// A size seen at the binding's edge, raised along its prolonged sides to the top edge
/// that the binding hides: `(w + w t / h, h + t)`, the width to the nearest micrometre.
///
/// ```
/// use pennantry_calc::outline::raise;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(raise(mm(200), mm(200), mm(10)), (mm(210), mm(210)));
/// ```
pub fn raise(width: Length, drop: Length, insertion: Length) -> (Length, Length) {
    let wider = divide(width.wide() * insertion.wide(), drop.wide(), Rounding::HalfUp);
    (width + um(wider), drop + insertion)
}

/// The finished size at the top edge that a cut outline gives, to the nearest
/// micrometre; none where the seams leave nothing.
///
/// ```
/// use pennantry_calc::outline::{Outline, finished_from_cut};
/// use pennantry_measure::Length;
/// let cut = Outline::triangle(Length::from_mm(220), Length::from_mm(220));
/// let finished = Length::from_um(197_639);
/// assert_eq!(finished_from_cut(cut, Length::from_mm(10)), Some((finished, finished)));
/// ```
pub fn finished_from_cut(cut: Outline, seam: Length) -> Option<(Length, Length)> {
    // the sides are parallel, so the cut triangle has the finished one's angle
    let twice = signed((4 * grown_square(cut.width, cut.drop, seam)).isqrt());
    let nearest = |side: i128| um(divide(twice + side, 2 * side, Rounding::Down));
    let width = cut.width - nearest(cut.drop.wide());
    let drop = cut.drop - nearest(cut.width.wide());
    (width > Length::ZERO && drop > Length::ZERO).then_some((width, drop))
}

/// The drop of a template that is given by its top and its slanted side,
/// `√(side² − w² / 4)`, to the nearest micrometre; none where the sides do not meet.
///
/// ```
/// use pennantry_calc::outline::drop_from_side;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(drop_from_side(mm(160), mm(220)), Some(Length::from_um(204_939)));
/// assert_eq!(drop_from_side(mm(400), mm(200)), None);
/// ```
pub fn drop_from_side(top_width: Length, side: Length) -> Option<Length> {
    let square = |length: Length| length.wide().unsigned_abs() * length.wide().unsigned_abs();
    let twice = (4 * square(side)).checked_sub(square(top_width)).filter(|square| *square > 0)?.isqrt();
    Some(um(signed(twice.div_ceil(2))))
}

/// The share of the cut width that is seam, `(W − w) / W`, up to the next thousandth
/// of a percent: a share that is over a limit also reads as over it.
///
/// ```
/// use pennantry_calc::outline::{seam_share, triangle};
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// let cut = triangle(mm(200), mm(250), mm(10));
/// assert_eq!(seam_share(mm(200), cut).to_string(), "9.724 %");
/// ```
pub fn seam_share(top_width: Length, cut: Outline) -> Percent {
    let seams = (cut.width - top_width).wide();
    let share = divide(seams * i128::from(Percent::WHOLE.milli()), cut.width.wide(), Rounding::Up);
    Percent::from_milli(i64::try_from(share).unwrap_or(i64::MAX))
}

/// Back to a length; nothing within the bounds comes near the ends of the type.
pub(crate) fn um(wide: i128) -> Length {
    Length::from_um(i64::try_from(wide).unwrap_or(i64::MAX))
}

fn signed(wide: u128) -> i128 {
    i128::try_from(wide).unwrap_or(i128::MAX)
}
