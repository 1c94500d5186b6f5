//! What is posted: how the strings fold, which format and service take them.

use pennantry_measure::{Length, Mass, Money};

/// The parcel that holds all strings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Parcel {
    /// How the strings fold.
    pub fold: Fold,
    /// The size as posted, longest side first.
    pub size: [Length; 3],
    /// Place of the service.
    pub service: usize,
    /// Place of the band in the service.
    pub band: usize,
    /// Place of the format.
    pub format: usize,
    /// Mass counted: the real one, or that which the size counts for.
    pub counted: Mass,
    /// What is left to the greatest mass of the band.
    pub to_edge: Mass,
    /// What the shop pays for it, before tax.
    pub postage: Money,
}

/// How strings fold: pennants on each other, the stack folded into panels along its drop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fold {
    /// Panels along the drop.
    pub panels: u32,
    /// Across the stack.
    pub width: Length,
    /// Along the drop, folded.
    pub length: Length,
    /// All layers with the air between them.
    pub thickness: Length,
}
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{message}")]
pub struct NoService {
    pub message: String,
}
pub fn parcel(
    _: &crate::shop::Shop,
    _: &crate::order::Order,
    _: &crate::layout::Layout,
    _: &crate::mass::Masses,
) -> Result<Parcel, NoService> {
    Err(NoService { message: String::new() })
}
pub fn notices(
    _: &crate::shop::Shop,
    _: &crate::order::Order,
    _: &crate::mass::Masses,
    _: &Result<Parcel, NoService>,
) -> Vec<crate::notice::Notice> {
    vec![]
}
