//! What an order takes of each fabric.

use pennantry_measure::{Length, Percent, bounds};

use super::{Job, Plan, PlanError, TooWide, charged, plan, spares};
use crate::notice::{Code, Notice};
use crate::order::{Field, Order, Reason, Violation, construction_name};
use crate::outline::{Finished, Outline, cut, raise, seam_share, triangle};
use crate::shop::{Binding, Fabric, Lay, Method, Shop, SizeAt, Sold};

/// Seams beyond this share of the cut width are noticed (common practice, no source).
const WIDE_SEAMS: Percent = Percent::from_milli(15_000);

/// What one fabric has to give, for all strings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClothUse {
    /// Place of the fabric in the shop.
    pub fabric: usize,
    /// What is cut from it.
    pub role: Role,
    /// Pieces needed, without spares.
    pub pieces: u32,
    /// Pieces cut beyond those.
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
    /// The plan of one layer, spares among its pieces.
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

/// What one pennant more or fewer of a fabric would change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// Cloth charged more for one pennant more.
    pub more: Length,
    /// Cloth charged less for one pennant fewer.
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
/// front comes last.
///
/// # Errors
/// [`Error::Refused`] names every fabric that is too narrow, or an order of more pieces
/// than the bounds let through; [`Error::Fault`] is a fault of the program.
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
    let needed = pieces(order, per_fabric);
    let total: u64 = needed.iter().map(|(_, pieces)| pieces).sum();
    let most = bounds::PIECES.most;
    if total > u64::from(most) {
        let message = format!(
            "{total} pieces are more than one order can take: order fewer or shorter strings, {most} pieces at most"
        );
        return Err(Error::Refused(vec![Violation::new(Field::Quantity, Reason::OutOfRange, message)]));
    }
    let outline = cut(finished, method.seam, method.clip_tips);
    let seams = seam_share(finished.width, outline);
    let mut uses = Vec::with_capacity(needed.len());
    let mut found = Vec::new();
    for (place, pieces) in needed {
        let Some(fabric) = shop.fabrics.get(place) else { continue };
        let pieces = u32::try_from(pieces).unwrap_or(most);
        let spares = spares(pieces, shop.cloth.spares);
        let job = Job {
            cloth_width: fabric.usable_width,
            direction: fabric.direction,
            outline,
            clearance: method.clearance,
            row_gap: method.row_gap,
            pieces: pieces.saturating_add(spares),
        };
        let step = match fabric.sold {
            Sold::Bolt { step } => step,
            Sold::Pieces { length } => length,
        };
        match plan(&job) {
            Ok(plan) => {
                let charged = charged(plan.used, shop.cloth.squaring, step);
                uses.push(ClothUse {
                    fabric: place,
                    role: Role::Pennants,
                    pieces,
                    spares,
                    outline,
                    seams,
                    lay: Lay::Flat,
                    layers: 1,
                    outlines: job.pieces,
                    used: plan.used,
                    bound: plan.bound,
                    charged,
                    bought: None,
                    step: Step { more: Length::ZERO, fewer: Length::ZERO },
                    plan,
                    job,
                });
            }
            Err(PlanError::TooWide(wide)) => found.push(Violation::new(
                field(order, place),
                Reason::DoesNotFit,
                too_wide(shop, order, method, fabric, wide),
            )),
            Err(PlanError::Fault(fault)) => {
                return Err(Error::Fault(format!("\"{}\": {fault}", fabric.code)));
            }
        }
    }
    if found.is_empty() { Ok(uses) } else { Err(Error::Refused(found)) }
}

/// What is worth a look before cutting: seams that take much of the cloth, and rows that
/// fill it to less than a millimetre.
pub fn notices(_shop: &Shop, order: &Order, uses: &[ClothUse]) -> Vec<Notice> {
    let mut notices = Vec::new();
    // one outline for all fabrics, so one notice
    if let Some(used) = uses.first().filter(|used| used.seams > WIDE_SEAMS) {
        let message = format!(
            "the seams take {} of the cut width of {}: is the seam right for a pennant of this size?",
            used.seams, used.outline.width
        );
        notices.push(Notice::about(Code::WideSeams, Field::Width, message));
    }
    for used in uses.iter().filter(|used| used.plan.zero_tolerance) {
        let full = used.plan.bands.first();
        let (count, slack) = full.map_or((0, 0), |band| (band.per_row, band.half_slack));
        let message = format!(
            "a full row of {count} leaves {} of the usable width of {}: measure the cloth before cutting",
            Length::from_um(slack / 2),
            used.job.cloth_width
        );
        notices.push(Notice::about(Code::ZeroTolerance, field(order, used.fabric), message));
    }
    notices
}

/// Pieces of each fabric for all strings, the backs last unless their fabric hangs in
/// front too.
fn pieces(order: &Order, per_fabric: &[(usize, u32)]) -> Vec<(usize, u64)> {
    let layers = if order.backing.is_some() { 1 } else { order.construction.layers() };
    let backs =
        order.backing.map(|place| (place, per_fabric.iter().map(|(_, count)| u64::from(*count)).sum()));
    let fronts = per_fabric.iter().map(|(place, count)| (*place, u64::from(*count) * u64::from(layers)));
    let mut all: Vec<(usize, u64)> = Vec::with_capacity(per_fabric.len() + 1);
    for (place, count) in fronts.chain(backs) {
        let pieces = count * u64::from(order.quantity);
        match all.iter_mut().find(|(known, _)| *known == place) {
            Some((_, sum)) => *sum += pieces,
            None => all.push((place, pieces)),
        }
    }
    all.retain(|(_, pieces)| *pieces > 0);
    all
}

/// The field of the order that names a fabric of the shop.
fn field(order: &Order, fabric: usize) -> Field {
    let named = order.fabrics.iter().zip(0..).find(|(place, _)| **place == fabric);
    named.map_or(Field::Backing, |(_, at)| Field::Fabric(at))
}

fn too_wide(shop: &Shop, order: &Order, method: &Method, fabric: &Fabric, wide: TooWide) -> String {
    let TooWide { needed, usable } = wide;
    let what = format!(
        "\"{}\" can be used over {usable}, and the pennants are cut {needed} wide with their seams",
        fabric.code
    );
    match widest(shop, order, method, usable) {
        Some(widest) => {
            format!("{what}: ask for a width of {widest} or less at this drop, or choose a wider fabric")
        }
        None => format!("{what}: no width fits at this drop; choose a wider fabric"),
    }
}

/// The widest pennant in whole millimetres, at the order's drop and where the order
/// takes its sizes, whose cut width fits a usable width. The cut width only grows with
/// the width, so halving finds it, in at most as many steps as the width has bits.
fn widest(shop: &Shop, order: &Order, method: &Method, usable: Length) -> Option<Length> {
    let insertion = shop.bindings.get(order.binding).map_or(Length::ZERO, Binding::insertion);
    let fits = |width_mm: i64| {
        let width = Length::from_mm(width_mm);
        let (top_width, top_drop) = match order.size_at {
            SizeAt::TopEdge => (width, order.drop),
            SizeAt::BindingEdge => raise(width, order.drop, insertion),
        };
        triangle(top_width, top_drop, method.seam).width <= usable
    };
    let (mut fitting, mut beyond) = (0, usable.um() / 1_000 + 1);
    while beyond - fitting > 1 {
        let middle = i64::midpoint(fitting, beyond);
        if fits(middle) {
            fitting = middle;
        } else {
            beyond = middle;
        }
    }
    Some(Length::from_mm(fitting)).filter(|width| bounds::WIDTH.least <= *width)
}
