//! Formulas against the tables of check values.

use pennantry_measure::Rate;

use super::*;
use crate::shop::{Day, Point, PointMode, TaxPoint};
use crate::table::{millionths, rows};

/// An amount of a currency with two digits.
fn money(text: &str) -> Money {
    let fine = millionths(text);
    assert_eq!(fine % 10_000, 0, "{text} is finer than a penny");
    minor(fine / 10_000)
}

fn all(text: &str) -> Vec<Money> {
    text.split(';').map(money).collect()
}

fn whole(text: &str) -> Vec<i64> {
    text.split(';').map(|one| one.parse().expect("a whole number")).collect()
}

/// An amount finer than money, rounded as a rate times one metre is.
fn rounded(amount: &str, rounding: Rounding) -> Money {
    Rate::from_micro_minor(millionths(amount) * 100).per_metre(mm(1_000), rounding)
}

#[test]
fn the_table_of_prices_is_met() {
    let text = include_str!("../../../tables/price.csv");
    let all = rows(text, ["id", "function", "amount", "rate", "expected", "net", "source", "grade"]);
    for [id, function, amount, rate, expected, net, source, grade] in &all {
        let share = || percent(millionths(rate) / 1_000);
        let included = |rounding| {
            let tax = included_tax(money(amount), share(), rounding);
            assert_eq!(money(amount) - tax, money(net), "{id}: the net");
            tax
        };
        let got = match function.as_str() {
            "markup" => net_target(money(amount), Surplus::Markup(share())),
            "margin" => net_target(money(amount), Surplus::Margin(share())),
            "included_tax" => included(Rounding::HalfUp),
            "included_tax_even" => included(Rounding::HalfEven),
            "added_tax" => added_tax(money(amount), share(), Rounding::HalfUp),
            "less" => less(money(amount), share()),
            "half_up" => rounded(amount, Rounding::HalfUp),
            "half_even" => rounded(amount, Rounding::HalfEven),
            "a_metre" => a_metre(money(amount), Length::from_um(millionths(rate))).expect("a length"),
            // a year's cost over its hours, for one hour
            "an_hour" => {
                let hour = millionths(amount) * 100 / (millionths(rate) / 1_000_000);
                Rate::from_micro_minor(hour).per_hour(BenchTime::from_milli_minutes(60_000), Rounding::HalfUp)
            }
            other => panic!("{id}: no function {other}"),
        };
        assert_eq!(got, money(expected), "{id}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 75, "rows of the table");
}

#[test]
fn the_table_of_fees_is_met() {
    let text = include_str!("../../../tables/fee.csv");
    let all = rows(text, ["id", "function", "amount", "percent", "fixed", "expected", "source", "grade"]);
    for [id, function, amount, share, fixed, expected, ..] in &all {
        let fee = Fee { share: percent(millionths(share) / 1_000), fixed: money(fixed) };
        let upon = Upon { fee, included: true, ..Upon::default() };
        let got = match function.as_str() {
            "gross_up" => upon.goods(money(amount)),
            "kept" => money(amount) - upon.fee_on(money(amount)),
            other => panic!("{id}: no function {other}"),
        };
        assert_eq!(got, money(expected), "{id}");
        if function == "gross_up" {
            let kept = got - upon.fee_on(got);
            assert!(kept >= money(amount) && kept <= money(amount) + minor(1), "{id}: {kept:?} is kept");
        }
    }
    assert_eq!(all.len(), 8, "rows of the table");
}

#[test]
fn the_table_of_taxes_is_met() {
    let text = include_str!("../../../tables/tax.csv");
    let columns =
        ["id", "prices", "lines", "rate", "level", "rounding", "expected", "total", "source", "grade"];
    let table = rows(text, columns);
    for [id, prices, lines, rate, level, rounding, expected, total, ..] in &table {
        let tax = Tax {
            name: String::from("VAT"),
            registration: None,
            included: prices == "gross",
            level: if level == "line" { TaxLevel::Line } else { TaxLevel::Document },
            rounding: match rounding.as_str() {
                "half-up" => Rounding::HalfUp,
                "half-even" => Rounding::HalfEven,
                "down" => Rounding::Down,
                other => panic!("{id}: no rounding {other}"),
            },
            point: TaxPoint::Order,
            rates: vec![DatedRate { from: Day(0), share: percent(millionths(rate) / 1_000) }],
        };
        let got = taxes(&tax, percent(millionths(rate) / 1_000), &all(lines));
        assert_eq!(got, all(expected), "{id}");
        assert_eq!(got.into_iter().sum::<Money>(), money(total), "{id}: the whole");
    }
    assert_eq!(table.len(), 15, "rows of the table");
}

#[test]
fn the_table_of_shares_is_met() {
    let text = include_str!("../../../tables/allocate.csv");
    let table = rows(text, ["id", "total", "weights", "expected", "source", "grade"]);
    for [id, total, weights, expected, ..] in &table {
        let shares = allocate(minor(whole(total)[0]), &whole(weights)).expect("something to share by");
        let shares: Vec<i64> = shares.into_iter().map(Money::minor).collect();
        assert_eq!(shares, whole(expected), "{id}");
    }
    assert_eq!(table.len(), 10, "rows of the table");
    // nothing to share by
    assert_eq!(allocate(minor(1), &[0, 0]), Err(NoWeight));
    assert_eq!(allocate(minor(1), &[]), Err(NoWeight));
    assert_eq!(allocate(minor(1), &[5, -5]), Err(NoWeight));
    assert_eq!(allocate(minor(0), &[]), Ok(vec![]));
}

#[test]
fn the_table_of_price_points_is_met() {
    let text = include_str!("../../../tables/point.csv");
    let columns = ["id", "mode", "endings", "step", "amount", "floor", "expected", "source", "grade"];
    let table = rows(text, columns);
    for [id, mode, endings, step, amount, floor, expected, ..] in &table {
        let mode = match mode.as_str() {
            "up" => PointMode::Up,
            "nearest" => PointMode::Nearest,
            other => panic!("{id}: no mode {other}"),
        };
        let point = Point { mode, step: whole(step)[0], endings: whole(endings) };
        let floor = (!floor.is_empty()).then(|| minor(whole(floor)[0]));
        let got = to_point(&point, minor(whole(amount)[0]), floor);
        assert_eq!(got, minor(whole(expected)[0]), "{id}");
    }
    assert_eq!(table.len(), 22, "rows of the table");
}

/// B10: three lines of 2.125, derived: each half up 2.13, so 6.39; the sum of 6.375 half up 6.38;
/// each to the even one 2.12, so 6.36. One rule at one place is what keeps them apart.
#[test]
fn a_rule_at_another_place_is_another_sum() {
    let thrice = |rounding| (0..3).map(|_| rounded("2.125", rounding)).sum::<Money>();
    assert_eq!(thrice(Rounding::HalfUp), minor(639));
    assert_eq!(rounded("6.375", Rounding::HalfUp), minor(638));
    assert_eq!(thrice(Rounding::HalfEven), minor(636));
}

/// Of the prices from 0.01 to 100.00, those of 6 k + 3 pence cannot be made from a net in whole
/// pence and 20 % of it: 1 667 of them, 24.99 among them (derived: 10 000 / 6, up).
#[test]
fn every_sixth_price_is_made_from_no_net() {
    let rate = percent(20_000);
    let mut reached = vec![false; 10_001];
    for net in 1..=10_000 {
        let gross = minor(net) + added_tax(minor(net), rate, Rounding::HalfUp);
        if let Some(seen) = usize::try_from(gross.minor()).ok().and_then(|gross| reached.get_mut(gross)) {
            *seen = true;
        }
    }
    let missed: Vec<usize> = (1..=10_000).filter(|gross| !reached[*gross]).collect();
    assert_eq!(missed.len(), 1_667);
    assert!(missed.iter().all(|gross| gross % 6 == 3) && missed.contains(&2_499));
    // here the price is what is paid, and every one of them is its net and its tax
    for gross in 1..=10_000 {
        let tax = included_tax(minor(gross), rate, Rounding::HalfUp);
        assert!(tax >= Money::ZERO && (minor(gross) - tax) + tax == minor(gross));
    }
}
