//! The stock against a model of it that shares no rule with it: the same commands, from a
//! seed, asked of both engines and of the model in lock-step.
//!
//! A failure names its seed and the number of the command; `SIM_SEED` runs that one again,
//! `SIM_COMMANDS` makes a run longer or shorter.

mod commands;
mod lockstep;
mod model;
mod whole;

use pennantry_ledger::{Ledger, postgres, sqlite};

use self::lockstep::Run;
use crate::postgres::Database;

async fn in_postgres(database: &Database) -> Ledger {
    postgres::migrate(&database.url()).await.expect("an empty database takes the schema");
    let options = postgres::Options { clock: postgres::Clock::Given, ..postgres::Options::default() };
    Ledger::Postgres(postgres::Store::open(&database.url(), options).await.expect("the store opens"))
}

fn in_a_file(folder: &std::path::Path) -> Ledger {
    let options = sqlite::Options { durability: sqlite::Durability::Off, ..sqlite::Options::default() };
    Ledger::Sqlite(sqlite::Store::open(&folder.join("stock.db"), options).expect("the store opens"))
}

fn number(name: &str) -> Option<u64> {
    std::env::var(name).ok().map(|text| text.parse().expect("a whole number"))
}

#[tokio::test]
async fn explore() {
    let commands = number("SIM_COMMANDS").unwrap_or(1000);
    let first = number("SIM_SEED").unwrap_or(1);
    let both = number("SIM_BOTH").is_some();
    for seed in first..first + number("SIM_SEEDS").unwrap_or(10) {
        let folder = tempfile::tempdir().expect("a folder");
        let ledger = in_a_file(folder.path());
        let began = std::time::Instant::now();
        let told = if both {
            let database = Database::new();
            let other = in_postgres(&database).await;
            let told =
                Run { seed, commands, broken: None }.on(&[("SQLite", &ledger), ("PostgreSQL", &other)]).await;
            other.close().await;
            told
        } else {
            Run { seed, commands, broken: None }.on(&[("SQLite", &ledger)]).await
        };
        match told {
            Ok(tally) => eprintln!("seed {seed}: {tally:?} {:?}", began.elapsed()),
            Err(words) => eprintln!("{words}"),
        }
        ledger.close().await;
    }
}
