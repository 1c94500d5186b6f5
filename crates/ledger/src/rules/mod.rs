//! What may happen to stock, and what it comes to. Pure: a command and rows in, changes or a
//! refusal out.
//!
//! | file | what |
//! |---|---|
//! | [`amount`](Amount), [`id`](PieceId) | the few plain types |
//! | [`rows`](Piece) | what is kept: pieces, reservations and their lines, cuts, orders |
//! | [`command`](Command) | what can be asked |
//! | [`change`](Change) | what is then written |
//! | [`outcome`](Outcome) | what is told |
//! | [`refusal`](Refusal) | why something is refused, in words |
//! | `decide` and below | the rules |
//! | [`roll`](DayUse) | what each day did with each material, as reports sum it up |
//! | [`report`] | whose a run of the report is |
//! | `settle` | who keeps what when a piece holds less than is promised |
//! | [`kept`] | how an outcome is kept, so that a repeated request gets the first answer |

mod amount;
mod change;
mod command;
mod decide;
mod found;
mod id;
pub mod kept;
mod outcome;
mod refusal;
pub mod report;
mod roll;
mod rows;
mod settle;

pub use amount::{Amount, At, Shown};
pub use change::{Account, Change, Event, EventKind, Movement, MovementKind};
pub use command::{
    Adjust, Adjustment, Amend, Cancel, CancelOrder, Command, Confirm, Cut, Envelope, Extend, Finish, NewLine,
    NewOrderLine, NewPiece, NewRemnant, Part, Place, Receive, Release, Request, Reserve, Sale, Sweep, Undo,
};
pub use decide::{Decision, decide, needs};
pub use found::{Needs, Rows};
pub use id::{ChangeId, CutId, OrderId, PieceId, ReservationId};
pub use outcome::{Outcome, Promise};
pub use refusal::{Refusal, Short};
pub use roll::{DayUse, MOST_NET, MOST_WIDTH, RollUp};
pub use rows::{
    Class, CutPart, CutRow, Flaw, Line, Material, Order, OrderLine, OrderState, Piece, PieceKind, Reason,
    Reservation, State,
};
pub use settle::{clear, stretches};

#[cfg(test)]
mod tests;
