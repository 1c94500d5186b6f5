//! Reading the body of a request: so many bytes, in so much time.

use std::time::Duration;

use axum::body::{Body, Bytes, HttpBody};
use axum::extract::Request;
use http::{HeaderMap, header};
use http_body_util::BodyExt;
use pennantry_contract::reasons::Kind;
use tokio::time::timeout;

use crate::failure::Failure;
use crate::listen::Limits;

/// What is read beyond the limit, and thrown away, of a body that is too large: a caller who
/// sends first and reads then would otherwise see a broken connection and never the answer.
const DRAIN_BYTES: usize = 1024 * 1024;
const DRAIN_TIME: Duration = Duration::from_secs(1);

/// Refuses a body that does not say that it is plain JSON.
///
/// # Errors
/// `UNSUPPORTED_MEDIA`.
pub fn is_json(headers: &HeaderMap) -> Result<(), Failure> {
    let unsupported = |detail: String| Err(Failure::new(Kind::UnsupportedMedia, detail));
    let Some(given) = headers.get(header::CONTENT_TYPE) else {
        return unsupported("the request has no Content-Type: send application/json".to_owned());
    };
    let media = String::from_utf8_lossy(given.as_bytes());
    if !media.split(';').next().unwrap_or_default().trim().eq_ignore_ascii_case("application/json") {
        let short: String = media.chars().filter(|c| !c.is_control()).take(100).collect();
        return unsupported(format!("Content-Type {short} is not read here: send application/json"));
    }
    match headers.get(header::CONTENT_ENCODING) {
        Some(coding) if !coding.as_bytes().eq_ignore_ascii_case(b"identity") => {
            unsupported("a compressed body is not read here: send it without Content-Encoding".to_owned())
        }
        _ => Ok(()),
    }
}

/// Reads a body.
///
/// # Errors
/// `TOO_LARGE` over the limit, said or not; `DEADLINE_EXCEEDED` when it comes too slowly;
/// `UNREADABLE` when it breaks off.
pub async fn read(request: Request, most: usize, limits: &Limits) -> Result<Bytes, Failure> {
    let waits = request.headers().contains_key(header::EXPECT);
    let mut body = request.into_body();
    let said = usize::try_from(body.size_hint().lower()).unwrap_or(usize::MAX);
    if said > most {
        // A caller who waits to be told to go on has sent nothing that needs to be read.
        if !waits {
            drain(&mut body, most).await;
        }
        return Err(too_large(most));
    }
    let read = timeout(limits.body, collect(&mut body, most)).await.map_err(|_| too_slow(limits.body))??;
    if read.is_none() {
        drain(&mut body, most).await;
    }
    read.ok_or_else(|| too_large(most))
}

/// The bytes of a body, or nothing when there are too many.
async fn collect(body: &mut Body, most: usize) -> Result<Option<Bytes>, Failure> {
    let mut first = Bytes::new();
    let mut all = Vec::new();
    while let Some(frame) = body.frame().await {
        let Ok(data) = frame.map_err(|_| broken())?.into_data() else { continue };
        if first.len().saturating_add(all.len()).saturating_add(data.len()) > most {
            return Ok(None);
        }
        // Most bodies come in one piece, which is then not copied.
        if first.is_empty() && all.is_empty() {
            first = data;
            continue;
        }
        if all.is_empty() {
            all.extend_from_slice(&std::mem::take(&mut first));
        }
        all.extend_from_slice(&data);
    }
    Ok(Some(if all.is_empty() { first } else { all.into() }))
}

async fn drain(body: &mut Body, most: usize) {
    let drained = async {
        let mut count = 0_usize;
        while let Some(Ok(frame)) = body.frame().await {
            count = count.saturating_add(frame.data_ref().map_or(0, Bytes::len));
            if count > most.saturating_add(DRAIN_BYTES) {
                return;
            }
        }
    };
    let _ = timeout(DRAIN_TIME, drained).await;
}

fn too_large(most: usize) -> Failure {
    Failure::new(
        Kind::TooLarge,
        format!("the body has more than {most} bytes, the most that is read: ask for less in one call"),
    )
}

fn too_slow(limit: Duration) -> Failure {
    let seconds = limit.as_secs_f32();
    Failure::new(
        Kind::DeadlineExceeded,
        format!("the body did not arrive within {seconds} s: send it again, faster"),
    )
}

fn broken() -> Failure {
    Failure::new(Kind::Unreadable, "the body broke off before its end: send it again")
}
