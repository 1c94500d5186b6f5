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
    selling(SALTMERE_LOFT, instant, data).await
}

/// A server on a catalogue of its own.
async fn selling(text: &str, instant: Timestamp, data: &std::path::Path) -> Running {
    let (clock, catalogue) = (Clock::Fixed(instant), catalogue::open(text).unwrap().into());
    start(Config { clock, catalogue, data: Some(data.to_owned()), ..config() }).await.unwrap()
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
            "valid": false, "fault": "TICKET_FAULT_NOT_OURS", "catalogueChanged": false, "taxChanged": false,
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
    assert!(then["dates"]["leaveDate"].as_str().unwrap() >= "2027-06-30", "{}", then["dates"]);
    let there = at("2027-06-30T11:00:00Z".parse().unwrap(), folder.path()).await;
    let on_the_day = quote(&there, &json!({"flaggedMm": 6200})).await;
    assert_eq!(then["quoteId"], on_the_day["quoteId"], "as if it were asked on that day");
    assert_eq!(on_the_day["expireTime"], "2027-07-14T23:00:00Z", "the end of 14 July, in summer time");
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

/// Whatever day is said, yesterday, today or years ahead, by either form of the call: there is
/// nothing to hold the shop to.
#[tokio::test]
async fn an_answer_as_of_a_day_is_no_promise() {
    let folder = tempfile::tempdir().unwrap();
    let running = at(NOW.parse().unwrap(), folder.path()).await;
    let call = async |name: &str, body: Value| {
        ask(running.private(), post(&format!("/pennantry.v1.QuoteService/{name}"), &body.to_string()))
            .await
            .json()
    };
    for day in ["2026-11-23", "2026-11-24", "2026-11-25", "2031-01-01"] {
        for view in ["VIEW_BUYER", "VIEW_SHOP"] {
            let enquiry = json!({"flaggedMm": 6200, "asOfDate": day, "view": view});
            let one = call("CalculateQuote", json!({"enquiry": enquiry})).await["quote"].clone();
            let several = call("CalculateQuotes", json!({"enquiries": [enquiry]})).await;
            assert_eq!(several["outcomes"][0]["quote"], one, "{day}");
            assert_eq!(one["quoteId"].as_str().map(str::len), Some(32), "{day}: {one}");
            assert_eq!((one.get("token"), one.get("expireTime")), (None, None), "{day}");
            let told = one["notices"].as_array().unwrap().iter().find(|n| n["code"] == "AS_OF").unwrap();
            assert_eq!(told["field"], "asOfDate");
            let message = told["message"].as_str().unwrap();
            assert!(message.contains(day) && message.contains("promises nothing"), "{message}");
        }
    }
    let now = quote(&running, &json!({"flaggedMm": 6200})).await;
    assert!(now["notices"].as_array().unwrap().iter().all(|n| n["code"] != "AS_OF"), "{now}");
    assert!(running.stop(LONG).await);
}

/// A ticket of tomorrow is nobody's; from the first instant of its day on it holds.
#[tokio::test]
async fn a_ticket_of_a_day_to_come_does_not_hold() {
    let folder = tempfile::tempdir().unwrap();
    let running = at(NOW.parse().unwrap(), folder.path()).await;
    let token = quote(&running, &json!({"flaggedMm": 6200})).await["token"].clone();
    assert!(running.stop(LONG).await);
    for (instant, fault) in [
        ("2020-01-01T12:00:00Z", Some("TICKET_FAULT_NOT_OURS")),
        ("2026-11-23T23:59:59.999999999Z", Some("TICKET_FAULT_NOT_OURS")),
        ("2026-11-24T00:00:00Z", None),
    ] {
        let running = at(instant.parse().unwrap(), folder.path()).await;
        let check = check(&running, &token).await;
        assert_eq!(check.get("fault").and_then(Value::as_str), fault, "{instant}: {check}");
        assert_eq!(check["valid"], fault.is_none(), "{instant}");
        assert_eq!(check.get("total").is_some(), fault.is_none(), "{instant}: {check}");
        assert!(running.stop(LONG).await);
    }
    // a promise whose day cannot be read is none either
    let catalogue = catalogue::open(SALTMERE_LOFT).unwrap().into();
    for day in ["", "2026-11-31", "2026-11-25"] {
        let promise = ticket::Promise {
            order_date: day.to_owned(),
            expire_second: 4_000_000_000,
            ..ticket::Promise::default()
        };
        let opened = ticket::Opened { quote_id: String::from("one"), promise };
        let check = crate::convert::ticket::check(&catalogue, Some(opened), NOW.parse().unwrap());
        assert_eq!((check.valid, check.quote_id), (false, None), "{day}");
    }
}

/// Egypt sets its clocks from 0:00 to 1:00 on the last Friday of April, from UTC+2 to UTC+3
/// (IANA time zone database, rule Egypt): the 24th begins at one o'clock, which is 22:00 UTC of
/// Thursday, and a quote of Monday the 20th that holds three days ends there.
#[tokio::test]
async fn where_midnight_is_skipped_a_quote_ends_with_the_first_instant_of_the_day() {
    let text = SALTMERE_LOFT
        .replace("valid_days = 14", "valid_days = 3")
        .replace("\"Europe/London\"", "\"Africa/Cairo\"");
    let catalogue = catalogue::open(&text).unwrap().into();
    let clock = Clock::Fixed("2026-04-20T10:00:00Z".parse().unwrap());
    let running = start(Config { catalogue, clock, ..config() }).await.unwrap();
    assert_eq!(quote(&running, &json!({"flaggedMm": 6200})).await["expireTime"], "2026-04-23T22:00:00Z");
}

/// Asked on 24 November at 20 %, paid on either side of the day from which it is 22.5 %; by the
/// day of the order and by the day it leaves, which is before the change here.
#[tokio::test]
async fn a_tax_that_has_changed_while_a_ticket_holds_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let old = "rates = [{ from = \"2011-01-04\", percent = 20 }]";
    assert!(SALTMERE_LOFT.contains(old));
    let leaving = SALTMERE_LOFT.replace("point = \"order\"", "point = \"leave\"");
    for (shop, point) in [(SALTMERE_LOFT, "the day of the order"), (&leaving, "the day it leaves")] {
        let with = |rate: &str| shop.replace(old, &old.replace(" }]", &format!(" }}, {rate}]")));
        let changing = with("{ from = \"2026-12-01\", percent = 22.5 }");
        let running = selling(&changing, NOW.parse().unwrap(), folder.path()).await;
        let given = quote(&running, &json!({"flaggedMm": 6200})).await;
        let told = given["notices"].as_array().unwrap().iter().find(|n| n["code"] == "TAX_CHANGES");
        let message = told.unwrap()["message"].as_str().unwrap();
        assert!(message.contains(point) && message.contains("22.5 % from 2026-12-01"), "{message}");
        assert!(running.stop(LONG).await);
        let elsewhere = with("{ from = \"2026-12-01\", percent = 20 }");
        // a tax that is no more is none, and one that was forgotten is found
        let none = shop.replace("2011-01-04", "2027-01-04");
        for (text, instant, now) in [
            (&changing, "2026-11-24T10:00:00Z", None),
            (&changing, "2026-11-30T23:59:59Z", None),
            (&changing, "2026-12-01T00:00:00Z", Some("is 22.5 % now")),
            (&changing, "2026-12-08T23:59:59Z", Some("is 22.5 % now")),
            (&elsewhere, "2026-12-01T00:00:00Z", None),
            (&none, "2026-11-25T00:00:00Z", Some("is 0 % now")),
        ] {
            let running = selling(text, instant.parse().unwrap(), folder.path()).await;
            let check = check(&running, &given["token"]).await;
            // the ticket is what it was: whether it is charged is the shop's to decide
            assert_eq!(
                (&check["valid"], &check["taxChanged"]),
                (&json!(true), &json!(now.is_some())),
                "{check}"
            );
            assert_eq!(check["total"], given["price"]["total"]);
            let summary = check["summary"].as_str().unwrap();
            let said = summary.contains("quoted at 20 %")
                && summary.contains("ask again before anything is charged");
            assert_eq!(said, now.is_some(), "{instant} {summary}");
            assert!(summary.contains(now.unwrap_or("in all")), "{instant} {summary}");
            assert!(running.stop(LONG).await);
        }
    }
    // a ticket from before the rate was written down says nothing about it
    let opened = |tax_milli| {
        let order_date = String::from("2026-11-24");
        let promise =
            ticket::Promise { order_date, expire_second: 4_000_000_000, tax_milli, ..Default::default() };
        Some(ticket::Opened { quote_id: String::from("one"), promise })
    };
    let catalogue = catalogue::open(SALTMERE_LOFT).unwrap().into();
    let changed = |milli| {
        let check = crate::convert::ticket::check(&catalogue, opened(milli), NOW.parse().unwrap());
        (check.valid, check.tax_changed)
    };
    assert_eq!(
        [None, Some(20_000), Some(0), Some(19_999)].map(changed),
        [(true, false), (true, false), (true, true), (true, true)]
    );
}

/// What staff take off stands in the ticket with its reason, however it is said.
#[tokio::test]
async fn a_ticket_with_a_discount_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let running = at(NOW.parse().unwrap(), folder.path()).await;
    let discounts = [
        json!({"percent": 10, "reason": "returning buyer"}),
        json!({"percent": 10, "reason": "the last one came late"}),
        json!({"minorUnits": 500, "reason": "returning buyer"}),
        json!({"minorUnits": 500, "reason": "the last one came late"}),
    ];
    let plain = quote(&running, &json!({"flaggedMm": 6200})).await;
    let mut identities = vec![plain["quoteId"].clone()];
    for discount in discounts {
        for (quantity, view) in [(1, "VIEW_BUYER"), (1, "VIEW_SHOP"), (2, "VIEW_BUYER")] {
            let enquiry =
                json!({"flaggedMm": 6200, "quantity": quantity, "discount": discount, "view": view});
            let body = json!({"enquiry": enquiry}).to_string();
            let reply =
                ask(running.private(), post("/pennantry.v1.QuoteService/CalculateQuote", &body)).await;
            let given = reply.json()["quote"].clone();
            let lines = given["price"]["lines"].as_array().unwrap();
            let line = lines.iter().find(|line| line["code"] == "DISCOUNT").unwrap();
            let check = check(&running, &given["token"]).await;
            assert_eq!(check["quoteId"], given["quoteId"]);
            let minor: i64 = line["amount"]["minorUnits"].as_str().unwrap().parse().unwrap();
            let amount = format!("-{}.{:02} GBP", -minor / 100, -minor % 100);
            let summary = check["summary"].as_str().unwrap();
            let said = format!("with {amount} in it ({})", line["text"].as_str().unwrap());
            assert!(summary.contains(&said), "{summary} has no {said}");
            assert!(said.contains(discount["reason"].as_str().unwrap()), "{said}");
            assert_eq!(check["understood"].get("discount"), None, "{check}");
            if !identities.contains(&given["quoteId"]) {
                identities.push(given["quoteId"].clone());
            }
        }
    }
    // each discount, of one and of two; the view is no part of it
    assert_eq!(identities.len(), 1 + 4 * 2);
    assert!(!check(&running, &plain["token"]).await["summary"].as_str().unwrap().contains("in it ("));
    assert!(running.stop(LONG).await);
}
