//! Reorder point and quantity together.

use proptest::prelude::*;

use super::{close, many, some};
use crate::supply::policy::normal::{self, Costs, expected_level, point_for, quantity_then_point};
use crate::supply::policy::poisson::{self, point_and_level, reorder_and_quantity};
use crate::supply::safety::Spread;

/// Nahmias, mustard: 200 a year, an order 50, keeping 2, a jar wanting 25, lead-time demand
/// 100 and 25. In print 111 and 143; digits by scipy.
#[test]
fn mustard() {
    let costs = Costs { fixed: 50.0, holding: 2.0, wanting: 25.0, demand: 200.0 };
    let lead = Spread { mean: 100.0, sd: 25.0 };
    close("first point", point_for(&costs, lead, 100.0).unwrap().point, 143.767151781);
    let found = expected_level(&costs, lead).unwrap();
    close("quantity", found.quantity, 110.773737476);
    close("point", found.point, 142.568198987);
    close("z", found.z, 1.7027279595);
    close("wanting", found.wanting, 0.45416418287);
}

/// Snyder and Shen, example 5.1 and problem 5.1 by the expected level, and the example by
/// quantity and point; stockpyl with a tolerance of 1e-12.
#[test]
fn normal_policies_in_print() {
    let costs = Costs { fixed: 8.0, holding: 0.225, wanting: 7.5, demand: 1300.0 };
    let lead = Spread { mean: 1300.0 / 12.0, sd: 150.0 * (1.0_f64 / 12.0).sqrt() };
    let found = expected_level(&costs, lead).unwrap();
    close("point", found.point, 213.970442126);
    close("quantity", found.quantity, 318.590181087);
    close("cost", found.cost(&costs, lead), 95.4511402229);
    let found = quantity_then_point(&costs, lead).unwrap();
    close("point", found.point, 190.336996572);
    close("quantity", found.quantity, 304.046780026);
    let costs = Costs { fixed: 50.0, holding: 3.1, wanting: 45.0, demand: 800.0 };
    let length: f64 = 4.0 / 365.0;
    let lead = Spread { mean: 800.0 * length, sd: 40.0 * length.sqrt() };
    let found = expected_level(&costs, lead).unwrap();
    close("point", found.point, 17.97264936);
    close("quantity", found.quantity, 162.123161729);
    close("cost", found.cost(&costs, lead), 531.118932183);
}

/// Snyder and Shen, example 5.8 and problem 5.2; stockpyl, exact.
#[test]
fn points_and_quantities_of_counts() {
    let costs = poisson::Costs { fixed: 100.0, holding: 20.0, wanting: 150.0 };
    let found = reorder_and_quantity(&costs, 1.5, 2.0).unwrap();
    assert_eq!((found.point, found.amount), (3, 5));
    close("example 5.8", found.cost, 107.923580633);
    let costs = poisson::Costs { fixed: 4.0, holding: 4.0, wanting: 28.0 };
    let found = reorder_and_quantity(&costs, 12.0, 0.5).unwrap();
    assert_eq!((found.point, found.amount), (6, 7));
    close("problem 5.2", found.cost, 28.2413128422);
}

/// Snyder and Shen, example 4.7 and problem 4.31; stockpyl, exact.
#[test]
fn points_and_levels_of_counts() {
    let found = point_and_level(&poisson::Costs { fixed: 5.0, holding: 1.0, wanting: 4.0 }, 6.0).unwrap();
    assert_eq!((found.point, found.amount), (4, 10));
    close("example 4.7", found.cost, 8.03411156147);
    let found =
        point_and_level(&poisson::Costs { fixed: 150.0, holding: 40.0, wanting: 125.0 }, 4.0).unwrap();
    assert_eq!((found.point, found.amount), (2, 7));
    close("problem 4.31", found.cost, 223.574829567);
}

#[test]
fn what_has_no_answer_says_what_to_change() {
    let lead = Spread { mean: 100.0, sd: 25.0 };
    let cheap = Costs { fixed: 50.0, holding: 2.0, wanting: 0.1, demand: 200.0 };
    let error = expected_level(&cheap, lead).unwrap_err().to_string();
    let words =
        "the point of (r, Q) has no answer; raise the cost of a unit wanting until Q h / (p D) is below 1";
    assert_eq!(error, words);
    let dear = poisson::Costs { fixed: 1e9, holding: 1.0, wanting: 4.0 };
    for error in
        [reorder_and_quantity(&dear, 6.0, 1.0).unwrap_err(), point_and_level(&dear, 6.0).unwrap_err()]
    {
        assert!(error.to_string().contains("at most 500 positions are looked at"), "{error}");
    }
    assert!(point_and_level(&poisson::Costs { fixed: f64::NAN, ..dear }, 6.0).is_err());
}

proptest! {
    #![proptest_config(many())]

    /// What comes out satisfies both equations it was iterated from.
    #[test]
    fn an_iterated_policy_satisfies_both_equations(
        fixed in 1.0_f64..200.0, holding in 0.1_f64..5.0, wanting in 5.0_f64..100.0, demand in 50.0_f64..5_000.0, mean in 0.0_f64..500.0, sd in 1.0_f64..100.0,
    ) {
        let costs = Costs { fixed, holding, wanting, demand };
        let lead = Spread { mean, sd };
        let found = expected_level(&costs, lead);
        prop_assume!(found.is_ok());
        let found: normal::PointAndQuantity = found.unwrap();
        let point = point_for(&costs, lead, found.quantity).unwrap();
        prop_assert!((point.point - found.point).abs() < 1e-8 * (1.0 + found.point.abs()));
        let quantity = (2.0 * demand * (fixed + wanting * point.wanting) / holding).sqrt();
        prop_assert!((quantity - found.quantity).abs() < 1e-8 * (1.0 + quantity));
        prop_assert!(found.turns < 500);
    }
}

/// `(r, Q)` and `(s, S)` by their definitions, summed anew.
mod again {
    use crate::supply::counts::Counts;
    use crate::supply::policy::poisson::Costs;

    fn whole(n: i64) -> f64 {
        f64::from(i32::try_from(n).unwrap())
    }

    fn shares(mean: f64) -> Vec<f64> {
        let counts = Counts::poisson(mean).unwrap();
        (0..200).map(|k| counts.share(k)).collect()
    }

    fn position(costs: &Costs, mean: f64, shares: &[f64], y: i64) -> f64 {
        let wanting: f64 = (0_i64..).zip(shares).map(|(k, share)| whole((k - y).max(0)) * share).sum();
        costs.holding * (whole(y) - mean + wanting) + costs.wanting * wanting
    }

    pub fn reorder_and_quantity(costs: &Costs, rate: f64, lead: f64, point: i64, amount: i64) -> f64 {
        let shares = shares(rate * lead);
        let sum: f64 = (point + 1..=point + amount).map(|y| position(costs, rate * lead, &shares, y)).sum();
        (costs.fixed * rate + sum) / whole(amount)
    }

    /// By the chain of positions after ordering, to its steady state: no renewal function.
    pub fn point_and_level(costs: &Costs, rate: f64, point: i64, level: i64) -> f64 {
        let shares = shares(rate);
        let states = usize::try_from(level - point).unwrap();
        let kept: Vec<f64> = (point + 1..=level).rev().map(|y| position(costs, rate, &shares, y)).collect();
        let mut at = vec![0.0; states];
        at[0] = 1.0;
        let mut cost = 0.0;
        for _ in 0..3_000 {
            let mut next = vec![0.0; states];
            cost = 0.0;
            for (below, share) in at.iter().enumerate() {
                let mut stays = 0.0;
                for (moved, here) in next.iter_mut().skip(below).zip(&shares) {
                    *moved += share * here;
                    stays += here;
                }
                next[0] += share * (1.0 - stays);
                cost += share * (kept[below] + (1.0 - stays) * costs.fixed);
            }
            at = next;
        }
        cost
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..some() })]

    /// The cost told is the cost by definition, and no neighbour is cheaper.
    #[test]
    fn no_neighbour_of_a_point_and_quantity_is_cheaper(fixed in 1.0_f64..60.0, wanting in 2.0_f64..20.0, rate in 0.5_f64..8.0, lead in 0.2_f64..3.0) {
        let costs = poisson::Costs { fixed, holding: 1.0, wanting };
        let found = reorder_and_quantity(&costs, rate, lead).unwrap();
        let cost = |r, q| again::reorder_and_quantity(&costs, rate, lead, r, q);
        prop_assert!((cost(found.point, found.amount) - found.cost).abs() < 1e-8);
        for r in found.point - 3..=found.point + 3 {
            for q in (found.amount - 3).max(1)..=found.amount + 3 {
                prop_assert!(cost(r, q) >= found.cost - 1e-8, "({r}, {q}) against {found:?}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, ..some() })]

    #[test]
    fn no_neighbour_of_a_point_and_level_is_cheaper(fixed in 1.0_f64..30.0, wanting in 2.0_f64..12.0, rate in 1.0_f64..5.0) {
        let costs = poisson::Costs { fixed, holding: 1.0, wanting };
        let found = point_and_level(&costs, rate).unwrap();
        let cost = |s, top| again::point_and_level(&costs, rate, s, top);
        prop_assert!((cost(found.point, found.amount) - found.cost).abs() < 1e-6);
        for s in found.point - 1..=found.point + 1 {
            for top in found.amount - 1..=found.amount + 1 {
                if s < top {
                    prop_assert!(cost(s, top) >= found.cost - 1e-6, "({s}, {top}) against {found:?}");
                }
            }
        }
    }
}
