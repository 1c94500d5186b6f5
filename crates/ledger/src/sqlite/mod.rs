//! An engine.

use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

use crate::engine::{Applied, Booking, Error, FindPieces, FindReservations, Placed, Verified};
use crate::rules::{
    Amount, CutId, CutRow, Envelope, Material, Movement, Order, Outcome, Piece, PieceId, Request,
    Reservation, ReservationId,
};
use crate::shelf::Shelf;

/// The store.
#[derive(Debug, Clone)]
pub struct Store {}

impl Store {
    pub async fn apply(&self, _envelope: Envelope, _deadline: Option<Instant>) -> Result<Applied, Error> {
        Err(Error::Busy)
    }
    pub async fn recall(&self, _request: &Request) -> Result<Option<Outcome>, Error> {
        Err(Error::Busy)
    }
    pub fn shelf(&self) -> Arc<Shelf> {
        Arc::default()
    }
    pub async fn read_shelf(&self) -> Result<Arc<Shelf>, Error> {
        Err(Error::Busy)
    }
    pub async fn reservation(&self, _id: &ReservationId) -> Result<Option<Reservation>, Error> {
        Err(Error::Busy)
    }
    pub async fn reservations(&self, _find: &FindReservations) -> Result<Vec<Reservation>, Error> {
        Err(Error::Busy)
    }
    pub async fn pieces(&self, _find: &FindPieces) -> Result<Vec<Piece>, Error> {
        Err(Error::Busy)
    }
    pub async fn piece(&self, _id: &PieceId) -> Result<Option<Piece>, Error> {
        Err(Error::Busy)
    }
    pub async fn movements(&self, _piece: &PieceId, _skip: u32, _most: u32) -> Result<Vec<Movement>, Error> {
        Err(Error::Busy)
    }
    pub async fn cuts(&self, _reservation: &ReservationId) -> Result<Vec<CutRow>, Error> {
        Err(Error::Busy)
    }
    pub async fn cut(&self, _id: &CutId) -> Result<Option<CutRow>, Error> {
        Err(Error::Busy)
    }
    pub async fn orders(&self, _open_only: bool, _most: u32) -> Result<Vec<Order>, Error> {
        Err(Error::Busy)
    }
    pub async fn on_order(&self) -> Result<Vec<(Material, Amount)>, Error> {
        Err(Error::Busy)
    }
    pub async fn events(&self, _after: i64, _most: u32) -> Result<Vec<Placed>, Error> {
        Err(Error::Busy)
    }
    pub async fn last_place(&self) -> Result<i64, Error> {
        Err(Error::Busy)
    }
    pub async fn wait_for_events(&self, _after: i64, _most: Duration) {}
    pub async fn bookings(&self) -> Result<Vec<Booking>, Error> {
        Err(Error::Busy)
    }
    pub async fn ready(&self) -> Result<(), Error> {
        Err(Error::Busy)
    }
    pub async fn verify(&self) -> Result<Verified, Error> {
        Err(Error::Busy)
    }
    pub async fn close(&self) {}
}

impl Store {
    pub async fn backup(&self, _to: &Path) -> Result<(), Error> {
        Err(Error::Busy)
    }
}
