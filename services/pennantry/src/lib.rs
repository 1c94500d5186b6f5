//! The staff command line: a plain gRPC client of the server's private door.
//!
//! [`cli`] says what can be typed, [`flags`] which field of the contract each flag fills,
//! [`enquiry`] fills them, [`ask`] sends, [`sheet`] prints, [`program`] puts them together
//! and knows the exit codes. [`length`] and [`words`] stand between what people write and
//! what the contract says. Nothing is calculated here: every figure of a sheet stands in
//! the answer, and a place in the drawing follows from it.

pub mod ask;
pub mod cli;
pub mod enquiry;
pub mod flags;
pub mod length;
pub mod program;
pub mod sheet;
pub mod words;

#[cfg(test)]
mod fixture;
