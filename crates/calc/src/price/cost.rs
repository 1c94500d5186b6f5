//! What an order costs the shop: materials, the bench and its overhead.

use pennantry_measure::{BenchTime, Length, Money, Rounding};

use super::{CostKind, CostLine, Taken};
use crate::cutting::ClothUse;
use crate::shop::{Driver, Shop};

/// The cost lines of what an order takes; they sum to its cost.
pub(super) fn lines(shop: &Shop, taken: &Taken) -> Vec<CostLine> {
    let rounding = Rounding::HalfUp;
    // room for the postage, the fee and the surplus too
    let mut lines = Vec::with_capacity(taken.cloth.len() + taken.used.len() + 7);
    for (fabric, charged) in by_fabric(taken.cloth) {
        if let Some(rate) = shop.fabrics.get(fabric).map(|fabric| fabric.price) {
            lines.push(CostLine { kind: CostKind::Cloth(fabric), amount: rate.per_metre(charged, rounding) });
        }
    }
    let mut line = |kind, amount| lines.push(CostLine { kind, amount });
    line(CostKind::Binding, taken.binding);
    line(CostKind::Thread, taken.thread);
    for used in taken.used {
        line(CostKind::Used(used.kind), used.cost);
    }
    line(CostKind::Bench, shop.bench.wage.per_hour(taken.labour.total, rounding));
    if shop.pricing.overhead.micro_minor() != 0 {
        line(CostKind::Overhead, shop.pricing.overhead.per_hour(taken.labour.total, rounding));
    }
    lines
}

/// The sum of the lines.
pub(super) fn total(lines: &[CostLine]) -> Money {
    lines.iter().map(|line| line.amount).sum()
}

/// A cost that `more` strings of the same order certainly do not fall below, `strings` being
/// what `lines` are of.
///
/// What the bench does for each string, pennant, metre, end, letter and trimming grows with
/// the strings, where it does not get faster with practice; all else is at least what it
/// is now, but for a twentieth of it that a simpler plan or a whole roll may save.
pub(super) fn least_at(shop: &Shop, taken: &Taken, lines: &[CostLine], strings: u32, more: u32) -> Money {
    let bench = &shop.bench;
    let grows = |driver| {
        matches!(
            driver,
            Driver::String
                | Driver::Pennant
                | Driver::Metre
                | Driver::End
                | Driver::Letter
                | Driver::Trimming
        )
    };
    let even: i64 = taken
        .labour
        .operations
        .iter()
        .filter(|done| {
            let operation = bench.operations.get(done.operation);
            operation.is_some_and(|o| grows(o.driver) && !(bench.learning && o.learning.is_some()))
        })
        .map(|done| done.time.milli_minutes())
        .sum();
    let (strings, more) = (i64::from(strings.max(1)), i64::from(more));
    // a time by metres is taken up to a thousandth once for each operation
    let rounded = i64::try_from(bench.operations.len()).unwrap_or(0) * more;
    let grown = even / strings * (more - strings) - rounded;
    let time = taken.labour.total + BenchTime::from_milli_minutes(grown.max(0));
    let bench_cost = [bench.wage, shop.pricing.overhead].map(|rate| rate.per_hour(time, Rounding::Down));
    let other = lines.iter().filter(|line| !matches!(line.kind, CostKind::Bench | CostKind::Overhead));
    let other: Money = other.map(|line| line.amount).sum();
    other.scaled(19, 20, Rounding::Down) + bench_cost.into_iter().sum()
}

/// The length charged of each fabric, whatever is cut from it, in the order first used.
fn by_fabric(cloth: &[ClothUse]) -> Vec<(usize, Length)> {
    let mut charged: Vec<(usize, Length)> = Vec::with_capacity(cloth.len());
    for used in cloth {
        match charged.iter_mut().find(|(fabric, _)| *fabric == used.fabric) {
            Some((_, sum)) => *sum += used.charged,
            None => charged.push((used.fabric, used.charged)),
        }
    }
    charged
}
