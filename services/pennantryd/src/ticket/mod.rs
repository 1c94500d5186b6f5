//! The ticket of a quote: what was promised, sealed by the shop, kept by the buyer.
//!
//! A quote is not stored. Whoever brings its token back brings the promise with it, and
//! the seal says that it is the shop's own and whole. The token is
//! `base64url(ticket) "." base64url(seal)`, both without padding (RFC 4648 section 5):
//!
//! | bytes of the ticket | what |
//! |---|---|
//! | 0 | version of this layout, 1 |
//! | 1 to 8 | id of the key that sealed it |
//! | 9 to the end | a [`Promise`] in protobuf |
//!
//! The seal is HMAC-SHA256 (RFC 2104, FIPS 180-4) over [`SEALED`] and the ticket. The
//! bytes are written once: the seal is looked at before anything in them is read, in
//! constant time, and nobody writes them anew. Letters outside the alphabet, padding,
//! spare bits that are not 0 and anything beside the two parts are refused, so a promise has
//! one token for each key. There is no chance and no time in it but the order day.
//!
//! The quote's identity is the first half of SHA-256 over [`NAMED`] and the promise, in
//! hexadecimal. The key is not in it, so servers with keys of their own agree on it.
//!
//! A token may hold a lettering, often a child's name: it travels in bodies only, and
//! nothing here writes it, or a key, to a log.
//!
//! # Example
//! ```
//! use pennantryd::ticket::{self, Keys, Promise};
//!
//! let keys = Keys::fresh()?;
//! let promise = Promise { total_minor_units: 77_39, ..Promise::default() };
//! let sealed = ticket::seal(&promise, &keys)?;
//! let token = sealed.token.unwrap_or_default();
//! let opened = ticket::open(&token, &keys).map(|opened| (opened.quote_id, opened.promise));
//! assert_eq!(opened, Some((sealed.quote_id, promise)));
//! assert_eq!(ticket::open(&token, &Keys::fresh()?), None);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod file;
mod keys;
mod promise;
#[cfg(test)]
mod tests;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use hmac::Mac;
use pennantry_measure::bounds::TICKET_CHARS;
use prost::Message;
use sha2::{Digest, Sha256};

pub use file::{FILE, load, load_or_make, rotate};
pub(crate) use keys::hexadecimal;
pub use keys::{Fault, Key, KeyId, Keys};
pub use promise::{Discounted, Promise};

/// Goes before the ticket into its seal, so that the seal is one of nothing else.
pub const SEALED: &[u8] = b"pennantry ticket 1\n";
/// Goes before the promise into the quote's identity.
pub const NAMED: &[u8] = b"pennantry quote 1\n";

/// The version of the layout.
const VERSION: u8 = 1;
/// Bytes of a quote's identity: half a SHA-256.
const IDENTITY: usize = 16;

/// A quote's identity and its token.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sealed {
    /// The identity.
    pub quote_id: String,
    /// The token, or how many characters it would have where that is too many.
    pub token: Result<String, usize>,
}

/// A promise that came back whole.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// Identity of its quote.
    pub quote_id: String,
    /// What was promised.
    pub promise: Promise,
}

/// Seals a promise with the newest key.
///
/// # Errors
/// There is no key: a fault of the program.
pub fn seal(promise: &Promise, keys: &Keys) -> Result<Sealed, Fault> {
    let key = keys.newest().ok_or(Fault::Empty)?;
    let promised = promise.encode_to_vec();
    let quote_id = identity(&promised);
    let ticket = [[VERSION].as_slice(), key.id().as_slice(), promised.as_slice()].concat();
    let mut mac = key.mac();
    mac.update(SEALED);
    mac.update(&ticket);
    let mut token = URL_SAFE_NO_PAD.encode(&ticket);
    token.push('.');
    URL_SAFE_NO_PAD.encode_string(mac.finalize().into_bytes(), &mut token);
    let token = if token.len() > TICKET_CHARS { Err(token.len()) } else { Ok(token) };
    Ok(Sealed { quote_id, token })
}

/// Opens a token that one of the keys sealed; nothing where none did. Whether it has
/// expired is not looked at.
pub fn open(token: &str, keys: &Keys) -> Option<Opened> {
    if token.len() > TICKET_CHARS {
        return None;
    }
    let (ticket, seal) = token.split_once('.')?;
    let ticket = URL_SAFE_NO_PAD.decode(ticket).ok()?;
    let seal = URL_SAFE_NO_PAD.decode(seal).ok()?;
    let (version, rest) = ticket.split_first()?;
    let (id, promised) = rest.split_first_chunk::<{ KeyId::BYTES }>()?;
    if *version != VERSION {
        return None;
    }
    let mut mac = keys.named(KeyId(*id))?.mac();
    mac.update(SEALED);
    mac.update(&ticket);
    // compares in constant time, the length first
    mac.verify_slice(&seal).ok()?;
    let promise = Promise::decode(promised).ok()?;
    Some(Opened { quote_id: identity(promised), promise })
}

fn identity(promised: &[u8]) -> String {
    let digest = Sha256::new().chain_update(NAMED).chain_update(promised).finalize();
    hexadecimal(digest.into_iter().take(IDENTITY))
}
