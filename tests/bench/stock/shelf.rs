//! A look at the shelf in memory.

use std::time::Instant;

use jiff::Timestamp;
use pennantryd::ledger::Ledger;
use pennantryd::ledger::rules::{Amount, At};
use pennantryd::ledger::sqlite::{Options, Store};
use pennantryd::ledger::{postgres, shelf::OnShelf};

use super::goods::{FABRICS, delivery, material};
use super::server::{Database, Server};
use super::{Folder, figure, has_postgres, told};

const BOLTS: u64 = 5_000;
const TIMES: u64 = 2_000;

/// Measures and prints.
pub async fn measure() -> Result<(), String> {
    println!("a look at the shelf in memory, {BOLTS} bolts of {FABRICS} fabrics:");
    let folder = Folder::new("shelf")?;
    let store = Store::open(&folder.path().join("stock.sqlite"), Options::default()).map_err(told)?;
    look("embedded engine", &Ledger::Sqlite(store)).await?;
    if has_postgres() {
        let server = Server::start();
        let database = Database::on(server.port());
        postgres::migrate(&database.url()).await.map_err(told)?;
        let store = postgres::Store::open(&database.url(), postgres::Options::default()).await;
        look("PostgreSQL", &Ledger::Postgres(store.map_err(told)?)).await?;
    }
    Ok(())
}

async fn look(engine: &str, ledger: &Ledger) -> Result<(), String> {
    ledger.apply(delivery(BOLTS), None).await.map_err(told)?;
    let took = per_time(|_| ledger.shelf());
    let now = At(Timestamp::now().as_microsecond());
    let fabric = per_time(|number| {
        let shelf = ledger.shelf();
        // what is free of one fabric, and the longest cut that there is of it
        let pieces = shelf.of(&material(number)).iter();
        let free: Amount = pieces.clone().map(|on_shelf| on_shelf.free(now)).sum();
        (free, pieces.filter_map(|on_shelf| on_shelf.clear(now).first().copied()).max())
    });
    let all = per_time(|_| {
        let shelf = ledger.shelf();
        let pieces = shelf.materials.values().flat_map(|pieces| pieces.iter());
        pieces.map(|on_shelf| OnShelf::free(on_shelf, now)).sum::<Amount>()
    });
    println!("  {engine}: the shelf {took:.2} microseconds (wanted: 50)");
    println!(
        "    with what is free of one fabric and its longest cut {fabric:.1}, free of all pieces {all:.1}"
    );
    ledger.close().await;
    Ok(())
}

/// Microseconds for one time.
fn per_time<T>(mut work: impl FnMut(u64) -> T) -> f64 {
    let begun = Instant::now();
    for number in 0..TIMES {
        std::hint::black_box(work(number));
    }
    begun.elapsed().as_secs_f64() * 1e6 / figure(TIMES)
}
