//! The seam is held everywhere, in whole numbers; outlines grow and clipped ones are
//! smaller.

use geo::{Contains, Distance, Euclidean, Line, LineString, Point, Polygon};
use proptest::prelude::*;

use super::{corner, float, mm, random};
use crate::outline::*;
use crate::shop::Shape;

type Edge = ((i64, i64), (i64, i64));

/// Every edge but the top, from the right end of the top round to its left end.
fn edges(corners: &[(i64, i64)]) -> Vec<Edge> {
    let mut edges: Vec<Edge> = corners.windows(2).skip(1).map(|pair| (pair[0], pair[1])).collect();
    edges.push((corners[corners.len() - 1], corners[0]));
    edges
}

/// The corners, moved so that the middle of another outline is theirs.
fn in_the_middle_of(outer: Outline, inner: Outline) -> Vec<(i64, i64)> {
    let aside = (outer.width - inner.width).um();
    inner.corners().into_iter().map(|(x, y)| (x + aside, y)).collect()
}

/// Whether both ends of an edge are outside another one by `least` micrometres or more
/// and by `most` or less, without any rounding: squares of whole numbers.
fn apart(finished: Edge, cut: Edge, least: i64, most: i64) -> bool {
    let ((ax, ay), (bx, by)) = finished;
    let (dx, dy) = (i128::from(bx - ax), i128::from(by - ay));
    let length_square = dx * dx + dy * dy;
    // half micrometres
    let far = |um: i64| 4 * i128::from(um) * i128::from(um) * length_square;
    [cut.0, cut.1].into_iter().all(|(x, y)| {
        // outside is to the left of the way round, where this is above nought
        let outside = dy * i128::from(x - ax) - dx * i128::from(y - ay);
        outside >= 0 && far(least) <= outside * outside && outside * outside <= far(most)
    })
}

fn line(edge: Edge) -> Line {
    let half = |(x, y): (i64, i64)| corner(float(x) / 2.0, float(y) / 2.0);
    Line::new(half(edge.0), half(edge.1))
}

fn polygon(corners: &[(i64, i64)]) -> Polygon {
    let all = corners.iter().map(|&(x, y)| corner(float(x) / 2.0, float(y) / 2.0));
    Polygon::new(LineString::new(all.collect()), Vec::new())
}

/// Middle and radius of a scallop's arc, in micrometres; its `x` is the middle of the top.
fn circle(scallop: Outline) -> (f64, f64) {
    let (chord, rise) = (float(scallop.width.um()), float(scallop.detail.um()));
    let radius = (chord * chord / 4.0 + rise * rise) / (2.0 * rise);
    (float(scallop.drop.um()) - radius, radius)
}

/// Points on a scallop's arc, its ends among them, `x` from the middle.
fn on_arc(scallop: Outline, points: i32) -> Vec<(f64, f64)> {
    let (middle, radius) = circle(scallop);
    let half = (float(scallop.width.um()) / 2.0).atan2(radius - float(scallop.detail.um()));
    let turned = |at: i32| half * (2.0 * f64::from(at) / f64::from(points) - 1.0);
    (0..=points).map(|at| (radius * turned(at).sin(), middle + radius * turned(at).cos())).collect()
}

/// Whether one outline is all inside another whose top is on the same line.
fn inside(inner: Outline, outer: Outline) -> bool {
    if outer.shape != Shape::Scallop {
        return polygon(&outer.corners()).contains(&polygon(&in_the_middle_of(outer, inner)));
    }
    let (middle, radius) = circle(outer);
    let straight = (outer.drop - outer.detail).um();
    // doubles hold the radius to a ten-thousandth of a micrometre
    let within = |&(x, y): &(f64, f64)| {
        2.0 * x.abs() <= float(outer.width.um()) + 1e-4
            && (y <= float(straight) || x.hypot(y - middle) <= radius + 1e-4)
    };
    on_arc(inner, 64).iter().all(within)
}

/// The edges of a cut outline that take the place of the finished ones: not the clipped
/// points, which lie square at the seam below them.
fn grown(piece: Outline, finished: &Finished) -> Vec<Edge> {
    let clipped = finished.shape != piece.shape || piece.flat > Length::ZERO;
    let foot = piece.drop.um() * 2;
    let flat = |edge: &Edge| edge.0.1 == foot && edge.1.1 == foot;
    edges(&piece.corners()).into_iter().filter(|edge| !(clipped && flat(edge))).collect()
}

#[test]
fn the_measure_of_apart_is_strict() {
    // an edge going down on the right, and one ten half micrometres right of it
    let finished = ((0, 0), (0, 40));
    let cut = |x| ((x, 0), (x, 50));
    assert!(apart(finished, cut(10), 5, 5) && apart(finished, cut(10), 4, 6));
    assert!(!apart(finished, cut(9), 5, 6) && !apart(finished, cut(11), 4, 5));
    assert!(!apart(finished, cut(-10), 5, 5));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// The proof of the rounding: in whole numbers, both ends of every cut edge are the
    /// seam or more, and at most a micrometre more, outside the line of the finished edge.
    #[test]
    fn every_edge_is_a_seam_outside_its_own(finished in random(), seam in 1_i64..=30_000, clip in any::<bool>()) {
        let piece = cut(&finished, Length::from_um(seam), clip);
        let before = edges(&in_the_middle_of(piece, finished.outline()));
        let after = grown(piece, &finished);
        if finished.shape == Shape::Swallowtail && piece.shape == Shape::Rectangle {
            // no notch is left: what it would have been is below the foot, or no wider
            // than the micrometres by which its two ends are rounded
            let mitred = cut(&finished, Length::from_um(seam), false);
            let over = mitred.drop - piece.drop;
            let wide = mitred.width.wide() * (mitred.detail - over).wide();
            prop_assert!(wide <= 4 * mitred.detail.wide().max(mitred.width.wide()), "{:?}", mitred);
            prop_assert!(apart(before[0], after[0], seam, seam));
            prop_assert!(apart(before[3], after[1], seam, seam));
        } else {
            prop_assert_eq!(before.len(), after.len());
            for (at, (before, after)) in before.into_iter().zip(after).enumerate() {
                // of a scallop the chord, which is no edge
                if finished.shape != Shape::Scallop || at != 1 {
                    prop_assert!(apart(before, after, seam, seam + 1), "{before:?} {after:?} {piece:?}");
                }
            }
        }
        let square = finished.drop + Length::from_um(seam);
        let ends_square = piece.flat > Length::ZERO
            || !matches!(piece.shape, Shape::Triangle | Shape::Shield | Shape::Swallowtail);
        let reaches = if ends_square { piece.drop == square } else { piece.drop > square };
        prop_assert!(reaches, "{piece:?}");
        if clip {
            prop_assert!(ends_square);
        }
    }

    /// A scallop's rise is the greatest whole one whose ends are not inside the grown
    /// circle, `8 r` times as large in whole numbers.
    #[test]
    fn an_arc_is_a_seam_outside_its_own(
        width in 20_000_i64..=1_000_000,
        rise in 1_000_i64..=500_000,
        seam in 0_i64..=30_000,
    ) {
        let rise = rise.min(width / 2);
        let (size, drop) = (Length::from_um, Length::from_um(rise) + mm(100));
        let finished = Finished { shape: Shape::Scallop, width: size(width), drop, detail: size(rise) };
        let piece = cut(&finished, size(seam), false);
        prop_assert_eq!((piece.width, piece.drop), (size(width + 2 * seam), drop + size(seam)));
        let (w, r, s) = (i128::from(width), i128::from(rise), i128::from(seam));
        let radius = w * w + 4 * r * r + 8 * r * s;
        let aside = 4 * r * (w + 2 * s);
        let outside = |cut_rise: i128| {
            let below = radius - 8 * r * cut_rise;
            below >= 0 && aside * aside + below * below >= radius * radius
        };
        prop_assert!(outside(piece.detail.wide()));
        prop_assert!(!outside(piece.detail.wide() + 1), "{piece:?}");
    }

    /// Points all along the finished edges, by another library's distances.
    #[test]
    fn every_point_keeps_its_seam(finished in random(), seam in 1_i64..=30_000, clip in any::<bool>()) {
        let piece = cut(&finished, Length::from_um(seam), clip);
        let least = float(seam) - 1e-4;
        let scallop = finished.shape == Shape::Scallop;
        let lines = |corners: &[(i64, i64)]| -> Vec<Line> {
            let all = edges(corners).into_iter().enumerate();
            all.filter(|(at, _)| !scallop || *at != 1).map(|(_, edge)| line(edge)).collect()
        };
        let around = lines(&piece.corners());
        let middle = float(piece.width.um()) / 2.0;
        let mut points: Vec<(f64, f64)> = Vec::new();
        for edge in lines(&in_the_middle_of(piece, finished.outline())) {
            let (start, way) = (edge.start, edge.end - edge.start);
            points.extend((0..=16).map(|at| f64::from(at) / 16.0).map(|share| (start.x + way.x * share, start.y + way.y * share)));
        }
        if scallop {
            points.extend(on_arc(finished.outline(), 32).into_iter().map(|(x, y)| (middle + x, y)));
        }
        for (x, y) in points {
            for edge in &around {
                let apart = Euclidean.distance(&Point::new(x, y), edge);
                prop_assert!(apart >= least, "{apart} from {edge:?} beside a seam of {seam}: {piece:?}");
            }
            if scallop {
                let (centre, radius) = circle(piece);
                let (across, below) = (x - middle, y - centre);
                // the arc is nearest square to itself where it is there at all, and
                // otherwise at an end, which is the end of a side
                let half = middle.atan2(radius - float(piece.detail.um()));
                if across.abs().atan2(below) <= half {
                    let apart = radius - across.hypot(below);
                    prop_assert!(apart >= least, "{apart} from the arc beside a seam of {seam}: {piece:?}");
                }
            }
        }
    }

    #[test]
    fn outlines_grow_with_the_seam(
        finished in random(),
        seam in 0_i64..=30_000,
        more in prop_oneof![1_i64..=3, 1_i64..=10_000],
        clip in any::<bool>(),
    ) {
        let inner = cut(&finished, Length::from_um(seam), clip);
        let outer = cut(&finished, Length::from_um(seam + more), clip);
        prop_assert!(inside(inner, outer), "{inner:?} {outer:?}");
        prop_assert!(inner.area() < outer.area());
        prop_assert!(inner.width < outer.width && inner.drop < outer.drop);
    }

    /// But for the micrometre by which its own corners are rounded.
    #[test]
    fn a_clipped_outline_is_within_the_mitred_one(finished in random(), seam in 0_i64..=30_000) {
        let (mitred, clipped) = (cut(&finished, Length::from_um(seam), false), cut(&finished, Length::from_um(seam), true));
        prop_assert_eq!(mitred.width, clipped.width);
        if !matches!(finished.shape, Shape::Triangle | Shape::Swallowtail | Shape::Shield) {
            prop_assert_eq!(mitred, clipped);
            return Ok(());
        }
        prop_assert!(seam == 0 || clipped.drop < mitred.drop);
        let around = polygon(&mitred.corners());
        for (x, y) in clipped.corners() {
            let out = Euclidean.distance(&Point::new(float(x) / 2.0, float(y) / 2.0), &around);
            prop_assert!(out <= 1.0, "{out} {clipped:?} {mitred:?}");
        }
        let slack = 2 * clipped.drop.wide();
        prop_assert!(clipped.area().um2() <= mitred.area().um2() + slack);
    }
}
