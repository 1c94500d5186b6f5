//! The admin listener: is the process there, can it quote, what has it counted.

use std::sync::Arc;

use axum::Router;
use axum::body::Body;
use axum::extract::State;
use axum::response::Response;
use axum::routing::get;
use http::{HeaderValue, StatusCode, header};
use pennantry_contract::reasons::Kind;

use crate::doors::Refusal;
use crate::failure::Failure;
use crate::listen::Stop;
use crate::metrics::Metrics;
use crate::service::Service;
use crate::stock::keep;

/// What the admin listener looks at.
#[derive(Debug, Clone)]
pub struct Admin {
    /// The calls.
    pub service: Arc<Service>,
    /// The counters.
    pub metrics: Arc<Metrics>,
    /// The signal to stop.
    pub leaving: Stop,
}

/// `/healthz`, `/readyz`, `/readyz/stock` and `/metrics`.
pub fn router(admin: Admin) -> Router {
    Router::new()
        .route("/healthz", get(healthz))
        .route("/readyz", get(readyz))
        .route("/readyz/stock", get(readyz_stock))
        .route("/metrics", get(metrics))
        .with_state(admin)
}

async fn healthz() -> Response {
    text("application/json", r#"{"status":"ok"}"#.to_owned())
}

async fn readyz(State(admin): State<Admin>) -> Result<Response, Refusal> {
    goes_on(&admin)?;
    let revision = &admin.service.catalogue().revision;
    Ok(text("application/json", format!(r#"{{"status":"ready","catalogueRevision":"{revision}"}}"#)))
}

fn goes_on(admin: &Admin) -> Result<(), Failure> {
    if admin.leaving.has_begun() {
        return Err(Failure::new(Kind::Unavailable, "this server is stopping: send requests to another"));
    }
    Ok(())
}

/// Whether something can be held just now: quotes do not need that.
async fn readyz_stock(State(admin): State<Admin>) -> Result<Response, Refusal> {
    goes_on(&admin)?;
    let ledger = &admin.service.stock()?.ledger;
    keep::is_ready(ledger).await.map_err(|cause| {
        tracing::debug!(%cause, "not ready");
        Failure::new(
            Kind::Unavailable,
            "the stock cannot be had now: quotes are answered, and nothing can be held",
        )
    })?;
    Ok(text("application/json", r#"{"status":"ready"}"#.to_owned()))
}

async fn metrics(State(admin): State<Admin>) -> Result<Response, Refusal> {
    let written = admin.metrics.text().map_err(|fault| Failure::internal(&fault.to_string()))?;
    Ok(text("application/openmetrics-text; version=1.0.0; charset=utf-8", written))
}

fn text(media: &'static str, text: String) -> Response {
    let mut response = Response::new(Body::from(text));
    *response.status_mut() = StatusCode::OK;
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(media));
    response
}
