//! `reserve` and what is done with reservations.

use pennantry_contract::reasons::Kind;
use serde_json::{Value, json};

use super::process::command;
use super::script::{Script, pounds, refusal};

fn reservation() -> Value {
    json!({
        "reservationId": "r-7", "state": "RESERVATION_STATE_HELD", "createTime": "2026-11-24T10:00:00Z",
        "expireTime": "2026-11-26T10:00:00Z", "extendUntil": "2026-12-08T10:00:00Z", "quoteId": "q-1",
        "total": {"currencyCode": "GBP", "minorUnits": "9945"}, "leaveDate": "2026-11-27",
        "arriveTo": "2026-12-01", "acknowledgedRuleIds": ["R05"], "holder": "staff", "benchMinutes": 79.8,
        "summary": "29 pennants, flagged 6200 mm", "overrideReason": "a friend",
        "notices": [{"code": "NOT_KEPT", "message": "thread is not kept in stock"}],
        "lines": [
            {
                "line": 1, "pieceId": "K-12.1", "code": "kelp", "lot": "0417", "location": "drawer",
                "remnant": true, "planned": {"lengthMm": 300.0}, "wanted": {"lengthMm": 300.0},
                "missing": {"lengthMm": 0.0}, "used": {"lengthMm": 0.0}, "spoiled": {"lengthMm": 0.0},
                "shapes": 3, "shapesCut": 0, "purpose": "pennants",
            },
            {
                "line": 2, "pieceId": "K-12", "code": "kelp", "lot": "0417", "location": "rack B",
                "planned": {"lengthMm": 900.0}, "wanted": {"lengthMm": 500.0}, "missing": {"lengthMm": 100.0},
                "used": {"lengthMm": 400.0}, "spoiled": {"lengthMm": 20.0}, "shapes": 7, "shapesCut": 3,
                "purpose": "pennants",
            },
            {
                "line": 3, "pieceId": "S-9", "code": "star", "location": "", "planned": {"count": 2},
                "wanted": {"count": 2}, "missing": {"count": 0}, "used": {"count": 0}, "spoiled": {"count": 0},
                "purpose": "star",
            },
        ],
        "short": true,
    })
}

/// What was sent, without its identity, which is there.
fn anonymous(mut sent: Value) -> Value {
    let id = sent.as_object_mut().unwrap().remove("requestId").unwrap();
    assert_eq!(id.as_str().unwrap().len(), 36, "{sent}");
    sent
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_ticket_is_held_and_printed_as_a_list_for_the_shelf() {
    let script = Script::default()
        .with("CreateReservation", Ok(json!({"reservation": reservation()})))
        .with("GetCatalogue", Ok(pounds()));
    let words =
        "reserve|--token|-|--acknowledge|R05,R07|--override|a friend|--for|2 d|--instead-of|r-6|--show|m";
    let (code, out, err) = command(Some(script.serve().await), words, " abc.def\n").await;
    assert_eq!((code, err.as_str()), (0, ""));
    assert_eq!(
        anonymous(script.sent("CreateReservation").pop().unwrap()),
        json!({"hold": {
            "token": "abc.def", "acknowledgedRuleIds": ["R05", "R07"], "seconds": 172_800, "supersedesId": "r-6",
            "overrideReason": "a friend",
        }})
    );
    assert_eq!(
        out,
        "\
RESERVATION r-7: held until 2026-11-26T10:00:00Z
  29 pennants, flagged 6200 mm
  total GBP 99.45, leaves 2026-11-27, arrives by 2026-12-01, 79.8 minutes of the bench
  taken 2026-11-24T10:00:00Z, can be extended until 2026-12-08T10:00:00Z, by staff
  acknowledged: R05
  taken though a rule stood in the way: a friend
  NOT_KEPT: thread is not kept in stock

TO TAKE FROM THE SHELF
  line  lies    label    take  shapes  code  lot   for
     1  drawer  K-12.1  0.3 m       3  kelp  0417  pennants, begun: use it up first
     2  rack B  K-12    0.5 m       7  kelp  0417
      pennants, 0.4 m used, 0.02 m spoiled, 3 of the shapes cut
     3  -       S-9         2       -  star  -     star
  SHORT: of line 2 0.1 m is missing
  plan what is missing anew with: pennantry amend r-7
"
    );
}

fn quote(token: &str) -> Value {
    json!({"quote": {
        "quoteId": "q-1", "token": token, "expireTime": "2026-12-01T00:00:00Z", "catalogueRevision": "c1",
        "price": {"total": {"currencyCode": "GBP", "minorUnits": "9945"}, "minorDigits": 2},
        "child": {
            "outcome": "OUTCOME_RESTRICT", "acknowledge": ["R05"],
            "findings": [{"ruleId": "R05", "outcome": "OUTCOME_RESTRICT", "text": "the cord is long"}],
        },
    }})
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_quote_is_asked_shown_and_held_in_one_go() {
    let script = Script::default()
        .with("CalculateQuote", Ok(quote("abc.def")))
        .with("CreateReservation", Ok(json!({"reservation": reservation()})))
        .with("GetCatalogue", Ok(pounds()));
    let words = "reserve|6.2 m|--to|GB|--who|child|--acknowledge|R05";
    let (code, out, err) = command(Some(script.serve().await), words, "").await;
    assert_eq!((code, err.as_str()), (0, ""));
    assert_eq!(script.calls(), ["CalculateQuote", "CreateReservation", "GetCatalogue"]);
    assert_eq!(script.sent("CalculateQuote")[0]["enquiry"]["flaggedMm"], 6_200.0);
    let sent = &script.sent("CreateReservation")[0]["hold"];
    assert_eq!((&sent["token"], &sent["seconds"]), (&json!("abc.def"), &Value::Null));
    // first what is held, then where it lies
    let places: Vec<usize> = ["total GBP 99.45", "RESTRICT R05", "RESERVATION r-7", "TO TAKE FROM THE SHELF"]
        .iter()
        .map(|words| out.find(words).unwrap_or_else(|| panic!("{words} is not in\n{out}")))
        .collect();
    assert!(places.is_sorted(), "{out}");
    // the ticket itself may hold a lettering
    assert!(!out.contains("abc.def"), "{out}");
}

/// The quote stays to be read; what would let it be held is said by its flag.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_hold_that_is_refused_says_what_to_type() {
    let missing = ("hold.acknowledgedRuleIds", "MISSING", "R05 has to be acknowledged");
    let refused = refusal(Kind::InvalidEnquiry, "no", &[missing]);
    let script = Script::default()
        .with("CalculateQuote", Ok(quote("abc.def")))
        .with("CreateReservation", Err(refused));
    let (code, out, err) = command(Some(script.serve().await), "reserve|6.2 m", "").await;
    assert_eq!(code, 1);
    assert!(out.contains("total GBP 99.45") && !out.contains("RESERVATION"), "{out}");
    assert_eq!(
        err,
        "refused (INVALID_ENQUIRY)\n  --acknowledge (hold.acknowledgedRuleIds): R05 has to be acknowledged (MISSING)\n"
    );
    // an enquiry that is refused is refused by the flags of a quote
    let width = ("pennant.widthMm", "OUT_OF_RANGE", "at least 20 mm");
    let script = Script::default().with("CalculateQuote", Err(refusal(Kind::InvalidEnquiry, "no", &[width])));
    let (code, out, err) = command(Some(script.serve().await), "reserve|6.2 m|--width|1 mm", "").await;
    assert_eq!((code, out.as_str()), (1, ""));
    assert!(err.contains("--width (pennant.widthMm): at least 20 mm"), "{err}");
    // without a ticket nothing is held
    let script = Script::default().with("CalculateQuote", Ok(quote("")));
    let (code, _, err) = command(Some(script.serve().await), "reserve|6.2 m|--as-of|2026-11-20", "").await;
    assert!(code == 2 && err.contains("no ticket") && err.contains("--as-of"), "{err}");
    assert_eq!(script.calls(), ["CalculateQuote"]);
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn every_change_of_a_reservation_is_sent_as_it_was_typed() {
    for (words, call, expected) in [
        (
            "confirm|r-7|--order-ref|W-100",
            "ConfirmReservation",
            json!({"reservationId": "r-7", "confirmation": {"orderReference": "W-100"}}),
        ),
        (
            "extend|r-7|--for|30min",
            "ExtendReservation",
            json!({"reservationId": "r-7", "extension": {"seconds": 1800}}),
        ),
        ("extend|r-7", "ExtendReservation", json!({"reservationId": "r-7", "extension": {}})),
        ("release|r-7", "ReleaseReservation", json!({"reservationId": "r-7"})),
        (
            "cancel|r-7|--because|the party is off",
            "CancelReservation",
            json!({"reservationId": "r-7", "reason": "the party is off"}),
        ),
        (
            "amend|r-7",
            "AmendReservation",
            json!({
                "reservationId": "r-7", "token": "", "acknowledgedRuleIds": [], "overrideReason": "", "reason": "",
            }),
        ),
        (
            "amend|r-7|--token|abc.def|--acknowledge|R05|--override|a friend|--because|longer",
            "AmendReservation",
            json!({
                "reservationId": "r-7", "token": "abc.def", "acknowledgedRuleIds": ["R05"],
                "overrideReason": "a friend", "reason": "longer",
            }),
        ),
    ] {
        let answer = json!({"reservation": reservation()});
        let script = Script::default().with(call, Ok(answer.clone())).with("GetCatalogue", Ok(pounds()));
        let server = script.serve().await;
        let (code, out, err) = command(Some(server), words, "").await;
        assert_eq!((code, err.as_str()), (0, ""), "{words}");
        assert!(out.starts_with("RESERVATION r-7: held until "), "{out}");
        assert_eq!(anonymous(script.sent(call).pop().unwrap()), expected, "{words}");
        // as JSON the whole answer, and the identity that was said
        let script = Script::default().with(call, Ok(answer));
        let json = format!("{words}|--json|--request-id|mine");
        let (code, out, _) = command(Some(script.serve().await), &json, "").await;
        let told: Value = serde_json::from_str(&out).unwrap();
        assert_eq!((code, &told["reservation"]["reservationId"]), (0, &json!("r-7")));
        assert_eq!(script.sent(call)[0]["requestId"], "mine");
        assert_eq!(script.calls(), [call]);
    }
    for (words, said) in [
        ("cancel|r-7", "--because"),
        ("extend|r-7|--for|2", "such as 15 min or 2d"),
        ("reserve|6 m|--token|abc", "--token"),
        ("reserve|--token|abc|--rush", "--token"),
        ("reserve|--token|abc|--who|child", "--token"),
        ("confirm", "RESERVATION"),
    ] {
        let (code, _, err) = command(None, words, "").await;
        assert!(code == 2 && err.contains(said), "{words}: {err}");
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn reservations_are_listed_to_the_end_or_one_is_shown() {
    let script = Script::default()
        .with("ListReservations", Ok(json!({"reservations": [reservation()], "nextPageToken": "two"})))
        .with(
            "ListReservations",
            Ok(json!({"reservations": [{
                "reservationId": "r-5", "state": "RESERVATION_STATE_CUT", "orderReference": "W-99",
                "total": {"currencyCode": "EUR", "minorUnits": "1"}, "summary": "5 pennants",
            }]})),
        )
        .with("GetReservation", Ok(json!({"reservation": reservation()})))
        .with("GetCatalogue", Ok(pounds()))
        .with("GetCatalogue", Err(refusal(Kind::Unavailable, "starting", &[])));
    let server = script.serve().await;
    let (code, out, err) = command(Some(server), "reservations|--state|held,cut|--short", "").await;
    assert_eq!((code, err.as_str()), (0, ""));
    assert_eq!(
        out,
        "\
RESERVATIONS, the latest first
  reservation  leaves                     total  order  stands
  r-7          2026-11-27             GBP 99.45  -
      held until 2026-11-26T10:00:00Z, SHORT: 29 pennants, flagged 6200 mm
  r-5          -           1 minor units of EUR  W-99   cut: 5 pennants
"
    );
    let sent = script.sent("ListReservations");
    assert_eq!(sent[0]["states"], json!(["RESERVATION_STATE_HELD", "RESERVATION_STATE_CUT"]));
    assert_eq!((&sent[0]["shortOnly"], &sent[1]["pageToken"]), (&json!(true), &json!("two")));
    // where the currency is not to be had, the total is told in what is known of it
    let (code, out, _) = command(Some(server), "reservations|r-7", "").await;
    assert!(code == 0 && out.contains("total 9945 minor units of GBP"), "{out}");
    assert!(out.starts_with("RESERVATION r-7: held until 2026-11-26T10:00:00Z\n"), "{out}");
}
