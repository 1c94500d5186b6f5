//! Safety stock, reorder point, order-up-to level.

use proptest::prelude::*;

use super::{close, many};
use crate::supply::lead::Distribution;
use crate::supply::normal::quantile;
use crate::supply::safety::{Spread, fill_rates, level, level_of, over, over_review, over_smoothed};
use crate::supply::service::Service;

fn fixed(length: f64) -> Spread {
    Spread { mean: length, sd: 0.0 }
}

/// scipy: `12 z`, `90 + 12 z` for `z` of 95 %.
#[test]
fn a_fixed_lead_time() {
    let demand = over(Spread { mean: 10.0, sd: 4.0 }, fixed(9.0)).unwrap();
    let level = level(demand, Service::cycle(0.95).unwrap(), 60.0).unwrap();
    close("safety", level.safety, 19.7382435234);
    close("level", level.level, 109.738243523);
    assert_eq!((level.whole, level.whole_safety), (110, 20));
    assert_eq!(level.service.to_string(), "cycle service 95 %");
    close("cycle service", level.cycle, 0.95);
}

/// scipy: sd `sqrt(4 * 25 + 400 * 2.25) = sqrt 1000`.
#[test]
fn a_lead_time_that_varies() {
    let demand = over(Spread { mean: 20.0, sd: 5.0 }, Spread { mean: 4.0, sd: 1.5 }).unwrap();
    close("sd", demand.sd, 31.6227766017);
    let level = level(demand, Service::cycle(0.95).unwrap(), 60.0).unwrap();
    close("safety", level.safety, 52.0148387876);
    close("level", level.level, 132.014838788);
}

/// scipy: review 7, lead time 14, 1.2 and 0.9 a day, 98 %.
#[test]
fn an_order_up_to_level() {
    let demand = over_review(Spread { mean: 1.2, sd: 0.9 }, fixed(14.0), 7.0).unwrap();
    let level = level(demand, Service::cycle(0.98).unwrap(), 8.4).unwrap();
    close("level", level.level, 33.6703138573);
    assert_eq!(level.whole, 34);
}

/// scipy: both services of one reorder point.
#[test]
fn cycle_service_and_fill_rate_are_two_things() {
    let demand = Spread { mean: 80.0, sd: 31.6227766 };
    let (one, both) = fill_rates(demand, 120.0, 60.0).unwrap();
    close("one term", one, 0.974158026712);
    close("both terms", both, 0.974270252597);
    // the level made for that fill rate is the point it came from
    let back = level(demand, Service::fill(one).unwrap(), 60.0).unwrap();
    assert!((back.level - 120.0).abs() < 1e-6, "{}", back.level);
    close("cycle service", back.cycle, 0.897048394646);
    close("fill rate", back.fill, 0.974270252597);
    assert_eq!(back.service.to_string(), "fill rate 97.4158 %");
}

/// Nahmias, mustard: 151 for type 1 and 126 for type 2 of 98 % in lots of 100; digits by
/// scipy.
#[test]
fn type_1_and_type_2() {
    let demand = Spread { mean: 100.0, sd: 25.0 };
    let first = level(demand, Service::cycle(0.98).unwrap(), 100.0).unwrap();
    close("type 1", first.level, 151.343722766);
    let second = level(demand, Service::fill(0.98).unwrap(), 100.0).unwrap();
    close("type 2", second.level, 125.530971939);
    assert!(second.fill >= 0.98 && second.cycle < 0.85, "{second:?}");
}

/// Hand: `1 + 1.2^2 + 1.4^2 + 1.6^2 = 6.96`, where four independent buckets make 4.
#[test]
fn a_level_that_is_smoothed_needs_more() {
    let bucket = Spread { mean: 3.0, sd: 1.0 };
    close("sd", over_smoothed(bucket, 4, 0.2).unwrap().sd, 2.63818119165);
    close("mean", over_smoothed(bucket, 4, 0.2).unwrap().mean, 12.0);
    close("sd", over_smoothed(bucket, 4, 0.0).unwrap().sd, 2.0);
    close("sd", over_smoothed(bucket, 0, 0.2).unwrap().sd, 0.0);
    for alpha in [0.05, 0.3, 1.0] {
        for length in [1_u32, 2, 7, 40] {
            let sum: f64 = (0..length).map(|j| (1.0 + f64::from(j) * alpha).powi(2)).sum();
            close("term by term", over_smoothed(bucket, length, alpha).unwrap().sd, sum.sqrt());
        }
    }
}

/// Hand: of 0 (half), 3 (three tenths), 7 (two tenths), 2 are wanting beyond 2 at
/// `0.3 + 1.0 = 1.3`, beyond 3 at 0.8, beyond 5 at 0.4.
#[test]
fn levels_of_a_known_distribution() {
    let demand = Distribution::new(&[(0, 0.5), (3, 0.3), (7, 0.2)]).unwrap();
    let cycle = |share| level_of(&demand, Service::cycle(share).unwrap(), 10).unwrap();
    assert_eq!([0.5, 0.8, 0.81].map(|share| cycle(share).whole), [0, 3, 7]);
    close("cycle service", cycle(0.6).cycle, 0.8);
    // 92 % of lots of 10: 0.8 may be wanting, and nothing is wanting beyond 13
    let fill = level_of(&demand, Service::fill(0.92).unwrap(), 10).unwrap();
    assert_eq!(fill.whole, 3);
    close("fill rate", fill.fill, 0.92);
    // 96 %: 0.4 may be, which is so from 5 on
    assert_eq!(level_of(&demand, Service::fill(0.96).unwrap(), 10).unwrap().whole, 5);
    // in lots of 2, what is wanting beyond 5 counts against what is beyond 3
    close("second term", level_of(&demand, Service::fill(0.6).unwrap(), 2).unwrap().fill, 0.8);
}

#[test]
fn no_safety_stock_is_below_nought() {
    let demand = Spread { mean: 50.0, sd: 20.0 };
    for service in [Service::cycle(0.2).unwrap(), Service::fill(0.2).unwrap()] {
        let level = level(demand, service, 60.0).unwrap();
        assert_eq!((level.safety, level.whole), (0.0, 50));
    }
    let certain = level(fixed(50.0), Service::fill(0.999).unwrap(), 60.0).unwrap();
    assert_eq!((certain.whole, certain.cycle, certain.fill), (50, 1.0, 1.0));
}

#[test]
fn what_cannot_be_is_refused_by_name() {
    let bucket = Spread { mean: 3.0, sd: 1.0 };
    let refused = [
        over(Spread { mean: f64::NAN, sd: 1.0 }, fixed(1.0)).unwrap_err(),
        over(bucket, fixed(-1.0)).unwrap_err(),
        over(bucket, Spread { mean: 1.0, sd: f64::INFINITY }).unwrap_err(),
        over_smoothed(bucket, 4, 1.5).unwrap_err(),
        over_smoothed(bucket, 20_000, 0.1).unwrap_err(),
        over_review(bucket, fixed(1.0), -2.0).unwrap_err(),
        level(bucket, Service::cycle(0.9).unwrap(), 0.0).unwrap_err(),
        fill_rates(fixed(4.0), 5.0, 1.0).unwrap_err(),
    ];
    let words = [
        "mean is NaN; allowed is 0 to 10^12",
        "lead time is -1; allowed is 0 to 10000 buckets",
        "sd of the lead time is inf; allowed is 0 to 10000 buckets",
        "smoothing constant is 1.5; allowed is 0 to 1",
        "lead time is 20000; allowed is 0 to 10000 buckets",
        "review period is -2; allowed is 0 to 10000 buckets",
        "lot size is 0; allowed is 10^-9 to 10^12",
        "sd is 0; allowed is 10^-9 to 10^12",
    ];
    assert_eq!(refused.map(|error| error.to_string()), words);
}

fn service(fill: bool, share: f64) -> Service {
    if fill { Service::fill(share).unwrap() } else { Service::cycle(share).unwrap() }
}

proptest! {
    #![proptest_config(many())]

    /// Rising in the service, in the sd and in the lead time; falling in the lot for a fill
    /// rate.
    #[test]
    fn a_reorder_point_rises_with_service_spread_and_lead_time(
        fill: bool,
        (d, s) in (0.0_f64..500.0, 0.0_f64..300.0),
        (l, varies) in (0.0_f64..60.0, 0.0_f64..10.0),
        (share, lot) in (0.01_f64..0.999, 1.0_f64..5_000.0),
        more in 0.0_f64..1.0,
    ) {
        let at = |s: f64, l: f64, share: f64, lot: f64| {
            let demand = over(Spread { mean: d, sd: s }, Spread { mean: l, sd: varies }).unwrap();
            level(demand, service(fill, share), lot).unwrap()
        };
        let grain = 1e-9 * (1.0 + at(s, l, share, lot).level);
        let here = at(s, l, share, lot);
        prop_assert!(at(s, l, share + (0.999 - share) * more, lot).level >= here.level - grain);
        prop_assert!(at(s + 100.0 * more, l, share, lot).level >= here.level - grain);
        prop_assert!(at(s, l + 30.0 * more, share, lot).level >= here.level - grain);
        prop_assert!(at(s, l, share, lot * (1.0 + more)).level <= here.level + grain);
        prop_assert!(here.level >= here.mean && here.level.is_finite());
        prop_assert!((0.0..=1.0).contains(&here.cycle) && (0.0..=1.0).contains(&here.fill));
    }

    /// A level gives at least the service it was made for.
    #[test]
    fn a_level_gives_its_service(
        fill: bool, mean in 0.0_f64..5_000.0, sd in 0.1_f64..2_000.0, share in 0.01_f64..0.999, lot in 1.0_f64..5_000.0,
    ) {
        let level = level(Spread { mean, sd }, service(fill, share), lot).unwrap();
        let given = if fill { level.fill } else { level.cycle };
        prop_assert!(given >= share - 1e-9, "{level:?}");
    }

    /// The same cloth in another unit.
    #[test]
    fn a_level_scales_with_the_unit(
        fill: bool, mean in 0.0_f64..5_000.0, sd in 0.1_f64..2_000.0, share in 0.01_f64..0.999, lot in 1.0_f64..5_000.0,
        unit in 0.1_f64..1_000.0,
    ) {
        let here = level(Spread { mean, sd }, service(fill, share), lot).unwrap();
        let there = level(Spread { mean: mean * unit, sd: sd * unit }, service(fill, share), lot * unit).unwrap();
        prop_assert!((there.level - here.level * unit).abs() <= 1e-8 * (1.0 + there.level));
        prop_assert!((there.fill - here.fill).abs() < 1e-9 && (there.cycle - here.cycle).abs() < 1e-9);
    }

    /// Smoothing adds, and adds more the stronger it is and the longer the lead time.
    #[test]
    fn smoothing_never_takes_away(sd in 0.0_f64..100.0, length in 0_u32..200, alpha in 0.0_f64..1.0, more in 0.0_f64..1.0) {
        let bucket = Spread { mean: 1.0, sd };
        let at = |length, alpha| over_smoothed(bucket, length, alpha).unwrap().sd;
        prop_assert!(at(length, alpha) >= at(length, 0.0) - 1e-9);
        prop_assert!(at(length, alpha + (1.0 - alpha) * more) >= at(length, alpha) - 1e-9);
        prop_assert!(at(length + 1, alpha) >= at(length, alpha));
    }

    /// The one-term fill rate never claims more than both terms.
    #[test]
    fn one_term_claims_the_less(mean in 0.0_f64..500.0, sd in 0.1_f64..200.0, point in 0.0_f64..1_000.0, lot in 1.0_f64..500.0) {
        let (one, both) = fill_rates(Spread { mean, sd }, point, lot).unwrap();
        prop_assert!(one <= both + 1e-12);
    }

    #[test]
    fn safety_is_z_times_sd(share in 0.5_f64..0.999, sd in 0.1_f64..1_000.0) {
        let level = level(Spread { mean: 0.0, sd }, Service::cycle(share).unwrap(), 1.0).unwrap();
        prop_assert!((level.safety - sd * quantile(share).unwrap()).abs() < 1e-9);
    }
}
