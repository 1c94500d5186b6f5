//! What the shop does with its stock: planning on what lies on the shelf, holding it,
//! recording what the bench did.
//!
//! | file | what |
//! |---|---|
//! | `needs` | what an order needs of each material, item by item |
//! | `plan` | from which pieces each item is taken, or how much of it is missing |
//! | `expected` | when what is missing is expected |
//! | `hold` | taking it for a buyer: plan, try, and plan again where somebody was quicker |
//! | `amend` | planning a reservation anew |
//! | `proposals` | other pieces that would make a short promise good |
//! | `board` | what quotes look at without waiting: bench time booked, orders, what is kept |
//!
//! Nothing here reads a clock or rolls dice: instants, names and the names of changes are
//! passed in.

mod amend;
mod board;
mod expected;
mod hold;
mod needs;
mod plan;
mod proposals;

use std::sync::{Arc, RwLock};

use jiff::Timestamp;
use pennantry_ledger::Ledger;
use pennantry_ledger::rules::At;

pub use amend::{AmendError, Anew, AnewSale, Lack, lacking};
pub use board::Board;
pub use expected::expected;
pub use hold::{Envelope, Hold, HoldError, TRIES};
pub use needs::{Charged, Item, Wanted, needs};
pub use plan::{Look, Plan, Take, Use, plan, without};
pub use proposals::{Lacking, MOST as MOST_PROPOSED, Proposal, proposals};

/// The stock, and how long and how often it is held.
#[derive(Debug, Clone)]
pub struct Stock {
    /// Where it is kept.
    pub ledger: Ledger,
    /// What holds may be.
    pub holds: Holds,
    /// What is looked at without waiting. Clones share it.
    board: Arc<RwLock<Arc<Board>>>,
}

impl Stock {
    /// A stock. Its [`Board`] is empty until it is [`refresh`](Stock::refresh)ed.
    pub fn new(ledger: Ledger, holds: Holds) -> Stock {
        Stock { ledger, holds, board: Arc::default() }
    }
}

/// What holds may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Holds {
    /// Seconds where none are said.
    pub seconds: u32,
    /// Most seconds at once at the public door.
    pub public_most: u32,
    /// Most seconds in all, from when it was taken, at the public door.
    pub public_total: u32,
    /// Most seconds in all for staff.
    pub staff_total: u32,
    /// Most live holds of one caller at the public door.
    pub open: u32,
}

impl Default for Holds {
    /// A quarter of an hour to pay, half an hour at once, two hours in all; two weeks for
    /// staff; five holds a caller (choices of this program, no source).
    fn default() -> Holds {
        Holds { seconds: 900, public_most: 1_800, public_total: 7_200, staff_total: 1_209_600, open: 5 }
    }
}

/// An instant as the ledger counts it, down to the microsecond.
///
/// ```
/// # use pennantry_app::stock::{at, instant};
/// let now: jiff::Timestamp = "2026-11-24T10:00:00Z".parse().unwrap();
/// assert_eq!(at(now).0, 1_795_514_400_000_000);
/// assert_eq!(instant(at(now)), now);
/// ```
pub fn at(instant: Timestamp) -> At {
    At(instant.as_microsecond())
}

/// An instant of the ledger; one beyond the calendar is its end.
pub fn instant(at: At) -> Timestamp {
    Timestamp::from_microsecond(at.0).unwrap_or(if at.0 < 0 { Timestamp::MIN } else { Timestamp::MAX })
}
