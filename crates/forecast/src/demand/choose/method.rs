//! The methods that are chosen among, and what each would have said at every bucket.

use crate::demand::class::{Class, Shape, croston_suffices};
use crate::demand::intermittent::{Croston, Start, Tsb, adida, croston_path, tsb_path};
use crate::demand::number::{count, mean};
use crate::demand::smooth::{step, step_trend};

/// A method and its constants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Method {
    /// Simple exponential smoothing.
    Ses {
        /// Smooths the level.
        alpha: f64,
    },
    /// Holt's trend, damped.
    DampedHolt {
        /// Smooths the level.
        alpha: f64,
        /// Smooths the trend.
        beta: f64,
        /// What is left of the trend from bucket to bucket.
        phi: f64,
    },
    /// Croston's.
    Croston {
        /// Smooths sizes and intervals.
        alpha: f64,
    },
    /// Syntetos and Boylan's.
    Sba {
        /// Smooths sizes and intervals.
        alpha: f64,
    },
    /// Teunter, Syntetos and Babai's.
    Tsb {
        /// Smooths sizes.
        alpha: f64,
        /// Smooths the share of buckets with demand.
        beta: f64,
    },
    /// Sums of as many buckets as the mean interval has.
    Adida,
}

/// Candidates of a class, the simplest first, and the one that is taken untested.
pub(super) fn candidates(shape: &Shape) -> (Vec<Method>, Method) {
    let ses = |alpha| Method::Ses { alpha };
    let tsb = |alpha, beta| Method::Tsb { alpha, beta };
    let croston = match (shape.interval, shape.variation) {
        (Some(interval), Some(variation)) if croston_suffices(interval, variation) => {
            Method::Croston { alpha: 0.1 }
        }
        _ => Method::Sba { alpha: 0.1 },
    };
    let (low, middle) = (ses(0.05), ses(0.1));
    match shape.class {
        Class::Smooth => {
            let trend = Method::DampedHolt { alpha: 0.2, beta: 0.1, phi: 0.9 };
            (vec![middle, ses(0.2), ses(0.3), trend], ses(0.2))
        }
        Class::Erratic => {
            let trend = Method::DampedHolt { alpha: 0.1, beta: 0.05, phi: 0.9 };
            (vec![low, middle, ses(0.2), Method::Sba { alpha: 0.1 }, trend], middle)
        }
        Class::Intermittent => {
            (vec![low, middle, croston, tsb(0.1, 0.05), tsb(0.2, 0.1), Method::Adida], tsb(0.1, 0.05))
        }
        Class::Lumpy | Class::Insufficient => {
            (vec![low, middle, croston, tsb(0.1, 0.05), tsb(0.1, 0.1), Method::Adida], tsb(0.1, 0.05))
        }
    }
}

/// Level and trend of a method after each bucket from a first one on.
pub(super) struct Path {
    /// How many buckets were known for the first of the states.
    from: usize,
    states: Vec<(f64, f64)>,
    damping: f64,
}

impl Path {
    /// The states of a method after `warm` buckets, after one more, … after all. `values`
    /// begin with the first demand; `warm` of them, at least two, make the start.
    pub(super) fn new(method: Method, values: &[f64], warm: usize) -> Path {
        Path::since(method, values, warm, warm)
    }

    /// The last of those states alone.
    pub(super) fn at_end(method: Method, values: &[f64], warm: usize) -> Path {
        Path::since(method, values, warm, values.len())
    }

    fn since(method: Method, values: &[f64], warm: usize, from: usize) -> Path {
        let start = start(values.get(..warm).unwrap_or(values));
        let flat = |rates: Vec<f64>| rates.into_iter().map(|rate| (rate, 0.0)).collect::<Vec<_>>();
        let mut damping = 1.0;
        // one state for each value; what is known of the first made the start
        let states = match method {
            Method::Ses { alpha } => {
                flat(trended(values, (alpha, 0.0, 1.0), start).iter().map(|s| s.0).collect())
            }
            Method::DampedHolt { alpha, beta, phi } => {
                damping = phi;
                trended(values, (alpha, beta, phi), start)
            }
            Method::Croston { alpha } => flat(crostons(values, alpha, start, Croston::rate)),
            Method::Sba { alpha } => flat(crostons(values, alpha, start, Croston::sba)),
            Method::Tsb { alpha, beta } => {
                let path = tsb_path(values, alpha, beta, Some(start)).unwrap_or_default();
                flat(path.iter().map(Tsb::rate).collect())
            }
            Method::Adida => {
                let known = (1..=values.len()).map(|known| {
                    let seen = values.get(..known).unwrap_or_default();
                    // only states from there on are asked for
                    if known < from { 0.0 } else { adida(seen).unwrap_or(0.0) }
                });
                flat(known.collect())
            }
        };
        Path { from, states: states.into_iter().skip(from.saturating_sub(1)).collect(), damping }
    }

    /// The forecast made when so many buckets were known, for the bucket so many steps
    /// on; nothing before the start.
    pub(super) fn ahead(&self, known: usize, steps: u16) -> Option<f64> {
        let state = self.states.get(known.checked_sub(self.from)?)?;
        Some(self.foretold(*state, steps))
    }

    /// The forecast made now.
    pub(super) fn last(&self, steps: u16) -> f64 {
        self.states.last().map_or(0.0, |state| self.foretold(*state, steps))
    }

    fn foretold(&self, (level, trend): (f64, f64), steps: u16) -> f64 {
        let (mut share, mut sum) = (1.0, 0.0);
        for _ in 0..steps {
            share *= self.damping;
            sum += share;
        }
        (level + sum * trend).max(0.0)
    }
}

/// Mean size and mean interval of the first buckets. The first is a demand by what the
/// history begins with, so it begins an interval and ends none.
fn start(values: &[f64]) -> Start {
    let sizes: Vec<f64> = values.iter().copied().filter(|&value| value > 0.0).collect();
    let (buckets, demands) = (count(values.len()), count(sizes.len()));
    let interval = if sizes.len() < 2 { buckets } else { (buckets - 1.0) / (demands - 1.0) };
    Start { size: mean(&sizes).unwrap_or(0.0), interval: interval.max(1.0) }
}

/// Level and trend after each value; the first value is in the start already.
fn trended(values: &[f64], constants: (f64, f64, f64), start: Start) -> Vec<(f64, f64)> {
    let mut state = (start.size / start.interval, 0.0);
    let states = values.iter().enumerate().map(|(at, &value)| {
        if at > 0 && constants.1 > 0.0 {
            state = step_trend(constants, value, state);
        } else if at > 0 {
            state.0 = step(constants.0, value, state.0);
        }
        state
    });
    states.collect()
}

fn crostons(values: &[f64], alpha: f64, start: Start, rate: fn(&Croston) -> f64) -> Vec<f64> {
    croston_path(values, alpha, alpha, Some(start)).unwrap_or_default().iter().map(rate).collect()
}
