//! Quantities, bolts and minimums, one-off buys.

use proptest::prelude::*;

use super::{close, many, some};
use crate::supply::counts::Counts;
use crate::supply::lead::Distribution;
use crate::supply::lot::Lot;
use crate::supply::lot::economic::Economic;
use crate::supply::lot::newsvendor::{Demand, Newsvendor};
use crate::supply::safety::Spread;

/// Snyder and Shen, example 3.1 and problem 3.1; stockpyl.
#[test]
fn economic_quantities_in_print() {
    let example = Economic::new(8.0, 0.225, 1300.0).unwrap();
    close("example 3.1", example.quantity(), 304.046780026);
    close("its cost", example.least_cost(), 68.4105255059);
    close("the same by the other formula", example.cost(example.quantity()).unwrap(), 68.4105255059);
    let problem = Economic::new(2250.0, 275.0, 182500.0).unwrap();
    close("problem 3.1", problem.quantity(), 1728.10984499);
    close("its cost", problem.least_cost(), 475230.207373);
}

/// Nahmias, pencils: 60 a week, an order 12.00, 2 cents apiece at 25 % a year: 3870.
#[test]
fn pencils() {
    let pencils = Economic::new(12.0, 0.02 * 0.25, 3120.0).unwrap();
    close("pencils", pencils.quantity(), 3869.88371918);
    assert_eq!(pencils.bought(&Lot::new(1, 0).unwrap()).unwrap().amount, 3870);
}

/// Formula: half as much again costs `(1.5 + 1 / 1.5) / 2 = 13/12`.
#[test]
fn the_cost_is_flat() {
    let example = Economic::new(8.0, 0.225, 1300.0).unwrap();
    let more = example.cost(1.5 * example.quantity()).unwrap();
    close("ratio", more / example.least_cost(), 1.0833333333333333);
}

/// Computed with the formula by Python: 52 m a year, an order 9.50, a quarter of 4.20 a
/// year; bolts of 25 m cost 32.885 for one and 36.13 for two.
#[test]
fn cloth_in_bolts() {
    let cloth = Economic::new(9.5, 0.25 * 4.2, 52.0).unwrap();
    close("quantity", cloth.quantity(), 30.6749471222);
    close("cost", cloth.least_cost(), 32.2086944784);
    let bought = cloth.bought(&Lot::new(25, 0).unwrap()).unwrap();
    assert_eq!((bought.amount, bought.bolts), (25, 1));
    close("cost of a bolt", bought.cost, 32.885);
    close("against the least", bought.ratio, 32.885 / 32.2086944784);
    assert_eq!(cloth.bought(&Lot::new(25, 25).unwrap()).unwrap().amount, 25);
    // a least order of 40 m takes two bolts
    let two = cloth.bought(&Lot::new(25, 40).unwrap()).unwrap();
    assert_eq!((two.amount, two.bolts), (50, 2));
    close("cost of two", two.cost, 36.13);
}

/// Snyder and Shen, example 4.1 with its prices, problems 4.1 and 4.3b; stockpyl.
#[test]
fn newsvendors_of_normal_demand() {
    let unit = Lot::new(1, 0).unwrap();
    let buy = |vendor: Newsvendor, mean, sd| vendor.buy(&Demand::Normal(Spread { mean, sd }), &unit).unwrap();
    let example = buy(Newsvendor::new(0.70, 0.18).unwrap(), 50.0, 8.0);
    close("example 4.1", example.quantity, 56.6039559274);
    close("its cost", example.cost, 1.99760519318);
    let priced = buy(Newsvendor::of_prices(1.0, 0.3, 0.12).unwrap(), 50.0, 8.0);
    close("by prices", priced.quantity, 56.6039559274);
    close("its profit", 0.7 * 50.0 - priced.cost, 33.0023948068);
    assert_eq!(priced.amount, 57);
    close("profit of 57", priced.amount_profit, 0.7 * 50.0 - priced.amount_cost);
    let problem = buy(Newsvendor::new(79.0, 43.0).unwrap(), 900.0, 60.0);
    close("problem 4.1", problem.quantity, 922.721403823);
    close("its cost", problem.cost, 2718.19678178);
    let explicit = buy(Newsvendor::of_prices(7.0, 2.5, 1.5).unwrap(), 50.0, 10.0);
    close("problem 4.3b", explicit.quantity, 59.0845786854);
    close("its profit", 4.5 * 50.0 - explicit.cost, 210.476808252);
}

/// Nahmias, newsstand: ratio 0.77, 15.2, so 15.
#[test]
fn a_newsstand() {
    let vendor = Newsvendor::new(0.50, 0.15).unwrap();
    close("ratio", vendor.service().unwrap().share(), 0.769230769231);
    assert_eq!(vendor.service().unwrap().to_string(), "cycle service 76.9231 %");
    let demand = Demand::Normal(Spread { mean: 11.73, sd: 4.74 });
    let once = vendor.buy(&demand, &Lot::new(1, 0).unwrap()).unwrap();
    close("quantity", once.quantity, 15.2201374484);
    assert_eq!(once.amount, 15);
}

/// Snyder and Shen, problems 4.8a and 4.7b; stockpyl.
#[test]
fn newsvendors_of_counts_and_of_known_shares() {
    let unit = Lot::new(1, 0).unwrap();
    let poisson = Demand::Counts(Counts::poisson(18.0).unwrap());
    let once = Newsvendor::new(270.0, 200.0).unwrap().buy(&poisson, &unit).unwrap();
    assert_eq!(once.amount, 19);
    close("problem 4.8a", once.cost, 786.088440935);
    let shares = [(1, 0.25), (2, 0.05), (3, 0.1), (4, 0.2), (5, 0.15), (6, 0.1), (7, 0.1), (8, 0.05)];
    let known = Demand::Known(Distribution::new(&shares).unwrap());
    let once = Newsvendor::new(1e6, 5e5).unwrap().buy(&known, &unit).unwrap();
    assert_eq!(once.amount, 5);
    close("problem 4.7b", once.cost, 1225000.0);
}

/// Hand: demand surely 4 against bolts of 10 costs 6 left over at 1 each; to do without loses
/// 4 at 1 each.
#[test]
fn a_bolt_too_large_is_not_bought() {
    let demand = Demand::Known(Distribution::new(&[(4, 1.0)]).unwrap());
    let lot = Lot::new(10, 0).unwrap();
    let once = Newsvendor::new(1.0, 1.0).unwrap().buy(&demand, &lot).unwrap();
    assert_eq!((once.amount, once.bolts, once.amount_cost), (0, 0, 4.0));
    let once = Newsvendor::new(2.0, 1.0).unwrap().buy(&demand, &lot).unwrap();
    assert_eq!((once.amount, once.bolts, once.amount_cost), (10, 1, 6.0));
}

#[test]
fn prices_and_lots_that_cannot_be_are_refused() {
    assert!(Newsvendor::of_prices(1.0, 1.0, 0.5).is_err(), "nothing is earned");
    assert!(Newsvendor::of_prices(1.0, 0.5, 0.5).is_err(), "nothing is risked");
    assert!(Newsvendor::new(1e12, 1e-9).is_err() && Newsvendor::new(f64::NAN, 1.0).is_err());
    assert!(Economic::new(0.0, 1.0, 1.0).is_err() && Economic::new(1.0, 1.0, f64::INFINITY).is_err());
    assert_eq!(Lot::new(0, 1).unwrap_err().to_string(), "bolt length is 0; allowed is 1 to 10^12");
    assert!(Lot::new(1, -1).is_err() && Lot::new(1, 0).unwrap().round(i64::MAX).is_err());
}

proptest! {
    #![proptest_config(many())]

    /// Never below the need or the minimum, whole bolts, and not a bolt too many.
    #[test]
    fn rounding_covers_the_need_and_no_more(bolt in 1_i64..5_000, least in 0_i64..20_000, need in -5_000_i64..100_000) {
        let lot = Lot::new(bolt, least).unwrap();
        let amount = lot.round(need).unwrap();
        prop_assert_eq!(amount, lot.bolts(amount) * bolt);
        if need <= 0 {
            prop_assert_eq!(amount, 0);
        } else {
            prop_assert!(amount >= need && amount >= least);
            prop_assert!(amount - bolt < need.max(least));
        }
    }

    #[test]
    fn no_quantity_costs_less_than_the_economic_one(k in 0.01_f64..1e4, h in 0.01_f64..1e4, d in 0.01_f64..1e6, times in 0.01_f64..100.0) {
        let economic = Economic::new(k, h, d).unwrap();
        let cost = economic.cost(economic.quantity() * times).unwrap();
        let ratio = 0.5 * (times + 1.0 / times);
        prop_assert!((cost / economic.least_cost() - ratio).abs() < 1e-9 * ratio);
    }

    /// Among all amounts that can be ordered near the best, none is cheaper.
    #[test]
    fn the_cheapest_number_of_bolts_is_bought(k in 1.0_f64..100.0, h in 0.1_f64..10.0, d in 10.0_f64..5_000.0, bolt in 1_i64..60, least in 0_i64..300) {
        let economic = Economic::new(k, h, d).unwrap();
        let bought = economic.bought(&Lot::new(bolt, least).unwrap()).unwrap();
        prop_assert!(bought.amount >= least && bought.amount % bolt == 0 && bought.amount > 0);
        prop_assert!(bought.ratio >= 1.0 - 1e-12);
        for bolts in 1..=2 * bought.bolts + 2 {
            let other = bolts * bolt;
            if other >= least {
                let cost = economic.cost(f64::from(i32::try_from(other).unwrap())).unwrap();
                prop_assert!(bought.cost <= cost + 1e-9, "{bought:?} against {other}");
            }
        }
    }
}

proptest! {
    #![proptest_config(some())]

    #[test]
    fn the_cheapest_number_of_bolts_is_bought_once(
        mean in 1.0_f64..200.0, under in 0.01_f64..10.0, over in 0.01_f64..10.0, bolt in 1_i64..40, least in 0_i64..60, counts: bool,
    ) {
        let demand = if counts {
            Demand::Counts(Counts::poisson(mean).unwrap())
        } else {
            Demand::Normal(Spread { mean, sd: 0.4 * mean })
        };
        let vendor = Newsvendor::new(under, over).unwrap();
        let once = vendor.buy(&demand, &Lot::new(bolt, least).unwrap()).unwrap();
        for bolts in 0..=(once.amount / bolt) * 2 + 2 {
            let other = bolts * bolt;
            if other == 0 || other >= least {
                prop_assert!(once.amount_cost <= vendor.cost(&demand, other) + 1e-9, "{once:?} against {other}");
            }
        }
        prop_assert!(once.amount_cost >= once.cost - 1e-9);
    }
}
