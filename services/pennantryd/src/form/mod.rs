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

use axum::Router;
use axum::body::{Body, Bytes};
use axum::extract::Request;
use axum::response::Response;
use axum::routing::get;
use http::{HeaderValue, header};
use sha2::{Digest, Sha256};

use crate::doors::Refusal;
use crate::doors::kept::kept;

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
    "/made-to-order/memory.js" "made-to-order/memory.js" SCRIPT,
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

/// The entity tag of a file: as long as nothing in it changes, neither does it.
fn tag(asset: &Asset) -> Option<HeaderValue> {
    let digest = Sha256::digest(asset.body);
    let hex: Vec<String> = digest.iter().take(12).map(|byte| format!("{byte:02x}")).collect();
    HeaderValue::try_from(format!("\"{}\"", hex.concat())).ok()
}

/// The form, and the photographs where there is a folder.
pub fn router(pictures: Pictures) -> Router {
    let mut router = Router::new();
    for (asset, tag) in ASSETS.iter().filter_map(|asset| Some((asset, tag(asset)?))) {
        let answer = move |request: Request| std::future::ready(file(asset, &tag, &request));
        router = router.route(asset.path, get(answer));
    }
    router.merge(pictures::router(pictures))
}

/// The route that a path is, for counting, where it is one of these.
pub fn route(path: &str) -> Option<&'static str> {
    let asset = ASSETS.iter().find(|asset| asset.path == path).map(|asset| asset.path);
    asset.or_else(|| path.starts_with(pictures::PREFIX).then_some("/pictures/{file}"))
}

fn file(asset: &Asset, tag: &HeaderValue, request: &Request) -> Result<Response, Refusal> {
    kept(request.headers(), tag.clone(), || {
        let mut response = body(Bytes::from_static(asset.body), asset.media);
        if asset.media == HTML {
            let headers = response.headers_mut();
            headers.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY));
            headers.insert(header::REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
        }
        Ok(response)
    })
}

fn body(bytes: Bytes, media: &'static str) -> Response {
    let mut response = Response::new(Body::from(bytes));
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(media));
    response
}

#[cfg(test)]
mod tests;
