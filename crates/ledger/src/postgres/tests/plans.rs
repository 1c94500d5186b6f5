//! What looks cost: none reads what is over, unless it is asked for just that.
//!
//! Each statement is planned for any values at all, over a shop of which nearly everything is over,
//! with scans of whole tables made dear. Words of plans are those of
//! <https://www.postgresql.org/docs/15/using-explain.html>.

use std::collections::BTreeSet;

use super::{Shop, asked, bolt, done, receive, release, reserve};
use crate::postgres::{Options, Store, sql};

/// Indexes that hold what is there now and nothing that is over: they may be read whole.
const OF_WHAT_IS_THERE: [&str; 8] = [
    "piece_left",
    "piece_by_material",
    "reservation_live",
    "reservation_held",
    "line_live_on_piece",
    "line_short",
    "purchase_open",
    "event_without_place",
];

/// Statements, each with what it may read whole beyond that, and why.
const STATEMENTS: &[(&str, &str, &[&str])] = &[
    ("request::FIND", sql::request::FIND, &[]),
    ("load::HOLDS", sql::load::HOLDS, &[]),
    ("load::OVERDUE", sql::load::OVERDUE, &[]),
    ("load::PIECES_OF_RESERVATIONS", sql::load::PIECES_OF_RESERVATIONS, &[]),
    ("load::PIECES_OF_OVERDUE", sql::load::PIECES_OF_OVERDUE, &[]),
    ("load::LOCK_PIECES", sql::load::LOCK_PIECES, &[]),
    ("load::LOCK_RESERVATIONS", sql::load::LOCK_RESERVATIONS, &[]),
    ("load::RESERVATIONS_CONCERNED", sql::load::RESERVATIONS_CONCERNED, &[]),
    ("load::LINES_CONCERNED", sql::load::LINES_CONCERNED, &[]),
    ("load::RESERVATIONS", sql::load::RESERVATIONS, &[]),
    ("load::LINES", sql::load::LINES, &[]),
    ("load::LOCK_CUTS", sql::load::LOCK_CUTS, &[]),
    ("load::CUTS", sql::load::CUTS, &[]),
    ("load::CUT_PARTS", sql::load::CUT_PARTS, &[]),
    ("load::LAST_CUTS", sql::load::LAST_CUTS, &[]),
    ("load::LOCK_ORDERS", sql::load::LOCK_ORDERS, &[]),
    ("load::ORDERS", sql::load::ORDERS, &[]),
    ("load::ORDER_LINES", sql::load::ORDER_LINES, &[]),
    ("load::LOCK_HOLDER", sql::load::LOCK_HOLDER, &[]),
    ("read::PIECES_LEFT", sql::read::PIECES_LEFT, &[]),
    // every piece there ever was is asked for, to a limit
    ("read::PIECES_EVER", sql::read::PIECES_EVER, &["piece_named"]),
    ("read::PIECES_LEFT_OF", sql::read::PIECES_LEFT_OF, &[]),
    ("read::PIECES_EVER_OF", sql::read::PIECES_EVER_OF, &[]),
    ("read::PIECE", sql::read::PIECE, &[]),
    // the latest of all states, to a limit
    ("read::RESERVATIONS", sql::read::RESERVATIONS, &["reservation_created"]),
    ("read::LIVE_RESERVATIONS", sql::read::LIVE_RESERVATIONS, &[]),
    ("read::MOVEMENTS", sql::read::MOVEMENTS, &[]),
    ("read::CUTS_OF", sql::read::CUTS_OF, &[]),
    // the latest of all states, to a limit
    ("read::ORDERS", sql::read::ORDERS, &["purchase_made"]),
    ("read::OPEN_ORDERS", sql::read::OPEN_ORDERS, &[]),
    ("read::ON_ORDER", sql::read::ON_ORDER, &[]),
    ("read::BOOKINGS", sql::read::BOOKINGS, &[]),
    ("read::SHELF", sql::read::SHELF, &[]),
    ("read::SHELF_OF", sql::read::SHELF_OF, &[]),
    ("read::PROMISED", sql::read::PROMISED, &[]),
    ("stand::OPEN", sql::stand::OPEN, &[]),
    ("stand::MISSING", sql::stand::MISSING, &[]),
    // who has supplied what, for the report of the night
    (
        "stand::SUPPLIERS",
        sql::stand::SUPPLIERS,
        &["piece", "line", "purchase", "purchase_pkey", "purchase_line_pkey"],
    ),
    ("event::WAITING", sql::event::WAITING, &[]),
    ("event::UNPLACED", sql::event::UNPLACED, &[]),
    ("event::AFTER", sql::event::AFTER, &[]),
];

/// Five thousand of everything that are over, and twenty of a few that are not.
const OVER: &str = "
INSERT INTO piece (id, kind, class, code, lot, width, received, left_over, held, confirmed, flaws, location, supplier,
    supplier_reference, certificates, at)
SELECT 'P' || n, 'box', 'sundry', 'card' || n % 20, '', 0, 1000, CASE WHEN n > 20 THEN 0 ELSE 900 END, 0, 0, '', '',
    'mill', '', '', n FROM generate_series(1, 5000) AS n;
INSERT INTO reservation (id, state, holder, created, expires, quote, order_reference, bench_milli_minutes, leave_day,
    sold, reason)
SELECT 'R' || n, CASE WHEN n > 4980 THEN 'held' ELSE 'cut' END, 'staff', n, n, 'Q', '', 100, n, '', ''
FROM generate_series(1, 5000) AS n;
INSERT INTO line (reservation, number, piece, item, planned, wanted, granted, used, spoiled, shapes, shapes_cut)
SELECT 'R' || n, 1, 'P' || 5001 - n, 1, 10, CASE WHEN n > 4980 THEN 10 ELSE 0 END,
    CASE WHEN n > 4990 THEN 10 ELSE 0 END, 10, 0, 1, 1 FROM generate_series(1, 5000) AS n;
INSERT INTO cut (id, reservation, at, undone) SELECT 'C' || n, 'R' || n, n, 0 FROM generate_series(1, 4980) AS n;
INSERT INTO cut_part (cut, number, piece, line, taken, spoiled, kept, shapes, served, flaws_before, remnants)
SELECT 'C' || n, 1, 'P' || 5001 - n, 1, 10, 0, 0, 1, 10, '', '' FROM generate_series(1, 4980) AS n;
INSERT INTO purchase (id, supplier, state, at, expected_day, note)
SELECT 'O' || n, 'mill', CASE WHEN n > 4980 THEN 'open' ELSE 'filled' END, n, n, ''
FROM generate_series(1, 5000) AS n;
INSERT INTO purchase_line (purchase, number, class, code, ordered, received)
SELECT 'O' || n, 1, 'sundry', 'card', 10, 10 FROM generate_series(1, 5000) AS n;
INSERT INTO event (change, number, place, at, actor, kind, amount, note)
SELECT decode(lpad(to_hex(n), 32, '0'), 'hex'), 0, n, n, 'staff', 'received', 10, '' FROM generate_series(1, 5000) AS n;
INSERT INTO movement (change, number, at, day, late, actor, kind, piece, from_account, to_account, amount, reason, note)
SELECT decode(lpad(to_hex(n), 32, '0'), 'hex'), 0, n, n, 0, 'staff', 'receive', 'P' || n, 'supplier', 'free', 10, '', ''
FROM generate_series(1, 5000) AS n;
INSERT INTO request (scope, key, body, at, answer)
SELECT 'till', 'K' || n, '', n, '' FROM generate_series(1, 5000) AS n;
ANALYZE";

/// How many values a statement takes.
fn values(statement: &str) -> usize {
    (1..40).rev().find(|number| statement.contains(&format!("${number}"))).unwrap_or(0)
}

/// Tables and indexes that a plan reads whole.
fn read_whole(plan: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let lines: Vec<&str> = plan.lines().collect();
    for (at, line) in lines.iter().enumerate() {
        let step = line.trim_start().trim_start_matches("->").trim_start();
        let words: Vec<&str> = step.split_whitespace().collect();
        let after = |word: &str| {
            words.iter().position(|found| *found == word).and_then(|at| words.get(at + 1)).copied()
        };
        let has_condition = || {
            lines
                .iter()
                .skip(at + 1)
                .take_while(|next| !next.trim_start().starts_with("->"))
                .any(|next| next.trim_start().starts_with("Index Cond:"))
        };
        let whole_index = step.starts_with("Bitmap Index Scan") && !has_condition();
        let scanned = if step.starts_with("Seq Scan") || whole_index {
            after("on")
        } else if (step.starts_with("Index Scan") || step.starts_with("Index Only Scan")) && !has_condition()
        {
            after("using")
        } else {
            None
        };
        found.extend(scanned.map(str::to_owned));
    }
    found
}

#[tokio::test(flavor = "multi_thread")]
async fn no_look_reads_what_is_over() {
    let shop = Shop::new().await;
    shop.ask(OVER);
    let mut dear = Vec::new();
    for (name, statement, allowed) in STATEMENTS {
        let given = vec!["NULL"; values(statement)].join(", ");
        let given = if given.is_empty() { given } else { format!("({given})") };
        let plan = shop.ask(&format!(
            "SET enable_seqscan = off; SET plan_cache_mode = force_generic_plan; PREPARE look AS {statement}; \
             EXPLAIN (COSTS OFF) EXECUTE look{given}"
        ));
        for whole in read_whole(&plan) {
            if !OF_WHAT_IS_THERE.contains(&whole.as_str()) && !allowed.contains(&whole.as_str()) {
                dear.push(format!("{name} reads {whole} whole:\n{plan}"));
            }
        }
        if statement.contains("left_over > 0") && plan.contains("piece_ever_of_material") {
            dear.push(format!("{name} reads pieces on which nothing lies:\n{plan}"));
        }
    }
    assert!(dear.is_empty(), "{}", dear.join("\n"));
}

/// Waits for the end of all sessions, which then have told what they counted.
async fn all_sessions_end(shop: &Shop) {
    let sessions = "SELECT count(*) FROM pg_stat_activity \
        WHERE application_name = 'pennantryd' AND datname = current_database()";
    while shop.ask(sessions) != "0" {
        tokio::task::yield_now().await;
    }
}

/// Plans that are made while there is hardly anything are kept while it becomes much.
#[tokio::test(flavor = "multi_thread")]
async fn plans_of_an_empty_store_read_no_table_whole() {
    let shop = Shop::new().await;
    shop.store.close().await;
    // without what migrating read
    all_sessions_end(&shop).await;
    shop.ask("SELECT pg_stat_reset()");
    let one = Options { connections: 1, ..Options::default() };
    let store = Store::open(&shop.database.url(), one).await.unwrap();
    done(&store, receive(vec![bolt("A", 10_000), bolt("B", 10_000)])).await;
    // a plan is kept from the sixth time on
    for number in 0..12 {
        let id = format!("H{number}");
        done(&store, asked(&id, 1, reserve(&id, &[("A", 10), ("B", 20)]))).await;
        done(&store, asked(&format!("{id} over"), 1, release(&id))).await;
    }
    store.close().await;
    all_sessions_end(&shop).await;
    let read = "SELECT sum(idx_scan) > 100, string_agg(relname || ' ' || seq_scan, ', ' ORDER BY relname) \
        FILTER (WHERE seq_scan > 0) FROM pg_stat_user_tables \
        WHERE relname IN ('piece', 'reservation', 'line', 'request', 'movement', 'event')";
    assert_eq!(shop.ask(read), "t|", "tables that were read whole");
}

/// Whoever adds a statement that looks at something says here what it costs.
#[test]
fn every_look_is_among_them() {
    let text = include_str!("../sql.rs");
    let of = |module: &str| {
        let from = text.find(&format!("mod {module} {{")).expect("the module");
        let rest = &text[from..];
        rest[..rest.find("\n}").expect("its end")].to_owned()
    };
    let modules =
        [("load", include_str!("../sql/load.rs").to_owned()), ("read", of("read")), ("stand", of("stand"))];
    for (module, text) in modules {
        for name in text.split("pub const ").skip(1).filter_map(|rest| rest.split(':').next()) {
            let full = format!("{module}::{name}");
            let known = STATEMENTS.iter().any(|(known, _, _)| *known == full);
            assert!(known || name == "ADD_HOLDER", "{full} is not among the statements of this test");
        }
    }
}

#[test]
fn plans_are_read() {
    let plan = "Limit\n  ->  Index Scan using a_pkey on a\n        Filter: (b > 0)\n  ->  Seq Scan on c\n  \
        ->  Bitmap Heap Scan on d\n        ->  Bitmap Index Scan on d_live\n  ->  Index Scan using e_pkey on e\n    \
        Index Cond: (id = $1)";
    assert_eq!(read_whole(plan), BTreeSet::from(["a_pkey", "c", "d_live"].map(str::to_owned)));
}
