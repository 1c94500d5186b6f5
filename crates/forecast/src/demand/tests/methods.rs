//! Methods against values worked by hand or printed, and against each other.

use proptest::prelude::*;

use super::{PRODUCT_C, WORKED, near, printed, same, values};
use crate::demand::Error;
use crate::demand::intermittent::{Start, adida, croston, croston_path, imapa, tsb, tsb_path};
use crate::demand::smooth::{
    alpha_of_half_life, alpha_of_least_squares, alpha_of_window, damped_holt, estimate_ses, holt, ses,
};

/// FPP2, section 12.2, recomputed by hand.
#[test]
fn croston_of_product_c_step_by_step() {
    let all = values(&PRODUCT_C);
    let path = croston_path(&all, 0.1, 0.1, None).unwrap();
    let on_demand = path.iter().zip(&all).filter(|(_, value)| **value > 0.0).map(|(state, _)| *state);
    let (sizes, intervals): (Vec<f64>, Vec<f64>) =
        on_demand.map(|state| (state.size, state.interval)).unzip();
    let z = [
        "2", "1.9", "2.81", "2.729", "3.0561", "3.05049", "3.445441", "3.400897", "3.160807", "2.944726",
        "2.750254",
    ];
    let p = ["2", "2", "2", "2.3", "2.27", "2.143", "2.5287", "3.07583", "2.868247", "2.881422", "2.793280"];
    assert_eq!(sizes.len(), 11);
    for (found, wanted) in sizes.into_iter().zip(z).chain(intervals.into_iter().zip(p)) {
        printed(found, wanted);
    }
}

/// By hand, and as statsforecast has them.
#[test]
fn rates_of_product_c() {
    let all = values(&PRODUCT_C);
    let found = croston(&all, 0.1, 0.1, None).unwrap();
    same(found.rate(), 0.984_596_521_357_774_3);
    same(found.sba(), 0.935_366_695_289_885_6);
    same(found.sbj(), 0.932_775_651_812_628_1);
    same(tsb(&all, 0.1, 0.1, None).unwrap().rate(), 0.804_065_102_258_976_5);
    same(tsb(&all, 0.2, 0.1, None).unwrap().rate(), 0.752_651_698_182_829_8);
    same(adida(&all).unwrap(), 0.829_979_657_433_234_2);
    same(imapa(&all).unwrap(), 0.755_246_483_627_302);
    same(ses(&all, 0.1, None).unwrap().level, 0.605_996_507_468_793_7);
}

/// Equal sizes and intervals 3, 2, 4, 1: by hand.
#[test]
fn the_worked_series() {
    let all = values(&WORKED);
    for (alpha, size, sba, sbj) in
        [(0.1, 2.809, 0.95, 18.0 / 19.0), (0.2, 2.632, 0.9, 8.0 / 9.0), (0.5, 2.125, 0.75, 2.0 / 3.0)]
    {
        let found = croston(&all, alpha, alpha, None).unwrap();
        same(found.size, size);
        same(found.interval, size);
        assert_eq!(found.rate().to_bits(), 1.0_f64.to_bits(), "exactly 1 at {alpha}");
        same(found.sba(), sba);
        same(found.sbj(), sbj);
    }
    for (alpha, beta, rate) in
        [(0.1, 0.1, 0.675_485_114_570_100_2), (0.2, 0.1, 0.632_921_616_784_8), (0.5, 0.2, 0.635_771_494_4)]
    {
        same(tsb(&all, alpha, beta, None).unwrap().rate(), rate);
    }
    let shares = [
        "0", "0", ".1", ".09", ".181", ".1629", ".14661", ".131949", ".218754", ".296879", ".267191",
        ".240472",
    ];
    for (state, share) in tsb_path(&all, 0.1, 0.1, None).unwrap().iter().zip(shares) {
        let share = if share == "0" { share.to_owned() } else { format!("0{share}") };
        printed(state.share, &share);
    }
    same(ses(&all, 0.1, None).unwrap().level, 0.584_485_526_7);
    same(ses(&all, 0.3, None).unwrap().level, 0.644_330_826_3);
    same(adida(&all).unwrap(), 0.638_114_796_969_9);
    same(imapa(&all).unwrap(), 0.624_282_864_896_3);
}

/// Croston never decays; TSB by 0.9 to the power of 30.
#[test]
fn thirty_empty_buckets_more() {
    let mut all = values(&WORKED);
    let before = tsb(&all, 0.1, 0.1, None).unwrap().rate();
    all.extend([0.0; 30]);
    assert_eq!(croston(&all, 0.1, 0.1, None).unwrap().rate().to_bits(), 1.0_f64.to_bits());
    let after = tsb(&all, 0.1, 0.1, None).unwrap().rate();
    same(after, 0.028_634_596_404_293_68);
    same(after, before * libm::pow(0.9, 30.0));
}

/// FPP3's J06 in the figures that statsforecast does not print.
#[test]
fn the_two_figures_of_j06() {
    let all = super::oracle::list(&super::oracle::published()["intermittent"]["J06"]["values"]);
    assert_eq!(all.len(), 204);
    let found = croston(&all, 0.1, 0.1, None).unwrap();
    printed(found.size, "2.337487492429");
    printed(found.interval, "2.690193028839");
}

#[test]
fn one_demand_none_and_always_the_same() {
    let rates = |all: &[f64]| {
        let found = croston(all, 0.1, 0.1, None).unwrap();
        [found.rate(), found.sba(), tsb(all, 0.1, 0.1, None).unwrap().rate()]
    };
    for (found, wanted) in rates(&[0.0; 5]).into_iter().zip([0.0; 3]) {
        same(found, wanted);
    }
    for (found, wanted) in rates(&[0.0, 0.0, 5.0, 0.0]).into_iter().zip([5.0 / 3.0, 19.0 / 12.0, 0.45]) {
        same(found, wanted);
    }
    for (found, wanted) in rates(&[4.0; 4]).into_iter().zip([4.0, 3.8, 4.0]) {
        same(found, wanted);
    }
    assert_eq!((adida(&[0.0; 5]), imapa(&[0.0; 5])), (Ok(0.0), Ok(0.0)));
    assert_eq!((adida(&[7.0]), imapa(&[7.0])), (Ok(7.0), Ok(7.0)));
}

/// Worked by hand: levels 11, 12.8125, …; 17.48625 and 1.951625 at the end.
#[test]
fn holt_by_hand() {
    let all = [10.0, 12.0, 13.0, 15.0, 18.0];
    let found = holt(&all, (0.5, 0.3), (8.0, 2.0)).unwrap();
    same(found.level, 17.48625);
    same(found.trend, 1.951625);
    for (steps, wanted) in [(1, 19.437875), (2, 21.3895), (3, 23.341125)] {
        same(found.ahead(steps), wanted);
    }
}

/// FPP2, sections 7.1 and 7.2, as printed there (from memory) and recomputed.
#[test]
fn the_book_s_estimate_of_ses() {
    let file = super::oracle::published();
    let found = estimate_ses(&super::oracle::list(&file["estimated"][0]["values"])).unwrap();
    printed(found.alpha, "0.8338");
    printed(found.level, "542.68");
    let found = estimate_ses(&super::oracle::list(&file["estimated"][1]["values"])).unwrap();
    printed(found.alpha, "0.8920");
    printed(found.start, "447.478");
    assert!((found.level - 496.493_490).abs() < 2e-5, "{found:?}");
}

/// FPP2, section 7.2: air passengers of Australia, as printed there (from memory).
#[test]
fn the_book_s_forecasts_of_holt() {
    let row = &super::oracle::published()["holt"][2];
    let found = holt(&super::oracle::list(&row["values"]), (0.8302, 0.0001), (15.57, 2.102)).unwrap();
    for (steps, wanted) in (1..).zip(["74.60", "76.70", "78.81", "80.91", "83.01"]) {
        printed(found.ahead(steps), wanted);
    }
}

#[test]
fn constants_from_a_half_life_and_a_window() {
    printed(alpha_of_half_life(30.0).unwrap(), "0.0228400316");
    printed(alpha_of_window(60.0).unwrap(), "0.0327868852");
    same(alpha_of_half_life(1.0).unwrap(), 0.5);
    // after a half-life, half of the weight is left
    let alpha = alpha_of_half_life(12.0).unwrap();
    same(libm::pow(1.0 - alpha, 12.0), 0.5);
    for wrong in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(alpha_of_half_life(wrong), Err(Error::Parameter { .. })), "{wrong}");
        assert!(matches!(alpha_of_window(wrong), Err(Error::Parameter { .. })), "{wrong}");
    }
}

/// A start given is the state before the first demand: that demand has no interval.
#[test]
fn a_start_is_gone_on_from() {
    let start = Some(Start { size: 10.0, interval: 4.0 });
    let found = croston(&[20.0, 0.0, 20.0], 0.5, 0.5, start).unwrap();
    // sizes 15 and 17.5; one interval of 2: (4 + 2) / 2
    assert_eq!((found.size, found.interval), (17.5, 3.0));
    let found = tsb(&[20.0, 0.0, 20.0], 0.5, 0.5, start).unwrap();
    // shares 0.25, 0.125, 0.5625: the first bucket is not counted
    assert_eq!((found.size, found.share), (17.5, 0.5625));
    let wrong = Some(Start { size: 1.0, interval: 0.5 });
    assert!(matches!(croston(&[1.0], 0.1, 0.1, wrong), Err(Error::Parameter { name: "interval", .. })));
}

#[test]
fn what_cannot_be_smoothed_is_refused() {
    type Method = fn(&[f64]) -> Result<f64, Error>;
    let methods: [(&str, Method); 7] = [
        ("ses", |all| Ok(ses(all, 0.1, None)?.level)),
        ("holt", |all| Ok(damped_holt(all, (0.1, 0.1, 0.9), (1.0, 0.0))?.ahead(3))),
        ("croston", |all| Ok(croston(all, 0.1, 0.1, None)?.rate())),
        ("tsb", |all| Ok(tsb(all, 0.1, 0.1, None)?.rate())),
        ("adida", adida),
        ("imapa", imapa),
        ("estimate", |all| Ok(estimate_ses(all)?.level)),
    ];
    for (name, method) in methods {
        assert_eq!(method(&[]), Err(Error::Empty), "{name}");
        assert_eq!(method(&[1.0, 2.0, -3.0]), Err(Error::Negative { at: 2, amount: -3.0 }), "{name}");
        assert_eq!(method(&[1.0, f64::NAN]), Err(Error::NotExact { at: 1 }), "{name}");
        assert_eq!(method(&[f64::INFINITY]), Err(Error::NotExact { at: 0 }), "{name}");
        for one in [0.0, 1.0, 9_007_199_254_740_992.0] {
            let found = method(&[one]).unwrap();
            assert!(found.is_finite() && found >= 0.0, "{name} of {one}: {found}");
        }
    }
    for wrong in [0.0, -0.1, 1.1, f64::NAN] {
        assert!(matches!(ses(&[1.0], wrong, None), Err(Error::Parameter { name: "alpha", .. })), "{wrong}");
        assert!(
            matches!(tsb(&[1.0], 0.1, wrong, None), Err(Error::Parameter { name: "beta", .. })),
            "{wrong}"
        );
        assert!(matches!(croston(&[1.0], wrong, 0.1, None), Err(Error::Parameter { name: "alpha", .. })));
    }
    assert!(matches!(alpha_of_least_squares(&[1.0], (0.5, 0.4)), Err(Error::Parameter { name: "high", .. })));
}

fn history() -> impl Strategy<Value = Vec<f64>> {
    let value = prop_oneof![3 => Just(0_u32), 2 => 1_u32..50, 1 => 50_u32..100_000];
    prop::collection::vec(value.prop_map(f64::from), 1..40)
}

/// Rates of a history by the methods that take one pass.
fn rates(all: &[f64], alpha: f64, beta: f64) -> [f64; 6] {
    let croston = croston(all, alpha, beta, None).unwrap();
    let trend = damped_holt(all, (alpha, beta, 0.9), (1.0, 0.0)).unwrap();
    [
        croston.rate(),
        croston.sba(),
        croston.sbj(),
        tsb(all, alpha, beta, None).unwrap().rate(),
        ses(all, alpha, None).unwrap().level,
        trend.ahead(4),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(20_000) })]

    /// Whatever the history, every rate is a finite number from 0 on; the corrections
    /// are below Croston's rate wherever there is one.
    #[test]
    fn rates_are_finite_and_not_negative(all in history(), alpha in 0.01..1.0, beta in 0.01..1.0) {
        let found = rates(&all, alpha, beta);
        prop_assert!(found.iter().all(|rate| rate.is_finite() && *rate >= 0.0), "{found:?}");
        let [croston, sba, sbj, ..] = found;
        if croston > 0.0 {
            prop_assert!(sbj <= sba && sba < croston, "{found:?}");
        } else {
            prop_assert!(all.iter().all(|value| *value == 0.0) && sba == 0.0);
        }
    }

    /// A finer unit scales every rate.
    #[test]
    fn a_finer_unit_scales_every_rate(all in history(), alpha in 0.01..1.0, beta in 0.01..1.0, by in 1_u8..10) {
        let factor = f64::from(1_u16 << by);
        let fine: Vec<f64> = all.iter().map(|value| value * factor).collect();
        let (coarse, fine) = (rates(&all, alpha, beta), rates(&fine, alpha, beta));
        for (place, (coarse, fine)) in coarse.into_iter().zip(fine).enumerate().take(5) {
            prop_assert!(near(coarse * factor, fine, 1e-12), "{place}: {coarse} {fine}");
        }
    }

    /// A bucket without demand never raises SES and TSB, and leaves Croston's rate as it is.
    #[test]
    fn an_empty_bucket_more(mut all in history(), alpha in 0.01..1.0, beta in 0.01..1.0) {
        let before = rates(&all, alpha, beta);
        all.push(0.0);
        let after = rates(&all, alpha, beta);
        for place in 0..3 {
            prop_assert_eq!(before[place].to_bits(), after[place].to_bits());
        }
        for place in 3..5 {
            prop_assert!(after[place] <= before[place], "{place}: {before:?} {after:?}");
        }
    }

    /// Buckets before the first demand lengthen Croston's first interval and nothing else.
    #[test]
    fn empty_buckets_in_front(all in history(), more in 1_usize..20, alpha in 0.01..1.0) {
        let mut longer = vec![0.0; more];
        longer.extend(&all);
        let (short, long) = (croston(&all, alpha, alpha, None).unwrap(), croston(&longer, alpha, alpha, None).unwrap());
        prop_assert_eq!(short.size.to_bits(), long.size.to_bits());
        prop_assert!(long.interval >= short.interval);
    }

    /// Forecasts stay between the least and the greatest value.
    #[test]
    fn ses_stays_among_its_values(all in history(), alpha in 0.01..1.0) {
        let level = ses(&all, alpha, None).unwrap().level;
        let (low, high) = all.iter().fold((f64::MAX, 0.0_f64), |(low, high), v| (low.min(*v), high.max(*v)));
        prop_assert!(level >= low * (1.0 - 1e-12) && level <= high * (1.0 + 1e-12), "{level}");
    }
}

proptest! {
    // each case searches a constant some dozens of times
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(1_000) })]

    /// Sums of buckets have finite rates, scaled by the unit; powers of two change no
    /// digit, so that the search takes the same way.
    #[test]
    fn rates_of_sums_of_buckets(all in history(), by in 1_u8..10) {
        let factor = f64::from(1_u16 << by);
        let fine: Vec<f64> = all.iter().map(|value| value * factor).collect();
        for method in [adida, imapa] {
            let (coarse, fine) = (method(&all).unwrap(), method(&fine).unwrap());
            prop_assert!(coarse.is_finite() && coarse >= 0.0, "{coarse}");
            prop_assert!(near(coarse * factor, fine, 1e-12), "{coarse} {fine}");
        }
    }
}

/// Two hollows at the ends of a range: the lower of them is found, as a dense list of `α` has it.
#[test]
fn the_lowest_of_several_hollows_is_found() {
    let sum = |values: &[f64], alpha: f64| {
        ses(values, alpha, None).unwrap().errors.iter().map(|error| error * error).sum::<f64>()
    };
    for (values, wanted) in [
        (&[4_u8, 0, 5, 1, 5, 6, 5, 9][..], 0.1),
        (&[2, 8, 7, 4, 4, 0, 0], 0.3),
        (&[4, 0, 0, 5, 2, 3, 9, 8], 0.1),
    ] {
        let values = super::values(values);
        let found = alpha_of_least_squares(&values, (0.1, 0.3)).unwrap();
        assert!((found - wanted).abs() < 1e-9, "{values:?}: {found}");
    }
    let mut dice = super::Dice(41);
    for round in 0..2_000 {
        let values: Vec<u8> = (0..4 + round % 9).map(|_| u8::try_from(dice.below(10)).unwrap()).collect();
        let values = super::values(&values);
        let found = sum(&values, alpha_of_least_squares(&values, (0.1, 0.3)).unwrap());
        let least = (0..=400_u16)
            .map(|step| sum(&values, 0.1 + 0.0005 * f64::from(step)))
            .fold(f64::INFINITY, f64::min);
        assert!(found <= least * (1.0 + 1e-6) + 1e-12, "{values:?}: {found} is not {least}");
    }
}
