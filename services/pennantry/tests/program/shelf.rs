//! `bolts`, `piece`, the facts about a piece, and orders at suppliers.

use pennantry_contract::reasons::Kind;
use serde_json::{Value, json};

use super::process::command;
use super::script::{Script, pounds, refusal};

fn bolt() -> Value {
    json!({
        "pieceId": "K-12", "code": "kelp", "kind": "PIECE_KIND_BOLT", "lot": "0417", "widthMm": 1120.0,
        "received": {"lengthMm": 12400.0}, "left": {"lengthMm": 12400.0}, "held": {"lengthMm": 800.0},
        "confirmed": {"lengthMm": 2400.0}, "free": {"lengthMm": 9200.0}, "longest": {"lengthMm": 7400.0},
        "flaws": [{"fromMm": 1200.0, "toMm": 1250.0}], "location": "rack B, \"top\"",
        "cost": {"currencyCode": "GBP", "minorUnits": "8640"}, "supplier": "Hollin Mill",
        "supplierReference": "HM 2231", "certificates": ["T-1|2", "T-3"],
        "receiveTime": "2026-11-20T09:00:00Z", "orderId": "HM-3",
    })
}

fn remnant() -> Value {
    json!({
        "pieceId": "K-12.1", "code": "kelp", "kind": "PIECE_KIND_REMNANT", "lot": "0417", "widthMm": 450.0,
        "received": {"lengthMm": 300.0}, "left": {"lengthMm": 300.0}, "held": {"lengthMm": 0.0},
        "confirmed": {"lengthMm": 0.0}, "free": {"lengthMm": 300.0}, "longest": {"lengthMm": 300.0},
        "location": "drawer", "parentId": "K-12", "receiveTime": "2026-11-24T09:00:00Z",
    })
}

fn stars() -> Value {
    json!({
        "pieceId": "S-9", "code": "star", "kind": "PIECE_KIND_BOX", "received": {"count": 250},
        "left": {"count": 248}, "held": {"count": 0}, "confirmed": {"count": 0}, "free": {"count": 248},
        "longest": {"count": 248}, "location": "drawer",
        "cost": {"currencyCode": "GBP", "minorUnits": "2500"}, "receiveTime": "2026-11-20T09:00:00Z",
    })
}

fn pages(script: Script) -> Script {
    script
        .with(
            "ListStock",
            Ok(json!({
                "pieces": [bolt(), remnant()], "nextPageToken": "two", "asOf": "2026-11-24T10:00:00Z",
            })),
        )
        .with("ListStock", Ok(json!({"pieces": [stars()], "asOf": "2026-11-24T10:00:01Z"})))
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_shelf_is_listed_to_its_end() {
    let script = pages(Script::default());
    let server = script.serve().await;
    let (code, out, err) = command(Some(server), "bolts|kelp|--lot|0417|--empty", "").await;
    assert_eq!((code, err.as_str()), (0, ""));
    let asked = script.sent("ListStock");
    assert_eq!(
        asked,
        [
            json!({"code": "kelp", "lot": "0417", "emptyToo": true, "pageSize": 1000, "pageToken": ""}),
            json!({"code": "kelp", "lot": "0417", "emptyToo": true, "pageSize": 1000, "pageToken": "two"}),
        ]
    );
    assert_eq!(
        out,
        "\
SHELF as of 2026-11-24T10:00:00Z
  label   code  lot     left   free  longest  lies
  K-12    kelp  0417  12.4 m  9.2 m    7.4 m  rack B, \"top\"  0.8 m held, 2.4 m confirmed, 1 flaw
  K-12.1  kelp  0417   0.3 m  0.3 m    0.3 m  drawer         remnant 0.45 m wide
  S-9     star  -        248    248      248  drawer
  3 pieces
"
    );
    let script = pages(Script::default());
    let (_, out, _) = command(Some(script.serve().await), "bolts|--json", "").await;
    let told: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((told["pieces"].as_array().unwrap().len(), &told["nextPageToken"]), (3, &json!("")));
}

/// What is listed as a file is received as it was, but for a cost that is not its own any longer.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_list_as_a_file_is_received_again() {
    let script = pages(Script::default()).with("GetCatalogue", Ok(pounds()));
    let (code, file, err) = command(Some(script.serve().await), "bolts|--csv", "").await;
    assert_eq!(code, 0);
    assert_eq!(
        err,
        "left out is the cost of 1 piece: it is that of the whole piece, of which some is gone\n"
    );
    let (code, _, err) = command(None, "receive|--from|-|--check", &file).await;
    assert_eq!((code, err.as_str()), (0, ""), "{file}");
    let labels = json!({"pieceIds": ["K-12", "K-12.1", "S-9"]});
    let script = Script::default().with("GetCatalogue", Ok(pounds())).with("ReceiveStock", Ok(labels));
    let (code, ..) = command(Some(script.serve().await), "receive|--from|-", &file).await;
    assert_eq!(code, 0);
    let sent = script.sent("ReceiveStock").pop().unwrap();
    for (sent, listed) in sent["pieces"].as_array().unwrap().iter().zip([bolt(), remnant(), stars()]) {
        let same = [
            "pieceId",
            "code",
            "kind",
            "lot",
            "flaws",
            "location",
            "supplier",
            "supplierReference",
            "certificates",
        ];
        for field in same {
            let empty = if matches!(field, "flaws" | "certificates") { json!([]) } else { json!("") };
            let listed = if listed[field].is_null() { &empty } else { &listed[field] };
            assert_eq!(&sent[field], listed, "{field}");
        }
        assert_eq!(sent["quantity"], listed["left"]);
        assert_eq!(sent["widthMm"], listed["widthMm"]);
    }
    assert_eq!(sent["pieces"][0]["cost"], bolt()["cost"]);
    assert!(sent["pieces"][2]["cost"].is_null());
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_piece_is_shown_with_what_is_promised_and_what_was_moved() {
    let told = json!({
        "piece": bolt(),
        "reservations": [{
            "reservationId": "r-7", "state": "RESERVATION_STATE_HELD", "expireTime": "2026-11-24T10:15:00Z",
            "leaveDate": "2026-11-27", "total": {"currencyCode": "GBP", "minorUnits": "9945"}, "short": true,
            "summary": "29 pennants",
        }],
        "movements": [
            {
                "time": "2026-11-20T09:00:00Z", "date": "2026-11-20", "actor": "staff", "kind": "receive",
                "from": "supplier", "to": "free", "quantity": {"lengthMm": 12400.0}, "note": "by van",
            },
            {
                "time": "2026-11-24T10:00:00Z", "date": "2026-11-24", "actor": "staff", "kind": "cut",
                "from": "free", "to": "spoiled", "quantity": {"lengthMm": 200.0}, "reservationId": "r-7",
                "cutId": "c-1", "reason": "STOCK_REASON_MISCUT",
            },
        ],
    });
    let script = Script::default().with("GetPiece", Ok(told)).with("GetCatalogue", Ok(pounds()));
    let (code, out, err) = command(Some(script.serve().await), "piece|K-12|--show|cm", "").await;
    assert_eq!((code, err.as_str()), (0, ""));
    assert_eq!(
        out,
        "\
PIECE K-12
  material          bolt of kelp                   dye lot           0417
  lies              rack B, \"top\"                  left              1240 cm
  free              920 cm                         held              80 cm
  confirmed         240 cm                         longest cut       740 cm
  came with         1240 cm                        width             112 cm
  came              2026-11-20T09:00:00Z           on order          HM-3
  supplier          Hollin Mill                    reference         HM 2231
  cost              GBP 86.40                      certificates      T-1|2, T-3
  flaw from 120 cm to 125 cm, from the free end

PROMISED OF IT
  reservation  leaves          total  order  stands
  r-7          2026-11-27  GBP 99.45  -      held until 2026-11-24T10:15:00Z, SHORT: 29 pennants

MOVED, the first one first
  2026-11-20T09:00:00Z  receive  1240 cm  supplier to free  staff  by van
  2026-11-24T10:00:00Z  cut        20 cm  free to spoiled   staff  for r-7, by cut c-1, miscut
"
    );
}

/// The request of a fact, without its identity.
async fn fact(words: &str, looked_up: Option<Value>) -> Value {
    let mut script = Script::default().with("AdjustStock", Ok(json!({"piece": bolt()})));
    if let Some(piece) = looked_up {
        script = script.with("GetPiece", Ok(json!({"piece": piece})));
    }
    let (code, out, err) = command(Some(script.serve().await), words, "").await;
    assert_eq!((code, err.as_str()), (0, ""), "{words}");
    assert!(out.starts_with("RECORDED\n") && out.contains("K-12"), "{out}");
    let mut sent = script.sent("AdjustStock").pop().unwrap();
    let id = sent.as_object_mut().unwrap().remove("requestId").unwrap();
    assert_eq!(id.as_str().unwrap().len(), 36);
    sent
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn every_fact_is_sent_as_it_was_typed() {
    for (words, what) in [
        ("count|K-12|7 1/2 in", json!({"counted": {"lengthMm": 190.5}})),
        ("count|K-12|7|1/2|in", json!({"counted": {"lengthMm": 190.5}})),
        ("count|S-9|248", json!({"counted": {"count": 248}})),
        ("found|K-12|0.4 m", json!({"found": {"lengthMm": 400.0}})),
        (
            "gone|K-12|40 cm|--why|damaged",
            json!({"gone": {"quantity": {"lengthMm": 400.0}, "reason": "STOCK_REASON_DAMAGED"}}),
        ),
        ("move|K-12|rack|C", json!({"location": "rack C"})),
        ("flaw|K-12|--none", json!({"flaws": {"flaws": []}})),
        ("flaw|K-12|--all|0..1cm", json!({"flaws": {"flaws": [{"fromMm": 0.0, "toMm": 10.0}]}})),
    ] {
        let mut expected = json!({"pieceId": "K-12", "note": ""});
        if words.contains("S-9") {
            expected["pieceId"] = json!("S-9");
        }
        expected.as_object_mut().unwrap().extend(what.as_object().unwrap().clone());
        assert_eq!(fact(words, None).await, expected, "{words}");
    }
    assert_eq!(fact("move|K-12|rack C|--note|too damp", None).await["note"], "too damp");
}

/// At the shelf one is found: what others have told of the piece meanwhile stays.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_flaw_is_added_to_those_that_are_known_once() {
    let sent = fact("flaw|K-12|3 m..3.1 m|0..1 cm|3 m..3.1 m", None).await;
    let more = json!([{"fromMm": 0.0, "toMm": 10.0}, {"fromMm": 3000.0, "toMm": 3100.0}]);
    assert_eq!(sent, json!({"pieceId": "K-12", "note": "", "moreFlaws": {"flaws": more}}));
}

/// Nothing is nothing of what the piece is measured in.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_plain_nought_is_of_the_kind_of_the_piece() {
    assert_eq!(fact("count|K-12|0", Some(bolt())).await["counted"], json!({"lengthMm": 0.0}));
    assert_eq!(fact("count|K-12|0", Some(stars())).await["counted"], json!({"count": 0}));
    assert_eq!(fact("count|K-12|0 m", None).await["counted"], json!({"lengthMm": 0.0}));
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn who_falls_short_and_what_would_do_is_told() {
    let told = json!({
        "piece": bolt(),
        "promises": [
            {
                "reservationId": "r-7", "pieceId": "K-12", "code": "kelp", "missing": {"lengthMm": 400.0},
                "missingBefore": {"lengthMm": 0.0},
            },
            {
                "reservationId": "r-8", "pieceId": "K-12", "code": "kelp", "missing": {"lengthMm": 100.0},
                "missingBefore": {"lengthMm": 50.0},
            },
        ],
        "proposals": [{
            "reservationId": "r-7", "pieceId": "K-14", "lot": "0418", "longest": {"lengthMm": 5000.0},
        }],
    });
    let script = Script::default().with("AdjustStock", Ok(told));
    let (code, out, _) = command(Some(script.serve().await), "gone|K-12|1 m|--why|lost", "").await;
    assert_eq!(code, 0);
    assert!(
        out.ends_with(
            "
FALLS SHORT
  r-7: 0.4 m of kelp is missing on K-12; before, 0 m
    K-14 would do, another lot 0418, up to 5 m in one cut
    plan it anew with: pennantry amend r-7
  r-8: 0.1 m of kelp is missing on K-12; before, 0.05 m
    no other piece on the shelf would make it good
"
        ),
        "{out}"
    );
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_fact_that_cannot_be_is_refused_by_its_flags() {
    let refused = refusal(
        Kind::FailedPrecondition,
        "12 m lie on K-12, and 20 m cannot be gone",
        &[("gone.quantity.lengthMm", "OUT_OF_RANGE", "at most 12 m"), ("note", "TOO_LONG", "at most 200")],
    );
    let script = Script::default().with("AdjustStock", Err(refused));
    let (code, _, err) = command(Some(script.serve().await), "gone|K-12|20 m|--why|lost", "").await;
    assert_eq!(code, 1);
    assert_eq!(
        err,
        "\
refused (FAILED_PRECONDITION)
  LENGTH|COUNT (gone.quantity.lengthMm): at most 12 m (OUT_OF_RANGE)
  --note (note): at most 200 (TOO_LONG)
"
    );
    for (words, said) in [
        ("gone|K-12|1 m", "--why"),
        ("gone|K-12|1 m|--why|moths", "damaged"),
        ("count|K-12", "LENGTH|COUNT"),
        ("count|K-12|7", ""),
        ("flaw|K-12", "FROM..TO"),
        ("flaw|K-12|1 m..2 m|--none", "--none"),
        ("flaw|K-12|2 m..1 m", "end behind"),
        ("move|K-12", "PLACE"),
    ] {
        let (code, _, err) = command(None, &format!("{words}|--server|127.0.0.1:1"), "").await;
        assert!(code == 2 && err.contains(said), "{words}: {err}");
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn orders_are_placed_listed_and_called_off() {
    let order = json!({
        "orderId": "HM-4", "supplier": "Hollin Mill", "state": "ORDER_STATE_OPEN", "late": true,
        "expectedDate": "2026-11-20", "placeTime": "2026-11-01T09:00:00Z", "note": "by van",
        "lines": [{
            "code": "star", "ordered": {"count": 200}, "received": {"count": 0}, "outstanding": {"count": 200},
        }],
    });
    let script = Script::default()
        .with("PlaceOrder", Ok(json!({"order": order})))
        .with("ListOrders", Ok(json!({"orders": [order]})))
        .with("CancelOrder", Ok(json!({"order": order, "replayed": true})));
    let server = script.serve().await;
    let words =
        "order|place|Hollin Mill|--by|2026-12-04|--line|kelp=25 m|--line|star=200|--name|HM-4|--note|soon";
    let (code, placed, err) = command(Some(server), words, "").await;
    assert_eq!((code, err.as_str()), (0, ""));
    let mut sent = script.sent("PlaceOrder").pop().unwrap();
    sent.as_object_mut().unwrap().remove("requestId").unwrap();
    assert_eq!(
        sent,
        json!({
            "orderId": "HM-4", "supplier": "Hollin Mill", "expectedDate": "2026-12-04", "note": "soon",
            "lines": [
                {"code": "kelp", "quantity": {"lengthMm": 25000.0}}, {"code": "star", "quantity": {"count": 200}},
            ],
        })
    );
    let text = "\
ORDER HM-4 at Hollin Mill: open, expected 2026-11-20, LATE
  placed 2026-11-01T09:00:00Z
  code  ordered  came  to come
  star      200     0      200
  by van
";
    assert_eq!(placed, text);
    let (code, listed, _) = command(Some(server), "order|list|--closed", "").await;
    assert_eq!((code, listed.as_str()), (0, text));
    assert_eq!(script.sent("ListOrders"), [json!({"closedToo": true})]);
    let (code, off, _) = command(Some(server), "order|cancel|HM-4|--because|too late", "").await;
    assert!(code == 0 && off.starts_with(text) && off.contains("nothing was done again"), "{off}");
    assert_eq!(script.sent("CancelOrder")[0]["reason"], "too late");
}
