//! What every HTTP door does around its handlers: the request's id, the count, the catch
//! for panics, problems in JSON, and headers.

use std::any::Any;
use std::convert::Infallible;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};

use axum::body::Body;
use axum::response::{IntoResponse, Response};
use axum::{Router, extract::Request};
use http::{HeaderValue, header};
use pennantry_contract::reasons::Kind;
use tower::Service;
use tower_http::catch_panic::{CatchPanic, ResponseForPanic};

use super::problem::{self, Refusal};
use super::request_id;
use super::route::Counted;
use crate::failure::Failure;
use crate::metrics::Metrics;

/// A router with all that is around it.
#[derive(Debug, Clone)]
pub struct Stack {
    inner: CatchPanic<Router, Panicked>,
    metrics: Arc<Metrics>,
    counted: Counted,
}

/// Puts around a router what every HTTP door has around its handlers.
///
/// A path that the router does not have and a method that a path does not have are
/// problems in JSON too.
pub fn stack(router: Router, counted: Counted, metrics: Arc<Metrics>) -> Stack {
    let router = router.fallback(nothing_there).method_not_allowed_fallback(not_that_way);
    Stack { inner: CatchPanic::custom(router, Panicked(metrics.clone())), metrics, counted }
}

impl Service<Request> for Stack {
    type Response = Response;
    type Error = Infallible;
    type Future = Pin<Box<dyn Future<Output = Result<Response, Infallible>> + Send>>;

    fn poll_ready(&mut self, cx: &mut Context<'_>) -> Poll<Result<(), Infallible>> {
        Service::<Request>::poll_ready(&mut self.inner, cx)
    }

    fn call(&mut self, request: Request) -> Self::Future {
        let (counted, metrics) = (self.counted, self.metrics.clone());
        let id = request_id::of(request.headers());
        let route = counted.routes.name(request.uri().path());
        let in_flight = metrics.begin();
        let answer = self.inner.call(request);
        Box::pin(async move {
            let mut response = answer.await?.map(Body::new);
            problem::render(&mut response, &id);
            let status = response.status().as_u16();
            counted.answered(&metrics, route, status);
            tracing::debug!(door = counted.door, route, status, request = ?id, "answered");
            if status >= 500 {
                tracing::warn!(door = counted.door, route, status, request = ?id, "answered with a fault");
            }
            finish(&mut response, id);
            drop(in_flight);
            Ok(response)
        })
    }
}

fn finish(response: &mut Response, id: HeaderValue) {
    let headers = response.headers_mut();
    headers.insert(request_id::HEADER, id);
    headers.insert(header::X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    headers.entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
}

async fn nothing_there(request: Request) -> Refusal {
    let path: String = request.uri().path().chars().take(200).collect();
    Refusal::from(Failure::new(Kind::NotFound, format!("nothing is found at {path}: look at the path again")))
}

async fn not_that_way(request: Request) -> Refusal {
    let method: String = request.method().as_str().chars().take(20).collect();
    let detail = format!("{method} is not done here: the header Allow lists what is");
    Refusal::from(Failure::new(Kind::MethodNotAllowed, detail))
}

/// What a panic becomes: logged, counted, told as a fault without its cause.
#[derive(Debug, Clone)]
struct Panicked(Arc<Metrics>);

impl ResponseForPanic for Panicked {
    type ResponseBody = Body;

    fn response_for_panic(&mut self, panic: Box<dyn Any + Send + 'static>) -> Response {
        self.0.panicked();
        Refusal::from(Failure::internal(words(panic.as_ref()))).into_response()
    }
}

/// The words that a panic was given.
pub(super) fn words(panic: &(dyn Any + Send)) -> &str {
    let text = panic.downcast_ref::<&str>().copied();
    text.or_else(|| panic.downcast_ref::<String>().map(String::as_str)).unwrap_or("a panic without words")
}
