//! A server in this process, and the program beside it.

use std::io::Write;
use std::net::SocketAddr;
use std::process::{Command, Stdio};
use std::time::Duration;

use pennantryd::catalogue::{self, SALTMERE_LOFT};
use pennantryd::clock::Clock;
use pennantryd::{Config, Running};
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::TcpStream;

/// The instant at which everything is asked: ten in the morning in London.
pub const NOW: &str = "2026-11-24T10:00:00Z";

/// A server on the demo shop.
pub async fn server() -> Running {
    let catalogue = catalogue::open(SALTMERE_LOFT).unwrap().into();
    let config = Config::local(catalogue, Clock::Fixed(NOW.parse().unwrap()));
    pennantryd::start(config).await.unwrap()
}

/// Stops a server.
pub async fn close(server: Running) {
    server.stop(Duration::from_secs(10)).await;
}

/// Runs `quote` to its end with flags, parted by `|`.
pub async fn run(server: Option<SocketAddr>, flags: &str) -> (i32, String, String) {
    command(server, &format!("quote|{flags}"), "").await
}

/// Runs the program to its end with a command and its flags, parted by `|`, no environment of
/// ours, and text on its standard input: exit code, standard output, standard error.
pub async fn command(server: Option<SocketAddr>, words: &str, input: &str) -> (i32, String, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_pennantry"));
    command
        .env_remove("PENNANTRY_SERVER")
        .args(words.split('|').filter(|word| !word.is_empty()))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    if let Some(server) = server {
        command.env("PENNANTRY_SERVER", format!("http://{server}"));
    }
    let input = input.to_owned();
    let ran = move || {
        let mut child = command.spawn().unwrap();
        // one that does not read it may be gone already
        let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
        child.wait_with_output().unwrap()
    };
    let output = tokio::task::spawn_blocking(ran).await.unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
}

/// What the JSON twin of the call answers: the bytes of its body.
pub async fn twin(private: SocketAddr, enquiry: &str) -> Vec<u8> {
    let body = format!(r#"{{"enquiry":{enquiry}}}"#);
    let head = format!(
        "POST /pennantry.v1.QuoteService/CalculateQuote HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\n\
         content-type: application/json\r\ncontent-length: {}\r\n\r\n",
        body.len()
    );
    let mut stream = TcpStream::connect(private).await.unwrap();
    stream.write_all((head + &body).as_bytes()).await.unwrap();
    let mut reply = Vec::new();
    stream.read_to_end(&mut reply).await.unwrap();
    let end = reply.windows(4).position(|four| four == b"\r\n\r\n").unwrap() + 4;
    let (head, body) = reply.split_at(end);
    assert!(head.starts_with(b"HTTP/1.1 200"), "{}", String::from_utf8_lossy(&reply));
    body.to_vec()
}
