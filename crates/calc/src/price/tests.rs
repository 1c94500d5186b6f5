use pennantry_measure::{BenchTime, Length};

use super::*;
use crate::fixture::{WHEN, mm, order, shop};
use crate::order::{AskedLength, Discount, Leftover, Violation};
use crate::quote::{Error, Worked, work};
use crate::shop::{Break, DatedRate, Fee, Surplus, Tax, TaxLevel};

mod ladder;
mod listed;
mod property;
mod steps;
mod tables;
mod taxed;

fn minor(minor: i64) -> Money {
    Money::from_minor(minor)
}

fn percent(milli: i64) -> Percent {
    Percent::from_milli(milli)
}

/// The story: 6.2 m of 29 pennants, made at the shop of the fixture.
fn story() -> Order {
    Order { length: Some(AskedLength::Flagged(mm(6_200))), leftover: Leftover::Gaps, ..order() }
}

fn worked(shop: &Shop, order: &Order) -> Worked {
    work(shop, order, WHEN).expect("an order that can be worked")
}

fn refused(shop: &Shop, order: &Order) -> Vec<Violation> {
    match work(shop, order, WHEN) {
        Err(Error::Refused(found)) => found,
        other => panic!("not refused: {other:?}"),
    }
}

/// The lines of a price.
fn lines(price: &Price) -> Vec<(LineKind, i64)> {
    price.lines.iter().map(|line| (line.kind, line.amount.minor())).collect()
}

/// The shop of the fixture with a tax that is changed.
fn with_tax(change: impl FnOnce(&mut Tax)) -> Shop {
    let mut shop = shop();
    change(shop.pricing.tax.as_mut().expect("a tax"));
    shop
}

/// The discount that staff give for a late parcel.
fn discount(off: Off) -> Discount {
    Discount { off, reason: String::from("the last one came late") }
}
