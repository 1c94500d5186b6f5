//! Dye lots, and several needs of one fabric.

use super::*;
use crate::shop::Shape;

/// 27 take three rows. Lot 1 has a remnant of two rows and no bolt, lot 2 a bolt.
#[test]
fn one_dye_lot_comes_before_remnants() {
    let shelf = [remnant(1, 1_100, 450), bolt(2, 1_100, 9_000)];
    let plan = found(&need(27, 1_100), &shelf);
    assert_eq!((takes(&plan), plan.lots), (vec![(1, 27, 630)], 1));
    // with a bolt of its own lot the remnant is used
    let shelf = [bolt(2, 1_100, 9_000), remnant(1, 1_100, 450), bolt(1, 1_100, 250)];
    let plan = found(&need(27, 1_100), &shelf);
    assert_eq!((takes(&plan), plan.lots), (vec![(1, 20, 420), (2, 7, 210)], 1));
    // but not where that bolt does not give the rest: 37 take four rows, lot 1 has three
    let plan = found(&need(37, 1_100), &shelf);
    assert_eq!((takes(&plan), plan.lots), (vec![(0, 37, 840)], 1));
}

/// Three lots of one row, two rows and two rows; 37 take two lots where two are enough.
#[test]
fn as_few_lots_as_there_can_be() {
    let shelf = [remnant(1, 1_100, 210), bolt(2, 1_100, 420), remnant(3, 1_100, 420)];
    let plan = found(&need(37, 1_100), &shelf);
    assert_eq!((takes(&plan), plan.lots), (vec![(2, 20, 420), (1, 17, 420)], 2));
    let plan = found(&need(47, 1_100), &shelf);
    assert_eq!((takes(&plan), plan.lots), (vec![(0, 10, 210), (2, 20, 420), (1, 17, 420)], 3));
    let plan = found(&need(57, 1_100), &shelf);
    assert_eq!((plan.missing, plan.lots, plan.short), (7, 3, mm(210)));
}

/// Of lots that give everything, the one with the least new cloth, then the fewest cuts.
#[test]
fn the_lot_with_the_least_new_cloth() {
    let shelf = [
        bolt(1, 1_100, 9_000),
        bolt(2, 1_100, 9_000),
        remnant(2, 1_100, 250),
        remnant(3, 1_100, 250),
        remnant(3, 1_100, 650),
        remnant(4, 1_100, 700),
    ];
    let plan = found(&need(27, 1_100), &shelf);
    // lots 3 and 4 take no new cloth and one cut each; 650 is the smaller
    assert_eq!(takes(&plan), [(4, 27, 630)]);
    assert_eq!(takes(&found(&need(35, 1_100), &shelf)), [(3, 10, 210), (4, 25, 630)]);
    assert_eq!(takes(&found(&need(45, 1_100), &shelf)), [(2, 10, 210), (1, 35, 840)]);
    assert_eq!(takes(&found(&need(45, 1_100), &shelf[..1])), [(0, 45, 1_050)]);
}

/// Forty lots of a row each: far more sets of four than are tried, so the first that do.
#[test]
fn many_lots_stay_within_the_cap() {
    let shelf: Vec<Stretch> = (0..40).map(|lot| remnant(lot, 1_100, 250)).collect();
    let plan = found(&need(40, 1_100), &shelf);
    assert_eq!((plan.missing, plan.lots, plan.takes.len()), (0, 4, 4));
    assert!(plan.steps < 200_000, "{}", plan.steps);
    let plan = found(&need(401, 1_100), &shelf);
    assert_eq!((plan.missing, plan.lots), (1, 40));
}

/// The pennants would take the remnant of lot 1, and rectangles after them have to go to lot
/// 2. Together all of it comes off lot 2.
#[test]
fn several_needs_share_a_lot_where_one_does() {
    let outline = Outline { shape: Shape::Rectangle, ..need(1, 1_100).job.outline };
    let letters = Need { job: Job { outline, ..need(5, 1_100).job }, ..need(5, 1_100) };
    let pennants = need(27, 1_100);
    let shelf = [remnant(1, 1_100, 650), bolt(2, 1_100, 9_000)];
    let apart = found(&pennants, &shelf);
    assert_eq!(takes(&apart), [(0, 27, 630)]);
    assert_eq!(left(&shelf, &apart)[0].length, mm(20));
    let told = |shelf: &[Stretch]| -> Vec<_> {
        let both = plans(&[pennants, letters], shelf).expect("plans");
        both.iter().map(takes).collect()
    };
    assert_eq!(told(&shelf), [[(1, 27, 630)], [(1, 5, 210)]]);
    // where no lot does for both, each is cut as it is best for itself
    assert_eq!(told(&[shelf[0], bolt(2, 1_100, 250)]), [[(0, 27, 630)], [(1, 5, 210)]]);
    assert_eq!(plans(&[], &shelf), Ok(Vec::new()));
}
