//! How much is wanted while an order is on its way.
//!
//! A history of use in equal buckets (open days, weeks) and a lead time in the same
//! buckets become a [`Distribution`] over whole units, from which levels are read.
//!
//! | model | how a bucket follows | source |
//! |---|---|---|
//! | [`Model::Markov`] | zero or not by a two-state chain of the history; sizes drawn from past sizes | Willemain, Smart and Schwarz, *International Journal of Forecasting* 20 (2004), 375-387 |
//! | [`Model::Independent`] | each bucket drawn from all past buckets | the ordinary bootstrap |
//!
//! The chain starts in the state of the last bucket. A state that the history never left
//! (or never had) is followed by a use as often as any bucket has one.
//!
//! # No jitter
//! The 2004 paper moves each drawn size by `x + Z sqrt(x)`. For counts of parts that is a
//! spread like Poisson's; for a length it depends on the unit: 1 400 mm spread by 2.7 %,
//! the same cloth in centimetres by 8.5 %. A shop's answer must not depend on its unit, so
//! sizes stay as they were. What was never used is never drawn.
//!
//! # Exactly, or by drawing
//! Both models are sums over a finite chain and are convolved exactly while that takes at
//! most [`MOST_STEPS`] steps, `lead * cells * (sizes + 2)`, where cells are the whole
//! multiples of the greatest common divisor of all sizes up to the largest sum. Otherwise
//! [`DRAWS`] lead times are drawn. The count of steps decides, never a clock, and drawing
//! uses whole numbers alone: one history, lead time and seed have one answer on every
//! machine. The answer says how it was made.
//!
//! A lead time that varies is a mixture: the chain runs to the longest and is weighed by how
//! often each length was seen.
//!
//! Rounding: that of `f64`; a level is met when the share is not below it by more than
//! 10⁻¹².
//!
//! Example: 36 months of 0, 2, 0, 1, 0, 11, ... (see the tests) and four months: the mean
//! is 4.518, nothing at all is wanted in 15.3 % of cases, and 13 is enough in 95 %.

mod chain;
mod distribution;
mod random;
mod time;

#[cfg(test)]
mod tests;

pub use chain::{Chain, History, Model};
pub use distribution::{Distribution, How};
pub use time::LeadTimes;

use super::Error;
use random::SplitMix64;

/// Most steps of an exact convolution, and of drawing.
pub const MOST_STEPS: u64 = 4_000_000;
/// Lead times drawn where an exact answer takes too many steps: the quantile is then within
/// 1.4 percent of level, 19 times in 20 (Dvoretzky, Kiefer and Wolfowitz, with Massart's
/// constant: `sqrt(ln 40 / 2 n)`).
pub const DRAWS: u32 = 10_000;

/// Demand in a lead time, exactly where that is small and drawn from `seed` otherwise.
///
/// The seed is the caller's, made of the report's day and the fabric's code, so that a
/// report run twice says the same and two fabrics do not share their luck.
///
/// ```
/// use pennantry_forecast::supply::lead::{History, How, LeadTimes, Model, lead_demand};
/// let history = History::new(&[0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3])?;
/// let four = LeadTimes::fixed(4)?;
/// let demand = lead_demand(&history, Model::Markov, &four, 1)?;
/// assert_eq!(demand.how(), How::Exact);
/// assert!(demand.quantile(0.95)? >= demand.quantile(0.90)?);
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn lead_demand(
    history: &History,
    model: Model,
    lead: &LeadTimes,
    seed: u64,
) -> Result<Distribution, Error> {
    match exact(history, model, lead)? {
        Some(exact) => Ok(exact),
        None => drawn(history, model, lead, seed, DRAWS),
    }
}

/// The exact distribution, or none where it takes more than [`MOST_STEPS`] steps.
pub fn exact(history: &History, model: Model, lead: &LeadTimes) -> Result<Option<Distribution>, Error> {
    exact_within(history, model, lead, MOST_STEPS)
}

/// The same where it takes at most so many steps, and [`MOST_STEPS`]: for whoever has many
/// fabrics to do.
pub fn exact_within(
    history: &History,
    model: Model,
    lead: &LeadTimes,
    steps: u64,
) -> Result<Option<Distribution>, Error> {
    let Some(cells) = history.cells(lead.longest(), steps.min(MOST_STEPS)) else { return Ok(None) };
    let chain = history.chain(model);
    let mut mixed = vec![0.0; cells];
    let mut sums = History::start(&chain, cells);
    for length in 0..=lead.longest() {
        let weight = lead.share(length);
        if weight > 0.0 {
            for (all, sum) in mixed.iter_mut().zip(sums.totals()) {
                *all += weight * sum;
            }
        }
        if length < lead.longest() {
            sums = history.step(&chain, &sums);
        }
    }
    history.spread(&mixed).map(Some)
}

/// The distribution of `draws` lead times drawn from `seed`: 1 000 to 1 000 000 of them, and
/// together with the longest lead time at most [`MOST_STEPS`] buckets.
pub fn drawn(
    history: &History,
    model: Model,
    lead: &LeadTimes,
    seed: u64,
    draws: u32,
) -> Result<Distribution, Error> {
    let steps = u64::from(draws) * u64::from(lead.longest().max(1));
    if !(1_000..=1_000_000).contains(&draws) || steps > MOST_STEPS {
        let allowed = "1000 to 1000000, times the longest lead time at most 4000000";
        return Err(Error::Whole { what: "number of draws", value: i64::from(draws), allowed });
    }
    let chain = history.chain(model);
    let mut dice = SplitMix64::new(seed);
    let sums = (0..draws).map(|_| {
        let length = lead.draw(&mut dice);
        history.draw(&chain, length, &mut dice)
    });
    Distribution::of_draws(sums.collect(), seed)
}
