//! The back-test of one fabric: origins, and how a candidate did from them.

use super::method::{Method, Path};
use super::{LEAST_ORIGINS, MOST_ORIGINS};
use crate::demand::accuracy::{loss, squared_scale};
use crate::demand::number::{count, mean, quotient};

/// Fewest earlier errors that a quantile is taken of.
const LEAST_EARLIER: usize = 8;

/// How a candidate did. A part is nothing where it has no scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Score {
    /// Root mean squared scaled error of single buckets.
    pub rmsse: Option<f64>,
    /// Pinball loss of the total over the horizon, over the mean total.
    pub pinball: Option<f64>,
    /// Mean of forecast less value, over the mean: above 0 it foretold too much.
    pub bias: Option<f64>,
    /// What is compared: RMSSE + pinball + |bias|.
    pub total: f64,
}

/// Origins of a back-test.
#[derive(Debug, Clone, Copy)]
pub(super) struct Test<'a> {
    values: &'a [f64],
    horizon: usize,
    quantile: f64,
    warm: usize,
    first: usize,
}

/// What a candidate foretold: at each bucket from the start on, as many buckets as the horizon
/// has, or as there are.
pub(super) struct Said {
    from: usize,
    ahead: Vec<Vec<f64>>,
}

impl Said {
    /// What was said of the next bucket when so many were known.
    pub(super) fn next(&self, known: usize) -> Option<f64> {
        self.ahead.get(known.checked_sub(self.from)?)?.first().copied()
    }
}

impl<'a> Test<'a> {
    pub(super) fn new(values: &'a [f64], horizon: usize, quantile: f64) -> Test<'a> {
        let warm = (values.len() / 3).clamp(6, 26).min(values.len());
        let latest = (values.len() + 1).saturating_sub(horizon + MOST_ORIGINS);
        Test { values, horizon, quantile, warm, first: warm.max(latest) }
    }

    /// How many buckets make the start of every method.
    pub(super) fn warm(&self) -> usize {
        self.warm
    }

    /// How many buckets the first origin knows.
    pub(super) fn first(&self) -> usize {
        self.first
    }

    /// How many origins there are.
    pub(super) fn origins(&self) -> usize {
        (self.values.len() + 1).saturating_sub(self.first + self.horizon)
    }

    /// What a method says at each bucket, with the season as it was known there, where it was.
    pub(super) fn said(&self, method: Method, known_season: &[Option<Vec<f64>>]) -> Said {
        let plain = Path::new(method, self.values, self.warm);
        let ahead = (self.warm..self.values.len()).map(|known| {
            let steps = 1..=u16::try_from(self.horizon.min(self.values.len() - known)).unwrap_or(u16::MAX);
            let Some(factors) = known_season.get(known).and_then(Option::as_ref) else {
                return steps.filter_map(|step| plain.ahead(known, step)).collect();
            };
            let without: Vec<f64> =
                self.values.iter().zip(factors).take(known).map(|(value, factor)| value / factor).collect();
            let path = Path::at_end(method, &without, self.warm);
            steps.zip(factors.iter().skip(known)).map(|(step, factor)| path.last(step) * factor).collect()
        });
        Said { from: self.warm, ahead: ahead.collect() }
    }

    /// How a candidate did.
    pub(super) fn score(&self, said: &Said) -> Score {
        let before = self.values.get(..self.first).unwrap_or_default();
        let level = mean(before).unwrap_or(0.0);
        let (mut squares, mut errors, mut losses) = (Vec::new(), Vec::new(), Vec::new());
        // total errors, value less forecast, of origins whose horizon is over, sorted
        let mut earlier: Vec<f64> = Vec::new();
        let mut waiting: std::collections::VecDeque<f64> = std::collections::VecDeque::new();
        let origins =
            (self.warm..).zip(&said.ahead).take_while(|(known, _)| known + self.horizon <= self.values.len());
        for (known, ahead) in origins {
            if waiting.len() >= self.horizon
                && let Some(error) = waiting.pop_front()
            {
                let place = earlier.partition_point(|one| *one <= error);
                earlier.insert(place, error);
            }
            let values = self.values.get(known..).unwrap_or_default();
            let pairs = || values.iter().zip(ahead);
            let (value, forecast) = pairs().fold((0.0, 0.0), |sum, pair| (sum.0 + pair.0, sum.1 + pair.1));
            waiting.push_back(value - forecast);
            if known < self.first {
                continue;
            }
            squares.extend(pairs().map(|(value, forecast)| (value - forecast) * (value - forecast)));
            errors.extend(pairs().map(|(value, forecast)| forecast - value));
            if let Some(above) = quantile(&earlier, self.quantile) {
                losses.push(loss((forecast + above).max(0.0) - value, self.quantile));
            }
        }
        let scale = squared_scale(before).unwrap_or(0.0);
        let rmsse = mean(&squares).and_then(|squares| quotient(squares, scale)).map(f64::sqrt);
        let enough = losses.len() >= LEAST_ORIGINS;
        let pinball =
            mean(&losses).filter(|_| enough).and_then(|loss| quotient(loss, level * count(self.horizon)));
        let bias = mean(&errors).and_then(|error| quotient(error, level));
        let total = [rmsse, pinball, bias.map(f64::abs)].into_iter().flatten().sum();
        Score { rmsse, pinball, bias, total }
    }
}

/// The least of some sorted values that a share `q` of them does not exceed; nothing where
/// they are too few.
fn quantile(sorted: &[f64], q: f64) -> Option<f64> {
    if sorted.len() < LEAST_EARLIER {
        return None;
    }
    let all = count(sorted.len());
    sorted.iter().zip(1_u32..).find(|(_, rank)| f64::from(*rank) >= q * all).map(|(value, _)| *value)
}
