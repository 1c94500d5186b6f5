//! Why a command is refused.

use pennantry_measure::Length;

use super::{Amount, At, Class, CutId, Material, OrderId, OrderState, PieceId, ReservationId, State};

/// A line that cannot be had.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Short {
    /// The piece.
    pub piece: PieceId,
    /// What its amounts are of.
    pub class: Class,
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
    /// There is no such line in the reservation, or nothing is to be cut for it any longer.
    NoLine(ReservationId, u32),
    /// There is no such cut.
    NoCut(CutId),
    /// There is a cut of that name.
    CutExists(CutId),
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
    /// The hold's time is over, since that instant, whether or not it was swept up yet.
    Expired(ReservationId, At),
    /// The reservation stands where this cannot be done.
    NotNow(ReservationId, State),
    /// The reservation is short on that piece.
    IsShort {
        /// The reservation.
        reservation: ReservationId,
        /// The piece.
        piece: PieceId,
        /// What its amounts are of.
        class: Class,
        /// How much is missing.
        short: Amount,
    },
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
        /// What its amounts are of.
        class: Class,
        /// What is to come off.
        taken: Amount,
        /// What lies on it.
        left: Amount,
    },
    /// Spoiled and kept are more than was taken.
    PartsDoNotFit {
        /// The piece.
        piece: PieceId,
        /// What its amounts are of.
        class: Class,
        /// What was taken.
        taken: Amount,
        /// Spoiled and kept at full width.
        parts: Amount,
    },
    /// Remnants are wider than the piece, or have more cloth than was cut.
    RemnantsDoNotFit(PieceId),
    /// Nothing is left to cut.
    NothingToCut(ReservationId),
    /// A cut is taken back too late: until that instant it could be.
    TooLate(CutId, At),
    /// A cut was taken back before.
    AlreadyUndone(CutId),
    /// A cut cannot be taken back since something has been done with what it left.
    UsedSince(CutId, PieceId),
    /// The order stands where this cannot be done.
    OrderNotNow(OrderId, OrderState),
    /// The order has no line of that material.
    NotOrdered(OrderId, Material),
    /// An amount is nought where there must be some, below nought, or beyond any.
    BadAmount(Class, Amount),
    /// A width is below nought, or beyond any.
    BadWidth(PieceId, Length),
    /// A hold cannot be for so many seconds.
    BadSeconds(i64),
    /// Bench time cannot be below nought.
    BadBenchTime(i64),
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
