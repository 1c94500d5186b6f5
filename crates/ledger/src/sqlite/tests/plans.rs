//! What looks cost: none reads what is over, unless it is asked for just that.
//!
//! Every look is carried out, the statements that SQLite runs for it are noted, and SQLite says how
//! it would go about each. Its words are those of <https://www.sqlite.org/eqp.html>: SCAN reads a
//! whole table or index, SEARCH a part of one.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex};

use rusqlite::Connection;
use rusqlite::trace::{TraceEvent, TraceEventCodes};

use super::super::{board, command, connect, days, load, look, rows, writer};
use super::*;
use crate::engine::{FindPieces, FindReservations};
use crate::rules::{Needs, State};

/// Indexes that hold what is there now and nothing that is over: they may be read whole.
const OF_WHAT_IS_THERE: [&str; 7] = [
    "piece_left",
    "piece_by_material",
    "reservation_live",
    "reservation_held",
    "line_live_on_piece",
    "line_short",
    "purchase_open",
];

/// What may read more, as SQLite says it, and why.
const ALLOWED: [(&str, &str); 6] = [
    (
        "SCAN piece USING INDEX sqlite_autoindex_piece_1",
        "every piece there ever was is asked for, to a limit",
    ),
    ("SCAN reservation USING INDEX reservation_created", "the latest of all states, to a limit"),
    ("SCAN purchase USING INDEX purchase_made", "the latest orders of all states, to a limit"),
    ("SCAN event", "the last one, by the number of its row"),
    ("SCAN piece USING INDEX piece_ever_of_material", "who has supplied what, for the report of the night"),
    ("SCAN line", "who has supplied what, for the report of the night"),
];

/// What SQLite says of each statement that something runs.
fn plans(connection: &mut Connection, what: impl FnOnce(&Connection)) -> BTreeMap<String, Vec<String>> {
    let seen: Arc<Mutex<BTreeSet<String>>> = Arc::default();
    let notes = Arc::clone(&seen);
    connection
        .trace_v2(
            TraceEventCodes::SQLITE_TRACE_STMT,
            Some(move |event: TraceEvent<'_>| {
                if let TraceEvent::Stmt(statement, _) = event {
                    notes.lock().expect("no panic").extend(statement.expanded_sql());
                }
            }),
        )
        .expect("it is noted");
    what(connection);
    connection.trace_v2(TraceEventCodes::empty(), None::<fn(TraceEvent<'_>)>).expect("no longer");
    let seen = seen.lock().expect("no panic").clone();
    seen.into_iter()
        .map(|sql| {
            let mut statement = connection.prepare(&format!("EXPLAIN QUERY PLAN {sql}")).expect("a plan");
            let steps = statement.query_map([], |row| row.get(3)).expect("a plan");
            let steps = steps.collect::<rusqlite::Result<Vec<String>>>().expect("a plan");
            (sql, steps)
        })
        .collect()
}

fn every_look(connection: &Connection) {
    let kelp = Some(kelp());
    for (material, lot) in [(None, None), (kelp.clone(), None), (None, Some("L1")), (kelp, Some("L1"))] {
        for after in [None, Some(PieceId::from("B1"))] {
            for empty_too in [false, true] {
                let lot = lot.map(str::to_owned);
                let find = FindPieces {
                    material: material.clone(),
                    lot,
                    empty_too,
                    after: after.clone(),
                    most: 100,
                };
                look::pieces(connection, &find).expect("a look");
            }
        }
    }
    let live = vec![State::Held, State::Confirmed];
    for states in [Vec::new(), live, vec![State::Held], vec![State::Cut], vec![State::Cut, State::Expired]] {
        for short_only in [false, true] {
            for piece in [None, Some(PieceId::from("B1"))] {
                for after in [None, Some("R1".into())] {
                    let (states, piece) = (states.clone(), piece.clone());
                    let find = FindReservations { states, short_only, piece, after, most: 100 };
                    look::reservations(connection, &find).expect("a look");
                }
            }
        }
    }
    look::movements(connection, &"B1".into(), 0, 100).expect("a look");
    look::orders(connection, true, 100).expect("a look");
    look::orders(connection, false, 100).expect("a look");
    look::on_order(connection).expect("a look");
    look::events(connection, 0, 100).expect("a look");
    look::bookings(connection, 20_000).expect("a look");
    look::stand(connection).expect("a look");
    board::Board::read(connection).expect("a look");
    writer::last_place(connection).expect("a look");
    rows::find_reservation(connection, &"R1".into()).expect("a look");
    rows::cuts_for(connection, &"R1".into()).expect("a look");
    rows::find_order(connection, &"O1".into()).expect("a look");
    days::of_days(connection, Class::Cloth, 20_000, 20_100).expect("a look");
    days::of_lots(connection, Class::Cloth, 20_000, 20_100).expect("a look");
    days::first(connection, &super::kelp()).expect("a look");
    let request = Request { scope: "till".into(), key: "one".into(), body: [0; 32] };
    command::recall(connection, &request).expect("a look").expect("no other body");
    let needs = Needs {
        pieces: vec!["B1".into()],
        reservations: vec!["R1".into()],
        cuts: vec!["C1".into()],
        orders: vec!["O1".into()],
        holder: Some("buyer".into()),
        overdue: 50,
    };
    load::load(connection, &needs, NOON).expect("it is read");
}

/// Whether a step reads whole what it should not.
fn is_dear(sql: &str, step: &str) -> bool {
    if sql.contains("left_over > 0") && step.contains("piece_ever_of_material") {
        return true;
    }
    let whole = step.starts_with("SCAN ") && !step.starts_with("SCAN CONSTANT");
    let there = OF_WHAT_IS_THERE.iter().any(|index| step.ends_with(&format!("INDEX {index}")));
    whole && !there && !ALLOWED.iter().any(|(allowed, _)| step == *allowed)
}

#[tokio::test]
async fn no_look_reads_what_is_over() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(1_000))])).await;
    loft.done(reserve("R1", &[("B1", cm(60))])).await;
    loft.done(confirm("R1")).await;
    loft.done(cut("C1", "R1", cm(60), Amount::ZERO, Some(("M1", cm(5))))).await;
    loft.store.close().await;
    let mut connection = connect::reading(&loft.file(), Duration::from_secs(10)).expect("it opens");
    let plans = plans(&mut connection, every_look);
    assert!(plans.len() > 40, "{} statements", plans.len());
    let dear: Vec<_> = plans
        .iter()
        .flat_map(|(sql, steps)| steps.iter().filter(|step| is_dear(sql, step)).map(move |step| (step, sql)))
        .collect();
    assert!(dear.is_empty(), "{dear:#?}");
    // nothing is allowed that does not happen
    let steps: BTreeSet<&str> = plans.values().flatten().map(String::as_str).collect();
    for (allowed, why) in ALLOWED {
        assert!(steps.contains(allowed), "{allowed} ({why}): {steps:#?}");
    }
}
