//! Events of the ledger as the contract tells them.

use jiff::Timestamp;
use pennantry_contract::v1;
use pennantry_ledger::Placed;
use pennantry_ledger::rules::{Amount, At, Class};

use super::length;

/// An event at its place. `class` is that of the piece that it happened to, where it
/// happened to one: amounts of things that are counted are numbers, all others lengths.
pub fn event(placed: &Placed, class: Option<Class>) -> v1::StockEvent {
    let event = &placed.event;
    let concerned = event.piece.as_ref().and(class);
    v1::StockEvent {
        place: placed.place,
        time: time(event.at),
        actor: event.actor.clone(),
        kind: event.kind.as_str().to_owned(),
        reservation_id: event.reservation.as_ref().map(ToString::to_string),
        piece_id: event.piece.as_ref().map(ToString::to_string),
        order_id: event.order.as_ref().map(ToString::to_string),
        quantity: concerned.map(|class| quantity(class, event.amount)),
        note: event.note.clone(),
    }
}

fn quantity(class: Class, amount: Amount) -> v1::Quantity {
    let amount = match class {
        Class::Cloth | Class::Binding => v1::quantity::Amount::LengthMm(length::write(amount.length())),
        Class::Sundry => v1::quantity::Amount::Count(u32::try_from(amount.0).unwrap_or(u32::MAX)),
    };
    v1::Quantity { amount: Some(amount) }
}

/// An instant in RFC 3339. The ledger's are the door's or the database's, which no calendar
/// is too short for.
fn time(at: At) -> String {
    Timestamp::from_microsecond(at.0).unwrap_or_default().to_string()
}

#[cfg(test)]
mod tests {
    use pennantry_ledger::rules::{ChangeId, Event, EventKind};
    use v1::quantity::Amount::{Count, LengthMm};

    use super::*;

    fn placed(piece: Option<&str>, amount: i64) -> Placed {
        let event = Event {
            change: ChangeId::default(),
            number: 0,
            at: At(1_795_773_600_000_000),
            actor: "bench".to_owned(),
            kind: EventKind::OrderCancelled,
            reservation: Some("r1".into()),
            piece: piece.map(Into::into),
            order: None,
            amount: Amount(amount),
            note: "late".to_owned(),
        };
        Placed { place: 17, event }
    }

    #[test]
    fn an_amount_is_of_what_the_piece_is() {
        let told = event(&placed(Some("B-1"), 2_400_500), Some(Class::Cloth));
        assert_eq!((told.place, told.time.as_str()), (17, "2026-11-27T10:00:00Z"));
        assert_eq!(
            (told.kind.as_str(), told.actor.as_str(), told.note.as_str()),
            ("order cancelled", "bench", "late")
        );
        assert_eq!(
            (told.reservation_id.as_deref(), told.piece_id.as_deref(), told.order_id.as_deref()),
            (Some("r1"), Some("B-1"), None)
        );
        let amount = |told: v1::StockEvent| told.quantity.and_then(|quantity| quantity.amount);
        assert_eq!(amount(told), Some(LengthMm(2400.5)));
        assert_eq!(amount(event(&placed(Some("B-1"), 7), Some(Class::Sundry))), Some(Count(7)));
        assert_eq!(amount(event(&placed(Some("B-1"), 0), Some(Class::Binding))), Some(LengthMm(0.0)));
        assert_eq!(amount(event(&placed(None, 7), Some(Class::Sundry))), None, "about no piece");
        assert_eq!(amount(event(&placed(Some("B-1"), 7), None)), None, "of a piece that is not known");
    }
}
