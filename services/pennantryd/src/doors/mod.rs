//! The doors: how a call of the contract comes in and how what comes of it goes out.
//!
//! [`gateway`] is the public JSON, [`twin`] the private JSON, [`grpc`] the private gRPC,
//! [`watch`] what is told of the stock as it happens.
//! Each reads, calls the one [`Service`], and renders; a [`Failure`] is put into the words
//! of HTTP by [`problem`] and into those of gRPC by [`status`].

pub mod body;
pub mod buyer;
pub mod caller;
pub mod carry;
pub mod cors;
pub mod gateway;
pub mod grpc;
pub mod kept;
pub mod key;
pub mod origin;
pub mod problem;
pub mod report;
pub mod request_id;
pub mod route;
pub mod stack;
pub mod status;
pub mod twin;
pub mod watch;

use std::sync::Arc;
use std::time::Instant;

use axum::body::Body;
use axum::extract::Request;
use axum::response::Response;
use http::{HeaderValue, header};
use pennantry_contract::reasons::Kind;
use pennantry_contract::table;
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::failure::{Failure, violation};
use crate::json;
use crate::listen::{Limits, Stop};
use crate::metrics::Metrics;
use crate::service::{Caller, Door, Service};

pub use problem::Refusal;
pub use stack::{Stack, stack};

/// What a handler of JSON needs.
#[derive(Debug, Clone)]
pub struct Calls {
    /// The calls.
    pub service: Arc<Service>,
    /// Which door this is.
    pub door: Door,
    /// Time and room for a body.
    pub limits: Arc<Limits>,
    /// What is counted.
    pub metrics: Arc<Metrics>,
    /// Requests with a key that are being carried out.
    pub running: key::Running,
    /// The signal to stop, for what has no end of its own.
    pub stop: Stop,
}

impl Calls {
    /// Reads a message from the body of a request. `wrapped` is the field of the message
    /// that the public door takes as its whole body: paths are told from within it, so that
    /// a fault has the same path by every door and at both stages.
    async fn read<T: DeserializeOwned>(
        &self,
        message: &'static table::Message,
        wrapped: Option<&str>,
        request: Request,
    ) -> Result<T, Failure> {
        body::is_json(request.headers())?;
        let most = most_bytes(message, &self.limits);
        let bytes = body::read(request, most, &self.limits).await?;
        json::read(message, &bytes).map_err(|mut fault| {
            let inner = wrapped.and_then(|field| match fault.path.strip_prefix(field)? {
                "" => Some(String::new()),
                rest => rest.strip_prefix('.').map(str::to_owned),
            });
            fault.path = inner.unwrap_or(fault.path);
            Failure::from(fault)
        })
    }

    /// Who sends a request, and until when they wait for its answer.
    fn caller(&self, request: &Request) -> Caller {
        let deadline = Instant::now() + self.limits.call;
        caller::of(self.door, request.headers(), request.extensions(), deadline)
    }
}

/// Bytes of a request's body at most: more where many pieces come at once.
fn most_bytes(message: &table::Message, limits: &Limits) -> usize {
    let roomy = [table::RECEIVE_STOCK_REQUEST.name, table::CHECK_DELIVERY_REQUEST.name];
    if roomy.contains(&message.name) { limits.receive_bytes } else { limits.body_bytes }
}

/// An answer in JSON. It is of its moment: nobody on the way keeps it.
fn answer<T: Serialize>(message: &T) -> Result<Response, Refusal> {
    let bytes = json::write(message).map_err(|fault| Failure::internal(&fault.to_string()))?;
    let mut response = Response::new(Body::from(bytes));
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static("application/json"));
    Ok(response)
}

/// A part of a response that is always there.
fn part<T>(part: Option<T>) -> Result<T, Failure> {
    part.ok_or_else(|| Failure::internal("a response without its only field"))
}

impl From<json::Unreadable> for Failure {
    /// The first fault of a body, with its path.
    fn from(fault: json::Unreadable) -> Failure {
        let detail = format!("the request cannot be read: {fault}");
        let found = violation(&fault.path, fault.reason, fault.message);
        Failure { kind: Kind::Unreadable, detail, violations: vec![found] }
    }
}
