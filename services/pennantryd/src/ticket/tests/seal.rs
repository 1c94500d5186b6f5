//! What is sealed opens; the bytes stay what they are from one renewal of the program to
//! the next.

use pennantry_measure::bounds::TICKET_CHARS;
use proptest::prelude::*;

use super::super::{Discounted, Keys, Promise, open, seal};
use super::{COUNTED, SEVENS, counted, promise, token};

/// Written from the layout by hand and sealed by the modules `hmac` and `hashlib` of Python
/// 3.11, protobuf after its published encoding: key 00 01 … 1f.
const WRITTEN: &str = "AenwNJxL9o2yCg4RAAAAAAA4uEByA0FEQRIQMDEyMzQ1Njc4OWFiY2RlZhoKMjAyNi0xMS0yNCCA6MSxDSoDR0JQMAI49nhCCjIwMjYtMTEtMjVKCjIwMjYtMTEtMjhQAw.PGsV9hJo0vLPYhudQ3OPLxZhy5o4zQuxO_n_W8gaduw";
/// SHA-256 over the label and the promise, its first half, by the same.
const IDENTITY: &str = "088000dfabb49b428de98ab70dc6e1f3";

#[test]
fn a_ticket_is_the_one_that_another_library_writes() {
    let sealed = seal(&promise(), &counted()).unwrap();
    assert_eq!((sealed.token.as_deref(), sealed.quote_id.as_str()), (Ok(WRITTEN), IDENTITY));
    let opened = open(WRITTEN, &counted()).unwrap();
    assert_eq!((opened.promise, opened.quote_id.as_str()), (promise(), IDENTITY));
}

#[test]
fn an_identity_hangs_on_the_promise_and_not_on_the_key() {
    let other = Keys::read(SEVENS).unwrap();
    let (one, two) = (seal(&promise(), &counted()).unwrap(), seal(&promise(), &other).unwrap());
    assert_eq!(one.quote_id, two.quote_id);
    assert_ne!(one.token, two.token);
    let off = |minor_units, text: &str| {
        let discount = Some(Discounted { minor_units, text: text.to_owned() });
        Promise { discount, ..promise() }
    };
    let changed = [
        Promise { understood: None, ..promise() },
        Promise { catalogue_revision: "0123456789abcdee".to_owned(), ..promise() },
        Promise { order_date: "2026-11-25".to_owned(), ..promise() },
        Promise { expire_second: 1_796_774_401, ..promise() },
        Promise { currency_code: "EUR".to_owned(), ..promise() },
        Promise { minor_digits: 3, ..promise() },
        Promise { total_minor_units: -7_739, ..promise() },
        Promise { leave_date: String::new(), ..promise() },
        Promise { arrive_to: "2026-11-29".to_owned(), ..promise() },
        Promise { child_outcome: 0, ..promise() },
        Promise { tax_milli: Some(0), ..promise() },
        Promise { tax_milli: Some(20_000), ..promise() },
        off(-240, "10 % off the goods: returning buyer"),
        off(-241, "10 % off the goods: returning buyer"),
        off(-240, "10 % off the goods: the last one came late"),
    ];
    let mut ids: Vec<String> =
        changed.iter().map(|promise| seal(promise, &counted()).unwrap().quote_id).collect();
    ids.push(one.quote_id);
    assert!(
        ids.iter().all(|id| id.len() == 32 && id.bytes().all(|byte| byte.is_ascii_hexdigit())),
        "{ids:?}"
    );
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), changed.len() + 1);
}

#[test]
fn the_newest_key_seals_and_older_ones_open_while_they_are_there() {
    let yesterday = token(&promise(), &Keys::read(COUNTED).unwrap());
    let rotated = Keys::read(&format!("{SEVENS}\n{COUNTED}\n")).unwrap();
    assert!(open(&yesterday, &rotated).is_some(), "yesterday's key opens");
    let today = token(&promise(), &rotated);
    assert_eq!(today, token(&promise(), &Keys::read(SEVENS).unwrap()), "the first of them seals");
    assert!(open(&today, &rotated).is_some());
    let removed = Keys::read(SEVENS).unwrap();
    assert_eq!(open(&yesterday, &removed), None, "the key is gone");
    assert!(open(&today, &removed).is_some());
    assert_eq!(open(&today, &Keys::read(COUNTED).unwrap()), None, "a server that has not read the new key");
}

#[test]
fn a_token_has_so_many_characters_and_no_more() {
    let long = |bytes: usize| Promise { leave_date: "-".repeat(bytes), ..Promise::default() };
    let mut last = 0;
    for bytes in 2_900..2_960 {
        let sealed = seal(&long(bytes), &counted()).unwrap();
        assert_eq!(sealed.quote_id.len(), 32);
        match sealed.token {
            Ok(token) => {
                assert!(token.len() <= TICKET_CHARS && open(&token, &counted()).is_some(), "{bytes}");
                last = token.len();
            }
            Err(chars) => {
                assert!(chars > TICKET_CHARS, "{bytes}: {chars}");
                assert!(last > TICKET_CHARS - 4, "the longest that was given has {last}");
                return;
            }
        }
    }
    panic!("none was too long");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_promised_comes_back(
        lettering in ".{0,60}", minor in any::<i64>(), second in any::<i64>(), date in ".{0,10}",
    ) {
        let mut promise = Promise { total_minor_units: minor, expire_second: second, ..promise() };
        promise.arrive_to = date;
        promise.understood.as_mut().unwrap().lettering = Some(lettering);
        let sealed = seal(&promise, &counted()).unwrap();
        let opened = open(&sealed.token.unwrap(), &counted()).unwrap();
        prop_assert_eq!(opened.promise, promise);
        prop_assert_eq!(opened.quote_id, sealed.quote_id);
    }
}
