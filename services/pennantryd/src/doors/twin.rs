//! The private JSON: every unary call at its gRPC path, whole messages as JSON.

use axum::Router;
use axum::extract::{Request, State};
use axum::routing::{MethodRouter, post};
use pennantry_contract::table::{METHODS, Method};
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::{Calls, answer};
use crate::failure::Failure;
use crate::service::{Door, Service};

/// Every unary call of the contract.
pub fn router(calls: Calls) -> Router {
    let mut router = Router::new();
    for method in METHODS.iter().filter(|method| !method.server_streaming) {
        if let Some(handler) = handler(method) {
            router = router.route(&method.path(), handler);
        }
    }
    router.with_state(calls)
}

/// The handler of a call. The test `every_unary_call_has_its_twin` sees one that is missing.
fn handler(method: &'static Method) -> Option<MethodRouter<Calls>> {
    match (method.service, method.name) {
        ("pennantry.v1.QuoteService", "CalculateQuote") => Some(unary(method, Service::calculate_quote)),
        ("pennantry.v1.QuoteService", "CalculateQuotes") => Some(unary(method, Service::calculate_quotes)),
        ("pennantry.v1.QuoteService", "CheckQuote") => Some(unary(method, Service::check_quote)),
        ("pennantry.v1.CatalogueService", "GetCatalogue") => Some(unary(method, Service::get_catalogue)),
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
        let wrapped = method.http.and_then(|http| http.body);
        let asked = calls.read(method.request, wrapped, request).await?;
        let told = call(&calls.service, calls.door, &asked)?;
        answer(&told)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_unary_call_has_its_twin() {
        for method in METHODS.iter().filter(|method| !method.server_streaming) {
            assert!(handler(method).is_some(), "{} has no twin", method.path());
        }
    }
}
