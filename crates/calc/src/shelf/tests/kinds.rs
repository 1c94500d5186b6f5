//! Cloth that is washed, printed, folded or bought in pieces; needs of a quote.

use super::*;
use crate::cutting::{Role, cloth, shortest, whole_repeats};
use crate::fixture::{order, shop};
use crate::order::Order;
use crate::outline::Finished;
use crate::shop::{Construction, Driver, Shape, Shop};

fn uses(shop: &Shop, order: &Order, hung: &[(usize, u32)]) -> Vec<ClothUse> {
    let finished = Finished { shape: Shape::Triangle, width: mm(190), drop: mm(210), detail: mm(0) };
    cloth(shop, order, &finished, hung).expect("cloth")
}

/// 5 % off each way: 1 100 are 1 045, ten to a row still; 443 are 420.85 and hold two rows,
/// 442 are 419.9 and hold one. Two rows are `420 / 0.95 = 442.106` as they lie.
#[test]
fn the_shelf_is_as_bought_and_the_plan_as_washed() {
    let five = Percent::from_milli(5_000);
    let job = Job { cloth_width: mm(1_045), ..need(27, 1_100).job };
    let need = Need { job, shrink_across: five, shrink_along: five, charged: um(663_158), ..need(27, 1_100) };
    let shelf = [remnant(1, 1_100, 443), bolt(1, 1_100, 9_000)];
    let plan = found(&need, &shelf);
    assert_eq!(plan.takes[0].length, um(442_106));
    assert_eq!((plan.takes[0].pieces, plan.takes[1].pieces, plan.new_cloth), (20, 7, um(221_053)));
    let shelf = [remnant(1, 1_100, 442), bolt(1, 1_100, 9_000)];
    let plan = found(&need, &shelf);
    assert_eq!((plan.takes[0].pieces, plan.takes[1].pieces), (10, 17));
    // a millimetre narrower is 1 044.05 once washed, and nine to a row
    let plan = found(&need, &[remnant(1, 1_099, 443)]);
    assert_eq!((plan.takes[0].pieces, plan.missing), (18, 9));
}

/// A print that repeats after 240 along: each row takes 240, and one repeat goes to find
/// its start. A remnant of 690 holds `1 + ⌊(690 − 240 − 210) / 240⌋ = 2` rows of five, a bolt
/// is cut in whole repeats and one more: 480 for a row.
#[test]
fn a_print_costs_a_repeat_on_every_stretch() {
    let print = Repeat { across: mm(0), along: mm(240) };
    let job = Job { repeat: print, direction: Direction::OneWay, ..need(14, 1_100).job };
    let need = Need { job, charged: whole_repeats(mm(690), mm(240)) + mm(240), ..need(14, 1_100) };
    assert_eq!(need.charged, mm(960));
    let plan = found(&need, &[bolt(1, 1_100, 5_000), remnant(1, 1_100, 690)]);
    assert_eq!(takes(&plan), [(1, 10, 690), (0, 4, 480)]);
    let plan = found(&need, &[bolt(1, 1_100, 5_000), remnant(1, 1_100, 689)]);
    assert_eq!(takes(&plan), [(1, 5, 450), (0, 9, 720)]);
    // centred across after 160: 300 of the 460 are left, and a row of them holds one
    let centred = Repeat { across: mm(160), along: mm(240) };
    let job = Job { repeat: centred, cloth_width: mm(940), ..job };
    let need = Need { job, start: mm(160), ..need };
    assert_eq!(takes(&found(&need, &[remnant(1, 460, 690)])), [(0, 2, 690)]);
}

/// Folded across, half of 1 100 holds four: eight a row and not ten. What takes less cloth
/// is taken, and of equal ones the fold of the quote.
#[test]
fn a_bolt_is_cut_as_the_quote_lays_it_where_that_takes_no_more() {
    let folded =
        |pieces, charged| Need { lay: Lay::FoldedAcross, charged: mm(charged), ..need(pieces, 1_100) };
    let shelf = [remnant(1, 1_100, 215), bolt(1, 1_100, 9_000)];
    let plan = found(&folded(8, 210), &shelf[1..]);
    assert_eq!((takes(&plan), plan.takes[0].lay), (vec![(0, 8, 210)], Lay::FoldedAcross));
    assert_eq!((plan.takes[0].job.pieces, plan.takes[0].job.cloth_width), (4, mm(550)));
    // 17 would take three rows folded and two flat
    let plan = found(&folded(17, 630), &shelf[1..]);
    assert_eq!((takes(&plan), plan.takes[0].lay), (vec![(0, 17, 420)], Lay::Flat));
    // off the remnant they lie flat, and an odd number off a fold gives one more
    let plan = found(&folded(17, 630), &shelf);
    assert_eq!(takes(&plan), [(0, 10, 210), (1, 8, 210)]);
    assert_eq!((plan.takes[0].lay, plan.takes[1].lay), (Lay::Flat, Lay::FoldedAcross));
    // three lengths stacked for seven: three outlines in a row, three rows; flat takes one
    let stacked = Need { lay: Lay::Stacked(3), charged: mm(630), ..need(7, 1_100) };
    assert_eq!(takes(&found(&stacked, &shelf[1..])), [(0, 7, 210)]);
    // thirty take a row a layer, as many as lying flat
    let stacked = Need { job: Job { pieces: 30, ..stacked.job }, ..stacked };
    let plan = found(&stacked, &shelf[1..]);
    assert_eq!((takes(&plan), plan.takes[0].lay), (vec![(0, 30, 630)], Lay::Stacked(3)));
}

/// Fat quarters of 560 by 500: four to a row, two rows, eight each. 20 take three. A new one
/// is taken whole; what is left of one that was cut is a remnant.
#[test]
fn new_bought_pieces_are_taken_whole() {
    let quarters = Need { sold: Sold::Pieces { length: mm(500) }, charged: mm(1_500), ..need(20, 560) };
    let shelf = [bolt(1, 560, 500), remnant(1, 560, 290), bolt(1, 560, 500), bolt(1, 560, 500)];
    let plan = found(&quarters, &shelf);
    assert_eq!(takes(&plan), [(1, 4, 210), (0, 8, 500), (2, 8, 500)]);
    assert_eq!((plan.new_cloth, plan.missing), (mm(1_000), 0));
    assert!(plan.takes[1].whole);
    // 21 take three in any case: the remnant saves none of them and stays whole
    let needs = Need { job: Job { pieces: 21, ..quarters.job }, ..quarters };
    let plan = found(&needs, &shelf);
    assert_eq!((plan.new_cloth, plan.takes.len()), (mm(1_500), 3));
    // two more than there are
    let needs = Need { job: Job { pieces: 30, ..quarters.job }, charged: mm(2_000), ..quarters };
    let plan = found(&needs, &shelf);
    assert_eq!((plan.missing, plan.short, plan.over), (2, mm(500), None));
    // 18 missing are three new ones, the last of them for two pieces
    let needs = Need { job: Job { pieces: 46, ..quarters.job }, charged: mm(3_000), ..quarters };
    assert_eq!(found(&needs, &shelf).short, mm(1_500));
}

/// On felt, where pieces turn by a quarter, and of shapes that face each other, a stretch
/// holds what the shortest plan of the cutting search gets on it.
#[test]
fn a_stretch_holds_what_its_shortest_plan_does() {
    for (shape, detail) in [(Shape::Triangle, 0), (Shape::Swallowtail, 60), (Shape::Scallop, 50)] {
        for direction in [Direction::OneWay, Direction::TwoWay, Direction::FourWay] {
            let outline = Outline { shape, detail: mm(detail), ..need(1, 1_100).job.outline };
            let job = Job { direction, outline, ..need(100, 1_100).job };
            let all = Need { job, charged: length(&job).expect("it fits"), ..need(100, 1_100) };
            let plan = found(&all, &[remnant(1, 730, 815)]);
            let holds = plan.takes[0].pieces;
            let used = |pieces| shortest(&Job { pieces, cloth_width: mm(730), ..job }).expect("it fits");
            assert!(used(holds) <= mm(815) && used(holds + 1) > mm(815), "{shape:?} {direction:?} {holds}");
        }
    }
}

/// Pennants, letters and web of an order, each off new cloth with exactly what is charged: the
/// quote's own plan, whatever the lay, the wash and the print.
#[test]
fn a_bolt_with_what_is_charged_gives_what_a_quote_needs() {
    let mut shop = shop();
    shop.cloth.spares = Percent::from_milli(5_000);
    shop.fabrics[0].shrink_across = Percent::from_milli(3_000);
    shop.fabrics[0].shrink_along = Percent::from_milli(5_000);
    shop.fabrics[1].repeat = Repeat { across: mm(160), along: mm(240) };
    shop.fabrics[1].centred = true;
    shop.fabrics[2].sold = Sold::Pieces { length: mm(500) };
    shop.methods[1].lays = vec![Lay::Flat, Lay::FoldedAcross, Lay::FoldedAlong, Lay::Stacked(4)];
    shop.methods[1].web = Some(0);
    // an outline takes time, so that folding saves some
    let mut outline = shop.bench.operations[0].clone();
    outline.driver = Driver::Outline;
    shop.bench.operations.push(outline);
    let mut order = order();
    order.construction = Construction::DoubleTurned;
    order.letters = vec![Some(String::from("A")); 9];
    let mut met = Vec::new();
    for count in [1, 7, 29, 200] {
        for used in uses(&shop, &order, &[(0, count), (1, count), (2, count)]) {
            let need = Need::new(&shop, &used).expect("a need");
            let fabric = &shop.fabrics[used.fabric];
            let stretch = |length| Stretch { width: fabric.usable_width, length, ..bolt(0, 0, 0) };
            let (count_of, one) = used.bought.map_or((1, used.charged), |bought| (bought.count, mm(500)));
            let shelf = vec![stretch(one); usize::try_from(count_of).expect("few")];
            let plan = found(&need, &shelf);
            assert_eq!((plan.missing, plan.lots), (0, 1), "{used:?}");
            let given: u32 = plan.takes.iter().map(|take| take.pieces).sum();
            assert!(given >= used.pieces + spares(used.pieces, shop.cloth.spares));
            // and what no plan gets below, less a micrometre, is too little
            let less = stretch(used.bound - um(1));
            assert!(used.bought.is_some() || found(&need, &[less]).missing > 0, "{used:?}");
            met.push((used.role, used.lay));
        }
    }
    for role in [Role::Pennants, Role::Letters, Role::Web] {
        assert!(met.iter().any(|(other, _)| *other == role), "{role:?}");
    }
    assert!(met.iter().any(|(_, lay)| *lay != Lay::Flat), "{met:?}");
    let nowhere = ClothUse { fabric: 9, ..uses(&shop, &order, &[(0, 1)])[0].clone() };
    assert_eq!(Need::new(&shop, &nowhere), None);
}
