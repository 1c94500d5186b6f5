//! Reservations at the public door.

use super::{QUOTE, Reply, ask, get, metric, post, server};
use crate::Running;

async fn token(running: &Running) -> String {
    let reply = ask(running.public(), post("/v1/quotes", QUOTE)).await;
    reply.json()["token"].as_str().unwrap().to_owned()
}

fn with_key(request: &str, key: &str) -> String {
    request.replacen("host: a", &format!("host: a\r\nidempotency-key: {key}"), 1)
}

fn delete(path: &str) -> String {
    format!("DELETE {path} HTTP/1.1\r\nhost: a\r\n\r\n")
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
