//! The keys that tickets are sealed with.

use std::fmt;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use hmac::{Hmac, KeyInit};
use sha2::{Digest, Sha256};

/// Bytes of a key: as many as SHA-256 gives (RFC 2104 section 3 advises no fewer).
pub(super) const KEY_BYTES: usize = 32;
/// Characters of a key in its file.
const KEY_CHARS: usize = 43;
/// Keys in one file at most. Each lasts a season or so, a quote 90 days.
pub(super) const MOST: usize = 20;
/// Goes before a key into its id.
const KEY_NAMED: &[u8] = b"pennantry ticket key 1\n";

/// What is wrong with keys. The keys themselves are never named.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// There is none.
    #[error("there is no key in it")]
    Empty,
    /// More than are ever needed.
    #[error("there are more than {MOST} keys in it: take the oldest out, those at the end")]
    TooMany,
    /// A line that is no key.
    #[error(
        "line {0} does not begin with a key, which is {KEY_CHARS} letters, digits, - and _ for {KEY_BYTES} bytes"
    )]
    NoKey(usize),
    /// A key that is there already.
    #[error("line {0} has a key that is there already: take one of the two out")]
    Twice(usize),
    /// The operating system gives no random bytes.
    #[error("the operating system gives no random bytes: a key cannot be made")]
    NoRandom,
}

/// What a ticket calls its key: the first bytes of a digest of it, which tell nothing of it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct KeyId(pub [u8; KeyId::BYTES]);

impl KeyId {
    /// How many bytes it has.
    pub const BYTES: usize = 8;

    /// The bytes.
    pub fn as_slice(&self) -> &[u8] {
        &self.0
    }
}

impl fmt::Display for KeyId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&hexadecimal(self.0))
    }
}

impl fmt::Debug for KeyId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

/// A key. It says its id, and nothing makes it say itself.
#[derive(Clone)]
pub struct Key {
    id: KeyId,
    mac: Hmac<Sha256>,
}

impl Key {
    /// A key of these bytes.
    ///
    /// # Errors
    /// None with this kind of seal, which takes keys of any length.
    pub fn new(bytes: &[u8; KEY_BYTES]) -> Result<Key, Fault> {
        let digest = Sha256::new().chain_update(KEY_NAMED).chain_update(bytes).finalize();
        let id = digest.first_chunk().copied().ok_or(Fault::Empty)?;
        let mac = Hmac::new_from_slice(bytes).map_err(|_| Fault::Empty)?;
        Ok(Key { id: KeyId(id), mac })
    }

    /// What tickets call it.
    pub fn id(&self) -> KeyId {
        self.id
    }

    /// A seal that nothing is under yet.
    pub(crate) fn mac(&self) -> Hmac<Sha256> {
        self.mac.clone()
    }
}

impl fmt::Debug for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Key({})", self.id)
    }
}

/// The keys of a shop: the first seals, all of them open.
#[derive(Debug, Clone)]
pub struct Keys(Vec<Key>);

impl Keys {
    /// One key that nobody has had before, for a server that keeps nothing.
    ///
    /// # Errors
    /// [`Fault::NoRandom`].
    pub fn fresh() -> Result<Keys, Fault> {
        Ok(Keys(vec![Key::new(&random()?)?]))
    }

    /// Reads the text of a key file: a key a line, the newest first. After a key there may
    /// be a word about it; lines that are empty or begin with `#` say nothing.
    ///
    /// ```
    /// use pennantryd::ticket::{Fault, Keys};
    /// let keys = Keys::read("# ours\nAAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8 made in May\n").unwrap();
    /// assert_eq!(format!("{keys:?}"), "Keys([Key(e9f0349c4bf68db2)])");
    /// assert_eq!(Keys::read("# none\n").err(), Some(Fault::Empty));
    /// ```
    ///
    /// # Errors
    /// What is wrong with it, by its line.
    pub fn read(text: &str) -> Result<Keys, Fault> {
        let mut keys: Vec<Key> = Vec::new();
        for (line, number) in text.lines().zip(1_usize..) {
            let Some(word) = line.split_ascii_whitespace().next().filter(|word| !word.starts_with('#'))
            else {
                continue;
            };
            let key = key(word).ok_or(Fault::NoKey(number))?;
            if keys.iter().any(|other| other.id == key.id) {
                return Err(Fault::Twice(number));
            }
            keys.push(key);
        }
        match keys.len() {
            0 => Err(Fault::Empty),
            count if count > MOST => Err(Fault::TooMany),
            _ => Ok(Keys(keys)),
        }
    }

    /// The key that seals.
    pub fn newest(&self) -> Option<&Key> {
        self.0.first()
    }

    /// The key that has been there for longest.
    pub fn oldest(&self) -> Option<&Key> {
        self.0.last()
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.0.len()
    }

    pub(super) fn named(&self, id: KeyId) -> Option<&Key> {
        self.0.iter().find(|key| key.id == id)
    }
}

fn key(word: &str) -> Option<Key> {
    let bytes = URL_SAFE_NO_PAD.decode(word).ok()?;
    Key::new(&bytes.try_into().ok()?).ok()
}

/// The word of a new key, for its file.
pub(super) fn new_word() -> Result<String, Fault> {
    Ok(URL_SAFE_NO_PAD.encode(random()?))
}

fn random() -> Result<[u8; KEY_BYTES], Fault> {
    let mut bytes = [0; KEY_BYTES];
    getrandom::fill(&mut bytes).map_err(|_| Fault::NoRandom)?;
    Ok(bytes)
}

/// Bytes as two hexadecimal digits each.
pub(crate) fn hexadecimal(bytes: impl IntoIterator<Item = u8>) -> String {
    let digit = |value: u8| char::from_digit(u32::from(value), 16).unwrap_or('0');
    bytes.into_iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
}
