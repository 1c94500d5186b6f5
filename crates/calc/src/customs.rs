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
