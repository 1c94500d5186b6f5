//! Lead-time demand of `productC` (Hyndman and Athanasopoulos, *Forecasting: Principles and
//! Practice*, 2nd edition, sec. 12.2): 36 months of a part, sum 38. Expected values are sums of
//! exact fractions, printed by `oracle/supply.py`.

use proptest::prelude::*;

use super::*;
use crate::supply::tests::{close, some};

const PRODUCT_C: [i64; 36] = [
    0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, 3, 1, 0, 0, 1, 0, 1, 0,
    0,
];

fn exactly(uses: &[i64], model: Model, lead: &LeadTimes) -> Distribution {
    exact(&History::new(uses).unwrap(), model, lead).unwrap().expect("small enough")
}

#[test]
fn moves_of_the_chain() {
    let history = History::new(&PRODUCT_C).unwrap();
    assert_eq!(history.moves(), [[15, 9], [9, 2]]);
    let chain = history.chain(Model::Markov);
    assert_eq!((chain.odds, chain.from), ([(9, 24), (2, 11)], 0));
    assert_eq!(history.chain(Model::Independent).odds, [(11, 36), (11, 36)]);
}

#[test]
fn four_months_of_the_chain() {
    let demand = exactly(&PRODUCT_C, Model::Markov, &LeadTimes::fixed(4).unwrap());
    close("mean", demand.mean(), 4.51839463957);
    close("variance", demand.variance(), 20.2248822832);
    close("nothing", demand.up_to(0), 0.152587890625);
    close("up to 5", demand.up_to(5), 0.66020507573);
    close("up to 11", demand.up_to(11), 0.907909863655);
    close("up to 13", demand.up_to(13), 0.954465037857);
    close("up to 18", demand.up_to(18), 0.991282926117);
    close("wanting beyond 5", demand.loss(5), 1.63397481195);
    assert_eq!([0.9, 0.95, 0.99].map(|p| demand.quantile(p).unwrap()), [11, 13, 18]);
}

#[test]
fn four_independent_months() {
    let demand = exactly(&PRODUCT_C, Model::Independent, &LeadTimes::fixed(4).unwrap());
    close("mean", demand.mean(), 4.22222222222);
    close("variance", demand.variance(), 21.7654320988);
    close("nothing", demand.up_to(0), 0.232568039361);
    close("up to 11", demand.up_to(11), 0.910244365379);
    close("up to 13", demand.up_to(13), 0.951183484797);
    close("up to 19", demand.up_to(19), 0.991210490969);
    close("wanting beyond 5", demand.loss(5), 1.589299578);
    assert_eq!([0.9, 0.95, 0.99].map(|p| demand.quantile(p).unwrap()), [11, 13, 19]);
}

/// Eight tenths added up are a little below 0.8 in a double, and are 0.8.
#[test]
fn a_level_is_met_up_to_the_grain_of_a_double() {
    let tenths: Vec<(i64, f64)> = (1..=10).map(|amount| (amount, 0.1)).collect();
    let demand = Distribution::new(&tenths).unwrap();
    assert!(demand.up_to(8) < 0.8);
    assert_eq!((demand.quantile(0.8), demand.quantile(0.800_001)), (Ok(8), Ok(9)));
}

#[test]
fn a_lead_time_that_varies_is_a_mixture() {
    let seen = LeadTimes::seen(&[4, 2, 5, 4]).unwrap();
    let demand = exactly(&PRODUCT_C, Model::Markov, &seen);
    close("mean", demand.mean(), 4.24546028528);
    close("variance", demand.variance(), 20.4301368234);
    close("nothing", demand.up_to(0), 0.197792053223);
    close("up to 11", demand.up_to(11), 0.915213274197);
    close("wanting beyond 5", demand.loss(5), 1.54268820834);
    let (mean, sd) = seen.mean_and_sd();
    close("mean", mean, 3.75);
    // hand: squares 0.0625 + 3.0625 + 1.5625 + 0.0625 = 4.75, by three
    close("sd", sd, (4.75_f64 / 3.0).sqrt());
}

/// Hand: one bucket of either state, sizes as they were.
#[test]
fn short_and_one_sided_histories() {
    // nothing was ever used
    let never = exactly(&[0, 0, 0], Model::Markov, &LeadTimes::fixed(5).unwrap());
    assert_eq!((never.quantile(0.99), never.mean(), never.sd()), (Ok(0), 0.0, 0.0));
    // something always, and nothing follows a bucket without: as often as any
    let always = exactly(&[5, 5, 5], Model::Markov, &LeadTimes::fixed(3).unwrap());
    assert_eq!((always.quantile(0.01), always.mean()), (Ok(15), 15.0));
    // the state after a use was never seen: one use in two buckets
    let last = exactly(&[0, 10], Model::Markov, &LeadTimes::fixed(1).unwrap());
    assert_eq!(last.shares().collect::<Vec<_>>(), [(0, 0.5), (10, 0.5)]);
    // no lead time at all
    let none = exactly(&PRODUCT_C, Model::Markov, &LeadTimes::fixed(0).unwrap());
    assert_eq!((none.quantile(0.999), none.loss(0)), (Ok(0), 0.0));
}

/// With probability `1 - 10^-6` no share up to an amount is off by more than
/// `sqrt(ln(2 * 10^6) / 2 n)` when `n` are drawn (Dvoretzky, Kiefer and Wolfowitz 1956, with
/// the constant of Massart 1990).
fn bound(draws: u32) -> f64 {
    (2e6_f64.ln() / (2.0 * f64::from(draws))).sqrt()
}

/// The largest difference of the shares up to any amount.
fn apart(one: &Distribution, other: &Distribution) -> f64 {
    let amounts = one.shares().chain(other.shares()).map(|(amount, _)| amount);
    amounts.map(|amount| (one.up_to(amount) - other.up_to(amount)).abs()).fold(0.0, f64::max)
}

/// Forty seeds, two models, a lead time that varies: each within the bound. And the bound tells
/// the two models, or four buckets and five, apart: a wrong way of drawing would not pass.
#[test]
fn drawing_agrees_with_the_exact_answer() {
    let history = History::new(&PRODUCT_C).unwrap();
    let draws = 40_000;
    let times = [LeadTimes::fixed(4).unwrap(), LeadTimes::seen(&[2, 4, 4, 5]).unwrap()];
    for lead in &times {
        for model in [Model::Markov, Model::Independent] {
            let exact = exact(&history, model, lead).unwrap().unwrap();
            for seed in 0..10 {
                let drawn = drawn(&history, model, lead, seed, draws).unwrap();
                let off = apart(&exact, &drawn);
                assert!(off <= bound(draws), "{model:?}, seed {seed}: off by {off}");
                assert_eq!(drawn.how(), How::Drawn { draws, seed });
            }
        }
    }
    let four = exactly(&PRODUCT_C, Model::Markov, &times[0]);
    let others = [
        exactly(&PRODUCT_C, Model::Independent, &times[0]),
        exactly(&PRODUCT_C, Model::Markov, &times[1]),
        exactly(&PRODUCT_C, Model::Markov, &LeadTimes::fixed(5).unwrap()),
        exactly(&PRODUCT_C[..35], Model::Markov, &times[0]),
    ];
    for other in &others[..3] {
        assert!(apart(&four, other) > 2.0 * bound(draws), "{} is not seen", apart(&four, other));
    }
    // the last month left out changes the odds by less than is seen
    assert!(apart(&four, &others[3]) > 0.0);
}

/// A sum of sizes that share no divisor goes past the cap of steps, and is drawn.
#[test]
fn large_sums_are_drawn_and_small_ones_are_not() {
    let uses: Vec<i64> = (0..200).map(|day| (day * 7_919) % 4_001).collect();
    let history = History::new(&uses).unwrap();
    let ten = LeadTimes::fixed(10).unwrap();
    assert!(exact(&history, Model::Markov, &ten).unwrap().is_none());
    let demand = lead_demand(&history, Model::Markov, &ten, 7).unwrap();
    assert_eq!(demand.how(), How::Drawn { draws: DRAWS, seed: 7 });
    assert_eq!(demand, lead_demand(&history, Model::Markov, &ten, 7).unwrap());
    assert_ne!(demand, lead_demand(&history, Model::Markov, &ten, 8).unwrap());
    // the same in a unit a thousand times as fine is as small as before
    let fine: Vec<i64> = PRODUCT_C.iter().map(|used| used * 1_000).collect();
    let small =
        lead_demand(&History::new(&fine).unwrap(), Model::Markov, &LeadTimes::fixed(4).unwrap(), 7).unwrap();
    assert_eq!((small.how(), small.quantile(0.95)), (How::Exact, Ok(13_000)));
}

/// One seed has one answer on every machine: drawing is whole numbers alone. The counts are those of
/// the same draws made in Python, `oracle/supply.py`.
#[test]
fn a_seed_has_one_answer() {
    let history = History::new(&PRODUCT_C).unwrap();
    let demand = drawn(&history, Model::Markov, &LeadTimes::fixed(4).unwrap(), 20_261_104, 1_000).unwrap();
    let counts: Vec<(i64, u32)> = demand
        .shares()
        .map(|(amount, share)| {
            (amount, (0..=1_000).find(|n| (f64::from(*n) / 1_000.0 - share).abs() < 1e-12).unwrap())
        })
        .collect();
    assert_eq!(counts, PYTHON);
}

const PYTHON: [(i64, u32); 22] = [
    (0, 154),
    (1, 170),
    (2, 139),
    (3, 121),
    (4, 56),
    (5, 29),
    (6, 56),
    (7, 57),
    (8, 48),
    (9, 18),
    (10, 13),
    (11, 45),
    (12, 22),
    (13, 22),
    (14, 14),
    (15, 5),
    (16, 2),
    (17, 10),
    (18, 15),
    (22, 2),
    (28, 1),
    (29, 1),
];

#[test]
fn what_is_no_history_or_lead_time_is_refused() {
    let words = |error: Error| error.to_string();
    assert_eq!(words(History::new(&[1]).unwrap_err()), "number of buckets is 1; allowed is 2 to 4000");
    assert_eq!(words(History::new(&[1, -1]).unwrap_err()), "use of a bucket is -1; allowed is 0 to 10^12");
    assert!(History::new(&vec![1; 4_001]).is_err());
    assert_eq!(words(LeadTimes::seen(&[]).unwrap_err()), "no lead time; give at least one");
    let long = LeadTimes::fixed(401).unwrap_err();
    assert_eq!(words(long), "lead time is 401; allowed is 0 to 400 buckets; take longer buckets");
    let history = History::new(&PRODUCT_C).unwrap();
    let four = LeadTimes::fixed(4).unwrap();
    for draws in [0, 999, 1_000_001] {
        assert!(drawn(&history, Model::Markov, &four, 1, draws).is_err(), "{draws}");
    }
    assert!(drawn(&history, Model::Markov, &LeadTimes::fixed(400).unwrap(), 1, 20_000).is_err());
    for shares in [&[][..], &[(0, 0.5)], &[(1, 0.5), (1, 0.5)], &[(0, 1.5)], &[(-1, 1.0)], &[(0, f64::NAN)]] {
        assert!(Distribution::new(shares).is_err(), "{shares:?}");
    }
    let one = Distribution::new(&[(3, 1.0)]).unwrap();
    assert!([0.0, 1.0, f64::NAN].iter().all(|p| one.quantile(*p).is_err()));
}

fn uses() -> impl Strategy<Value = Vec<i64>> {
    prop::collection::vec(prop_oneof![2 => Just(0_i64), 1 => 1_i64..30], 2..40)
}

fn model() -> impl Strategy<Value = Model> {
    prop_oneof![Just(Model::Markov), Just(Model::Independent)]
}

proptest! {
    #![proptest_config(some())]

    /// Independent buckets by the textbook: mean `L m`, variance `L v`; by the chain the mean of
    /// sums of probabilities.
    #[test]
    fn moments_of_the_sum(uses in uses(), model in model(), length in 0_u32..8) {
        let history = History::new(&uses).unwrap();
        let demand = exactly(&uses, model, &LeadTimes::fixed(length).unwrap());
        let sizes: Vec<f64> = uses.iter().filter(|used| **used > 0).map(|used| f64::from(i32::try_from(*used).unwrap())).collect();
        let size = if sizes.is_empty() { 0.0 } else { sizes.iter().sum::<f64>() / f64::from(u32::try_from(sizes.len()).unwrap()) };
        let chain = history.chain(model);
        let share = |at: usize| f64::from(chain.odds[at].0) / f64::from(chain.odds[at].1);
        let mut with = f64::from(u32::try_from(chain.from).unwrap());
        let mut mean = 0.0;
        for _ in 0..length {
            with = with * share(1) + (1.0 - with) * share(0);
            mean += with * size;
        }
        prop_assert!((demand.mean() - mean).abs() < 1e-9 * (1.0 + mean));
        if model == Model::Independent {
            let n = f64::from(u32::try_from(uses.len()).unwrap());
            let all = uses.iter().map(|used| f64::from(i32::try_from(*used).unwrap()));
            let m = all.clone().sum::<f64>() / n;
            let v = all.map(|used| (used - m) * (used - m)).sum::<f64>() / n;
            prop_assert!((demand.variance() - f64::from(length) * v).abs() < 1e-8 * (1.0 + demand.variance()));
        }
    }

    /// Levels rise with the service and with the lead time.
    #[test]
    fn quantiles_rise_with_level_and_lead_time(uses in uses(), model in model(), length in 0_u32..7, p in 0.01_f64..0.999, more in 0.0_f64..1.0) {
        let here = exactly(&uses, model, &LeadTimes::fixed(length).unwrap());
        let longer = exactly(&uses, model, &LeadTimes::fixed(length + 1).unwrap());
        prop_assert!(here.quantile(p).unwrap() <= here.quantile(p + (0.999 - p) * more).unwrap());
        prop_assert!(here.quantile(p).unwrap() <= longer.quantile(p).unwrap());
        prop_assert!(here.loss(0) <= longer.loss(0) + 1e-9);
    }

    /// The same cloth in another unit: drawn or exact, everything in it is as many times as
    /// large, since nothing is jittered.
    #[test]
    fn a_finer_unit_changes_nothing_but_the_unit(uses in uses(), model in model(), length in 0_u32..7, unit in 1_i64..1_000, seed: u64) {
        let finer: Vec<i64> = uses.iter().map(|used| used * unit).collect();
        let lead = LeadTimes::fixed(length).unwrap();
        let coarse = exactly(&uses, model, &lead);
        let fine = exactly(&finer, model, &lead);
        let scaled: Vec<_> = coarse.shares().map(|(amount, share)| (amount * unit, share)).collect();
        prop_assert_eq!(scaled, fine.shares().collect::<Vec<_>>());
        let draw = |uses: &[i64]| drawn(&History::new(uses).unwrap(), model, &lead, seed, 1_000).unwrap();
        let scaled: Vec<_> = draw(&uses).shares().map(|(amount, share)| (amount * unit, share)).collect();
        prop_assert_eq!(scaled, draw(&finer).shares().collect::<Vec<_>>());
    }

    /// What is wanting beyond a level falls by the share above it, and is nothing beyond the
    /// largest sum.
    #[test]
    fn a_loss_falls_by_the_share_above(uses in uses(), model in model(), length in 0_u32..7, level in 0_i64..250) {
        let demand = exactly(&uses, model, &LeadTimes::fixed(length).unwrap());
        let fall = demand.loss(level) - demand.loss(level + 1);
        prop_assert!((fall - (1.0 - demand.up_to(level))).abs() < 1e-9);
        prop_assert!(demand.loss(29 * 7).abs() < 1e-12);
        prop_assert!((demand.loss(0) - demand.mean()).abs() < 1e-9);
    }

    /// However large the numbers, the work is bounded and the answer whole.
    #[test]
    fn any_history_has_an_answer(uses in prop::collection::vec(0_i64..=1_000_000_000_000, 2..30), model in model(), length in 0_u32..400) {
        let history = History::new(&uses).unwrap();
        let lead = LeadTimes::fixed(length).unwrap();
        if let Some(cells) = history.cells(length, MOST_STEPS) {
            prop_assert!(u64::try_from(cells).unwrap() <= MOST_STEPS);
        }
        if let Some(small) = exact(&history, model, &lead).unwrap() {
            prop_assert!(small.mean().is_finite() && small.sd().is_finite());
        }
    }
}
