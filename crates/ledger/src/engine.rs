//! One ledger, two engines.

use std::path::Path;
use std::sync::Arc;
use std::time::Instant;

use crate::rules::report::{Begin, Begun, Lost, Report, ReportHead, ReportState, Step};
use crate::rules::{
    Amount, At, Class, CutId, CutRow, DayUse, Envelope, Event, Material, Movement, Order, Outcome, Piece,
    PieceId, Refusal, Request, Reservation, ReservationId, RollUp, State,
};
use crate::shelf::Shelf;
use crate::stand::Stand;
use crate::{postgres, sqlite};

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Error {
    /// The rules refuse it; nothing was changed.
    #[error("refused: {0}")]
    Refused(Refusal),
    /// The request's key was used before, for something else.
    #[error("the key of the request was used before, for another request")]
    KeyReused,
    /// The same request is being carried out just now.
    #[error("the same request is being carried out just now")]
    InProgress,
    /// More is asked at once than is taken in.
    #[error("more is asked of the stock at once than it takes in")]
    Busy,
    /// The caller's time was over before it was begun; nothing was changed.
    #[error("the caller's time was over before it was begun")]
    Late,
    /// The store cannot be had now. The cause is for the log. Whether the change was made is
    /// only known where a repeat of the same request says so.
    #[error("the stock cannot be had now: {0}")]
    Unavailable(String),
    /// The store is not one that this program may write to. The words are for the operator.
    #[error("{0}")]
    Unfit(String),
    /// A fault of the program; the cause is for the log.
    #[error("{0}")]
    Fault(String),
}

/// A command carried out, or found to have been.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Applied {
    /// What it came to: the first answer, where it was carried out before.
    pub outcome: Outcome,
    /// Whether it was carried out before.
    pub replayed: bool,
}

/// Which pieces are looked for. What is not said is not looked at.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FindPieces {
    /// Of this material.
    pub material: Option<Material>,
    /// Of this dye lot.
    pub lot: Option<String>,
    /// Pieces on which nothing lies any longer, too.
    pub empty_too: bool,
    /// After this one, in the order of names.
    pub after: Option<PieceId>,
    /// At most so many.
    pub most: u32,
}

/// Which reservations are looked for, the latest first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FindReservations {
    /// In one of these states; in any, where none is said.
    pub states: Vec<State>,
    /// Only those that are short.
    pub short_only: bool,
    /// Those with a live line on this piece.
    pub piece: Option<PieceId>,
    /// After this one in the order of the answer.
    pub after: Option<ReservationId>,
    /// At most so many.
    pub most: u32,
}

/// An event and its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// Its place, from 1; later ones have higher ones.
    pub place: i64,
    /// The event.
    pub event: Event,
}

/// Bench time that is booked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Booking {
    /// Numbered day on which it is to leave.
    pub leave_day: Option<i32>,
    /// How much, in thousandths of a minute.
    pub milli_minutes: i64,
    /// Numbered day on which it was confirmed is not kept; the instant is.
    pub confirmed: crate::rules::At,
}

/// What a day did with a material, over all its lots.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DaySum {
    /// The material's code.
    pub code: String,
    /// The shop's day, numbered.
    pub day: i32,
    /// What it did.
    pub of: DayUse,
}

/// What a look through the whole store found.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Verified {
    /// Pieces looked at.
    pub pieces: u64,
    /// Reservations looked at.
    pub reservations: u64,
    /// Movements added up.
    pub movements: u64,
    /// Events looked at.
    pub events: u64,
    /// Runs of the report looked at.
    pub reports: u64,
    /// Everything that does not agree, each in words that name it. Empty where all does.
    pub drift: Vec<String>,
}

/// The stock.
#[derive(Debug, Clone)]
pub enum Ledger {
    /// In a file beside the server.
    Sqlite(sqlite::Store),
    /// In a database that several servers share.
    Postgres(postgres::Store),
}

/// Calls a method of whichever engine it is.
macro_rules! either {
    ($self:ident, $store:ident => $call:expr) => {
        match $self {
            Ledger::Sqlite($store) => $call,
            Ledger::Postgres($store) => $call,
        }
    };
}

impl Ledger {
    /// Carries a command out, all of it or nothing. Once this is called the command goes on,
    /// whether or not anybody waits for it. One whose deadline has passed before it is begun
    /// is not.
    ///
    /// # Errors
    /// [`Error::Refused`] where the rules refuse it; the others where the store cannot do it.
    pub async fn apply(&self, envelope: Envelope, deadline: Option<Instant>) -> Result<Applied, Error> {
        either!(self, store => store.apply(envelope, deadline).await)
    }

    /// The answer to a request that was carried out before.
    ///
    /// # Errors
    /// [`Error::KeyReused`] where its key was used for another one.
    pub async fn recall(&self, request: &Request) -> Result<Option<Outcome>, Error> {
        either!(self, store => store.recall(request).await)
    }

    /// What lies on the shelf, from memory: a hint, with the instant as of which it was so.
    pub fn shelf(&self) -> Arc<Shelf> {
        either!(self, store => store.shelf())
    }

    /// What lies on the shelf, read again.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn read_shelf(&self) -> Result<Arc<Shelf>, Error> {
        either!(self, store => store.read_shelf().await)
    }

    /// A reservation.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn reservation(&self, id: &ReservationId) -> Result<Option<Reservation>, Error> {
        either!(self, store => store.reservation(id).await)
    }

    /// Reservations, the latest first.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn reservations(&self, find: &FindReservations) -> Result<Vec<Reservation>, Error> {
        either!(self, store => store.reservations(find).await)
    }

    /// Pieces, in the order of their names.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn pieces(&self, find: &FindPieces) -> Result<Vec<Piece>, Error> {
        either!(self, store => store.pieces(find).await)
    }

    /// A piece.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn piece(&self, id: &PieceId) -> Result<Option<Piece>, Error> {
        either!(self, store => store.piece(id).await)
    }

    /// Movements of a piece, the first one first, at most so many after so many.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn movements(&self, piece: &PieceId, skip: u32, most: u32) -> Result<Vec<Movement>, Error> {
        either!(self, store => store.movements(piece, skip, most).await)
    }

    /// Cuts made for a reservation, the first one first.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn cuts(&self, reservation: &ReservationId) -> Result<Vec<CutRow>, Error> {
        either!(self, store => store.cuts(reservation).await)
    }

    /// A cut.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn cut(&self, id: &CutId) -> Result<Option<CutRow>, Error> {
        either!(self, store => store.cut(id).await)
    }

    /// Orders at suppliers, the latest first.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn orders(&self, open_only: bool, most: u32) -> Result<Vec<Order>, Error> {
        either!(self, store => store.orders(open_only, most).await)
    }

    /// How much of each material is still to come.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn on_order(&self) -> Result<Vec<(Material, Amount)>, Error> {
        either!(self, store => store.on_order().await)
    }

    /// Events after a place, in order.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn events(&self, after: i64, most: u32) -> Result<Vec<Placed>, Error> {
        either!(self, store => store.events(after, most).await)
    }

    /// The place of the last event that has one.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn last_place(&self) -> Result<i64, Error> {
        either!(self, store => store.last_place().await)
    }

    /// Waits until there may be events after a place, or for so long.
    pub async fn wait_for_events(&self, after: i64, most: std::time::Duration) {
        either!(self, store => store.wait_for_events(after, most).await);
    }

    /// Bench time booked by what is confirmed, whether cut or not, and leaves on a day or later
    /// or on no day that is known.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn bookings(&self, since: i32) -> Result<Vec<Booking>, Error> {
        either!(self, store => store.bookings(since).await)
    }

    /// What days did with the materials of a class, the first and the last of them among those, by
    /// code and day. Days on which nothing moved are not there.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn day_uses(&self, class: Class, from: i32, to: i32) -> Result<Vec<DaySum>, Error> {
        either!(self, store => store.day_uses(class, from, to).await)
    }

    /// The same for each dye lot, by code, lot and day.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn day_uses_by_lot(&self, class: Class, from: i32, to: i32) -> Result<Vec<RollUp>, Error> {
        either!(self, store => store.day_uses_by_lot(class, from, to).await)
    }

    /// The first day on which anything is known of a material.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn first_day(&self, material: &Material) -> Result<Option<i32>, Error> {
        either!(self, store => store.first_day(material).await)
    }

    /// How the shop stands with each material, as of one instant and read in one look. PostgreSQL
    /// judges holds by its own clock instead of the instant given.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn stand(&self, now: At) -> Result<Stand, Error> {
        either!(self, store => store.stand(now).await)
    }

    /// Adds up again what every day did, from movements, cuts and lines, and puts right whatever
    /// does not agree; how many days of lots that were.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn rebuild(&self) -> Result<u64, Error> {
        either!(self, store => store.rebuild().await)
    }

    /// Begins the report of a business day, or says whose it is. A run whose lease is over is taken
    /// over with its parts; one that has ended is begun anew where that is asked, and a report that
    /// was done is laid aside until the new one is.
    /// The instant is the caller's; PostgreSQL judges by its own clock instead, here and below.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_begin(&self, begin: Begin, now: At) -> Result<Begun, Error> {
        either!(self, store => store.report_begin(begin, now).await)
    }

    /// Keeps a part of a run and renews its lease; until when it now lasts.
    ///
    /// # Errors
    /// The store cannot be had. That the run is the runner's no longer is an answer.
    pub async fn report_step(&self, step: Step, now: At) -> Result<Result<At, Lost>, Error> {
        either!(self, store => store.report_step(step, now).await)
    }

    /// Keeps a run without a part for it, or hands it back to whoever asks next: of no seconds
    /// nothing is left.
    ///
    /// # Errors
    /// As [`Ledger::report_step`].
    pub async fn report_hold(
        &self,
        day: i32,
        runner: &str,
        seconds: i64,
        now: At,
    ) -> Result<Result<At, Lost>, Error> {
        either!(self, store => store.report_hold(day, runner, seconds, now).await)
    }

    /// Disowns a run that was begun more than a minute later than it is now, by a clock that was
    /// ahead: it counts as failed, and nothing of it is kept. Whether it was so.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_disown(&self, day: i32, note: &str, now: At) -> Result<bool, Error> {
        either!(self, store => store.report_disown(day, note, now).await)
    }

    /// Ends a run with its report, and lets go of one that was laid aside for it.
    ///
    /// # Errors
    /// As [`Ledger::report_step`].
    pub async fn report_finish(
        &self,
        day: i32,
        runner: &str,
        body: Vec<u8>,
        now: At,
    ) -> Result<Result<(), Lost>, Error> {
        either!(self, store => store.report_finish(day, runner, body, now).await)
    }

    /// Ends a run that cannot be done, and says why. Its parts stay until it is begun anew.
    ///
    /// # Errors
    /// As [`Ledger::report_step`].
    pub async fn report_fail(
        &self,
        day: i32,
        runner: &str,
        note: &str,
        now: At,
    ) -> Result<Result<(), Lost>, Error> {
        either!(self, store => store.report_fail(day, runner, note, now).await)
    }

    /// Calls a run off. How it stood before: only one that was running is cancelled now, others
    /// stay as they are; none where there is no run of that day.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_cancel(&self, day: i32, by: &str, now: At) -> Result<Option<ReportState>, Error> {
        either!(self, store => store.report_cancel(day, by, now).await)
    }

    /// A run, with its report and its parts.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_get(&self, day: i32) -> Result<Option<Report>, Error> {
        either!(self, store => store.report_get(day).await)
    }

    /// Runs of some days, the first and the last of them among those, the latest first.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_list(&self, from: i32, to: i32, most: u32) -> Result<Vec<ReportHead>, Error> {
        either!(self, store => store.report_list(from, to, most).await)
    }

    /// The last run of a day before of which there is a report that is done: its own, or the one
    /// that is laid aside.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_last_done(&self, before: i32) -> Result<Option<Report>, Error> {
        either!(self, store => store.report_last_done(before).await)
    }

    /// Whether the store can be had.
    ///
    /// # Errors
    /// It cannot.
    pub async fn ready(&self) -> Result<(), Error> {
        either!(self, store => store.ready().await)
    }

    /// Recomputes every balance from the movements, and names whatever does not agree.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn verify(&self) -> Result<Verified, Error> {
        either!(self, store => store.verify().await)
    }

    /// Copies the embedded store, as of one instant, into a file that is not there yet.
    ///
    /// # Errors
    /// The file cannot be written, or the store is a database that has means of its own.
    pub async fn backup(&self, to: &Path) -> Result<(), Error> {
        match self {
            Ledger::Sqlite(store) => store.backup(to).await,
            Ledger::Postgres(_) => Err(Error::Unfit(
                "the stock is in PostgreSQL, which is backed up by its own means, such as pg_dump".to_owned(),
            )),
        }
    }

    /// Finishes what is begun and lets go of the store.
    pub async fn close(&self) {
        either!(self, store => store.close().await);
    }
}
