//! What each day did with each material, by dye lot: what reports are made of.
//!
//! A roll-up is written in the transaction that writes the movements it sums up, so a report reads
//! some rows a material and day, however many movements there were. Every column but the last is a
//! sum, so an engine adds; the last is the latest of instants.
//!
//! | column | which movements | sign |
//! |---|---|---|
//! | `came` | from the supplier | + |
//! | `used` | to what is used, and back | + − |
//! | `spoiled`, `ends`, `flawed` | to what is spoiled, and back, by its reason; what is gone for such a reason | + − |
//! | `other` | whatever else is gone, found or counted | what it adds |
//! | `promised` | to what is confirmed, and from there | + − |
//! | `narrow` | onto the shelf from what was kept, less what was kept of the piece | + − |
//!
//! Squaring and end bits are `ends`, flaws cut out are `flawed`, and of what is gone, damage and
//! miscuts are `spoiled`, as everything else is that was cut and spoiled.
//!
//! A **remnant** of the full width leaves its piece and comes to one of its own, of the same
//! material, lot and day: `narrow` adds and takes the same. A narrower one comes out of what was
//! used, which makes nothing less: what it adds is length on the shelf that nothing took off, and
//! `narrow` says how much. So of each material and lot, over all days, exactly:
//!
//! ```text
//! on hand = came - used - spoiled - ends - flawed + other + narrow
//! ```
//!
//! **Areas**, of cloth alone, in square micrometres: `used_area` is the length that was used by the
//! width of its piece, less the area of narrower remnants, which counts once they are used
//! themselves. How much of it was waste can be told where the area of the shapes is known
//! ([`Line::shape_area`](super::Line)) in everything that a cut took of a piece: `drawn_area` is the used area of
//! those, `net_area` that of the shapes they gave.
//!
//! ```text
//! layout waste = (drawn area - net area) / drawn area
//! ```
//!
//! No piece counts as wider than [`MOST_WIDTH`], and the shapes of no part of a cut for more than
//! [`MOST_NET`]: so no product goes beyond the type, nor does what nine thousand such parts of one
//! day come to.
//!
//! A row is there for every day on which something moved, other than between free and held: holds
//! that come and go write none. **Late** is what was written for a day that was over.
//!
//! Bolt 10 m, 1.40 m wide, received. Of 3 m cut, 0.20 m is spoiled, 0.50 m is kept at full width and
//! a strip of 1 m by 0.30 m besides; ten shapes of 0.20 m² came of it:
//!
//! ```text
//! came 10   used 2.3   spoiled 0.2   narrow 1.0       on hand 10 - 2.3 - 0.2 + 1.0 = 8.5 = 7 + 0.5 + 1
//! used area 2.3 x 1.4 - 1 x 0.3 = 2.92 m²             net area 2.00 m²         waste 31.5 %
//! ```

use std::collections::{BTreeMap, BTreeSet};

use pennantry_measure::Length;

use super::{Account, Amount, At, Class, CutPart, Material, Movement, MovementKind, Piece, PieceId, Reason};

/// The width, ten metres, beyond which a piece counts as no wider.
pub const MOST_WIDTH: Length = Length::from_mm(10_000);

/// What the shapes of one part of a cut count for at most: a thousand square metres, more than any
/// bolt has.
pub const MOST_NET: i64 = 1_000_000_000_000_000;

/// What a day did with a material.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct DayUse {
    /// What came from suppliers.
    pub came: Amount,
    /// What was cut and used.
    pub used: Amount,
    /// What was spoiled, by miscuts, damage or otherwise.
    pub spoiled: Amount,
    /// Ends: squared off, or too short to keep.
    pub ends: Amount,
    /// What was cut out for flaws.
    pub flawed: Amount,
    /// What counts, finds, losses, samples, own use and sending back added, or took where it is
    /// below nought.
    pub other: Amount,
    /// What became confirmed, less what is so no longer.
    pub promised: Amount,
    /// Length of narrower remnants that came out of what was used.
    pub narrow: Amount,
    /// Cuts that used of it, less those taken back.
    pub cuts: i64,
    /// Area that was used, in square micrometres.
    pub used_area: i64,
    /// Area that was used by cuts of which the shapes' area is known.
    pub drawn_area: i64,
    /// Area of the shapes that those cuts gave.
    pub net_area: i64,
    /// When something was last written for it after it was over.
    pub late_at: Option<At>,
}

impl DayUse {
    /// What it adds to what is on hand.
    ///
    /// ```
    /// use pennantry_ledger::rules::{Amount, DayUse};
    /// let day = DayUse { came: Amount(100), used: Amount(23), spoiled: Amount(2), ..DayUse::default() };
    /// assert_eq!(DayUse { narrow: Amount(10), ..day }.on_hand(), Amount(85));
    /// ```
    pub fn on_hand(&self) -> Amount {
        self.came - self.used - self.wasted() + self.other + self.narrow
    }

    /// What was lost of it: spoiled, ends and flaws.
    pub fn wasted(&self) -> Amount {
        self.spoiled + self.ends + self.flawed
    }

    /// Adds another one: of another lot, another day, or another change.
    pub fn add(&mut self, other: &DayUse) {
        for ((_, here), (_, there)) in self.columns_mut().into_iter().zip(other.columns()) {
            *here = here.saturating_add(there);
        }
        self.late_at = self.late_at.max(other.late_at);
    }

    /// What has to be added to another one to make this one, the latest instant apart.
    pub fn less(&self, other: &DayUse) -> DayUse {
        let mut less = *self;
        for ((_, here), (_, there)) in less.columns_mut().into_iter().zip(other.columns()) {
            *here = here.saturating_sub(there);
        }
        less
    }

    /// Its sums by the names of their columns.
    pub fn columns(&self) -> [(&'static str, i64); 12] {
        let mut copy = *self;
        copy.columns_mut().map(|(name, sum)| (name, *sum))
    }

    fn columns_mut(&mut self) -> [(&'static str, &mut i64); 12] {
        [
            ("came", &mut self.came.0),
            ("used", &mut self.used.0),
            ("spoiled", &mut self.spoiled.0),
            ("ends", &mut self.ends.0),
            ("flawed", &mut self.flawed.0),
            ("other", &mut self.other.0),
            ("promised", &mut self.promised.0),
            ("narrow", &mut self.narrow.0),
            ("cuts", &mut self.cuts),
            ("used_area", &mut self.used_area),
            ("drawn_area", &mut self.drawn_area),
            ("net_area", &mut self.net_area),
        ]
    }

    /// From its sums, in the order of [`DayUse::columns`].
    pub fn of(sums: [i64; 12], late_at: Option<At>) -> DayUse {
        let mut day = DayUse { late_at, ..DayUse::default() };
        for ((_, here), sum) in day.columns_mut().into_iter().zip(sums) {
            *here = sum;
        }
        day
    }
}

/// What a day did with a dye lot of a material; or a change did, which is added to it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RollUp {
    /// The material.
    pub material: Material,
    /// Its lot.
    pub lot: String,
    /// The shop's day, numbered.
    pub day: i32,
    /// What it did.
    pub of: DayUse,
}

/// A cut as it is rolled up: what it took, or what is taken back.
#[derive(Debug, Clone)]
pub(super) struct Drawn<'a> {
    pub parts: &'a [CutPart],
    /// The area of one shape, by the number of the line.
    pub shape_areas: BTreeMap<u32, i64>,
    /// The day it counts for.
    pub day: i32,
    pub taken_back: bool,
}

/// The area of so much of a piece.
fn area(amount: Amount, width: Length) -> i64 {
    amount.0.saturating_mul(width.min(MOST_WIDTH).um())
}

/// The area of the shapes that a part gave.
fn net(part: &CutPart, shape_area: i64) -> i64 {
    i64::from(part.shapes).saturating_mul(shape_area).min(MOST_NET)
}

/// Where a movement counts, and what.
fn counts(movement: &Movement, piece: &Piece, day: &mut DayUse) {
    let amount = movement.amount;
    for (account, sign) in [(movement.from, -1), (movement.to, 1)] {
        let signed = Amount(amount.0.saturating_mul(sign));
        match account {
            Account::Free | Account::Held => {}
            Account::Supplier => day.came -= signed,
            Account::Confirmed => day.promised += signed,
            Account::Used => day.used += signed,
            Account::Kept => day.narrow -= signed,
            Account::Spoiled => match movement.reason {
                Reason::EndBit | Reason::Squaring => day.ends += signed,
                Reason::Flaw => day.flawed += signed,
                _ => day.spoiled += signed,
            },
            Account::Elsewhere => match movement.reason {
                Reason::EndBit | Reason::Squaring if sign > 0 => day.ends += signed,
                Reason::Flaw if sign > 0 => day.flawed += signed,
                Reason::Damaged | Reason::Miscut if sign > 0 => day.spoiled += signed,
                _ => day.other -= signed,
            },
        }
        if matches!(account, Account::Used | Account::Kept) && piece.material.class == Class::Cloth {
            day.used_area = day.used_area.saturating_add(area(signed, piece.width));
        }
    }
    if movement.late {
        day.late_at = day.late_at.max(Some(movement.at));
    }
}

/// Whether a movement counts in a roll-up: any but those between what is free and what is held.
fn is_counted(movement: &Movement) -> bool {
    let unseen = |account| matches!(account, Account::Free | Account::Held);
    !(unseen(movement.from) && unseen(movement.to))
}

type Key<'a> = (&'a Material, &'a str, i32);

/// What a change adds to roll-ups, in the order of their keys.
pub(super) fn roll(
    moves: &[Movement],
    pieces: &BTreeMap<PieceId, Piece>,
    drawn: Option<&Drawn<'_>>,
) -> Vec<RollUp> {
    let mut days: BTreeMap<Key<'_>, DayUse> = BTreeMap::new();
    let mut cut: BTreeMap<Key<'_>, i64> = BTreeMap::new();
    for movement in moves.iter().filter(|movement| is_counted(movement)) {
        let Some(piece) = pieces.get(&movement.piece) else { continue };
        let key = (&piece.material, piece.lot.as_str(), movement.day);
        counts(movement, piece, days.entry(key).or_default());
        match (movement.kind, movement.from, movement.to) {
            (MovementKind::Cut, _, Account::Used) => cut.insert(key, 1),
            (MovementKind::Undo, Account::Used, _) => cut.insert(key, -1),
            _ => None,
        };
    }
    for (key, one) in cut {
        days.entry(key).or_default().cuts += one;
    }
    if let Some(drawn) = drawn {
        for (id, [drawn_area, net_area]) in areas(drawn, pieces) {
            let Some(piece) = pieces.get(id) else { continue };
            let day = days.entry((&piece.material, piece.lot.as_str(), drawn.day)).or_default();
            day.drawn_area = day.drawn_area.saturating_add(drawn_area);
            day.net_area = day.net_area.saturating_add(net_area);
        }
    }
    let row = |((material, lot, day), of): (Key<'_>, DayUse)| RollUp {
        material: material.clone(),
        lot: lot.to_owned(),
        day,
        of,
    };
    days.into_iter().map(row).collect()
}

/// The used area and that of the shapes, of each piece of cloth of which a cut took nothing for
/// shapes whose area is not known.
fn areas<'a>(drawn: &Drawn<'a>, pieces: &BTreeMap<PieceId, Piece>) -> Vec<(&'a PieceId, [i64; 2])> {
    let cut_off: BTreeSet<&PieceId> = drawn.parts.iter().map(|part| &part.piece).collect();
    let shape_area = |part: &CutPart| drawn.shape_areas.get(&part.line).copied().unwrap_or(0);
    let sign = if drawn.taken_back { -1 } else { 1 };
    let mut found = Vec::new();
    for id in cut_off {
        let Some(piece) = pieces.get(id).filter(|piece| piece.material.class == Class::Cloth) else {
            continue;
        };
        let of = || drawn.parts.iter().filter(|part| part.piece == *id);
        if of().any(|part| shape_area(part) <= 0) {
            continue;
        }
        let (mut used, mut shapes) = (0_i64, 0_i64);
        for part in of() {
            used = used.saturating_add(area(part.used(), piece.width));
            shapes = shapes.saturating_add(net(part, shape_area(part)));
            let narrower = part.remnants.iter().filter_map(|remnant| pieces.get(remnant));
            for remnant in narrower.filter(|remnant| remnant.width < piece.width) {
                used = used.saturating_sub(area(remnant.received, remnant.width));
            }
        }
        found.push((id, [used.saturating_mul(sign), shapes.saturating_mul(sign)]));
    }
    found
}
