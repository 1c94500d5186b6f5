//! The nightly report: how fast each fabric burns away, and what to order after it.
//!
//! ```text
//! survey   once a run: every fabric's weeks, the season they share, their value
//! fabric   one part: a row and its details; bounded work, nothing kept between two
//! whole    the order in which they stand, the back-test, what is to be said
//! ```
//!
//! | file | what |
//! |---|---|
//! | `given` | what a report is made from |
//! | `told` | what it says, parallel to the contract's messages |
//! | `almanac` | weeks and open days around the morning |
//! | `history` | use by day and week, and what cannot be seen in it |
//! | `survey` | what is worked once for all fabrics |
//! | `foresee` | what will be used, and what is usual |
//! | `least` | the least cloth that a string takes |
//! | `usable` | what of the free cloth an order can use |
//! | `levels` | reorder point, safety stock, order-up-to level |
//! | `advice` | what needs doing, in a sentence |
//! | `wastage`, `score`, `notes` | waste of thirteen weeks; methods by name; what is not known |
//! | `fabric`, `whole` | the parts, and the report |
//!
//! A report belongs to a morning: use is that of the days before it, the shelf is that of the
//! instant at which it was read, and each part says which. It owns no clock, dice, wire or file;
//! the same morning gives the same report. It never fails: what cannot be worked is absent, and a
//! note says why.

mod advice;
mod almanac;
mod fabric;
mod foresee;
mod given;
mod history;
mod least;
mod levels;
mod notes;
mod number;
mod score;
mod survey;
mod told;
mod usable;
mod wastage;
mod whole;
mod words;

pub use fabric::fabric;
pub use given::{BuyingTerms, Economic, FabricTerms, Morning, Terms, bench_open};
pub use least::{Least, least};
pub use survey::{Survey, survey};
pub use told::{
    BackTest, BackTestRow, Buying, ComingWeek, Detail, FabricReport, Gist, Lot, MethodScore, NOT_USED, Note,
    Order, PastWeek, Pressing, SeasonWeek, ShelfDay, Wastage, Whole,
};
pub use whole::whole;

#[cfg(test)]
mod tests;
