//! Nothing but the token itself opens.

use base64::Engine as _;
use base64::engine::general_purpose::{STANDARD, STANDARD_NO_PAD, URL_SAFE, URL_SAFE_NO_PAD};
use hmac::{Hmac, KeyInit, Mac};
use proptest::prelude::*;
use sha2::Sha256;

use super::super::{SEALED, VERSION, open};
use super::{SEVENS, counted, promise, token};
use crate::ticket::Keys;

/// Letters of base64url, those of plain base64, and what else could stand there.
const LETTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_+/=. \n\0é";

/// Both parts as bytes.
fn parts(token: &str) -> (Vec<u8>, Vec<u8>) {
    let (ticket, seal) = token.split_once('.').unwrap();
    (URL_SAFE_NO_PAD.decode(ticket).unwrap(), URL_SAFE_NO_PAD.decode(seal).unwrap())
}

fn joined(ticket: &[u8], seal: &[u8]) -> String {
    format!("{}.{}", URL_SAFE_NO_PAD.encode(ticket), URL_SAFE_NO_PAD.encode(seal))
}

/// A right seal over any bytes, as only the shop can make one.
fn sealed(ticket: &[u8]) -> Vec<u8> {
    let key: Vec<u8> = (0..32).collect();
    let mac = Hmac::<Sha256>::new_from_slice(&key).unwrap().chain_update(SEALED).chain_update(ticket);
    mac.finalize().into_bytes().to_vec()
}

#[test]
fn no_bit_of_any_byte_may_be_another() {
    let token = token(&promise(), &counted());
    let (ticket, seal) = parts(&token);
    assert!(open(&joined(&ticket, &seal), &counted()).is_some());
    let mut tried = 0;
    for bit in 0..8 {
        for place in 0..ticket.len() {
            let mut flipped = ticket.clone();
            flipped[place] ^= 1 << bit;
            assert_eq!(open(&joined(&flipped, &seal), &counted()), None, "bit {bit} of byte {place}");
            tried += 1;
        }
        for place in 0..seal.len() {
            let mut flipped = seal.clone();
            flipped[place] ^= 1 << bit;
            assert_eq!(
                open(&joined(&ticket, &flipped), &counted()),
                None,
                "bit {bit} of {place} of the seal"
            );
            tried += 1;
        }
    }
    assert_eq!(tried, 8 * (ticket.len() + 32));
}

#[test]
fn no_character_may_be_another_or_one_more() {
    let token = token(&promise(), &counted());
    for (place, old) in token.char_indices() {
        for new in LETTERS.chars().filter(|new| *new != old) {
            let (before, after) = (&token[..place], &token[place + 1..]);
            let changed = format!("{before}{new}{after}");
            assert_eq!(open(&changed, &counted()), None, "{new:?} at {place}");
        }
    }
    for place in 0..=token.len() {
        for new in ['A', '.', '=', ' ', '\n'] {
            let (before, after) = token.split_at(place);
            assert_eq!(open(&format!("{before}{new}{after}"), &counted()), None, "{new:?} before {place}");
        }
    }
}

#[test]
fn no_part_of_it_is_enough() {
    let token = token(&promise(), &counted());
    for place in 0..token.len() {
        assert_eq!(open(&token[..place], &counted()), None, "the first {place}");
        assert_eq!(open(&token[place + 1..], &counted()), None, "without the first {}", place + 1);
    }
    let (ticket, seal) = parts(&token);
    for length in 0..seal.len() {
        assert_eq!(open(&joined(&ticket, &seal[..length]), &counted()), None, "{length} bytes of the seal");
    }
    let twice = [seal.clone(), seal.clone()].concat();
    assert_eq!(open(&joined(&ticket, &twice), &counted()), None);
    assert_eq!(open(&joined(&[], &seal), &counted()), None, "no ticket");
    assert_eq!(open(&joined(&[], &sealed(&[])), &counted()), None, "nothing, sealed");
    assert_eq!(open(&joined(&ticket, &[]), &counted()), None, "no seal");
    for nothing in ["", ".", "..", ". .", "a", "a.", ".a"] {
        assert_eq!(open(nothing, &counted()), None, "{nothing:?}");
    }
}

#[test]
fn it_is_written_in_one_way_only() {
    let token = token(&promise(), &counted());
    let (ticket, seal) = parts(&token);
    let (first, second) = token.split_once('.').unwrap();
    for (what, other) in [
        ("padding", format!("{}.{}", URL_SAFE.encode(&ticket), URL_SAFE.encode(&seal))),
        ("padding of the seal", format!("{first}.{second}=")),
        (
            "the plain alphabet",
            format!("{}.{}", STANDARD_NO_PAD.encode(&ticket), STANDARD_NO_PAD.encode(&seal)),
        ),
        (
            "the plain alphabet with padding",
            format!("{}.{}", STANDARD.encode(&ticket), STANDARD.encode(&seal)),
        ),
        ("a third part", format!("{token}.")),
        ("a third part of it", format!("{token}.{second}")),
        ("a dot before", format!(".{token}")),
        ("two dots", format!("{first}..{second}")),
        ("the parts exchanged", format!("{second}.{first}")),
        ("a line end", format!("{token}\n")),
        ("a line end in it", format!("{first}.\r\n{second}")),
        ("room", format!(" {token} ")),
        ("lower case", token.to_lowercase()),
    ] {
        assert_ne!(other, token, "{what}");
        assert_eq!(open(&other, &counted()), None, "{what}: {other}");
    }
    // 32 bytes leave two spare bits in the last of 43 letters, and only 00 is right
    let spare = |letter: char| second[..42].to_owned() + &letter.to_string();
    let last = second.chars().last().unwrap();
    let letters: Vec<char> = LETTERS.chars().take(64).collect();
    let value = letters.iter().position(|letter| *letter == last).unwrap();
    assert_eq!(value % 4, 0);
    for more in 1..4 {
        let other = format!("{first}.{}", spare(letters[value + more]));
        assert_eq!(open(&other, &counted()), None, "spare bits {more}");
    }
}

#[test]
fn another_key_another_label_and_another_version_do_not_open() {
    let token = token(&promise(), &counted());
    let (ticket, seal) = parts(&token);
    assert_eq!(open(&token, &Keys::read(SEVENS).unwrap()), None);
    // sealed by our key, but for something else
    let key: Vec<u8> = (0..32).collect();
    let mac = Hmac::<Sha256>::new_from_slice(&key).unwrap();
    for label in [b"".as_slice(), b"pennantry ticket 1", b"pennantry ticket 2\n", b"pennantry quote 1\n"] {
        let other = mac.clone().chain_update(label).chain_update(&ticket).finalize().into_bytes();
        assert_eq!(open(&joined(&ticket, &other), &counted()), None, "{label:?}");
    }
    // the id of another key under our seal
    let mut other = ticket.clone();
    other[1..9].copy_from_slice(&Keys::read(SEVENS).unwrap().newest().unwrap().id().0);
    let both = Keys::read(&format!("{SEVENS}\n{}", super::COUNTED)).unwrap();
    assert_eq!(open(&joined(&other, &sealed(&other)), &both), None);
    // versions that are not there yet, rightly sealed
    assert!(open(&joined(&ticket, &sealed(&ticket)), &counted()).is_some());
    for version in (0..=u8::MAX).filter(|version| *version != VERSION) {
        let mut other = ticket.clone();
        other[0] = version;
        assert_eq!(open(&joined(&other, &sealed(&other)), &counted()), None, "version {version}");
    }
    // rightly sealed, and no promise
    let (head, _) = ticket.split_at(9);
    for wrong in [b"\xff".as_slice(), b"\x0a\x7f", b"\x12\x02\xff\xfe", &ticket[9..20]] {
        let other = [head, wrong].concat();
        assert_eq!(open(&joined(&other, &sealed(&other)), &counted()), None, "{wrong:?}");
    }
    assert_eq!(open(&joined(&seal, &seal), &counted()), None);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_makes_it_panic(text in "\\PC{0,200}") {
        prop_assert_eq!(open(&text, &counted()), None);
    }

    #[test]
    fn no_bytes_make_it_panic(
        ticket in prop::collection::vec(any::<u8>(), 0..200), seal in prop::collection::vec(any::<u8>(), 0..64),
    ) {
        prop_assert_eq!(open(&joined(&ticket, &seal), &counted()), None);
    }

    /// Not even bytes that the shop did seal.
    #[test]
    fn no_bytes_under_a_right_seal_make_it_panic(promised in prop::collection::vec(any::<u8>(), 0..200)) {
        let head = [[VERSION].as_slice(), counted().newest().unwrap().id().as_slice()].concat();
        let ticket = [head, promised].concat();
        let _ = open(&joined(&ticket, &sealed(&ticket)), &counted());
    }
}
