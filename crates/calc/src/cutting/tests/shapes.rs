//! Every shape and quarter turns against the table.

use super::*;
use crate::cutting::{pairs, rows};
use crate::shop::Shape;

const SHAPES: &str = include_str!("../../../tables/cutting_shapes.csv");

pub(super) fn shape(name: &str) -> Shape {
    match name {
        "triangle" => Shape::Triangle,
        "blunt" => Shape::Blunt,
        "swallowtail" => Shape::Swallowtail,
        "shield" => Shape::Shield,
        "scallop" => Shape::Scallop,
        "rectangle" => Shape::Rectangle,
        other => panic!("no shape {other}"),
    }
}

#[test]
fn the_table_of_shapes_is_met() {
    let columns = [
        "id",
        "function",
        "unit",
        "shape",
        "width",
        "drop",
        "detail",
        "flat",
        "cloth_width",
        "clearance",
        "row_gap",
        "direction",
        "input",
        "expected",
        "tolerance",
        "source",
        "grade",
    ];
    let all = crate::table::rows(SHAPES, columns);
    for row in &all {
        let [id, function, unit, name, width, drop, detail, flat, cloth_width, ..] = row;
        let [.., clearance, row_gap, direction, input, expected, tolerance, source, grade] = row;
        let read = |text: &str| Length::from_um(length_um(text, unit));
        let job = Job {
            cloth_width: read(cloth_width),
            direction: match direction.as_str() {
                "one" => Direction::OneWay,
                "two" => Direction::TwoWay,
                "four" => Direction::FourWay,
                other => panic!("{id}: no direction {other}"),
            },
            outline: Outline {
                shape: shape(name),
                width: read(width),
                drop: read(drop),
                detail: read(detail),
                flat: read(flat),
            },
            clearance: read(clearance),
            row_gap: read(row_gap),
            repeat: Repeat::default(),
            pieces: input.parse().expect("pieces"),
        };
        // lengths in micrometres, times what makes them millionths of the unit
        let scaled = |length: Length| match unit.as_str() {
            "in" => length.um() * 10_000 / 254,
            _ => length.um() * 1_000,
        };
        let pair = || {
            let mut units = Vec::new();
            pairs::pairs(&rows::Cut::new(&job), &mut units);
            *units.last().expect("a pair")
        };
        let got = match function.as_str() {
            "best" => {
                let plan = best(&job).expect("a plan");
                assert_eq!(shortest(&job), Some(plan.used), "{id}: without coordinates");
                scaled(plan.used)
            }
            "used" => {
                let plan = plan(&job).expect("a plan");
                assert_eq!(length(&job), Some(plan.used), "{id}: without coordinates");
                scaled(plan.used)
            }
            "bound" => scaled(bounds::bound(&job)),
            "per_row" => i64::from(job.per_row()) * 1_000_000,
            "pair_pieces" => i64::from(pair().count) * 1_000_000,
            "pair_length" => pair().length * 1_000,
            // square millimetres in millionths, which square micrometres are
            "area" => i64::try_from(bounds::twice_area(&job.outline) / 2).expect("an area"),
            other => panic!("{id}: no function {other}"),
        };
        let (wanted, tolerance) = (millionths(expected), millionths(tolerance));
        assert!((got - wanted).abs() <= tolerance, "{id}: {got}, expected {wanted} within {tolerance}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 137, "rows of the table");
}

/// The first row of swallowtails: a pair of 14 and a pair of 13, 27 of 27 places.
#[test]
fn two_kinds_of_pairs_are_mixed() {
    let outline =
        Outline { shape: Shape::Swallowtail, width: mm(150), drop: mm(200), detail: mm(60), flat: mm(0) };
    let job = Job { outline, ..job(1_100, 0, 27) };
    let found = best(&job).expect("a plan");
    let bands: Vec<_> = found.bands.iter().map(|band| (band.kind, band.per_row, band.row)).collect();
    assert_eq!(bands, [(RowKind::Facing, 13, mm(340)), (RowKind::Facing, 14, mm(360))]);
    assert_eq!((found.room, found.bands[1].half_shift), (0, 2 * 50_000));
    // the saving of 100 is worth it, that of 28.67 in scallops is not
    assert_eq!(plan(&job).expect("a plan").used, mm(700));
    let scallop = Outline { shape: Shape::Scallop, drop: mm(180), detail: mm(75), ..outline };
    assert_eq!(plan(&Job { outline: scallop, ..job }).expect("a plan").used, mm(720));
}

/// What stands in a plan of two blocks, of a block with rows beside it, and of a block
/// that is filled in part (derived by drawing).
#[test]
fn blocks_stand_before_the_rows() {
    let four = |job| Job { direction: Direction::FourWay, ..job };
    let shown = |plan: &Plan| -> Vec<_> {
        plan.bands
            .iter()
            .map(|b| (b.kind, b.rows, b.per_row, b.start.um() / 1_000, b.half_left / 2_000))
            .collect()
    };
    // 14 on their side in 295.976, then a plain row of 13
    let found = best(&four(job(1_480, 10, 27))).expect("a plan");
    assert_eq!(shown(&found)[0], (RowKind::Sideways, 7, 2, 0, 0));
    assert_eq!(shown(&found)[1], (RowKind::PlainTwoWay, 1, 13, 295, 0));
    assert_eq!(found.used, Length::from_um(505_976));
    // six columns of five in 570 hold 30: three of them hold four
    let found = best(&four(job(1_350, 0, 27))).expect("a plan");
    let columns = [(RowKind::Sideways, 3, 5, 0, 0), (RowKind::Sideways, 3, 4, 0, 630)];
    assert_eq!((shown(&found), found.room), (columns.into(), 3));
    // a piece too wide to stand lies on its side
    let wide = Job { outline: Outline::triangle(mm(500), mm(210)), ..job(450, 0, 5) };
    assert_eq!(plan(&wide), Err(PlanError::TooWide(TooWide { needed: mm(500), usable: mm(450) })));
    let turned = plan(&four(wide)).expect("a plan");
    assert_eq!(
        (shown(&turned), turned.used),
        (vec![(RowKind::Sideways, 1, 3, 0, 0), (RowKind::Sideways, 1, 2, 0, 210)], mm(1_000))
    );
    assert_eq!(turned.bound, mm(583) + Length::from_um(333));
    let narrow = four(Job { cloth_width: mm(209), ..wide });
    assert!(matches!(plan(&narrow), Err(PlanError::TooWide(_))));
    assert_eq!((shortest(&narrow), length(&narrow)), (None, None));
    assert_eq!(plan(&four(Job { pieces: 0, ..wide })).expect("a plan").used, mm(0));
}

/// Two columns take two drops and the gap between them, and nothing beyond (derived).
#[test]
fn columns_that_fill_the_cloth_exactly_fit() {
    let outline = Outline { shape: Shape::Rectangle, ..Outline::triangle(mm(500), mm(210)) };
    let job = Job { outline, direction: Direction::FourWay, row_gap: mm(3), ..job(423, 0, 2) };
    let filled = plan(&job).expect("a plan");
    let columns: Vec<_> = filled.bands.iter().map(|b| (b.rows, b.per_row, b.half_slack)).collect();
    assert_eq!((columns, filled.used, filled.zero_tolerance), (vec![(2, 1, 0)], mm(500), true));
    let less = Job { cloth_width: mm(423) - Length::from_um(1), ..job };
    assert_eq!(plan(&less).expect("a plan").used, mm(1_000));
}

/// Two blocks that stand on each other keep the clearance of sides, and where rows lie
/// between only the row gap is left.
#[test]
fn sides_of_two_blocks_keep_the_clearance() {
    let outline = Outline { shape: Shape::Blunt, width: mm(101), drop: mm(257), detail: mm(33), flat: mm(0) };
    let job = Job { direction: Direction::FourWay, outline, ..job(910, 10, 95) };
    let found = best(&job).expect("a plan");
    assert_eq!(validate(&found, &job), Ok(()));
    let blocks: Vec<_> =
        found.bands.iter().filter(|b| b.kind == RowKind::Sideways && b.half_left == 0).collect();
    assert_eq!(blocks.len(), 2, "{found:?}");
    // two blocks of 3 columns and of 1, at least ten apart
    let ends = blocks[0].start + blocks[0].row;
    assert!(blocks[1].start >= ends + job.clearance, "{found:?}");
    let mut nearer = found.clone();
    for band in nearer.bands.iter_mut().filter(|band| band.start.um() > 0) {
        band.start = band.start - job.clearance;
    }
    nearer.used = nearer.used - job.clearance;
    assert!(matches!(validate(&nearer, &job), Err(Fault::RowTooNear { .. })), "{nearer:?}");
}

/// A clipped point is never nearer than a sharp one: swallowtail `150 x 200`, notch 60,
/// clipped by 10, is 192 deep; its sharp points would be 200 deep again (derived).
#[test]
fn clipped_points_face_along_their_edges() {
    let clipped =
        Outline { shape: Shape::Swallowtail, width: mm(150), drop: mm(192), detail: mm(52), flat: mm(10) };
    let mut units = Vec::new();
    let job = Job { outline: clipped, ..job(1_100, 0, 27) };
    pairs::pairs(&rows::Cut::new(&job), &mut units);
    let lengths: Vec<_> = units.iter().map(|unit| (unit.count, unit.length)).collect();
    // edges of slope 52 / 65 = 0.8: 2 · 140 + 0.8 (150 − 50) and 2 · 140 + 0.8 · 75
    assert_eq!(lengths, [(14, 360_000), (13, 340_000)]);
    // a shift that gains less than the points lost is no pair: rows of 384 are shorter
    let tight = Job { cloth_width: mm(1_060), ..job };
    units.clear();
    pairs::pairs(&rows::Cut::new(&tight), &mut units);
    assert_eq!(units.iter().map(|unit| unit.count).collect::<Vec<_>>(), [13]);
}

/// The series of the segment: a half circle, and a shallow arc (derived with 50 digits).
#[test]
fn segments_are_known_to_a_part_in_a_thousand_million() {
    let scallop = |width, drop, rise| {
        let um = Length::from_um;
        let outline = Outline {
            shape: Shape::Scallop,
            width: um(width),
            drop: um(drop),
            detail: um(rise),
            flat: um(0),
        };
        bounds::twice_area(&outline)
    };
    for (width, drop, rise, twice) in [
        (200_000, 100_000, 100_000, 31_415_926_535),
        (190_000, 50_000, 50_000, 13_342_933_489_i128),
        (1_000_000, 1_000, 1_000, 1_333_334_399),
    ] {
        let got = scallop(width, drop, rise);
        assert!(got <= twice && twice - got <= twice / 1_000_000_000 + 1, "{got} for {twice}");
    }
    assert_eq!(scallop(200_000, 100_000, 0), 40_000_000_000);
}

/// No piece, one piece, and cloth that is a micrometre too narrow, for every shape
/// (derived).
#[test]
fn the_least_jobs_are_planned() {
    for name in ["triangle", "blunt", "swallowtail", "shield", "scallop", "rectangle"] {
        let outline =
            Outline { shape: shape(name), width: mm(190), drop: mm(210), detail: mm(60), flat: mm(0) };
        for direction in [Direction::OneWay, Direction::TwoWay, Direction::FourWay] {
            let with = |cloth_width, pieces| Job { cloth_width, direction, outline, ..job(0, 5, pieces) };
            let none = best(&with(mm(190), 0)).expect("a plan");
            assert_eq!((none.used, none.bound, none.bands.len(), none.room), (mm(0), mm(0), 0, 0), "{name}");
            // on its side a piece takes 190 of length, where the cloth is 210 wide
            let one = |cloth_width| best(&with(cloth_width, 1)).map(|plan| plan.used);
            assert_eq!(one(mm(209)), Ok(mm(210)), "{name}");
            let turned = if direction == Direction::FourWay { mm(190) } else { mm(210) };
            assert_eq!(one(mm(210)), Ok(turned), "{name}");
            let narrow = Length::from_um(189_999);
            let wide = TooWide { needed: mm(190), usable: narrow };
            assert_eq!(one(narrow), Err(PlanError::TooWide(wide)), "{name}");
            assert_eq!(best(&with(narrow, 0)), Err(PlanError::TooWide(wide)), "{name}");
        }
        // four that fill the cloth exactly, and a micrometre less
        let filled = match name {
            "triangle" => mm(190 + 3 * 95),
            "blunt" => mm(190 + 3 * 125),
            _ => mm(4 * 190),
        };
        let exact = Job { outline, cloth_width: filled, ..job(0, 0, 4) };
        let plan = plan(&exact).expect("a plan");
        assert_eq!((plan.used, exact.per_row(), plan.zero_tolerance), (mm(210), 4, true), "{name}");
        let less = Job { cloth_width: filled - Length::from_um(1), ..exact };
        assert_eq!(less.per_row(), 3, "{name}");
    }
}

/// Sides so flat that a row head to tail would be longer than one with all feet one way
/// (derived).
#[test]
fn very_flat_pieces_take_no_more_than_a_width_and_the_clearance() {
    let flat = Job { outline: Outline::triangle(mm(200), mm(20)), ..job(1_100, 60, 4) };
    // half a width and 60 times the side of 101.98 over the drop of 20 are 405.9
    assert_eq!(flat.half_pitch(), 2 * 260_000);
    let plan = plan(&flat).expect("a plan");
    assert_eq!((plan.used, flat.per_row()), (mm(20), 4));
    assert_eq!(Job { direction: Direction::OneWay, ..flat }.half_pitch(), flat.half_pitch());
}
