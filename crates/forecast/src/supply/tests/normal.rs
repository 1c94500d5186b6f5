//! The unit normal: rows of printed tables and scipy.

use proptest::prelude::*;

use super::{close, many};
use crate::supply::normal::{above, below, density, loss, loss_inverse, quantile};

/// scipy, `norm.ppf`; 1.645, 1.960 and 2.326 of every printed table.
#[test]
fn quantiles() {
    let rows = [
        (0.80, 0.841621233573),
        (0.85, 1.03643338949),
        (0.90, 1.28155156554),
        (0.95, 1.64485362695),
        (0.975, 1.95996398454),
        (0.98, 2.05374891063),
        (0.99, 2.32634787404),
        (0.995, 2.57582930355),
        (0.999, 3.09023230617),
        (0.3, -0.524400512708),
        (1e-6, -4.75342430882),
        (1e-9, -5.99780701501),
        (1e-12, -7.0344838253),
    ];
    for (p, z) in rows {
        close(&format!("quantile of {p}"), quantile(p).unwrap(), z);
    }
    assert_eq!(quantile(0.5).unwrap().to_bits() << 1, 0, "the middle is nought");
    for p in [0.0, 1.0, -1.0, 1e-13, f64::NAN] {
        let error = quantile(p).unwrap_err().to_string();
        assert!(error.contains("allowed is 10^-12 to 1 - 10^-12"), "{error}");
    }
}

/// scipy and stockpyl agree. To four digits .3989 .1978 .0833 .0506 .0293 .0085, as in the
/// tables of Silver, Pyke and Peterson, app. B (from memory).
#[test]
fn losses() {
    let rows = [
        (-1.0, 1.08331547059),
        (0.0, 0.398942280401),
        (0.5, 0.197796557401),
        (1.0, 0.0833154705877),
        (1.25, 0.0505868683055),
        (1.5, 0.0293067937626),
        (1.645, 0.0208856414801),
        (2.0, 0.00849070261683),
        (2.33, 0.00335231944441),
        (2.5, 0.00200413717913),
        (3.0, 0.000382154317048),
        (4.0, 0.00000714525843241),
    ];
    for (k, g) in rows {
        // to ten digits of the figure itself, not of 1
        assert!((loss(k) / g - 1.0).abs() < 1e-9, "loss at {k}: {}", loss(k));
    }
    assert_eq!((loss(40.0), loss(-40.0)), (0.0, 40.0));
}

/// scipy, by root finding.
#[test]
fn inverse_losses() {
    let rows = [
        (0.1, 0.90234634751),
        (0.05, 1.2555817153),
        (0.02, 1.66305094179),
        (0.01, 1.93835630729),
        (0.001, 2.71780551523),
    ];
    for (g, k) in rows {
        close(&format!("inverse loss of {g}"), loss_inverse(g).unwrap(), k);
    }
    for g in [0.0, -1.0, 1e7, f64::INFINITY, f64::NAN] {
        assert!(loss_inverse(g).is_err(), "{g}");
    }
}

proptest! {
    #![proptest_config(many())]

    #[test]
    fn quantile_and_share_undo_each_other(z in -6.5_f64..6.5) {
        let p = below(z);
        prop_assume!((1e-12..=1.0 - 1e-12).contains(&p));
        // beside 1 a share is not finer than 1e-16, which the density turns into z
        let grain = 1e-12 + 2e-16 / density(z);
        prop_assert!((quantile(p).unwrap() - z).abs() < grain);
    }

    #[test]
    fn quantiles_rise_with_the_share(p in 1e-12_f64..0.999999, more in 0.0_f64..1.0) {
        let q = p + (0.999999 - p) * more;
        prop_assert!(quantile(p).unwrap() <= quantile(q).unwrap());
    }

    /// Shares that a double holds to the last bit on both sides.
    #[test]
    fn quantiles_are_mirrored_at_the_middle(n in 1_u32..1_048_576) {
        let p = f64::from(n) / 1_048_576.0;
        prop_assume!(p < 1.0);
        prop_assert!((quantile(p).unwrap() + quantile(1.0 - p).unwrap()).abs() < 1e-15);
    }

    /// `G(-k) = k + G(k)`.
    #[test]
    fn a_loss_and_its_mirror_differ_by_the_distance(k in -30.0_f64..30.0) {
        prop_assert!((loss(-k) - (k + loss(k))).abs() < 1e-12);
        prop_assert!(loss(k) >= 0.0 && loss(k) >= -k);
    }

    /// `G'(k) = -(1 - Phi(k))`, by a central difference.
    #[test]
    fn a_loss_falls_by_the_share_above(k in -6.0_f64..6.0) {
        let step = 1e-4;
        let slope = (loss(k + step) - loss(k - step)) / (2.0 * step);
        prop_assert!((slope + above(k)).abs() < 1e-8);
    }

    #[test]
    fn loss_and_its_inverse_undo_each_other(k in -100.0_f64..7.0) {
        // where the loss is below 1e-12 there is no way back
        prop_assume!(loss(k) > 1e-12);
        prop_assert!((loss_inverse(loss(k)).unwrap() - k).abs() < 1e-9 * (1.0 + k.abs()));
    }
}
