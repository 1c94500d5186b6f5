//! The stock in PostgreSQL, or in a database that speaks its protocol: for several servers
//! that share it.
//!
//! | file | what |
//! |---|---|
//! | `options` | limits, and whose clock judges |
//! | `migrate` | the schema, made and checked |
//! | `sql` | every statement |
//! | `inner` | connections, and the ends of waits |
//! | `unit` | one transaction on one connection; dropped in the middle, both end |
//! | `apply` | a command carried out: locked, decided, written, committed, tried again |
//! | `load`, `write` | the rows a command concerns; what a decision changes |
//! | `days` | what each day did with each material |
//! | `reports` | runs of the report |
//! | `read`, `keeper`, `events` | what can be looked at, the shelf in memory, events in order |
//! | `verify` | everything computed again |
//! | `failure` | what went wrong, and whether to try again |
//!
//! Every unit of work runs in a task of its own on one connection: who stops waiting for it
//! stops nothing half-way, and nobody who has a connection waits for a second one. All waits
//! end: at the caller's deadline, or by the limits of [`Options`].
//!
//! Statements are prepared by name, so a pooler in between has to know that or lend a session
//! for good. What must not be here: a decision about stock, a statement outside `sql`.

mod apply;
mod days;
mod events;
mod failure;
mod inner;
mod keeper;
mod load;
mod migrate;
mod options;
mod read;
mod reports;
mod row;
mod sql;
#[cfg(test)]
mod tests;
mod unit;
mod verify;
mod write;

use std::borrow::Cow;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use deadpool_postgres::Object;

pub use self::migrate::migrate;
pub use self::options::{Clock, Options};

use self::events::Events;
use self::inner::{Inner, Work, config, in_time, pool};
use self::keeper::Keeper;
use self::unit::Unit;
use crate::engine::{Applied, Booking, DaySum, Error, FindPieces, FindReservations, Placed, Verified};
use crate::rules::{
    Amount, At, Class, CutId, CutRow, Envelope, Material, Movement, Order, Outcome, Piece, PieceId, Request,
    Reservation, ReservationId, RollUp,
};
use crate::shelf::Shelf;
use crate::stand::{Stand, stand};

/// How long a look through the whole store may take.
const LONG_LOOK: Duration = Duration::from_mins(10);

/// The store.
#[derive(Debug, Clone)]
pub struct Store {
    inner: Arc<Inner>,
}

impl Store {
    /// Opens the stock in a database, which has to be migrated.
    ///
    /// # Errors
    /// [`Error::Unfit`] where the database is not one this program may write to, or its
    /// address is not one; [`Error::Unavailable`] where it cannot be had.
    pub async fn open(url: &str, options: Options) -> Result<Store, Error> {
        let pool = pool(config(url)?, &options)?;
        let shelf = Keeper::new(options.clone());
        let inner = Inner {
            pool,
            options,
            shelf,
            events: Events::new(),
            running: Arc::default(),
            closed: AtomicBool::new(false),
        };
        let store = Store { inner: Arc::new(inner) };
        store.check().await?;
        store.read_shelf().await?;
        Ok(store)
    }

    async fn check(&self) -> Result<(), Error> {
        let ends = Instant::now() + self.inner.options.patience;
        let mut tries = 0;
        loop {
            let checked = in_time(ends, async {
                let connection = self.inner.connection(ends).await?;
                let checked = migrate::check(&connection).await;
                if checked.is_err() {
                    drop(Object::take(connection));
                }
                checked
            });
            match checked.await {
                Err(failure) => self.inner.look_again(failure, &mut tries, ends).await?,
                Ok(()) => return Ok(()),
            }
        }
    }

    /// Carries a command out; see [`Ledger::apply`](crate::Ledger::apply).
    ///
    /// Of conflicts with others nothing is heard here, unless they last to the deadline.
    ///
    /// # Errors
    /// [`Error::Late`] where the deadline passed and nothing was changed, [`Error::Busy`] where
    /// no deadline was given and it took too long or too many were waiting,
    /// [`Error::InProgress`] where the same request was being carried out all the while,
    /// [`Error::Unavailable`] where the database cannot be had or a commit was not answered.
    pub async fn apply(&self, envelope: Envelope, deadline: Option<Instant>) -> Result<Applied, Error> {
        let inner = Arc::clone(&self.inner);
        self.in_a_task(apply::carry_out(inner, envelope, deadline)).await
    }

    /// The answer to a request that was carried out before.
    pub async fn recall(&self, request: &Request) -> Result<Option<Outcome>, Error> {
        let request = request.clone();
        self.look(move |unit| {
            let request = request.clone();
            Box::pin(async move { apply::answer(unit, &request).await })
        })
        .await
    }

    /// What lies on the shelf, from memory. Where it is older than it may be, this begins to read
    /// it again and does not wait for that.
    pub fn shelf(&self) -> Arc<Shelf> {
        if let Ok(runtime) = tokio::runtime::Handle::try_current()
            && self.inner.shelf.is_due()
        {
            let store = self.clone();
            runtime.spawn(async move {
                if let Err(error) = store.read_shelf().await {
                    tracing::warn!(%error, "the shelf in memory is not up to date");
                }
                store.inner.shelf.refreshed();
            });
        }
        self.inner.shelf.shelf()
    }

    /// What lies on the shelf, read again.
    pub async fn read_shelf(&self) -> Result<Arc<Shelf>, Error> {
        let inner = Arc::clone(&self.inner);
        self.in_a_task(async move {
            let ends = Instant::now() + inner.options.patience;
            let mut tries = 0;
            loop {
                let read = in_time(ends, async {
                    let connection = inner.connection(ends).await?;
                    inner.shelf.read(connection).await
                });
                match read.await {
                    Err(failure) => inner.look_again(failure, &mut tries, ends).await?,
                    Ok(shelf) => return Ok(shelf),
                }
            }
        })
        .await
    }

    /// A reservation.
    pub async fn reservation(&self, id: &ReservationId) -> Result<Option<Reservation>, Error> {
        let id = id.clone();
        self.look(move |unit| {
            let id = id.clone();
            Box::pin(async move { read::reservation(unit, &id).await })
        })
        .await
    }

    /// Reservations, the latest first.
    pub async fn reservations(&self, find: &FindReservations) -> Result<Vec<Reservation>, Error> {
        let find = find.clone();
        self.look(move |unit| {
            let find = find.clone();
            Box::pin(async move { read::reservations(unit, &find).await })
        })
        .await
    }

    /// Pieces, in the order of their names.
    pub async fn pieces(&self, find: &FindPieces) -> Result<Vec<Piece>, Error> {
        let find = find.clone();
        self.look(move |unit| {
            let find = find.clone();
            Box::pin(async move { read::pieces(unit, &find).await })
        })
        .await
    }

    /// A piece.
    pub async fn piece(&self, id: &PieceId) -> Result<Option<Piece>, Error> {
        let id = id.clone();
        self.look(move |unit| {
            let id = id.clone();
            Box::pin(async move { read::piece(unit, &id).await })
        })
        .await
    }

    /// Movements of a piece, the first one first.
    pub async fn movements(&self, piece: &PieceId, skip: u32, most: u32) -> Result<Vec<Movement>, Error> {
        let piece = piece.clone();
        self.look(move |unit| {
            let piece = piece.clone();
            Box::pin(async move { read::movements(unit, &piece, skip, most).await })
        })
        .await
    }

    /// Cuts made for a reservation, the first one first.
    pub async fn cuts(&self, reservation: &ReservationId) -> Result<Vec<CutRow>, Error> {
        let reservation = reservation.clone();
        self.look(move |unit| {
            let reservation = reservation.clone();
            Box::pin(async move { read::cuts(unit, &reservation).await })
        })
        .await
    }

    /// A cut.
    pub async fn cut(&self, id: &CutId) -> Result<Option<CutRow>, Error> {
        let id = id.clone();
        self.look(move |unit| {
            let id = id.clone();
            Box::pin(async move { read::cut(unit, &id).await })
        })
        .await
    }

    /// Orders at suppliers, the latest first.
    pub async fn orders(&self, open_only: bool, most: u32) -> Result<Vec<Order>, Error> {
        self.look(move |unit| Box::pin(read::orders(unit, open_only, most))).await
    }

    /// How much of each material is still to come.
    pub async fn on_order(&self) -> Result<Vec<(Material, Amount)>, Error> {
        self.look(|unit| Box::pin(read::on_order(unit))).await
    }

    /// Events after a place, in order. What has no place yet gets one first.
    pub async fn events(&self, after: i64, most: u32) -> Result<Vec<Placed>, Error> {
        self.place_events().await?;
        self.look(move |unit| Box::pin(events::after(unit, after, most))).await
    }

    /// The place of the last event; what has no place yet gets one first.
    pub async fn last_place(&self) -> Result<i64, Error> {
        self.place_events().await?;
        self.look(|unit| Box::pin(unit.number(sql::event::LAST, &[]))).await
    }

    async fn place_events(&self) -> Result<(), Error> {
        let inner = Arc::clone(&self.inner);
        self.in_a_task(async move {
            let ends = Instant::now() + inner.options.patience;
            let mut tries = 0;
            while let Err(failure) = in_time(ends, events::place(&inner, ends)).await {
                inner.look_again(failure, &mut tries, ends).await?;
            }
            Ok(())
        })
        .await
    }

    /// Waits until there may be events after a place, or for so long. Changes of this server are
    /// seen at once, those of others within [`Options::poll`].
    pub async fn wait_for_events(&self, after: i64, most: Duration) {
        let inner = Arc::clone(&self.inner);
        let waited = self
            .in_a_task(async move {
                events::wait(&inner, after, most).await;
                Ok(())
            })
            .await;
        if let Err(error) = waited {
            tracing::debug!(%error, "nothing is waited for");
        }
    }

    /// Bench time booked by what is confirmed, whether cut or not, and leaves on a day or later
    /// or on no day that is known.
    pub async fn bookings(&self, since: i32) -> Result<Vec<Booking>, Error> {
        self.look(move |unit| Box::pin(read::bookings(unit, since))).await
    }

    /// What days did with the materials of a class, by code and day.
    pub async fn day_uses(&self, class: Class, from: i32, to: i32) -> Result<Vec<DaySum>, Error> {
        self.look(move |unit| Box::pin(days::of_days(unit, class, from, to))).await
    }

    /// What days did with each lot of the materials of a class, by code, lot and day.
    pub async fn day_uses_by_lot(&self, class: Class, from: i32, to: i32) -> Result<Vec<RollUp>, Error> {
        self.look(move |unit| Box::pin(days::of_lots(unit, class, from, to))).await
    }

    /// The first day on which anything is known of a material.
    pub async fn first_day(&self, material: &Material) -> Result<Option<i32>, Error> {
        let material = material.clone();
        self.look(move |unit| {
            let material = material.clone();
            Box::pin(async move { days::first(unit, &material).await })
        })
        .await
    }

    /// How the shop stands with each material, as of one instant: by the database's clock, unless
    /// commands are judged by their own.
    pub async fn stand(&self, now: At) -> Result<Stand, Error> {
        let clock = self.inner.options.clock;
        self.look(move |unit| {
            Box::pin(async move {
                let now = load::instant(unit, (clock, now)).await?;
                Ok(stand(&read::stand(unit, now).await?, now))
            })
        })
        .await
    }

    /// Adds up again what every day did, and puts right whatever does not agree; how many rows
    /// that were. Others may write meanwhile.
    pub async fn rebuild(&self) -> Result<u64, Error> {
        self.change(sql::BEGIN_LONG_CHANGE.to_owned(), LONG_LOOK, |unit| Box::pin(days::rebuild(unit))).await
    }

    /// Whether the store can be had.
    pub async fn ready(&self) -> Result<(), Error> {
        self.look(|unit| Box::pin(unit.number(sql::READY, &[]))).await.map(|_| ())
    }

    /// Recomputes every balance from the movements, and names whatever does not agree.
    pub async fn verify(&self) -> Result<Verified, Error> {
        self.look_with(sql::BEGIN_LONG_LOOK.into(), LONG_LOOK, |unit| Box::pin(verify::verify(unit))).await
    }

    /// Finishes what is begun and lets go of the store.
    pub async fn close(&self) {
        self.inner.closed.store(true, Ordering::Release);
        // everything that runs has it to read
        drop(self.inner.running.write().await);
        self.inner.pool.close();
    }

    async fn look<T, F>(&self, work: F) -> Result<T, Error>
    where
        T: Send + 'static,
        F: for<'a> Fn(&'a Unit) -> Work<'a, T> + Send + Sync + 'static,
    {
        self.look_with(sql::BEGIN_LOOK.into(), self.inner.options.patience, work).await
    }

    /// Looks at one state of everything; looking again does no harm.
    async fn look_with<T, F>(&self, begin: Cow<'static, str>, patience: Duration, work: F) -> Result<T, Error>
    where
        T: Send + 'static,
        F: for<'a> Fn(&'a Unit) -> Work<'a, T> + Send + Sync + 'static,
    {
        let inner = Arc::clone(&self.inner);
        self.in_a_task(async move {
            let ends = Instant::now() + patience;
            let mut tries = 0;
            loop {
                match in_time(ends, inner.look_once(begin.clone(), ends, &work)).await {
                    Ok(found) => return Ok(found),
                    Err(failure) => inner.look_again(failure, &mut tries, ends).await?,
                }
            }
        })
        .await
    }

    /// Changes something that is not a command, tried again where somebody else was in the way.
    /// What it does has to come to the same where it is done twice, since a commit of which nothing
    /// is heard is tried again, too.
    async fn change<T, F>(&self, begin: String, patience: Duration, work: F) -> Result<T, Error>
    where
        T: Send + 'static,
        F: for<'a> Fn(&'a Unit) -> Work<'a, T> + Send + Sync + 'static,
    {
        self.look_with(begin.into(), patience, work).await
    }

    /// The same, of what takes a moment.
    async fn short_change<T, F>(&self, work: F) -> Result<T, Error>
    where
        T: Send + 'static,
        F: for<'a> Fn(&'a Unit) -> Work<'a, T> + Send + Sync + 'static,
    {
        let options = &self.inner.options;
        let begin = sql::begin_change(options.statement, options.lock);
        self.change(begin, options.patience, work).await
    }

    /// Runs in a task of its own: whoever called may stop waiting at any time. It begins when it
    /// is first waited for.
    fn in_a_task<T, W>(&self, work: W) -> impl Future<Output = Result<T, Error>> + use<T, W>
    where
        T: Send + 'static,
        W: Future<Output = Result<T, Error>> + Send + 'static,
    {
        let inner = Arc::clone(&self.inner);
        // on the heap, since whoever waits would have to carry it about until it begins
        let work = Box::pin(work);
        async move {
            let closed = || Error::Unavailable("the stock is being closed".to_owned());
            if inner.closed.load(Ordering::Acquire) {
                return Err(closed());
            }
            let running = Arc::clone(&inner.running).try_read_owned().map_err(|_| closed())?;
            let task = tokio::spawn(async move {
                let done = work.await;
                drop(running);
                done
            });
            task.await
                .unwrap_or_else(|error| Err(Error::Fault(format!("a task of the stock has ended: {error}"))))
        }
    }
}
