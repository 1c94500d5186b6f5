//! What can be asked of the ledger. Plain data: the same commands in the same order give the
//! same rows, whichever engine runs them.

use pennantry_measure::Length;

use super::{
    Amount, At, ChangeId, CutId, Flaw, Material, OrderId, PieceId, PieceKind, Reason, ReservationId,
};

/// A command and what is around it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Envelope {
    /// Name of the change that it makes.
    pub id: ChangeId,
    /// The instant, as the door read it. PostgreSQL judges by its own clock instead.
    pub at: At,
    /// The shop's day at that instant, numbered.
    pub day: i32,
    /// Who asks, for the record.
    pub actor: String,
    /// The request it came in, where it may come again.
    pub request: Option<Request>,
    /// What is asked.
    pub command: Command,
}

/// A request that may be sent again: the same scope and key with the same body get the first
/// answer and change nothing.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Request {
    /// Whose key it is, and of which call.
    pub scope: String,
    /// The key.
    pub key: String,
    /// Digest of what was asked.
    pub body: [u8; 32],
}

/// What can be asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Command {
    /// Puts pieces on the shelf.
    Receive(Receive),
    /// Records what is so with a piece: a count, flaws, a loss, another place.
    Adjust(Adjust),
    /// Takes cloth for a buyer, until an instant.
    Reserve(Reserve),
    /// Gives a hold more time.
    Extend(Extend),
    /// Makes a hold a promise.
    Confirm(Confirm),
    /// Lets a hold go.
    Release(Release),
    /// Calls a reservation off, cut or not.
    Cancel(Cancel),
    /// Puts other cloth in the place of what a reservation still has to be cut.
    Amend(Amend),
    /// Records what the bench has cut.
    Cut(Cut),
    /// Takes a cut back.
    Undo(Undo),
    /// Places an order at a supplier.
    Place(Place),
    /// Calls off what has not come.
    CancelOrder(CancelOrder),
    /// Ends overdue holds.
    Sweep(Sweep),
}

/// Puts pieces on the shelf, all or none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Receive {
    /// The pieces.
    pub pieces: Vec<NewPiece>,
    /// The order that they fill, if one.
    pub order: Option<OrderId>,
}

/// A piece that comes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewPiece {
    /// Its name.
    pub id: PieceId,
    /// What it is.
    pub kind: PieceKind,
    /// Of what.
    pub material: Material,
    /// Dye lot.
    pub lot: String,
    /// Usable width; nought where it has none.
    pub width: Length,
    /// What it holds.
    pub amount: Amount,
    /// Flaws, from the free end.
    pub flaws: Vec<Flaw>,
    /// Where it is put.
    pub location: String,
    /// What it cost in all.
    pub cost_minor: Option<i64>,
    /// Who it came from.
    pub supplier: String,
    /// How the supplier calls it.
    pub supplier_reference: String,
    /// Certificates, by their numbers.
    pub certificates: Vec<String>,
}

/// Records what is so with a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Adjust {
    /// The piece.
    pub piece: PieceId,
    /// What is so.
    pub what: Adjustment,
    /// Whatever else there is to say.
    pub note: String,
}

/// What is so with a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Adjustment {
    /// So much lies on it.
    Counted(Amount),
    /// So much of it is gone, and why.
    Gone(Amount, Reason),
    /// So much was found that was not on the books.
    Found(Amount),
    /// These are its flaws, all of them, from the free end.
    Flaws(Vec<Flaw>),
    /// It has these flaws beside those that are known; what meets becomes one.
    MoreFlaws(Vec<Flaw>),
    /// It lies there now.
    Moved(String),
}

/// Takes cloth for a buyer. All of its lines, or none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reserve {
    /// Name of the reservation.
    pub id: ReservationId,
    /// Who takes it.
    pub holder: String,
    /// Most live holds of that holder, this one among them; none without a limit.
    pub most_holds: Option<u32>,
    /// For how many seconds.
    pub seconds: i64,
    /// The quote.
    pub quote: String,
    /// Bench time it books once confirmed.
    pub bench_milli_minutes: i64,
    /// Numbered day on which it is to leave.
    pub leave_day: Option<i32>,
    /// What is sold, opaque.
    pub sold: Vec<u8>,
    /// What it takes.
    pub lines: Vec<NewLine>,
    /// A hold of the same holder whose place it takes; that one's cloth may be used.
    pub supersedes: Option<ReservationId>,
}

/// What is taken of one piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewLine {
    /// The piece.
    pub piece: PieceId,
    /// Which need of the order it serves.
    pub item: u32,
    /// How much.
    pub amount: Amount,
    /// Cut shapes it gives.
    pub shapes: u32,
    /// The area of one of them in square micrometres, seams and all; nought where it is not known.
    pub shape_area: i64,
}

/// Gives a hold more time: so many seconds from now, but no more than so many from when it
/// was taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Extend {
    /// The hold.
    pub id: ReservationId,
    /// Seconds from now.
    pub seconds: i64,
    /// Most seconds in all.
    pub most_seconds: i64,
}

/// Makes a hold a promise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Confirm {
    /// The hold.
    pub id: ReservationId,
    /// The shop's own number of the order.
    pub order_reference: String,
}

/// Lets a hold go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Release {
    /// The hold.
    pub id: ReservationId,
}

/// Calls a reservation off. What is cut stays cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cancel {
    /// The reservation.
    pub id: ReservationId,
    /// Why.
    pub reason: String,
}

/// Puts other cloth in the place of what a live reservation still has to be cut, in one
/// transaction: the lines named end, these are added, each in full or nothing is changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Amend {
    /// The reservation.
    pub id: ReservationId,
    /// Lines that end, by their numbers.
    pub ends: Vec<u32>,
    /// What each line that wants something wanted when this was planned, by number; where that is
    /// not so any longer, nothing is done. None where whatever it wants may end.
    pub planned_on: Option<Vec<(u32, Amount)>>,
    /// Lines that are added.
    pub lines: Vec<NewLine>,
    /// The quote it is for from now on, with its bench time, day and what is sold.
    pub sale: Option<Sale>,
    /// Why.
    pub reason: String,
}

/// What an amended reservation is for from now on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sale {
    /// The quote.
    pub quote: String,
    /// Bench time it books.
    pub bench_milli_minutes: i64,
    /// Numbered day on which it is to leave.
    pub leave_day: Option<i32>,
    /// What is sold, opaque.
    pub sold: Vec<u8>,
}

/// Records what the bench has cut for a reservation.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cut {
    /// Name of the cut.
    pub id: CutId,
    /// What it was for.
    pub reservation: ReservationId,
    /// What was cut; empty where all that is still wanted was cut as planned.
    pub parts: Vec<Part>,
    /// The shop's day on which it was cut, where it is recorded later: at most [`Cut::DAYS`] days
    /// back. What it moves counts for that day.
    pub day: Option<i32>,
}

impl Cut {
    /// How many days back a cut may be recorded.
    pub const DAYS: i32 = 31;
}

/// What was cut off one piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// The line it was for, by its number.
    pub line: u32,
    /// The piece, where another one was cut than the line says.
    pub piece: Option<PieceId>,
    /// All that came off it.
    pub taken: Amount,
    /// How much of that was spoiled.
    pub spoiled: Amount,
    /// Why it was spoiled.
    pub why: Reason,
    /// Cut shapes it gave; all that the line has still to give where it is not said.
    pub shapes: Option<u32>,
    /// What of it is kept.
    pub remnants: Vec<NewRemnant>,
    /// Whether the line is done with it.
    pub finish: Finish,
    /// Whatever else there is to say.
    pub note: String,
}

/// Whether a line is done with a cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Finish {
    /// Once as much was used as it wanted.
    #[default]
    WhenEnough,
    /// Done, however little it took; what it still wanted is free again.
    Done,
}

/// What of a cut goes back on the shelf.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewRemnant {
    /// Its name.
    pub id: PieceId,
    /// Its length.
    pub length: Length,
    /// Its usable width.
    pub width: Length,
    /// Where it is put.
    pub location: String,
}

/// Takes a cut back, within [`Undo::SECONDS`] of when it was recorded, while nothing has been done
/// with what it left. What it moves counts for the day of the cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Undo {
    /// The cut.
    pub cut: CutId,
}

impl Undo {
    /// How long after a cut it can be taken back.
    pub const SECONDS: i64 = 600;
}

/// Places an order at a supplier.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// Name of the order.
    pub id: OrderId,
    /// Who is to send it.
    pub supplier: String,
    /// Numbered day on which it is expected.
    pub expected_day: i32,
    /// Whatever else there is to say.
    pub note: String,
    /// What is ordered.
    pub lines: Vec<NewOrderLine>,
}

/// One line of an order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewOrderLine {
    /// What.
    pub material: Material,
    /// How much.
    pub amount: Amount,
}

/// Calls off what has not come of an order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CancelOrder {
    /// The order.
    pub id: OrderId,
    /// Why.
    pub reason: String,
}

/// Ends overdue holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sweep {
    /// At most so many.
    pub most: u32,
}
