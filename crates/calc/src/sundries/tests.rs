use pennantry_measure::Length;
use proptest::prelude::*;

use super::*;
use crate::fixture::{order, shop};
use crate::order::AskedLength;
use crate::shop::{Sundry, Trimming};
use crate::{layout, order::Order};

fn sundry(code: &str, driver: Driver) -> Sundry {
    Sundry {
        code: code.to_owned(),
        name: code.to_owned(),
        driver,
        price: Money::from_minor(7),
        mass: Mass::from_mg(300),
        packing: false,
        bag_opening: None,
        bag_film: None,
    }
}

fn trimming(code: &str, minor: i64, mg: i64) -> Trimming {
    Trimming {
        code: code.to_owned(),
        name: code.to_owned(),
        price: Money::from_minor(minor),
        mass: Mass::from_mg(mg),
        thickness: Length::from_mm(4),
        part: crate::fixture::part(),
    }
}

fn trimmed_shop() -> Shop {
    let mut shop = shop();
    shop.trimmings =
        vec![trimming("button", 30, 1_200), trimming("star", 15, 400), trimming("pompom", 5, 90)];
    shop
}

/// 29 pennants on a string.
fn story() -> Order {
    Order { length: Some(AskedLength::Flagged(Length::from_mm(6_200))), ..order() }
}

fn letters(text: &str) -> Vec<Option<String>> {
    text.chars().map(|letter| (letter != ' ').then(|| letter.to_string())).collect()
}

fn of(shop: &Shop, order: &Order) -> Vec<Used> {
    used(shop, order, &layout::solve(shop, order).expect("a layout"))
}

fn counts(used: &[Used]) -> Vec<(UsedKind, u32)> {
    used.iter().map(|used| (used.kind, used.count)).collect()
}

#[test]
fn the_bag_of_the_small_shop_is_one_for_all_strings() {
    let bag = Used {
        kind: UsedKind::Sundry(0),
        count: 1,
        cost: Money::from_minor(20),
        mass: Mass::from_mg(8_000),
        packing: true,
    };
    assert_eq!(of(&shop(), &story()), [bag]);
    assert_eq!(of(&shop(), &Order { quantity: 40, ..story() }), [bag]);
}

#[test]
fn every_driver_counts_its_own() {
    let mut shop = shop();
    let drivers = [
        Driver::Order,
        Driver::String,
        Driver::Pennant,
        Driver::End,
        Driver::Letter,
        Driver::Piece,
        Driver::Outline,
        Driver::Layer,
        Driver::Metre,
        Driver::Join,
        Driver::Trimming,
    ];
    shop.sundries = drivers.map(|driver| sundry("any", driver)).to_vec();
    let order = Order { quantity: 3, letters: letters("KATE MAY"), ..story() };
    let used = of(&shop, &order);
    // what is counted by anything else than the first five is left out
    let wanted =
        [1, 3, 3 * 29, 6, 3 * 7].into_iter().zip(0..).map(|(count, at)| (UsedKind::Sundry(at), count));
    assert_eq!(counts(&used), wanted.collect::<Vec<_>>());
    for used in &used {
        assert_eq!(used.cost, Money::from_minor(7 * i64::from(used.count)));
        assert_eq!(used.mass, Mass::from_mg(300 * i64::from(used.count)));
        assert!(!used.packing);
    }
    // no letters, none used
    assert_eq!(of(&shop, &story()).len(), 4);
}

#[test]
fn trimmings_follow_the_order_and_are_merged() {
    let shop = trimmed_shop();
    let order = Order { quantity: 2, trimmings: vec![(2, 1), (0, 3), (2, 4), (1, 0)], ..story() };
    let used = of(&shop, &order);
    let bag = (UsedKind::Sundry(0), 1);
    assert_eq!(counts(&used), [bag, (UsedKind::Trimming(2), 58 * 5), (UsedKind::Trimming(0), 58 * 3)]);
    assert_eq!((used[1].cost, used[1].mass), (Money::from_minor(290 * 5), Mass::from_mg(290 * 90)));
    assert_eq!((used[2].cost, used[2].mass), (Money::from_minor(174 * 30), Mass::from_mg(174 * 1_200)));
    assert!(!used[1].packing && used[0].packing);
}

#[test]
fn a_place_that_is_not_in_the_shop_is_left_out() {
    let order = Order { trimmings: vec![(7, 2), (1, 1)], ..story() };
    assert_eq!(counts(&of(&trimmed_shop(), &order))[1..], [(UsedKind::Trimming(1), 29)]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn twice_the_strings_take_twice_of_all_but_the_orders_own(
        quantity in 1_u32..=5_000,
        trimmings in prop::collection::vec((0_usize..3, 1_u32..=20), 0..6),
        text in "[A-Z ]{0,6}",
    ) {
        let mut shop = trimmed_shop();
        shop.sundries.extend([Driver::String, Driver::End, Driver::Letter].map(|d| sundry("any", d)));
        let of = |quantity| {
            let order = Order { quantity, trimmings: trimmings.clone(), letters: letters(&text), ..story() };
            let layout = layout::solve(&shop, &story()).expect("a layout");
            used(&shop, &order, &layout)
        };
        let (once, twice) = (of(quantity), of(2 * quantity));
        prop_assert_eq!(once.len(), twice.len());
        prop_assert_eq!(once[0], twice[0]);
        for (once, twice) in once.iter().zip(&twice).skip(1) {
            prop_assert_eq!((once.kind, 2 * once.count), (twice.kind, twice.count));
            prop_assert_eq!(once.cost + once.cost, twice.cost);
            prop_assert_eq!(once.mass + once.mass, twice.mass);
        }
        let each: u32 = trimmings.iter().map(|(_, each)| each).sum();
        let counted: u32 = once.iter().filter(|u| matches!(u.kind, UsedKind::Trimming(_))).map(|u| u.count).sum();
        prop_assert_eq!(counted, each * 29 * quantity);
    }
}
