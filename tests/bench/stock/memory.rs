//! Memory over a million commands.

use std::sync::Arc;
use std::sync::atomic::Ordering;

use pennantryd::ledger::Ledger;
use pennantryd::ledger::sqlite::{Durability, Options, Store};

use super::goods::{Work, callers, delivery};
use super::{Folder, told};

const CALLERS: u64 = 64;
const BOLTS: u64 = 500;

/// Measures and prints.
pub async fn measure() -> Result<(), String> {
    let folder = Folder::new("memory")?;
    let file = folder.path().join("stock.sqlite");
    let options = Options { durability: Durability::Off, ..Options::default() };
    let store = Store::open(&file, options).map_err(told)?;
    store.apply(delivery(BOLTS), None).await.map_err(told)?;
    let ledger = Ledger::Sqlite(store.clone());
    let work = Arc::<Work>::default();
    println!("memory of the whole process over many commands, embedded engine, waiting for no disk:");
    for until in [10_000_u64, 100_000, 500_000, 1_000_000] {
        callers(&ledger, CALLERS, &work, move |work| work.done.load(Ordering::Relaxed) < until).await?;
        let bytes = std::fs::metadata(&file).map_err(told)?.len();
        let status = std::fs::read_to_string("/proc/self/status").map_err(told)?;
        let memory = status.lines().find_map(|line| line.strip_prefix("VmRSS:")).unwrap_or(" ?").trim();
        println!("  after {until:>9} commands {memory:>10}, file {:>6} MiB", bytes / 1024 / 1024);
    }
    store.close().await;
    Ok(())
}
