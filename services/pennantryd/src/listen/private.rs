//! The private port: gRPC and JSON side by side, told apart by the first bytes.

use std::convert::Infallible;
use std::io;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};
use std::time::Duration;

use axum::body::Body;
use http::{Request, Response};
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, mpsc};
use tonic::transport::server::{Connected, TcpConnectInfo};
use tower::Service;

use super::{Limits, Stop, accept, http1};

/// How an HTTP/2 connection begins (RFC 9113 section 3.4). No HTTP/1 method begins so.
const PREFACE: &[u8] = b"PRI";
/// How long to wait before looking again at a beginning that is too short to tell.
const AGAIN: Duration = Duration::from_millis(5);

/// Serves JSON over HTTP/1.1 by itself and hands HTTP/2 connections on, until the stop.
pub async fn serve<S>(
    listener: TcpListener,
    json: S,
    grpc: mpsc::Sender<Held>,
    limits: Arc<Limits>,
    stop: Stop,
    cut: Stop,
) where
    S: Service<Request<Body>, Response = Response<Body>, Error = Infallible> + Clone + Send + 'static,
    S::Future: Send,
{
    let ended = stop.clone();
    accept(listener, limits.connections, stop, |stream, permit| {
        let (json, grpc, limits) = (json.clone(), grpc.clone(), limits.clone());
        let (stop, cut) = (ended.clone(), cut.clone());
        async move {
            let first = tokio::select! {
                first = tokio::time::timeout(limits.head, sniff(&stream)) => first,
                () = stop.begun() => return,
            };
            match first {
                Ok(Ok(Protocol::Http2)) => {
                    // Refused only when the gRPC server has stopped.
                    let _ = grpc.send(Held::new(stream, permit, &cut)).await;
                }
                Ok(Ok(Protocol::Http1)) => http1::connection(stream, json, &limits, stop).await,
                Ok(Err(cause)) => tracing::debug!(%cause, "a connection ended before it began"),
                Err(_) => tracing::debug!("closed a connection that said nothing"),
            }
        }
    })
    .await;
}

enum Protocol {
    Http1,
    Http2,
}

async fn sniff(stream: &TcpStream) -> io::Result<Protocol> {
    let mut first = [0; PREFACE.len()];
    loop {
        let count = stream.peek(&mut first).await?;
        let begun = first.get(..count).unwrap_or_default();
        if begun == PREFACE {
            return Ok(Protocol::Http2);
        }
        if begun.is_empty() || !PREFACE.starts_with(begun) {
            return Ok(Protocol::Http1);
        }
        tokio::time::sleep(AGAIN).await;
    }
}

/// An HTTP/2 connection: it holds its place among the connections, and it can be cut.
pub struct Held {
    stream: TcpStream,
    _permit: OwnedSemaphorePermit,
    cut: Option<Pin<Box<dyn Future<Output = ()> + Send + Sync>>>,
}

impl Held {
    fn new(stream: TcpStream, permit: OwnedSemaphorePermit, cut: &Stop) -> Held {
        Held { stream, _permit: permit, cut: Some(Box::pin(cut.begun())) }
    }
}

impl Connected for Held {
    type ConnectInfo = TcpConnectInfo;

    fn connect_info(&self) -> TcpConnectInfo {
        self.stream.connect_info()
    }
}

impl AsyncRead for Held {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        buf: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        if let Some(cut) = &mut self.cut {
            if cut.as_mut().poll(cx).is_pending() {
                return Pin::new(&mut self.stream).poll_read(cx, buf);
            }
            self.cut = None;
        }
        Poll::Ready(Err(io::Error::new(io::ErrorKind::ConnectionAborted, "the server has stopped")))
    }
}

impl AsyncWrite for Held {
    fn poll_write(mut self: Pin<&mut Self>, cx: &mut Context<'_>, buf: &[u8]) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.stream).poll_write(cx, buf)
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        bufs: &[io::IoSlice<'_>],
    ) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.stream).poll_write_vectored(cx, bufs)
    }

    fn is_write_vectored(&self) -> bool {
        self.stream.is_write_vectored()
    }

    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_flush(cx)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(cx)
    }
}
