//! The made-to-order form: a page, a script that any page can carry, and photographs of cloth.
//!
//! | path | what |
//! |---|---|
//! | `/` | the form as a page of its own |
//! | `/made-to-order.js` | the custom element `<made-to-order>`, for any page |
//! | `/made-to-order/…` | its modules, and its text by language |
//! | `/pictures/NAME` | the photographs that the catalogue names, from the folder `pictures` of the data folder |
//!
//! Everything but the photographs is part of the program. Whatever is served has an entity tag
//! and is asked for again each time, so that a new version is never mixed with an old one.
//! The page runs no script but that one and asks nobody else for anything: its policy says so.

mod pictures;

use std::sync::LazyLock;

use axum::Router;
use axum::body::{Body, Bytes};
use axum::extract::Request;
use axum::response::Response;
use axum::routing::get;
use http::{HeaderMap, HeaderValue, StatusCode, header};
use sha2::{Digest, Sha256};

pub use pictures::{Pictures, media, path as picture_path};

/// What the page may do: run the script and use the style that come from here, and ask here.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; \
                      img-src 'self' data:; base-uri 'none'; form-action 'self'; frame-ancestors 'self'";
const HTML: &str = "text/html; charset=utf-8";
const CSS: &str = "text/css; charset=utf-8";
const SCRIPT: &str = "text/javascript; charset=utf-8";
const JSON: &str = "application/json";

/// A file of the form.
#[derive(Debug)]
pub struct Asset {
    /// Where it is served.
    pub path: &'static str,
    /// What it is.
    pub media: &'static str,
    /// What is in it.
    pub body: &'static [u8],
}

macro_rules! assets {
    ($($path:literal $file:literal $media:ident,)+) => {
        /// Every file of the form.
        pub const ASSETS: &[Asset] = &[
            $(Asset { path: $path, media: $media, body: include_bytes!(concat!("assets/", $file)) },)+
        ];
    };
}

assets! {
    "/" "page.html" HTML,
    "/page.css" "page.css" CSS,
    "/made-to-order.js" "made-to-order.js" SCRIPT,
    "/made-to-order/answer.js" "made-to-order/answer.js" SCRIPT,
    "/made-to-order/cloth.js" "made-to-order/cloth.js" SCRIPT,
    "/made-to-order/colours.js" "made-to-order/colours.js" SCRIPT,
    "/made-to-order/curve.js" "made-to-order/curve.js" SCRIPT,
    "/made-to-order/dom.js" "made-to-order/dom.js" SCRIPT,
    "/made-to-order/drawing.js" "made-to-order/drawing.js" SCRIPT,
    "/made-to-order/enquiry.js" "made-to-order/enquiry.js" SCRIPT,
    "/made-to-order/fields.js" "made-to-order/fields.js" SCRIPT,
    "/made-to-order/findings.js" "made-to-order/findings.js" SCRIPT,
    "/made-to-order/form.js" "made-to-order/form.js" SCRIPT,
    "/made-to-order/gateway.js" "made-to-order/gateway.js" SCRIPT,
    "/made-to-order/geometry.js" "made-to-order/geometry.js" SCRIPT,
    "/made-to-order/hold.js" "made-to-order/hold.js" SCRIPT,
    "/made-to-order/lengths.js" "made-to-order/lengths.js" SCRIPT,
    "/made-to-order/money.js" "made-to-order/money.js" SCRIPT,
    "/made-to-order/more.js" "made-to-order/more.js" SCRIPT,
    "/made-to-order/page.js" "made-to-order/page.js" SCRIPT,
    "/made-to-order/problems.js" "made-to-order/problems.js" SCRIPT,
    "/made-to-order/questions.js" "made-to-order/questions.js" SCRIPT,
    "/made-to-order/style.js" "made-to-order/style.js" SCRIPT,
    "/made-to-order/text.js" "made-to-order/text.js" SCRIPT,
    "/made-to-order/text/de.json" "made-to-order/text/de.json" JSON,
    "/made-to-order/text/en.json" "made-to-order/text/en.json" JSON,
}

/// Their entity tags, in their order.
static TAGS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let tag = |asset: &Asset| {
        let digest = Sha256::digest(asset.body);
        let hex: Vec<String> = digest.iter().take(12).map(|byte| format!("{byte:02x}")).collect();
        format!("\"{}\"", hex.concat())
    };
    ASSETS.iter().map(tag).collect()
});

/// The form, and the photographs where there is a folder.
pub fn router(pictures: Pictures) -> Router {
    let mut router = Router::new();
    for (asset, tag) in ASSETS.iter().zip(TAGS.iter()) {
        router =
            router.route(asset.path, get(move |request: Request| async move { file(asset, tag, &request) }));
    }
    router.merge(pictures::router(pictures))
}

/// The route that a path is, for counting, where it is one of these.
pub fn route(path: &str) -> Option<&'static str> {
    let asset = ASSETS.iter().find(|asset| asset.path == path).map(|asset| asset.path);
    asset.or_else(|| path.starts_with(pictures::PREFIX).then_some("/pictures/{file}"))
}

fn file(asset: &Asset, tag: &str, request: &Request) -> Response {
    let mut response = kept(request.headers(), tag, || Bytes::from_static(asset.body), asset.media);
    let headers = response.headers_mut();
    if asset.media == HTML {
        headers.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY));
        headers.insert(header::REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    }
    response
}

/// An answer that may be kept and is asked for again: the body where the asker has another.
fn kept(asked: &HeaderMap, tag: &str, body: impl FnOnce() -> Bytes, media: &'static str) -> Response {
    let mut response = if is_known(asked, tag) {
        let mut unchanged = Response::new(Body::empty());
        *unchanged.status_mut() = StatusCode::NOT_MODIFIED;
        unchanged
    } else {
        let mut whole = Response::new(Body::from(body()));
        whole.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(media));
        whole
    };
    let headers = response.headers_mut();
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-cache"));
    if let Ok(tag) = HeaderValue::from_str(tag) {
        headers.insert(header::ETAG, tag);
    }
    response
}

/// Whether `If-None-Match` names the tag; compared weakly (RFC 9110 section 13.1.2).
pub fn is_known(headers: &HeaderMap, tag: &str) -> bool {
    let weak = |tag: &str| tag.strip_prefix("W/").unwrap_or(tag).to_owned();
    let wanted = weak(tag);
    let lists = headers.get_all(header::IF_NONE_MATCH).iter().filter_map(|list| list.to_str().ok());
    let mut tags = lists.flat_map(|list| list.split(',')).map(str::trim);
    tags.any(|given| given == "*" || weak(given) == wanted)
}

#[cfg(test)]
mod tests;
