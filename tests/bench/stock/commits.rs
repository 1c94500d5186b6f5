//! Many callers on the embedded engine.

use std::fs::File;
use std::io::Write;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

use pennantryd::ledger::Ledger;
use pennantryd::ledger::sqlite::{Durability, Options, Store};

use super::goods::{Work, callers, delivery};
use super::{Folder, figure, median, told};

const CALLERS: u64 = 64;
const BOLTS: u64 = 500;
/// Rounds of both, in turn; medians are told.
const ROUNDS: usize = 5;
const ROUND: Duration = Duration::from_secs(3);

struct Engine {
    store: Store,
    work: Arc<Work>,
    rates: Vec<f64>,
    shared: Vec<f64>,
}

impl Engine {
    async fn open(folder: &Path, durability: Durability) -> Result<Engine, String> {
        let file = folder.join(format!("{durability:?}.sqlite"));
        let store = Store::open(&file, Options { durability, ..Options::default() }).map_err(told)?;
        store.apply(delivery(BOLTS), None).await.map_err(told)?;
        Ok(Engine { store, work: Arc::default(), rates: Vec::new(), shared: Vec::new() })
    }

    async fn round(&mut self, count: u64) -> Result<(), String> {
        let (before, begun) = (self.store.tally(), Instant::now());
        let ledger = Ledger::Sqlite(self.store.clone());
        let done = callers(&ledger, count, &self.work, move |_| begun.elapsed() < ROUND).await?;
        let seconds = begun.elapsed().as_secs_f64();
        self.rates.push(figure(done) / seconds);
        let after = self.store.tally();
        self.shared.push(figure(after.commands - before.commands) / figure(after.commits - before.commits));
        Ok(())
    }

    async fn tell(self, what: &str) -> f64 {
        self.store.close().await;
        let (rate, shared) = (median(self.rates), median(self.shared));
        println!("  {what:<34} {rate:8.0} commands a second, {shared:5.1} commands a commit");
        rate
    }
}

/// Measures and prints.
pub async fn measure() -> Result<(), String> {
    let folder = Folder::new("commits")?;
    println!("embedded engine, {BOLTS} bolts, median of {ROUNDS} rounds of {} s:", ROUND.as_secs());
    println!("  one write of 4 KiB and its fsync: {:.2} ms", fsync(folder.path())?);
    let mut one = Engine::open(folder.path(), Durability::Full).await?;
    one.round(1).await?;
    one.tell("1 caller, full durability").await;
    std::fs::remove_file(folder.path().join("Full.sqlite")).map_err(told)?;
    let mut full = Engine::open(folder.path(), Durability::Full).await?;
    let mut off = Engine::open(folder.path(), Durability::Off).await?;
    for _ in 0..ROUNDS {
        full.round(CALLERS).await?;
        off.round(CALLERS).await?;
    }
    let full = full.tell(&format!("{CALLERS} callers, full durability")).await;
    let off = off.tell(&format!("{CALLERS} callers, waiting for no disk")).await;
    println!("  full durability keeps {:.0} % of the rate (wanted: 60 %)", 100.0 * full / off);
    Ok(())
}

/// What the disk takes for the least there is, in milliseconds.
fn fsync(folder: &Path) -> Result<f64, String> {
    let path = folder.join("fsync");
    let mut file = File::create(&path).map_err(told)?;
    let mut times = Vec::new();
    for _ in 0..200 {
        file.write_all(&[1; 4096]).map_err(told)?;
        let begun = Instant::now();
        file.sync_data().map_err(told)?;
        times.push(begun.elapsed().as_secs_f64() * 1e3);
    }
    std::fs::remove_file(path).map_err(told)?;
    Ok(median(times))
}
