//! What customs want to know.

use pennantry_measure::Mass;

/// What the declaration says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Declaration {
    /// The goods in words that a customs officer accepts.
    pub description: String,
    /// Tariff heading.
    pub code: String,
    /// Why that heading and not another.
    pub reason: String,
    /// Country of origin.
    pub origin: String,
    /// How many strings.
    pub strings: u32,
    /// Net mass.
    pub net: Mass,
    /// Gross mass, packing and all.
    pub gross: Mass,
}
pub fn declaration(
    _: &crate::shop::Shop,
    _: &crate::order::Order,
    _: &crate::layout::Layout,
    masses: &crate::mass::Masses,
) -> Declaration {
    Declaration {
        description: String::new(),
        code: String::new(),
        reason: String::new(),
        origin: String::new(),
        strings: 1,
        net: masses.net,
        gross: masses.packed,
    }
}
