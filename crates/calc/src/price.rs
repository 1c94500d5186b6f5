//! The price: from what an order costs, or from a list, to lines and a total.
//!
//! # The order of the steps
//!
//! | step | figure | formula | rounding |
//! |---|---|---|---|
//! | 1 | cost line | rate · what it takes | half up, once, at the product: rates are finer than money |
//! | | cost | sum of materials, bench and overhead | none |
//! | 2 | goods, cost-plus | `cost / (1 − margin)` or `cost · (1 + mark-up)`, then [fee and tax](Upon) | half up; with a fee up |
//! | | goods, by the metre | the price list | half up |
//! | 3 | [quantity break](with_breaks) | `goods · (1 − off)`, no more than at a break above | half up |
//! | 4 | [price point](to_point) | to an ending | up or to the nearest |
//! | 5 | minimum charge | what is missing to the least charge | none |
//! | 6 | rush | `goods with the minimum charge · share` | half up |
//! | 7 | discount | `goods with the minimum charge · share`, or an amount; at most all lines so far | half up |
//! | 8 | delivery | the postage of the parcel and its tax | half up |
//! | 9 | [tax](taxes) | in the lines, or a line on top of them | the shop's |
//! | | total | sum of the lines | none |
//! | | net | `total − tax` | none |
//! | | surplus | `net − cost − postage − fee`, a cost line | none |
//! | | per metre | `(total − delivery) / overall length of all strings`, tax in it | half up |
//! | | strings | the total [shared out](allocate) alike | none |
//!
//! Each step works on what the one before it gave, and every line is rounded before it is
//! summed, so the lines sum to the total whatever the rounding did. The tax is taken once
//! from what is paid and the net is what remains. Half up is away from nought, so a refund
//! mirrors its charge; where tax is rounded half up that is what HMRC does too (VAT Traders'
//! Records manual, `VATREC12030`, published).
//!
//! **Bench and overhead.** Both are paid for the minutes that an order takes, the allowance
//! among them. Overhead on an hour is what a year costs whatever is made, over the hours of
//! that year that go into orders: 15 300.00 over 1 100 hours is 13.91 (common practice).
//!
//! **The floor.** With a floor of `m`, the net is to be at least `cost / (1 − m)`, half up as
//! the price before tax that is aimed at, and postage and fee besides. Below it the shop is
//! told, the buyer is not. Where prices include a tax, that is from two minor units below it:
//! goods, delivery, tax and fee are each rounded, so a price that aims at the floor itself may
//! miss it by one. No price point is below it, whichever way it is moved.
//!
//! **Ends.** A loop or a tie has a price of its own in a price list only; with cost-plus the
//! bench's operations for ends count it.
//!
//! **The tax's day** is that of the order or that on which it leaves, as the shop says;
//! where nothing can be said about when it leaves, the day of the order.

use pennantry_measure::{Length, Money, Percent, Rounding};

use crate::cutting::ClothUse;
use crate::labour::Labour;
use crate::layout::Layout;
use crate::notice::Notice;
use crate::order::{Off, Order, Violation};
use crate::shop::{Basis, Day, Shop, TaxPoint};
use crate::sundries::{Used, UsedKind};

mod allocate;
mod breaks;
mod cost;
mod list;
mod notices;
mod point;
mod tax;
#[cfg(test)]
mod tests;
mod upon;
mod withdrawal;

pub use allocate::{NoWeight, allocate};
pub use breaks::{less, off, with_breaks};
pub use list::Listed;
pub use point::to_point;
pub use tax::{Taxed, added_tax, included_tax, taxes};
pub use upon::{Upon, net_target};
pub use withdrawal::{Withdrawal, withdrawal};

/// Strings up to which each one's share of the total is told.
pub const STRINGS_TOLD: u32 = 400;

/// What an order costs the buyer and the shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Price {
    /// What the buyer pays for; sums to the total.
    pub lines: Vec<Line>,
    /// What the buyer pays, tax and delivery in it.
    pub total: Money,
    /// The tax; none where the shop is not registered for one.
    pub tax: Option<Taxed>,
    /// The total without the tax.
    pub net: Money,
    /// What the order costs the shop, postage and fee in it.
    pub cost: Money,
    /// What the net is made of; sums to it.
    pub cost_lines: Vec<CostLine>,
    /// What the price list says, where it is sold by one.
    pub listed: Option<Listed>,
    /// The break above this quantity whose strings cost less in all, where there is one: the
    /// goods cost no more than those.
    pub capped_at: Option<u32>,
    /// The goods before they are moved to a price point; none where the shop keeps none.
    pub before_point: Option<Money>,
    /// The least net that the shop's floor allows, where it has one.
    pub floor: Option<Money>,
    /// What the goods come to for a metre of overall length, tax in it.
    pub per_metre: Option<Money>,
    /// The total shared out over the strings; none for very many.
    pub strings: Vec<Money>,
    /// Whether a consumer may withdraw.
    pub withdrawal: Withdrawal,
    /// What to look at.
    pub notices: Vec<Notice>,
    /// Elementary steps taken for orders at a break above this one.
    pub steps: u64,
}

/// A line that the buyer sees.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    /// What for.
    pub kind: LineKind,
    /// How much; below nought where it is taken off.
    pub amount: Money,
    /// The tax in it, or on it; none where there is none.
    pub tax: Option<Money>,
}

/// What a buyer pays for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    /// The bunting.
    Goods,
    /// What is missing to the least charge for an order.
    MinimumCharge,
    /// Made before all that is promised already.
    Rush,
    /// What staff take off.
    Discount,
    /// The postage.
    Delivery,
    /// The tax on all the other lines.
    Tax,
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
    /// Overhead on it.
    Overhead,
    /// What the carrier is paid.
    Postage,
    /// What the payment costs.
    Fee,
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
    pub labour: &'a Labour,
    /// Postage, before tax; none where no service takes it.
    pub postage: Option<Money>,
}

impl Taken<'_> {
    /// What it costs the shop, without postage and fee.
    pub fn cost(&self, shop: &Shop) -> Money {
        cost::total(&cost::lines(shop, self))
    }
}

/// What is priced.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// Where.
    pub shop: &'a Shop,
    /// The order.
    pub order: &'a Order,
    /// Its layout.
    pub layout: &'a Layout,
    /// The day of the order.
    pub today: Day,
    /// The day it leaves, where that can be said.
    pub leaves: Option<Day>,
}

/// What the same order costs at another quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Elsewhere {
    /// What it costs the shop, without postage and fee.
    pub cost: Money,
    /// Postage, before tax; none where no service takes it.
    pub postage: Option<Money>,
    /// Elementary steps taken to find out.
    pub steps: u64,
}

/// Prices an order by what it takes. `at` says what the same order costs at the quantity of
/// a break above it; it is only asked where that can make a difference, at most once a break,
/// and answers none where no such order can be made.
///
/// # Errors
/// A violation where the shop sells by a price list that has nothing for the order.
pub fn price(
    asked: &Asked,
    taken: &Taken,
    at: impl FnMut(u32) -> Option<Elsewhere>,
) -> Result<Price, Vec<Violation>> {
    let Asked { shop, order, .. } = *asked;
    let pricing = &shop.pricing;
    let point = match pricing.tax.as_ref().map(|tax| tax.point) {
        Some(TaxPoint::Leave) => asked.leaves.unwrap_or(asked.today),
        _ => asked.today,
    };
    let tax = pricing.tax.as_ref().and_then(|tax| Some((tax, tax.rate_on(point)?)));
    let upon = Upon {
        fee: pricing.fee,
        rate: tax.map_or_else(Percent::default, |(_, rate)| rate),
        included: tax.is_none_or(|(tax, _)| tax.included),
        postage: taken.postage.unwrap_or_default(),
    };
    let mut cost_lines = cost::lines(shop, taken);
    let made = cost::total(&cost_lines);
    let own = Own { asked, taken, lines: &cost_lines, made, upon };
    let Goods { amount: worked, steps, listed, capped_at } = own.goods(at)?;
    // what the goods are not to fall below
    let floor = pricing.floor.map(|margin| upon::above(made, margin, Rounding::HalfUp));
    let before_point = pricing.point.as_ref().map(|_| worked);
    let goods = match &pricing.point {
        Some(point) => to_point(point, worked, floor.map(|floor| upon.goods(floor))),
        None => worked,
    };

    let mut lines = selling(shop, order, goods);
    if taken.postage.is_some() {
        lines.push(Line { kind: LineKind::Delivery, amount: upon.delivery(), tax: None });
    }
    let included = tax.map(|(tax, rate)| (rate, tax::on_lines(tax, rate, &mut lines)));
    let total: Money = lines.iter().map(|line| line.amount).sum();
    let net = total - included.map_or(Money::ZERO, |(_, included)| included);

    let fee = upon.fee_on(total);
    if let Some(postage) = taken.postage {
        cost_lines.push(CostLine { kind: CostKind::Postage, amount: postage });
    }
    if fee != Money::ZERO {
        cost_lines.push(CostLine { kind: CostKind::Fee, amount: fee });
    }
    let cost = cost::total(&cost_lines);
    cost_lines.push(CostLine { kind: CostKind::Surplus, amount: net - cost });
    let mut price = Price {
        per_metre: per_metre(asked, &lines, upon.included),
        strings: strings(total, order.quantity),
        lines,
        total,
        tax: included.map(|(rate, included)| Taxed { rate, included, point }),
        net,
        cost,
        cost_lines,
        listed,
        capped_at,
        before_point,
        floor: floor.map(|floor| floor + upon.postage + fee),
        withdrawal: withdrawal(shop, order, asked.layout),
        notices: Vec::new(),
        steps,
    };
    price.notices = notices::notices(asked, &price, goods);
    Ok(price)
}

/// An order as it is, whatever it would be at another quantity.
struct Own<'a> {
    asked: &'a Asked<'a>,
    taken: &'a Taken<'a>,
    lines: &'a [CostLine],
    made: Money,
    upon: Upon,
}

/// The goods with their break, before they are moved to a price point.
struct Goods {
    amount: Money,
    /// Steps taken at other quantities.
    steps: u64,
    listed: Option<Listed>,
    capped_at: Option<u32>,
}

impl Own<'_> {
    fn goods(&self, mut at: impl FnMut(u32) -> Option<Elsewhere>) -> Result<Goods, Vec<Violation>> {
        let pricing = &self.asked.shop.pricing;
        let (breaks, quantity) = (&pricing.breaks, self.asked.order.quantity);
        let surplus = match pricing.basis {
            Basis::PerMetre => {
                let listed = list::look_up(self.asked, self.taken)?;
                let mut capped_at = None;
                let amount = with_breaks(breaks, quantity, listed.goods(quantity), |one, least| {
                    let there = listed.goods(one.from);
                    capped_at = if less(there, one.off) < least { Some(one.from) } else { capped_at };
                    Some(there)
                });
                return Ok(Goods { amount, steps: 0, listed: Some(listed), capped_at });
            }
            Basis::CostPlus(surplus) => surplus,
        };
        let (mut steps, mut capped_at) = (0, None);
        let own = self.upon.goods(net_target(self.made, surplus));
        let amount = with_breaks(breaks, quantity, own, |one, least| {
            // without postage, which only adds
            let bare = Upon { postage: Money::ZERO, ..self.upon };
            let certain = cost::least_at(self.asked.shop, self.taken, self.lines, quantity, one.from);
            if less(bare.goods(net_target(certain, surplus)), one.off) >= least {
                return None;
            }
            let there = at(one.from)?;
            steps += there.steps;
            let upon = Upon { postage: there.postage.unwrap_or_default(), ..self.upon };
            let there = upon.goods(net_target(there.cost, surplus));
            capped_at = if less(there, one.off) < least { Some(one.from) } else { capped_at };
            Some(there)
        });
        Ok(Goods { amount, steps, listed: None, capped_at })
    }
}

/// The lines of the goods and what goes with them, without their taxes.
fn selling(shop: &Shop, order: &Order, goods: Money) -> Vec<Line> {
    let mut lines = Vec::with_capacity(6);
    let mut line = |kind, amount| lines.push(Line { kind, amount, tax: None });
    line(LineKind::Goods, goods);
    let minimum = shop.pricing.minimum;
    if goods < minimum {
        line(LineKind::MinimumCharge, minimum - goods);
    }
    let charged = goods.max(minimum);
    let share = |share: Percent| {
        charged.scaled(share.milli().into(), Percent::WHOLE.milli().into(), Rounding::HalfUp)
    };
    let rush = shop.calendar.rush.filter(|_| order.rush).map(share);
    if let Some(rush) = rush {
        line(LineKind::Rush, rush);
    }
    if let Some(discount) = &order.discount {
        let off = match discount.off {
            Off::Share(of) => share(of),
            Off::Amount(amount) => amount,
        };
        line(LineKind::Discount, -off.min(charged + rush.unwrap_or_default()));
    }
    lines
}

/// What all but the delivery comes to for a metre of all strings, tax in it.
fn per_metre(asked: &Asked, lines: &[Line], included: bool) -> Option<Money> {
    let goods = lines.iter().filter(|line| !matches!(line.kind, LineKind::Delivery | LineKind::Tax));
    let on_top = |line: &Line| if included { Money::ZERO } else { line.tax.unwrap_or_default() };
    let goods: Money = goods.map(|line| line.amount + on_top(line)).sum();
    a_metre(goods, asked.layout.overall * i64::from(asked.order.quantity))
}

/// What an amount comes to for a metre of a length, half up; none for no length.
///
/// ```
/// use pennantry_calc::price::a_metre;
/// use pennantry_measure::{Length, Money};
/// let of = |minor, mm| a_metre(Money::from_minor(minor), Length::from_mm(mm)).map(Money::minor);
/// assert_eq!(of(1_234, 3_700), Some(334)); // 3.3351
/// assert_eq!(of(1_234, 0), None);
/// ```
pub fn a_metre(amount: Money, length: Length) -> Option<Money> {
    (length > Length::ZERO).then(|| amount.scaled(1_000_000, length.wide(), Rounding::HalfUp))
}

/// The total over the strings, of which there are not too many to tell.
fn strings(total: Money, strings: u32) -> Vec<Money> {
    if strings > STRINGS_TOLD {
        return Vec::new();
    }
    let weights = vec![1; usize::try_from(strings).unwrap_or(0)];
    allocate(total, &weights).unwrap_or_default()
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
