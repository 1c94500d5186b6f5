//! What a command needs to see of what is kept, and what an engine found of it.

use std::collections::BTreeMap;

use super::{CutId, CutRow, Order, OrderId, Piece, PieceId, Reservation, ReservationId};

/// What a command needs to see.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Needs {
    /// Pieces by name, with every live line on them and those lines' reservations.
    pub pieces: Vec<PieceId>,
    /// Reservations by name, with their lines and the pieces of those.
    pub reservations: Vec<ReservationId>,
    /// Cuts by name, with the reservation each was for as if it was named, the pieces of its
    /// parts and remnants as if they were named, and for each of those its last cut.
    pub cuts: Vec<CutId>,
    /// Orders by name.
    pub orders: Vec<OrderId>,
    /// Whose live holds are to be counted.
    pub holder: Option<String>,
    /// At most so many overdue holds, the longest overdue first, as if they were named.
    pub overdue: u32,
}

/// What an engine found. Every live line of every piece in `pieces` is in one of
/// `reservations`, and of each of those all lines are there; pieces of those other lines need
/// not be. An overdue hold that stands on a piece in `pieces` is there with all its pieces.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Rows {
    /// Pieces by name; those that are not there are missing.
    pub pieces: BTreeMap<PieceId, Piece>,
    /// Reservations by name.
    pub reservations: BTreeMap<ReservationId, Reservation>,
    /// Cuts by name.
    pub cuts: BTreeMap<CutId, CutRow>,
    /// Orders by name.
    pub orders: BTreeMap<OrderId, Order>,
    /// How many live holds, not overdue, the holder asked about has; one that is to be
    /// superseded is counted like any other.
    pub holds: u32,
    /// For each piece of the parts and remnants of a cut that was named: the last cut on it that
    /// was not taken back. The last one is the one that was written last, whatever the clock said.
    /// A piece with no such cut is missing.
    pub last_cut: BTreeMap<PieceId, CutId>,
}
