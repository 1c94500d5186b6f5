//! What is told of a command that was carried out.

use super::{Amount, At, CutRow, Order, Piece, PieceId, Reservation, ReservationId, State};

/// What a command came to. What it does not concern is empty.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Outcome {
    /// When it was done.
    pub at: At,
    /// Pieces that came: of a delivery, and remnants of a cut.
    pub received: Vec<PieceId>,
    /// The piece adjusted, or the pieces cut, as they are after.
    pub pieces: Vec<Piece>,
    /// The reservation as it is after.
    pub reservation: Option<Reservation>,
    /// The cut.
    pub cut: Option<CutRow>,
    /// The order as it is after.
    pub order: Option<Order>,
    /// Promises of others that changed with it, or of its own.
    pub promises: Vec<Promise>,
    /// Reservations that it ended: overdue holds, and one superseded.
    pub ended: Vec<ReservationId>,
}

/// A promise that a fact took from, or that got something back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Promise {
    /// The reservation.
    pub reservation: ReservationId,
    /// Its state.
    pub state: State,
    /// Its line.
    pub line: u32,
    /// The piece.
    pub piece: PieceId,
    /// What was missing before.
    pub short_before: Amount,
    /// What is missing now.
    pub short: Amount,
}
