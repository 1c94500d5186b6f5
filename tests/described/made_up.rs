//! Requests made up from the documents by schemathesis: what is described is read, what is not is
//! refused, and every answer is one of those described (`python/made_up.py`).

use std::collections::BTreeMap;
use std::net::SocketAddr;
use std::process::Command;

use hyper::StatusCode;
use serde_json::{Value, json};

use super::DOCUMENTS;
use crate::contract_source::top;
use crate::doors::House;
use crate::tools::{PYTHON, said};
use crate::twins;

/// Requests of each call that are made up; a long run by hand takes more, by the variable.
const MANY: [u32; 2] = [100, 25];
const MORE: &str = "PENNANTRY_MADE_UP_EXAMPLES";

/// Words that the shop knows, by the key that wants them.
async fn words(house: &House) -> Value {
    let mut tokens = Vec::new();
    for millimetres in [1_000, 2_500, 6_200] {
        let order = json!({"flaggedMm": millimetres, "near": {"who": "WHO_NO_CHILD"}});
        let quote = house.public_json(&order).await.answer.expect("a quote");
        tokens.push(quote.token.expect("a ticket"));
    }
    let stock = &house.stock;
    json!({
        "designCode": stock.designs, "backing": stock.fabrics, "fabricCodes": stock.fabrics,
        "bindingCode": stock.bindings, "code": stock.trimmings, "trimmingCode": stock.trimmings,
        "service": stock.services, "countryCode": ["GB", "DE", "US"], "token": tokens,
        "acknowledgedRuleIds": ["R00", "R05"], "lettering": ["ADA", "MARLA ROSE"],
        "pieceId": ["B-0", "B-1", "R-1"], "orderId": ["PO-1"], "pageToken": [""],
    })
}

/// Bolts from which many orders can be held.
async fn stocked(house: &House) {
    let (mut pieces, _) = twins::pieces(house, &json!({"flaggedMm": 6200})).await;
    for piece in pieces.as_array_mut().expect("pieces") {
        piece["quantity"] = json!({"lengthMm": 900_000});
    }
    let delivery = json!({"pieces": pieces}).to_string();
    let path = "/pennantry.v1.StockService/ReceiveStock";
    let told = house.post(house.private(), path, delivery.as_bytes()).await;
    assert_eq!(told.status, StatusCode::OK, "{told:?}");
}

/// Makes requests up for one door, and gives how often each call was answered how.
async fn made_up(
    house: &House,
    door: SocketAddr,
    which: usize,
    more: &[&'static str],
) -> BTreeMap<String, u64> {
    stocked(house).await;
    let folder = tempfile::tempdir().expect("a folder");
    let (given, seen) = (folder.path().join("given.json"), folder.path().join("seen.json"));
    let told = json!({"document": top(DOCUMENTS[which]), "words": words(house).await, "seen": seen});
    std::fs::write(&given, told.to_string()).expect("it is written");
    let many = std::env::var(MORE).unwrap_or_else(|_| MANY[which].to_string());
    let (at, more) = (folder.path().to_owned(), more.to_vec());
    let run = tokio::task::spawn_blocking(move || {
        Command::new(&*PYTHON)
            .args(["-m", "schemathesis.cli", "--config-file"])
            .arg(top("tests/python/schemathesis.toml"))
            .args(["--no-color", "run", &format!("http://{door}/openapi.json"), "--max-examples", &many])
            .args(more)
            .env("SCHEMATHESIS_HOOKS", top("tests/python/made_up.py"))
            .env("PENNANTRY_MADE_UP", given)
            .env("PYTHONDONTWRITEBYTECODE", "1")
            // what is kept between runs goes with the folder
            .current_dir(at)
            .output()
    });
    let output = run.await.expect("no panic").expect("python runs");
    assert!(output.status.success(), "{}", said(&output));
    let seen = std::fs::read_to_string(seen).expect("what was seen is told");
    let seen: BTreeMap<String, u64> = serde_json::from_str(&seen).expect("counts");
    println!("{} requests made up for {door}: {seen:?}", seen.values().sum::<u64>());
    seen
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn requests_made_up_for_the_public_door_find_no_disagreement() {
    let house = House::demo().await;
    let seen = made_up(&house, house.public(), 0, &[]).await;
    for wanted in [
        "CalculateQuote 200",
        "CalculateQuote 400",
        "CheckQuote 200",
        "CheckQuote 400",
        "GetCatalogue 200",
        "CreateReservation 200",
        "CreateReservation 400",
        "GetReservation 200",
        "GetReservation 404",
        "ExtendReservation 200",
        "ExtendReservation 400",
        "ConfirmReservation 401",
        "ReleaseReservation 200",
    ] {
        assert!(seen.contains_key(wanted), "{wanted} was never reached: {seen:?}");
    }
    house.close().await;
}

/// Calls that go on telling are left out: they have an end of their own.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn requests_made_up_for_the_private_door_find_no_disagreement() {
    let house = House::demo().await;
    let without = ["--exclude-path-regex", "/(WatchStock|RunBurnReport)$"];
    let seen = made_up(&house, house.private(), 1, &without).await;
    for answered in [
        "CalculateQuotes",
        "CancelReservation",
        "CheckDelivery",
        "CheckQuote",
        "CreateReservation",
        "ExtendReservation",
        "GetCatalogue",
        "GetPiece",
        "GetReservation",
        "ListBurnReports",
        "ListOrders",
        "ListReservations",
        "ListStock",
        "ReleaseReservation",
    ] {
        assert!(seen.contains_key(&format!("{answered} 200")), "{answered} was never answered: {seen:?}");
    }
    house.close().await;
}
