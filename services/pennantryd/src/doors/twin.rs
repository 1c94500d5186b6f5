//! The private JSON: every call at its gRPC path, whole messages as JSON.

use axum::Router;
use axum::extract::{Request, State};
use axum::middleware::from_fn;
use axum::routing::{MethodRouter, get, post};
use pennantry_contract::table::{METHODS, Method};
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::gateway::marked;
use super::{Calls, answer, carry, origin, report, watch};
use crate::docs;
use crate::failure::Failure;
use crate::service::{Door, Service};

/// Every call of the contract.
pub fn router(calls: Calls) -> Router {
    let mut router = Router::new();
    for method in METHODS {
        if let Some(handler) = handler(method) {
            router = router.route(&method.path(), handler);
        }
    }
    let router = router.with_state(calls.clone()).merge(report::router(calls));
    router.merge(docs::router(Door::Private)).layer(from_fn(origin::guard))
}

/// The handler of a call. The test `every_call_has_its_twin` sees one that is missing.
fn handler(method: &'static Method) -> Option<MethodRouter<Calls>> {
    match method.service {
        "pennantry.v1.StockService" => of_stock(method),
        "pennantry.v1.ReservationService" => of_reservations(method),
        "pennantry.v1.ReportService" => of_reports(method),
        "pennantry.v1.QuoteService" => match method.name {
            "CalculateQuote" => Some(unary(method, Service::calculate_quote)),
            "CalculateQuotes" => Some(unary(method, Service::calculate_quotes)),
            "CheckQuote" => Some(unary(method, Service::check_quote)),
            _ => None,
        },
        "pennantry.v1.CatalogueService" => match method.name {
            "GetCatalogue" => Some(unary(method, Service::get_catalogue)),
            _ => None,
        },
        _ => None,
    }
}

type Call<Asked, Told> = fn(&Service, Door, &Asked) -> Result<Told, Failure>;

fn unary<Asked, Told>(method: &'static Method, call: Call<Asked, Told>) -> MethodRouter<Calls>
where
    Asked: DeserializeOwned + Send + 'static,
    Told: Serialize + 'static,
{
    post(move |State(calls): State<Calls>, request: Request| async move {
        let asked = calls.read(method.request, wrapped(method), request).await?;
        let told = call(&calls.service, calls.door, &asked)?;
        answer(&told)
    })
}

fn wrapped(method: &'static Method) -> Option<&'static str> {
    method.http.and_then(|http| http.body)
}

/// The handler of a call that waits for the stock. A macro, since no bound says of what a
/// method that waits gives back that it can go from thread to thread.
macro_rules! waits {
    ($method:ident, $call:ident) => {
        Some(post(async move |State(calls): State<Calls>, request: Request| {
            let caller = calls.caller(&request);
            let asked = calls.read($method.request, wrapped($method), request).await?;
            let call = calls.service.$call(&caller, &asked);
            let told = carry::out(&calls.metrics, $method.name, &caller, call).await?;
            answer(&told).map(|response| marked(&told, response))
        }))
    };
}

fn of_stock(method: &'static Method) -> Option<MethodRouter<Calls>> {
    match method.name {
        "ReceiveStock" => waits!(method, receive_stock),
        "CheckDelivery" => waits!(method, check_delivery),
        "AdjustStock" => waits!(method, adjust_stock),
        "ListStock" => waits!(method, list_stock),
        "GetPiece" => waits!(method, get_piece),
        "RecordCut" => waits!(method, record_cut),
        "UndoCut" => waits!(method, undo_cut),
        "PlaceOrder" => waits!(method, place_order),
        "ListOrders" => waits!(method, list_orders),
        "CancelOrder" => waits!(method, cancel_order),
        "WatchStock" => Some(get(watch::stream)),
        _ => None,
    }
}

fn of_reports(method: &'static Method) -> Option<MethodRouter<Calls>> {
    match method.name {
        "GetBurnReport" => waits!(method, get_burn_report),
        "CancelBurnReport" => waits!(method, cancel_burn_report),
        "ListBurnReports" => waits!(method, list_burn_reports),
        "RunBurnReport" => Some(get(report::stream)),
        _ => None,
    }
}

fn of_reservations(method: &'static Method) -> Option<MethodRouter<Calls>> {
    match method.name {
        "CreateReservation" => waits!(method, create_reservation),
        "GetReservation" => waits!(method, get_reservation),
        "ExtendReservation" => waits!(method, extend_reservation),
        "ConfirmReservation" => waits!(method, confirm_reservation),
        "ReleaseReservation" => waits!(method, release_reservation),
        "CancelReservation" => waits!(method, cancel_reservation),
        "AmendReservation" => waits!(method, amend_reservation),
        "ListReservations" => waits!(method, list_reservations),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_call_has_its_twin() {
        for method in METHODS {
            assert!(handler(method).is_some(), "{} has no twin", method.path());
        }
    }
}
