//! A failure in the words of HTTP: `application/problem+json` (RFC 9457).

use axum::body::Body;
use axum::response::{IntoResponse, Response};
use http::{HeaderValue, StatusCode, header};
use pennantry_contract::reasons::Kind;
use pennantry_contract::v1;
use serde::{Deserialize, Serialize};

use crate::failure::Failure;
use crate::json;

/// The kind of body that a problem is.
pub const MEDIA: &str = "application/problem+json";

/// The body of a problem.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "camelCase")]
pub struct Problem {
    /// `urn:pennantry:problem:` and the reason; it is a name, there is nothing to fetch.
    #[serde(rename = "type")]
    pub kind: String,
    /// The failure in a few words, the same every time.
    pub title: String,
    /// The HTTP status.
    pub status: u16,
    /// What happened this time, for people.
    pub detail: String,
    /// Reason in capitals, from the error table.
    pub reason: String,
    /// Every violation, in the order of the fields.
    pub violations: Vec<v1::FieldViolation>,
    /// The id under which the log knows the request.
    pub request_id: String,
}

impl Problem {
    /// The problem that a failure is.
    pub fn new(failure: Failure, request_id: &str) -> Problem {
        let Failure { kind, detail, violations } = failure;
        Problem {
            kind: format!("urn:pennantry:problem:{}", kind.as_str()),
            title: kind.title().to_owned(),
            status: kind.http_status(),
            detail,
            reason: kind.as_str().to_owned(),
            violations,
            request_id: request_id.to_owned(),
        }
    }
}

/// A failure on its way out of a handler. The [`stack`](super::stack()) writes the body,
/// because the request's id is known there.
#[derive(Debug)]
pub struct Refusal(Failure);

impl From<Failure> for Refusal {
    fn from(failure: Failure) -> Refusal {
        Refusal(failure)
    }
}

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        let mut response = Response::new(Body::empty());
        *response.status_mut() = status(&self.0);
        response.extensions_mut().insert(self.0);
        response
    }
}

fn status(failure: &Failure) -> StatusCode {
    StatusCode::from_u16(failure.kind.http_status()).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR)
}

/// Seconds after which the same request may have another answer, where that is likely
/// (choices of this program, no source).
fn again_after(kind: Kind) -> Option<&'static str> {
    match kind {
        Kind::Aborted => Some("1"),
        Kind::Unavailable => Some("5"),
        Kind::ResourceExhausted => Some("10"),
        _ => None,
    }
}

/// Writes the failure that a response carries, if it does, into its body.
pub fn render(response: &mut Response, request_id: &HeaderValue) {
    let Some(failure) = response.extensions_mut().remove::<Failure>() else { return };
    let kind = failure.kind;
    let problem = Problem::new(failure, request_id.to_str().unwrap_or_default());
    // Strings and a number can always be written.
    *response.body_mut() = Body::from(json::write(&problem).unwrap_or_default());
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(MEDIA));
    headers.remove(header::CONTENT_LENGTH);
    if let Some(seconds) = again_after(kind) {
        headers.insert(header::RETRY_AFTER, HeaderValue::from_static(seconds));
    }
    if kind == Kind::Unauthenticated {
        // RFC 9110 section 11.6.1: a 401 names at least one way of saying who one is.
        headers.insert(header::WWW_AUTHENTICATE, HeaderValue::from_static("Bearer realm=\"pennantry\""));
    }
}
