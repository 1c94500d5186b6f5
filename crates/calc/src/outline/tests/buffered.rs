//! Every shape against a general library: prolong the finished sides upward, grow by the
//! seam with mitred joins, cut off at the line of the top and, where points are clipped,
//! square at the seam below the finished point.

use geo::algorithm::buffer::{BufferStyle, LineJoin};
use geo::{
    Area, BooleanOps, Buffer, Coord, Distance, Euclidean, LineString, MultiPolygon, Point, Polygon, Rect,
};

use super::{corner, float};
use crate::order::detail_limits;
use crate::outline::*;
use crate::shop::Shape;

/// Sizes of each shape.
const SIZES: usize = 500;

/// How far the sides are prolonged upward, in millimetres: beyond every seam.
const ABOVE: f64 = 60.0;

/// The sharpest point the library mitres, in radians.
const SHARPEST: f64 = 0.04;

/// The library works on a grid of its own, a few hundredths of a micrometre fine at these
/// sizes; sharp points multiply it.
const GRID: f64 = 0.000_3;

/// Arcs are polygons that are off by no more, in millimetres.
const ARC: f64 = 0.000_3;

/// A micrometre, in millimetres: what rounding may add to an outline.
const ROUNDED: f64 = 0.001;

/// Numbers by the `SplitMix64` generator, from a seed: the same sizes every time.
struct Numbers(u64);

impl Numbers {
    fn between(&mut self, least: i64, most: i64) -> i64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^= z >> 31;
        let span = u64::try_from(most - least + 1).expect("a span");
        least + i64::try_from(z % span).expect("within the span")
    }
}

fn millimetres(length: Length) -> f64 {
    float(length.um()) / 1_000.0
}

fn size(shape: Shape, numbers: &mut Numbers) -> (Finished, Length) {
    let um = Length::from_um;
    let width = um(numbers.between(20_000, 1_000_000));
    // no point sharper than the library mitres: its half is atan(w / 2 h), a tail's atan(w / 2 d)
    let deepest = (width.um() * 10).min(1_500_000);
    let drop = um(numbers.between(20_000, deepest));
    let (least, most) = detail_limits(shape, width, drop, Length::ZERO);
    let detail = um(numbers.between(least.um(), most.um()));
    (Finished { shape, width, drop, detail }, um(numbers.between(500, 30_000)))
}

fn ring(corners: Vec<(f64, f64)>) -> Polygon {
    Polygon::new(LineString::new(corners.into_iter().map(|(x, y)| corner(x, y)).collect()), Vec::new())
}

fn grown(polygon: &Polygon, seam: f64) -> MultiPolygon {
    polygon.buffer_with_style(BufferStyle::new(seam).line_join(LineJoin::Miter(SHARPEST)))
}

/// The finished edges with the sides prolonged upward, the middle at nought.
fn prolonged(finished: &Finished) -> Polygon {
    let (half, drop) = (millimetres(finished.width) / 2.0, millimetres(finished.drop));
    let detail = millimetres(finished.detail);
    let above = |lean: f64| vec![(-half - lean * ABOVE, -ABOVE), (half + lean * ABOVE, -ABOVE)];
    let with = |mut corners: Vec<(f64, f64)>, more: &[(f64, f64)]| {
        corners.extend_from_slice(more);
        ring(corners)
    };
    match finished.shape {
        Shape::Triangle => with(above(half / drop), &[(0.0, drop)]),
        Shape::Blunt => {
            let foot = detail / 2.0;
            with(above((half - foot) / drop), &[(foot, drop), (-foot, drop)])
        }
        Shape::Swallowtail => with(above(0.0), &[(half, drop), (0.0, drop - detail), (-half, drop)]),
        Shape::Shield => with(above(0.0), &[(half, detail), (0.0, drop), (-half, detail)]),
        // the sides only: the arc is another region
        Shape::Scallop => with(above(0.0), &[(half, drop + ABOVE), (-half, drop + ABOVE)]),
        Shape::Rectangle => with(above(0.0), &[(half, drop), (-half, drop)]),
    }
}

/// Points of an arc about `(0, middle)` from the right to the left, half an angle each
/// way, the polygon through them off by [`ARC`] at most.
fn arc(middle: f64, radius: f64, half: f64) -> Vec<(f64, f64)> {
    // off by R (step / 2)² / 2
    let mut points = 8;
    while radius * (half / f64::from(points)).powi(2) / 2.0 > ARC {
        points += 8;
    }
    let turned = |at: i32| half * (1.0 - 2.0 * f64::from(at) / f64::from(points));
    (0..=points).map(|at| (radius * turned(at).sin(), middle + radius * turned(at).cos())).collect()
}

/// What lies above a scallop's arc, which is prolonged as an arc until it is beyond the
/// sides of the piece, or to half a circle.
fn above_the_arc(finished: &Finished, seam: f64) -> Polygon {
    let (chord, rise) = (millimetres(finished.width), millimetres(finished.detail));
    let radius = (chord * chord / 4.0 + rise * rise) / (2.0 * rise);
    let half = ((chord / 2.0 + seam) / (radius + seam)).min(1.0).asin();
    let mut corners = arc(millimetres(finished.drop) - radius, radius, half);
    let (right, left) = (corners[0].0, corners[corners.len() - 1].0);
    corners.extend([(left, -ABOVE), (right, -ABOVE)]);
    ring(corners)
}

fn buffered(finished: &Finished, seam: Length, clip: bool) -> MultiPolygon {
    let (seam, drop) = (millimetres(seam), millimetres(finished.drop));
    let mut piece = grown(&prolonged(finished), seam);
    if finished.shape == Shape::Scallop {
        piece = piece.intersection(&grown(&above_the_arc(finished, seam), seam));
    }
    let sharp = matches!(finished.shape, Shape::Triangle | Shape::Shield | Shape::Swallowtail);
    let end = if clip && sharp { drop + seam } else { 10_000.0 };
    piece.intersection(&Rect::new(corner(-3_000.0, 0.0), corner(3_000.0, end)).to_polygon())
}

/// The outline under test in the same place.
fn drawn(piece: Outline) -> Polygon {
    let middle = float(piece.width.um());
    let corners = piece.corners().into_iter();
    let mut corners: Vec<_> =
        corners.map(|(x, y)| ((float(x) - middle) / 2_000.0, float(y) / 2_000.0)).collect();
    if piece.shape == Shape::Scallop {
        let (chord, rise) = (millimetres(piece.width), millimetres(piece.detail));
        let radius = (chord * chord / 4.0 + rise * rise) / (2.0 * rise);
        let half = (chord / 2.0).atan2(radius - rise);
        corners.truncate(2);
        corners.extend(arc(millimetres(piece.drop) - radius, radius, half));
    }
    ring(corners)
}

/// How far corners of one polygon are from the edge of another, at most.
fn farthest<'a>(from: impl Iterator<Item = &'a Coord>, to: &Polygon) -> f64 {
    from.map(|at| Euclidean.distance(&Point::from(*at), to.exterior())).fold(0.0, f64::max)
}

/// How far corners are from a scallop's top, sides and true arc, at most.
fn farthest_from_scallop<'a>(from: impl Iterator<Item = &'a Coord>, scallop: Outline) -> f64 {
    let (half, drop) = (millimetres(scallop.width) / 2.0, millimetres(scallop.drop));
    let rise = millimetres(scallop.detail);
    let radius = (half * half + rise * rise) / (2.0 * rise);
    let off = |at: &Coord| {
        let arc = (at.x.hypot(at.y - (drop - radius)) - radius).abs();
        let side = (at.x.abs() - half).abs();
        if at.y < drop - rise - ROUNDED { side.min(at.y.abs()) } else { side.min(arc) }
    };
    from.map(off).fold(0.0, f64::max)
}

/// Both ways, areas too.
fn compare(shape: Shape, clip: bool, seed: u64) {
    let mut numbers = Numbers(seed);
    for _ in 0..SIZES {
        let (finished, seam) = size(shape, &mut numbers);
        let piece = cut(&finished, seam, clip);
        let (ours, theirs) = (drawn(piece), buffered(&finished, seam, clip));
        assert_eq!(theirs.0.len(), 1, "one piece: {finished:?} {seam}");
        let theirs = &theirs.0[0];
        assert!(theirs.interiors().is_empty(), "no hole");
        // of an arc's corners the ends and some between them
        let all = &ours.exterior().0;
        let some = all.iter().step_by(all.len() / 48 + 1).chain(&all[..3]).chain(&all[all.len() - 2..]);
        let (arcs, back) = if shape == Shape::Scallop {
            (ARC, farthest_from_scallop(theirs.exterior().coords(), piece))
        } else {
            (0.0, farthest(theirs.exterior().coords(), &ours))
        };
        let apart = farthest(some, theirs).max(back);
        assert!(apart <= ROUNDED + GRID + arcs, "{apart} apart: {finished:?} {seam} {piece:?}");
        // never smaller, and no larger than rounding makes it all along the edge
        let around = 2.0 * (millimetres(piece.width) + millimetres(piece.drop) * 2.0);
        let area = float(i64::try_from(piece.area().um2()).expect("an area")) / 1_000_000.0;
        let more = area - theirs.unsigned_area();
        let (least, greatest) = (-around * GRID / 4.0, around * (ROUNDED + GRID + arcs));
        assert!(least <= more && more <= greatest, "{more} more: {finished:?} {seam} {piece:?}");
    }
}

#[test]
fn triangles_are_as_another_library_grows_them() {
    compare(Shape::Triangle, false, 11);
    compare(Shape::Triangle, true, 12);
}

#[test]
fn blunt_pennants_are_as_another_library_grows_them() {
    compare(Shape::Blunt, false, 21);
    compare(Shape::Blunt, true, 22);
}

#[test]
fn swallowtails_are_as_another_library_grows_them() {
    compare(Shape::Swallowtail, false, 31);
    compare(Shape::Swallowtail, true, 32);
}

#[test]
fn shields_are_as_another_library_grows_them() {
    compare(Shape::Shield, false, 41);
    compare(Shape::Shield, true, 42);
}

#[test]
fn scallops_are_as_another_library_grows_them() {
    // clipping changes no scallop: once is enough
    compare(Shape::Scallop, false, 51);
}

#[test]
fn rectangles_are_as_another_library_grows_them() {
    compare(Shape::Rectangle, false, 61);
    compare(Shape::Rectangle, true, 62);
}
