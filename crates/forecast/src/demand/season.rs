//! How much more, or less, is used in a week of the year.
//!
//! One fabric's history is too thin for 52 figures, so all fabrics are pooled (Dalhart, 1974;
//! Withycombe, *International Journal of Forecasting* 5 (1989) 547-552; Dekker, van Donselaar and
//! Ouwehand, *IJPE* 90 (2004) 151-167), the pool is smoothed over neighbouring weeks, and of the
//! curve as much is kept as chance leaves:
//!
//! | step | formula |
//! |---|---|
//! | one-off jobs | capped, see [`super::one_off`] |
//! | level of a fabric in week `t` | centred moving average of 52 weeks: 51 in full and half of the two at the ends; at least 39 of the 52 seen. In the half-years at either end, that of the nearest week that has one |
//! | ratio | `r = y / level`, where the level is above 0 |
//! | weight of a fabric | `g = 1 / mean (r - 1)²`, at most 20 |
//! | pool of a week of a year | `R = Σ g r / Σ g` over all fabrics |
//! | curve | at most six harmonics of the year through all `R`, each weighing `Σ g`; degree, test against chance and shrinking in `season/harmonics.rs` |
//! | factor | 1 and the curve, at least 0.2, then divided by the mean of all 52 |
//! | week 53 | mean of weeks 52 and 1; its ratios are in the curve, between those two |
//!
//! Fabrics are pooled within each week *before* anything is tested: what they do alike in one week,
//! because one order took of three of them, is one observation, and its chance is what pools of
//! the same season scatter from week to week. So 1 000 fabrics that share their chance tell no more
//! of a season than one.
//!
//! Ratios to a centred moving average are the classical multiplicative decomposition
//! (*Forecasting: Principles and Practice*, second edition, section 6.3), as statsmodels'
//! `seasonal_decompose` has it; [`decompose`] is just that. Seasonal factors are shrunk after
//! Miller and Williams (*International Journal of Forecasting* 19 (2003) 669-684). 39 weeks, the
//! weight of 20 and 0.2 are our own figures.
//!
//! A level takes a year, so an index takes a year and a week. From one year alone season and the
//! year's own ups and downs are told apart only by how smooth they are; whether an index helps a
//! fabric is for the back-test to say ([`super::choose`]), and it is asked with what was known at
//! each of its origins ([`rolling`]).
//!
//! Doubles; no rounding.
//!
//! ```
//! use pennantry_forecast::demand::days::Week;
//! use pennantry_forecast::demand::season::{History, pooled};
//! use pennantry_forecast::demand::series::Series;
//! let weeks: Vec<Week> = (2024..2026).flat_map(|year| (1..=52).map(move |week| Week { year, week })).collect();
//! // half as much again in weeks 20 to 31, and a little wobble
//! let used = |at: usize| (if (19..31).contains(&(at % 52)) { 60 } else { 40 }) + i64::from(at % 7 == 3);
//! let series = Series::of_amounts(&(0..104).map(used).collect::<Vec<_>>())?;
//! let index = pooled(&[History { series: &series, weeks: &weeks }], None)?;
//! // 52 weeks have 40 · 40 + 12 · 60 = 2320: 1.34 and 0.90 of their mean
//! assert!((index.factor(25) - 1.34).abs() < 0.06 && (index.factor(48) - 0.90).abs() < 0.06);
//! # Ok::<(), pennantry_forecast::demand::Error>(())
//! ```

mod harmonics;

use std::collections::BTreeSet;

use super::Error;
use super::class::LEAST_DEMANDS;
use super::days::Week;
use super::number::{check, count, mean, quotient};
use super::one_off::cap;
use super::series::{Observed, Series};
use harmonics::{Fitted, Pooled, fit};

/// Weeks of an index.
pub const WEEKS: usize = 52;
/// Weeks of a year's window that have to be seen.
const LEAST_SEEN: f64 = 39.0;
/// The least mean square of `ratio - 1` by which a fabric is weighed.
const LEAST_SCATTER: f64 = 0.05;
/// The least factor: below it one job would count as more than five.
const LEAST_FACTOR: f64 = 0.2;

/// One fabric's weeks.
#[derive(Debug, Clone, Copy)]
pub struct History<'a> {
    /// Use per week.
    pub series: &'a Series,
    /// The week of each bucket, none left out.
    pub weeks: &'a [Week],
}

/// A weekly index.
#[derive(Debug, Clone, PartialEq)]
pub struct Index {
    weeks: Vec<Factor>,
    harmonics: usize,
    kept: f64,
    before: Option<Week>,
    fabrics: usize,
}

/// What is known of one week of the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factor {
    /// What a usual week is multiplied by.
    pub factor: f64,
    /// The mean of what was seen, before it was smoothed and shrunk; nothing where no ratio was.
    pub seen: Option<f64>,
    /// Ratios behind it.
    pub ratios: usize,
}

/// Nothing seen.
const NOTHING: Factor = Factor { factor: 1.0, seen: None, ratios: 0 };

impl Index {
    /// An index of no season: 1 throughout.
    pub fn flat() -> Index {
        Index { weeks: vec![NOTHING; WEEKS], harmonics: 0, kept: 0.0, before: None, fabrics: 0 }
    }

    fn new(pools: &[Pool], fitted: &Fitted, before: Option<Week>, fabrics: usize) -> Index {
        let seen: Vec<Option<f64>> = pools.iter().map(|pool| quotient(pool.sum, pool.weight)).collect();
        let middle = mean(&seen.iter().copied().flatten().collect::<Vec<_>>());
        let factors: Vec<f64> = fitted.curve.iter().map(|off| (1.0 + off).max(LEAST_FACTOR)).collect();
        let all = mean(&factors).unwrap_or(1.0);
        let week = |((pool, seen), factor): ((&Pool, Option<f64>), f64)| Factor {
            factor: factor / all,
            seen: seen.map(|seen| middle.and_then(|middle| quotient(seen, middle)).unwrap_or(seen)),
            ratios: pool.ratios,
        };
        let weeks = pools.iter().zip(seen).zip(factors).map(week).collect();
        Index { weeks, harmonics: fitted.harmonics, kept: fitted.kept, before, fabrics }
    }

    /// What a usual week is multiplied by in week 1 to 53; 1 for a number that is no week.
    pub fn factor(&self, week: u8) -> f64 {
        let of = |week: u8| self.week(week).map_or(1.0, |week| week.factor);
        if week == 53 { f64::midpoint(of(52), of(1)) } else { of(week) }
    }

    /// What is known of week 1 to 52; week 53 has nothing of its own.
    pub fn week(&self, week: u8) -> Option<&Factor> {
        self.weeks.get(usize::from(week).checked_sub(1)?)
    }

    /// Whether it says nothing: every factor is 1.
    pub fn is_flat(&self) -> bool {
        self.harmonics == 0
    }

    /// How many harmonics of the year are in it; 0 where it is flat.
    pub fn harmonics(&self) -> usize {
        self.harmonics
    }

    /// The share of the fitted sum of squares that shrinking leaves, 0 to 1.
    pub fn kept(&self) -> f64 {
        self.kept
    }

    /// How many fabrics had ratios in it.
    pub fn fabrics(&self) -> usize {
        self.fabrics
    }

    /// The week before which it ends; nothing where it was made of everything there was.
    pub fn before(&self) -> Option<Week> {
        self.before
    }
}

/// Trend and seasonal index of a series.
#[derive(Debug, Clone, PartialEq)]
pub struct Decomposed {
    /// The centred moving average; nothing where half a period is missing on a side.
    pub trend: Vec<Option<f64>>,
    /// A factor for each place in the period, the first value's place first; their mean is 1.
    pub index: Vec<f64>,
}

/// Classical multiplicative decomposition.
///
/// # Errors
/// Fewer than two periods, a period below 2, values that cannot be; [`Error::NoSpread`]
/// where a place of the period has no ratio, or all ratios are 0.
pub fn decompose(values: &[f64], period: usize) -> Result<Decomposed, Error> {
    check(values)?;
    let least = period.saturating_mul(2).max(4);
    if period < 2 || values.len() < least {
        return Err(Error::TooFew { given: values.len(), least });
    }
    let trend = centred_average(values, period);
    let mut places = vec![Vec::new(); period];
    for (at, (value, trend)) in values.iter().zip(&trend).enumerate() {
        let ratio = trend.and_then(|trend| quotient(*value, trend));
        if let (Some(ratio), Some(place)) = (ratio, places.get_mut(at % period)) {
            place.push(ratio);
        }
    }
    let means: Option<Vec<f64>> = places.iter().map(|ratios| mean(ratios)).collect();
    let means = means.ok_or(Error::NoSpread)?;
    let middle = mean(&means).ok_or(Error::NoSpread)?;
    let index: Option<Vec<f64>> = means.iter().map(|one| quotient(*one, middle)).collect();
    Ok(Decomposed { trend, index: index.ok_or(Error::NoSpread)? })
}

/// Moving average over a period, centred; an even period has half a value at either end.
/// Nothing where its window does not lie wholly in the list.
fn centred_average(values: &[f64], period: usize) -> Vec<Option<f64>> {
    let half = period / 2;
    let edge = if period.is_multiple_of(2) { 0.5 } else { 1.0 };
    let average = |at: usize| {
        let window = values.get(at.checked_sub(half)?..=at.checked_add(half)?)?;
        let share = |place: usize| if place == 0 || place == 2 * half { edge } else { 1.0 };
        let sum: f64 = window.iter().enumerate().map(|(place, value)| share(place) * value).sum();
        quotient(sum, count(period))
    };
    (0..values.len()).map(average).collect()
}

/// A fabric, made ready once for however many weeks it is then looked at from.
struct Ready {
    observed: Observed,
    /// The week of each bucket, by its place among all weeks.
    slots: Vec<usize>,
}

/// All fabrics, and all their weeks in order.
struct All {
    fabrics: Vec<Ready>,
    weeks: Vec<Week>,
}

impl All {
    fn of(histories: &[History]) -> Result<All, Error> {
        let mut weeks = BTreeSet::new();
        for history in histories {
            check_weeks(history.weeks, history.series.buckets().len())?;
            weeks.extend(history.weeks.iter().copied());
        }
        let weeks: Vec<Week> = weeks.into_iter().collect();
        let ready = |history: &History| Ready {
            observed: history.series.observed(),
            slots: history.weeks.iter().map(|week| weeks.partition_point(|one| one < week)).collect(),
        };
        Ok(All { fabrics: histories.iter().map(ready).collect(), weeks })
    }

    /// The index of so many of the weeks.
    fn index(&self, known: usize, before: Option<Week>) -> Result<Index, Error> {
        let mut pools = vec![Pool { weight: 0.0, sum: 0.0, ratios: 0 }; known];
        let mut fabrics = 0;
        for fabric in &self.fabrics {
            fabrics += usize::from(fabric.add(&mut pools)?);
        }
        let pooled = pools.iter().zip(&self.weeks).filter_map(|(pool, week)| {
            Some(Pooled { week: week.week, weight: pool.weight, ratio: quotient(pool.sum, pool.weight)? })
        });
        let pooled: Vec<Pooled> = pooled.collect();
        let mut seen = vec![Pool { weight: 0.0, sum: 0.0, ratios: 0 }; WEEKS];
        for (pool, week) in pools.iter().zip(&self.weeks) {
            let place = usize::from(week.week).checked_sub(1);
            if let Some(seen) = place.and_then(|place| seen.get_mut(place)) {
                seen.weight += pool.weight;
                seen.sum += pool.sum;
                seen.ratios += pool.ratios;
            }
        }
        Ok(Index::new(&seen, &fit(&pooled), before, fabrics))
    }
}

/// Ratios of all fabrics in one week.
#[derive(Debug, Clone, Copy)]
struct Pool {
    weight: f64,
    sum: f64,
    ratios: usize,
}

/// The index of all fabrics, of the weeks before a given one or of all there are.
///
/// # Errors
/// Weeks and buckets of different number; a week that does not follow the one before.
pub fn pooled(histories: &[History], before: Option<Week>) -> Result<Index, Error> {
    let all = All::of(histories)?;
    let known = all.weeks.partition_point(|week| before.is_none_or(|before| *week < before));
    all.index(known, before)
}

/// The index as it was known before each of the last so many weeks, the oldest first; those
/// that are flat are left out.
///
/// # Errors
/// As of [`pooled`].
pub fn rolling(histories: &[History], last: usize) -> Result<Vec<Index>, Error> {
    let all = All::of(histories)?;
    let first = all.weeks.len().saturating_sub(last);
    let mut found = Vec::new();
    for (known, week) in all.weeks.iter().enumerate().skip(first) {
        let index = all.index(known, Some(*week))?;
        if !index.is_flat() {
            found.push(index);
        }
    }
    Ok(found)
}

/// Weeks go with buckets, and each follows the one before.
pub(super) fn check_weeks(weeks: &[Week], buckets: usize) -> Result<(), Error> {
    if weeks.len() != buckets {
        return Err(Error::Lengths { what: "weeks and buckets", first: weeks.len(), second: buckets });
    }
    let mut before: Option<Week> = None;
    for (at, &week) in weeks.iter().enumerate() {
        if !week.stands() || before.is_some_and(|before| !week.follows(before)) {
            return Err(Error::Week { at, year: week.year, week: week.week });
        }
        before = Some(week);
    }
    Ok(())
}

impl Ready {
    /// Adds its ratios to the pools of their weeks, as many as there are; whether it had any.
    fn add(&self, pools: &mut [Pool]) -> Result<bool, Error> {
        let known = self.slots.partition_point(|slot| *slot < pools.len());
        let used = self.observed.buckets.partition_point(|bucket| *bucket < known);
        let values = self.observed.values.get(..used).unwrap_or_default();
        if values.iter().filter(|value| **value > 0.0).count() < LEAST_DEMANDS {
            return Ok(false);
        }
        let (values, _) = cap(values)?;
        let mut weekly = vec![None; known];
        for (&bucket, value) in self.observed.buckets.iter().zip(&values) {
            if let Some(place) = weekly.get_mut(bucket) {
                *place = Some(*value);
            }
        }
        let ratios = ratios(&weekly);
        let off: Vec<f64> = ratios.iter().map(|(_, ratio)| (ratio - 1.0) * (ratio - 1.0)).collect();
        let Some(scatter) = mean(&off) else { return Ok(false) };
        let weight = 1.0 / scatter.max(LEAST_SCATTER);
        for (at, ratio) in ratios {
            if let Some(pool) = self.slots.get(at).and_then(|slot| pools.get_mut(*slot)) {
                pool.weight += weight;
                pool.sum += weight * ratio;
                pool.ratios += 1;
            }
        }
        Ok(true)
    }
}

/// Each week's ratio to its level, from the first use on.
fn ratios(weekly: &[Option<f64>]) -> Vec<(usize, f64)> {
    let first =
        weekly.iter().position(|value| value.is_some_and(|value| value > 0.0)).unwrap_or(weekly.len());
    let weekly = weekly.get(first..).unwrap_or_default();
    let levels = levels(weekly);
    let ratio =
        |(at, (value, level)): (usize, (&Option<f64>, Option<f64>))| Some((at, quotient((*value)?, level?)?));
    (first..).zip(weekly.iter().zip(levels)).filter_map(ratio).collect()
}

/// The level in each week: the centred moving average, and near the ends that of the nearest
/// week that has one. The same as [`centred_average`], by differences of running sums.
fn levels(weekly: &[Option<f64>]) -> Vec<Option<f64>> {
    let half = WEEKS / 2;
    let Some(last) = weekly.len().checked_sub(half + 1).filter(|last| *last >= half) else {
        return vec![None; weekly.len()];
    };
    // sum, weeks seen and weeks with use, before each week and after the last
    let mut running = vec![(0.0, 0.0, 0_usize)];
    running.extend(weekly.iter().scan((0.0, 0.0, 0), |sum, week| {
        if let Some(value) = week {
            *sum = (sum.0 + value, sum.1 + 1.0, sum.2 + usize::from(*value > 0.0));
        }
        Some(*sum)
    }));
    let average = |at: usize| {
        let (first, last) = (at.checked_sub(half)?, at.checked_add(half)?);
        let (before, after) = (running.get(first)?, running.get(last + 1)?);
        let (mut sum, mut seen) = (after.0 - before.0, after.1 - before.1);
        for value in [first, last].into_iter().filter_map(|end| weekly.get(end).copied().flatten()) {
            sum -= value / 2.0;
            seen -= 0.5;
        }
        // without use the difference is nought, or what rounding left
        if after.2 == before.2 || seen < LEAST_SEEN { None } else { quotient(sum, seen) }
    };
    (0..weekly.len()).map(|at| average(at.clamp(half, last))).collect()
}
