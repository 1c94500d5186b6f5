//! Which method foretells a fabric best, and what it foretells.
//!
//! The class of a demand ([`super::class`]) names candidates; a back-test chooses among
//! them; what it cannot tell apart is the simplest one's.
//!
//! | class | candidates, the simplest first; the one taken untested in *italics* |
//! |---|---|
//! | smooth | SES 0.1, *SES 0.2*, SES 0.3, damped Holt (0.2, 0.1, 0.9) |
//! | erratic | SES 0.05, *SES 0.1*, SES 0.2, SBA 0.1, damped Holt (0.1, 0.05, 0.9) |
//! | intermittent | SES 0.05, SES 0.1, Croston 0.1 or SBA 0.1, *TSB (0.1, 0.05)*, TSB (0.2, 0.1), ADIDA |
//! | lumpy | SES 0.05, SES 0.1, Croston 0.1 or SBA 0.1, *TSB (0.1, 0.05)*, TSB (0.1, 0.1), ADIDA |
//!
//! Croston stands where the line of Kostenko and Hyndman lets it, SBA elsewhere. After
//! them the same candidates once more on history divided by the seasonal index, where one
//! is given. Constants lie in the 0.05 to 0.3 of the literature; the lists are ours.
//!
//! # The back-test
//! Rolling origin (Tashman, *International Journal of Forecasting* 16 (2000) 437-450):
//! every bucket from a first one on is an origin once; from what was known there the next
//! `horizon` buckets are foretold. The first origin comes after a third of the history,
//! from 6 to 26 buckets, and at most the last 52 origins count, a year of weeks; below 4 nothing
//! is tested.
//!
//! | part of the score | formula |
//! |---|---|
//! | RMSSE | squared errors of single buckets, scaled by the changes before the first origin |
//! | pinball | at the quantile asked for, of the total over the horizon: forecast + that quantile of the same method's earlier total errors (at least 8, known at the origin); over the mean total |
//! | bias | `|mean (f - y)|` over the mean |
//!
//! The score is their sum; a part that has no scale is left out for all candidates alike.
//! The first candidate within 1 % of the least score is taken; a seasonal one only where the best
//! of them is better by more than 2 % than the best without. MAE has no part in it: it is
//! least for a forecast of nought ([`super::accuracy`]).
//!
//! Seasonal candidates are tested at each origin with the index as it was known there, made of the
//! weeks before it and nothing else ([`super::season::rolling`]): history is divided by that index,
//! the method runs over it from its start, and the buckets foretold are multiplied by it. At an
//! origin where no season was known the candidate says what it says without one, so that knowing
//! nothing is neither for it nor against it. With two years of weeks the second of them is tested,
//! by an index of one year at first and of nearly two at last; the forecast then has the index of
//! all. Below 4 origins with a season none is tried. One-off jobs, and weeks partly out of stock,
//! are told from the whole history for every candidate alike.
//!
//! # What it works on
//! Buckets as [`super::series`] sees them, at most the last 520, from the first use in them on;
//! one-off jobs capped ([`super::one_off`]) except in the class. Every method starts with
//! the mean size and mean interval of the buckets before the first possible origin, Holt
//! with no trend. With fewer than 8 buckets or 2 demands there is raw use and no forecast.
//!
//! Doubles; no rounding. Work is bounded by these numbers, never by time.

mod backtest;
mod method;

use super::Error;
use super::class::{Class, LEAST_DEMANDS, Shape, classify, since_first_use};
use super::days::Week;
use super::number::within;
use super::one_off::{Capped, cap};
use super::season::{Index, check_weeks};
use super::series::Series;
pub use backtest::Score;
use backtest::{Said, Test};
pub use method::Method;
use method::{Path, candidates};

/// Fewest buckets since the first use from which anything is foretold.
pub const LEAST_BUCKETS: usize = 8;
/// Most buckets that are looked at: ten years of weeks.
pub const MOST_BUCKETS: usize = 520;
/// Most buckets of a back-test's horizon: half a year.
pub const MOST_HORIZON: usize = 26;
/// Most buckets foretold: two years.
pub const MOST_AHEAD: usize = 104;
/// Most origins that count.
pub const MOST_ORIGINS: usize = 52;
/// Fewest origins that test anything.
pub const LEAST_ORIGINS: usize = 4;
/// Share by which a simpler candidate may be the worse.
pub const TIE: f64 = 0.01;
/// Share by which a season has to be the better.
pub const SEASON_TIE: f64 = 0.02;
/// Fewest one-step errors whose spread is told.
const LEAST_ERRORS: usize = 4;

/// A bucket to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ahead {
    /// Its week; of no use without an index.
    pub week: Week,
    /// Days on which the shop will be open.
    pub open_days: u32,
}

/// The two indices that a seasonal forecast takes.
#[derive(Debug, Clone, Copy)]
pub struct Seasons<'a> {
    /// The week of each bucket of the series.
    pub weeks: &'a [Week],
    /// As known before each week of the back-test, in their order; those that are flat may be
    /// left out. See [`super::season::rolling`].
    pub tested: &'a [Index],
    /// Made of all weeks: for the forecast itself.
    pub ahead: &'a Index,
}

/// What is asked of one fabric.
#[derive(Debug, Clone, Copy)]
pub struct Ask<'a> {
    /// Its use.
    pub series: &'a Series,
    /// The buckets to foretell, the next one first; at most 104.
    pub ahead: &'a [Ahead],
    /// Buckets over which the back-test looks ahead, 1 to 26: the lead time.
    pub horizon: usize,
    /// The quantile of its pinball loss: the service wanted, between 0 and 1.
    pub quantile: f64,
    /// Where there is an index.
    pub seasons: Option<Seasons<'a>>,
}

/// What can be said of one fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Its figures and class, one-off jobs in full.
    pub shape: Shape,
    /// All that was used.
    pub used: f64,
    /// Use per open day with stock; nothing where there was no such day.
    pub rate: Option<f64>,
    /// Jobs capped in the rate; `at` is the bucket of the series.
    pub capped: Vec<Capped>,
    /// Buckets filled for days that were not seen, see [`super::series`].
    pub filled: usize,
    /// Buckets that were out of stock and are no observation.
    pub unseen: usize,
    /// The forecast, or why there is none.
    pub outcome: Outcome,
}

/// A forecast, or why there is none.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Only raw use can be told.
    RawOnly(Why),
    /// What is foretold.
    Foretold(Forecast),
}

/// Why nothing is foretold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// No bucket could be seen: closed, or out of stock throughout.
    NothingSeen,
    /// Nothing was used in the buckets that are looked at.
    NoUse,
    /// Too few buckets since the first use.
    FewBuckets {
        /// How many there are.
        have: usize,
        /// How many it takes.
        least: usize,
    },
    /// Too few buckets with demand.
    FewDemands {
        /// How many there are.
        have: usize,
        /// How many it takes.
        least: usize,
    },
}

/// What became of the seasonal index.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Season {
    /// None was given.
    NotAsked,
    /// It is 1 throughout.
    Flat,
    /// It was known at too few origins.
    NotTested,
    /// The back-test was not better with it.
    NoBetter,
    /// It is in the forecast.
    Used,
}

/// A candidate and how it did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// The method.
    pub method: Method,
    /// Whether on history divided by the index.
    pub seasonal: bool,
    /// How it did; nothing where there were too few origins.
    pub score: Option<Score>,
}

/// What is foretold of one fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Forecast {
    /// The method taken, and its score.
    pub chosen: Candidate,
    /// All candidates, the simplest first.
    pub candidates: Vec<Candidate>,
    /// Origins of the back-test; 0 where it had too few, and the class alone chose.
    pub origins: usize,
    /// What became of the index.
    pub season: Season,
    /// Use in the next bucket with the usual open days and without its season.
    pub level: f64,
    /// Use in each bucket asked for, its open days and its season in it.
    pub buckets: Vec<f64>,
    /// Root mean squared one-step error in a usual bucket, one-off jobs capped; nothing
    /// with fewer than four errors.
    pub error: Option<f64>,
    /// The same with one-off jobs in full: what a stock must withstand that is to serve
    /// them too.
    pub error_in_full: Option<f64>,
}

/// Chooses a method for a fabric and foretells with it.
///
/// # Errors
/// A horizon or quantile outside its range, more than 104 buckets ahead, weeks that do not
/// go with the series, or an index for the test that does not say where it ends.
///
/// ```
/// use pennantry_forecast::demand::choose::{Ahead, Ask, Outcome, choose};
/// use pennantry_forecast::demand::{days::Week, series::Series};
/// let series = Series::of_amounts(&[5, 4, 6, 5, 5, 4, 6, 5, 4, 5, 6, 5, 5, 4, 6, 5])?;
/// let ahead = [Ahead { week: Week { year: 2026, week: 30 }, open_days: 1 }];
/// let ask = Ask { series: &series, ahead: &ahead, horizon: 2, quantile: 0.95, seasons: None };
/// let Outcome::Foretold(forecast) = choose(&ask)?.outcome else { panic!("sixteen buckets are enough") };
/// assert!((4.5..5.5).contains(&forecast.buckets[0]));
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn choose(ask: &Ask) -> Result<Choice, Error> {
    check(ask)?;
    let observed = ask.series.observed();
    let (used, rate) = (ask.series.used().iter().sum(), ask.series.rate());
    let mut choice = Choice {
        shape: Shape { buckets: 0, demands: 0, interval: None, variation: None, class: Class::Insufficient },
        used,
        rate,
        capped: Vec::new(),
        filled: observed.filled,
        unseen: observed.unseen,
        outcome: Outcome::RawOnly(Why::NothingSeen),
    };
    if observed.values.is_empty() {
        return Ok(choice);
    }
    let latest = observed.values.len().saturating_sub(MOST_BUCKETS);
    let latest = observed.values.get(latest..).unwrap_or_default();
    choice.shape = classify(latest)?;
    let raw = since_first_use(latest);
    if let Some(why) = too_little(raw.len(), choice.shape.demands) {
        choice.outcome = Outcome::RawOnly(why);
        return Ok(choice);
    }
    let places = observed.buckets.iter().skip(observed.values.len() - raw.len()).copied().collect::<Vec<_>>();
    let (values, capped) = cap(raw)?;
    choice.capped =
        capped.into_iter().filter_map(|one| Some(Capped { at: *places.get(one.at)?, ..one })).collect();
    let history = History { values: &values, raw, places };
    choice.outcome = Outcome::Foretold(foretell(ask, &choice.shape, &history));
    Ok(choice)
}

fn check(ask: &Ask) -> Result<(), Error> {
    let horizon = super::number::count(ask.horizon);
    within("horizon", horizon, (1.0, super::number::count(MOST_HORIZON)), "from 1 to 26 buckets")?;
    within("quantile", ask.quantile, (f64::MIN_POSITIVE, 1.0 - f64::EPSILON), "above 0 and below 1")?;
    if ask.ahead.len() > MOST_AHEAD {
        return Err(Error::TooMany { given: ask.ahead.len(), most: MOST_AHEAD });
    }
    for (at, ahead) in ask.ahead.iter().enumerate() {
        if ahead.open_days > 366 {
            let value = f64::from(ahead.open_days);
            return Err(Error::Parameter { name: "open_days", value, allowed: "from 0 to 366" });
        }
        if ask.seasons.is_some() && !ahead.week.stands() {
            return Err(Error::Week { at, year: ahead.week.year, week: ahead.week.week });
        }
    }
    if let Some(seasons) = ask.seasons {
        check_weeks(seasons.weeks, ask.series.buckets().len())?;
        if seasons.tested.iter().any(|index| index.before().is_none()) {
            return Err(Error::Endless);
        }
    }
    Ok(())
}

fn too_little(buckets: usize, demands: usize) -> Option<Why> {
    if demands == 0 {
        Some(Why::NoUse)
    } else if buckets < LEAST_BUCKETS {
        Some(Why::FewBuckets { have: buckets, least: LEAST_BUCKETS })
    } else if demands < LEAST_DEMANDS {
        Some(Why::FewDemands { have: demands, least: LEAST_DEMANDS })
    } else {
        None
    }
}

/// Values from the first use on.
struct History<'a> {
    /// One-off jobs capped.
    values: &'a [f64],
    /// In full.
    raw: &'a [f64],
    /// The bucket of each.
    places: Vec<usize>,
}

/// Factors of an index for each value, and for each bucket ahead.
struct Factors {
    past: Vec<f64>,
    ahead: Vec<f64>,
}

impl Factors {
    fn none(ask: &Ask, history: &History) -> Factors {
        Factors { past: vec![1.0; history.values.len()], ahead: vec![1.0; ask.ahead.len()] }
    }

    fn of(index: &Index, weeks: &[Week], ask: &Ask, history: &History) -> Factors {
        Factors {
            past: Factors::past(index, weeks, history),
            ahead: ask.ahead.iter().map(|ahead| index.factor(ahead.week.week)).collect(),
        }
    }

    fn past(index: &Index, weeks: &[Week], history: &History) -> Vec<f64> {
        let week = |place: &usize| weeks.get(*place).map_or(1.0, |week| index.factor(week.week));
        history.places.iter().map(week).collect()
    }

    /// What values are without their season.
    fn without(&self, values: &[f64]) -> Vec<f64> {
        values.iter().zip(&self.past).map(|(value, factor)| value / factor).collect()
    }
}

/// The season as it was known at each value, for all values: nothing where none was.
fn known_seasons(seasons: &Seasons, history: &History) -> Vec<Option<Vec<f64>>> {
    let week = |place: &usize| seasons.weeks.get(*place);
    let known = |place: &usize| {
        let now = week(place)?;
        let after =
            seasons.tested.partition_point(|index| index.before().is_some_and(|before| before <= *now));
        let index = seasons.tested.get(after.checked_sub(1)?)?;
        // one of an earlier week is not what was known then
        if index.before() != Some(*now) || index.is_flat() {
            return None;
        }
        Some(Factors::past(index, seasons.weeks, history))
    };
    history.places.iter().map(known).collect()
}

fn foretell(ask: &Ask, shape: &Shape, history: &History) -> Forecast {
    let (methods, untested) = candidates(shape);
    let plain = Factors::none(ask, history);
    let test = Test::new(history.values, ask.horizon, ask.quantile);
    let tested = test.origins() >= LEAST_ORIGINS;
    let mut season = Season::NotAsked;
    let mut known = None;
    if let Some(seasons) = ask.seasons {
        season = if seasons.ahead.is_flat() { Season::Flat } else { Season::NotTested };
        let found = known_seasons(&seasons, history);
        let with = found.iter().skip(test.first()).take(test.origins()).flatten().count();
        if season == Season::NotTested && tested && with >= LEAST_ORIGINS {
            season = Season::NoBetter;
            known = Some(found);
        }
    }
    let mut tried = Vec::new();
    let none = Vec::new();
    let both = std::iter::once((false, &none)).chain(known.iter().map(|known| (true, known)));
    for (seasonal, known) in both {
        for &method in &methods {
            let said = test.said(method, known);
            let score = tested.then(|| test.score(&said));
            tried.push((Candidate { method, seasonal, score }, said));
        }
    }
    let candidates: Vec<Candidate> = tried.iter().map(|one| one.0).collect();
    let chosen = taken(&candidates).unwrap_or(Candidate { method: untested, seasonal: false, score: None });
    let same = |one: &&(Candidate, Said)| (one.0.method, one.0.seasonal) == (chosen.method, chosen.seasonal);
    let [error, error_in_full] =
        tried.iter().find(same).map_or([None; 2], |(_, said)| spread(&test, said, history));
    let factors = match ask.seasons.filter(|_| chosen.seasonal) {
        Some(seasons) => {
            season = Season::Used;
            Factors::of(seasons.ahead, seasons.weeks, ask, history)
        }
        None => plain,
    };
    let path = Path::new(chosen.method, &factors.without(history.values), test.warm());
    let usual = f64::from(ask.series.usual_open_days());
    let mut steps = 0;
    let buckets = ask.ahead.iter().zip(&factors.ahead).map(|(ahead, factor)| {
        // a closed bucket is no step, as it was none in the history
        steps += u16::from(ahead.open_days > 0);
        path.last(steps) * factor * f64::from(ahead.open_days) / usual
    });
    Forecast {
        chosen,
        buckets: buckets.collect(),
        candidates,
        origins: if tested { test.origins() } else { 0 },
        season,
        level: path.last(1),
        error,
        error_in_full,
    }
}

/// The first of the plain candidates within the tie of their least score, or of the seasonal ones
/// where their least is better by more than [`SEASON_TIE`]; nothing where none was tested.
fn taken(tried: &[Candidate]) -> Option<Candidate> {
    let total = |one: &Candidate| one.score.map(|score| score.total);
    let least = |seasonal: bool| {
        tried.iter().filter(|one| one.seasonal == seasonal).filter_map(total).reduce(f64::min)
    };
    let plain = least(false)?;
    let season = least(true).filter(|season| *season < plain * (1.0 - SEASON_TIE));
    let (seasonal, least) = (season.is_some(), season.unwrap_or(plain));
    let near = |one: &Candidate| total(one).is_some_and(|total| total <= least * (1.0 + TIE));
    tried.iter().find(|one| one.seasonal == seasonal && near(one)).copied()
}

/// Root mean squared one-step errors, capped and in full.
fn spread(test: &Test, said: &Said, history: &History) -> [Option<f64>; 2] {
    [history.values, history.raw].map(|values| {
        let squares: Vec<f64> = (test.warm()..values.len())
            .filter_map(|at| {
                let error = values.get(at)? - said.next(at)?;
                Some(error * error)
            })
            .collect();
        super::number::mean(&squares).filter(|_| squares.len() >= LEAST_ERRORS).map(f64::sqrt)
    })
}
