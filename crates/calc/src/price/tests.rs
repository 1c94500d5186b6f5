use pennantry_measure::{Mass, Rate};
use proptest::prelude::*;

use super::*;
use crate::cutting::cloth;
use crate::fixture::{mm, order, shop};
use crate::outline::Finished;
use crate::shop::Shape;
use crate::table::{millionths, rows};

const TABLE: &str = include_str!("../../tables/price.csv");

fn minor(minor: i64) -> Money {
    Money::from_minor(minor)
}

fn percent(milli: i64) -> Percent {
    Percent::from_milli(milli)
}

#[test]
fn the_table_of_prices_is_met() {
    let all = rows(TABLE, ["id", "function", "amount", "rate", "expected", "net", "source", "grade"]);
    for [id, function, amount, rate, expected, net, source, grade] in &all {
        // amounts are in the major unit of a currency with two digits
        let money = |text: &str| minor(millionths(text) / 10_000);
        let share = || percent(millionths(rate) / 1_000);
        let got = match function.as_str() {
            "markup" => from_cost(money(amount), Surplus::Markup(share()), percent(0)),
            "margin" => from_cost(money(amount), Surplus::Margin(share()), percent(0)),
            "included_tax" => {
                let tax = included_tax(money(amount), share());
                assert_eq!(money(amount) - tax, money(net), "{id}: the net");
                tax
            }
            // a rate finer than money, times one metre
            "half_up" => {
                let rate = Rate::from_micro_minor(millionths(amount) * 100);
                rate.per_metre(mm(1_000), Rounding::HalfUp)
            }
            other => panic!("{id}: no function {other}"),
        };
        assert_eq!(got, money(expected), "{id}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 45, "rows of the table");
}

/// The story at a clearance of 6, by hand (derived). Cloth 0.5, 0.5 and 0.3 m at 8.00:
/// 4.00, 4.00, 2.40. Binding 6.82 m at 0.60: 4.092. Bench 15 + 29 · 2.5 + 6.8 · 2 =
/// 101.1 minutes at 15.00 an hour: 25.275. Cost 39.77; margin 40 %: 66.28 (66.283);
/// tax 20 %: 79.54 (79.536).
#[test]
fn the_story_is_priced_as_by_hand() {
    let (shop, order) = (shop(), order());
    let finished = Finished { shape: Shape::Triangle, width: mm(190), drop: mm(210), detail: mm(0) };
    let cloth = cloth(&shop, &order, &finished, &[(0, 10), (1, 10), (2, 9)]).expect("cloth");
    let bench = BenchTime::from_milli_minutes(101_100);
    let price =
        price(&shop, &Taken { cloth: &cloth, binding: minor(409), thread: minor(0), used: &[], bench });
    let costs: Vec<(CostKind, i64)> = price.cost_lines.iter().map(|l| (l.kind, l.amount.minor())).collect();
    let cloth_lines = [(CostKind::Cloth(0), 400), (CostKind::Cloth(1), 400), (CostKind::Cloth(2), 240)];
    let others = [
        (CostKind::Binding, 409),
        (CostKind::Thread, 0),
        (CostKind::Bench, 2_528),
        (CostKind::Surplus, 6_628 - 3_977),
    ];
    assert_eq!(costs, [&cloth_lines[..], &others[..]].concat());
    assert_eq!(price.lines, [Line { kind: LineKind::Goods, amount: minor(7_954) }]);
    assert_eq!((price.total, price.tax, price.net), (minor(7_954), minor(1_326), minor(6_628)));
    assert_eq!(price.cost, minor(3_977));
    assert!(price.notices.is_empty());
}

#[test]
fn a_small_order_is_brought_up_to_the_least_charge() {
    let shop = shop();
    let taken = Taken {
        cloth: &[],
        binding: minor(60),
        thread: minor(0),
        used: &[],
        bench: BenchTime::from_milli_minutes(10_000),
    };
    let small = price(&shop, &taken);
    // cost 0.60 + 2.50, net 5.17, goods 6.20
    let lines: Vec<(LineKind, i64)> = small.lines.iter().map(|l| (l.kind, l.amount.minor())).collect();
    assert_eq!(lines, [(LineKind::Goods, 620), (LineKind::MinimumCharge, 880)]);
    assert_eq!((small.total, small.tax, small.net), (minor(1_500), minor(250), minor(1_250)));
    assert_eq!(small.cost_lines.last().map(|line| line.amount), Some(minor(1_250 - 310)));
    let told: Vec<_> = small.notices.iter().map(|n| (n.code, n.field)).collect();
    assert_eq!(told, [(Code::MinimumCharge, None)]);
    let message = &small.notices[0].message;
    assert!(message.contains("6.20 GBP") && message.contains("15.00 GBP"), "{message}");
    // exactly the least charge is not below it
    let mut least = shop.clone();
    least.pricing.minimum = minor(620);
    let exact = price(&least, &taken);
    assert_eq!((exact.lines.len(), exact.notices.len()), (1, 0));
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
}

#[test]
fn a_margin_of_everything_still_covers_the_cost() {
    for share in [99_999, 100_000, 250_000] {
        let price = from_cost(minor(100), Surplus::Margin(percent(share)), percent(0));
        assert_eq!(price, minor(10_000_000));
    }
}

fn surpluses() -> impl Strategy<Value = Surplus> {
    prop_oneof![
        (0_i64..100_000).prop_map(|milli| Surplus::Margin(percent(milli))),
        (0_i64..=400_000).prop_map(|milli| Surplus::Markup(percent(milli))),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn invariant_05_lines_sum_to_the_total_and_costs_to_the_net(
        surplus in surpluses(),
        tax in 0_i64..=30_000,
        minimum in 0_i64..=10_000,
        rates in (0_i64..=5_000_000_000, 0_i64..=9_000_000_000),
        counts in (0_u32..200, 1_u32..200, 0_u32..200),
        bench in 0_i64..=3_000_000,
        other in (0_i64..=20_000, 0_i64..=20_000, 0_i64..=20_000),
    ) {
        let mut shop = shop();
        shop.pricing.surplus = surplus;
        shop.pricing.tax_rate = percent(tax);
        shop.pricing.minimum = minor(minimum);
        shop.fabrics.iter_mut().for_each(|fabric| fabric.price = Rate::from_micro_minor(rates.0));
        shop.bench.wage = Rate::from_micro_minor(rates.1);
        let hung = [(0, counts.0), (1, counts.1), (2, counts.2)];
        let finished = Finished { shape: Shape::Triangle, width: mm(190), drop: mm(210), detail: mm(0) };
        let cloth = cloth(&shop, &order(), &finished, &hung).expect("cloth");
        let bench = BenchTime::from_milli_minutes(bench);
        let bag = Used {
            kind: UsedKind::Sundry(0),
            count: 1,
            cost: minor(other.2),
            mass: Mass::ZERO,
            packing: true,
        };
        let (binding, thread) = (minor(other.0), minor(other.1));
        let price = price(&shop, &Taken { cloth: &cloth, binding, thread, used: &[bag], bench });
        prop_assert_eq!(price.lines.iter().map(|line| line.amount).sum::<Money>(), price.total);
        prop_assert_eq!(price.net + price.tax, price.total);
        prop_assert_eq!(price.cost_lines.iter().map(|line| line.amount).sum::<Money>(), price.net);
        prop_assert!(price.total >= shop.pricing.minimum && price.tax >= Money::ZERO);
        let own: Money =
            price.cost_lines.iter().filter(|l| l.kind != CostKind::Surplus).map(|line| line.amount).sum();
        prop_assert_eq!(own, price.cost);
        prop_assert_eq!(price.lines.len() > 1, !price.notices.is_empty());
    }

    #[test]
    fn more_cost_never_makes_a_lower_price(
        surplus in surpluses(),
        tax in 0_i64..=30_000,
        cost in 0_i64..=10_000_000,
        more in 1_i64..=10_000,
    ) {
        let price = |cost| from_cost(minor(cost), surplus, percent(tax));
        prop_assert!(price(cost + more) >= price(cost));
        prop_assert!(price(cost) >= minor(cost));
    }

    #[test]
    fn invariant_05_a_refund_mirrors_its_charge(
        surplus in surpluses(),
        tax in 0_i64..=30_000,
        amount in 0_i64..=1_000_000_000,
        rate in 0_i64..=9_000_000_000,
    ) {
        let (amount, rate_of) = (minor(amount), Rate::from_micro_minor);
        prop_assert_eq!(included_tax(-amount, percent(tax)), -included_tax(amount, percent(tax)));
        prop_assert_eq!(from_cost(-amount, surplus, percent(tax)), -from_cost(amount, surplus, percent(tax)));
        let length = Length::from_um(amount.minor());
        let charge = rate_of(rate).per_metre(length, Rounding::HalfUp);
        prop_assert_eq!(rate_of(-rate).per_metre(length, Rounding::HalfUp), -charge);
    }

    #[test]
    fn tax_is_the_nearest_to_its_share(gross in 0_i64..=1_000_000, rate in 0_i64..=30_000) {
        let tax = i128::from(included_tax(minor(gross), percent(rate)).minor());
        let (gross, rate) = (i128::from(gross), i128::from(rate));
        // |tax - gross r / (100 + r)| is at most a half, a half going up
        let twice_off = 2 * (tax * (100_000 + rate) - gross * rate);
        prop_assert!(-(100_000 + rate) < twice_off && twice_off <= 100_000 + rate, "{twice_off}");
    }
}
