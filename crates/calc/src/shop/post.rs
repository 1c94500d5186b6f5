//! How parcels leave: formats, services, folding, and what customs want to know.

use pennantry_measure::{Length, Mass, Money, Percent};

use super::Day;

/// How a string is folded and wrapped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Folding {
    /// Air between layers, as a share of their thickness.
    pub loft: Percent,
    /// Most panels that a stack of pennants is folded into along its drop, at least 1.
    pub most_panels: u32,
    /// What wrapping adds to each side of the folded string, in length and width.
    pub wrap: Length,
    /// What wrapping adds to its thickness, both sides together.
    pub wrap_thickness: Length,
    /// How far real cloth may be off its stated mass, either way.
    pub mass_tolerance: Percent,
}

/// What a postal format allows. Sizes are tested in any order of their sides.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Format {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// What is measured.
    pub kind: FormatKind,
    /// Greatest size, longest side first; for a roll length, diameter, diameter.
    pub most: [Length; 3],
    /// Least size, longest side first; 0 where there is none.
    pub least: [Length; 3],
    /// Greatest sum: of three sides for a flat or a box, of length and twice the
    /// diameter for a roll.
    pub most_sum: Option<Length>,
    /// Greatest length and girth, the girth being twice the two shorter sides.
    pub most_girth: Option<Length>,
    /// Least sum for a roll: length and twice the diameter.
    pub least_sum: Option<Length>,
    /// Length at least so much of the width: 140 % where it must be 1.4 times.
    pub least_ratio: Option<Percent>,
    /// Greatest mass.
    pub most_mass: Option<Mass>,
}

/// What is measured of a format.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FormatKind {
    /// Length, width and thickness.
    Flat,
    /// Length, width and height.
    Box,
    /// Length and diameter.
    Roll,
}

/// A postal service.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Service {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// Countries it goes to, ISO 3166-1 codes. Never empty.
    pub countries: Vec<String>,
    /// Least and most working days of the carrier from posting to arrival.
    pub transit: (u32, u32),
    /// Days of the week on which it carries, Monday first.
    pub week: [bool; 7],
    /// Days on which it does not, in order.
    pub closed: Vec<Day>,
    /// How a bulky parcel counts, where it does.
    pub volumetric: Option<Volumetric>,
    /// What it takes, the preferred first: each with its format and greatest mass.
    pub bands: Vec<Band>,
}

/// A weight band of a service: up to and including its greatest mass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Band {
    /// Place of the format.
    pub format: usize,
    /// Greatest mass.
    pub most: Mass,
    /// What the shop pays for it, before tax.
    pub price: Money,
}

/// How a bulky parcel counts for more than it weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Volumetric {
    /// Cubic centimetres that count as a kilogram.
    pub divisor: u32,
    /// How each side is rounded to whole centimetres first.
    pub sides: SideRounding,
    /// Step to which the mass counted is taken up.
    pub step: Mass,
    /// Volume in cubic centimetres up to which size does not count.
    pub threshold: u32,
    /// Whether the real mass is taken up to the step too.
    pub step_real: bool,
}

/// How a side is rounded to whole centimetres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SideRounding {
    /// Not at all.
    Exact,
    /// To the nearest, a half up.
    Nearest,
    /// Up.
    Up,
}

/// What customs want to know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Customs {
    /// The shop's own country, ISO 3166-1.
    pub country: String,
    /// Country of origin of the goods, ISO 3166-1.
    pub origin: String,
    /// Tariff heading of sewn textile bunting, such as "6307.90".
    pub code: String,
}
