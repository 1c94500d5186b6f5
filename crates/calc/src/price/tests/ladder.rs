//! Quantity breaks that never make more cost less.

use proptest::prelude::*;

use super::*;
use crate::shop::{Construction, ListPrice};
use pennantry_measure::Rate;

fn breaks(of: &[(u32, i64)]) -> Vec<Break> {
    of.iter().map(|(from, off)| Break { from: *from, off: percent(*off) }).collect()
}

/// The example of the module: 1.00 a string, 5 % off from 96.
#[test]
fn just_below_a_break_costs_what_the_break_costs() {
    let all = breaks(&[(10, 10_000), (96, 15_000)]);
    let at = |quantity: u32| minor(100 * i64::from(quantity));
    let goods =
        |quantity: u32| with_breaks(&all, quantity, at(quantity), |one, _| Some(at(one.from))).minor();
    // 10 at 10 % off are 9.00, and so are 9; 96 at 15 % off are 81.60, and 91 at 10 % 81.90
    assert_eq!([8, 9, 10, 11].map(goods), [800, 900, 900, 990]);
    assert_eq!([90, 91, 95, 96, 97].map(goods), [8_100, 8_160, 8_160, 8_160, 8_245]);
}

#[test]
fn nothing_is_asked_of_breaks_that_are_reached() {
    let all = breaks(&[(2, 5_000), (5, 10_000)]);
    let mut asked = Vec::new();
    let mut goods = |quantity| {
        asked.clear();
        with_breaks(&all, quantity, minor(1_000), |one, _| {
            asked.push(one.from);
            None
        });
        asked.clone()
    };
    assert_eq!((goods(1), goods(2), goods(4), goods(5)), (vec![2, 5], vec![5], vec![5], vec![]));
}

/// Orders at the fixture's shop with breaks around every threshold: the threshold's own order
/// is worked where it can matter, and only there.
#[test]
fn around_every_break_more_never_costs_less_with_cost_plus() {
    let mut shop = shop();
    shop.pricing.breaks = breaks(&[(4, 30_000), (9, 40_000), (20, 50_000)]);
    let (mut capped, mut before) = (Vec::new(), Money::ZERO);
    for quantity in 1..=30 {
        let price = worked(&shop, &Order { quantity, ..story() }).price;
        assert!(price.total >= before, "{quantity} cost {:?}, one fewer {before:?}", price.total);
        before = price.total;
        if price.steps > 0 {
            capped.push(quantity);
        }
        // where no order at a break was worked, none could have been less
        let own = less(own_goods(&shop, quantity), off(&shop.pricing.breaks, quantity));
        let there = |one: &&Break| one.from > quantity;
        let least = shop
            .pricing
            .breaks
            .iter()
            .filter(there)
            .fold(own, |least, one| least.min(less(own_goods(&shop, one.from), one.off)));
        assert_eq!(price.lines[0].amount, least, "{quantity}");
    }
    assert!(capped.contains(&3) && capped.contains(&8) && capped.contains(&19), "{capped:?}");
    assert!(!capped.contains(&1) && !capped.contains(&20), "{capped:?}");
}

/// The goods of an order at a shop without breaks.
fn own_goods(shop: &Shop, quantity: u32) -> Money {
    let mut bare = shop.clone();
    bare.pricing.breaks.clear();
    worked(&bare, &Order { quantity, ..story() }).price.lines[0].amount
}

fn tables() -> impl Strategy<Value = Vec<(u32, i64)>> {
    proptest::collection::vec((2_u32..=60, 1_i64..=90_000), 1..=6).prop_map(|mut table| {
        table.sort_unstable();
        table.dedup_by_key(|(from, _)| *from);
        let mut shares: Vec<i64> = table.iter().map(|(_, off)| *off).collect();
        shares.sort_unstable();
        table.iter().zip(shares).map(|((from, _), off)| (*from, off)).collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Under a list, whatever the table: every threshold and every step between.
    #[test]
    fn invariant_05_more_by_the_metre_never_costs_less(
        table in tables(),
        rate in 0_i64..=4_000_000_000,
        mm in 500_i64..=20_000,
        extras in 0_i64..=5_000,
    ) {
        let all = breaks(&table);
        let (rate, overall) = (Rate::from_micro_minor(rate), Length::from_mm(mm));
        let at = |quantity: u32| {
            let strings = i64::from(quantity);
            rate.per_metre(overall * strings, Rounding::HalfUp) + minor(extras * strings)
        };
        let goods = |quantity| with_breaks(&all, quantity, at(quantity), |one, _| Some(at(one.from)));
        let mut before = Money::ZERO;
        for quantity in 1..=61 {
            let now = goods(quantity);
            prop_assert!(now >= before, "{quantity}: {now:?} after {before:?}");
            prop_assert!(now <= less(at(quantity), off(&all, quantity)));
            before = now;
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// The whole price, under a list and with cost-plus, with points, a least charge and a rush.
    #[test]
    fn invariant_05_the_total_of_more_is_never_less(
        table in tables(), by_list: bool, near in 0_usize..6, rush: bool, point in 0_u8..3,
    ) {
        let mut shop = shop();
        shop.pricing.breaks = breaks(&table);
        // one postage for all of them: what a carrier asks may well fall with the weight
        shop.services[0].bands = vec![crate::shop::Band {
            format: 1,
            most: pennantry_measure::Mass::from_grams(1_000_000),
            price: minor(420),
        }];
        shop.formats[1].most = [mm(100_000); 3];
        shop.formats[1].most_mass = None;
        shop.pricing.point = (point > 0).then(|| crate::shop::Point {
            mode: if point == 1 { crate::shop::PointMode::Up } else { crate::shop::PointMode::Nearest },
            step: 100,
            endings: vec![45, 95],
        });
        if by_list {
            shop.pricing.basis = Basis::PerMetre;
            shop.pricing.list = vec![ListPrice {
                construction: Construction::SinglePinked,
                up_to_width: mm(200),
                class: String::from("standard"),
                rate: Rate::from_micro_minor(300_000_000),
            }];
        }
        let threshold = table[near % table.len()].0;
        let totals: Vec<Money> = (threshold.saturating_sub(3).max(1)..=threshold + 2)
            .map(|quantity| worked(&shop, &Order { quantity, rush, ..story() }).price.total)
            .collect();
        prop_assert!(totals.is_sorted(), "around {threshold} of {table:?}: {totals:?}");
    }
}
