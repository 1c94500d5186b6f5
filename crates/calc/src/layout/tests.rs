//! What the layout is checked against: the table, the two cases of the bench, what is
//! refused, and what holds for every order.

mod facts;
mod mends;
mod properties;
mod refusals;
mod table;

use super::*;
use crate::fixture::{mm, order, shop, um};
use crate::order::Leftover;

/// Solves at the small shop.
fn solved(order: &Order) -> Layout {
    solve(&shop(), order).unwrap_or_else(|found| panic!("{found:?}"))
}

/// The one violation of an order.
fn refused(order: &Order) -> Violation {
    let mut found = solve(&shop(), order).expect_err("refused");
    assert_eq!(found.len(), 1, "{found:?}");
    found.remove(0)
}

fn flagged(length: Length) -> Order {
    Order { length: Some(AskedLength::Flagged(length)), ..order() }
}

fn overall(length: Length) -> Order {
    Order { length: Some(AskedLength::Overall(length)), ..order() }
}

fn binding(length: Length) -> Order {
    Order { length: Some(AskedLength::Binding(length)), ..order() }
}
