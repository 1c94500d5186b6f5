//! Cuts on a piece, one after the other.

use super::{Shop, bolt, command, done, mm, receive, release, reserve};
use crate::engine::Error;
use crate::postgres::{Clock, Options};
use crate::rules::{
    Amount, At, Command, Cut, Envelope, EventKind, Finish, MovementKind, Part, Reason, Refusal, Sweep, Undo,
};

/// As the other engine's test has it.
#[tokio::test(flavor = "multi_thread")]
async fn cuts_of_one_instant_are_in_the_order_in_which_they_were_written() {
    let shop = Shop::with(Options { clock: Clock::Given, ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("B1", 10_000)])).await;
    let at = |seconds: i64, what: Envelope| Envelope { at: what.at.after_seconds(seconds), ..what };
    for (reservation, cut, seconds) in [("R1", "C9", 0), ("R2", "C1", 0), ("R3", "C5", -1)] {
        done(&shop.store, at(seconds, reserve(reservation, &[("B1", 1_000)]))).await;
        let all = Cut { id: cut.into(), reservation: reservation.into(), parts: Vec::new(), day: None };
        done(&shop.store, at(seconds, command(Command::Cut(all)))).await;
    }
    let undo = |cut: &str| at(60, command(Command::Undo(Undo { cut: cut.into() })));
    for earlier in ["C9", "C1"] {
        let refused = Err(Error::Refused(Refusal::UsedSince(earlier.into(), "B1".into())));
        assert_eq!(shop.store.apply(undo(earlier), None).await, refused);
    }
    for last in ["C5", "C1", "C9"] {
        done(&shop.store, undo(last)).await;
        shop.is_sound().await;
    }
    assert_eq!(shop.store.piece(&"B1".into()).await.unwrap().unwrap().left, mm(10_000));
}

/// What is written first comes first, however the clock is set in between: movements of a piece, cuts
/// for a reservation, and events, which get their places only now.
#[tokio::test(flavor = "multi_thread")]
async fn what_is_written_first_comes_first_whatever_the_clock_says() {
    let shop = Shop::with(Options { clock: Clock::Given, ..Options::default() }).await;
    let at = |seconds: i64, what: Envelope| Envelope { at: what.at.after_seconds(seconds), ..what };
    done(&shop.store, receive(vec![bolt("B1", 10_000)])).await;
    done(&shop.store, at(600, reserve("R1", &[("B1", 3_000)]))).await;
    let part = |millimetres: i64| Part {
        line: 1,
        piece: None,
        taken: mm(millimetres),
        spoiled: Amount::ZERO,
        why: Reason::None,
        shapes: Some(0),
        remnants: Vec::new(),
        finish: Finish::WhenEnough,
        note: String::new(),
    };
    for (cut, seconds) in [("C2", 300), ("C1", 300), ("C3", -900)] {
        let cut = Cut { id: cut.into(), reservation: "R1".into(), parts: vec![part(500)], day: None };
        done(&shop.store, at(seconds, command(Command::Cut(cut)))).await;
    }
    done(&shop.store, at(-3_600, release("R1"))).await;
    let seconds = |instant: At| (instant.0 - command(Command::Sweep(Sweep { most: 1 })).at.0) / 1_000_000;
    let moved = shop.store.movements(&"B1".into(), 0, 20).await.unwrap();
    let told: Vec<(MovementKind, i64)> = moved.iter().map(|moved| (moved.kind, seconds(moved.at))).collect();
    let cut = MovementKind::Cut;
    let expected = [
        (MovementKind::Receive, 0),
        (MovementKind::Reserve, 600),
        (cut, 300),
        (cut, 300),
        (cut, -900),
        (MovementKind::Release, -3_600),
    ];
    assert_eq!(told, expected);
    assert_eq!(shop.store.movements(&"B1".into(), 4, 20).await.unwrap(), moved[4..], "a later page");
    let cuts = shop.store.cuts(&"R1".into()).await.unwrap();
    assert_eq!(cuts.iter().map(|cut| cut.id.as_str()).collect::<Vec<_>>(), ["C2", "C1", "C3"]);
    let events = shop.store.events(0, 20).await.unwrap();
    let told: Vec<(i64, EventKind)> = events.iter().map(|placed| (placed.place, placed.event.kind)).collect();
    let cut = EventKind::Cut;
    let kinds = [EventKind::Received, EventKind::Held, cut, cut, cut, EventKind::Released];
    assert_eq!(told, (1..).zip(kinds).collect::<Vec<_>>());
    shop.is_sound().await;
}
