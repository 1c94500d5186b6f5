//! Servers in this process, and callers who send them bytes over real sockets.

mod body;
mod gateway;
mod grpc;
mod life;
mod locked;
mod panics;
mod patience;
#[path = "../../../../tests/postgres.rs"]
pub(crate) mod postgres;
mod private;
mod reservations;
mod stock;
mod tickets;
mod watch;

use std::net::SocketAddr;
use std::time::Duration;

use serde_json::Value;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::TcpStream;
use tokio::time::timeout;

use crate::catalogue::{self, SALTMERE_LOFT};
use crate::clock::Clock;
use crate::listen::Limits;
use crate::ticket::Keys;
use crate::{Config, Running, start};

/// Longer than anything here takes, on a busy machine too.
pub(crate) const LONG: Duration = Duration::from_secs(20);
/// A limit that a test waits for.
const SHORT: Duration = Duration::from_millis(300);

fn demo() -> pennantry_app::Catalogue {
    catalogue::open(SALTMERE_LOFT).unwrap().into()
}

pub(crate) fn config() -> Config {
    Config::local(demo(), Clock::Fixed("2026-11-24T10:00:00Z".parse().unwrap()))
}

fn keys() -> Keys {
    Keys::fresh().unwrap()
}

async fn server() -> Running {
    start(config()).await.unwrap()
}

async fn server_with(limits: Limits) -> Running {
    start(Config { limits, ..config() }).await.unwrap()
}

const QUOTE: &str = r#"{"flaggedMm":6200}"#;

/// A good request for a quote that asks to keep the connection.
fn quote() -> String {
    post("/v1/quotes", QUOTE)
}

fn post(path: &str, body: &str) -> String {
    let length = body.len();
    format!(
        "POST {path} HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\ncontent-length: {length}\r\n\r\n{body}"
    )
}

pub(crate) fn get(path: &str) -> String {
    format!("GET {path} HTTP/1.1\r\nhost: localhost\r\n\r\n")
}

/// Somebody with a socket.
struct Caller {
    stream: TcpStream,
    read: Vec<u8>,
}

/// What came back.
#[derive(Debug)]
pub(crate) struct Reply {
    pub(crate) status: u16,
    head: String,
    pub(crate) body: Vec<u8>,
}

impl Reply {
    /// The value of a header, by its name in small letters.
    pub(crate) fn header(&self, name: &str) -> Option<&str> {
        let lines = self.head.lines().filter_map(|line| line.split_once(": "));
        lines.into_iter().find(|(key, _)| key.eq_ignore_ascii_case(name)).map(|(_, value)| value)
    }

    pub(crate) fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|fault| panic!("{fault}: {self:?}"))
    }

    /// The problem, after checking that it is one and whole.
    fn problem(&self) -> Value {
        assert_eq!(self.header("content-type"), Some("application/problem+json"), "{self:?}");
        let problem = self.json();
        assert_eq!(problem["status"], self.status, "{problem}");
        assert_eq!(problem["requestId"].as_str(), self.header("x-request-id"), "{problem}");
        let reason = problem["reason"].as_str().unwrap();
        assert_eq!(problem["type"], format!("urn:pennantry:problem:{reason}"));
        assert!(
            problem["violations"].is_array() && problem["title"].is_string() && problem["detail"].is_string()
        );
        problem
    }

    fn reason(&self) -> String {
        self.problem()["reason"].as_str().unwrap().to_owned()
    }
}

impl Caller {
    async fn to(address: SocketAddr) -> Caller {
        Caller { stream: TcpStream::connect(address).await.unwrap(), read: Vec::new() }
    }

    async fn send(&mut self, bytes: impl AsRef<[u8]>) {
        self.stream.write_all(bytes.as_ref()).await.unwrap();
    }

    async fn ask(&mut self, bytes: impl AsRef<[u8]>) -> Reply {
        self.send(bytes).await;
        self.reply().await
    }

    /// The next answer on this connection.
    async fn reply(&mut self) -> Reply {
        let reply = timeout(LONG, self.next()).await.expect("an answer in time");
        reply.expect("an answer, not the end of the connection")
    }

    async fn next(&mut self) -> Option<Reply> {
        let head_end = loop {
            if let Some(at) = self.read.windows(4).position(|window| window == b"\r\n\r\n") {
                break at + 4;
            }
            self.more().await?;
        };
        let head = String::from_utf8(self.read.drain(..head_end).collect()).unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        let mut reply = Reply { status, head, body: Vec::new() };
        let length: usize = reply.header("content-length").map_or(0, |length| length.parse().unwrap());
        while self.read.len() < length {
            self.more().await?;
        }
        reply.body = self.read.drain(..length).collect();
        Some(reply)
    }

    async fn more(&mut self) -> Option<()> {
        match self.stream.read_buf(&mut self.read).await {
            Ok(0) | Err(_) => None,
            Ok(_) => Some(()),
        }
    }

    /// Whether the other side closes the connection in so much time, saying nothing more.
    async fn is_closed_within(&mut self, limit: Duration) -> bool {
        timeout(limit, self.next()).await.is_ok_and(|last| last.is_none())
    }
}

pub(crate) async fn ask(address: SocketAddr, bytes: impl AsRef<[u8]>) -> Reply {
    Caller::to(address).await.ask(bytes).await
}

async fn metric(running: &Running, line: &str) -> u64 {
    let text = String::from_utf8(ask(running.admin(), get("/metrics")).await.body).unwrap();
    let value = text.lines().find_map(|found| found.strip_prefix(line));
    value.map_or(0, |value| value.trim().parse().unwrap())
}
