//! What is around every call of stock: who asks, the request it may be a repeat of, and the
//! board that quotes look at.

use std::collections::BTreeMap;
use std::net::IpAddr;
use std::sync::Arc;
use std::time::{Duration, Instant};

use hmac::Mac;
use jiff::Timestamp;
use pennantry_app::Catalogue;
use pennantry_app::stock::{Envelope, Stock, at};
use pennantry_contract::v1;
use pennantry_ledger::rules::{
    Class, Command, Outcome, Piece, PieceId, Promise, Request, Reservation, ReservationId,
};
use pennantry_ledger::shelf::Shelf;
use pennantry_ledger::{Applied, Error, Ledger};
use prost::Message;
use sha2::{Digest, Sha256};

use super::{Caller, Door, Service};
use crate::convert::stock::reservation::{STAFF, Telling, write};
use crate::convert::stock::{refused, write as told};
use crate::failure::Failure;
use crate::names;

/// Goes before an address into the name of its holder.
const HOLDER: &[u8] = b"pennantry holder 1\n";

/// How much earlier than its caller's the ledger's time ends, at most.
const EARLIER: Duration = Duration::from_millis(400);

/// A call under way.
pub(super) struct Call<'a> {
    pub service: &'a Service,
    pub stock: &'a Stock,
    pub caller: &'a Caller,
    pub catalogue: Arc<Catalogue>,
    pub envelope: Envelope,
    /// Who holds what the call takes.
    pub holder: String,
}

/// What a change came to, and whether that is the first answer to a repeat.
pub(super) struct Done {
    pub outcome: Outcome,
    pub replayed: bool,
}

impl From<Applied> for Done {
    fn from(applied: Applied) -> Done {
        Done { outcome: applied.outcome, replayed: applied.replayed }
    }
}

impl Service {
    /// Begins a call. `body` is what was asked without its id, which `key` is; an empty one is
    /// none.
    pub(super) fn call<'a>(
        &'a self,
        caller: &'a Caller,
        rpc: &str,
        key: &str,
        body: &impl Message,
    ) -> Result<Call<'a>, Failure> {
        let stock = self.stock()?;
        let now = self.clock.now();
        let holder = match caller.door {
            Door::Private => STAFF.to_owned(),
            Door::Public => self.holder(caller.address)?,
        };
        let request = (!key.is_empty()).then(|| Request {
            scope: match caller.door {
                Door::Private => format!("private/{}/{rpc}", caller.actor),
                Door::Public => format!("public/{holder}/{rpc}"),
            },
            key: key.to_owned(),
            body: Sha256::digest(body.encode_to_vec()).into(),
        });
        let envelope = Envelope {
            change: names::change(now),
            now,
            actor: caller.actor.clone(),
            request,
            deadline: caller.deadline.map(a_little_earlier),
        };
        Ok(Call { service: self, stock, caller, catalogue: self.catalogue(), envelope, holder })
    }

    /// The holder behind an address, without saying it: a seal of it by the oldest key, which stays what
    /// it is when a new one is made, so that a request sent again after that is still the same one. Of
    /// an address of 128 bits the first half counts, which is what one household has.
    fn holder(&self, address: Option<IpAddr>) -> Result<String, Failure> {
        let keys = self.keys();
        let key = keys.oldest().ok_or_else(|| Failure::internal("there is no key"))?;
        let mut mac = key.mac();
        mac.update(HOLDER);
        match address.map(|address| address.to_canonical()) {
            Some(IpAddr::V4(address)) => mac.update(&address.octets()),
            Some(IpAddr::V6(address)) => {
                mac.update(address.octets().first_chunk::<8>().map_or(&[], <[u8; 8]>::as_slice));
            }
            None => {}
        }
        let seal = mac.finalize().into_bytes();
        Ok(format!("public-{}", crate::ticket::hexadecimal(seal.into_iter().take(10))))
    }
}

/// The ledger's deadline: a little before the caller's, so that what it says of a request that is
/// being carried out, or that there was no time, still comes while somebody listens.
fn a_little_earlier(deadline: Instant) -> Instant {
    let left = deadline.saturating_duration_since(Instant::now());
    deadline.checked_sub((left / 5).min(EARLIER)).unwrap_or(deadline)
}

impl Call<'_> {
    /// The instant.
    pub fn now(&self) -> Timestamp {
        self.envelope.now
    }

    /// A failure of the ledger at this call's door.
    pub fn failed(&self, error: &Error) -> Failure {
        refused::error(error, self.caller.door)
    }

    /// The first answer, where this is a repeat.
    pub async fn recall(&self) -> Result<Option<Done>, Failure> {
        let Some(request) = &self.envelope.request else { return Ok(None) };
        let found = self.stock.ledger.recall(request).await.map_err(|error| self.failed(&error))?;
        Ok(found.map(|outcome| Done { outcome, replayed: true }))
    }

    /// The first answer, where this is a repeat of something that would be refused today; otherwise
    /// why it is.
    pub async fn recall_or(&self, refused: Failure) -> Result<Done, Failure> {
        self.recall().await?.ok_or(refused)
    }

    /// Carries a command out.
    pub async fn apply(&self, command: Command) -> Result<Done, Failure> {
        let applied = self.stock.apply(&self.catalogue, &self.envelope, command).await;
        applied.map(Done::from).map_err(|error| self.failed(&error))
    }

    /// Keeps what quotes look at fresh. The change is made whatever comes of it.
    pub async fn refresh(&self) {
        if let Err(error) = self.stock.refresh(&self.catalogue, self.now()).await {
            tracing::warn!(%error, "what quotes look at could not be read anew");
        }
    }

    /// A piece that must be there.
    pub async fn piece(&self, id: &str) -> Result<Piece, Failure> {
        let id = PieceId::from(id);
        let found = self.stock.ledger.piece(&id).await.map_err(|error| self.failed(&error))?;
        found.ok_or_else(|| self.failed(&Error::Refused(pennantry_ledger::rules::Refusal::NoPiece(id))))
    }

    /// A reservation that must be there.
    pub async fn reservation(&self, id: &str) -> Result<Reservation, Failure> {
        let id = ReservationId::from(id);
        let found = self.stock.ledger.reservation(&id).await.map_err(|error| self.failed(&error))?;
        found.ok_or_else(|| self.failed(&Error::Refused(pennantry_ledger::rules::Refusal::NoReservation(id))))
    }

    /// The pieces of some names, those that are there.
    pub async fn pieces<'b>(
        &self,
        ids: impl Iterator<Item = &'b PieceId>,
    ) -> Result<BTreeMap<PieceId, Piece>, Failure> {
        let mut pieces = BTreeMap::new();
        for id in ids {
            if !pieces.contains_key(id)
                && let Some(piece) = self.stock.ledger.piece(id).await.map_err(|error| self.failed(&error))?
            {
                pieces.insert(id.clone(), piece);
            }
        }
        Ok(pieces)
    }

    /// A reservation told at this call's door.
    pub async fn told(
        &self,
        reservation: &Reservation,
        done: Option<&Done>,
    ) -> Result<v1::Reservation, Failure> {
        let pieces = match self.caller.door {
            Door::Public => BTreeMap::new(),
            Door::Private => self.pieces(reservation.lines.iter().map(|line| &line.piece)).await?,
        };
        Ok(self.told_with(reservation, &pieces, done))
    }

    /// The same, of pieces that are known.
    pub fn told_with(
        &self,
        reservation: &Reservation,
        pieces: &BTreeMap<PieceId, Piece>,
        done: Option<&Done>,
    ) -> v1::Reservation {
        let at = done.map_or_else(|| at(self.now()), |done| done.outcome.at);
        let telling = Telling { door: self.caller.door, holds: &self.stock.holds, at, pieces };
        write(reservation, &telling, done.is_some_and(|done| done.replayed))
    }

    /// The reservation of an outcome.
    pub async fn outcome(&self, done: &Done) -> Result<Option<v1::Reservation>, Failure> {
        match &done.outcome.reservation {
            Some(reservation) => self.told(reservation, Some(done)).await.map(Some),
            None => Err(Failure::internal("a change of a reservation without one")),
        }
    }

    /// Promises as they changed.
    pub async fn promises(&self, promises: &[Promise]) -> Result<Vec<v1::PromiseChange>, Failure> {
        let pieces = self.pieces(promises.iter().map(|promise| &promise.piece)).await?;
        let of = |id: &PieceId| -> Option<(Class, String)> {
            pieces.get(id).map(|piece| (piece.material.class, piece.material.code.clone()))
        };
        Ok(promises.iter().map(|promise| told::promise(promise, of)).collect())
    }

    /// Pieces that would make short promises good.
    pub async fn proposals(&self, promises: &[Promise]) -> Result<Vec<v1::Proposal>, Failure> {
        let short: Vec<Promise> =
            promises.iter().filter(|promise| promise.short.is_some()).cloned().collect();
        if short.is_empty() {
            return Ok(Vec::new());
        }
        let mut reservations: Vec<Reservation> = Vec::new();
        for promise in &short {
            if !reservations.iter().any(|known| known.id == promise.reservation) {
                reservations.push(self.reservation(promise.reservation.as_str()).await?);
            }
        }
        let pieces = self.pieces(short.iter().map(|promise| &promise.piece)).await?;
        let lacking =
            pieces.iter().map(|(id, piece)| (id.clone(), pennantry_app::stock::lacking(piece))).collect();
        let shelf = self.shelf().await?;
        let found = pennantry_app::stock::proposals(&shelf, at(self.now()), &short, &reservations, &lacking);
        Ok(found.iter().map(told::proposal).collect())
    }

    /// The shelf as it is now. That of an embedded store is up to date in memory before a
    /// change is answered; one that servers share is read anew.
    pub async fn shelf(&self) -> Result<Arc<Shelf>, Failure> {
        if let Ledger::Sqlite(store) = &self.stock.ledger {
            return Ok(store.shelf());
        }
        self.stock.ledger.read_shelf().await.map_err(|error| self.failed(&error))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ledgers_time_ends_before_its_callers() {
        for (patience, earlier) in [(5_000, 400), (1_000, 200), (100, 20)] {
            let deadline = Instant::now() + Duration::from_millis(patience);
            let less = deadline.duration_since(a_little_earlier(deadline));
            let most = Duration::from_millis(earlier);
            assert!(less <= most && less + Duration::from_millis(20) > most, "{less:?} of {patience} ms");
        }
        let over = Instant::now();
        assert_eq!(a_little_earlier(over), over);
    }
}
