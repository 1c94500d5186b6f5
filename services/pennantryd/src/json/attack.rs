//! Bodies by the thousand: nothing panics, nothing is refused without words, and the
//! fast and the slow reading agree.

use pennantry_contract::{table, v1};
use proptest::prelude::*;

use super::{Unreadable, has_null, read, read_slowly, write};

/// Requests with every kind of field; the first is the story of the README.
const VALID: [&str; 5] = [
    r#"{"flaggedMm":6200,"pennant":{"shape":"SHAPE_TRIANGLE","widthMm":190,"dropMm":210},"gapMm":20,"construction":"CONSTRUCTION_SINGLE_PINKED","colourOrder":{"rule":"RULE_REPEAT","fabricCodes":["A","B","C"]},"destination":{"countryCode":"GB"},"near":{"who":"WHO_CHILD","youngestMonths":0,"place":"PLACE_CHILD_ROOM"},"wantedDate":"2026-12-04"}"#,
    r#"{"hang":{"spanMm":5000,"dipMm":250.5,"swagCount":2},"fit":{"leftover":2,"parity":"PARITY_ODD","minGapMm":-5,"maxGapMm":"40"}}"#,
    r#"{"finish":{"ends":[{"style":"END_STYLE_LOOP","loopMm":60,"slips":false,"breakawayN":70.5},{}],"trimmings":[{"code":"POMPOM","perPennant":1}]},"quantity":3,"workings":true,"view":1}"#,
    r#"{"bindingMm":null,"pennant_count":9,"lettering":"\u00c5ngstr\u00f6m","near":{"jurisdictions":["JURISDICTION_GB",1],"fixingHeightMm":2200.125}}"#,
    r#"{ "overallMm" : 1e3 , "tailMm" : 0.0 , "quantity" : 2.0 }"#,
];

/// Pieces that break a request, or nearly do.
const PIECES: [&str; 40] = [
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    "\"",
    "\\",
    "null",
    "true",
    "0",
    "-",
    "-0",
    "1e400",
    "1e-400",
    "1e308",
    "9.0",
    "-1",
    "4294967296",
    "9007199254740993",
    "\"NaN\"",
    "\"\"",
    "\"9\"",
    "\"x\"",
    "\\ud800",
    "\\u0000",
    "\u{0}",
    "\u{feff}",
    "\u{e9}",
    "[[",
    "{}",
    "\"gapMm\":1,",
    "\"gapMm\":null,",
    "\"flaggedMm\":1,",
    "\"hang\":{},",
    "\"zz\":1,",
    "\"shape\":7,",
    "/**/",
    " ",
    "e",
];

#[derive(Debug, Clone)]
enum Change {
    Insert(usize, usize),
    Remove(usize, usize),
    Set(usize, u8),
    Repeat(usize, usize),
    Cut(usize),
}

fn change() -> impl Strategy<Value = Change> {
    prop_oneof![
        4 => (any::<usize>(), 0..PIECES.len()).prop_map(|(at, piece)| Change::Insert(at, piece)),
        2 => (any::<usize>(), 1..24_usize).prop_map(|(at, count)| Change::Remove(at, count)),
        2 => (any::<usize>(), any::<u8>()).prop_map(|(at, byte)| Change::Set(at, byte)),
        1 => (any::<usize>(), 1..40_usize).prop_map(|(at, count)| Change::Repeat(at, count)),
        1 => any::<usize>().prop_map(Change::Cut),
    ]
}

fn changed(body: &str, changes: &[Change]) -> Vec<u8> {
    let mut bytes = body.as_bytes().to_vec();
    for change in changes {
        let length = bytes.len();
        let within = |at: usize| at % (length + 1);
        match *change {
            Change::Insert(at, piece) => {
                let at = within(at);
                bytes.splice(at..at, PIECES[piece].bytes());
            }
            Change::Remove(at, count) => {
                let at = within(at);
                bytes.drain(at..length.min(at + count));
            }
            Change::Set(at, byte) if length > 0 => bytes[at % length] = byte,
            Change::Set(_, byte) => bytes.push(byte),
            Change::Repeat(at, count) => {
                let at = within(at);
                let again = bytes[at..length.min(at + count)].to_vec();
                bytes.splice(at..at, again);
            }
            Change::Cut(at) => bytes.truncate(within(at)),
        }
    }
    bytes
}

/// Floats that are not numbers differ from themselves; as text they agree.
fn shown(read: &Result<v1::Enquiry, Unreadable>) -> String {
    format!("{read:?}")
}

fn hold(bytes: &[u8]) -> Result<(), TestCaseError> {
    let alone = serde_json::from_slice::<v1::Enquiry>(bytes);
    let slow = read_slowly::<v1::Enquiry>(&table::ENQUIRY, bytes);
    let read = read::<v1::Enquiry>(&table::ENQUIRY, bytes);
    prop_assert_eq!(shown(&read), shown(&slow), "the fast way is only a faster way");
    match (&alone, &slow) {
        (Ok(_), Err(fault)) => prop_assert!(has_null(bytes), "the library takes it: {fault}"),
        (Ok(alone), Ok(slow)) => prop_assert_eq!(format!("{alone:?}"), format!("{slow:?}")),
        (Err(_), _) => {}
    }
    if let Err(fault) = slow {
        prop_assert!(!fault.message.is_empty());
        prop_assert!(fault.path.chars().count() <= 200 && fault.message.len() < 1500, "{fault:?}");
        prop_assert!(!fault.message.contains(char::is_control), "{fault:?}");
        prop_assert!(!fault.path.contains(char::is_control), "{fault:?}");
        // The last resort: the walk took what the library then refused.
        prop_assert!(!fault.message.starts_with("the body cannot be read as"), "{fault:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_are_answered(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        hold(&bytes)?;
    }

    #[test]
    fn any_pieces_are_answered(pieces in proptest::collection::vec(0..PIECES.len(), 0..30)) {
        let body: String = pieces.iter().map(|piece| PIECES[*piece]).collect();
        hold(body.as_bytes())?;
        hold(format!("{{{body}}}").as_bytes())?;
    }

    #[test]
    fn any_change_is_answered(
        body in 0..VALID.len(),
        changes in proptest::collection::vec(change(), 1..5),
    ) {
        hold(&changed(VALID[body], &changes))?;
    }
}

/// Each body really is one, and what is read is read again from what is written.
#[test]
fn valid_requests_survive_writing() {
    for body in VALID {
        let first: v1::Enquiry =
            read(&table::ENQUIRY, body.as_bytes()).unwrap_or_else(|fault| panic!("{body}: {fault}"));
        let written = write(&first).unwrap();
        assert_eq!(serde_json::from_slice::<v1::Enquiry>(&written).unwrap(), first, "{body}");
        assert!(!has_null(&written), "{body}");
    }
}

/// Every place of every request replaced by every piece: no randomness needed for these.
#[test]
fn every_place_takes_every_piece() {
    for body in VALID {
        for at in (0..=body.len()).filter(|at| body.is_char_boundary(*at)) {
            for piece in PIECES {
                let (left, right) = body.split_at(at);
                hold(format!("{left}{piece}{right}").as_bytes()).unwrap();
            }
        }
    }
}
