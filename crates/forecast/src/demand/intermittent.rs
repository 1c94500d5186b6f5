//! Methods for demand that comes seldom: sizes apart from how often.
//!
//! | method | what is smoothed | rate per bucket |
//! |---|---|---|
//! | Croston (*Operational Research Quarterly* 23 (1972) 289-303) | on a demand: size `z` with `α`, interval `p` with `β` | `z / p` |
//! | SBA (Syntetos and Boylan, *International Journal of Forecasting* 21 (2005) 303-314) | the same | `(1 - β/2) z / p` |
//! | SBJ (Shale, Boylan and Johnston, *JORS* 57 (2006) 588-592) | the same | `(1 - β/(2 - β)) z / p` |
//! | TSB (Teunter, Syntetos and Babai, *EJOR* 214 (2011) 606-615) | on a demand `z` with `α`; in every bucket the share `q` of buckets with demand, with `β` | `q z` |
//! | ADIDA (Nikolopoulos and others, *JORS* 62 (2011) 544-554) | sums of so many buckets as the mean interval has, by SES | level over that many |
//! | IMAPA (Petropoulos and Kourentzes, *JORS* 66 (2015) 914-924) | the same for 1, 2, … up to that many | the mean of them |
//!
//! Croston's rate and its corrections do not fall while nothing is used: a fabric that
//! has died stays alive in them. TSB's share falls in every empty bucket. SBA is too low
//! where nearly every bucket has demand: 3.8 for a constant 4.
//!
//! # Start
//! Without one given, as common libraries do: the first size is `z`; the first interval
//! counts from the start of the list, so that demand in its first bucket has interval 1;
//! TSB's share begins with the first bucket, 1 or 0. With one given, smoothing goes on
//! from it, and the list is read as one that begins *on* its first demand: that demand
//! has no interval, and its bucket is not counted in the share.
//!
//! ADIDA and IMAPA: length is the mean interval, rounded to the nearest, halves to the
//! even one; the oldest buckets that do not fill a sum are left out; SES starts with the
//! first sum, its `α` in `[0.1, 0.3]` of least squares.
//!
//! A list of nothing but noughts has the rate 0: all that was seen. None of the methods
//! gives an interval of forecasts: the models behind them allow negative demand (Shenstone
//! and Hyndman, *Journal of Forecasting* 24 (2005) 389-402).
//!
//! Doubles; rounded only where it says so.

use super::Error;
use super::number::{check, count, mean, smoothing, within};
use super::smooth::{least, step};

/// Range of `α` in ADIDA and IMAPA.
const RANGE: (f64, f64) = (0.1, 0.3);

/// Sizes and intervals to go on from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Size of a demand.
    pub size: f64,
    /// Buckets from one demand to the next, 1 or more.
    pub interval: f64,
}

/// Croston's two figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Croston {
    /// Smoothed size of a demand, 0 where there was none.
    pub size: f64,
    /// Smoothed interval, 1 or more.
    pub interval: f64,
    /// The constant that smooths the interval.
    pub beta: f64,
}

impl Croston {
    /// Croston's rate per bucket.
    pub fn rate(&self) -> f64 {
        self.size / self.interval
    }

    /// Syntetos and Boylan's.
    pub fn sba(&self) -> f64 {
        (1.0 - self.beta / 2.0) * self.rate()
    }

    /// Shale, Boylan and Johnston's, for Poisson arrivals.
    pub fn sbj(&self) -> f64 {
        (1.0 - self.beta / (2.0 - self.beta)) * self.rate()
    }
}

/// The two figures of Teunter, Syntetos and Babai.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tsb {
    /// Smoothed size of a demand, 0 where there was none.
    pub size: f64,
    /// Smoothed share of buckets with demand.
    pub share: f64,
}

impl Tsb {
    /// The rate per bucket.
    pub fn rate(&self) -> f64 {
        self.share * self.size
    }
}

/// A start that stands: a size from 0 on, an interval from 1 on.
fn usable(start: Option<Start>) -> Result<(), Error> {
    let Some(start) = start else { return Ok(()) };
    check(&[start.size, start.interval])?;
    within("interval", start.interval, (1.0, f64::MAX), "1 or more buckets")
}

/// Croston's method: `α` smooths sizes, `β` intervals.
///
/// ```
/// use pennantry_forecast::demand::intermittent::croston;
/// // sizes 3, 2, 4, 1 after intervals 3, 2, 4, 1: the rate is 1 whatever α
/// let values = [0.0, 0.0, 3.0, 0.0, 2.0, 0.0, 0.0, 0.0, 4.0, 1.0, 0.0, 0.0];
/// let found = croston(&values, 0.2, 0.2, None)?;
/// assert_eq!((found.rate(), found.sba()), (1.0, 0.9));
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn croston(values: &[f64], alpha: f64, beta: f64, start: Option<Start>) -> Result<Croston, Error> {
    Ok(croston_path(values, alpha, beta, start)?.last().copied().unwrap_or(Croston {
        size: 0.0,
        interval: 1.0,
        beta,
    }))
}

/// Croston's figures after each bucket.
pub fn croston_path(
    values: &[f64],
    alpha: f64,
    beta: f64,
    start: Option<Start>,
) -> Result<Vec<Croston>, Error> {
    check(values)?;
    smoothing("alpha", alpha)?;
    smoothing("beta", beta)?;
    usable(start)?;
    let mut state = start.map(|start| (start.size, start.interval));
    // how long ago the last demand was; nothing before the first one of a given start
    let mut since = if start.is_some() { None } else { Some(0.0) };
    let mut path = Vec::with_capacity(values.len());
    for &value in values {
        since = since.map(|buckets| buckets + 1.0);
        if value > 0.0 {
            state = Some(match (state, since) {
                (None, since) => (value, since.unwrap_or(1.0)),
                (Some((size, interval)), None) => (step(alpha, value, size), interval),
                (Some((size, interval)), Some(since)) => {
                    (step(alpha, value, size), step(beta, since, interval))
                }
            });
            since = Some(0.0);
        }
        let (size, interval) = state.unwrap_or((0.0, 1.0));
        path.push(Croston { size, interval, beta });
    }
    Ok(path)
}

/// Teunter, Syntetos and Babai's method: `α` smooths sizes, `β` the share of buckets with
/// demand.
pub fn tsb(values: &[f64], alpha: f64, beta: f64, start: Option<Start>) -> Result<Tsb, Error> {
    Ok(tsb_path(values, alpha, beta, start)?.last().copied().unwrap_or(Tsb { size: 0.0, share: 0.0 }))
}

/// The figures of [`tsb`] after each bucket.
pub fn tsb_path(values: &[f64], alpha: f64, beta: f64, start: Option<Start>) -> Result<Vec<Tsb>, Error> {
    check(values)?;
    smoothing("alpha", alpha)?;
    smoothing("beta", beta)?;
    usable(start)?;
    let mut size = start.map(|start| start.size);
    let mut share = start.map(|start| 1.0 / start.interval);
    let mut path = Vec::with_capacity(values.len());
    for (at, &value) in values.iter().enumerate() {
        let demand = value > 0.0;
        if demand {
            size = Some(size.map_or(value, |size| step(alpha, value, size)));
        }
        // the first bucket of a given start is its first demand by definition
        if at > 0 || start.is_none() {
            let seen = f64::from(u8::from(demand));
            share = Some(share.map_or(seen, |share| step(beta, seen, share)));
        }
        path.push(Tsb { size: size.unwrap_or(0.0), share: share.unwrap_or(0.0) });
    }
    Ok(path)
}

/// How many buckets ADIDA adds up: the mean interval, halves to the even number. Nothing
/// where there is no demand.
fn aggregation(values: &[f64]) -> Option<usize> {
    let last = values.iter().rposition(|&value| value > 0.0)?;
    let demands = values.iter().filter(|&&value| value > 0.0).count();
    // intervals from the start of the list add up to where the last demand is
    let (sum, twice) = (last + 1, 2 * demands);
    let (whole, rest) = (sum / demands, 2 * (sum % demands));
    let up = match (2 * rest).cmp(&twice) {
        std::cmp::Ordering::Less => false,
        std::cmp::Ordering::Equal => whole % 2 == 1,
        std::cmp::Ordering::Greater => true,
    };
    Some(whole + usize::from(up))
}

/// The rate by sums of `length` buckets, at most all of them.
fn aggregated(values: &[f64], length: usize) -> f64 {
    let length = length.clamp(1, values.len().max(1));
    let kept = values.get(values.len() % length..).unwrap_or_default();
    let sums: Vec<f64> = kept.chunks(length).map(|bucket| bucket.iter().sum()).collect();
    let alpha = least(&sums, RANGE.0, RANGE.1);
    let level = sums.iter().copied().reduce(|level, sum| step(alpha, sum, level)).unwrap_or(0.0);
    level / count(length)
}

/// ADIDA: the rate per bucket.
pub fn adida(values: &[f64]) -> Result<f64, Error> {
    check(values)?;
    Ok(aggregation(values).map_or(0.0, |length| aggregated(values, length)))
}

/// IMAPA: the rate per bucket.
pub fn imapa(values: &[f64]) -> Result<f64, Error> {
    check(values)?;
    let Some(most) = aggregation(values) else { return Ok(0.0) };
    let rates: Vec<f64> = (1..=most).map(|length| aggregated(values, length)).collect();
    Ok(mean(&rates).unwrap_or(0.0))
}
