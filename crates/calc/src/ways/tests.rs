use super::*;
use crate::fixture::{WHEN, mm, order, shop};
use crate::order::AskedLength;
use crate::quote::{Quote, calculate};
use crate::shop::{Booked, Day};

/// 6.2 m of 29 pennants: 15 + 29 · 2.5 + 6.8 · 2 = 101.1 minutes. The bench has 360 a day,
/// the service takes one or two days from Monday to Saturday.
fn story(wanted: Day) -> Order {
    Order {
        length: Some(AskedLength::Flagged(mm(6_200))),
        leftover: Leftover::Gaps,
        wanted: Some(wanted),
        ..order()
    }
}

/// With so many minutes promised today already.
fn busy(minutes: i64) -> Shop {
    let mut shop = shop();
    let time = BenchTime::from_milli_minutes(minutes * 1_000);
    shop.calendar.load = vec![Booked { day: WHEN.today, time }];
    shop
}

fn asked(shop: &Shop, order: &Order) -> Quote {
    calculate(shop, order, WHEN).expect("a quote")
}

fn way(quote: &Quote, kind: WayKind) -> Option<Way> {
    quote.ways.iter().find(|way| way.kind == kind).copied()
}

/// Every way, asked by itself, has the price and the days that it says.
fn is_kept(shop: &Shop, order: &Order, way: &Way) {
    let asked = asked(shop, order);
    let days = asked.dates.expect("dates");
    assert_eq!(asked.worked.price.total, way.total, "{way:?}");
    assert_eq!((days.leaves, days.arrives.map(|(_, to)| to)), (way.leaves, Some(way.arrives_to)), "{way:?}");
    assert_eq!(days.kept, Some(true), "{way:?}");
    assert_eq!((asked.worked.layout.count, asked.worked.layout.gap), (way.count, way.gap), "{way:?}");
}

#[test]
fn a_day_that_is_kept_needs_no_way() {
    assert_eq!(asked(&shop(), &story(WHEN.today + 2)).ways, []);
    assert_eq!(asked(&busy(300), &Order { wanted: None, ..story(WHEN.today) }).ways, []);
}

/// 260 of 360 minutes are promised: 100 are left, and 101.1 are needed. One pennant fewer
/// takes 98.6. In two days it would be there; as it is, it leaves tomorrow.
#[test]
fn fewer_pennants_are_as_few_fewer_as_will_do() {
    let (shop, order) = (busy(260), story(WHEN.today + 2));
    let quote = asked(&shop, &order);
    let way = way(&quote, WayKind::FewerPennants).expect("a way");
    assert_eq!(way.count, 28);
    // (6 200 - 28 · 190) / 27
    assert_eq!(way.gap, Length::from_um(32_593));
    is_kept(&shop, &Order { count: Some(28), ..order.clone() }, &way);
    // 274 promised: 86 are left, 101.1 - 6 · 2.5 = 86.1 are too many and 22 pennants will do
    let quote = asked(&busy(274), &order);
    assert_eq!(quote.ways.iter().find(|w| w.kind == WayKind::FewerPennants).map(|w| w.count), Some(22));
    // an odd count stays odd
    let odd = Order { parity: Some(crate::order::Parity::Odd), ..order.clone() };
    let fewer = asked(&busy(274), &odd).ways.into_iter().find(|w| w.kind == WayKind::FewerPennants);
    assert_eq!(fewer.map(|w| w.count), Some(21));
}

#[test]
fn less_than_half_the_pennants_is_another_string() {
    // 15 + 15 · 2.5 + 13.6 = 66.1 would do in 67, and 14 pennants in 64
    let order = story(WHEN.today + 2);
    let count = |minutes| {
        let quote = asked(&busy(minutes), &order);
        way(&quote, WayKind::FewerPennants).map(|way| way.count)
    };
    assert_eq!(count(360 - 67), Some(15));
    assert_eq!(count(360 - 64), None);
    assert_eq!(count(360), None);
}

/// What the buyer said of gaps stays: with a greatest gap the rest goes to the tails.
#[test]
fn fewer_pennants_keep_what_was_said_of_gaps() {
    let shop = busy(274);
    for order in [
        Order { max_gap: Some(mm(30)), ..story(WHEN.today + 2) },
        Order { gap: mm(22), gap_given: true, leftover: Leftover::Tails, ..story(WHEN.today + 2) },
    ] {
        let way = way(&asked(&shop, &order), WayKind::FewerPennants).expect("a way");
        assert!(way.gap <= mm(30), "{way:?}");
        is_kept(&shop, &Order { count: Some(way.count), ..order }, &way);
    }
}

#[test]
fn a_rush_goes_before_the_load_and_costs_its_share() {
    let (mut shop, order) = (busy(900), story(WHEN.today + 2));
    let quote = asked(&shop, &order);
    let rush = way(&quote, WayKind::Rush).expect("a rush");
    assert_eq!(rush.leaves, WHEN.today);
    // 20 % more on the goods, half up
    let goods = quote.worked.price.lines[0].amount.minor();
    assert_eq!(rush.total.minor(), quote.worked.price.total.minor() + (goods * 2 + 5) / 10);
    let rushed = Order { rush: true, ..order.clone() };
    is_kept(&shop, &rushed, &rush);
    // asked for, it is not offered again, and other ways are rushed too
    let late = asked(&shop, &Order { wanted: Some(WHEN.today + 1), ..rushed.clone() });
    assert_eq!(way(&late, WayKind::Rush), None);
    shop.calendar.rush = None;
    assert_eq!(way(&asked(&shop, &order), WayKind::Rush), None);
    // nothing makes yesterday come back
    assert_eq!(asked(&busy(900), &story(WHEN.today)).ways, []);
}

/// Turned pennants take twice the time of pinked ones here; pinked ones are done today.
#[test]
fn a_plainer_construction_is_the_most_elaborate_that_will_do() {
    let mut shop = busy(250);
    let sew = shop.bench.operations[1].clone();
    shop.bench.operations[1].constructions = vec![Construction::SinglePinked];
    shop.bench.operations.push(crate::shop::Operation {
        constructions: vec![Construction::DoubleTurned],
        time: BenchTime::from_milli_minutes(5_000),
        ..sew
    });
    let order = Order { construction: Construction::DoubleTurned, ..story(WHEN.today + 2) };
    let way = way(&asked(&shop, &order), WayKind::Plainer).expect("a way");
    assert_eq!(way.construction, Construction::SinglePinked);
    is_kept(&shop, &Order { construction: Construction::SinglePinked, ..order }, &way);
}

/// 101.1 minutes are more than the 100 of a day: rushed or not it leaves tomorrow. One pennant
/// fewer is done today where it goes before what is promised, and is priced as a rush.
#[test]
fn the_ways_of_a_rush_are_rushed() {
    let mut shop = busy(900);
    shop.calendar.people[0].week = [BenchTime::from_milli_minutes(100_000); 7];
    let order = Order { rush: true, ..story(WHEN.today + 2) };
    let way = way(&asked(&shop, &order), WayKind::FewerPennants).expect("a way");
    assert_eq!((way.count, way.leaves), (28, WHEN.today));
    is_kept(&shop, &Order { count: Some(28), ..order }, &way);
}

#[test]
fn another_service_is_offered_where_it_keeps_the_day() {
    let mut shop = shop();
    let mut express = shop.services[0].clone();
    (express.code, express.transit) = (String::from("express"), (1, 1));
    shop.services.push(express);
    let order = story(WHEN.today + 1);
    let way = way(&asked(&shop, &order), WayKind::OtherService).expect("a way");
    assert_eq!(way.service, 1);
    is_kept(&shop, &Order { service: Some(1), ..order.clone() }, &way);
    shop.services[1].countries = vec![String::from("IE")];
    assert_eq!(asked(&shop, &order).ways, []);
}
