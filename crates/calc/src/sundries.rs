//! What is used up by the piece: labels, trimmings, packaging.
//!
//! | what | how many |
//! |---|---|
//! | a sundry by the order | 1 |
//! | by the string | strings |
//! | by the pennant | pennants × strings |
//! | by the end | 2 × strings |
//! | by the letter | letters, without spaces, × strings |
//! | a trimming | its number on a pennant × pennants × strings |
//!
//! Cost and mass are whole multiples of those of one, so nothing is rounded. What
//! comes to nought is left out. Example: 2 strings of 29 pennants with one pompom each
//! take 58 pompoms; a bag an order is one bag for both.

use pennantry_measure::{Mass, Money, Rounding};

use crate::layout::Layout;
use crate::order::Order;
use crate::shop::{Driver, Shop};

#[cfg(test)]
mod tests;

/// One thing used up by the piece, for all strings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Used {
    /// What.
    pub kind: UsedKind,
    /// How many.
    pub count: u32,
    /// What all of them cost, before tax.
    pub cost: Money,
    /// What all of them weigh.
    pub mass: Mass,
    /// Whether they only pack.
    pub packing: bool,
}

/// A thing used up by the piece, by its place in the shop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UsedKind {
    /// A sundry.
    Sundry(usize),
    /// A trimming.
    Trimming(usize),
}

/// What all strings of an order use up: sundries in the shop's order, then trimmings in
/// the order's.
///
/// A sundry that is counted by something else than orders, strings, pennants, ends or
/// letters counts nought: the catalogue lets none through. A trimming that is named twice
/// is one line.
pub fn used(shop: &Shop, order: &Order, layout: &Layout) -> Vec<Used> {
    let pennants = i64::from(layout.count) * i64::from(order.quantity);
    let sundries = shop.sundries.iter().zip(0..).map(|(sundry, place)| {
        let count = count_of(sundry.driver, order, pennants);
        line(UsedKind::Sundry(place), count, sundry.price, sundry.mass, sundry.packing)
    });
    let trimmings = merged(&order.trimmings).into_iter().filter_map(|(place, each)| {
        let trimming = shop.trimmings.get(place)?;
        let count = each.saturating_mul(pennants);
        Some(line(UsedKind::Trimming(place), count, trimming.price, trimming.mass, false))
    });
    sundries.chain(trimmings).filter(|used| used.count > 0).collect()
}

fn count_of(driver: Driver, order: &Order, pennants: i64) -> i64 {
    let strings = i64::from(order.quantity);
    match driver {
        Driver::Order => 1,
        Driver::String => strings,
        Driver::Pennant => pennants,
        Driver::End => 2 * strings,
        Driver::Letter => order.letters.iter().flatten().map(|_| strings).sum(),
        Driver::Piece | Driver::Outline | Driver::Layer | Driver::Metre | Driver::Join | Driver::Trimming => {
            0
        }
    }
}

/// Trimmings of one kind together, in the order of their first mention.
fn merged(trimmings: &[(usize, u32)]) -> Vec<(usize, i64)> {
    let mut all: Vec<(usize, i64)> = Vec::with_capacity(trimmings.len());
    for (place, each) in trimmings {
        match all.iter_mut().find(|(known, _)| known == place) {
            Some((_, sum)) => *sum += i64::from(*each),
            None => all.push((*place, i64::from(*each))),
        }
    }
    all
}

fn line(kind: UsedKind, count: i64, price: Money, mass: Mass, packing: bool) -> Used {
    let count = u32::try_from(count).unwrap_or(u32::MAX);
    Used {
        kind,
        count,
        // a whole multiple: no part to round
        cost: price.scaled(count.into(), 1, Rounding::HalfUp),
        mass: mass * i64::from(count),
        packing,
    }
}
