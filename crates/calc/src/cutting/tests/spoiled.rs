//! Plans that are wrong.

use super::*;
use crate::shop::Shape;

/// Every way in which a plan can be wrong is found by its coordinates.
#[test]
fn invariant_04_a_wrong_plan_does_not_stand() {
    let job = Job { row_gap: mm(3), ..job(1_100, 5, 23) };
    let good = plan(&job).expect("a plan");
    assert_eq!(validate(&good, &job), Ok(()));
    let spoiled = |spoil: fn(&mut Plan)| {
        let mut plan = good.clone();
        spoil(&mut plan);
        validate(&plan, &job)
    };
    let half = |plan: &mut Plan, by: i64| plan.bands.iter_mut().for_each(|band| band.half_pitch += by);
    assert_eq!(half_spoiled(&good, &job, half, -1), Err(Fault::TooNear { piece: 1 }));
    // wider by a row's slack and a little more: the tenth piece is out
    let slack = good.bands[0].half_slack / 9 + 1;
    assert_eq!(half_spoiled(&good, &job, half, slack), Err(Fault::Outside { piece: 9 }));
    assert_eq!(spoiled(|p| p.bands[1].start = mm(0)), Err(Fault::RowTooNear { piece: 20 }));
    assert_eq!(
        spoiled(|p| p.bands[1].start = p.bands[1].start - Length::from_um(1)),
        Err(Fault::RowTooNear { piece: 20 })
    );
    assert_eq!(spoiled(|p| p.bands[1].start += Length::from_um(1)), Err(Fault::Outside { piece: 20 }));
    assert_eq!(
        spoiled(|p| {
            p.bands.pop();
        }),
        Err(Fault::Count { placed: 20, wanted: 23 })
    );
    assert_eq!(spoiled(|p| p.bands[1].per_row = 4), Err(Fault::Count { placed: 24, wanted: 23 }));
    assert_eq!(
        spoiled(|p| p.used += Length::from_um(1)),
        Err(Fault::Used { ends: mm(636), used: Length::from_um(636_001) })
    );
    // points all one way at a two-way pitch lie on each other
    assert_eq!(
        spoiled(|p| p.bands.iter_mut().for_each(|band| band.kind = RowKind::PlainOneWay)),
        Err(Fault::TooNear { piece: 1 })
    );
}

fn half_spoiled(good: &Plan, job: &Job, spoil: fn(&mut Plan, i64), by: i64) -> Result<(), Fault> {
    let mut plan = good.clone();
    spoil(&mut plan, by);
    validate(&plan, job)
}

fn outline(shape: Shape, detail_mm: i64) -> Outline {
    Outline { shape, width: mm(150), drop: mm(200), detail: mm(detail_mm), flat: mm(0) }
}

/// Pairs and blocks that are wrong by a little (derived: each is right to the
/// micrometre before).
#[test]
fn wrong_pairs_do_not_stand() {
    for shape in [outline(Shape::Swallowtail, 60), outline(Shape::Shield, 140), outline(Shape::Scallop, 75)] {
        for clearance_mm in [0, 4] {
            let job = Job { outline: shape, row_gap: mm(3), ..job(1_100, clearance_mm, 28) };
            let good = best(&job).expect("a plan");
            let first = good.bands[0];
            assert_eq!((first.kind, validate(&good, &job)), (RowKind::Facing, Ok(())), "{shape:?}");
            let spoiled = |spoil: fn(&mut Plan, i64), by: i64| {
                let mut plan = good.clone();
                spoil(&mut plan, by);
                validate(&plan, &job)
            };
            let head = u64::from(first.per_row - first.per_row / 2);
            let near = Err(Fault::RowTooNear { piece: head });
            // pairs nearer by a micrometre, either way of being told
            let nearer =
                |plan: &mut Plan, by: i64| plan.bands[0].row = plan.bands[0].row - Length::from_um(by);
            assert_eq!(spoiled(nearer, 1), near, "{shape:?} {clearance_mm}");
            let less = |plan: &mut Plan, by: i64| plan.bands[0].half_shift -= by;
            assert_eq!(spoiled(less, 100), near, "{shape:?} {clearance_mm}");
            assert_eq!(spoiled(less, first.half_shift), near, "{shape:?} {clearance_mm}");
            // far to the right the second row is out
            let out = spoiled(less, -first.half_slack - 2);
            assert!(matches!(out, Err(Fault::Outside { .. } | Fault::RowTooNear { .. })), "{out:?}");
            // one-way cloth holds no turned piece
            let one_way = Job { direction: Direction::OneWay, ..job };
            assert_eq!(validate(&good, &one_way), Err(Fault::Turned { piece: head }));
        }
    }
}

#[test]
fn wrong_blocks_do_not_stand() {
    let job = Job { direction: Direction::FourWay, ..job(1_370, 0, 200) };
    let good = best(&job).expect("a plan");
    assert_eq!(validate(&good, &job), Ok(()));
    let beside = good.bands.iter().position(|band| band.kind != RowKind::Sideways).expect("rows beside");
    let (columns, rows) = (&good.bands[0], &good.bands[beside]);
    assert!(columns.kind == RowKind::Sideways && rows.start == columns.start, "{good:?}");
    let spoiled = |spoil: &dyn Fn(&mut Plan)| {
        let mut plan = good.clone();
        spoil(&mut plan);
        validate(&plan, &job)
    };
    let head = good.bands[..beside].iter().map(|band| u64::from(band.rows * band.per_row)).sum();
    assert_eq!(spoiled(&|p| p.bands[0].half_pitch -= 1), Err(Fault::TooNear { piece: 1 }));
    assert_eq!(spoiled(&|p| p.bands[beside].half_left -= 1), Err(Fault::RowTooNear { piece: head }));
    let slack = rows.half_slack + 1;
    assert!(matches!(spoiled(&|p| p.bands[beside].half_left += slack), Err(Fault::Outside { .. })));
    let two_way = Job { direction: Direction::TwoWay, ..job };
    assert_eq!(validate(&good, &two_way), Err(Fault::Turned { piece: 0 }));

    // columns of five and of four side by side: half a micrometre nearer, and on its side
    // a piece among those that stand
    let part = Job { cloth_width: mm(1_350), pieces: 27, ..job };
    let good = best(&part).expect("a plan");
    let mut nearer = good.clone();
    nearer.bands[1].half_left -= 1;
    assert_eq!(validate(&nearer, &part), Err(Fault::RowTooNear { piece: 15 }));
    let mut turned = good;
    turned.bands[1].kind = RowKind::PlainTwoWay;
    assert!(validate(&turned, &part).is_err());
}

/// Swallowtails that lie in each other's notches although their outer edges are apart.
#[test]
fn a_point_in_a_notch_is_measured_by_its_edges() {
    let job = Job { outline: outline(Shape::Swallowtail, 60), ..job(235, 0, 2) };
    let pair = |half_shift, row| Band {
        kind: RowKind::Facing,
        rows: 1,
        per_row: 2,
        start: mm(0),
        row: mm(row),
        half_pitch: job.half_pitch(),
        half_slack: 0,
        half_left: 0,
        half_shift,
    };
    let held = |half_shift, row| {
        let plan = Plan {
            used: mm(row),
            bound: mm(0),
            bands: vec![pair(half_shift, row)],
            zero_tolerance: true,
            room: 0,
            steps: 2,
        };
        validate(&plan, &job)
    };
    // 400 − 2 · 60 · s / 150: a shift of 75 gains 60; further than that loses again
    assert_eq!(held(150_000, 340), Ok(()));
    assert_eq!(held(150_000, 339), Err(Fault::RowTooNear { piece: 1 }));
    assert_eq!(held(170_000, 340), Err(Fault::RowTooNear { piece: 1 }));
    assert_eq!(held(170_000, 348), Ok(()));
    assert_eq!(held(170_000, 347), Err(Fault::RowTooNear { piece: 1 }));
    assert_eq!(held(100_000, 360), Ok(()));
    assert_eq!(held(100_000, 359), Err(Fault::RowTooNear { piece: 1 }));
}
