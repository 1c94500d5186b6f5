//! What each day did, as it is kept: added to, read, computed again, put right, and made for a
//! store that was there before.

use rusqlite::Connection;

use super::*;
use crate::days::story::{self, expected, on, part, story};
use crate::engine::DaySum;
use crate::rules::{Adjust, Adjustment, DayUse, NewOrderLine, Place, RollUp, Undo};

/// A loft that was told the story.
async fn told() -> Loft {
    let loft = Loft::new();
    for envelope in story() {
        loft.store.apply(envelope, None).await.expect("it is carried out");
    }
    loft.sound().await;
    loft
}

#[tokio::test]
async fn days_are_kept_as_worked_by_hand() {
    let loft = told().await;
    let rows = loft.store.day_uses_by_lot(Class::Cloth, i32::MIN, i32::MAX).await.expect("a look");
    assert_eq!(rows, expected());
    let left: i64 = rows.iter().map(|row| row.of.on_hand().0).sum();
    assert_eq!(
        left,
        loft.left("B1").await + loft.left("B2").await + loft.left("M1").await + loft.left("M2").await
    );
    // over both lots, and only the days asked for
    let sums = loft.store.day_uses(Class::Cloth, 101, 102).await.expect("a look");
    let day = |day: i32| {
        let mut of = DayUse::default();
        expected().iter().filter(|row| row.day == day).for_each(|row| of.add(&row.of));
        DaySum { code: "kelp".to_owned(), day, of }
    };
    assert_eq!(sums, [day(101), day(102)]);
    assert_eq!(loft.store.day_uses(Class::Binding, 0, 999).await, Ok(vec![]));
    assert_eq!(loft.store.first_day(&kelp()).await, Ok(Some(100)));
    let unknown = Material { code: "sand".into(), ..kelp() };
    assert_eq!(loft.store.first_day(&unknown).await, Ok(None));
}

#[tokio::test]
async fn a_hold_writes_no_day() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(900))])).await;
    let file = Connection::open(loft.file()).expect("it opens");
    let write = "CREATE TRIGGER t BEFORE UPDATE ON day_use BEGIN SELECT RAISE(ABORT, 'written'); END;
        CREATE TRIGGER u BEFORE INSERT ON day_use BEGIN SELECT RAISE(ABORT, 'written'); END;";
    file.execute_batch(write).expect("triggers");
    loft.done(reserve("R1", &[("B1", cm(100))])).await;
    loft.done(release("R1")).await;
    // what does write one is stopped, and nothing of it is kept
    loft.done(reserve("R2", &[("B1", cm(100))])).await;
    assert!(matches!(loft.run(confirm("R2")).await, Err(Error::Fault(_))));
    let held = loft.store.reservation(&"R2".into()).await.expect("a look").expect("it is there");
    assert_eq!(held.state, crate::rules::State::Held);
    loft.sound().await;
}

#[tokio::test]
async fn whatever_drifts_is_named_and_put_right() {
    let loft = told().await;
    assert_eq!(loft.store.rebuild().await, Ok(0));
    let before = loft.store.day_uses_by_lot(Class::Cloth, 0, 999).await.expect("a look");
    let wrongs = [
        (
            "UPDATE day_use SET used = used + 5 WHERE day = 102 AND lot = 'L1'",
            "day 102 of cloth kelp, lot \"L1\": used is 1330005, but should be 1330000",
        ),
        ("UPDATE day_use SET late_at = late_at + 1 WHERE day = 101 AND lot = 'L1'", "late_at is"),
        (
            "UPDATE day_use SET late_at = NULL WHERE day = 102 AND lot = 'L1'",
            "late_at is never, but should be",
        ),
        (
            "UPDATE day_use SET net_area = 0, cuts = 3 WHERE day = 102 AND lot = 'L2'",
            "cuts is 3, but should be 1; net_area is 0",
        ),
        ("DELETE FROM day_use WHERE day = 100", "lot \"L2\": came is 0, but should be 4000000"),
        (
            "INSERT INTO day_use VALUES ('sundry', 'x', '', 5, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, NULL)",
            "day 5 of sundry x, lot \"\": came is 1, but should be 0",
        ),
        ("DELETE FROM day_use", "came is 0, but should be 10000000"),
    ];
    let other = Connection::open(loft.file()).expect("it opens");
    for (wrong, named) in wrongs {
        let many = other.execute(wrong, []).expect("done");
        let drift = loft.store.verify().await.expect("looked through").drift;
        assert!(drift.iter().any(|drift| drift.contains(named)), "{wrong}: {drift:?}");
        assert_eq!(loft.store.rebuild().await, Ok(u64::try_from(many).expect("few")), "{wrong}");
        assert_eq!(loft.store.day_uses_by_lot(Class::Cloth, 0, 999).await.as_ref(), Ok(&before), "{wrong}");
        loft.sound().await;
    }
    let none: u32 = other
        .query_row("SELECT COUNT(*) FROM day_use WHERE class = 'sundry'", [], |row| row.get(0))
        .expect("a row");
    assert_eq!(none, 0, "a row of which no movement knows is gone");
}

/// Makes of a store one of the first migration: without what the second added, and with cuts that
/// were taken back counted for the day on which that was done, for no reason.
const BACK: &str = "
    DROP TRIGGER movement_stays;
    UPDATE movement SET day = 103, reason = '' WHERE kind = 'undo';
    CREATE TRIGGER movement_stays BEFORE UPDATE ON movement
    BEGIN SELECT RAISE(ABORT, 'movements are never changed'); END;
    ALTER TABLE line DROP COLUMN past;
    DROP INDEX piece_ever_of_material;
    DROP INDEX piece_left;
    DROP INDEX purchase_made;
    DROP INDEX purchase_open;
    DROP TABLE report_earlier;
    DROP TABLE report_part;
    DROP TABLE report;
    DROP TABLE day_use;
    ALTER TABLE line DROP COLUMN shape_area;
    ALTER TABLE movement DROP COLUMN late;
    ALTER TABLE cut DROP COLUMN day;
    ALTER TABLE cut_part DROP COLUMN why;
    ALTER TABLE cut_part DROP COLUMN turn;
    DELETE FROM schema_version WHERE number > 1;";

#[tokio::test]
async fn a_store_of_the_first_migration_is_brought_up_to_date() {
    let loft = told().await;
    // one that can still be taken back, with two reasons on one piece
    loft.store.apply(on(104, 0, story::reserve("R2", &[("B1", 20), ("B1", 20)])), None).await.expect("held");
    let done = |part: Part| Part { finish: Finish::Done, ..part };
    let parts = vec![done(part(1, 20, 3, Reason::Flaw)), done(part(2, 20, 3, Reason::EndBit))];
    loft.store.apply(on(104, 0, story::cut("C9", "R2", None, parts)), None).await.expect("cut");
    loft.store.close().await;
    let file = loft.file();
    let old = Connection::open(&file).expect("it opens");
    old.execute_batch(BACK).expect("as it was");
    let made: String = old
        .query_row("SELECT group_concat(sql, ';') FROM sqlite_schema WHERE sql IS NOT NULL", [], |row| {
            row.get(0)
        })
        .expect("a schema");
    assert!(!made.contains("shape_area") && !made.contains("day_use") && !made.contains("late"), "{made}");
    drop(old);

    let store =
        Store::open(&file, Options { durability: Durability::Off, ..Options::default() }).expect("it opens");
    assert_eq!(store.verify().await.expect("looked through").drift, Vec::<String>::new());
    let turns = "SELECT count(*) - count(DISTINCT piece || ' ' || turn), min(turn) FROM cut_part";
    let turns: (i64, i64) = Connection::open(&file)
        .expect("it opens")
        .query_row(turns, [], |row| Ok((row.get(0)?, row.get(1)?)))
        .expect("a row");
    assert_eq!(turns, (0, 1), "parts on a piece come one after the other");
    // shapes' areas were not known then, nor what was late
    let forgets = |mut row: RollUp| {
        (row.of.drawn_area, row.of.net_area, row.of.late_at) = (0, 0, None);
        row
    };
    let mut should: Vec<RollUp> = expected().into_iter().map(forgets).collect();
    let last = &mut should[3].of;
    (last.used, last.flawed, last.ends, last.cuts) = (cm(34), cm(3), cm(3), 1);
    last.used_area = 340_000 * 1_120_000;
    let rows = store.day_uses_by_lot(Class::Cloth, 0, 999).await.expect("a look");
    assert_eq!(rows, should);
    let cut = store.cut(&"C9".into()).await.expect("a look").expect("it is there");
    assert_eq!((cut.day, cut.parts[0].why, cut.parts[1].why), (104, Reason::Flaw, Reason::EndBit));
    assert_eq!(store.cut(&"C3".into()).await.expect("a look").expect("it is there").day, 101);
    // taken back now, it takes back what it did
    let back = on(105, 10, Command::Undo(Undo { cut: "C9".into() }));
    store.apply(back, None).await.expect("taken back");
    let rows = store.day_uses_by_lot(Class::Cloth, 104, 105).await.expect("a look");
    let mut should = expected().remove(3);
    should.of.late_at = Some(NOON.after_seconds(10));
    assert_eq!(rows, [should]);
    assert_eq!(store.verify().await.expect("looked through").drift, Vec::<String>::new());
}

#[tokio::test]
async fn how_it_stands_is_read_in_one_look() {
    let loft = Loft::new();
    let place = |id: &str, expected_day, amount| {
        let lines = vec![NewOrderLine { material: kelp(), amount }];
        let (id, supplier) = (id.into(), "Gannet Weavers".to_owned());
        Command::Place(Place { id, supplier, expected_day, note: String::new(), lines })
    };
    loft.on(100, NOON, place("O1", 130, cm(900))).await;
    loft.on(100, NOON, place("O2", 120, cm(800))).await;
    let on_order = Receive { pieces: vec![bolt("B1", cm(300))], order: Some("O1".into()) };
    loft.on(101, NOON, Command::Receive(on_order)).await;
    let other = NewPiece { lot: "L2".into(), supplier: String::new(), ..bolt("B2", cm(250)) };
    let flawed = crate::rules::Flaw { from: cm(100).length(), to: cm(110).length() };
    let long = NewPiece { flaws: vec![flawed], ..bolt("B3", cm(260)) };
    loft.on(101, NOON, receive(vec![other, long])).await;
    loft.on(101, NOON, reserve("R1", &[("B1", cm(200))])).await;
    loft.on(101, NOON, confirm("R1")).await;
    loft.on(101, NOON, reserve("R2", &[("B2", cm(100))])).await;
    let adjust =
        |piece: &str, what| Command::Adjust(Adjust { piece: piece.into(), what, note: String::new() });
    loft.on(102, NOON, adjust("B1", Adjustment::Counted(cm(180)))).await;
    loft.on(102, NOON, adjust("B2", Adjustment::Counted(cm(95)))).await;

    let stand = loft.store.stand(NOON.after_seconds(60)).await.expect("a look");
    assert_eq!(stand.at, NOON.after_seconds(60));
    let kelp = &stand.materials[&kelp()];
    assert_eq!(kelp.on_hand, cm(180 + 95 + 260));
    assert_eq!((kelp.confirmed, kelp.short), (cm(180), cm(20)));
    assert_eq!((kelp.held, kelp.held_short), (cm(95), cm(5)));
    assert_eq!(kelp.free, cm(260));
    let lots: Vec<_> = kelp.lots.iter().map(|lot| (lot.lot.as_str(), lot.longest)).collect();
    assert_eq!(lots, [("L1", cm(150)), ("L2", cm(0))]);
    let lying = &kelp.lots[0].pieces;
    let pieces: Vec<_> =
        lying.iter().map(|piece| (piece.id.as_str(), piece.left, piece.free, piece.longest)).collect();
    assert_eq!(pieces, [("B3", cm(260), cm(260), cm(150)), ("B1", cm(180), cm(0), cm(0))]);
    let open: Vec<_> = kelp
        .open
        .iter()
        .map(|line| (line.order.as_str(), line.expected_day, line.ordered, line.received))
        .collect();
    assert_eq!(open, [("O2", 120, cm(800), cm(0)), ("O1", 130, cm(900), cm(300))]);
    assert_eq!((kelp.open[0].placed, kelp.open[0].supplier.as_str()), (NOON, "Gannet Weavers"));
    assert_eq!(kelp.suppliers, ["Gannet Weavers", "Tern Mill"]);
    // once its time is over, a hold counts for nothing, swept or not
    let later = loft.store.stand(NOON.after_seconds(900)).await.expect("a look");
    let kelp = &later.materials.values().next().expect("one");
    assert_eq!((kelp.held, kelp.held_short, kelp.free), (cm(0), cm(0), cm(260 + 95)));
    assert_eq!(kelp.lots[1].longest, cm(95));
}
