//! The calls of the stock.

use std::collections::BTreeSet;

use pennantry_app::day;
use pennantry_app::stock::at;
use pennantry_contract::v1;
use pennantry_ledger::rules::{
    CancelOrder, Command, Cut, Material, OrderId, PieceId, Place, Receive, Refusal, ReservationId, Undo,
};
use pennantry_ledger::{Error, FindPieces, FindReservations};

use super::around::{Call, Done};
use super::reports::optional;
use super::{Caller, Service};
use crate::convert::length::write as mm;
use crate::convert::stock::cuts::{self, CutOf, Judged};
use crate::convert::stock::facts::{self, named};
use crate::convert::stock::{goods, hold, write};
use crate::failure::{Failure, violation};
use crate::names;

/// Movements that are given of a piece.
const MOVEMENTS: u32 = 1_000;
/// Reservations that are given of a piece.
const PROMISED: u32 = 200;
/// Orders that are given.
const ORDERS: u32 = 500;
/// How often new labels are made where they are taken.
const TRIES: u32 = 5;

impl Service {
    /// Puts pieces on the shelf.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn receive_stock(
        &self,
        caller: &Caller,
        request: &v1::ReceiveStockRequest,
    ) -> Result<v1::ReceiveStockResponse, Failure> {
        let body = v1::ReceiveStockRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "ReceiveStock", &request.request_id, &body)?;
        let done = match facts::receive(&call.catalogue, request) {
            Ok((receive, made)) => call.receive(receive, &made).await?,
            Err(refused) => call.recall_or(refused).await?,
        };
        call.refresh().await;
        Ok(v1::ReceiveStockResponse {
            piece_ids: done.outcome.received.iter().map(ToString::to_string).collect(),
            order: done.outcome.order.as_ref().map(|order| write::order(order, call.today())),
            replayed: done.replayed,
            promises: call.promises(&done.outcome.promises).await?,
        })
    }

    /// Looks pieces through that are to be received.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn check_delivery(
        &self,
        caller: &Caller,
        request: &v1::CheckDeliveryRequest,
    ) -> Result<v1::CheckDeliveryResponse, Failure> {
        let call = self.call(caller, "CheckDelivery", "", request)?;
        let looked = facts::check(&call.catalogue, request)?;
        let there = call.pieces(looked.iter().filter_map(|(label, _)| label.as_ref())).await?;
        let mut violations = Vec::new();
        for (place, (label, found)) in looked.into_iter().enumerate() {
            violations.extend(found);
            let taken = label.filter(|label| there.contains_key(label));
            violations.extend(taken.map(|label| facts::is_taken(place, &label)));
        }
        Ok(v1::CheckDeliveryResponse { violations })
    }

    /// Records what is so with a piece.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn adjust_stock(
        &self,
        caller: &Caller,
        request: &v1::AdjustStockRequest,
    ) -> Result<v1::AdjustStockResponse, Failure> {
        let body = v1::AdjustStockRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "AdjustStock", &request.request_id, &body)?;
        facts::request_id(&request.request_id)?;
        let id = named("pieceId", &request.piece_id, "the piece")?;
        let done = if let Some(done) = call.recall().await? {
            done
        } else {
            let piece = call.piece(&id).await?;
            call.apply(Command::Adjust(facts::adjust(&piece, request)?)).await?
        };
        let shelf = call.shelf().await?;
        let piece = done.outcome.pieces.first();
        Ok(v1::AdjustStockResponse {
            piece: piece.map(|piece| write::piece(&call.catalogue, piece, &shelf, at(call.now()))),
            promises: call.promises(&done.outcome.promises).await?,
            proposals: call.proposals(&done.outcome.promises).await?,
            replayed: done.replayed,
        })
    }

    /// Lists pieces.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn list_stock(
        &self,
        caller: &Caller,
        request: &v1::ListStockRequest,
    ) -> Result<v1::ListStockResponse, Failure> {
        let call = self.call(caller, "ListStock", "", request)?;
        let size = hold::listed_pieces(request)?;
        let shelf = call.shelf().await?;
        let material = match request.code.as_str() {
            "" => None,
            code => Some(call.material(code, shelf.materials.keys())?),
        };
        let find = FindPieces {
            material,
            lot: (!request.lot.is_empty()).then(|| request.lot.clone()),
            empty_too: request.empty_too,
            after: (!request.page_token.is_empty()).then(|| request.page_token.as_str().into()),
            most: size.saturating_add(1),
        };
        let mut found = call.stock.ledger.pieces(&find).await.map_err(|error| call.failed(&error))?;
        let size = usize::try_from(size).unwrap_or(usize::MAX);
        let more = found.len() > size;
        found.truncate(size);
        let next_page_token =
            found.last().filter(|_| more).map(|last| last.id.to_string()).unwrap_or_default();
        let told = |piece| write::piece(&call.catalogue, piece, &shelf, at(call.now()));
        Ok(v1::ListStockResponse {
            pieces: found.iter().map(told).collect(),
            next_page_token,
            as_of: call.now().to_string(),
        })
    }

    /// Gives a piece and its history.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn get_piece(
        &self,
        caller: &Caller,
        request: &v1::GetPieceRequest,
    ) -> Result<v1::GetPieceResponse, Failure> {
        let call = self.call(caller, "GetPiece", "", request)?;
        let id = named("pieceId", &request.piece_id, "the piece")?;
        let piece = call.piece(&id).await?;
        let shelf = call.shelf().await?;
        let find =
            FindReservations { piece: Some(piece.id.clone()), most: PROMISED, ..FindReservations::default() };
        let ledger = &call.stock.ledger;
        let promised = ledger.reservations(&find).await.map_err(|error| call.failed(&error))?;
        let movements =
            ledger.movements(&piece.id, 0, MOVEMENTS).await.map_err(|error| call.failed(&error))?;
        let now = at(call.now());
        let live: Vec<_> = promised.into_iter().filter(|promised| !promised.is_overdue(now)).collect();
        let pieces = call.all_pieces(&live).await?;
        let reservations = live.iter().map(|promised| call.told_with(promised, &pieces, None)).collect();
        let class = piece.material.class;
        Ok(v1::GetPieceResponse {
            piece: Some(write::piece(&call.catalogue, &piece, &shelf, now)),
            reservations,
            movements: movements.iter().map(|moved| write::movement(class, moved)).collect(),
        })
    }

    /// Records what the bench has cut.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn record_cut(
        &self,
        caller: &Caller,
        request: &v1::RecordCutRequest,
    ) -> Result<v1::RecordCutResponse, Failure> {
        let body = v1::RecordCutRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "RecordCut", &request.request_id, &body)?;
        facts::request_id(&request.request_id)?;
        let id = named("reservationId", &request.reservation_id, "the reservation")?;
        let on = optional("cutDate", &request.cut_date)?;
        let recalled = call.recall().await?;
        let reservation = call.reservation(&id).await?;
        let named = request.parts.iter().filter(|part| !part.piece_id.is_empty());
        let mut named: Vec<PieceId> = named.map(|part| part.piece_id.as_str().into()).collect();
        named.extend(recalled.iter().flat_map(|done| &done.outcome.received).cloned());
        let pieces = call.pieces(reservation.lines.iter().map(|line| &line.piece).chain(&named)).await?;
        let of = CutOf { reservation: &reservation, pieces: &pieces };
        // what was recorded is not judged again by what the shop sells today
        let (done, judged) = if let Some(done) = recalled {
            let judged = cuts::again(&call.catalogue, &of, request, &done.outcome.received);
            (done, judged)
        } else {
            let (parts, judged) = cuts::parts(&call.catalogue, &of, request)?;
            if let Some(on) = on {
                cuts::on(on, call.today())?;
            }
            let cut = Cut { id: cuts::new_cut()?, reservation: ReservationId(id), parts, day: on };
            (call.apply(Command::Cut(cut)).await?, judged)
        };
        let cut = done.outcome.cut.as_ref().ok_or_else(|| Failure::internal("a cut without one"))?;
        let shelf = call.shelf().await?;
        let told = |piece| write::piece(&call.catalogue, piece, &shelf, at(call.now()));
        Ok(v1::RecordCutResponse {
            cut_id: cut.id.to_string(),
            undo_until: write::time(cut.at.after_seconds(Undo::SECONDS)),
            pieces: done.outcome.pieces.iter().map(told).collect(),
            offcuts: offcuts(&judged, &done.outcome.received),
            reservation: call.outcome(&done).await?,
            promises: call.promises(&done.outcome.promises).await?,
            proposals: call.proposals(&done.outcome.promises).await?,
            replayed: done.replayed,
        })
    }

    /// Takes a cut back.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn undo_cut(
        &self,
        caller: &Caller,
        request: &v1::UndoCutRequest,
    ) -> Result<v1::UndoCutResponse, Failure> {
        let body = v1::UndoCutRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "UndoCut", &request.request_id, &body)?;
        facts::request_id(&request.request_id)?;
        let cut = named("cutId", &request.cut_id, "the cut")?;
        let done = call.apply(Command::Undo(Undo { cut: cut.as_str().into() })).await?;
        let shelf = call.shelf().await?;
        let told = |piece| write::piece(&call.catalogue, piece, &shelf, at(call.now()));
        Ok(v1::UndoCutResponse {
            pieces: done.outcome.pieces.iter().map(told).collect(),
            reservation: call.outcome(&done).await?,
            promises: call.promises(&done.outcome.promises).await?,
            replayed: done.replayed,
        })
    }

    /// Places an order at a supplier.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn place_order(
        &self,
        caller: &Caller,
        request: &v1::PlaceOrderRequest,
    ) -> Result<v1::PlaceOrderResponse, Failure> {
        let body = v1::PlaceOrderRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "PlaceOrder", &request.request_id, &body)?;
        let done = match facts::place(&call.catalogue, request) {
            Ok(place) => call.place(place, request.order_id.is_empty()).await?,
            Err(refused) => call.recall_or(refused).await?,
        };
        call.refresh().await;
        Ok(v1::PlaceOrderResponse {
            order: done.outcome.order.as_ref().map(|order| write::order(order, call.today())),
            replayed: done.replayed,
        })
    }

    /// Lists orders at suppliers.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn list_orders(
        &self,
        caller: &Caller,
        request: &v1::ListOrdersRequest,
    ) -> Result<v1::ListOrdersResponse, Failure> {
        let call = self.call(caller, "ListOrders", "", request)?;
        let found = call.stock.ledger.orders(!request.closed_too, ORDERS).await;
        let found = found.map_err(|error| call.failed(&error))?;
        Ok(v1::ListOrdersResponse {
            orders: found.iter().map(|order| write::order(order, call.today())).collect(),
        })
    }

    /// Calls an order off.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn cancel_order(
        &self,
        caller: &Caller,
        request: &v1::CancelOrderRequest,
    ) -> Result<v1::CancelOrderResponse, Failure> {
        let body = v1::CancelOrderRequest { request_id: String::new(), ..request.clone() };
        let call = self.call(caller, "CancelOrder", &request.request_id, &body)?;
        let (id, reason) = facts::cancel_order(request)?;
        let done = call.apply(Command::CancelOrder(CancelOrder { id: OrderId(id), reason })).await?;
        call.refresh().await;
        Ok(v1::CancelOrderResponse {
            order: done.outcome.order.as_ref().map(|order| write::order(order, call.today())),
            replayed: done.replayed,
        })
    }
}

/// Makes labels that were made here anew as long as the delivery has one of them twice: of 5 000
/// pieces two have the same one in three deliveries of ten.
pub(super) fn tell_apart(receive: &mut Receive, made: &[usize]) -> Result<(), Failure> {
    let given = receive.pieces.iter().enumerate().filter(|(place, _)| made.binary_search(place).is_err());
    let mut taken: BTreeSet<PieceId> = given.map(|(_, piece)| piece.id.clone()).collect();
    for place in made {
        let Some(piece) = receive.pieces.get_mut(*place) else { continue };
        while !taken.insert(piece.id.clone()) {
            piece.id = PieceId(names::label(&piece.material.code)?);
        }
    }
    Ok(())
}

impl Call<'_> {
    fn today(&self) -> i32 {
        day(self.catalogue.order_day(self.now())).0
    }

    /// Puts pieces on the shelf; labels that were made here and are taken are made anew.
    async fn receive(&self, mut receive: Receive, made: &[usize]) -> Result<Done, Failure> {
        let mut tries = 0;
        loop {
            tell_apart(&mut receive, made)?;
            let command = Command::Receive(receive.clone());
            match self.stock.apply(&self.catalogue, &self.envelope, command).await {
                Err(Error::Refused(Refusal::PieceExists(taken))) if tries < TRIES => {
                    let ours = made
                        .iter()
                        .copied()
                        .find(|place| receive.pieces.get(*place).is_some_and(|piece| piece.id == taken));
                    let Some(piece) = ours.and_then(|place| receive.pieces.get_mut(place)) else {
                        return Err(self.failed(&Error::Refused(Refusal::PieceExists(taken))));
                    };
                    piece.id = PieceId(names::label(&piece.material.code)?);
                    tries += 1;
                }
                other => return other.map(Done::from).map_err(|error| self.failed(&error)),
            }
        }
    }

    /// Places an order at a supplier; a name that was made here and is taken is made anew.
    async fn place(&self, mut place: Place, is_made: bool) -> Result<Done, Failure> {
        let mut tries = 0;
        loop {
            match self.stock.apply(&self.catalogue, &self.envelope, Command::Place(place.clone())).await {
                Err(Error::Refused(Refusal::OrderExists(_))) if is_made && tries < TRIES => {
                    tries += 1;
                    place.id = OrderId(names::label("ORDER")?);
                }
                other => return other.map(Done::from).map_err(|error| self.failed(&error)),
            }
        }
    }

    /// A material by its code: the catalogue's, or one that still lies on the shelf.
    fn material<'b>(
        &self,
        code: &str,
        mut lying: impl Iterator<Item = &'b Material>,
    ) -> Result<Material, Failure> {
        let shop = &self.catalogue.shop;
        if let Some(found) = goods::find(shop, code, None) {
            return Ok(found.material);
        }
        if let Some(found) = lying.find(|material| material.code == code) {
            return Ok(found.clone());
        }
        let (why, message) = goods::unknown(shop, code);
        Err(Failure::refused(vec![violation("code", why, message)]))
    }
}

/// What became of each offcut: those kept have the labels of the pieces received, in order.
fn offcuts(judged: &[Judged], received: &[PieceId]) -> Vec<v1::OffcutOutcome> {
    let mut labels = received.iter();
    judged
        .iter()
        .map(|offcut| {
            let label = if offcut.kept { labels.next() } else { None };
            v1::OffcutOutcome {
                length_mm: mm(offcut.length),
                width_mm: mm(offcut.width),
                kept: offcut.kept,
                piece_id: label.map(ToString::to_string).unwrap_or_default(),
                holds: offcut.holds,
                message: offcut.message.clone(),
            }
        })
        .collect()
}
