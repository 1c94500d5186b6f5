//! Pieces that come.
//!
//! All of a delivery or none. Each piece comes from the supplier and is free. On an order, what
//! comes of a material fills the first line of it on which something is outstanding, then the
//! next; what is over is added to the last one. Once nothing is outstanding the order is filled;
//! a filled one may still receive more, a cancelled one may not.

use std::collections::BTreeSet;

use super::work::{Shift, Work};
use crate::rules::{
    Account, Amount, Class, EventKind, Flaw, Material, MovementKind, NewPiece, Order, OrderId, OrderState,
    Piece, PieceId, Receive, Refusal,
};

/// Puts pieces on the shelf.
pub(super) fn receive(work: &mut Work<'_>, command: &Receive) -> Result<(), Refusal> {
    if command.pieces.is_empty() {
        return Err(Refusal::Empty);
    }
    let mut named: BTreeSet<&PieceId> = BTreeSet::new();
    for piece in &command.pieces {
        if !named.insert(&piece.id) {
            return Err(Refusal::Twice(piece.id.to_string()));
        }
        check(work, piece)?;
    }
    if let Some(order) = &command.order {
        fill(work, order, &command.pieces)?;
    }
    for piece in &command.pieces {
        let came = Piece { order: command.order.clone(), at: work.now, ..as_piece(piece) };
        let (supplier, free) = (Account::Supplier, Account::Free);
        add(work, came, &Shift::of(MovementKind::Receive, &piece.id, supplier, free, piece.amount));
    }
    Ok(())
}

/// Puts a piece on the shelf, on which nothing lies yet, and then on it what it received.
pub(super) fn add(work: &mut Work<'_>, piece: Piece, came: &Shift<'_>) {
    let (id, order, received) = (piece.id.clone(), piece.order.clone(), piece.received);
    work.pieces.insert(id.clone(), piece);
    work.shift(came);
    let told = work.tell(EventKind::Received).on(&id).amount(received);
    if let Some(order) = order {
        told.order(&order);
    }
    work.outcome.received.push(id);
}

/// Whether flaws are in order, apart from each other, not empty, and within what there is. What
/// is counted has none.
pub(super) fn are_flaws(flaws: &[Flaw], left: Amount, class: Class) -> bool {
    let mut begins = Amount::ZERO;
    for flaw in flaws {
        let (from, to) = (Amount::of_length(flaw.from), Amount::of_length(flaw.to));
        if from < begins || to <= from || to > left {
            return false;
        }
        begins = to;
    }
    class != Class::Sundry || flaws.is_empty()
}

/// Whether there can be so much of something.
pub(super) fn is_some_amount(class: Class, amount: Amount) -> Result<(), Refusal> {
    if amount.is_some() && amount <= Amount::MOST { Ok(()) } else { Err(Refusal::BadAmount(class, amount)) }
}

fn check(work: &Work<'_>, piece: &NewPiece) -> Result<(), Refusal> {
    if work.pieces.contains_key(&piece.id) {
        return Err(Refusal::PieceExists(piece.id.clone()));
    }
    is_some_amount(piece.material.class, piece.amount)?;
    let width = Amount::of_length(piece.width);
    if width < Amount::ZERO || width > Amount::MOST {
        return Err(Refusal::BadWidth(piece.id.clone(), piece.width));
    }
    if !are_flaws(&piece.flaws, piece.amount, piece.material.class) {
        return Err(Refusal::BadFlaws(piece.id.clone()));
    }
    Ok(())
}

fn fill(work: &mut Work<'_>, id: &OrderId, pieces: &[NewPiece]) -> Result<(), Refusal> {
    let order = work.orders.get_mut(id).ok_or_else(|| Refusal::NoOrder(id.clone()))?;
    if order.state == OrderState::Cancelled {
        return Err(Refusal::OrderNotNow(id.clone(), order.state));
    }
    for piece in pieces {
        come(order, &piece.material, piece.amount)?;
    }
    if order.lines.iter().all(|line| !line.outstanding().is_some()) {
        order.state = OrderState::Filled;
    }
    work.answer_order = Some(id.clone());
    Ok(())
}

fn come(order: &mut Order, material: &Material, amount: Amount) -> Result<(), Refusal> {
    let mut over = amount;
    let mut last = None;
    for line in order.lines.iter_mut().filter(|line| line.material == *material) {
        let takes = line.outstanding().min(over);
        line.received += takes;
        over -= takes;
        last = Some(line);
    }
    let last = last.ok_or_else(|| Refusal::NotOrdered(order.id.clone(), material.clone()))?;
    last.received += over;
    Ok(())
}

fn as_piece(piece: &NewPiece) -> Piece {
    Piece {
        id: piece.id.clone(),
        kind: piece.kind,
        material: piece.material.clone(),
        lot: piece.lot.clone(),
        width: piece.width,
        received: piece.amount,
        left: Amount::ZERO,
        held: Amount::ZERO,
        confirmed: Amount::ZERO,
        flaws: piece.flaws.clone(),
        parent: None,
        cut: None,
        location: piece.location.clone(),
        cost_minor: piece.cost_minor,
        supplier: piece.supplier.clone(),
        supplier_reference: piece.supplier_reference.clone(),
        certificates: piece.certificates.clone(),
        order: None,
        at: crate::rules::At::default(),
    }
}
