//! The calls of the contract, once, for every door.

mod around;
pub(crate) mod reports;
mod reservations;
mod stock;

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::net::IpAddr;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, OnceLock, PoisonError, RwLock};
use std::time::Instant;

use jiff::Timestamp;
use pennantry_app::quote::{self, Error};
use pennantry_app::stock::{Board, Look, Stock, at, expected, instant, needs, plan};
use pennantry_app::{Catalogue, day};
use pennantry_calc::shop::Day;
use pennantry_contract::reasons::{Kind, ViolationReason};
use pennantry_contract::v1;
use pennantry_ledger::Ledger;
use pennantry_measure::bounds;

use crate::clock::Clock;
use crate::convert::stock::shelf;
use crate::convert::{answer, catalogue, enquiry, fields, staff, ticket};
use crate::failure::{Failure, violation};
use crate::report::runs::Runs;
use crate::ticket::{Keys, open};

/// Which door a call came through: the public one gives only the buyer's view.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Door {
    /// For storefronts and buyers.
    Public,
    /// For the shop's own tools.
    Private,
}

/// Who calls, and for how long they wait.
#[derive(Debug, Clone)]
pub struct Caller {
    /// Through which door.
    pub door: Door,
    /// Who, for the record: "counter", "bench", "storefront", until there are keys.
    pub actor: String,
    /// Where from, where that is known.
    pub address: Option<IpAddr>,
    /// Until when they wait.
    pub deadline: Option<Instant>,
}

/// The calls, on a snapshot of the catalogue.
#[derive(Debug)]
pub struct Service {
    catalogue: RwLock<Arc<Catalogue>>,
    keys: RwLock<Arc<Keys>>,
    clock: Clock,
    stock: OnceLock<Stock>,
    booked: RwLock<Option<Booked>>,
    /// Reports that this server makes now.
    pub(crate) runs: Runs,
    steps: AtomicU64,
    quotes: AtomicU64,
}

/// A catalogue with what is booked at the bench in it, and what it was made from.
#[derive(Debug)]
struct Booked {
    plain: Arc<Catalogue>,
    board: Arc<Board>,
    today: Day,
    made: Arc<Catalogue>,
}

impl Service {
    /// A service on a catalogue, whose tickets are sealed with these keys.
    pub fn new(catalogue: Catalogue, clock: Clock, keys: Keys) -> Service {
        Service {
            catalogue: RwLock::new(Arc::new(catalogue)),
            keys: RwLock::new(Arc::new(keys)),
            clock,
            stock: OnceLock::new(),
            booked: RwLock::new(None),
            runs: Runs::default(),
            steps: AtomicU64::new(0),
            quotes: AtomicU64::new(0),
        }
    }

    /// The same, with a stock.
    pub fn with_stock(self, stock: Stock) -> Service {
        Service { stock: OnceLock::from(stock), ..self }
    }

    /// Opens the stock, where it could not be had when the server started. There is one for as
    /// long as the server runs: a second one is not taken.
    pub fn open_stock(&self, stock: Stock) {
        if self.stock.set(stock).is_err() {
            tracing::error!("the stock was open already");
        }
    }

    /// The stock, where it is open.
    ///
    /// # Errors
    /// It is not.
    pub fn stock(&self) -> Result<&Stock, Failure> {
        self.stock.get().ok_or_else(|| {
            Failure::new(
                Kind::Unavailable,
                "the stock cannot be had on this server now: quotes are answered, and nothing can be held",
            )
        })
    }

    /// The catalogue in force. Calls under way keep the one that they began with.
    pub fn catalogue(&self) -> Arc<Catalogue> {
        self.catalogue.read().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Puts another catalogue in force.
    pub fn replace_catalogue(&self, catalogue: Catalogue) {
        *self.catalogue.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(catalogue);
    }

    fn keys(&self) -> Arc<Keys> {
        self.keys.read().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Puts other keys in force.
    pub fn replace_keys(&self, keys: Keys) {
        *self.keys.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(keys);
    }

    /// The instant now.
    pub fn now(&self) -> Timestamp {
        self.clock.now()
    }

    /// Steps of geometry taken so far: bad input takes none.
    pub fn steps(&self) -> u64 {
        self.steps.load(Ordering::Relaxed)
    }

    /// Quotes given so far.
    pub fn quotes(&self) -> u64 {
        self.quotes.load(Ordering::Relaxed)
    }

    /// Answers one enquiry.
    ///
    /// # Errors
    /// Refused with every violation, or a view that this door does not give.
    pub fn calculate_quote(
        &self,
        door: Door,
        request: &v1::CalculateQuoteRequest,
    ) -> Result<v1::CalculateQuoteResponse, Failure> {
        let nothing = v1::Enquiry::default();
        let asked = request.enquiry.as_ref().unwrap_or(&nothing);
        let quote = self.quote(door, &self.catalogue(), asked)?;
        Ok(v1::CalculateQuoteResponse { quote: Some(quote) })
    }

    /// Answers several enquiries, each by itself, all on one catalogue.
    ///
    /// # Errors
    /// Refused when there are none or too many.
    pub fn calculate_quotes(
        &self,
        door: Door,
        request: &v1::CalculateQuotesRequest,
    ) -> Result<v1::CalculateQuotesResponse, Failure> {
        let count = request.enquiries.len();
        let bound = bounds::ENQUIRIES;
        if !bound.holds(u32::try_from(count).unwrap_or(u32::MAX)) {
            let message = format!(
                "{count} enquiries in one call: give {} to {}, or call again",
                bound.least, bound.most
            );
            return Err(Failure::refused(vec![violation("enquiries", ViolationReason::OutOfRange, message)]));
        }
        let catalogue = self.catalogue();
        let outcomes = request.enquiries.iter().map(|asked| {
            let outcome = match self.quote(door, &catalogue, asked) {
                Ok(quote) => v1::quote_outcome::Outcome::Quote(quote),
                Err(failure) => v1::quote_outcome::Outcome::Refusal(v1::Refusal {
                    reason: failure.kind.as_str().to_owned(),
                    detail: failure.detail,
                    violations: failure.violations,
                }),
            };
            v1::QuoteOutcome { outcome: Some(outcome) }
        });
        Ok(v1::CalculateQuotesResponse { outcomes: outcomes.collect() })
    }

    /// Looks a ticket through.
    ///
    /// # Errors
    /// Refused when there is none. One that does not hold is an answer.
    pub fn check_quote(
        &self,
        _door: Door,
        request: &v1::CheckQuoteRequest,
    ) -> Result<v1::CheckQuoteResponse, Failure> {
        let nothing = v1::Ticket::default();
        let token = ticket::token(request.ticket.as_ref().unwrap_or(&nothing))?;
        let opened = open(token, &self.keys());
        let check = ticket::check(&self.catalogue(), opened, self.clock.now());
        Ok(v1::CheckQuoteResponse { check: Some(check) })
    }

    /// Gives the catalogue in force.
    ///
    /// # Errors
    /// None; the type is that of every call.
    pub fn get_catalogue(
        &self,
        _door: Door,
        _request: &v1::GetCatalogueRequest,
    ) -> Result<v1::GetCatalogueResponse, Failure> {
        Ok(v1::GetCatalogueResponse { catalogue: Some(catalogue::write(&self.catalogue())) })
    }

    fn quote(
        &self,
        door: Door,
        catalogue: &Arc<Catalogue>,
        asked: &v1::Enquiry,
    ) -> Result<v1::Quote, Failure> {
        let view = match asked.view() {
            v1::View::Shop => v1::View::Shop,
            v1::View::Buyer | v1::View::Unspecified => v1::View::Buyer,
        };
        if view == v1::View::Shop && door == Door::Public {
            return Err(Failure::new(
                Kind::ViewNotPublic,
                "VIEW_SHOP is not given at the public door: leave the view out for the buyer's view, \
                 or ask at the private door",
            ));
        }
        let mut asked = Cow::Borrowed(asked);
        let kept = if door == Door::Public { staff::take_out(&mut asked) } else { Vec::new() };
        let asked = &*asked;
        let mut read = enquiry::read(asked);
        read.refuse(kept);
        let now = self.clock.now();
        match quote::answer(&self.booked(catalogue, now), &read.enquiry, now) {
            Ok(given) => {
                self.steps.fetch_add(given.quote.steps, Ordering::Relaxed);
                self.quotes.fetch_add(1, Ordering::Relaxed);
                let mut quote = answer::write(catalogue, asked, &given, view);
                if asked.shelf == Some(true) {
                    match self.shelf(catalogue, &given, now, view)? {
                        Some(shelf) => quote.shelf = Some(shelf),
                        None => quote.notices.push(shelf::unknown()),
                    }
                }
                ticket::seal(&mut quote, &given, &self.keys())?;
                Ok(quote)
            }
            Err(Error::Refused(found)) => {
                let mut violations = read.violations;
                violations.extend(found.into_iter().map(fields::told));
                fields::in_field_order(&mut violations);
                Err(Failure::refused(violations))
            }
            Err(Error::Fault(cause)) => Err(Failure::internal(&cause)),
        }
    }

    /// A catalogue with what is booked at the bench in its calendar; the same one where nothing
    /// is. It is made once for each board and day.
    fn booked(&self, catalogue: &Arc<Catalogue>, now: Timestamp) -> Arc<Catalogue> {
        let Some(stock) = self.stock.get() else { return catalogue.clone() };
        let (board, today) = (stock.board(), day(catalogue.order_day(now)));
        if board.bookings.is_empty() {
            return catalogue.clone();
        }
        let is_it = |known: &&Booked| {
            Arc::ptr_eq(&known.plain, catalogue) && Arc::ptr_eq(&known.board, &board) && known.today == today
        };
        let known = self.booked.read().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = known.as_ref().filter(is_it) {
            return known.made.clone();
        }
        drop(known);
        let made = board.booked(catalogue, today).map_or_else(|| catalogue.clone(), Arc::new);
        let known = Booked { plain: catalogue.clone(), board, today, made: made.clone() };
        *self.booked.write().unwrap_or_else(PoisonError::into_inner) = Some(known);
        made
    }

    /// What is on the shelf for an answer; none where the stock is not open.
    fn shelf(
        &self,
        catalogue: &Catalogue,
        given: &quote::Answer,
        now: Timestamp,
        view: v1::View,
    ) -> Result<Option<v1::Shelf>, Failure> {
        let Some(stock) = self.stock.get() else { return Ok(None) };
        let items = needs(&catalogue.shop, &given.order, &given.quote.worked);
        let (lies, board, caps) = (stock.ledger.shelf(), stock.board(), BTreeMap::new());
        let look = Look { shelf: &lies, now: at(now), kept: &board.kept, caps: &caps };
        let found = plan(&items, &[], &look).map_err(|fault| Failure::internal(&fault.to_string()))?;
        // an embedded store's shelf in memory is what lies there now
        let as_of = match stock.ledger {
            Ledger::Sqlite(_) => now,
            Ledger::Postgres(_) => instant(lies.at),
        };
        let today = day(catalogue.order_day(now)).0;
        let day = expected(&found, &board.orders, today);
        Ok(Some(shelf::write(&found, as_of, day, view)))
    }
}

#[cfg(test)]
mod tests;
