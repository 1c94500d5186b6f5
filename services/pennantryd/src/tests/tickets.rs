//! Tickets through the doors of a server: as they are given, looked through, and lost.

use std::fs;
use std::os::unix::fs::PermissionsExt;

use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};

use super::{LONG, ask, config, post};
use crate::catalogue::{self, SALTMERE_LOFT};
use crate::clock::Clock;
use crate::ticket::{self, FILE};
use crate::{Config, Running, start};

/// Ten in the morning in London.
const NOW: &str = "2026-11-24T10:00:00Z";

async fn at(instant: Timestamp, data: &std::path::Path) -> Running {
    let clock = Clock::Fixed(instant);
    start(Config { clock, data: Some(data.to_owned()), ..config() }).await.unwrap()
}

async fn quote(running: &Running, enquiry: &Value) -> Value {
    let reply = ask(running.public(), post("/v1/quotes", &enquiry.to_string())).await;
    assert_eq!(reply.status, 200, "{reply:?}");
    reply.json()
}

async fn check(running: &Running, token: &Value) -> Value {
    let reply = ask(running.public(), post("/v1/quotes/check", &json!({"token": token}).to_string())).await;
    assert_eq!((reply.status, reply.header("cache-control")), (200, Some("no-store")), "{reply:?}");
    reply.json()
}

#[tokio::test]
async fn a_ticket_promises_what_the_quote_said() {
    let folder = tempfile::tempdir().unwrap();
    let running = at(NOW.parse().unwrap(), folder.path()).await;
    let given = quote(&running, &json!({"flaggedMm": 6200, "lettering": "ADA", "workings": true})).await;
    let check = check(&running, &given["token"]).await;
    assert_eq!(check["valid"], true);
    assert_eq!(check.get("fault"), None);
    // 24 November and 14 days, to the end of 8 December: the midnight after it, in winter UTC
    assert_eq!(given["expireTime"], "2026-12-09T00:00:00Z");
    for (promised, said) in [
        ("quoteId", &given["quoteId"]),
        ("expireTime", &given["expireTime"]),
        ("total", &given["price"]["total"]),
        ("leaveDate", &given["dates"]["leaveDate"]),
        ("arriveTo", &given["dates"]["arriveTo"]),
        ("catalogueRevision", &given["catalogueRevision"]),
    ] {
        assert!(!said.is_null(), "{promised}: {given}");
        assert_eq!(&check[promised], said, "{promised}");
    }
    assert_eq!(
        (check["orderDate"].as_str(), &check["catalogueChanged"]),
        (Some("2026-11-24"), &json!(false))
    );
    let mut understood = given["understood"].clone();
    for flag in ["view", "workings", "shelf"] {
        assert!(understood.as_object_mut().unwrap().remove(flag).is_some(), "{flag}");
    }
    assert_eq!(check["understood"], understood);
    let summary = check["summary"].as_str().unwrap();
    let minor: i64 = given["price"]["total"]["minorUnits"].as_str().unwrap().parse().unwrap();
    let total = format!("{}.{:02} GBP", minor / 100, minor % 100);
    let leaves = format!("leaves on {}", given["dates"]["leaveDate"].as_str().unwrap());
    for part in [&total, &leaves, "on 2026-11-24", "the end of 2026-12-08", "competent people"] {
        assert!(summary.contains(part), "{part} is not in: {summary}");
    }
    assert!(!summary.contains("ADA") && !summary.contains('\n'), "{summary}");
    assert!(running.stop(LONG).await);
}

/// Half-open: one nanosecond before the end it holds, at the end it does not.
#[tokio::test]
async fn a_ticket_holds_to_the_last_nanosecond() {
    let folder = tempfile::tempdir().unwrap();
    let first = at(NOW.parse().unwrap(), folder.path()).await;
    let given = quote(&first, &json!({"flaggedMm": 6200})).await;
    assert!(first.stop(LONG).await);
    let end: Timestamp = "2026-12-09T00:00:00Z".parse().unwrap();
    for (nanoseconds, valid) in [(-1_000_000_000, true), (-1, true), (0, false), (1, false), (1_000, false)] {
        let running = at(end + SignedDuration::from_nanos(nanoseconds), folder.path()).await;
        let check = check(&running, &given["token"]).await;
        assert_eq!(check["valid"], valid, "{nanoseconds} ns: {check}");
        let fault = check.get("fault").and_then(Value::as_str);
        assert_eq!(fault, (!valid).then_some("TICKET_FAULT_EXPIRED"), "{nanoseconds} ns");
        assert_eq!(check["summary"].as_str().unwrap().contains("charge nothing"), !valid, "{check}");
        // it is still the shop's own, and says what it was
        assert_eq!((&check["quoteId"], &check["total"]), (&given["quoteId"], &given["price"]["total"]));
        assert!(running.stop(LONG).await);
    }
}

#[tokio::test]
async fn what_is_not_the_shops_own_says_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let running = at(NOW.parse().unwrap(), folder.path()).await;
    let elsewhere = tempfile::tempdir().unwrap();
    let other = at(NOW.parse().unwrap(), elsewhere.path()).await;
    let enquiry = json!({"flaggedMm": 6200});
    let (ours, theirs) = (quote(&running, &enquiry).await, quote(&other, &enquiry).await);
    assert_eq!(ours["quoteId"], theirs["quoteId"], "the key is not in the identity");
    assert_ne!(ours["token"], theirs["token"]);
    for token in [&theirs["token"], &json!("nonsense"), &json!("."), &json!("é".repeat(4_000))] {
        let check = check(&running, token).await;
        let mut rest = check.clone();
        let summary = rest.as_object_mut().unwrap().remove("summary").unwrap();
        assert!(summary.as_str().unwrap().contains("charge nothing"), "{summary}");
        let nothing = json!({
            "valid": false, "fault": "TICKET_FAULT_NOT_OURS", "catalogueChanged": false,
            "childOutcome": "OUTCOME_UNSPECIFIED",
        });
        assert_eq!(rest, nothing, "{token}");
    }
    assert_eq!(check(&running, &ours["token"]).await["valid"], true);
}

#[tokio::test]
async fn a_ticket_that_is_missing_or_too_long_is_a_violation() {
    let folder = tempfile::tempdir().unwrap();
    let running = at(NOW.parse().unwrap(), folder.path()).await;
    for (body, reason) in [
        (json!({}), "MISSING"),
        (json!({"token": ""}), "MISSING"),
        (json!({"token": null}), "MISSING"),
        (json!({"token": "A".repeat(4_001)}), "TOO_LONG"),
        (json!({"token": "é".repeat(4_001)}), "TOO_LONG"),
    ] {
        for (to, path, body) in [
            (running.public(), "/v1/quotes/check", body.clone()),
            (running.private(), "/pennantry.v1.QuoteService/CheckQuote", json!({"ticket": body})),
        ] {
            let reply = ask(to, post(path, &body.to_string())).await;
            let problem = reply.problem();
            assert_eq!((reply.status, &problem["reason"]), (400, &json!("INVALID_ENQUIRY")), "{problem}");
            assert_eq!(problem["violations"].as_array().unwrap().len(), 1, "{problem}");
            assert_eq!(problem["violations"][0]["field"], "token");
            assert_eq!(problem["violations"][0]["reason"], reason, "{problem}");
            assert!(problem["violations"][0]["message"].as_str().unwrap().contains("give"), "{problem}");
        }
    }
    let most = check(&running, &json!("A".repeat(4_000))).await;
    assert_eq!(most["fault"], "TICKET_FAULT_NOT_OURS");
}

#[tokio::test]
async fn a_changed_catalogue_is_said_and_the_promise_stands() {
    let folder = tempfile::tempdir().unwrap();
    let running = at(NOW.parse().unwrap(), folder.path()).await;
    let given = quote(&running, &json!({"flaggedMm": 6200})).await;
    let file = folder.path().join("catalogue.toml");
    // in a shop that has moved to another currency and another zone since
    let moved = SALTMERE_LOFT
        .replace("zone = \"Europe/London\"", "zone = \"Pacific/Auckland\"")
        .replace("currency = \"GBP\"", "currency = \"NZD\"")
        .replace("valid_days = 14", "valid_days = 1");
    fs::write(&file, moved).unwrap();
    running.reload(&file).unwrap();
    let check = check(&running, &given["token"]).await;
    assert_eq!((&check["valid"], &check["catalogueChanged"]), (&json!(true), &json!(true)));
    assert_eq!(check["total"], given["price"]["total"]);
    assert_eq!(check["catalogueRevision"], given["catalogueRevision"]);
    assert_eq!(check["expireTime"], "2026-12-09T00:00:00Z");
    let summary = check["summary"].as_str().unwrap();
    assert!(summary.contains(" GBP in all") && summary.contains("2026-12-09T00:00:00Z"), "{summary}");
    let now = quote(&running, &json!({"flaggedMm": 6200})).await;
    assert_ne!(now["quoteId"], given["quoteId"]);
    // 23:00 in Auckland (UTC+13) is still the 24th; the end of the 25th there
    assert_eq!(now["expireTime"], "2026-11-25T11:00:00Z");
}

#[tokio::test]
async fn keys_are_read_again_and_a_wrong_file_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let running = at(NOW.parse().unwrap(), folder.path()).await;
    let enquiry = json!({"flaggedMm": 6200});
    let old = quote(&running, &enquiry).await;
    ticket::rotate(folder.path(), jiff::civil::date(2026, 11, 24)).unwrap();
    assert_eq!(quote(&running, &enquiry).await["token"], old["token"], "not before it is told");
    assert_eq!(running.reload_keys(), Ok(2));
    let new = quote(&running, &enquiry).await;
    assert_ne!(new["token"], old["token"]);
    assert_eq!(new["quoteId"], old["quoteId"]);
    for token in [&new["token"], &old["token"]] {
        assert_eq!(check(&running, token).await["valid"], true);
    }
    let file = folder.path().join(FILE);
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&file, "nonsense\n").unwrap();
    assert!(running.reload_keys().unwrap_err().contains("line 1"));
    fs::write(&file, &text).unwrap();
    fs::set_permissions(&file, fs::Permissions::from_mode(0o644)).unwrap();
    assert!(running.reload_keys().unwrap_err().contains("mode 644"));
    assert_eq!(check(&running, &old["token"]).await["valid"], true, "the old keys serve on");
    // the older key is taken out
    let without: String = text.lines().take(text.lines().count() - 1).flat_map(|l| [l, "\n"]).collect();
    fs::set_permissions(&file, fs::Permissions::from_mode(0o600)).unwrap();
    fs::write(&file, without).unwrap();
    assert_eq!(running.reload_keys(), Ok(1));
    assert_eq!(check(&running, &old["token"]).await["fault"], "TICKET_FAULT_NOT_OURS");
    assert_eq!(check(&running, &new["token"]).await["valid"], true);
}

#[tokio::test]
async fn a_server_does_not_start_on_keys_that_are_wrong() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join(FILE);
    for (text, mode, said) in [
        ("", 0o600, "no key"),
        ("nonsense", 0o600, "line 1"),
        ("BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwc", 0o640, "mode 640"),
    ] {
        fs::write(&file, text).unwrap();
        fs::set_permissions(&file, fs::Permissions::from_mode(mode)).unwrap();
        let taken = "203.0.113.1:1".parse().unwrap();
        let wrong = Config { data: Some(folder.path().to_owned()), admin: taken, ..config() };
        let faults = start(wrong).await.unwrap_err().faults;
        assert_eq!(faults.len(), 2, "{faults:?}");
        assert!(faults[0].starts_with("--data ") && faults[0].contains(said), "{faults:?}");
        assert!(!faults[0].contains("BwcH"), "{faults:?}");
    }
}

/// What a catalogue that says so long or so short comes to.
#[tokio::test]
async fn the_catalogue_says_how_long_a_quote_holds() {
    for (days, zone, expires) in [
        (1, "Europe/London", "2026-11-26T00:00:00Z"),
        (90, "Europe/London", "2027-02-23T00:00:00Z"),
        // into summer time: 24 November and 124 days is beyond 90, so from another zone's spring
        (1, "Pacific/Auckland", "2026-11-25T11:00:00Z"),
    ] {
        let text = SALTMERE_LOFT
            .replace("valid_days = 14", &format!("valid_days = {days}"))
            .replace("\"Europe/London\"", &format!("\"{zone}\""));
        let catalogue = catalogue::open(&text).unwrap().into();
        let running = start(Config { catalogue, ..config() }).await.unwrap();
        assert_eq!(
            quote(&running, &json!({"flaggedMm": 6200})).await["expireTime"],
            expires,
            "{days} {zone}"
        );
    }
}

#[tokio::test]
async fn what_staff_may_say_is_refused_here_and_heard_at_the_private_door() {
    let folder = tempfile::tempdir().unwrap();
    let running = at(NOW.parse().unwrap(), folder.path()).await;
    let discount = json!({"percent": 10, "reason": "returning"});
    let both = json!({"flaggedMm": 1, "discount": discount, "asOfDate": "nonsense"});
    let problem = ask(running.public(), post("/v1/quotes", &both.to_string())).await.problem();
    let listed: Vec<_> =
        problem["violations"].as_array().unwrap().iter().map(|v| (&v["field"], &v["reason"])).collect();
    let wanted = [
        (&json!("flaggedMm"), &json!("OUT_OF_RANGE")),
        (&json!("discount"), &json!("STAFF_ONLY")),
        (&json!("asOfDate"), &json!("STAFF_ONLY")),
    ];
    assert_eq!(listed, wanted);
    assert!(!problem["violations"][2]["message"].as_str().unwrap().contains("nonsense"));

    let private = async |enquiry: Value| {
        let body = json!({"enquiry": enquiry}).to_string();
        ask(running.private(), post("/pennantry.v1.QuoteService/CalculateQuote", &body)).await
    };
    // worked as of noon of that day, before the shop's cut-off at two
    let then = private(json!({"flaggedMm": 6200, "asOfDate": "2027-06-30"})).await.json();
    let then = &then["quote"];
    assert_eq!(then["expireTime"], "2027-07-14T23:00:00Z", "the end of 14 July, in summer time");
    assert!(then["dates"]["leaveDate"].as_str().unwrap() >= "2027-06-30", "{}", then["dates"]);
    let check = check(&running, &then["token"]).await;
    assert_eq!((check["orderDate"].as_str(), &check["valid"]), (Some("2027-06-30"), &json!(true)));
    let there = at("2027-06-30T11:00:00Z".parse().unwrap(), folder.path()).await;
    let on_the_day = quote(&there, &json!({"flaggedMm": 6200})).await;
    assert_eq!(then["token"], on_the_day["token"], "as if it were asked on that day");
    // the day it is wanted by is looked at from there
    let late =
        private(json!({"flaggedMm": 6200, "asOfDate": "2027-06-30", "wantedDate": "2027-06-29"})).await;
    assert_eq!(late.problem()["violations"][0]["reason"], "PAST_DATE");
    for (day, reason) in [
        ("2027-02-29", "BAD_DATE"),
        ("tomorrow", "BAD_DATE"),
        ("", "BAD_DATE"),
        ("2027-6-30", "BAD_DATE"),
        ("1999-12-31", "OUT_OF_RANGE"),
        ("2200-01-01", "OUT_OF_RANGE"),
    ] {
        let problem = private(json!({"flaggedMm": 6200, "asOfDate": day})).await.problem();
        let told = &problem["violations"][0];
        assert_eq!(
            (&told["field"], &told["reason"]),
            (&json!("asOfDate"), &json!(reason)),
            "{day}: {problem}"
        );
        assert!(told["message"].as_str().unwrap().contains(day), "{problem}");
    }
    for day in ["2000-01-01", "2199-12-31"] {
        let reply = private(json!({"flaggedMm": 6200, "asOfDate": day})).await;
        assert_eq!(reply.status, 200, "{day}: {reply:?}");
    }
}
