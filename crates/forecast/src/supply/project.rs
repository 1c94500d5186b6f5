//! How the shelf goes down, day by day, to its end.
//!
//! On the morning of an open day comes what is expected up to that day; then the day's
//! expected use is taken:
//!
//! ```text
//! opening = closing before + deliveries since
//! closing = opening - min(use, max(opening, 0))
//! unmet   = use - what was taken
//! ```
//!
//! - The line starts with what is available: cloth that is promised is gone already.
//! - Where it starts below nought, deliveries first make that good.
//! - Use that finds no cloth is lost and does not wait: the form does not sell what is not
//!   there. So a delivery after a gap starts from nought.
//! - Late lines and lines without a day are not counted ([`super::position`] says why).
//! - A closed day takes nothing; what comes on one is there on the next open day.
//!
//! The expected use is a mean: half of all real lines run out sooner, more or less. What
//! guards against those is the safety stock, so the day by which to order looks at the
//! day on which the line goes under it.
//!
//! No rounding but that of `f64`: a millionth of a unit is nothing.
//!
//! Example: 4.00 m available, 0.30 m a day, 1.00 m on the sixth open day. Closings are
//! 3.70, 3.40, 3.10, 2.80, 2.50, then 3.20, and so on down; it runs out on the seventeenth.
//! Source: arithmetic.

use super::day::{Day, OpenDays};
use super::position::Position;
use super::{Error, number};

/// What is nothing, in units.
const NOTHING: f64 = 1e-6;

/// What is expected to be used, by open day from today on.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    today: Day,
    days: Vec<(Day, f64)>,
}

impl Outlook {
    /// Use of each open day from `today` on, in units. The outlook ends with the shorter of
    /// the two lists. Each use is from 0 to 10¹².
    pub fn new(today: Day, open: &OpenDays, uses: &[f64]) -> Result<Self, Error> {
        for used in uses {
            number::not_negative("expected use of a day", *used)?;
        }
        let days: Vec<_> = open.from(today).iter().copied().zip(uses.iter().copied()).collect();
        if days.is_empty() {
            return Err(Error::Empty { what: "open day from today on with its expected use" });
        }
        Ok(Self { today, days })
    }

    /// The same use on every open day from `today` on.
    pub fn level(today: Day, open: &OpenDays, rate: f64) -> Result<Self, Error> {
        Self::new(today, open, &vec![rate; open.from(today).len()])
    }

    /// The day of the report.
    pub fn today(&self) -> Day {
        self.today
    }

    fn last(&self) -> Day {
        self.days.last().map_or(self.today, |(day, _)| *day)
    }

    /// The last open day from today to `day`.
    fn open_by(&self, day: Day) -> Option<Day> {
        self.days.iter().map(|(open, _)| *open).take_while(|open| *open <= day).last()
    }

    /// The first open day from `day` on.
    fn open_from(&self, day: Day) -> Option<Day> {
        self.days.iter().map(|(open, _)| *open).find(|open| *open >= day)
    }
}

/// One open day of the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// The day.
    pub day: Day,
    /// What is there in the morning, with what came.
    pub opening: f64,
    /// What is left in the evening.
    pub closing: f64,
    /// Expected use that found no cloth.
    pub unmet: f64,
}

/// A day, or how far was looked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// On this day.
    On(Day),
    /// Not by this day, the last that was looked at.
    NotBy(Day),
}

/// By when to order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderBy {
    /// The last open day on which an order still comes before the shelf is under its floor.
    By(Day),
    /// No order comes in time any more.
    TooLate {
        /// The first open day from today on.
        ordered: Day,
        /// When an order of that day comes; an open day, where days are known that far.
        arrives: Day,
        /// When the shelf goes under its floor.
        falls: Day,
    },
    /// The shelf does not go under its floor by the last day that was looked at.
    NotBy(Day),
}

/// The projected line of one fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its open days, from today on.
    pub points: Vec<Point>,
    last: Day,
}

impl Line {
    /// The line that starts with what is available and takes in what is coming.
    pub fn project(position: &Position, outlook: &Outlook) -> Self {
        let mut coming = position.coming.iter().peekable();
        let mut left = number::real(position.available);
        let mut points = Vec::with_capacity(outlook.days.len());
        for &(day, used) in &outlook.days {
            while let Some(delivery) = coming.next_if(|delivery| delivery.day <= day) {
                left += number::real(delivery.amount);
            }
            let taken = used.min(left.max(0.0));
            points.push(Point { day, opening: left, closing: left - taken, unmet: used - taken });
            left -= taken;
        }
        Self { points, last: outlook.last() }
    }

    fn first(&self, is: impl Fn(&Point) -> bool) -> When {
        self.points.iter().find(|point| is(point)).map_or(When::NotBy(self.last), |point| When::On(point.day))
    }

    /// The first day with nothing left in the evening.
    pub fn runs_out(&self) -> When {
        self.first(|point| point.closing <= NOTHING)
    }

    /// The first day after that with cloth in the evening again; none where it never runs out.
    pub fn back(&self) -> Option<When> {
        match self.runs_out() {
            When::NotBy(_) => None,
            When::On(out) => Some(self.first(|point| point.day > out && point.closing > NOTHING)),
        }
    }

    /// The first day that ends with less than `floor`, or with nothing.
    pub fn falls_under(&self, floor: i64) -> When {
        let floor = number::real(floor);
        self.first(|point| point.closing <= NOTHING || point.closing < floor - NOTHING)
    }

    /// The last day that begins with at least `least` on every day until then; none where
    /// today does not.
    pub fn offers(&self, least: i64) -> Option<When> {
        let least = number::real(least);
        let last = self.points.iter().take_while(|point| point.opening >= least - NOTHING).last()?;
        Some(if last.day == self.last { When::NotBy(self.last) } else { When::On(last.day) })
    }

    /// The last open day on which an order that takes `lead` calendar days still comes by
    /// the morning of the day on which the shelf would go under `floor`.
    ///
    /// What comes on a closed day is there on the next open day; the day on which the
    /// shelf goes under is open, so an order comes in time exactly if its lead time ends
    /// by that day.
    ///
    /// ```
    /// use pennantry_forecast::supply::day::{Day, OpenDays};
    /// use pennantry_forecast::supply::position::{Position, Shelf};
    /// use pennantry_forecast::supply::project::{Line, OrderBy, Outlook};
    /// // open every day; 10 a day from 100: under 25 on the eighth day, which is day 7
    /// let open = OpenDays::new((0..30).map(Day).collect())?;
    /// let outlook = Outlook::level(Day(0), &open, 10.0)?;
    /// let position = Position::on(Day(0), &Shelf { on_hand: 100, ..Shelf::default() }, &[])?;
    /// let line = Line::project(&position, &outlook);
    /// assert_eq!(line.order_by(&outlook, 5, 25), OrderBy::By(Day(2)));
    /// # Ok::<(), pennantry_forecast::supply::Error>(())
    /// ```
    pub fn order_by(&self, outlook: &Outlook, lead: u32, floor: i64) -> OrderBy {
        let falls = match self.falls_under(floor) {
            When::NotBy(last) => return OrderBy::NotBy(last),
            When::On(falls) => falls,
        };
        if let Some(day) = outlook.open_by(falls.minus(lead)) {
            return OrderBy::By(day);
        }
        let ordered = outlook.open_from(outlook.today).unwrap_or(outlook.today);
        let arrives = ordered.plus(lead);
        OrderBy::TooLate { ordered, arrives: outlook.open_from(arrives).unwrap_or(arrives), falls }
    }
}

#[cfg(test)]
mod tests;
