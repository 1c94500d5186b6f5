//! What goes wrong in SQLite, in the ledger's words.

use rusqlite::ErrorCode;

use crate::engine::Error;

/// Why a statement was not carried out.
#[expect(clippy::needless_pass_by_value, reason = "what `map_err` hands over")]
pub(super) fn reading(error: rusqlite::Error) -> Error {
    match error.sqlite_error_code() {
        Some(ErrorCode::ConstraintViolation) => {
            Error::Fault(format!("the stock's own rules were broken: {error}"))
        }
        Some(ErrorCode::NotADatabase | ErrorCode::DatabaseCorrupt) => Error::Unfit(format!(
            "the stock's file cannot be read ({error}): stop the server, keep the file, and restore a backup"
        )),
        Some(ErrorCode::OperationInterrupted) => {
            Error::Unavailable("a look at the stock took longer than it may".to_owned())
        }
        Some(_) => Error::Unavailable(error.to_string()),
        None => Error::Fault(format!("a row of the stock cannot be read: {error}")),
    }
}

/// Whether it is worth trying again, since another process was in the way.
pub(super) fn is_busy(error: &rusqlite::Error) -> bool {
    matches!(error.sqlite_error_code(), Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked))
}

/// Whether only the statement failed: the transaction around it stands, and can be taken back
/// to before it.
pub(super) fn is_of_statement(error: &rusqlite::Error) -> bool {
    matches!(error.sqlite_error_code(), None | Some(ErrorCode::ConstraintViolation | ErrorCode::TooBig))
}

/// Why a file could not be handled.
pub(super) fn file(what: &str, path: &std::path::Path, error: &std::io::Error) -> Error {
    Error::Unavailable(format!("{what} {}: {error}", path.display()))
}
