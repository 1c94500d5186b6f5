//! What only triangles have: templates read back, and how far sides spread.

use pennantry_measure::{Length, Rounding, divide};

use super::{Outline, grown_root, grown_square, signed, square, um};
use crate::shop::Shape;

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

/// A size seen at the binding's edge, raised along its prolonged sides to the top edge
/// that the binding hides: `(w + w t / h, h + t)`, the width to the nearest micrometre.
/// For a triangle; [`raised`](super::raised) takes every shape.
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

/// The finished size at the top edge that a cut triangle gives, to the nearest
/// micrometre; none where the seams leave nothing, and none for any other shape.
///
/// ```
/// use pennantry_calc::outline::{Outline, finished_from_cut};
/// use pennantry_measure::Length;
/// let cut = Outline::triangle(Length::from_mm(220), Length::from_mm(220));
/// let finished = Length::from_um(197_639);
/// assert_eq!(finished_from_cut(cut, Length::from_mm(10)), Some((finished, finished)));
/// ```
pub fn finished_from_cut(cut: Outline, seam: Length) -> Option<(Length, Length)> {
    if cut.shape != Shape::Triangle {
        return None;
    }
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
    let twice = (4 * square(side)).checked_sub(square(top_width)).filter(|four| *four > 0)?.isqrt();
    Some(um(signed(twice.div_ceil(2))))
}
