//! Sockets: accepting them, giving each its time and no more, and letting go of them.
//!
//! The loops here exist because the stock ones have no time-out for a request's head: a
//! caller who sends nothing, or one byte at a time, would hold a connection for ever.

pub mod http1;
pub mod private;
mod socket;
mod stop;

use std::net::IpAddr;
use std::sync::Arc;
use std::time::Duration;

use pennantry_measure::bounds;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::task::JoinSet;

pub use socket::{Activity, Watched};
pub use stop::{Stop, Stopper, stop};

/// Where the caller of a request is, among what goes with the request.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Peer(pub IpAddr);

/// How much time and room a caller gets.
#[derive(Debug, Clone)]
pub struct Limits {
    /// From the first byte of a request, or from the connection, to the end of its head.
    pub head: Duration,
    /// Between two requests. Longer than the minute after which proxies in front let go of
    /// a connection, so that none sends into one that is just being closed here.
    pub idle: Duration,
    /// From the end of the head to the end of the body.
    pub body: Duration,
    /// For the next bytes of an answer to be taken.
    pub write: Duration,
    /// For a whole call over gRPC, and for one of the stock by any door.
    pub call: Duration,
    /// Between two signs of life on a stream on which nothing happens.
    pub beat: Duration,
    /// Connections of one listener at the same time; more wait in the system's queue. Three
    /// listeners with as many as this stay below 8 192 open files.
    pub connections: usize,
    /// Bytes of a body.
    pub body_bytes: usize,
    /// Bytes of a body where many pieces are received at once.
    pub receive_bytes: usize,
}

impl Default for Limits {
    fn default() -> Limits {
        Limits {
            head: Duration::from_secs(10),
            idle: Duration::from_secs(75),
            body: Duration::from_secs(20),
            write: Duration::from_secs(30),
            call: Duration::from_secs(30),
            beat: Duration::from_secs(15),
            connections: 2_500,
            body_bytes: bounds::BODY_BYTES,
            receive_bytes: bounds::RECEIVE_BYTES,
        }
    }
}

/// Accepts connections and serves each in a task of its own, until the stop; then waits
/// for all of them. Dropping this future lets go of them at once.
pub async fn accept<F, Fut>(listener: TcpListener, connections: usize, stop: Stop, serve: F)
where
    F: Fn(TcpStream, OwnedSemaphorePermit) -> Fut,
    Fut: Future<Output = ()> + Send + 'static,
{
    let permits = Arc::new(Semaphore::new(connections));
    let mut tasks = JoinSet::new();
    let mut begun = std::pin::pin!(stop.begun());
    loop {
        tokio::select! {
            biased;
            () = &mut begun => break,
            Some(_) = tasks.join_next() => {}
            Some((stream, permit)) = next(&listener, &permits) => { tasks.spawn(serve(stream, permit)); }
        }
    }
    drop(listener);
    while tasks.join_next().await.is_some() {}
}

async fn next(listener: &TcpListener, permits: &Arc<Semaphore>) -> Option<(TcpStream, OwnedSemaphorePermit)> {
    // The semaphore is never closed.
    let permit = permits.clone().acquire_owned().await.ok()?;
    loop {
        match listener.accept().await {
            Ok((stream, _)) => {
                // Answers are small: waiting to fill a segment would only delay them.
                if let Err(cause) = stream.set_nodelay(true) {
                    tracing::debug!(%cause, "a connection without TCP_NODELAY");
                }
                return Some((stream, permit));
            }
            Err(cause) => {
                // Out of file descriptors, most likely: others have to close first.
                tracing::warn!(%cause, "a connection could not be accepted");
                tokio::time::sleep(Duration::from_millis(50)).await;
            }
        }
    }
}
