//! The outline of a pennant, by its depth below the top edge.

use pennantry_contract::v1::{self, Shape, SizeAt};

use crate::length::from_wire;
use pennantry_measure::Length;

/// A pennant's outline. Unit µm.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Outline {
    shape: Shape,
    width: i64,
    drop: i64,
    /// Foot, notch, straight sides or rise, by the shape.
    detail: i64,
}

/// What is there at one depth. Unit µm.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slice {
    /// How far each side is from the edge above.
    pub inset: i64,
    /// Half of what is cut out of the middle.
    pub notch: Option<i64>,
    /// Whether there is cloth at all.
    pub is_there: bool,
}

impl Outline {
    /// The outline of the pennant that was understood; nothing where its shape is not told.
    pub fn of(quote: &v1::Quote, width: i64, drop: i64) -> Option<Outline> {
        let pennant = quote.understood.as_ref()?.pennant.as_ref()?;
        let um = |mm: Option<f64>| mm.and_then(from_wire).map(Length::um);
        // straight sides that are told from the binding's edge begin higher up, in it
        let hidden = match pennant.size_at() {
            SizeAt::BindingEdge => quote.binding.as_ref().and_then(|b| um(Some(b.insertion_mm))).unwrap_or(0),
            SizeAt::Unspecified | SizeAt::TopEdge => 0,
        };
        let detail = match pennant.shape() {
            Shape::Unspecified => return None,
            Shape::Triangle | Shape::Rectangle => 0,
            Shape::Blunt => um(pennant.foot_mm)?,
            Shape::Swallowtail => um(pennant.notch_mm)?,
            Shape::Shield => um(pennant.shoulder_mm)? + hidden,
            Shape::Scallop => um(pennant.rise_mm)?,
        };
        Some(Outline { shape: pennant.shape(), width, drop, detail })
    }

    /// What is there at a depth.
    ///
    /// Sides are straight but for a scallop's arc through its two corners: of a chord `w` and
    /// a rise `r` the radius is `(w²/4 + r²) / 2r` (from the intersecting chords, Euclid III.35),
    /// and half of it at a depth `d` below the chord `√(R² − (R − r + d)²)`.
    pub fn at(&self, depth: i64) -> Slice {
        let (width, drop, detail) = (self.width, self.drop, self.detail);
        let is_there = depth < drop;
        let half = width / 2;
        let mut slice = Slice { inset: 0, notch: None, is_there };
        match self.shape {
            Shape::Rectangle | Shape::Unspecified => {}
            Shape::Triangle => slice.inset = share(half, depth, drop),
            Shape::Blunt => slice.inset = share((width - detail) / 2, depth, drop),
            Shape::Shield => slice.inset = share(half, depth - detail, drop - detail),
            Shape::Swallowtail => {
                let into = depth - (drop - detail);
                slice.notch = (into > 0).then(|| share(half, into, detail));
            }
            Shape::Scallop => slice.inset = half - arc(half, detail, depth - (drop - detail)),
        }
        slice
    }
}

/// `all * part / whole`, nothing before its begin and all after its end.
fn share(all: i64, part: i64, whole: i64) -> i64 {
    if part <= 0 || whole <= 0 {
        return 0;
    }
    all * part.min(whole) / whole
}

/// Half the width of an arc at a depth below its chord.
fn arc(half: i64, rise: i64, depth: i64) -> i64 {
    if depth <= 0 || rise <= 0 {
        return half;
    }
    let (half, rise) = (i128::from(half), i128::from(rise));
    let radius = (half * half + rise * rise) / (2 * rise);
    let below = radius - rise + i128::from(depth);
    let square = radius * radius - below * below;
    i64::try_from(square.max(0).isqrt()).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(shape: Shape, detail: i64, depth: i64) -> (i64, Option<i64>) {
        let slice = Outline { shape, width: 200_000, drop: 200_000, detail }.at(depth);
        (slice.inset, slice.notch)
    }

    /// By hand, for a pennant of 200 by 200 mm: proportions, and one circle.
    #[test]
    fn sides_stand_where_the_shape_has_them() {
        let cases = [
            // half of the half width at half the drop
            (Shape::Triangle, 0, 100_000, (50_000, None)),
            // a foot of 80: sides lean in by 60, half of it at half the drop
            (Shape::Blunt, 80_000, 100_000, (30_000, None)),
            (Shape::Rectangle, 0, 199_999, (0, None)),
            // straight for 120, then 80 to the point: half-way is 160
            (Shape::Shield, 120_000, 110_000, (0, None)),
            (Shape::Shield, 120_000, 160_000, (50_000, None)),
            // a notch of 80 begins at 120; at 160 it is half of the half width
            (Shape::Swallowtail, 80_000, 110_000, (0, None)),
            (Shape::Swallowtail, 80_000, 160_000, (0, Some(50_000))),
            // a rise of 100 is a half circle of 100: 60 below its chord it is 80 wide on each
            // side (6, 8, 10)
            (Shape::Scallop, 100_000, 90_000, (0, None)),
            (Shape::Scallop, 100_000, 160_000, (20_000, None)),
            // a rise of 50 has the radius (100² + 50²) / 100 = 125; 25 below the chord it is
            // √(125² − 100²) = 75 wide on each side
            (Shape::Scallop, 50_000, 175_000, (25_000, None)),
        ];
        for (shape, detail, depth, told) in cases {
            assert_eq!(at(shape, detail, depth), told, "{shape:?} at {depth}");
        }
    }
}
