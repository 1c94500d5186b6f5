//! Connections to the file.

use std::fs::OpenOptions;
use std::path::Path;
use std::time::{Duration, Instant};

use rusqlite::{Connection, OpenFlags};

use super::options::Options;
use super::{fail, migrate};
use crate::engine::Error;

/// The first SQLite in which two connections that reset the write-ahead log at once cannot
/// spoil the file.
const LEAST_SQLITE: i32 = 3_051_003;

/// Bytes to which the write-ahead log is cut once it is begun again.
const LOG_KEPT: i64 = 4 * 1024 * 1024;

/// Statements kept ready on a connection.
const STATEMENTS: usize = 128;

/// Refuses a path that SQLite would not take for a file.
pub(super) fn is_file(path: &Path) -> Result<(), Error> {
    let text = path.to_str().ok_or_else(|| {
        Error::Unfit(format!("{} cannot be the stock's file: its name is not Unicode", path.display()))
    })?;
    if text.is_empty() || text.starts_with(':') {
        return Err(Error::Unfit(format!(
            "\"{text}\" cannot be the stock's file: stock is kept in a file, never only in memory"
        )));
    }
    Ok(())
}

/// Refuses a SQLite that is too old to be trusted with two connections. Its number is a million for
/// each major version, a thousand for each minor one (`sqlite3_libversion_number`).
pub(super) fn is_new_enough(number: i32) -> Result<(), Error> {
    if number < LEAST_SQLITE {
        let (major, minor, patch) = (number / 1_000_000, number / 1_000 % 1_000, number % 1_000);
        return Err(Error::Unfit(format!(
            "this program was built with SQLite {major}.{minor}.{patch}, which can spoil a file that two connections \
             write; at least 3.51.3 is needed"
        )));
    }
    Ok(())
}

/// Makes the file where there is none, readable by its owner only. SQLite gives its log the
/// same rights.
pub(super) fn create(path: &Path) -> Result<(), Error> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    match options.open(path) {
        Ok(_) => Ok(()),
        Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => Ok(()),
        Err(error) => Err(fail::file("the stock's file cannot be made at", path, &error)),
    }
}

/// Which file lies at a path: none can tell beyond Unix.
fn lies_at(path: &Path) -> Option<(u64, u64)> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        std::fs::metadata(path).ok().map(|found| (found.dev(), found.ino()))
    }
    #[cfg(not(unix))]
    {
        let _ = path;
        None
    }
}

/// A connection without anything set.
pub(super) fn bare(path: &Path, flags: OpenFlags) -> rusqlite::Result<Connection> {
    Connection::open_with_flags(path, flags | OpenFlags::SQLITE_OPEN_NO_MUTEX)
}

/// The connection that writes. Makes an empty stock where there is none.
pub(super) fn writing(path: &Path, options: &Options) -> Result<Connection, Error> {
    is_file(path)?;
    is_new_enough(rusqlite::version_number())?;
    loop {
        create(path)?;
        let before = lies_at(path);
        let connection = bare(path, OpenFlags::SQLITE_OPEN_READ_WRITE).map_err(fail::reading)?;
        connection.busy_timeout(options.patience).map_err(fail::reading)?;
        // looked at before anything is written: it may be somebody else's file
        let had = migrate::check(&connection, migrate::MIGRATIONS, &path.display().to_string())?;
        if !options.migrates && had < migrate::MIGRATIONS.len() {
            return Err(older(path, had));
        }
        prepare(&connection, options).map_err(fail::reading)?;
        migrated(&connection, path)?;
        // a restore may have put another file there while this one was waited for
        if lies_at(path) == before {
            return Ok(connection);
        }
    }
}

/// What is not brought up to this program, since a server of an older one may have it open.
fn older(path: &Path, had: usize) -> Error {
    let (file, knows) = (path.display(), migrate::MIGRATIONS.len());
    Error::Unfit(format!(
        "{file} has the schema {had} of an older program, and this one knows {knows}: stop the server, make a backup, \
         and run pennantryd migrate, or start this program's server, which does so by itself"
    ))
}

fn prepare(connection: &Connection, options: &Options) -> rusqlite::Result<()> {
    let until = Instant::now() + options.patience;
    while let Err(error) = connection.pragma_update_and_check(None, "journal_mode", "WAL", |_| Ok(())) {
        // refused at once, whatever the patience, where another process does it just now
        if !fail::is_busy(&error) || Instant::now() >= until {
            return Err(error);
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    connection.pragma_update(None, "synchronous", options.durability.pragma())?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update_and_check(None, "journal_size_limit", LOG_KEPT, |_| Ok(()))?;
    connection.set_prepared_statement_cache_capacity(STATEMENTS);
    Ok(())
}

/// Brings a file up to date, whoever else does so just now.
pub(super) fn migrated(connection: &Connection, path: &Path) -> Result<(), Error> {
    connection.execute_batch("BEGIN IMMEDIATE").map_err(fail::reading)?;
    let done = migrate::run(connection, migrate::MIGRATIONS, &path.display().to_string());
    match done {
        Ok(()) => connection.execute_batch("COMMIT").map_err(fail::reading),
        // the connection is dropped, and the transaction with it
        Err(error) => Err(error),
    }
}

/// A connection that only reads.
pub(super) fn reading(path: &Path, patience: Duration) -> rusqlite::Result<Connection> {
    let connection = bare(path, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
    connection.busy_timeout(patience)?;
    connection.set_prepared_statement_cache_capacity(STATEMENTS);
    Ok(connection)
}
