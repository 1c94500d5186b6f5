//! What is written when a command is carried out. An engine does these one after the other,
//! and nothing else.

use pennantry_measure::Length;

use super::{
    Amount, At, ChangeId, CutId, CutRow, Flaw, Line, Order, OrderId, OrderState, Piece, PieceId, Reason,
    Reservation, ReservationId, RollUp, State,
};

/// One row written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// A new piece.
    AddPiece(Piece),
    /// A piece's balance, from what was read to what it is now. An engine writes it only
    /// where the row still is as it was read.
    Balance {
        /// The piece.
        piece: PieceId,
        /// Left, held and confirmed as they were read.
        was: [Amount; 3],
        /// Left, held and confirmed from now on.
        is: [Amount; 3],
    },
    /// A piece's flaws from now on.
    Flaws {
        /// The piece.
        piece: PieceId,
        /// Its flaws.
        flaws: Vec<Flaw>,
    },
    /// Where a piece lies from now on.
    Location {
        /// The piece.
        piece: PieceId,
        /// Where.
        location: String,
    },
    /// A new reservation with its lines.
    AddReservation(Reservation),
    /// What has changed of a reservation's head. An engine writes it only where the
    /// state still is as it was read.
    Head {
        /// The reservation.
        id: ReservationId,
        /// Its state as it was read.
        was: State,
        /// All of it from now on; its lines are written by themselves.
        is: Box<Reservation>,
    },
    /// A line added to a reservation.
    AddLine {
        /// The reservation.
        reservation: ReservationId,
        /// The line.
        line: Line,
    },
    /// A line from now on.
    SetLine {
        /// The reservation.
        reservation: ReservationId,
        /// The line.
        line: Line,
    },
    /// A new cut.
    AddCut(CutRow),
    /// A cut was taken back.
    CutUndone(CutId),
    /// A new order.
    AddOrder(Order),
    /// An order's state from now on.
    OrderState {
        /// The order.
        id: OrderId,
        /// Its state.
        state: OrderState,
        /// Its note.
        note: String,
    },
    /// What has come of an order's line.
    OrderReceived {
        /// The order.
        id: OrderId,
        /// The line.
        line: u32,
        /// All that has come.
        received: Amount,
    },
    /// An amount moved.
    Move(Movement),
    /// What the movements add to what a day did with a material. An engine adds it to what is there.
    Roll(RollUp),
    /// Something to tell.
    Tell(Event),
}

/// Where an amount of a piece can be. Free, held and confirmed are on the piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Account {
    /// Not yet the shop's.
    Supplier,
    /// On the piece, promised to nobody.
    Free,
    /// On the piece, held.
    Held,
    /// On the piece, confirmed.
    Confirmed,
    /// Cut and used.
    Used,
    /// Cut and spoiled.
    Spoiled,
    /// Cut, and on the shelf again as a piece of its own.
    Kept,
    /// Gone, or come, otherwise: counts, losses, finds.
    Elsewhere,
}

impl Account {
    /// Every account.
    pub const ALL: [Account; 8] = [
        Account::Supplier,
        Account::Free,
        Account::Held,
        Account::Confirmed,
        Account::Used,
        Account::Spoiled,
        Account::Kept,
        Account::Elsewhere,
    ];

    /// As it is kept.
    pub const fn as_str(self) -> &'static str {
        match self {
            Account::Supplier => "supplier",
            Account::Free => "free",
            Account::Held => "held",
            Account::Confirmed => "confirmed",
            Account::Used => "used",
            Account::Spoiled => "spoiled",
            Account::Kept => "kept",
            Account::Elsewhere => "elsewhere",
        }
    }

    /// Read back.
    pub fn read(text: &str) -> Option<Account> {
        Account::ALL.into_iter().find(|account| account.as_str() == text)
    }

    /// Whether what is there lies on the piece.
    pub const fn is_on_piece(self) -> bool {
        matches!(self, Account::Free | Account::Held | Account::Confirmed)
    }
}

/// Why an amount was moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MovementKind {
    /// It came.
    Receive,
    /// It was counted.
    Count,
    /// It was lost or found.
    Adjust,
    /// It was taken for a buyer.
    Reserve,
    /// A hold became a promise.
    Confirm,
    /// It is free again.
    Release,
    /// A hold's time was over.
    Expire,
    /// A fact took it from a promise.
    Shorten,
    /// A promise got it back.
    Mend,
    /// It was cut.
    Cut,
    /// A cut was taken back.
    Undo,
}

impl MovementKind {
    /// Every kind.
    pub const ALL: [MovementKind; 11] = [
        MovementKind::Receive,
        MovementKind::Count,
        MovementKind::Adjust,
        MovementKind::Reserve,
        MovementKind::Confirm,
        MovementKind::Release,
        MovementKind::Expire,
        MovementKind::Shorten,
        MovementKind::Mend,
        MovementKind::Cut,
        MovementKind::Undo,
    ];

    /// As it is kept.
    pub const fn as_str(self) -> &'static str {
        match self {
            MovementKind::Receive => "receive",
            MovementKind::Count => "count",
            MovementKind::Adjust => "adjust",
            MovementKind::Reserve => "reserve",
            MovementKind::Confirm => "confirm",
            MovementKind::Release => "release",
            MovementKind::Expire => "expire",
            MovementKind::Shorten => "shorten",
            MovementKind::Mend => "mend",
            MovementKind::Cut => "cut",
            MovementKind::Undo => "undo",
        }
    }

    /// Read back.
    pub fn read(text: &str) -> Option<MovementKind> {
        MovementKind::ALL.into_iter().find(|kind| kind.as_str() == text)
    }
}

/// An amount of one piece, moved from one account to another. Never changed, never deleted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Movement {
    /// The change it is part of.
    pub change: ChangeId,
    /// Its number within that, from nought; events have numbers of their own.
    pub number: u32,
    /// When.
    pub at: At,
    /// The shop's day it counts for.
    pub day: i32,
    /// Whether that day was over when it was written.
    pub late: bool,
    /// Who.
    pub actor: String,
    /// Why.
    pub kind: MovementKind,
    /// The piece.
    pub piece: PieceId,
    /// From where.
    pub from: Account,
    /// To where.
    pub to: Account,
    /// How much, more than nought.
    pub amount: Amount,
    /// For which reservation.
    pub reservation: Option<ReservationId>,
    /// By which cut.
    pub cut: Option<CutId>,
    /// Why, where that was said.
    pub reason: Reason,
    /// In words.
    pub note: String,
}

/// What happened, for whoever watches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EventKind {
    /// A piece came, or a remnant was kept.
    Received,
    /// A piece was counted, changed, moved or lost something.
    Adjusted,
    /// A hold was taken.
    Held,
    /// A hold got more time.
    Extended,
    /// A hold became a promise.
    Confirmed,
    /// A hold was let go.
    Released,
    /// A hold's time was over.
    Expired,
    /// A reservation was called off.
    Cancelled,
    /// Another reservation took its place.
    Superseded,
    /// Other cloth was put in place.
    Amended,
    /// Something was cut for it.
    Cut,
    /// A cut was taken back.
    Undone,
    /// A fact took of what was promised.
    Shortened,
    /// A promise got back what was missing.
    Mended,
    /// An order was placed.
    Ordered,
    /// An order was called off.
    OrderCancelled,
}

impl EventKind {
    /// Every kind.
    pub const ALL: [EventKind; 16] = [
        EventKind::Received,
        EventKind::Adjusted,
        EventKind::Held,
        EventKind::Extended,
        EventKind::Confirmed,
        EventKind::Released,
        EventKind::Expired,
        EventKind::Cancelled,
        EventKind::Superseded,
        EventKind::Amended,
        EventKind::Cut,
        EventKind::Undone,
        EventKind::Shortened,
        EventKind::Mended,
        EventKind::Ordered,
        EventKind::OrderCancelled,
    ];

    /// As it is kept.
    pub const fn as_str(self) -> &'static str {
        match self {
            EventKind::Received => "received",
            EventKind::Adjusted => "adjusted",
            EventKind::Held => "held",
            EventKind::Extended => "extended",
            EventKind::Confirmed => "confirmed",
            EventKind::Released => "released",
            EventKind::Expired => "expired",
            EventKind::Cancelled => "cancelled",
            EventKind::Superseded => "superseded",
            EventKind::Amended => "amended",
            EventKind::Cut => "cut",
            EventKind::Undone => "undone",
            EventKind::Shortened => "shortened",
            EventKind::Mended => "mended",
            EventKind::Ordered => "ordered",
            EventKind::OrderCancelled => "order cancelled",
        }
    }

    /// Read back.
    pub fn read(text: &str) -> Option<EventKind> {
        EventKind::ALL.into_iter().find(|kind| kind.as_str() == text)
    }
}

/// One thing that happened. Its place in the one order of events is given to it after it is
/// committed, so that whoever reads on from a place misses nothing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    /// The change it is part of.
    pub change: ChangeId,
    /// Its number within that, from nought.
    pub number: u32,
    /// When.
    pub at: At,
    /// Who.
    pub actor: String,
    /// What.
    pub kind: EventKind,
    /// To which reservation.
    pub reservation: Option<ReservationId>,
    /// To which piece.
    pub piece: Option<PieceId>,
    /// To which order.
    pub order: Option<OrderId>,
    /// How much: what is missing now where something was shortened or mended; what came with a
    /// piece; what lies on a piece after it was adjusted or cut, or a cut taken back. Nothing
    /// where it is about a whole reservation or order, which may mix lengths and counts.
    pub amount: Amount,
    /// In words, or nothing.
    pub note: String,
}

impl Event {
    /// The amount as a length.
    pub fn length(&self) -> Length {
        self.amount.length()
    }
}
