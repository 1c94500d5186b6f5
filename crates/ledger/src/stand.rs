//! How a shop stands with each material, as of one instant: what a report of burn rates begins with.
//!
//! ```text
//! free = on hand - held - confirmed        held: by holds whose time is not over
//! ```
//!
//! An engine reads the shelf, the open orders, what is short and who sent what in one look; here it
//! is put together. The ledger knows no time zone: orders say the instant at which they were
//! placed, and the caller makes the shop's day of it.

use std::collections::{BTreeMap, BTreeSet};

use pennantry_measure::Length;

use crate::rules::{Amount, At, Material, Order, OrderId, PieceId, PieceKind, State};
use crate::shelf::{OnShelf, Shelf};

/// How a shop stands.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Stand {
    /// As of when.
    pub at: At,
    /// Every material of which there is anything to say.
    pub materials: BTreeMap<Material, Standing>,
}

/// How it stands with a material.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Standing {
    /// What lies there.
    pub on_hand: Amount,
    /// What of it is held, by holds whose time is not over.
    pub held: Amount,
    /// What of it is confirmed and not cut yet.
    pub confirmed: Amount,
    /// What is confirmed and does not lie there.
    pub short: Amount,
    /// What is held, by holds whose time is not over, and does not lie there.
    pub held_short: Amount,
    /// What of it nobody was promised.
    pub free: Amount,
    /// What lies there, lot by lot.
    pub lots: Vec<Lot>,
    /// What is on order, the earliest expected first.
    pub open: Vec<OpenLine>,
    /// Who sent some of it, or is to, in the order of their names.
    pub suppliers: Vec<String>,
}

/// A dye lot on the shelf.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Lot {
    /// Its name; empty where it is not known.
    pub lot: String,
    /// The longest clear length of any of its pieces that nobody was promised.
    pub longest: Amount,
    /// Its pieces, that with the longest clear length first.
    pub pieces: Vec<Lying>,
}

/// A piece on the shelf.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lying {
    /// The piece.
    pub id: PieceId,
    /// What it is.
    pub kind: PieceKind,
    /// Its usable width.
    pub width: Length,
    /// What lies on it.
    pub left: Amount,
    /// What of that nobody was promised.
    pub free: Amount,
    /// The longest clear length of it that nobody was promised.
    pub longest: Amount,
}

/// A line of an order on which something is still to come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenLine {
    /// Who is to send it.
    pub supplier: String,
    /// The order.
    pub order: OrderId,
    /// When it was placed.
    pub placed: At,
    /// Numbered day on which it is expected.
    pub expected_day: i32,
    /// How much was ordered.
    pub ordered: Amount,
    /// How much of that has come.
    pub received: Amount,
}

/// What is wanted of a material and not there.
#[derive(Debug, Clone)]
pub(crate) struct Missing {
    pub material: Material,
    /// Of whose reservation: held or confirmed.
    pub state: State,
    /// When the hold's time is over.
    pub expires: At,
    pub amount: Amount,
}

/// What was read in one look.
#[derive(Debug, Default)]
pub(crate) struct Read {
    pub shelf: Shelf,
    pub open: Vec<Order>,
    pub missing: Vec<Missing>,
    pub suppliers: Vec<(Material, String)>,
}

/// Puts together how it stands at an instant.
pub(crate) fn stand(read: &Read, now: At) -> Stand {
    let mut materials: BTreeMap<Material, Standing> = BTreeMap::new();
    for (material, pieces) in &read.shelf.materials {
        let standing = materials.entry(material.clone()).or_default();
        let mut lots: BTreeMap<&str, Lot> = BTreeMap::new();
        for on_shelf in pieces.iter() {
            lie(standing, &mut lots, on_shelf, now);
        }
        standing.lots = lots.into_values().collect();
        for lot in &mut standing.lots {
            lot.pieces.sort_by(|one, other| (other.longest, &one.id).cmp(&(one.longest, &other.id)));
        }
        standing.free = standing.on_hand - standing.held - standing.confirmed;
    }
    for missing in &read.missing {
        let standing = materials.entry(missing.material.clone()).or_default();
        match missing.state {
            State::Confirmed => standing.short += missing.amount,
            State::Held if missing.expires > now => standing.held_short += missing.amount,
            _ => {}
        }
    }
    let mut suppliers: BTreeMap<Material, BTreeSet<&str>> = BTreeMap::new();
    for (material, supplier) in &read.suppliers {
        suppliers.entry(material.clone()).or_default().insert(supplier);
    }
    for order in &read.open {
        for line in order.lines.iter().filter(|line| line.outstanding().is_some()) {
            materials.entry(line.material.clone()).or_default().open.push(OpenLine {
                supplier: order.supplier.clone(),
                order: order.id.clone(),
                placed: order.at,
                expected_day: order.expected_day,
                ordered: line.ordered,
                received: line.received,
            });
            suppliers.entry(line.material.clone()).or_default().insert(&order.supplier);
        }
    }
    for (material, names) in suppliers {
        let names = names.into_iter().filter(|name| !name.is_empty()).map(str::to_owned).collect();
        materials.entry(material).or_default().suppliers = names;
    }
    for standing in materials.values_mut() {
        standing.open.sort_by(|one, other| {
            (one.expected_day, one.placed, &one.order).cmp(&(other.expected_day, other.placed, &other.order))
        });
    }
    Stand { at: now, materials }
}

fn lie<'a>(standing: &mut Standing, lots: &mut BTreeMap<&'a str, Lot>, on_shelf: &'a OnShelf, now: At) {
    let piece = &on_shelf.piece;
    standing.on_hand += piece.left;
    for promised in &on_shelf.promised {
        match promised.expires {
            None => standing.confirmed += promised.granted,
            Some(expires) if expires > now => standing.held += promised.granted,
            Some(_) => {}
        }
    }
    let longest = on_shelf.clear(now).first().copied().unwrap_or_default();
    let lot = lots.entry(&piece.lot).or_insert_with(|| Lot { lot: piece.lot.clone(), ..Lot::default() });
    lot.longest = lot.longest.max(longest);
    lot.pieces.push(Lying {
        id: piece.id.clone(),
        kind: piece.kind,
        width: piece.width,
        left: piece.left,
        free: on_shelf.free(now),
        longest,
    });
}
