//! The table of shapes, identities, limits and what must hold for every size.

use proptest::prelude::*;

use super::{float, mm, random};
use crate::outline::*;
use crate::shop::Shape;
use crate::table::{length_um, millionths, rows};

const TABLE: &str = include_str!("../../../tables/outline_shapes.csv");

const ALL: [Shape; 6] =
    [Shape::Triangle, Shape::Blunt, Shape::Swallowtail, Shape::Shield, Shape::Scallop, Shape::Rectangle];

fn shape(name: &str) -> Shape {
    let known = ALL.into_iter().find(|shape| format!("{shape:?}").to_lowercase() == name);
    known.unwrap_or_else(|| panic!("no shape {name}"))
}

#[test]
fn the_table_of_shapes_is_met() {
    let columns = [
        "id",
        "function",
        "shape",
        "clip",
        "unit",
        "width",
        "drop",
        "detail",
        "seam",
        "insertion",
        "measure",
        "expected",
        "tolerance",
        "source",
        "grade",
    ];
    let all = rows(TABLE, columns);
    for row in &all {
        let [id, function, name, clip, unit, width, drop, detail, seam, insertion, ..] = row;
        let [.., measure, expected, tolerance, source, grade] = row;
        let read = |text: &str| Length::from_um(length_um(text, unit));
        let finished =
            Finished { shape: shape(name), width: read(width), drop: read(drop), detail: read(detail) };
        let (seam, insertion, clip) = (read(seam), read(insertion), clip == "yes");
        let piece = match function.as_str() {
            "cut" => cut(&finished, seam, clip),
            "cut_raised" => cut(&raised(&finished, insertion), seam, clip),
            "raised" => raised(&finished, insertion).outline(),
            "finished" => finished.outline(),
            other => panic!("{id}: no function {other}"),
        };
        let (got, wanted, tolerance) = if measure == "area" {
            assert_eq!(unit, "mm", "{id}");
            // square micrometres are the millionths of a square millimetre
            let area = if function == "finished" { finished.area() } else { piece.area() };
            (area.um2(), millionths(expected).into(), millionths(tolerance).into())
        } else {
            let got = match measure.as_str() {
                "width" => piece.width,
                "drop" => piece.drop,
                "detail" => piece.detail,
                "flat" => piece.flat,
                "below_top" => finished.below_top(),
                other => panic!("{id}: no measure {other}"),
            };
            (got.wide(), read(expected).wide(), read(tolerance).wide())
        };
        assert!((got - wanted).abs() <= tolerance, "{id} {measure}: {got}, expected {wanted}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 146, "rows of the table");
}

/// Sides of 3-4-5 triangles have whole roots, so every figure is known (derived).
#[test]
fn whole_roots_give_whole_figures() {
    let um = Length::from_um;
    let piece = |shape, width, drop, detail, seam, clip| {
        let finished = Finished { shape, width: mm(width), drop: mm(drop), detail: mm(detail) };
        let Outline { shape, width, drop, detail, flat } = cut(&finished, mm(seam), clip);
        (shape, width, drop, detail, flat)
    };
    // half 30, drop 40: sides of 50, the sides move out by 12 · 50 / 40
    assert_eq!(piece(Shape::Triangle, 60, 40, 0, 12, false), (Shape::Triangle, mm(90), mm(60), mm(0), mm(0)));
    assert_eq!(piece(Shape::Triangle, 60, 40, 0, 12, true), (Shape::Blunt, mm(90), mm(52), mm(12), mm(0)));
    assert_eq!(piece(Shape::Blunt, 120, 40, 60, 12, true), (Shape::Blunt, mm(150), mm(52), mm(72), mm(0)));
    // notch edges 60 across and 80 up: 6 moves them down by 10, 6 across by 8
    assert_eq!(
        piece(Shape::Swallowtail, 120, 200, 80, 6, false),
        (Shape::Swallowtail, mm(132), mm(218), mm(88), mm(0))
    );
    assert_eq!(
        piece(Shape::Swallowtail, 120, 200, 80, 6, true),
        (Shape::Swallowtail, mm(132), mm(206), mm(76), mm(9))
    );
    assert_eq!(
        piece(Shape::Shield, 120, 160, 80, 6, false),
        (Shape::Shield, mm(132), mm(170), mm(82), mm(0))
    );
    assert_eq!(piece(Shape::Shield, 120, 160, 80, 6, true), (Shape::Shield, mm(132), mm(166), mm(82), mm(6)));
    // chord 80, rise 20: radius 50. With 15 more, half the chord 55: √(65² − 55²) is
    // 34.641, so the rise is 30.358 98
    assert_eq!(
        piece(Shape::Scallop, 80, 100, 20, 15, true),
        (Shape::Scallop, mm(110), mm(115), um(30_358), mm(0))
    );
    assert_eq!(
        piece(Shape::Rectangle, 80, 100, 0, 15, true),
        (Shape::Rectangle, mm(110), mm(115), mm(0), mm(0))
    );
}

/// Where the two flats meet nothing is left of the notch (derived: half a width of 10, a
/// notch of 24 and so edges of 26; a seam of 15 moves them down by 39, to the square cut).
#[test]
fn a_wide_seam_takes_a_narrow_notch() {
    let finished = Finished { shape: Shape::Swallowtail, width: mm(20), drop: mm(100), detail: mm(24) };
    // ten less move them down by 38.974, and 16 of the notch are left, 13.3 wide
    let um = Length::from_um;
    let just = cut(&finished, um(14_990), true);
    assert_eq!((just.shape, just.detail, just.flat), (Shape::Swallowtail, um(16), um(24_984)));
    let gone = cut(&finished, mm(15), true);
    assert_eq!(gone, cut(&Finished { shape: Shape::Rectangle, ..finished }, mm(15), true));
    // without clipping the notch stays: it only moves
    let mitred = cut(&finished, mm(15), false);
    assert_eq!((mitred.drop, mitred.detail), (mm(175), mm(60)));
}

#[test]
fn the_limits_of_a_shape_are_its_neighbours() {
    let sized = |shape, detail| Finished { shape, width: mm(150), drop: mm(200), detail: mm(detail) };
    let piece = |shape, detail, clip| cut(&sized(shape, detail), mm(7), clip);
    let rectangle = piece(Shape::Rectangle, 0, true);
    // a foot of nothing is a clipped triangle, straight sides of nothing are a triangle's
    assert_eq!(piece(Shape::Blunt, 0, false), piece(Shape::Triangle, 0, true));
    let (pointed, triangle) = (piece(Shape::Shield, 0, true), piece(Shape::Triangle, 0, true));
    assert_eq!(pointed.flat, triangle.detail);
    // as wide at the foot as at the top, no notch, no point, no arc: all a rectangle
    for (shape, detail) in
        [(Shape::Blunt, 150), (Shape::Swallowtail, 0), (Shape::Shield, 200), (Shape::Scallop, 0)]
    {
        for clip in [false, true] {
            let square = piece(shape, detail, clip);
            assert_eq!((square.width, square.drop), (rectangle.width, rectangle.drop), "{shape:?}");
            assert_eq!(square.area(), rectangle.area(), "{shape:?}");
            assert_eq!(square.flat, mm(0), "{shape:?}");
        }
    }
    // measures that make no such shape give the one at the limit
    assert_eq!(piece(Shape::Shield, 300, true), piece(Shape::Shield, 200, true));
    assert_eq!(piece(Shape::Swallowtail, 300, true), piece(Shape::Swallowtail, 200, true));
    assert_eq!(piece(Shape::Scallop, 90, true), piece(Shape::Scallop, 75, true));
    assert_eq!(piece(Shape::Blunt, -3, true), piece(Shape::Blunt, 0, true));
    // a seam below nought is none
    assert_eq!(cut(&sized(Shape::Blunt, 60), mm(-5), false), sized(Shape::Blunt, 60).outline());
}

/// Nothing is no size, but it must not stop the program.
#[test]
fn a_size_of_nothing_is_cut_as_nothing() {
    for shape in ALL {
        let nothing = Finished { shape, width: mm(0), drop: mm(0), detail: mm(0) };
        assert_eq!(cut(&nothing, mm(0), true).area().um2(), 0);
        assert_eq!(nothing.below_top(), mm(0));
        assert_eq!(nothing.outline().corners(), [(0, 0)], "{shape:?}");
        assert_eq!(raised(&nothing, mm(10)).width, mm(0));
        let _ = cut(&nothing, mm(10), true).corners();
    }
}

#[test]
fn corners_are_those_of_the_shape() {
    let um = Length::from_um;
    let piece = |shape, detail, flat| {
        Outline { shape, width: um(10), drop: um(20), detail: um(detail), flat: um(flat) }.corners()
    };
    let (left, right) = ((0, 0), (20, 0));
    assert_eq!(piece(Shape::Triangle, 0, 0), [left, right, (10, 40)]);
    assert_eq!(piece(Shape::Blunt, 3, 0), [left, right, (13, 40), (7, 40)]);
    assert_eq!(piece(Shape::Blunt, 0, 0), [left, right, (10, 40)]);
    assert_eq!(piece(Shape::Swallowtail, 6, 0), [left, right, (20, 40), (10, 28), (0, 40)]);
    assert_eq!(
        piece(Shape::Swallowtail, 6, 3),
        [left, right, (20, 40), (14, 40), (10, 28), (6, 40), (0, 40)]
    );
    assert_eq!(piece(Shape::Shield, 6, 0), [left, right, (20, 12), (10, 40), (0, 12)]);
    assert_eq!(piece(Shape::Shield, 6, 3), [left, right, (20, 12), (13, 40), (7, 40), (0, 12)]);
    assert_eq!(piece(Shape::Shield, 0, 0), [left, right, (10, 40)]);
    assert_eq!(piece(Shape::Scallop, 5, 0), [left, right, (20, 30), (0, 30)]);
    assert_eq!(piece(Shape::Scallop, 20, 0), [left, right]);
    assert_eq!(piece(Shape::Rectangle, 0, 0), [left, right, (20, 40), (0, 40)]);
}

#[test]
fn only_triangles_are_read_back() {
    let cut = Outline { shape: Shape::Rectangle, ..Outline::triangle(mm(220), mm(220)) };
    assert_eq!(finished_from_cut(cut, mm(10)), None);
}

/// Twice the area by the shoelace formula, in quarter square micrometres.
fn shoelace(corners: &[(i64, i64)]) -> i128 {
    let wide = |corner: &(i64, i64)| (i128::from(corner.0), i128::from(corner.1));
    let next = corners.iter().cycle().skip(1).map(wide);
    corners.iter().map(wide).zip(next).map(|(a, b)| a.0 * b.1 - a.1 * b.0).sum()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn areas_are_those_of_the_corners(finished in random(), seam in 0_i64..=30_000, clip in any::<bool>()) {
        let piece = cut(&finished, Length::from_um(seam), clip);
        prop_assume!(piece.shape != Shape::Scallop);
        let twice = shoelace(&piece.corners());
        prop_assert!(twice > 0, "clockwise where y points down");
        prop_assert_eq!(piece.area().um2(), (twice + 4) / 8);
    }

    #[test]
    fn no_seam_is_no_change(finished in random(), clip in any::<bool>()) {
        prop_assert_eq!(cut(&finished, mm(0), clip), finished.outline());
    }

    /// The two triangles are one: the general function and the one for triangles.
    #[test]
    fn a_triangle_is_cut_as_before(width in 20_000_i64..=1_000_000, drop in 20_000_i64..=1_500_000, seam in 0_i64..=30_000) {
        let (width, drop, seam) = (Length::from_um(width), Length::from_um(drop), Length::from_um(seam));
        let finished = Finished { shape: Shape::Triangle, width, drop, detail: mm(0) };
        prop_assert_eq!(cut(&finished, seam, false), triangle(width, drop, seam));
        prop_assert_eq!(raised(&finished, seam).width, raise(width, drop, seam).0);
    }

    /// Lines prolonged: the raised sides go through the ends that were seen.
    #[test]
    fn raised_sides_are_the_sides_seen(finished in random(), insertion in 0_i64..=30_000) {
        let insertion = Length::from_um(insertion);
        let top = raised(&finished, insertion);
        prop_assert_eq!(top.drop, finished.drop + insertion);
        // how wide the raised pennant is where the binding ends
        let straight = if finished.shape == Shape::Shield { top.detail } else { top.drop };
        let foot = match finished.shape {
            Shape::Triangle => mm(0),
            Shape::Blunt => top.detail,
            _ => top.width,
        };
        let lost = (top.width - foot).wide() * insertion.wide();
        let seen = top.width.wide() - divide(lost, straight.wide(), Rounding::HalfUp);
        prop_assert!((seen - finished.width.wide()).abs() <= 1, "{} of {}", seen, finished.width);
    }

    /// What is sewn round is the way along the corners, or along the arc.
    #[test]
    fn below_the_top_is_the_way_round(finished in random()) {
        let corners = finished.outline().corners();
        let mut way = 0.0;
        for pair in corners[1..].windows(2).chain([[corners[corners.len() - 1], corners[0]].as_slice()]) {
            let (a, b) = (pair[0], pair[1]);
            if finished.shape == Shape::Scallop && a.1 == b.1 {
                let (chord, rise) = (float(finished.width.um()), float(finished.detail.um()));
                let radius = (chord * chord / 4.0 + rise * rise) / (2.0 * rise);
                way += 2.0 * radius * (chord / 2.0 / radius).min(1.0).asin();
            } else {
                way += float(a.0 - b.0).hypot(float(a.1 - b.1)) / 2.0;
            }
        }
        let told = float(finished.below_top().um());
        prop_assert!(told >= way - 0.01 && told < way + 1.01, "{told}, the way is {way}");
    }

    /// The textbook's segment and Simpson's rule over the chord, which has no angle in it.
    #[test]
    fn a_scallop_is_its_rectangle_and_its_segment(
        width in 20_000_i64..=1_000_000,
        rise in 1_000_i64..=500_000,
        straight in 0_i64..=500_000,
    ) {
        let rise = rise.min(width / 2);
        let finished = Finished {
            shape: Shape::Scallop,
            width: Length::from_um(width),
            drop: Length::from_um(straight + rise),
            detail: Length::from_um(rise),
        };
        let segment = finished.area().um2() - i128::from(width) * i128::from(straight);
        let area = float(i64::try_from(segment).expect("an area"));
        let (w, r) = (float(width), float(rise));
        let radius = (w * w / 4.0 + r * r) / (2.0 * r);
        let angle = 2.0 * (w / 2.0).atan2(radius - r);
        let textbook = radius * radius * (angle - angle.sin()) / 2.0;
        // what the textbook's difference loses: a few last bits of the sector
        let lost = 1.0 + radius * radius * angle * 4e-16;
        prop_assert!((area - textbook).abs() <= lost, "{area} and {textbook}");
        // along the angle the heights are smooth to the ends of the chord
        let steps = 2_000;
        let height = |at: i32| {
            let turned = angle * (f64::from(at) / f64::from(steps) - 0.5);
            (radius * turned.cos() - (radius - r)) * radius * turned.cos()
        };
        let inner: f64 = (1..steps).map(|at| height(at) * if at % 2 == 1 { 4.0 } else { 2.0 }).sum();
        let simpson = (height(0) + inner + height(steps)) * angle / f64::from(steps) / 3.0;
        prop_assert!((area - simpson).abs() <= 1.0 + simpson * 1e-9, "{area} and {simpson}");
    }
}
