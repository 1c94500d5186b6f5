//! Only words that other databases speaking this protocol have as well.

use crate::postgres::migrate::MIGRATIONS;

/// Words that are not used, and why.
const FORBIDDEN: [(&str, &str); 22] = [
    ("ADVISORY", "advisory locks"),
    ("LISTEN", "notifications"),
    ("NOTIFY", "notifications"),
    ("SERIAL", "sequences: ids of other databases do not fit a double"),
    ("BIGSERIAL", "sequences"),
    ("SEQUENCE", "sequences"),
    ("NEXTVAL", "sequences"),
    ("IDENTITY", "sequences"),
    ("PARTITION", "partitions"),
    ("INHERITS", "inheritance"),
    ("EXCLUDE", "exclusion constraints"),
    ("INT8RANGE", "ranges"),
    ("TSTZRANGE", "ranges"),
    ("RETURNING", "rows out of a write, which not all have within WITH"),
    ("SKIP", "locks passed over"),
    ("TRIGGER", "triggers"),
    ("FUNCTION", "functions kept in the database"),
    ("EXTENSION", "extensions"),
    ("JSONB", "documents"),
    ("MONEY", "money"),
    ("XMIN", "snapshots by number"),
    ("TXID_CURRENT", "snapshots by number"),
];

const SQL: [(&str, &str); 4] = [
    ("sql.rs", include_str!("../sql.rs")),
    ("sql/load.rs", include_str!("../sql/load.rs")),
    ("sql/days.rs", include_str!("../sql/days.rs")),
    ("sql/reports.rs", include_str!("../sql/reports.rs")),
];

fn words(text: &str) -> Vec<String> {
    text.split(|character: char| !character.is_ascii_alphanumeric() && character != '_')
        .filter(|word| !word.is_empty())
        .map(str::to_ascii_uppercase)
        .collect()
}

/// Text without comments of either language.
fn bare(text: &str) -> String {
    let code = |line: &str| !line.trim_start().starts_with("//") && !line.trim_start().starts_with("--");
    text.lines().filter(|line| code(line)).collect::<Vec<_>>().join("\n")
}

fn complaints(name: &str, text: &str) -> Vec<String> {
    let words = words(&bare(text));
    FORBIDDEN
        .iter()
        .filter(|(word, _)| {
            words.iter().any(|found| found.split('_').any(|part| part == *word) || found == word)
        })
        .map(|(word, why)| format!("{name}: {word} ({why})"))
        .collect()
}

#[test]
fn statements_and_migrations_keep_to_what_is_common() {
    let mut found = Vec::new();
    for (name, text) in SQL {
        found.extend(complaints(name, text));
    }
    for (number, migration) in MIGRATIONS.iter().enumerate() {
        found.extend(complaints(&format!("migration {}", number + 1), migration));
    }
    assert_eq!(found, Vec::<String>::new());
}

#[test]
fn a_word_outside_is_found() {
    assert_eq!(complaints("x", "SELECT pg_advisory_lock(1)"), ["x: ADVISORY (advisory locks)"]);
    assert_eq!(complaints("x", "SELECT id FROM a FOR UPDATE SKIP LOCKED"), ["x: SKIP (locks passed over)"]);
    assert_eq!(complaints("x", "-- LISTEN\nid bigserial")[0], "x: BIGSERIAL (sequences)");
}

#[test]
fn statements_stand_by_themselves() {
    let others = [
        ("apply.rs", include_str!("../apply.rs")),
        ("days.rs", include_str!("../days.rs")),
        ("events.rs", include_str!("../events.rs")),
        ("failure.rs", include_str!("../failure.rs")),
        ("inner.rs", include_str!("../inner.rs")),
        ("keeper.rs", include_str!("../keeper.rs")),
        ("load.rs", include_str!("../load.rs")),
        ("migrate.rs", include_str!("../migrate.rs")),
        ("mod.rs", include_str!("../mod.rs")),
        ("read.rs", include_str!("../read.rs")),
        ("reports.rs", include_str!("../reports.rs")),
        ("row.rs", include_str!("../row.rs")),
        ("unit.rs", include_str!("../unit.rs")),
        ("verify.rs", include_str!("../verify.rs")),
        ("write.rs", include_str!("../write.rs")),
    ];
    let mut found = Vec::new();
    for (name, text) in others {
        for begin in
            ["\"SELECT ", "\"INSERT ", "\"UPDATE ", "\"DELETE ", "\"BEGIN", "\"SET ", "\"CREATE ", "\"WITH "]
        {
            if bare(text).contains(begin) {
                found.push(format!("{name}: {begin}"));
            }
        }
    }
    assert_eq!(found, Vec::<String>::new());
    let files = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/src/postgres")).unwrap();
    let files = files.flatten().filter(|file| file.path().extension().is_some()).count();
    // all but sql.rs and the limits, which hold no code that speaks to a database
    assert_eq!(files, others.len() + 2, "a file is missing above");
}

#[test]
fn movements_are_never_changed_or_deleted() {
    let text: String = SQL.iter().map(|(_, text)| bare(text).to_ascii_uppercase()).collect();
    assert!(!text.contains("UPDATE MOVEMENT"));
    assert!(text.contains("INSERT INTO MOVEMENT"));
    // nothing is deleted but what can be made again, and a report whose successor is done
    let may_go = ["DAY_USE ", "REPORT_PART ", "REPORT_EARLIER "];
    for deleted in text.split("DELETE FROM ").skip(1) {
        assert!(may_go.iter().any(|table| deleted.starts_with(table)), "{deleted:.60}");
    }
}
