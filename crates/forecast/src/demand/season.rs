//! How much more, or less, is used in a week of the year.
//!
//! One fabric's history is too thin for 52 figures, so they are pooled over all fabrics
//! (Dalhart, 1974; Chen and Boylan, "Use of individual and group seasonal indices in
//! subaggregate demand forecasting", *JORS* 58 (2007) 1660-1671), and each is trusted as
//! far as its evidence goes:
//!
//! | step | formula |
//! |---|---|
//! | one-off jobs | capped, see [`super::one_off`] |
//! | level of a fabric in week `t` | centred moving average of 52 weeks: 51 in full and half of the two at the ends; at least 39 of the 52 seen |
//! | ratio | `r = y / level`, where the level is above 0 |
//! | index of week `w` | `S = Σ g r / Σ g` over all fabrics and earlier years; `g` is the share of weeks in which the fabric had demand; then divided by the mean of all weeks |
//! | how far ratios scatter | `φ = Σ g (r - S)² / Σ (n - 1)`, or the same from one year's pool to the next, whichever is greater |
//! | how far weeks differ | `A = max(0, mean (S - 1)² - mean φ / G)`, `G = Σ g` of a week |
//! | kept | `b = A / (A + φ / G)`: factor `1 + b (S - 1)`, at least 0.2, then divided by the mean of all 52 |
//! | week 53 | mean of weeks 52 and 1; its own ratios, one year in five or six, are left out |
//!
//! Ratios to a centred moving average and their mean per season are the classical
//! multiplicative decomposition (*Forecasting: Principles and Practice*, second edition,
//! section 6.3), as statsmodels' `seasonal_decompose` has it; [`decompose`] is just that. The shrinking is
//! empirical Bayes by moments (Efron and Morris, *JASA* 70 (1975) 311-319), as Miller and
//! Williams use it for seasonal factors (*International Journal of Forecasting* 19 (2003)
//! 669-684). 39 weeks and 0.2 are our own figures.
//!
//! A level takes half a year on either side, so an index takes two years, and with nothing
//! but one ratio a week nothing tells a season from chance: such an index is 1 throughout
//! and [`Index::is_flat`]. Whether an index helps a fabric is for the back-test to say
//! ([`super::choose`]).
//!
//! Doubles; no rounding.

use std::collections::BTreeMap;

use super::Error;
use super::class::{LEAST_DEMANDS, classify};
use super::days::Week;
use super::number::{check, count, mean, quotient};
use super::one_off::cap;
use super::series::Series;

/// Weeks of an index.
pub const WEEKS: usize = 52;
/// Weeks of a year's window that have to be seen.
const LEAST_SEEN: f64 = 39.0;
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
    before: Option<Week>,
    fabrics: usize,
}

/// What is known of one week of the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factor {
    /// What a usual week is multiplied by.
    pub factor: f64,
    /// The index before shrinking; nothing where no ratio was seen.
    pub seen: Option<f64>,
    /// Ratios behind it.
    pub ratios: usize,
    /// How much of what was seen is kept, 0 to 1.
    pub kept: f64,
}

/// Nothing seen.
const NOTHING: Factor = Factor { factor: 1.0, seen: None, ratios: 0, kept: 0.0 };

impl Index {
    /// An index of no season: 1 throughout.
    pub fn flat() -> Index {
        Index { weeks: vec![NOTHING; WEEKS], before: None, fabrics: 0 }
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
        self.weeks.iter().all(|week| week.kept <= 0.0)
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
    let seen: Vec<Option<f64>> = values.iter().copied().map(Some).collect();
    let trend = centred_average(&seen, period, count(period));
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
/// A window lies wholly in the list, and has at least so much of its period seen.
fn centred_average(values: &[Option<f64>], period: usize, least: f64) -> Vec<Option<f64>> {
    let half = period / 2;
    let edge = if period.is_multiple_of(2) { 0.5 } else { 1.0 };
    let average = |at: usize| {
        let window = values.get(at.checked_sub(half)?..=at.checked_add(half)?)?;
        let (mut sum, mut weight) = (0.0, 0.0);
        for (place, value) in window.iter().enumerate() {
            let share = if place == 0 || place == 2 * half { edge } else { 1.0 };
            if let Some(value) = value {
                sum += share * value;
                weight += share;
            }
        }
        if weight < least { None } else { quotient(sum, weight) }
    };
    (0..values.len()).map(average).collect()
}

/// One ratio: week of the year from nought, year, share of weeks with demand, ratio.
struct Ratio {
    week: usize,
    year: i32,
    weight: f64,
    over_level: f64,
}

/// The index of all fabrics, of the weeks before a given one or of all there are.
///
/// # Errors
/// Weeks and buckets of different number; a week that does not follow the one before.
pub fn pooled(histories: &[History], before: Option<Week>) -> Result<Index, Error> {
    let mut ratios = Vec::new();
    let mut fabrics = 0;
    for history in histories {
        let found = of_fabric(history, before)?;
        fabrics += usize::from(!found.is_empty());
        ratios.extend(found);
    }
    Ok(Index { weeks: shrunk(&ratios), before, fabrics })
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

fn of_fabric(history: &History, before: Option<Week>) -> Result<Vec<Ratio>, Error> {
    check_weeks(history.weeks, history.series.buckets().len())?;
    let known = history.weeks.partition_point(|week| before.is_none_or(|before| *week < before));
    let observed = history.series.observed();
    let used = observed.buckets.partition_point(|bucket| *bucket < known);
    let (Some(values), Some(buckets)) = (observed.values.get(..used), observed.buckets.get(..used)) else {
        return Ok(Vec::new());
    };
    if values.is_empty() {
        return Ok(Vec::new());
    }
    let shape = classify(values)?;
    let Some(interval) = shape.interval.filter(|_| shape.demands >= LEAST_DEMANDS) else {
        return Ok(Vec::new());
    };
    let (values, _) = cap(values)?;
    let mut weekly = vec![None; known];
    for (&bucket, value) in buckets.iter().zip(&values) {
        if let Some(place) = weekly.get_mut(bucket) {
            *place = Some(*value);
        }
    }
    let first = weekly.iter().position(|value| value.is_some_and(|value| value > 0.0)).unwrap_or(known);
    let weekly = weekly.split_off(first);
    let levels = centred_average(&weekly, WEEKS, LEAST_SEEN);
    let weeks = history.weeks.iter().skip(first);
    let ratios = weeks.zip(weekly.iter().zip(levels)).filter_map(|(week, (value, level))| {
        let place = usize::from(week.week).checked_sub(1).filter(|place| *place < WEEKS)?;
        let ratio = quotient((*value)?, level?)?;
        Some(Ratio { week: place, year: week.year, weight: 1.0 / interval, over_level: ratio })
    });
    Ok(ratios.collect())
}

/// Weights and weighted means of some groups, and how far their members scatter.
struct Groups {
    /// Sum of weights, weighted mean and number, by group.
    means: Vec<(f64, f64, usize)>,
    /// `Σ g (r - S)²` over all groups, and `Σ (n - 1)`.
    scatter: (f64, usize),
}

fn group(members: &[(usize, f64, f64)]) -> Groups {
    let mut sums = vec![(0.0, 0.0, 0_usize); WEEKS];
    for &(week, weight, value) in members {
        if let Some(sum) = sums.get_mut(week) {
            *sum = (sum.0 + weight, sum.1 + weight * value, sum.2 + 1);
        }
    }
    let means: Vec<(f64, f64, usize)> =
        sums.into_iter().map(|(g, sum, n)| (g, quotient(sum, g).unwrap_or(1.0), n)).collect();
    let squares = members.iter().map(|&(week, weight, value)| {
        let off = value - means.get(week).map_or(value, |mean| mean.1);
        weight * off * off
    });
    let scatter = (squares.sum(), means.iter().map(|mean| mean.2.saturating_sub(1)).sum());
    Groups { means, scatter }
}

/// Factors of all weeks; see the table of this module.
fn shrunk(ratios: &[Ratio]) -> Vec<Factor> {
    let single: Vec<(usize, f64, f64)> = ratios.iter().map(|r| (r.week, r.weight, r.over_level)).collect();
    let groups = group(&single);
    let mut years: BTreeMap<(usize, i32), (f64, f64)> = BTreeMap::new();
    for one in ratios {
        let pool = years.entry((one.week, one.year)).or_default();
        *pool = (pool.0 + one.weight, pool.1 + one.weight * one.over_level);
    }
    let yearly: Vec<(usize, f64, f64)> =
        years.iter().map(|(key, pool)| (key.0, pool.0, quotient(pool.1, pool.0).unwrap_or(1.0))).collect();
    let scatter = |(squares, free): (f64, usize)| quotient(squares, count(free));
    let within = [scatter(groups.scatter), scatter(group(&yearly).scatter)];
    let within = within.into_iter().flatten().reduce(f64::max);

    let seen: Vec<f64> = groups.means.iter().filter(|mean| mean.2 > 0).map(|mean| mean.1).collect();
    let middle = mean(&seen).filter(|middle| *middle > 0.0);
    let Some(middle) = middle else { return vec![NOTHING; WEEKS] };
    let Some(within) = within else {
        let alone = |mean: &(f64, f64, usize)| (mean.2 > 0).then_some(mean.1 / middle);
        return groups
            .means
            .iter()
            .map(|mean| Factor { seen: alone(mean), ratios: mean.2, ..NOTHING })
            .collect();
    };
    // the scatter is of ratios as they were; the index was divided by its mean
    let within = within / (middle * middle);
    let chance: Vec<f64> =
        groups.means.iter().filter(|mean| mean.2 > 0).filter_map(|mean| quotient(within, mean.0)).collect();
    let apart: Vec<f64> = seen.iter().map(|one| (one / middle - 1.0) * (one / middle - 1.0)).collect();
    let apart = (mean(&apart).unwrap_or(0.0) - mean(&chance).unwrap_or(0.0)).max(0.0);
    let mut factors: Vec<Factor> = groups
        .means
        .iter()
        .map(|&(weight, index, ratios)| {
            if ratios == 0 {
                return NOTHING;
            }
            let seen = index / middle;
            let kept =
                quotient(within, weight).and_then(|chance| quotient(apart, apart + chance)).unwrap_or(0.0);
            let factor = (1.0 + kept * (seen - 1.0)).max(LEAST_FACTOR);
            Factor { factor, seen: Some(seen), ratios, kept }
        })
        .collect();
    let middle = mean(&factors.iter().map(|week| week.factor).collect::<Vec<_>>()).unwrap_or(1.0);
    for week in &mut factors {
        week.factor = quotient(week.factor, middle).unwrap_or(1.0);
    }
    factors
}
