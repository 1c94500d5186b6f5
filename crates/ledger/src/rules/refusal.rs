//! Why a command is refused.

use std::fmt;

use pennantry_measure::Length;

use super::amount::Day;
use super::{Amount, At, Class, Cut, CutId, Material, OrderId, OrderState, PieceId, ReservationId, State};

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
    /// Remnants are wider than the piece, or do not fit on what was cut.
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
    /// The area of a shape cannot be below nought.
    BadShapeArea(i64),
    /// A part of a cut has more shapes than its line is for.
    TooManyShapes {
        /// The reservation.
        reservation: ReservationId,
        /// The line.
        line: u32,
        /// How many the part is said to have given.
        shapes: u32,
        /// How many the line is for.
        most: u32,
    },
    /// A cut is recorded for a day to come, or for one too long ago.
    BadDay {
        /// That day.
        day: i32,
        /// The shop's day today.
        today: i32,
    },
    /// Flaws overlap, are empty or lie beyond the piece.
    BadFlaws(PieceId),
    /// There is nothing in it.
    Empty,
    /// Nothing would be left of the reservation.
    NothingLeft(ReservationId),
    /// The reservation wants something else by now than it did when this was planned.
    Changed(ReservationId),
    /// Something is named twice in it.
    Twice(String),
}

/// What was found, with its values, and then what to do about it. Lengths are written as lengths,
/// what is counted as a number.
///
/// ```
/// use pennantry_ledger::rules::{Amount, Class, Refusal};
/// use pennantry_measure::Length;
/// let mm = |mm: i64| Amount::of_length(Length::from_mm(mm));
/// let refusal = Refusal::MoreThanLies {
///     piece: "B-7".into(),
///     class: Class::Cloth,
///     taken: mm(2_600),
///     left: mm(2_500),
/// };
/// assert_eq!(
///     refusal.to_string(),
///     "2600 mm is to come off piece B-7, but only 2500 mm lies on it: \
///      where more lies there, count it first and record the count",
/// );
/// ```
impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refusal::PieceExists(piece) => {
                write!(f, "there is a piece {piece} already: give the new one another name")
            }
            Refusal::NoPiece(piece) => write!(f, "there is no piece {piece}: check the name on its label"),
            Refusal::NoReservation(id) => write!(f, "there is no reservation {id}: check its name"),
            Refusal::ReservationExists(id) => {
                write!(f, "there is a reservation {id} already: give the new one another name")
            }
            Refusal::NoLine(id, line) => {
                write!(
                    f,
                    "reservation {id} has no line {line} that is still to be cut: look at its lines and name one"
                )
            }
            Refusal::NoCut(cut) => write!(f, "there is no cut {cut}: check its name"),
            Refusal::CutExists(cut) => {
                write!(f, "there is a cut {cut} already: give the new one another name")
            }
            Refusal::NoOrder(order) => write!(f, "there is no order {order}: check its name"),
            Refusal::OrderExists(order) => {
                write!(f, "there is an order {order} already: give the new one another name")
            }
            Refusal::Taken(shorts) => taken(f, shorts),
            Refusal::OtherMaterial { piece, is, wanted } => write!(
                f,
                "piece {piece} is {is}, but {wanted} is wanted: take a piece of {wanted}, or amend the reservation"
            ),
            Refusal::Expired(id, at) => {
                write!(
                    f,
                    "the time of reservation {id} was over at {at}: take a new one, if the stock is still there"
                )
            }
            Refusal::NotNow(id, state) => not_now(f, id, *state),
            Refusal::IsShort { reservation, piece, class, short } => write!(
                f,
                "reservation {reservation} is short by {} on piece {piece}: put other stock in its place first",
                short.shown(*class)
            ),
            Refusal::AsLongAsMayBe(id, at) => {
                write!(
                    f,
                    "reservation {id} may be held until {at} at most: confirm it, or take a new one after that"
                )
            }
            Refusal::TooManyHolds(most) => {
                write!(
                    f,
                    "at most {most} may be held at once: confirm one, let one go, or wait until one is over"
                )
            }
            Refusal::NotYours(id) => {
                write!(
                    f,
                    "reservation {id} is held by somebody else: only its own holder can put another in its place"
                )
            }
            Refusal::MoreThanLies { piece, class, taken, left } => write!(
                f,
                "{} is to come off piece {piece}, but only {} lies on it: where more lies there, count it first and \
                 record the count",
                taken.shown(*class),
                left.shown(*class)
            ),
            Refusal::PartsDoNotFit { piece, class, taken, parts } => write!(
                f,
                "{} came off piece {piece}, but {} of it is said to be spoiled or kept: measure again what was taken, \
                 what is spoiled and what is kept",
                taken.shown(*class),
                parts.shown(*class)
            ),
            Refusal::RemnantsDoNotFit(piece) => write!(
                f,
                "the remnants do not fit on what came off piece {piece}, narrow ones beside those of its full width: measure \
                 them again; each has a length above nought, and of cloth a width"
            ),
            Refusal::NothingToCut(id) => {
                write!(
                    f,
                    "nothing is left to cut for reservation {id} there: look at its lines and what they still want"
                )
            }
            Refusal::TooLate(cut, at) => write!(
                f,
                "cut {cut} could be taken back until {at}: now count the piece, and record what is spoiled or found"
            ),
            Refusal::AlreadyUndone(cut) => {
                write!(f, "cut {cut} was taken back before: there is nothing to do")
            }
            Refusal::UsedSince(cut, piece) => write!(
                f,
                "cut {cut} cannot be taken back, for piece {piece} was cut, promised or counted since: take that back \
                 first, or count the pieces"
            ),
            Refusal::OrderNotNow(order, state) => {
                let next = match state {
                    OrderState::Open => "wait until it has come",
                    OrderState::Filled => "all of it has come, so nothing can be called off",
                    OrderState::Cancelled => "receive what came without it, or place a new one",
                };
                write!(f, "order {order} is {}: {next}", state.as_str())
            }
            Refusal::NotOrdered(order, material) => {
                write!(
                    f,
                    "order {order} has no line of {material}: receive that without it, or on the order it is of"
                )
            }
            Refusal::BadAmount(class, amount) => write!(
                f,
                "{} is not an amount that can be here: it is above nought, or nought where nothing may be left, and at \
                 most {}",
                amount.shown(*class),
                Amount::MOST.shown(*class)
            ),
            Refusal::BadWidth(piece, width) => write!(
                f,
                "piece {piece} cannot be {width} wide: give its usable width, or nought where it has none"
            ),
            Refusal::BadSeconds(seconds) => {
                write!(f, "a hold cannot last {seconds} seconds: give one second or more")
            }
            Refusal::BadBenchTime(milli_minutes) => {
                write!(f, "{milli_minutes} thousandths of a minute is not a bench time: give nought or more")
            }
            Refusal::BadShapeArea(area) => {
                write!(
                    f,
                    "{area} square micrometres is not the area of a shape: give it, or nought where it is not known"
                )
            }
            Refusal::TooManyShapes { reservation, line, shapes, most } => write!(
                f,
                "{shapes} shapes are said to have come of a cut for line {line} of reservation {reservation}, which is \
                 for {most}: count those for this line, and leave the number out where all of them came of it"
            ),
            Refusal::BadDay { day, today } => write!(
                f,
                "a cut is recorded for {}, and today is {}: give today, or one of the {} days before it",
                Day(*day),
                Day(*today),
                Cut::DAYS
            ),
            Refusal::BadFlaws(piece) => write!(
                f,
                "the flaws of piece {piece} do not lie on it one after the other: give each from where to where, in \
                 order from the free end, none empty, none over another, none beyond what lies there; what is counted \
                 has none"
            ),
            Refusal::Empty => f.write_str("there is nothing in it: name at least one thing to be done"),
            Refusal::NothingLeft(id) => {
                write!(
                    f,
                    "nothing of reservation {id} would be left: release a hold, or cancel what is confirmed"
                )
            }
            Refusal::Changed(id) => write!(
                f,
                "what reservation {id} wants has changed since this was planned: look at it and plan it again"
            ),
            Refusal::Twice(name) => write!(f, "{name} is named twice: name it once"),
        }
    }
}

fn taken(f: &mut fmt::Formatter<'_>, shorts: &[Short]) -> fmt::Result {
    for (place, Short { piece, class, wanted, free }) in shorts.iter().enumerate() {
        let parted = if place == 0 { "" } else { "; " };
        let (wanted, free) = (wanted.shown(*class), free.shown(*class));
        write!(f, "{parted}{wanted} of piece {piece} cannot be had, {free} can")?;
    }
    f.write_str(": take less, or other pieces")
}

fn not_now(f: &mut fmt::Formatter<'_>, id: &ReservationId, state: State) -> fmt::Result {
    let next = match state {
        State::Held => "confirm it or let it go",
        State::Confirmed => "amend it or call it off",
        State::Cut => "call it off, or take its cut back within ten minutes",
        State::Released | State::Expired | State::Cancelled => "take a new one",
        State::Superseded => "go on with the one that took its place",
    };
    write!(f, "reservation {id} is {}, so this cannot be done: {next}", state.as_str())
}
