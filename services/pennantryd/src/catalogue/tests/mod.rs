//! Tests of the catalogue file. What the demo shop is, [`demo`](super::SALTMERE_LOFT) says
//! itself; here it is what every test starts from.

mod demo;
mod disk;
mod every_key;
mod hostile;
mod prices;
mod syntax;
mod thirty;
mod values;

use super::{Mistake, SALTMERE_LOFT, read};

/// The mistakes of a text, none if it can be read.
fn mistakes(text: &str) -> Vec<Mistake> {
    read(text).err().unwrap_or_default()
}

/// The demo with one text in it replaced, once; the text has to be there.
fn demo_with(old: &str, new: &str) -> String {
    assert!(SALTMERE_LOFT.contains(old), "the demo has no {old}");
    SALTMERE_LOFT.replacen(old, new, 1)
}

/// The only mistake that the demo has when one text in it is replaced.
fn only_mistake(old: &str, new: &str) -> String {
    let found = mistakes(&demo_with(old, new));
    assert_eq!(found.len(), 1, "{old} -> {new}: {found:?}");
    found[0].to_string()
}
