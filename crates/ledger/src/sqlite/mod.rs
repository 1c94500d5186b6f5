//! The stock in a file beside the server.
//!
//! | file | what |
//! |---|---|
//! | `options` | how a store is opened, and what a test breaks |
//! | `connect`, `migrate`, `files` | the file: made, checked, brought up to date |
//! | `writer`, `command` | the one thread that writes: batches, savepoints, answers |
//! | `load`, `write`, `rows`, `pack` | rows in and out |
//! | `days` | what each day did with each material |
//! | `reports` | runs of the report |
//! | `board` | the shelf in memory |
//! | `readers`, `look` | connections that only read, and what is asked of them |
//! | `backup`, `digest`, `verify` | copies as of one instant, and whether all of it agrees |
//!
//! Several processes may have one file open: a backup or a look through beside the server, or a
//! second server on the same machine. Each writes in transactions that begin by taking the
//! file's one write lock, so none of them decides by what another has changed since. What is in memory
//! (the shelf, the last event) follows other processes' writes within a second.
//!
//! The file must lie on a disk of the machine: SQLite's log needs memory that the processes share.

mod backup;
mod board;
mod command;
mod connect;
mod days;
mod digest;
mod fail;
mod files;
mod load;
mod look;
mod migrate;
mod options;
mod pack;
mod readers;
mod reports;
mod rows;
mod verify;
mod write;
mod writer;

#[cfg(test)]
mod tests;

use std::path::{Path, PathBuf};
use std::sync::atomic::Ordering;
use std::sync::mpsc::{SyncSender, TrySendError, sync_channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use tokio::sync::oneshot;

use self::board::Board;
use self::readers::{Readers, closed};
use self::writer::{Job, Told, Writer, task};
use crate::engine::{Applied, Booking, DaySum, Error, FindPieces, FindReservations, Placed, Verified};
use crate::rules::{
    Amount, At, Class, CutId, CutRow, Envelope, Material, Movement, Order, Outcome, Piece, PieceId, Request,
    Reservation, ReservationId, RollUp,
};
use crate::shelf::Shelf;
use crate::stand::{Stand, stand};

pub use backup::{Restored, back_up, restore};
pub use digest::digest_of;
pub use options::{CommitFault, Durability, Faults, Options};

/// The store. Clones are the same store.
#[derive(Debug, Clone)]
pub struct Store {
    inner: Arc<Inner>,
}

#[derive(Debug)]
struct Inner {
    path: PathBuf,
    patience: Duration,
    told: Arc<Told>,
    readers: Arc<Readers>,
    jobs: Mutex<Option<SyncSender<Job>>>,
    thread: Mutex<Option<JoinHandle<()>>>,
}

/// What the writer has done since it was opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tally {
    /// Commands answered.
    pub commands: u64,
    /// Commits they shared.
    pub commits: u64,
    /// Commands refused since too many waited.
    pub refused: u64,
}

impl Store {
    /// Most rows that one look gives, whatever it asks for.
    pub const MOST: u32 = look::MOST;

    /// Opens the store in a file, and makes an empty one where there is none. Blocks until the
    /// schema is up to date and the shelf is read.
    ///
    /// # Errors
    /// [`Error::Unfit`] where the file is not one of stock, or of a newer program, or was made by
    /// other migrations; [`Error::Unavailable`] where the file cannot be had.
    pub fn open(path: &Path, options: Options) -> Result<Store, Error> {
        let connection = connect::writing(path, &options)?;
        let version = writer::data_version(&connection).map_err(fail::reading)?;
        let board = Board::read(&connection).map_err(fail::reading)?;
        let place = writer::last_place(&connection).map_err(fail::reading)?;
        let told = Arc::new(Told::new(board.shelf(), place));
        let readers =
            Arc::new(Readers::new(path.to_owned(), options.readers, options.look, options.patience));
        let (jobs, waiting) = sync_channel(options.queue.max(1));
        let patience = options.patience;
        let writer = Writer {
            path: path.to_owned(),
            options,
            told: Arc::clone(&told),
            board,
            connection: Some(connection),
            version: Some(version),
            emptied: Instant::now(),
        };
        let thread = std::thread::Builder::new()
            .name("stock-writer".to_owned())
            .spawn(move || writer.work(&waiting))
            .map_err(|error| Error::Unavailable(format!("the writer's thread cannot be begun: {error}")))?;
        Ok(Store {
            inner: Arc::new(Inner {
                path: path.to_owned(),
                patience,
                told,
                readers,
                jobs: Mutex::new(Some(jobs)),
                thread: Mutex::new(Some(thread)),
            }),
        })
    }

    /// Opens a store in a folder that is thrown away after: for tests and trials. It is a file like
    /// any other, since stock that is only in memory is another engine.
    ///
    /// # Errors
    /// As [`Store::open`].
    pub fn temporary(folder: &Path) -> Result<Store, Error> {
        Store::open(&folder.join("stock.db"), Options { durability: Durability::Off, ..Options::default() })
    }

    /// What the writer has done so far.
    pub fn tally(&self) -> Tally {
        Tally {
            commands: self.inner.told.commands.load(Ordering::Relaxed),
            commits: self.inner.told.commits.load(Ordering::Relaxed),
            refused: self.inner.told.refused.load(Ordering::Relaxed),
        }
    }

    /// Carries a command out. It goes on whether or not anybody waits for it.
    ///
    /// # Errors
    /// As [`crate::Ledger::apply`].
    pub async fn apply(&self, envelope: Envelope, deadline: Option<Instant>) -> Result<Applied, Error> {
        let (answer, told) = oneshot::channel();
        self.send(Job::Command { envelope: Box::new(envelope), deadline, answer })?;
        told.await.unwrap_or_else(|_| Err(closed()))
    }

    fn send(&self, job: Job) -> Result<(), Error> {
        let sent = match &*self.inner.jobs.lock().unwrap_or_else(PoisonError::into_inner) {
            Some(jobs) => jobs.try_send(job),
            None => return Err(closed()),
        };
        sent.map_err(|error| match error {
            TrySendError::Full(_) => {
                self.inner.told.refused.fetch_add(1, Ordering::Relaxed);
                Error::Busy
            }
            TrySendError::Disconnected(_) => closed(),
        })
    }

    /// Has the writer do something in a savepoint of its own.
    async fn write<T: Send + 'static>(
        &self,
        work: impl FnOnce(&rusqlite::Connection) -> rusqlite::Result<T> + Send + 'static,
    ) -> Result<T, Error> {
        let (answer, told) = oneshot::channel();
        self.send(Job::Task(task(work, answer)))?;
        told.await.unwrap_or_else(|_| Err(closed()))
    }

    /// The answer to a request that was carried out before.
    ///
    /// # Errors
    /// [`Error::KeyReused`] where its key was used for another one.
    pub async fn recall(&self, request: &Request) -> Result<Option<Outcome>, Error> {
        let request = request.clone();
        self.see(move |connection| command::recall(connection, &request)).await?
    }

    /// What lies on the shelf, as of the last commit.
    pub fn shelf(&self) -> Arc<Shelf> {
        self.inner.told.shelf()
    }

    /// What lies on the shelf, read again.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn read_shelf(&self) -> Result<Arc<Shelf>, Error> {
        self.see(|connection| Board::read(connection).map(|board| board.shelf())).await
    }

    /// A reservation.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn reservation(&self, id: &ReservationId) -> Result<Option<Reservation>, Error> {
        let id = id.clone();
        self.see(move |connection| rows::find_reservation(connection, &id)).await
    }

    /// Reservations, the latest first, at most [`Store::MOST`].
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn reservations(&self, find: &FindReservations) -> Result<Vec<Reservation>, Error> {
        let find = find.clone();
        self.see(move |connection| look::reservations(connection, &find)).await
    }

    /// Pieces in the order of their names, at most [`Store::MOST`].
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn pieces(&self, find: &FindPieces) -> Result<Vec<Piece>, Error> {
        let find = find.clone();
        self.see(move |connection| look::pieces(connection, &find)).await
    }

    /// A piece.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn piece(&self, id: &PieceId) -> Result<Option<Piece>, Error> {
        let id = id.clone();
        self.see(move |connection| rows::find_piece(connection, &id)).await
    }

    /// Movements of a piece, in the order in which they were written, at most [`Store::MOST`].
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn movements(&self, piece: &PieceId, skip: u32, most: u32) -> Result<Vec<Movement>, Error> {
        let piece = piece.clone();
        self.see(move |connection| look::movements(connection, &piece, skip, most)).await
    }

    /// Cuts made for a reservation, in the order in which they were written.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn cuts(&self, reservation: &ReservationId) -> Result<Vec<CutRow>, Error> {
        let reservation = reservation.clone();
        self.see(move |connection| rows::cuts_for(connection, &reservation)).await
    }

    /// A cut.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn cut(&self, id: &CutId) -> Result<Option<CutRow>, Error> {
        let id = id.clone();
        self.see(move |connection| rows::find_cut(connection, &id)).await
    }

    /// Orders at suppliers, the latest first, at most [`Store::MOST`].
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn orders(&self, open_only: bool, most: u32) -> Result<Vec<Order>, Error> {
        self.see(move |connection| look::orders(connection, open_only, most)).await
    }

    /// How much of each material is still to come.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn on_order(&self) -> Result<Vec<(Material, Amount)>, Error> {
        self.see(look::on_order).await
    }

    /// Events after a place, at most [`Store::MOST`].
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn events(&self, after: i64, most: u32) -> Result<Vec<Placed>, Error> {
        self.see(move |connection| look::events(connection, after, most)).await
    }

    /// The place of the last event.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn last_place(&self) -> Result<i64, Error> {
        self.see(writer::last_place).await
    }

    /// Waits until there are events after a place, or for so long.
    pub async fn wait_for_events(&self, after: i64, most: Duration) {
        let mut place = self.inner.told.place.subscribe();
        // over in time, or never again: either way there is nothing more to wait for
        let _ = tokio::time::timeout(most, place.wait_for(|place| *place > after)).await;
    }

    /// Bench time booked by what is confirmed, whether cut or not, and leaves on a day or later
    /// or on no day that is known.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn bookings(&self, since: i32) -> Result<Vec<Booking>, Error> {
        self.see(move |connection| look::bookings(connection, since)).await
    }

    /// What days did with the materials of a class, by code and day.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn day_uses(&self, class: Class, from: i32, to: i32) -> Result<Vec<DaySum>, Error> {
        self.see(move |connection| days::of_days(connection, class, from, to)).await
    }

    /// What days did with each lot of the materials of a class, by code, lot and day.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn day_uses_by_lot(&self, class: Class, from: i32, to: i32) -> Result<Vec<RollUp>, Error> {
        self.see(move |connection| days::of_lots(connection, class, from, to)).await
    }

    /// The first day on which anything is known of a material.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn first_day(&self, material: &Material) -> Result<Option<i32>, Error> {
        let material = material.clone();
        self.see(move |connection| days::first(connection, &material)).await
    }

    /// How the shop stands with each material, as of one instant.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn stand(&self, now: At) -> Result<Stand, Error> {
        self.see(move |connection| look::stand(connection).map(|read| stand(&read, now))).await
    }

    /// Adds up again what every day did, and puts right whatever does not agree; how many rows
    /// that were. Nothing else is written meanwhile.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn rebuild(&self) -> Result<u64, Error> {
        self.write(days::rebuild).await
    }

    /// Whether the store can be read, and was writable when it was last written.
    ///
    /// # Errors
    /// It cannot.
    pub async fn ready(&self) -> Result<(), Error> {
        if !self.works() {
            return Err(closed());
        }
        if !self.inner.told.fit.load(Ordering::Relaxed) {
            return Err(Error::Unavailable("the stock's file cannot be written".to_owned()));
        }
        self.see(|connection| migrate::version(connection).map(drop)).await
    }

    /// Recomputes every balance from the movements, and names whatever does not agree. Looks
    /// at some hundred pieces at a time, each as of one instant, so that the log stays short.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn verify(&self) -> Result<Verified, Error> {
        self.inner.readers.long_look(|connection| verify::verify(connection)).await
    }

    /// Copies the store, as of one instant, into a file that is not there yet, while it is served.
    ///
    /// # Errors
    /// There is a file, or it cannot be written, or the copy is not whole.
    pub async fn backup(&self, to: &Path) -> Result<(), Error> {
        let (from, to, patience) = (self.inner.path.clone(), to.to_owned(), self.inner.patience);
        tokio::task::spawn_blocking(move || back_up(&from, &to, patience))
            .await
            .map_err(|error| Error::Fault(format!("the backup broke off: {error}")))?
    }

    /// Finishes what is begun and lets go of the file. The last one to leave empties the
    /// log, so that the file alone is all of it.
    pub async fn close(&self) {
        let jobs = self.inner.jobs.lock().unwrap_or_else(PoisonError::into_inner).take();
        self.inner.readers.close().await;
        drop(jobs);
        let thread = self.inner.thread.lock().unwrap_or_else(PoisonError::into_inner).take();
        if let Some(thread) = thread {
            // a thread that panicked has nothing left to finish
            let _ = tokio::task::spawn_blocking(move || thread.join()).await;
        }
    }

    /// Whether the writer's thread is there.
    fn works(&self) -> bool {
        let thread = self.inner.thread.lock().unwrap_or_else(PoisonError::into_inner);
        thread.as_ref().is_some_and(|thread| !thread.is_finished())
    }

    async fn see<T: Send + 'static>(
        &self,
        what: impl FnOnce(&rusqlite::Connection) -> rusqlite::Result<T> + Send + 'static,
    ) -> Result<T, Error> {
        self.inner.readers.look(what).await
    }
}
