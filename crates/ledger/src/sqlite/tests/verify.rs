//! Everything that can be made to disagree is named.

use rusqlite::Connection;

use super::*;
use crate::rules::{NewOrderLine, Place};

/// A loft with some of everything: an order, a bolt held, confirmed, cut with a remnant.
async fn furnished() -> Loft {
    let loft = Loft::new();
    let ordered = NewOrderLine { material: kelp(), amount: cm(1_000) };
    loft.done(Command::Place(Place {
        id: "O1".into(),
        supplier: "Tern Mill".into(),
        expected_day: 20_003,
        note: String::new(),
        lines: vec![ordered],
    }))
    .await;
    loft.done(Command::Receive(Receive { pieces: vec![bolt("B1", cm(1_000))], order: Some("O1".into()) }))
        .await;
    loft.done(reserve("R1", &[("B1", cm(200))])).await;
    loft.store.apply(asked("k", 1, confirm("R1")), None).await.expect("confirmed");
    loft.done(cut("C1", "R1", cm(150), cm(10), Some(("M1", cm(40))))).await;
    loft.done(reserve("R2", &[("B1", cm(100)), ("M1", cm(5))])).await;
    loft.done(reserve("R3", &[("B1", cm(7))])).await;
    loft.done(release("R3")).await;
    loft.sound().await;
    loft
}

#[tokio::test]
async fn every_drift_is_named() {
    let loft = furnished().await;
    // what is done to the file behind the store's back, and what must be said of it
    let cases = [
        ("UPDATE piece SET left_over = left_over + 1 WHERE id = 'B1'", "piece B1: free is"),
        ("UPDATE piece SET held = held - 1 WHERE id = 'B1'", "piece B1: held is"),
        ("UPDATE piece SET confirmed = confirmed + 1 WHERE id = 'B1'", "piece B1: confirmed is"),
        ("UPDATE piece SET received = received + 1 WHERE id = 'M1'", "piece M1: what came is"),
        ("UPDATE piece SET parent = NULL WHERE id = 'M1'", "piece M1: has a parent without a cut"),
        ("UPDATE piece SET parent = 'B9' WHERE id = 'M1'", "cut C1: the remnant M1 does not know"),
        ("UPDATE piece SET purchase = 'O9' WHERE id = 'B1'", "piece B1: the order O9"),
        ("UPDATE piece SET flaws = '900000000-900000001' WHERE id = 'B1'", "piece B1: a flaw"),
        (
            "UPDATE line SET granted = granted - 1 WHERE reservation = 'R2' AND number = 1",
            "piece B1: held, by its lines",
        ),
        (
            "UPDATE line SET granted = granted - 1 WHERE reservation = 'R1'",
            "reservation R1: confirmed by its movements",
        ),
        ("UPDATE line SET used = used + 1 WHERE reservation = 'R1'", "reservation R1, line 1: used"),
        ("UPDATE line SET spoiled = 0 WHERE reservation = 'R1'", "reservation R1, line 1: spoiled"),
        ("UPDATE line SET shapes_cut = 9 WHERE reservation = 'R1'", "reservation R1, line 1: shapes cut"),
        ("UPDATE line SET wanted = 5 WHERE reservation = 'R3'", "reservation R3: is released, and wants 5"),
        ("UPDATE line SET number = 7 WHERE reservation = 'R3'", "reservation R3: number of a line"),
        ("UPDATE reservation SET state = 'held' WHERE id = 'R1'", "reservation R1: is held, which its time"),
        ("UPDATE reservation SET state = 'expired' WHERE id = 'R3'", "number of events \"expired\" is 0"),
        ("UPDATE reservation SET state = 'superseded' WHERE id = 'R3'", "whether another one took its place"),
        (
            "UPDATE reservation SET supersedes = 'R9' WHERE id = 'R2'",
            "R9 does not know that its place was taken",
        ),
        ("UPDATE cut_part SET spoiled = 0 WHERE cut = 'C1'", "piece B1: spoiled is"),
        ("UPDATE cut_part SET kept = 0 WHERE cut = 'C1'", "cut C1: kept of B1"),
        ("UPDATE cut_part SET remnants = '2:M9 ' WHERE cut = 'C1'", "the remnant M9 is not there"),
        ("UPDATE cut SET undone = 1 WHERE id = 'C1'", "piece M1: kept is -400000, but should be 0"),
        ("DELETE FROM cut_part WHERE cut = 'C1'", "cut C1: nothing was cut by it"),
        ("UPDATE purchase_line SET received = 1", "order O1: what has come of kelp"),
        ("UPDATE purchase SET state = 'open'", "order O1: stands open"),
        ("UPDATE purchase_line SET ordered = ordered + 1", "order O1: counts as filled"),
        ("DELETE FROM event WHERE kind = 'confirmed'", "number of events \"confirmed\" is 0"),
        ("DELETE FROM event WHERE place = 3", "the last one has the place"),
        ("DELETE FROM event WHERE kind = 'released'", "piece B1: movements that no event tells of"),
        ("UPDATE request SET answer = x'ff'", "its answer cannot be read"),
        (
            "DROP TRIGGER movement_remains; DELETE FROM movement WHERE piece = 'B1' AND place = 2",
            "piece B1: number of movements",
        ),
        (
            "DROP TRIGGER movement_stays; UPDATE movement SET amount = amount + 1 WHERE piece = 'B1' AND place = 1",
            "piece B1: free is",
        ),
    ];
    for (number, (wrong, named)) in cases.into_iter().enumerate() {
        let copy = loft.folder.path().join(format!("copy{number}.db"));
        loft.store.backup(&copy).await.expect("a copy");
        let connection = Connection::open(&copy).expect("it opens");
        connection.execute_batch("PRAGMA foreign_keys = OFF").expect("set");
        connection.execute_batch(wrong).expect(wrong);
        let found = super::super::verify::verify(&connection).expect("looked through");
        assert!(found.drift.iter().any(|drift| drift.contains(named)), "{wrong}: {:?}", found.drift);
    }
    loft.sound().await;
}

#[tokio::test]
async fn what_was_looked_at_is_counted() {
    let loft = furnished().await;
    let found = loft.store.verify().await.expect("looked through");
    assert_eq!((found.pieces, found.reservations), (2, 3));
    let b1 = loft.store.movements(&"B1".into(), 0, 100).await.expect("a look").len();
    let m1 = loft.store.movements(&"M1".into(), 0, 100).await.expect("a look").len();
    assert_eq!(found.movements, u64::try_from(b1 + m1).expect("few"));
    assert_eq!(found.events, u64::try_from(loft.store.last_place().await.expect("a look")).expect("some"));
}
