//! How much of something that is bought once: the newsvendor.
//!
//! | figure | formula |
//! |---|---|
//! | share to serve | `c_u / (c_u + c_o)` |
//! | quantity | the least `Q` with `F(Q)` at least that share |
//! | expected cost | `c_o (Q - m + n(Q)) + c_u n(Q)` |
//! | expected profit | `c_u m` - expected cost |
//!
//! `c_u` is lost by each unit that is wanting, `c_o` by each that is left; `m` is the mean
//! demand and `n(Q)` the mean of what is wanting beyond `Q`. With price `r`, purchase `c`
//! and salvage `v`, `c_u = r - c` and `c_o = c - v`. The share is a cycle service: of the one
//! cycle there is. Source: Snyder and Shen, *Fundamentals of Supply Chain Theory*, 2nd edition, ch. 4
//! (example 4.1: demand of mean 50 and sd 8, 0.70 and 0.18: 56.60 at 1.998).
//!
//! Rounding: the cost is convex, so the best amount that can be ordered is one of the two
//! beside the best quantity, and the cheaper is taken; nothing at all is among them where
//! a bolt costs more than to do without.

use super::Lot;
use crate::supply::counts::Counts;
use crate::supply::lead::Distribution;
use crate::supply::safety::Spread;
use crate::supply::service::Service;
use crate::supply::{Error, normal, number};

/// Demand of the one season.
#[derive(Debug, Clone, PartialEq)]
pub enum Demand {
    /// Normal; its sd is above nought.
    Normal(Spread),
    /// Counts.
    Counts(Counts),
    /// Amounts with their shares.
    Known(Distribution),
}

impl Demand {
    fn mean(&self) -> f64 {
        match self {
            Self::Normal(spread) => spread.mean,
            Self::Counts(counts) => counts.mean(),
            Self::Known(known) => known.mean(),
        }
    }
}

/// What a unit too few and a unit too many lose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Newsvendor {
    under: f64,
    over: f64,
}

/// An amount bought once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Once {
    /// The share to serve, a cycle service.
    pub service: Service,
    /// The best quantity, whole or not.
    pub quantity: f64,
    /// Expected cost of that quantity.
    pub cost: f64,
    /// The best amount that can be ordered.
    pub amount: i64,
    /// How many bolts.
    pub bolts: i64,
    /// Expected cost of that amount.
    pub amount_cost: f64,
    /// Expected profit of that amount: `c_u m` less its cost.
    pub amount_profit: f64,
}

impl Newsvendor {
    /// What is lost by each unit that is wanting and by each that is left; both above
    /// nought, neither more than 999 999 times the other.
    pub fn new(under: f64, over: f64) -> Result<Self, Error> {
        number::positive("loss by a unit wanting", under)?;
        number::positive("loss by a unit left", over)?;
        Service::cycle(under / (under + over))?;
        Ok(Self { under, over })
    }

    /// The same from what a unit is sold for, bought for, and worth when it is left: each
    /// less than the one before.
    pub fn of_prices(price: f64, purchase: f64, salvage: f64) -> Result<Self, Error> {
        Self::new(price - purchase, purchase - salvage)
    }

    /// The share to serve.
    pub fn service(&self) -> Result<Service, Error> {
        Service::cycle(self.under / (self.under + self.over))
    }

    /// How much to buy, and what in bolts.
    ///
    /// ```
    /// use pennantry_forecast::supply::lot::Lot;
    /// use pennantry_forecast::supply::lot::newsvendor::{Demand, Newsvendor};
    /// use pennantry_forecast::supply::safety::Spread;
    /// let demand = Demand::Normal(Spread { mean: 11.73, sd: 4.74 });
    /// let once = Newsvendor::new(0.50, 0.15)?.buy(&demand, &Lot::new(1, 0)?)?;
    /// assert!((once.quantity - 15.2201).abs() < 1e-4);
    /// assert_eq!(once.amount, 15);
    /// # Ok::<(), pennantry_forecast::supply::Error>(())
    /// ```
    pub fn buy(&self, demand: &Demand, lot: &Lot) -> Result<Once, Error> {
        let service = self.service()?;
        let quantity = match demand {
            Demand::Normal(Spread { mean, sd }) => {
                number::not_negative("mean", *mean)?;
                number::positive("sd", *sd)?;
                (mean + normal::quantile(service.share())? * sd).max(0.0)
            }
            Demand::Counts(counts) => f64::from(counts.quantile(service.share())?),
            Demand::Known(known) => number::real(known.quantile(service.share())?),
        };
        let whole = number::whole_up("quantity", quantity)?;
        let best = if number::real(whole) > quantity {
            self.normal_cost(demand, quantity)?
        } else {
            self.cost(demand, whole)
        };
        let (down, up) = lot.beside(quantity)?;
        let mut amount = 0;
        for other in [down, up] {
            if self.cost(demand, other) < self.cost(demand, amount) {
                amount = other;
            }
        }
        let amount_cost = self.cost(demand, amount);
        Ok(Once {
            service,
            quantity,
            cost: best,
            amount,
            bolts: lot.bolts(amount),
            amount_cost,
            amount_profit: self.under * demand.mean() - amount_cost,
        })
    }

    /// Expected cost of a whole amount.
    pub fn cost(&self, demand: &Demand, amount: i64) -> f64 {
        let wanting = match demand {
            Demand::Normal(spread) => beyond(*spread, number::real(amount)),
            Demand::Counts(counts) => counts.loss(amount),
            Demand::Known(known) => known.loss(amount),
        };
        self.cost_of(demand.mean(), number::real(amount), wanting)
    }

    /// Only a normal quantity is not whole.
    fn normal_cost(&self, demand: &Demand, quantity: f64) -> Result<f64, Error> {
        let Demand::Normal(spread) = demand else {
            return Err(Error::Figure { what: "quantity", value: quantity, allowed: "a whole one" });
        };
        Ok(self.cost_of(spread.mean, quantity, beyond(*spread, quantity)))
    }

    fn cost_of(&self, mean: f64, quantity: f64, wanting: f64) -> f64 {
        self.over * (quantity - mean + wanting) + self.under * wanting
    }
}

/// The mean of what a normal demand wants beyond a quantity.
fn beyond(spread: Spread, quantity: f64) -> f64 {
    spread.sd * normal::loss((quantity - spread.mean) / spread.sd)
}
