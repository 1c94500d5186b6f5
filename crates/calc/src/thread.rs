//! Thread, by the length of a stitch, the layers it holds and what is wasted.

use pennantry_measure::{Length, Mass, Money};

/// The thread of all strings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ThreadUse {
    /// What is sewn, seam by seam.
    pub seams: Vec<SeamUse>,
    /// Needle and bobbin thread together, waste in it.
    pub length: Length,
    /// Mass of what stays in the strings.
    pub mass: Mass,
    /// What it costs, before tax.
    pub cost: Money,
}

/// One kind of seam.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SeamUse {
    /// What is sewn.
    pub kind: SeamKind,
    /// Length of seam.
    pub seam: Length,
    /// Thickness of what it holds.
    pub thickness: Length,
    /// Thread in it, without waste.
    pub thread: Length,
    /// Stitches, up to the next whole one.
    pub stitches: u64,
}

/// What is sewn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeamKind {
    /// Binding along the gaps and tails.
    BindingAlone,
    /// Binding with a pennant's top in it.
    BindingOverPennants,
    /// Sides of two-layer pennants.
    Sides,
    /// Round letters.
    Letters,
}
pub fn thread(
    _: &crate::shop::Shop,
    _: &crate::order::Order,
    _: &crate::layout::Layout,
    _: &crate::outline::Finished,
    _: &[crate::cutting::ClothUse],
) -> ThreadUse {
    ThreadUse { seams: vec![], length: Length::ZERO, mass: Mass::ZERO, cost: Money::ZERO }
}
