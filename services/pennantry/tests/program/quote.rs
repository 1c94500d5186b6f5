//! `pennantry quote` at a real server.

use pennantry_contract::v1;
use serde_json::Value;

use super::process::{close, run, server, twin};

/// The story of the README: 6.2 m for a nursery, by Friday week.
const STORY: &str = "6.2 m|--to|GB|--who|child|--youngest|0|--place|child-room|--by|2026-12-04";

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_story_is_a_sheet_for_the_counter() {
    let server = server().await;
    let (code, out, err) = run(Some(server.private()), STORY).await;
    assert_eq!((code, err.as_str()), (0, ""));
    // by hand in tests/golden/quotes: 690 mm over 28 gaps, tails of 300
    assert!(out.starts_with("29 pennants, gap 24.643 mm, flagged 6200 mm, overall 6800 mm\n"), "{out}");
    for words in [
        "LAYOUT",
        "~ 23 more ~",
        "pitch 214.643 mm",
        "a kelp",
        "b chandlers-rope",
        "c lamp-oil",
        "1 row of 9, points in turn",
        "2026-12-04, kept",
        "COST in GBP, for the shop alone",
        "SMALL CHILDREN",
        "Local rules and competent people decide",
    ] {
        assert!(out.contains(words), "{words} is not in\n{out}");
    }
    // each figure is worked by hand in tests/golden/quotes, the case of the story
    for row in ["1 310 mm 500 mm -3100 mm -2910 mm a kelp", "a 10 190 mm × 210 mm 420 mm 500 mm kelp"] {
        let found = out.lines().any(|line| line.split_whitespace().collect::<Vec<_>>().join(" ") == row);
        assert!(found, "{row} is not in\n{out}");
    }
    // no escape codes, in a pipe or anywhere
    assert!(out.chars().all(|c| c == '\n' || !c.is_control()));
    let (code, buyer, _) = run(Some(server.private()), &format!("{STORY}|--view|buyer")).await;
    assert!(code == 0 && !buyer.contains("COST"), "{buyer}");
    let (code, plain, _) =
        run(Some(server.private()), &format!("{STORY}|--plain|--marks|--leaflet|--workings")).await;
    assert!(
        code == 0 && plain.is_ascii() && plain.contains("WORKINGS") && plain.contains("LEAFLET"),
        "{plain}"
    );
    close(server).await;
}

/// What is printed with --json is what the JSON twin of the call sends, and a line's end.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn json_is_the_twins_bytes() {
    let server = server().await;
    for (flags, enquiry) in [
        ("6.2 m|--json", r#"{"flaggedMm":6200,"view":"VIEW_SHOP"}"#),
        (
            "--overall|7 1/2 yd|--width|7 1/2 in|--fabrics|kelp,lamp-oil|--colours|mirror-ends|--json|--view|buyer",
            r#"{"overallMm":6858,"pennant":{"widthMm":190.5},"view":"VIEW_BUYER",
                "colourOrder":{"fabricCodes":["kelp","lamp-oil"],"rule":"RULE_MIRROR_ENDS"}}"#,
        ),
    ] {
        let (code, out, err) = run(Some(server.private()), flags).await;
        assert_eq!((code, err.as_str()), (0, ""));
        let bytes = twin(server.private(), enquiry).await;
        assert!(bytes.len() > 1_000);
        assert_eq!(out.strip_suffix('\n').map(str::as_bytes), Some(bytes.as_slice()), "{flags}");
    }
    close(server).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn lengths_in_every_unit_get_the_same_answer() {
    let server = server().await;
    let mut answers = Vec::new();
    // 6.096 m is 20 ft is 240 in
    for words in
        ["6096 mm", "609.6 cm", "6.096 m", "240 in", "20 ft", "20|ft", "6 yd 24 in", "19 ft 11 2/2 in"]
    {
        let (code, out, err) = run(Some(server.private()), &format!("{words}|--json")).await;
        if words.contains("2/2") {
            // a fraction is less than one
            assert!(code == 2 && err.contains("fraction"), "{err}");
            continue;
        }
        assert_eq!(code, 0, "{words}: {err}");
        answers.push(out);
    }
    assert_eq!(answers.len(), 7);
    assert!(answers.windows(2).all(|two| two[0] == two[1]));
    let told: Value = serde_json::from_str(&answers[0]).unwrap();
    assert_eq!(told["quote"]["layout"]["flaggedMm"], 6096.0);
    close(server).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_refusal_names_every_flag_and_ends_with_one() {
    let server = server().await;
    let wrong = "6.2 m|--width|1 mm|--fabrics|kelp,nylon|--by|2026-02-30|--quantity|0|--swags|2|--span|1 m";
    let (code, _, err) = run(Some(server.private()), wrong).await;
    assert!(code == 2 && err.contains("--span"), "two lengths cannot be typed: {err}");
    let wrong = "6.2 m|--width|1 mm|--fabrics|kelp,nylon|--by|2026-02-30|--quantity|0";
    let (code, out, err) = run(Some(server.private()), wrong).await;
    assert_eq!((code, out.as_str()), (1, ""));
    for about in [
        "refused (INVALID_ENQUIRY)",
        "--width (pennant.widthMm): ",
        "--fabrics, entry 2 (colourOrder.fabricCodes[1]): ",
        "--quantity (quantity): ",
        "--by (wantedDate): ",
        "(OUT_OF_RANGE)",
        "(UNKNOWN_CODE)",
        "(BAD_DATE)",
    ] {
        assert!(err.contains(about), "{about} is not in\n{err}");
    }
    // nothing to go by: the enquiry as a whole
    let (code, _, err) = run(Some(server.private()), "").await;
    assert!(code == 1 && err.contains("(MISSING)"), "{err}");
    // as JSON the refusal of the contract too
    let (code, out, _) = run(Some(server.private()), &format!("{wrong}|--json")).await;
    let refusal: v1::Refusal = serde_json::from_str(&out).unwrap();
    assert_eq!((code, refusal.reason.as_str(), refusal.violations.len()), (1, "INVALID_ENQUIRY", 4));
    close(server).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn without_a_server_it_says_how_to_start_one_and_ends_with_two() {
    let taken = tokio::net::TcpListener::bind("127.0.0.1:0").await.unwrap();
    let nobody = taken.local_addr().unwrap();
    drop(taken);
    let (code, out, err) = run(Some(nobody), "6.2 m").await;
    assert_eq!((code, out.as_str()), (2, ""));
    for words in [&nobody.to_string(), "pennantryd serve", "--server", "PENNANTRY_SERVER"] {
        assert!(err.contains(words), "{words}: {err}");
    }
    for (server, said) in
        [("https://127.0.0.1:1", "TLS"), ("http://", "no address"), ("no such host", "no address")]
    {
        let (code, _, err) = run(None, &format!("6.2 m|--server|{server}")).await;
        assert!(code == 2 && err.contains(said), "{server}: {err}");
    }
    // the public door speaks no gRPC
    let server = server().await;
    let (code, out, err) = run(Some(server.public()), "6.2 m").await;
    assert!(code == 2 && out.is_empty() && err.contains("--server"), "{err}");
    // an address needs no scheme
    let (code, ..) = run(None, &format!("6.2 m|--server|{}", server.private())).await;
    assert_eq!(code, 0);
    close(server).await;
}

/// Before anybody is asked: no server is needed to say so.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn what_cannot_be_typed_ends_with_two_and_says_what_can() {
    for (flags, said) in
        [("20", "no unit"), ("6 m|--shape|heart", "swallowtail"), ("--no-such-flag", "--no-such-flag")]
    {
        let (code, out, err) = run(None, flags).await;
        assert_eq!((code, out.as_str()), (2, ""), "{flags}");
        assert!(err.contains(said), "{flags}: {err}");
    }
    let (code, help, _) = run(None, "--help").await;
    assert!(code == 0 && help.contains("7 1/2 in") && help.contains("PENNANTRY_SERVER"), "{help}");
}

/// The day is sent as it is typed; what the server makes of it, its own tests say.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn another_day_is_understood_by_the_server() {
    let server = server().await;
    let (code, out, err) = run(Some(server.private()), "6.2 m|--as-of|2026-11-20|--json").await;
    assert_eq!((code, err.as_str()), (0, ""));
    let told: Value = serde_json::from_str(&out).unwrap();
    assert_eq!(told["quote"]["understood"]["asOfDate"], "2026-11-20");
    close(server).await;
}
