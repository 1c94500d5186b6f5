//! From a command and the rows it needs to changes, or a refusal.
//!
//! Every command goes the same way:
//!
//! 1. Holds whose time is over and whose pieces are all there are ended, and what they held goes to
//!    whoever is short of it. So nothing can be told from when the sweep last ran.
//! 2. The command is decided, on a working set of pieces and reservations as they become. A refusal
//!    drops the working set: it writes nothing, the ended holds of step 1 included.
//! 3. What facts take from promises is taken once, as things are after the last of them, and what
//!    has become free goes to whoever is short of it ([`settle`](super::settle)).
//! 4. What differs from the rows is written: one balance a piece, one head a reservation, every
//!    movement, every event, and what the movements add to each day's sums.
//!
//! | file | what |
//! |---|---|
//! | `work` | the working set: the only place where amounts are moved |
//! | `written` | what of it differs from the rows |
//! | `needs` | which rows a command needs |
//! | `receive`, `adjust` | what comes, and what is so |
//! | `reserve`, `amend` | what is taken for a buyer: lines, the one before superseded, others in their place |
//! | `hold` | extend, confirm, release, cancel |
//! | `cut`, `undo` | what the bench did, and that it did not |
//! | `order` | orders at suppliers |
//! | `sweep` | overdue holds |

use super::{Change, Command, Envelope, Outcome, Refusal, Rows};

mod adjust;
mod amend;
mod cut;
mod hold;
mod needs;
mod order;
mod receive;
mod reserve;
mod sweep;
mod undo;
mod work;
mod written;

pub use needs::needs;
use work::Work;

/// What is done.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Decision {
    /// What is written, in this order: pieces before what names them, rows before movements,
    /// movements before events, and last what is added to days, in the order of their keys.
    pub changes: Vec<Change>,
    /// What is told.
    pub outcome: Outcome,
}

/// Decides at an instant. The same command, rows and instant give the same decision.
///
/// # Errors
/// A refusal: nothing is to be written.
pub fn decide(envelope: &Envelope, rows: &Rows, now: super::At) -> Result<Decision, Refusal> {
    let mut work = Work::new(envelope, rows, now);
    sweep::end_overdue(&mut work)?;
    match &envelope.command {
        Command::Receive(command) => receive::receive(&mut work, command)?,
        Command::Adjust(command) => adjust::adjust(&mut work, command)?,
        Command::Reserve(command) => reserve::reserve(&mut work, command)?,
        Command::Extend(command) => hold::extend(&mut work, command)?,
        Command::Confirm(command) => hold::confirm(&mut work, command)?,
        Command::Release(command) => hold::release(&mut work, command)?,
        Command::Cancel(command) => hold::cancel(&mut work, command)?,
        Command::Amend(command) => amend::amend(&mut work, command)?,
        Command::Cut(command) => cut::cut(&mut work, command)?,
        Command::Undo(command) => undo::undo(&mut work, command)?,
        Command::Place(command) => order::place(&mut work, command)?,
        Command::CancelOrder(command) => order::cancel(&mut work, command)?,
        // all there is to do is done
        Command::Sweep(_) => {}
    }
    Ok(work.finish())
}
