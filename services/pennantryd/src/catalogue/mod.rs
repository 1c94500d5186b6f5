//! The catalogue file: what the shop makes, from what, how fast and for how much.
//!
//! One TOML file, [written to be read](SALTMERE_LOFT): its comments explain every key to
//! the owner of the shop. Here it is walked by hand, key by key, so that a file with
//! thirty mistakes gives thirty messages at once, each with its line, its key, the value
//! found, what is allowed and what to do. An unknown key is a mistake like any other, and
//! so is a missing one, but for those whose comment in the demo says that they may be left
//! out. Of keys that exclude each other (a margin and a mark-up, a bolt and pieces, a
//! binding bought and one cut from cloth) there is one; two of them are a mistake, and none.
//!
//! What refers to something else in the file is looked up: a binding's cloth, the web of a
//! construction, the format of a weight band. So every place in the lists of a
//! [`Shop`] is valid.
//!
//! # How values are read
//!
//! | value | written as | read to |
//! |---|---|---|
//! | length, keys in `_mm` | `1100`, `12.5`, `"7 1/2 in"` | a micrometre |
//! | money | `"24.00"`, major units in quotes | a minor unit |
//! | rate of money | `"11.00"`, major units in quotes | a millionth of a minor unit |
//! | share, keys in `_percent` | `20`, `12.5` | a thousandth of a percent |
//! | bench time, keys in `minutes` | `15`, `2.25` | a thousandth of a minute |
//! | mass, keys in `grams` | `6`, `0.4` | a milligram, of a metre a microgram |
//! | day | `"2026-12-25"` | a day, numbered from the first of January 1970 |
//! | time of the day | `"14:00"` | a minute |
//! | yes or no | `true`, `false` | |
//!
//! Numbers are read from their digits, never through a float, and nothing is rounded but a
//! length in fractions of an inch, to the nearest micrometre. What is finer than the table
//! says is a mistake. Every value has a least and a most; where
//! [`bounds`](pennantry_measure::bounds) has one, it is that.
//!
//! # Example
//!
//! ```
//! use pennantryd::catalogue::{self, SALTMERE_LOFT};
//!
//! let shop = catalogue::read(SALTMERE_LOFT).expect("the demo shop has no mistake");
//! assert_eq!(shop.designs[0].width.to_string(), "190 mm");
//!
//! let wrong = SALTMERE_LOFT.replacen("width_mm = 190", "width_mm = 19", 1);
//! let mistakes = catalogue::read(&wrong).unwrap_err();
//! assert!(mistakes[0].to_string().contains("designs[0].width_mm: 19 is out of range"));
//! ```

mod bench;
mod codes;
mod currencies;
mod dates;
mod designs;
mod field;
mod file;
mod goods;
mod lists;
mod mistake;
mod node;
mod number;
mod paper;
mod parts;
mod post;
mod pricing;
mod restock;
mod syntax;
#[cfg(test)]
mod tests;
mod whole;

use std::sync::Arc;

use jiff::tz::TimeZone;
use pennantry_app::restock::Restock;
use pennantry_calc::shop::Shop;
use sha2::{Digest, Sha256};

pub use file::{LoadError, MOST_BYTES, Report, check, load};
pub use lists::DAYS;
pub use mistake::Mistake;

use mistake::Notes;

/// The demo shop, as it is compiled in: what `serve` uses when no file is named, and an
/// example to start one's own file from.
pub const SALTMERE_LOFT: &str = include_str!("saltmere_loft.toml");

/// A catalogue that can be put in force.
#[derive(Debug, Clone)]
pub struct Loaded {
    /// The shop.
    pub shop: Arc<Shop>,
    /// Where its clock hangs.
    pub zone: TimeZone,
    /// How it buys its cloth.
    pub restock: Arc<Restock>,
    /// [`revision`] of the text it was read from.
    pub revision: String,
}

impl From<Loaded> for pennantry_app::Catalogue {
    fn from(loaded: Loaded) -> pennantry_app::Catalogue {
        pennantry_app::Catalogue {
            shop: loaded.shop,
            restock: loaded.restock,
            revision: loaded.revision,
            zone: loaded.zone,
        }
    }
}

/// Minor digits of a currency by ISO 4217, which are those of every catalogue that has it.
pub(crate) fn minor_digits(currency: &str) -> Option<u32> {
    match currencies::look_up(currency) {
        currencies::Listed::Digits(digits) => Some(digits),
        currencies::Listed::NoMinorUnit | currencies::Listed::No => None,
    }
}

/// Reads a catalogue from its text.
///
/// # Errors
/// Every mistake, in the order of the lines. A line that is not TOML counts as one; where
/// it makes what follows unreadable it is the only one.
pub fn read(text: &str) -> Result<Shop, Vec<Mistake>> {
    walk(text).map(|(shop, _, _)| shop)
}

/// Reads a catalogue from its text, with its zone and its revision.
///
/// # Errors
/// As [`read`].
pub fn open(text: &str) -> Result<Loaded, Vec<Mistake>> {
    let (shop, zone, restock) = walk(text)?;
    Ok(Loaded { shop: Arc::new(shop), zone, restock: Arc::new(restock), revision: revision(text) })
}

/// The digest of a catalogue's text: the first 16 hexadecimal digits of its SHA-256
/// (FIPS 180-4). Any change of the file changes it, a comment's too.
///
/// ```
/// // the example message "abc" of FIPS 180-4
/// assert_eq!(pennantryd::catalogue::revision("abc"), "ba7816bf8f01cfea");
/// ```
pub fn revision(text: &str) -> String {
    let first_eight = Sha256::digest(text.as_bytes()).into_iter().take(8);
    let number = first_eight.fold(0_u64, |number, byte| (number << 8) | u64::from(byte));
    format!("{number:016x}")
}

fn walk(text: &str) -> Result<(Shop, TimeZone, Restock), Vec<Mistake>> {
    let mut notes = Notes::new(text);
    let mut mended = String::new();
    let document = syntax::read(text, &mut mended, &mut notes);
    let read = document.and_then(|document| whole::read(&document, &mut notes));
    let mistakes = notes.into_mistakes();
    match read {
        Some(read) if mistakes.is_empty() => Ok(read),
        _ => Err(mistakes),
    }
}
