//! What to order of one fabric, by when, or why nothing.
//!
//! | what is so | answer |
//! |---|---|
//! | it is the last of it | no order; the last day on which the form may offer it |
//! | a figure is missing | unknown, and which one |
//! | available above the reorder point | enough |
//! | position above it, available not | what is on order covers it |
//! | position at or below it | order up to the level: `order-up-to - position`, rounded |
//!
//! The first row that holds is the answer. "Covered" says that enough is ordered, not that it
//! comes in time: when the shelf runs out, when there is cloth again and which lines are
//! late stands beside every answer. The amount is rounded up to whole bolts and to
//! the supplier's least order ([`super::lot::Lot`]). The day by which to order is the last
//! one whose order still comes before the shelf is under its safety stock
//! ([`super::project`]). Source: order-point, order-up-to-level system of Silver, Pyke and
//! Peterson, *Inventory Management and Production Planning and Scheduling*, 3rd edition, ch. 7.
//!
//! Example: reorder point 6.00, order up to 19.00, available 4.00, nothing on order: 15.00
//! is proposed. Ordered on Monday, the position is 19.00, and no morning proposes
//! anything until the position is at 6.00 again, however late the order is.

use super::day::Day;
use super::lot::Lot;
use super::position::{OrderLine, Position, Shelf};
use super::project::{Line, OrderBy, Outlook, When};
use super::service::Service;
use super::{Error, number};

/// When to order, and up to what: whole units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levels {
    /// Order when the position is at or below this.
    pub reorder_point: i64,
    /// Order up to this; above the reorder point.
    pub order_up_to: i64,
    /// What should still be there when an order comes.
    pub safety: i64,
    /// The service for which the reorder point was worked out.
    pub service: Service,
}

/// One fabric on the morning of a report.
#[derive(Debug, Clone, PartialEq)]
pub struct Fabric<'a> {
    /// What lies on the shelf.
    pub shelf: Shelf,
    /// What was ordered and may still come.
    pub lines: &'a [OrderLine],
    /// Set where no more will be had: the least cloth that any order takes, in units.
    pub last_of_it: Option<i64>,
    /// What is expected to be used; none where the history is too short to say.
    pub outlook: Option<&'a Outlook>,
    /// The levels; none where they could not be worked out.
    pub levels: Option<Levels>,
    /// The supplier's lead time in calendar days, for one that varies the longest to reckon
    /// with; none where it is not known.
    pub lead: Option<u32>,
    /// How the supplier sells it; none where that is not known.
    pub lot: Option<Lot>,
}

/// A figure without which nothing can be proposed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// The expected use.
    Use,
    /// The reorder point and the level to order up to.
    Levels,
    /// The supplier's lead time.
    Lead,
    /// The bolt length and the least order.
    Lot,
}

/// Until when the form may offer the last of a fabric.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Offer {
    /// The least order does not fit today: it has to stop now.
    Stop,
    /// This is the last day on which the least order is expected to fit.
    Until(Day),
    /// It is expected to fit on every day that was looked at, of which this is the last.
    NotBy(Day),
    /// Nobody knows: there is no expected use.
    Unknown,
}

/// What to order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Order {
    /// How much, in units: whole bolts, and at least the supplier's least order.
    pub amount: i64,
    /// How many bolts that is.
    pub bolts: i64,
    /// What is wanting to the level, before rounding.
    pub need: i64,
}

/// What the morning says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Answer {
    /// What is available is above the reorder point.
    Enough,
    /// What is on order brings the position above the reorder point.
    Covered,
    /// No more will be had.
    LastOfIt(Offer),
    /// A figure is missing.
    Unknown(Missing),
    /// Order this.
    Order(Order),
}

/// The answer and the figures it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// What is there and coming, and which lines are late: flagged whatever the answer.
    pub position: Position,
    /// The levels it was held against.
    pub levels: Option<Levels>,
    /// When the shelf runs out; none without an outlook.
    pub runs_out: Option<When>,
    /// When there is cloth again after that.
    pub back: Option<When>,
    /// By when to order the next: told whatever the answer, where outlook, levels and lead
    /// time are known and it is not the last of it. Late lines are not counted on, so with
    /// one of those it is the day by which to have another way if it does not come.
    pub order_by: Option<OrderBy>,
    /// What to do.
    pub answer: Answer,
}

/// What to order of one fabric on the morning of `today`.
///
/// ```
/// use pennantry_forecast::supply::day::{Day, OpenDays};
/// use pennantry_forecast::supply::lot::Lot;
/// use pennantry_forecast::supply::position::Shelf;
/// use pennantry_forecast::supply::project::{OrderBy, Outlook};
/// use pennantry_forecast::supply::propose::{Answer, Fabric, Levels, propose};
/// use pennantry_forecast::supply::service::Service;
/// let open = OpenDays::new((0..60).map(Day).collect())?;
/// let outlook = Outlook::level(Day(0), &open, 30.0)?;
/// let service = Service::cycle(0.95)?;
/// let fabric = Fabric {
///     shelf: Shelf { on_hand: 400, ..Shelf::default() },
///     lines: &[],
///     last_of_it: None,
///     outlook: Some(&outlook),
///     levels: Some(Levels { reorder_point: 600, order_up_to: 1_900, safety: 100, service }),
///     lead: Some(7),
///     lot: Some(Lot::new(500, 1_000)?),
/// };
/// let proposal = propose(Day(0), &fabric)?;
/// let Answer::Order(order) = proposal.answer else { unreachable!() };
/// assert_eq!((order.amount, order.bolts, order.need), (1_500, 3, 1_500));
/// // 400 less 30 a day is under 100 in the evening of day 10; seven days before that
/// assert_eq!(proposal.order_by, Some(OrderBy::By(Day(3))));
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn propose(today: Day, fabric: &Fabric<'_>) -> Result<Proposal, Error> {
    let position = Position::on(today, &fabric.shelf, fabric.lines)?;
    let line = match fabric.outlook {
        Some(outlook) if outlook.today() != today => {
            let value = i64::from(outlook.today().0);
            return Err(Error::Whole { what: "first day of the outlook", value, allowed: "today" });
        }
        Some(outlook) => Some((Line::project(&position, outlook), outlook)),
        None => None,
    };
    let answer = answer(fabric, &position, line.as_ref())?;
    let runs_out = line.as_ref().map(|(line, _)| line.runs_out());
    let back = line.as_ref().and_then(|(line, _)| line.back());
    let order_by = match (&line, fabric.levels, fabric.lead) {
        (Some((line, outlook)), Some(levels), Some(lead)) if fabric.last_of_it.is_none() => {
            Some(line.order_by(outlook, lead, levels.safety))
        }
        _ => None,
    };
    Ok(Proposal { position, levels: fabric.levels, runs_out, back, order_by, answer })
}

fn answer(
    fabric: &Fabric<'_>,
    position: &Position,
    line: Option<&(Line, &Outlook)>,
) -> Result<Answer, Error> {
    if let Some(least) = fabric.last_of_it {
        return offer(least, position, line).map(Answer::LastOfIt);
    }
    let Some(levels) = fabric.levels else { return Ok(Answer::Unknown(Missing::Levels)) };
    check(&levels)?;
    if line.is_none() {
        return Ok(Answer::Unknown(Missing::Use));
    }
    if position.available > levels.reorder_point {
        return Ok(Answer::Enough);
    }
    if position.total() > levels.reorder_point {
        return Ok(Answer::Covered);
    }
    let Some(lot) = fabric.lot else { return Ok(Answer::Unknown(Missing::Lot)) };
    if fabric.lead.is_none() {
        return Ok(Answer::Unknown(Missing::Lead));
    }
    let need = levels.order_up_to - position.total();
    let amount = lot.round(need)?;
    Ok(Answer::Order(Order { amount, bolts: lot.bolts(amount), need }))
}

fn offer(least: i64, position: &Position, line: Option<&(Line, &Outlook)>) -> Result<Offer, Error> {
    number::amount("least order of the last of it", least, 1, "1 to 10^12")?;
    Ok(match line {
        None if position.available < least => Offer::Stop,
        None => Offer::Unknown,
        Some((line, _)) => match line.offers(least) {
            None => Offer::Stop,
            Some(When::On(day)) => Offer::Until(day),
            Some(When::NotBy(day)) => Offer::NotBy(day),
        },
    })
}

fn check(levels: &Levels) -> Result<(), Error> {
    number::amount("reorder point", levels.reorder_point, 0, "0 to 10^12")?;
    number::amount("safety stock", levels.safety, 0, "0 to 10^12")?;
    let least = levels.reorder_point + 1;
    number::amount(
        "level to order up to",
        levels.order_up_to,
        least,
        "above the reorder point, up to 10^12",
    )?;
    Ok(())
}

#[cfg(test)]
mod tests;
