//! The least cloth that a string takes of a fabric: with less of it, nothing can be sold of it.
//!
//! | figure | rule |
//! |---|---|
//! | length | the least that a quote charges of the fabric for one pennant, over every design in every construction that it is offered in: squaring, spares, wash, repeat of a print and the step in which it is cut off in it ([`cloth`]); of cloth sold in pieces, a whole one |
//! | width | the least width of a length of it, however long, off which the shelf gives those pieces for one of them ([`plan`]) |
//!
//! A buyer may choose any design for any fabric, so all of them count; a pennant of a size of the
//! buyer's own may take less. What is begun is cut without the step, so a remnant a little
//! shorter than the length may still give one pennant: it is not reckoned with.
//!
//! [`cloth`]: pennantry_calc::cutting::cloth
//! [`plan`]: pennantry_calc::shelf::plan

use pennantry_calc::cutting::{Role, cloth};
use pennantry_calc::layout::solve;
use pennantry_calc::order::{Asked, AskedLength, Order, check};
use pennantry_calc::shelf::{Need, Stretch, plan};
use pennantry_calc::shop::{Construction, Design, Shop};
use pennantry_measure::Length;

/// Longer than any remnant that is kept, mm.
const LONG: Length = Length::from_mm(10_000);

/// The least cloth that a string takes of a fabric.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Least {
    /// Length that is charged.
    pub length: Length,
    /// Width without which no pennant can be cut.
    pub width: Length,
}

/// The least that a string takes of a fabric, given by its place in the shop; none where the
/// shop can make no pennant of it.
pub fn least(shop: &Shop, fabric: usize) -> Option<Least> {
    let made = shop.designs.iter().flat_map(|design| {
        design.constructions.iter().filter_map(move |construction| one(shop, design, *construction, fabric))
    });
    let made: Vec<(Length, Need)> = made.collect();
    let length = made.iter().map(|(charged, _)| *charged).min()?;
    let width = made.iter().filter_map(|(_, need)| width(need)).min()?;
    Some(Least { length, width })
}

/// What one pennant takes of a fabric, and what is cut for it; none where it is not made.
fn one(shop: &Shop, design: &Design, construction: Construction, fabric: usize) -> Option<(Length, Need)> {
    let asked = Asked {
        design: Some(design.code.clone()),
        construction: Some(construction),
        fabrics: vec![shop.fabrics.get(fabric)?.code.clone()],
        length: Some(AskedLength::Flagged(design.usual)),
        ..Asked::default()
    };
    let order: Order = check(shop, &asked, &[]).ok()?;
    let finished = solve(shop, &order).ok()?.finished(order.shape);
    let uses = cloth(shop, &order, &finished, &[(fabric, 1)]).ok()?;
    let used = uses.iter().find(|used| used.fabric == fabric && used.role == Role::Pennants)?;
    Some((used.charged, Need::new(shop, used)?))
}

/// The least width off which a need can be cut, to the millimetre above; none where not even
/// off the widest.
fn width(need: &Need) -> Option<Length> {
    let gives = |mm: i64| {
        let width = Length::from_mm(mm);
        let shelf = [Stretch { piece: 0, lot: 0, remnant: true, width, length: LONG }];
        plan(need, &shelf).is_ok_and(|plan| plan.missing == 0)
    };
    // more width never gives fewer pieces
    let (mut none, mut some) = (0, 20_000);
    if !gives(some) {
        return None;
    }
    while some - none > 1 {
        let middle = i64::midpoint(none, some);
        if gives(middle) { some = middle } else { none = middle }
    }
    Some(Length::from_mm(some))
}
