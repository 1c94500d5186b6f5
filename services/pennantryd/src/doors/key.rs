//! The header `Idempotency-Key`: by it a storefront can send a request again without having
//! it done twice.
//!
//! Read as the draft of the IETF (`draft-ietf-httpapi-idempotency-key-header-07`) has it, a
//! string of structured fields (RFC 9651 section 3.3.3), `"8e03978e"`; or, as many send it,
//! the same without quotes. Either gives the same key: 1 to 80 visible characters of ASCII.
//!
//! The same key at the same call is handled one after the other in this process. Between
//! processes, the ledger sees to it.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use http::{HeaderMap, HeaderName};
use pennantry_contract::reasons::{Kind, ViolationReason};
use pennantry_measure::bounds;
use tokio::sync::OwnedMutexGuard;
use tokio::time::timeout_at;

use crate::failure::{Failure, violation};
use crate::service::Caller;

/// The header.
pub const HEADER: HeaderName = HeaderName::from_static("idempotency-key");
/// As it is called in refusals.
const NAME: &str = "Idempotency-Key";
/// What is said with an answer that had been given before.
pub const REPLAYED: HeaderName = HeaderName::from_static("pennantry-replayed");

/// The key of a request, where it has one.
///
/// # Errors
/// It is no key, or there are two.
///
/// ```
/// use pennantryd::doors::key;
/// let mut headers = http::HeaderMap::new();
/// headers.insert(key::HEADER, r#""a \"b""#.parse()?);
/// assert!(key::given(&headers).is_err(), "a space is not visible");
/// headers.insert(key::HEADER, r#""a\"b""#.parse()?);
/// assert_eq!(key::given(&headers).ok().flatten().as_deref(), Some("a\"b"));
/// # Ok::<(), http::header::InvalidHeaderValue>(())
/// ```
pub fn given(headers: &HeaderMap) -> Result<Option<String>, Failure> {
    let mut all = headers.get_all(HEADER).iter();
    let Some(first) = all.next() else { return Ok(None) };
    if all.next().is_some() {
        return Err(refused(
            ViolationReason::Repeated,
            "the header is there twice: send one key with a request".to_owned(),
        ));
    }
    read(first.as_bytes()).map(Some)
}

/// The key of a request that has to have one.
///
/// # Errors
/// There is none, it is no key, or there are two.
pub fn needed(headers: &HeaderMap) -> Result<String, Failure> {
    given(headers)?.ok_or_else(|| {
        refused(
            ViolationReason::Missing,
            "the header is missing: make up a key for this request, such as a random number of 32 digits, \
             and send the same key whenever you send the request again"
                .to_owned(),
        )
    })
}

fn read(given: &[u8]) -> Result<String, Failure> {
    let most = usize::try_from(bounds::NAME.most).unwrap_or(usize::MAX);
    let Some(key) = unquoted(given.trim_ascii()) else {
        return Err(refused(
            ViolationReason::BadText,
            "the key is quoted at one end only, or has a backslash before something else than a quote or \
             a backslash: send it without quotes"
                .to_owned(),
        ));
    };
    if key.len() > most {
        let message = format!("the key has {} characters: give 1 to {most}", key.len());
        return Err(refused(ViolationReason::TooLong, message));
    }
    if key.is_empty() || !key.iter().all(u8::is_ascii_graphic) {
        let message = format!(
            "the key is empty or has characters beside the visible ones of ASCII: give 1 to {most} of those"
        );
        return Err(refused(ViolationReason::BadText, message));
    }
    Ok(key.into_iter().map(char::from).collect())
}

/// What is between the quotes, where there are any.
fn unquoted(given: &[u8]) -> Option<Vec<u8>> {
    let Some(rest) = given.strip_prefix(b"\"") else {
        return Some(given.to_vec());
    };
    let inside = rest.strip_suffix(b"\"")?;
    let mut key = Vec::with_capacity(inside.len());
    let mut bytes = inside.iter();
    while let Some(&byte) = bytes.next() {
        let read = match byte {
            b'\\' => *bytes.next().filter(|next| matches!(next, b'"' | b'\\'))?,
            b'"' => return None,
            other => other,
        };
        key.push(read);
    }
    Some(key)
}

fn refused(reason: ViolationReason, message: String) -> Failure {
    Failure::refused(vec![violation(NAME, reason, message)])
}

type Lock = Arc<tokio::sync::Mutex<()>>;

/// The keys of requests that are being carried out in this process.
#[derive(Debug, Clone, Default)]
pub struct Running(Arc<Mutex<BTreeMap<(&'static str, String), Lock>>>);

impl Running {
    /// Waits until no other request with this key is being carried out by this call, as long
    /// as the caller does.
    ///
    /// # Errors
    /// `ABORTED` where one still is when the caller's time is over.
    pub async fn turn(&self, call: &'static str, key: &str, caller: &Caller) -> Result<Turn, Failure> {
        let name = (call, key.to_owned());
        let lock =
            self.0.lock().unwrap_or_else(PoisonError::into_inner).entry(name.clone()).or_default().clone();
        let mut turn = Turn { running: self.clone(), name, lock: Some(lock.clone()), held: None };
        let held = match caller.deadline {
            Some(deadline) => timeout_at(deadline.into(), lock.lock_owned()).await.ok(),
            None => Some(lock.lock_owned().await),
        };
        turn.held = held;
        if turn.held.is_none() {
            return Err(Failure::new(
                Kind::Aborted,
                format!(
                    "the request with the {NAME} \"{key}\" is still being carried out: ask again in a moment"
                ),
            ));
        }
        Ok(turn)
    }

    #[cfg(test)]
    fn count(&self) -> usize {
        self.0.lock().unwrap().len()
    }
}

/// The turn of one request; over when this is dropped.
#[derive(Debug)]
pub struct Turn {
    running: Running,
    name: (&'static str, String),
    lock: Option<Lock>,
    held: Option<OwnedMutexGuard<()>>,
}

impl Drop for Turn {
    fn drop(&mut self) {
        let mut table = self.running.0.lock().unwrap_or_else(PoisonError::into_inner);
        drop(self.held.take());
        drop(self.lock.take());
        // Whoever waits has the lock in hand.
        if table.get(&self.name).is_some_and(|lock| Arc::strong_count(lock) == 1) {
            table.remove(&self.name);
        }
    }
}

#[cfg(test)]
mod tests {
    use std::time::{Duration, Instant};

    use super::*;
    use crate::service::Door;

    fn caller(patience: Duration) -> Caller {
        let deadline = Some(Instant::now() + patience);
        Caller { door: Door::Public, actor: "storefront".to_owned(), address: None, deadline }
    }

    #[test]
    fn a_key_is_read_with_and_without_quotes() {
        let long = "k".repeat(80);
        let good: [(&str, &str); 6] = [
            ("8e03978e-40d5", "8e03978e-40d5"),
            ("\"8e03978e-40d5\"", "8e03978e-40d5"),
            ("  a  ", "a"),
            (r#""\"\\""#, r#""\"#),
            (r"a\b", r"a\b"),
            (&long, &long),
        ];
        for (given, key) in good {
            assert_eq!(read(given.as_bytes()).as_deref(), Ok(key), "{given}");
        }
        let bad = [
            ("", "BAD_TEXT"),
            ("\"\"", "BAD_TEXT"),
            ("\"", "BAD_TEXT"),
            ("\"a", "BAD_TEXT"),
            ("\"a\"b\"", "BAD_TEXT"),
            (r#""a\b""#, "BAD_TEXT"),
            (r#""a\""#, "BAD_TEXT"),
            ("a b", "BAD_TEXT"),
            ("k\u{e9}", "BAD_TEXT"),
            (&format!("{long}k"), "TOO_LONG"),
        ];
        for (given, reason) in bad {
            let failure = read(given.as_bytes()).unwrap_err();
            assert_eq!((failure.kind, failure.violations[0].reason.as_str()), (Kind::InvalidEnquiry, reason));
            assert_eq!(failure.violations[0].field, "Idempotency-Key");
        }
    }

    #[test]
    fn one_key_and_no_more() {
        let mut headers = HeaderMap::new();
        assert_eq!(given(&headers), Ok(None));
        assert_eq!(needed(&headers).unwrap_err().violations[0].reason, "MISSING");
        headers.append(HEADER, "a".parse().unwrap());
        assert_eq!(needed(&headers).as_deref(), Ok("a"));
        headers.append(HEADER, "a".parse().unwrap());
        assert_eq!(needed(&headers).unwrap_err().violations[0].reason, "REPEATED");
    }

    #[tokio::test]
    async fn the_same_key_has_one_turn_at_a_time_and_leaves_nothing() {
        let running = Running::default();
        let first = running.turn("Create", "k", &caller(Duration::from_secs(20))).await.unwrap();
        let other = running.turn("Create", "l", &caller(Duration::from_secs(20))).await.unwrap();
        let another_call = running.turn("Extend", "k", &caller(Duration::from_secs(20))).await.unwrap();
        drop((other, another_call));
        let late = running.turn("Create", "k", &caller(Duration::from_millis(20))).await.unwrap_err();
        assert_eq!(late.kind, Kind::Aborted);
        assert_eq!(running.count(), 1);
        let waits = tokio::spawn({
            let running = running.clone();
            async move { running.turn("Create", "k", &caller(Duration::from_secs(20))).await.map(drop) }
        });
        tokio::task::yield_now().await;
        drop(first);
        waits.await.unwrap().unwrap();
        assert_eq!(running.count(), 0);
    }
}
