//! Use per bucket, and how much of each bucket could be seen.
//!
//! A bucket is an open day or a week. What it says of demand depends on its *exposure*:
//! the open days on which there was something to use. A closed day is no observation, and
//! a day without stock tells only that at least so much would have been used.
//!
//! # What is made of a bucket ([`Series::observed`])
//! With `u` used, `s` open days with stock, `n` the usual number of open days:
//!
//! | bucket | counts as |
//! |---|---|
//! | no open day | no observation |
//! | `u = 0`, and `2 s < n` | no observation: it was hardly looked at |
//! | `u = 0` otherwise | 0 |
//! | `u > 0`, `s <= n` | `u + r (n - s)`, `r` the rate below |
//! | `u > 0`, `s > n` | `u n / s` |
//!
//! `r = Σ u / Σ s` over all buckets is use per open day with stock, the *exposure rule*:
//! 12.6 m in 21 open days of which 3 were out of stock are 0.700 m a day, and not 0.600.
//! For Poisson demand it is the maximum likelihood estimate, and `r (n - s)` what that
//! estimate expects of days not seen (the E-step of Dempster, Laird and Rubin, 1977).
//! A bucket is thus never stretched by itself: one job before the shelf was empty does
//! not become five. Buckets of nought stay nought, so that filling makes no demand out of
//! none; this keeps a little of the downward bias of a short shelf, and it is said.
//!
//! Doubles; no rounding.

use super::Error;
use super::number::{MOST, exact, quotient};

/// Most open days that a bucket may have: a year.
const MOST_DAYS: u32 = 366;

/// One bucket as it was recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bucket {
    /// What was used, in whole numbers of the one unit of this series.
    pub amount: i64,
    /// Days on which the shop was open.
    pub open_days: u32,
    /// Those of them on which there was stock to use.
    pub stocked_days: u32,
}

/// Use per bucket, the oldest first: checked, never negative, never without a bucket.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    buckets: Vec<Bucket>,
    used: Vec<f64>,
    usual: u32,
}

/// What a series says of demand, with what is no observation left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Observed {
    /// Demand in a bucket of the usual number of open days.
    pub values: Vec<f64>,
    /// Which bucket each value is of.
    pub buckets: Vec<usize>,
    /// Buckets whose days not seen were filled at the rate of the whole series.
    pub filled: usize,
    /// Buckets that had open days and yet are no observation: they were out of stock.
    pub unseen: usize,
}

impl Series {
    /// Checks buckets and takes them in. `usual_open_days` is how many open days a bucket
    /// has as a rule: 1 for a series of open days, 5 for weeks from Monday to Friday.
    ///
    /// # Errors
    /// No bucket or more than 10 000; an amount below nought or above 2⁵³; use without an
    /// open day; more days with stock than open; usual days outside 1 to 366.
    ///
    /// ```
    /// use pennantry_forecast::demand::series::{Bucket, Series};
    /// let three_out = [Bucket { amount: 12_600, open_days: 21, stocked_days: 18 }];
    /// let series = Series::new(&three_out, 21)?;
    /// assert_eq!(series.rate(), Some(700.0));
    /// # Ok::<(), pennantry_forecast::demand::Error>(())
    /// ```
    pub fn new(buckets: &[Bucket], usual_open_days: u32) -> Result<Series, Error> {
        if buckets.is_empty() {
            return Err(Error::Empty);
        }
        if buckets.len() > MOST {
            return Err(Error::TooMany { given: buckets.len(), most: MOST });
        }
        let (name, allowed) = ("usual_open_days", "from 1 to 366");
        if !(1..=MOST_DAYS).contains(&usual_open_days) {
            return Err(Error::Parameter { name, value: f64::from(usual_open_days), allowed });
        }
        let mut used = Vec::with_capacity(buckets.len());
        for (at, bucket) in buckets.iter().enumerate() {
            let amount = exact(bucket.amount).ok_or(Error::NotExact { at })?;
            if amount < 0.0 {
                return Err(Error::Negative { at, amount });
            }
            if bucket.open_days == 0 && bucket.amount > 0 {
                return Err(Error::UseOnClosed { at });
            }
            if bucket.stocked_days > bucket.open_days {
                let (stocked, open) = (bucket.stocked_days, bucket.open_days);
                return Err(Error::MoreStockedThanOpen { at, stocked, open });
            }
            if bucket.open_days > MOST_DAYS {
                let value = f64::from(bucket.open_days);
                return Err(Error::Parameter { name: "open_days", value, allowed: "from 0 to 366" });
            }
            used.push(amount);
        }
        Ok(Series { buckets: buckets.to_vec(), used, usual: usual_open_days })
    }

    /// A series of open days, or of any buckets that are all alike, with stock throughout.
    pub fn of_amounts(amounts: &[i64]) -> Result<Series, Error> {
        let whole = |&amount| Bucket { amount, open_days: 1, stocked_days: 1 };
        Series::new(&amounts.iter().map(whole).collect::<Vec<_>>(), 1)
    }

    /// The buckets as they were given.
    pub fn buckets(&self) -> &[Bucket] {
        &self.buckets
    }

    /// What was used in each bucket, as recorded.
    pub fn used(&self) -> &[f64] {
        &self.used
    }

    /// How many open days a bucket has as a rule.
    pub fn usual_open_days(&self) -> u32 {
        self.usual
    }

    /// Use per open day with stock, over the whole series; nothing where there was none.
    pub fn rate(&self) -> Option<f64> {
        let days: u64 = self.buckets.iter().map(|bucket| u64::from(bucket.stocked_days)).sum();
        let days = u32::try_from(days).map_or(f64::from(u32::MAX), f64::from);
        quotient(self.used.iter().sum(), days)
    }

    /// What the series says of demand; see the table of this module.
    pub fn observed(&self) -> Observed {
        let usual = f64::from(self.usual);
        let rate = self.rate();
        let mut observed = Observed { values: Vec::new(), buckets: Vec::new(), filled: 0, unseen: 0 };
        for (at, (bucket, &used)) in self.buckets.iter().zip(&self.used).enumerate() {
            if bucket.open_days == 0 {
                continue;
            }
            let stocked = f64::from(bucket.stocked_days);
            let value = if used > 0.0 && stocked > usual {
                Some(used * usual / stocked)
            } else if used > 0.0 {
                rate.map(|rate| used + rate * (usual - stocked))
            } else if 2.0 * stocked < usual {
                None
            } else {
                Some(0.0)
            };
            match value {
                Some(value) => {
                    observed.values.push(value);
                    observed.buckets.push(at);
                    observed.filled += usize::from(used > 0.0 && stocked < usual);
                }
                None => observed.unseen += 1,
            }
        }
        observed
    }
}
