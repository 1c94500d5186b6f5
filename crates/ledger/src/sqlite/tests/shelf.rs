//! The shelf in memory, events, and looks.

use std::time::Instant;

use super::*;
use crate::engine::{FindPieces, FindReservations};
use crate::rules::{Adjust, Adjustment, CancelOrder, EventKind, Extend, NewOrderLine, Place, State};

/// What an answer was told of is on the shelf when it is told.
#[tokio::test]
async fn the_shelf_is_as_of_the_last_answer() {
    let loft = Loft::new();
    assert!(loft.store.shelf().materials.is_empty());
    loft.done(receive(vec![bolt("B1", cm(100)), bolt("B2", cm(50))])).await;
    let free = |piece: &str, now: At| {
        loft.store.shelf().piece(&kelp(), &piece.into()).map(|on_shelf| on_shelf.free(now))
    };
    assert_eq!(free("B1", NOON), Some(cm(100)));
    loft.done(reserve("R1", &[("B1", cm(60))])).await;
    assert_eq!((free("B1", NOON), free("B1", NOON.after_seconds(900))), (Some(cm(40)), Some(cm(100))));
    let longer = Extend { id: "R1".into(), seconds: 1_200, most_seconds: 3_600 };
    loft.done(Command::Extend(longer)).await;
    assert_eq!(
        (free("B1", NOON.after_seconds(900)), free("B1", NOON.after_seconds(1_200))),
        (Some(cm(40)), Some(cm(100)))
    );
    let later = NOON.after_seconds(10);
    loft.store.apply(at(later, confirm("R1")), None).await.expect("confirmed");
    assert_eq!(free("B1", NOON.after_seconds(900)), Some(cm(40)));
    assert_eq!(loft.store.shelf().at, later);
    let gone = Adjust { piece: "B2".into(), what: Adjustment::Counted(Amount::ZERO), note: String::new() };
    loft.done(Command::Adjust(gone)).await;
    assert_eq!(free("B2", NOON), None);
    let (kept, read) = (loft.store.shelf(), loft.store.read_shelf().await.expect("a look"));
    assert_eq!(kept.materials, read.materials);
    assert_eq!(kept.at, read.at);
}

/// What another process writes is seen within about a second, without a command here.
#[tokio::test(flavor = "multi_thread")]
async fn the_shelf_follows_another_process() {
    let loft = Loft::new();
    let other = Store::open(&loft.file(), Options::default()).expect("it opens");
    other.apply(envelope(receive(vec![bolt("B1", cm(100))])), None).await.expect("it comes");
    loft.store.wait_for_events(0, Duration::from_secs(20)).await;
    assert_eq!(loft.store.shelf().of(&kelp()).len(), 1);
    // and at once with a command here
    other.apply(envelope(reserve("R1", &[("B1", cm(60))])), None).await.expect("held");
    loft.done(receive(vec![bolt("B2", cm(1))])).await;
    let shelf = loft.store.shelf();
    assert_eq!(shelf.piece(&kelp(), &"B1".into()).expect("on the shelf").free(NOON), cm(40));
}

#[tokio::test]
async fn a_shelf_of_many_pieces_is_given_out_at_once() {
    let loft = Loft::new();
    loft.done(receive((0..2_000).map(|n| bolt(&format!("B{n}"), cm(100))).collect())).await;
    let begun = Instant::now();
    for _ in 0..1_000 {
        assert_eq!(loft.store.shelf().of(&kelp()).len(), 2_000);
    }
    let each = begun.elapsed() / 1_000;
    assert!(each < Duration::from_micros(50), "{each:?}");
}

/// A door asks for one more than its page has, and tells by that one that there is another page.
#[tokio::test]
async fn the_longest_page_is_followed_by_another() {
    let loft = Loft::new();
    loft.done(receive((0..2_500).map(|n| bolt(&format!("B{n:04}"), cm(100))).collect())).await;
    let (mut found, mut after) = (Vec::new(), None);
    loop {
        let find = FindPieces { after: after.take(), most: 1_000 + 1, ..FindPieces::default() };
        let mut page = loft.store.pieces(&find).await.expect("a look");
        let more = page.len() > 1_000;
        page.truncate(1_000);
        after = page.last().map(|piece| piece.id.clone());
        found.extend(page);
        if !more {
            break;
        }
    }
    assert_eq!(found.len(), 2_500);
}

#[tokio::test]
async fn events_are_waited_for() {
    let loft = Loft::new();
    let begun = Instant::now();
    loft.store.wait_for_events(0, Duration::from_millis(20)).await;
    assert!(begun.elapsed() >= Duration::from_millis(20), "nothing happened");
    let waiting = {
        let store = loft.store.clone();
        tokio::spawn(async move {
            store.wait_for_events(0, Duration::from_mins(1)).await;
        })
    };
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    waiting.await.expect("no panic");
    assert!(begun.elapsed() < Duration::from_secs(30));
    let events = loft.store.events(0, 10).await.expect("a look");
    assert_eq!(events.len(), 1);
    assert_eq!((events[0].place, events[0].event.kind), (1, EventKind::Received));
    assert_eq!(events[0].event.piece, Some("B1".into()));
}

#[tokio::test]
async fn looks_go_page_by_page() {
    let loft = Loft::new();
    loft.done(receive((0..7).map(|n| bolt(&format!("B{n}"), cm(100))).collect())).await;
    for n in 0..5_i32 {
        let when = NOON.after_seconds(i64::from(n / 2));
        let command = reserve(&format!("R{n}"), &[("B1", cm(10))]);
        loft.store.apply(at(when, command), None).await.expect("held");
    }
    let names =
        |found: Vec<crate::rules::Piece>| -> Vec<String> { found.into_iter().map(|it| it.id.0).collect() };
    let mut find = FindPieces { most: 3, ..FindPieces::default() };
    let mut seen = Vec::new();
    loop {
        let page = names(loft.store.pieces(&find).await.expect("a look"));
        find.after = page.last().map(|last| last.as_str().into());
        seen.extend(page);
        if find.after.is_none() {
            break;
        }
    }
    assert_eq!(seen, ["B0", "B1", "B2", "B3", "B4", "B5", "B6"]);
    let none = FindPieces { lot: Some("L2".into()), most: 9, ..FindPieces::default() };
    assert_eq!(loft.store.pieces(&none).await.expect("a look"), []);

    let mut find = FindReservations { most: 2, piece: Some("B1".into()), ..FindReservations::default() };
    let mut seen = Vec::new();
    loop {
        let page = loft.store.reservations(&find).await.expect("a look");
        find.after = page.last().map(|last| last.id.clone());
        seen.extend(page.into_iter().map(|it| it.id.0));
        if find.after.is_none() {
            break;
        }
    }
    assert_eq!(seen, ["R4", "R3", "R2", "R1", "R0"]);

    loft.done(confirm("R2")).await;
    let find = |states: &[State], short_only: bool| FindReservations {
        states: states.to_vec(),
        short_only,
        most: 9,
        ..FindReservations::default()
    };
    let found = loft.store.reservations(&find(&[State::Confirmed], false)).await.expect("a look");
    assert_eq!(found.iter().map(|it| it.id.as_str()).collect::<Vec<_>>(), ["R2"]);
    assert_eq!(found[0].lines[0].granted, cm(10));
    assert_eq!(loft.store.reservations(&find(&[], true)).await.expect("a look"), []);
    // 50 cm are promised; at 45 the hold that was taken last is short
    let counted = Adjust { piece: "B1".into(), what: Adjustment::Counted(cm(45)), note: String::new() };
    loft.done(Command::Adjust(counted)).await;
    let short = loft.store.reservations(&find(&[], true)).await.expect("a look");
    assert_eq!(short.iter().map(|it| it.id.as_str()).collect::<Vec<_>>(), ["R4"]);

    let all = loft.store.movements(&"B1".into(), 0, 100).await.expect("a look");
    let part = loft.store.movements(&"B1".into(), 2, 2).await.expect("a look");
    assert_eq!(part, all[2..4]);
    let booked = loft.store.bookings(20_004).await.expect("a look");
    assert_eq!((booked.len(), booked[0].milli_minutes, booked[0].leave_day), (1, 30_000, Some(20_004)));
    assert_eq!(loft.store.bookings(20_005).await.expect("a look"), []);
    loft.sound().await;
}

#[tokio::test]
async fn orders_are_seen() {
    let loft = Loft::new();
    let order = |id: &str, amounts: &[(&str, i64)]| {
        let lines = amounts.iter().map(|(code, amount)| NewOrderLine {
            material: Material { code: (*code).into(), ..kelp() },
            amount: cm(*amount),
        });
        Command::Place(Place {
            id: id.into(),
            supplier: "Tern Mill".into(),
            expected_day: 20_010,
            note: String::new(),
            lines: lines.collect(),
        })
    };
    loft.store.apply(at(NOON, order("O1", &[("kelp", 500), ("tern", 300)])), None).await.expect("placed");
    let later = NOON.after_seconds(1);
    loft.store.apply(at(later, order("O2", &[("kelp", 200)])), None).await.expect("placed");
    let sums = |found: Vec<(Material, Amount)>| -> Vec<(String, i64)> {
        found.into_iter().map(|(material, amount)| (material.code, amount.0 / 10_000)).collect()
    };
    assert_eq!(
        sums(loft.store.on_order().await.expect("a look")),
        [("kelp".into(), 700), ("tern".into(), 300)]
    );
    let comes = Receive { pieces: vec![bolt("B1", cm(200))], order: Some("O2".into()) };
    loft.done(Command::Receive(comes)).await;
    assert_eq!(
        sums(loft.store.on_order().await.expect("a look")),
        [("kelp".into(), 500), ("tern".into(), 300)]
    );
    let open = loft.store.orders(true, 9).await.expect("a look");
    assert_eq!(open.iter().map(|order| order.id.as_str()).collect::<Vec<_>>(), ["O1"]);
    loft.done(Command::CancelOrder(CancelOrder { id: "O1".into(), reason: "sold out".into() })).await;
    assert_eq!(loft.store.on_order().await.expect("a look"), []);
    let all = loft.store.orders(false, 9).await.expect("a look");
    assert_eq!(all.iter().map(|order| order.id.as_str()).collect::<Vec<_>>(), ["O2", "O1"]);
    loft.sound().await;
}

#[tokio::test]
async fn what_is_closed_says_so() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    loft.store.ready().await.expect("it is");
    loft.store.close().await;
    assert!(matches!(loft.store.ready().await, Err(Error::Unavailable(_))));
    assert!(matches!(loft.run(release("R1")).await, Err(Error::Unavailable(_))));
    assert!(matches!(loft.store.last_place().await, Err(Error::Unavailable(_))));
    assert!(!super::super::files::beside(&loft.file(), "-wal").exists(), "the file alone is all of it");
    loft.store.close().await;
}
