//! Orders at suppliers. Nothing of them is stock until it comes.

use std::collections::BTreeSet;

use super::receive::is_some_amount;
use super::work::Work;
use crate::rules::{Amount, CancelOrder, EventKind, Order, OrderLine, OrderState, Place, Refusal};

/// Places an order.
pub(super) fn place(work: &mut Work<'_>, command: &Place) -> Result<(), Refusal> {
    if work.orders.contains_key(&command.id) {
        return Err(Refusal::OrderExists(command.id.clone()));
    }
    if command.lines.is_empty() {
        return Err(Refusal::Empty);
    }
    let mut materials = BTreeSet::new();
    let mut lines = Vec::with_capacity(command.lines.len());
    for (number, line) in (1..).zip(&command.lines) {
        if !materials.insert(&line.material) {
            return Err(Refusal::Twice(line.material.to_string()));
        }
        is_some_amount(line.material.class, line.amount)?;
        let material = line.material.clone();
        lines.push(OrderLine { number, material, ordered: line.amount, received: Amount::ZERO });
    }
    let order = Order {
        id: command.id.clone(),
        supplier: command.supplier.clone(),
        state: OrderState::Open,
        at: work.now,
        expected_day: command.expected_day,
        note: command.note.clone(),
        lines,
    };
    work.orders.insert(command.id.clone(), order);
    work.tell(EventKind::Ordered).order(&command.id).note(&command.note);
    work.answer_order = Some(command.id.clone());
    Ok(())
}

/// Calls off what has not come. What was noted of the order stays, and why it was called off is
/// put after it.
pub(super) fn cancel(work: &mut Work<'_>, command: &CancelOrder) -> Result<(), Refusal> {
    let id = &command.id;
    let order = work.orders.get_mut(id).ok_or_else(|| Refusal::NoOrder(id.clone()))?;
    work.answer_order = Some(id.clone());
    match order.state {
        OrderState::Cancelled => return Ok(()),
        OrderState::Filled => return Err(Refusal::OrderNotNow(id.clone(), order.state)),
        OrderState::Open => {}
    }
    order.state = OrderState::Cancelled;
    let parted = if order.note.is_empty() || command.reason.is_empty() { "" } else { "; " };
    order.note.push_str(parted);
    order.note.push_str(&command.reason);
    work.tell(EventKind::OrderCancelled).order(id).note(&command.reason);
    Ok(())
}
