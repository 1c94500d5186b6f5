//! The stock against a model of it that shares no rule with it: the same commands, from a
//! seed, asked of the model and of both engines in lock-step.
//!
//! Here 20 000 commands are asked of both engines, and 200 000 of the embedded one alone, with
//! its waiting for the disk off: that is a matter of other tests, and only the logic is looked
//! at. A failure names its seed and the number of the command, and shows the last ones.
//!
//! | variable | what |
//! |---|---|
//! | `SIM_SEED` | this seed alone, in each test |
//! | `SIM_SEEDS` | so many seeds, from this test's first or from that one on |
//! | `SIM_COMMANDS` | so many commands from each seed |

mod commands;
mod history;
mod lockstep;
mod model;
mod whole;

use std::collections::BTreeMap;
use std::path::Path;

use pennantry_ledger::{Ledger, postgres, sqlite};

use self::lockstep::{Played, Run, Tally};
use self::model::Broken;
use crate::postgres::Database;

/// Commands from one seed.
const COMMANDS: u64 = 2_500;

fn number(name: &str) -> Option<u64> {
    std::env::var(name).ok().map(|text| text.parse().expect("a whole number"))
}

/// Runs from so many seeds, or from the one that is asked for.
fn runs(first: u64, how_many: u64) -> Vec<Run> {
    let commands = number("SIM_COMMANDS").unwrap_or(COMMANDS);
    let first_alone = number("SIM_SEED");
    let how_many = number("SIM_SEEDS").unwrap_or(if first_alone.is_some() { 1 } else { how_many });
    let first = first_alone.unwrap_or(first);
    (first..first + how_many).map(|seed| Run { seed, commands, broken: None }).collect()
}

async fn in_postgres(database: &Database) -> Ledger {
    let url = database.url();
    let name = url.rsplit('/').next().expect("the address ends with the name");
    database.ask(&format!("ALTER DATABASE {name} SET synchronous_commit TO off"));
    postgres::migrate(&database.url()).await.expect("an empty database takes the schema");
    let options = postgres::Options { clock: postgres::Clock::Given, ..postgres::Options::default() };
    Ledger::Postgres(postgres::Store::open(&database.url(), options).await.expect("the store opens"))
}

fn in_a_file(folder: &Path) -> Ledger {
    let options = sqlite::Options { durability: sqlite::Durability::Off, ..sqlite::Options::default() };
    Ledger::Sqlite(sqlite::Store::open(&folder.join("stock.db"), options).expect("the store opens"))
}

/// One run on the embedded engine; the store is then closed, opened and looked through again.
async fn on_a_file(run: Run) -> Result<Tally, String> {
    let folder = tempfile::tempdir().expect("a folder");
    let ledger = in_a_file(folder.path());
    let mut played = run.on(&[("SQLite", &ledger)]).await?;
    ledger.close().await;
    opened_again(&mut played, &in_a_file(folder.path()), run).await?;
    Ok(played.tally)
}

async fn opened_again(played: &mut Played, ledger: &Ledger, run: Run) -> Result<(), String> {
    let looked = played.look_again(0, ledger).await;
    ledger.close().await;
    looked.map_err(|words| format!("seed {}, opened again: {words}", run.seed))
}

/// One run on both engines in lock-step.
async fn on_both(run: Run) -> Result<Tally, String> {
    let (folder, database) = (tempfile::tempdir().expect("a folder"), Database::new());
    let (file, server) = (in_a_file(folder.path()), in_postgres(&database).await);
    let played = run.on(&[("SQLite", &file), ("PostgreSQL", &server)]).await;
    file.close().await;
    server.close().await;
    played.map(|played| played.tally)
}

async fn all_on_a_file(first: u64) {
    for run in runs(first, 20) {
        on_a_file(run).await.unwrap_or_else(|words| panic!("{words}"));
    }
}

async fn all_on_both(first: u64) {
    for run in runs(first, 2) {
        on_both(run).await.unwrap_or_else(|words| panic!("{words}"));
        println!("seed {}: {} commands, both engines and the model agree", run.seed, run.commands);
    }
}

#[tokio::test]
async fn both_engines_and_the_model_agree_from_the_first_seeds() {
    all_on_both(1_001).await;
}

#[tokio::test]
async fn both_engines_and_the_model_agree_from_the_second_seeds() {
    all_on_both(1_003).await;
}

#[tokio::test]
async fn both_engines_and_the_model_agree_from_the_third_seeds() {
    all_on_both(1_005).await;
}

#[tokio::test]
async fn both_engines_and_the_model_agree_from_the_fourth_seeds() {
    all_on_both(1_007).await;
}

#[tokio::test]
async fn the_embedded_engine_and_the_model_agree_from_the_first_seeds() {
    all_on_a_file(1).await;
}

#[tokio::test]
async fn the_embedded_engine_and_the_model_agree_from_the_second_seeds() {
    all_on_a_file(101).await;
}

#[tokio::test]
async fn the_embedded_engine_and_the_model_agree_from_the_third_seeds() {
    all_on_a_file(201).await;
}

#[tokio::test]
async fn the_embedded_engine_and_the_model_agree_from_the_fourth_seeds() {
    all_on_a_file(301).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn what_many_do_at_once_in_a_file_has_one_order() {
    for seed in 1..=6 {
        let folder = tempfile::tempdir().expect("a folder");
        let ledger = in_a_file(folder.path());
        history::is_one_order(&ledger, seed).await;
        ledger.close().await;
    }
}

/// The database's own clock judges, as in a shop.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn what_many_do_at_once_in_a_database_has_one_order() {
    for seed in 1..=6 {
        let database = Database::new();
        postgres::migrate(&database.url()).await.expect("an empty database takes the schema");
        let opened = postgres::Store::open(&database.url(), postgres::Options::default()).await;
        let ledger = Ledger::Postgres(opened.expect("the store opens"));
        history::is_one_order(&ledger, seed).await;
        ledger.close().await;
    }
}

/// Whether a rule broken in the model is noticed within a few runs, and after how many commands.
async fn noticed(broken: Broken) -> Option<u64> {
    for seed in 1..=8 {
        let folder = tempfile::tempdir().expect("a folder");
        let ledger = in_a_file(folder.path());
        let told = Run { seed, commands: 1_500, broken: Some(broken) }.on(&[("SQLite", &ledger)]).await;
        ledger.close().await;
        if let Err(words) = told {
            let number = words.split("command ").nth(1).and_then(|rest| rest.split(':').next());
            return Some((seed - 1) * 1_500 + number.expect("a number").parse::<u64>().expect("a number"));
        }
    }
    None
}

/// The comparison can fail: each rule that is broken in the model on purpose is noticed.
#[tokio::test]
async fn a_model_with_one_rule_broken_is_noticed() {
    let mut after = BTreeMap::new();
    for broken in Broken::ALL {
        after.insert(format!("{broken:?}"), noticed(broken).await);
    }
    let missed: Vec<&String> =
        after.iter().filter(|(_, number)| number.is_none()).map(|(name, _)| name).collect();
    assert!(missed.is_empty(), "not noticed: {missed:?}; after so many commands: {after:?}");
}

/// Every command is carried out, and every refusal met: what is never asked is not looked at.
#[tokio::test]
async fn every_command_is_carried_out_and_every_refusal_met() {
    let mut met = Tally::new();
    for seed in 401..=420 {
        let tally = on_a_file(Run { seed, commands: COMMANDS, broken: None }).await;
        for (name, times) in tally.unwrap_or_else(|words| panic!("{words}")) {
            *met.entry(name).or_default() += times;
        }
    }
    let missing: Vec<&str> = EXPECTED.iter().copied().filter(|name| !met.contains_key(*name)).collect();
    assert!(missing.is_empty(), "never met: {missing:?}; met: {met:?}");
}

/// What has to be met: a command that is carried out, one that changes nothing, or one and the
/// kind of its refusal.
const EXPECTED: &[&str] = &[
    "Adjust",
    "Adjust BadAmount",
    "Adjust BadFlaws",
    "Adjust Empty",
    "Adjust MoreThanLies",
    "Adjust NoPiece",
    "Amend",
    "Amend BadAmount",
    "Amend BadBenchTime",
    "Amend BadShapeArea",
    "Amend Changed",
    "Amend Empty",
    "Amend Expired",
    "Amend NoLine",
    "Amend NoPiece",
    "Amend NoReservation",
    "Amend NotNow",
    "Amend NothingLeft",
    "Amend Taken",
    "Amend Twice",
    "Cancel",
    "Cancel NoReservation",
    "Cancel NotNow",
    "Cancel unchanged",
    "CancelOrder",
    "CancelOrder NoOrder",
    "CancelOrder OrderNotNow",
    "CancelOrder unchanged",
    "Confirm",
    "Confirm Expired",
    "Confirm IsShort",
    "Confirm NoReservation",
    "Confirm NotNow",
    "Confirm unchanged",
    "Cut",
    "Cut BadAmount",
    "Cut BadDay",
    "Cut CutExists",
    "Cut Expired",
    "Cut IsShort",
    "Cut MoreThanLies",
    "Cut NoLine",
    "Cut NoPiece",
    "Cut NoReservation",
    "Cut NotNow",
    "Cut NothingToCut",
    "Cut OtherMaterial",
    "Cut PartsDoNotFit",
    "Cut PieceExists",
    "Cut RemnantsDoNotFit",
    "Cut TooManyShapes",
    "Cut Twice",
    "Extend",
    "Extend AsLongAsMayBe",
    "Extend BadSeconds",
    "Extend Expired",
    "Extend NoReservation",
    "Extend NotNow",
    "Extend unchanged",
    "Place",
    "Place BadAmount",
    "Place Empty",
    "Place OrderExists",
    "Place Twice",
    "Receive",
    "Receive BadAmount",
    "Receive BadFlaws",
    "Receive BadWidth",
    "Receive Empty",
    "Receive NoOrder",
    "Receive NotOrdered",
    "Receive OrderNotNow",
    "Receive PieceExists",
    "Receive Twice",
    "Release",
    "Release NoReservation",
    "Release NotNow",
    "Release unchanged",
    "Reserve",
    "Reserve BadAmount",
    "Reserve BadBenchTime",
    "Reserve BadShapeArea",
    "Reserve BadSeconds",
    "Reserve Empty",
    "Reserve Expired",
    "Reserve NoPiece",
    "Reserve NoReservation",
    "Reserve NotNow",
    "Reserve NotYours",
    "Reserve ReservationExists",
    "Reserve Taken",
    "Reserve TooManyHolds",
    "Sweep",
    "Undo",
    "Undo AlreadyUndone",
    "Undo NoCut",
    "Undo TooLate",
    "Undo UsedSince",
    "key reused",
    "replayed",
];
