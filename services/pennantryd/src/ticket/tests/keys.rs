//! What is a key, and that it keeps to itself.

use super::super::{Fault, Key, Keys, open};
use super::{COUNTED, SEVENS, promise, token};

#[test]
fn a_file_of_keys_is_read_line_by_line() {
    let text = format!("# ours\n\n  {SEVENS}   since 2026-11-24\r\n\t\n# older\n{COUNTED}\n");
    let keys = Keys::read(&text).unwrap();
    assert_eq!(keys.count(), 2);
    assert_eq!(keys.newest().unwrap().id(), Keys::read(SEVENS).unwrap().newest().unwrap().id());
}

#[test]
fn what_is_no_key_is_told_by_its_line_and_never_shown() {
    for (line, why) in [
        ("BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBw", "31 bytes"),
        ("BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcH", "33 bytes"),
        ("BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwc=", "padding"),
        ("BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwd", "a spare bit"),
        ("BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwc+/wc", "the plain alphabet"),
        ("0707070707070707070707070707070707070707070707070707070707070707", "hexadecimal"),
        ("since 2026-11-24", "a word"),
        ("\u{feff}BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwc", "a mark of byte order"),
    ] {
        let fault = Keys::read(&format!("# ours\n{COUNTED}\n{line}\n")).unwrap_err();
        assert_eq!(fault, Fault::NoKey(3), "{why}");
        let told = fault.to_string();
        assert!(told.contains("line 3") && !told.contains(&line[..8]), "{why}: {told}");
    }
    assert_eq!(Keys::read(&format!("{COUNTED}\n{SEVENS}\n{COUNTED}\n")).unwrap_err(), Fault::Twice(3));
    for empty in ["", "\n", "# nothing\n\n", " \t\r\n"] {
        assert_eq!(Keys::read(empty).unwrap_err(), Fault::Empty, "{empty:?}");
    }
}

#[test]
fn there_are_so_many_keys_and_no_more() {
    use base64::Engine as _;
    let line = |byte: u8| base64::engine::general_purpose::URL_SAFE_NO_PAD.encode([byte; 32]) + "\n";
    let many = |count: u8| (0..count).map(line).collect::<String>();
    assert_eq!(Keys::read(&many(20)).unwrap().count(), 20);
    assert_eq!(Keys::read(&many(21)).unwrap_err(), Fault::TooMany);
}

#[test]
fn fresh_keys_are_different_ones() {
    let (one, two) = (Keys::fresh().unwrap(), Keys::fresh().unwrap());
    assert_ne!(one.newest().unwrap().id(), two.newest().unwrap().id());
    assert_eq!(open(&token(&promise(), &one), &two), None);
}

/// Neither its bytes nor its word show up in what is printed of it.
#[test]
fn a_key_never_says_itself() {
    let bytes: [u8; 32] = std::array::from_fn(|place| u8::try_from(place).unwrap());
    let key = Key::new(&bytes).unwrap();
    let keys = Keys::read(COUNTED).unwrap();
    let service = crate::service::Service::new(
        crate::catalogue::open(crate::catalogue::SALTMERE_LOFT).unwrap().into(),
        crate::clock::Clock::System,
        keys.clone(),
    );
    let hexadecimal = "000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f";
    for printed in [
        format!("{key:?} {key:#?}"),
        format!("{keys:?} {keys:#?}"),
        key.id().to_string(),
        format!("{service:?} {service:#?}"),
    ] {
        assert!(printed.contains("e9f0349c4bf68db2"), "it says which it is: {printed:.200}");
        let plain: String = printed.split_whitespace().collect();
        for secret in [COUNTED, &COUNTED[..12], hexadecimal, &hexadecimal[..16], "4,5,6,7,8,9,10"] {
            assert!(!plain.contains(secret), "{secret} is told");
        }
    }
}
