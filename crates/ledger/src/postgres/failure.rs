//! Why an attempt came to nothing, and whether to try again.

use std::collections::BTreeSet;
use std::error::Error as _;

use deadpool_postgres::PoolError;
use tokio_postgres::Error as PgError;
use tokio_postgres::error::SqlState;

use crate::engine::Error;
use crate::rules::PieceId;

/// Why an attempt came to nothing.
#[derive(Debug)]
pub(super) enum Failure {
    /// Somebody else was in the way; nothing was changed. A repeat may succeed.
    Conflict(String),
    /// A name that was free when it was looked for has been taken since; nothing was changed.
    /// The repeat will see it.
    Taken(String),
    /// The connection is lost, or there is none; nothing was changed.
    Lost(String),
    /// A statement that was prepared before no longer fits the tables; nothing was changed. It has to
    /// be prepared again, on every connection.
    Stale(String),
    /// It took longer than it may; nothing was changed.
    Slow(String),
    /// It waited for a lock for longer than it may; nothing was changed.
    Locked(String),
    /// The same request is being carried out by somebody else.
    SameRunning,
    /// More pieces are concerned than were locked; nothing was changed.
    Grown(BTreeSet<PieceId>),
    /// No connection was free in time.
    Queued,
    /// The connection was lost while committing: nobody knows whether it was.
    Doubtful(String),
    /// There is no use in trying again.
    Final(Error),
}

impl From<Error> for Failure {
    fn from(error: Error) -> Failure {
        Failure::Final(error)
    }
}

impl From<PgError> for Failure {
    fn from(error: PgError) -> Failure {
        let words = in_words(&error);
        let Some(code) = error.code() else {
            // a value that cannot be read or written is our fault, everything else the line's
            let of_line = error.is_closed()
                || error.source().is_some_and(|source| source.downcast_ref::<std::io::Error>().is_some());
            return if of_line { Failure::Lost(words) } else { Failure::Final(Error::Fault(words)) };
        };
        let constraint = error.as_db_error().and_then(tokio_postgres::error::DbError::constraint);
        match code.code() {
            "40001" | "40P01" => Failure::Conflict(words),
            "55P03" => Failure::Locked(words),
            "57014" => Failure::Slow(words),
            "57P01" | "57P02" | "57P03" | "57P05" | "25P03" | "25P04" => Failure::Lost(words),
            "26000" | "0A000" => Failure::Stale(words),
            "25006" => Failure::Final(Error::Unavailable(format!("the database takes no changes: {words}"))),
            "23505" => match constraint {
                Some("piece_pkey" | "reservation_pkey" | "cut_pkey" | "purchase_pkey") => {
                    Failure::Taken(words)
                }
                other => broken(other, &words),
            },
            code if code.starts_with("08") || code.starts_with("53") => Failure::Lost(words),
            code if code.starts_with("23") => broken(constraint, &words),
            _ => Failure::Final(Error::Fault(words)),
        }
    }
}

fn broken(constraint: Option<&str>, words: &str) -> Failure {
    let constraint = constraint.unwrap_or("without a name");
    Failure::Final(Error::Fault(format!(
        "the constraint {constraint} of the database would be broken: {words}"
    )))
}

impl From<PoolError> for Failure {
    fn from(error: PoolError) -> Failure {
        match error {
            PoolError::Timeout(deadpool_postgres::TimeoutType::Wait) => Failure::Queued,
            PoolError::Timeout(_) => Failure::Lost("connecting took too long".to_owned()),
            PoolError::Closed => Failure::Final(Error::Unavailable("the stock is being closed".to_owned())),
            PoolError::Backend(error) => connecting(&error),
            other @ (PoolError::NoRuntimeSpecified | PoolError::PostCreateHook(_)) => {
                Failure::Lost(format!("a connection cannot be set up: {other}"))
            }
        }
    }
}

/// What a fault in connecting is: the database may be back in a moment.
fn connecting(error: &PgError) -> Failure {
    Failure::Lost(format!("no connection to the database: {}", in_words(error)))
}

/// The fault with its causes; the library's own words name only the outermost.
pub(super) fn in_words(error: &PgError) -> String {
    let mut words = error.to_string();
    if let Some(told) = error.as_db_error() {
        words = format!("{} ({})", told.message(), told.code().code());
        if let Some(detail) = told.detail() {
            words.push_str(": ");
            words.push_str(detail);
        }
        return words;
    }
    let mut cause = error.source();
    while let Some(error) = cause {
        words.push_str(": ");
        words.push_str(&error.to_string());
        cause = error.source();
    }
    words
}

/// A fault of a commit. Once it is asked for, only the database's own word tells that it was
/// not done.
pub(super) fn in_commit(error: PgError) -> Failure {
    let told = error.code().map(SqlState::code);
    match told {
        Some("40003") | None => Failure::Doubtful(in_words(&error)),
        Some(code) if code.starts_with("57") || code.starts_with("08") => Failure::Doubtful(in_words(&error)),
        Some(_) => Failure::from(error),
    }
}

impl Failure {
    /// What a reader is told, who tries no longer.
    pub(super) fn into_error(self) -> Error {
        match self {
            Failure::Final(error) => error,
            Failure::Slow(cause)
            | Failure::Locked(cause)
            | Failure::Conflict(cause)
            | Failure::Taken(cause)
            | Failure::Lost(cause)
            | Failure::Stale(cause)
            | Failure::Doubtful(cause) => Error::Unavailable(cause),
            Failure::Queued | Failure::SameRunning | Failure::Grown(_) => Error::Busy,
        }
    }
}
