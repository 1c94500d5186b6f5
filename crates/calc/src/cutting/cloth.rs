//! What an order takes of each fabric.
//!
//! Pennants come first, then letters, then web. Each fabric is washed where it is washed
//! ([`washed`], [`bought_length`]), laid as costs least and cut by a plan of one layer;
//! what is charged is what that takes of the cloth as it is bought.
//!
//! | figure | formula | rounding |
//! |---|---|---|
//! | pieces | pennants of the fabric · layers | none |
//! | spares | share of the pieces, and what fills the last outline of a lay | up |
//! | outlines | `(pieces + spares) / layers of the lay` | up |
//! | used | the plan of one layer, times the lengths spread | none |
//! | charged | see the lays | up |
//! | one pennant more, one fewer | the same lay with its pieces and their spares, less this | none |
//!
//! Letters are cut from rectangles and lie flat, as does web: one piece of the pennant's
//! outline for each pennant that is fused, one rectangle for each letter that is held by
//! it. They share cuts, so there is no clearance and no gap between their rows, and they
//! do not keep a repeat. Spares are the same share of them.

mod lay;
mod look;
mod needs;
mod pieces;
mod wash;
mod wide;

use pennantry_measure::{Length, Percent, bounds};

use super::bounds::bound;
use super::{Job, Plan, PlanError, best, plan};
use crate::order::{Field, Order, Reason, Violation, construction_name};
use crate::outline::{Finished, Outline, seam_share};
use crate::shop::{Fabric, Lay, Method, Shop};
use lay::Supply;
use needs::{Need, What, needs};

pub use look::notices;
pub(crate) use wash::washed_repeat;
pub use wash::{bought_length, change, washed, whole_repeats};

/// What one fabric has to give, for all strings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClothUse {
    /// Place of the fabric in the shop.
    pub fabric: usize,
    /// What is cut from it.
    pub role: Role,
    /// Pieces needed, without spares.
    pub pieces: u32,
    /// Pieces cut beyond those: the shop's share, and what fills the last outline of a lay.
    pub spares: u32,
    /// The piece, its seams in it.
    pub outline: Outline,
    /// The share of the cut width that is seam.
    pub seams: Percent,
    /// How the cloth lies.
    pub lay: Lay,
    /// Layers spread, one after the other where it is bought in pieces.
    pub layers: u32,
    /// Outlines cut, each through all layers of the lay.
    pub outlines: u32,
    /// Length of cloth that all layers cover, as it is when it is cut.
    pub used: Length,
    /// Length below which no plan can get, as it is when it is cut.
    pub bound: Length,
    /// Length of cloth charged, as it is bought.
    pub charged: Length,
    /// Where it is bought in pieces.
    pub bought: Option<Bought>,
    /// What one pennant more or fewer of this fabric would change.
    pub step: Step,
    /// The plan of one layer, spares among its pieces; of a bought piece, as full as it
    /// gets.
    pub plan: Plan,
    /// What was planned.
    pub job: Job,
}

/// What is cut from a cloth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Pennants.
    Pennants,
    /// Letters.
    Letters,
    /// The web that fuses layers or holds letters.
    Web,
}

/// Cloth that is bought in pieces, such as fat quarters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bought {
    /// How many.
    pub count: u32,
    /// Most pieces for pennants that one of them gives.
    pub holds: u32,
}

/// What one pennant more or fewer of a fabric would change, in the lay that was chosen;
/// of letters, one letter more or fewer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// Cloth charged more for one pennant more; below nought where that makes another plan or
    /// lay worth its trouble.
    pub more: Length,
    /// Cloth charged less for one pennant fewer; below nought likewise.
    pub fewer: Length,
}

/// Why an order gets no cloth.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Error {
    /// It cannot be cut as asked.
    #[error("{} violation(s)", .0.len())]
    Refused(Vec<Violation>),
    /// A plan did not stand up to being rebuilt: a fault of the program.
    #[error("{0}")]
    Fault(String),
}

/// The cloth for an order: each fabric's pieces, its plan, and what is charged.
///
/// `finished` is the pennant at its top edge; `per_fabric` says
/// how many pennants of one string hang in which fabric. A pennant takes as many pieces
/// of its fabric as it has layers; with a backing of its own fabric it takes one of
/// each. Fabrics keep the order in which they are given; a backing that does not hang in
/// front comes last, then letters, then web.
///
/// # Errors
/// [`Error::Refused`] names every fabric on which not one piece fits, or an order of more
/// pieces than the bounds let through; [`Error::Fault`] is a fault of the program.
pub fn cloth(
    shop: &Shop,
    order: &Order,
    finished: &Finished,
    per_fabric: &[(usize, u32)],
) -> Result<Vec<ClothUse>, Error> {
    let Some(method) = shop.method(order.construction) else {
        let name = construction_name(order.construction);
        let message = format!("{} does not make pennants {name}: choose another construction", shop.name);
        return Err(Error::Refused(vec![Violation::new(Field::Construction, Reason::NotOffered, message)]));
    };
    let needed = needs(shop, order, method, finished, per_fabric);
    let total = needed.iter().fold(0_u64, |sum, need| sum.saturating_add(need.pieces));
    let most = bounds::PIECES.most;
    if total > u64::from(most) {
        let message = format!(
            "{total} pieces are more than one order can take: order fewer or shorter strings, {most} pieces at most"
        );
        return Err(Error::Refused(vec![Violation::new(Field::Quantity, Reason::OutOfRange, message)]));
    }
    let mut uses = Vec::with_capacity(needed.len());
    let mut found = Vec::new();
    for need in &needed {
        let Some(fabric) = shop.fabrics.get(need.fabric) else { continue };
        match use_of(shop, method, fabric, finished, need) {
            Ok(Some(used)) => uses.push(used),
            Ok(None) => found.push(wide::refusal(shop, order, method, fabric, need)),
            Err(fault) => return Err(Error::Fault(format!("\"{}\": {fault}", fabric.code))),
        }
    }
    if found.is_empty() { Ok(uses) } else { Err(Error::Refused(found)) }
}

/// What one need takes of its fabric; none where not one piece fits.
fn use_of(
    shop: &Shop,
    method: &Method,
    fabric: &Fabric,
    finished: &Finished,
    need: &Need,
) -> Result<Option<ClothUse>, String> {
    let supply = Supply::new(shop, method, fabric, need);
    let pieces = u32::try_from(need.pieces).unwrap_or(bounds::PIECES.most);
    let Some((lay, taken)) = supply.choose(need.role, pieces) else { return Ok(None) };
    // a bought piece is filled as full as it goes; off a bolt the simpler plan may stand
    let planned = if taken.bought.is_some() { best(&taken.layer) } else { plan(&taken.layer) };
    let plan = match planned {
        Ok(plan) => plan,
        Err(PlanError::TooWide(_)) => return Ok(None),
        Err(PlanError::Fault(fault)) => return Err(fault.to_string()),
    };
    if plan.used != taken.each {
        return Err(format!("the plan takes {} and was reckoned at {}", plan.used, taken.each));
    }
    // where one piece more makes another plan worth its trouble, it may take less
    let more = supply.charged(need.role, pieces.saturating_add(need.each));
    let fewer = supply.charged(need.role, pieces.saturating_sub(need.each));
    let seams = match need.what {
        What::Pennant => seam_share(finished.width, need.outline),
        What::Letter => Percent::from_milli(0),
    };
    let flat = Job { pieces: supply.wanted(pieces), ..supply.flat };
    Ok(Some(ClothUse {
        fabric: need.fabric,
        role: need.role,
        pieces,
        spares: taken.spares,
        outline: need.outline,
        seams,
        lay,
        layers: taken.layers,
        outlines: taken.outlines,
        used: taken.used,
        bound: bound(&flat),
        charged: taken.charged,
        bought: taken.bought,
        step: Step { more: more - taken.charged, fewer: taken.charged - fewer },
        plan,
        job: taken.layer,
    }))
}
