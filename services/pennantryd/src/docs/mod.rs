//! What a door answers, told at that door.
//!
//! | path | what |
//! |---|---|
//! | `/openapi.json` | the calls as OpenAPI 3.1: at each door those of that door |
//! | `/docs` | the same as a page, which runs no script and asks for nothing |

mod page;
pub mod words;

use std::future::ready;
use std::sync::LazyLock;

use axum::Router;
use axum::body::{Body, Bytes};
use axum::extract::Request;
use axum::response::Response;
use axum::routing::get;
use base64::prelude::{BASE64_STANDARD, Engine as _};
use http::{HeaderValue, header};
use pennantry_contract::{OPENAPI, OPENAPI_PRIVATE};
use sha2::{Digest, Sha256};

use crate::doors::kept::kept;
use crate::service::Door;

/// Where the document is.
const DOCUMENT: &str = "/openapi.json";
/// Where it is as a page.
const PAGE: &str = "/docs";
const JSON: &str = "application/json";
const HTML: &str = "text/html; charset=utf-8";

/// The page asks for nothing: its one style is known by its digest (Content Security Policy
/// Level 3, section 6.7.2.11).
static POLICY: LazyLock<String> = LazyLock::new(|| {
    let digest = BASE64_STANDARD.encode(Sha256::digest(page::STYLE.as_bytes()));
    format!(
        "default-src 'none'; style-src 'sha256-{digest}'; img-src data:; base-uri 'none'; form-action 'none'; \
         frame-ancestors 'none'"
    )
});

/// What is told at a door.
pub fn router(door: Door) -> Router {
    let document = match door {
        Door::Public => OPENAPI,
        Door::Private => OPENAPI_PRIVATE,
    };
    let written = serde_json::from_str(document).map(|document| page::page(&document));
    // it is part of the program, and a test reads it
    let page = written.unwrap_or_else(|fault| format!("the document cannot be read: {fault}"));
    file(DOCUMENT, Bytes::from_static(document.as_bytes()), JSON).merge(file(PAGE, page.into(), HTML))
}

/// The route that a path is, for counting, where it is one of these.
pub fn route(path: &str) -> Option<&'static str> {
    [DOCUMENT, PAGE].into_iter().find(|known| *known == path)
}

fn file(path: &str, bytes: Bytes, media: &'static str) -> Router {
    let digest = Sha256::digest(&bytes);
    let hex: Vec<String> = digest.iter().take(12).map(|byte| format!("{byte:02x}")).collect();
    // hexadecimal digits are always a header value
    let tag = HeaderValue::try_from(format!("\"{}\"", hex.concat()));
    let tag = tag.unwrap_or(HeaderValue::from_static("\"\""));
    let whole = move || {
        let mut response = Response::new(Body::from(bytes.clone()));
        let headers = response.headers_mut();
        headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(media));
        if media == HTML
            && let Ok(policy) = HeaderValue::try_from(POLICY.as_str())
        {
            headers.insert(header::CONTENT_SECURITY_POLICY, policy);
            headers.insert(header::REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
        }
        Ok(response)
    };
    Router::new()
        .route(path, get(move |asked: Request| ready(kept(asked.headers(), tag.clone(), whole.clone()))))
}
