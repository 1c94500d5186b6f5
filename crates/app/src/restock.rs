//! How the shop buys its cloth: what the nightly report needs to know to propose orders.
//!
//! It comes out of the catalogue file. Nothing of it is in a quote, and a shop that says
//! nothing of it gets a report that proposes nothing and says why.

use pennantry_measure::{Length, Percent};

/// What the service level is a level of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ServiceKind {
    /// The share of deliveries before which a fabric does not run out.
    Cycle,
    /// The share of the use that is served from the shelf.
    Fill,
}

/// How the shop wants to be served, and of whom it buys what.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Restock {
    /// How the shop wants to be served; none where it does not say.
    pub ordering: Option<Ordering>,
    /// How fabrics are bought, each fabric at most once.
    pub supplies: Vec<Supply>,
}

impl Restock {
    /// How a fabric is bought.
    pub fn of(&self, fabric: &str) -> Option<&Supply> {
        self.supplies.iter().find(|supply| supply.fabric == fabric)
    }
}

/// How the shop wants to be served.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ordering {
    /// What the level is a level of.
    pub service: ServiceKind,
    /// Its level, above nought and below the whole.
    pub level: Percent,
    /// For how many days of use an order should last, at least.
    pub cover_days: u32,
}

/// How a fabric is bought.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supply {
    /// Code of the fabric.
    pub fabric: String,
    /// Who sells it.
    pub supplier: String,
    /// How they call it; empty where that is not said.
    pub reference: String,
    /// Calendar days from the order to the shelf.
    pub lead_days: u32,
    /// Length of a bolt as it is sold.
    pub bolt: Length,
    /// Least order.
    pub least: Length,
    /// Whether it cannot be had again.
    pub last_of_it: bool,
}
