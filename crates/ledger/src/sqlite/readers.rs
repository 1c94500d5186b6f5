//! A few connections that only read, each used by one look at a time.
//!
//! A look is one read transaction and sees one instant. It is broken off after
//! [`Options::look`](super::Options::look), since while it lasts the write-ahead log cannot be
//! begun again.

use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use rusqlite::Connection;
use tokio::sync::Semaphore;

use super::{connect, fail};
use crate::engine::Error;

/// Steps of SQLite's machine between two looks at the clock: about a millisecond.
const STEPS: i32 = 20_000;

/// The connections.
#[derive(Debug)]
pub(super) struct Readers {
    path: PathBuf,
    free: Mutex<Vec<Connection>>,
    seats: Arc<Semaphore>,
    many: u32,
    look: Duration,
    patience: Duration,
}

impl Readers {
    /// None is opened before it is needed.
    pub(super) fn new(path: PathBuf, many: usize, look: Duration, patience: Duration) -> Readers {
        let many = u32::try_from(many).unwrap_or(u32::MAX).clamp(1, 64);
        let seats = usize::try_from(many).unwrap_or(1);
        Readers { path, free: Mutex::default(), seats: Arc::new(Semaphore::new(seats)), many, look, patience }
    }

    /// Looks at one instant, on a thread that may wait for the disk.
    pub(super) async fn look<T: Send + 'static>(
        self: &Arc<Readers>,
        what: impl FnOnce(&Connection) -> rusqlite::Result<T> + Send + 'static,
    ) -> Result<T, Error> {
        let readers = Arc::clone(self);
        self.long_look(move |connection| {
            let until = Instant::now() + readers.look;
            connection
                .progress_handler(STEPS, Some(move || Instant::now() > until))
                .map_err(fail::reading)?;
            let found = at_one_instant(connection, what);
            connection.progress_handler(STEPS, None::<fn() -> bool>).map_err(fail::reading)?;
            found
        })
        .await
    }

    /// Lends a connection for something that sees to its own transactions.
    pub(super) async fn long_look<T: Send + 'static>(
        self: &Arc<Readers>,
        what: impl FnOnce(&mut Connection) -> Result<T, Error> + Send + 'static,
    ) -> Result<T, Error> {
        let seat = Arc::clone(&self.seats).acquire_owned().await.map_err(|_| closed())?;
        let readers = Arc::clone(self);
        let looked = tokio::task::spawn_blocking(move || {
            let mut connection = readers.take()?;
            let found = what(&mut connection);
            // one that failed may be of a file that is no longer there
            if found.is_ok() {
                readers.free.lock().unwrap_or_else(PoisonError::into_inner).push(connection);
            }
            // only now may another one look: the connection is back
            drop(seat);
            found
        });
        looked.await.map_err(|error| Error::Fault(format!("a look at the stock broke off: {error}")))?
    }

    fn take(&self) -> Result<Connection, Error> {
        let free = self.free.lock().unwrap_or_else(PoisonError::into_inner).pop();
        free.map_or_else(|| connect::reading(&self.path, self.patience).map_err(fail::reading), Ok)
    }

    /// Waits for looks that are begun, and lets go of the file.
    pub(super) async fn close(&self) {
        if let Ok(all) = self.seats.acquire_many(self.many).await {
            self.seats.close();
            drop(all);
        }
        self.free.lock().unwrap_or_else(PoisonError::into_inner).clear();
    }
}

/// Runs a look within one read transaction.
pub(super) fn at_one_instant<T>(
    connection: &Connection,
    what: impl FnOnce(&Connection) -> rusqlite::Result<T>,
) -> Result<T, Error> {
    // rolled back when it is dropped, which is all that a read transaction needs
    let transaction = connection.unchecked_transaction().map_err(fail::reading)?;
    what(&transaction).map_err(fail::reading)
}

/// What is said once the store was let go of.
pub(super) fn closed() -> Error {
    Error::Unavailable("the stock was closed".to_owned())
}
