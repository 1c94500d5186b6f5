//! A fault of the program costs one answer, not a connection (case B36).

use std::sync::Arc;

use axum::Router;
use axum::routing::get as on_get;
use tokio::net::TcpListener;

use super::{Caller, config, get};
use crate::doors::route::Counted;
use crate::doors::stack;
use crate::listen::{Limits, http1, stop};
use crate::metrics::Metrics;
use crate::service::Service;

async fn broken() -> &'static str {
    panic!("the secret cause")
}

#[tokio::test]
async fn a_panic_is_told_without_its_cause_and_the_connection_goes_on() {
    let config = config();
    let metrics =
        Arc::new(Metrics::new(Arc::new(Service::new(config.catalogue, config.clock, super::keys()))));
    let router = Router::new().route("/broken", on_get(broken)).route("/whole", on_get(async || "whole"));
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let (_stopper, stop) = stop();
    let stack = stack(router, Counted::PUBLIC, metrics.clone());
    tokio::spawn(http1::serve(listener, stack, Arc::new(Limits::default()), stop));

    let mut caller = Caller::to(address).await;
    for _ in 0..2 {
        let reply = caller.ask(get("/broken")).await;
        assert_eq!((reply.status, reply.reason().as_str()), (500, "INTERNAL"));
        assert!(!String::from_utf8_lossy(&reply.body).contains("secret"), "{reply:?}");
        assert_eq!(caller.ask(get("/whole")).await.body, b"whole");
    }
    let text = metrics.text().unwrap();
    assert!(text.contains("pennantry_panics_total 2\n"), "{text}");
    assert_eq!(metrics.in_flight(), 0);
}
