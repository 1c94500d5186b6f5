//! Which pages may ask at the public door: those of every origin.
//!
//! The door knows nobody by what a browser adds by itself (no cookie, no password of HTTP), so a
//! page of another origin can do nothing here that its server could not. Errors and answers to
//! repeated requests can be read like any other answer (Fetch standard, section 3.3, CORS).

use std::time::Duration;

use http::{Method, header};
use tower::Layer;
use tower_http::cors::{Any, Cors, CorsLayer};

use super::{key, request_id};

/// For how long a browser need not ask again whether it may ask.
const KEPT: Duration = Duration::from_hours(1);

/// The same service, for pages of any origin.
pub fn any_origin<S>(service: S) -> Cors<S> {
    let layer = CorsLayer::new()
        .allow_origin(Any)
        .allow_methods([Method::GET, Method::POST, Method::DELETE])
        .allow_headers([header::CONTENT_TYPE, header::AUTHORIZATION, key::HEADER])
        .expose_headers([header::ETAG, header::RETRY_AFTER, request_id::HEADER, key::REPLAYED])
        .max_age(KEPT);
    layer.layer(service)
}
