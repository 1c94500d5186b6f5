//! A price list by the metre.

use pennantry_measure::Rate;

use super::*;
use crate::notice::Code;
use crate::order::{End, EndStyle, Field, Reason};
use crate::shop::{Construction, Extras, ListPrice};

fn entry(construction: Construction, width: i64, class: &str, pounds: i64) -> ListPrice {
    ListPrice {
        construction,
        up_to_width: mm(width),
        class: class.to_owned(),
        rate: Rate::from_micro_minor(pounds * 100_000_000),
    }
}

/// 10.00 up to 190 wide, 12.00 up to 300, 15.00 for silk; nothing for two layers.
fn by_list() -> Shop {
    let mut shop = shop();
    shop.pricing.basis = Basis::PerMetre;
    let pinked = |width, class, pounds| entry(Construction::SinglePinked, width, class, pounds);
    shop.pricing.list =
        vec![pinked(300, "standard", 12), pinked(190, "standard", 10), pinked(250, "silk", 15)];
    let [letter, trimming, looped, tie] = [200, 50, 90, 40].map(minor);
    shop.pricing.extras = Extras { letter, trimming, looped, tie };
    shop
}

fn goods(shop: &Shop, order: &Order) -> i64 {
    worked(shop, order).price.lines[0].amount.minor()
}

/// 6.8 m at 10.00; the list's price has its tax in it.
#[test]
fn the_metres_are_charged_at_the_narrowest_entry_that_is_wide_enough() {
    let shop = by_list();
    assert_eq!(goods(&shop, &story()), 6_800);
    // a hair wider is the next entry
    let wider = Order { width: mm(190) + Length::from_um(1), ..story() };
    let overall = worked(&shop, &wider).layout.overall;
    assert_eq!(
        goods(&shop, &wider),
        Rate::from_micro_minor(1_200_000_000).per_metre(overall, Rounding::HalfUp).minor()
    );
    assert_eq!(goods(&shop, &Order { quantity: 3, ..story() }), 20_400);
    let price = worked(&shop, &story()).price;
    // 68.00 and 5.04 of delivery: a sixth is 12.173
    assert_eq!(
        (price.tax.map(|tax| tax.included), price.per_metre),
        (Some(minor(1_217)), Some(minor(1_000)))
    );
}

#[test]
fn of_several_classes_the_dearest_counts() {
    let mut shop = by_list();
    shop.fabrics[1].class = String::from("silk");
    assert_eq!(goods(&shop, &story()), 10_200);
    assert_eq!(goods(&shop, &Order { fabrics: vec![0, 2], ..story() }), 6_800);
}

/// Two letters, three buttons on each of 29 pennants, a loop and a tie.
#[test]
fn letters_trimmings_and_ends_are_on_top() {
    let mut shop = by_list();
    shop.trimmings = vec![crate::shop::Trimming {
        code: String::from("button"),
        name: String::from("Button"),
        price: minor(5),
        mass: pennantry_measure::Mass::from_mg(100),
        thickness: mm(1),
        part: crate::fixture::part(),
    }];
    let end = |style| End { style, ..End::default() };
    let order = Order {
        letters: ["A", "B"].map(|letter| Some(letter.to_owned())).to_vec(),
        trimmings: vec![(0, 3)],
        ends: [end(EndStyle::Loop), end(EndStyle::Tie)],
        quantity: 2,
        ..story()
    };
    let each = 2 * 200 + 3 * 29 * 50 + 90 + 40;
    assert_eq!(goods(&shop, &order), 2 * 6_800 + 2 * each);
    // cost-plus knows no price of an end
    shop.pricing.basis = Basis::CostPlus(Surplus::Margin(percent(40_000)));
    let plain = Order { ends: [End::default(); 2], ..order.clone() };
    assert_eq!(goods(&shop, &order), goods(&shop, &plain));
}

#[test]
fn what_the_list_has_not_is_refused_with_what_it_has() {
    let mut shop = by_list();
    let violation = |shop: &Shop, order: &Order| {
        let found = refused(shop, order);
        assert_eq!(found.len(), 1, "{found:?}");
        (found[0].field, found[0].reason, found[0].message.clone())
    };
    let turned = Order { construction: Construction::DoubleTurned, ..story() };
    let (field, reason, message) = violation(&shop, &turned);
    assert_eq!((field, reason), (Field::Construction, Reason::NotOffered));
    assert!(message.contains("two layers, turned") && message.contains("choose"), "{message}");
    let wide = Order { width: mm(301), ..story() };
    let (field, reason, message) = violation(&shop, &wide);
    assert_eq!((field, reason), (Field::Width, Reason::OutOfRange));
    assert!(message.contains("300 mm") && message.contains("301 mm"), "{message}");
    shop.fabrics[2].class = String::from("felt");
    let (field, reason, message) = violation(&shop, &story());
    assert_eq!((field, reason), (Field::Fabrics, Reason::NotOffered));
    assert!(message.contains("\"felt\"") && message.contains("choose"), "{message}");
}

/// The cost is worked out all the same, and the shop is told of a price below its floor.
#[test]
fn a_list_price_below_the_floor_is_told() {
    let mut shop = by_list();
    shop.pricing.floor = Some(percent(30_000));
    let price = worked(&shop, &story()).price;
    assert!(price.cost > minor(3_900) && price.cost_lines.len() > 6, "{price:?}");
    // 68.00 less tax are 56.67, and cost about 40.00 is 57.14 at 30 %
    assert_eq!(price.notices.iter().map(|n| n.code).collect::<Vec<_>>(), [Code::BelowFloor]);
    shop.pricing.floor = Some(percent(20_000));
    assert!(worked(&shop, &story()).price.notices.is_empty());
}
