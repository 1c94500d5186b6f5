//! The choice of a method: against the same back-test done from scratch, and what it says
//! of histories of every kind.

use proptest::prelude::*;

use super::{Dice, near, same};
use crate::demand::Error;
use crate::demand::accuracy::{bias, pinball, rmsse};
use crate::demand::choose::{
    Ahead, Ask, Candidate, Choice, Forecast, Method, Outcome, Season, Seasons, Why, choose,
};
use crate::demand::class::Class;
use crate::demand::days::Week;
use crate::demand::intermittent::{Start, adida, croston, tsb};
use crate::demand::season::{History, Index, pooled, rolling};
use crate::demand::series::{Bucket, Series};
use crate::demand::smooth::{damped_holt, ses};

const NEXT: [Ahead; 4] = [Ahead { week: Week { year: 2026, week: 1 }, open_days: 1 }; 4];

fn ask(series: &Series) -> Ask<'_> {
    Ask { series, ahead: &NEXT, horizon: 4, quantile: 0.9, seasons: None }
}

fn of(amounts: &[i64]) -> Choice {
    choose(&ask(&Series::of_amounts(amounts).unwrap())).unwrap()
}

fn foretold(choice: &Choice) -> &Forecast {
    match &choice.outcome {
        Outcome::Foretold(forecast) => forecast,
        Outcome::RawOnly(why) => panic!("nothing is foretold: {why:?}"),
    }
}

/// What a method foretells from some values, from its own start, with the public
/// functions and nothing kept from one origin to the next.
fn from_scratch(method: Method, seen: &[f64], warm: usize, steps: u16) -> f64 {
    let number = |count: usize| f64::from(u32::try_from(count).unwrap());
    let sizes: Vec<f64> = seen[..warm].iter().copied().filter(|value| *value > 0.0).collect();
    let size = sizes.iter().sum::<f64>() / number(sizes.len());
    let interval = if sizes.len() > 1 { number(warm - 1) / number(sizes.len() - 1) } else { number(warm) };
    let start = Some(Start { size, interval });
    match method {
        Method::Ses { alpha } => ses(&seen[1..], alpha, Some(size / interval)).unwrap().level,
        Method::DampedHolt { alpha, beta, phi } => {
            damped_holt(&seen[1..], (alpha, beta, phi), (size / interval, 0.0)).unwrap().ahead(steps)
        }
        Method::Croston { alpha } => croston(seen, alpha, alpha, start).unwrap().rate(),
        Method::Sba { alpha } => croston(seen, alpha, alpha, start).unwrap().sba(),
        Method::Tsb { alpha, beta } => tsb(seen, alpha, beta, start).unwrap().rate(),
        Method::Adida => adida(seen).unwrap(),
    }
}

/// RMSSE, pinball and bias of a method over the origins, as the module's docs say them.
fn scores(method: Method, all: &[f64], horizon: usize, quantile: f64) -> [Option<f64>; 3] {
    let warm = (all.len() / 3).clamp(6, 26);
    let last = all.len() - horizon;
    let first = warm.max((last + 1).saturating_sub(52));
    let number = |count: usize| f64::from(u32::try_from(count).unwrap());
    let steps = || 1..=u16::try_from(horizon).unwrap();
    let said = |known: usize| {
        steps().map(|step| from_scratch(method, &all[..known], warm, step)).collect::<Vec<_>>()
    };
    let (mut actual, mut forecast, mut total, mut bound) = (vec![], vec![], vec![], vec![]);
    for known in first..=last {
        actual.extend(&all[known..known + horizon]);
        forecast.extend(said(known));
        let sum = |known: usize| all[known..known + horizon].iter().sum::<f64>();
        let error = |known: usize| sum(known) - said(known).iter().sum::<f64>();
        let mut earlier: Vec<f64> = (warm..=known).filter(|at| at + horizon <= known).map(error).collect();
        earlier.sort_by(f64::total_cmp);
        if earlier.len() >= 8 {
            let rank =
                (1..=earlier.len()).find(|rank| number(*rank) >= quantile * number(earlier.len())).unwrap();
            total.push(sum(known));
            bound.push((said(known).iter().sum::<f64>() + earlier[rank - 1]).max(0.0));
        }
    }
    let level = all[..first].iter().sum::<f64>() / number(first);
    let loss =
        (total.len() >= 4).then(|| pinball(&total, &bound, quantile).unwrap() / (level * number(horizon)));
    [rmsse(&all[..first], &actual, &forecast).unwrap(), loss, Some(bias(&actual, &forecast).unwrap() / level)]
}

fn agree(found: Option<f64>, wanted: Option<f64>) -> bool {
    match (found, wanted) {
        (Some(found), Some(wanted)) => (found - wanted).abs() < 1e-9 || near(found, wanted, 1e-9),
        (found, wanted) => found == wanted,
    }
}

/// The first of the candidates that is within 1 % of the best.
fn first_near_the_best(candidates: &[Candidate]) -> Candidate {
    let total = |one: &Candidate| one.score.unwrap().total;
    let best = candidates.iter().map(total).fold(f64::INFINITY, f64::min);
    *candidates.iter().find(|one| total(one) <= best * 1.01).unwrap()
}

/// Each candidate's scores are those of a back-test that starts anew at every origin.
#[test]
fn the_back_test_is_what_it_says() {
    let mut dice = Dice(7);
    let mut classes = [0; 4];
    for round in 0..60_u32 {
        let length = 24 + round % 37;
        let often = [0.95, 0.5, 0.2][usize::try_from(round % 3).unwrap()];
        // squares of even sizes differ enough to be erratic or lumpy
        let mut size =
            || if round % 2 == 0 { 1 + dice.below(4) } else { 1 + dice.below(60) * dice.below(60) };
        let sizes: Vec<i64> = (0..length).map(|_| size()).collect();
        let mut amounts: Vec<i64> =
            sizes.into_iter().map(|size| if dice.share() < often { size } else { 0 }).collect();
        (amounts[0], amounts[9]) = (3, 2);
        let choice = of(&amounts);
        let forecast = foretold(&choice);
        classes[match choice.shape.class {
            Class::Smooth => 0,
            Class::Erratic => 1,
            Class::Intermittent => 2,
            Class::Lumpy => 3,
            Class::Insufficient => panic!("{amounts:?}"),
        }] += 1;
        let all = Series::of_amounts(&amounts).unwrap().used().to_vec();
        let (all, _) = crate::demand::one_off::cap(&all).unwrap();
        for candidate in &forecast.candidates {
            let score = candidate.score.unwrap();
            let wanted = scores(candidate.method, &all, 4, 0.9);
            let found = [score.rmsse, score.pinball, score.bias];
            for (found, wanted) in found.into_iter().zip(wanted) {
                assert!(
                    agree(found, wanted),
                    "{:?} of {amounts:?}: {found:?} is not {wanted:?}",
                    candidate.method
                );
            }
            same(score.total, wanted.iter().flatten().map(|part| part.abs()).sum());
        }
        assert_eq!(forecast.chosen, first_near_the_best(&forecast.candidates));
        let warm = (all.len() / 3).clamp(6, 26);
        let squares = (warm..all.len())
            .map(|known| (all[known] - from_scratch(forecast.chosen.method, &all[..known], warm, 1)).powi(2));
        let mean = squares.sum::<f64>() / f64::from(u32::try_from(all.len() - warm).unwrap());
        same(forecast.error.unwrap(), mean.sqrt());
        for (found, steps) in forecast.buckets.iter().zip(1..) {
            same(*found, from_scratch(forecast.chosen.method, &all, warm, steps));
        }
    }
    assert!(classes.iter().all(|count| *count >= 5), "{classes:?}");
}

/// FPP3's J06: nothing in the last 38 months. Croston alone would say 0.87 for ever.
#[test]
fn a_fabric_that_has_died_is_foretold_to_be_dead() {
    let j06 = super::oracle::published()["intermittent"]["J06"]["values"].clone();
    let amounts: Vec<i64> = j06.as_array().unwrap().iter().map(|value| value.as_i64().unwrap()).collect();
    let choice = of(&amounts);
    assert_eq!(choice.shape.class, Class::Lumpy);
    let forecast = foretold(&choice);
    assert!(forecast.level < 0.1, "{forecast:?}");
    assert_eq!(forecast.origins, 52);
}

#[test]
fn too_little_history_gives_raw_use_and_says_so() {
    let why = |amounts: &[i64]| match of(amounts).outcome {
        Outcome::RawOnly(why) => why,
        Outcome::Foretold(forecast) => panic!("{forecast:?}"),
    };
    assert_eq!(why(&[0; 30]), Why::NoUse);
    assert_eq!(why(&[5]), Why::FewBuckets { have: 1, least: 8 });
    assert_eq!(why(&[0, 0, 0, 5, 4, 5, 4, 5, 4, 5]), Why::FewBuckets { have: 7, least: 8 });
    assert_eq!(why(&[0, 0, 9_000, 0, 0, 0, 0, 0, 0, 0]), Why::FewDemands { have: 1, least: 2 });
    // raw use is told all the same
    let choice = of(&[0, 0, 9_000, 0, 0, 0, 0, 0, 0, 0]);
    assert_eq!((choice.used, choice.rate), (9_000.0, Some(900.0)));
    assert_eq!(choice.shape.class, Class::Insufficient);
    let closed = Bucket { amount: 0, open_days: 0, stocked_days: 0 };
    let out = Bucket { amount: 0, open_days: 5, stocked_days: 0 };
    for (bucket, unseen) in [(closed, 0), (out, 9)] {
        let choice = choose(&ask(&Series::new(&[bucket; 9], 5).unwrap())).unwrap();
        assert_eq!(choice.outcome, Outcome::RawOnly(Why::NothingSeen));
        assert_eq!((choice.rate, choice.unseen), (None, unseen));
    }
    // ten years and more ago
    let mut amounts = vec![5; 30];
    amounts.extend([0; 520]);
    assert_eq!(why(&amounts), Why::NoUse);
}

/// Too few origins: the class alone chooses, and no score is made up.
#[test]
fn eight_buckets_are_foretold_untested() {
    let choice = of(&[5, 0, 0, 4, 0, 0, 5, 0]);
    let forecast = foretold(&choice);
    assert_eq!(
        forecast.chosen,
        Candidate { method: Method::Tsb { alpha: 0.1, beta: 0.05 }, seasonal: false, score: None }
    );
    assert!(forecast.candidates.iter().all(|one| one.score.is_none()));
    assert_eq!((forecast.origins, forecast.error), (0, None));
    assert!(forecast.level > 1.0 && forecast.level < 3.0, "{forecast:?}");
}

/// A history that never changes has no scale for RMSSE; what is left still decides, and
/// the forecast is the one value there is.
#[test]
fn a_flat_history_is_foretold_flat() {
    let choice = of(&[4; 40]);
    let forecast = foretold(&choice);
    let score = forecast.chosen.score.unwrap();
    assert_eq!((score.rmsse, score.total), (None, 0.0));
    assert_eq!(forecast.buckets, [4.0; 4]);
    assert_eq!(forecast.error, Some(0.0));
}

/// One job of a hundred times the usual moves the rate by three usual jobs at most, and
/// stays in the variation and in the full error.
#[test]
fn one_huge_job_is_capped_in_the_rate_only() {
    let mut dice = Dice(3);
    let mut amounts: Vec<i64> = (0..60).map(|_| 90 + dice.below(21)).collect();
    let usual = of(&amounts);
    amounts[50] = 10_000;
    let huge = of(&amounts);
    assert_eq!((usual.capped.len(), huge.capped.len()), (0, 1));
    assert_eq!((huge.capped[0].at, huge.capped[0].used), (50, 10_000.0));
    assert_eq!(huge.shape.class, Class::Erratic);
    assert!(foretold(&huge).level < 1.6 * foretold(&usual).level, "{huge:?}");
    assert!(foretold(&huge).error_in_full.unwrap() > 5.0 * foretold(&huge).error.unwrap());
}

/// A steady rise is what a trend is for.
#[test]
fn a_rise_takes_the_damped_trend() {
    let amounts: Vec<i64> = (0..80).map(|week| 100 + 10 * week).collect();
    let choice = of(&amounts);
    let forecast = foretold(&choice);
    assert!(matches!(forecast.chosen.method, Method::DampedHolt { .. }), "{:?}", forecast.chosen);
    assert!(forecast.buckets.windows(2).all(|pair| pair[0] < pair[1]));
    // a closed bucket on the way is no step
    let series = Series::of_amounts(&amounts).unwrap();
    let ahead = [1, 0, 1].map(|open_days| Ahead { open_days, ..NEXT[0] });
    let choice = choose(&Ask { ahead: &ahead, ..ask(&series) }).unwrap();
    assert_eq!(foretold(&choice).buckets, [forecast.buckets[0], 0.0, forecast.buckets[1]]);
}

/// Closed buckets, wherever they lie, change nothing; days ahead count as they are open.
#[test]
fn closed_buckets_are_no_observations_and_no_steps() {
    let mut dice = Dice(11);
    let open: Vec<Bucket> =
        (0..50).map(|_| Bucket { amount: dice.below(30), open_days: 5, stocked_days: 5 }).collect();
    let closed = Bucket { amount: 0, open_days: 0, stocked_days: 0 };
    let mut with = open.clone();
    for at in [50, 31, 30, 7, 0] {
        with.insert(at, closed);
    }
    let week = Week { year: 2026, week: 1 };
    let ahead = [5, 0, 3, 6].map(|open_days| Ahead { week, open_days });
    let told = |buckets: &[Bucket]| {
        let series = Series::new(buckets, 5).unwrap();
        let choice = choose(&Ask { ahead: &ahead, ..ask(&series) }).unwrap();
        foretold(&choice).clone()
    };
    let (without, with) = (told(&open), told(&with));
    assert_eq!(without, with);
    assert_eq!(with.buckets[1].to_bits(), 0.0_f64.to_bits());
    same(with.buckets[0], with.level);
    assert!(with.buckets[2] < with.buckets[0] && with.buckets[3] > with.buckets[0]);
}

/// Five years of weeks from the first of 2021, 2026 being the year of 53.
fn weeks(count: usize) -> Vec<Week> {
    let years = (2021..)
        .flat_map(|year| (1..=if year == 2026 { 53 } else { 52 }).map(move |week| Week { year, week }));
    years.take(count).collect()
}

fn fabrics(dice: &mut Dice, count: usize, length: usize, swing: f64) -> Vec<Series> {
    let one = |dice: &mut Dice| {
        let amounts: Vec<i64> = (0..length)
            .map(|week| {
                let phase = f64::from(u32::try_from(week % 52).unwrap()) / 52.0 * std::f64::consts::TAU;
                dice.poisson(20.0 * (1.0 + swing * libm::sin(phase)))
            })
            .collect();
        Series::of_amounts(&amounts).unwrap()
    };
    (0..count).map(|_| one(dice)).collect()
}

/// How many of twelve fabrics take the index, and the season said for the first.
fn takers(seed: u64, swing: f64) -> (usize, Vec<Season>) {
    let mut dice = Dice(seed);
    let length = 4 * 52 + 10;
    let all = fabrics(&mut dice, 12, length, swing);
    let weeks = weeks(length);
    let histories: Vec<History> = all.iter().map(|series| History { series, weeks: &weeks }).collect();
    let tested = rolling(&histories, 78).unwrap();
    let index = pooled(&histories, None).unwrap();
    let ahead: Vec<Ahead> =
        (11..15).map(|week| Ahead { week: Week { year: 2025, week }, open_days: 1 }).collect();
    let said: Vec<Season> = all
        .iter()
        .map(|series| {
            let seasons = Some(Seasons { weeks: &weeks, tested: &tested, ahead: &index });
            let choice = choose(&Ask { series, ahead: &ahead, horizon: 4, quantile: 0.9, seasons }).unwrap();
            let forecast = foretold(&choice);
            assert_eq!(forecast.chosen.seasonal, forecast.season == Season::Used);
            assert_eq!(forecast.origins, 52);
            if forecast.season == Season::Used && !matches!(forecast.chosen.method, Method::DampedHolt { .. })
            {
                for (bucket, place) in forecast.buckets.iter().zip(11..) {
                    same(*bucket, forecast.level * index.factor(place));
                }
            }
            forecast.season
        })
        .collect();
    (said.iter().filter(|season| **season == Season::Used).count(), said)
}

/// A season that is there is taken by nearly all, one that is not by hardly any. The
/// figures are of one run; they are far from even.
#[test]
fn the_index_is_taken_where_the_back_test_is_better() {
    let (with, said) = takers(1, 0.7);
    assert!(with >= 10, "{said:?}");
    let without: usize = (1..=5).map(|seed| takers(seed, 0.0).0).sum();
    assert!(without <= 3, "{without} of 60");
}

/// A seasonal candidate's forecasts are those of a method run anew at each origin over what was
/// known, divided by the index known then; what comes later changes none of them.
#[test]
fn a_season_is_tested_with_what_was_known() {
    let mut dice = Dice(3);
    let length = 2 * 52 + 8;
    let all = fabrics(&mut dice, 6, length, 0.7);
    let weeks = weeks(length);
    let histories: Vec<History> = all.iter().map(|series| History { series, weeks: &weeks }).collect();
    let (tested, index) = (rolling(&histories, 78).unwrap(), pooled(&histories, None).unwrap());
    let series = &all[0];
    let seasons = Some(Seasons { weeks: &weeks, tested: &tested, ahead: &index });
    let choice = choose(&Ask { seasons, ..ask(series) }).unwrap();
    let (values, _) = crate::demand::one_off::cap(series.used()).unwrap();
    let mut with = 0;
    for candidate in foretold(&choice).candidates.iter().filter(|one| one.seasonal) {
        let (mut actual, mut said) = (vec![], vec![]);
        for known in length - 4 - 51..=length - 4 {
            // made from the weeks before alone
            let index = pooled(&histories, Some(weeks[known])).unwrap();
            let factor = |at: usize| index.factor(weeks[at].week);
            let without: Vec<f64> = (0..known).map(|at| values[at] / factor(at)).collect();
            with += usize::from(!index.is_flat());
            for step in 1..=4_u16 {
                let at = known + usize::from(step) - 1;
                actual.push(values[at]);
                said.push(from_scratch(candidate.method, &without, 26, step) * factor(at));
            }
        }
        let scale = &values[..length - 4 - 51];
        let score = candidate.score.unwrap();
        same(score.rmsse.unwrap(), rmsse(scale, &actual, &said).unwrap().unwrap());
        let level = scale.iter().sum::<f64>() / f64::from(u32::try_from(scale.len()).unwrap());
        assert!((score.bias.unwrap() - bias(&actual, &said).unwrap() / level).abs() < 1e-9);
    }
    assert!(with >= 4 * 30, "{with}");
}

#[test]
fn an_index_that_cannot_be_tested_is_not_taken() {
    let length = 3 * 52;
    let series = &fabrics(&mut Dice(5), 1, length, 0.7)[0];
    let weeks = weeks(length);
    let histories = [History { series, weeks: &weeks }, History { series, weeks: &weeks }];
    let all = pooled(&histories, None).unwrap();
    let with = |tested: &[Index], ahead: &Index| {
        let seasons = Some(Seasons { weeks: &weeks, tested, ahead });
        choose(&Ask { seasons, ..ask(series) }).map(|choice| foretold(&choice).season)
    };
    let tested = rolling(&histories, 78).unwrap();
    assert_eq!(with(&tested, &Index::flat()), Ok(Season::Flat));
    assert_eq!(with(&[], &all), Ok(Season::NotTested));
    assert_eq!(with(std::slice::from_ref(&all), &all), Err(Error::Endless));
    // known before the last six weeks only: the last origin of four weeks has four after it
    assert_eq!(with(&tested[tested.len() - 6..], &all), Ok(Season::NotTested));
    let short = Some(Seasons { weeks: &weeks[1..], tested: &tested, ahead: &all });
    let found = choose(&Ask { seasons: short, ..ask(series) });
    assert_eq!(found, Err(Error::Lengths { what: "weeks and buckets", first: length - 1, second: length }));
}

#[test]
fn what_is_asked_is_checked() {
    let series = Series::of_amounts(&[1; 20]).unwrap();
    let with = |change: fn(&mut Ask)| {
        let mut asked = ask(&series);
        change(&mut asked);
        choose(&asked).unwrap_err()
    };
    assert!(matches!(with(|ask| ask.horizon = 0), Error::Parameter { name: "horizon", .. }));
    assert!(matches!(with(|ask| ask.horizon = 27), Error::Parameter { name: "horizon", .. }));
    for quantile in [0.0, 1.0, f64::NAN] {
        let found = choose(&Ask { quantile, ..ask(&series) });
        assert!(matches!(found, Err(Error::Parameter { name: "quantile", .. })));
    }
    let many = vec![NEXT[0]; 105];
    let found = choose(&Ask { ahead: &many, ..ask(&series) });
    assert_eq!(found, Err(Error::TooMany { given: 105, most: 104 }));
}

fn amounts() -> impl Strategy<Value = Vec<i64>> {
    let one = prop_oneof![4 => Just(0_i64), 4 => 1_i64..60, 1 => 1_i64..9_000_000_000_000];
    prop::collection::vec(one, 1..50)
}

proptest! {
    // a case is some hundred forecasts
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(2_000) })]

    /// Whatever the history, every figure is finite, none is below nought, and a finer
    /// unit changes neither the method nor its scores.
    #[test]
    fn a_choice_is_finite_and_does_not_hang_on_the_unit(amounts in amounts(), horizon in 1_usize..8) {
        let series = Series::of_amounts(&amounts).unwrap();
        let coarse = choose(&Ask { horizon, ..ask(&series) }).unwrap();
        let series = Series::of_amounts(&amounts.iter().map(|amount| amount * 512).collect::<Vec<_>>()).unwrap();
        let fine = choose(&Ask { horizon, ..ask(&series) }).unwrap();
        match (&coarse.outcome, &fine.outcome) {
            (Outcome::RawOnly(coarse), Outcome::RawOnly(fine)) => prop_assert_eq!(coarse, fine),
            (Outcome::Foretold(coarse), Outcome::Foretold(fine)) => {
                prop_assert_eq!(coarse.chosen, fine.chosen);
                for (coarse, fine) in coarse.buckets.iter().zip(&fine.buckets) {
                    prop_assert!(coarse.is_finite() && *coarse >= 0.0, "{coarse}");
                    prop_assert!(near(coarse * 512.0, *fine, 1e-12));
                }
                for score in coarse.candidates.iter().filter_map(|one| one.score) {
                    let parts = [score.rmsse, score.pinball, score.bias, Some(score.total)];
                    prop_assert!(parts.into_iter().flatten().all(f64::is_finite), "{score:?}");
                }
                for error in [coarse.error, coarse.error_in_full].into_iter().flatten() {
                    prop_assert!(error.is_finite() && error >= 0.0);
                }
                prop_assert_eq!(coarse.buckets.len(), 4);
            }
            (coarse, fine) => prop_assert!(false, "{coarse:?} {fine:?}"),
        }
    }
}
