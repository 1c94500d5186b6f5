//! A rate from days of which only "at least so much" is known.
//!
//! Where stock ran out, what was used is a lower bound of what would have been. Leaving
//! such days out is too low, because they are the busy ones, and so is counting them as
//! they stand: for 2, 1, 3, 0, 2, 4, 1, 2 and days that ran out at 3 and at 2 they give
//! 1.875 and 2.0, where maximum likelihood gives 2.177.
//!
//! | demand | likelihood of a full day | of one that ran out at `c` |
//! |---|---|---|
//! | Poisson | `e^-λ λˣ / x!` | `P(X >= c)` |
//! | normal | `φ((x - μ)/σ) / σ` | `P(X > c)` |
//!
//! For Poisson demand the estimate is where the likelihood is steepest no more,
//! `Σ x - n λ + Σ c / S(c, λ) = 0` with `S = 1 + λ/(c+1) + λ²/((c+1)(c+2)) + …` and `n` full
//! days: `c / S` is what is expected of a day beyond `λ`, given that it ran out at `c`. The
//! left side only falls, and it is halved to the last bit.
//!
//! For normal demand by the EM algorithm (Dempster, Laird and Rubin, *JRSS B* 39 (1977)
//! 1-38): days that ran out are replaced by what the estimate expects of them, with
//! `h = φ(a) / (1 - Φ(a))` and `a = (c - μ)/σ` a mean of `μ + σ h` and a mean square of
//! `μ² + σ² + σ (c + μ) h`, and the estimate made anew, until it moves by less than 10⁻¹³ of
//! `σ`. What has not settled after 10 000 rounds is refused. This is Tobin's model without
//! regressors (*Econometrica* 26 (1958) 24-36).
//!
//! Doubles; no rounding.

use super::Error;
use super::number::{check, count, mean, quotient};

/// Most days: with the others this bounds the work.
const MOST_DAYS: usize = 1_000;
/// Most rounds.
const ROUNDS: u32 = 10_000;
/// Where a round has stopped to move.
const CLOSE: f64 = 1e-13;
/// Most terms of a series that shrinks; it is broken off when a term no longer counts.
const TERMS: u32 = 10_000;
/// Most of a Poisson count, so that the series stays short.
const MOST_COUNT: u32 = 1_000;
/// Most halvings: a double has no more bits to its value than half of these.
const HALVINGS: u32 = 200;

/// How many days there are, full ones among them.
fn days(full: usize, bounds: usize) -> Result<f64, Error> {
    match (full, full.saturating_add(bounds)) {
        (_, 0) => Err(Error::Empty),
        (0, _) => Err(Error::OnlyBounds),
        (_, given) if given > MOST_DAYS => Err(Error::TooMany { given, most: MOST_DAYS }),
        (_, given) => Ok(count(given)),
    }
}

/// The mean of Poisson demand: `full` are days on which stock lasted, `at_least` days
/// that ran out after so many; at most 1 000 days. Counts are of jobs, up to 1 000 a day.
///
/// # Errors
/// No day at all or more than 1 000; [`Error::OnlyBounds`] where no full day is among them;
/// a count that is too great.
///
/// ```
/// use pennantry_forecast::demand::censored::poisson;
/// let found = poisson(&[2, 1, 3, 0, 2, 4, 1, 2], &[3, 2])?;
/// assert!((found - 2.17699733).abs() < 5e-9);
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn poisson(full: &[u32], at_least: &[u32]) -> Result<f64, Error> {
    days(full.len(), at_least.len())?;
    for (at, &count) in full.iter().chain(at_least).enumerate() {
        if count > MOST_COUNT {
            return Err(Error::TooGreat { at, value: f64::from(count), most: f64::from(MOST_COUNT) });
        }
    }
    let sum: f64 = full.iter().copied().map(f64::from).sum();
    let least: f64 = at_least.iter().copied().map(f64::from).sum();
    let known = count(full.len());
    let steep = |rate: f64| {
        let beyond: f64 = at_least.iter().map(|&bound| beyond(rate, f64::from(bound))).sum();
        sum + beyond - known * rate
    };
    let (mut low, mut high) = (0.0, (sum + least) / known);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            break;
        }
        if steep(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(high)
}

/// `E[X | X >= c] - λ` of a Poisson count: `c / S`.
fn beyond(rate: f64, bound: f64) -> f64 {
    let (mut term, mut sum, mut below) = (1.0, 1.0, bound);
    for _ in 0..TERMS {
        below += 1.0;
        term *= rate / below;
        sum += term;
        // a sum that runs over means that the bound tells nothing, and c / ∞ is 0
        if term <= f64::EPSILON * 1e-3 * sum || sum.is_infinite() {
            break;
        }
    }
    bound / sum
}

/// Mean and standard deviation of normal demand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Normal {
    /// The mean.
    pub mean: f64,
    /// The standard deviation of maximum likelihood: divided by all days.
    pub deviation: f64,
}

/// Mean and deviation of normal demand: `full` are days on which stock lasted, `more_than`
/// days that ran out at so much.
///
/// # Errors
/// No day at all or more than 1 000; [`Error::OnlyBounds`] without a full one;
/// [`Error::NoSpread`] where the full ones are all alike; [`Error::NotSettled`] where nearly
/// all days ran out, far from what the full ones say.
///
/// ```
/// use pennantry_forecast::demand::censored::normal;
/// let found = normal(&[110.0, 95.0, 130.0, 120.0, 105.0, 90.0, 115.0], &[100.0, 125.0])?;
/// assert!((found.mean - 112.840353).abs() < 5e-7);
/// assert!((found.deviation - 14.364859).abs() < 5e-7);
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn normal(full: &[f64], more_than: &[f64]) -> Result<Normal, Error> {
    let days = days(full.len(), more_than.len())?;
    check(full)?;
    if !more_than.is_empty() {
        check(more_than)?;
    }
    let middle = mean(full).ok_or(Error::Empty)?;
    // from the middle of the full days, so that squares do not drown in it
    let squares: f64 = full.iter().map(|value| (value - middle) * (value - middle)).sum();
    let spread =
        quotient(squares, count(full.len())).filter(|spread| *spread > 0.0).ok_or(Error::NoSpread)?;
    let (mut shift, mut deviation) = (0.0, spread.sqrt());
    for _ in 0..ROUNDS {
        let (mut sum, mut square) = (0.0, squares);
        for bound in more_than {
            let bound = bound - middle;
            let hazard = hazard((bound - shift) / deviation);
            sum += shift + deviation * hazard;
            square += shift * shift + deviation * deviation + deviation * (bound + shift) * hazard;
        }
        let next = sum / days;
        let Some(wide) = quotient(square, days).map(|mean| mean - next * next).filter(|wide| *wide > 0.0)
        else {
            break;
        };
        let moved = (next - shift).abs() + (wide.sqrt() - deviation).abs();
        (shift, deviation) = (next, wide.sqrt());
        if moved <= CLOSE * deviation {
            return Ok(Normal { mean: middle + shift, deviation });
        }
    }
    Err(Error::NotSettled)
}

/// `φ(a) / (1 - Φ(a))` of the standard normal. From 10 on by the continued fraction
/// `a + 1/(a + 2/(a + 3/(a + …)))` of Laplace, where the tail itself is lost.
fn hazard(a: f64) -> f64 {
    if a > 10.0 {
        return (1..=60_u8).rev().fold(a, |below, place| a + f64::from(place) / below);
    }
    let density = libm::exp(-a * a / 2.0) / (2.0 * std::f64::consts::PI).sqrt();
    let tail = libm::erfc(a / std::f64::consts::SQRT_2) / 2.0;
    density / tail
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Both ways to the hazard agree where they meet; 10.0981 and 0.79788 from tables of
    /// the Mills ratio.
    #[test]
    fn the_hazard_is_smooth_where_its_ways_meet() {
        let (before, after) = (hazard(10.0), hazard(10.0 + 1e-12));
        assert!((before - after).abs() < 1e-9, "{before} {after}");
        assert!((before - 10.0981).abs() < 5e-5);
        assert!((hazard(0.0) - 0.797_884_560_8).abs() < 1e-10);
        assert!(hazard(1e8) >= 1e8 && hazard(-40.0) >= 0.0 && hazard(-40.0) < 1e-300);
    }
}
