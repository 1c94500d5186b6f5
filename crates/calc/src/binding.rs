//! The binding: from which rolls and offcuts, or from which cloth, and where its joins
//! hide.

use pennantry_measure::{Length, Money};

use crate::notice::Notice;

/// The binding of all strings.
#[derive(Debug, Clone, PartialEq)]
pub struct BindingUse {
    /// Cut for one string, without joins.
    pub cut: Length,
    /// Cut for all strings, without joins.
    pub net: Length,
    /// What all strings take, with what their joins lose.
    pub taken: Length,
    /// Joins in all strings, or in the strips that a cloth gives.
    pub joins: u32,
    /// What each join loses.
    pub join_loss: Length,
    /// Where joins fall in the strings, the first so many.
    pub places: Vec<JoinPlace>,
    /// Where it comes from.
    pub supply: Supply,
    /// What it costs, before tax.
    pub cost: Money,
    /// What to look at.
    pub notices: Vec<Notice>,
    /// Steps of search taken: the same for the same order, always.
    pub steps: u64,
}

/// Where one join falls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct JoinPlace {
    /// The string, from 0.
    pub string: u32,
    /// From the left cut end of that string.
    pub at: Length,
    /// The pennant that hides it, from 0; none where it shows.
    pub behind: Option<u32>,
}

/// Where the binding of an order comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum Supply {
    /// Rolls and offcuts.
    Bought {
        /// Offcuts used up, as they lie on the shelf.
        offcuts: Vec<Length>,
        /// New rolls opened.
        rolls: u32,
        /// Whether whole rolls are bought, and not lengths cut off.
        whole_rolls: bool,
        /// Length paid for.
        paid: Length,
        /// Length from which a whole roll is the cheaper, where it has a price.
        break_even: Option<Length>,
    },
    /// Strips straight across a cloth.
    Straight {
        /// Place of the fabric.
        fabric: usize,
        /// Strips.
        strips: u32,
        /// Width of a strip.
        raw: Length,
        /// Cloth charged.
        charged: Length,
    },
    /// A spiral on the bias round squares of a cloth.
    Bias {
        /// Place of the fabric.
        fabric: usize,
        /// Squares.
        squares: u32,
        /// Side of a square.
        side: Length,
        /// Whole turns round each square.
        turns: u32,
        /// Width of a strip.
        raw: Length,
        /// What the squares give, by whole turns.
        yields: Length,
        /// What their area, seams off, would give at the most.
        bound: Length,
        /// Cloth charged.
        charged: Length,
    },
}
pub fn binding(
    shop: &crate::shop::Shop,
    order: &crate::order::Order,
    layout: &crate::layout::Layout,
) -> Result<BindingUse, Vec<crate::order::Violation>> {
    let net = layout.binding_cut * i64::from(order.quantity);
    let cost = match shop.bindings.get(order.binding).map(|b| &b.source) {
        Some(crate::shop::BindingSource::Bought { price, .. }) => {
            price.per_metre(net, pennantry_measure::Rounding::HalfUp)
        }
        _ => Money::ZERO,
    };
    Ok(BindingUse {
        cut: layout.binding_cut,
        net,
        taken: net,
        joins: 0,
        join_loss: Length::ZERO,
        places: vec![],
        supply: Supply::Bought { offcuts: vec![], rolls: 1, whole_rolls: false, paid: net, break_even: None },
        cost,
        notices: vec![],
        steps: 0,
    })
}
