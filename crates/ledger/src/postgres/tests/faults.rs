//! Whatever was acknowledged is there, and nothing is left half-way.

use std::future::Future;
use std::pin::pin;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::task::{Context, Waker};
use std::time::{Duration, Instant};

use super::proxy::Proxy;
use super::server::{Database, Server};
use super::{Shop, asked, bolt, done, mm, receive, reserve};
use crate::engine::{Error, FindPieces};
use crate::postgres::unit::Unit;
use crate::postgres::{Options, Store};
use crate::rules::Refusal;

/// Polls a few times and lets go.
async fn poll_and_drop(future: impl Future, times: usize) {
    let mut future = pin!(future);
    for _ in 0..times {
        if future.as_mut().poll(&mut Context::from_waker(Waker::noop())).is_ready() {
            return;
        }
        tokio::task::yield_now().await;
    }
}

const IDLE: &str = "SELECT count(*) FROM pg_stat_activity \
    WHERE datname = current_database() AND state LIKE 'idle in transaction%'";

#[tokio::test(flavor = "multi_thread")]
async fn who_stops_waiting_stops_nothing_half_way() {
    let shop = Shop::with(Options { connections: 1, ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("B1", 100_000)])).await;
    for round in 0..10 {
        for times in 1..=6 {
            let id = format!("R{round}-{times}");
            poll_and_drop(shop.store.apply(reserve(&id, &[("B1", 10)]), None), times).await;
            poll_and_drop(shop.store.pieces(&FindPieces::default()), times).await;
            poll_and_drop(shop.store.events(0, 5), times).await;
        }
    }
    // with one connection, this comes after all of those
    done(&shop.store, reserve("last", &[("B1", 10)])).await;
    assert_eq!(
        shop.ask("SELECT count(*) FROM reservation WHERE id = 'last'"),
        "1",
        "seen from another session"
    );
    let store = shop.store.clone();
    store.close().await;
    assert_eq!(shop.ask(IDLE), "0");
    assert_eq!(shop.ask("SELECT count(*) FROM reservation"), "61", "each went on by itself");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_unit_let_go_in_the_middle_takes_its_connection_along() {
    let shop = Shop::with(Options { connections: 1, ..Options::default() }).await;
    let inner = &shop.store.inner;
    let ends = Instant::now() + Duration::from_secs(5);
    let unit = Unit::change(inner.connection(ends).await.unwrap(), &inner.options, ends);
    unit.batch("INSERT INTO holder (name) VALUES ('half-way')").await.unwrap();
    drop(unit);
    // the next borrower neither commits what was begun nor loses its own
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    assert_eq!(shop.ask("SELECT (SELECT count(*) FROM holder), (SELECT count(*) FROM piece)"), "0|1");
}

#[tokio::test(flavor = "multi_thread")]
async fn deadlines_of_all_lengths_leave_no_transaction_open() {
    let shop = Shop::with(Options { connections: 3, ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("B1", 1_000_000)])).await;
    let mut tasks = Vec::new();
    for number in 0..400_u64 {
        let store = shop.store.clone();
        tasks.push(tokio::spawn(async move {
            let deadline = Instant::now() + Duration::from_micros(number * number * 7 % 40_000);
            let envelope = asked(&format!("k{number}"), 1, reserve(&format!("R{number}"), &[("B1", 10)]));
            store.apply(envelope, Some(deadline)).await
        }));
    }
    let mut acknowledged = 0;
    for task in tasks {
        match task.await.unwrap() {
            Ok(_) => acknowledged += 1,
            Err(error) => assert!(matches!(error, Error::Late | Error::Unavailable(_)), "{error:?}"),
        }
    }
    assert!(acknowledged > 0, "some had time enough");
    assert_eq!(shop.ask("SELECT count(*) FROM reservation"), acknowledged.to_string());
    assert_eq!(shop.ask(IDLE), "0");
    done(&shop.store, reserve("last", &[("B1", 10)])).await;
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_locked_piece_is_waited_for_to_the_deadline_and_no_longer() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    let (client, connection) =
        tokio_postgres::connect(&shop.database.url(), tokio_postgres::NoTls).await.unwrap();
    tokio::spawn(connection);
    client.batch_execute("BEGIN; SELECT * FROM piece WHERE id = 'B1' FOR UPDATE").await.unwrap();
    let soon = Instant::now() + Duration::from_millis(300);
    assert_eq!(shop.store.apply(reserve("R1", &[("B1", 500)]), Some(soon)).await, Err(Error::Late));
    assert!(Instant::now() < soon + Duration::from_millis(400));
    let waits = tokio::spawn({
        let store = shop.store.clone();
        async move { store.apply(reserve("R2", &[("B1", 500)]), None).await }
    });
    while shop.ask("SELECT count(*) FROM pg_stat_activity WHERE wait_event_type = 'Lock' AND datname = current_database()") == "0" {
        tokio::task::yield_now().await;
    }
    client.batch_execute("UPDATE piece SET left_over = 400; COMMIT").await.unwrap();
    // what was read before the lock was had does not count
    assert!(matches!(waits.await.unwrap(), Err(Error::Refused(Refusal::Taken(_)))));
    assert_eq!(shop.ask(IDLE), "0");
}

#[tokio::test(flavor = "multi_thread")]
async fn more_than_is_taken_in_is_refused_at_once() {
    let options = Options { connections: 1, waiting: 2, ..Options::default() };
    let shop = Shop::with(options).await;
    done(&shop.store, receive(vec![bolt("B1", 100_000)])).await;
    let (client, connection) =
        tokio_postgres::connect(&shop.database.url(), tokio_postgres::NoTls).await.unwrap();
    tokio::spawn(connection);
    client.batch_execute("BEGIN; SELECT * FROM piece WHERE id = 'B1' FOR UPDATE").await.unwrap();
    let mut tasks = tokio::task::JoinSet::new();
    for number in 0..20 {
        let store = shop.store.clone();
        tasks.spawn(async move { store.apply(reserve(&format!("R{number}"), &[("B1", 10)]), None).await });
    }
    let mut busy = 0;
    while let Some(answer) = tasks.join_next().await {
        match answer.unwrap() {
            Err(Error::Busy) => busy += 1,
            other => assert!(other.is_ok(), "{other:?}"),
        }
        if busy == 17 {
            // one runs and two wait: now they may
            client.batch_execute("ROLLBACK").await.unwrap();
        }
    }
    assert_eq!(busy, 17);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_line_that_is_dead_without_saying_so_ends_with_the_deadline() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    let proxy = Proxy::start(shop.database.port()).await;
    let through = Store::open(&shop.database.url_by(proxy.port()), Options::default()).await.unwrap();
    proxy.fall_silent();
    let soon = Instant::now() + Duration::from_millis(400);
    let answer = through.apply(reserve("R1", &[("B1", 500)]), Some(soon)).await;
    assert!(matches!(answer, Err(Error::Late | Error::Unavailable(_))), "{answer:?}");
    assert!(Instant::now() < soon + Duration::from_secs(1));
    assert_eq!(shop.ask("SELECT count(*) FROM reservation"), "0");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_broken_constraint_is_a_fault_that_names_it() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    shop.ask("ALTER TABLE reservation ADD CONSTRAINT reservation_made_up CHECK (bench_milli_minutes < 10)");
    let answer = shop.store.apply(reserve("R1", &[("B1", 500)]), None).await;
    let Err(Error::Fault(words)) = answer else { panic!("{answer:?}") };
    assert!(words.contains("reservation_made_up"), "{words}");
    shop.is_sound().await;
}

/// Writers that never stop, each with the names of what was acknowledged.
struct Load {
    stop: Arc<AtomicBool>,
    writers: Vec<tokio::task::JoinHandle<Vec<String>>>,
}

impl Load {
    fn begin(store: &Store) -> Load {
        let stop = Arc::new(AtomicBool::new(false));
        let writers = (0..6)
            .map(|writer| {
                let (store, stop) = (store.clone(), Arc::clone(&stop));
                tokio::spawn(async move {
                    let mut acknowledged = Vec::new();
                    let mut number = 0;
                    while !stop.load(Ordering::Relaxed) {
                        number += 1;
                        let id = format!("R{writer}-{number}");
                        let envelope = asked(&id, 1, reserve(&id, &[("A", 10), ("B", 20)]));
                        match store.apply(envelope, None).await {
                            Ok(_) => acknowledged.push(id),
                            Err(Error::Unavailable(_) | Error::Busy) => {}
                            Err(other) => panic!("{other:?}"),
                        }
                    }
                    acknowledged
                })
            })
            .collect();
        Load { stop, writers }
    }

    async fn end(self) -> Vec<String> {
        self.stop.store(true, Ordering::Relaxed);
        let mut all = Vec::new();
        for writer in self.writers {
            all.extend(writer.await.unwrap());
        }
        all
    }
}

async fn all_is_there(shop: &Shop, acknowledged: &[String]) {
    let stored = shop.ask("SELECT id FROM reservation");
    let stored: std::collections::BTreeSet<&str> = stored.lines().collect();
    let missing: Vec<_> = acknowledged.iter().filter(|id| !stored.contains(id.as_str())).collect();
    assert!(missing.is_empty(), "acknowledged and not there: {missing:?}");
    let count = i64::try_from(stored.len()).unwrap();
    let held = shop.store.piece(&"A".into()).await.unwrap().unwrap().held;
    assert_eq!(held, mm(10 * count));
    assert_eq!(shop.ask("SELECT count(*) FROM request"), (count + 1).to_string());
    shop.is_sound().await;
}

fn two_bolts() -> crate::rules::Envelope {
    asked("bolts", 1, receive(vec![bolt("A", 9_000_000), bolt("B", 9_000_000)]))
}

#[tokio::test(flavor = "multi_thread")]
async fn killed_sessions_lose_nothing_that_was_acknowledged() {
    let shop = Shop::new().await;
    done(&shop.store, two_bolts()).await;
    let load = Load::begin(&shop.store);
    for _ in 0..15 {
        shop.ask(
            "SELECT pg_sleep(0.05); SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity \
             WHERE datname = current_database() AND pid <> pg_backend_pid()",
        );
    }
    let acknowledged = load.end().await;
    assert!(acknowledged.len() > 20, "{}", acknowledged.len());
    all_is_there(&shop, &acknowledged).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_killed_server_loses_nothing_that_was_acknowledged() {
    let server = tokio::task::spawn_blocking(Server::start).await.unwrap();
    let shop = Shop::on(Database::on(server.port()), Options::default()).await;
    done(&shop.store, two_bolts()).await;
    let load = Load::begin(&shop.store);
    let server = tokio::task::spawn_blocking(move || {
        for _ in 0..3 {
            std::thread::sleep(Duration::from_millis(300));
            server.restart_at_once();
        }
        server
    });
    let server = server.await.unwrap();
    // it works again by itself
    done(&shop.store, asked("after", 1, reserve("after", &[("A", 10), ("B", 20)]))).await;
    let mut acknowledged = load.end().await;
    acknowledged.push("after".to_owned());
    assert!(acknowledged.len() > 20, "{}", acknowledged.len());
    all_is_there(&shop, &acknowledged).await;
    drop(shop);
    drop(server);
}
