//! What is there, what is promised and what is coming.
//!
//! | figure | formula |
//! |---|---|
//! | available | on hand - held - confirmed and not yet cut - short |
//! | on order, of a line | ordered - cancelled - received, never below nought |
//! | inventory position | available + on order of all lines |
//! | late by | today - the expected day, in calendar days, while something is on order |
//!
//! Orders are decided on the position and not on what is available: what is ordered already
//! counts from the moment it is ordered, so it is not ordered again (Silver, Pyke and
//! Peterson, *Inventory Management and Production Planning and Scheduling*, 3rd edition,
//! ch. 7). Nothing is rounded: all amounts are whole.
//!
//! # A line whose day has passed, or has none
//! It still counts in the position, in full: the supplier owes it, and a second order would
//! be cloth twice. It does not count in the projection ([`super::project`]), since
//! nobody knows when it comes; a new expected day puts it back. And it is flagged, every
//! morning, with the days it is late. Who no longer believes in it cancels it, and then it
//! leaves the position as well.
//!
//! A supplier who sends more than was ordered has sent everything: nothing is on order, and
//! what came is on hand.

use super::day::Day;
use super::{Error, number};

/// Most order lines of one fabric.
pub const MOST_LINES: usize = 1_000;

/// What lies on the shelf, in whole units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Shelf {
    /// What is there.
    pub on_hand: i64,
    /// What of it is held for orders that are not confirmed.
    pub held: i64,
    /// What of it is promised to confirmed orders and not yet cut.
    pub confirmed: i64,
    /// What is promised and not there.
    pub short: i64,
}

impl Shelf {
    /// What may still be promised; below nought where promises exceed what is there.
    pub fn available(&self) -> Result<i64, Error> {
        let parts = [
            ("on hand", self.on_hand),
            ("held", self.held),
            ("confirmed", self.confirmed),
            ("short", self.short),
        ];
        for (what, value) in parts {
            number::amount(what, value, 0, "0 to 10^12")?;
        }
        Ok(self.on_hand - self.held - self.confirmed - self.short)
    }
}

/// One line of an order at a supplier.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OrderLine {
    /// The day on which it should come, as the supplier said last; none where nobody knows.
    pub expected: Option<Day>,
    /// What was ordered.
    pub ordered: i64,
    /// What of it has come.
    pub received: i64,
    /// What of it was cancelled.
    pub cancelled: i64,
}

impl OrderLine {
    /// What is still to come.
    ///
    /// ```
    /// use pennantry_forecast::supply::position::OrderLine;
    /// let line = OrderLine { expected: None, ordered: 1_500, received: 500, cancelled: 0 };
    /// assert_eq!(line.on_order(), Ok(1_000));
    /// ```
    pub fn on_order(&self) -> Result<i64, Error> {
        number::amount("ordered", self.ordered, 1, "1 to 10^12")?;
        number::amount("received", self.received, 0, "0 to 10^12")?;
        number::amount("cancelled", self.cancelled, 0, "0 to 10^12")?;
        if self.cancelled > self.ordered {
            let value = self.cancelled;
            return Err(Error::Whole { what: "cancelled", value, allowed: "at most what was ordered" });
        }
        Ok((self.ordered - self.cancelled - self.received).max(0))
    }
}

/// An order line of which something is still to come and which no longer can be counted on
/// for a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Overdue {
    /// Which line it is, by its place in the list given.
    pub line: usize,
    /// What is still to come of it.
    pub on_order: i64,
    /// How many calendar days it is late; none where no day was ever given.
    pub days: Option<u32>,
}

/// What comes on which day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Delivery {
    /// The day.
    pub day: Day,
    /// The amount.
    pub amount: i64,
}

/// Everything that is there and coming, on one morning.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Position {
    /// What may still be promised.
    pub available: i64,
    /// What is still to come, of all lines.
    pub on_order: i64,
    /// Lines that are late or have no day, in the order given.
    pub overdue: Vec<Overdue>,
    /// What comes from today on, by day, lines of one day in the order given.
    pub coming: Vec<Delivery>,
}

impl Position {
    /// The position on the morning of `today`, before that day's deliveries. A line expected
    /// today is not late.
    ///
    /// ```
    /// use pennantry_forecast::supply::day::Day;
    /// use pennantry_forecast::supply::position::{OrderLine, Position, Shelf};
    /// let shelf = Shelf { on_hand: 700, held: 100, confirmed: 150, short: 50 };
    /// let line = OrderLine { expected: Some(Day(10)), ordered: 1_500, received: 0, cancelled: 0 };
    /// let position = Position::on(Day(12), &shelf, &[line])?;
    /// assert_eq!((position.available, position.total()), (400, 1_900));
    /// assert_eq!(position.overdue[0].days, Some(2));
    /// # Ok::<(), pennantry_forecast::supply::Error>(())
    /// ```
    pub fn on(today: Day, shelf: &Shelf, lines: &[OrderLine]) -> Result<Self, Error> {
        if lines.len() > MOST_LINES {
            let value = i64::try_from(lines.len()).unwrap_or(i64::MAX);
            return Err(Error::Whole { what: "number of order lines", value, allowed: "0 to 1000" });
        }
        let mut position =
            Self { available: shelf.available()?, on_order: 0, overdue: Vec::new(), coming: Vec::new() };
        for (line, order) in lines.iter().enumerate() {
            let on_order = order.on_order()?;
            position.on_order += on_order;
            match order.expected {
                _ if on_order == 0 => {}
                Some(day) if day >= today => position.coming.push(Delivery { day, amount: on_order }),
                expected => {
                    let days = expected.map(|day| u32::try_from(today.since(day)).unwrap_or(u32::MAX));
                    position.overdue.push(Overdue { line, on_order, days });
                }
            }
        }
        position.coming.sort_by_key(|delivery| delivery.day);
        Ok(position)
    }

    /// The inventory position: available and on order.
    pub fn total(&self) -> i64 {
        self.available + self.on_order
    }
}

#[cfg(test)]
mod tests;
