//! What the strings weigh, part by part.
//!
//! | figure | formula |
//! |---|---|
//! | cloth of one fabric | its mass per area × what of it stays in the strings |
//! | binding | its mass per length × what stays in the strings |
//! | thread, trimmings, sundries | as they were counted |
//! | net | the sum of these parts, packing left out |
//! | packed | net + packing |
//! | least, most | packed, its cloth and binding × (1 − tolerance), × (1 + tolerance) |
//!
//! What stays in the strings is the cut outline times the pieces needed: spares and
//! scraps stay on the bench, seams are sewn in. Every part is rounded by itself to the
//! nearest milligram, a half up, and the sums are sums of the rounded parts; so the
//! parts always add up to the net mass.
//!
//! The tolerance is on what is bought by its mass per area or length: cloth and binding
//! are dealt in with ± 5 % of it (common practice, no source; the share is the shop's).
//!
//! **Example.** 29 pennants of 190 × 210 mm, one layer each of 140 g/m², are
//! `29 · 190 · 210 / 2 = 578 550 mm²` and weigh 81.0 g; 6.82 m of binding at 6.0 g/m
//! weigh 40.9 g; together 121.9 g (derived).
//!
//! **Conversions.** An ounce is 28.349 523 125 g and a yard 0.9144 m, both exactly
//! (international yard and pound agreement, 1959). So an ounce a square yard is
//! 33.906 g/m². The jute trade says "ounces" for a yard of cloth 40 inches wide, which
//! is a larger area: ten of its ounces are 305 g/m² and not 339. Ask which is meant.

use pennantry_measure::{Area, Length, Mass, MassPerArea, MassPerLength, Percent, Rounding, divide};

use crate::order::Order;
use crate::shop::{Fabric, Shop};
use crate::sundries::{Used, UsedKind};

#[cfg(test)]
mod tests;

/// Millionths of a milligram in an ounce.
const OUNCE: i128 = 28_349_523_125;
/// Thousand-millionths of a square metre in a square yard, `0.9144²`.
const SQUARE_YARD: i128 = 836_127_360;
/// Thousand-millionths of a square metre in a yard of cloth 40 inches wide, `0.9144 · 1.016`.
const JUTE_YARD: i128 = 929_030_400;

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

/// What all strings of an order weigh.
///
/// `finished_area_of` names for each fabric the cloth that stays in all strings: the
/// pieces needed, without spares, times the area of the cut outline. A fabric may be
/// named more than once, for pennants and for letters; its areas are added before they
/// are weighed. `binding_cut` is what stays in all strings, turn-unders and all;
/// `thread` what stays in of the thread.
///
/// Parts stand in the order cloth, binding, thread, then `used` as given.
pub fn masses(
    shop: &Shop,
    order: &Order,
    finished_area_of: &[(usize, Area)],
    binding_cut: Length,
    thread: Mass,
    used: &[Used],
) -> Masses {
    let mut parts = cloth(shop, finished_area_of);
    let binding = shop.bindings.get(order.binding).map_or(Mass::ZERO, |binding| {
        // half up: a mass that is told
        binding.mass.of(binding_cut, Rounding::HalfUp)
    });
    parts.push(Part { kind: PartKind::Binding, mass: binding });
    let materials: Mass = parts.iter().map(|part| part.mass).sum();
    parts.push(Part { kind: PartKind::Thread, mass: thread });
    parts.extend(used.iter().filter(|used| !used.packing).map(|used| Part {
        kind: match used.kind {
            UsedKind::Sundry(place) => PartKind::Sundry(place),
            UsedKind::Trimming(place) => PartKind::Trimming(place),
        },
        mass: used.mass,
    }));
    let net: Mass = parts.iter().map(|part| part.mass).sum();
    let packing: Mass = used.iter().filter(|used| used.packing).map(|used| used.mass).sum();
    let packed = net + packing;
    let (least, most) = spread(materials, shop.folding.mass_tolerance);
    let others = packed - materials;
    Masses { parts, net, packing, packed, least: others + least, most: others + most }
}

/// One part a fabric, in the order in which they are first named.
fn cloth(shop: &Shop, areas: &[(usize, Area)]) -> Vec<Part> {
    let mut added: Vec<(usize, i128)> = Vec::new();
    for (place, area) in areas {
        match added.iter_mut().find(|(named, _)| named == place) {
            Some((_, sum)) => *sum += area.um2(),
            None => added.push((*place, area.um2())),
        }
    }
    let weighed = added.into_iter().map(|(place, area)| {
        let mass = shop.fabrics.get(place).map_or(Mass::ZERO, |fabric| of_washed(fabric, area));
        Part { kind: PartKind::Cloth(place), mass }
    });
    weighed.collect()
}

/// What an area of a cloth weighs as it is cut, to the nearest milligram, a half up. Its
/// mass is stated as it is bought; what shrinks in the wash gets heavier by what it loses,
/// `1 / ((1 − across) (1 − along))`.
fn of_washed(fabric: &Fabric, area: i128) -> Mass {
    let whole = i128::from(Percent::WHOLE.milli());
    let left = |loss: Percent| (whole - i128::from(loss.milli())).max(1);
    let parts = i128::from(fabric.mass.mg_per_m2()).saturating_mul(area).saturating_mul(whole * whole);
    let of = left(fabric.shrink_across) * left(fabric.shrink_along) * 1_000_000_000_000;
    Mass::from_mg(i64::try_from(divide(parts, of, Rounding::HalfUp)).unwrap_or(i64::MAX))
}

/// The least and the most of a mass that may be off by a share of itself, each to the
/// nearest milligram, a half up.
///
/// ```
/// use pennantry_calc::mass::spread;
/// use pennantry_measure::{Mass, Percent};
/// let (least, most) = spread(Mass::from_grams(140), Percent::from_milli(5_000));
/// assert_eq!((least, most), (Mass::from_grams(133), Mass::from_grams(147)));
/// ```
pub fn spread(mass: Mass, tolerance: Percent) -> (Mass, Mass) {
    let whole = Percent::WHOLE.milli();
    let share = |milli: i64| mass.share(Percent::from_milli(milli), Rounding::HalfUp);
    (share(whole - tolerance.milli()), share(whole + tolerance.milli()))
}

/// Mass per area from thousandths of an ounce a square yard, to the nearest mg/m².
///
/// ```
/// use pennantry_calc::mass::from_ounces;
/// // 10 and 12 ounces: 339.06 and 406.87 g/m²
/// assert_eq!(from_ounces(10_000).mg_per_m2(), 339_057);
/// assert_eq!(from_ounces(12_000).mg_per_m2(), 406_869);
/// ```
pub fn from_ounces(milli_ounces: i64) -> MassPerArea {
    per_area(milli_ounces, SQUARE_YARD)
}

/// Mass per area from thousandths of an ounce of the jute trade, which weighs a yard of
/// cloth 40 inches wide, to the nearest mg/m².
///
/// ```
/// use pennantry_calc::mass::from_jute_ounces;
/// assert_eq!(from_jute_ounces(10_000).mg_per_m2(), 305_152);
/// ```
pub fn from_jute_ounces(milli_ounces: i64) -> MassPerArea {
    per_area(milli_ounces, JUTE_YARD)
}

/// Thousandths of an ounce a square yard, to the nearest.
///
/// ```
/// use pennantry_calc::mass::to_ounces;
/// use pennantry_measure::MassPerArea;
/// assert_eq!(to_ounces(MassPerArea::from_mg_per_m2(180_000)), 5_309);
/// ```
pub fn to_ounces(mass: MassPerArea) -> i64 {
    narrow(divide(i128::from(mass.mg_per_m2()) * SQUARE_YARD, OUNCE, Rounding::HalfUp))
}

/// What a running metre of a cloth weighs, to the nearest microgram.
///
/// ```
/// use pennantry_calc::mass::per_running_metre;
/// use pennantry_measure::{Length, MassPerArea};
/// // 100 g/m², 1.5 m wide: 150 g
/// let metre = per_running_metre(MassPerArea::from_mg_per_m2(100_000), Length::from_mm(1_500));
/// assert_eq!(metre.ug_per_m(), 150_000_000);
/// ```
pub fn per_running_metre(mass: MassPerArea, width: Length) -> MassPerLength {
    // milligrams a square metre times micrometres: thousandths of a microgram a metre
    let product = i128::from(mass.mg_per_m2()) * width.wide();
    MassPerLength::from_ug_per_m(narrow(divide(product, 1_000, Rounding::HalfUp)))
}

fn per_area(milli_ounces: i64, area: i128) -> MassPerArea {
    let mg = divide(i128::from(milli_ounces) * OUNCE, area, Rounding::HalfUp);
    MassPerArea::from_mg_per_m2(narrow(mg))
}

fn narrow(wide: i128) -> i64 {
    i64::try_from(wide).unwrap_or(if wide < 0 { i64::MIN } else { i64::MAX })
}
