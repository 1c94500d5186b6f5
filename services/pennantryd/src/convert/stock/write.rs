//! Pieces, movements, orders and promises as the contract tells them.

use jiff::civil::Date;
use pennantry_app::stock::{Proposal, instant};
use pennantry_app::{Catalogue, day};
use pennantry_calc::shop::Day;
use pennantry_contract::v1;
use pennantry_ledger::rules::{
    Amount, At, Class, Movement, Order, OrderState, Piece, PieceId, PieceKind, Promise, Reason, State,
};
use pennantry_ledger::shelf::{OnShelf, Shelf};
use pennantry_measure::Length;

use super::super::length::write as mm;

/// An instant in RFC 3339.
pub fn time(at: At) -> String {
    instant(at).to_string()
}

/// A numbered day as an ISO date.
pub fn date(number: i32) -> String {
    Day(number).to_string()
}

/// An ISO date as a numbered day.
pub fn numbered(date: &str) -> Option<i32> {
    date.parse::<Date>().ok().map(|date| day(date).0)
}

/// How much of a class of material.
pub fn quantity(class: Class, amount: Amount) -> v1::Quantity {
    let amount = match class {
        Class::Cloth | Class::Binding => v1::quantity::Amount::LengthMm(mm(amount.length())),
        Class::Sundry => v1::quantity::Amount::Count(u32::try_from(amount.0).unwrap_or(0)),
    };
    v1::Quantity { amount: Some(amount) }
}

/// The same in words: `2.4 m` of what is long, millimetres below a metre, a number of what is
/// counted.
pub fn spoken(class: Class, amount: Amount) -> String {
    match class {
        Class::Sundry => amount.0.to_string(),
        Class::Cloth | Class::Binding => metres(amount.length()),
    }
}

/// A length in words.
pub fn metres(length: Length) -> String {
    let um = length.um();
    if um.unsigned_abs() < 1_000_000 || um % 10_000 != 0 {
        return length.to_string();
    }
    let hundredths = format!("{}.{:02}", um / 1_000_000, um % 1_000_000 / 10_000);
    format!("{} m", hundredths.trim_end_matches('0').trim_end_matches('.'))
}

/// The kind of a piece.
pub const fn kind(kind: PieceKind) -> v1::PieceKind {
    match kind {
        PieceKind::Bolt => v1::PieceKind::Bolt,
        PieceKind::Remnant => v1::PieceKind::Remnant,
        PieceKind::Roll => v1::PieceKind::Roll,
        PieceKind::Box => v1::PieceKind::Box,
    }
}

/// Where a reservation stands.
pub const fn state(state: State) -> v1::ReservationState {
    match state {
        State::Held => v1::ReservationState::Held,
        State::Confirmed => v1::ReservationState::Confirmed,
        State::Cut => v1::ReservationState::Cut,
        State::Released => v1::ReservationState::Released,
        State::Expired => v1::ReservationState::Expired,
        State::Cancelled => v1::ReservationState::Cancelled,
        State::Superseded => v1::ReservationState::Superseded,
    }
}

/// Why length went where it went.
pub const fn reason(reason: Reason) -> v1::StockReason {
    match reason {
        Reason::None => v1::StockReason::Unspecified,
        Reason::Count => v1::StockReason::Count,
        Reason::Damaged => v1::StockReason::Damaged,
        Reason::Lost => v1::StockReason::Lost,
        Reason::Found => v1::StockReason::Found,
        Reason::Sample => v1::StockReason::Sample,
        Reason::OwnUse => v1::StockReason::OwnUse,
        Reason::SentBack => v1::StockReason::SentBack,
        Reason::Flaw => v1::StockReason::Flaw,
        Reason::Miscut => v1::StockReason::Miscut,
        Reason::Squaring => v1::StockReason::Squaring,
        Reason::EndBit => v1::StockReason::EndBit,
        Reason::Other => v1::StockReason::Other,
    }
}

/// A piece. Where the shelf has it as it is here, holds whose time is over count for nothing,
/// whether or not they were ended yet.
pub fn piece(catalogue: &Catalogue, piece: &Piece, shelf: &Shelf, now: At) -> v1::StockPiece {
    let class = piece.material.class;
    let on_shelf =
        shelf.piece(&piece.material, &piece.id).filter(|on_shelf| on_shelf.piece.left == piece.left);
    let standing = |on_shelf: &OnShelf, held: bool| -> Amount {
        let lines = on_shelf.promised.iter().filter(|line| line.expires.is_some() == held);
        lines.filter(|line| line.expires.is_none_or(|expires| expires > now)).map(|line| line.granted).sum()
    };
    let (held, confirmed) = match on_shelf {
        Some(on_shelf) => (standing(on_shelf, true), standing(on_shelf, false)),
        None => (piece.held, piece.confirmed),
    };
    let longest =
        on_shelf.map_or(piece.free(), |on_shelf| on_shelf.clear(now).first().copied().unwrap_or_default());
    let told = |amount| Some(quantity(class, amount));
    v1::StockPiece {
        piece_id: piece.id.to_string(),
        code: piece.material.code.clone(),
        kind: kind(piece.kind).into(),
        lot: piece.lot.clone(),
        width_mm: mm(piece.width),
        received: told(piece.received),
        left: told(piece.left),
        held: told(held),
        confirmed: told(confirmed),
        free: told(piece.left - held - confirmed),
        longest: told(longest),
        flaws: piece
            .flaws
            .iter()
            .map(|flaw| v1::Flaw { from_mm: mm(flaw.from), to_mm: mm(flaw.to) })
            .collect(),
        parent_id: piece.parent.as_ref().map(ToString::to_string),
        location: piece.location.clone(),
        cost: piece
            .cost_minor
            .map(|minor_units| v1::Money { currency_code: catalogue.shop.currency.clone(), minor_units }),
        supplier: piece.supplier.clone(),
        supplier_reference: piece.supplier_reference.clone(),
        certificates: piece.certificates.clone(),
        receive_time: time(piece.at),
        order_id: piece.order.as_ref().map(ToString::to_string),
    }
}

/// A movement of a piece of a class.
pub fn movement(class: Class, moved: &Movement) -> v1::StockMovement {
    v1::StockMovement {
        time: time(moved.at),
        date: date(moved.day),
        actor: moved.actor.clone(),
        kind: moved.kind.as_str().to_owned(),
        from: moved.from.as_str().to_owned(),
        to: moved.to.as_str().to_owned(),
        quantity: Some(quantity(class, moved.amount)),
        reservation_id: moved.reservation.as_ref().map(ToString::to_string),
        cut_id: moved.cut.as_ref().map(ToString::to_string),
        reason: reason(moved.reason).into(),
        note: moved.note.clone(),
    }
}

/// An order at a supplier, on a day.
pub fn order(order: &Order, today: i32) -> v1::PurchaseOrder {
    let open = order.state == OrderState::Open;
    v1::PurchaseOrder {
        order_id: order.id.to_string(),
        supplier: order.supplier.clone(),
        state: match order.state {
            OrderState::Open => v1::OrderState::Open,
            OrderState::Filled => v1::OrderState::Filled,
            OrderState::Cancelled => v1::OrderState::Cancelled,
        }
        .into(),
        place_time: time(order.at),
        expected_date: date(order.expected_day),
        late: open && order.expected_day < today,
        lines: order
            .lines
            .iter()
            .map(|line| {
                let told = |amount| Some(quantity(line.material.class, amount));
                v1::PurchaseOrderLine {
                    code: line.material.code.clone(),
                    ordered: told(line.ordered),
                    received: told(line.received),
                    outstanding: told(if open { line.outstanding() } else { Amount::ZERO }),
                }
            })
            .collect(),
        note: order.note.clone(),
    }
}

/// A promise that changed; `of` gives the class and the code of a piece.
pub fn promise(promise: &Promise, of: impl Fn(&PieceId) -> Option<(Class, String)>) -> v1::PromiseChange {
    let (class, code) = of(&promise.piece).unwrap_or((Class::Cloth, String::new()));
    v1::PromiseChange {
        reservation_id: promise.reservation.to_string(),
        state: state(promise.state).into(),
        piece_id: promise.piece.to_string(),
        missing: Some(quantity(class, promise.short)),
        missing_before: Some(quantity(class, promise.short_before)),
        code,
    }
}

/// A piece that would make a promise good.
pub fn proposal(proposal: &Proposal) -> v1::Proposal {
    v1::Proposal {
        reservation_id: proposal.reservation.to_string(),
        piece_id: proposal.piece.to_string(),
        lot: proposal.lot.clone(),
        same_lot: proposal.same_lot,
        longest: Some(quantity(proposal.class, proposal.longest)),
    }
}
