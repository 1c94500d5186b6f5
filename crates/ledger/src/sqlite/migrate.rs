//! Bringing a file to the schema of this program, forwards only.
//!
//! Each migration that was carried out stands in `schema_version` with a digest of its text,
//! line ends normalised. A file with an unknown migration was written by a newer program; one
//! with another digest was not made by what this program knows. Both are refused.

use rusqlite::{Connection, OptionalExtension};

use super::fail;
use crate::engine::Error;

/// One step of the schema.
#[derive(Debug, Clone, Copy)]
pub(super) struct Migration {
    /// Its number, from 1 without gaps.
    pub number: i64,
    /// Its name.
    pub name: &'static str,
    /// What it does.
    pub text: &'static str,
}

/// Every step there is.
pub(super) const MIGRATIONS: &[Migration] = &[
    Migration { number: 1, name: "stock", text: include_str!("../../migrations/sqlite/0001_stock.sql") },
    Migration { number: 2, name: "days", text: include_str!("../../migrations/sqlite/0002_days.sql") },
    Migration { number: 3, name: "reports", text: include_str!("../../migrations/sqlite/0003_reports.sql") },
    Migration { number: 4, name: "looks", text: include_str!("../../migrations/sqlite/0004_looks.sql") },
    Migration { number: 5, name: "sales", text: include_str!("../../migrations/sqlite/0005_sales.sql") },
    Migration { number: 6, name: "runs", text: include_str!("../../migrations/sqlite/0006_runs.sql") },
    Migration { number: 7, name: "turns", text: include_str!("../../migrations/sqlite/0007_turns.sql") },
];

/// Says in the file's header whose it is: `PnSt`.
const APPLICATION: i64 = 0x506E_5374;

const TABLE: &str = "CREATE TABLE schema_version (
    number INTEGER NOT NULL PRIMARY KEY,
    name   TEXT NOT NULL,
    digest TEXT NOT NULL
) STRICT";

/// Digest of a text whose line ends may have been changed on the way: FNV-1a, 64 bits, in
/// hexadecimal. It guards against edits by mistake, not against anybody.
///
/// The digest of nothing is the offset basis, `cbf29ce484222325`.
pub(super) fn digest(text: &str) -> String {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    for byte in text.replace("\r\n", "\n").bytes() {
        hash = (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
    }
    format!("{hash:016x}")
}

/// Whether there is nothing in the file yet.
fn is_empty(connection: &Connection) -> rusqlite::Result<bool> {
    connection.query_row("SELECT NOT EXISTS (SELECT 1 FROM sqlite_schema)", [], |row| row.get(0))
}

fn has_versions(connection: &Connection) -> rusqlite::Result<bool> {
    let named =
        "SELECT EXISTS (SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'schema_version')";
    connection.query_row(named, [], |row| row.get(0))
}

/// How many of the migrations the file has had; refused where it is not a file of ours, or of
/// a program that knows more, or other, than this one.
pub(super) fn check(connection: &Connection, known: &[Migration], file: &str) -> Result<usize, Error> {
    if is_empty(connection).map_err(fail::reading)? {
        return Ok(0);
    }
    let application: i64 =
        connection.query_row("PRAGMA application_id", [], |row| row.get(0)).map_err(fail::reading)?;
    if application != APPLICATION || !has_versions(connection).map_err(fail::reading)? {
        return Err(Error::Unfit(format!(
            "{file} is a database, but not one of stock: name another file, or none that is there yet"
        )));
    }
    let mut statement = connection
        .prepare("SELECT number, name, digest FROM schema_version ORDER BY number")
        .map_err(fail::reading)?;
    let had: Vec<(i64, String, String)> = statement
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
        .and_then(Iterator::collect)
        .map_err(fail::reading)?;
    for (place, (number, name, kept)) in had.iter().enumerate() {
        let Some(migration) = known.get(place) else {
            return Err(Error::Unfit(format!(
                "{file} has the schema {number} ({name}) of a newer program; this one knows up to {}: \
                 run the newer program, or restore a backup made by this one",
                known.len()
            )));
        };
        if migration.number != *number || digest(migration.text) != *kept {
            return Err(Error::Unfit(format!(
                "{file} was made by another text of migration {number} ({name}, digest {kept}) than this \
                 program has ({}): run the program that made it, or restore a backup",
                digest(migration.text)
            )));
        }
    }
    Ok(had.len())
}

/// Carries out what the file has not had. The caller has begun a write transaction, so two
/// processes at one file do this one after the other.
pub(super) fn run(connection: &Connection, known: &[Migration], file: &str) -> Result<(), Error> {
    let had = check(connection, known, file)?;
    if had == 0 && !has_versions(connection).map_err(fail::reading)? {
        connection.execute_batch(TABLE).map_err(fail::reading)?;
        connection.pragma_update(None, "application_id", APPLICATION).map_err(fail::reading)?;
    }
    for migration in known.iter().skip(had) {
        connection.execute_batch(migration.text).map_err(fail::reading)?;
        connection
            .execute(
                "INSERT INTO schema_version (number, name, digest) VALUES (?1, ?2, ?3)",
                (migration.number, migration.name, digest(migration.text)),
            )
            .map_err(fail::reading)?;
        tracing::info!(
            migration = migration.number,
            name = migration.name,
            file,
            "schema brought up to date"
        );
    }
    Ok(())
}

/// The number of the last migration that the file has had.
pub(super) fn version(connection: &Connection) -> rusqlite::Result<Option<i64>> {
    connection
        .query_row("SELECT MAX(number) FROM schema_version", [], |row| row.get(0))
        .optional()
        .map(Option::flatten)
}
