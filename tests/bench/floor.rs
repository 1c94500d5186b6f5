//! A server process to be loaded: a real door, or the floor under it: the same sockets, the same
//! stack, the same taking of the body, and canned bytes for an answer; or that floor with one part
//! of the work done before the canned bytes are sent.

mod grpc;
mod json;

use std::process::ExitCode;
use std::sync::Arc;

use pennantry_tests::client::Way;
use pennantryd::catalogue::{SALTMERE_LOFT, open};
use pennantryd::clock::Clock;
use pennantryd::listen::{Limits, Stop, stop};
use pennantryd::metrics::Metrics;
use pennantryd::service::Service;
use pennantryd::ticket::Keys;
use tokio::net::TcpListener;

/// What is done for each request.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
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

/// Names of the servers of one way: F, with C, with K, D.
pub const fn servers(way: Way) -> [&'static str; 4] {
    match way {
        Way::Json => ["floor", "calc", "convert", "door"],
        Way::Grpc => ["floor-grpc", "calc-grpc", "convert-grpc", "door-grpc"],
    }
}

/// What every server is made of.
struct Parts {
    service: Arc<Service>,
    metrics: Arc<Metrics>,
    limits: Arc<Limits>,
    stop: Stop,
    listener: TcpListener,
}

/// Serves until it is killed; the first line it prints is its port.
pub fn serve(name: &str) -> ExitCode {
    let works = [Work::Nothing, Work::Calculate, Work::Convert, Work::Door];
    let of = |way| servers(way).into_iter().zip(works).map(move |(server, work)| (server, way, work));
    let found = of(Way::Json).chain(of(Way::Grpc)).find(|(server, ..)| *server == name);
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build();
    let (Some((_, way, work)), Ok(runtime)) = (found, runtime) else { return ExitCode::FAILURE };
    let served = runtime.block_on(run(way, work));
    if served.is_some() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

async fn run(way: Way, work: Work) -> Option<()> {
    let catalogue = open(SALTMERE_LOFT).ok()?.into();
    let service = Arc::new(Service::new(catalogue, Clock::System, Keys::fresh().ok()?));
    let metrics = Arc::new(Metrics::new(service.clone()));
    let (_stopper, stop) = stop();
    let listener = TcpListener::bind("127.0.0.1:0").await.ok()?;
    println!("{}", listener.local_addr().ok()?.port());
    let parts = Parts { service, metrics, limits: Arc::new(Limits::default()), stop, listener };
    match way {
        Way::Json => json::serve(parts, work).await,
        Way::Grpc => grpc::serve(parts, work).await,
    }
}
