//! `cut` and `undo`.

use serde_json::{Value, json};

use super::process::command;
use super::script::Script;

fn piece() -> Value {
    json!({
        "pieceId": "K-12", "code": "kelp", "kind": "PIECE_KIND_BOLT", "lot": "0417", "widthMm": 1120.0,
        "left": {"lengthMm": 9800.0}, "free": {"lengthMm": 9800.0}, "longest": {"lengthMm": 9800.0},
        "location": "rack B",
    })
}

fn cut() -> Value {
    json!({
        "cutId": "c-3", "undoUntil": "2026-11-24T10:10:00Z", "pieces": [piece()],
        "offcuts": [
            {
                "lengthMm": 300.0, "widthMm": 450.0, "kept": true, "pieceId": "K-12.2", "holds": 6,
                "message": "holds six of the smallest pennant",
            },
            {"lengthMm": 100.0, "widthMm": 450.0, "kept": false, "holds": 1, "message": ""},
        ],
        "reservation": {"reservationId": "r-7", "state": "RESERVATION_STATE_CONFIRMED"},
        "promises": [{
            "reservationId": "r-9", "pieceId": "K-12", "code": "kelp", "missing": {"lengthMm": 200.0},
            "missingBefore": {"lengthMm": 0.0},
        }],
        "proposals": [{
            "reservationId": "r-9", "pieceId": "K-14", "lot": "0417", "sameLot": true,
            "longest": {"lengthMm": 5000.0},
        }],
    })
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_line_that_went_otherwise_is_told_in_full() {
    let script = Script::default().with("RecordCut", Ok(cut()));
    let words = "cut|r-7|--line|1|--taken|2.6m|--spoiled|0.2m|--why|miscut|--kept|0.3m*45cm|--kept|\
        K-12.3=10 cm@drawer|--piece|K-12|--shapes|9|--done|--note|blunt blade";
    let (code, out, err) = command(Some(script.serve().await), words, "").await;
    assert_eq!((code, err.as_str()), (0, ""));
    let mut sent = script.sent("RecordCut").pop().unwrap();
    let id = sent.as_object_mut().unwrap().remove("requestId").unwrap();
    assert_eq!(id.as_str().unwrap().len(), 36);
    assert_eq!(
        sent,
        json!({"reservationId": "r-7", "cutDate": "", "parts": [{
            "line": 1, "pieceId": "K-12", "taken": {"lengthMm": 2600.0}, "spoiled": {"lengthMm": 200.0},
            "why": "STOCK_REASON_MISCUT", "done": true, "shapes": 9, "note": "blunt blade",
            "offcuts": [
                {"pieceId": "", "lengthMm": 300.0, "widthMm": 450.0, "location": ""},
                {"pieceId": "K-12.3", "lengthMm": 100.0, "location": "drawer"},
            ],
        }]})
    );
    assert_eq!(
        out,
        "\
CUT c-3
  to take it back, until 2026-11-24T10:10:00Z: pennantry undo c-3

OFFCUTS
  keep 0.3 m × 0.45 m: label it K-12.2; it holds 6 of the smallest pennant
    holds six of the smallest pennant
  waste 0.1 m × 0.45 m; it holds 1 of the smallest pennant

ON THE SHELF NOW
  label  code  lot    left   free  longest  lies
  K-12   kelp  0417  9.8 m  9.8 m    9.8 m  rack B

FALLS SHORT
  r-9: 0.2 m of kelp is missing on K-12; before, 0 m
    K-14 would do, the same lot 0417, up to 5 m in one cut
    plan it anew with: pennantry amend r-9

RESERVATION r-7: confirmed
"
    );
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn all_of_it_as_planned_is_one_touch_and_so_is_taking_it_back() {
    let undone = json!({
        "pieces": [piece()], "reservation": {"reservationId": "r-7", "state": "RESERVATION_STATE_CONFIRMED"},
        "promises": [{
            "reservationId": "r-9", "pieceId": "K-12", "code": "kelp", "missing": {"lengthMm": 0.0},
            "missingBefore": {"lengthMm": 200.0},
        }],
    });
    let script = Script::default().with("RecordCut", Ok(cut())).with("UndoCut", Ok(undone));
    let server = script.serve().await;
    let (code, out, _) = command(Some(server), "cut|r-7|--plain", "").await;
    assert!(code == 0 && out.is_ascii() && out.contains("0.3 m x 0.45 m"), "{out}");
    assert_eq!(script.sent("RecordCut")[0]["parts"], json!([]));
    let (code, out, _) = command(Some(server), "undo|c-3", "").await;
    assert_eq!(code, 0);
    assert!(out.starts_with("CUT c-3 is taken back\n"), "{out}");
    assert!(
        out.contains("GOOD AGAIN\n  r-9: nothing of kelp is missing on K-12 any longer; before, 0.2 m"),
        "{out}"
    );
    assert_eq!(script.sent("UndoCut")[0]["cutId"], "c-3");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn half_a_line_cannot_be_typed() {
    for (words, said) in [
        ("cut|r-7|--line|1", "--taken"),
        ("cut|r-7|--taken|1 m", "--line"),
        ("cut|r-7|--done", "--line"),
        ("cut|r-7|--line|1|--taken|1 m|--spoiled|1 cm", "--why"),
        ("cut|r-7|--line|1|--taken|1 m|--why|miscut", "--spoiled"),
        ("cut|r-7|--line|1|--taken|1.5", "no unit"),
        ("cut|r-7|--line|1|--taken|1 m|--kept|0.3", "0.3 m*45 cm"),
        ("cut|r-7|--line|1|--taken|1 m|--kept|0 m*1 m", "longer and wider than 0"),
    ] {
        let (code, _, err) = command(None, words, "").await;
        assert!(code == 2 && err.contains(said), "{words}: {err}");
    }
}

/// A cut that is recorded later: the day goes as it was typed, and the server judges it.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_cut_of_another_day_is_sent_with_it_and_a_day_that_cannot_be_is_refused() {
    let script = Script::default().with("RecordCut", Ok(cut())).with("RecordCut", Ok(cut()));
    let server = script.serve().await;
    for (words, day) in [("cut|r-7|--on|2026-11-20", "2026-11-20"), ("cut|r-7", "")] {
        let (code, _, err) = command(Some(server), words, "").await;
        assert_eq!((code, err.as_str()), (0, ""), "{words}");
        assert_eq!(script.sent("RecordCut").pop().unwrap()["cutDate"].as_str().unwrap_or(""), day, "{words}");
    }
    let (code, out, _) = command(None, "cut|--help", "").await;
    assert!(code == 0 && out.contains("--on <DATE>") && out.contains("31 days"), "{out}");
    // by a server that keeps a stock
    let running = super::process::server().await;
    let (code, out, err) = command(Some(running.private()), "cut|nobodys|--on|2026-11-31", "").await;
    assert_eq!((code, out.as_str()), (1, ""), "{err}");
    assert!(err.contains("cutDate") && err.contains("\"2026-11-31\" is no day"), "{err}");
    super::process::close(running).await;
}
