//! `pennantry receive`: one piece, a stock-take, and what is wrong with one.

use pennantry_contract::reasons::Kind;
use serde_json::{Value, json};
use tonic::Status;

use super::process::{close, command, server};
use super::script::{Script, pounds, refusal};

/// A request without its identity, and the identity.
fn parted(mut request: Value) -> (Value, String) {
    let id = request.as_object_mut().unwrap().remove("requestId").unwrap();
    (request, id.as_str().unwrap().to_owned())
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn one_piece_by_flags() {
    let answer = json!({
        "pieceIds": ["K-12"],
        "order": {
            "orderId": "HM-3", "supplier": "Hollin Mill", "state": "ORDER_STATE_OPEN",
            "expectedDate": "2026-12-04", "placeTime": "2026-11-20T09:00:00Z",
            "lines": [{
                "code": "kelp", "ordered": {"lengthMm": 25000.0}, "received": {"lengthMm": 12400.0},
                "outstanding": {"lengthMm": 12600.0},
            }],
        },
        "promises": [{
            "reservationId": "r-7", "state": "RESERVATION_STATE_CONFIRMED", "pieceId": "K-12", "code": "kelp",
            "missing": {"lengthMm": 0.0}, "missingBefore": {"lengthMm": 400.0},
        }],
    });
    let script = Script::default().with("GetCatalogue", Ok(pounds())).with("ReceiveStock", Ok(answer));
    let server = script.serve().await;
    let words = "receive|kelp|12.4|m|--lot|0417|--width|112 cm|--kind|bolt|--place|rack B|--cost|86.40|\
        --supplier|Hollin Mill|--reference|HM 2231|--certificate|T-1|--certificate|T-2|--flaw|1.2 m..1.25 m|\
        --on-order|HM-3";
    let (code, out, err) = command(Some(server), words, "").await;
    assert_eq!((code, err.as_str()), (0, ""));
    let (sent, id) = parted(script.sent("ReceiveStock").pop().unwrap());
    assert_eq!(
        sent,
        json!({
            "orderId": "HM-3",
            "pieces": [{
                "pieceId": "", "code": "kelp", "kind": "PIECE_KIND_BOLT", "quantity": {"lengthMm": 12400.0},
                "widthMm": 1120.0, "lot": "0417", "location": "rack B",
                "flaws": [{"fromMm": 1200.0, "toMm": 1250.0}],
                "cost": {"currencyCode": "GBP", "minorUnits": "8640"}, "supplier": "Hollin Mill",
                "supplierReference": "HM 2231", "certificates": ["T-1", "T-2"],
            }],
        })
    );
    assert_eq!((id.len(), id.matches('-').count()), (36, 4), "{id}");
    assert_eq!(
        out,
        "\
1 piece on the shelf
  labels that are new, to be written on the pieces:
    label  code  lot    holds
    K-12   kelp  0417  12.4 m

GOOD AGAIN
  r-7: nothing of kelp is missing on K-12 any longer; before, 0.4 m

ORDER HM-3 at Hollin Mill: open, expected 2026-12-04
  placed 2026-11-20T09:00:00Z
  code  ordered    came  to come
  kelp     25 m  12.4 m   12.6 m
"
    );
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_stock_take_comes_in_one_call_and_new_labels_are_told() {
    let answer = json!({"pieceIds": ["L-1", "S-9"], "replayed": true});
    let script = Script::default().with("GetCatalogue", Ok(pounds())).with("ReceiveStock", Ok(answer));
    let server = script.serve().await;
    let file = "\u{feff}code;label;length;count;cost\r\nkelp;L-1;2,5 m;;12,50\r\n\r\nstar;;;250;\r\n";
    let (code, out, err) = command(Some(server), "receive|--from|-|--request-id|mine|--progress", file).await;
    assert_eq!(code, 0, "{err}");
    assert!(err.contains("s: 2 pieces checked\n") && err.contains("s: done\n"), "{err}");
    assert_eq!(script.calls(), ["GetCatalogue", "ReceiveStock"]);
    let (sent, id) = parted(script.sent("ReceiveStock").pop().unwrap());
    assert_eq!(id, "mine");
    assert_eq!(sent["pieces"][0]["cost"]["minorUnits"], "1250");
    assert_eq!(sent["pieces"][1]["quantity"], json!({"count": 250}));
    assert_eq!(
        out,
        "\
2 pieces on the shelf
  this had been done before, and is the first answer: nothing was done again
  labels that are new, to be written on the pieces:
  line  label  code  lot  holds
     4  S-9    star  -      250
"
    );
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn nothing_of_a_file_with_a_fault_is_sent() {
    let script = Script::default().with("GetCatalogue", Ok(pounds()));
    let server = script.serve().await;
    let file = "code,length\nkelp,1 m\nkelp,2\n,3 m\n";
    for words in ["receive|--from|-", "receive|--from|-|--check"] {
        let (code, out, err) = command(Some(server), words, file).await;
        assert_eq!((code, out.as_str()), (2, ""));
        assert_eq!(
            err,
            "\
line 3, length: \"2\" has no unit: write 2 mm, 2 cm, 2 m, 2 in, 2 ft or 2 yd
line 4, code: it is empty: write the code of the material
-: 2 faults; nothing was sent
"
        );
    }
    assert!(script.calls().is_empty());
    // what only the shop's currency shows, line by line too
    let file = "code,length,cost\nkelp,1 m,1.005\nkelp,1 m,5\nkelp,1 m,EUR 5\n";
    let (code, _, err) = command(Some(server), "receive|--from|-", file).await;
    assert_eq!(code, 2);
    assert_eq!(
        err,
        "\
line 2, cost: \"1.005\" has 3 decimals, but GBP has 2: write at most 2
line 4, cost: \"EUR 5\" is in EUR, but this shop keeps its books in GBP
nothing was sent
"
    );
    assert_eq!(script.calls(), ["GetCatalogue"]);
    let (code, _, err) = command(Some(server), "receive|--from|/no/such/file.csv", "").await;
    assert!(code == 2 && err.starts_with("--from: /no/such/file.csv cannot be read: "), "{err}");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn checking_asks_nobody_and_columns_need_nothing() {
    let (code, out, err) = command(None, "receive|--from|-|--check", "code,length\nkelp,1 m\n").await;
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.starts_with("1 piece can be read") && out.contains("for the server to judge"), "{out}");
    let (code, out, _) = command(None, "receive|--columns", "").await;
    assert!(code == 0 && out.contains("certificates") && out.contains("one of length and count"), "{out}");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_refusal_of_the_server_names_lines_and_columns_or_flags() {
    let refused = || {
        Err(refusal(
            Kind::InvalidEnquiry,
            "no",
            &[
                ("pieces[1].code", "UNKNOWN_CODE", "\"kelb\" is not in the catalogue"),
                ("pieces[1].quantity.lengthMm", "OUT_OF_RANGE", "too long"),
                ("orderId", "UNKNOWN_CODE", "no such order"),
            ],
        ))
    };
    let script = Script::default().with("ReceiveStock", refused()).with("ReceiveStock", refused());
    let server = script.serve().await;
    let file = "code,length\n\nkelp,1 m\nkelb,900 m\n";
    let (code, out, err) = command(Some(server), "receive|--from|-|--on-order|X", file).await;
    assert_eq!((code, out.as_str()), (1, ""));
    assert_eq!(
        err,
        "\
refused (INVALID_ENQUIRY)
  line 4, code: \"kelb\" is not in the catalogue (UNKNOWN_CODE)
  line 4, length or count: too long (OUT_OF_RANGE)
  --on-order (orderId): no such order (UNKNOWN_CODE)
"
    );
    // as JSON it is the contract's own refusal
    let (code, out, _) = command(Some(server), "receive|--from|-|--json", file).await;
    let told: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, &told["violations"][0]["field"]), (1, &json!("pieces[1].code")));
}

/// More than fits into a refusal, of every kind that only the server finds, on lines near and far.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn all_that_only_the_server_finds_is_told_at_once_and_nothing_is_taken_in() {
    let running = server().await;
    let private = Some(running.private());
    let there: Vec<String> = (0..20).map(|place| format!("T-{place},kelp,2 m,\n")).collect();
    let there = there.concat();
    let columns = "label,code,length,kind\n";
    let (code, _, err) = command(private, "receive|--from|-", &format!("{columns}{there}")).await;
    assert_eq!((code, err.as_str()), (0, ""));
    let line = |place: usize| match place % 10 {
        0 if place.is_multiple_of(50) => (format!("T-{},kelp,1 m,", place / 50), "label"),
        1 | 2 => (format!("L-{place},kelb,1 m,"), "code"),
        3 | 4 => (format!("L-{place},kelp,1 m,box"), "kind"),
        5 => (format!("L-{place},kelp-bias-25,1 m,"), "code"),
        6 | 7 => (format!("L-{place},sewn-label,4 m,"), "length or count"),
        _ => (format!("L-{place},kelp,1 m,"), ""),
    };
    let lines: Vec<(String, &str)> = (0..1_000).map(line).collect();
    let file: Vec<&str> = lines.iter().map(|(line, _)| line.as_str()).collect();
    let file = file.join("\n");
    let (code, out, err) = command(private, "receive|--from|-", &format!("{columns}{file}")).await;
    assert_eq!((code, out.as_str()), (1, ""), "{err}");
    let told: Vec<String> = err
        .lines()
        .filter_map(|line| Some(line.strip_prefix("  line ")?.split_once(": ")?.0.to_owned()))
        .collect();
    let wrong: Vec<String> = (2..)
        .zip(&lines)
        .filter(|(_, (_, column))| !column.is_empty())
        .map(|(number, (_, column))| format!("{number}, {column}"))
        .collect();
    assert_eq!(wrong.len(), 720);
    assert_eq!(told, wrong);
    assert!(err.contains("\"T-19\" is the label of a piece already") && !err.contains(" more, "), "{err}");
    // as JSON the paths are those of the whole file
    let (code, out, _) = command(private, "receive|--from|-|--json", &format!("{columns}{file}")).await;
    let refusal: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, refusal["violations"].as_array().unwrap().len()), (1, 720));
    assert_eq!(refusal["violations"][719]["field"], "pieces[997].quantity.lengthMm");
    // where labels are taken and nothing else is wrong, each is told
    let (code, _, err) =
        command(private, "receive|--from|-", &format!("{columns}{there}N-1,kelp,1 m,\n")).await;
    assert_eq!((code, err.matches("is the label of a piece already").count()), (1, 20), "{err}");
    let (code, out, err) = command(private, "bolts|--csv", "").await;
    assert_eq!((code, out.lines().count()), (0, 21), "{out}{err}");
    close(running).await;
}

/// A stock-take as large as they may be.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn five_thousand_lines_come_in_one_call_and_one_more_in_none() {
    let line = |place| format!("L-{place},kelp,{} mm,0417,rack {}\n", place + 1, place % 40);
    let lines: Vec<String> = (0..5_000).map(line).collect();
    let file = format!("label,code,length,lot,place\n{}", lines.concat());
    let labels: Vec<String> = (0..5_000).map(|place| format!("L-{place}")).collect();
    let script = Script::default().with("ReceiveStock", Ok(json!({"pieceIds": labels})));
    let server = script.serve().await;
    let (code, out, err) = command(Some(server), "receive|--from|-", &file).await;
    assert_eq!((code, out.as_str(), err.as_str()), (0, "5000 pieces on the shelf\n", ""));
    let sent = script.sent("ReceiveStock");
    assert_eq!((sent.len(), sent[0]["pieces"].as_array().unwrap().len()), (1, 5_000));
    assert_eq!(sent[0]["pieces"][4_999]["quantity"]["lengthMm"], 5_000.0);
    let (code, _, err) = command(Some(server), "receive|--from|-", &(file + "L,kelp,1 m,,\n")).await;
    assert!(code == 2 && err.starts_with("5001 pieces are too many"), "{err}");
    assert_eq!(script.calls().len(), 1);
}

/// Whatever broke, the same identity goes again: the server does it once.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn what_got_no_answer_is_sent_again_with_the_same_identity() {
    let script = Script::default()
        .with("ReceiveStock", Err(refusal(Kind::Unavailable, "stopping", &[])))
        .with("ReceiveStock", Err(Status::deadline_exceeded("too late")))
        .with("ReceiveStock", Ok(json!({"pieceIds": ["A"], "replayed": true})));
    let server = script.serve().await;
    let (code, out, err) = command(Some(server), "receive|kelp|1 m", "").await;
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("nothing was done again"), "{out}");
    let sent = script.sent("ReceiveStock");
    assert_eq!(sent.len(), 3);
    assert!(sent.iter().all(|one| *one == sent[0]) && sent[0]["requestId"].as_str().unwrap().len() == 36);
    // a refusal is an answer
    let script = Script::default().with("ReceiveStock", Err(refusal(Kind::FailedPrecondition, "taken", &[])));
    let (code, _, err) = command(Some(script.serve().await), "receive|kelp|1 m", "").await;
    assert_eq!((code, err.as_str()), (1, "refused (FAILED_PRECONDITION)\n  taken\n"));
    assert_eq!(script.calls().len(), 1);
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn what_cannot_be_typed_is_refused_before_anybody_is_asked() {
    for (words, said) in [
        ("receive", "CODE"),
        ("receive|kelp", "LENGTH|COUNT"),
        ("receive|kelp|2.5", "no unit"),
        ("receive|kelp|--|-1 m", "below nought"),
        ("receive|--from|-|--lot|x", "CODE"),
        ("receive|kelp|1 m|--from|-", "--from"),
        ("receive|kelp|1 m|--check", "--from"),
        ("receive|kelp|1 m|--flaw|1 m", "1.2 m..1.25 m"),
        ("receive|kelp|1 m|--kind|heap", "remnant"),
        ("receive|kelp|1 m|--cost|cheap", "12.50"),
    ] {
        let (code, out, err) = command(None, words, "").await;
        assert_eq!((code, out.as_str()), (2, ""), "{words}: {err}");
        assert!(err.contains(said), "{words}: {err}");
    }
}
