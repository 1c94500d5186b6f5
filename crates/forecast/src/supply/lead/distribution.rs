//! A distribution over whole amounts.

use crate::supply::{Error, counts::SHARE, number};

/// How a distribution was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// By convolution of the history, or as the caller gave it.
    Exact,
    /// By drawing.
    Drawn {
        /// How many were drawn.
        draws: u32,
        /// From which seed.
        seed: u64,
    },
}

/// Amounts and their shares.
#[derive(Debug, Clone, PartialEq)]
pub struct Distribution {
    steps: Vec<Step>,
    how: How,
}

/// An amount, its share, and the share up to it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Step {
    amount: i64,
    share: f64,
    up_to: f64,
}

impl Distribution {
    /// Amounts with their shares: at least one, each amount from 0 to 10¹² and above the one
    /// before it, each share from 0 to 1, their sum 1 up to 10⁻⁹.
    ///
    /// ```
    /// use pennantry_forecast::supply::lead::Distribution;
    /// let demand = Distribution::new(&[(0, 0.5), (3, 0.3), (7, 0.2)])?;
    /// assert_eq!((demand.quantile(0.5)?, demand.quantile(0.9)?), (0, 7));
    /// assert!((demand.mean() - 2.3).abs() < 1e-12);
    /// assert!((demand.loss(3) - 0.8).abs() < 1e-12);
    /// # Ok::<(), pennantry_forecast::supply::Error>(())
    /// ```
    pub fn new(shares: &[(i64, f64)]) -> Result<Self, Error> {
        if shares.is_empty() {
            return Err(Error::Empty { what: "amount with its share" });
        }
        for (amount, share) in shares {
            number::amount("amount of a distribution", *amount, 0, "0 to 10^12")?;
            if !(0.0..=1.0).contains(share) {
                return Err(Error::Figure { what: "share of an amount", value: *share, allowed: "0 to 1" });
            }
        }
        if let Some((amount, _)) = shares
            .windows(2)
            .find(|two| two.first().map(|one| one.0) >= two.last().map(|one| one.0))
            .and_then(<[_]>::last)
        {
            let allowed = "above the amount before it";
            return Err(Error::Whole { what: "amount of a distribution", value: *amount, allowed });
        }
        Self::exact(shares.to_vec())
    }

    /// Amounts in their order, whose shares make 1.
    pub(super) fn exact(shares: Vec<(i64, f64)>) -> Result<Self, Error> {
        let mut up_to = 0.0;
        let mut steps = Vec::with_capacity(shares.len());
        for (amount, share) in shares {
            if share > 0.0 {
                up_to += share;
                steps.push(Step { amount, share, up_to });
            }
        }
        if (up_to - 1.0).abs() > 1e-9 {
            return Err(Error::Figure { what: "sum of shares", value: up_to, allowed: "1, up to 10^-9" });
        }
        Ok(Self { steps, how: How::Exact })
    }

    /// Each draw alike.
    pub(super) fn of_draws(mut draws: Vec<i64>, seed: u64) -> Result<Self, Error> {
        draws.sort_unstable();
        let of = number::count(draws.len());
        let mut seen = 0;
        let steps = draws.chunk_by(|a, b| a == b).filter_map(|same| {
            seen += same.len();
            let share = number::count(same.len()) / of;
            Some(Step { amount: *same.first()?, share, up_to: number::count(seen) / of })
        });
        let steps: Vec<Step> = steps.collect();
        if steps.is_empty() {
            return Err(Error::Empty { what: "draw" });
        }
        Ok(Self { steps, how: How::Drawn { draws: u32::try_from(draws.len()).unwrap_or(u32::MAX), seed } })
    }

    /// How it was made.
    pub fn how(&self) -> How {
        self.how
    }

    /// The amounts with a share above nought, and their shares.
    pub fn shares(&self) -> impl Iterator<Item = (i64, f64)> {
        self.steps.iter().map(|step| (step.amount, step.share))
    }

    /// The mean.
    pub fn mean(&self) -> f64 {
        self.shares().map(|(amount, share)| number::real(amount) * share).sum()
    }

    /// The variance.
    pub fn variance(&self) -> f64 {
        let mean = self.mean();
        self.shares()
            .map(|(amount, share)| (number::real(amount) - mean) * (number::real(amount) - mean) * share)
            .sum()
    }

    /// The standard deviation.
    pub fn sd(&self) -> f64 {
        self.variance().sqrt()
    }

    /// The share of `amount` and less.
    pub fn up_to(&self, amount: i64) -> f64 {
        let after = self.steps.partition_point(|step| step.amount <= amount);
        self.steps.get(..after).and_then(<[Step]>::last).map_or(0.0, |step| step.up_to.min(1.0))
    }

    /// The least amount up to which at least the share `p` lies; `p` is above 0 and below 1.
    pub fn quantile(&self, p: f64) -> Result<i64, Error> {
        if !(p > 0.0 && p < 1.0) {
            return Err(Error::Figure {
                what: "level of a quantile",
                value: p,
                allowed: "above 0 and below 1",
            });
        }
        let before = self.steps.partition_point(|step| step.up_to < p - SHARE);
        let found = self.steps.get(before).or(self.steps.last());
        found.map(|step| step.amount).ok_or(Error::Empty { what: "amount with its share" })
    }

    /// The mean of what is wanted beyond `level`.
    pub fn loss(&self, level: i64) -> f64 {
        let after = self.steps.partition_point(|step| step.amount <= level);
        let beyond = self.steps.get(after..).unwrap_or_default();
        beyond.iter().map(|step| (number::real(step.amount) - number::real(level)) * step.share).sum()
    }
}
