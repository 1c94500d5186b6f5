//! Binding that is bought: offcuts first, then rolls, whole or cut off.

use pennantry_measure::{Length, Money, Rate, Rounding, divide};

use super::joins::{Run, Strings};
use super::told::{self, Stock};
use super::{BindingUse, Supply, after_wash, before_wash, join_loss, opened};
use crate::layout::Layout;
use crate::notice::{Code, Notice};
use crate::order::{Field, Order, Violation};
use crate::outline::um;
use crate::price::written;
use crate::shop::{Binding, Roll, Shop};

/// What a bought binding is sold as.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sale<'a> {
    pub price: Rate,
    pub roll: Roll,
    pub offcuts: &'a [Length],
}

/// How rolls are paid.
struct Paid {
    cost: Money,
    length: Length,
    /// Paid as whole rolls.
    rolls: u32,
    /// Paid by the metre.
    rest: Length,
    /// What all would have cost by the metre.
    by_metre: Money,
}

/// The binding of all strings from offcuts and rolls.
pub(super) fn bought(
    shop: &Shop,
    order: &Order,
    binding: &Binding,
    sale: Sale<'_>,
    layout: &Layout,
) -> Result<BindingUse, Vec<Violation>> {
    let join = &shop.bench.join;
    let cut = before_wash(layout.binding_cut, binding.shrink);
    let net = cut * i64::from(order.quantity);
    let (offcuts, served) = from_shelf(sale.offcuts, cut, order.quantity);
    let from_offcuts = cut * i64::from(served);

    let loss = join_loss(join.ends, opened(binding.width), join.seam);
    let piece = after_wash(sale.roll.length, binding.shrink);
    let strings = Strings::new(layout, join, served, order.quantity - served);
    // whole strings are cut off as bought, pieces to be joined are washed first
    let run = if cut <= sale.roll.length {
        Strings { cut: cut.wide(), ..strings }.fill(sale.roll.length.wide(), loss.wide())
    } else {
        strings.fill_each(piece.wide(), loss.wide())
    };
    let stock = Stock::Rolls { length: sale.roll.length };
    let run = run.map_err(|unfilled| told::unfilled(unfilled, binding, stock, piece, loss))?;
    let taken = net + before_wash(loss * i64::from(run.joins), binding.shrink);
    let last = if run.joins > 0 { before_wash(um(run.last), binding.shrink) } else { um(run.last) };

    let paid = pay(&sale, &run, from_offcuts, taken, last);
    let mut notices = told::joins(binding, stock, &run, &strings, join);
    if paid.rolls > 0 {
        let rolls = if paid.rolls == 1 { "roll" } else { "rolls" };
        let rest =
            if paid.rest > Length::ZERO { format!(" and {} by the metre", paid.rest) } else { String::new() };
        let message = format!(
            "\"{}\": {} for {} whole {rolls} of {}{rest}, {} for {taken} all by the metre: buy whole rolls and keep \
             what is left",
            binding.code,
            written(shop, paid.cost),
            paid.rolls,
            sale.roll.length,
            written(shop, paid.by_metre)
        );
        notices.push(Notice::about(Code::RollCheaper, Field::Binding, message));
    }
    let searched = u64::try_from(sale.offcuts.len()).unwrap_or(u64::MAX);
    Ok(BindingUse {
        cut,
        net,
        taken,
        joins: run.joins,
        join_loss: loss,
        places: run.places,
        supply: Supply::Bought {
            offcuts,
            rolls: run.opened,
            whole_rolls: paid.rolls > 0,
            paid: paid.length,
            break_even: break_even(sale.price, sale.roll),
        },
        cost: paid.cost,
        notices,
        steps: searched + run.steps,
    })
}

/// Offcuts that are used, the smallest that hold a string first, and how many strings
/// they give.
fn from_shelf(shelf: &[Length], cut: Length, quantity: u32) -> (Vec<Length>, u32) {
    let mut fitting: Vec<Length> = shelf.iter().copied().filter(|offcut| *offcut >= cut).collect();
    fitting.sort_unstable();
    let mut served: u32 = 0;
    let mut used = Vec::new();
    for offcut in fitting {
        if served == quantity {
            break;
        }
        let holds = divide(offcut.wide(), cut.wide().max(1), Rounding::Down);
        let holds = u32::try_from(holds).unwrap_or(u32::MAX);
        served = served.saturating_add(holds).min(quantity);
        used.push(offcut);
    }
    (used, served)
}

/// The cheapest of three ways: all by the metre, whole rolls, whole rolls and the rest by
/// the metre. More than one of the rolls by the metre cannot be cheaper than all of them
/// or one: the cost is linear in their number.
fn pay(sale: &Sale<'_>, run: &Run, from_offcuts: Length, taken: Length, last: Length) -> Paid {
    let metre = |length: Length| sale.price.per_metre(length, Rounding::HalfUp);
    let by_metre = metre(taken);
    let mut paid = Paid { cost: by_metre, length: taken, rolls: 0, rest: taken, by_metre };
    let Some(price) = sale.roll.price.filter(|_| run.opened > 0) else { return paid };
    // offcuts are worth what they would cost by the metre
    for (rolls, rest) in [(run.opened, from_offcuts), (run.opened - 1, from_offcuts + last)] {
        let cost = price.scaled(rolls.into(), 1, Rounding::HalfUp) + metre(rest);
        if rolls > 0 && cost < paid.cost {
            // strings washed and cut by themselves round up, each by less than a micrometre
            let length = (sale.roll.length * i64::from(rolls) + rest).max(taken);
            paid = Paid { cost, length, rolls, rest, by_metre };
        }
    }
    paid
}

/// Length from which a whole roll is no dearer than the same length by the metre:
/// `price of the roll / price a metre`, up; none where not even a roll's whole length is
/// that long.
///
/// ```
/// use pennantry_calc::binding::break_even;
/// use pennantry_calc::shop::Roll;
/// use pennantry_measure::{Length, Money, Rate};
/// // 5.00 for 50 m, or 0.12 a metre
/// let roll = Roll { length: Length::from_mm(50_000), price: Some(Money::from_minor(500)) };
/// let price = Rate::from_micro_minor(12_000_000);
/// assert_eq!(break_even(price, roll), Some(Length::from_um(41_666_667)));
/// ```
pub fn break_even(price: Rate, roll: Roll) -> Option<Length> {
    let amount = i128::from(roll.price?.minor()) * 1_000_000 * 1_000_000;
    if price.micro_minor() <= 0 {
        return None;
    }
    let length = um(divide(amount, price.micro_minor().into(), Rounding::Up));
    Some(length).filter(|length| *length <= roll.length)
}
