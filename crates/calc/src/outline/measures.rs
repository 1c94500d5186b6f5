//! Areas, lengths and corners of pennants and of their pieces.
//!
//! | shape | area, `F` the width of a clipped point | all edges but the top |
//! |---|---|---|
//! | triangle | `w h / 2` | `√(w² + 4 h²)` |
//! | blunt | `(w + f) h / 2` | `f + √((w − f)² + 4 h²)` |
//! | swallowtail | `w h − (w − 2 F) d / 2` | `2 h + √(w² + 4 d²)` |
//! | shield | `w e + (w + F) (h − e) / 2` | `2 e + √(w² + 4 q²)` |
//! | scallop | `w (h − r) + segment` | `2 (h − r) + arc` |
//! | rectangle | `w h` | `2 h + w` |
//!
//! With `t = 2 r / w`, the tangent of a quarter of the arc's angle, and `R` its radius:
//!
//! | of a circle | textbook | as worked out here |
//! |---|---|---|
//! | arc | `2 R asin(w / 2 R)` | `w (1 + t²) / t · atan t` |
//! | segment | `R² (θ − sin θ) / 2` | `w² ((1 + t²)² atan t − t (1 − t²)) / 8 t²` |
//!
//! Source: any textbook of plane geometry (*circular segment*). The textbook's segment of
//! a flat arc is a small difference of two large areas. Below `t = 1/4` its power series
//! is summed instead, `w² (t/3 + t³/15 − t⁵/105 + …)`: the term in `t^(2k − 1)` has the
//! factor `± 1 / (2k + 1)(2k − 1)(2k − 3)`, and what is left out is less than the next.
//! Within the bounds of [`pennantry_measure::bounds`] both are right to a thousandth of a
//! square micrometre, and arcs to a millionth of a micrometre.
//!
//! Areas are rounded to the nearest square micrometre, a half up, lengths up: thread and
//! time are needed for them. Arcs and segments use `libm`, so they have the same bits on
//! every machine; everything else is whole numbers.
//!
//! *Example.* A chord of 21 and a rise of 6 make a circle of radius 12.1875, an arc of
//! 25.308 and a segment of 89.254.

use pennantry_measure::{Area, Length, Rounding, divide};

use super::{Finished, Outline, grown_root, um};
use crate::double::{digits, float};
use crate::shop::Shape;

/// From this tangent on the segment is the difference, below it the series.
const FLAT: f64 = 0.25;

/// Terms of the series: the next one at [`FLAT`] is below 10⁻²⁰ of the whole.
const TERMS: u32 = 14;

impl Finished {
    /// Its edges as an outline, without a seam.
    pub const fn outline(&self) -> Outline {
        let Finished { shape, width, drop, detail } = *self;
        Outline { shape, width, drop, detail, flat: Length::ZERO }
    }

    /// Its area, insertion and all, to the nearest square micrometre.
    ///
    /// ```
    /// use pennantry_calc::outline::Finished;
    /// use pennantry_calc::shop::Shape;
    /// use pennantry_measure::Length;
    /// let mm = Length::from_mm;
    /// let shield = Finished { shape: Shape::Shield, width: mm(200), drop: mm(250), detail: mm(170) };
    /// assert_eq!(shield.area().um2(), 42_000 * 1_000_000);
    /// ```
    pub fn area(&self) -> Area {
        self.outline().area()
    }

    /// Length of all its edges but the top, up to the micrometre: what is sewn round a
    /// pennant of two layers. The edges within the binding count.
    ///
    /// ```
    /// use pennantry_calc::outline::Finished;
    /// use pennantry_calc::shop::Shape;
    /// use pennantry_measure::Length;
    /// let mm = Length::from_mm;
    /// // two sides of 50
    /// let triangle = Finished { shape: Shape::Triangle, width: mm(60), drop: mm(40), detail: mm(0) };
    /// assert_eq!(triangle.below_top(), mm(100));
    /// ```
    pub fn below_top(&self) -> Length {
        let Finished { shape, width, drop, detail } = *self;
        let both = |across: Length, along: Length| um(grown_root(across, along, Length::from_um(1)));
        match shape {
            Shape::Triangle => both(width, drop),
            Shape::Blunt => detail + both(width - detail, drop),
            Shape::Swallowtail => drop * 2 + both(width, detail),
            Shape::Shield => detail * 2 + both(width, drop - detail),
            Shape::Scallop => (drop - detail) * 2 + arc(width, detail),
            Shape::Rectangle => drop * 2 + width,
        }
    }
}

impl Outline {
    /// Its area, to the nearest square micrometre.
    ///
    /// ```
    /// use pennantry_calc::outline::Outline;
    /// use pennantry_measure::Length;
    /// let cut = Outline::triangle(Length::from_mm(200), Length::from_mm(250));
    /// assert_eq!(cut.area().um2(), 25_000 * 1_000_000);
    /// ```
    pub fn area(&self) -> Area {
        let (width, drop) = (self.width.wide(), self.drop.wide());
        let (detail, flat) = (self.detail.wide(), self.flat.wide());
        let twice = match self.shape {
            Shape::Triangle => width * drop,
            Shape::Blunt => (width + detail) * drop,
            Shape::Swallowtail => 2 * width * drop - (width - 2 * flat) * detail,
            Shape::Shield => 2 * width * detail + (width + flat) * (drop - detail),
            Shape::Scallop => 2 * (width * (drop - detail) + segment(self.width, self.detail)),
            Shape::Rectangle => 2 * width * drop,
        };
        Area::from_um2(divide(twice, 2, Rounding::HalfUp))
    }

    /// Its corners in half micrometres, `x` from nought at the left to twice the width,
    /// `y` from nought at the top downward.
    ///
    /// They start at the left end of the top and go on along it, so on a drawing whose
    /// `y` points down they run clockwise. No corner is there twice. Of a scallop they
    /// are the four ends of its straight edges: the arc between the last two is left to
    /// whoever draws it, and reaches below them by the rise.
    ///
    /// ```
    /// use pennantry_calc::outline::Outline;
    /// use pennantry_measure::Length;
    /// let cut = Outline::triangle(Length::from_um(7), Length::from_um(5));
    /// assert_eq!(cut.corners(), [(0, 0), (14, 0), (7, 10)]);
    /// ```
    pub fn corners(&self) -> Vec<(i64, i64)> {
        // the middle, and what is told in whole micrometres across the middle
        let (middle, right, foot) = (self.width.um(), self.width.um() * 2, self.drop.um() * 2);
        let (detail, flat) = (self.detail.um(), self.flat.um());
        let mut corners = vec![(0, 0), (right, 0)];
        match self.shape {
            Shape::Triangle => corners.push((middle, foot)),
            Shape::Blunt => corners.extend([(middle + detail, foot), (middle - detail, foot)]),
            Shape::Swallowtail => corners.extend([
                (right, foot),
                (right - flat * 2, foot),
                (middle, foot - detail * 2),
                (flat * 2, foot),
                (0, foot),
            ]),
            Shape::Shield => corners.extend([
                (right, detail * 2),
                (middle + flat, foot),
                (middle - flat, foot),
                (0, detail * 2),
            ]),
            Shape::Scallop => corners.extend([(right, foot - detail * 2), (0, foot - detail * 2)]),
            Shape::Rectangle => corners.extend([(right, foot), (0, foot)]),
        }
        corners.dedup();
        if corners.len() > 1 && corners.last() == corners.first() {
            corners.pop();
        }
        corners
    }
}

/// Length of an arc over a chord, up to the micrometre.
fn arc(chord: Length, rise: Length) -> Length {
    let tangent = tangent(chord, rise);
    if tangent <= 0.0 {
        return chord;
    }
    let length = float(chord) * (1.0 + tangent * tangent) / tangent * libm::atan(tangent);
    um(digits(libm::ceil(length)))
}

/// Area between an arc and its chord, to the nearest square micrometre.
fn segment(chord: Length, rise: Length) -> i128 {
    let tangent = tangent(chord, rise);
    let square = tangent * tangent;
    let share = if tangent < FLAT {
        // the smallest terms first, so that they count
        let terms = (1..=TERMS).rev().map(f64::from);
        tangent * terms.fold(0.0, |rest, k| factor(k) - square * rest)
    } else {
        let whole = (1.0 + square) * (1.0 + square) * libm::atan(tangent);
        (whole - tangent * (1.0 - square)) / (8.0 * square)
    };
    digits(libm::round(float(chord) * float(chord) * share))
}

/// A factor of the series before its alternating sign: a third, and below nought from
/// the second on.
fn factor(k: f64) -> f64 {
    -1.0 / ((2.0 * k + 1.0) * (2.0 * k - 1.0) * (2.0 * k - 3.0))
}

/// Of a quarter of the arc's angle; nought for a chord of nought.
fn tangent(chord: Length, rise: Length) -> f64 {
    if chord > Length::ZERO { 2.0 * float(rise) / float(chord) } else { 0.0 }
}
