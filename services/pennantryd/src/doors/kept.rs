//! Answers that whoever likes may keep, and is to ask for again every time: with an entity tag, so
//! that the answer is sent only to who has another one (RFC 9110, sections 8.8.3 and 13.1.2).

use axum::body::Body;
use axum::response::Response;
use http::{HeaderMap, HeaderValue, StatusCode, header};

use super::Refusal;

/// The answer under a tag, or that it is what the asker has.
///
/// # Errors
/// Those of making it.
pub fn kept(
    asked: &HeaderMap,
    tag: HeaderValue,
    whole: impl FnOnce() -> Result<Response, Refusal>,
) -> Result<Response, Refusal> {
    let mut response = if is_known(asked, &tag) { unchanged() } else { whole()? };
    let headers = response.headers_mut();
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-cache"));
    headers.insert(header::ETAG, tag);
    Ok(response)
}

fn unchanged() -> Response {
    let mut response = Response::new(Body::empty());
    *response.status_mut() = StatusCode::NOT_MODIFIED;
    response
}

/// Whether `If-None-Match` names the tag; compared weakly.
fn is_known(asked: &HeaderMap, tag: &HeaderValue) -> bool {
    let bare = |tag: &[u8]| tag.strip_prefix(b"W/").unwrap_or(tag).to_vec();
    let lists = asked.get_all(header::IF_NONE_MATCH).iter().filter_map(|list| list.to_str().ok());
    let mut tags = lists.flat_map(|list| list.split(',')).map(str::trim);
    tags.any(|given| given == "*" || bare(given.as_bytes()) == bare(tag.as_bytes()))
}
