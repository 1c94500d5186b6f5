//! Safety stock, reorder point, order-up-to level.
//!
//! | figure | formula |
//! |---|---|
//! | lead-time demand | mean `d L`, sd `sqrt(L s^2 + d^2 s_L^2)` |
//! | of a level that is smoothed | sd `s sqrt(sum over j < L of (1 + j a)^2)`, whole `L` |
//! | periodic review | the same over `L + R` |
//! | cycle service `p` | safety stock `z sd`, `z` the normal quantile of `p` |
//! | fill rate `f` with lots of `Q` | safety stock `k sd`, where `sd G(k) = (1 - f) Q` |
//! | reorder point, order-up-to level | mean + safety stock |
//! | of a known distribution | the least amount that gives the service |
//!
//! `d` and `s` are mean and sd of demand in a bucket, independent of each other and of the
//! lead time, whose mean is `L` and sd `s_L`; all in one unit of time. `s` is the sd of the
//! error of the forecast of one bucket, not of the demand. `a` is the smoothing constant:
//! an error of the level stays for the whole lead time, so `s sqrt L` is too little (for
//! `a = 0.2`, `L = 4` by 24 %). `G` is the unit loss ([`super::normal`]).
//!
//! Both services that a level gives are told, whichever it was made for: the cycle
//! service `Phi(k)` and the fill rate `1 - sd (G(k) - G(k + Q / sd)) / Q`. The formula
//! that sets a level for a fill rate leaves out the second term, which counts what was
//! wanting already when an order came: it asks for a little more, never for less.
//!
//! A safety stock is never below nought: a service below one half, or lots so large that
//! they alone give the fill rate, need none. Sources: Snyder and Shen, *Fundamentals of
//! Supply Chain Theory*, 2nd edition, ch. 4 and 5; Silver, Pyke and Peterson, *Inventory Management
//! and Production Planning and Scheduling*, 3rd edition, ch. 7; Nahmias, *Production and
//! Operations Analysis*, ch. 5; the smoothed sd is that of ETS(A,N,N) summed over the lead time
//! (Hyndman, Koehler, Ord and Snyder, *Forecasting with Exponential Smoothing*, ch. 6).
//!
//! Rounding: the whole level is the level rounded up to the next unit; a billionth of
//! a unit over is none. Example: `d = 10`, `s = 4`, `L = 9`, cycle service 95 %: mean 90, sd 12,
//! safety stock 19.738, reorder point 109.738, that is 110.

use super::lead::Distribution;
use super::service::{Kind, Service};
use super::{Error, normal, number};

/// Longest lead time in buckets.
const LONGEST: f64 = 10_000.0;

/// A mean and an sd: of demand in a bucket, of a lead time, of demand in a lead time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// The mean.
    pub mean: f64,
    /// The standard deviation.
    pub sd: f64,
}

impl Spread {
    /// A mean and an sd, each from 0 to 10¹².
    pub fn new(mean: f64, sd: f64) -> Result<Self, Error> {
        Ok(Self { mean: number::not_negative("mean", mean)?, sd: number::not_negative("sd", sd)? })
    }
}

/// Demand of one bucket over a lead time, in buckets, that may vary itself.
///
/// ```
/// use pennantry_forecast::supply::safety::{Spread, over};
/// let demand = over(Spread { mean: 20.0, sd: 5.0 }, Spread { mean: 4.0, sd: 1.5 })?;
/// assert!((demand.mean - 80.0).abs() < 1e-12 && (demand.sd - 1000_f64.sqrt()).abs() < 1e-12);
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn over(demand: Spread, lead: Spread) -> Result<Spread, Error> {
    let Spread { mean: d, sd: s } = Spread::new(demand.mean, demand.sd)?;
    let length = time("lead time", lead.mean)?;
    let varies = time("sd of the lead time", lead.sd)?;
    Spread::new(d * length, (length * s * s + d * d * varies * varies).sqrt())
}

/// Demand of one bucket over a lead time of whole buckets, where the level that is forecast
/// was smoothed with `alpha`, from 0 to 1. With 0 it is [`over`] without variation.
pub fn over_smoothed(demand: Spread, lead: u32, alpha: f64) -> Result<Spread, Error> {
    let Spread { mean: d, sd: s } = Spread::new(demand.mean, demand.sd)?;
    if !(0.0..=1.0).contains(&alpha) {
        return Err(Error::Figure { what: "smoothing constant", value: alpha, allowed: "0 to 1" });
    }
    let length = time("lead time", f64::from(lead))?;
    // the sum of (1 + j a)^2 for j from 0 to L - 1, in closed form
    let linear = length * (length - 1.0);
    let factor = length + alpha * linear + alpha * alpha * linear * (2.0 * length - 1.0) / 6.0;
    Spread::new(d * length, s * factor.max(0.0).sqrt())
}

/// Demand over lead time and one review period: what an order-up-to level has to last for.
pub fn over_review(demand: Spread, lead: Spread, review: f64) -> Result<Spread, Error> {
    let review = time("review period", review)?;
    over(demand, Spread { mean: lead.mean + review, sd: lead.sd })
}

fn time(what: &'static str, value: f64) -> Result<f64, Error> {
    let allowed = "0 to 10000 buckets";
    if (0.0..=LONGEST).contains(&value) { Ok(value) } else { Err(Error::Figure { what, value, allowed }) }
}

/// A level and what it is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level {
    /// The service for which it was made.
    pub service: Service,
    /// Mean demand until an order comes.
    pub mean: f64,
    /// Its sd.
    pub sd: f64,
    /// What the level is above the mean, never below nought.
    pub safety: f64,
    /// The level: reorder point, or level to order up to.
    pub level: f64,
    /// The level in whole units, rounded up.
    pub whole: i64,
    /// The safety stock in whole units, rounded up.
    pub whole_safety: i64,
    /// The cycle service that `level` gives.
    pub cycle: f64,
    /// The fill rate that `level` gives with lots of the size given.
    pub fill: f64,
}

/// The level for a normal demand until an order comes, in lots of `lot` units: above
/// nought. A cycle service needs no lot for its level, but the fill rate it gives does.
///
/// ```
/// use pennantry_forecast::supply::safety::{Spread, level};
/// use pennantry_forecast::supply::service::Service;
/// let level = level(Spread { mean: 90.0, sd: 12.0 }, Service::cycle(0.95)?, 60.0)?;
/// assert!((level.safety - 19.7382435234).abs() < 1e-9);
/// assert_eq!(level.whole, 110);
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn level(demand: Spread, service: Service, lot: f64) -> Result<Level, Error> {
    let Spread { mean, sd } = Spread::new(demand.mean, demand.sd)?;
    let lot = number::positive("lot size", lot)?;
    // an sd far below the lot's grain is none: the ratio below stays within its bounds
    let safety = match service.kind() {
        _ if sd <= lot * 1e-6 => 0.0,
        Kind::Cycle => normal::quantile(service.share())? * sd,
        Kind::Fill => factor_for_fill((1.0 - service.share()) * lot / sd)? * sd,
    };
    let safety = safety.max(0.0);
    let level = mean + safety;
    let (cycle, fill) = services(sd, safety, lot);
    let (whole, whole_safety) =
        (number::whole_up("level", level)?, number::whole_up("safety stock", safety)?);
    Ok(Level { service, mean, sd, safety, level, whole, whole_safety, cycle, fill })
}

/// The `k` with this unit loss, for losses that the inverse takes; what is above `G(0)`
/// needs no safety stock.
fn factor_for_fill(loss: f64) -> Result<f64, Error> {
    if loss >= normal::loss(0.0) { Ok(0.0) } else { normal::loss_inverse(loss.max(1e-12)) }
}

fn services(sd: f64, safety: f64, lot: f64) -> (f64, f64) {
    if sd <= lot * 1e-6 {
        return (1.0, 1.0);
    }
    let k = safety / sd;
    (normal::below(k), fill_rate(k, sd, lot))
}

/// The fill rate of a reorder point `k` sd above the mean with lots of `lot`: both terms.
/// The sd is above nought.
fn fill_rate(k: f64, sd: f64, lot: f64) -> f64 {
    (1.0 - sd * (normal::loss(k) - normal::loss(k + lot / sd)) / lot).clamp(0.0, 1.0)
}

/// The fill rate of a reorder point for normal demand, `(one term, both terms)`: the first
/// takes what is wanting in a cycle as all that is wanting and may be below nought, where it
/// says nothing.
///
/// ```
/// use pennantry_forecast::supply::safety::{Spread, fill_rates};
/// let demand = Spread { mean: 80.0, sd: 31.6227766 };
/// let (one, both) = fill_rates(demand, 120.0, 60.0)?;
/// assert!((one - 0.974158026712).abs() < 1e-9 && (both - 0.974270252597).abs() < 1e-9);
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn fill_rates(demand: Spread, reorder_point: f64, lot: f64) -> Result<(f64, f64), Error> {
    let mean = number::not_negative("mean", demand.mean)?;
    let sd = number::positive("sd", demand.sd)?;
    let k = (number::not_negative("reorder point", reorder_point)? - mean) / sd;
    let lot = number::positive("lot size", lot)?;
    Ok((1.0 - sd * normal::loss(k) / lot, fill_rate(k, sd, lot)))
}

/// The least level of a known distribution that gives the service in lots of `lot`, 1 to
/// 10¹². For a fill rate it is the least one beyond which at most `(1 - f) lot` is
/// wanting in a cycle.
pub fn level_of(demand: &Distribution, service: Service, lot: i64) -> Result<Level, Error> {
    let lot = number::amount("lot size", lot, 1, "1 to 10^12")?;
    let whole = match service.kind() {
        Kind::Cycle => demand.quantile(service.share())?,
        Kind::Fill => enough(demand, (1.0 - service.share()) * number::real(lot))?,
    };
    let level = number::real(whole);
    let (mean, sd) = (demand.mean(), demand.sd());
    let safety = (level - mean).max(0.0);
    // what was wanting already when the lot came: beyond level + lot
    let wanting = demand.loss(whole) - demand.loss(whole.saturating_add(lot));
    let fill = (1.0 - wanting / number::real(lot)).clamp(0.0, 1.0);
    let whole_safety = number::whole_up("safety stock", safety)?;
    Ok(Level { service, mean, sd, safety, level, whole, whole_safety, cycle: demand.up_to(whole), fill })
}

/// The least whole level beyond which at most `most` is wanting.
fn enough(demand: &Distribution, most: f64) -> Result<i64, Error> {
    let (mut low, mut high) = (0, demand.shares().last().map_or(0, |(amount, _)| amount));
    if high > number::MOST {
        let allowed = "0 to 10^12; take larger units";
        return Err(Error::Whole { what: "largest lead-time demand", value: high, allowed });
    }
    while low < high {
        let middle = low + (high - low) / 2;
        if demand.loss(middle) <= most + 1e-9 {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    Ok(high)
}
