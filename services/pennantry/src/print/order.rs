//! Orders at suppliers.

use pennantry_contract::{table, v1};

use super::piece::header;
use super::{Look, replayed, second};
use crate::sheet::page::{Page, Side};
use crate::typed::amount::told;
use crate::words;

/// A list of orders.
pub fn list(orders: &[v1::PurchaseOrder], look: &Look) -> String {
    let mut page = look.page();
    if orders.is_empty() {
        page.heading("ORDERS");
        page.line("none on which something is to come");
    }
    for order in orders {
        write(&mut page, order, look);
    }
    page.finish()
}

/// One order, and whether it had been placed, or called off, before.
pub fn one(order: Option<&v1::PurchaseOrder>, again: bool, look: &Look) -> String {
    let mut page = look.page();
    if let Some(order) = order {
        write(&mut page, order, look);
    }
    replayed(&mut page, again);
    page.finish()
}

/// All there is to say of one.
pub fn write(page: &mut Page, order: &v1::PurchaseOrder, look: &Look) {
    let state = words::told(&table::ORDER_STATE, order.state).unwrap_or_else(|| "not told".to_owned());
    let late = if order.late { ", LATE" } else { "" };
    page.heading(&format!(
        "ORDER {} at {}: {state}, expected {}{late}",
        order.order_id, order.supplier, order.expected_date
    ));
    if !order.place_time.is_empty() {
        page.line(&format!("placed {}", second(&order.place_time)));
    }
    let amount = |of: &Option<v1::Quantity>| told(of.as_ref(), look.unit);
    let mut rows = vec![header(["code", "ordered", "came", "to come"])];
    for line in &order.lines {
        let amounts = [&line.ordered, &line.received, &line.outstanding];
        rows.push([line.code.clone()].into_iter().chain(amounts.map(amount)).collect());
    }
    page.table(&[Side::Left, Side::Right, Side::Right, Side::Right], &rows);
    if !order.note.is_empty() {
        page.line(&order.note);
    }
}
