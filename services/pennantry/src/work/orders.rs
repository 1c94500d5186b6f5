//! `order place`, `order list`, `order cancel`.

use pennantry_contract::v1;

use super::{done, line, stock};
use crate::ask::{Door, Failure};
use crate::cli::{CancelOrder, Order, Orders, Place};
use crate::print::{Look, order};
use crate::program::Printed;
use crate::typed::OrderLine;

/// Does what the flags say.
///
/// # Errors
/// Refused, or not asked.
pub async fn run(what: &Order) -> Result<Printed, Failure> {
    match what {
        Order::Place(flags) => place(flags).await,
        Order::List(flags) => list(flags).await,
        Order::Cancel(flags) => cancel(flags).await,
    }
}

async fn place(flags: &Place) -> Result<Printed, Failure> {
    let fact = &flags.fact;
    let id = fact.once.id().map_err(Failure::NotAsked)?;
    let door = Door::connect(&fact.reach.server).await?;
    let request = v1::PlaceOrderRequest {
        request_id: id.clone(),
        order_id: flags.name.clone().unwrap_or_default(),
        supplier: flags.supplier.clone(),
        expected_date: flags.by.clone(),
        lines: flags.line.iter().map(OrderLine::to_wire).collect(),
        note: fact.note.clone().unwrap_or_default(),
    };
    let sent = |channel, request| async move { stock(channel).place_order(request).await };
    let told = door.change(&id, request, sent).await?;
    if fact.reach.json {
        return Ok(done(line(serde_json::to_string(&told))?));
    }
    Ok(done(order::one(told.order.as_ref(), told.replayed, &Look::of(&fact.reach))))
}

async fn list(flags: &Orders) -> Result<Printed, Failure> {
    let door = Door::connect(&flags.reach.server).await?;
    let request = v1::ListOrdersRequest { closed_too: flags.closed };
    let told = door.look(|channel| async move { stock(channel).list_orders(request).await }).await?;
    if flags.reach.json {
        return Ok(done(line(serde_json::to_string(&told))?));
    }
    Ok(done(order::list(&told.orders, &Look::of(&flags.reach))))
}

async fn cancel(flags: &CancelOrder) -> Result<Printed, Failure> {
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.reach.server).await?;
    let request = v1::CancelOrderRequest {
        request_id: id.clone(),
        order_id: flags.order.clone(),
        reason: flags.because.clone().unwrap_or_default(),
    };
    let sent = |channel, request| async move { stock(channel).cancel_order(request).await };
    let told = door.change(&id, request, sent).await?;
    if flags.reach.json {
        return Ok(done(line(serde_json::to_string(&told))?));
    }
    Ok(done(order::one(told.order.as_ref(), told.replayed, &Look::of(&flags.reach))))
}
