//! Prints of which every piece shows the same part.

use super::*;

fn printed(across: i64, along: i64, job: Job) -> Job {
    Job { repeat: Repeat { across: mm(across), along: mm(along) }, direction: Direction::FourWay, ..job }
}

/// Pitches go up to whole repeats, and nothing is turned (derived): 190 + 10 is 256 at a
/// repeat of 64, so 4 fit 1100; rows of 210 start every 240 at a repeat of 80.
#[test]
fn pitches_are_whole_repeats() {
    let job = printed(64, 80, job(1_100, 10, 9));
    assert_eq!((job.per_row(), job.half_pitch(), job.row_pitch()), (4, 512_000, mm(240)));
    let plan = plan(&job).expect("a plan");
    assert_eq!((plan.used, plan.room), (mm(240 + 240 + 210), 3));
    assert!(plan.bands.iter().all(|band| band.kind == RowKind::PlainOneWay));
    assert_eq!(best(&job).as_ref(), Ok(&plan));
    assert_eq!((shortest(&job), length(&job)), (Some(plan.used), Some(plan.used)));
    let placed: Vec<_> = coordinates(&plan, &job).map(|p| (p.x2 / 2_000, p.y2 / 2_000, p.way)).collect();
    assert_eq!(placed[8], (0, 480, Way::Upright));
    assert_eq!(placed[7], (768, 240, Way::Upright));
    // a length of three rows, and a micrometre less
    assert_eq!((job.capacity(mm(690)), job.capacity(mm(690) - Length::from_um(1))), (12, 8));
}

/// A repeat one way only leaves the other pitch as it is, and still turns nothing.
#[test]
fn a_repeat_one_way_leaves_the_other() {
    let across = printed(64, 0, job(1_100, 10, 9));
    assert_eq!((across.half_pitch(), across.row_pitch()), (512_000, mm(210)));
    let along = printed(0, 80, job(1_100, 10, 9));
    assert_eq!((along.half_pitch(), along.row_pitch(), along.per_row()), (400_000, mm(240), 5));
    // as many repeats as it takes, exactly
    let exact = printed(200, 210, job(1_100, 10, 9));
    assert_eq!((exact.half_pitch(), exact.row_pitch()), (400_000, mm(210)));
    // a piece that would fit on its side only does not fit
    let wide = printed(64, 80, Job { outline: Outline::triangle(mm(500), mm(210)), ..job(450, 0, 5) });
    assert!(matches!(plan(&wide), Err(PlanError::TooWide(_))));
}

#[test]
fn a_piece_off_the_print_is_found() {
    let job = printed(64, 80, job(1_100, 10, 9));
    let good = plan(&job).expect("a plan");
    let spoiled = |spoil: fn(&mut Plan)| {
        let mut plan = good.clone();
        spoil(&mut plan);
        validate(&plan, &job)
    };
    assert_eq!(spoiled(|p| p.bands[0].half_pitch += 2), Err(Fault::OffPrint { piece: 1 }));
    let later = |p: &mut Plan| {
        p.bands[1].start += mm(1);
        p.used += mm(1);
    };
    assert_eq!(spoiled(later), Err(Fault::OffPrint { piece: 8 }));
    assert_eq!(spoiled(|p| p.bands[1].kind = RowKind::Sideways), Err(Fault::Turned { piece: 8 }));
}
