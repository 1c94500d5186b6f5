//! Measures of the shop as whole numbers.
//!
//! Every figure of Pennantry is one of these types, and each has one smallest
//! unit: lengths are micrometres, areas square micrometres, money the minor unit of
//! its currency, rates a millionth of a minor unit, bench time a thousandth of a
//! minute, shares a thousandth of a percent. There is no floating point here, so
//! the same sum is the same on every machine.
//!
//! A division is the only place where a figure can lose something, so every
//! division names its [`Rounding`].

pub mod bounds;
mod length;
mod money;
mod rounding;
mod share;
mod time;
pub mod written;

pub use length::{Area, Length};
pub use money::{Money, Rate};
pub use rounding::{Rounding, ceil_sqrt, divide};
pub use share::Percent;
pub use time::BenchTime;
