//! Shelves worked by hand. Lengths in millimetres; the pennant is 190 by 210, two-way and
//! without clearance, so `1 + ⌊(width − 190) / 95⌋` lie in a row of 210.

mod caps;
mod kinds;
mod lengths;
mod lots;
mod properties;
mod useful;

use super::*;
use crate::cutting::{charged, length, validate};
use crate::fixture::{mm, um};
use crate::outline::Outline;
use crate::shop::{Direction, Repeat};

const NOUGHT: Percent = Percent::from_milli(0);

/// So many pennants on cloth of a width, cut to the micrometre, nothing squared or washed.
fn need(pieces: u32, width: i64) -> Need {
    let job = Job {
        cloth_width: mm(width),
        direction: Direction::TwoWay,
        outline: Outline::triangle(mm(190), mm(210)),
        clearance: mm(0),
        row_gap: mm(0),
        repeat: Repeat::default(),
        pieces,
    };
    Need {
        job,
        lay: Lay::Flat,
        charged: length(&job).unwrap_or(Length::ZERO),
        sold: Sold::Bolt { step: mm(0) },
        squaring: mm(0),
        start: mm(0),
        shrink_across: NOUGHT,
        shrink_along: NOUGHT,
    }
}

/// The same as the fixture's shop charges it: 20 of squaring, in steps of 100.
fn charged_need(pieces: u32, width: i64) -> Need {
    let need = need(pieces, width);
    let charged = charged(need.charged, mm(20), mm(100));
    Need { charged, squaring: mm(20), sold: Sold::Bolt { step: mm(100) }, ..need }
}

fn remnant(lot: usize, width: i64, length: i64) -> Stretch {
    Stretch { piece: 0, lot, remnant: true, width: mm(width), length: mm(length) }
}

fn bolt(lot: usize, width: i64, length: i64) -> Stretch {
    Stretch { remnant: false, ..remnant(lot, width, length) }
}

/// Plans, and holds the plan against everything that has to hold for any.
fn found(need: &Need, shelf: &[Stretch]) -> ShelfPlan {
    let found = plan(need, shelf).expect("a plan");
    let mut touched: Vec<usize> = found.takes.iter().map(|take| take.stretch).collect();
    touched.sort_unstable();
    touched.dedup();
    assert_eq!(touched.len(), found.takes.len(), "a stretch is cut into once");
    let mut new = Length::ZERO;
    let mut lots = Vec::new();
    for take in &found.takes {
        let stretch = &shelf[take.stretch];
        assert!(Length::ZERO < take.length && take.length <= stretch.length, "{take:?} of {stretch:?}");
        assert_eq!(take.whole, take.length == stretch.length);
        assert_eq!(validate(&take.plan, &take.job), Ok(()));
        assert_eq!(take.pieces, take.job.pieces * take.lay.layers());
        assert_eq!(Job { cloth_width: mm(0), pieces: 0, ..take.job }, {
            Job { cloth_width: mm(0), pieces: 0, ..need.job }
        });
        // what the layers cover is there once the cloth is washed and squared
        let wide = washed(stretch.width, need.shrink_across) - need.start;
        let folded = if take.lay == Lay::FoldedAcross { 2 } else { 1 };
        assert!(take.job.cloth_width * folded <= wide);
        let spread = if take.lay == Lay::FoldedAcross { 1 } else { i64::from(take.lay.layers()) };
        let there = washed(take.length - need.squaring, need.shrink_along);
        assert!(take.plan.used * spread + need.job.repeat.along <= there, "{take:?}");
        if !stretch.remnant {
            new += take.length;
        }
        lots.push(stretch.lot);
    }
    lots.sort_unstable();
    lots.dedup();
    assert_eq!((found.lots, found.new_cloth), (lots.len(), new));
    assert!(new <= need.charged.max(Length::ZERO), "{new} of new cloth, {} charged", need.charged);
    let pieces: u32 = found.takes.iter().map(|take| take.pieces).sum();
    assert!(pieces + found.missing >= need.job.pieces);
    assert!(found.missing == 0 || pieces + found.missing == need.job.pieces || need.lay != Lay::Flat);
    // more than are wanted come of layers alone
    let flat = found.takes.iter().all(|take| take.lay == Lay::Flat);
    assert!(!flat || pieces <= need.job.pieces, "{pieces} of {}: {found:?}", need.job.pieces);
    // a piece that a full bolt is too narrow for makes no length of it short
    let fits = length(&Job { pieces: 1, ..need.job }).is_some();
    assert_eq!(found.missing > 0 && fits, found.short > Length::ZERO);
    assert!(found.over.is_none_or(|over| over > Length::ZERO && found.missing > 0));
    found
}

/// Stretch, pieces and millimetres of each take.
fn takes(plan: &ShelfPlan) -> Vec<(usize, u32, i64)> {
    plan.takes.iter().map(|take| (take.stretch, take.pieces, take.length.um() / 1_000)).collect()
}

/// 27 on cloth of 1 100: ten to a row. The remnant of 450 holds two rows.
#[test]
fn a_remnant_comes_before_the_bolt() {
    let shelf = [bolt(1, 1_100, 20_000), remnant(1, 1_100, 450)];
    let plan = found(&need(27, 1_100), &shelf);
    assert_eq!(takes(&plan), [(1, 20, 420), (0, 7, 210)]);
    assert_eq!((plan.missing, plan.lots, plan.new_cloth), (0, 1, mm(210)));
    // squared by 20 and cut in steps of 100: 440 of the remnant, 230 and so 300 of the bolt
    let plan = found(&charged_need(27, 1_100), &shelf);
    assert_eq!(takes(&plan), [(1, 20, 440), (0, 7, 300)]);
    assert_eq!((plan.new_cloth, plan.charged), (mm(300), mm(700)));
    // a millimetre short of two rows, it holds one; 17 take two rows of the bolt
    let shelf = [bolt(1, 1_100, 20_000), remnant(1, 1_100, 439)];
    assert_eq!(takes(&found(&charged_need(27, 1_100), &shelf)), [(1, 10, 230), (0, 17, 500)]);
}

/// Need, remnants (width, length), width of the bolt, then new cloth and stretches cut into.
/// Optima proved with a general constraint solver over the same capacities of plain rows.
#[test]
fn the_least_new_cloth_and_the_fewest_stretches() {
    let five: &[(i64, i64)] = &[(457, 533), (300, 900), (1_100, 400), (700, 500), (500, 1_100)];
    let exactly: &[(i64, i64)] = &[(1_100, 230), (1_100, 430), (600, 640)];
    let quarters: &[(i64, i64)] = &[(457, 533), (457, 533), (457, 533), (1_100, 215)];
    let six: &[(i64, i64)] =
        &[(500, 1_100), (500, 1_100), (1_100, 640), (300, 900), (700, 500), (1_100, 900)];
    for (pieces, remnants, width, new, touched) in [
        (60, five, 1_100, 210, 5),
        (45, exactly, 1_350, 0, 3),
        (27, quarters, 1_370, 0, 4),
        (100, six, 1_100, 0, 4),
    ] {
        let mut shelf: Vec<Stretch> = remnants.iter().map(|(w, l)| remnant(1, *w, *l)).collect();
        shelf.push(bolt(1, width, 30_000));
        let plan = found(&need(pieces, width), &shelf);
        assert_eq!((plan.new_cloth, plan.takes.len(), plan.missing), (mm(new), touched, 0), "{pieces}");
    }
}

/// A remnant of one row does not save a step of the bolt: 11 take two rows, one off the
/// remnant would save a row, nine would not. And no remnant is cut into that saves nothing.
#[test]
fn a_remnant_that_saves_no_new_cloth_stays_whole() {
    // two of them side by side hold one each; 21 take three rows, 20 take two
    let shelf = [bolt(1, 1_100, 20_000), remnant(1, 190, 210), remnant(1, 190, 210)];
    let plan = found(&need(21, 1_100), &shelf);
    assert_eq!(takes(&plan), [(1, 1, 210), (0, 20, 420)]);
    let plan = found(&need(19, 1_100), &shelf);
    assert_eq!(takes(&plan), [(0, 19, 420)]);
}

/// 12 wanted, four remnants hold 20, 14, 13 and 13: one does, so one is taken, and the
/// smallest by area. Then 26: two, 13 and 13.
#[test]
fn the_larger_remnant_stays_whole() {
    // 1 + (widths − 190) / 95 in a row, one row each: 20, 14, 13, 13
    let shelf =
        [remnant(1, 1_995, 215), remnant(1, 1_425, 215), remnant(1, 1_330, 230), remnant(1, 1_330, 220)];
    assert_eq!(takes(&found(&need(12, 1_100), &shelf)), [(3, 12, 210)]);
    assert_eq!(takes(&found(&need(26, 1_100), &shelf)), [(2, 13, 210), (3, 13, 210)]);
    // of equal ones the first
    let shelf = [remnant(1, 1_330, 220), remnant(1, 1_330, 220)];
    assert_eq!(takes(&found(&need(12, 1_100), &shelf)), [(0, 12, 210)]);
}

/// Of two remnants with 20 and 30 pieces 41 are wanted. Cutting the long one short by nine
/// would leave it nothing to cut from; for 40 it keeps a row.
#[test]
fn one_remnant_is_cut_short_where_that_keeps_a_row() {
    let shelf = [remnant(1, 1_100, 440), remnant(1, 1_100, 650)];
    assert_eq!(takes(&found(&need(41, 1_100), &shelf)), [(0, 20, 420), (1, 21, 630)]);
    // each keeps a row of ten if it is cut short: 440 − 210 = 230 or 650 − 420 = 230; the first
    assert_eq!(takes(&found(&need(40, 1_100), &shelf)), [(0, 10, 210), (1, 30, 630)]);
    // 31 off two of 650, three rows of ten each: a row off the one, and 21 off the other, not thirty
    let shelf = [remnant(1, 1_100, 650), remnant(1, 1_100, 650)];
    assert_eq!(takes(&found(&need(31, 1_100), &shelf)), [(0, 10, 210), (1, 21, 630)]);
}

/// Nothing wanted, nothing there, too narrow, too short.
#[test]
fn what_is_not_there_is_missing() {
    assert_eq!(takes(&found(&need(0, 1_100), &[bolt(1, 1_100, 900)])), []);
    let plan = found(&charged_need(27, 1_100), &[]);
    assert_eq!((plan.missing, plan.short, plan.over, plan.lots), (27, mm(700), None, 0));
    // 189 is narrower than the pennant, 229 shorter than a row and its squaring
    let shelf = [bolt(1, 189, 9_000), remnant(1, 1_100, 229), bolt(1, 1_100, 0), bolt(1, 1_100, -5)];
    let plan = found(&charged_need(27, 1_100), &shelf);
    assert_eq!((plan.missing, takes(&plan)), (27, Vec::new()));
    // a row off 230, all of it: the other 17 take two rows of a full bolt, 440 and so 500
    let plan = found(&charged_need(27, 1_100), &[bolt(1, 1_100, 230)]);
    assert_eq!((takes(&plan), plan.missing, plan.short), (vec![(0, 10, 230)], 17, mm(500)));
    assert!(plan.takes[0].whole);
}

/// Two bolts with 430 and 230 clear, 20 of squaring off each end: 27 take three rows, 700
/// charged. In steps 430 and 230 are all there is, 660.
#[test]
fn several_bolts_where_one_is_too_short() {
    let shelf = [bolt(1, 1_100, 440), bolt(1, 1_100, 230)];
    let plan = found(&charged_need(27, 1_100), &shelf);
    assert_eq!((takes(&plan), plan.missing), (vec![(0, 20, 440), (1, 7, 230)], 0));
    // 40 are charged 900. In steps 3 rows take 700 and one 300: 1 000. To the micrometre
    // 650 and 230
    let shelf = [bolt(1, 1_100, 800), bolt(1, 1_100, 800)];
    let plan = found(&charged_need(40, 1_100), &shelf);
    assert_eq!((plan.missing, plan.new_cloth), (0, mm(880)));
    // squared by 40, three rows and one take 670 and 250, 20 more than the 880 that one
    // length would: the charge of 900 is passed, and that is said
    let need = Need { squaring: mm(40), ..charged_need(40, 1_100) };
    let plan = found(&need, &shelf);
    assert_eq!((plan.missing, plan.over, plan.short), (10, Some(mm(20)), mm(300)));
}
