//! Stock that is never sold twice.
//!
//! The ledger moves lengths of a material, or single things of it, between a few accounts;
//! it never hears of pennants. A **piece** is one thing on the shelf: a bolt, a remnant, a
//! roll of binding, a box of buttons. What lies on it is free, held or confirmed:
//!
//! ```text
//! left = free + held + confirmed,   left >= held + confirmed >= 0
//! ```
//!
//! Every change is a **command** ([`rules::Command`]). [`rules::decide`] turns a command and the
//! rows it needs into changes or a refusal, and touches nothing; an engine reads those rows,
//! writes those changes, and does so in one transaction with the answer to the command's
//! request and the events that tell of it. There are two engines, an embedded SQLite
//! ([`sqlite`]) and PostgreSQL ([`postgres`]); both keep the same rows and give the same
//! answers.
//!
//! What must not be here: a clock beyond the database's own, a pennant, a wire, a float.

pub mod rules;

pub use rules::report;

mod days;
mod engine;
pub mod postgres;
pub mod shelf;
pub mod sqlite;
pub mod stand;

pub use engine::{Applied, Booking, DaySum, Error, FindPieces, FindReservations, Ledger, Placed, Verified};
