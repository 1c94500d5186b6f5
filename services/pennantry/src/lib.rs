//! The staff command line: a plain gRPC client of the server's private door.
//!
//! [`cli`] says what can be typed, [`flags`] which field of the contract each flag fills,
//! [`enquiry`] fills them, [`ask`] sends, [`sheet`] prints, [`program`] puts them together
//! and knows the exit codes. [`length`], [`typed`] and [`words`] stand between what people
//! write and what the contract says. Nothing is calculated here: every figure of a sheet
//! stands in the answer, and a place in the drawing follows from it.
//!
//! For the shelf and the bench [`work`] has a function a command and [`print`](mod@print) what they
//! print; [`stocktake`] reads and writes files of pieces, [`request_id`] makes what is sent
//! twice be done once.

pub mod ask;
pub mod cli;
pub mod enquiry;
pub mod flags;
pub mod length;
pub mod print;
pub mod program;
pub mod request_id;
pub mod sheet;
pub mod stocktake;
pub mod typed;
pub mod words;
pub mod work;

#[cfg(test)]
mod fixture;
