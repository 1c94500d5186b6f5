//! What quotes look at without waiting for the store.
//!
//! It is a hint with an age, like the shelf in memory: kept fresh after every change that this
//! server makes and whenever somebody calls [`Stock::refresh`], which a server that shares its
//! store with others does now and then.

use std::collections::BTreeSet;
use std::sync::{Arc, PoisonError};

use jiff::Timestamp;
use pennantry_calc::shop::{Booked, Day, Shop};
use pennantry_ledger::rules::{Class, Material, Order};
use pennantry_ledger::{Booking, Error, FindPieces};
use pennantry_measure::BenchTime;

use super::{Stock, instant};
use crate::{Catalogue, day};

/// Open orders that are looked at.
const MOST_ORDERS: u32 = 500;

/// What quotes look at.
#[derive(Debug, Clone, Default)]
pub struct Board {
    /// Bench time that confirmed reservations have booked and that is not over.
    pub bookings: Vec<Booking>,
    /// Orders at suppliers on which something is still to come.
    pub orders: Vec<Order>,
    /// Codes of counted things that were received at some time.
    pub kept: BTreeSet<String>,
}

impl Board {
    /// The bench's load on a day: that of the catalogue and what is booked, in the order of
    /// the days; none where nothing is booked.
    ///
    /// A booking counts from the day on which an order confirmed at that instant is taken up,
    /// and until the day is over on which it is to leave: by then it is done. One with no such
    /// day counts until it is called off; what the bench had time for since is worked off.
    pub fn load(&self, catalogue: &Catalogue, today: Day) -> Option<Vec<Booked>> {
        let live = |booking: &&Booking| {
            booking.milli_minutes > 0 && booking.leave_day.is_none_or(|leaves| leaves >= today.0)
        };
        let booked: Vec<Booked> = self
            .bookings
            .iter()
            .filter(live)
            .map(|booking| {
                let when = catalogue.when(instant(booking.confirmed));
                Booked {
                    day: when.today + i32::from(when.late),
                    time: BenchTime::from_milli_minutes(booking.milli_minutes),
                }
            })
            .collect();
        if booked.is_empty() {
            return None;
        }
        let mut load = catalogue.shop.calendar.load.clone();
        load.extend(booked);
        load.sort_by_key(|booked| (booked.day, booked.time));
        Some(load)
    }

    /// The catalogue with what is booked in its calendar; none where nothing is.
    pub fn booked(&self, catalogue: &Catalogue, today: Day) -> Option<Catalogue> {
        let load = self.load(catalogue, today)?;
        let mut shop = Shop::clone(&catalogue.shop);
        shop.calendar.load = load;
        Some(Catalogue { shop: Arc::new(shop), ..catalogue.clone() })
    }
}

impl Stock {
    /// What quotes look at, as it was read last.
    pub fn board(&self) -> Arc<Board> {
        self.board.read().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Reads anew what quotes look at. What was once received stays kept.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn refresh(&self, catalogue: &Catalogue, now: Timestamp) -> Result<(), Error> {
        let shop = &catalogue.shop;
        // the day before, too: another server's clock may be behind
        let since = day(catalogue.order_day(now)).0.saturating_sub(1);
        let bookings = self.ledger.bookings(since).await?;
        let orders = self.ledger.orders(true, MOST_ORDERS).await?;
        let mut kept = self.board().kept.clone();
        let sundries = shop.sundries.iter().map(|sundry| &sundry.code);
        for code in sundries.chain(shop.trimmings.iter().map(|trimming| &trimming.code)) {
            if !kept.contains(code) && self.ever_received(code).await? {
                kept.insert(code.clone());
            }
        }
        *self.board.write().unwrap_or_else(PoisonError::into_inner) =
            Arc::new(Board { bookings, orders, kept });
        Ok(())
    }

    /// Finds out which of some counted materials were received at some time.
    pub(super) async fn learn(&self, materials: impl Iterator<Item = &Material>) -> Result<(), Error> {
        for material in materials.filter(|material| material.class == Class::Sundry) {
            if !self.board().kept.contains(&material.code) && self.ever_received(&material.code).await? {
                let mut board = self.board.write().unwrap_or_else(PoisonError::into_inner);
                Arc::make_mut(&mut board).kept.insert(material.code.clone());
            }
        }
        Ok(())
    }

    async fn ever_received(&self, code: &str) -> Result<bool, Error> {
        let material = Some(Material { class: Class::Sundry, code: code.to_owned() });
        let find = FindPieces { material, empty_too: true, most: 1, ..FindPieces::default() };
        Ok(!self.ledger.pieces(&find).await?.is_empty())
    }
}
