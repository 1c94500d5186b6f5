//! The tax: not registered, in the price, on top of it, by its day.

use super::*;
use crate::notice::Code;
use crate::shop::{Day, TaxPoint};

fn taxes_of(price: &Price) -> Vec<Option<i64>> {
    price.lines.iter().map(|line| line.tax.map(Money::minor)).collect()
}

#[test]
fn a_shop_that_is_not_registered_has_no_tax_anywhere() {
    let mut shop = shop();
    shop.pricing.tax = None;
    // and so has one that is registered from tomorrow on
    let later = with_tax(|tax| tax.rates[0].from = WHEN.today + 1);
    for shop in [shop, later] {
        let worked = worked(&shop, &story());
        let price = &worked.price;
        assert_eq!(price.tax, None);
        assert!(price.lines.iter().all(|line| line.tax.is_none() && line.kind != LineKind::Tax));
        assert_eq!(price.net, price.total);
        let made = price.cost - minor(420);
        let goods = net_target(made, Surplus::Margin(percent(40_000)));
        assert_eq!(lines(price), [(LineKind::Goods, goods.minor()), (LineKind::Delivery, 420)]);
    }
}

/// With the tax on a line of its own the lines before it are those of a shop without one.
#[test]
fn a_tax_on_top_is_a_line_and_the_net_is_the_rest() {
    let shop = with_tax(|tax| tax.included = false);
    let price = worked(&shop, &story()).price;
    let kinds: Vec<LineKind> = price.lines.iter().map(|line| line.kind).collect();
    assert_eq!(kinds, [LineKind::Goods, LineKind::Delivery, LineKind::Tax]);
    let (goods, delivery) = (price.lines[0].amount.minor(), price.lines[1].amount.minor());
    let made = price.cost - minor(420);
    assert_eq!((minor(goods), delivery), (net_target(made, Surplus::Margin(percent(40_000))), 420));
    let tax = (goods + delivery) / 5 + i64::from((goods + delivery) % 5 >= 3);
    assert_eq!((price.lines[2].amount.minor(), price.net.minor()), (tax, goods + delivery));
    assert_eq!(price.total.minor(), goods + delivery + tax);
    let lines = taxes_of(&price);
    assert_eq!((lines[0].unwrap() + lines[1].unwrap(), lines[2]), (tax, None));
    // the metre has its tax in it: goods and their part of it
    assert_eq!(price.per_metre, a_metre(minor(goods + lines[0].unwrap()), mm(6_800)));
}

/// Delivery at the goods' rate, and by the line each part by itself.
#[test]
fn by_the_line_each_is_rounded_and_by_the_document_the_whole() {
    for level in [TaxLevel::Document, TaxLevel::Line] {
        let shop = with_tax(|tax| tax.level = level);
        let price = worked(&shop, &story()).price;
        let sum: i64 = taxes_of(&price).into_iter().flatten().sum();
        let tax = price.tax.expect("a tax");
        assert_eq!((sum, tax.rate), (tax.included.minor(), percent(20_000)));
        let of = |amount: Money| included_tax(amount, tax.rate, Rounding::HalfUp).minor();
        let expected = match level {
            TaxLevel::Document => of(price.total),
            TaxLevel::Line => price.lines.iter().map(|line| of(line.amount)).sum(),
        };
        assert_eq!(sum, expected);
        // 5.04 with 20 % in it
        assert_eq!(price.lines[1].tax, Some(minor(84)), "{level:?}");
    }
}

/// 20 % until tomorrow, 25 % from then on. Today is a Tuesday with all its time free; with
/// 300 minutes promised the order leaves tomorrow.
#[test]
fn the_rate_is_that_of_its_day() {
    let change = |tax: &mut Tax, point| {
        tax.point = point;
        tax.rates.push(DatedRate { from: WHEN.today + 1, share: percent(25_000) });
    };
    let busy = |point| {
        let mut shop = with_tax(|tax| change(tax, point));
        let time = BenchTime::from_milli_minutes(300_000);
        shop.calendar.load = vec![crate::shop::Booked { day: WHEN.today, time }];
        shop
    };
    let rate = |shop: &Shop| {
        let price = worked(shop, &story()).price;
        let told = price.notices.iter().find(|n| n.code == Code::TaxChanges).map(|n| n.message.clone());
        (price.tax.map(|tax| (tax.rate.milli(), tax.point)), told)
    };
    let today = WHEN.today;
    // it leaves today, and the quote holds longer: the rate of today, and the change is told
    let (leave, told) = rate(&with_tax(|tax| change(tax, TaxPoint::Leave)));
    assert!(leave == Some((20_000, today)) && told.is_some(), "{told:?}");
    let (order, told) = rate(&busy(TaxPoint::Order));
    assert_eq!(order, Some((20_000, today)));
    let told = told.expect("the shop is told");
    for text in
        ["VAT changes", "20 % on 2026-11-24", "25 % from 2026-11-25", "the day of the order was taken"]
    {
        assert!(told.contains(text), "{told} has no {text}");
    }
    let (leave, told) = rate(&busy(TaxPoint::Leave));
    assert_eq!(leave, Some((25_000, today + 1)));
    assert!(told.is_some_and(|told| told.contains("the day it leaves was taken")));
    // a bench that never works says no day: that of the order stands
    let mut idle = busy(TaxPoint::Leave);
    idle.calendar.people.truncate(0);
    let (idle, told) = rate(&idle);
    assert!(idle == Some((20_000, today)) && told.is_some(), "{told:?}");
}

/// Told up to the last day on which the quote holds, 14 days after the order, and beyond it as
/// long as it has not left; a rate that is the same as before is no change.
#[test]
fn a_change_of_the_tax_is_told_while_the_quote_holds_or_has_not_left() {
    let told = |days: i32, milli: i64, promised: i64| {
        let mut shop = with_tax(|tax| {
            tax.rates.push(DatedRate { from: WHEN.today + days, share: percent(milli) });
            // whatever comes afterwards
            tax.rates.push(DatedRate { from: WHEN.today + 1_000, share: percent(7_000) });
        });
        shop.valid_days = 14;
        let time = BenchTime::from_milli_minutes(promised);
        shop.calendar.load = vec![crate::shop::Booked { day: WHEN.today, time }];
        let price = worked(&shop, &story()).price;
        let notices = price.notices.into_iter().filter(|n| n.code == Code::TaxChanges);
        notices.map(|notice| notice.message).collect::<Vec<_>>()
    };
    for days in [1, 2, 7, 13, 14] {
        for milli in [0, 19_999, 20_001, 22_500] {
            let told = told(days, milli, 0);
            let from = (WHEN.today + days).to_string();
            assert!(
                told.len() == 1 && told[0].contains(&format!("from {from} on")),
                "{days} {milli}: {told:?}"
            );
            assert!(told[0].contains("ask again before anything is paid"), "{told:?}");
        }
        assert_eq!(told(days, 20_000, 0), [""; 0], "{days}: no change");
    }
    for days in [0, 15, 16] {
        assert_eq!(told(days, 22_500, 0), [""; 0], "{days}");
    }
    // a bench that is promised for weeks: it leaves after the quote has ended
    assert_eq!(told(15, 22_500, 9_000_000).len(), 1);
    // no tax before the first rate is a change too
    let registered = with_tax(|tax| {
        tax.rates = vec![DatedRate { from: WHEN.today + 3, share: percent(20_000) }];
    });
    let price = worked(&registered, &story()).price;
    let told: Vec<_> = price.notices.iter().filter(|n| n.code == Code::TaxChanges).collect();
    assert!(told.len() == 1 && told[0].message.contains("none on 2026-11-24"), "{told:?}");
}

#[test]
fn rates_hold_from_their_day_on() {
    let tax = with_tax(|tax| {
        tax.rates = [(10, 15_000), (20, 17_500), (30, 0)]
            .map(|(day, milli)| DatedRate { from: Day(day), share: percent(milli) })
            .to_vec();
    });
    let tax = tax.pricing.tax.expect("a tax");
    let on = |day| tax.rate_on(Day(day)).map(Percent::milli);
    assert_eq!(
        [9, 10, 19, 20, 29, 30, 99].map(on),
        [None, Some(15_000), Some(15_000), Some(17_500), Some(17_500), Some(0), Some(0)]
    );
}
