//! The public JSON as a storefront sees it.

use super::{Caller, LONG, QUOTE, ask, get, metric, post, quote, server};

#[tokio::test]
async fn a_quote_is_flat_and_its_headers_are_set() {
    let running = server().await;
    let reply = ask(running.public(), quote()).await;
    assert_eq!((reply.status, reply.header("content-type")), (200, Some("application/json")));
    assert_eq!(reply.header("cache-control"), Some("no-store"));
    assert_eq!(reply.header("x-content-type-options"), Some("nosniff"));
    // 29 pennants in 6.2 m: common practice, the story of the README
    assert_eq!(reply.json()["layout"]["pennantCount"], 29);
    assert_eq!(metric(&running, "pennantry_quotes_total").await, 1);
    assert!(metric(&running, "pennantry_calculation_steps_total").await > 0);
    let counted = r#"pennantry_requests_total{door="public",route="/v1/quotes",status="200"}"#;
    assert_eq!(metric(&running, counted).await, 1);
    assert!(running.stop(LONG).await);
}

#[tokio::test]
async fn every_answer_has_an_id_and_a_plain_one_is_kept() {
    let running = server().await;
    let with =
        |id: &str| quote().replacen("host: localhost", &format!("host: localhost\r\nx-request-id: {id}"), 1);
    let long = "a".repeat(65);
    for (given, kept) in [("order-7.1_a", true), ("a b", false), ("<b>", false), (long.as_str(), false)] {
        let reply = ask(running.public(), with(given)).await;
        let id = reply.header("x-request-id").unwrap();
        assert_eq!(id == given, kept, "{given}");
        assert!(kept || uuid::Uuid::parse_str(id).unwrap().get_version_num() == 7, "{id}");
    }
    let problem = ask(running.public(), with("mine").replacen("6200", "   1", 1)).await.problem();
    assert_eq!(problem["requestId"], "mine");
}

#[tokio::test]
async fn what_is_not_there_is_a_problem_too() {
    let running = server().await;
    let media = |media: &str| quote().replacen("content-type: application/json", media, 1);
    let cases = [
        (get("/nothing"), 404, "NOT_FOUND"),
        (get("/v1/quotes/"), 404, "NOT_FOUND"),
        (post("/pennantry.v1.QuoteService/CalculateQuote", QUOTE), 404, "NOT_FOUND"),
        (get("/healthz"), 404, "NOT_FOUND"),
        (get("/v1/quotes"), 405, "METHOD_NOT_ALLOWED"),
        (post("/v1/catalogue", "{}"), 405, "METHOD_NOT_ALLOWED"),
        (media("content-type: text/plain"), 415, "UNSUPPORTED_MEDIA"),
        (media("content-type: application/jsonp"), 415, "UNSUPPORTED_MEDIA"),
        (media("x-none: 1"), 415, "UNSUPPORTED_MEDIA"),
        (media("content-type: application/json\r\ncontent-encoding: gzip"), 415, "UNSUPPORTED_MEDIA"),
        (quote().replacen('{', "!", 1), 400, "UNREADABLE"),
        (quote().replacen("6200", "  -1", 1), 400, "INVALID_ENQUIRY"),
    ];
    for (request, status, reason) in cases {
        let reply = ask(running.public(), &request).await;
        assert_eq!((reply.status, reply.reason().as_str()), (status, reason), "{request}");
    }
    let allowed = |reply: &super::Reply| reply.header("allow").map(str::to_owned);
    assert_eq!(allowed(&ask(running.public(), get("/v1/quotes")).await).as_deref(), Some("POST"));
    let reply = ask(running.public(), post("/v1/catalogue", "{}")).await;
    assert_eq!(allowed(&reply).as_deref(), Some("GET,HEAD"));
}

#[tokio::test]
async fn json_may_be_said_in_other_words() {
    let running = server().await;
    for media in ["application/json; charset=utf-8", "Application/JSON", "application/json;"] {
        let request = quote().replacen("application/json", media, 1);
        assert_eq!(ask(running.public(), request).await.status, 200, "{media}");
    }
}

/// Paths are routed before they are decoded: nothing encoded is ever taken for a route,
/// and nothing is decoded twice (case B23 of the operators' list).
#[tokio::test]
async fn encoded_paths_lead_nowhere_and_break_nothing() {
    let running = server().await;
    let paths = [
        "/v1%2Fquotes",
        "/v1/quotes%2F",
        "/%76%31/quotes",
        "/v1/%FF",
        "/v1/%",
        "/v1/%zz",
        "/v1/%252F",
        "/v1/..%2f..",
        "/v1/../quotes",
        "//v1/quotes",
        "/v1/quotes+",
        "/v1/%00",
        "/v1/quotes;a=b",
        "*",
        "/v1/qu\u{f6}tes",
    ];
    for path in paths {
        for request in [get(path), post(path, QUOTE)] {
            let mut caller = Caller::to(running.public()).await;
            let reply = caller.ask(&request).await;
            assert!((400..500).contains(&reply.status), "{path}: {reply:?}");
            // a path that is no path at all is refused before there is a request
            if !reply.body.is_empty() {
                assert_eq!(reply.reason(), "NOT_FOUND", "{path}");
            }
        }
    }
    let reply = ask(running.public(), "CONNECT a:80 HTTP/1.1\r\nhost: a:80\r\n\r\n").await;
    assert!((400..500).contains(&reply.status), "{reply:?}");
    assert_eq!(ask(running.public(), get("/v1/catalogue?x=%2F%FF")).await.status, 200);
}

#[tokio::test]
async fn the_catalogue_has_a_tag_and_is_sent_once() {
    let running = server().await;
    let first = ask(running.public(), get("/v1/catalogue")).await;
    let revision = first.json()["revision"].as_str().unwrap().to_owned();
    let tag = format!("\"{revision}\"");
    assert_eq!(first.header("etag"), Some(tag.as_str()));
    assert_eq!(first.header("cache-control"), Some("no-cache"));
    let with = |tags: &str| {
        get("/v1/catalogue").replacen(
            "host: localhost",
            &format!("host: localhost\r\nif-none-match: {tags}"),
            1,
        )
    };
    for known in [tag.clone(), format!("W/{tag}"), format!("\"other\", {tag}"), "*".to_owned()] {
        let mut caller = Caller::to(running.public()).await;
        let reply = caller.ask(with(&known)).await;
        assert_eq!((reply.status, reply.body.len()), (304, 0), "{known}");
        assert_eq!(reply.header("etag"), Some(tag.as_str()));
        assert_eq!(caller.ask(quote()).await.status, 200, "the connection goes on after {known}");
    }
    for unknown in ["\"other\"", &revision, ""] {
        assert_eq!(ask(running.public(), with(unknown)).await.status, 200, "{unknown}");
    }
    // the length of what GET sends, and none of it
    let mut caller = Caller::to(running.public()).await;
    caller.send("HEAD /v1/catalogue HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\n\r\n").await;
    while caller.more().await.is_some() {}
    let text = String::from_utf8(std::mem::take(&mut caller.read)).unwrap();
    assert!(text.starts_with("HTTP/1.1 200") && text.ends_with("\r\n\r\n"), "{text}");
    assert!(text.contains(&format!("content-length: {}", first.body.len())), "{text}");
}

#[tokio::test]
async fn the_shops_view_is_not_given_here() {
    let running = server().await;
    let request = post("/v1/quotes", r#"{"flaggedMm":6200,"view":"VIEW_SHOP"}"#);
    let reply = ask(running.public(), request).await;
    assert_eq!((reply.status, reply.reason().as_str()), (403, "VIEW_NOT_PUBLIC"));
}
