//! HTTP/1.1.

use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

use axum::body::Body;
use http::{Request, Response};
use hyper::body::Incoming;
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::net::{TcpListener, TcpStream};
use tower::Service;

use super::{Activity, Limits, Peer, Stop, Watched, accept};

/// Bytes of a head at most: ours are some hundred, and nothing is read from cookies.
const HEAD_BYTES: usize = 16 * 1024;
/// While stopping: how often a connection is looked at. One that was quiet at two looks
/// in a row owes and is owed nothing but a head that has not come.
const LOOK: Duration = Duration::from_millis(250);

/// Serves HTTP/1.1 on a listener until the stop, then finishes what is in flight.
pub async fn serve<S>(listener: TcpListener, service: S, limits: Arc<Limits>, stop: Stop)
where
    S: Service<Request<Body>, Response = Response<Body>, Error = Infallible> + Clone + Send + 'static,
    S::Future: Send,
{
    let ended = stop.clone();
    accept(listener, limits.connections, stop, |stream, permit| {
        let (service, limits, stop) = (service.clone(), limits.clone(), ended.clone());
        async move {
            connection(stream, service, &limits, stop).await;
            drop(permit);
        }
    })
    .await;
}

/// Serves one connection to its end.
pub async fn connection<S>(stream: TcpStream, service: S, limits: &Limits, stop: Stop)
where
    S: Service<Request<Body>, Response = Response<Body>, Error = Infallible> + Clone + Send + 'static,
    S::Future: Send,
{
    let peer = stream.peer_addr().ok().map(|address| Peer(address.ip().to_canonical()));
    let activity = Arc::new(Activity::default());
    let socket = Watched::new(stream, activity.clone(), limits.head, limits.write);
    let noted = activity.clone();
    let requests = service_fn(move |request: Request<Incoming>| {
        let busy = noted.begin();
        let mut request = request.map(Body::new);
        if let Some(peer) = peer {
            request.extensions_mut().insert(peer);
        }
        let answer = service.clone().call(request);
        async move {
            let answer = answer.await;
            drop(busy);
            answer
        }
    });
    let mut builder = http1::Builder::new();
    builder.timer(TokioTimer::new()).header_read_timeout(limits.idle).max_header_size(HEAD_BYTES);
    let mut connection = std::pin::pin!(builder.serve_connection(TokioIo::new(socket), requests));
    tokio::select! {
        ended = connection.as_mut() => return note(ended),
        () = stop.begun() => connection.as_mut().graceful_shutdown(),
    }
    let mut quiet = None;
    loop {
        tokio::select! {
            ended = connection.as_mut() => return note(ended),
            () = tokio::time::sleep(LOOK) => {
                let now = (!activity.is_owing()).then(|| activity.begun());
                if now.is_some() && now == quiet {
                    return tracing::debug!("closed a connection with no request on it");
                }
                quiet = now;
            }
        }
    }
}

fn note(ended: hyper::Result<()>) {
    if let Err(cause) = ended {
        tracing::debug!(%cause, "a connection ended early");
    }
}
