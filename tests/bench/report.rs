//! The nightly report, measured in one run:
//!
//! ```text
//! cargo run --release -p pennantry-tests --bin bench -- report
//! ```
//!
//! | part | what |
//! |---|---|
//! | shop | 400 fabrics with two years of use behind them: one report, by the program |
//! | history | the same fabrics and days from a hundred thousand movements, and from ten million |
//! | rebuild | the roll-ups of both computed again, against one aggregate scan over the same movements |
//!
//! The report is made by `pennantryd report` as a process of its own, start and end included;
//! the least and the median of some rounds are told. All times are wall times, on files in the
//! system's folder for temporary ones; all that is rebuilt lies in the page cache first.

mod history;

use std::path::Path;
use std::process::{Command, ExitCode};
use std::time::Instant;

use history::{Extent, Store};

use crate::shared::{Folder, ended, median, program, told};

/// Reports of one store; the median is told.
const ROUNDS: usize = 7;
/// Rounds of the aggregate scans.
const SCANS: usize = 3;

/// 400 fabrics, each used on every second open day of two years.
const SHOP: Extent = Extent { fabrics: 400, cuts: 125_200, every: 2 };
/// The same fabric-days twice, once with one cut on each and once with a hundred.
const SMALL: Extent = Extent { fabrics: 40, cuts: 25_040, every: 1 };
const LARGE: Extent = Extent { fabrics: 40, cuts: 2_504_000, every: 1 };

/// Measures and prints.
pub fn table() -> ExitCode {
    ended(measure())
}

fn measure() -> Result<(), String> {
    let program = program()?;
    println!("reports, {ROUNDS} rounds each:");
    one(&program, &SHOP)?;
    let few = one(&program, &SMALL)?;
    let many = one(&program, &LARGE)?;
    println!("  the last against the one before it: {:.2} times (wanted: 1.3)", many / few);
    Ok(())
}

/// Writes a history, computes its roll-ups, reports on it. Seconds of a report.
fn one(program: &Path, extent: &Extent) -> Result<f64, String> {
    let folder = Folder::new("report")?;
    let store = Store::write(folder.path(), extent)?;
    let catalogue = folder.path().join("shop.toml");
    std::fs::write(&catalogue, history::catalogue(extent)).map_err(told)?;
    let begun = Instant::now();
    let mended = store.rebuild()?;
    let first = begun.elapsed().as_secs_f64();
    println!(
        "  {} fabrics, {} fabric-days, {} movements, {} MiB:",
        extent.fabrics,
        store.fabric_days()?,
        store.movements()?,
        store.bytes() / 1024 / 1024
    );
    println!("    roll-ups written from nothing   {first:8.2} s, {mended} rows");
    let mut scans = [Vec::new(), Vec::new(), Vec::new()];
    for _ in 0..SCANS {
        scans[0].push(timed(|| store.sum())?);
        scans[1].push(timed(|| store.sum_by_day())?);
        scans[2].push(timed(|| store.rebuild())?);
    }
    let [bare, by_day, again] = scans.map(median);
    println!("    one sum over all movements      {bare:8.2} s");
    println!("    sums by piece and day           {by_day:8.2} s");
    println!(
        "    roll-ups computed and compared  {again:8.2} s, {:.1} and {:.1} times those (wanted: 2)",
        again / bare,
        again / by_day
    );
    drop(store);
    let mut rounds = Vec::new();
    for _ in 0..ROUNDS {
        let begun = Instant::now();
        let done = Command::new(program)
            .args(["report", "--fresh", "--as", "json", "--data"])
            .arg(folder.path())
            .arg("--catalogue")
            .arg(&catalogue)
            .output()
            .map_err(told)?;
        rounds.push(begun.elapsed().as_secs_f64());
        if !done.status.success() {
            return Err(String::from_utf8_lossy(&done.stderr).into_owned());
        }
        let report: serde_json::Value = serde_json::from_slice(&done.stdout).map_err(told)?;
        let fabrics = report.get("fabrics").and_then(|list| list.as_array()).map_or(&[][..], Vec::as_slice);
        let used = |fabric: &&serde_json::Value| {
            fabric.get("usedMm").and_then(serde_json::Value::as_f64).is_some_and(|mm| mm > 0.0)
        };
        // the demo shop's own cloth is in the catalogue, too, and is not used
        if u64::try_from(fabrics.iter().filter(used).count()) != Ok(extent.fabrics) {
            return Err(format!("the report does not tell of the use of all {} fabrics", extent.fabrics));
        }
    }
    let least = rounds.iter().copied().fold(f64::INFINITY, f64::min);
    let middle = median(rounds);
    println!("    the report                      {middle:8.2} s, least {least:.2}");
    Ok(middle)
}

fn timed<T>(work: impl FnOnce() -> Result<T, String>) -> Result<f64, String> {
    let begun = Instant::now();
    std::hint::black_box(work()?);
    Ok(begun.elapsed().as_secs_f64())
}
