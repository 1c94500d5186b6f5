//! What lies where, how long it is, and what no file may hold.

use super::{files, is_rust, none, text};

/// What may lie at the top.
const AT_THE_TOP: &[&str] = &[
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "proto",
    "services",
    "crates",
    "deploy",
    "tests",
    ".ci",
    ".cargo",
    ".config",
    ".rustfmt.toml",
    ".clippy.toml",
];

/// Longest file of a sitting's length.
const MOST_LINES: usize = 500;

/// Words that mean unfinished work, or a test that does not run or cannot tell why
/// it failed. Each is written in halves, so that this list does not find itself.
const LEFTOVERS: &[&str] = &[
    concat!("to", "do!("),
    concat!("unimple", "mented!("),
    concat!("db", "g!("),
    concat!("#[ign", "ore"),
    concat!("should", "_panic"),
    concat!("#[al", "low("),
    concat!("#![al", "low("),
    concat!("To be ", "written."),
];

/// Folders of one machine, and hosts of package registries.
const PLACES: &[&str] = &[
    concat!("/ro", "ot/"),
    concat!("/ho", "me/"),
    concat!("/Us", "ers/"),
    concat!("/tm", "p/"),
    concat!("/wo", "rk/"),
    concat!("../sh", "ared"),
    concat!("crates", ".io"),
    concat!("npm", "js.org"),
    concat!("npm", "js.com"),
    concat!("py", "pi.org"),
    concat!("python", "hosted.org"),
    concat!("debian", ".org"),
    concat!("golang", ".org"),
];

fn top_of(name: &str) -> &str {
    name.split('/').next().unwrap_or(name)
}

/// Whether a place is named as a place: `/name/` at the start of a path, or a host.
fn names_place(line: &str, place: &str) -> bool {
    line.match_indices(place).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        let inside_a_path = before.is_some_and(|c| c.is_alphanumeric() || matches!(c, '.' | '-' | '_' | '}'));
        !(place.starts_with('/') && inside_a_path)
    })
}

/// Complaints about one file's text.
fn complaints(name: &str, text: &str) -> Vec<String> {
    let mut found = Vec::new();
    let generated = name.contains("/gen/");
    let rust = is_rust(name) && !generated;
    // cargo writes the name of its registry into the lock itself
    // and vendored contracts carry the options of their own home
    let locked = name == "Cargo.lock" || name.starts_with("proto/google/");
    for (place, line) in text.lines().enumerate().map(|(i, line)| (i + 1, line)) {
        // the one module that takes generated code in says so on the line
        let taken_in = line.contains("generated code");
        for word in LEFTOVERS.iter().filter(|word| rust && !taken_in && line.contains(**word)) {
            found.push(format!("{name}:{place}: {word}"));
        }
        for word in PLACES.iter().filter(|word| !locked && names_place(line, word)) {
            found.push(format!("{name}:{place}: {word}"));
        }
    }
    let lines = text.lines().count();
    if rust && lines > MOST_LINES {
        found.push(format!("{name}: {lines} lines, at most {MOST_LINES}"));
    }
    found
}

#[test]
fn the_top_holds_what_the_map_says_and_nothing_else() {
    let found: Vec<String> = files()
        .iter()
        .map(|name| top_of(name))
        .filter(|top| !AT_THE_TOP.contains(top) && !top.starts_with(".git"))
        .map(str::to_owned)
        .collect();
    none("not on the map", &found);
}

#[test]
fn no_file_is_too_long_unfinished_or_tied_to_a_machine() {
    let found: Vec<String> = files()
        .iter()
        .flat_map(|name| text(name).map(|text| complaints(name, &text)).unwrap_or_default())
        .collect();
    none("in the files", &found);
}

#[test]
fn a_leftover_a_place_and_a_long_file_are_found() {
    let leftover = format!("fn f() {{ {} }}", concat!("to", "do!()"));
    assert_eq!(complaints("crates/x/src/a.rs", &leftover).len(), 1);
    assert_eq!(complaints("README.md", &leftover).len(), 0, "only Rust is looked at for leftovers");
    let place = format!("cp {}", concat!("/ho", "me/me/x ."));
    assert_eq!(complaints("README.md", &place).len(), 1);
    assert_eq!(complaints("README.md", concat!("see docs/ho", "me/index")).len(), 0);
    let long = "// a line\n".repeat(MOST_LINES + 1);
    assert_eq!(complaints("crates/x/src/a.rs", &long).len(), 1);
    assert_eq!(complaints("crates/x/src/gen/a.rs", &long).len(), 0);
}
