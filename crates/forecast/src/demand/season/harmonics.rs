//! The smooth curve through the weeks of a year, and how much of it is chance.
//!
//! | step | formula |
//! |---|---|
//! | curve | weighted least squares of the pooled ratios on `1, cos(2πkφ), sin(2πkφ)`, `k` from 1 to 6, `φ = (week - ½) / 52`; columns made orthonormal one after the other |
//! | gain of a harmonic | `z²`, the sum of its two columns' squared coefficients: what it takes off the sum of squares |
//! | chance | `σ² (1 + ρ) / (1 - ρ)`: `σ²` the residuals' mean square over their degrees of freedom, `ρ` their correlation from week to week, from 0 to 0.9 |
//! | degree | the `K` of the greatest `Σ (z² - 4 chance)` over the first `K` harmonics: Mallows's `Cp`; 0 is flat |
//! | test | `F = Σ z² / (2 K chance)` on `2 K` and the residuals' degrees of freedom; flat where more than 1 in 100 would be greater by chance |
//! | kept of a harmonic | `max(0, 1 - 2 chance / z²)` |
//!
//! Harmonics of weekly data: *Forecasting: Principles and Practice*, third edition, sections 10.5
//! and 13.1; `Cp`: Mallows, *Technometrics* 15 (1973) 661-675; `(1 + ρ) / (1 - ρ)` is what
//! Bartlett (*JRSS Supplement* 8 (1946) 27-41) has for a slow curve in errors that follow each
//! other; what is kept is the positive part of Stein's shrinking, each pair by itself (Efron
//! and Morris, *JASA* 70 (1975) 311-319). Six harmonics and 1 in 100 are our own figures.

use super::WEEKS;
use crate::demand::number::{count, quotient};

/// Most harmonics of a year.
const MOST: u8 = 6;
/// The share of seasons by chance alone that is let pass.
const BY_CHANCE: f64 = 0.01;
/// A column with less than this share of itself left says nothing new.
const LEAST_LEFT: f64 = 1e-6;
/// A curve with less than this share of all squares is what rounding left.
const NEGLIGIBLE: f64 = 1e-12;
/// Most correlation from week to week that is reckoned with.
const MOST_FOLLOWING: f64 = 0.9;

/// All fabrics in one week.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pooled {
    /// 1 to 53.
    pub week: u8,
    /// How much it counts.
    pub weight: f64,
    /// Use over level.
    pub ratio: f64,
}

/// A curve around nought, by week of the year.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fitted {
    /// How many harmonics; 0 where the curve is flat.
    pub harmonics: usize,
    /// The share of the fitted sum of squares that is kept.
    pub kept: f64,
    /// Of the 52 weeks.
    pub curve: Vec<f64>,
}

/// A column of the design: at the weeks seen, weights in it, and at the 52 weeks of a year.
struct Column {
    seen: Vec<f64>,
    year: Vec<f64>,
}

impl Column {
    fn take(&mut self, share: f64, of: &Column) {
        less(&mut self.seen, share, &of.seen);
        less(&mut self.year, share, &of.year);
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn less(from: &mut [f64], share: f64, of: &[f64]) {
    for (a, b) in from.iter_mut().zip(of) {
        *a -= share * b;
    }
}

/// Where in the year a week lies; week 53 between its neighbours.
fn phase(week: u8) -> f64 {
    let place = if week == 53 { 52.0 } else { f64::from(week) - 0.5 };
    place / 52.0 * std::f64::consts::TAU
}

/// The design, each column orthogonal to those before and of length 1; nothing where the weeks
/// seen do not tell its columns apart.
fn columns(pools: &[Pooled], roots: &[f64]) -> Option<Vec<Column>> {
    let mut columns: Vec<Column> = Vec::new();
    let mut add = |of: &dyn Fn(f64) -> f64| {
        let mut one = Column {
            seen: pools.iter().zip(roots).map(|(pool, root)| root * of(phase(pool.week))).collect(),
            year: (1..=52).map(|week| of(phase(week))).collect(),
        };
        let whole = dot(&one.seen, &one.seen);
        for before in &columns {
            let share = dot(&one.seen, &before.seen);
            one.take(share, before);
        }
        let left = dot(&one.seen, &one.seen);
        let length = left.sqrt();
        (left > LEAST_LEFT * whole && length.is_finite()).then(|| {
            one.seen.iter_mut().chain(&mut one.year).for_each(|value| *value /= length);
            columns.push(one);
        })
    };
    add(&|_| 1.0)?;
    for harmonic in 1..=MOST {
        let harmonic = f64::from(harmonic);
        add(&|at| libm::cos(harmonic * at))?;
        add(&|at| libm::sin(harmonic * at))?;
    }
    Some(columns)
}

/// The curve through pooled weeks, in their order. At least twice as many weeks as columns, or
/// it is flat.
pub(super) fn fit(pools: &[Pooled]) -> Fitted {
    fitted(pools).unwrap_or_else(|| Fitted { harmonics: 0, kept: 0.0, curve: vec![0.0; WEEKS] })
}

fn fitted(pools: &[Pooled]) -> Option<Fitted> {
    let unknown = 2 * usize::from(MOST) + 1;
    let free = pools.len().checked_sub(unknown).filter(|free| *free >= unknown).map(count)?;
    let roots: Vec<f64> = pools.iter().map(|pool| pool.weight.sqrt()).collect();
    let columns = columns(pools, &roots)?;
    // what is left of the ratios, column after column
    let mut left: Vec<f64> = pools.iter().zip(&roots).map(|(pool, root)| root * pool.ratio).collect();
    let mut coefficients = Vec::with_capacity(columns.len());
    for column in &columns {
        let coefficient = dot(&left, &column.seen);
        less(&mut left, coefficient, &column.seen);
        coefficients.push(coefficient);
    }
    let squares = dot(&left, &left);
    let all: f64 = coefficients.iter().map(|one| one * one).sum();
    let next = left.get(1..).unwrap_or_default();
    let following = quotient(dot(&left, next), squares)?.clamp(0.0, MOST_FOLLOWING);
    let chance = squares / free * (1.0 + following) / (1.0 - following);
    let gains: Vec<f64> = coefficients.get(1..)?.chunks(2).map(|pair| dot(pair, pair)).collect();
    let (mut sum, mut best, mut degree) = (0.0, 0.0, 0);
    for (gain, harmonics) in gains.iter().zip(1..) {
        sum += gain - 4.0 * chance;
        if sum > best {
            (best, degree) = (sum, harmonics);
        }
    }
    let gains = gains.get(..degree).filter(|gains| !gains.is_empty())?;
    let gained: f64 = gains.iter().sum();
    if gained <= NEGLIGIBLE * all {
        return None;
    }
    if tail(quotient(gained, 2.0 * count(degree) * chance)?, degree, free) > BY_CHANCE {
        return None;
    }
    let kept = |gain: &f64| quotient(2.0 * chance, *gain).map_or(0.0, |chance| (1.0 - chance).max(0.0));
    let mut curve = vec![0.0; WEEKS];
    let pairs = columns.get(1..)?.chunks(2).zip(coefficients.get(1..)?.chunks(2));
    for ((columns, coefficients), gain) in pairs.zip(gains) {
        for (column, coefficient) in columns.iter().zip(coefficients) {
            less(&mut curve, -kept(gain) * coefficient, &column.year);
        }
    }
    let kept = quotient(gains.iter().map(|gain| kept(gain) * gain).sum(), gained)?;
    let middle = curve.iter().sum::<f64>() / count(WEEKS);
    for off in &mut curve {
        *off -= middle;
    }
    Some(Fitted { harmonics: degree, kept, curve })
}

/// The share of Fisher's F on `2 pairs` and `free` degrees of freedom that lies above a value:
/// `xᵃ Σ (a)ⱼ (1 - x)ʲ / j!` over `j` below `pairs`, with `a = free / 2` and
/// `x = free / (free + 2 pairs F)`: the incomplete beta of a whole second parameter (*Handbook of
/// Mathematical Functions*, 26.5 and 26.6).
fn tail(value: f64, pairs: usize, free: f64) -> f64 {
    let half = free / 2.0;
    let above = free / (free + 2.0 * count(pairs) * value);
    let (mut term, mut sum) = (1.0, 1.0);
    for place in (1..pairs).map(count) {
        term *= (half + place - 1.0) / place * (1.0 - above);
        sum += term;
    }
    libm::pow(above, half) * sum
}

#[cfg(test)]
mod tests {
    use super::tail;

    /// scipy 1.17.1, `stats.f.sf`; the first is 0.01 in the printed tables: F(2, 100) is 4.82.
    #[test]
    fn the_tail_of_f_is_scipy_s() {
        for (value, pairs, free, wanted) in TAILS {
            let found = tail(value, pairs, free);
            assert!(
                (found - wanted).abs() <= 1e-11 * wanted,
                "{value} {pairs} {free}: {found} is not {wanted}"
            );
        }
    }

    const TAILS: [(f64, usize, f64, f64); 6] = [
        (4.82, 1, 100.0, 0.010_035_722_790_974_814),
        (3.8, 4, 87.0, 0.000_723_953_329_552_156_8),
        (1.0, 6, 91.0, 0.455_563_639_060_586_6),
        (2.5, 3, 39.0, 0.038_310_397_881_221_085),
        (0.0, 2, 13.0, 1.0),
        (12.5, 6, 507.0, 1.798_693_479_048_474_7e-22),
    ];
}
