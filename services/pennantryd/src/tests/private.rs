//! The private port: JSON beside gRPC.

use std::time::Duration;

use pennantry_contract::v1;
use pennantry_contract::v1::quote_service_client::QuoteServiceClient;

use super::{Caller, LONG, QUOTE, ask, get, post, server};

const QUOTE_PATH: &str = "/pennantry.v1.QuoteService/CalculateQuote";

fn whole() -> String {
    post(QUOTE_PATH, &format!("{{\"enquiry\":{QUOTE}}}"))
}

#[tokio::test]
async fn json_and_grpc_share_the_port() {
    let running = server().await;
    let mut client = QuoteServiceClient::connect(format!("http://{}", running.private())).await.unwrap();
    let length = Some(v1::enquiry::Length::FlaggedMm(6200.0));
    let enquiry = Some(v1::Enquiry { length, ..v1::Enquiry::default() });
    let grpc = client.calculate_quote(v1::CalculateQuoteRequest { enquiry }).await.unwrap().into_inner();
    let reply = ask(running.private(), whole()).await;
    let json: v1::CalculateQuoteResponse = serde_json::from_slice(&reply.body).unwrap();
    assert_eq!(json, grpc);
    assert_eq!(json.quote.unwrap().layout.unwrap().pennant_count, 29);
    drop(client);
    assert!(running.stop(LONG).await);
}

#[tokio::test]
async fn the_shops_view_is_given_here() {
    let running = server().await;
    let body = r#"{"enquiry":{"flaggedMm":6200,"view":"VIEW_SHOP"}}"#;
    let reply = ask(running.private(), post(QUOTE_PATH, body)).await;
    assert!(!reply.json()["quote"]["price"]["cost"]["lines"].as_array().unwrap().is_empty());
}

#[tokio::test]
async fn the_first_bytes_may_come_one_by_one() {
    let running = server().await;
    let mut caller = Caller::to(running.private()).await;
    let request = whole();
    for piece in [&request[..1], &request[1..2], &request[2..3]] {
        caller.send(piece).await;
        tokio::time::sleep(Duration::from_millis(15)).await;
    }
    assert_eq!(caller.ask(&request[3..]).await.status, 200);
}

#[tokio::test]
async fn what_is_neither_is_refused() {
    let running = server().await;
    // a TLS greeting, the protocol's own word, and a half preface
    for said in [
        &b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc"[..],
        b"hello\r\n\r\n",
        b"PRI * HTTP/2.0\r\n\r\nXX\r\n\r\nxxxxx",
    ] {
        let mut caller = Caller::to(running.private()).await;
        caller.send(said).await;
        let first = tokio::time::timeout(LONG, caller.next()).await.expect("told, or closed");
        assert!(first.is_none_or(|reply| reply.status == 400), "{said:?}");
    }
    let cases = [
        (get(QUOTE_PATH), 405),
        (post("/pennantry.v1.QuoteService/NoSuch", "{}"), 404),
        (post("/v1/quotes", QUOTE), 404),
        (post(QUOTE_PATH, QUOTE), 400),
        (whole().replacen("application/json", "application/grpc", 1), 415),
    ];
    for (request, status) in cases {
        let reply = ask(running.private(), &request).await;
        assert_eq!(reply.status, status, "{request}");
        reply.problem();
    }
}
