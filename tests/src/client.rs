//! Clients that ask the same question again and again on one connection, as cheaply as can be.

use std::io::{Read, Write};
use std::net::TcpStream;

use bytes::Bytes;
use http::uri::PathAndQuery;
use tokio::runtime::Runtime;
use tonic::client::Grpc;
use tonic::transport::{Channel, Endpoint};

use crate::raw::Raw;

/// Where quotes are asked for in JSON.
pub const QUOTES: &str = "/v1/quotes";
/// Where they are asked for over gRPC.
pub const CALL: &str = "/pennantry.v1.QuoteService/CalculateQuote";

/// How a question goes to a server.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// JSON over HTTP/1.1.
    Json,
    /// gRPC over HTTP/2.
    Grpc,
}

/// A fault in words.
fn told(fault: impl std::fmt::Display) -> String {
    fault.to_string()
}

/// A connection that stays open.
#[derive(Debug)]
pub enum Client {
    /// Of JSON.
    Json(TcpStream),
    /// Of gRPC, with what drives it.
    Grpc(Box<Runtime>, Box<Grpc<Channel>>),
}

impl Client {
    /// Connects to a port of this machine.
    ///
    /// # Errors
    /// Nobody is there.
    pub fn connect(way: Way, port: u16) -> Result<Client, String> {
        match way {
            Way::Json => Ok(Client::Json(connect(port)?)),
            Way::Grpc => {
                let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
                let runtime = runtime.map_err(told)?;
                let endpoint = Endpoint::from_shared(format!("http://127.0.0.1:{port}"))
                    .map_err(told)?
                    .tcp_nodelay(true);
                let channel = runtime.block_on(endpoint.connect()).map_err(told)?;
                let calls = Grpc::new(channel).max_decoding_message_size(64 * 1024 * 1024);
                Ok(Client::Grpc(Box::new(runtime), Box::new(calls)))
            }
        }
    }

    /// Asks, and gives the answer as bytes.
    ///
    /// # Errors
    /// It is not answered.
    pub fn ask(&mut self, question: &[u8]) -> Result<Vec<u8>, String> {
        match self {
            Client::Json(stream) => exchange(stream, QUOTES, question),
            Client::Grpc(runtime, calls) => {
                let question = Bytes::copy_from_slice(question);
                let answer = runtime.block_on(async {
                    calls.ready().await.map_err(told)?;
                    let path = PathAndQuery::from_static(CALL);
                    calls.unary(tonic::Request::new(question), path, Raw).await.map_err(told)
                })?;
                Ok(answer.into_inner().into())
            }
        }
    }
}

/// A connection to a server of this machine.
///
/// # Errors
/// Nobody is there.
pub fn connect(port: u16) -> Result<TcpStream, String> {
    let stream = TcpStream::connect(("127.0.0.1", port)).map_err(told)?;
    stream.set_nodelay(true).map_err(told)?;
    Ok(stream)
}

/// One request of JSON on a connection that stays open.
///
/// # Errors
/// It is not answered with 200.
pub fn exchange(stream: &mut TcpStream, path: &str, question: &[u8]) -> Result<Vec<u8>, String> {
    let head = format!(
        "POST {path} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n",
        question.len()
    );
    let mut request = head.into_bytes();
    request.extend_from_slice(question);
    stream.write_all(&request).map_err(told)?;
    let mut got = Vec::new();
    let mut part = vec![0_u8; 64 * 1024];
    loop {
        let count = stream.read(&mut part).map_err(told)?;
        if count == 0 {
            return Err(String::from("the server closed the connection"));
        }
        got.extend_from_slice(part.get(..count).unwrap_or_default());
        let Some(end) = got.windows(4).position(|w| w == b"\r\n\r\n") else { continue };
        let head = String::from_utf8_lossy(got.get(..end).unwrap_or_default()).to_ascii_lowercase();
        if !head.starts_with("http/1.1 200") {
            return Err(format!("not answered: {head}"));
        }
        let length: usize = head
            .lines()
            .find_map(|line| line.strip_prefix("content-length: "))
            .and_then(|n| n.parse().ok())
            .ok_or("no content length")?;
        if got.len() >= end + 4 + length {
            return Ok(got.split_off(end + 4));
        }
    }
}
