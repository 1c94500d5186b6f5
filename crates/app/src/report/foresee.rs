//! What will be used, and what would be usual.
//!
//! | figure | rule |
//! |---|---|
//! | method | chosen by class and back-test over whole weeks ([`choose`]); the horizon is lead time and review in whole weeks up, 1 to 26, four where no lead time is known; the quantile that of the service |
//! | use of a day to come | that of its week, in equal parts over the open days of the week |
//! | rate | mean use of the open days of the next 28 days; where none is open, that of a usual week |
//! | low and high of a week | expected use times the relative sizes of the last 52 weeks seen, their season taken out where it is in the method: the greatest size that at least 80 % of them reach, the least that at least 90 % do not exceed; divided by their mean |
//! | usual in four weeks | `r Σ f` over the open days of the 28 days; `f` is the season's factor of a day's week (1 where the season is not in the method), `r = Σ u / Σ f` over the open days with stock of the 52 whole weeks before those, 8 of them at the least, and `u` the use of a week, one-off jobs capped ([`one_off`]) |
//! | weeks left | calendar days until what is free is used up at the expected use, the last day in part, over 7; beyond the two years looked at, at the mean of the second of them |
//!
//! Example: 0.50 m each of five open days a week, 4.00 m free on a Monday morning: used up on
//! the second Wednesday in the evening, 10 days later: 1.4 weeks.
//!
//! [`choose`]: pennantry_forecast::demand::choose
//! [`one_off`]: pennantry_forecast::demand::one_off

use pennantry_forecast::demand::Error;
use pennantry_forecast::demand::choose::{Ahead, Ask, Choice, Forecast, Outcome, Seasons, choose};
use pennantry_forecast::demand::days::Weekly;
use pennantry_forecast::demand::one_off::cap;
use pennantry_forecast::demand::season::Index;
use pennantry_measure::Length;

use super::almanac::{Almanac, COMING_WEEKS};
use super::history::{FOUR_WEEKS, History};
use super::number::{count, nearest_mm, quotient, real};
use super::survey::Survey;
use super::told::ComingWeek;
use super::words::monday;

/// Weeks to come that are told: a quarter.
const TOLD_WEEKS: usize = 13;
/// Weeks whose sizes make the range of a week to come.
const RANGE_WEEKS: usize = 52;
/// Whole weeks that the usual is made of, at most and at least.
const USUAL_WEEKS: (usize, usize) = (52, 8);

/// What is foretold of a fabric.
#[derive(Debug, Clone)]
pub(super) struct Foreseen {
    /// The method and its figures.
    pub choice: Choice,
    /// Open days from today on, and what each is expected to use, in micrometres; empty where
    /// nothing is foretold.
    pub days: Vec<(i32, f64)>,
}

impl Foreseen {
    /// Of whole weeks.
    pub(super) fn of(
        weekly: &Weekly,
        survey: &Survey,
        horizon: usize,
        quantile: f64,
    ) -> Result<Foreseen, Error> {
        let almanac = &survey.almanac;
        let mondays: Vec<i32> =
            (0..COMING_WEEKS).map(|week| almanac.monday.saturating_add(7 * week)).collect();
        let open = |monday: &i32| almanac.open_between(*monday, monday.saturating_add(7));
        let ahead: Vec<Ahead> = mondays
            .iter()
            .map(|monday| Ahead {
                week: almanac.week(*monday),
                open_days: super::number::number(open(monday).count()),
            })
            .collect();
        let seasons = Seasons { weeks: &weekly.weeks, tested: &survey.tested, ahead: &survey.index };
        let seasons = (!survey.index.is_flat()).then_some(seasons);
        let ask = Ask { series: &weekly.series, ahead: &ahead, horizon, quantile, seasons };
        let choice = choose(&ask)?;
        let mut days = Vec::new();
        if let Outcome::Foretold(forecast) = &choice.outcome {
            for ((monday, ahead), used) in mondays.iter().zip(&ahead).zip(&forecast.buckets) {
                let Some(each) = quotient(*used, f64::from(ahead.open_days)) else { continue };
                days.extend(open(monday).filter(|day| *day >= almanac.today).map(|day| (day, each)));
            }
        }
        Ok(Foreseen { choice, days })
    }

    /// The forecast, where there is one.
    pub(super) fn forecast(&self) -> Option<&Forecast> {
        match &self.choice.outcome {
            Outcome::Foretold(forecast) => Some(forecast),
            Outcome::RawOnly(_) => None,
        }
    }

    /// Whether the season is in it.
    pub(super) fn seasonal(&self) -> bool {
        self.forecast().is_some_and(|forecast| forecast.chosen.seasonal)
    }

    /// Expected use from one day up to, and without, another, and the open days of it.
    pub(super) fn between(&self, from: i32, to: i32) -> (f64, usize) {
        let from = self.days.partition_point(|(day, _)| *day < from);
        let to = self.days.partition_point(|(day, _)| *day < to);
        let days = self.days.get(from..to).unwrap_or_default();
        (days.iter().map(|(_, used)| used).sum(), days.len())
    }

    /// Expected use of an open day.
    pub(super) fn rate(&self, almanac: &Almanac) -> Option<f64> {
        let (used, days) = self.between(almanac.today, almanac.today.saturating_add(FOUR_WEEKS));
        let usual = || quotient(self.forecast()?.level, f64::from(almanac.usual));
        quotient(used, count(days)).or_else(usual)
    }

    /// Weeks that an amount lasts; none where nothing is used.
    pub(super) fn weeks_left(&self, free: Length, almanac: &Almanac) -> Option<f64> {
        let (all, _) = self.between(i32::MIN, i32::MAX);
        if all <= 0.0 {
            return None;
        }
        let mut left = real(free.um().max(0));
        if left <= 0.0 {
            return Some(0.0);
        }
        for &(day, used) in &self.days {
            if used >= left {
                let whole = f64::from(day.saturating_sub(almanac.today));
                return quotient(whole + left / used, 7.0);
            }
            left -= used;
        }
        let second = almanac.end().saturating_sub(COMING_WEEKS * 7 / 2);
        let (used, _) = self.between(second, almanac.end());
        let weeks = f64::from(almanac.end().saturating_sub(almanac.today)) / 7.0;
        Some(weeks + quotient(left, used / f64::from(COMING_WEEKS / 2))?)
    }

    /// Weeks to come as they are told.
    pub(super) fn coming(&self, weekly: &Weekly, survey: &Survey) -> Vec<ComingWeek> {
        let Some((low, high)) = self.range(weekly, &survey.index) else { return Vec::new() };
        let almanac = &survey.almanac;
        let week = |week: i32| {
            let monday = almanac.monday.saturating_add(7 * week);
            let (from, to) = (monday.max(almanac.today), monday.saturating_add(7));
            let (used, _) = self.between(from, to);
            Some(ComingWeek {
                monday,
                expected: nearest_mm(used)?,
                low: nearest_mm(used * low)?,
                high: nearest_mm(used * high)?,
                open_days: super::number::number(almanac.open_between(from, to).count()),
            })
        };
        (0..COMING_WEEKS).take(TOLD_WEEKS).map_while(week).collect()
    }

    /// Low and high of a week against what is expected of it.
    fn range(&self, weekly: &Weekly, index: &Index) -> Option<(f64, f64)> {
        self.forecast()?;
        let observed = weekly.series.observed();
        let factor = |bucket: &usize| match weekly.weeks.get(*bucket) {
            Some(week) if self.seasonal() => index.factor(week.week),
            _ => 1.0,
        };
        let sizes = observed.values.iter().zip(&observed.buckets);
        let sizes: Vec<f64> = sizes.map(|(value, bucket)| value / factor(bucket)).collect();
        let since = sizes.iter().position(|size| *size > 0.0)?;
        let since = since.max(sizes.len().saturating_sub(RANGE_WEEKS));
        let mut sizes = sizes.get(since..)?.to_vec();
        sizes.sort_by(f64::total_cmp);
        let mean = quotient(sizes.iter().sum(), count(sizes.len()))?;
        let low = sizes.get(sizes.len() / 5)?;
        let high = sizes.get((sizes.len() * 9).div_ceil(10).checked_sub(1)?)?;
        // an expectation lies between the two, however few and uneven the weeks are
        Some((quotient(*low, mean)?.min(1.0), quotient(*high, mean)?.max(1.0)))
    }
}

/// What is usual for the four weeks before the day of the report, of a fabric that has the season in
/// its method or has not.
pub(super) fn usual(history: &History, survey: &Survey, seasonal: bool) -> Option<Length> {
    let almanac = &survey.almanac;
    let weekly = history.weekly.as_ref()?;
    let first = almanac.today.saturating_sub(FOUR_WEEKS);
    let begins = monday(first);
    // whole weeks end with the one before that of the report
    let after = usize::try_from(almanac.monday.saturating_sub(begins) / 7).ok()?;
    let before = weekly.weeks.len().checked_sub(after)?;
    let from = before.saturating_sub(USUAL_WEEKS.0);
    let buckets = weekly.series.buckets().get(from..before)?;
    let seen = buckets.iter().filter(|bucket| bucket.stocked_days > 0).count();
    if seen < USUAL_WEEKS.1 {
        return None;
    }
    let (used, _) = cap(weekly.series.used().get(from..before)?).ok()?;
    let weeks = weekly.weeks.get(from..before)?;
    let factor = |week: u8| if seasonal { survey.index.factor(week) } else { 1.0 };
    let factors =
        buckets.iter().zip(weeks).map(|(bucket, week)| f64::from(bucket.stocked_days) * factor(week.week));
    let rate = quotient(used.iter().sum(), factors.sum())?;
    let days = almanac.open_between(first, almanac.today);
    let days: f64 = days.map(|day| factor(almanac.week(day).week)).sum();
    nearest_mm(rate * days)
}
