//! What the strings weigh, part by part.

use pennantry_measure::Mass;

/// What the strings weigh, for all of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Masses {
    /// Parts of the net mass; they sum to it.
    pub parts: Vec<Part>,
    /// The strings without packing.
    pub net: Mass,
    /// Packing.
    pub packing: Mass,
    /// The strings as posted.
    pub packed: Mass,
    /// The least that may be on the scales as posted, by the tolerance of the materials.
    pub least: Mass,
    /// The most that may be on the scales as posted.
    pub most: Mass,
}

/// One part of the net mass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Part {
    /// What it is.
    pub kind: PartKind,
    /// What it weighs.
    pub mass: Mass,
}

/// What a part of the net mass is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartKind {
    /// Cloth of one fabric, by its place in the shop: pennants, letters and web.
    Cloth(usize),
    /// Binding.
    Binding,
    /// Thread that stays in.
    Thread,
    /// A trimming, by its place in the shop.
    Trimming(usize),
    /// A sundry, by its place in the shop.
    Sundry(usize),
}
pub fn masses(
    _: &crate::shop::Shop,
    _: &crate::order::Order,
    _: &[(usize, pennantry_measure::Area)],
    _: pennantry_measure::Length,
    _: Mass,
    _: &[crate::sundries::Used],
) -> Masses {
    Masses {
        parts: vec![],
        net: Mass::ZERO,
        packing: Mass::ZERO,
        packed: Mass::ZERO,
        least: Mass::ZERO,
        most: Mass::ZERO,
    }
}
