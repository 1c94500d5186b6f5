//! When to order, and up to what.
//!
//! | figure | rule |
//! |---|---|
//! | window | from today on, lead time and review in calendar days; its open days by the calendar are the buckets |
//! | demand in the window | two-state chain over the open days of the last 104 weeks on which there was something to use ([`lead`]), days' use rounded up to the millimetre, one-off jobs in full; where the season is in the method, each times the mean factor of the window over that of its own week. Exactly while that takes at most 250 000 steps, else 4 000 windows drawn from the seed |
//! | seed | FNV-1a, 64 bits, of the day's number (four bytes, the greatest first) and the fabric's code |
//! | scale | expected use in the window, by the method, over the mean of the same number of those days, in both one-off jobs as they count in the rate: sizes and odds are those of the past, the level is that of now, and a job that is not expected again makes no other day smaller |
//! | reorder point | the level of that demand that gives the service ([`safety`]), times the scale, up to the next millimetre |
//! | safety stock | that less the expected use, never below nought, likewise |
//! | ordered at once | the economic quantity `√(2 K D / h)` where what an order costs, what keeping costs and the price are known, `D` the expected use of a year; else the expected use of the cover days that follow the lead time; up to the next millimetre, and 1 mm at the least |
//! | order-up-to level | reorder point and what is ordered at once |
//!
//! What the method gets wrong about the level itself is not in the demand of the window: the
//! back-test tells how far off it was. FNV-1a is the hash of Fowler, Noll and Vo.
//!
//! [`lead`]: pennantry_forecast::supply::lead
//! [`safety`]: pennantry_forecast::supply::safety

use pennantry_forecast::supply::Error;
use pennantry_forecast::supply::lead::{
    Distribution, History as Buckets, How, LeadTimes, Model, drawn, exact_within,
};
use pennantry_forecast::supply::lot::Lot;
use pennantry_forecast::supply::lot::economic::Economic as Quantity;
use pennantry_forecast::supply::propose;
use pennantry_forecast::supply::safety::level_of;
use pennantry_measure::{Length, Percent, Rate};

use super::foresee::Foreseen;
use super::history::History;
use super::number::{count, mm_up, nearest_mm, number, quotient, real};
use super::survey::Survey;
use super::{BuyingTerms, FabricTerms, Terms};

/// Weeks of days that lead times are drawn from.
const WEEKS: i32 = 104;
/// Most steps of an exact distribution.
const STEPS: u64 = 250_000;
/// Windows drawn: a quantile is then within 2.2 percent of level, 19 times in 20.
const DRAWS: u32 = 4_000;
/// Days of the year for which an economic quantity is worked.
const YEAR: i32 = 364;

/// Levels that were found, and how.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Found {
    /// In micrometres.
    pub levels: propose::Levels,
    /// Exactly or drawn.
    pub how: How,
    /// Open days of the window.
    pub window: u32,
    /// Expected use in it, to the millimetre.
    pub expected: Length,
    /// The most that one open day used, of those that the levels are worked of.
    pub most: Length,
}

impl Found {
    /// The most that one open day used, where that and what is not expected use are each more
    /// than half of the reorder point: then large jobs and not the rate decide when to order.
    pub(super) fn one_day(&self) -> Option<Length> {
        let half = self.levels.reorder_point / 2;
        (self.most.um() > half && self.expected.um() < half).then_some(self.most)
    }
}

/// What levels are worked of.
pub(super) struct Of<'a> {
    pub code: &'a str,
    pub terms: &'a Terms,
    pub fabric: &'a FabricTerms,
    pub buying: &'a BuyingTerms,
    pub history: &'a History,
    pub foreseen: &'a Foreseen,
    pub survey: &'a Survey,
}

/// The levels of a fabric; none where nothing is foretold, or nothing was used on a day with stock.
pub(super) fn levels(of: &Of<'_>) -> Result<Option<Found>, Error> {
    if of.foreseen.days.is_empty() || of.history.seen.len() < 2 {
        return Ok(None);
    }
    let today = of.survey.almanac.today;
    let after = |days: u32| today.saturating_add_unsigned(days);
    let ahead = of.buying.lead_days.saturating_add(of.terms.review_days);
    let to = after(ahead);
    if to > of.survey.almanac.end() {
        let allowed = "within the two years that are looked at";
        return Err(Error::Whole { what: "lead time and review in days", value: i64::from(ahead), allowed });
    }
    let (expected, window) = of.foreseen.between(today, to);
    let window = number(window);
    let season = season(of, to);
    let sizes = sizes(of, season);
    let lead = LeadTimes::fixed(window)?;
    let demand = demand(&Buckets::new(&sizes)?, &lead, seed(today, of.code))?;
    // millimetres of the past to those expected; nought where the window has no open day
    let past = real(sizes.iter().fold(0, |sum: i64, size| sum.saturating_add(*size)));
    let past = (past - beyond(of, season)).max(0.0) / count(sizes.len()) * f64::from(window);
    let Some(scale) = quotient(expected / 1_000.0, past).or((window == 0).then_some(1.0)) else {
        return Ok(None);
    };
    let at_once = mm(at_once(of))?.max(1);
    let lot = Lot::new(of.buying.bolt.um(), of.buying.least.um())?;
    let lots = lot.round(at_once.saturating_mul(1_000))?;
    // the lot in millimetres of the past, for a fill rate
    let lots = mm(quotient(real(lots) / 1_000.0, scale).unwrap_or(1.0))?.max(1);
    let level = level_of(&demand, of.terms.service, lots)?;
    let reorder = mm(level.level * scale)?;
    let safety = mm((level.level * scale - expected / 1_000.0).max(0.0))?;
    let um = |mm: i64| mm.saturating_mul(1_000);
    let levels = propose::Levels {
        reorder_point: um(reorder),
        order_up_to: um(reorder.saturating_add(at_once)),
        safety: um(safety),
        service: of.terms.service,
    };
    let first = today.saturating_sub(7 * WEEKS);
    let most = of.history.seen.iter().filter(|(day, _)| *day >= first).map(|(_, um)| *um).max();
    let most = Length::from_um(most.unwrap_or(0));
    let expected = nearest_mm(expected).unwrap_or(Length::ZERO);
    Ok(Some(Found { levels, how: demand.how(), window, expected, most }))
}

/// Whole millimetres up, within what a level may be.
fn mm(value: f64) -> Result<i64, Error> {
    let most = 1_000_000_000;
    let allowed = "up to 1 000 km";
    mm_up(value).filter(|mm| *mm <= most).ok_or(Error::Figure {
        what: "level in millimetres",
        value,
        allowed,
    })
}

/// The season's factor of a day.
fn factor(of: &Of<'_>, day: i32) -> f64 {
    of.survey.index.factor(of.survey.almanac.week(day).week)
}

/// The mean factor of the window; none where the season is not in the method.
fn season(of: &Of<'_>, to: i32) -> Option<f64> {
    let almanac = &of.survey.almanac;
    let open = || almanac.open_between(almanac.today, to).map(|day| factor(of, day));
    of.foreseen.seasonal().then(|| quotient(open().sum(), count(open().count())).unwrap_or(1.0))
}

/// The first day of those that lead times are drawn from.
fn first(of: &Of<'_>) -> i32 {
    of.survey.almanac.today.saturating_sub(7 * WEEKS)
}

/// Days' use in millimetres, at the season of the window.
fn sizes(of: &Of<'_>, season: Option<f64>) -> Vec<i64> {
    let days = of.history.seen.iter().filter(|(day, _)| *day >= first(of));
    let whole = |um: i64| um / 1_000 + i64::from(um % 1_000 != 0);
    let at = |(day, um): &(i32, i64)| {
        let used = season.and_then(|then| mm_up(real(*um) / 1_000.0 * then / factor(of, *day)));
        used.unwrap_or_else(|| whole(*um))
    };
    days.map(at).collect()
}

/// What one-off jobs among those days took beyond what they count as in the rate, in
/// millimetres, at the season of the window.
fn beyond(of: &Of<'_>, season: Option<f64>) -> f64 {
    let weeks = of.history.weekly.as_ref().map_or(0, |weekly| weekly.weeks.len());
    let jobs = of.foreseen.choice.capped.iter().filter_map(|job| {
        let back = i32::try_from(weeks.checked_sub(job.at)?).ok()?.checked_mul(7)?;
        let monday = of.survey.almanac.monday.checked_sub(back)?;
        let then = season.map_or(1.0, |then| then / factor(of, monday));
        (monday >= first(of)).then_some((job.used - job.counts_as) / 1_000.0 * then)
    });
    jobs.sum()
}

fn demand(buckets: &Buckets, lead: &LeadTimes, seed: u64) -> Result<Distribution, Error> {
    match exact_within(buckets, Model::Markov, lead, STEPS)? {
        Some(exact) => Ok(exact),
        None => drawn(buckets, Model::Markov, lead, seed, DRAWS),
    }
}

/// What is ordered at once, in millimetres.
fn at_once(of: &Of<'_>) -> f64 {
    let today = of.survey.almanac.today;
    let arrives = today.saturating_add_unsigned(of.buying.lead_days);
    let (cover, _) = of.foreseen.between(arrives, arrives.saturating_add_unsigned(of.terms.cover_days));
    economic(of).unwrap_or(cover / 1_000.0)
}

fn economic(of: &Of<'_>) -> Option<f64> {
    let costs = of.terms.economic?;
    let price: Rate = of.fabric.price_per_metre?;
    let today = of.survey.almanac.today;
    let (year, _) = of.foreseen.between(today, today.saturating_add(YEAR));
    // a metre's price in millionths of a minor unit
    let price = real(price.micro_minor()) / 1e6;
    let keeping = price * real(costs.keeping.milli()) / real(Percent::WHOLE.milli());
    let quantity = Quantity::new(real(costs.order_cost.minor()), keeping, year / 1e6).ok()?;
    Some(quantity.quantity() * 1_000.0)
}

/// The seed of a day and a fabric.
fn seed(day: i32, code: &str) -> u64 {
    fnv1a(day.to_be_bytes().into_iter().chain(code.bytes()))
}

fn fnv1a(bytes: impl Iterator<Item = u8>) -> u64 {
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From the authors' list of test vectors (from memory).
    #[test]
    fn the_hash_is_fnv_1a() {
        for (text, hash) in
            [("", 0xcbf2_9ce4_8422_2325), ("a", 0xaf63_dc4c_8601_ec8c), ("foobar", 0x8594_4171_f739_67e8)]
        {
            assert_eq!(fnv1a(text.bytes()), hash, "{text}");
        }
        assert_ne!(seed(20_787, "KELP"), seed(20_788, "KELP"));
        assert_ne!(seed(20_787, "KELP"), seed(20_787, "TERN"));
    }
}
