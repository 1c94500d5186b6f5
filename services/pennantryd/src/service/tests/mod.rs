//! The calls of stock and reservations, on an embedded store in a folder of its own and the
//! demo shop's catalogue.

mod amend;
mod bench;
mod cuts;
mod facts;
mod holds;
mod refusals;
mod reports;
mod shelf;

use std::sync::Arc;

use jiff::Timestamp;
use pennantry_app::stock::{Holds, Stock};
use pennantry_contract::v1;
use pennantry_ledger::Ledger;
use pennantry_ledger::sqlite::{Durability, Options, Store};
use serde_json::{Value, json};
use tempfile::TempDir;

use super::{Caller, Door, Service};
use crate::catalogue::{self, SALTMERE_LOFT};
use crate::clock::Clock;
use crate::failure::Failure;
use crate::ticket::Keys;

/// Ten in the morning in London, a Tuesday.
const NOW: &str = "2026-11-24T10:00:00Z";

/// A shop with a stock.
struct Shop {
    service: Arc<Service>,
    stock: Stock,
    keys: Keys,
    /// Taken away with the last of those that share it.
    folder: Arc<TempDir>,
}

fn catalogue(text: &str) -> pennantry_app::Catalogue {
    catalogue::open(text).unwrap().into()
}

fn open() -> Shop {
    let folder = tempfile::tempdir().unwrap();
    let options = Options { durability: Durability::Off, ..Options::default() };
    let store = Store::open(&folder.path().join("stock"), options).unwrap();
    let stock = Stock::new(Ledger::Sqlite(store), Holds::default());
    let keys = Keys::fresh().unwrap();
    let clock = Clock::Fixed(NOW.parse().unwrap());
    let service = Service::new(catalogue(SALTMERE_LOFT), clock, keys.clone()).with_stock(stock.clone());
    Shop { service: service.into(), stock, keys, folder: folder.into() }
}

fn staff() -> Caller {
    Caller { door: Door::Private, actor: "counter".to_owned(), address: None, deadline: None }
}

fn buyer(last: u8) -> Caller {
    let address = Some(std::net::Ipv4Addr::new(203, 0, 113, last).into());
    Caller { door: Door::Public, actor: "storefront".to_owned(), address, deadline: None }
}

/// A message from its JSON.
fn read<T: serde::de::DeserializeOwned>(json: Value) -> T {
    serde_json::from_value(json).unwrap()
}

/// Millimetres. They are written from whole micrometres: what is equal has equal bits.
#[derive(Debug, Clone, Copy)]
struct Mm(f64);

impl PartialEq<f64> for Mm {
    fn eq(&self, other: &f64) -> bool {
        self.0.to_bits() == other.to_bits()
    }
}

/// Millimetres of a quantity.
fn mm(quantity: Option<&v1::Quantity>) -> Mm {
    match quantity.and_then(|quantity| quantity.amount) {
        Some(v1::quantity::Amount::LengthMm(mm)) => Mm(mm),
        other => panic!("{other:?} is no length"),
    }
}

fn length(mm: f64) -> Value {
    json!({"lengthMm": mm})
}

impl Shop {
    /// The same shop at another instant, on another catalogue.
    fn later(&self, instant: &str, text: &str) -> Shop {
        self.by(Clock::Fixed(instant.parse::<Timestamp>().unwrap()), text)
    }

    /// The same shop by another clock, on another catalogue: another server on one store.
    fn by(&self, clock: Clock, text: &str) -> Shop {
        let service = Service::new(catalogue(text), clock, self.keys.clone()).with_stock(self.stock.clone());
        Shop {
            service: service.into(),
            stock: self.stock.clone(),
            keys: self.keys.clone(),
            folder: self.folder.clone(),
        }
    }

    async fn receive(&self, pieces: Value) -> v1::ReceiveStockResponse {
        let request = read(json!({"pieces": pieces}));
        self.service.receive_stock(&staff(), &request).await.unwrap()
    }

    /// Enough of everything that the first design takes, in one lot each, and its labels.
    async fn stocked(&self) {
        self.receive(json!([
            {"pieceId": "KELP-1", "code": "kelp", "lot": "K1", "quantity": length(20_000.0)},
            {"pieceId": "ROPE-1", "code": "chandlers-rope", "lot": "R1", "quantity": length(20_000.0)},
            {"pieceId": "LAMP-1", "code": "lamp-oil", "lot": "L1", "quantity": length(20_000.0)},
            {"pieceId": "BOSUN-1", "code": "bosun-25", "lot": "B1", "quantity": length(100_000.0)},
            {"pieceId": "LABELS", "code": "sewn-label", "quantity": {"count": 200}},
        ]))
        .await;
    }

    fn quote(&self, enquiry: Value) -> v1::Quote {
        let mut enquiry: v1::Enquiry = read(enquiry);
        enquiry.view = Some(v1::View::Shop.into());
        let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
        self.service.calculate_quote(Door::Private, &request).unwrap().quote.unwrap()
    }

    /// A string of 6.2 m for a home with no child.
    fn usual(&self) -> v1::Quote {
        self.quote(json!({"flaggedMm": 6200, "near": {"who": "WHO_NO_CHILD"}}))
    }

    async fn try_hold(&self, caller: &Caller, hold: v1::Hold, key: &str) -> Result<v1::Reservation, Failure> {
        let request = v1::CreateReservationRequest { request_id: key.to_owned(), hold: Some(hold) };
        self.service.create_reservation(caller, &request).await.map(|held| held.reservation.unwrap())
    }

    /// Holds a quote with everything acknowledged that it asks for.
    async fn hold(&self, caller: &Caller, quote: &v1::Quote) -> v1::Reservation {
        self.try_hold(caller, hold(quote), "").await.unwrap()
    }

    async fn get(&self, id: &str) -> Result<v1::Reservation, Failure> {
        let request = v1::GetReservationRequest { reservation_id: id.to_owned() };
        self.service.get_reservation(&staff(), &request).await.map(|got| got.reservation.unwrap())
    }

    async fn confirm(&self, id: &str, order: &str) -> Result<v1::Reservation, Failure> {
        let request = read(json!({"reservationId": id, "confirmation": {"orderReference": order}}));
        self.service.confirm_reservation(&staff(), &request).await.map(|held| held.reservation.unwrap())
    }

    async fn release(&self, id: &str) -> Result<v1::Reservation, Failure> {
        let request = read(json!({"reservationId": id}));
        self.service.release_reservation(&staff(), &request).await.map(|held| held.reservation.unwrap())
    }

    async fn cancel(&self, id: &str) -> Result<v1::Reservation, Failure> {
        let request = read(json!({"reservationId": id, "reason": "the buyer changed plans"}));
        self.service.cancel_reservation(&staff(), &request).await.map(|held| held.reservation.unwrap())
    }

    async fn adjust(&self, request: Value) -> Result<v1::AdjustStockResponse, Failure> {
        self.service.adjust_stock(&staff(), &read(request)).await
    }

    async fn cut(&self, request: Value) -> Result<v1::RecordCutResponse, Failure> {
        self.service.record_cut(&staff(), &read(request)).await
    }

    async fn piece(&self, id: &str) -> v1::StockPiece {
        let request = v1::GetPieceRequest { piece_id: id.to_owned() };
        self.service.get_piece(&staff(), &request).await.unwrap().piece.unwrap()
    }

    /// Everything that a refusal must leave as it was: pieces and the last event.
    async fn state(&self) -> (v1::ListStockResponse, i64) {
        let request = read(json!({"emptyToo": true}));
        let pieces = self.service.list_stock(&staff(), &request).await.unwrap();
        (pieces, self.stock.ledger.last_place().await.unwrap())
    }

    /// Whatever was done, the store adds up.
    async fn adds_up(&self) {
        let found = self.stock.ledger.verify().await.unwrap();
        assert_eq!(found.drift, Vec::<String>::new());
    }
}

fn hold(quote: &v1::Quote) -> v1::Hold {
    v1::Hold {
        token: quote.token.clone().unwrap(),
        acknowledged_rule_ids: quote.child.as_ref().unwrap().acknowledge.clone(),
        ..v1::Hold::default()
    }
}

/// Lines of a reservation for a code: piece, millimetres, shapes.
fn lines<'a>(held: &'a v1::Reservation, code: &str) -> Vec<(&'a str, f64, u32)> {
    let of = held.lines.iter().filter(|line| line.code == code);
    of.map(|line| (line.piece_id.as_str(), mm(line.wanted.as_ref()).0, line.shapes)).collect()
}
