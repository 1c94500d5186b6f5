//! The back-test of one fabric: origins, and how a candidate did from them.

use super::method::Path;
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

impl<'a> Test<'a> {
    pub(super) fn new(values: &'a [f64], horizon: usize, quantile: f64) -> Test<'a> {
        let warm = (values.len() / 3).clamp(6, 26).min(values.len());
        let latest = (values.len() + 1).saturating_sub(horizon + MOST_ORIGINS);
        Test { values, horizon, quantile, warm, first: warm.max(latest) }
    }

    /// The same with no origin that knows fewer than so many buckets.
    pub(super) fn starting(self, known: usize) -> Test<'a> {
        Test { first: self.first.max(known), ..self }
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

    /// What was in the buckets after an origin, and what a path foretold of them.
    fn pairs(&self, path: &Path, factors: &[f64], known: usize) -> Vec<(f64, f64)> {
        let buckets = (known..known + self.horizon).zip(1_u16..);
        let pair = |(at, steps): (usize, u16)| {
            Some((*self.values.get(at)?, path.ahead(known, steps)? * factors.get(at)?))
        };
        buckets.filter_map(pair).collect()
    }

    /// How a path did; `factors` put the season back into what it says.
    pub(super) fn score(&self, path: &Path, factors: &[f64]) -> Score {
        let before = self.values.get(..self.first).unwrap_or_default();
        let level = mean(before).unwrap_or(0.0);
        let (mut squares, mut errors, mut losses) = (Vec::new(), Vec::new(), Vec::new());
        // total errors, value less forecast, of origins whose horizon is over, sorted
        let mut earlier: Vec<f64> = Vec::new();
        let mut waiting: std::collections::VecDeque<f64> = std::collections::VecDeque::new();
        for known in self.warm..(self.values.len() + 1).saturating_sub(self.horizon) {
            if waiting.len() >= self.horizon
                && let Some(error) = waiting.pop_front()
            {
                let place = earlier.partition_point(|one| *one <= error);
                earlier.insert(place, error);
            }
            let pairs = self.pairs(path, factors, known);
            let (value, forecast) =
                pairs.iter().fold((0.0, 0.0), |sum, pair| (sum.0 + pair.0, sum.1 + pair.1));
            waiting.push_back(value - forecast);
            if known < self.first {
                continue;
            }
            squares.extend(pairs.iter().map(|(value, forecast)| (value - forecast) * (value - forecast)));
            errors.extend(pairs.iter().map(|(value, forecast)| forecast - value));
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
