//! What the README prints is what the program says.
//!
//! A block of JSON after a line `<!-- answer: FILE -->` is part of the real answer to that
//! request, asked at the instant of the golden cases: objects may leave keys out, lists
//! may not leave entries out.

use std::path::Path;

use pennantry_contract::{reasons, table, v1};
use pennantryd::catalogue::{SALTMERE_LOFT, open};
use pennantryd::clock::Clock;
use pennantryd::json;
use pennantryd::service::{Door, Service};
use serde_json::Value;

fn read(path: &str) -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    std::fs::read_to_string(root.join(path)).unwrap_or_else(|fault| panic!("{path}: {fault}"))
}

fn answer(file: &str) -> Value {
    asked(file, false)
}

fn asked(file: &str, workings: bool) -> Value {
    let now = crate::doors::NOW.parse().unwrap();
    let service =
        Service::new(open(SALTMERE_LOFT).unwrap().into(), Clock::Fixed(now), crate::catalogue::keys());
    let mut enquiry: v1::Enquiry = json::read(&table::ENQUIRY, read(file).as_bytes()).unwrap();
    enquiry.workings = workings.then_some(true);
    let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
    let quote = service.calculate_quote(Door::Public, &request).unwrap().quote.unwrap();
    serde_json::from_slice(&json::write(&quote).unwrap()).unwrap()
}

/// Where `part` is not in `whole`.
fn differences(part: &Value, whole: &Value, at: &str, found: &mut Vec<String>) {
    match (part, whole) {
        (Value::Object(part), Value::Object(whole)) => {
            for (key, value) in part {
                match whole.get(key) {
                    Some(other) => differences(value, other, &format!("{at}.{key}"), found),
                    None => found.push(format!("{at}.{key} is not in the answer")),
                }
            }
        }
        (Value::Array(part), Value::Array(whole)) if part.len() == whole.len() => {
            for (place, (value, other)) in part.iter().zip(whole).enumerate() {
                differences(value, other, &format!("{at}[{place}]"), found);
            }
        }
        (Value::Number(part), Value::Number(whole)) if part.as_f64() == whole.as_f64() => {}
        _ if part == whole => {}
        _ => found.push(format!("{at} is {whole}, not {part}")),
    }
}

#[test]
fn answers_in_the_readme_are_real() {
    let readme = read("README.md");
    let mut blocks = 0;
    for after in readme.split("<!-- answer: ").skip(1) {
        let (file, rest) = after.split_once(" -->").unwrap();
        let block = rest.split_once("```json\n").unwrap().1.split_once("```").unwrap().0;
        let part: Value = serde_json::from_str(block).unwrap();
        let mut found = Vec::new();
        differences(&part, &answer(file), "", &mut found);
        assert!(found.is_empty(), "README, answer to {file}:\n{}", found.join("\n"));
        blocks += 1;
    }
    assert!(blocks >= 2, "the README prints the pencil case and the story");
}

/// A block after a line `<!-- workings: FILE -->` has lines of the workings of that request:
/// name, value, unit, formula and rounding, two spaces or more between them.
#[test]
fn workings_in_the_readme_are_real() {
    let readme = read("README.md");
    let (file, rest) = readme.split_once("<!-- workings: ").unwrap().1.split_once(" -->").unwrap();
    let block = rest.split_once("```\n").unwrap().1.split_once("```").unwrap().0;
    let answer = asked(file, true);
    let text = |line: &Value, key: &str| line[key].as_str().unwrap().to_owned();
    let known: Vec<Vec<String>> = answer["workings"]
        .as_array()
        .unwrap()
        .iter()
        .map(|line| ["name", "value", "unit", "formula", "rounding"].map(|key| text(line, key)).to_vec())
        .collect();
    for line in block.lines() {
        let parts: Vec<String> =
            line.split("  ").map(str::trim).filter(|part| !part.is_empty()).map(str::to_owned).collect();
        assert!(known.contains(&parts), "README: {line}");
    }
    assert!(block.lines().count() >= 3, "the README prints workings");
}

#[test]
fn every_row_of_what_works_names_a_test_that_exists() {
    let readme = read("README.md");
    let table = readme.split_once("## What works").unwrap().1.split_once("\n## ").unwrap().0;
    let rows: Vec<&str> = table.lines().filter(|l| l.starts_with("| ") && !l.starts_with("| what")).collect();
    assert!(rows.len() > 10, "{} rows", rows.len());
    for row in rows {
        let tests = row.rsplit('|').nth(1).unwrap();
        let named: Vec<&str> = tests.split('`').skip(1).step_by(2).collect();
        assert!(!named.is_empty(), "no test is named: {row}");
        for path in named {
            assert!(Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(path).exists(), "{path}: {row}");
        }
    }
}

/// Whether a source has a test of a name.
fn has_test(source: &str, name: &str) -> bool {
    let lines: Vec<&str> = source.lines().map(str::trim).collect();
    let is_named = |line: &str| line.contains(&format!("fn {name}("));
    let is_test = |line: &&str| line.starts_with("#[test]") || line.starts_with("#[tokio::test");
    lines.iter().position(|line| is_named(line)).is_some_and(|place| {
        let above = lines[..place].iter().rev().take_while(|line| line.starts_with("#["));
        above.into_iter().any(is_test)
    })
}

/// Each path is followed by the tests that are in it.
#[test]
fn every_fault_that_stores_have_had_names_tests_that_exist() {
    assert!(has_test("    #[test]\n    fn one() {}", "one") && !has_test("fn one() {}", "one"));
    let text = read("DEVELOPERS.md");
    let table = text.split_once("### Faults that stores").unwrap().1.split_once("\n## ").unwrap().0;
    let rows: Vec<&str> =
        table.lines().filter(|l| l.starts_with("| ") && !l.starts_with("| fault")).collect();
    assert!(rows.len() > 15, "{} rows", rows.len());
    for row in rows {
        let mut source = String::new();
        for named in row.rsplit('|').nth(1).unwrap().split('`').skip(1).step_by(2) {
            if named.contains('/') {
                source = read(named);
            } else {
                assert!(has_test(&source, named), "{named}: {row}");
            }
        }
        assert!(!source.is_empty(), "no test is named: {row}");
    }
}

#[test]
fn the_error_table_is_the_one_in_the_code() {
    assert!(
        read("DEVELOPERS.md").contains(reasons::markdown().trim()),
        "DEVELOPERS.md, Errors: put this there\n{}",
        reasons::markdown()
    );
}
