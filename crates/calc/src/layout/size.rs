//! The two size bases, and the way from one to the other.

use pennantry_measure::{Length, Rounding, divide};

use super::narrow;

/// Width and drop of a triangle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Width.
    pub width: Length,
    /// Drop.
    pub drop: Length,
}

/// What shows below the binding of a triangle sized at its top edge, to the nearest
/// micrometre: w (1 - a/h) by h - a. The insertion must be less than the drop.
///
/// ```
/// use pennantry_calc::layout::{Size, to_binding_edge};
/// use pennantry_measure::Length;
/// let top = Size { width: Length::from_mm(190), drop: Length::from_mm(210) };
/// let seen = to_binding_edge(top, Length::from_um(12_500));
/// assert_eq!(seen, Size { width: Length::from_um(178_690), drop: Length::from_um(197_500) });
/// ```
pub fn to_binding_edge(top: Size, insertion: Length) -> Size {
    let drop = top.drop - insertion;
    let width = divide(top.width.wide() * drop.wide(), top.drop.wide(), Rounding::HalfUp);
    Size { width: narrow(width), drop }
}

/// The top edge of a triangle sized as seen below the binding, its sides prolonged to
/// the fold: v (d + a)/d by d + a, to the nearest micrometre.
pub fn to_top_edge(seen: Size, insertion: Length) -> Size {
    let drop = seen.drop + insertion;
    let width = divide(seen.width.wide() * drop.wide(), seen.drop.wide(), Rounding::HalfUp);
    Size { width: narrow(width), drop }
}
