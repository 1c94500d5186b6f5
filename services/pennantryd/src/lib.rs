//! The server of the shop, as a library so that tests and the benchmark can start it in
//! their own process and call its parts.
//!
//! A request goes through [`listen`] (sockets and their time), [`doors`] (one for each
//! wire), [`json`] and [`convert`] (contract to domain and back) to [`service`]; what
//! goes wrong is a [`failure`]. A quote is kept by nobody but its [`ticket`]; what was promised
//! of the shelf is in the [`stock`]. [`start()`] puts them together, [`cli`] is the program.

pub mod admin;
pub mod ask;
pub mod catalogue;
pub mod cli;
pub mod clock;
pub mod convert;
pub mod docs;
pub mod doors;
pub mod failure;
pub mod folder;
pub mod form;
pub mod invent;
pub mod json;
pub mod listen;
pub mod metrics;
pub mod names;
pub mod report;
pub mod serve;
pub mod service;
pub mod start;
pub mod stock;
pub mod telemetry;
pub mod ticket;

/// The use cases, for the benchmark: it calls them without a door.
pub use pennantry_app as app;
/// The ledger, for the benchmark likewise.
pub use pennantry_ledger as ledger;
pub use start::{Config, Running, StartError, start};

#[cfg(test)]
mod tests;
