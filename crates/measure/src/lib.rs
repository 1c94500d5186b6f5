//! Measures of the shop as whole numbers.
//!
//! Every figure of Pennantry is one of these types, and each has one smallest
//! unit: lengths are micrometres, areas square micrometres, money the minor unit of
//! its currency, rates a millionth of a minor unit, bench time a thousandth of a
//! minute, shares a thousandth of a percent, forces a tenth of a newton. There is no
//! floating point here, so the same sum is the same on every machine.
//!
//! A division is the only place where a figure can lose something, so every
//! division names its [`Rounding`]:
//!
//! | figure | type | smallest unit | rounded |
//! |---|---|---|---|
//! | length | [`Length`] | micrometre | promised: half up; needed: up |
//! | area | [`Area`] | square micrometre | never |
//! | money | [`Money`] | minor unit | half up |
//! | rate | [`Rate`] | millionth of a minor unit | never: only its product is |
//! | bench time | [`BenchTime`] | thousandth of a minute | up |
//! | mass | [`Mass`] | milligram | half up |
//! | share | [`Percent`] | thousandth of a percent | never |
//! | force | [`Force`] | tenth of a newton | never |
//!
//! [`bounds`] is the table of what may be asked at all, [`written`] reads lengths as people
//! write them, and [`text`] knows what in their words cannot be seen.
//!
//! ```
//! use pennantry_measure::{Length, Rounding, bounds, divide, written};
//! let wanted = written::length("6.2 m").unwrap();
//! assert!(bounds::LENGTH.holds(wanted));
//! // 29 pennants of 190 mm leave 690 mm for 28 gaps
//! let left = wanted - Length::from_mm(190) * 29;
//! assert_eq!(divide(left.wide(), 28, Rounding::HalfUp), 24_643);
//! ```

pub mod bounds;
mod force;
mod length;
mod mass;
mod money;
mod rounding;
mod share;
pub mod text;
mod time;
pub mod written;

pub use force::Force;
pub use length::{Area, Length};
pub use mass::{Mass, MassPerArea, MassPerLength};
pub use money::{Money, Rate};
pub use rounding::{Rounding, ceil_sqrt, divide};
pub use share::Percent;
pub use time::BenchTime;
