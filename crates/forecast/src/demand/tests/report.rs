//! Figures of the report, censored demand and one-off jobs.

use proptest::prelude::*;

use super::{near, printed, same};
use crate::demand::Error;
use crate::demand::censored::{normal, poisson};
use crate::demand::kpi::Abc::{A, B, C};
use crate::demand::kpi::{Cut, Moving, abc, days_of_cover, moving, wastage};
use crate::demand::one_off::cap;

/// Cumulative shares 0.52, 0.78, 0.87, 0.92, 0.95, …: by what stands before an item.
#[test]
fn abc_of_ten_items() {
    let values = [5_200, 2_600, 900, 500, 300, 200, 150, 80, 50, 20];
    assert_eq!(abc(&values).unwrap(), [A, A, A, B, B, C, C, C, C, C]);
    let mut turned = values;
    turned.reverse();
    assert_eq!(abc(&turned).unwrap(), [C, C, C, C, C, B, B, A, A, A]);
    // what stands before is exactly 80 %, and exactly 95 %
    assert_eq!(abc(&[80, 15, 5]), Ok(vec![A, B, C]));
    assert_eq!(abc(&[]), Ok(vec![]));
    assert_eq!(abc(&[0, 0]), Ok(vec![C, C]));
    assert_eq!(abc(&[7]), Ok(vec![A]));
    assert_eq!(abc(&[i64::MAX, i64::MAX, 0]), Ok(vec![A, A, C]));
    assert_eq!(abc(&[1, -1]), Err(Error::Negative { at: 1, amount: -1.0 }));
}

/// 1 840 on hand, 260 of them promised, 36.5 a day.
#[test]
fn cover_of_what_is_available() {
    printed(days_of_cover(1_840 - 260, 36.5).unwrap(), "43.2876712329");
    assert_eq!(days_of_cover(-5, 36.5), Some(0.0));
    for rate in [0.0, -1.0, f64::NAN] {
        assert_eq!(days_of_cover(1_580, rate), None, "{rate}");
    }
    // so little use that no number of days says it
    assert_eq!(days_of_cover(1_580, 5e-324), None);
}

#[test]
fn dead_after_180_days_or_six_intervals() {
    assert_eq!(moving(0, 1_000, None), Moving::NothingOnHand);
    assert_eq!(moving(-3, 1_000, None), Moving::NothingOnHand);
    assert_eq!((moving(5, 179, None), moving(5, 180, None)), (Moving::Live, Moving::Dead));
    assert_eq!((moving(5, 239, Some(40.0)), moving(5, 240, Some(40.0))), (Moving::Live, Moving::Dead));
    assert_eq!(moving(5, 180, Some(f64::NAN)), Moving::Dead);
}

/// 3.20 m of 1.12 m, 2.86 m² in pieces; and with 0.45 m brought back.
#[test]
fn wastage_of_a_cut() {
    let cut = Cut { issued: 3_200, returned: 0, width: 1_120, net_area: 2_860_000, end_bits: 0, flaws: 0 };
    printed(wastage(&cut).unwrap().share.unwrap(), "0.202008928571");
    printed(wastage(&Cut { returned: 450, ..cut }).unwrap().share.unwrap(), "0.071428571429");
    let split = wastage(&Cut { end_bits: 300_000, flaws: 24_000, ..cut }).unwrap();
    assert_eq!((split.consumed, split.wasted, split.layout), (3_584_000, 724_000, 400_000));
    let none = Cut { issued: 0, returned: 0, width: 1_120, net_area: 0, end_bits: 0, flaws: 0 };
    assert_eq!(wastage(&none).unwrap().share, None);
    let below = |cut: Cut| match wastage(&cut) {
        Err(Error::BelowNought { what, by }) => (what, by),
        other => panic!("{other:?}"),
    };
    assert_eq!(below(Cut { returned: 3_201, ..cut }), ("what was kept", 1));
    assert_eq!(below(Cut { net_area: 3_584_001, ..cut }), ("what was wasted", 1));
    assert_eq!(below(Cut { end_bits: 700_000, flaws: 24_001, ..cut }), ("waste between the pieces", 1));
    assert_eq!(below(Cut { flaws: -7, ..cut }), ("the area left out for flaws", 7));
    let huge = Cut { issued: i64::MAX, width: i64::MAX, net_area: i128::MAX, end_bits: i128::MAX, ..cut };
    assert_eq!(below(huge).0, "what was wasted");
}

/// scipy, by maximising the likelihood; EM comes to the same.
#[test]
fn censored_days_count_as_at_least_so_much() {
    let full = [2, 1, 3, 0, 2, 4, 1, 2];
    assert!((poisson(&full, &[3, 2]).unwrap() - 2.176_997_33).abs() < 5e-9);
    same(poisson(&full, &[]).unwrap(), 1.875);
    let full = [110.0, 95.0, 130.0, 120.0, 105.0, 90.0, 115.0];
    let found = normal(&full, &[100.0, 125.0]).unwrap();
    printed(found.mean, "112.840353");
    printed(found.deviation, "14.364859");
    let plain = normal(&[110.0, 95.0, 130.0, 120.0, 105.0, 90.0, 115.0, 100.0, 125.0], &[]).unwrap();
    same(plain.mean, 110.0);
    printed(plain.deviation, "12.909944");
}

#[test]
fn days_that_all_ran_out_have_no_rate() {
    assert_eq!((poisson(&[], &[]), poisson(&[], &[3])), (Err(Error::Empty), Err(Error::OnlyBounds)));
    assert_eq!((normal(&[], &[]), normal(&[], &[3.0])), (Err(Error::Empty), Err(Error::OnlyBounds)));
    assert_eq!(normal(&[5.0, 5.0], &[3.0]), Err(Error::NoSpread));
    assert_eq!(normal(&[5.0, -5.0], &[3.0]), Err(Error::Negative { at: 1, amount: -5.0 }));
    assert_eq!(poisson(&[1_001], &[]), Err(Error::TooGreat { at: 0, value: 1_001.0, most: 1_000.0 }));
    assert_eq!(poisson(&[1], &[0; 1_000]), Err(Error::TooMany { given: 1_001, most: 1_000 }));
    same(poisson(&[0, 0], &[]).unwrap(), 0.0);
    // that a day ran out at nought tells nothing
    same(poisson(&[3, 5], &[0, 0]).unwrap(), 4.0);
    // one full day among a thousand that ran out: an answer all the same, and soon
    let found = poisson(&[0], &[1_000; 999]).unwrap();
    assert!(found.is_finite() && found > 1_000.0, "{found}");
    let bounds: Vec<u32> = (1..1_000).collect();
    assert!(poisson(&[0], &bounds).unwrap() > 500.0);
    // a bound beyond all reason is followed as far as there are rounds for
    match normal(&[1.0, 2.0], &[9e15]) {
        Ok(found) => assert!(found.mean.is_finite() && found.deviation.is_finite()),
        Err(error) => assert_eq!(error, Error::NotSettled),
    }
    match normal(&[1.0, 2.0], &[1_000.0; 998]) {
        Ok(found) => assert!(found.mean > 900.0, "{found:?}"),
        Err(error) => assert_eq!(error, Error::NotSettled),
    }
}

/// The likelihood itself, summed, is nowhere greater than at the estimate.
#[test]
fn an_estimate_is_where_the_likelihood_is_greatest() {
    let (full, bounds) = ([2_u32, 1, 3, 0, 2, 4, 1, 2], [3_u32, 2]);
    let log = |rate: f64| {
        let one = |count: u32| (1..=count).fold(libm::exp(-rate), |chance, at| chance * rate / f64::from(at));
        let tail = |bound: u32| 1.0 - (0..bound).map(one).sum::<f64>();
        full.iter()
            .map(|&count| libm::log(one(count)))
            .chain(bounds.iter().map(|&b| libm::log(tail(b))))
            .sum::<f64>()
    };
    let best = poisson(&full, &bounds).unwrap();
    for off in [1e-3, 1e-2, 0.1, 1.0] {
        assert!(log(best) > log(best - off) && log(best) > log(best + off), "{off}");
    }
}

#[test]
fn what_is_a_habit_is_not_capped() {
    // fewer than five demands: nothing says what is usual
    assert!(cap(&[1.0, 1.0, 1.0, 500.0]).unwrap().1.is_empty());
    // two of ten are oftener than one in twenty
    let often = [5.0, 5.0, 5.0, 5.0, 5.0, 5.0, 5.0, 5.0, 90.0, 80.0];
    assert_eq!(cap(&often).unwrap(), (often.to_vec(), vec![]));
    let (values, capped) = cap(&often[..9]).unwrap();
    assert_eq!((values[8], capped[0].at, capped[0].used), (15.0, 8, 90.0));
    assert_eq!(cap(&[0.0; 30]).unwrap().1.len(), 0);
    // FPP2's productC: 11 is no more than its habit
    assert!(cap(&super::values(&super::PRODUCT_C)).unwrap().1.is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(20_000) })]

    /// Each item has one class, classes fall with values, and there is an A wherever there
    /// is use.
    #[test]
    fn abc_falls_with_values(values in prop::collection::vec(0_i64..10_000, 0..30)) {
        let classes = abc(&values).unwrap();
        prop_assert_eq!(classes.len(), values.len());
        for (value, class) in values.iter().zip(&classes) {
            for (other, below) in values.iter().zip(&classes) {
                prop_assert!(value <= other || class <= below);
            }
        }
        let sum = |wanted: &[super::super::kpi::Abc]| -> i64 {
            values.iter().zip(&classes).filter(|(_, class)| wanted.contains(class)).map(|(value, _)| value).sum()
        };
        let total: i64 = values.iter().sum();
        prop_assert_eq!(sum(&[A, B, C]), total);
        prop_assert!(total == 0 || (5 * sum(&[A]) >= 4 * total && 20 * sum(&[A, B]) >= 19 * total));
    }

    /// A day that ran out raises the rate wherever it tells anything, and never lowers it;
    /// the greater the bound, the more.
    #[test]
    fn bounds_raise_a_rate(full in prop::collection::vec(0_u32..40, 1..10), bounds in prop::collection::vec(1_u32..60, 1..6)) {
        let plain = poisson(&full, &[]).unwrap();
        let found = poisson(&full, &bounds).unwrap();
        prop_assert!(found.is_finite() && found >= plain * (1.0 - 1e-9), "{plain} {found}");
        let mut higher = bounds.clone();
        higher[0] += 1;
        prop_assert!(poisson(&full, &higher).unwrap() >= found * (1.0 - 1e-9));
    }

    /// Capping leaves what is usual, never raises anything, and is the same in any unit.
    #[test]
    fn capping_only_lowers(all in prop::collection::vec(prop_oneof![Just(0_u32), 1_u32..50, 1_u32..100_000], 1..60)) {
        let values: Vec<f64> = all.iter().copied().map(f64::from).collect();
        let (found, capped) = cap(&values).unwrap();
        prop_assert_eq!(found.iter().zip(&values).filter(|(found, value)| found < value).count(), capped.len());
        for one in &capped {
            prop_assert!(one.counts_as < one.used && one.counts_as > 0.0);
            prop_assert_eq!((found[one.at], values[one.at]), (one.counts_as, one.used));
        }
        let fine: Vec<f64> = values.iter().map(|value| value * 64.0).collect();
        let (fine, _) = cap(&fine).unwrap();
        for (found, fine) in found.iter().zip(fine) {
            prop_assert!(near(found * 64.0, fine, 1e-12));
        }
    }
}
