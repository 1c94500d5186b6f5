//! Other pieces that would make a short promise good.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use pennantry_ledger::rules::{
    Amount, At, Class, Line, Material, PieceId, Promise, Reservation, ReservationId,
};
use pennantry_ledger::shelf::{OnShelf, Shelf};
use pennantry_measure::Length;

use super::plan::is_begun;

/// Pieces proposed for one promise at most.
pub const MOST: usize = 5;

/// A piece that would make a promise good.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proposal {
    /// The reservation.
    pub reservation: ReservationId,
    /// The piece.
    pub piece: PieceId,
    /// Its material's class.
    pub class: Class,
    /// Its dye lot.
    pub lot: String,
    /// Whether that is the lot of the piece that falls short; of one that is not known, nobody
    /// can say so.
    pub same_lot: bool,
    /// The longest stretch that one cut could have of it.
    pub longest: Amount,
}

/// What a line that is short takes its place of: its piece's material, lot and width.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lacking {
    /// The piece that falls short.
    pub piece: PieceId,
    /// Its material.
    pub material: Material,
    /// Its lot.
    pub lot: String,
    /// Its width.
    pub width: Length,
}

/// For each promise that is short now, pieces that would make it good, the best first, up to
/// [`MOST`]: those of the same lot, then remnants, then those of which least is left over.
///
/// A line is cut in one piece of cloth, as it was planned; so another piece makes it good if it is
/// at least as wide and has one clear stretch for all that the line still wants. Of what is
/// counted, what is missing is enough.
pub fn proposals(
    shelf: &Shelf,
    now: At,
    promises: &[Promise],
    reservations: &[Reservation],
    lacking: &BTreeMap<PieceId, Lacking>,
) -> Vec<Proposal> {
    let mut all = Vec::new();
    for promise in promises.iter().filter(|promise| promise.short.is_some() && promise.state.is_live()) {
        let line = reservations
            .iter()
            .find(|reservation| reservation.id == promise.reservation)
            .and_then(|reservation| reservation.lines.iter().find(|line| line.number == promise.line))
            // one that was made good since needs nothing
            .filter(|line| line.short().is_some());
        let (Some(line), Some(of)) = (line, lacking.get(&promise.piece)) else { continue };
        for (on_shelf, longest) in would_do(shelf, now, line, of).into_iter().take(MOST) {
            all.push(Proposal {
                reservation: promise.reservation.clone(),
                piece: on_shelf.piece.id.clone(),
                class: of.material.class,
                lot: on_shelf.piece.lot.clone(),
                same_lot: same_lot(on_shelf, of),
                longest,
            });
        }
    }
    all
}

/// Pieces that would make a line good, the best first, and the longest stretch of each.
pub(super) fn would_do<'a>(
    shelf: &'a Shelf,
    now: At,
    line: &Line,
    of: &Lacking,
) -> Vec<(&'a OnShelf, Amount)> {
    let enough = if of.material.class == Class::Sundry { line.short() } else { line.wanted };
    let mut found: Vec<(&OnShelf, Amount)> = shelf
        .of(&of.material)
        .iter()
        .map(std::convert::AsRef::as_ref)
        .filter(|on_shelf: &&OnShelf| on_shelf.piece.id != of.piece && on_shelf.piece.width >= of.width)
        .map(|on_shelf| (on_shelf, on_shelf.clear(now).first().copied().unwrap_or_default()))
        .filter(|(_, longest)| *longest >= enough)
        .collect();
    found.sort_by_key(|(on_shelf, longest)| {
        (Reverse(same_lot(on_shelf, of)), Reverse(is_begun(on_shelf)), *longest, on_shelf.piece.id.clone())
    });
    found
}

fn same_lot(on_shelf: &OnShelf, of: &Lacking) -> bool {
    !of.lot.is_empty() && on_shelf.piece.lot == of.lot
}
