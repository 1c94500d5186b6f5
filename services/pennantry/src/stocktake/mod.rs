//! A stock-take as a file: comma-separated values, one piece a line.
//!
//! [`read`] either understands every cell or says of each that it does not: line, column,
//! value, what is allowed. What two readers would read in two ways is refused, never
//! guessed. [`write`](mod@write) writes the same columns, so that what was listed can be received.
//!
//! # What is read
//!
//! - UTF-8 with or without a byte order mark (RFC 3629); line ends of any kind; quotes as in
//!   RFC 4180.
//! - Parted by commas, semicolons or tabs: whichever the line of headers has.
//! - Lengths with their unit, or plain where the header says it: `length m`. Decimals behind
//!   a point or a comma. `2,500 m` is refused everywhere, and `2.500 m` where cells are not
//!   parted by commas: such files come from places where a point parts thousands.
//!
//! Lines in which every cell is empty are passed over: spreadsheets leave them at the end.

mod cell;
mod columns;
mod faults;
mod read;
mod write;

pub use self::columns::{COLUMNS, Column, documented};
pub use self::faults::Fault;
pub use self::read::{Row, read};
pub use self::write::{Written, write};

/// Pieces of one file at most: they come in one call, all of them or none.
pub const MOST_PIECES: usize = 5_000;
/// Bytes of one file at most.
pub const MOST_BYTES: usize = 8 * 1024 * 1024;

#[cfg(test)]
mod tests;
