//! How much of each reference table is checked here, and why the rest is not.
//!
//! `golden/reference.toml` lists the rows of each table. A row counts as here when an
//! `id` of a case or of a crate's table names it, or when a named test does. The text
//! of `golden/COUNTS.md` is made from that; run with `UPDATE=1` to write it.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;

use serde::Deserialize;

use crate::golden;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Reference {
    tables: Vec<Table>,
}

/// A reference table.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    name: String,
    /// Its rows.
    rows: Vec<String>,
    /// Tests that check a row without a table of their own: `file.rs::function`.
    #[serde(default)]
    tests: BTreeMap<String, String>,
    /// Why a row is not here.
    #[serde(default)]
    left_out: BTreeMap<String, String>,
}

fn top() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("a folder above")
}

fn reference() -> Vec<Table> {
    let text = std::fs::read_to_string(golden::folder().join("reference.toml")).expect("the list of tables");
    toml::from_str::<Reference>(&text).expect("the list of tables is TOML").tables
}

/// Every id in the tables of the crates, with the file it stands in.
fn ids_of_crates() -> Vec<(String, String)> {
    let mut found = Vec::new();
    for package in std::fs::read_dir(top().join("crates")).expect("the crates") {
        let package = package.expect("an entry").path();
        let Ok(files) = std::fs::read_dir(package.join("tables")) else { continue };
        for file in files.map(|file| file.expect("an entry").path()) {
            let name = file.strip_prefix(top()).expect("below the top").display().to_string();
            let mut table = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(&file).expect("a table");
            let headers = table.headers().expect("a first line").clone();
            let Some(column) = headers.iter().position(|header| header == "id") else { continue };
            for record in table.records() {
                let record = record.unwrap_or_else(|fault| panic!("{name}: {fault}"));
                found.push((record[column].to_owned(), name.clone()));
            }
        }
    }
    assert!(!found.is_empty(), "no crate has a table");
    found
}

/// Every id with the place where it is checked.
fn ids() -> Vec<(String, String)> {
    let mut all = ids_of_crates();
    for case in golden::cases() {
        all.extend(case.id.into_iter().map(|id| (id, "tests/golden/quotes".to_owned())));
    }
    all.extend(crate::paper::ids().into_iter().map(|id| (id, "tests/golden/paper.toml".to_owned())));
    all.extend(crate::child::ids().into_iter().map(|id| (id, "tests/golden/child.toml".to_owned())));
    all.extend(crate::bad_input::ids().into_iter().map(|id| (id, "tests/golden/bad_input.toml".to_owned())));
    all
}

/// Whether an id names a row: the row itself, or the row and which part of it. Trade
/// rows are written `R14` or `row 14`.
fn names(id: &str, row: &str) -> bool {
    let id = id.strip_prefix("row ").map_or_else(|| id.to_owned(), |number| format!("R{number}"));
    id.strip_prefix(row).is_some_and(|rest| {
        let part = rest.chars().next();
        part.is_none_or(|next| next.is_ascii_lowercase() || matches!(next, ' ' | '.' | '-' | ':' | ',' | '/'))
    })
}

/// Whether a named test is there.
fn is_there(test: &str) -> bool {
    let Some((file, function)) = test.split_once("::") else { return false };
    std::fs::read_to_string(top().join(file)).is_ok_and(|text| text.contains(&format!("fn {function}(")))
}

/// The text of `COUNTS.md`, and everything that does not add up.
fn counted(tables: &[Table], ids: &[(String, String)]) -> (String, Vec<String>) {
    let mut wrong = Vec::new();
    let mut text = String::from(
        "# What is checked against reference tables\n\n\
         Made by `tests/counts.rs` from the `id`s of the cases and tables; `UPDATE=1` writes it.\n\n\
         | table | rows there | rows here | left out | checked in |\n|---|---|---|---|---|\n",
    );
    let mut reasons = String::new();
    for table in tables {
        let mut here = 0;
        let mut places = BTreeSet::new();
        for row in &table.rows {
            let found: Vec<&str> =
                ids.iter().filter(|(id, _)| names(id, row)).map(|(_, place)| place.as_str()).collect();
            let test = table.tests.get(row);
            match (found.is_empty() && test.is_none(), table.left_out.get(row)) {
                (false, None) => {
                    here += 1;
                    places.extend(found);
                    places.extend(test.and_then(|test| test.split("::").next()));
                }
                (false, Some(_)) => {
                    wrong.push(format!("{}: {row} is here and has a reason not to be", table.name));
                }
                (true, None) => wrong.push(format!("{}: {row} is not here and has no reason", table.name)),
                (true, Some(_)) => {}
            }
            if let Some(test) = test.filter(|test| !is_there(test)) {
                wrong.push(format!("{}: {row}: there is no {test}", table.name));
            }
        }
        let strays = table.left_out.keys().chain(table.tests.keys()).filter(|row| !table.rows.contains(row));
        wrong.extend(strays.map(|row| format!("{}: {row} is no row of it", table.name)));
        let places = places.into_iter().map(|place| format!("`{place}`")).collect::<Vec<_>>().join(", ");
        let (there, out) = (table.rows.len(), table.left_out.len());
        writeln!(text, "| {} | {there} | {here} | {out} | {places} |", table.name)
            .expect("a string takes it");
        if !table.left_out.is_empty() {
            let mut rows: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
            for row in table.rows.iter().filter(|row| table.left_out.contains_key(*row)) {
                rows.entry(&table.left_out[row]).or_default().push(row);
            }
            write!(reasons, "\n## Left out of {}\n\n", table.name).expect("a string takes it");
            for (reason, rows) in rows {
                writeln!(reasons, "- {}: {reason}", rows.join(", ")).expect("a string takes it");
            }
        }
    }
    text.push_str(&reasons);
    (text, wrong)
}

#[test]
fn counts_are_as_committed_and_every_gap_has_its_reason() {
    let (text, wrong) = counted(&reference(), &ids());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    println!("{text}");
    let path = golden::folder().join("COUNTS.md");
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, &text).expect("COUNTS.md can be written");
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert_eq!(committed, text, "golden/COUNTS.md is old: run this test with UPDATE=1");
}

#[test]
fn a_row_without_test_or_reason_is_found() {
    let table = |left_out: &[&str]| Table {
        name: "t".into(),
        rows: vec!["T1".into(), "T10".into(), "R9".into()],
        tests: BTreeMap::new(),
        left_out: left_out.iter().map(|row| ((*row).to_owned(), "later".to_owned())).collect(),
    };
    let ids = [("T10".to_owned(), "a".to_owned()), ("row 9 left".to_owned(), "b".to_owned())];
    assert_eq!(counted(&[table(&["T1"])], &ids).1, Vec::<String>::new());
    assert_eq!(counted(&[table(&[])], &ids).1, ["t: T1 is not here and has no reason"]);
    assert_eq!(counted(&[table(&["T1", "T10"])], &ids).1, ["t: T10 is here and has a reason not to be"]);
    assert_eq!(counted(&[table(&["T1", "T2"])], &ids).1, ["t: T2 is no row of it"]);
    assert!(names("T10", "T10") && names("T10a", "T10") && !names("T10", "T1") && !names("R90", "R9"));
}
