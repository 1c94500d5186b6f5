//! The other engine in this process, against `pgbench` running the same statements.
//!
//! Both are clients of one server that was started for it, with its own defaults, on this
//! machine. As many callers as connections, so none waits for one. `pgbench` runs them in two ways:
//! waiting for each, which is what is compared with, and waiting once a change, which no program can
//! that has to decide something in between; the engine is between the two. What it does after
//! a commit, reading the pieces concerned again for its shelf, is not in the script: it is
//! work that only the engine has.

use std::sync::Arc;
use std::time::{Duration, Instant};

use pennantryd::ledger::Ledger;
use pennantryd::ledger::postgres::{Options, Store, migrate};

use super::goods::{Work, callers, delivery};
use super::pgbench::{Scripts, run};
use super::server::{Database, Server};
use super::{figure, has_postgres, median, told};

const BOLTS: u64 = 500;
/// Callers, and connections: those of a server as it is, and many.
const CLIENTS: [u64; 2] = [10, 64];
/// Rounds of both, in turn; medians are told.
const ROUNDS: usize = 5;
const ROUND: Duration = Duration::from_secs(4);

/// Measures and prints.
pub async fn measure() -> Result<(), String> {
    println!(
        "PostgreSQL, {BOLTS} bolts, commands a second, median of {ROUNDS} rounds of {} s:",
        ROUND.as_secs()
    );
    if !has_postgres() {
        return Ok(());
    }
    let server = Server::start();
    let database = Database::on(server.port());
    migrate(&database.url()).await.map_err(told)?;
    open(&database, 1).await?.apply(delivery(BOLTS), None).await.map_err(told)?;
    let scripts = Scripts::of_the_engine(&database).await?;
    println!("  a hold and its end are {} statements in {} messages", scripts.statements, scripts.messages);
    let work = Arc::<Work>::default();
    for clients in CLIENTS {
        let ledger = Ledger::Postgres(open(&database, clients).await?);
        let (mut ours, mut theirs, mut together) = (Vec::new(), Vec::new(), Vec::new());
        for _ in 0..ROUNDS {
            let begun = Instant::now();
            let done = callers(&ledger, clients, &work, move |_| begun.elapsed() < ROUND).await?;
            ours.push(figure(done) / begun.elapsed().as_secs_f64());
            theirs.push(2.0 * run(&database, &scripts.waiting, clients, ROUND)?);
            together.push(2.0 * run(&database, &scripts.together, clients, ROUND)?);
        }
        let (ours, theirs, together) = (median(ours), median(theirs), median(together));
        println!(
            "  {clients:>2} callers: engine {ours:6.0}, pgbench waiting for each message {theirs:6.0}: {:.0} % \
             (wanted: 80 %), once a change {together:6.0}: {:.0} %",
            100.0 * ours / theirs,
            100.0 * ours / together
        );
        // both left everything in order, so both did the same work
        let found = ledger.verify().await.map_err(told)?;
        if let Some(drift) = found.drift.first() {
            return Err(format!("it does not agree: {drift}"));
        }
        ledger.close().await;
    }
    Ok(())
}

async fn open(database: &Database, connections: u64) -> Result<Store, String> {
    let connections = usize::try_from(connections).unwrap_or(1);
    let options = Options { connections, ..Options::default() };
    Store::open(&database.url(), options).await.map_err(told)
}
