//! What is told of a command, and why one is refused.

use super::{
    Amount, At, CutRow, Material, Order, OrderId, OrderState, Piece, PieceId, Reservation, ReservationId, State,
};

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

/// A line that cannot be had.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Short {
    /// The piece.
    pub piece: PieceId,
    /// How much was wanted of it.
    pub wanted: Amount,
    /// How much of it one cut can have now.
    pub free: Amount,
}

/// Why nothing was changed. Each says what is there; what to do about it is in
/// [`std::fmt::Display`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refusal {
    /// There is a piece of that name.
    PieceExists(PieceId),
    /// There is no such piece.
    NoPiece(PieceId),
    /// There is no such reservation.
    NoReservation(ReservationId),
    /// There is a reservation of that name.
    ReservationExists(ReservationId),
    /// There is no such line in the reservation.
    NoLine(ReservationId, u32),
    /// There is no such cut.
    NoCut(super::CutId),
    /// There is a cut of that name.
    CutExists(super::CutId),
    /// There is no such order.
    NoOrder(OrderId),
    /// There is an order of that name.
    OrderExists(OrderId),
    /// Lines cannot be had as wanted.
    Taken(Vec<Short>),
    /// The piece is of another material than is wanted.
    OtherMaterial {
        /// The piece.
        piece: PieceId,
        /// What it is.
        is: Material,
        /// What was wanted.
        wanted: Material,
    },
    /// The hold's time is over, since that instant.
    Expired(ReservationId, At),
    /// The reservation stands where this cannot be done.
    NotNow(ReservationId, State),
    /// The reservation is short by so much on that piece.
    IsShort(ReservationId, PieceId, Amount),
    /// A hold cannot be given more time: it may last to that instant at most.
    AsLongAsMayBe(ReservationId, At),
    /// The holder has as many holds as may be.
    TooManyHolds(u32),
    /// The hold is somebody else's.
    NotYours(ReservationId),
    /// More is to come off a piece than lies on it.
    MoreThanLies {
        /// The piece.
        piece: PieceId,
        /// What is to come off.
        taken: Amount,
        /// What lies on it.
        left: Amount,
    },
    /// Spoiled and kept are more than was taken.
    PartsDoNotFit {
        /// The piece.
        piece: PieceId,
        /// What was taken.
        taken: Amount,
        /// Spoiled and kept at full width.
        parts: Amount,
    },
    /// Remnants are wider than the piece, or have more cloth than was cut.
    RemnantsDoNotFit(PieceId),
    /// Nothing is left to cut.
    NothingToCut(ReservationId),
    /// A cut is taken back too late.
    TooLate(super::CutId, At),
    /// A cut was taken back before.
    AlreadyUndone(super::CutId),
    /// A cut cannot be taken back since something has been done with what it left.
    UsedSince(super::CutId, PieceId),
    /// The order stands where this cannot be done.
    OrderNotNow(OrderId, OrderState),
    /// The order has no line of that material.
    NotOrdered(OrderId, Material),
    /// An amount is nought, below, or beyond any.
    BadAmount(Amount),
    /// Flaws overlap, are empty or lie beyond the piece.
    BadFlaws(PieceId),
    /// There is nothing in it.
    Empty,
    /// Something is named twice in it.
    Twice(String),
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{self:?}")
    }
}
