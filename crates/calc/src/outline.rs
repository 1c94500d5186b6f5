//! What is cut out of the cloth for one pennant, from its finished size.
//!
//! A pennant's finished size is the one at its top edge, which the binding hides: the
//! insertion lies within it. The top stays raw inside the binding and gets no seam.
//! Every other edge moves outward by the seam, square to itself, and neighbours are
//! prolonged until they meet: the corners are *mitred*. The sides are prolonged up to
//! the line of the top, which stays where it is.
//!
//! Width `w`, drop `h`, seam `s`; what a shape has beside them is its detail: foot `f`,
//! notch `d`, straight sides `e`, rise `r`. `q = h − e` is the point of a shield. With
//! the root of each shape,
//!
//! | shape | root | cut width | cut drop | cut detail |
//! |---|---|---|---|---|
//! | triangle | `X = √(w² + 4 h²)` | `w + s X / h` ↑ | `h + s X / w` ↑ | |
//! | blunt | `X = √((w − f)² + 4 h²)` | `w + s X / h` ↑ | `h + s` | `f + s (X − (w − f)) / h` ↑ |
//! | swallowtail | `X = √(w² + 4 d²)` | `w + 2 s` | `h + s (X + 2 d) / w` ↑ | cut drop `−` (`h − d + s X / w` ↑) |
//! | shield | `X = √(w² + 4 q²)` | `w + 2 s` | `h + s X / w` ↑ | `e + s (X − 2 q) / w` ↑ |
//! | scallop | `X = √((w + 2 r)² + 16 r s)` | `w + 2 s` | `h + s` | `(w² + 4 r² + 8 r s − (w − 2 r) X) / 8 r` ↓ |
//! | rectangle | | `w + 2 s` | `h + s` | |
//!
//! The notch of a swallowtail is `d (w + 2 s) / w` deep before rounding, as both of its
//! edges stay parallel. A scallop's arc keeps its middle and has the radius `R + s`,
//! where `R = (w² / 4 + r²) / 2 r`; its cut rise is
//! `(R + s) − √((R + s)² − (w / 2 + s)²)` written with one root. Side and arc are
//! prolonged, the arc as an arc.
//!
//! **Clipped points.** A sharp point runs far out. Where the bench clips its points, they
//! are cut off square at the seam beyond the finished point, so the cut drop is `h + s`:
//!
//! | shape | becomes | width of each clipped point |
//! |---|---|---|
//! | triangle | blunt, detail the foot | `s (X − w) / h` ↑ |
//! | shield | shield, flat at its point | `s (X − w) / q` ↑ |
//! | swallowtail | swallowtail, flat at both points, notch `h + s −` (`h − d + s X / w` ↑) deep | `s (X + 2 d − w) / 2 d` ↑ |
//!
//! Where the seam is so wide that the two flats of a swallowtail meet, no notch is left
//! and the piece is a rectangle. Blunt pennants, scallops and rectangles are never
//! clipped: their feet move down by the seam anyhow. Nor is a point that its mitre takes
//! no further than that.
//!
//! **Rounding.** Roots are taken in whole numbers, and each figure is rounded once to
//! the micrometre, so that there is more cloth: ↑ up, ↓ down, no arrow exact. Every
//! corner then lies on or beyond the exact edges that meet in it, and so does the edge
//! between two corners: nowhere is the seam thinner than asked for. No corner is more
//! than a micrometre beyond an exact edge. A scallop's rise goes down: its arc then
//! starts lower and is flatter, touches the exact arc at the foot and lies beyond it
//! everywhere else. Without a seam every figure is that of the finished pennant.
//!
//! *Example.* Shield 120 wide, 160 deep, straight for 80, seam 10: `q = 80`,
//! `X = √(14 400 + 25 600) = 200`. Cut width 140, cut drop `160 + 2 000 / 120`, up
//! 176.667; straight for `80 + 10 · 40 / 120`, up 83.334. Clipped: drop 170, and a flat
//! of `10 · 80 / 80 = 10` at the point.
//!
//! A size seen at the binding's edge is first [`raised`] along its own sides.
//!
//! The formulas are plane geometry: lines and an arc moved outward by `s`.

mod measures;
mod triangles;

use pennantry_measure::{Length, Percent, Rounding, ceil_sqrt, divide};

use crate::shop::Shape;

pub use triangles::{drop_from_side, finished_from_cut, raise, spread, triangle};

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

    /// Nothing but sides and a foot.
    const fn rectangle(width: Length, drop: Length) -> Outline {
        Outline { shape: Shape::Rectangle, width, drop, detail: Length::ZERO, flat: Length::ZERO }
    }
}

/// The outline to cut for a finished pennant.
///
/// Sizes are at the top edge. A seam below nought counts as nought. Measures that make
/// no such shape (a foot of nought, straight sides longer than the drop) give the shape
/// at the limit.
///
/// ```
/// use pennantry_calc::outline::{Finished, cut};
/// use pennantry_calc::shop::Shape;
/// use pennantry_measure::Length;
/// let (mm, um) = (Length::from_mm, Length::from_um);
/// let shield = Finished { shape: Shape::Shield, width: mm(120), drop: mm(160), detail: mm(80) };
/// let mitred = cut(&shield, mm(10), false);
/// assert_eq!((mitred.width, mitred.drop, mitred.detail), (mm(140), um(176_667), um(83_334)));
/// let clipped = cut(&shield, mm(10), true);
/// assert_eq!((clipped.drop, clipped.detail, clipped.flat), (mm(170), um(83_334), mm(10)));
/// ```
pub fn cut(finished: &Finished, seam: Length, clip_tips: bool) -> Outline {
    let seam = seam.max(Length::ZERO);
    let Finished { shape, width, drop, detail } = *finished;
    let detail = detail.max(Length::ZERO);
    match shape {
        Shape::Triangle => {
            let mitred = triangle(width, drop, seam);
            // with the tip cut off, a triangle is a blunt pennant whose foot is nothing
            if clip_tips && mitred.drop > drop + seam {
                blunt(width, drop, Length::ZERO, seam)
            } else {
                mitred
            }
        }
        Shape::Blunt => blunt(width, drop, detail, seam),
        Shape::Swallowtail => swallowtail(width, drop, detail.min(drop), seam, clip_tips),
        Shape::Shield => shield(width, drop, detail.min(drop), seam, clip_tips),
        Shape::Scallop => scallop(width, drop, detail.min(um(width.wide() / 2)), seam),
        Shape::Rectangle => Outline::rectangle(width + seam * 2, drop + seam),
    }
}

fn blunt(width: Length, drop: Length, foot: Length, seam: Length) -> Outline {
    let narrower = width - foot;
    let root = grown_root(narrower, drop, seam);
    let wider = root - seam.wide() * narrower.wide();
    Outline {
        shape: Shape::Blunt,
        width: width + um(divide(root, drop.wide(), Rounding::Up)),
        drop: drop + seam,
        detail: foot + um(divide(wider, drop.wide(), Rounding::Up)),
        flat: Length::ZERO,
    }
}

fn swallowtail(width: Length, drop: Length, notch: Length, seam: Length, clip_tips: bool) -> Outline {
    let root = grown_root(width, notch, seam);
    let seams = seam.wide() * notch.wide() * 2;
    // from the top: the point of each tail, and where the notch ends
    let point = drop + um(divide(root + seams, width.wide(), Rounding::Up));
    let end = drop - notch + um(divide(root, width.wide(), Rounding::Up));
    let cut_width = width + seam * 2;
    let mitred = Outline {
        shape: Shape::Swallowtail,
        width: cut_width,
        drop: point,
        detail: point - end,
        flat: Length::ZERO,
    };
    let square = drop + seam;
    if !clip_tips || point <= square {
        return mitred;
    }
    let wide = root + seams - seam.wide() * width.wide();
    let flat = um(divide(wide, notch.wide() * 2, Rounding::Up));
    if end >= square || flat * 2 >= cut_width {
        return Outline::rectangle(cut_width, square);
    }
    Outline { drop: square, detail: square - end, flat, ..mitred }
}

fn shield(width: Length, drop: Length, straight: Length, seam: Length, clip_tips: bool) -> Outline {
    let point = drop - straight;
    let root = grown_root(width, point, seam);
    let longer = root - seam.wide() * point.wide() * 2;
    let mitred = Outline {
        shape: Shape::Shield,
        width: width + seam * 2,
        drop: drop + um(divide(root, width.wide(), Rounding::Up)),
        detail: straight + um(divide(longer, width.wide(), Rounding::Up)),
        flat: Length::ZERO,
    };
    let square = drop + seam;
    if !clip_tips || mitred.drop <= square {
        return mitred;
    }
    let wide = root - seam.wide() * width.wide();
    Outline { drop: square, flat: um(divide(wide, point.wide(), Rounding::Up)), ..mitred }
}

fn scallop(width: Length, drop: Length, rise: Length, seam: Length) -> Outline {
    let (w, r, s) = (width.wide(), rise.wide(), seam.wide());
    let straight = (w - 2 * r).unsigned_abs();
    let square = (w + 2 * r) * (w + 2 * r) + 16 * r * s;
    let root = signed(ceil_sqrt(straight * straight * square.unsigned_abs()));
    let cut_rise = divide(w * w + 4 * r * r + 8 * r * s - root, 8 * r, Rounding::Down);
    Outline {
        shape: Shape::Scallop,
        width: width + seam * 2,
        drop: drop + seam,
        detail: um(cut_rise),
        flat: Length::ZERO,
    }
}

/// A size seen at the binding's edge, raised along its prolonged sides by the insertion
/// `t` to the top edge that the binding hides: `h + t`, and the width `w + w t / h` of a
/// triangle, `w + (w − f) t / h` of a blunt pennant, to the nearest micrometre. All
/// other sides go straight up; those of a shield get longer by it.
///
/// ```
/// use pennantry_calc::outline::{Finished, raised};
/// use pennantry_calc::shop::Shape;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// let seen = Finished { shape: Shape::Blunt, width: mm(200), drop: mm(200), detail: mm(100) };
/// assert_eq!(raised(&seen, mm(10)), Finished { width: mm(205), drop: mm(210), ..seen });
/// ```
pub fn raised(at_binding: &Finished, insertion: Length) -> Finished {
    let Finished { shape, width, drop, detail } = *at_binding;
    let (leaning, longer) = match shape {
        Shape::Triangle => (width, Length::ZERO),
        Shape::Blunt => (width - detail, Length::ZERO),
        Shape::Shield => (Length::ZERO, insertion),
        Shape::Swallowtail | Shape::Scallop | Shape::Rectangle => (Length::ZERO, Length::ZERO),
    };
    let (raised, drop) = raise(leaning, drop, insertion);
    Finished { shape, width: width + raised - leaning, drop, detail: detail + longer }
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

/// `distance · √(w² + 4 h²)`, up: a root up and then a quotient up is the quotient up.
fn grown_root(width: Length, drop: Length, distance: Length) -> i128 {
    signed(ceil_sqrt(grown_square(width, drop, distance)))
}

/// `distance² · (w² + 4 h²)`, 10²⁵ at the most that the bounds let through.
fn grown_square(width: Length, drop: Length, distance: Length) -> u128 {
    square(distance) * (square(width) + 4 * square(drop))
}

fn square(length: Length) -> u128 {
    length.wide().unsigned_abs() * length.wide().unsigned_abs()
}

/// Back to a length; nothing within the bounds comes near the ends of the type.
pub(crate) fn um(wide: i128) -> Length {
    Length::from_um(i64::try_from(wide).unwrap_or(i64::MAX))
}

fn signed(wide: u128) -> i128 {
    i128::try_from(wide).unwrap_or(i128::MAX)
}
