mod buffered;
mod edges;
mod held;
mod shapes;

use geo::{Contains, Coord, Distance, Euclidean, Line, LineString, Point, Polygon};
use proptest::prelude::*;

use super::*;
use crate::order::detail_limits;
use crate::table::{length_um, rows};

const TABLE: &str = include_str!("../../tables/outline.csv");

fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

/// A finished pennant of any shape within the bounds, its detail within the limits.
fn random() -> impl Strategy<Value = Finished> {
    let shapes = prop::sample::select(vec![
        Shape::Triangle,
        Shape::Blunt,
        Shape::Swallowtail,
        Shape::Shield,
        Shape::Scallop,
        Shape::Rectangle,
    ]);
    (shapes, 20_000_i64..=1_000_000, 20_000_i64..=1_500_000, 0_i64..=1_000_000).prop_map(
        |(shape, width, drop, share)| {
            let (width, drop) = (Length::from_um(width), Length::from_um(drop));
            let (least, most) = detail_limits(shape, width, drop, Length::ZERO);
            let room = (most - least).wide();
            let detail = least + um(divide(room * i128::from(share), 1_000_000, Rounding::Down));
            Finished { shape, width, drop, detail }
        },
    )
}

#[test]
fn the_table_of_outlines_is_met() {
    let columns = [
        "id",
        "function",
        "unit",
        "width",
        "drop",
        "seam",
        "insertion",
        "expected_width",
        "expected_drop",
        "tolerance",
        "source",
        "grade",
    ];
    let all = rows(TABLE, columns);
    for [id, function, unit, width, drop, seam, insertion, want_width, want_drop, tolerance, source, grade] in
        &all
    {
        let read = |text: &str| Length::from_um(length_um(text, unit));
        let (width, drop, seam) = (read(width), read(drop), read(seam));
        let got = match function.as_str() {
            // here the drop's column holds the side
            "drop_from_side" => (width, drop_from_side(width, drop).expect("the sides meet")),
            "finished_from_cut" => finished_from_cut(Outline::triangle(width, drop), seam).expect("a size"),
            "cut_from_finished" => {
                let cut = triangle(width, drop, seam);
                (cut.width, cut.drop)
            }
            "cut_from_visible" => {
                let (top_width, top_drop) = raise(width, drop, read(insertion));
                let cut = triangle(top_width, top_drop, seam);
                (cut.width, cut.drop)
            }
            other => panic!("{id}: no function {other}"),
        };
        let wanted = (read(want_width), read(want_drop));
        let within = |got: Length, wanted: Length| (got - wanted).abs() <= read(tolerance);
        assert!(within(got.0, wanted.0) && within(got.1, wanted.1), "{id}: {got:?}, expected {wanted:?}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 24, "rows of the table");
}

/// 3-4-5 triangles have whole roots, so the outline is known to the micrometre (derived).
#[test]
fn whole_roots_are_not_rounded() {
    // top 6, drop 4: sides of 5, and sqrt(6² + 4·4²) is 10
    let cut = triangle(mm(60), mm(40), mm(12));
    assert_eq!((cut.width, cut.drop), (mm(60 + 30), mm(40 + 20)));
    assert_eq!(finished_from_cut(cut, mm(12)), Some((mm(60), mm(40))));
    assert_eq!(drop_from_side(mm(60), mm(50)), Some(mm(40)));
    // a micrometre of seam is 2.5 and 1.667 of them: up
    let fine = triangle(mm(60), mm(40), Length::from_um(1));
    assert_eq!((fine.width, fine.drop), (Length::from_um(60_003), Length::from_um(40_002)));
    // and read back to the nearest: 2.5 and 1.667 are 3 and 2
    let back = finished_from_cut(Outline::triangle(mm(60), mm(40)), Length::from_um(1));
    assert_eq!(back, Some((Length::from_um(59_997), Length::from_um(39_998))));
    // no seam, no change
    assert_eq!(triangle(mm(190), mm(210), mm(0)), Outline::triangle(mm(190), mm(210)));
}

#[test]
fn seams_that_leave_nothing_give_no_size() {
    let cut = Outline::triangle(mm(60), mm(40));
    assert_eq!(finished_from_cut(cut, mm(24)), None);
    assert!(finished_from_cut(cut, mm(23)).is_some());
    assert_eq!(drop_from_side(mm(100), mm(50)), None);
}

#[test]
fn a_share_reads_as_over_a_limit_when_it_is() {
    let share = |width_um| {
        seam_share(Length::from_um(width_um), Outline::triangle(Length::from_um(200_000), mm(200)))
    };
    assert_eq!(share(170_000), Percent::from_milli(15_000));
    assert_eq!(share(169_999), Percent::from_milli(15_001));
    assert_eq!(seam_share(mm(200), Outline::triangle(mm(200), mm(200))), Percent::from_milli(0));
}

/// A visible size is the raised one cut off at the binding's edge. Both are on one side
/// line, so width and drop stay in proportion.
#[test]
fn raising_prolongs_the_sides() {
    // the pencil case backwards: 190 x 210 at the top shows 178.690 x 197.5
    let shown = (Length::from_um(178_690), Length::from_um(197_500));
    let (width, drop) = raise(shown.0, shown.1, Length::from_um(12_500));
    assert_eq!(drop, mm(210));
    assert!((width - mm(190)).abs() <= Length::from_um(1), "{width}");
}

#[expect(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "another library measures in doubles; lengths here are far below 2^53"
)]
fn float(um: i64) -> f64 {
    um as f64
}

fn corner(x: f64, y: f64) -> Coord {
    Coord { x, y }
}

/// Base on the axis, tip below it.
fn polygon(width: Length, drop: Length) -> Polygon {
    let (half, drop) = (float(width.um()) / 2.0, float(drop.um()));
    let corners = vec![corner(-half, 0.0), corner(half, 0.0), corner(0.0, -drop)];
    Polygon::new(LineString::new(corners), Vec::new())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn an_outline_holds_the_pennant_and_both_seams(
        width in 20_000_i64..=1_000_000,
        drop in 20_000_i64..=1_500_000,
        seam in 1_i64..=30_000,
    ) {
        let (width, drop, seam) = (Length::from_um(width), Length::from_um(drop), Length::from_um(seam));
        let cut = triangle(width, drop, seam);
        let finished = polygon(width, drop);
        prop_assert!(polygon(cut.width, cut.drop).contains(&finished));
        // doubles hold these lengths to a millionth of a micrometre
        let (least, most) = (float(seam.um()) - 1e-5, float(seam.um()) + 2.0);
        for sign in [-1.0, 1.0] {
            let top = corner(sign * float(cut.width.um()) / 2.0, 0.0);
            let tip = corner(0.0, -float(cut.drop.um()));
            let side = Line::new(top, tip);
            for end in [Point::new(sign * float(width.um()) / 2.0, 0.0), Point::new(0.0, -float(drop.um()))] {
                let apart = Euclidean.distance(&end, &side);
                prop_assert!(apart >= least && apart < most, "{apart} beside a seam of {seam}");
            }
        }
    }

    #[test]
    fn cutting_and_reading_back_is_the_same_size(
        width in 20_000_i64..=1_000_000,
        drop in 20_000_i64..=1_500_000,
        seam in 0_i64..=30_000,
    ) {
        let (width, drop) = (Length::from_um(width), Length::from_um(drop));
        let cut = triangle(width, drop, Length::from_um(seam));
        let (back_width, back_drop) = finished_from_cut(cut, Length::from_um(seam)).expect("a size");
        // half a micrometre up in one measure moves the other by the sides' slope
        let near = |a: Length, b: Length, slope: i64| (a - b).abs() <= Length::from_um(2 + slope);
        prop_assert!(near(back_width, width, width.um() / drop.um()), "{back_width} for {width}");
        prop_assert!(near(back_drop, drop, drop.um() / width.um() * 4), "{back_drop} for {drop}");
    }
}
