//! The nightly report at the private door: its pages, and a run as `text/event-stream`.
//!
//! | address | what |
//! |---|---|
//! | `/report` | the latest page |
//! | `/report/2026-11-30` | the page of a morning |
//! | `/report/2026-11-30.csv`, `.json`, `.txt` | the same as a table, as JSON, as short text |
//! | `/report/2026-11-30/orders.csv` | what it proposes to order, by supplier; `?supplier=` for one |
//!
//! `latest` stands for the day of the latest one. A run is `GET` at the path of its call, with
//! `?date=` and `?fresh=true`; a reader that comes back (it sends `Last-Event-ID`) goes on
//! listening and never makes a report anew.

use axum::Router;
use axum::body::{Body, Bytes};
use axum::extract::{Path, Request, State};
use axum::response::Response;
use axum::routing::get;
use http::{HeaderValue, StatusCode, header};
use pennantry_contract::reasons::{Kind, ViolationReason};
use pennantry_contract::v1;
use tokio_stream::StreamExt;
use tokio_stream::wrappers::ReceiverStream;

use super::watch::{self, LAST_EVENT_ID};
use super::{Calls, Refusal, answer, part};
use crate::failure::{Failure, violation};
use crate::json;
use crate::report::{csv, page, proposals_csv, text};

const HTML: &str = "text/html; charset=utf-8";
const CSV: &str = "text/csv; charset=utf-8; header=present";
const TEXT: &str = "text/plain; charset=utf-8";
/// A page runs no script and asks for nothing.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; \
                      form-action 'none'; frame-ancestors 'none'";
/// Mornings that a page leads to.
const OTHERS: u32 = 14;

/// The pages.
pub fn router(calls: Calls) -> Router {
    Router::new()
        .route("/report", get(latest))
        .route("/report/{which}", get(named))
        .route("/report/{which}/orders.csv", get(orders))
        .with_state(calls)
}

async fn latest(State(calls): State<Calls>, request: Request) -> Result<Response, Refusal> {
    whole_page(&calls, &request, "latest").await
}

async fn named(
    State(calls): State<Calls>,
    Path(which): Path<String>,
    request: Request,
) -> Result<Response, Refusal> {
    let (day, kind) = match which.rsplit_once('.') {
        Some((day, kind)) => (day, Some(kind)),
        None => (which.as_str(), None),
    };
    match kind {
        None => whole_page(&calls, &request, day).await,
        Some("csv") => {
            let report = report(&calls, &request, day).await?;
            let table = csv(&report).map_err(|fault| Failure::internal(&fault.to_string()))?;
            Ok(file(table, CSV, Some(format!("burn-report-{}.csv", report.date))))
        }
        Some("json") => answer(&report(&calls, &request, day).await?),
        Some("txt") => Ok(file(text(&report(&calls, &request, day).await?), TEXT, None)),
        Some(kind) => {
            let kind: String = kind.chars().take(40).collect();
            let detail = format!("a report is not given as {kind:?}: ask for .csv, .json, .txt, or nothing for the page");
            Err(Failure::new(Kind::NotFound, detail).into())
        }
    }
}

async fn orders(
    State(calls): State<Calls>,
    Path(which): Path<String>,
    request: Request,
) -> Result<Response, Refusal> {
    let supplier = query(&request, "supplier")?;
    let report = report(&calls, &request, &which).await?;
    let table = proposals_csv(&report, supplier.as_deref());
    let table = table.map_err(|fault| Failure::internal(&fault.to_string()))?;
    Ok(file(table, CSV, Some(format!("orders-{}.csv", report.date))))
}

async fn report(calls: &Calls, request: &Request, day: &str) -> Result<v1::BurnReport, Failure> {
    let date = if day == "latest" { String::new() } else { day.to_owned() };
    let asked = v1::GetBurnReportRequest { date, ..v1::GetBurnReportRequest::default() };
    part(calls.service.get_burn_report(&calls.caller(request), &asked).await?.report)
}

async fn whole_page(calls: &Calls, request: &Request, day: &str) -> Result<Response, Refusal> {
    let asked = v1::ListBurnReportsRequest { page_size: OTHERS, ..v1::ListBurnReportsRequest::default() };
    let caller = calls.caller(request);
    match report(calls, request, day).await {
        Ok(report) => {
            let others = calls.service.list_burn_reports(&caller, &asked).await?.reports;
            Ok(file(page(&report, &others), HTML, None))
        }
        // somebody reads this, not a program
        Err(failure) if matches!(failure.kind, Kind::NotFound | Kind::FailedPrecondition) => {
            let mut response = file(crate::report::nothing(&failure.detail), HTML, None);
            *response.status_mut() = StatusCode::NOT_FOUND;
            Ok(response)
        }
        Err(failure) => Err(failure.into()),
    }
}

fn file(text: String, media: &'static str, name: Option<String>) -> Response {
    let mut response = Response::new(Body::from(text));
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(media));
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-store"));
    headers.insert(header::X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    if media == HTML {
        headers.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY));
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
                let digits = std::str::from_utf8(&pair).ok();
                digits.and_then(|digits| u8::from_str_radix(digits, 16).ok()).ok_or_else(|| unreadable(wanted))?
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
    let fresh = match query(&request, "fresh")?.as_deref() {
        None | Some("" | "false") => false,
        Some("true") => true,
        Some(_) => {
            let message = "it is neither true nor false".to_owned();
            return Err(Failure::refused(vec![violation("fresh", ViolationReason::WrongType, message)]).into());
        }
    };
    let again = request.headers().contains_key(LAST_EVENT_ID);
    let asked =
        v1::RunBurnReportRequest { date: query(&request, "date")?.unwrap_or_default(), fresh: fresh && !again };
    let signs = calls.service.run_burn_report(&calls.caller(&request), &asked, &calls.stop).await?;
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
    let mut response =
        Response::new(Body::from_stream(told.map_while(|told| told.ok().map(Ok::<_, std::convert::Infallible>))));
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(watch::MEDIA));
    Ok(response)
}
