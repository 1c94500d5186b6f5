//! Photographs of cloth: files of one folder, by the names that the catalogue has.

use std::io;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::UNIX_EPOCH;

use axum::Router;
use axum::body::Bytes;
use axum::extract::rejection::PathRejection;
use axum::extract::{Path, Request, State};
use axum::response::Response;
use axum::routing::get;
use http::HeaderValue;
use pennantry_contract::reasons::Kind;

use crate::doors::Refusal;
use crate::doors::kept::kept;
use crate::failure::Failure;
use crate::service::Service;

/// Where they are served.
pub const PREFIX: &str = "/pictures/";
/// The folder of them, in the data folder.
pub const FOLDER: &str = "pictures";
/// Bytes of one at most: what a telephone is asked to fetch.
const MOST_BYTES: u64 = 2 * 1024 * 1024;
/// Characters of a name at most, before its ending.
const NAME_CHARS: usize = 60;
const MEDIA: [(&str, &str); 5] = [
    (".jpg", "image/jpeg"),
    (".jpeg", "image/jpeg"),
    (".png", "image/png"),
    (".webp", "image/webp"),
    (".avif", "image/avif"),
];

/// The kind of picture that a file is by its name; none where it can be none. A name is small
/// letters, digits, "-" and "_": nothing in it leads out of the folder.
pub fn media(name: &str) -> Option<&'static str> {
    let plain = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || matches!(byte, b'-' | b'_');
    MEDIA.iter().find_map(|(ending, media)| {
        let stem = name.strip_suffix(ending)?;
        ((1..=NAME_CHARS).contains(&stem.len()) && stem.bytes().all(plain)).then_some(*media)
    })
}

/// Its path at the public door.
pub fn path(name: &str) -> String {
    format!("{PREFIX}{name}")
}

/// Where pictures come from.
#[derive(Debug, Clone)]
pub struct Pictures {
    /// Says which the catalogue in force has.
    pub service: Arc<Service>,
    /// The data folder; none where nothing is kept.
    pub data: Option<PathBuf>,
}

pub(super) fn router(pictures: Pictures) -> Router {
    Router::new().route("/pictures/{file}", get(picture)).with_state(pictures)
}

async fn picture(
    State(pictures): State<Pictures>,
    name: Result<Path<String>, PathRejection>,
    request: Request,
) -> Result<Response, Refusal> {
    let nothing =
        || Failure::new(Kind::NotFound, "there is no such picture: the catalogue says which there are");
    let name = name.map(|Path(name)| name).map_err(|_| nothing())?;
    let media = media(&name).ok_or_else(nothing)?;
    let shop = pictures.service.catalogue().shop.clone();
    let is_named = |file: &str| file == name;
    let mut files = shop.fabrics.iter().filter_map(|fabric| Some(fabric.picture.as_ref()?.file.as_str()));
    let folder = pictures.data.as_ref().filter(|_| files.any(is_named)).ok_or_else(nothing)?.join(FOLDER);
    let file = folder.join(&name);
    let read = tokio::task::spawn_blocking(move || read(&file)).await;
    match read.map_err(|fault| Failure::internal(&fault.to_string()))? {
        Ok((tag, bytes)) => kept(request.headers(), tag, || Ok(super::body(bytes, media))),
        Err(fault) => {
            // the owner's to mend; the form draws the cloth instead
            tracing::warn!(%fault, file = name, "a picture that the catalogue names cannot be shown");
            Err(nothing().into())
        }
    }
}

/// A file and a tag that changes with it.
fn read(file: &std::path::Path) -> io::Result<(HeaderValue, Bytes)> {
    let about = std::fs::metadata(file)?;
    if !about.is_file() || about.len() > MOST_BYTES {
        return Err(io::Error::other(format!("it is no file of at most {MOST_BYTES} bytes")));
    }
    let changed = about.modified()?.duration_since(UNIX_EPOCH).map_or(0, |since| since.as_millis());
    let tag =
        HeaderValue::try_from(format!("W/\"{:x}-{changed:x}\"", about.len())).map_err(io::Error::other)?;
    Ok((tag, Bytes::from(std::fs::read(file)?)))
}
