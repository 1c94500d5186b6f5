//! How the nightly report looks: a page, tables for spreadsheets, a short text.
//!
//! All of it is made from one message, [`BurnReport`](pennantry_contract::v1::BurnReport), and from
//! nothing else: no clock, no stock, no catalogue. So the same report always gives the same bytes.
//!
//! | function | for whom | what |
//! |---|---|---|
//! | [`page()`] | the owner, in a browser or on paper | first screen, orders, wastage, drawings, workings |
//! | [`csv()`] | a spreadsheet | one row a fabric |
//! | [`proposals_csv`] | whoever writes the orders | one row a proposal, by supplier |
//! | [`text()`] | standard output of a timer | what needs doing, then totals, 80 columns wide |
//!
//! # Rules that all of them keep
//!
//! - **Rounding.** The message has millimetres; people read metres with two decimals, rounded to the
//!   nearest. Tables for spreadsheets have every digit of the message.
//! - **Unknown is said in words**, with the reason where the message has one: never a nought, never
//!   a dash alone.
//! - **How pressing something is, is a word** ("Today", "Soon", "Look") and the stitch of a rule, never a colour.
//! - **Text from data is data.** It is escaped, and characters that would turn the direction of a line
//!   or steer a terminal are shown by their number.
//!
//! # Example
//!
//! ```
//! use pennantry_contract::v1::{BurnFabric, BurnReport};
//!
//! let kelp = BurnFabric { name: String::from("Kelp"), free_mm: 12_345.0, ..Default::default() };
//! let report = BurnReport { date: String::from("2026-12-07"), fabrics: vec![kelp], ..Default::default() };
//! assert!(pennantryd::report::text(&report).starts_with("Burn rate on Mon 7 Dec 2026"));
//! assert!(pennantryd::report::page(&report, &[]).contains("12.35"));
//! ```

mod absent;
pub(crate) mod command;
mod csv;
mod drawing;
mod fabric;
mod figures;
mod first;
pub mod nightly;
mod page;
pub mod run;
pub mod runs;
mod scale;
mod text;
mod words;
mod workings;

pub use csv::{CsvError, csv, proposals_csv};
pub use page::{STYLE, nothing, page};
pub use text::text;
pub(crate) use words::Esc;

#[cfg(test)]
mod tests;
