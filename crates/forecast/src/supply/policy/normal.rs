//! `(r, Q)` for normal demand.
//!
//! Expected level: from `Q = sqrt(2 K D / h)`, in turn until neither moves by 10⁻¹² of itself,
//!
//! ```text
//! r = m + z s,  where  1 - Phi(z) = Q h / (p D)
//! Q = sqrt(2 D (K + p n(r)) / h),   n(r) = s G((r - m) / s)
//! cost = h (r - m + Q / 2) + K D / Q + p D n(r) / Q
//! ```
//!
//! `m` and `s` are of the lead-time demand. It is an approximation: what is wanting is not
//! taken off the level on the shelf. Quantity then point: `Q` as above at first, and `r` the
//! newsvendor's with share `p / (p + h)`, `p` per unit and time.
//!
//! `f64`, not rounded. Example (Nahmias, *Production and Operations Analysis*, ch. 5): 200 jars
//! a year, an order 50, keeping 2, a jar wanting 25, lead-time demand 100 and 25: order
//! 110.8 at 142.6, in print 111 and 143.

use crate::supply::lot::economic::Economic;
use crate::supply::safety::Spread;
use crate::supply::{Error, normal, number};

/// Most turns; a dozen is usual.
const TURNS: u32 = 500;

/// What ordering, keeping and wanting cost, and the demand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Costs {
    /// An order, whatever its size.
    pub fixed: f64,
    /// Keeping a unit for the time of `demand`.
    pub holding: f64,
    /// A unit wanting.
    pub wanting: f64,
    /// Demand in that time.
    pub demand: f64,
}

/// A reorder point and a quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointAndQuantity {
    /// The reorder point.
    pub point: f64,
    /// The quantity.
    pub quantity: f64,
    /// How many sd the point is above the mean.
    pub z: f64,
    /// What is wanting in a cycle, on average.
    pub wanting: f64,
    /// Turns until neither moved; 1 where there is no iteration.
    pub turns: u32,
}

impl PointAndQuantity {
    /// What it costs by the expected level.
    pub fn cost(&self, costs: &Costs, lead: Spread) -> f64 {
        let cycles = costs.demand / self.quantity;
        costs.holding * (self.point - lead.mean + 0.5 * self.quantity)
            + costs.fixed * cycles
            + costs.wanting * cycles * self.wanting
    }
}

/// Point and quantity by the expected level; `lead` is the demand in a lead time.
///
/// ```
/// use pennantry_forecast::supply::policy::normal::{Costs, expected_level};
/// use pennantry_forecast::supply::safety::Spread;
/// let costs = Costs { fixed: 50.0, holding: 2.0, wanting: 25.0, demand: 200.0 };
/// let found = expected_level(&costs, Spread { mean: 100.0, sd: 25.0 })?;
/// assert_eq!((found.quantity.round(), found.point.round()), (111.0, 143.0));
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn expected_level(costs: &Costs, lead: Spread) -> Result<PointAndQuantity, Error> {
    let mut quantity = checked(costs, lead)?.quantity();
    let mut before = point_for(costs, lead, quantity)?;
    for turns in 1..=TURNS {
        let next =
            (2.0 * costs.demand * (costs.fixed + costs.wanting * before.wanting) / costs.holding).sqrt();
        let found = PointAndQuantity { turns, ..point_for(costs, lead, next)? };
        let still = |old: f64, new: f64| (new - old).abs() <= 1e-12 * (1.0 + new.abs());
        if still(quantity, next) && still(before.point, found.point) {
            return Ok(found);
        }
        (quantity, before) = (next, found);
    }
    Err(Error::NoAnswer { what: "(r, Q) in 500 turns", remedy: "raise the cost of a unit wanting" })
}

/// The point that goes with a quantity: `1 - Phi(z) = Q h / (p D)`.
pub fn point_for(costs: &Costs, lead: Spread, quantity: f64) -> Result<PointAndQuantity, Error> {
    checked(costs, lead)?;
    let refused = number::positive("quantity", quantity)? * costs.holding / (costs.wanting * costs.demand);
    if !(1e-12..=1.0 - 1e-12).contains(&refused) {
        let remedy = "raise the cost of a unit wanting until Q h / (p D) is below 1";
        return Err(Error::NoAnswer { what: "the point of (r, Q)", remedy });
    }
    Ok(with(lead, -normal::quantile(refused)?, quantity))
}

/// The economic quantity, and the point that balances keeping and wanting by time.
pub fn quantity_then_point(costs: &Costs, lead: Spread) -> Result<PointAndQuantity, Error> {
    let quantity = checked(costs, lead)?.quantity();
    Ok(with(lead, normal::quantile(costs.wanting / (costs.wanting + costs.holding))?, quantity))
}

fn with(lead: Spread, z: f64, quantity: f64) -> PointAndQuantity {
    let wanting = lead.sd * normal::loss(z);
    PointAndQuantity { point: lead.mean + z * lead.sd, quantity, z, wanting, turns: 1 }
}

fn checked(costs: &Costs, lead: Spread) -> Result<Economic, Error> {
    Spread::new(lead.mean, lead.sd)?;
    number::positive("cost of a unit wanting", costs.wanting)?;
    Economic::new(costs.fixed, costs.holding, costs.demand)
}
