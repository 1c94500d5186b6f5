//! Whatever the file holds, reading it ends with a shop or with mistakes on its lines.

use proptest::prelude::*;

use super::super::{Mistake, SALTMERE_LOFT, read};

fn ends_well(text: &str) -> Result<(), TestCaseError> {
    if let Err(found) = read(text) {
        let lines = text.split('\n').count();
        prop_assert!(!found.is_empty(), "no shop and no mistake");
        for mistake in &found {
            prop_assert!((1..=lines).contains(&mistake.line), "{mistake}: there are {lines} lines");
            let told = mistake.to_string();
            prop_assert!(!mistake.message.is_empty() && told.len() < 1_000, "{} bytes: {told}", told.len());
            prop_assert!(!told.contains(['\u{0}', '\u{7}', '\n', '\r']), "{told:?}");
        }
    }
    Ok(())
}

/// What is put into the text: signs that mean something in TOML, and others.
const SHARDS: &[&str] = &[
    "[",
    "]",
    "[[",
    "]]",
    "{",
    "}",
    "\"",
    "'",
    "\"\"\"",
    "'''",
    "=",
    ".",
    ",",
    "#",
    "\n",
    "\r",
    "\\",
    "\\u12",
    "-",
    "_",
    "0x",
    "1e999",
    "nan",
    "true",
    "1979-05-27T07:32:00Z",
    "\u{feff}",
    "\u{0}",
    "é",
    "🧵",
    "a.b.c = 1\n",
    "[shop]\n",
    "[shop.name]\n",
    "[[shop]]\n",
    "[[designs]]\n",
    "fabrics = []\n",
    "99999999999999999999",
];

/// A change of the text at a place, as a share of its length.
#[derive(Debug, Clone)]
enum Change {
    Insert(f64, usize),
    Delete(f64, usize),
    Double(f64, usize),
    Swap(f64, f64),
}

fn change() -> impl Strategy<Value = Change> {
    let place = || 0.0..1.0_f64;
    prop_oneof![
        (place(), 0..SHARDS.len()).prop_map(|(at, shard)| Change::Insert(at, shard)),
        (place(), 1..40_usize).prop_map(|(at, length)| Change::Delete(at, length)),
        (place(), 1..200_usize).prop_map(|(at, length)| Change::Double(at, length)),
        (place(), place()).prop_map(|(one, other)| Change::Swap(one, other)),
    ]
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "a share of a length, for a random place"
)]
fn place(share: f64, length: usize) -> usize {
    (share * length as f64) as usize
}

fn changed(text: &str, change: &Change) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    match *change {
        Change::Insert(at, shard) => {
            let at = place(at, letters.len());
            letters.splice(at..at, SHARDS[shard].chars());
        }
        Change::Delete(at, length) => {
            let at = place(at, letters.len());
            letters.drain(at..letters.len().min(at + length));
        }
        Change::Double(at, length) => {
            let at = place(at, letters.len());
            let part: Vec<char> = letters[at..].iter().take(length).copied().collect();
            letters.splice(at..at, part);
        }
        Change::Swap(one, other) => {
            let mut lines: Vec<&str> = text.split('\n').collect();
            let count = lines.len();
            lines.swap(place(one, count), place(other, count));
            return lines.join("\n");
        }
    }
    letters.into_iter().collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_demo_that_was_tampered_with_never_panics(changes in proptest::collection::vec(change(), 1..6)) {
        let text = changes.iter().fold(SALTMERE_LOFT.to_owned(), |text, change| changed(&text, change));
        ends_well(&text)?;
    }

    #[test]
    fn any_text_never_panics(text in "\\PC{0,200}") {
        ends_well(&text)?;
    }

    #[test]
    fn any_shards_never_panic(shards in proptest::collection::vec(0..SHARDS.len(), 0..30)) {
        let text: String = shards.iter().map(|shard| SHARDS[*shard]).collect();
        ends_well(&text)?;
    }
}

#[test]
fn a_demo_cut_off_anywhere_never_panics() {
    for (at, _) in SALTMERE_LOFT.char_indices().step_by(37) {
        ends_well(&SALTMERE_LOFT[..at]).unwrap();
    }
}

#[test]
fn deep_and_long_texts_end_well() {
    for text in [
        format!("a = {}", "[".repeat(50_000)),
        format!("a = {}1{}", "[".repeat(500), "]".repeat(500)),
        format!("a{} = 1", ".a".repeat(5_000)),
        format!("[{}]", "x".repeat(100_000)),
        format!("{} = 1", "x".repeat(100_000)),
        format!("shop = \"{}\"", "x".repeat(100_000)),
        "[[fabrics]]\n".repeat(50_000),
        "a =\n".repeat(50_000),
        "\"\\u0007\" = 1\n".to_owned(),
    ] {
        ends_well(&text).unwrap();
    }
    let found: Vec<Mistake> = read(&"[[trimmings]]\ncode = \"a\"\nname = \"A\"\n".repeat(101)).unwrap_err();
    assert!(found.iter().any(|mistake| mistake.message.contains("101 entries: write 0 to 100")));
}
