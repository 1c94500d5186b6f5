//! The seasonal index against statsmodels, by hand, and what shrinking does.

use proptest::prelude::*;

use super::{Dice, near, same};
use crate::demand::Error;
use crate::demand::days::Week;
use crate::demand::season::{History, Index, decompose, pooled, rolling};
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

/// A single fabric's weeks decompose as by statsmodels; its pooled ratios of the years that have
/// a full window on both sides are the classical ones, those of the ends have the nearest level.
#[test]
fn one_fabric_s_weeks_decompose_as_by_statsmodels() {
    let file = super::oracle::generated();
    for row in file["weekly"].as_array().unwrap() {
        let values = super::oracle::list(&row["values"]);
        let wanted = super::oracle::list(&row["index"]);
        let found = decompose(&values, 52).unwrap();
        for (classical, wanted) in found.index.iter().zip(wanted) {
            same(*classical, wanted);
        }
        let amounts: Vec<i64> =
            row["values"].as_array().unwrap().iter().map(|value| value.as_i64().unwrap()).collect();
        let (series, weeks) = (Series::of_amounts(&amounts).unwrap(), weeks(amounts.len()));
        let index = pooled(&[History { series: &series, weeks: &weeks }], None).unwrap();
        let (capped, _) = crate::demand::one_off::cap(&values).unwrap();
        let trend = decompose(&capped, 52).unwrap().trend;
        let level = |at: usize| trend[at.clamp(26, values.len() - 27)].unwrap();
        let seen: Vec<f64> = (0..52)
            .map(|week| {
                let ratios: Vec<f64> =
                    (week..values.len()).step_by(52).map(|at| capped[at] / level(at)).collect();
                ratios.iter().sum::<f64>() / f64::from(u32::try_from(ratios.len()).unwrap())
            })
            .collect();
        let middle = seen.iter().sum::<f64>() / 52.0;
        for (place, seen) in (1..).zip(seen) {
            same(index.week(place).unwrap().seen.unwrap(), seen / middle);
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

/// Where the season is known, because it was drawn: the curve comes far closer to it than what
/// was seen, also where there is none.
#[test]
fn the_curve_comes_closer_to_the_truth() {
    let mut dice = Dice(42);
    for (count, years, swing, gain) in
        [(3, 3, 0.0, 0.5), (3, 3, 0.15, 0.6), (20, 4, 0.6, 0.6), (3, 2, 0.4, 0.6)]
    {
        let all = group(&mut dice, count, years, swing);
        let found = index(&all, &weeks(52 * years), None);
        let shrunk = distance(|week| found.factor(week), swing);
        let seen = distance(|week| found.week(week).unwrap().seen.unwrap(), swing);
        assert!(shrunk <= gain * seen, "{count} fabrics, {years} years, {swing}: {shrunk} against {seen}");
        assert_eq!(found.fabrics(), count);
    }
}

/// With no season in, no season comes out: of 300 shops by chance alone at most a few have one. The
/// test lets 1 in 100 pass, and a degree chosen first lets a little more.
#[test]
fn no_season_in_no_season_out() {
    let mut dice = Dice(31);
    let weeks = weeks(104);
    let mut found = 0;
    for _ in 0..300 {
        let all = group(&mut dice, 4, 2, 0.0);
        found += usize::from(!index(&all, &weeks, None).is_flat());
    }
    assert!(found <= 12, "{found} of 300");
}

/// The same orders in every fabric are one observation: many fabrics that share their chance show no
/// more of a season than one.
#[test]
fn fabrics_that_share_their_orders_are_one() {
    let mut dice = Dice(17);
    let weeks = weeks(104);
    let mut found = 0;
    for _ in 0..200 {
        let one = group(&mut dice, 1, 2, 0.0).remove(0);
        let all: Vec<Series> = (0..8).map(|_| one.clone()).collect();
        let (alone, together) = (index(&all[..1], &weeks, None), index(&all, &weeks, None));
        found += usize::from(!together.is_flat());
        assert!((1..=52).all(|week| near(alone.factor(week), together.factor(week), 1e-9)));
    }
    assert!(found <= 9, "{found} of 200");
}

/// Another unit, and another order of the fabrics, change nothing.
#[test]
fn neither_unit_nor_order_of_fabrics_matters() {
    let mut dice = Dice(23);
    let weeks = weeks(130);
    let mut all: Vec<Series> = group(&mut dice, 6, 3, 0.5)
        .iter()
        .map(|one| Series::new(&one.buckets()[..130], 1).unwrap())
        .collect();
    let first = index(&all, &weeks, None);
    assert!(!first.is_flat());
    all.rotate_left(2);
    all.swap(0, 3);
    let turned = index(&all, &weeks, None);
    let finer: Vec<Series> = all
        .iter()
        .map(|one| {
            Series::of_amounts(&one.buckets().iter().map(|b| b.amount * 1_024).collect::<Vec<_>>()).unwrap()
        })
        .collect();
    let finer = index(&finer, &weeks, None);
    assert_eq!((first.harmonics(), first.fabrics()), (turned.harmonics(), turned.fabrics()));
    for week in 1..=53 {
        same(first.factor(week), turned.factor(week));
        same(first.factor(week), finer.factor(week));
    }
}

/// What is known before a week is the index of a history that ends there, and those that say
/// nothing are left out.
#[test]
fn the_index_rolls_with_what_was_known() {
    let mut dice = Dice(29);
    let (all, weeks) = (group(&mut dice, 5, 2, 0.6), weeks(104));
    let histories: Vec<History> = all.iter().map(|series| History { series, weeks: &weeks }).collect();
    let found = rolling(&histories, 78).unwrap();
    // a year and a week make levels; from 26 weeks on there were 51 to look at
    assert!((30..=51).contains(&found.len()), "{}", found.len());
    assert!(found.is_sorted_by_key(Index::before));
    for index in &found {
        assert!(!index.is_flat());
        assert_eq!(*index, pooled(&histories, index.before()).unwrap());
    }
    assert!(found.iter().all(|index| index.before() > Some(weeks[52])));
    assert_eq!(rolling(&histories, 0), Ok(vec![]));
    assert_eq!(rolling(&[], 78), Ok(vec![]));
}

/// What all fabrics did alike in one year and not in the next is no season, however many
/// fabrics did it.
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
    let steady: Vec<Series> = (0..15).map(|_| fabric(&|at| curve(at % 52, 0.3))).collect();
    assert!(index(&changing, &weeks(52 * years), None).is_flat());
    let steady = index(&steady, &weeks(52 * years), None);
    assert!(steady.kept() > 0.95, "{}", steady.kept());
}

/// Half a year in which nothing is ever used keeps a factor that one may divide by.
#[test]
fn a_dead_season_keeps_a_fifth() {
    let mut dice = Dice(4);
    let amounts: Vec<i64> = (0..208).map(|at| if at % 52 < 26 { 0 } else { 30 + dice.below(9) }).collect();
    // not from the first week on: a history begins with its first use
    let all = [Series::of_amounts(&amounts).unwrap(), Series::of_amounts(&amounts).unwrap()];
    let found = index(&all, &weeks(208), None);
    let least = (1..=52).map(|week| found.factor(week)).fold(f64::INFINITY, f64::min);
    assert!((0.15..=0.2).contains(&least), "{least}");
    for week in 5..=22 {
        assert!(found.factor(week) < 0.45, "{week}: {}", found.factor(week));
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
    // 208 weeks less those not seen
    assert_eq!((of(0), of(13)), (208, 195));
    // at 14 even windows that hold all of the gap but half a week of it have too few
    assert!(of(14) < 194 - 20, "{}", of(14));
}

/// One festival in one year is capped before it is divided by its level.
#[test]
fn a_one_off_job_makes_no_season() {
    let mut dice = Dice(6);
    let mut amounts: Vec<i64> = (0..208).map(|_| 20 + dice.below(8)).collect();
    amounts[52 + 30] = 5_000;
    let series = Series::of_amounts(&amounts).unwrap();
    let found = index(&[series], &weeks(208), None);
    // three usual jobs in one of four years: (3 + 1 + 1 + 1) / 4 at most
    let week = found.week(31).unwrap();
    assert!(week.seen.unwrap() < 1.6 && week.ratios == 4, "{week:?}");
    assert!(found.is_flat());
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

/// A level takes a year, so a year and a week give ratios; less gives none.
#[test]
fn less_than_a_year_says_nothing() {
    let mut dice = Dice(1);
    let all = group(&mut dice, 2, 2, 0.6);
    let weeks = weeks(104);
    let short = index(&all, &weeks, Some(weeks[52]));
    assert!(short.is_flat());
    assert!((1..=53).all(|week| short.factor(week).to_bits() == 1.0_f64.to_bits()));
    assert_eq!((short.week(40).unwrap().ratios, short.before()), (0, Some(weeks[52])));
    let year = index(&all, &weeks, Some(weeks[60]));
    assert_eq!((year.week(1).unwrap().ratios, year.week(40).unwrap().ratios), (4, 2));
    assert!(!index(&all, &weeks, None).is_flat());
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
    assert!((5..=20).all(|week| found.factor(week) > 1.2) && (33..=46).all(|week| found.factor(week) < 0.8));
    // 2020's week 53 is in a level and in the curve, and no ratio of another week
    let ratios: usize = (1..=52).map(|week| found.week(week).unwrap().ratios).sum();
    assert_eq!(ratios, 6 * (209 - 1));
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

    /// Whatever was used, factors are finite and above nought, and their mean is 1.
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
        prop_assert!((0.0..=1.0).contains(&found.kept()) && found.harmonics() <= 6);
        prop_assert!(!found.is_flat() || factors.iter().all(|factor| factor.to_bits() == 1.0_f64.to_bits()));
        for week in 1..=52 {
            let known = found.week(week).unwrap();
            prop_assert_eq!(known.ratios == 0, known.seen.is_none());
        }
    }
}
