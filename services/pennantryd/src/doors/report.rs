//! The nightly report at the private door: its pages, and a run as `text/event-stream`.
//!
//! | address | what |
//! |---|---|
//! | `/report` | the latest page |
//! | `/report?date=2026-11-30` | the page of a morning |
//! | `&as=csv`, `json`, `text` | the same as a table, as JSON, as short text |
//! | `&as=proposals` | what it proposes to order, by supplier; `&supplier=` for one |
//!
//! A run is `GET` at the path of its call, with
//! `?date=` and `?fresh=true`; a reader that comes back (it sends `Last-Event-ID`) goes on
//! listening: it makes none anew, whatever became of it, and begins none that is not there.
//! `HEAD` begins nothing, nor does a page of another site.

use std::sync::LazyLock;

use axum::Router;
use axum::body::{Body, Bytes};
use axum::extract::{Request, State};
use axum::response::Response;
use axum::routing::get;
use base64::prelude::{BASE64_STANDARD, Engine as _};
use http::{HeaderValue, Method, StatusCode, header};
use pennantry_contract::reasons::{Kind, ViolationReason};
use pennantry_contract::v1;
use sha2::{Digest, Sha256};
use tokio_stream::StreamExt;
use tokio_stream::wrappers::ReceiverStream;

use super::watch::{self, LAST_EVENT_ID};
use super::{Calls, Refusal, answer, origin, part};
use crate::failure::{Failure, violation};
use crate::json;
use crate::report::{CsvError, STYLE, csv, nothing, page, proposals_csv, text};
use crate::service::reports::optional;

const HTML: &str = "text/html; charset=utf-8";
const CSV: &str = "text/csv; charset=utf-8; header=present";
const TEXT: &str = "text/plain; charset=utf-8";
/// A page runs no script and asks for nothing: its one style is known by its digest (Content
/// Security Policy Level 3, section 6.7.2.11).
static POLICY: LazyLock<String> = LazyLock::new(|| {
    let digest = BASE64_STANDARD.encode(Sha256::digest(STYLE.as_bytes()));
    format!(
        "default-src 'none'; style-src 'sha256-{digest}'; img-src data:; base-uri 'none'; form-action 'none'; \
         frame-ancestors 'none'"
    )
});
/// Mornings that a page leads to.
const OTHERS: u32 = 14;

/// The pages.
pub fn router(calls: Calls) -> Router {
    Router::new().route("/report", get(report)).with_state(calls)
}

async fn report(State(calls): State<Calls>, request: Request) -> Result<Response, Refusal> {
    let date = query(&request, "date")?.unwrap_or_default();
    let wanted = query(&request, "as")?;
    let caller = calls.caller(&request);
    let asked = v1::GetBurnReportRequest { date, ..v1::GetBurnReportRequest::default() };
    let found = calls.service.get_burn_report(&caller, &asked).await;
    let found = found.and_then(|found| part(found.report));
    let cannot = |fault: CsvError| Failure::internal(&fault.to_string());
    match wanted.as_deref().unwrap_or("page") {
        "page" | "" => match found {
            Ok(report) => {
                let asked = v1::ListBurnReportsRequest { page_size: OTHERS, ..Default::default() };
                let others = calls.service.list_burn_reports(&caller, &asked).await?.reports;
                Ok(file(page(&report, &others), HTML, None))
            }
            // somebody reads this, not a program
            Err(failure) if matches!(failure.kind, Kind::NotFound | Kind::FailedPrecondition) => {
                let mut response = file(nothing(&failure.detail), HTML, None);
                *response.status_mut() = StatusCode::NOT_FOUND;
                Ok(response)
            }
            Err(failure) => Err(failure.into()),
        },
        "csv" => {
            let report = found?;
            let name = format!("burn-report-{}.csv", report.date);
            Ok(file(csv(&report).map_err(cannot)?, CSV, Some(name)))
        }
        "proposals" => {
            let report = found?;
            let supplier = query(&request, "supplier")?;
            let name = format!("proposals-{}.csv", report.date);
            Ok(file(proposals_csv(&report, supplier.as_deref()).map_err(cannot)?, CSV, Some(name)))
        }
        "json" => answer(&found?),
        "text" => Ok(file(text(&found?), TEXT, None)),
        other => {
            let other: String = other.chars().take(40).collect();
            let message = format!(
                "{other:?} is not known: give csv, json, proposals or text, or leave it out for the page"
            );
            let mut violations = found.err().map(|failure| failure.violations).unwrap_or_default();
            violations.push(violation("as", ViolationReason::UnknownCode, message));
            Err(Failure::refused(violations).into())
        }
    }
}

fn file(text: String, media: &'static str, name: Option<String>) -> Response {
    let mut response = Response::new(Body::from(text));
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(media));
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-store"));
    headers.insert(header::X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    if media == HTML
        && let Ok(policy) = HeaderValue::try_from(POLICY.as_str())
    {
        headers.insert(header::CONTENT_SECURITY_POLICY, policy);
    }
    let name = name.and_then(|name| HeaderValue::try_from(format!("attachment; filename=\"{name}\"")).ok());
    if let Some(name) = name {
        headers.insert(header::CONTENT_DISPOSITION, name);
    }
    response
}

/// A value of the address, its escapes undone.
fn query(request: &Request, wanted: &str) -> Result<Option<String>, Failure> {
    let pairs = request.uri().query().unwrap_or_default().split('&');
    let value = pairs.filter_map(|pair| pair.split_once('=')).find(|(name, _)| *name == wanted);
    let Some((_, value)) = value else { return Ok(None) };
    let mut bytes = Vec::with_capacity(value.len());
    let mut rest = value.bytes();
    while let Some(byte) = rest.next() {
        bytes.push(match byte {
            b'+' => b' ',
            b'%' => {
                let pair = [rest.next().unwrap_or(b'%'), rest.next().unwrap_or(b'%')];
                // a number of Rust may have a sign
                let digits =
                    std::str::from_utf8(&pair).ok().filter(|_| pair.iter().all(u8::is_ascii_hexdigit));
                digits
                    .and_then(|digits| u8::from_str_radix(digits, 16).ok())
                    .ok_or_else(|| unreadable(wanted))?
            }
            other => other,
        });
    }
    String::from_utf8(bytes).map(Some).map_err(|_| unreadable(wanted))
}

fn unreadable(field: &str) -> Failure {
    let message = "its escapes cannot be read: write it in UTF-8, percent-encoded".to_owned();
    Failure::refused(vec![violation(field, ViolationReason::WrongType, message)])
}

/// A run as `text/event-stream`.
pub async fn stream(State(calls): State<Calls>, request: Request) -> Result<Response, Refusal> {
    watch::accepts(request.headers())?;
    origin::begins(request.headers())?;
    if request.method() == Method::HEAD {
        return Ok(events(Body::empty()));
    }
    let date = query(&request, "date")?.unwrap_or_default();
    let fresh = match query(&request, "fresh")?.as_deref() {
        None | Some("" | "false") => false,
        Some("true") => true,
        Some(other) => {
            let other: String = other.chars().take(40).collect();
            let message = format!("{other:?} is neither true nor false: give one of them, or leave it out");
            let mut violations =
                optional("date", &date).err().map(|found| found.violations).unwrap_or_default();
            violations.push(violation("fresh", ViolationReason::WrongType, message));
            return Err(Failure::refused(violations).into());
        }
    };
    let caller = calls.caller(&request);
    let signs = if request.headers().contains_key(LAST_EVENT_ID) {
        calls.service.follow_burn_report(&caller, &date, &calls.stop).await?
    } else {
        let asked = v1::RunBurnReportRequest { date, fresh };
        calls.service.run_burn_report(&caller, &asked, &calls.stop).await?
    };
    let mut place = 0_u64;
    let told = ReceiverStream::new(signs).map(move |sign| {
        place += 1;
        sign.and_then(|sign| {
            let mut bytes = format!("id: {place}\ndata: ").into_bytes();
            bytes.extend(json::write(&sign).map_err(|fault| Failure::internal(&fault.to_string()))?);
            bytes.extend(b"\n\n");
            Ok(Bytes::from(bytes))
        })
    });
    let told = told.map_while(|told| told.ok().map(Ok::<_, std::convert::Infallible>));
    Ok(events(Body::from_stream(told)))
}

fn events(body: Body) -> Response {
    let mut response = Response::new(body);
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(watch::MEDIA));
    response
}
