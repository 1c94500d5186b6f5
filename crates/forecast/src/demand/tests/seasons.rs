//! The seasonal index against statsmodels, by hand, and what shrinking does.

use proptest::prelude::*;

use super::{Dice, near, same};
use crate::demand::Error;
use crate::demand::days::Week;
use crate::demand::season::{History, Index, decompose, pooled};
use crate::demand::series::{Bucket, Series};

/// Box and Jenkins' airline passengers, months and quarters of a quarter: an even and an
/// odd period.
#[test]
fn published_months_decompose_as_by_statsmodels() {
    let file = super::oracle::published();
    for row in file["seasonal"].as_array().unwrap() {
        let values = super::oracle::list(&row["values"]);
        assert_eq!(values.len(), 144);
        let period = usize::try_from(row["period"].as_u64().unwrap()).unwrap();
        let found = decompose(&values, period).unwrap();
        for (found, wanted) in found.index.iter().zip(super::oracle::list(&row["index"])) {
            same(*found, wanted);
        }
        let trend = row["trend"].as_array().unwrap();
        assert_eq!(trend.len(), found.trend.len());
        for (found, wanted) in found.trend.iter().zip(trend) {
            match (found, wanted.as_f64()) {
                (Some(found), Some(wanted)) => same(*found, wanted),
                (found, wanted) => assert_eq!(*found, wanted),
            }
        }
    }
}

/// Whole years of 52 weeks, one after the other.
fn weeks(count: usize) -> Vec<Week> {
    (2001..).flat_map(|year| (1..=52).map(move |week| Week { year, week })).take(count).collect()
}

/// The pooled index of a single fabric, before it is shrunk, is the classical one.
#[test]
fn one_fabric_s_weeks_decompose_as_by_statsmodels() {
    let file = super::oracle::generated();
    for row in file["weekly"].as_array().unwrap() {
        let values = super::oracle::list(&row["values"]);
        let wanted = super::oracle::list(&row["index"]);
        let found = decompose(&values, 52).unwrap();
        let amounts: Vec<i64> =
            row["values"].as_array().unwrap().iter().map(|value| value.as_i64().unwrap()).collect();
        let (series, weeks) = (Series::of_amounts(&amounts).unwrap(), weeks(amounts.len()));
        let index = pooled(&[History { series: &series, weeks: &weeks }], None).unwrap();
        for ((place, wanted), classical) in (1..).zip(wanted).zip(found.index) {
            same(classical, wanted);
            let week = index.week(place).unwrap();
            same(week.seen.unwrap(), wanted);
            assert_eq!(week.ratios, amounts.len() / 52 - 1);
            // shrunk towards 1, and never past it
            assert!(week.kept > 0.0 && week.kept < 1.0);
        }
    }
}

#[test]
fn what_cannot_be_decomposed_is_refused() {
    assert_eq!(decompose(&[1.0; 23], 12), Err(Error::TooFew { given: 23, least: 24 }));
    assert_eq!(decompose(&[1.0; 23], 1), Err(Error::TooFew { given: 23, least: 4 }));
    assert_eq!(decompose(&[1.0; 9], usize::MAX), Err(Error::TooFew { given: 9, least: usize::MAX }));
    assert_eq!(decompose(&[0.0; 24], 12), Err(Error::NoSpread));
    assert_eq!(decompose(&[], 12), Err(Error::Empty));
    let found = decompose(&[1.0; 24], 12).unwrap();
    assert!(found.index.iter().all(|factor| near(*factor, 1.0, 1e-12)));
}

/// Fabrics whose weeks follow the same curve, at levels of their own.
fn group(dice: &mut Dice, count: usize, years: usize, swing: f64) -> Vec<Series> {
    let one = |dice: &mut Dice| {
        let level = 5.0 + 40.0 * dice.share();
        let amounts: Vec<i64> =
            (0..52 * years).map(|at| dice.poisson(level * curve(at % 52, swing))).collect();
        Series::of_amounts(&amounts).unwrap()
    };
    (0..count).map(|_| one(dice)).collect()
}

fn curve(week: usize, swing: f64) -> f64 {
    let phase = f64::from(u32::try_from(week).unwrap()) / 52.0 * std::f64::consts::TAU;
    1.0 + swing * libm::sin(phase)
}

fn index(all: &[Series], weeks: &[Week], before: Option<Week>) -> Index {
    let histories: Vec<History> = all.iter().map(|series| History { series, weeks }).collect();
    pooled(&histories, before).unwrap()
}

/// Root mean squared distance of factors from the curve they were drawn from.
fn distance(factor: impl Fn(u8) -> f64, swing: f64) -> f64 {
    let squares = (0..52_u8).map(|week| (factor(week + 1) - curve(usize::from(week), swing)).powi(2));
    (squares.sum::<f64>() / 52.0).sqrt()
}

/// Where the season is known, because it was drawn: shrinking comes closer to it than what
/// was seen, far closer where there is none, and hardly moves what is plain to see.
#[test]
fn shrinking_comes_closer_to_the_truth() {
    let mut dice = Dice(42);
    for (count, years, swing, gain) in [(3, 3, 0.0, 0.35), (3, 3, 0.15, 0.95), (20, 4, 0.6, 1.01)] {
        let all = group(&mut dice, count, years, swing);
        let found = index(&all, &weeks(52 * years), None);
        let shrunk = distance(|week| found.factor(week), swing);
        let seen = distance(|week| found.week(week).unwrap().seen.unwrap(), swing);
        assert!(shrunk <= gain * seen, "{count} fabrics, {years} years, {swing}: {shrunk} against {seen}");
        assert_eq!(found.fabrics(), count);
    }
}

/// The table of the module worked anew for two fabrics, from their classical ratios:
/// weighted by how often there is demand, and shrunk.
#[test]
fn two_fabrics_worked_anew() {
    let mut dice = Dice(9);
    let often: Vec<i64> = (0..156).map(|at| 20 + dice.below(10) + 2 * (at % 52)).collect();
    let mut size = |at: i64| 20 + dice.below(10) + 2 * (at % 52);
    let seldom: Vec<i64> = (0..156).map(|at| if at % 3 == 2 { 0 } else { size(at) }).collect();
    let all = [often, seldom].map(|amounts| Series::of_amounts(&amounts).unwrap());
    // week, year, weight and ratio of each
    let mut ratios: Vec<(usize, usize, f64, f64)> = Vec::new();
    for (series, share) in all.iter().zip([1.0, 2.0 / 3.0]) {
        let values = series.used();
        for (at, trend) in decompose(values, 52).unwrap().trend.iter().enumerate() {
            ratios.extend(trend.map(|trend| (at % 52, at / 52, share, values[at] / trend)));
        }
    }
    assert_eq!(ratios.len(), 2 * 104);
    let mean_of = |picked: &dyn Fn(usize, usize) -> bool| {
        let of = ratios.iter().filter(|one| picked(one.0, one.1));
        let (weights, sum) = of.fold((0.0, 0.0), |sums, one| (sums.0 + one.2, sums.1 + one.2 * one.3));
        (weights, sum / weights)
    };
    let pools: Vec<(f64, f64)> = (0..52).map(|week| mean_of(&|at, _| at == week)).collect();
    let middle = pools.iter().map(|pool| pool.1).sum::<f64>() / 52.0;
    // four ratios a week leave three free, two years leave one
    let single: f64 =
        ratios.iter().map(|one| one.2 * (one.3 - pools[one.0].1).powi(2)).sum::<f64>() / (3.0 * 52.0);
    let mut yearly = 0.0;
    for (week, pool) in pools.iter().enumerate() {
        for year in [0, 1, 2] {
            let (weights, mean) = mean_of(&|at, of| at == week && of == year);
            if weights > 0.0 {
                yearly += weights * (mean - pool.1).powi(2) / 52.0;
            }
        }
    }
    let scatter = single.max(yearly) / middle.powi(2);
    let chance = pools.iter().map(|pool| scatter / pool.0).sum::<f64>() / 52.0;
    let apart = pools.iter().map(|pool| (pool.1 / middle - 1.0).powi(2)).sum::<f64>() / 52.0 - chance;
    assert!(apart > 0.0);
    let kept: Vec<f64> = pools.iter().map(|pool| apart / (apart + scatter / pool.0)).collect();
    let factors: Vec<f64> =
        pools.iter().zip(&kept).map(|(pool, kept)| (1.0 + kept * (pool.1 / middle - 1.0)).max(0.2)).collect();
    let mean = factors.iter().sum::<f64>() / 52.0;
    let found = index(&all, &weeks(156), None);
    for (place, week) in (1..).zip(0..52) {
        let known = found.week(place).unwrap();
        same(known.seen.unwrap(), pools[week].1 / middle);
        same(known.kept, kept[week]);
        same(known.factor, factors[week] / mean);
    }
}

/// What all fabrics did alike in one year and not in the next is no season, however many
/// fabrics did it: the scatter from year to year counts.
#[test]
fn what_one_year_did_is_trusted_little() {
    let mut dice = Dice(8);
    let years = 4;
    let alike: Vec<f64> = (0..52 * years).map(|_| 0.5 + dice.share()).collect();
    let mut fabric = |curve: &dyn Fn(usize) -> f64| {
        let amounts: Vec<i64> = (0..52 * years).map(|at| dice.poisson(200.0 * curve(at))).collect();
        Series::of_amounts(&amounts).unwrap()
    };
    let changing: Vec<Series> = (0..15).map(|_| fabric(&|at| alike[at])).collect();
    let steady: Vec<Series> = (0..15).map(|_| fabric(&|at| alike[at % 52])).collect();
    let kept = |all: &[Series]| {
        let found = index(all, &weeks(52 * years), None);
        (1..=52).map(|week| found.week(week).unwrap().kept).sum::<f64>() / 52.0
    };
    let (changing, steady) = (kept(&changing), kept(&steady));
    assert!(changing < 0.4 && steady > 0.95, "{changing} {steady}");
}

/// A tenth of the year in which nothing is ever used keeps a factor that one may divide by.
#[test]
fn a_dead_season_keeps_a_fifth() {
    let mut dice = Dice(4);
    let amounts: Vec<i64> = (0..208).map(|at| if at % 52 < 6 { 0 } else { 30 + dice.below(9) }).collect();
    // not from the first week on: a history begins with its first use
    let all = [Series::of_amounts(&amounts).unwrap(), Series::of_amounts(&amounts).unwrap()];
    let found = index(&all, &weeks(208), None);
    let middle = (6.0 * 0.2 + 46.0 * 52.0 / 46.0) / 52.0;
    for week in 1..=6 {
        assert!(near(found.factor(week), 0.2 / middle, 0.02), "{}", found.factor(week));
        same(found.week(week).unwrap().seen.unwrap(), 0.0);
    }
}

/// A week that ran out is no ratio; a level still is one while 39 of its 52 weeks are seen.
#[test]
fn weeks_not_seen_are_no_ratios() {
    let of = |gap: usize| {
        let bucket = |at: usize| Bucket {
            amount: if (100..100 + gap).contains(&at) { 0 } else { 50 },
            open_days: 5,
            stocked_days: if (100..100 + gap).contains(&at) { 0 } else { 5 },
        };
        let series = Series::new(&(0..208).map(bucket).collect::<Vec<_>>(), 5).unwrap();
        let found = index(&[series], &weeks(208), None);
        (1..=52).map(|week| found.week(week).unwrap().ratios).sum::<usize>()
    };
    // 208 weeks less half a year on either side, less those not seen
    assert_eq!((of(0), of(13)), (156, 143));
    // at 14 even windows that hold all of the gap but half a week of it have too few
    assert!(of(14) < 142 - 20, "{}", of(14));
}

/// One festival in one year is capped before it is divided by its level.
#[test]
fn a_one_off_job_makes_no_season() {
    let mut dice = Dice(6);
    let mut amounts: Vec<i64> = (0..208).map(|_| 20 + dice.below(8)).collect();
    amounts[52 + 30] = 5_000;
    let series = Series::of_amounts(&amounts).unwrap();
    let found = index(&[series], &weeks(208), None);
    // three usual jobs in one of three years: (3 + 1 + 1) / 3 at most
    let week = found.week(31).unwrap();
    assert!(week.seen.unwrap() < 1.75 && week.ratios == 3, "{week:?}");
}

/// An index of the weeks before a given one is the index of a history that ends there.
#[test]
fn weeks_from_a_given_one_on_are_not_looked_at() {
    let mut dice = Dice(12);
    let all = group(&mut dice, 4, 4, 0.5);
    let all_weeks = weeks(208);
    let short: Vec<Series> =
        all.iter().map(|series| Series::new(&series.buckets()[..180], 1).unwrap()).collect();
    let (cut, ended) =
        (index(&all, &all_weeks, Some(all_weeks[180])), index(&short, &all_weeks[..180], None));
    for week in 1..=52 {
        assert_eq!(cut.week(week), ended.week(week));
    }
}

/// Two years give one ratio a week: with one fabric nothing tells a season from chance.
#[test]
fn a_single_ratio_a_week_says_nothing() {
    let mut dice = Dice(1);
    let all = group(&mut dice, 2, 2, 0.6);
    let weeks = weeks(104);
    let alone = index(&all[..1], &weeks, None);
    assert!(alone.is_flat());
    assert!((1..=53).all(|week| alone.factor(week).to_bits() == 1.0_f64.to_bits()));
    assert_eq!(alone.week(30).unwrap().ratios, 1);
    assert!(!index(&all, &weeks, None).is_flat());
    // and with less than two years there is not one ratio for every week
    let short = index(&all, &weeks, Some(weeks[60]));
    assert_eq!((short.week(40).unwrap().ratios, short.before()), (0, Some(weeks[60])));
    assert!(index(&all, &weeks, Some(weeks[52])).is_flat());
}

#[test]
fn nothing_at_all_is_flat() {
    let weeks = weeks(110);
    for amounts in [vec![0; 110], [vec![0; 109], vec![5]].concat()] {
        let found = index(&[Series::of_amounts(&amounts).unwrap()], &weeks, None);
        assert!(found.is_flat() && found.fabrics() == 0);
    }
    let out = Bucket { amount: 0, open_days: 5, stocked_days: 0 };
    assert!(index(&[Series::new(&vec![out; 110], 5).unwrap()], &weeks, None).is_flat());
    assert_eq!(pooled(&[], None).map(|index| index.is_flat()), Ok(true));
    assert_eq!((Index::flat().factor(0), Index::flat().factor(99)), (1.0, 1.0));
}

/// ISO years have 52 or 53 weeks; the last has no factor of its own.
#[test]
fn week_53_is_between_its_neighbours() {
    let mut dice = Dice(2);
    let years = [(2019, 52), (2020, 53), (2021, 52), (2022, 52)];
    let weeks: Vec<Week> =
        years.iter().flat_map(|&(year, last)| (1..=last).map(move |week| Week { year, week })).collect();
    let all: Vec<Series> = (0..6)
        .map(|_| {
            let amounts: Vec<i64> = weeks
                .iter()
                .map(|week| dice.poisson(30.0 * curve(usize::from(week.week - 1), 0.5)))
                .collect();
            Series::of_amounts(&amounts).unwrap()
        })
        .collect();
    let found = index(&all, &weeks, None);
    same(found.factor(53), f64::midpoint(found.factor(52), found.factor(1)));
    assert!(found.week(53).is_none());
    // 2020's week 53 is in a level and in no ratio: three years of half-windows
    let ratios: usize = (1..=52).map(|week| found.week(week).unwrap().ratios).sum();
    assert_eq!(ratios, 6 * (209 - 52 - 1));
}

#[test]
fn weeks_left_out_or_twice_are_refused() {
    let series = Series::of_amounts(&[1; 3]).unwrap();
    let week = |year, week| Week { year, week };
    let with = |weeks: &[Week]| pooled(&[History { series: &series, weeks }], None).unwrap_err();
    assert_eq!(
        with(&[week(2026, 1), week(2026, 2), week(2026, 4)]),
        Error::Week { at: 2, year: 2026, week: 4 }
    );
    assert_eq!(
        with(&[week(2026, 1), week(2026, 1), week(2026, 2)]),
        Error::Week { at: 1, year: 2026, week: 1 }
    );
    assert_eq!(
        with(&[week(2026, 51), week(2027, 1), week(2027, 2)]),
        Error::Week { at: 1, year: 2027, week: 1 }
    );
    assert_eq!(
        with(&[week(2026, 0), week(2026, 1), week(2026, 2)]),
        Error::Week { at: 0, year: 2026, week: 0 }
    );
    assert_eq!(with(&[week(2026, 1)]), Error::Lengths { what: "weeks and buckets", first: 1, second: 3 });
    let good = [week(2026, 53), week(2027, 1), week(2027, 2)];
    assert!(pooled(&[History { series: &series, weeks: &good }], None).is_ok());
}

proptest! {
    // a case is an index of up to five fabrics over up to four years
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(1_000) })]

    /// Whatever was used, factors are finite and above nought, their mean is 1, and a
    /// week is never further from 1 than what was seen, but for what the mean moves.
    #[test]
    fn factors_are_finite_and_their_mean_is_one(
        count in 1_usize..6,
        length in 1_usize..210,
        seed in any::<u64>(),
        often in 0.02..1.0,
        cut in prop::option::of(0_usize..210),
    ) {
        let mut dice = Dice(seed);
        let all: Vec<Series> = (0..count).map(|_| {
            let buckets: Vec<Bucket> = (0..length).map(|_| {
                let amount = if dice.share() < often { dice.below(100_000) } else { 0 };
                let open_days = if amount > 0 { 5 } else { u32::try_from(dice.below(6)).unwrap() };
                let stocked_days = open_days.min(u32::try_from(dice.below(8)).unwrap());
                Bucket { amount, open_days, stocked_days }
            }).collect();
            Series::new(&buckets, 5).unwrap()
        }).collect();
        let weeks = weeks(length);
        let before = cut.and_then(|at| weeks.get(at).copied());
        let found = index(&all, &weeks, before);
        let factors: Vec<f64> = (1..=52).map(|week| found.factor(week)).collect();
        prop_assert!(factors.iter().all(|factor| factor.is_finite() && *factor > 0.0), "{factors:?}");
        prop_assert!(near(factors.iter().sum::<f64>(), 52.0, 1e-12));
        for week in 1..=52 {
            let known = found.week(week).unwrap();
            prop_assert!((0.0..=1.0).contains(&known.kept));
            prop_assert_eq!(known.ratios == 0, known.seen.is_none());
        }
    }
}
