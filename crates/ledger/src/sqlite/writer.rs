//! The thread that owns the only writing connection of this process.
//!
//! It takes what is queued, never waiting for company: `BEGIN IMMEDIATE`, a savepoint a
//! command, `COMMIT`, and only then the answers. While one batch waits for the disk the next
//! one gathers, so the more callers there are, the more commands share a commit. A batch that
//! cannot be committed fails whole, refusals too, since they were judged by what was not kept.

use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::sync::{Arc, PoisonError, RwLock};
use std::time::{Duration, Instant};

use rusqlite::Connection;
use tokio::sync::{oneshot, watch};

use super::board::Board;
use super::command::{Done, execute, in_savepoint, run};
use super::options::{CommitFault, Faults, Options};
use super::{connect, fail};
use crate::engine::{Applied, Error};
use crate::rules::Envelope;
use crate::shelf::Shelf;

/// What waits to be written, and who for.
pub(super) enum Job {
    /// A command.
    Command {
        envelope: Box<Envelope>,
        deadline: Option<Instant>,
        answer: oneshot::Sender<Result<Applied, Error>>,
    },
    /// Something else that is one short transaction of its own, as far as anybody can see.
    Task(Task),
}

/// Does its work on the connection, in a savepoint, or is told why there is none. What comes back
/// tells whoever waits; the error is one with which the transaction cannot be gone on.
pub(super) type Task = Box<dyn FnOnce(Result<&Connection, Error>) -> (Answer, Option<Error>) + Send>;

/// Tells whoever waits, once it is known whether the batch was committed.
pub(super) type Answer = Box<dyn FnOnce(Option<&Error>) + Send>;

/// An answer and who for.
fn answer<T: Send + 'static>(to: oneshot::Sender<Result<T, Error>>, result: Result<T, Error>) -> Answer {
    Box::new(move |failed| {
        let result = match (failed, result) {
            (Some(_), Err(Error::Late)) => Err(Error::Late),
            (Some(error), _) => Err(unavailable(error)),
            (None, result) => result,
        };
        // who asked may have left
        let _ = to.send(result);
    })
}

/// Work for the writer, and who waits for it.
pub(super) fn task<T: Send + 'static>(
    work: impl FnOnce(&Connection) -> rusqlite::Result<T> + Send + 'static,
    to: oneshot::Sender<Result<T, Error>>,
) -> Task {
    Box::new(move |connection| match connection.and_then(|connection| in_savepoint(connection, work)) {
        Ok(result) => (answer(to, result), None),
        Err(error) => (answer(to, Err(error.clone())), Some(error)),
    })
}

/// What the writer tells everybody else.
#[derive(Debug)]
pub(super) struct Told {
    shelf: RwLock<Arc<Shelf>>,
    /// Place of the last event committed.
    pub place: watch::Sender<i64>,
    /// Whether there is a connection that can be written to.
    pub fit: AtomicBool,
    /// Commits so far.
    pub commits: AtomicU64,
    pub refused: AtomicU64,
    /// Commands answered so far.
    pub commands: AtomicU64,
}

impl Told {
    /// Of a shelf that nobody has seen yet.
    pub(super) fn new(shelf: Arc<Shelf>, place: i64) -> Told {
        Told {
            shelf: RwLock::new(shelf),
            place: watch::Sender::new(place),
            fit: AtomicBool::new(true),
            commits: AtomicU64::new(0),
            refused: AtomicU64::new(0),
            commands: AtomicU64::new(0),
        }
    }

    /// The shelf as of the last commit.
    pub(super) fn shelf(&self) -> Arc<Shelf> {
        Arc::clone(&self.shelf.read().unwrap_or_else(PoisonError::into_inner))
    }

    fn show(&self, shelf: Arc<Shelf>) {
        *self.shelf.write().unwrap_or_else(PoisonError::into_inner) = shelf;
    }

    fn reach(&self, place: i64) {
        self.place.send_if_modified(|last| {
            let moved = *last != place;
            *last = place;
            moved
        });
    }
}

/// How often it is looked whether another process has written, while nothing is to be done.
const WATCH: Duration = Duration::from_secs(1);

/// How long readers are waited for when the log is emptied.
const EMPTYING: Duration = Duration::from_millis(200);

/// The writer.
pub(super) struct Writer {
    pub path: PathBuf,
    pub options: Options,
    pub told: Arc<Told>,
    pub board: Board,
    /// None after a commit that failed, until it is opened again.
    pub connection: Option<Connection>,
    /// What [`data_version`] said when the board was up to date; none where the board is not.
    pub version: Option<i64>,
    pub emptied: Instant,
}

impl Writer {
    /// Works until nobody can send any longer.
    pub(super) fn work(mut self, jobs: &Receiver<Job>) {
        loop {
            match jobs.recv_timeout(WATCH) {
                Ok(job) => self.batch(job, jobs),
                Err(RecvTimeoutError::Timeout) => self.watch(),
                Err(RecvTimeoutError::Disconnected) => return,
            }
        }
    }

    fn batch(&mut self, first: Job, jobs: &Receiver<Job>) {
        let mut told = Vec::new();
        let ended = self.carry_out(first, jobs, &mut told);
        let failed = match ended {
            Ok(done) => {
                self.committed(&done);
                None
            }
            Err(error) => {
                tracing::error!(%error, commands = told.len(), "a batch could not be committed");
                self.drop_connection();
                Some(error)
            }
        };
        self.told.commands.fetch_add(u64::try_from(told.len()).unwrap_or(0), Ordering::Relaxed);
        for answer in told {
            answer(failed.as_ref());
        }
        self.empty_log();
    }

    /// Carries a batch out and commits it. Whatever was taken is in `told`, in any case.
    fn carry_out(&mut self, first: Job, jobs: &Receiver<Job>, told: &mut Vec<Answer>) -> Result<Done, Error> {
        let opened = self.open();
        let faults = self.options.faults.clone();
        let faults = faults.as_deref();
        let begun = opened.and_then(|()| match &mut self.connection {
            Some(connection) => begin(connection, faults).map(|done| (connection, done)),
            None => Err(Error::Unavailable("the stock's file is not open".to_owned())),
        });
        let (connection, mut done) = match begun {
            Ok(begun) => begun,
            Err(error) => {
                told.push(match first {
                    Job::Command { answer: to, .. } => answer(to, Err(error.clone())),
                    Job::Task(task) => task(Err(error.clone())).0,
                });
                return Err(error);
            }
        };
        let since = Instant::now();
        let mut next = Some(first);
        while let Some(job) = next {
            let broken = match job {
                Job::Command { deadline, answer: to, .. }
                    if deadline.is_some_and(|deadline| deadline <= Instant::now()) =>
                {
                    told.push(answer(to, Err(Error::Late)));
                    None
                }
                Job::Command { envelope, answer: to, .. } => {
                    let ran = run(connection, &envelope, &mut done, faults);
                    let broken = ran.as_ref().err().cloned();
                    told.push(answer(to, ran.and_then(|result| result)));
                    broken
                }
                Job::Task(task) => {
                    let (answer, broken) = task(Ok(connection));
                    told.push(answer);
                    broken
                }
            };
            if let Some(error) = broken {
                return Err(error);
            }
            let more = told.len() < self.options.batch && since.elapsed() < self.options.gather;
            next = if more { jobs.try_recv().ok() } else { None };
        }
        commit(connection, faults)?;
        Ok(done)
    }

    /// Tells of a commit: the shelf first, then the events, and the answers after this.
    fn committed(&mut self, done: &Done) {
        self.told.commits.fetch_add(1, Ordering::Relaxed);
        if let Some(at) = done.at
            && self.version.is_some()
            && let Some(connection) = &self.connection
        {
            match self.board.refresh(connection, &done.touched, at) {
                Ok(()) => self.told.show(self.board.shelf()),
                Err(error) => {
                    tracing::warn!(%error, "the shelf could not be read after a commit");
                    self.version = None;
                }
            }
        }
        self.look_again();
        self.told.reach(done.place);
    }

    /// Opens the file where it is not open.
    fn open(&mut self) -> Result<(), Error> {
        if self.connection.is_none() {
            self.connection = Some(connect::writing(&self.path, &self.options)?);
            self.told.fit.store(true, Ordering::Relaxed);
        }
        Ok(())
    }

    fn drop_connection(&mut self) {
        self.connection = None;
        self.version = None;
        self.told.fit.store(false, Ordering::Relaxed);
        // at once, so that a look at the shelf and whoever asks whether it is ready need no command
        match self.open() {
            Ok(()) => self.watch(),
            Err(error) => tracing::error!(%error, "the stock's file could not be opened again"),
        }
    }

    /// Reads the whole shelf again where another process has written, or it is not known.
    fn look_again(&mut self) {
        let Some(connection) = &self.connection else {
            return;
        };
        let found = data_version(connection).and_then(|version| {
            if self.version == Some(version) {
                return Ok(());
            }
            self.board = Board::read(connection)?;
            self.version = Some(version);
            self.told.show(self.board.shelf());
            Ok(())
        });
        if let Err(error) = found {
            tracing::warn!(%error, "the shelf could not be read");
            self.version = None;
        }
    }

    fn watch(&mut self) {
        if self.open().is_err() {
            return;
        }
        self.look_again();
        match self.connection.as_ref().map(last_place) {
            Some(Ok(place)) => self.told.reach(place),
            Some(Err(error)) => tracing::warn!(%error, "the last event could not be read"),
            None => {}
        }
    }

    /// Empties the write-ahead log where it has grown: readers that overlap without end keep it
    /// from being begun again by itself.
    fn empty_log(&mut self) {
        let Some(connection) = &self.connection else {
            return;
        };
        let log = super::files::beside(&self.path, "-wal");
        let long = std::fs::metadata(log).is_ok_and(|found| found.len() > self.options.log_bytes);
        if !long || self.emptied.elapsed() < WATCH {
            return;
        }
        self.emptied = Instant::now();
        let emptied = connection.busy_timeout(EMPTYING).and_then(|()| {
            let busy: bool = connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| row.get(0))?;
            connection.busy_timeout(self.options.patience).map(|()| busy)
        });
        match emptied {
            Ok(false) => {}
            Ok(true) => tracing::info!("the write-ahead log is still read and could not be emptied"),
            Err(error) => {
                tracing::warn!(%error, "the write-ahead log could not be emptied");
                self.drop_connection();
            }
        }
    }
}

/// A failed batch in the words of one command. What went wrong is not the command's fault, and
/// whether it was kept is not known.
fn unavailable(error: &Error) -> Error {
    match error {
        Error::Unavailable(_) | Error::Unfit(_) => error.clone(),
        other => Error::Unavailable(other.to_string()),
    }
}

/// A number that changes when another connection writes.
pub(super) fn data_version(connection: &Connection) -> rusqlite::Result<i64> {
    connection.prepare_cached("PRAGMA data_version")?.query_row([], |row| row.get(0))
}

/// The place of the last event.
pub(super) fn last_place(connection: &Connection) -> rusqlite::Result<i64> {
    connection.prepare_cached("SELECT COALESCE(MAX(place), 0) FROM event")?.query_row([], |row| row.get(0))
}

fn begin(connection: &mut Connection, faults: Option<&dyn Faults>) -> Result<Done, Error> {
    if let Some(faults) = faults {
        let pages = faults.most_pages().unwrap_or(u32::MAX - 1);
        connection
            .pragma_update_and_check(None, "max_page_count", pages, |_| Ok(()))
            .map_err(fail::reading)?;
    }
    execute(connection, "BEGIN IMMEDIATE").map_err(fail::reading)?;
    let place = last_place(connection).map_err(fail::reading)?;
    Ok(Done { place, touched: std::collections::BTreeSet::new(), at: None })
}

fn commit(connection: &mut Connection, faults: Option<&dyn Faults>) -> Result<(), Error> {
    let fault = faults.map(Faults::commit).unwrap_or_default();
    if fault == CommitFault::RolledBack {
        connection.commit_hook(Some(|| true)).map_err(fail::reading)?;
    }
    execute(connection, "COMMIT")
        .map_err(|error| Error::Unavailable(format!("it could not be committed: {error}")))?;
    if fault == CommitFault::Unheard {
        return Err(Error::Unavailable("it is not known whether it was committed".to_owned()));
    }
    Ok(())
}
