//! The steps in their order, on orders worked by hand.

use pennantry_measure::{Force, Rate};

use super::*;
use crate::notice::Code;
use crate::order::{ColourRule, End, EndStyle, Parity};
use crate::shop::{Point, PointMode, Shape, SizeAt};

fn told(price: &Price) -> Vec<Code> {
    price.notices.iter().map(|notice| notice.code).collect()
}

/// The story at a clearance of 6, by hand (derived). Cloth 0.5, 0.5 and 0.3 m at 8.00: 4.00,
/// 4.00, 2.40. Binding 6.82 m at 0.60: 4.092. Bench 15 + 29 · 2.5 + 6.8 · 2 = 101.1 minutes at
/// 15.00 an hour: 25.275. Thread as the answer says, a bag at 0.20. A parcel at 4.20
/// before tax is 5.04 with it.
#[test]
fn the_story_is_priced_as_by_hand() {
    let worked = worked(&shop(), &story());
    let price = &worked.price;
    let thread = worked.thread.cost.minor();
    let costs: Vec<(CostKind, i64)> = price.cost_lines.iter().map(|l| (l.kind, l.amount.minor())).collect();
    let made = 400 + 400 + 240 + 409 + thread + 20 + 2_528;
    // a margin of 40 %, half up, then 20 %, half up
    let net = (made * 10 + 3) / 6;
    let goods = (net * 12 + 5) / 10;
    let total = goods + 504;
    let tax = (total * 2 + 6) / 12;
    assert_eq!(
        costs,
        [
            (CostKind::Cloth(0), 400),
            (CostKind::Cloth(1), 400),
            (CostKind::Cloth(2), 240),
            (CostKind::Binding, 409),
            (CostKind::Thread, thread),
            (CostKind::Used(UsedKind::Sundry(0)), 20),
            (CostKind::Bench, 2_528),
            (CostKind::Postage, 420),
            (CostKind::Surplus, total - tax - made - 420),
        ]
    );
    assert_eq!(lines(price), [(LineKind::Goods, goods), (LineKind::Delivery, 504)]);
    assert_eq!((price.total.minor(), price.net.minor()), (total, total - tax));
    assert_eq!(price.tax.map(|tax| tax.included.minor()), Some(tax));
    assert_eq!(price.cost.minor(), made + 420);
    assert_eq!((price.before_point, price.floor, price.strings.len()), (None, None, 1));
    // the goods over 6.8 m
    assert_eq!(price.per_metre.map(Money::minor), Some((goods * 10 + 34) / 68));
    assert!(price.notices.is_empty(), "{:?}", price.notices);
}

/// Overhead of 6.00 on 101.1 minutes is 10.11. Goods at cost + 0.30 and of what is paid 2.9 %:
/// the net target is kept, as sums in whole numbers say.
#[test]
fn overhead_and_fee_are_costs_and_the_target_is_kept() {
    let mut shop = shop();
    let plain = worked(&shop, &story()).price;
    shop.pricing.overhead = Rate::from_micro_minor(600_000_000);
    let overhead = worked(&shop, &story()).price;
    let of = |price: &Price, kind| {
        price.cost_lines.iter().find(|line| line.kind == kind).map(|line| line.amount.minor())
    };
    assert_eq!(of(&overhead, CostKind::Overhead), Some(1_011));
    assert_eq!(of(&plain, CostKind::Overhead), None);
    assert_eq!(overhead.cost - plain.cost, minor(1_011));

    shop.pricing.fee = Fee { share: percent(2_900), fixed: minor(30) };
    let charged = worked(&shop, &story()).price;
    let total = charged.total.minor();
    assert_eq!(of(&charged, CostKind::Fee), Some((total * 29 + 500) / 1_000 + 30));
    // what the shop keeps for what it made: the net target of the price without a fee
    let target = net_target(overhead.cost - minor(420), Surplus::Margin(percent(40_000)));
    let kept = |total: i64| {
        // total / 1.2 - 2.9 % of it - 0.30 - 4.20, in thousandths of twelfths of a penny
        total * 10_000 - total * 29 * 12 - (30 + 420) * 12_000
    };
    assert!(kept(total) >= target.minor() * 12_000, "{total}");
    assert!(kept(total - 1) < target.minor() * 12_000, "a penny less would keep it too: {total}");
}

/// Two pennants without any work are below the least charge of 15.00, and go by letter at 2.50.
#[test]
fn a_small_order_is_brought_up_to_the_least_charge() {
    let mut shop = shop();
    shop.bench.operations.truncate(0);
    let order = Order { count: Some(2), ..order() };
    let price = worked(&shop, &order).price;
    let goods = price.lines[0].amount.minor();
    assert!((1..1_500).contains(&goods));
    assert_eq!(
        lines(&price),
        [(LineKind::Goods, goods), (LineKind::MinimumCharge, 1_500 - goods), (LineKind::Delivery, 300)]
    );
    assert_eq!(told(&price), [Code::MinimumCharge]);
    let written = written(&shop, minor(goods));
    let message = &price.notices[0].message;
    assert!(message.contains(&written) && message.contains("15.00 GBP"), "{message}");
    // exactly the least charge is not below it
    shop.pricing.minimum = minor(goods);
    let exact = worked(&shop, &order).price;
    assert_eq!((exact.lines.len(), exact.notices.len()), (2, 0));
}

/// A rush of 20 %, then 10 % off the goods, then delivery at 4.20 and its tax.
#[test]
fn a_rush_and_a_discount_are_lines_of_their_own() {
    let shop = shop();
    let plain = worked(&shop, &story()).price;
    let goods = plain.lines[0].amount.minor();
    let order = Order { rush: true, discount: Some(discount(Off::Share(percent(10_000)))), ..story() };
    let price = worked(&shop, &order).price;
    let (rush, off) = ((goods * 2 + 5) / 10, (goods + 5) / 10);
    assert_eq!(
        lines(&price),
        [
            (LineKind::Goods, goods),
            (LineKind::Rush, rush),
            (LineKind::Discount, -off),
            (LineKind::Delivery, 504)
        ]
    );
    assert_eq!(price.total.minor(), goods + rush - off + 504);
    // nothing is owed for more off than there is: the delivery stays
    let order = Order { discount: Some(discount(Off::Amount(minor(100_000_000)))), ..story() };
    let given = worked(&shop, &order).price;
    assert_eq!(given.total, minor(504));
    assert_eq!(given.lines[1].amount, -given.lines[0].amount);
    let order = Order { discount: Some(discount(Off::Amount(minor(123)))), ..story() };
    assert_eq!(worked(&shop, &order).price.total, plain.total - minor(123));
}

/// A margin of 40 % on the cost, a floor of 30 %: a tenth off leaves 33.3 %, a fifth 25 %.
#[test]
fn below_the_floor_the_shop_is_told() {
    let mut shop = shop();
    shop.pricing.floor = Some(percent(30_000));
    let of = |milli| {
        worked(&shop, &Order { discount: Some(discount(Off::Share(percent(milli)))), ..story() }).price
    };
    let (tenth, fifth) = (of(10_000), of(20_000));
    // cost / 0.7, half up, and the postage besides
    let made = tenth.cost.minor() - 420;
    assert_eq!(tenth.floor.map(Money::minor), Some((made * 20 + 7) / 14 + 420));
    assert_eq!(told(&tenth), []);
    assert_eq!(told(&fifth), [Code::BelowFloor]);
    let message = &fifth.notices[0].message;
    assert!(message.contains(&written(&shop, fifth.net)) && message.contains("30 %"), "{message}");
    // the floor itself is not below it
    let mut exact = shop.clone();
    exact.pricing.floor = Some(percent(0));
    exact.pricing.basis = Basis::CostPlus(Surplus::Markup(percent(0)));
    assert_eq!(told(&worked(&exact, &story()).price), []);
}

#[test]
fn a_price_point_moves_the_goods_and_tells_what_they_were() {
    let mut shop = shop();
    let plain = worked(&shop, &story()).price;
    let goods = plain.lines[0].amount.minor();
    shop.pricing.point = Some(Point { mode: PointMode::Up, step: 100, endings: vec![95] });
    let price = worked(&shop, &story()).price;
    let moved = price.lines[0].amount.minor();
    assert!(moved >= goods && moved - goods < 100 && moved % 100 == 95, "{goods} to {moved}");
    assert_eq!(price.before_point, Some(minor(goods)));
    assert_eq!(price.total, plain.total + minor(moved - goods));
    // to the nearest, but not below a floor that the goods just meet
    let made = plain.cost - minor(420);
    shop.pricing.point = Some(Point { mode: PointMode::Nearest, step: 10_000, endings: vec![100] });
    assert_eq!(worked(&shop, &story()).price.lines[0].amount, minor(10_100));
    shop.pricing.basis = Basis::CostPlus(Surplus::Markup(percent(0)));
    let down = worked(&shop, &story()).price.lines[0].amount;
    assert!(down < made, "{down:?} of {made:?}");
    shop.pricing.floor = Some(percent(0));
    assert_eq!(worked(&shop, &story()).price.lines[0].amount, minor(10_100));
}

#[test]
fn what_nothing_takes_may_cost_delivery_besides() {
    let mut shop = shop();
    shop.services[0].bands.truncate(0);
    let price = worked(&shop, &story()).price;
    assert_eq!(price.lines.len(), 1);
    assert_eq!(told(&price), [Code::DeliveryOpen]);
    assert!(price.notices[0].message.contains("delivery may be payable"), "{:?}", price.notices);
}

#[test]
fn the_strings_share_the_total() {
    let shop = shop();
    let order = Order { quantity: 7, ..story() };
    let price = worked(&shop, &order).price;
    let total = price.total.minor();
    let shares: Vec<i64> = price.strings.iter().map(|share| share.minor()).collect();
    assert_eq!(shares.len(), 7);
    assert_eq!(shares.iter().sum::<i64>(), total);
    let more = usize::try_from(total % 7).unwrap();
    assert!(shares[..more].iter().all(|share| *share == total / 7 + 1));
    assert!(shares[more..].iter().all(|share| *share == total / 7));
    let small = Order { count: Some(2), length: None, leftover: Leftover::Tails, ..story() };
    let told = |quantity| worked(&shop, &Order { quantity, ..small.clone() }).price.strings.len();
    assert_eq!((told(400), told(401)), (400, 0));
}

#[test]
fn amounts_are_written_with_the_digits_of_their_currency() {
    let mut shop = shop();
    let texts = |shop: &Shop| [5, 1_250, -5, 0].map(|amount| written(shop, minor(amount)));
    assert_eq!(texts(&shop), ["0.05 GBP", "12.50 GBP", "-0.05 GBP", "0.00 GBP"]);
    (shop.minor_digits, shop.currency) = (0, String::from("JPY"));
    assert_eq!(texts(&shop), ["5 JPY", "1250 JPY", "-5 JPY", "0 JPY"]);
    (shop.minor_digits, shop.currency) = (3, String::from("KWD"));
    assert_eq!(texts(&shop), ["0.005 KWD", "1.250 KWD", "-0.005 KWD", "0.000 KWD"]);
    (shop.minor_digits, shop.currency) = (4, String::from("UYW"));
    assert_eq!(texts(&shop), ["0.0005 UYW", "0.1250 UYW", "-0.0005 UYW", "0.0000 UYW"]);
}

#[test]
fn a_margin_of_everything_still_covers_the_cost() {
    for share in [99_999, 100_000, 250_000] {
        let price = net_target(minor(100), Surplus::Margin(percent(share)));
        assert_eq!(price, minor(10_000_000));
    }
}

/// What makes a string the buyer's own, and what does not, however it is asked. Commerce law as
/// the module quotes it.
#[test]
fn a_stock_length_in_other_colours_may_be_sent_back_and_a_measure_of_ones_own_may_not() {
    let shop = shop();
    let stock = Order { length: Some(AskedLength::Flagged(mm(5_000))), leftover: Leftover::Gaps, ..order() };
    let found =
        |order: &Order| withdrawal(&shop, order, &crate::layout::solve(&shop, order).expect("a layout"));
    let ends = |end: End| [end, End { style: EndStyle::Loop, ..End::default() }];
    // 5 000 mm hold 23 of 190, and 22 gaps of 28.636
    let layout = crate::layout::solve(&shop, &stock).expect("a layout");
    assert_eq!((layout.count, layout.gap.um(), layout.tail), (23, 28_636, mm(300)));
    let tie = |tie| End { style: EndStyle::Tie, tie, ..End::default() };
    let offered = [
        stock.clone(),
        Order { fabrics: vec![2, 0], quantity: 3, ..stock.clone() },
        Order { rule: ColourRule::Listed, fabrics: [2, 0].repeat(12)[1..].to_vec(), ..stock.clone() },
        Order { count: Some(23), ..stock.clone() },
        Order { count: Some(23), length: Some(AskedLength::Overall(mm(5_600))), ..stock.clone() },
        Order { length: Some(AskedLength::Overall(mm(5_600))), ..stock.clone() },
        Order { parity: Some(Parity::Odd), ..stock.clone() },
        Order { min_gap: Some(mm(20)), ..stock.clone() },
        Order { min_gap: Some(mm(20)), max_gap: Some(mm(30)), ..stock.clone() },
        Order { tail: mm(300), tail_given: true, ..stock.clone() },
        Order { ends: ends(tie(None)), ..stock.clone() },
        Order { ends: ends(tie(Some(mm(300)))), ..stock.clone() },
        Order {
            ends: ends(End { style: EndStyle::Loop, slips: Some(true), ..End::default() }),
            ..stock.clone()
        },
    ];
    for order in offered {
        assert_eq!(found(&order).applies, Some(true), "{order:?}");
    }
    let end = |end: End| Order { ends: ends(end), ..stock.clone() };
    let looped = |perimeter| End { style: EndStyle::Loop, perimeter, ..End::default() };
    let own = [
        (Order { length: Some(AskedLength::Flagged(mm(5_001))), ..stock.clone() }, "no stock length"),
        (Order { length: Some(AskedLength::Overall(mm(5_000))), ..stock.clone() }, "no stock length"),
        (Order { length: None, count: Some(9), ..stock.clone() }, "no stock length"),
        // the usual gap is kept and the rest goes to the tails: 4 810 mm flagged
        (Order { leftover: Leftover::Tails, ..stock.clone() }, "no stock length"),
        (Order { letters: vec![Some(String::from("A"))], ..stock.clone() }, "a lettering"),
        (Order { width: mm(189), ..stock.clone() }, "a size"),
        (Order { drop: mm(211), ..stock.clone() }, "a size"),
        (Order { shape: Shape::Rectangle, ..stock.clone() }, "a size"),
        // wider at the top edge, and so is the string
        (Order { size_at: SizeAt::BindingEdge, ..stock.clone() }, "no stock length"),
        (Order { count: Some(22), ..stock.clone() }, "a number of pennants"),
        (Order { parity: Some(Parity::Even), ..stock.clone() }, "a number of pennants"),
        (Order { gap: mm(60), ..stock.clone() }, "a number of pennants"),
        (Order { tail: mm(301), ..stock.clone() }, "gaps or tails"),
        (end(tie(Some(mm(777)))), "an end"),
        (end(tie(Some(mm(299)))), "an end"),
        (end(End { second_tie: Some(mm(333)), ..tie(None) }), "an end"),
        (end(looped(Some(mm(77)))), "an end"),
        (end(End { breakaway: Some(Force::from_newtons(30)), ..looped(None) }), "an end"),
    ];
    for (order, why) in own {
        let found = found(&order);
        assert_eq!(found.applies, Some(false), "{order:?}");
        assert!(
            found.reason.contains("own specification (") && found.reason.contains(why),
            "{why}: {found:?}"
        );
        assert!(found.source.contains("28(1)(b)"));
    }
    let to = |country: &str| found(&Order { country: country.to_owned(), ..stock.clone() });
    assert!(to("FR").source.contains("2011/83/EU Art. 16(c)") && to("FR").source.contains("look"));
    assert_eq!(to("FR").applies, Some(true));
    for country in ["US", "CH", "NO", "JP"] {
        assert_eq!(to(country).applies, None);
        assert!(to(country).reason.contains("not looked at") && to(country).source.is_empty());
    }
}
