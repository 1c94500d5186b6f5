//! How long a caller is waited for (cases B1 and B18 of the operators' list).

use std::time::Duration;

use tokio::time::Instant;

use super::{Caller, LONG, SHORT, ask, quote, server_with};
use crate::listen::Limits;

/// Little time for a head. Much between requests, so that it is not that which ends one.
fn impatient() -> Limits {
    Limits { head: SHORT, idle: LONG * 2, ..Limits::default() }
}

#[tokio::test]
async fn silence_and_half_a_head_are_closed_and_others_are_served() {
    let running = server_with(impatient()).await;
    let begun = Instant::now();
    let mut callers = Vec::new();
    for (address, said) in [
        (running.public(), ""),
        (running.public(), "GET /v1/catalogue HT"),
        (running.public(), "GET /v1/catalogue HTTP/1.1\r\nhost: localhost\r\nx-a:"),
        (running.private(), ""),
        (running.private(), "P"),
        (running.private(), "PR"),
        (running.private(), "POST /a HTTP/1.1\r\n"),
        (running.admin(), "GET /healthz"),
    ] {
        let mut caller = Caller::to(address).await;
        caller.send(said).await;
        callers.push((said, caller));
    }
    assert_eq!(ask(running.public(), quote()).await.status, 200, "meanwhile");
    for (said, caller) in &mut callers {
        assert!(caller.is_closed_within(LONG).await, "{said:?}");
    }
    assert!(begun.elapsed() >= SHORT, "not before their time");
    assert!(begun.elapsed() < LONG / 2, "{:?}", begun.elapsed());
}

/// A byte now and then does not buy more time.
#[tokio::test]
async fn a_head_that_trickles_is_closed() {
    let running = server_with(impatient()).await;
    let mut caller = Caller::to(running.public()).await;
    let begun = Instant::now();
    let mut closed = false;
    for byte in b"GET /v1/catalogue HTTP/1.1\r\nx-long-header-name: and-a-long-value".iter().cycle() {
        use tokio::io::AsyncWriteExt;
        if caller.stream.write_all(&[*byte]).await.is_err() || caller.is_closed_within(SHORT / 10).await {
            closed = true;
            break;
        }
        if begun.elapsed() > LONG {
            break;
        }
    }
    assert!(closed && begun.elapsed() >= SHORT);
}

#[tokio::test]
async fn between_requests_there_is_more_time_than_within_a_head() {
    let running = server_with(Limits { idle: SHORT * 4, ..impatient() }).await;
    let mut caller = Caller::to(running.public()).await;
    assert_eq!(caller.ask(quote()).await.status, 200);
    tokio::time::sleep(SHORT * 2).await;
    assert_eq!(caller.ask(quote()).await.status, 200, "still there after twice the time of a head");
    assert!(caller.is_closed_within(LONG).await, "but not for ever");
    // a second head that is begun and not ended has the time of a head
    let mut caller = Caller::to(running.public()).await;
    assert_eq!(caller.ask(quote()).await.status, 200);
    let begun = Instant::now();
    caller.send("POST /v1/quo").await;
    assert!(caller.is_closed_within(LONG).await);
    assert!(begun.elapsed() < SHORT * 3, "{:?}", begun.elapsed());
}

/// Who asks and does not take the answer is let go of.
#[tokio::test]
async fn an_answer_that_is_not_taken_is_given_up() {
    let running = server_with(Limits { write: SHORT, ..Limits::default() }).await;
    let mut caller = Caller::to(running.public()).await;
    let asked = async {
        // enough answers to fill every buffer on the way; a write fails once it is closed
        loop {
            use tokio::io::AsyncWriteExt;
            if caller.stream.write_all(quote().as_bytes()).await.is_err() {
                return;
            }
        }
    };
    tokio::time::timeout(LONG, asked).await.expect("let go of");
}

#[tokio::test]
async fn a_connection_over_the_limit_waits_for_another_to_close() {
    let running = server_with(Limits { connections: 2, ..Limits::default() }).await;
    let mut one = Caller::to(running.public()).await;
    let mut two = Caller::to(running.public()).await;
    assert_eq!((one.ask(quote()).await.status, two.ask(quote()).await.status), (200, 200));
    let mut three = Caller::to(running.public()).await;
    three.send(quote()).await;
    assert!(tokio::time::timeout(Duration::from_millis(200), three.next()).await.is_err());
    drop(one);
    assert_eq!(three.reply().await.status, 200);
}
