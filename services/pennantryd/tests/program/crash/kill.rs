//! The server is killed under load, started again, and asked for all that it had answered.

use std::ops::Range;
use std::time::Duration;

use serde_json::{Value, json};

use super::super::process::Server;
use super::postgres::Database;
use super::wire::{Call, Caller, Told};
use super::work::{Asked, Dice, Hand, lasting, replayed};
use super::{Shop, deliver, from_environment, ticket};

/// What a run came across.
#[derive(Debug, Default)]
struct Tally {
    /// Changes that were answered.
    answered: usize,
    /// Changes under way when the server was killed.
    under_way: usize,
    /// Those of them that had been made all the same.
    made: usize,
}

#[test]
fn invariant_09_the_embedded_stock_keeps_what_it_answered_through_kills() {
    keeps_what_it_answered(Shop::embedded);
}

#[test]
fn invariant_09_the_shared_stock_keeps_what_it_answered_through_kills() {
    keeps_what_it_answered(|| Shop::shared(Database::new()));
}

/// Rounds in one shop: with much more in it, a server has answered little before it is killed.
const ROUNDS_IN_A_SHOP: u64 = 20;

fn keeps_what_it_answered(new: impl Fn() -> Shop) {
    let (rounds, seed) = (from_environment("CRASH_ROUNDS", 20), from_environment("CRASH_SEED", 1));
    let mut dice = Dice::new(seed);
    let mut tally = Tally::default();
    for first in (0..rounds).step_by(usize::try_from(ROUNDS_IN_A_SHOP).unwrap()) {
        let last = rounds.min(first + ROUNDS_IN_A_SHOP);
        in_one_shop(&new(), first..last, seed, &mut dice, &mut tally);
    }
    eprintln!("{tally:?}");
    assert!(tally.answered > usize::try_from(rounds).unwrap(), "too little was done to tell: {tally:?}");
    assert!(tally.under_way > 0, "it was never killed in the middle of anything");
}

fn in_one_shop(shop: &Shop, rounds: Range<u64>, seed: u64, dice: &mut Dice, tally: &mut Tally) {
    let mut server = shop.serve();
    for round in rounds {
        deliver(&mut Caller::json(&server.address("private")), &format!("r{round}"), 100_000, 200_000);
        let clients = 8 + dice.below(9);
        let after = Duration::from_millis(20 + dice.below(381));
        eprintln!("seed {seed}, round {round}: {clients} clients, killed after {after:?}; so far {tally:?}");
        let token = ticket(&server);
        let hands: Vec<Hand> = (0..clients)
            .map(|client| Hand::new(format!("{round}-{client}"), &token, dice.below(u64::MAX)))
            .collect();
        let hands = killed_under_load(server, hands, after);
        server = shop.serve();
        for (turn, hand) in hands.into_iter().enumerate() {
            // by the other wire, too: a request is the same by both
            let turn = turn + usize::from(dice.below(2) == 0);
            remembers(&mut Caller::either(&server.address("private"), turn), hand, dice, tally);
        }
        shop.agrees();
    }
    server.signal("TERM");
    assert_eq!(server.end().0, Some(0));
    shop.agrees();
}

/// Everybody changes the stock until the server is no more.
fn killed_under_load(server: Server, hands: Vec<Hand>, after: Duration) -> Vec<Hand> {
    let callers: Vec<Caller> =
        (0..hands.len()).map(|turn| Caller::either(&server.address("private"), turn)).collect();
    let at_work: Vec<_> = hands
        .into_iter()
        .zip(callers)
        .map(|(mut hand, mut caller)| {
            std::thread::spawn(move || {
                loop {
                    let (call, body) = hand.next();
                    if hand.ask(&mut caller, call, body) == Told::Nothing {
                        return hand;
                    }
                }
            })
        })
        .collect();
    // that is when it is killed, whatever is under way
    std::thread::sleep(after);
    server.signal("KILL");
    let hands = at_work.into_iter().map(|hand| hand.join().unwrap()).collect();
    assert_eq!(server.end().0, None, "it ended by itself before it was killed");
    hands
}

/// Asks for everything that one of them knows, and sends again what had no answer.
fn remembers(caller: &mut Caller, mut hand: Hand, dice: &mut Dice, tally: &mut Tally) {
    let lost = hand.asked.pop_if(|asked| asked.told == Told::Nothing);
    tally.answered += hand.asked.len();

    let labels = caller.labels();
    for label in &hand.labels {
        assert!(labels.binary_search(label).is_ok(), "the piece {label} was received and is not there");
    }
    let mut made = false;
    for (id, known) in &hand.promises {
        let told = caller.done(Call::GetReservation, &json!({"reservationId": id}));
        let state = told["reservation"]["state"].as_str().unwrap();
        let of_it = |lost: &Asked| lost.body["reservationId"] == **id || lost.call == Call::UndoCut;
        let may_be = lost.as_ref().filter(|lost| of_it(lost)).map(|lost| comes_to(lost.call));
        assert!(state == known || may_be == Some(state), "{id} was {known} and is {state}; lost: {lost:?}");
        made |= state != known;
    }
    if let Some(lost) = lost {
        tally.under_way += 1;
        if let Some(answer) = settles(caller, &lost) {
            tally.made += usize::from(replayed(&answer));
            assert!(!made || replayed(&answer), "it had been made, and was made again: {lost:?} {answer}");
        } else {
            assert!(!made, "it had been made, and is refused: {lost:?}");
        }
    }
    for asked in &hand.asked {
        if dice.below(3) == 0 {
            is_told_again(caller, asked);
        }
    }
}

/// Where a change leaves a reservation.
fn comes_to(call: Call) -> &'static str {
    match call {
        Call::ConfirmReservation | Call::UndoCut => "RESERVATION_STATE_CONFIRMED",
        Call::ReleaseReservation => "RESERVATION_STATE_RELEASED",
        Call::RecordCut => "RESERVATION_STATE_CUT",
        _ => "RESERVATION_STATE_CANCELLED",
    }
}

/// A change that had no answer gets one, and keeps it.
pub fn settles(caller: &mut Caller, asked: &Asked) -> Option<Value> {
    match caller.ask(asked.call, &asked.body) {
        Told::Done(answer) => {
            is_told_again(caller, &Asked { told: Told::Done(answer.clone()), ..asked.clone() });
            Some(answer)
        }
        Told::Refused(_) => None,
        Told::Nothing => panic!("no answer again: {asked:?}"),
    }
}

/// A change that was answered has the same answer for ever.
pub fn is_told_again(caller: &mut Caller, asked: &Asked) {
    let Told::Done(first) = &asked.told else { return };
    let again = caller.done(asked.call, &asked.body);
    assert!(replayed(&again), "{asked:?} was made again: {again}");
    assert_eq!(lasting(&again), lasting(first), "{} {:?}", asked.body, asked.call);
}
