//! What an order needs of each material.
//!
//! Items are numbered from nought in this order: the cloth of the quote, use by use; the
//! binding; what is used up by the piece. A binding that is cut from a cloth needs one length
//! of that cloth at its full width, as long as the quote charges. A bought one needs a *run* for
//! each string, or where a string is joined, for each piece between two joins:
//!
//! ```text
//! run = (join − join before + loss of the join) / (1 − shrink), up; the last one without a loss
//! ```
//!
//! Where a quote does not list every join, its runs are rolls' lengths and a rest, which add up
//! to what is taken.

use pennantry_calc::binding::{BindingUse, Supply, before_wash};
use pennantry_calc::cutting::Role;
use pennantry_calc::order::Order;
use pennantry_calc::quote::Worked;
use pennantry_calc::shelf::Need;
use pennantry_calc::shop::{Binding, BindingSource, Shop};
use pennantry_calc::sundries::UsedKind;
use pennantry_ledger::rules::{Class, Material};
use pennantry_measure::Length;

/// One thing that an order needs.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Its number.
    pub number: u32,
    /// Of which material.
    pub material: Material,
    /// The material's name, for people.
    pub name: String,
    /// What it is for: "pennants", "letters", "web", "binding", or the code of what is used up
    /// by the piece.
    pub purpose: String,
    /// How much.
    pub wanted: Wanted,
    /// The most new length that may be taken: what was charged.
    pub charged: Length,
}

impl Item {
    /// The area of one shape that is cut of it, seams and all, in square micrometres: of a length that
    /// is cut into strips, that of all strips; nought where there is none.
    pub fn shape_area(&self) -> i64 {
        match &self.wanted {
            Wanted::Cloth(need) => square_um(need.job.outline.area().um2()),
            Wanted::Across { strips, .. } => *strips,
            Wanted::Runs(_) | Wanted::Count(_) => 0,
        }
    }
}

/// An area as stock keeps it; one beyond what that can be is not known.
fn square_um(area: i128) -> i64 {
    i64::try_from(area).unwrap_or(0)
}

/// How much of a material is needed, and in which form.
#[derive(Debug, Clone, PartialEq)]
pub enum Wanted {
    /// Pieces cut from cloth.
    Cloth(Box<Need>),
    /// One length of cloth at least so wide.
    Across {
        /// Length.
        length: Length,
        /// Least width.
        width: Length,
        /// The area of the strips of it that are sewn in, in square micrometres.
        strips: i64,
    },
    /// Runs off rolls.
    Runs(Vec<Length>),
    /// Things by number.
    Count(u32),
}

/// What was charged of an item when it was sold, where that is known better than from today's
/// quote.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Charged {
    /// Code of the material.
    pub code: String,
    /// What it is for.
    pub purpose: String,
    /// How much.
    pub charged: Length,
}

/// What an order needs.
pub fn needs(shop: &Shop, order: &Order, worked: &Worked) -> Vec<Item> {
    let mut items = Vec::with_capacity(worked.cloth.len() + worked.used.len() + 1);
    let mut add = |class, code: &str, name: &str, purpose: &str, wanted, charged| {
        let number = u32::try_from(items.len()).unwrap_or(u32::MAX);
        let material = Material { class, code: code.to_owned() };
        let (name, purpose) = (name.to_owned(), purpose.to_owned());
        items.push(Item { number, material, name, purpose, wanted, charged });
    };
    for used in &worked.cloth {
        let (Some(fabric), Some(need)) = (shop.fabrics.get(used.fabric), Need::new(shop, used)) else {
            continue;
        };
        let purpose = match used.role {
            Role::Pennants => "pennants",
            Role::Letters => "letters",
            Role::Web => "web",
        };
        let wanted = Wanted::Cloth(Box::new(need));
        add(Class::Cloth, &fabric.code, &fabric.name, purpose, wanted, used.charged);
    }
    if let Some(binding) = shop.bindings.get(order.binding) {
        match &worked.binding.supply {
            Supply::Bought { .. } => {
                let runs = runs(binding, &worked.binding, order.quantity);
                let charged = runs.iter().copied().sum();
                add(Class::Binding, &binding.code, &binding.name, "binding", Wanted::Runs(runs), charged);
            }
            Supply::Straight { fabric, charged, raw, .. } | Supply::Bias { fabric, charged, raw, .. } => {
                if let Some(fabric) = shop.fabrics.get(*fabric) {
                    let strips = square_um(worked.binding.net.wide() * raw.wide());
                    let wanted = Wanted::Across { length: *charged, width: fabric.usable_width, strips };
                    add(Class::Cloth, &fabric.code, &fabric.name, "binding", wanted, *charged);
                }
            }
        }
    }
    for used in &worked.used {
        let named = match used.kind {
            UsedKind::Sundry(place) => shop.sundries.get(place).map(|sundry| (&sundry.code, &sundry.name)),
            UsedKind::Trimming(place) => {
                shop.trimmings.get(place).map(|trimming| (&trimming.code, &trimming.name))
            }
        };
        if let Some((code, name)) = named {
            add(Class::Sundry, code, name, code, Wanted::Count(used.count), Length::ZERO);
        }
    }
    items
}

/// Runs of a bought binding.
fn runs(binding: &Binding, used: &BindingUse, strings: u32) -> Vec<Length> {
    let joins = usize::try_from(used.joins).unwrap_or(usize::MAX);
    if joins == 0 {
        return vec![used.cut; usize::try_from(strings).unwrap_or(0)];
    }
    if used.places.len() != joins {
        return rolls(binding, used.taken);
    }
    let sewn = pennantry_calc::binding::after_wash(used.cut, binding.shrink);
    let mut runs = Vec::new();
    for string in 0..strings {
        let (mut from, mut joined) = (Length::ZERO, false);
        for place in used.places.iter().filter(|place| place.string == string) {
            runs.push(before_wash(place.at - from + used.join_loss, binding.shrink));
            (from, joined) = (place.at, true);
        }
        runs.push(if joined { before_wash(sewn - from, binding.shrink) } else { used.cut });
    }
    runs
}

/// A length in whole rolls and a rest.
fn rolls(binding: &Binding, taken: Length) -> Vec<Length> {
    let BindingSource::Bought { roll, .. } = &binding.source else { return vec![taken] };
    let (mut left, mut runs) = (taken, Vec::new());
    while left > roll.length && roll.length > Length::ZERO {
        runs.push(roll.length);
        left = left - roll.length;
    }
    runs.push(left);
    runs
}
