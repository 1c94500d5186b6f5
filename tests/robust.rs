//! Every way in, given what fuzzers came upon and 20 000 changes of it: see
//! [`pennantry_tests::robust`] for what has to hold, `tests/fuzz` for how the corpus was found.
//!
//! A line of a file in `tests/corpus` is an input in base64 (RFC 4648 section 4, without padding).
//! Inputs under which something broke stand in `tests/corpus/NAME-broke.txt`, and stay there.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD_NO_PAD;
use pennantry_tests::robust::{TARGETS, seeds, target};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

use crate::contract_source::top;

/// Changed inputs of each way in.
const CASES: u32 = 20_000;

/// What is kept for a way in.
fn kept(name: &str) -> Vec<Vec<u8>> {
    let mut found = seeds(name);
    for file in [format!("tests/corpus/{name}.txt"), format!("tests/corpus/{name}-broke.txt")] {
        let Ok(text) = std::fs::read_to_string(top(&file)) else { continue };
        let read =
            |line: &str| STANDARD_NO_PAD.decode(line).unwrap_or_else(|fault| panic!("{file}: {fault}"));
        found.extend(text.lines().map(read));
    }
    found
}

/// One change of an input.
#[derive(Debug, Clone)]
enum Change {
    /// A stretch of another input is put in.
    Splice {
        at: usize,
        of: usize,
        from: usize,
        length: usize,
    },
    Remove {
        at: usize,
        length: usize,
    },
    Repeat {
        at: usize,
        length: usize,
    },
    Set {
        at: usize,
        byte: u8,
    },
    Flip {
        at: usize,
        bit: u8,
    },
    /// A number becomes another one.
    Number {
        nth: usize,
        text: String,
    },
    Cut {
        at: usize,
    },
}

fn change() -> impl Strategy<Value = Change> {
    let place = any::<usize>;
    let numbers =
        ["0", "-1", "1", "0.0005", "4294967296", "9007199254740993", "1e308", "1e400", "-0", "99999"];
    prop_oneof![
        4 => (place(), place(), place(), 1..60_usize)
            .prop_map(|(at, of, from, length)| Change::Splice { at, of, from, length }),
        2 => (place(), 1..40_usize).prop_map(|(at, length)| Change::Remove { at, length }),
        1 => (place(), 1..60_usize).prop_map(|(at, length)| Change::Repeat { at, length }),
        2 => (place(), any::<u8>()).prop_map(|(at, byte)| Change::Set { at, byte }),
        2 => (place(), 0..8_u8).prop_map(|(at, bit)| Change::Flip { at, bit }),
        3 => (place(), prop::sample::select(numbers.to_vec()))
            .prop_map(|(nth, text)| Change::Number { nth, text: text.to_owned() }),
        1 => place().prop_map(|at| Change::Cut { at }),
    ]
}

fn changed(kept: &[Vec<u8>], begin: usize, changes: &[Change]) -> Vec<u8> {
    let mut bytes = kept[begin % kept.len()].clone();
    for change in changes {
        let length_now = bytes.len();
        let place = |at: usize| at % (length_now + 1);
        match change {
            Change::Splice { at, of, from, length } => {
                let other = &kept[of % kept.len()];
                let from = from % (other.len() + 1);
                let stretch = &other[from..other.len().min(from + length)];
                bytes.splice(place(*at)..place(*at), stretch.iter().copied());
            }
            Change::Remove { at, length } => {
                bytes.drain(place(*at)..length_now.min(place(*at) + length));
            }
            Change::Repeat { at, length } => {
                let again = bytes[place(*at)..length_now.min(place(*at) + length)].to_vec();
                bytes.splice(place(*at)..place(*at), again);
            }
            Change::Set { at, byte } if length_now > 0 => bytes[at % length_now] = *byte,
            Change::Flip { at, bit } if length_now > 0 => bytes[at % length_now] ^= 1 << bit,
            Change::Number { nth, text } => {
                let digit =
                    |at: &usize| bytes[*at].is_ascii_digit() && (*at == 0 || !bytes[at - 1].is_ascii_digit());
                let begins: Vec<usize> = (0..length_now).filter(digit).collect();
                if let Some(begin) = begins.get(nth % begins.len().max(1)) {
                    let end = bytes[*begin..].iter().position(|byte| !byte.is_ascii_digit());
                    bytes.splice(*begin..end.map_or(length_now, |end| begin + end), text.bytes());
                }
            }
            Change::Cut { at } => bytes.truncate(place(*at)),
            Change::Set { .. } | Change::Flip { .. } => {}
        }
    }
    bytes
}

/// Gives a way in all that is kept, and changes of it.
fn holds(name: &str) {
    let target = target(name).expect("a way in");
    let kept = kept(name);
    assert!(kept.len() > seeds(name).len(), "nothing is kept for {name}");
    for input in &kept {
        (target.hold)(input).unwrap_or_else(|fault| panic!("{fault}: {}", String::from_utf8_lossy(input)));
    }
    let config = ProptestConfig { cases: CASES, failure_persistence: None, ..ProptestConfig::default() };
    let random = (any::<usize>(), prop::collection::vec(change(), 1..6));
    let tried = TestRunner::new(config).run(&random, |(begin, changes)| {
        let input = changed(&kept, begin, &changes);
        let shown = || format!("{:?}", String::from_utf8_lossy(&input));
        (target.hold)(&input).map_err(|fault| TestCaseError::fail(format!("{fault}: {}", shown())))
    });
    tried.unwrap_or_else(|fault| panic!("{name}: {fault}"));
}

#[test]
fn every_way_in_has_a_test() {
    let text = std::fs::read_to_string(top("tests/robust.rs")).expect("this file");
    for target in TARGETS {
        assert!(text.contains(&format!("    holds(\"{}\");", target.name)), "{}", target.name);
    }
}

#[test]
fn any_body_is_answered_or_refused_in_words() {
    holds("json");
}

#[test]
fn any_message_is_answered_or_refused_in_words() {
    holds("protobuf");
}

#[test]
fn any_typed_length_is_read_or_refused_in_words() {
    holds("length");
}

#[test]
fn any_catalogue_answers_or_is_refused_in_words() {
    holds("catalogue");
}

#[test]
fn any_ticket_is_checked() {
    holds("ticket");
}

#[test]
fn any_file_of_pieces_is_read_or_refused_in_words() {
    holds("csv");
}
