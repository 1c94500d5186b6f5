//! A delivery of 5 000 pieces in one call, through a server.

use std::time::{Duration, Instant};

use pennantry_tests::client;
use pennantryd::catalogue::{SALTMERE_LOFT, open};
use pennantryd::clock::Clock;
use pennantryd::ledger::postgres;
use pennantryd::stock::{Database as Address, Stock};
use pennantryd::{Config, start};
use serde_json::{Value, json};

use super::server::{Database, Server};
use super::{Folder, has_postgres, told};

const PIECES: u32 = 5_000;
const CALL: &str = "/pennantry.v1.StockService/ReceiveStock";

/// Measures and prints.
pub async fn measure() -> Result<(), String> {
    println!("{PIECES} pieces in one ReceiveStock through a server, by JSON, full durability:");
    one("embedded engine", Stock::Embedded).await?;
    if has_postgres() {
        let server = Server::start();
        let database = Database::on(server.port());
        postgres::migrate(&database.url()).await.map_err(told)?;
        one("PostgreSQL", Stock::Postgres(Address::read(&database.url())?)).await?;
    }
    Ok(())
}

async fn one(engine: &str, stock: Stock) -> Result<(), String> {
    let folder = Folder::new("import")?;
    let catalogue = open(SALTMERE_LOFT).map_err(|_| "the demo shop has mistakes")?.into();
    let config =
        Config { data: Some(folder.path().to_owned()), stock, ..Config::local(catalogue, Clock::System) };
    let running = start(config).await.map_err(told)?;
    let (address, body) = (running.private(), body());
    let (bytes, begun) = (body.len(), Instant::now());
    let answered = tokio::task::spawn_blocking(move || {
        let mut stream = client::connect(address.port())?;
        client::exchange(&mut stream, CALL, body.as_bytes())
    });
    let answer = answered.await.map_err(told)??;
    let took = begun.elapsed().as_secs_f64();
    let answer: Value = serde_json::from_slice(&answer).map_err(told)?;
    let count = answer.get("pieceIds").and_then(Value::as_array).map_or(0, Vec::len);
    println!("  {engine:<16} {took:5.2} s for {count} pieces, {} KiB (wanted: 2 s)", bytes / 1024);
    running.stop(Duration::from_secs(10)).await;
    Ok(())
}

fn body() -> String {
    let piece = |number: u32| {
        json!({
            "pieceId": format!("B-{number}"), "code": "kelp", "lot": format!("L{}", number / 40),
            "quantity": {"lengthMm": 25_000}, "location": "rack 2", "supplier": "Ropewalk Mill",
            "supplierReference": "KP-14", "certificates": ["12.HCN.99031"],
        })
    };
    let pieces: Vec<Value> = (0..PIECES).map(piece).collect();
    json!({"requestId": "the whole shelf", "pieces": pieces}).to_string()
}
