//! How the price is set: its basis, what is on top of the cost, the tax.

use pennantry_measure::{Length, Money, Percent, Rate, Rounding};

use super::{Construction, Day};

/// How the price is set.
///
/// Amounts of goods (the list, the minimum charge, price points) are as the shop writes its
/// prices: with the tax in them where [`Tax::included`] says so.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pricing {
    /// What the goods' price is made from.
    pub basis: Basis,
    /// Overhead on an hour at the bench, before tax.
    pub overhead: Rate,
    /// What a payment costs the shop.
    pub fee: Fee,
    /// Least charge for an order.
    pub minimum: Money,
    /// Least margin, as a share of the price before tax, below which staff are told.
    pub floor: Option<Percent>,
    /// Quantities from which each string is cheaper, in order, each with more off than the
    /// one before.
    pub breaks: Vec<Break>,
    /// Where the goods' price is moved to, if anywhere.
    pub point: Option<Point>,
    /// The price list, which is used where the basis is one.
    pub list: Vec<ListPrice>,
    /// What a price list puts on top.
    pub extras: Extras,
    /// The tax, where the shop is registered for one.
    pub tax: Option<Tax>,
}

/// What the goods' price is made from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// What an order costs, and this over it.
    CostPlus(Surplus),
    /// A price list by the metre.
    PerMetre,
}

/// What stands over the cost: a share of the price or of the cost, never both.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surplus {
    /// Share of the price before tax: price = cost / (1 - margin).
    Margin(Percent),
    /// Share of the cost: price = cost x (1 + mark-up).
    Markup(Percent),
}

/// What a payment costs the shop, of the whole amount that is paid.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Fee {
    /// A share of the amount. Together with the tax far below the whole.
    pub share: Percent,
    /// And something fixed.
    pub fixed: Money,
}

/// A quantity from which each string is cheaper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Break {
    /// The quantity, at least 2.
    pub from: u32,
    /// What is taken off all strings from there on.
    pub off: Percent,
}

/// Where a price is moved to: amounts that end in one of some ways.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Point {
    /// Which of them.
    pub mode: PointMode,
    /// After how many minor units the endings come again. Above nought.
    pub step: i64,
    /// The endings in minor units, each below the step, in order. Never empty.
    pub endings: Vec<i64>,
}

/// To which of two price points an amount between them goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PointMode {
    /// To the upper one.
    Up,
    /// To the nearer one, from the middle to the upper one.
    Nearest,
}

/// One line of a price list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListPrice {
    /// Construction it is for.
    pub construction: Construction,
    /// Greatest width of a pennant's top edge.
    pub up_to_width: Length,
    /// Class of the fabrics.
    pub class: String,
    /// Price of a metre of overall length.
    pub rate: Rate,
}

/// What a price list puts on top of the metres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Extras {
    /// Of a letter.
    pub letter: Money,
    /// Of a trimming.
    pub trimming: Money,
    /// Of an end with a loop.
    pub looped: Money,
    /// Of an end that is left to be tied.
    pub tie: Money,
}

/// A tax on the price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tax {
    /// Its name, as on the bill.
    pub name: String,
    /// Number under which the shop is registered, where it is stated.
    pub registration: Option<String>,
    /// Whether the shop's prices include it; if not it is a line of its own.
    pub included: bool,
    /// What is rounded by itself.
    pub level: TaxLevel,
    /// How it is rounded to a minor unit.
    pub rounding: Rounding,
    /// The day whose rate holds.
    pub point: TaxPoint,
    /// Rates, each from a day on, in order. Never empty; before the first one the shop is
    /// not registered.
    pub rates: Vec<DatedRate>,
}

impl Tax {
    /// The rate that holds on a day; none before the first one.
    pub fn rate_on(&self, day: Day) -> Option<Percent> {
        self.rates.iter().rev().find(|rate| rate.from <= day).map(|rate| rate.share)
    }
}

/// A rate of tax from a day on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DatedRate {
    /// The first day on which it holds.
    pub from: Day,
    /// The rate.
    pub share: Percent,
}

/// What is rounded by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TaxLevel {
    /// The tax of the whole, shared out over the lines.
    Document,
    /// The tax of each line; the whole is their sum.
    Line,
}

/// The day whose rate holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TaxPoint {
    /// The day of the order.
    Order,
    /// The day it leaves; that of the order where there is none.
    Leave,
}
