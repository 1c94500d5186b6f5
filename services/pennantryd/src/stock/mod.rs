//! The stock of a server: where it is kept, how it is opened, and what is done with it while
//! nobody asks.
//!
//! | file | what |
//! |---|---|
//! | `database` | the address of a database, which is never shown with its password |
//! | `keep` | what runs beside the doors: overdue holds end, health, what quotes look at |
//! | `backups` | the copy of every night |
//! | `commands` | `pennantryd migrate`, `backup`, `restore` and `verify` |

pub mod backups;
pub mod commands;
mod database;
pub mod keep;

use std::path::{Path, PathBuf};
use std::time::Duration;

use pennantry_ledger::{Error, Ledger, postgres, sqlite};
use tokio::time::timeout;

pub use database::Database;

use crate::folder::Folder;

/// The name of the file in the data folder.
pub const FILE: &str = "stock.sqlite";

/// How long a database is waited for when a server starts: then it serves without.
const OPENING: Duration = Duration::from_secs(4);

/// Where the stock of a server is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stock {
    /// Nowhere: quotes only.
    None,
    /// In a file of the data folder; where there is none, in one that goes with the server.
    Embedded,
    /// In a database that several servers share.
    Postgres(Database),
}

/// A stock that was opened, as far as it could be.
#[derive(Debug)]
pub(crate) struct Opened {
    /// Where it is kept; none where there is none, or where the database cannot be had yet.
    pub ledger: Option<Ledger>,
    /// The folder that goes with it.
    pub folder: Option<Folder>,
}

/// Opens the stock of a server.
///
/// A database that cannot be had is no fault: quotes are answered meanwhile. One that this
/// program cannot use is.
pub(crate) async fn open(stock: &Stock, data: Option<&Path>) -> Result<Opened, String> {
    let (ledger, folder) = match (stock, data) {
        (Stock::None, _) => (None, None),
        (Stock::Embedded, Some(data)) => {
            let ledger = embedded(data, sqlite::Durability::Full).await;
            (Some(ledger.map_err(|error| format!("--data {}: {}", data.display(), words(&error)))?), None)
        }
        (Stock::Embedded, None) => {
            let folder =
                Folder::make().map_err(|cause| format!("no temporary folder can be made: {cause}"))?;
            // what goes with the server need not outlive a power cut
            let ledger = embedded(folder.path(), sqlite::Durability::Off).await;
            (Some(ledger.map_err(|error| words(&error))?), Some(folder))
        }
        (Stock::Postgres(database), _) => (shared(database).await?, None),
    };
    Ok(Opened { ledger, folder })
}

/// The stock in a file of a folder, which is made where there is none.
pub(crate) async fn embedded(folder: &Path, durability: sqlite::Durability) -> Result<Ledger, Error> {
    let file = folder.join(FILE);
    opened(file, sqlite::Options { durability, ..sqlite::Options::default() }).await
}

/// The stock in a file, opened so.
async fn opened(file: PathBuf, options: sqlite::Options) -> Result<Ledger, Error> {
    let opened = tokio::task::spawn_blocking(move || sqlite::Store::open(&file, options)).await;
    opened.map_err(|fault| Error::Fault(fault.to_string()))?.map(Ledger::Sqlite)
}

/// The stock in a database; none where that cannot be had now.
async fn shared(database: &Database) -> Result<Option<Ledger>, String> {
    let late = || Error::Unavailable(format!("no answer within {} s", OPENING.as_secs()));
    let opening = postgres::Store::open(database.url(), postgres::Options::default());
    match timeout(OPENING, opening).await.unwrap_or_else(|_| Err(late())) {
        Ok(store) => Ok(Some(Ledger::Postgres(store))),
        Err(error @ (Error::Unfit(_) | Error::Fault(_))) => {
            Err(format!("--database {database}: {}", words(&error)))
        }
        Err(error) => {
            tracing::warn!(%database, cause = %error, "the stock cannot be had yet: quotes are answered, nothing can be held");
            Ok(None)
        }
    }
}

/// What is wrong, for the operator.
pub(crate) fn words(error: &Error) -> String {
    error.to_string()
}
