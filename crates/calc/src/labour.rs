//! Bench time, operation by operation.
//!
//! A shop lists what is done at the bench, what each operation is counted by (its
//! *driver*) and the time of one. An order says how much there is of each driver.
//!
//! | driver | how many |
//! |---|---|
//! | order | 1 |
//! | string | strings |
//! | pennant | pennants of all strings |
//! | piece | pieces of cloth cut for pennants, spares too |
//! | outline | outlines cut, each through all layers of its lay |
//! | layer | layers spread |
//! | metre | overall length of all strings, to the micrometre |
//! | end | 2 × strings |
//! | join | joins in the binding |
//! | letter | letters of all strings, without spaces |
//! | trimming | trimmings of all strings |
//!
//! | figure | formula | rounding |
//! |---|---|---|
//! | an operation | time of one × how many | none; by metres up to the thousandth of a minute |
//! | an operation that gets faster | the curve of [`learned_total`] | up |
//! | work | sum of the operations | none |
//! | total, allowance of work `A` | `work · (1 + A)` | up |
//! | total, allowance of the shift `A` | `work / (1 − A)` | up |
//! | allowance | total − work | none |
//! | set-up of a string | operations counted by the order, allowance on top, / strings | up |
//!
//! # Allowance
//! Time for rest and interruptions stands on top of the operations' times. Two readings
//! of the same percentage are published: a share of the *work* (garment work study) and
//! a share of the *shift* (course notes after Konz). 15 % is a factor of 1.150 or of
//! 1.176, so the shop says which. Of 480 minutes of shift, 5 % leave 456 of work:
//! `456 / 0.95 = 480`.
//!
//! # Learning
//! Off unless the shop turns it on, and then only for operations that say how. The time
//! of one is then that of the *first* one, and practice begins anew with every order.
//! What is counted by metres is learned by whole metres: the last part of one is taken at
//! the pace of the metre that it belongs to.
//!
//! # Example
//! 29 pennants at 2.5 minutes, 6.8 m at 2 minutes and 15 minutes of set-up are
//! `72.5 + 13.6 + 15 = 101.1` minutes; 15 % of the work make it 116.265.

use pennantry_measure::{BenchTime, Length, Percent, Rounding, divide};

use self::learning::{BILLION, Curve};
use crate::shop::{Construction, Driver, Learning, Operation, Shop};

pub use self::learning::{learned_total, learned_unit};
pub use self::study::{from_tmu, needle_time, standard_time};

mod learning;
mod study;
#[cfg(test)]
mod tests;

/// Micrometres in a metre.
const METRE: i64 = 1_000_000;

/// How much there is of whatever operations are counted by, for all strings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Strings.
    pub strings: u32,
    /// Pennants.
    pub pennants: u32,
    /// Pieces of cloth cut for pennants, spares among them.
    pub pieces: u32,
    /// Outlines cut, each through all layers of its lay.
    pub outlines: u32,
    /// Layers spread.
    pub layers: u32,
    /// Overall length.
    pub overall: Length,
    /// Joins in the binding.
    pub joins: u32,
    /// Letters.
    pub letters: u32,
    /// Trimmings.
    pub trimmings: u32,
}

/// Bench time for all strings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Labour {
    /// What is done, in the order of the work; operations that come to nothing are left out.
    pub operations: Vec<OperationTime>,
    /// The sum of the operations.
    pub work: BenchTime,
    /// What the allowance adds.
    pub allowance: BenchTime,
    /// Both together.
    pub total: BenchTime,
    /// What is done once an order, with its allowance, spread over the strings.
    pub set_up_per_string: BenchTime,
    /// The same spread over the metres of all strings.
    pub set_up_per_metre: BenchTime,
}

/// One operation's time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OperationTime {
    /// Place of the operation in the bench's list.
    pub operation: usize,
    /// How many, or how many micrometres where it is counted by metres.
    pub count: i64,
    /// Time, before the allowance.
    pub time: BenchTime,
}

/// The time that one more of what a driver counts takes, all its operations together,
/// without learning and allowance.
pub fn time_of(shop: &Shop, construction: Construction, driver: Driver) -> BenchTime {
    let operations = shop.bench.operations.iter();
    let counted = operations.filter(|o| o.driver == driver && o.serves(construction));
    milli(counted.map(|operation| i128::from(operation.time.milli_minutes())).sum())
}

/// Bench time for what is counted. Operations that are not done for the construction, and
/// those of which there is nothing to do, are left out.
pub fn labour(shop: &Shop, construction: Construction, counts: &Counts) -> Labour {
    let bench = &shop.bench;
    let mut operations = Vec::with_capacity(bench.operations.len());
    let (mut work, mut set_up) = (0, 0);
    for (operation, place) in bench.operations.iter().zip(0..) {
        let count = counts.of(operation.driver);
        if !operation.serves(construction) || count == 0 {
            continue;
        }
        let time = match operation.learning.filter(|_| bench.learning) {
            Some(learning) => learned(operation, count, learning),
            None => even(operation, count),
        };
        work += i128::from(time.milli_minutes());
        if operation.driver == Driver::Order {
            set_up += i128::from(time.milli_minutes());
        }
        operations.push(OperationTime { operation: place, count, time });
    }
    let allowed = |work| standard_time(milli(work), Percent::WHOLE, bench.allowance);
    let total = allowed(work);
    let allowance = milli(i128::from(total.milli_minutes()) - work);
    let strings = i128::from(counts.strings.max(1));
    let set_up = i128::from(allowed(set_up).milli_minutes());
    let set_up_per_string = milli(divide(set_up, strings, Rounding::Up));
    let set_up_per_metre = milli(divide(set_up * 1_000_000, counts.overall.wide(), Rounding::Up));
    Labour { operations, work: milli(work), allowance, total, set_up_per_string, set_up_per_metre }
}

/// So many, all at the same pace.
fn even(operation: &Operation, count: i64) -> BenchTime {
    match operation.driver {
        Driver::Metre => operation.time.per_metre(Length::from_um(count)),
        _ => milli(i128::from(operation.time.milli_minutes()) * i128::from(count)),
    }
}

/// So many, faster with practice.
fn learned(operation: &Operation, count: i64, learning: Learning) -> BenchTime {
    let narrow = |count: i64| u32::try_from(count.max(0)).unwrap_or(u32::MAX);
    if operation.driver != Driver::Metre {
        return learned_total(operation.time, narrow(count), learning);
    }
    let (metres, part) = (narrow(count / METRE), i128::from(count % METRE));
    let curve = Curve::new(learning);
    // the whole metres and the part, in billionths of millionths, rounded once
    let share = curve.total(metres) * i128::from(METRE) + curve.unit(metres.saturating_add(1)) * part;
    let wide = i128::from(operation.time.milli_minutes()).saturating_mul(share);
    milli(divide(wide, BILLION * i128::from(METRE), Rounding::Up))
}

/// Back to a time; nothing within the bounds comes near the ends of the type.
fn milli(wide: i128) -> BenchTime {
    BenchTime::from_milli_minutes(i64::try_from(wide).unwrap_or(i64::MAX))
}

impl Counts {
    /// How much there is of what a driver counts; micrometres where it counts metres.
    pub fn of(&self, driver: Driver) -> i64 {
        match driver {
            Driver::Order => 1,
            Driver::String => self.strings.into(),
            Driver::Pennant => self.pennants.into(),
            Driver::Piece => self.pieces.into(),
            Driver::Outline => self.outlines.into(),
            Driver::Layer => self.layers.into(),
            Driver::Metre => self.overall.um(),
            Driver::End => i64::from(self.strings) * 2,
            Driver::Join => self.joins.into(),
            Driver::Letter => self.letters.into(),
            Driver::Trimming => self.trimmings.into(),
        }
    }
}
