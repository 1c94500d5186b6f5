//! PostgreSQL is killed under a server, which goes on by itself once it is back.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use serde_json::json;
use tonic::transport::Endpoint;
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_check_response::ServingStatus;
use tonic_health::pb::health_client::HealthClient;

use super::super::process::{LONG, Server};
use super::kill::is_told_again;
use super::postgres::{self, Database};
use super::wire::{Call, Caller, Told};
use super::work::Hand;
use super::{Shop, deliver, ticket};

const SERVING: ServingStatus = ServingStatus::Serving;
const NOT_SERVING: ServingStatus = ServingStatus::NotServing;

/// How often the database is killed and started again at once, before it stays away.
const RESTARTS: usize = 3;
const CLIENTS: u64 = 8;

#[test]
fn a_server_outlives_its_database() {
    let postgres = postgres::Server::start();
    let shop = Shop::shared(Database::on(postgres.port()));
    let server = shop.serve();
    deliver(&mut Caller::json(&server.address("private")), "first", 100_000, 200_000);
    let token = ticket(&server);
    let answered = Arc::new(AtomicUsize::new(0));
    let over = Arc::new(AtomicBool::new(false));
    let at_work: Vec<_> = (0..CLIENTS)
        .map(|client| {
            let hand = Hand::new(format!("hand-{client}"), &token, client);
            let caller = Caller::either(&server.address("private"), usize::from(client % 2 == 0));
            let (answered, over) = (answered.clone(), over.clone());
            std::thread::spawn(move || works_on(hand, caller, &answered, &over))
        })
        .collect();

    for _ in 0..RESTARTS {
        goes_on(&answered);
        postgres.restart_at_once();
    }
    goes_on(&answered);
    until_told(&server, SERVING);

    postgres.stop_at_once();
    until_told(&server, NOT_SERVING);
    assert!(server.get("admin", "/readyz/stock").starts_with("HTTP/1.1 503"));
    assert!(server.get("admin", "/readyz").starts_with("HTTP/1.1 200"));
    // a quote needs no stock
    ticket(&server);
    postgres.start_again();
    until_told(&server, SERVING);
    goes_on(&answered);

    over.store(true, Ordering::Relaxed);
    let hands: Vec<Hand> = at_work.into_iter().map(|hand| hand.join().unwrap()).collect();
    let mut caller = Caller::json(&server.address("private"));
    let labels = caller.labels();
    for hand in &hands {
        assert!(hand.labels.iter().all(|label| labels.binary_search(label).is_ok()));
        for (id, known) in &hand.promises {
            let told = caller.done(Call::GetReservation, &json!({"reservationId": id}));
            assert_eq!(told["reservation"]["state"], **known, "{id}");
        }
        hand.asked.iter().for_each(|asked| is_told_again(&mut caller, asked));
    }
    shop.agrees();
    server.signal("TERM");
    assert_eq!(server.end().0, Some(0));
}

/// Works on, and sends every change until it is answered, as whoever has an id for it can.
fn works_on(mut hand: Hand, mut caller: Caller, answered: &AtomicUsize, over: &AtomicBool) -> Hand {
    while !over.load(Ordering::Relaxed) {
        let (call, body) = hand.next();
        let begun = Instant::now();
        let told = loop {
            match caller.ask(call, &body) {
                Told::Nothing => {
                    assert!(begun.elapsed() < LONG * 4, "it does not come back: {call:?} {body}");
                }
                told => break told,
            }
            std::thread::sleep(Duration::from_millis(50));
        };
        answered.fetch_add(1, Ordering::Relaxed);
        hand.keep(call, body, told);
    }
    hand
}

/// Waits until more was answered since.
fn goes_on(answered: &AtomicUsize) {
    let (begun, before) = (Instant::now(), answered.load(Ordering::Relaxed));
    while answered.load(Ordering::Relaxed) < before + 40 {
        assert!(begun.elapsed() < LONG * 4, "nothing is answered any longer");
        std::thread::sleep(Duration::from_millis(10));
    }
}

/// Waits until the server says of its stock that it is so.
fn until_told(server: &Server, status: ServingStatus) {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    let endpoint = Endpoint::from_shared(format!("http://{}", server.address("private"))).unwrap();
    runtime.block_on(async {
        let mut client = HealthClient::new(endpoint.connect_lazy());
        let begun = Instant::now();
        loop {
            let request = HealthCheckRequest { service: "pennantry.v1.StockService".to_owned() };
            if client.check(request).await.unwrap().into_inner().status() == status {
                return;
            }
            assert!(begun.elapsed() < LONG, "it is not told: {status:?}");
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    });
}
