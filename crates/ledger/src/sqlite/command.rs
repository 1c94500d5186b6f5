//! One command within the writer's transaction.

use std::any::Any;
use std::collections::BTreeSet;
use std::panic::{AssertUnwindSafe, catch_unwind};

use rusqlite::{Connection, OptionalExtension};

use super::board::touched;
use super::options::Faults;
use super::{fail, load, write};
use crate::engine::{Applied, Error};
use crate::rules::{At, Envelope, Outcome, PieceId, Request, decide, kept, needs};

/// What the commands of a batch have done so far.
#[derive(Debug)]
pub(super) struct Done {
    /// Place of the last event.
    pub place: i64,
    /// Pieces that were touched.
    pub touched: BTreeSet<PieceId>,
    /// The instant of the last command that changed something.
    pub at: Option<At>,
}

/// Why a command was not carried out.
enum Stop {
    /// For a reason that leaves the transaction as it is.
    Told(Error),
    /// By SQLite.
    Sqlite(rusqlite::Error),
}

impl From<rusqlite::Error> for Stop {
    fn from(error: rusqlite::Error) -> Stop {
        Stop::Sqlite(error)
    }
}

/// Carries a command out, or takes it back to before it was begun: carried out, recalled or
/// refused, what it wrote stands, and a refused one wrote nothing.
///
/// # Errors
/// The transaction cannot be gone on with.
pub(super) fn run(
    connection: &Connection,
    envelope: &Envelope,
    done: &mut Done,
    faults: Option<&dyn Faults>,
) -> Result<Result<Applied, Error>, Error> {
    execute(connection, "SAVEPOINT command").map_err(fail::reading)?;
    let place = done.place;
    let carried = catch_unwind(AssertUnwindSafe(|| {
        if let Some(faults) = faults {
            faults.command(envelope);
        }
        let applied = carry_out(connection, envelope, done);
        if let Some(faults) = faults {
            faults.written(envelope);
        }
        applied
    }));
    let told = match carried {
        Ok(Ok(applied)) => Ok(applied),
        Ok(Err(Stop::Told(error))) => Err(error),
        Ok(Err(Stop::Sqlite(error))) if fail::is_of_statement(&error) && !connection.is_autocommit() => {
            tracing::error!(%error, change = ?envelope.id, "a command could not be written");
            Err(match error {
                rusqlite::Error::StatementChangedRows(_) => {
                    Error::Fault("a row was not as it was read within one transaction".to_owned())
                }
                error => fail::reading(error),
            })
        }
        Ok(Err(Stop::Sqlite(error))) => return Err(fail::reading(error)),
        Err(panic) => {
            let words = said(panic.as_ref());
            tracing::error!(panic = words, change = ?envelope.id, "a command panicked");
            Err(Error::Fault(format!("the command panicked: {words}")))
        }
    };
    if told.is_err() {
        done.place = place;
        execute(connection, "ROLLBACK TO command").map_err(fail::reading)?;
    }
    execute(connection, "RELEASE command").map_err(fail::reading)?;
    Ok(told)
}

/// Carries out something that is not a command, all of it or nothing.
///
/// # Errors
/// The transaction cannot be gone on with.
pub(super) fn in_savepoint<T>(
    connection: &Connection,
    work: impl FnOnce(&Connection) -> rusqlite::Result<T>,
) -> Result<Result<T, Error>, Error> {
    execute(connection, "SAVEPOINT task").map_err(fail::reading)?;
    let told = match catch_unwind(AssertUnwindSafe(|| work(connection))) {
        Ok(Ok(done)) => Ok(done),
        Ok(Err(error)) if fail::is_of_statement(&error) && !connection.is_autocommit() => {
            tracing::error!(%error, "something could not be written");
            Err(fail::reading(error))
        }
        Ok(Err(error)) => return Err(fail::reading(error)),
        Err(panic) => {
            let words = said(panic.as_ref());
            tracing::error!(panic = words, "something that was to be written panicked");
            Err(Error::Fault(format!("what was to be written panicked: {words}")))
        }
    };
    if told.is_err() {
        execute(connection, "ROLLBACK TO task").map_err(fail::reading)?;
    }
    execute(connection, "RELEASE task").map_err(fail::reading)?;
    Ok(told)
}

fn carry_out(connection: &Connection, envelope: &Envelope, done: &mut Done) -> Result<Applied, Stop> {
    if let Some(request) = &envelope.request
        && let Some(outcome) = recall(connection, request)?.map_err(Stop::Told)?
    {
        return Ok(Applied { outcome, replayed: true });
    }
    let rows = load::load(connection, &needs(&envelope.command), envelope.at)?;
    let decision =
        decide(envelope, &rows, envelope.at).map_err(|refusal| Stop::Told(Error::Refused(refusal)))?;
    for change in &decision.changes {
        write::write(connection, change, &mut done.place)?;
        touched(change, &mut done.touched);
    }
    if let Some(request) = &envelope.request {
        remember(connection, request, envelope.at, &decision.outcome)?;
    }
    if !decision.changes.is_empty() {
        done.at = Some(envelope.at);
    }
    Ok(Applied { outcome: decision.outcome, replayed: false })
}

/// The answer that a request got before; an error of its own where its key was used for
/// another one.
pub(super) fn recall(
    connection: &Connection,
    request: &Request,
) -> rusqlite::Result<Result<Option<Outcome>, Error>> {
    let found: Option<(Vec<u8>, Vec<u8>)> = connection
        .prepare_cached("SELECT body, answer FROM request WHERE scope = ?1 AND key = ?2")?
        .query_row((&request.scope, &request.key), |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    let Some((body, answer)) = found else {
        return Ok(Ok(None));
    };
    if body != request.body {
        return Ok(Err(Error::KeyReused));
    }
    let unreadable =
        || Error::Fault(format!("the kept answer to the request {} cannot be read", request.key));
    Ok(kept::read(&answer).map(Some).ok_or_else(unreadable))
}

fn remember(connection: &Connection, request: &Request, at: At, outcome: &Outcome) -> rusqlite::Result<()> {
    connection
        .prepare_cached("INSERT INTO request (scope, key, body, at, answer) VALUES (?1, ?2, ?3, ?4, ?5)")?
        .execute((&request.scope, &request.key, &request.body, at.0, kept::keep(outcome)))
        .map(drop)
}

/// A statement without values, kept ready.
pub(super) fn execute(connection: &Connection, sql: &str) -> rusqlite::Result<()> {
    connection.prepare_cached(sql)?.execute([]).map(drop)
}

/// What a panic said.
fn said(panic: &(dyn Any + Send)) -> &str {
    let text = panic.downcast_ref::<&str>().copied();
    text.or_else(|| panic.downcast_ref::<String>().map(String::as_str)).unwrap_or("without words")
}
