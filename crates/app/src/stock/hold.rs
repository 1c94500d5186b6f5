//! Taking what an order needs for a buyer.
//!
//! The first plan is made on the shelf in memory. Where that does not have everything it may be
//! old, so the shelf is read; where what was planned is taken by the time it is reserved,
//! somebody was quicker, and the shelf is read and planned anew, up to [`TRIES`] times in
//! all. A piece that does not give what the plan wants of it although the shelf has not changed, as
//! a flawed one may, counts with what the refusal says one cut can have.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::time::Instant;

use jiff::Timestamp;
use pennantry_ledger::rules::{
    Amount, ChangeId, Command, NewLine, PieceId, Refusal, Request, Reservation, ReservationId, Reserve,
};
use pennantry_ledger::shelf::Shelf;
use pennantry_ledger::{Applied, Error, Ledger, rules};

use super::needs::{Charged, Item, needs};
use super::plan::{Look, Plan, plan, without};
use super::{Stock, at, expected};
use crate::quote::Answer;
use crate::{Catalogue, day};

/// How often a plan is made and tried.
pub const TRIES: u32 = 5;

/// What is around every change.
#[derive(Debug, Clone)]
pub struct Envelope {
    /// Name of the change.
    pub change: ChangeId,
    /// The instant.
    pub now: Timestamp,
    /// Who asks, for the record.
    pub actor: String,
    /// The request it came in, where it may come again.
    pub request: Option<Request>,
    /// Until when the caller waits.
    pub deadline: Option<Instant>,
}

impl Envelope {
    /// The shop's day, numbered.
    pub fn day(&self, catalogue: &Catalogue) -> i32 {
        day(catalogue.order_day(self.now)).0
    }
}

/// A hold that is wanted.
pub struct Hold<'a> {
    /// Name of the reservation.
    pub id: ReservationId,
    /// Who takes it.
    pub holder: String,
    /// Most live holds of that holder.
    pub most_holds: Option<u32>,
    /// For how many seconds.
    pub seconds: i64,
    /// Identity of the quote.
    pub quote: String,
    /// Day on which it was promised to leave.
    pub leave_day: Option<i32>,
    /// A hold whose place it takes.
    pub supersedes: Option<ReservationId>,
    /// What was charged of each material when it was sold.
    pub charged: &'a [Charged],
    /// What is sold, from what it is taken from.
    pub sold: &'a (dyn Fn(&Plan) -> Vec<u8> + Sync),
}

/// Why nothing is held.
#[derive(Debug)]
pub enum HoldError {
    /// The ledger refuses it, or cannot be had.
    Ledger(Error),
    /// The shelf does not have all of it; the day on which it is expected to, if one is.
    Missing(Box<Plan>, Option<i32>),
    /// Somebody else was quicker each time it was tried.
    Overtaken,
}

impl From<Error> for HoldError {
    fn from(error: Error) -> HoldError {
        HoldError::Ledger(error)
    }
}

impl Stock {
    /// Carries a command out.
    ///
    /// # Errors
    /// As [`pennantry_ledger::Ledger::apply`].
    pub async fn apply(
        &self,
        catalogue: &Catalogue,
        envelope: &Envelope,
        command: Command,
    ) -> Result<Applied, Error> {
        let day = envelope.day(catalogue);
        let asked = rules::Envelope {
            id: envelope.change,
            at: at(envelope.now),
            day,
            actor: envelope.actor.clone(),
            request: envelope.request.clone(),
            command,
        };
        self.ledger.apply(asked, envelope.deadline).await
    }

    /// Takes what an order needs.
    ///
    /// # Errors
    /// See [`HoldError`].
    pub async fn hold(
        &self,
        catalogue: &Catalogue,
        answer: &Answer,
        hold: &Hold<'_>,
        envelope: &Envelope,
    ) -> Result<Applied, HoldError> {
        let before = match &hold.supersedes {
            Some(id) => self.ledger.reservation(id).await?,
            None => None,
        };
        let items = needs(&catalogue.shop, &answer.order, &answer.quote.worked);
        let wanted =
            Wanted { items: &items, charged: hold.charged, frees: before.as_ref().map(|r| (r, all(r))) };
        self.taken(catalogue, &wanted, envelope, |plan, lines| {
            Command::Reserve(Reserve {
                id: hold.id.clone(),
                holder: hold.holder.clone(),
                most_holds: hold.most_holds,
                seconds: hold.seconds,
                quote: hold.quote.clone(),
                bench_milli_minutes: answer.quote.worked.labour.total.milli_minutes(),
                leave_day: hold.leave_day,
                sold: (hold.sold)(plan),
                lines,
                supersedes: hold.supersedes.clone(),
            })
        })
        .await
    }

    /// Plans, tries, and plans again.
    pub(super) async fn taken(
        &self,
        catalogue: &Catalogue,
        wanted: &Wanted<'_>,
        envelope: &Envelope,
        command: impl Fn(&Plan, Vec<NewLine>) -> Command,
    ) -> Result<Applied, HoldError> {
        self.learn(wanted.items.iter().map(|item| &item.material)).await?;
        let mut shelf = self.ledger.shelf();
        // an embedded store's is up to date
        let mut read = matches!(self.ledger, Ledger::Sqlite(_));
        let mut caps: BTreeMap<PieceId, Amount> = BTreeMap::new();
        let mut last: Vec<NewLine> = Vec::new();
        let mut tries = 0;
        loop {
            let planned = self.planned(wanted, &shelf, envelope.now, &caps)?;
            if !planned.is_whole() && !read {
                // the shelf in memory may be old
                shelf = self.ledger.read_shelf().await?;
                read = true;
                continue;
            }
            if !planned.is_whole() {
                // when more is expected is a hint: what is missing is told without it
                if let Err(error) = self.refresh(catalogue, envelope.now).await {
                    tracing::warn!(%error, "what is on order could not be read anew");
                }
                let day = expected(&planned, &self.board().orders, envelope.day(catalogue));
                return Err(HoldError::Missing(Box::new(planned), day));
            }
            let lines = planned.lines();
            let same = lines == last;
            last.clone_from(&lines);
            match self.apply(catalogue, envelope, command(&planned, lines)).await {
                Err(Error::Refused(Refusal::Taken(short))) if tries + 1 < TRIES => {
                    tries += 1;
                    shelf = self.ledger.read_shelf().await?;
                    read = true;
                    if same {
                        caps.extend(short.into_iter().map(|short| (short.piece, short.free)));
                    }
                }
                Err(Error::Refused(Refusal::Taken(_))) => return Err(HoldError::Overtaken),
                other => return Ok(other?),
            }
        }
    }

    fn planned(
        &self,
        wanted: &Wanted<'_>,
        shelf: &Arc<Shelf>,
        now: Timestamp,
        caps: &BTreeMap<PieceId, Amount>,
    ) -> Result<Plan, HoldError> {
        let freed;
        let shelf: &Shelf = match &wanted.frees {
            Some((reservation, lines)) => {
                freed = without(shelf, reservation, lines);
                &freed
            }
            None => shelf,
        };
        let board = self.board();
        let look = Look { shelf, now: at(now), kept: &board.kept, caps };
        plan(wanted.items, wanted.charged, &look)
            .map_err(|fault| HoldError::Ledger(Error::Fault(fault.to_string())))
    }
}

/// What is to be taken.
pub(super) struct Wanted<'a> {
    /// Item by item.
    pub items: &'a [Item],
    /// What was charged when it was sold.
    pub charged: &'a [Charged],
    /// Lines of a reservation whose cloth may be used.
    pub frees: Option<(&'a Reservation, Vec<u32>)>,
}

/// Numbers of all lines.
pub(super) fn all(reservation: &Reservation) -> Vec<u32> {
    reservation.lines.iter().map(|line| line.number).collect()
}
