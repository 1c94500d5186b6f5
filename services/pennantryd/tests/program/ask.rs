//! `pennantryd ask`.

use std::path::Path;

use pennantryd::catalogue::SALTMERE_LOFT;
use serde_json::Value;

use super::process::{program, run, run_with_input};

const AT: [&str; 2] = ["--at", "2026-11-24T10:00:00Z"];

/// An enquiry in a file, and a folder for what is temporary.
fn enquiry(text: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("enquiry.json");
    std::fs::write(&file, text).unwrap();
    std::fs::create_dir(folder.path().join("temporary")).unwrap();
    let file = file.to_str().unwrap().to_owned();
    (folder, file)
}

fn temporary(folder: &tempfile::TempDir) -> std::path::PathBuf {
    folder.path().join("temporary")
}

fn is_empty(folder: &Path) -> bool {
    std::fs::read_dir(folder).unwrap().next().is_none()
}

#[test]
fn an_answer_is_printed_and_nothing_is_left_over() {
    let (folder, file) = enquiry(r#"{"flaggedMm": 6200}"#);
    let ask = || run(program(&["ask", &file]).args(AT).env("TMPDIR", temporary(&folder)));
    let (code, out, err) = ask();
    assert_eq!((code, err.as_str()), (0, ""));
    let answer: Value = serde_json::from_str(&out).unwrap();
    // 29 pennants in 6.2 m: common practice, the story of the README
    assert_eq!(answer["layout"]["pennantCount"], 29);
    assert!(out.starts_with("{\n  \"") && out.ends_with("\n}\n"), "two spaces a step");
    assert!(answer["price"].get("cost").is_none());
    // each has a key of its own, which goes with it; the identity is there without it
    let (mut one, mut two): (Value, Value) = (answer, serde_json::from_str(&ask().1).unwrap());
    assert!(one["quoteId"].is_string() && one["token"] != two["token"]);
    for answer in [&mut one, &mut two] {
        assert!(answer.as_object_mut().unwrap().remove("token").is_some_and(|token| token.is_string()));
    }
    assert_eq!(one, two, "the same instant, the same answer");
    assert!(is_empty(&temporary(&folder)));
}

#[test]
fn the_shops_view_is_asked_at_the_private_door() {
    let (folder, file) = enquiry(r#"{"flaggedMm": 6200}"#);
    let (code, out, err) =
        run(program(&["ask", &file, "--view", "shop"]).args(AT).env("TMPDIR", temporary(&folder)));
    assert_eq!((code, err.as_str()), (0, ""));
    let answer: Value = serde_json::from_str(&out).unwrap();
    assert_eq!(answer["understood"]["view"], "VIEW_SHOP");
    assert!(!answer["price"]["cost"]["lines"].as_array().unwrap().is_empty());
    // a view that is said stays, and at the public door the shop's is refused
    let (code, out, _) = run_with_input(
        program(&["ask", "-", "--view", "shop"]).args(AT),
        r#"{"flaggedMm":6200,"view":"VIEW_BUYER"}"#,
    );
    let answer: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, &answer["understood"]["view"]), (0, &Value::from("VIEW_BUYER")));
    let (code, out, _) =
        run_with_input(&mut program(&["ask", "-"]), r#"{"flaggedMm":6200,"view":"VIEW_SHOP"}"#);
    let problem: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, &problem["reason"]), (1, &Value::from("VIEW_NOT_PUBLIC")));
}

#[test]
fn a_refusal_is_printed_and_ends_with_one() {
    for (input, view, reason, field) in [
        (r#"{"flaggedMm": 1}"#, "buyer", "INVALID_ENQUIRY", "flaggedMm"),
        (r#"{"flaggedMm": 1}"#, "shop", "INVALID_ENQUIRY", "flaggedMm"),
        (r#"{"flagedMm": 6200}"#, "buyer", "UNREADABLE", "flagedMm"),
        (r#"{"flagedMm": 6200}"#, "shop", "UNREADABLE", "flagedMm"),
    ] {
        let (code, out, err) = run_with_input(&mut program(&["ask", "-", "--view", view]), input);
        assert_eq!(code, 1, "{input}");
        let problem: Value = serde_json::from_str(&out).unwrap();
        assert_eq!((&problem["reason"], &problem["violations"][0]["field"]), (&reason.into(), &field.into()));
        assert!(err.starts_with(&format!("refused ({reason}): ")) && err.lines().count() == 1, "{err}");
    }
}

#[test]
fn what_cannot_be_asked_ends_with_two() {
    let (folder, file) = enquiry(r#"{"flaggedMm": 6200}"#);
    let none = folder.path().join("none").to_str().unwrap().to_owned();
    for flags in
        [vec!["ask", &none], vec!["ask", &file, "--catalogue", &none], vec!["ask", &file, "--at", "noon"]]
    {
        let (code, out, err) = run(program(&flags).env("TMPDIR", temporary(&folder)));
        assert_eq!((code, out.as_str()), (2, ""), "{flags:?}: {err}");
        assert!(!err.is_empty());
    }
    assert!(is_empty(&temporary(&folder)));
}

#[test]
fn another_catalogue_may_be_asked() {
    let (folder, file) = enquiry(r#"{"flaggedMm": 6200}"#);
    let catalogue = folder.path().join("catalogue.toml");
    std::fs::write(&catalogue, SALTMERE_LOFT.replacen("width_mm = 190", "width_mm = 390", 1)).unwrap();
    let (code, out, err) = run(program(&["ask", &file]).arg("--catalogue").arg(&catalogue).args(AT));
    assert_eq!((code, err.as_str()), (0, ""));
    let answer: Value = serde_json::from_str(&out).unwrap();
    assert_eq!(answer["understood"]["pennant"]["widthMm"], 390.0);
}
