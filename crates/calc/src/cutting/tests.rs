mod cloth;
mod prints;
mod properties;
mod rebuilt;
mod shapes;
mod spoiled;

use super::*;
use crate::table::{length_um, millionths, rows};

const TABLE: &str = include_str!("../../tables/cutting.csv");

fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

/// 190 x 210, as cut, on two-way cloth.
fn job(cloth_mm: i64, clearance_mm: i64, pieces: u32) -> Job {
    Job {
        cloth_width: mm(cloth_mm),
        direction: Direction::TwoWay,
        outline: Outline::triangle(mm(190), mm(210)),
        clearance: mm(clearance_mm),
        row_gap: mm(0),
        repeat: Repeat::default(),
        pieces,
    }
}

#[test]
fn the_table_of_rows_is_met() {
    let columns = [
        "id",
        "function",
        "unit",
        "cloth_width",
        "width",
        "drop",
        "clearance",
        "row_gap",
        "direction",
        "input",
        "expected",
        "tolerance",
        "source",
        "grade",
    ];
    let all = rows(TABLE, columns);
    for row in &all {
        let [id, function, unit, cloth_width, width, drop, clearance, row_gap, direction, ..] = row;
        let [.., input, expected, tolerance, source, grade] = row;
        let read = |text: &str| Length::from_um(length_um(text, unit));
        let mut job = Job {
            cloth_width: read(cloth_width),
            direction: match direction.as_str() {
                "one" => Direction::OneWay,
                "two" => Direction::TwoWay,
                other => panic!("{id}: no direction {other}"),
            },
            outline: Outline::triangle(read(width), read(drop)),
            clearance: read(clearance),
            row_gap: read(row_gap),
            repeat: Repeat::default(),
            pieces: 0,
        };
        let mut planned = || {
            job.pieces = input.parse().expect("pieces");
            plan(&job).expect("a plan")
        };
        let whole = |count: i64| count * 1_000_000;
        // a length in millionths of the unit, a count in millionths
        let millimetres = |length: Length| length.um() * 1_000;
        let got = match function.as_str() {
            "used" => millimetres(planned().used),
            "bound" => millimetres(planned().bound),
            "zero_tolerance" => whole(i64::from(planned().zero_tolerance)),
            "per_row" => whole(i64::from(job.per_row())),
            "capacity" => whole(i64::try_from(job.capacity(read(input))).expect("a count")),
            other => panic!("{id}: no function {other}"),
        };
        let (wanted, tolerance) = (millionths(expected), millionths(tolerance));
        assert!((got - wanted).abs() <= tolerance, "{id}: {got}, expected {wanted} within {tolerance}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 185, "rows of the table");
}

#[test]
fn exact_multiples_hold_and_a_micrometre_less_does_not() {
    for (cloth_mm, count) in [(1_045, 10), (1_140, 11), (1_330, 13)] {
        let exact = job(cloth_mm, 0, count);
        assert_eq!(exact.per_row(), count);
        let filled = plan(&exact).expect("a plan");
        assert!(filled.zero_tolerance && filled.bands[0].half_slack == 0, "{filled:?}");
        let less = Job { cloth_width: mm(cloth_mm) - Length::from_um(1), ..exact };
        assert_eq!(less.per_row(), count - 1);
    }
    // an odd width: half of it is not a whole micrometre, and is exact all the same
    let odd = Outline::triangle(Length::from_um(190_001), mm(210));
    let exact = Job { outline: odd, cloth_width: Length::from_um(380_002), ..job(0, 0, 3) };
    assert_eq!((exact.per_row(), exact.half_pitch()), (3, 190_001));
    assert_eq!(Job { cloth_width: Length::from_um(380_001), ..exact }.per_row(), 2);
}

/// The story's three fabrics: a row of 210 each at clearance 5, two rows for the tens
/// at 6 (common practice, no source).
#[test]
fn the_story_takes_one_row_a_fabric() {
    for (pieces, used) in [(10, 210), (10, 210), (9, 210)] {
        assert_eq!(plan(&job(1_100, 5, pieces)).expect("a plan").used, mm(used));
    }
    assert_eq!(plan(&job(1_100, 6, 10)).expect("a plan").used, mm(420));
    assert_eq!(plan(&job(1_100, 6, 9)).expect("a plan").used, mm(210));
}

/// Trade row 14: 1 140.8 is charged as 1.2 m and 2 281.6 as 2.3 m in steps of 10 cm
/// (derived).
#[test]
fn cloth_is_charged_in_steps() {
    let um = Length::from_um;
    assert_eq!(charged(um(1_140_800), mm(0), mm(100)), mm(1_200));
    assert_eq!(charged(um(2_281_600), mm(0), mm(100)), mm(2_300));
    assert_eq!(charged(mm(1_200), mm(0), mm(100)), mm(1_200));
    assert_eq!(charged(mm(1_200), um(1), mm(100)), mm(1_300));
    assert_eq!(charged(mm(630), mm(20), mm(0)), mm(650));
}

#[test]
fn spares_go_up_to_the_next_piece() {
    let five = Percent::from_milli(5_000);
    assert_eq!([0, 1, 20, 21].map(|pieces| spares(pieces, five)), [0, 1, 1, 2]);
    assert_eq!(spares(1_000, Percent::from_milli(0)), 0);
}

#[test]
fn the_distance_to_the_bound_is_half_up() {
    assert_eq!(above_bound_tenths(mm(1_000), mm(1_000)), 0);
    // 0.05 % and just below it
    assert_eq!(above_bound_tenths(Length::from_um(1_000_500), mm(1_000)), 1);
    assert_eq!(above_bound_tenths(Length::from_um(1_000_499), mm(1_000)), 0);
    assert_eq!(above_bound_tenths(mm(0), mm(0)), 0);
}

#[test]
fn the_last_row_holds_what_is_left() {
    let gaps = Job { row_gap: mm(3), ..job(1_100, 0, 27) };
    let planned = plan(&gaps).expect("a plan");
    assert_eq!((planned.used, planned.room, planned.steps), (mm(636), 3, 27));
    let bands: Vec<_> = planned.bands.iter().map(|band| (band.rows, band.per_row, band.start)).collect();
    assert_eq!(bands, [(2, 10, mm(0)), (1, 7, mm(426))]);
    // a part row alone, and no piece at all
    let few = plan(&job(1_100, 0, 3)).expect("a plan");
    assert_eq!((few.used, few.room, few.bands.len(), few.zero_tolerance), (mm(210), 7, 1, false));
    let none = plan(&job(1_100, 0, 0)).expect("a plan");
    assert_eq!((none.used, none.bound, none.bands.len(), none.steps), (mm(0), mm(0), 0, 0));
}

#[test]
fn less_than_a_millimetre_of_slack_has_no_tolerance() {
    let slack = |cloth_um, pieces| {
        let job = Job { cloth_width: Length::from_um(cloth_um), ..job(0, 0, pieces) };
        plan(&job).expect("a plan").zero_tolerance
    };
    assert!(slack(1_045_999, 10));
    assert!(!slack(1_046_000, 10));
    // nine of ten places used: a narrower cloth would do
    assert!(!slack(1_045_000, 9));
    assert!(slack(1_045_000, 11));
}

#[test]
fn a_piece_wider_than_its_cloth_is_told() {
    let narrow = Job { cloth_width: Length::from_um(189_999), ..job(0, 0, 1) };
    let wide = TooWide { needed: mm(190), usable: Length::from_um(189_999) };
    assert_eq!(plan(&narrow), Err(PlanError::TooWide(wide)));
    assert_eq!(narrow.capacity(mm(10_000)), 0);
    assert_eq!(plan(&job(190, 5, 2)).expect("a plan").used, mm(420));
}
