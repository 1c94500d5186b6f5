//! A server process to be loaded: the real public door, or the floor under it: the same
//! sockets, the same stack, the same reading of the body, and canned bytes for an answer;
//! or that floor with one part of the work done before the canned bytes are sent.

use std::process::ExitCode;
use std::sync::Arc;

use axum::Router;
use axum::body::{Body, Bytes};
use axum::extract::Request;
use axum::response::Response;
use axum::routing::post;
use http::{HeaderValue, header};
use pennantryd::catalogue::{SALTMERE_LOFT, open};
use pennantryd::clock::Clock;
use pennantryd::doors::route::Counted;
use pennantryd::doors::{Calls, body, gateway, key, stack};
use pennantryd::failure::Failure;
use pennantryd::listen::{Limits, http1, stop};
use pennantryd::metrics::Metrics;
use pennantryd::service::{Door, Service};
use pennantryd::ticket::Keys;

use crate::work::Bench;

/// What is done for each request.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Work {
    /// Nothing: the floor, F.
    Nothing,
    /// The calculation, C, on top of the floor.
    Calculate,
    /// Reading, converting and writing, K, on top of the floor.
    Convert,
    /// All of it by the real door, D.
    Door,
}

/// Serves until it is killed; the first line it prints is its port.
pub fn serve(work: Work) -> ExitCode {
    let Ok(runtime) = tokio::runtime::Builder::new_multi_thread().enable_all().build() else {
        return ExitCode::FAILURE;
    };
    let served = runtime.block_on(run(work));
    if served.is_some() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

async fn run(work: Work) -> Option<()> {
    let limits = Arc::new(Limits::default());
    let service =
        Arc::new(Service::new(open(SALTMERE_LOFT).ok()?.into(), Clock::System, Keys::fresh().ok()?));
    let metrics = Arc::new(Metrics::new(service.clone()));
    let (_stopper, stop) = stop();
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
        Router::new().route("/v1/quotes", post(handler))
    };
    let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await.ok()?;
    println!("{}", listener.local_addr().ok()?.port());
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
