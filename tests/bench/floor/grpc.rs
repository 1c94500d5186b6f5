//! The private gRPC, or what is under it: the library's own server, which hands the message on as
//! the bytes that it is.

use std::convert::Infallible;
use std::future::{Future, Ready, ready};
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};

use bytes::Bytes;
use http::{Request, Response};
use pennantry_tests::raw::Raw;
use pennantryd::doors::route::Counted;
use pennantryd::doors::{grpc, stack};
use pennantryd::listen::private;
use tokio::sync::mpsc;
use tokio_stream::StreamExt;
use tokio_stream::wrappers::ReceiverStream;
use tonic::body::Body;
use tonic::server::{Grpc, NamedService, UnaryService};

use super::{Parts, Work};
use crate::work::Bench;

pub async fn serve(parts: Parts, work: Work) -> Option<()> {
    let Parts { service, metrics, limits, stop, listener } = parts;
    let (to_grpc, incoming) = mpsc::channel(1);
    let no_json = stack(axum::Router::new(), Counted::PRIVATE, metrics.clone());
    tokio::spawn(private::serve(listener, no_json, to_grpc, limits.clone(), stop.clone(), stop.clone()));
    if work == Work::Door {
        let (health, _) = tonic_health::server::health_reporter();
        return grpc::serve(service, incoming, health, false, metrics, limits, stop).await.ok();
    }
    let bench = Arc::new(Bench::new(10_000)?);
    let reply = Bytes::from(bench.answered());
    let incoming = ReceiverStream::new(incoming).map(Ok::<_, Infallible>);
    let floor = Floor { bench, work, reply };
    grpc::server(metrics, limits).add_service(floor).serve_with_incoming(incoming).await.ok()
}

/// Answers canned bytes.
#[derive(Clone)]
struct Floor {
    bench: Arc<Bench>,
    work: Work,
    reply: Bytes,
}

impl NamedService for Floor {
    const NAME: &'static str = "pennantry.v1.QuoteService";
}

impl UnaryService<Bytes> for Floor {
    type Response = Bytes;
    type Future = Ready<Result<tonic::Response<Bytes>, tonic::Status>>;

    fn call(&mut self, request: tonic::Request<Bytes>) -> Self::Future {
        match self.work {
            Work::Calculate => {
                std::hint::black_box(self.bench.calculate());
            }
            Work::Convert => {
                std::hint::black_box(self.bench.convert_message(request.get_ref()));
            }
            Work::Nothing | Work::Door => {
                std::hint::black_box(request.get_ref());
            }
        }
        ready(Ok(tonic::Response::new(self.reply.clone())))
    }
}

impl tower::Service<Request<Body>> for Floor {
    type Response = Response<Body>;
    type Error = Infallible;
    type Future = Pin<Box<dyn Future<Output = Result<Response<Body>, Infallible>> + Send>>;

    fn poll_ready(&mut self, _: &mut Context<'_>) -> Poll<Result<(), Infallible>> {
        Poll::Ready(Ok(()))
    }

    fn call(&mut self, request: Request<Body>) -> Self::Future {
        let floor = self.clone();
        Box::pin(async move { Ok(Grpc::new(Raw).unary(floor, request).await) })
    }
}
