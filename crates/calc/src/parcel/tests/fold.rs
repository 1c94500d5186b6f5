//! How strings fold.

use proptest::prelude::*;

use super::*;
use crate::fixture::um;
use crate::shop::Trimming;

fn folded(shop: &Shop, order: &Order, panels: u32, strings: u32) -> Fold {
    fold(shop, order, &layout(shop, order), panels, 1, strings)
}

/// Derived by hand: top 29 · (0.25 + 4 · 0.2) = 30.45, tails of 310 on a width of 190
/// twice two times 0.8 = 3.2; 33.65, with 30 % of air 43.745. Gaps of 24.643 turn beside it.
#[test]
fn the_story_folds_as_by_hand() {
    let shop = shop();
    let one = Fold {
        panels: 1,
        columns: 1,
        width: um(214_643),
        length: mm(210),
        thickness: um(43_745),
        rolled: false,
    };
    assert_eq!(folded(&shop, &story(), 1, 1), one);
    let two = Fold { panels: 2, length: mm(105), thickness: um(87_490), ..one };
    assert_eq!(folded(&shop, &story(), 2, 1), two);
    assert_eq!(folded(&shop, &story(), 4, 1).length, um(52_500));
    // up, never down
    assert_eq!(folded(&shop, &story(), 9, 1).length, um(23_334));
    // no panels are one panel
    assert_eq!(folded(&shop, &story(), 0, 1), one);
    assert_eq!(one.wrapped(&shop.folding), [um(234_643), mm(230), um(44_745)]);
    assert_eq!(two.wrapped(&shop.folding), [um(234_643), mm(125), um(88_490)]);
}

#[test]
fn the_thickness_follows_the_pennants_and_the_strings() {
    let shop = shop();
    let thick = |count, strings| folded(&shop, &counted_order(count), 1, strings).thickness;
    // 1.3 · (10 · 1.05 + 3.2) and twice the pennants
    assert_eq!((thick(10, 1), thick(20, 1)), (um(17_810), um(31_460)));
    assert_eq!(thick(10, 3), um(53_430));
    assert_eq!(thick(1, 1), um(5_525));
}

#[test]
fn the_thickest_cloth_counts_and_every_layer_of_it() {
    let mut shop = shop();
    shop.fabrics[1].thickness = um(1_000);
    let mut order = counted_order(10);
    // 1.3 · (10 · 1.8 + 3.2)
    assert_eq!(folded(&shop, &order, 1, 1).thickness, um(27_560));
    order.fabrics = vec![0, 2];
    assert_eq!(folded(&shop, &order, 1, 1).thickness, um(17_810));
    order.construction = Construction::DoubleTurned;
    // 1.3 · (10 · 1.3 + 3.2)
    assert_eq!(folded(&shop, &order, 1, 1).thickness, um(21_060));
    order.backing = Some(1);
    assert_eq!(folded(&shop, &order, 1, 1).thickness, um(40_560));
}

#[test]
fn trimmings_lie_once_on_every_pennant() {
    let mut shop = shop();
    let bead = |thickness| Trimming {
        code: String::from("bead"),
        name: String::from("Bead"),
        price: Money::ZERO,
        mass: Mass::ZERO,
        thickness: mm(thickness),
        part: crate::fixture::part(),
    };
    shop.trimmings = vec![bead(2), bead(5)];
    let mut order = counted_order(10);
    order.trimmings = vec![(0, 3)];
    // 1.3 · (13.7 + 20), however many on a pennant
    assert_eq!(folded(&shop, &order, 1, 1).thickness, um(43_810));
    order.trimmings = vec![(0, 3), (1, 1)];
    assert_eq!(folded(&shop, &order, 1, 1).thickness, um(82_810));
}

#[test]
fn letters_count_where_the_body_is_the_thicker() {
    let mut shop = shop();
    shop.fabrics[2].thickness = mm(3);
    let mut order = counted_order(10);
    order.fabrics = vec![0];
    // body 10 · 0.25 + 2 · 3 = 8.5 is below the top's 13.7
    order.letters = ["A", "B"].map(|letter| Some(letter.to_owned())).into_iter().chain([None]).collect();
    assert_eq!(folded(&shop, &order, 1, 1).thickness, um(17_810));
    order.letters = vec![Some(String::from("A")); 8];
    // 1.3 · (2.5 + 24)
    assert_eq!(folded(&shop, &order, 1, 1).thickness, um(34_450));
}

#[test]
fn a_web_counts_once_a_pennant() {
    let mut shop = shop();
    shop.methods[0].web = Some(1);
    let mut order = counted_order(10);
    order.fabrics = vec![0];
    assert_eq!(folded(&shop, &order, 1, 1).thickness, um(17_810 + 3_250));
}

#[test]
fn gaps_and_tails_are_folded_back_as_often_as_they_are_wide() {
    let shop = shop();
    let thick = |gap: i64, tail: i64| {
        let mut order = counted_order(10);
        (order.gap, order.gap_given) = (mm(gap), true);
        (order.tail, order.tail_given) = (mm(tail), true);
        folded(&shop, &order, 1, 1).thickness
    };
    // a gap of one width is the turn, a millimetre more lies once: 1.3 · 9 · 0.8
    assert_eq!(thick(190, 300), thick(0, 300));
    assert_eq!(thick(191, 300), thick(20, 300) + um(9_360));
    assert_eq!(thick(381, 300), thick(20, 300) + um(18_720));
    // overlaps take nothing away
    assert_eq!(thick(-5, 300), thick(0, 300));
    // a tail of 180 and its turn-under of 10 lie once: 1.3 · 2 · 0.8
    assert_eq!(thick(20, 180), thick(20, 300) - um(2_080));
    assert_eq!(thick(20, 181), thick(20, 300));
}

/// 4 / π of 43.745 · 210 is 11 696.551, its root 108.150 596: computed with π to 15 digits.
/// The ratio in the place of π makes it no more than 14 millionths larger.
#[test]
fn a_roll_keeps_the_area_of_its_section() {
    let shop = shop();
    let roll = |order: &Order| roll(&shop, order, &layout(&shop, order), 1);
    let story = roll(&story());
    assert!((108_151..=108_153).contains(&story.thickness.um()), "{}", story.thickness);
    assert_eq!((story.length, story.width, story.panels), (story.thickness, um(214_643), 1));
    let [a, b, c] = story.wrapped(&shop.folding);
    assert_eq!((a, b, c), (um(234_643), story.thickness + mm(1), story.thickness + mm(1)));
    // never thinner than the stack
    let many = roll(&counted_order(400));
    assert_eq!(many.thickness, folded(&shop, &counted_order(400), 1, 1).thickness);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn more_of_anything_is_never_thinner(
        count in 1_u32..300,
        strings in 1_u32..50,
        panels in 1_u32..8,
        ply in 0_i64..2_000,
        cloth in 0_i64..5_000,
        loft in 0_i64..200_000,
    ) {
        let mut shop = shop();
        shop.bindings[0].thickness = um(ply);
        shop.fabrics.iter_mut().for_each(|fabric| fabric.thickness = um(cloth));
        shop.folding.loft = Percent::from_milli(loft);
        let thick = |count, strings, panels| folded(&shop, &counted_order(count), panels, strings).thickness;
        let here = thick(count, strings, panels);
        prop_assert!(thick(count + 1, strings, panels) >= here);
        prop_assert!(thick(count, strings + 1, panels) >= here);
        prop_assert!(thick(count, strings, panels + 1) >= here);
        // no thinner than its cloth and its binding
        let least = i64::from(count * strings * panels) * (cloth + 4 * ply);
        prop_assert!(here.um() >= least);
        // twice as many panels are as thick as twice one, but for a rounding
        prop_assert!((thick(count, strings, 2 * panels).um() - 2 * here.um()).abs() <= 2);
    }
}
