//! Beyond the caps of the exact searches.

use super::super::remnants::{Item, cover};
use super::*;

fn item(at: usize, most: u32, weight: i128) -> Item {
    Item { at, most, weight }
}

/// The worked example of the module: 6, 8, 10 and 12 pieces, weighing 5, 9, 4 and 7.
#[test]
fn the_fewest_remnants_of_the_least_weight() {
    let items = [item(0, 6, 5), item(1, 8, 9), item(2, 10, 4), item(3, 12, 7)];
    let chosen =
        |wanted| -> Vec<usize> { cover(&items, wanted, &mut 0).iter().map(|item| item.at).collect() };
    for (wanted, places) in [
        (0, vec![]),
        (6, vec![2]),
        (11, vec![3]),
        (18, vec![2, 3]),
        (23, vec![0, 2, 3]),
        (29, vec![1, 2, 3]),
        (36, vec![0, 1, 2, 3]),
        (99, vec![0, 1, 2, 3]),
    ] {
        assert_eq!(chosen(wanted), places, "{wanted}");
    }
}

/// 40 remnants of 1 000 to 1 039 pieces, and 30 500 wanted: 30 of the largest, 1 010 to
/// 1 039, give 30 735, and 29 of them 29 725. The last has to give 775: any does, and the
/// lightest is taken. Forty times 30 501 sums would be more than the cap.
#[test]
fn many_pieces_off_many_remnants_take_the_largest_first() {
    let items: Vec<Item> = (0..40).map(|at| item(at, 1_000 + u32::try_from(at).expect("few"), 40)).collect();
    let mut items = items;
    items[3].weight = 1;
    let mut steps = 0;
    let chosen = cover(&items, 30_500, &mut steps);
    let places: Vec<usize> = chosen.iter().map(|item| item.at).collect();
    assert_eq!(places, [3].into_iter().chain(11..40).collect::<Vec<_>>());
    assert!(steps <= 40, "{steps}");
    // one piece within the cap and one beyond it come to the same count
    for wanted in [4_760, 4_761, 4_762, 4_999, 5_000, 5_001] {
        let few = cover(&items, wanted, &mut 0);
        assert_eq!(few.len(), if wanted <= 4 * 1_039 - 6 { 4 } else { 5 }, "{wanted}");
    }
}

/// 70 bolts with two rows clear and one with three, in one lot: 47 take five rows, and two
/// cuts where one of them is the longer.
#[test]
fn many_short_bolts_take_the_longest_first() {
    let mut shelf: Vec<Stretch> = (0..70).map(|_| bolt(1, 1_100, 430)).collect();
    shelf.insert(33, bolt(1, 1_100, 640));
    let plan = found(&need(47, 1_100), &shelf);
    assert_eq!(takes(&plan), [(0, 17, 420), (33, 30, 630)]);
    // 100 rows are wanted and 143 there: one of three rows and 49 of two make 101
    let plan = found(&need(1_000, 1_100), &shelf);
    assert_eq!((plan.missing, plan.takes.len(), plan.new_cloth), (0, 50, mm(21_000)));
    let plan = found(&need(1_431, 1_100), &shelf);
    assert_eq!((plan.missing, plan.short, plan.takes.len()), (1, mm(210), 71));
}

/// Hundreds of bolts in lots of their own: the first that gives all of it.
#[test]
fn hundreds_of_bolts() {
    let shelf: Vec<Stretch> =
        (0..400).map(|lot| bolt(lot, 1_100, if lot < 300 { 400 } else { 9_000 })).collect();
    let plan = found(&charged_need(27, 1_100), &shelf);
    assert_eq!(takes(&plan), [(300, 27, 700)]);
    assert!(plan.steps < 40_000, "{}", plan.steps);
}
