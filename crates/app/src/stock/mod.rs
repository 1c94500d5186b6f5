//! What the shop does with its stock: planning on what lies on the shelf, holding it,
//! recording what the bench did.

use pennantry_ledger::Ledger;

/// The stock, and how long and how often it is held.
#[derive(Debug, Clone)]
pub struct Stock {
    /// Where it is kept.
    pub ledger: Ledger,
    /// What holds may be.
    pub holds: Holds,
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
