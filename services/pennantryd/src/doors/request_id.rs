//! The id by which one request is found again in logs and answers.

use http::{HeaderMap, HeaderName, HeaderValue};
use uuid::Uuid;

/// The header that carries it, in and out.
pub const HEADER: HeaderName = HeaderName::from_static("x-request-id");

const MOST: usize = 64;

/// The caller's id where it is a plain token, otherwise a new one.
///
/// ```
/// use pennantryd::doors::request_id::{HEADER, of};
/// let mut headers = http::HeaderMap::new();
/// headers.insert(HEADER, "order-7.1_a".parse()?);
/// assert_eq!(of(&headers), "order-7.1_a");
/// headers.insert(HEADER, "<script>".parse()?);
/// assert_eq!(of(&headers).len(), 36);
/// # Ok::<(), http::header::InvalidHeaderValue>(())
/// ```
pub fn of(headers: &HeaderMap) -> HeaderValue {
    match headers.get(HEADER) {
        Some(given) if is_plain(given.as_bytes()) => given.clone(),
        _ => new(),
    }
}

fn is_plain(given: &[u8]) -> bool {
    let plain = |byte: &u8| byte.is_ascii_alphanumeric() || matches!(byte, b'.' | b'_' | b'-');
    !given.is_empty() && given.len() <= MOST && given.iter().all(plain)
}

fn new() -> HeaderValue {
    let mut text = Uuid::encode_buffer();
    let text = Uuid::now_v7().hyphenated().encode_lower(&mut text);
    // Hexadecimal digits and hyphens are always a header value.
    HeaderValue::from_str(text).unwrap_or(HeaderValue::from_static("none"))
}
