//! The price, first step: what it costs, what stands over that, tax in it.
//!
//! | figure | formula | rounding |
//! |---|---|---|
//! | cost line | rate · what it takes | half up, once, at the product: rates are finer than money |
//! | cost | sum of the cost lines | none |
//! | net target | `cost / (1 − margin)` or `cost · (1 + mark-up)` | half up |
//! | goods | `net target · (1 + tax)` | half up |
//! | minimum charge | what is missing to the least charge | none |
//! | total | sum of the lines | none |
//! | tax | `total · r / (100 + r)` | half up |
//! | net | `total − tax` | none |
//! | surplus | `net − cost`, a cost line | none |
//!
//! The total is what the buyer pays and the source of the rest: tax is taken out of it
//! once and the net is what remains, so both sides add up whatever the rounding did.
//! Half up is away from nought, so a refund mirrors its charge. Half up for tax on
//! retail sales: HMRC, VAT Retailers manual (published, `VATREC12030`).

use pennantry_measure::{BenchTime, Length, Money, Percent, Rounding};

use crate::cutting::ClothUse;
use crate::notice::{Code, Notice};
use crate::shop::{Shop, Surplus};
use crate::sundries::{Used, UsedKind};

#[cfg(test)]
mod tests;

/// What an order costs the buyer and the shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Price {
    /// What the buyer pays for; sums to the total.
    pub lines: Vec<Line>,
    /// What the buyer pays, tax included.
    pub total: Money,
    /// The tax in the total.
    pub tax: Money,
    /// The total without the tax.
    pub net: Money,
    /// What the order costs the shop.
    pub cost: Money,
    /// What the net is made of; sums to it.
    pub cost_lines: Vec<CostLine>,
    /// What to look at.
    pub notices: Vec<Notice>,
}

/// A line that the buyer sees, tax included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    /// What for.
    pub kind: LineKind,
    /// How much.
    pub amount: Money,
}

/// What a buyer pays for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    /// The bunting.
    Goods,
    /// What is missing to the least charge for an order.
    MinimumCharge,
}

/// A part of the net.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CostLine {
    /// What for.
    pub kind: CostKind,
    /// How much.
    pub amount: Money,
}

/// What the net goes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CostKind {
    /// Cloth of one fabric, by its place in the shop.
    Cloth(usize),
    /// Binding.
    Binding,
    /// Thread.
    Thread,
    /// What is used up by the piece.
    Used(UsedKind),
    /// Work at the bench.
    Bench,
    /// What stands over the cost.
    Surplus,
}

/// What an order takes, as far as it costs.
#[derive(Debug, Clone, Copy)]
pub struct Taken<'a> {
    /// The cloth.
    pub cloth: &'a [ClothUse],
    /// What the binding costs.
    pub binding: Money,
    /// What the thread costs.
    pub thread: Money,
    /// What is used up by the piece.
    pub used: &'a [Used],
    /// Bench time.
    pub bench: BenchTime,
}

/// Prices an order by what it takes.
pub fn price(shop: &Shop, taken: &Taken) -> Price {
    let rounding = Rounding::HalfUp;
    let mut cost_lines: Vec<CostLine> = by_fabric(taken.cloth)
        .into_iter()
        .filter_map(|(fabric, charged)| {
            let rate = shop.fabrics.get(fabric)?.price;
            Some(CostLine { kind: CostKind::Cloth(fabric), amount: rate.per_metre(charged, rounding) })
        })
        .collect();
    let mut line = |kind, amount| cost_lines.push(CostLine { kind, amount });
    line(CostKind::Binding, taken.binding);
    line(CostKind::Thread, taken.thread);
    for used in taken.used {
        line(CostKind::Used(used.kind), used.cost);
    }
    line(CostKind::Bench, shop.bench.wage.per_hour(taken.bench, rounding));
    let cost: Money = cost_lines.iter().map(|line| line.amount).sum();

    let pricing = &shop.pricing;
    let goods = from_cost(cost, pricing.surplus, pricing.tax_rate);
    let mut lines = vec![Line { kind: LineKind::Goods, amount: goods }];
    let mut notices = Vec::new();
    if goods < pricing.minimum {
        lines.push(Line { kind: LineKind::MinimumCharge, amount: pricing.minimum - goods });
        let message = format!(
            "the goods come to {}; the least charge for an order is {}",
            written(shop, goods),
            written(shop, pricing.minimum)
        );
        notices.push(Notice { code: Code::MinimumCharge, field: None, message });
    }
    let total: Money = lines.iter().map(|line| line.amount).sum();
    let tax = included_tax(total, pricing.tax_rate);
    let net = total - tax;
    cost_lines.push(CostLine { kind: CostKind::Surplus, amount: net - cost });
    Price { lines, total, tax, net, cost, cost_lines, notices }
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

/// The goods' price, tax included, that a cost comes to. A margin is a share of the
/// price before tax, a mark-up a share of the cost. The catalogue keeps margins below
/// 100 %; one that is not counts as a thousandth of a percent below it.
///
/// ```
/// use pennantry_calc::price::from_cost;
/// use pennantry_calc::shop::Surplus;
/// use pennantry_measure::{Money, Percent};
/// let (thirty, no_tax) = (Percent::from_milli(30_000), Percent::from_milli(0));
/// let cost = Money::from_minor(500);
/// assert_eq!(from_cost(cost, Surplus::Markup(thirty), no_tax), Money::from_minor(650));
/// assert_eq!(from_cost(cost, Surplus::Margin(thirty), no_tax), Money::from_minor(714));
/// ```
pub fn from_cost(cost: Money, surplus: Surplus, tax_rate: Percent) -> Money {
    let whole = i128::from(Percent::WHOLE.milli());
    let net = match surplus {
        Surplus::Margin(share) => {
            cost.scaled(whole, (whole - i128::from(share.milli())).max(1), Rounding::HalfUp)
        }
        Surplus::Markup(share) => cost.scaled(whole + i128::from(share.milli()), whole, Rounding::HalfUp),
    };
    net.scaled(whole + i128::from(tax_rate.milli()), whole, Rounding::HalfUp)
}

/// The tax in a price that includes it: `gross · r / (100 + r)`, half up. The net is
/// what remains, never a product of its own.
///
/// ```
/// use pennantry_calc::price::included_tax;
/// use pennantry_measure::{Money, Percent};
/// let tax = included_tax(Money::from_minor(2_499), Percent::from_milli(20_000));
/// assert_eq!(tax, Money::from_minor(417)); // 4.165
/// ```
pub fn included_tax(gross: Money, rate: Percent) -> Money {
    let rate = i128::from(rate.milli());
    gross.scaled(rate, i128::from(Percent::WHOLE.milli()) + rate, Rounding::HalfUp)
}

/// An amount as a person writes it, `12.50 GBP`.
pub(crate) fn written(shop: &Shop, amount: Money) -> String {
    let digits = usize::from(shop.minor_digits);
    let sign = if amount.minor() < 0 { "-" } else { "" };
    // with a nought before the point
    let minor = format!("{:0>width$}", amount.minor().unsigned_abs(), width = digits + 1);
    let (major, rest) = minor.split_at(minor.len() - digits);
    let point = if digits == 0 { "" } else { "." };
    format!("{sign}{major}{point}{rest} {}", shop.currency)
}
