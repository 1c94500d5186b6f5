//! Reservations as the contract tells them.

use std::collections::BTreeMap;

use pennantry_app::stock::Holds;
use pennantry_contract::v1;
use pennantry_ledger::rules::{Amount, At, Class, Piece, PieceId, PieceKind, Reservation, State};

use super::super::length::number;
use super::sold::Sold;
use super::write::{date, quantity, state, time};
use crate::service::Door;

/// How staff are called as holders.
pub const STAFF: &str = "staff";

/// What there is to know for telling a reservation.
#[derive(Debug, Clone, Copy)]
pub struct Telling<'a> {
    /// Through which door: at the public one the shop's fields stay empty.
    pub door: Door,
    /// What holds may be.
    pub holds: &'a Holds,
    /// As of when: a hold whose time is over is told as expired, whether or not it was ended yet.
    pub at: At,
    /// The pieces of its lines.
    pub pieces: &'a BTreeMap<PieceId, Piece>,
}

/// Tells a reservation.
pub fn write(reservation: &Reservation, telling: &Telling<'_>, replayed: bool) -> v1::Reservation {
    let sold = Sold::read(&reservation.sold);
    let over = reservation.is_overdue(telling.at);
    let is = if over { State::Expired } else { reservation.state };
    let held = is == State::Held;
    let total =
        if reservation.holder == STAFF { telling.holds.staff_total } else { telling.holds.public_total };
    let until = reservation.created.after_seconds(i64::from(total)).max(reservation.expires);
    let said = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    let buyers = v1::Reservation {
        reservation_id: reservation.id.to_string(),
        state: state(is).into(),
        create_time: time(reservation.created),
        expire_time: held.then(|| time(reservation.expires)),
        extend_until: held.then(|| time(until)),
        quote_id: reservation.quote.clone(),
        total: sold.total.clone(),
        leave_date: reservation.leave_day.map(date),
        arrive_to: said(&sold.arrive_to),
        order_reference: reservation.order_reference.clone(),
        confirm_time: reservation.confirmed.map(time),
        acknowledged_rule_ids: sold.acknowledged.clone(),
        notices: sold.notices.clone(),
        replayed,
        ..v1::Reservation::default()
    };
    if telling.door == Door::Public {
        return buyers;
    }
    v1::Reservation {
        short: !over && reservation.is_short(),
        lines: lines(reservation, &sold, telling, over),
        holder: reservation.holder.clone(),
        bench_minutes: number(reservation.bench_milli_minutes) / 1_000.0,
        supersedes_id: reservation.supersedes.as_ref().map(ToString::to_string),
        superseded_by_id: reservation.superseded_by.as_ref().map(ToString::to_string),
        reason: reservation.reason.clone(),
        override_reason: sold.override_reason,
        summary: sold.summary,
        ..buyers
    }
}

fn lines(
    reservation: &Reservation,
    sold: &Sold,
    telling: &Telling<'_>,
    over: bool,
) -> Vec<v1::ReservationLine> {
    reservation
        .lines
        .iter()
        .map(|line| {
            let piece = telling.pieces.get(&line.piece);
            let item = sold.items.iter().find(|item| item.number == line.item);
            let class = piece.map_or(Class::Cloth, |piece| piece.material.class);
            let code = piece.map_or_else(
                || item.map_or_else(String::new, |item| item.code.clone()),
                |piece| piece.material.code.clone(),
            );
            let told = |amount| Some(quantity(class, amount));
            let now = |amount: Amount| if over { Amount::ZERO } else { amount };
            v1::ReservationLine {
                line: line.number,
                piece_id: line.piece.to_string(),
                code,
                lot: piece.map_or_else(String::new, |piece| piece.lot.clone()),
                location: piece.map_or_else(String::new, |piece| piece.location.clone()),
                remnant: piece.is_some_and(begun),
                planned: told(line.planned),
                wanted: told(now(line.wanted)),
                missing: told(now(line.short())),
                used: told(line.used),
                spoiled: told(line.spoiled),
                shapes: line.shapes,
                shapes_cut: line.shapes_cut,
                purpose: item.map_or_else(String::new, |item| item.purpose.clone()),
            }
        })
        .collect()
}

/// A remnant, or a roll that was begun.
fn begun(piece: &Piece) -> bool {
    match piece.kind {
        PieceKind::Remnant => true,
        PieceKind::Roll => piece.left < piece.received || piece.parent.is_some(),
        PieceKind::Bolt | PieceKind::Box => false,
    }
}
