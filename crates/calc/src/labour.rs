//! Bench time, operation by operation.

use pennantry_measure::{BenchTime, Length, Percent, Rounding, divide};

use crate::shop::{Allowance, Construction, Driver, Operation, Shop};

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
    shop.bench
        .operations
        .iter()
        .filter(|operation| operation.driver == driver && operation.serves(construction))
        .fold(BenchTime::ZERO, |sum, operation| sum + operation.time)
}

/// Bench time for what is counted.
pub fn labour(shop: &Shop, construction: Construction, counts: &Counts) -> Labour {
    let bench = &shop.bench;
    let mut operations = Vec::with_capacity(bench.operations.len());
    let (mut work, mut set_up) = (BenchTime::ZERO, BenchTime::ZERO);
    for (operation, place) in bench.operations.iter().zip(0..) {
        let count = counts.of(operation.driver);
        if !operation.serves(construction) || count == 0 {
            continue;
        }
        let time = time(operation, count);
        work = work + time;
        if operation.driver == Driver::Order {
            set_up = set_up + time;
        }
        operations.push(OperationTime { operation: place, count, time });
    }
    let total = allowed(work, bench.allowance);
    let allowance = BenchTime::from_milli_minutes(total.milli_minutes() - work.milli_minutes());
    let strings = i128::from(counts.strings.max(1));
    let set_up = i128::from(allowed(set_up, bench.allowance).milli_minutes());
    let set_up_per_string = milli(divide(set_up, strings, Rounding::Up));
    Labour { operations, work, allowance, total, set_up_per_string }
}

fn time(operation: &Operation, count: i64) -> BenchTime {
    match operation.driver {
        Driver::Metre => operation.time.per_metre(Length::from_um(count)),
        _ => operation.time * count,
    }
}

/// Work with its allowance, up to the next thousandth of a minute.
fn allowed(work: BenchTime, allowance: Allowance) -> BenchTime {
    let whole = i128::from(Percent::WHOLE.milli());
    let work = i128::from(work.milli_minutes());
    milli(match allowance {
        Allowance::OfWork(share) => divide(work * (whole + i128::from(share.milli())), whole, Rounding::Up),
        Allowance::OfShift(share) => {
            divide(work * whole, (whole - i128::from(share.milli())).max(1), Rounding::Up)
        }
    })
}

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
