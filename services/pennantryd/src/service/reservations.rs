//! The calls of reservations.

use std::collections::BTreeMap;

use pennantry_app::stock::{AmendError, Anew, AnewSale, Hold, HoldError};
use pennantry_contract::reasons::{Kind, ViolationReason};
use pennantry_contract::v1;
use pennantry_ledger::FindReservations;
use pennantry_ledger::rules::{
    Cancel, Command, Confirm, Extend, Piece, PieceId, Release, Reservation, ReservationId,
};

use super::around::{Call, Done};
use super::{Caller, Door, Service};
use crate::convert::stock::facts::named;
use crate::convert::stock::sold::{self, Selling, Sold};
use crate::convert::stock::{hold, refused, shelf};
use crate::failure::{Failure, violation};
use crate::names;

impl Call<'_> {
    fn failed_hold(&self, error: &HoldError) -> Failure {
        match error {
            HoldError::Ledger(error) => self.failed(error),
            HoldError::Missing(plan, day) => shelf::missing(plan, *day, self.caller.door),
            HoldError::Overtaken => refused::overtaken(),
        }
    }
}

impl Service {
    /// Takes from the shelf what a quote needs.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn create_reservation(
        &self,
        caller: &Caller,
        request: &v1::CreateReservationRequest,
    ) -> Result<v1::CreateReservationResponse, Failure> {
        let body = v1::CreateReservationRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "CreateReservation", &request.request_id, &body)?;
        let wire = request.hold.clone().unwrap_or_default();
        let asked = hold::hold(caller.door, &call.stock.holds, &request.request_id, &wire)?;
        let done = match call.recall().await? {
            Some(done) => done,
            None => call.hold(&wire.token, asked).await?,
        };
        Ok(v1::CreateReservationResponse { reservation: call.outcome(&done).await? })
    }

    /// Gives a reservation.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn get_reservation(
        &self,
        caller: &Caller,
        request: &v1::GetReservationRequest,
    ) -> Result<v1::GetReservationResponse, Failure> {
        let call = self.call(caller, "GetReservation", "", request)?;
        let id = named("reservationId", &request.reservation_id, "the reservation")?;
        let found = call.reservation(&id).await?;
        Ok(v1::GetReservationResponse { reservation: Some(call.told(&found, None).await?) })
    }

    /// Gives a hold more time.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn extend_reservation(
        &self,
        caller: &Caller,
        request: &v1::ExtendReservationRequest,
    ) -> Result<v1::ExtendReservationResponse, Failure> {
        let body = v1::ExtendReservationRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "ExtendReservation", &request.request_id, &body)?;
        let (id, seconds) = hold::extension(caller.door, &call.stock.holds, request)?;
        let most = match caller.door {
            Door::Public => call.stock.holds.public_total,
            Door::Private => call.stock.holds.staff_total,
        };
        let command = Command::Extend(Extend {
            id: ReservationId(id),
            seconds: i64::from(seconds),
            most_seconds: i64::from(most),
        });
        let done = call.apply(command).await?;
        Ok(v1::ExtendReservationResponse { reservation: call.outcome(&done).await? })
    }

    /// Makes a hold a promise.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn confirm_reservation(
        &self,
        caller: &Caller,
        request: &v1::ConfirmReservationRequest,
    ) -> Result<v1::ConfirmReservationResponse, Failure> {
        let body = v1::ConfirmReservationRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "ConfirmReservation", &request.request_id, &body)?;
        let (id, order_reference) = hold::confirmation(request)?;
        let done = call.apply(Command::Confirm(Confirm { id: ReservationId(id), order_reference })).await?;
        call.refresh().await;
        Ok(v1::ConfirmReservationResponse { reservation: call.outcome(&done).await? })
    }

    /// Lets a hold go.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn release_reservation(
        &self,
        caller: &Caller,
        request: &v1::ReleaseReservationRequest,
    ) -> Result<v1::ReleaseReservationResponse, Failure> {
        let body = v1::ReleaseReservationRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "ReleaseReservation", &request.request_id, &body)?;
        let id = named("reservationId", &request.reservation_id, "the reservation")?;
        crate::convert::stock::facts::request_id(&request.request_id)?;
        let done = call.apply(Command::Release(Release { id: ReservationId(id) })).await?;
        Ok(v1::ReleaseReservationResponse { reservation: call.outcome(&done).await? })
    }

    /// Calls a reservation off.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn cancel_reservation(
        &self,
        caller: &Caller,
        request: &v1::CancelReservationRequest,
    ) -> Result<v1::CancelReservationResponse, Failure> {
        let body = v1::CancelReservationRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "CancelReservation", &request.request_id, &body)?;
        let (id, reason) = hold::cancellation(request)?;
        let done = call.apply(Command::Cancel(Cancel { id: ReservationId(id), reason })).await?;
        call.refresh().await;
        Ok(v1::CancelReservationResponse { reservation: call.outcome(&done).await? })
    }

    /// Plans a reservation anew.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn amend_reservation(
        &self,
        caller: &Caller,
        request: &v1::AmendReservationRequest,
    ) -> Result<v1::AmendReservationResponse, Failure> {
        let body = v1::AmendReservationRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "AmendReservation", &request.request_id, &body)?;
        let asked = hold::amendment(request)?;
        let done = match call.recall().await? {
            Some(done) => done,
            None => call.amend(&request.token, &asked).await?,
        };
        call.refresh().await;
        Ok(v1::AmendReservationResponse { reservation: call.outcome(&done).await? })
    }

    /// Lists reservations.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn list_reservations(
        &self,
        caller: &Caller,
        request: &v1::ListReservationsRequest,
    ) -> Result<v1::ListReservationsResponse, Failure> {
        let call = self.call(caller, "ListReservations", "", request)?;
        let (states, size) = hold::listed(request)?;
        let after = match request.page_token.as_str() {
            "" => None,
            token => Some(call.page(token).await?),
        };
        let find = FindReservations {
            states,
            short_only: request.short_only,
            piece: None,
            after,
            most: size.saturating_add(1),
        };
        let mut found = call.stock.ledger.reservations(&find).await.map_err(|error| call.failed(&error))?;
        let size = usize::try_from(size).unwrap_or(usize::MAX);
        let more = found.len() > size;
        found.truncate(size);
        let next_page_token =
            found.last().filter(|_| more).map(|last| last.id.to_string()).unwrap_or_default();
        let pieces = call.all_pieces(&found).await?;
        let reservations = found.iter().map(|found| call.told_with(found, &pieces, None)).collect();
        Ok(v1::ListReservationsResponse { reservations, next_page_token })
    }
}

impl Call<'_> {
    async fn hold(&self, token: &str, asked: hold::Asked) -> Result<Done, Failure> {
        let booked = self.service.booked(&self.catalogue, self.now());
        let keys = self.service.keys();
        let selling = Selling {
            catalogue: &self.catalogue,
            booked: &booked,
            keys: &keys,
            door: self.caller.door,
            now: self.now(),
        };
        let sale = sold::sale(&selling, token, &asked.acknowledged, &asked.over)?;
        let hold = Hold {
            id: ReservationId(names::secret()?),
            holder: self.holder.clone(),
            most_holds: (self.caller.door == Door::Public).then_some(self.stock.holds.open),
            seconds: i64::from(asked.seconds),
            quote: sale.quote_id.clone(),
            leave_day: sale.leave_day,
            supersedes: asked.supersedes.map(ReservationId),
            charged: &sale.charged,
            sold: &|plan| sale.sold(plan),
        };
        let held = self.stock.hold(&self.catalogue, &sale.answer, &hold, &self.envelope).await;
        held.map(Done::from).map_err(|error| self.failed_hold(&error))
    }

    async fn amend(&self, token: &str, asked: &hold::Amended) -> Result<Done, Failure> {
        let is = self.reservation(&asked.id).await?;
        let booked = self.service.booked(&self.catalogue, self.now());
        let keys = self.service.keys();
        let selling = Selling {
            catalogue: &self.catalogue,
            booked: &booked,
            keys: &keys,
            door: self.caller.door,
            now: self.now(),
        };
        let sale = match token {
            "" => None,
            token => Some(sold::sale(&selling, token, &asked.acknowledged, &asked.over)?),
        };
        let was = match sale {
            Some(_) => None,
            None => sold::again(&selling, &Sold::read(&is.sold)),
        };
        let keep = |plan: &_| sale.as_ref().map_or_else(Vec::new, |sale| sale.sold(plan));
        let anew = Anew {
            id: is.id,
            reason: asked.reason.clone(),
            was: was.as_ref(),
            sale: sale.as_ref().map(|sale| AnewSale {
                answer: &sale.answer,
                quote: sale.quote_id.clone(),
                leave_day: sale.leave_day,
                charged: &sale.charged,
                sold: &keep,
            }),
        };
        let amended = self.stock.amend(&self.catalogue, &anew, &self.envelope).await;
        amended.map(Done::from).map_err(|error| match &error {
            AmendError::Hold(error) => self.failed_hold(error),
            other => shelf::not_amended(&self.catalogue, other)
                .unwrap_or_else(|| Failure::internal("an amendment failed without a word")),
        })
    }

    /// The reservation that a page goes on from.
    async fn page(&self, token: &str) -> Result<ReservationId, Failure> {
        match self.reservation(token).await {
            Ok(found) => Ok(found.id),
            Err(failure) if failure.kind == Kind::NotFound => {
                let message =
                    "there is no such page: give the token of the page before, or leave it out".to_owned();
                Err(Failure::refused(vec![violation("pageToken", ViolationReason::UnknownValue, message)]))
            }
            Err(failure) => Err(failure),
        }
    }

    /// The pieces of many reservations: off the shelf in memory, and one by one where they are
    /// used up.
    pub(super) async fn all_pieces(&self, of: &[Reservation]) -> Result<BTreeMap<PieceId, Piece>, Failure> {
        if of.is_empty() {
            return Ok(BTreeMap::new());
        }
        let shelf = self.stock.ledger.shelf();
        let lying: BTreeMap<&PieceId, &Piece> = shelf
            .materials
            .values()
            .flat_map(|pieces| pieces.iter())
            .map(|on_shelf| (&on_shelf.piece.id, &on_shelf.piece))
            .collect();
        let mut found = BTreeMap::new();
        for line in of.iter().flat_map(|reservation| &reservation.lines) {
            if found.contains_key(&line.piece) {
                continue;
            }
            let piece = match lying.get(&line.piece) {
                Some(piece) => Some(Piece::clone(piece)),
                None => self.stock.ledger.piece(&line.piece).await.map_err(|error| self.failed(&error))?,
            };
            found.extend(piece.map(|piece| (line.piece.clone(), piece)));
        }
        Ok(found)
    }
}
