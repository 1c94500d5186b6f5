//! The length of what is sewn round a pennant.

use geo::{Coord, Euclidean, Length as _, LineString};
use proptest::prelude::*;

use pennantry_measure::Length;

use crate::fixture::{mm, um};
use crate::outline::Finished;
use crate::shop::Shape;
use crate::table::millionths;

fn pennant(shape: Shape, width: Length, drop: Length, detail: Length) -> Finished {
    Finished { shape, width, drop, detail }
}

fn below_top(finished: &Finished) -> Length {
    finished.below_top()
}

/// Whole roots, so the edges are known to the micrometre (derived).
#[test]
fn edges_with_whole_roots_are_exact() {
    let edges = |shape, width, drop, detail| below_top(&pennant(shape, mm(width), mm(drop), mm(detail)));
    assert_eq!(edges(Shape::Triangle, 60, 40, 0), mm(50 + 50));
    assert_eq!(edges(Shape::Blunt, 80, 40, 20), mm(50 + 50 + 20));
    assert_eq!(edges(Shape::Swallowtail, 60, 200, 40), mm(200 + 200 + 50 + 50));
    assert_eq!(edges(Shape::Shield, 60, 140, 100), mm(100 + 100 + 50 + 50));
    assert_eq!(edges(Shape::Rectangle, 60, 40, 0), mm(40 + 40 + 60));
    // a quarter turn of a circle of 100 is a chord of 141.42; half circles are whole turns
    let half = edges(Shape::Scallop, 200, 250, 100);
    assert_eq!(half, mm(150 + 150) + um(314_160)); // 314 159.27, up
    assert_eq!(edges(Shape::Scallop, 200, 250, 0), mm(250 + 250 + 200));
}

#[test]
fn an_edge_is_up_to_the_micrometre() {
    // a side of √(0.5² + 1²): 1.118 each
    let tiny = pennant(Shape::Triangle, um(1), um(1), um(0));
    assert_eq!(below_top(&tiny), um(3)); // 2.236
    // the flattest arc: a micrometre longer than its chord by far less
    let flat = pennant(Shape::Scallop, mm(1_000), mm(20), um(1));
    assert_eq!(below_top(&flat), um(2 * 19_999 + 1_000_001));
}

fn float(length: Length) -> f64 {
    f64::from(i32::try_from(length.um()).expect("small"))
}

/// The outline below the top as points, an arc in 4 000 steps of its angle.
fn points(finished: &Finished) -> LineString {
    let (half, drop) = (float(finished.width) / 2.0, float(finished.drop));
    let detail = float(finished.detail);
    let at = |x: f64, y: f64| Coord { x, y: -y };
    let (left, right) = (at(-half, 0.0), at(half, 0.0));
    LineString::new(match finished.shape {
        Shape::Triangle => vec![left, at(0.0, drop), right],
        Shape::Blunt => vec![left, at(-detail / 2.0, drop), at(detail / 2.0, drop), right],
        Shape::Swallowtail => {
            vec![left, at(-half, drop), at(0.0, drop - detail), at(half, drop), right]
        }
        Shape::Shield => vec![left, at(-half, detail), at(0.0, drop), at(half, detail), right],
        Shape::Rectangle => vec![left, at(-half, drop), at(half, drop), right],
        Shape::Scallop => {
            // on the circle through both shoulders and the lowest point
            let radius = (half * half + detail * detail) / (2.0 * detail);
            let middle = drop - radius;
            let wide = (half / radius).min(1.0).asin();
            let arc = (-2_000..=2_000).map(|step| {
                let angle = wide * f64::from(step) / 2_000.0;
                at(radius * angle.sin(), middle + radius * angle.cos())
            });
            std::iter::once(left).chain(arc).chain([right]).collect()
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    #[test]
    fn edges_are_as_long_as_their_points(
        width in 20_000_i64..=1_000_000, drop in 20_000_i64..=1_500_000, part in 0.01_f64..=1.0,
        shape in prop::sample::select(vec![
            Shape::Triangle, Shape::Blunt, Shape::Swallowtail, Shape::Shield, Shape::Scallop, Shape::Rectangle,
        ]),
    ) {
        let (width, drop) = (um(width), um(drop));
        let most = match shape {
            Shape::Triangle | Shape::Rectangle => 0,
            Shape::Blunt => width.um() - 1_000,
            Shape::Swallowtail | Shape::Shield => drop.um() - 1_000,
            Shape::Scallop => (width.um() / 2).min(drop.um() - 1_000),
        };
        let detail = um(most) ;
        let detail = um(millionths(&format!("{:.6}", float(detail) * part / 1_000_000.0)));
        let pennant = pennant(shape, width, drop, detail);
        let edges = float(below_top(&pennant));
        let length = Euclidean.length(&points(&pennant));
        // up to a micrometre more; an arc in steps is short by a ten-millionth
        prop_assert!(edges - length > -1e-4 && edges - length < 1.001 + 2e-7 * length, "{edges} {length}");
    }
}
