//! What each day did, as it is kept here: the same as in the other engine, whoever writes at once.

use std::sync::Arc;

use tokio::sync::Barrier;

use super::{Shop, bolt, command, confirm, count_piece, done, mm, receive, release, reserve};
use crate::days::story::{NOON, cm, cut, expected, kelp as story_kelp, on, part, reserve as hold, story};
use crate::engine::DaySum;
use crate::postgres::migrate::MIGRATIONS;
use crate::postgres::{Clock, Options, Store, migrate};
use crate::rules::{Class, Command, DayUse, Finish, NewOrderLine, Part, Place, Reason, RollUp, Undo};

/// A shop judged by the clock of its commands that was told the story.
async fn told() -> Shop {
    let shop = Shop::with(Options { clock: Clock::Given, ..Options::default() }).await;
    for envelope in story() {
        done(&shop.store, envelope).await;
    }
    shop.is_sound().await;
    shop
}

#[tokio::test(flavor = "multi_thread")]
async fn days_are_kept_as_worked_by_hand() {
    let shop = told().await;
    let rows = shop.store.day_uses_by_lot(Class::Cloth, i32::MIN, i32::MAX).await.unwrap();
    assert_eq!(rows, expected());
    let sums = shop.store.day_uses(Class::Cloth, 101, 102).await.unwrap();
    let day = |day: i32| {
        let mut of = DayUse::default();
        expected().iter().filter(|row| row.day == day).for_each(|row| of.add(&row.of));
        DaySum { code: "kelp".to_owned(), day, of }
    };
    assert_eq!(sums, [day(101), day(102)]);
    assert_eq!(shop.store.day_uses(Class::Binding, 0, 999).await, Ok(vec![]));
    assert_eq!(shop.store.first_day(&story_kelp()).await, Ok(Some(100)));
    let unknown = crate::rules::Material { code: "sand".into(), ..story_kelp() };
    assert_eq!(shop.store.first_day(&unknown).await, Ok(None));
}

#[tokio::test(flavor = "multi_thread")]
async fn a_hold_writes_no_day() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 9_000)])).await;
    let written = "SELECT xmin, * FROM day_use";
    let before = shop.ask(written);
    done(&shop.store, reserve("R1", &[("B1", 1_000)])).await;
    done(&shop.store, release("R1")).await;
    done(&shop.store, reserve("R2", &[("B1", 1_000)])).await;
    assert_eq!(shop.ask(written), before);
    done(&shop.store, confirm("R2")).await;
    assert_ne!(shop.ask(written), before);
}

#[tokio::test(flavor = "multi_thread")]
async fn whatever_drifts_is_named_and_put_right() {
    let shop = told().await;
    assert_eq!(shop.store.rebuild().await, Ok(0));
    let wrongs = [
        (
            "UPDATE day_use SET used = used + 5 WHERE day = 102 AND lot = 'L1'",
            1,
            "day 102 of cloth kelp, lot \"L1\": used is 1330005, but should be 1330000",
        ),
        ("UPDATE day_use SET late_at = late_at + 1 WHERE day = 101 AND lot = 'L1'", 1, "late_at is"),
        ("UPDATE day_use SET late_at = 7 WHERE day = 104", 1, "late_at is 7, but should be never"),
        (
            "UPDATE day_use SET late_at = NULL WHERE day = 102 AND lot = 'L1'",
            1,
            "late_at is never, but should be",
        ),
        (
            "UPDATE day_use SET net_area = 0, cuts = 3 WHERE day = 102 AND lot = 'L2'",
            1,
            "cuts is 3, but should be 1; net_area is 0",
        ),
        ("DELETE FROM day_use WHERE day = 100", 2, "lot \"L2\": came is 0, but should be 4000000"),
        (
            "INSERT INTO day_use VALUES ('sundry', 'x', '', 5, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, NULL)",
            1,
            "day 5 of sundry x, lot \"\": came is 1, but should be 0",
        ),
        ("DELETE FROM day_use", 7, "came is 0, but should be 10000000"),
    ];
    for (wrong, many, named) in wrongs {
        shop.ask(wrong);
        let drift = shop.store.verify().await.unwrap().drift;
        assert!(drift.iter().any(|drift| drift.contains(named)), "{wrong}: {drift:?}");
        assert_eq!(shop.store.rebuild().await, Ok(many), "{wrong}");
        assert_eq!(shop.store.day_uses_by_lot(Class::Cloth, 0, 999).await, Ok(expected()), "{wrong}");
        shop.is_sound().await;
    }
    assert_eq!(shop.ask("SELECT count(*) FROM day_use WHERE class = 'sundry'"), "0");
}

/// Migrations after the first.
fn later() -> u32 {
    u32::try_from(MIGRATIONS.len()).unwrap() - 1
}

/// As the other engine's test has it: without what the second migration added, and with cuts that
/// were taken back counted for the day on which that was done.
const BACK: &str = "UPDATE movement SET day = 103, reason = '' WHERE kind = 'undo'; \
     ALTER TABLE line DROP COLUMN past; DROP INDEX piece_ever_of_material; DROP INDEX piece_left; DROP INDEX piece_named; \
     DROP INDEX reservation_live; DROP INDEX line_short; DROP INDEX purchase_made; DROP INDEX purchase_open; \
     DROP TABLE report_earlier; DROP TABLE report_part; DROP TABLE report; DROP TABLE day_use; \
     ALTER TABLE line DROP COLUMN shape_area; ALTER TABLE movement DROP COLUMN late; \
     ALTER TABLE cut DROP COLUMN day; ALTER TABLE cut_part DROP COLUMN why; ALTER TABLE cut_part DROP COLUMN turn; \
     ALTER TABLE movement DROP COLUMN turn; ALTER TABLE cut DROP COLUMN turn; ALTER TABLE event DROP COLUMN turn; \
     CREATE INDEX movement_of_piece ON movement (piece, at); \
     CREATE INDEX event_without_place ON event (at) WHERE place IS NULL; \
     DELETE FROM schema_version WHERE version > 1";

#[tokio::test(flavor = "multi_thread")]
async fn a_store_of_the_first_migration_is_brought_up_to_date() {
    let shop = told().await;
    done(&shop.store, on(104, 0, hold("R2", &[("B1", 20), ("B1", 20)]))).await;
    let with = |part: Part| Part { finish: Finish::Done, ..part };
    let parts = vec![with(part(1, 20, 3, Reason::Flaw)), with(part(2, 20, 3, Reason::EndBit))];
    done(&shop.store, on(104, 0, cut("C9", "R2", None, parts))).await;
    shop.store.close().await;
    shop.ask(BACK);
    assert_eq!(migrate(&shop.database.url()).await, Ok(later()));
    let turns = "SELECT count(*) - count(DISTINCT (piece, turn)), min(turn) FROM cut_part";
    assert_eq!(shop.ask(turns), "0|1", "parts on a piece come one after the other");
    let options = Options { clock: Clock::Given, ..Options::default() };
    let store = Store::open(&shop.database.url(), options).await.unwrap();
    assert_eq!(store.verify().await.unwrap().drift, Vec::<String>::new());
    let forgets = |mut row: RollUp| {
        (row.of.drawn_area, row.of.net_area, row.of.late_at) = (0, 0, None);
        row
    };
    let mut should: Vec<RollUp> = expected().into_iter().map(forgets).collect();
    let last = &mut should[3].of;
    (last.used, last.flawed, last.ends, last.cuts) = (cm(34), cm(3), cm(3), 1);
    last.used_area = 340_000 * 1_120_000;
    assert_eq!(store.day_uses_by_lot(Class::Cloth, 0, 999).await, Ok(should));
    let cut = store.cut(&"C9".into()).await.unwrap().unwrap();
    assert_eq!((cut.day, cut.parts[0].why, cut.parts[1].why), (104, Reason::Flaw, Reason::EndBit));
    done(&store, on(105, 10, Command::Undo(Undo { cut: "C9".into() }))).await;
    let mut should = expected().remove(3);
    should.of.late_at = Some(NOON.after_seconds(10));
    assert_eq!(store.day_uses_by_lot(Class::Cloth, 104, 105).await, Ok(vec![should]));
    assert_eq!(store.verify().await.unwrap().drift, Vec::<String>::new());
    // a program that knows nothing of days can write no movement
    let old = "INSERT INTO movement (change, number, at, day, actor, kind, piece, from_account, to_account, amount, \
         reason, note) VALUES ('x', 0, 0, 0, '', 'count', 'B1', 'elsewhere', 'free', 1, '', '')";
    let refused = shop.ask(&format!(
        "CREATE TABLE tried (words TEXT); DO $$ BEGIN {old}; EXCEPTION WHEN not_null_violation THEN \
         INSERT INTO tried VALUES ('refused'); END $$; SELECT words FROM tried"
    ));
    assert!(refused.ends_with("refused"), "{refused}");
}

/// Many servers' callers work on all pieces of a few lots at once, each in another order, while the
/// days are added up again and again: nobody waits for ever, and every day comes out right.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn of_many_at_once_every_day_comes_out_right() {
    let shop = Shop::new().await;
    let other = Store::open(&shop.database.url(), Options::default()).await.unwrap();
    let lots = |number: usize| format!("L{}", number % 3);
    let pieces = (0..12).map(|number| {
        let lot = lots(number);
        crate::rules::NewPiece { lot, ..bolt(&format!("B{number}"), 50_000) }
    });
    done(&shop.store, receive(pieces.collect())).await;
    let callers = 8;
    let barrier = Arc::new(Barrier::new(callers + 1));
    let mut tasks = Vec::new();
    for caller in 0..callers {
        let store = if caller % 2 == 0 { shop.store.clone() } else { other.clone() };
        let barrier = Arc::clone(&barrier);
        tasks.push(tokio::spawn(async move {
            barrier.wait().await;
            for round in 0..12 {
                let (one, two) =
                    (format!("B{}", (caller + round) % 12), format!("B{}", (caller * 5 + round * 7) % 12));
                let name = format!("R{caller}-{round}");
                done(&store, reserve(&name, &[(&one, 100), (&two, 150)])).await;
                done(&store, confirm(&name)).await;
                let id = format!("C{caller}-{round}");
                let day = (round % 4 == 0).then_some(20_785);
                done(&store, command(cut_all(&id, &name, day))).await;
                if round % 3 == 0 {
                    let undone =
                        store.apply(command(Command::Undo(Undo { cut: id.as_str().into() })), None).await;
                    assert!(matches!(undone, Ok(_) | Err(crate::engine::Error::Refused(_))), "{undone:?}");
                }
            }
        }));
    }
    barrier.wait().await;
    let mut rebuilt = 0;
    while tasks.iter().any(|task| !task.is_finished()) {
        // whatever is written meanwhile, nothing is ever found to differ
        assert_eq!(shop.store.rebuild().await, Ok(0));
        rebuilt += 1;
    }
    for task in tasks {
        task.await.expect("no task panics");
    }
    assert!(rebuilt > 3, "{rebuilt}");
    shop.is_sound().await;
    let rows = shop.store.day_uses_by_lot(Class::Cloth, 0, 99_999).await.unwrap();
    let hand: i64 = rows.iter().map(|row| row.of.on_hand().0).sum();
    assert_eq!(hand.to_string(), shop.ask("SELECT sum(left_over) FROM piece"));
    assert!(rows.iter().any(|row| row.day == 20_785 && row.of.late_at.is_some()));
    shop.ask("SELECT pg_stat_clear_snapshot()");
    assert_eq!(shop.ask("SELECT deadlocks FROM pg_stat_database WHERE datname = current_database()"), "0");
}

fn cut_all(id: &str, reservation: &str, day: Option<i32>) -> Command {
    cut(id, reservation, day, Vec::new())
}

/// What has drifted is put right exactly, while others write to the very same rows.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn drift_is_put_right_while_others_write() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 900_000), bolt("B2", 900_000)])).await;
    let writer = |piece: &'static str| {
        let store = shop.store.clone();
        tokio::spawn(async move {
            for round in 0..40 {
                done(&store, count_piece(piece, 800_000 + round)).await;
            }
        })
    };
    let writers = [writer("B1"), writer("B2")];
    let mut found = 0;
    while writers.iter().any(|task| !task.is_finished()) {
        shop.ask("UPDATE day_use SET came = came + 3, late_at = 5");
        let both = tokio::join!(shop.store.rebuild(), shop.store.rebuild());
        found += both.0.unwrap() + both.1.unwrap();
    }
    for task in writers {
        task.await.expect("no task panics");
    }
    assert!(found > 3, "{found}");
    shop.is_sound().await;
    let rows = shop.store.day_uses(Class::Cloth, 0, 99_999).await.unwrap();
    assert_eq!((rows.len(), rows[0].of.came, rows[0].of.late_at), (1, mm(1_800_000), None));
}

#[tokio::test(flavor = "multi_thread")]
async fn how_it_stands_is_read_in_one_look() {
    let shop = Shop::new().await;
    let lines = vec![NewOrderLine { material: super::kelp(), amount: mm(9_000) }];
    let (id, supplier) = ("O1".into(), "Gannet Weavers".to_owned());
    done(
        &shop.store,
        command(Command::Place(Place { id, supplier, expected_day: 130, note: String::new(), lines })),
    )
    .await;
    done(&shop.store, receive(vec![bolt("B1", 3_000), bolt("B2", 2_500)])).await;
    done(&shop.store, reserve("R1", &[("B1", 2_000)])).await;
    done(&shop.store, confirm("R1")).await;
    done(&shop.store, reserve("R2", &[("B2", 1_000)])).await;
    done(&shop.store, count_piece("B1", 1_800)).await;
    done(&shop.store, count_piece("B2", 950)).await;
    let stand = shop.store.stand(crate::rules::At(0)).await.unwrap();
    assert!(stand.at > crate::rules::At(1_700_000_000_000_000), "by the database's clock");
    let kelp = &stand.materials[&super::kelp()];
    assert_eq!((kelp.on_hand, kelp.confirmed, kelp.short), (mm(2_750), mm(1_800), mm(200)));
    assert_eq!((kelp.held, kelp.held_short, kelp.free), (mm(950), mm(50), mm(0)));
    let lots: Vec<_> =
        kelp.lots.iter().map(|lot| (lot.lot.as_str(), lot.longest, lot.pieces.len())).collect();
    assert_eq!(lots, [("L7", mm(0), 2)]);
    assert_eq!(
        (kelp.open[0].order.as_str(), kelp.open[0].ordered, kelp.open[0].received),
        ("O1", mm(9_000), mm(0))
    );
    assert_eq!(kelp.suppliers, ["Gannet Weavers", "Ropewalk Mill"]);
}
