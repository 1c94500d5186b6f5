//! The quantity that costs least in a year: economic order quantity.
//!
//! | figure | formula |
//! |---|---|
//! | quantity | `Q* = sqrt(2 K D / h)` |
//! | cost of a quantity | `K D / Q + h Q / 2` |
//! | least cost | `sqrt(2 K D h)` |
//! | cost against the least | `(Q / Q* + Q* / Q) / 2` |
//!
//! `K` is what an order costs whatever its size, `D` the demand in a year, `h` what a unit
//! costs to keep for a year. The cost is flat about its least: half as much again costs
//! 8.33 % more. So bolts and minimums are no great matter, and how much they are is said.
//! Source: Snyder and Shen, *Fundamentals of Supply Chain Theory*, 2nd edition, sec. 3.2 (example
//! 3.1: `K` 8, `h` 0.225, `D` 1300: 304.05 at 68.41). Costs are `f64` in the caller's money
//! and not rounded.

use super::Lot;
use crate::supply::{Error, number};

/// What it costs to order and to keep.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Economic {
    fixed: f64,
    holding: f64,
    demand: f64,
}

/// A quantity that can be ordered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bought {
    /// The amount, in units.
    pub amount: i64,
    /// How many bolts.
    pub bolts: i64,
    /// What it costs in a year.
    pub cost: f64,
    /// That against the least cost: 1 is the least.
    pub ratio: f64,
}

impl Economic {
    /// Cost of an order, cost of keeping a unit for a year, demand in a year: each above
    /// nought.
    pub fn new(fixed: f64, holding: f64, demand: f64) -> Result<Self, Error> {
        number::positive("cost of an order", fixed)?;
        number::positive("cost of keeping a unit", holding)?;
        number::positive("demand in a year", demand)?;
        Ok(Self { fixed, holding, demand })
    }

    /// The quantity that costs least.
    ///
    /// ```
    /// use pennantry_forecast::supply::lot::economic::Economic;
    /// let example = Economic::new(8.0, 0.225, 1300.0)?;
    /// assert!((example.quantity() - 304.0467800264).abs() < 1e-9);
    /// assert!((example.least_cost() - 68.4105255059).abs() < 1e-9);
    /// # Ok::<(), pennantry_forecast::supply::Error>(())
    /// ```
    pub fn quantity(&self) -> f64 {
        (2.0 * self.fixed * self.demand / self.holding).sqrt()
    }

    /// What that costs in a year.
    pub fn least_cost(&self) -> f64 {
        (2.0 * self.fixed * self.demand * self.holding).sqrt()
    }

    /// What a quantity above nought costs in a year.
    pub fn cost(&self, quantity: f64) -> Result<f64, Error> {
        let quantity = number::positive("quantity", quantity)?;
        Ok(self.fixed * self.demand / quantity + 0.5 * self.holding * quantity)
    }

    /// The cheaper of the two amounts beside the best quantity that can be ordered, the
    /// smaller where they cost the same.
    pub fn bought(&self, lot: &Lot) -> Result<Bought, Error> {
        let (down, up) = lot.beside(self.quantity())?;
        let (below, above) = (self.cost(number::real(down))?, self.cost(number::real(up))?);
        let (amount, cost) = if below <= above { (down, below) } else { (up, above) };
        Ok(Bought { amount, bolts: lot.bolts(amount), cost, ratio: cost / self.least_cost() })
    }
}
