//! An event in one line.

use pennantry_contract::v1;

use super::{Look, second};
use crate::sheet::page::clean;
use crate::typed::amount::told;

/// Its place first, with which `watch --after` goes on; then when, what, to what, how much, who.
pub fn line(event: &v1::StockEvent, look: &Look) -> String {
    let mut parts = vec![event.place.to_string(), second(&event.time), event.kind.clone()];
    let named =
        [("reservation", &event.reservation_id), ("piece", &event.piece_id), ("order", &event.order_id)];
    parts.extend(named.iter().filter_map(|(what, id)| id.as_ref().map(|id| format!("{what} {id}"))));
    if event.quantity.is_some() {
        parts.push(told(event.quantity.as_ref(), look.unit));
    }
    if !event.actor.is_empty() {
        parts.push(format!("by {}", event.actor));
    }
    if !event.note.is_empty() {
        parts.push(format!("- {}", event.note));
    }
    clean(&parts.join("  "), look.plain) + "\n"
}
