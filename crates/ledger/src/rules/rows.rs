//! What is kept.

use pennantry_measure::Length;

use super::{Amount, At, CutId, OrderId, PieceId, ReservationId};

/// What a piece is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PieceKind {
    /// Cloth as it came, from a supplier.
    Bolt,
    /// Cloth that is left of a bolt or remnant and worth keeping.
    Remnant,
    /// Binding, tape or cord on a roll, whole or begun.
    Roll,
    /// Things that are counted, in a box.
    Box,
}

impl PieceKind {
    /// Every kind.
    pub const ALL: [PieceKind; 4] = [PieceKind::Bolt, PieceKind::Remnant, PieceKind::Roll, PieceKind::Box];

    /// As it is kept.
    pub const fn as_str(self) -> &'static str {
        match self {
            PieceKind::Bolt => "bolt",
            PieceKind::Remnant => "remnant",
            PieceKind::Roll => "roll",
            PieceKind::Box => "box",
        }
    }

    /// Read back.
    pub fn read(text: &str) -> Option<PieceKind> {
        PieceKind::ALL.into_iter().find(|kind| kind.as_str() == text)
    }
}

/// What kind of material something is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Class {
    /// Cloth: bolts and remnants, with a width.
    Cloth,
    /// Binding, tape, cord: rolls, by length.
    Binding,
    /// Trimmings, labels and the like: by count.
    Sundry,
}

impl Class {
    /// Every class.
    pub const ALL: [Class; 3] = [Class::Cloth, Class::Binding, Class::Sundry];

    /// As it is kept.
    pub const fn as_str(self) -> &'static str {
        match self {
            Class::Cloth => "cloth",
            Class::Binding => "binding",
            Class::Sundry => "sundry",
        }
    }

    /// Read back.
    pub fn read(text: &str) -> Option<Class> {
        Class::ALL.into_iter().find(|class| class.as_str() == text)
    }
}

/// A material: its class and the catalogue's code.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Material {
    /// What kind it is.
    pub class: Class,
    /// Its code in the catalogue.
    pub code: String,
}

/// Its class and code: `cloth KELP`.
impl std::fmt::Display for Material {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} {}", self.class.as_str(), self.code)
    }
}

/// A stretch that cannot be used, from the free end of the piece as it lies now.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Flaw {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

/// One thing on the shelf, and its balance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// Its name, as on its label.
    pub id: PieceId,
    /// What it is.
    pub kind: PieceKind,
    /// Of what.
    pub material: Material,
    /// Dye lot; empty where none is known, which is a lot of its own.
    pub lot: String,
    /// Usable width; nought where it has none (rolls, boxes).
    pub width: Length,
    /// What it held when it came.
    pub received: Amount,
    /// What lies on it.
    pub left: Amount,
    /// How much of that is held for a while.
    pub held: Amount,
    /// How much of that is confirmed.
    pub confirmed: Amount,
    /// Flaws, in order, apart from each other, within what is left.
    pub flaws: Vec<Flaw>,
    /// The piece it was cut from.
    pub parent: Option<PieceId>,
    /// The cut that left it.
    pub cut: Option<CutId>,
    /// Where it lies.
    pub location: String,
    /// What it cost in all, in minor units of the shop's currency.
    pub cost_minor: Option<i64>,
    /// Who it came from.
    pub supplier: String,
    /// How the supplier calls it.
    pub supplier_reference: String,
    /// Certificates that came with it, by their numbers.
    pub certificates: Vec<String>,
    /// The order it came on.
    pub order: Option<OrderId>,
    /// When it came.
    pub at: At,
}

impl Piece {
    /// What nobody was promised.
    pub fn free(&self) -> Amount {
        self.left - self.held - self.confirmed
    }
}

/// Where a reservation stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum State {
    /// Held until it expires.
    Held,
    /// Confirmed: waits for the bench.
    Confirmed,
    /// All of it is cut.
    Cut,
    /// Let go before it was confirmed.
    Released,
    /// Not confirmed in time.
    Expired,
    /// Called off, before or after cutting.
    Cancelled,
    /// Another one took its place.
    Superseded,
}

impl State {
    /// Every state.
    pub const ALL: [State; 7] = [
        State::Held,
        State::Confirmed,
        State::Cut,
        State::Released,
        State::Expired,
        State::Cancelled,
        State::Superseded,
    ];

    /// As it is kept.
    pub const fn as_str(self) -> &'static str {
        match self {
            State::Held => "held",
            State::Confirmed => "confirmed",
            State::Cut => "cut",
            State::Released => "released",
            State::Expired => "expired",
            State::Cancelled => "cancelled",
            State::Superseded => "superseded",
        }
    }

    /// Read back.
    pub fn read(text: &str) -> Option<State> {
        State::ALL.into_iter().find(|state| state.as_str() == text)
    }

    /// Whether it holds cloth.
    pub const fn is_live(self) -> bool {
        matches!(self, State::Held | State::Confirmed)
    }
}

/// What a buyer was promised.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reservation {
    /// Its name.
    pub id: ReservationId,
    /// Where it stands.
    pub state: State,
    /// Who took it: a key, an address or a member of staff, as the door names them.
    pub holder: String,
    /// When it was taken.
    pub created: At,
    /// From when a hold is no more; what it was where it is none any longer.
    pub expires: At,
    /// When it was confirmed.
    pub confirmed: Option<At>,
    /// The quote it was taken for.
    pub quote: String,
    /// The shop's own number of the order, given when it was confirmed.
    pub order_reference: String,
    /// Bench time it books once confirmed, in thousandths of a minute.
    pub bench_milli_minutes: i64,
    /// Numbered day on which it is to leave, by which the bench has done it.
    pub leave_day: Option<i32>,
    /// What was sold: findings, texts and acknowledgements. Opaque here.
    pub sold: Vec<u8>,
    /// What it took the place of.
    pub supersedes: Option<ReservationId>,
    /// What took its place.
    pub superseded_by: Option<ReservationId>,
    /// Why it ended, or was amended, in words.
    pub reason: String,
    /// What it takes.
    pub lines: Vec<Line>,
}

impl Reservation {
    /// Whether a fact took of what it was promised.
    pub fn is_short(&self) -> bool {
        self.state.is_live() && self.lines.iter().any(|line| line.short().is_some())
    }

    /// What each line wants that wants anything, by its number.
    pub fn wants(&self) -> impl Iterator<Item = (u32, Amount)> {
        self.lines.iter().filter(|line| line.wanted.is_some()).map(|line| (line.number, line.wanted))
    }

    /// Whether it is a hold whose time is over. At the instant itself it is over.
    pub fn is_overdue(&self, now: At) -> bool {
        self.state == State::Held && self.expires <= now
    }
}

/// What a reservation takes of one piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its number within the reservation, from 1.
    pub number: u32,
    /// The piece.
    pub piece: PieceId,
    /// Which need of the order it serves, as the caller numbers them.
    pub item: u32,
    /// What was to be taken when the line was made.
    pub planned: Amount,
    /// What is still to be cut. Nought once it is done or the reservation has ended.
    pub wanted: Amount,
    /// How much of that the piece holds for it.
    pub granted: Amount,
    /// What was cut for it and used.
    pub used: Amount,
    /// What was cut for it and spoiled.
    pub spoiled: Amount,
    /// Cut shapes it was to give.
    pub shapes: u32,
    /// Cut shapes it has given.
    pub shapes_cut: u32,
    /// The area of one of them in square micrometres; nought where it is not known.
    pub shape_area: i64,
    /// Whether it was of a sale whose place another took: nothing is wanted on it again.
    pub past: bool,
}

impl Line {
    /// What is wanted and not there.
    pub fn short(&self) -> Amount {
        self.wanted - self.granted
    }
}

/// Why length went where it went.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reason {
    /// Nothing more was said.
    None,
    /// It was counted.
    Count,
    /// Damaged by light, damp, moth, or otherwise.
    Damaged,
    /// Not to be found.
    Lost,
    /// Found again.
    Found,
    /// Cut for a sample.
    Sample,
    /// Used by the shop itself.
    OwnUse,
    /// Sent back to the supplier.
    SentBack,
    /// A flaw was cut out.
    Flaw,
    /// Cut wrongly.
    Miscut,
    /// The end was not straight.
    Squaring,
    /// An end too short to keep.
    EndBit,
    /// Something else: the note says what.
    Other,
}

impl Reason {
    /// Every reason.
    pub const ALL: [Reason; 13] = [
        Reason::None,
        Reason::Count,
        Reason::Damaged,
        Reason::Lost,
        Reason::Found,
        Reason::Sample,
        Reason::OwnUse,
        Reason::SentBack,
        Reason::Flaw,
        Reason::Miscut,
        Reason::Squaring,
        Reason::EndBit,
        Reason::Other,
    ];

    /// As it is kept.
    pub const fn as_str(self) -> &'static str {
        match self {
            Reason::None => "",
            Reason::Count => "count",
            Reason::Damaged => "damaged",
            Reason::Lost => "lost",
            Reason::Found => "found",
            Reason::Sample => "sample",
            Reason::OwnUse => "own use",
            Reason::SentBack => "sent back",
            Reason::Flaw => "flaw",
            Reason::Miscut => "miscut",
            Reason::Squaring => "squaring",
            Reason::EndBit => "end bit",
            Reason::Other => "other",
        }
    }

    /// Read back.
    pub fn read(text: &str) -> Option<Reason> {
        Reason::ALL.into_iter().find(|reason| reason.as_str() == text)
    }
}

/// A cut as it was recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutRow {
    /// Its name.
    pub id: CutId,
    /// What it was for.
    pub reservation: ReservationId,
    /// When it was recorded.
    pub at: At,
    /// The shop's day it counts for.
    pub day: i32,
    /// Whether it was taken back.
    pub undone: bool,
    /// What was cut, piece by piece.
    pub parts: Vec<CutPart>,
}

/// What was cut off one piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutPart {
    /// The piece.
    pub piece: PieceId,
    /// The line it was for, by its number.
    pub line: u32,
    /// All that came off the piece.
    pub taken: Amount,
    /// How much of that was spoiled.
    pub spoiled: Amount,
    /// Why it was spoiled.
    pub why: Reason,
    /// How much of that is kept at full width, as remnants.
    pub kept: Amount,
    /// Cut shapes it gave.
    pub shapes: u32,
    /// How much less the line wanted after it: what was used, or all that it still wanted
    /// where it was done with it. Taken back, the line wants so much more again.
    pub served: Amount,
    /// The flaws of the piece before.
    pub flaws_before: Vec<Flaw>,
    /// The remnants it left.
    pub remnants: Vec<PieceId>,
}

impl CutPart {
    /// What was used: all that came off, less what was spoiled and what is kept.
    pub fn used(&self) -> Amount {
        self.taken - self.spoiled - self.kept
    }
}

/// Where an order at a supplier stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum OrderState {
    /// Something is still to come.
    Open,
    /// All has come.
    Filled,
    /// What has not come will not come.
    Cancelled,
}

impl OrderState {
    /// Every state.
    pub const ALL: [OrderState; 3] = [OrderState::Open, OrderState::Filled, OrderState::Cancelled];

    /// As it is kept.
    pub const fn as_str(self) -> &'static str {
        match self {
            OrderState::Open => "open",
            OrderState::Filled => "filled",
            OrderState::Cancelled => "cancelled",
        }
    }

    /// Read back.
    pub fn read(text: &str) -> Option<OrderState> {
        OrderState::ALL.into_iter().find(|state| state.as_str() == text)
    }
}

/// An order at a supplier.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// Its name.
    pub id: OrderId,
    /// Who is to send it.
    pub supplier: String,
    /// Where it stands.
    pub state: OrderState,
    /// When it was placed.
    pub at: At,
    /// Numbered day on which it is expected.
    pub expected_day: i32,
    /// Whatever else there is to say.
    pub note: String,
    /// What was ordered.
    pub lines: Vec<OrderLine>,
}

/// One line of an order at a supplier.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OrderLine {
    /// Its number, from 1.
    pub number: u32,
    /// What was ordered.
    pub material: Material,
    /// How much.
    pub ordered: Amount,
    /// How much has come.
    pub received: Amount,
}

impl OrderLine {
    /// What is still to come, where the order stands open.
    pub fn outstanding(&self) -> Amount {
        (self.ordered - self.received).or_none()
    }
}
