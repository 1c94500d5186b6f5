//! Exponential smoothing: a level, and a level with a trend.
//!
//! | method | recursion | forecast `h` buckets on |
//! |---|---|---|
//! | SES | `l ← α y + (1 - α) l` | `l` |
//! | Holt | `l' = α y + (1 - α)(l + φ b)`, `b ← β (l' - l) + (1 - β) φ b`, `l ← l'` | `l + (φ + φ² + … + φʰ) b` |
//!
//! `φ = 1` is Holt's linear trend, below that it is damped (Gardner and others, 1985).
//! `β` smooths the trend by itself (called `β*` by Hyndman and Athanasopoulos,
//! *Forecasting: Principles and Practice*, chapters 7 and 8). Use is never below nought,
//! so a forecast is not either: [`Trend::ahead`] stops at 0, [`Trend::line`] does not.
//!
//! Start: SES with the level given, or with the first value (which is then not smoothed
//! again). Holt with level and trend given.
//!
//! Doubles, `+ - * /` and a root only; no rounding. Additions are in the order of the
//! formulas, so that libraries which do the same give the same bits.

use super::Error;
use super::number::{check, smoothing, within};

/// The least interval in which the search for `α` stops, and its most steps: the golden
/// section leaves 0.618 of an interval, so 10⁻¹² of the widest takes 58.
const CLOSE: f64 = 1e-12;
const STEPS: u32 = 100;
/// Steps of the range in which a lower hollow is looked for, and by what share it has to be lower:
/// sums that differ by less differ in their last bits only.
const GRID: u8 = 20;
const SAME: f64 = 1e-9;

/// A level after smoothing.
#[derive(Debug, Clone, PartialEq)]
pub struct Level {
    /// The last level: the forecast of every bucket to come.
    pub level: f64,
    /// Value less forecast one step before, where there was a forecast.
    pub errors: Vec<f64>,
}

/// A level and a trend after smoothing.
#[derive(Debug, Clone, PartialEq)]
pub struct Trend {
    /// The last level.
    pub level: f64,
    /// The last trend, per bucket.
    pub trend: f64,
    /// What is left of the trend from one bucket to the next.
    pub damping: f64,
    /// Value less forecast one step before.
    pub errors: Vec<f64>,
}

impl Trend {
    /// `l + (φ + … + φʰ) b`, which can fall below nought.
    pub fn line(&self, steps: u16) -> f64 {
        let (mut share, mut sum) = (1.0, 0.0);
        for _ in 0..steps {
            share *= self.damping;
            sum += share;
        }
        self.level + sum * self.trend
    }

    /// The forecast so many buckets on, never below nought.
    pub fn ahead(&self, steps: u16) -> f64 {
        self.line(steps).max(0.0)
    }
}

/// One step of SES.
pub(super) fn step(alpha: f64, value: f64, level: f64) -> f64 {
    alpha * value + (1.0 - alpha) * level
}

/// One step of Holt: level and trend after a value.
pub(super) fn step_trend(
    (alpha, beta, phi): (f64, f64, f64),
    value: f64,
    (level, trend): (f64, f64),
) -> (f64, f64) {
    let next = alpha * value + (1.0 - alpha) * (level + phi * trend);
    (next, beta * (next - level) + (1.0 - beta) * phi * trend)
}

/// Simple exponential smoothing; `start` is the level before the first value, or none to
/// start with the first value.
///
/// ```
/// use pennantry_forecast::demand::smooth::ses;
/// // FPP1, section 7.1: oil production, α = 0.2, from the level 446.6565
/// let oil = [446.6565, 454.4733, 455.663, 423.6322, 456.2713, 440.5881, 425.3325, 485.1494, 506.0482, 526.792,
///            514.2689, 494.211];
/// assert!((ses(&oil, 0.2, Some(446.6565))?.level - 484.8025).abs() < 5e-5);
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn ses(values: &[f64], alpha: f64, start: Option<f64>) -> Result<Level, Error> {
    check(values)?;
    smoothing("alpha", alpha)?;
    if let Some(level) = start {
        check(&[level])?;
    }
    let smoothed = start.map_or_else(|| values.get(1..).unwrap_or_default(), |_| values);
    let mut level = start.or_else(|| values.first().copied()).ok_or(Error::Empty)?;
    let mut errors = Vec::with_capacity(smoothed.len());
    for &value in smoothed {
        errors.push(value - level);
        level = step(alpha, value, level);
    }
    Ok(Level { level, errors })
}

/// Holt's linear trend; see [`damped_holt`].
pub fn holt(values: &[f64], (alpha, beta): (f64, f64), start: (f64, f64)) -> Result<Trend, Error> {
    damped_holt(values, (alpha, beta, 1.0), start)
}

/// Holt's trend, damped: `α`, `β` and `φ`, from a level and a trend before the first
/// value. `α` and `φ` are above 0 and at most 1, `β` from 0 to 1.
pub fn damped_holt(
    values: &[f64],
    (alpha, beta, phi): (f64, f64, f64),
    (level, trend): (f64, f64),
) -> Result<Trend, Error> {
    check(values)?;
    smoothing("alpha", alpha)?;
    within("beta", beta, (0.0, 1.0), "from 0 to 1")?;
    smoothing("phi", phi)?;
    check(&[level])?;
    let most = super::number::EXACT_FLOAT;
    within("trend", trend, (-most, most), "finite, at most 2^53 either way")?;
    let mut state = (level, trend);
    let mut errors = Vec::with_capacity(values.len());
    for &value in values {
        errors.push(value - (state.0 + phi * state.1));
        state = step_trend((alpha, beta, phi), value, state);
    }
    Ok(Trend { level: state.0, trend: state.1, damping: phi, errors })
}

/// `α` for a half-life in buckets: after so many, half of a value's weight is left.
/// `α = 1 - 0.5^(1/H)`: 30 give 0.0228400316.
pub fn alpha_of_half_life(buckets: f64) -> Result<f64, Error> {
    within("half-life", buckets, (0.1, 100_000.0), "from 0.1 to 100 000 buckets")?;
    // 1 - 0.5^x without losing its digits for small x
    Ok(-libm::expm1(-std::f64::consts::LN_2 / buckets))
}

/// `α` whose values are on average as old as those of a moving average of so many
/// buckets: `2 / (N + 1)`; 60 give 0.0327868852.
pub fn alpha_of_window(buckets: f64) -> Result<f64, Error> {
    within("window", buckets, (1.0, 100_000.0), "from 1 to 100 000 buckets")?;
    Ok(2.0 / (buckets + 1.0))
}

/// `α` in a range with the least sum of squared one-step errors, SES started with the
/// first value: by golden section (Kiefer, 1953) until the interval is below 10⁻¹², two
/// equal sums end it, and its middle is taken. A golden section finds one hollow, and a sum may
/// have several: where one of 21 even steps of the range has a lower sum than it found, it is done
/// anew between the two steps next to the lowest of them, and the ends of the range count.
pub fn alpha_of_least_squares(values: &[f64], (low, high): (f64, f64)) -> Result<f64, Error> {
    check(values)?;
    smoothing("low", low)?;
    within("high", high, (low, 1.0), "from low to 1")?;
    Ok(least(values, low, high))
}

/// The search of [`alpha_of_least_squares`], on checked values.
pub(super) fn least(values: &[f64], low: f64, high: f64) -> f64 {
    let found = golden(values, low, high);
    let width = (high - low) / f64::from(GRID);
    let mut best = (found, squares(values, found) * (1.0 - SAME));
    for place in 0..=GRID {
        let alpha = if place == GRID { high } else { low + width * f64::from(place) };
        let sum = squares(values, alpha);
        if sum < best.1 {
            best = (alpha, sum);
        }
    }
    if best.0.to_bits() == found.to_bits() {
        return found;
    }
    let within = golden(values, (best.0 - width).max(low), (best.0 + width).min(high));
    if squares(values, within) < best.1 { within } else { best.0 }
}

/// One golden section.
fn golden(values: &[f64], low: f64, high: f64) -> f64 {
    let ratio = f64::midpoint(5.0_f64.sqrt(), 1.0);
    let (mut a, mut b) = (low, high);
    let (mut c, mut d) = (b - (b - a) / ratio, a + (b - a) / ratio);
    let (mut at_c, mut at_d) = (squares(values, c), squares(values, d));
    for _ in 0..STEPS {
        if (b - a).abs() < CLOSE {
            break;
        }
        if at_c < at_d {
            (b, d, at_d) = (d, c, at_c);
            c = b - (b - a) / ratio;
            at_c = squares(values, c);
        } else if at_d < at_c {
            (a, c, at_c) = (c, d, at_d);
            d = a + (b - a) / ratio;
            at_d = squares(values, d);
        } else {
            break;
        }
    }
    f64::midpoint(b, a)
}

fn squares(values: &[f64], alpha: f64) -> f64 {
    let Some((&first, rest)) = values.split_first() else { return 0.0 };
    // from the first value smoothed with itself: the same but for its last bit, which is
    // what decides near the bottom of a flat sum
    let mut level = step(alpha, first, first);
    let mut sum = 0.0;
    for &value in rest {
        let error = value - level;
        sum += error * error;
        level = step(alpha, value, level);
    }
    sum
}

/// SES with `α` and the first level both of least squares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimated {
    /// The smoothing constant.
    pub alpha: f64,
    /// The level before the first value.
    pub start: f64,
    /// Sum of squared one-step errors.
    pub squares: f64,
    /// The forecast.
    pub level: f64,
}

/// Finds `α` in `[0.0001, 0.9999]` and the level before the first value that leave the
/// least sum of squared one-step errors.
///
/// For a given `α` the errors are linear in the first level, `e = d - w l₀` with `w` the
/// powers of `1 - α`, so the best one is `Σ w d / Σ w²`; that leaves a search in `α`
/// alone: the best of 200 steps, then a golden section between its neighbours. The level
/// may be any finite number, as least squares has it.
pub fn estimate_ses(values: &[f64]) -> Result<Estimated, Error> {
    check(values)?;
    let (low, high) = (0.0001, 0.9999);
    let width = (high - low) / 200.0;
    let mut best = (low, profile(values, low).squares);
    for place in 1..=200_u8 {
        let alpha = low + width * f64::from(place);
        let squares = profile(values, alpha).squares;
        if squares < best.1 {
            best = (alpha, squares);
        }
    }
    let ratio = f64::midpoint(5.0_f64.sqrt(), 1.0);
    let (mut a, mut b) = ((best.0 - width).max(low), (best.0 + width).min(high));
    for _ in 0..STEPS {
        let (c, d) = (b - (b - a) / ratio, a + (b - a) / ratio);
        if profile(values, c).squares <= profile(values, d).squares {
            b = d;
        } else {
            a = c;
        }
    }
    Ok(profile(values, f64::midpoint(a, b)))
}

/// SES at one `α`, with the first level that is best for it.
fn profile(values: &[f64], alpha: f64) -> Estimated {
    // level from nought, and what one unit of the first level adds to it
    let run = |start: f64| {
        let (mut level, mut weight) = (start, 1.0);
        let (mut cross, mut norm, mut squares) = (0.0, 0.0, 0.0);
        for &value in values {
            let error = value - level;
            cross += weight * error;
            norm += weight * weight;
            squares += error * error;
            level = step(alpha, value, level);
            weight *= 1.0 - alpha;
        }
        (cross, norm, squares, level)
    };
    let (cross, norm, ..) = run(0.0);
    // the first weight is 1, so the norm is too at the least
    let start = cross / norm.max(1.0);
    let (.., squares, level) = run(start);
    Estimated { alpha, start, squares, level }
}
