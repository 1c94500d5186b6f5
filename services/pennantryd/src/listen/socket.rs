//! A connection that watches its caller: heads and answers have to move.

use std::io;
use std::pin::Pin;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::task::{Context, Poll, ready};
use std::time::Duration;

use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::TcpStream;
use tokio::time::{Sleep, sleep};

/// What a connection is doing, shared between its socket and its requests.
#[derive(Debug, Default)]
pub struct Activity {
    begun: AtomicU64,
    ended: AtomicU64,
    writing: AtomicBool,
}

impl Activity {
    /// Counts a request whose head was read, until what comes back is dropped.
    pub fn begin(self: &Arc<Activity>) -> Busy {
        self.begun.fetch_add(1, Ordering::Relaxed);
        Busy(self.clone())
    }

    /// Requests begun so far.
    pub fn begun(&self) -> u64 {
        self.begun.load(Ordering::Relaxed)
    }

    /// Whether a request is being answered.
    pub fn is_busy(&self) -> bool {
        self.ended.load(Ordering::Relaxed) != self.begun()
    }

    /// Whether an answer is still being made, or waits to be taken.
    pub fn is_owing(&self) -> bool {
        self.is_busy() || self.writing.load(Ordering::Relaxed)
    }
}

/// A request that is being answered.
#[derive(Debug)]
pub struct Busy(Arc<Activity>);

impl Drop for Busy {
    fn drop(&mut self) {
        self.0.ended.fetch_add(1, Ordering::Relaxed);
    }
}

/// A socket on which a first head, a head once begun, and the taking of an answer each
/// have their time. Between requests it waits as long as it is let.
#[derive(Debug)]
pub struct Watched {
    stream: TcpStream,
    activity: Arc<Activity>,
    head: Duration,
    write: Duration,
    /// Requests begun when bytes came last.
    seen: u64,
    /// Bytes came that no request has taken yet.
    bytes: bool,
    head_timer: Option<Pin<Box<Sleep>>>,
    write_timer: Option<Pin<Box<Sleep>>>,
}

impl Watched {
    /// Watches a socket.
    pub fn new(stream: TcpStream, activity: Arc<Activity>, head: Duration, write: Duration) -> Watched {
        Watched { stream, activity, head, write, seen: 0, bytes: false, head_timer: None, write_timer: None }
    }

    /// What a read that has nothing comes to: to wait, or no longer.
    fn wait_for_head(&mut self, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        let begun = self.activity.begun();
        if begun != self.seen {
            (self.seen, self.bytes) = (begun, false);
        }
        let owed = !self.activity.is_busy() && (begun == 0 || self.bytes);
        if !owed {
            self.head_timer = None;
            return Poll::Pending;
        }
        let limit = self.head;
        let timer = self.head_timer.get_or_insert_with(|| Box::pin(sleep(limit)));
        ready!(timer.as_mut().poll(cx));
        Poll::Ready(Err(late("the head of a request took too long")))
    }

    fn wait_for_write<T>(
        &mut self,
        cx: &mut Context<'_>,
        written: Poll<io::Result<T>>,
    ) -> Poll<io::Result<T>> {
        if written.is_ready() {
            if self.write_timer.take().is_some() {
                self.activity.writing.store(false, Ordering::Relaxed);
            }
            return written;
        }
        self.activity.writing.store(true, Ordering::Relaxed);
        let limit = self.write;
        let timer = self.write_timer.get_or_insert_with(|| Box::pin(sleep(limit)));
        ready!(timer.as_mut().poll(cx));
        Poll::Ready(Err(late("the answer was not taken")))
    }
}

fn late(what: &'static str) -> io::Error {
    io::Error::new(io::ErrorKind::TimedOut, what)
}

impl AsyncRead for Watched {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        buf: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        let before = buf.filled().len();
        let read = Pin::new(&mut self.stream).poll_read(cx, buf);
        if read.is_pending() {
            return self.wait_for_head(cx);
        }
        if buf.filled().len() > before && !self.activity.is_busy() {
            (self.seen, self.bytes) = (self.activity.begun(), true);
        }
        read
    }
}

impl AsyncWrite for Watched {
    fn poll_write(mut self: Pin<&mut Self>, cx: &mut Context<'_>, buf: &[u8]) -> Poll<io::Result<usize>> {
        let written = Pin::new(&mut self.stream).poll_write(cx, buf);
        self.wait_for_write(cx, written)
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        bufs: &[io::IoSlice<'_>],
    ) -> Poll<io::Result<usize>> {
        let written = Pin::new(&mut self.stream).poll_write_vectored(cx, bufs);
        self.wait_for_write(cx, written)
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
