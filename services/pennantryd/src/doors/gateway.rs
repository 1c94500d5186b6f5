//! The public JSON: flat bodies at the paths of the contract's HTTP rules.

mod reservations;

use axum::Router;
use axum::extract::{Request, State};
use axum::response::Response;
use axum::routing::{MethodFilter, MethodRouter, on};
use http::{HeaderValue, Method};
use pennantry_contract::table::{self, METHODS};
use pennantry_contract::v1;

use super::kept::kept;
use super::{Calls, Refusal, answer, part};
use crate::failure::Failure;

pub(super) use reservations::marked;

/// Every route that the contract maps and this door serves.
pub fn router(calls: Calls) -> Router {
    let mut router = Router::new();
    for method in METHODS {
        if let Some(http) = method.http
            && let Some(verb) = verb(http.verb)
            && let Some(handler) = handler(method, verb)
        {
            router = router.route(http.path, handler);
        }
    }
    router.with_state(calls)
}

/// The handler of a call. The test `every_mapped_call_is_routed` sees one that is missing.
fn handler(method: &table::Method, verb: MethodFilter) -> Option<MethodRouter<Calls>> {
    match (method.service, method.name) {
        ("pennantry.v1.QuoteService", "CalculateQuote") => Some(on(verb, quote)),
        ("pennantry.v1.QuoteService", "CheckQuote") => Some(on(verb, check)),
        ("pennantry.v1.CatalogueService", "GetCatalogue") => Some(on(verb, catalogue)),
        ("pennantry.v1.ReservationService", name) => match name {
            "CreateReservation" => Some(on(verb, reservations::create)),
            "GetReservation" => Some(on(verb, reservations::get)),
            "ExtendReservation" => Some(on(verb, reservations::extend)),
            "ConfirmReservation" => Some(on(verb, reservations::confirm)),
            "ReleaseReservation" => Some(on(verb, reservations::release)),
            _ => None,
        },
        _ => None,
    }
}

fn verb(verb: &str) -> Option<MethodFilter> {
    MethodFilter::try_from(Method::from_bytes(verb.as_bytes()).ok()?).ok()
}

async fn quote(State(calls): State<Calls>, request: Request) -> Result<Response, Refusal> {
    let enquiry = calls.read(&table::ENQUIRY, None, request).await?;
    let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
    let response = calls.service.calculate_quote(calls.door, &request)?;
    answer(&part(response.quote)?)
}

async fn check(State(calls): State<Calls>, request: Request) -> Result<Response, Refusal> {
    let ticket = calls.read(&table::TICKET, None, request).await?;
    let request = v1::CheckQuoteRequest { ticket: Some(ticket) };
    let response = calls.service.check_quote(calls.door, &request)?;
    answer(&part(response.check)?)
}

async fn catalogue(State(calls): State<Calls>, request: Request) -> Result<Response, Refusal> {
    let response = calls.service.get_catalogue(calls.door, &v1::GetCatalogueRequest {})?;
    let catalogue = part(response.catalogue)?;
    let tag = tag(&catalogue.revision)?;
    kept(request.headers(), tag, || answer(&catalogue))
}

fn tag(revision: &str) -> Result<HeaderValue, Failure> {
    HeaderValue::from_str(&format!("\"{revision}\""))
        .map_err(|_| Failure::internal("a revision that cannot be an entity tag"))
}

#[cfg(test)]
mod tests {
    use pennantry_contract::table::Kind;

    use super::*;

    #[test]
    fn every_mapped_call_is_routed() {
        for method in METHODS {
            let Some(http) = method.http else { continue };
            let verb = verb(http.verb).unwrap_or_else(|| panic!("{http:?}"));
            assert!(handler(method, verb).is_some(), "{} is mapped and has no handler", method.path());
        }
    }

    /// The handlers read and write these parts; the contract has to say the same.
    #[test]
    fn parts_are_those_of_the_contract() {
        let parts = METHODS.iter().filter_map(|method| Some((method, method.http?)));
        let written: Vec<_> = parts
            .map(|(method, http)| {
                let kind = |message: &'static table::Message, name| match message.field(name).unwrap().kind {
                    Kind::Message(message) => message.name,
                    other => panic!("{other:?}"),
                };
                (
                    method.name,
                    http.body.map(|name| kind(method.request, name)),
                    http.response_body.map(|name| kind(method.response, name)),
                )
            })
            .collect();
        let served = [
            ("CalculateQuote", Some("pennantry.v1.Enquiry"), Some("pennantry.v1.Quote")),
            ("CheckQuote", Some("pennantry.v1.Ticket"), Some("pennantry.v1.QuoteCheck")),
            ("GetCatalogue", None, Some("pennantry.v1.Catalogue")),
            ("CreateReservation", Some("pennantry.v1.Hold"), Some("pennantry.v1.Reservation")),
            ("GetReservation", None, Some("pennantry.v1.Reservation")),
            ("ExtendReservation", Some("pennantry.v1.Extension"), Some("pennantry.v1.Reservation")),
            ("ConfirmReservation", Some("pennantry.v1.Confirmation"), Some("pennantry.v1.Reservation")),
            ("ReleaseReservation", None, Some("pennantry.v1.Reservation")),
        ];
        assert_eq!(written, served);
    }
}
