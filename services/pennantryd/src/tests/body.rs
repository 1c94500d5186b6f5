//! Bodies: so many bytes, in so much time.

use std::time::Duration;

use tokio::io::AsyncWriteExt;
use tokio::time::timeout;

use super::{Caller, LONG, QUOTE, SHORT, ask, post, quote, server, server_with};
use crate::listen::Limits;

const MOST: usize = 64 * 1024;

fn padded(bytes: usize) -> String {
    format!("{QUOTE}{}", " ".repeat(bytes - QUOTE.len()))
}

fn chunked(body: &str, piece: usize) -> Vec<u8> {
    let head = "POST /v1/quotes HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\ntransfer-encoding: chunked\r\n\r\n";
    let mut bytes = head.as_bytes().to_vec();
    for piece in body.as_bytes().chunks(piece) {
        bytes.extend(format!("{:x}\r\n", piece.len()).as_bytes());
        bytes.extend(piece);
        bytes.extend(b"\r\n");
    }
    bytes.extend(b"0\r\n\r\n");
    bytes
}

/// As case B19 of the operators' list: the limit and one byte to either side of it, with
/// the length said and not.
#[tokio::test]
async fn a_body_over_the_limit_is_refused_said_or_not() {
    let running = server().await;
    let twin = "/pennantry.v1.QuoteService/CalculateQuote";
    for (bytes, status) in [(MOST - 1, 200), (MOST, 200), (MOST + 1, 413), (20 * MOST, 413)] {
        let body = padded(bytes);
        let whole = format!("{{\"enquiry\":{QUOTE}}}{}", " ".repeat(bytes - QUOTE.len() - 12));
        for (door, request) in [
            (running.public(), post("/v1/quotes", &body).into_bytes()),
            (running.public(), chunked(&body, 1000)),
            (running.private(), post(twin, &whole).into_bytes()),
        ] {
            let reply = ask(door, request).await;
            assert_eq!(reply.status, status, "{bytes} bytes");
            if status == 413 {
                assert_eq!(reply.reason(), "TOO_LARGE");
                assert!(reply.problem()["detail"].as_str().unwrap().contains("65536"));
            }
        }
    }
}

#[tokio::test]
async fn a_body_said_to_be_too_large_is_not_waited_for() {
    let running = server().await;
    let head = "POST /v1/quotes HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\ncontent-length: 1073741824\r\n";
    let waiting = format!("{head}expect: 100-continue\r\n\r\n");
    let reply = timeout(SHORT * 3, ask(running.public(), waiting)).await.expect("told at once");
    assert_eq!((reply.status, reply.reason().as_str()), (413, "TOO_LARGE"));
    // who sends on regardless is listened to for a while and then told
    let mut caller = Caller::to(running.public()).await;
    caller.send(format!("{head}\r\n")).await;
    let flood = vec![b' '; MOST];
    let mut sent = 0_usize;
    while sent < 16 * 1024 * 1024 && caller.stream.write_all(&flood).await.is_ok() {
        sent += flood.len();
    }
    assert!(sent < 16 * 1024 * 1024, "all of it was taken");
}

#[tokio::test]
async fn who_waits_to_go_on_is_told_to() {
    let running = server().await;
    let (head, body) = {
        let all = quote();
        let at = all.len() - QUOTE.len();
        (all[..at].to_owned(), QUOTE)
    };
    let mut caller = Caller::to(running.public()).await;
    let first =
        caller.ask(head.replacen("host: localhost", "host: localhost\r\nexpect: 100-continue", 1)).await;
    assert_eq!(first.status, 100);
    assert_eq!(caller.ask(body).await.status, 200);
}

/// A length that is too small leaves bytes that are no request; one that is too large is
/// waited for, so long and no longer.
#[tokio::test]
async fn a_length_that_lies_is_found_out() {
    let running = server_with(Limits { body: SHORT, ..Limits::default() }).await;
    let mut caller = Caller::to(running.public()).await;
    let lie = |length: usize| {
        quote().replacen(&format!("content-length: {}", QUOTE.len()), &format!("content-length: {length}"), 1)
    };
    assert_eq!(caller.ask(lie(QUOTE.len() - 1)).await.reason(), "UNREADABLE");
    assert_eq!(caller.reply().await.status, 400, "what is left over");
    let mut caller = Caller::to(running.public()).await;
    let reply = caller.ask(lie(QUOTE.len() + 1)).await;
    assert_eq!((reply.status, reply.reason().as_str()), (504, "DEADLINE_EXCEEDED"));
    assert!(caller.is_closed_within(LONG).await);
    assert_eq!(ask(running.public(), lie(QUOTE.len())).await.status, 200);
}

#[tokio::test]
async fn a_body_that_trickles_is_given_up() {
    let running = server_with(Limits { body: SHORT, ..Limits::default() }).await;
    let mut caller = Caller::to(running.public()).await;
    let request = post("/v1/quotes", &padded(1000));
    caller.send(&request[..200]).await;
    let trickle = async {
        loop {
            tokio::time::sleep(Duration::from_millis(40)).await;
            if caller.stream.write_all(b" ").await.is_err() {
                return;
            }
            if let Ok(Some(reply)) = timeout(Duration::from_millis(1), caller.next()).await {
                assert_eq!((reply.status, reply.reason().as_str()), (504, "DEADLINE_EXCEEDED"));
                return;
            }
        }
    };
    timeout(LONG, trickle).await.expect("it was given up");
    assert_eq!(ask(running.public(), quote()).await.status, 200);
}
