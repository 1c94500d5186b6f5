//! The binding: from which rolls and offcuts, or from which cloth, and where its joins
//! hide.
//!
//! | figure | formula |
//! |---|---|
//! | cut for one string | `binding cut / (1 − shrink)`, up |
//! | strings off a roll, an offcut or a strip | `⌊length / cut⌋` |
//! | a join loses: straight, mitred, slanted | `2 e`, one strip width `b`, `2 √2 e` |
//! | `n` strips of a usable width `W` give | `n W − (n − 1) loss` |
//! | a whole roll is no dearer from | `price of the roll / price a metre` |
//! | whole turns of a square `Q` on the bias | `k = ⌊(Q − 2 e) / (√2 b)⌋` |
//! | they give | `√2 k (Q − 2 e)`, down |
//! | and never more than | `(Q − 2 e)² / b` |
//!
//! with `e` the seam of a join and `b` the width of a strip as it lies when it is joined:
//! the strip as cut where it comes from a cloth, twice the flat width where it is bought
//! folded with its turnings meeting in the middle.
//!
//! **Sources.** A mitred join of square ends loses one strip width: common practice, no
//! source (two strips 3 by 10 in give 17 in, by paper trial). Slanted ends and whole
//! turns are derived: a seam `e` deep is `√2 e` long along a strip at 45°, and there are
//! two of them; the first seam of the tube takes `2 e` off its height, the second `2 e`
//! off its way round. The area form is an upper bound only: what is left beside whole
//! turns is narrower than a strip.
//!
//! # Bought
//! Offcuts come first: the smallest that holds a whole string, as many strings as it
//! holds, then the next. Rolls give the rest. A string is joined only where it is longer
//! than a roll; then pieces follow each other off the rolls. Offcuts are worth what they
//! would cost by the metre. Rolls are paid the cheapest of three ways: all by the metre,
//! all whole, or all but the last whole and the rest by the metre.
//!
//! # Straight
//! Strips across the usable width, as the wash leaves it. They are joined to one ribbon in
//! the same way.
//!
//! # Joins
//! A join goes behind a pennant, as near that pennant's middle as can be, not nearer to
//! the string's middle than the bench wants, and with no piece shorter than it wants. Of
//! such places the one that cuts off least is taken; what is cut off is set aside, not
//! used in the same order. Where there is no such place, a join goes behind a pennant near
//! the middle; where there is none, it shows; and a notice says so.
//!
//! # Bias
//! Squares, one after the other along the cloth: one square of the least side where one
//! does, else as many as needed as large as the cloth lets them be, and a last one of the
//! least side for the rest. Two seams of the tube cross the strip in every turn, at 45°.
//! Where they fall depends on where the first cut is made, so they are counted (one less
//! than two a turn, and one between squares) and not placed. [`BindingUse::join_loss`] is
//! what a join between squares loses; the seams of the tube are in the yield.
//!
//! # Worked example
//! 100 m of a binding 50 wide, seams of 6, from a cloth of 1 100. A square of 1 100 gives
//! `⌊1 088 / 70.711⌋ = 15` turns of `1 538.664`, 23 079.96; a join between squares loses
//! 16.971. Four such squares and a join each give 92 251.96. The rest, 7 748.04, takes
//! `√(7 748.04 / 100) = 8.8`, so nine turns: `9 · 70.711 + 12 = 648.397`. Cloth:
//! `4 · 1 100 + 648.397 = 5 048.397`; with 20 of squaring and steps of 100, 5 100.

mod bought;
mod cut;
mod formulas;
mod joins;
#[cfg(test)]
mod tests;
mod told;

use pennantry_measure::{Length, Money};

use crate::layout::Layout;
use crate::notice::Notice;
use crate::order::{Field, Order, Reason, Violation};
use crate::shop::{BindingSource, Shop, StripGrain};

pub use bought::break_even;
pub use formulas::{
    after_wash, area_length, before_wash, continuous_length, continuous_side, full_strips, half_squares,
    join_loss, joined, opened, raw_double_fold, raw_single_fold, rectangle_length, rectangle_side, spiral,
    spiral_seams, spiral_side, square_side, strip_mass, strips,
};

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

impl BindingUse {
    /// Joins as they are sewn: of a spiral the two long seams of each tube, however often
    /// its strip crosses them, and one between tubes.
    pub fn sewn_joins(&self) -> u32 {
        match self.supply {
            Supply::Bought { .. } | Supply::Straight { .. } => self.joins,
            Supply::Bias { squares, .. } => squares.saturating_mul(3).saturating_sub(1),
        }
    }
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
        /// Squares, the last one among them.
        squares: u32,
        /// Side of a square.
        side: Length,
        /// Whole turns round each square.
        turns: u32,
        /// The last square, where it is smaller than the others.
        last: Option<LastSquare>,
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

/// A last square that is smaller than the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LastSquare {
    /// Its side.
    pub side: Length,
    /// Whole turns round it.
    pub turns: u32,
}

/// The binding of all strings of an order, laid out.
///
/// A binding that is cut from a cloth is cut from the cloth once that is washed; its own
/// shrinkage is that of a strip which is washed again before it is sewn.
///
/// # Errors
/// - [`Field::Binding`], does not fit: the cloth or the roll does not give a strip or a
///   square that can be used;
/// - [`Field::Quantity`], out of range: it takes more joins than one order can take;
/// - [`Field::Binding`], unknown code: the binding, or its cloth, is not in the catalogue.
pub fn binding(shop: &Shop, order: &Order, layout: &Layout) -> Result<BindingUse, Vec<Violation>> {
    let unknown = |what: &str| {
        let message = format!("{what} is not in the catalogue of {}: choose another binding", shop.name);
        vec![Violation::new(Field::Binding, Reason::UnknownCode, message)]
    };
    let binding = shop.bindings.get(order.binding).ok_or_else(|| unknown("this binding"))?;
    match &binding.source {
        BindingSource::Bought { price, roll, offcuts } => {
            let sale = bought::Sale { price: *price, roll: *roll, offcuts };
            bought::bought(shop, order, binding, sale, layout)
        }
        BindingSource::Cloth { fabric: place, raw, grain } => {
            let fabric = shop.fabrics.get(*place).ok_or_else(|| unknown("the cloth of this binding"))?;
            let from = cut::From { place: *place, fabric, raw: (*raw).max(Length::from_um(1)) };
            match grain {
                StripGrain::Straight => cut::straight(shop, order, binding, from, layout),
                StripGrain::Bias => cut::bias(shop, order, binding, from, layout),
            }
        }
    }
}
