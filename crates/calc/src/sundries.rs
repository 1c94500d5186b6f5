//! What is used up by the piece: labels, trimmings, packaging.

use pennantry_measure::{Mass, Money};

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
pub fn used(_: &crate::shop::Shop, _: &crate::order::Order, _: &crate::layout::Layout) -> Vec<Used> {
    vec![]
}
