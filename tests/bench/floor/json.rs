//! The public door, or what is under it.

use std::sync::Arc;

use axum::Router;
use axum::body::{Body, Bytes};
use axum::extract::Request;
use axum::response::Response;
use axum::routing::post;
use http::{HeaderValue, header};
use pennantryd::doors::route::Counted;
use pennantryd::doors::{Calls, body, gateway, key, stack};
use pennantryd::failure::Failure;
use pennantryd::listen::{Limits, http1};
use pennantryd::service::Door;

use super::{Parts, Work};
use crate::work::Bench;

pub async fn serve(parts: Parts, work: Work) -> Option<()> {
    let Parts { service, metrics, limits, stop, listener } = parts;
    let router = if work == Work::Door {
        gateway::router(Calls {
            service,
            door: Door::Public,
            limits: limits.clone(),
            metrics: metrics.clone(),
            running: key::Running::default(),
            stop: stop.clone(),
        })
    } else {
        let bench = Arc::new(Bench::new(10_000)?);
        let canned = Bytes::from(bench.reply());
        let limits = limits.clone();
        let handler = move |request| answer(request, limits.clone(), work, bench.clone(), canned.clone());
        Router::new().route(pennantry_tests::client::QUOTES, post(handler))
    };
    http1::serve(listener, stack(router, Counted::PUBLIC, metrics), limits, stop).await;
    Some(())
}

async fn answer(
    request: Request,
    limits: Arc<Limits>,
    work: Work,
    bench: Arc<Bench>,
    canned: Bytes,
) -> Response {
    let read = match body::is_json(request.headers()) {
        Ok(()) => body::read(request, limits.body_bytes, &limits).await,
        Err(failure) => Err(failure),
    };
    match read {
        Ok(read) => {
            std::hint::black_box(&read);
            match work {
                Work::Calculate => {
                    std::hint::black_box(bench.calculate());
                }
                Work::Convert => {
                    std::hint::black_box(bench.convert());
                }
                Work::Nothing | Work::Door => {}
            }
            let mut response = Response::new(Body::from(canned));
            let json = HeaderValue::from_static("application/json");
            response.headers_mut().insert(header::CONTENT_TYPE, json);
            response
        }
        Err(Failure { detail, .. }) => Response::new(Body::from(detail)),
    }
}
