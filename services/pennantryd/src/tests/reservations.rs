//! Reservations at the public door.

use serde_json::{Value, json};

use super::{QUOTE, Reply, ask, get, metric, post, server};
use crate::Running;

async fn token(running: &Running) -> String {
    let reply = ask(running.public(), post("/v1/quotes", QUOTE)).await;
    reply.json()["token"].as_str().unwrap().to_owned()
}

fn with_key(request: &str, key: &str) -> String {
    request.replacen("host: localhost", &format!("host: localhost\r\nidempotency-key: {key}"), 1)
}

fn delete(path: &str) -> String {
    format!("DELETE {path} HTTP/1.1\r\nhost: localhost\r\n\r\n")
}

fn told(reply: &Reply) -> (u16, String, Option<String>) {
    let problem = reply.problem();
    let field = problem["violations"][0]["field"].as_str().map(str::to_owned);
    (reply.status, problem["reason"].as_str().unwrap().to_owned(), field)
}

#[tokio::test]
async fn what_changes_something_needs_a_key() {
    let running = server().await;
    let hold = format!(r#"{{"token":"{}"}}"#, token(&running).await);
    for (path, body) in [
        ("/v1/reservations", hold.as_str()),
        ("/v1/reservations/r1/extend", "{}"),
        ("/v1/reservations/r1/confirm", r#"{"orderReference":"7"}"#),
    ] {
        let reply = ask(running.public(), post(path, body)).await;
        assert_eq!(
            told(&reply),
            (400, "INVALID_ENQUIRY".to_owned(), Some("Idempotency-Key".to_owned())),
            "{path}"
        );
        assert_eq!(reply.problem()["violations"][0]["reason"], "MISSING");
        let reply = ask(running.public(), with_key(&post(path, body), "a b")).await;
        assert_eq!(reply.problem()["violations"][0]["reason"], "BAD_TEXT", "{path}");
        let two = with_key(&with_key(&post(path, body), "a"), "a");
        assert_eq!(
            ask(running.public(), two).await.problem()["violations"][0]["reason"],
            "REPEATED",
            "{path}"
        );
        // reading comes before checking
        assert_eq!(ask(running.public(), post(path, "{")).await.reason(), "UNREADABLE", "{path}");
    }
}

/// Whoever confirms has taken the money: this door cannot tell who that is yet.
#[tokio::test]
async fn nothing_is_confirmed_at_the_public_door() {
    let running = server().await;
    let request = post("/v1/reservations/r1/confirm", r#"{"orderReference":"7"}"#);
    let reply = ask(running.public(), with_key(&request, "k")).await;
    assert_eq!((reply.status, reply.reason().as_str()), (401, "UNAUTHENTICATED"));
    assert!(reply.problem()["detail"].as_str().unwrap().contains("private door"));
    assert!(reply.header("www-authenticate").is_some_and(|challenge| challenge.starts_with("Bearer")));
    assert_eq!(reply.header("cache-control"), Some("no-store"));
    let bad = post("/v1/reservations/r1/confirm", r#"{"orderReferenc":"7"}"#);
    assert_eq!(ask(running.public(), with_key(&bad, "k")).await.reason(), "UNREADABLE");
}

#[tokio::test]
async fn a_name_that_can_be_nobodys_is_not_found() {
    let running = server().await;
    let long = "a".repeat(81);
    for name in ["R1", "r-1", "r%201", "r%2F1", "%FF", "%00", "a;b", "..", long.as_str(), "%61b%zz"] {
        let path = format!("/v1/reservations/{name}");
        for request in [
            get(&path),
            delete(&path),
            with_key(&post(&format!("{path}/extend"), "{}"), "k"),
            with_key(&post(&format!("{path}/confirm"), "{}"), "k"),
        ] {
            let reply = ask(running.public(), &request).await;
            assert_eq!((reply.status, reply.reason().as_str()), (404, "NOT_FOUND"), "{request}");
            assert_eq!(reply.header("cache-control"), Some("no-store"));
        }
    }
    let reply = ask(running.public(), get("/v1/reservations/nobodysname1")).await;
    assert_eq!((reply.status, reply.reason().as_str()), (404, "NOT_FOUND"), "nor is one that is not there");
    let counted =
        r#"pennantry_requests_total{door="public",route="/v1/reservations/{reservation_id}",status="404"}"#;
    assert!(metric(&running, counted).await > 10, "a name makes no series of its own");
}

#[tokio::test]
async fn methods_that_are_not_there_are_told_with_those_that_are() {
    let running = server().await;
    for (request, allowed) in [
        (get("/v1/reservations"), "POST"),
        (post("/v1/reservations/r1", "{}"), "DELETE,GET,HEAD"),
        (get("/v1/reservations/r1/extend"), "POST"),
        (delete("/v1/reservations/r1/confirm"), "POST"),
    ] {
        let reply = ask(running.public(), &request).await;
        assert_eq!((reply.status, reply.reason().as_str()), (405, "METHOD_NOT_ALLOWED"), "{request}");
        let mut given: Vec<&str> = reply.header("allow").unwrap().split(',').collect();
        given.sort_unstable();
        assert_eq!(given.join(","), allowed, "{request}");
    }
}

/// Puts on the shelf what the quote needs, and gives the body of a hold.
async fn stocked(running: &Running) -> String {
    let path = "/pennantry.v1.QuoteService/CalculateQuote";
    let told = ask(running.private(), post(path, &format!("{{\"enquiry\":{QUOTE}}}"))).await.json();
    let quote = &told["quote"];
    let cloth = quote["fabrics"].as_array().unwrap().iter().enumerate().map(|(at, fabric)| {
        let label = format!("B-{at}");
        json!({"pieceId": label, "code": fabric["fabricCode"], "quantity": {"lengthMm": 25_000}})
    });
    let code = &quote["understood"]["bindingCode"];
    let roll = json!({"pieceId": "R-1", "code": code, "quantity": {"lengthMm": 100_000}});
    let pieces: Vec<Value> = cloth.chain([roll]).collect();
    let body = json!({"pieces": pieces}).to_string();
    let reply = ask(running.private(), post("/pennantry.v1.StockService/ReceiveStock", &body)).await;
    assert_eq!(reply.status, 200, "{reply:?}");
    json!({"token": quote["token"], "acknowledgedRuleIds": ["R00"]}).to_string()
}

#[tokio::test]
async fn a_request_sent_again_gets_the_first_answer_and_says_so() {
    let running = server().await;
    let hold = stocked(&running).await;
    let create = |key: &str, body: &str| with_key(&post("/v1/reservations", body), key);
    let first = ask(running.public(), create("k-1", &hold)).await;
    assert_eq!((first.status, first.header("pennantry-replayed")), (200, None), "{first:?}");
    assert_eq!(first.header("cache-control"), Some("no-store"));
    let told = first.json();
    assert_eq!((&told["state"], &told["replayed"]), (&json!("RESERVATION_STATE_HELD"), &json!(false)));
    for kept in ["lines", "holder", "benchMinutes", "short", "summary", "reason"] {
        assert_eq!(told.get(kept), None, "{kept} is the shop's");
    }
    // the same key with quotes is the same key
    let again = ask(running.public(), create("\"k-1\"", &hold)).await;
    assert_eq!((again.status, again.header("pennantry-replayed")), (200, Some("true")));
    let mut expected = told.clone();
    expected["replayed"] = true.into();
    assert_eq!(again.json(), expected);
    let other = hold.replacen('{', "{\"seconds\":60,", 1);
    let reply = ask(running.public(), create("k-1", &other)).await;
    assert_eq!((reply.status, reply.reason().as_str()), (422, "KEY_REUSED"));

    let path = format!("/v1/reservations/{}", told["reservationId"].as_str().unwrap());
    let seen = ask(running.public(), get(&path)).await;
    assert_eq!((seen.status, seen.json()), (200, told.clone()));
    let extend = with_key(&post(&format!("{path}/extend"), r#"{"seconds":1800}"#), "k-1");
    let more = ask(running.public(), &extend).await;
    assert_eq!((more.status, more.header("pennantry-replayed")), (200, None), "{more:?}");
    assert_ne!(more.json()["expireTime"], told["expireTime"]);
    let again = ask(running.public(), &extend).await;
    assert_eq!((again.status, again.header("pennantry-replayed")), (200, Some("true")));
    let gone = ask(running.public(), delete(&path)).await;
    assert_eq!(gone.json()["state"], "RESERVATION_STATE_RELEASED");
    assert_eq!(ask(running.public(), delete(&path)).await.status, 200, "letting go twice is letting go once");
    let counted = |call: &str, outcome: &str| {
        format!(r#"pennantry_stock_commands_total{{call="{call}",outcome="{outcome}"}}"#)
    };
    for (call, outcome, count) in [
        ("CreateReservation", "DONE", 1),
        ("CreateReservation", "REPLAYED", 1),
        ("CreateReservation", "KEY_REUSED", 1),
        ("ExtendReservation", "REPLAYED", 1),
    ] {
        assert_eq!(metric(&running, &counted(call, outcome)).await, count, "{call} {outcome}");
    }
}

/// However often a request comes at once, it is done once.
#[tokio::test]
async fn the_same_request_at_once_is_done_once() {
    let running = server().await;
    let hold = stocked(&running).await;
    let request = with_key(&post("/v1/reservations", &hold), "at-once");
    let public = running.public();
    let mut asked = tokio::task::JoinSet::new();
    for _ in 0..8 {
        let request = request.clone();
        asked.spawn(async move { ask(public, request).await });
    }
    let replies = asked.join_all().await;
    assert!(replies.iter().all(|reply| reply.status == 200), "{replies:?}");
    let ids: Vec<Value> = replies.iter().map(|reply| reply.json()["reservationId"].clone()).collect();
    assert!(ids.iter().all(|id| *id == ids[0]), "{ids:?}");
    let replayed = replies.iter().filter(|reply| reply.header("pennantry-replayed").is_some()).count();
    assert_eq!(replayed, 7);
}
