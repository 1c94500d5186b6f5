//! The stock, measured in one run:
//!
//! ```text
//! cargo run --release -p pennantry-tests --bin bench -- stock           all of it
//! cargo run --release -p pennantry-tests --bin bench -- stock memory    one part
//! ```
//!
//! | part | what |
//! |---|---|
//! | `commits` | many callers on the embedded engine: commands a commit, and what the disk costs |
//! | `postgres` | the other engine against `pgbench` running the statements that it runs |
//! | `shelf` | a look at the shelf in memory |
//! | `import` | a delivery of 5 000 pieces through a server |
//! | `memory` | a million commands |
//!
//! A caller holds 0.30 m of one piece and lets it go, again and again, each time with a
//! request's id, as a door does. Each caller has a piece of its own: who waits, waits for the
//! engine and not for another caller's cloth. All times are wall times, on files in the
//! system's folder for temporary ones.

mod commits;
mod goods;
mod import;
mod memory;
mod pgbench;
mod postgres;
#[path = "../postgres.rs"]
#[expect(clippy::expect_used, clippy::panic, reason = "it is shared with tests, whose ways it has")]
mod server;
mod shelf;

use std::process::ExitCode;

use crate::shared::{Folder, ended, median, told};

/// Measures every part, or the one that is named.
pub fn table(part: Option<&str>) -> ExitCode {
    let parts = ["commits", "postgres", "shelf", "import", "memory"];
    if let Some(part) = part.filter(|part| !parts.contains(part)) {
        eprintln!("there is no part \"{part}\": {}", parts.join(", "));
        return ExitCode::FAILURE;
    }
    let wanted = |name: &str| part.is_none_or(|part| part == name);
    ended(measure(&wanted))
}

fn measure(wanted: &dyn Fn(&str) -> bool) -> Result<(), String> {
    let threads = std::thread::available_parallelism().map_or(2, |count| count.get().max(2));
    let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(threads).enable_all().build();
    let runtime = runtime.map_err(told)?;
    println!("{threads} threads");
    if wanted("commits") {
        runtime.block_on(commits::measure())?;
    }
    if wanted("postgres") {
        runtime.block_on(postgres::measure())?;
    }
    if wanted("shelf") {
        runtime.block_on(shelf::measure())?;
    }
    if wanted("import") {
        runtime.block_on(import::measure())?;
    }
    if wanted("memory") {
        runtime.block_on(memory::measure())?;
    }
    Ok(())
}

/// A count as a figure.
fn figure(count: u64) -> f64 {
    u32::try_from(count).map_or(f64::from(u32::MAX), f64::from)
}

/// Whether PostgreSQL and its programs are to be had.
fn has_postgres() -> bool {
    let has =
        std::process::Command::new("pgbench").arg("--version").output().is_ok_and(|it| it.status.success());
    if !has {
        println!("  PostgreSQL: not measured, its programs are not here");
    }
    has
}
