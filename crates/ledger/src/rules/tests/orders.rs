//! Orders at suppliers.

use super::make::{at, bolt, buttons, cm, kelp, roll};
use super::memory::Memory;
use crate::rules::{
    Amount, CancelOrder, Class, Command, EventKind, Material, NewOrderLine, NewPiece, OrderState, Outcome,
    Place, Receive, Refusal,
};

fn place(id: &str, lines: Vec<NewOrderLine>) -> Command {
    let (supplier, note) = ("Harbour Cloth".to_owned(), "by sea".to_owned());
    Command::Place(Place { id: id.into(), supplier, expected_day: 20_030, note, lines })
}

fn of(material: Material, amount: Amount) -> NewOrderLine {
    NewOrderLine { material, amount }
}

fn cancel(id: &str, reason: &str) -> Command {
    Command::CancelOrder(CancelOrder { id: id.into(), reason: reason.to_owned() })
}

fn comes(order: &str, pieces: Vec<NewPiece>) -> Command {
    Command::Receive(Receive { pieces, order: Some(order.into()) })
}

fn received(outcome: &Outcome) -> (OrderState, Vec<Amount>) {
    let order = outcome.order.as_ref().unwrap();
    (order.state, order.lines.iter().map(|line| line.received).collect())
}

#[test]
fn an_order_fills_as_it_comes() {
    let mut loft = Memory::default();
    let outcome =
        loft.does(place("O", vec![of(kelp(), cm(500)), of(buttons("X", 1).material, Amount(100))]), 0);
    assert_eq!(received(&outcome), (OrderState::Open, vec![cm(0), Amount(0)]));
    let outcome = loft.does(comes("O", vec![bolt("A", 300), bolt("B", 100)]), 1);
    assert_eq!(received(&outcome), (OrderState::Open, vec![cm(400), Amount(0)]));
    assert_eq!(loft.on("A").order, Some("O".into()));
    let outcome = loft.does(comes("O", vec![buttons("X", 100), bolt("C", 150)]), 2);
    assert_eq!(received(&outcome), (OrderState::Filled, vec![cm(550), Amount(100)]));
    // more may come, nothing can be called off
    let outcome = loft.does(comes("O", vec![bolt("D", 1)]), 3);
    assert_eq!(received(&outcome), (OrderState::Filled, vec![cm(551), Amount(100)]));
    let filled = Refusal::OrderNotNow("O".into(), OrderState::Filled);
    assert_eq!(loft.run(cancel("O", "late"), at(4)), Err(filled));
    assert!(
        loft.events.iter().filter(|e| e.kind == EventKind::Received).all(|e| e.order == Some("O".into()))
    );
}

#[test]
fn what_is_on_two_lines_fills_the_first_one_first() {
    let mut loft = Memory::default();
    loft.does(place("O", vec![of(kelp(), cm(100))]), 0);
    // orders of one material on two lines are not placed by command, but may be kept
    let order = loft.orders.get_mut(&"O".into()).unwrap();
    let second = crate::rules::OrderLine { number: 2, ..order.lines[0].clone() };
    order.lines.push(second);
    let outcome = loft.does(comes("O", vec![bolt("A", 130)]), 1);
    assert_eq!(received(&outcome), (OrderState::Open, vec![cm(100), cm(30)]));
    let outcome = loft.does(comes("O", vec![bolt("B", 130)]), 2);
    assert_eq!(received(&outcome), (OrderState::Filled, vec![cm(100), cm(160)]));
}

#[test]
fn an_order_is_called_off_once() {
    let mut loft = Memory::default();
    loft.does(place("O", vec![of(kelp(), cm(500))]), 0);
    let outcome = loft.does(cancel("O", "too late"), 1);
    assert_eq!(outcome.order.as_ref().unwrap().note, "by sea; too late");
    let events = loft.events.len();
    let again = loft.does(cancel("O", "again"), 2);
    assert_eq!((again.order, loft.events.len()), (outcome.order, events));
    let gone = Refusal::OrderNotNow("O".into(), OrderState::Cancelled);
    assert_eq!(loft.run(comes("O", vec![bolt("A", 1)]), at(3)), Err(gone));
}

#[test]
fn what_cannot_be_ordered_is_refused() {
    let mut loft = Memory::default();
    let mut fails = |command| loft.run(command, at(0)).unwrap_err();
    assert_eq!(fails(place("O", vec![])), Refusal::Empty);
    assert_eq!(fails(place("O", vec![of(kelp(), cm(0))])), Refusal::BadAmount(Class::Cloth, cm(0)));
    let twice = vec![of(kelp(), cm(1)), of(kelp(), cm(2))];
    assert_eq!(fails(place("O", twice)), Refusal::Twice("cloth KELP".to_owned()));
    assert_eq!(fails(cancel("O", "")), Refusal::NoOrder("O".into()));
    assert_eq!(fails(comes("O", vec![bolt("A", 1)])), Refusal::NoOrder("O".into()));
    loft.does(place("O", vec![of(kelp(), cm(500))]), 1);
    assert_eq!(loft.run(place("O", vec![of(kelp(), cm(1))]), at(2)), Err(Refusal::OrderExists("O".into())));
    let tape = roll("T", 100);
    let not_ordered = Refusal::NotOrdered("O".into(), tape.material.clone());
    assert_eq!(loft.run(comes("O", vec![bolt("A", 1), tape]), at(2)), Err(not_ordered));
    assert_eq!(loft.pieces.len(), 0);
}
