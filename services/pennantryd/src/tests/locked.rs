//! Somebody has a row of the shared stock to themselves: who waits for it is told when their time is
//! over, and nothing is changed.

use std::time::{Duration, Instant};

use pennantry_contract::v1;
use pennantry_contract::v1::stock_service_client::StockServiceClient;
use serde_json::{Value, json};
use tonic::{Code, Request};

use super::grpc::channel;
use super::postgres::Database as Given;
use super::{LONG, ask, config, post};
use crate::listen::Limits;
use crate::stock::{Database, Stock};
use crate::{Config, Running, start};

const ADJUST: &str = "/pennantry.v1.StockService/AdjustStock";

/// A server on a database, where a call may take so long.
async fn server(given: &Given, call: Duration) -> Running {
    let stock = Stock::Postgres(Database::read(&given.url()).unwrap());
    let limits = Limits { call, ..Limits::default() };
    start(Config { stock, limits, ..config() }).await.unwrap()
}

/// A database with the schema, and a bolt of 3 m in it.
async fn shop() -> (Given, Running) {
    let given = Given::new();
    pennantry_ledger::postgres::migrate(&given.url()).await.unwrap();
    let running = server(&given, LONG).await;
    let bolt = json!({"pieces": [{"pieceId": "B", "code": "kelp", "quantity": {"lengthMm": 3000}}]});
    let path = "/pennantry.v1.StockService/ReceiveStock";
    assert_eq!(ask(running.private(), post(path, &bolt.to_string())).await.status, 200);
    (given, running)
}

fn count(id: &str) -> Value {
    json!({"requestId": id, "pieceId": "B", "counted": {"lengthMm": 2500}})
}

#[tokio::test(flavor = "multi_thread")]
async fn a_deadline_is_kept_at_every_door_while_a_row_is_locked() {
    let (given, running) = shop().await;
    let hurried = server(&given, Duration::from_millis(600)).await;
    let before =
        given.ask("SELECT * FROM piece; SELECT count(*) FROM movement; SELECT count(*) FROM request");
    let locked = given.lock("SELECT id FROM piece WHERE id = 'B' FOR UPDATE");

    // a deadline of the caller's
    let mut client = StockServiceClient::new(channel(&running).await);
    let wanted: v1::AdjustStockRequest = serde_json::from_value(count("r-1")).unwrap();
    let mut request = Request::new(wanted);
    request.set_timeout(Duration::from_millis(400));
    let asked = Instant::now();
    let told = client.adjust_stock(request).await.unwrap_err();
    assert_eq!(told.code(), Code::DeadlineExceeded, "{told:?}");
    assert!(asked.elapsed() < LONG, "it was waited for, and no longer");
    // and one of the server's own
    let reply = ask(hurried.private(), post(ADJUST, &count("r-2").to_string())).await;
    assert_eq!((reply.status, reply.reason().as_str()), (504, "DEADLINE_EXCEEDED"));

    drop(locked);
    let after = given.ask("SELECT * FROM piece; SELECT count(*) FROM movement; SELECT count(*) FROM request");
    assert_eq!(after, before, "nothing is changed, and no request is kept");
    let reply = ask(hurried.private(), post(ADJUST, &count("r-2").to_string())).await;
    assert_eq!((reply.status, &reply.json()["replayed"]), (200, &json!(false)));
    for running in [running, hurried] {
        assert!(running.stop(LONG).await);
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_repeat_of_what_is_still_being_done_is_told_to_come_again() {
    let (given, running) = shop().await;
    let other = server(&given, Duration::from_millis(700)).await;
    let locked = given.lock("SELECT id FROM piece WHERE id = 'B' FOR UPDATE");
    let body = count("r-1").to_string();
    let first = tokio::spawn({
        let (address, request) = (running.private(), post(ADJUST, &body));
        async move { ask(address, request).await }
    });
    // its request is written, and waits for the bolt
    let waits = "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'";
    while given.ask(waits) == "0" {
        tokio::task::yield_now().await;
    }
    // by another server, too, while that lasts
    let reply = ask(other.private(), post(ADJUST, &body)).await;
    assert_eq!((reply.status, reply.reason().as_str()), (409, "ABORTED"), "{}", reply.json());
    assert_eq!(reply.header("retry-after"), Some("1"));
    drop(locked);
    let first = first.await.unwrap();
    assert_eq!((first.status, &first.json()["replayed"]), (200, &json!(false)));
    let again = ask(other.private(), post(ADJUST, &body)).await;
    assert_eq!((again.status, &again.json()["replayed"]), (200, &json!(true)));
    assert_eq!(again.json()["piece"], first.json()["piece"]);
    assert_eq!(given.ask("SELECT count(*) FROM movement"), "2");
    for running in [running, other] {
        assert!(running.stop(LONG).await);
    }
}
