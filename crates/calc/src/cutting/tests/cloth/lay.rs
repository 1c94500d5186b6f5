//! Which way the cloth lies.

use pennantry_measure::{BenchTime, Rate};
use proptest::prelude::*;

use super::super::super::*;
use crate::fixture::{mm, order, shop, um};
use crate::order::Order;
use crate::outline::Finished;
use crate::shop::{Construction, Driver, Lay, Operation, Repeat, Shape, Shop, Sold};

fn operation(driver: Driver, milli: i64) -> Operation {
    Operation {
        code: String::from("cut"),
        name: String::from("Cut"),
        constructions: Vec::new(),
        driver,
        time: BenchTime::from_milli_minutes(milli),
        learning: None,
    }
}

/// Cloth of 1 400 without clearance, squaring and spares, cut off to 10 cm.
fn wide(lays: &[Lay], outline_milli: i64, layer_milli: i64) -> Shop {
    let mut shop = shop();
    shop.fabrics[0].usable_width = mm(1_400);
    shop.methods[0].clearance = mm(0);
    shop.methods[0].lays = lays.to_vec();
    shop.cloth.squaring = mm(0);
    shop.bench.operations = vec![
        operation(Driver::Outline, outline_milli),
        operation(Driver::Layer, layer_milli),
        // not for cutting
        operation(Driver::Piece, 60_000),
    ];
    shop
}

fn taken(shop: &Shop, order: &Order, pieces: u32) -> ClothUse {
    let finished = Finished { shape: Shape::Triangle, width: mm(190), drop: mm(210), detail: mm(0) };
    cloth(shop, order, &finished, &[(0, pieces)]).expect("cloth").swap_remove(0)
}

fn lay(shop: &Shop, pieces: u32) -> Lay {
    taken(shop, &order(), pieces).lay
}

const BOTH: [Lay; 2] = [Lay::Flat, Lay::FoldedAcross];

/// 20 pieces take 420 mm flat and folded, so 500 mm either way. Folding saves ten outlines and
/// spreads one layer more. At 15.00 an hour and 8.00 a metre 50 mm are worth 1.6 minutes,
/// far more than 1 % of the cost (derived).
#[test]
fn a_fold_has_to_save_more_than_50_mm_are_worth() {
    let saved = |milli: i64| wide(&BOTH, 200, 2_000 - milli);
    assert_eq!(lay(&saved(1_600), 20), Lay::Flat, "as much as 50 mm are worth is not more");
    let folded = taken(&saved(1_601), &order(), 20);
    assert_eq!((folded.lay, folded.layers, folded.outlines), (Lay::FoldedAcross, 2, 10));
    assert_eq!((folded.used, folded.charged, folded.job.cloth_width), (mm(420), mm(500), mm(700)));
    // what 50 mm are worth grows with the price of the cloth
    let mut dear = saved(1_601);
    dear.fabrics[0].price = Rate::from_micro_minor(800_499_999);
    assert_eq!(lay(&dear, 20), Lay::FoldedAcross);
    dear.fabrics[0].price = Rate::from_micro_minor(800_500_000);
    assert_eq!(lay(&dear, 20), Lay::Flat);
}

/// With cloth for nothing 1 % of the cost counts: 20 t + u flat against 10 t + 2 u, and
/// 3 000 thousandths of a minute against 2 970 is 1 % exactly (derived).
#[test]
fn a_fold_has_to_save_more_than_a_hundredth_of_the_cost() {
    let free = |layer_milli: i64| {
        let mut shop = wide(&BOTH, 101, layer_milli);
        shop.fabrics[0].price = Rate::from_micro_minor(0);
        shop
    };
    assert_eq!(lay(&free(980), 20), Lay::Flat);
    assert_eq!(lay(&free(979), 20), Lay::FoldedAcross);
    // nothing costs anything: the simplest
    let mut idle = free(0);
    idle.bench.wage = Rate::from_micro_minor(0);
    assert_eq!(lay(&idle, 20), Lay::Flat);
}

/// A fold that takes more cloth has to save as much more time (derived).
#[test]
fn cloth_counts_as_well_as_time() {
    // 1 045 holds ten flat and four on half of it: 10 pieces take 210 mm flat, 420 folded
    let narrow = |outline_milli| {
        let mut shop = wide(&BOTH, outline_milli, 0);
        shop.fabrics[0].usable_width = mm(1_045);
        shop.fabrics[0].sold = Sold::Bolt { step: mm(0) };
        taken(&shop, &order(), 10)
    };
    // 210 mm more at 8.00 a metre are 1.68: five outlines saved at 15.00 an hour have to be worth
    // that and 0.40 more, 2.08 or 1.664 minutes each
    assert_eq!((narrow(1_664).lay, narrow(1_664).charged), (Lay::Flat, mm(210)));
    assert_eq!((narrow(1_665).lay, narrow(1_665).charged), (Lay::FoldedAcross, mm(420)));
}

/// Each lay is held against the best before it, not against the first.
#[test]
fn a_third_lay_is_held_against_the_second() {
    let lays = [Lay::Flat, Lay::FoldedAlong, Lay::Stacked(3)];
    // 39 pieces: 630 mm flat, 39 outlines; 2 x 420 folded along, 20 outlines; 3 x 210 stacked, 13
    let of = |lays: &[Lay], milli| {
        let mut shop = wide(lays, milli, 0);
        shop.fabrics[0].price = Rate::from_micro_minor(8_000_000);
        lay(&shop, 39)
    };
    assert_eq!(of(&lays, 1_000), Lay::Stacked(3));
    // twice the time an outline for a stack's seven fewer outlines, spread over two more layers
    let mut slow = wide(&lays, 1_000, 5_000);
    slow.fabrics[0].price = Rate::from_micro_minor(8_000_000);
    // 39 + 5, 20 + 10, 13 + 15 minutes: 14 saved, then 2 more of 30
    assert_eq!(lay(&slow, 39), Lay::Stacked(3));
    slow.bench.operations[1].time = BenchTime::from_milli_minutes(6_900);
    // 45.9, 33.8, 33.7: the stack saves a tenth of a minute of the fold, 12 of lying flat
    assert_eq!(lay(&slow, 39), Lay::FoldedAlong);
    slow.methods[0].lays.remove(1);
    assert_eq!(lay(&slow, 39), Lay::Stacked(3));
    // and the simpler one comes first in the shop's list, whatever it is
    assert_eq!(of(&[Lay::Stacked(3), Lay::Flat], 0), Lay::Stacked(3));
}

#[test]
fn a_lay_that_cannot_be_is_left_out() {
    let of = |lay: Lay, change: &dyn Fn(&mut Shop)| {
        let mut shop = wide(&[lay], 1_000, 0);
        change(&mut shop);
        taken(&shop, &order(), 20).lay
    };
    let repeat = |across, along| {
        move |shop: &mut Shop| shop.fabrics[0].repeat = Repeat { across: mm(across), along: mm(along) }
    };
    let one_way = |shop: &mut Shop| shop.fabrics[0].direction = Direction::OneWay;
    let four_way = |shop: &mut Shop| shop.fabrics[0].direction = Direction::FourWay;
    // end to end turns the lower layer upside down
    assert_eq!(of(Lay::FoldedAlong, &|_| {}), Lay::FoldedAlong);
    assert_eq!(of(Lay::FoldedAlong, &four_way), Lay::FoldedAlong);
    assert_eq!(of(Lay::FoldedAlong, &one_way), Lay::Flat);
    assert_eq!(of(Lay::FoldedAlong, &repeat(0, 50)), Lay::Flat);
    assert_eq!(of(Lay::FoldedAlong, &repeat(50, 0)), Lay::Flat);
    // selvedge to selvedge keeps both upright, and mirrors a print across
    assert_eq!(of(Lay::FoldedAcross, &one_way), Lay::FoldedAcross);
    assert_eq!(of(Lay::FoldedAcross, &repeat(0, 50)), Lay::FoldedAcross);
    assert_eq!(of(Lay::FoldedAcross, &repeat(50, 0)), Lay::Flat);
    // half of the cloth is too narrow, by a micrometre
    let width = |width| move |shop: &mut Shop| shop.fabrics[0].usable_width = width;
    assert_eq!(of(Lay::FoldedAcross, &width(mm(380))), Lay::FoldedAcross);
    assert_eq!(of(Lay::FoldedAcross, &width(um(379_999))), Lay::Flat);
    // a stack of more layers than pieces
    assert_eq!(of(Lay::Stacked(20), &repeat(50, 50)), Lay::Stacked(20));
    assert_eq!(of(Lay::Stacked(21), &|_| {}), Lay::Flat);
    assert_eq!(of(Lay::Stacked(u32::MAX), &|_| {}), Lay::Flat);
}

/// Ten fronts and ten backs and one spare: off a fold it takes its pair along.
#[test]
fn spares_fill_the_last_outline_of_a_lay() {
    let mut shop = wide(&[Lay::Flat], 0, 0);
    shop.methods[1].lays = vec![Lay::FoldedAcross];
    shop.cloth.spares = Percent::from_milli(5_000);
    let double = Order { construction: Construction::DoubleTurned, ..order() };
    let folded = taken(&shop, &double, 10);
    assert_eq!((folded.pieces, folded.outlines, folded.spares), (20, 11, 2));
    assert_eq!((folded.job.pieces, folded.plan.steps), (11, 11));
    shop.methods[1].lays = vec![Lay::Flat];
    let flat = taken(&shop, &double, 10);
    assert_eq!((flat.pieces, flat.outlines, flat.spares), (20, 21, 1));
    shop.methods[1].lays = vec![Lay::Stacked(4)];
    let stacked = taken(&shop, &double, 10);
    assert_eq!((stacked.outlines, stacked.layers, stacked.spares), (6, 4, 4));
}

/// A repeat along: one more to find the start, and each length in whole ones. Washed, a
/// repeat shrinks with its cloth.
#[test]
fn a_repeat_takes_one_more() {
    let mut shop = wide(&[Lay::Stacked(2)], 0, 0);
    shop.fabrics[0].sold = Sold::Bolt { step: mm(0) };
    shop.fabrics[0].repeat.along = mm(64);
    // seven upright in a row of each layer; 210 is 256 in whole repeats, twice, and one
    let kept = taken(&shop, &order(), 14);
    assert_eq!((kept.used, kept.charged), (mm(420), mm(2 * 256 + 64)));
    shop.fabrics[0].shrink_along = Percent::from_milli(10_000);
    // 57.6 four times are 230.4: the same 576 bought
    let washed = taken(&shop, &order(), 14);
    assert_eq!((washed.used, washed.charged), (mm(420), mm(576)));
    shop.fabrics[0].repeat = Repeat { across: mm(64), along: mm(0) };
    assert_eq!(taken(&shop, &order(), 14).charged, um(466_667));
}

/// A print that is centred may begin anywhere across the cloth: up to a repeat of the width
/// lies before its first middle. 1 400 less 64 is 1 336: at a pitch of 192 six upright, and
/// seven where it need only be the same on all (derived).
#[test]
fn a_print_that_is_centred_takes_up_to_a_repeat_of_the_width() {
    let mut shop = wide(&[Lay::Flat], 0, 0);
    shop.fabrics[0].repeat = Repeat { across: mm(64), along: mm(0) };
    let rows = |shop: &Shop| {
        let used = taken(shop, &order(), 14);
        (used.job.cloth_width, used.used)
    };
    assert_eq!(rows(&shop), (mm(1_400), mm(420)));
    shop.fabrics[0].centred = true;
    assert_eq!(rows(&shop), (mm(1_336), mm(630)));
}

fn lays() -> impl Strategy<Value = Vec<Lay>> {
    let lay = prop_oneof![
        Just(Lay::Flat),
        Just(Lay::FoldedAcross),
        Just(Lay::FoldedAlong),
        (2_u32..9).prop_map(Lay::Stacked),
    ];
    prop::collection::vec(lay, 1..5)
}

fn shops() -> impl Strategy<Value = (Shop, Order)> {
    let cloth = (400_000_i64..=1_600_000, 0_usize..3, 0_i64..=300_000, 0_i64..=20_000, 0_i64..=20_000);
    let money = (0_i64..=3_000_000_000, 0_i64..=4_000_000_000, 0_i64..=3_000, 0_i64..=20_000);
    let cut = (0_i64..=8_000, 0_i64..=5_000, 0_i64..=10_000, any::<bool>(), any::<bool>());
    (cloth, money, cut, lays()).prop_map(|(cloth, money, cut, lays)| {
        let mut shop = shop();
        let (width, direction, step, across, along) = cloth;
        let fabric = &mut shop.fabrics[0];
        fabric.usable_width = um(width);
        fabric.direction = [Direction::OneWay, Direction::TwoWay, Direction::FourWay][direction];
        fabric.sold = Sold::Bolt { step: um(step) };
        fabric.shrink_across = Percent::from_milli(across);
        fabric.shrink_along = Percent::from_milli(along);
        fabric.price = Rate::from_micro_minor(money.0);
        shop.bench.wage = Rate::from_micro_minor(money.1);
        shop.bench.operations = vec![operation(Driver::Outline, money.2), operation(Driver::Layer, money.3)];
        let double = cut.3;
        let method = usize::from(double);
        shop.methods[method].clearance = um(cut.0);
        shop.methods[method].row_gap = um(cut.1);
        shop.methods[method].lays = lays;
        shop.cloth.spares = Percent::from_milli(cut.2);
        let construction = if double { Construction::DoubleTurned } else { Construction::SinglePinked };
        let backing = (double && cut.4).then_some(0);
        (shop, Order { construction, backing, fabrics: vec![0], ..order() })
    })
}

/// What cloth and cutting cost, in a fraction of a minor unit.
fn cost(shop: &Shop, used: &ClothUse) -> i128 {
    let of = |driver| shop.bench.operations.iter().find(|one| one.driver == driver).expect("an operation");
    let minutes = |driver, count: u32| of(driver).time.milli_minutes() * i64::from(count);
    let milli = minutes(Driver::Outline, used.outlines) + minutes(Driver::Layer, used.layers);
    let cloth = i128::from(shop.fabrics[0].price.micro_minor()) * used.charged.wide();
    cloth * 6 + i128::from(shop.bench.wage.micro_minor()) * i128::from(milli) * 100
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn what_is_taken_adds_up((shop, order) in shops(), pennants in 1_u32..120) {
        let used = taken(&shop, &order, pennants);
        let total = used.pieces + used.spares;
        prop_assert_eq!(used.outlines * used.layers, total);
        prop_assert_eq!(used.job.pieces, used.outlines);
        let share = spares(used.pieces, shop.cloth.spares);
        prop_assert!(used.spares >= share && used.spares - share < used.layers);
        prop_assert_eq!(used.layers, used.lay.layers());
        prop_assert_eq!(validate(&used.plan, &used.job), Ok(()));
        prop_assert!(used.used >= used.plan.used && used.used >= used.bound, "{} below {}", used.used, used.bound);
        let fabric = &shop.fabrics[0];
        prop_assert!(used.charged >= bought_length(used.used, fabric.shrink_along) + shop.cloth.squaring);
        prop_assert!(washed(used.charged - shop.cloth.squaring, fabric.shrink_along) >= used.used);
        prop_assert!(washed(fabric.usable_width, fabric.shrink_across) >= used.job.cloth_width);
    }

    /// One pennant more, asked for by itself, costs what the step says.
    #[test]
    fn a_step_is_what_one_more_or_fewer_takes((shop, order) in shops(), pennants in 2_u32..120) {
        let used = taken(&shop, &order, pennants);
        prop_assert_eq!(used.step.more, taken(&shop, &order, pennants + 1).charged - used.charged);
        prop_assert_eq!(used.step.fewer, used.charged - taken(&shop, &order, pennants - 1).charged);
    }

    /// Whatever is chosen costs no more than lying flat, where the shop begins with that.
    #[test]
    fn no_lay_costs_more_than_a_simpler_one((mut shop, order) in shops(), pennants in 1_u32..120) {
        let method = usize::from(order.construction == Construction::DoubleTurned);
        shop.methods[method].lays.insert(0, Lay::Flat);
        let chosen = taken(&shop, &order, pennants);
        shop.methods[method].lays = vec![Lay::Flat];
        let flat = taken(&shop, &order, pennants);
        prop_assert!(cost(&shop, &chosen) <= cost(&shop, &flat));
        if chosen.lay != Lay::Flat {
            prop_assert!(100 * (cost(&shop, &flat) - cost(&shop, &chosen)) > cost(&shop, &flat));
        }
    }
}
