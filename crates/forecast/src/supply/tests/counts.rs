//! Counts and compound sums.

use proptest::prelude::*;

use super::{close, some};
use crate::supply::counts::{Counts, Moments, compound_bernoulli, compound_poisson};

/// scipy, `poisson.ppf`.
#[test]
fn quantiles_of_poisson_counts() {
    for (mean, expected) in [(0.5, [1, 2, 3]), (2.4, [4, 5, 7]), (3.6, [6, 7, 9])] {
        let counts = Counts::poisson(mean).unwrap();
        assert_eq!([0.90, 0.95, 0.99].map(|p| counts.quantile(p).unwrap()), expected, "mean {mean}");
    }
}

/// scipy, `nbinom` with `r = 8/3`, `p = 0.4`; the loss summed term by term.
#[test]
fn negative_binomial_counts() {
    let counts = Counts::negative_binomial(4.0, 10.0).unwrap();
    assert_eq!(counts.quantile(0.95).unwrap(), 10);
    close("up to 9", counts.up_to(9), 0.937901915597);
    close("up to 10", counts.up_to(10), 0.957843992961);
    close("loss at 6", counts.loss(6), 0.595204448404);
    close("mean", counts.mean(), 4.0);
    close("variance", counts.variance(), 10.0);
    close("loss of Poisson", Counts::poisson(18.0).unwrap().loss(19), 1.24699668284);
}

/// scipy at the edges of what is allowed: share of a count, share up to it, 95 % quantile.
#[test]
fn counts_hold_out_to_their_bounds() {
    let nb = |mean, variance| Counts::negative_binomial(mean, variance).unwrap();
    let rows = [
        (Counts::poisson(1e-9).unwrap(), 0, 0.999999999, 0.999999999, 0),
        (Counts::poisson(1e3).unwrap(), 1_047, 0.00415496232428, 0.9326275476, 1_052),
        (Counts::poisson(1e5).unwrap(), 100_474, 0.00040999083584, 0.933172471746, 100_520),
        (Counts::poisson(1e6).unwrap(), 1_001_500, 0.000129493320675, 0.933230559021, 1_001_645),
        (nb(1e4, 2e4), 10_212, 0.00091344157562, 0.932962664964, 10_233),
        (nb(1e4, 1e8), 25_000, 8.20869975014e-06, 0.917918719597, 29_957),
        (nb(1e4, 1e12), 1_510_000, 6.52090949523e-11, 0.999636969061, 0),
        (nb(3.0, 3.001), 5, 0.10081321069, 0.916048458542, 6),
        (nb(0.01, 5.0), 3, 6.63939933745e-06, 0.999912082376, 0),
        (nb(500.0, 530.0), 534, 0.00576672082438, 0.931743737642, 538),
    ];
    for (counts, at, share, up_to, quantile) in rows {
        close(&format!("{counts:?} share of {at}"), counts.share(at), share);
        close(&format!("{counts:?} up to {at}"), counts.up_to(at), up_to);
        assert_eq!(counts.quantile(0.95).unwrap(), quantile, "{counts:?}");
    }
}

#[test]
fn what_is_no_distribution_of_counts_is_refused() {
    for mean in [0.0, -1.0, 2e6, f64::NAN, f64::INFINITY] {
        assert!(Counts::poisson(mean).is_err() && Counts::negative_binomial(mean, 1e9).is_err(), "{mean}");
    }
    for variance in [3.0, 4.0, 4.000_1, 1e13, f64::NAN] {
        assert!(Counts::negative_binomial(4.0, variance).is_err(), "{variance}");
    }
    let counts = Counts::poisson(2.0).unwrap();
    assert!([0.0, 1.0, f64::NAN].iter().all(|p| counts.quantile(*p).is_err()));
}

/// By hand: `3 * 1.4`, `3 (1.96 + 0.25)`; `0.25 * 1.4`, `0.25 * 0.25 + 0.25 * 0.75 * 1.96`.
#[test]
fn compound_sums() {
    let size = Moments { mean: 1.4, variance: 0.25 };
    let sum = compound_poisson(3.0, size).unwrap();
    close("mean", sum.mean, 4.2);
    close("variance", sum.variance, 6.63);
    let sum = compound_bernoulli(0.25, size).unwrap();
    close("mean", sum.mean, 0.35);
    close("variance", sum.variance, 0.43);
    assert!(compound_bernoulli(1.1, size).is_err());
    assert!(compound_poisson(f64::NAN, size).is_err());
    assert!(compound_poisson(1e12, Moments { mean: 1e12, variance: 0.0 }).is_err(), "too large a sum");
}

fn any() -> impl Strategy<Value = Counts> {
    prop_oneof![
        (0.01_f64..300.0).prop_map(|mean| Counts::poisson(mean).unwrap()),
        (0.1_f64..300.0, 1.1_f64..50.0)
            .prop_map(|(mean, over)| Counts::negative_binomial(mean, mean * over).unwrap()),
    ]
}

/// Over all that is allowed, by powers of ten.
fn far() -> impl Strategy<Value = Counts> {
    prop_oneof![
        (-3.0_f64..6.0).prop_map(|power| Counts::poisson(libm::pow(10.0, power)).unwrap()),
        (-3.0_f64..4.0, 0.0_f64..1.0).prop_map(|(power, share)| {
            let mean = libm::pow(10.0, power);
            // from the closest to Poisson, mean^2 / 10^4 above it, to a variance of 10^9
            let least = libm::log(1.001e-4 * mean * mean);
            let over = libm::exp(least + share * (libm::log(1e9) - least));
            Counts::negative_binomial(mean, mean + over).unwrap()
        }),
    ]
}

proptest! {
    #![proptest_config(some())]

    /// statrs' share up to a count against libm's share of it, over all that is allowed. Both take
    /// apart logarithms as large as `n ln n` and raise e to the rest; of a million counts each the
    /// worst was 3 units in the last place of that.
    #[test]
    fn a_share_is_what_the_share_up_to_it_rises_by(counts in far(), sds in -4.0_f64..6.0) {
        let at = (counts.mean() + sds * counts.variance().sqrt()).clamp(1.0, 4e9).floor();
        let k = (0..32).rev().fold(0_u32, |k, bit| if f64::from(k | 1 << bit) <= at { k | 1 << bit } else { k });
        let rise = counts.up_to(k) - counts.up_to(k - 1);
        let n = at + 1e4;
        let within = 8.0 * f64::EPSILON * n * libm::log(n);
        prop_assert!((rise - counts.share(k)).abs() < within, "{k}: {rise} and {}", counts.share(k));
    }

    /// The closed form of the loss against `n(x) - n(x + 1) = 1 - F(x)`.
    #[test]
    fn a_loss_falls_by_the_share_above(counts in any(), x in 0_u32..400) {
        let fall = counts.loss(i64::from(x)) - counts.loss(i64::from(x) + 1);
        prop_assert!((fall - (1.0 - counts.up_to(x))).abs() < 1e-9);
    }

    #[test]
    fn below_nought_nothing_is_served(counts in any(), x in 0_i64..1_000) {
        prop_assert!((counts.loss(-x) - counts.mean() - f64::from(i32::try_from(x).unwrap())).abs() < 1e-9);
    }

    /// The least count that is enough is enough, and one fewer is not.
    #[test]
    fn a_quantile_is_the_least_that_is_enough(counts in any(), p in 0.001_f64..0.999) {
        let found = counts.quantile(p).unwrap();
        prop_assert!(counts.up_to(found) >= p - 1e-12);
        prop_assert!(found == 0 || counts.up_to(found - 1) < p);
    }

    #[test]
    fn quantiles_rise_with_the_level(counts in any(), p in 0.001_f64..0.999, more in 0.0_f64..1.0) {
        let q = p + (0.999 - p) * more;
        prop_assert!(counts.quantile(p).unwrap() <= counts.quantile(q).unwrap());
    }
}
