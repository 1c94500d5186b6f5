//! What happens to the stock, told as it happens: each event once and in order, from the
//! place after the one that is named.
//!
//! Over gRPC it is a stream; as JSON, `text/event-stream` (HTML Living Standard, section
//! 9.2) on GET at the path of the call. There, every event has its place as its id, and a
//! reader who comes back with `Last-Event-ID` (or `?after=`) misses nothing:
//!
//! ```text
//! retry: 2000
//! id: 16
//!
//! id: 17
//! data: {"event":{"place":"17","kind":"received", ...}}
//!
//! : nothing new
//!
//! ```
//!
//! A reader is served from the store by a task of its own, which keeps a handful of events
//! at most. A slow one therefore holds up nobody: it is told later.

use std::collections::BTreeMap;
use std::pin::pin;
use std::time::{Duration, Instant};

use axum::body::{Body, Bytes};
use axum::extract::{Request, State};
use axum::response::Response;
use http::{HeaderMap, HeaderName, HeaderValue, header};
use pennantry_contract::reasons::{Kind, ViolationReason};
use pennantry_contract::v1;
use pennantry_ledger::rules::{Class, PieceId};
use pennantry_ledger::{Error, Ledger, Placed};
use tokio::sync::mpsc::{Receiver, Sender, channel};
use tokio_stream::StreamExt;
use tokio_stream::wrappers::ReceiverStream;

use super::{Calls, Refusal};
use crate::convert::events;
use crate::failure::{Failure, violation};
use crate::json;
use crate::listen::Stop;
use crate::metrics::{Metrics, Watching};
use crate::service::Service;

/// The header with which a reader comes back.
pub const LAST_EVENT_ID: HeaderName = HeaderName::from_static("last-event-id");
/// The kind of body.
pub(super) const MEDIA: &str = "text/event-stream";
/// What a reader waits before it comes back. Unit ms.
const RETRY_MS: u32 = 2_000;
/// Events read from the store at once.
const PAGE: u32 = 128;
/// Events kept for a reader that has not taken them yet.
const AHEAD: usize = 16;
/// Pieces whose class is remembered.
const CLASSES: usize = 4_096;

/// What a reader is told.
#[derive(Debug)]
pub enum Sign {
    /// An event.
    Event(Box<v1::StockEvent>),
    /// That nothing has happened for a while.
    Nothing,
}

/// How long and with what a watch goes on.
#[derive(Debug, Clone)]
pub struct Terms {
    /// Between two signs.
    pub beat: Duration,
    /// Until when, where the reader said so.
    pub until: Option<Instant>,
    /// The signal to stop.
    pub stop: Stop,
}

/// A watch: the place from which it goes on, and what is told. It ends at the stop, and
/// with a failure where the store cannot be had any longer.
#[derive(Debug)]
pub struct Watch {
    /// The place after which events are told.
    pub after: i64,
    /// What is told.
    pub signs: Receiver<Result<Sign, Failure>>,
}

/// Begins a watch after a place, or from now on.
///
/// # Errors
/// There is no such place, or no stock.
pub async fn begin(
    service: &Service,
    metrics: &Metrics,
    after: Option<i64>,
    terms: Terms,
) -> Result<Watch, Failure> {
    let ledger = service.stock()?.ledger.clone();
    if terms.stop.has_begun() {
        return Err(Failure::new(
            Kind::Unavailable,
            "this server is stopping: watch at another, or in a moment",
        ));
    }
    let last = ledger.last_place().await.map_err(unavailable)?;
    let after = after.unwrap_or(last);
    if !(0..=last).contains(&after) {
        let message = format!(
            "{after}: no event has that place, the last one is at {last}: read the stock anew and watch \
             without a place, or from 0 for all there is"
        );
        return Err(Failure::refused(vec![violation("after", ViolationReason::OutOfRange, message)]));
    }
    let (send, signs) = channel(AHEAD);
    let teller =
        Teller { ledger, after, terms, send, classes: BTreeMap::new(), _watching: metrics.watching() };
    tokio::spawn(teller.run());
    Ok(Watch { after, signs })
}

/// Why the store cannot be had: the cause is for the log.
fn unavailable(error: Error) -> Failure {
    match error {
        Error::Fault(cause) => Failure::internal(&cause),
        other => {
            tracing::warn!(cause = %other, "the stock cannot be watched");
            Failure::new(
                Kind::Unavailable,
                "the stock cannot be had now: go on in a moment from the last place that you were told",
            )
        }
    }
}

struct Teller {
    ledger: Ledger,
    after: i64,
    terms: Terms,
    send: Sender<Result<Sign, Failure>>,
    classes: BTreeMap<PieceId, Class>,
    _watching: Watching,
}

impl Teller {
    async fn run(mut self) {
        let (send, stop) = (self.send.clone(), self.terms.stop.clone());
        let until = self.terms.until;
        let over = async move {
            match until {
                Some(until) => tokio::time::sleep_until(until.into()).await,
                None => std::future::pending().await,
            }
        };
        let (mut over, mut telling) = (pin!(over), pin!(self.tell()));
        let end = tokio::select! {
            biased;
            () = stop.begun() => None,
            () = send.closed() => None,
            () = over.as_mut() => Some(Failure::new(
                Kind::DeadlineExceeded,
                "the time that was given is over: go on from the last place that you were told",
            )),
            failure = telling.as_mut() => failure,
        };
        if let Some(failure) = end {
            // Whoever has not read what was before does not get this either.
            let _ = send.try_send(Err(failure));
        }
    }

    /// Tells until it fails, or nobody listens.
    async fn tell(&mut self) -> Option<Failure> {
        loop {
            let mut page = self.ledger.events(self.after, PAGE).await;
            if page.as_ref().is_ok_and(Vec::is_empty) {
                self.ledger.wait_for_events(self.after, self.terms.beat).await;
                page = self.ledger.events(self.after, PAGE).await;
            }
            let page = match page {
                Ok(page) => page,
                Err(error) => return Some(unavailable(error)),
            };
            if page.is_empty() {
                self.send.send(Ok(Sign::Nothing)).await.ok()?;
            }
            for placed in page {
                let class = match self.class(&placed).await {
                    Ok(class) => class,
                    Err(error) => return Some(unavailable(error)),
                };
                let event = Box::new(events::event(&placed, class));
                self.send.send(Ok(Sign::Event(event))).await.ok()?;
                self.after = placed.place;
            }
        }
    }

    /// What kind of material an event is about. A piece is of the same for ever.
    async fn class(&mut self, placed: &Placed) -> Result<Option<Class>, Error> {
        let Some(id) = &placed.event.piece else { return Ok(None) };
        if let Some(class) = self.classes.get(id) {
            return Ok(Some(*class));
        }
        let class = self.ledger.piece(id).await?.map(|piece| piece.material.class);
        if let Some(class) = class {
            if self.classes.len() == CLASSES {
                self.classes.clear();
            }
            self.classes.insert(id.clone(), class);
        }
        Ok(class)
    }
}

/// The call as `text/event-stream`.
pub async fn stream(State(calls): State<Calls>, request: Request) -> Result<Response, Refusal> {
    accepts(request.headers())?;
    let after = place(request.headers(), request.uri().query())?;
    let terms = Terms { beat: calls.limits.beat, until: None, stop: calls.stop.clone() };
    let Watch { after, signs } = begin(&calls.service, &calls.metrics, after, terms).await?;
    let beginning = Bytes::from(format!("retry: {RETRY_MS}\nid: {after}\n\n"));
    let told = tokio_stream::once(Ok(beginning))
        .chain(ReceiverStream::new(signs).map(|sign| sign.and_then(written)));
    let mut response = Response::new(Body::from_stream(told.map_while(goes_on)));
    response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(MEDIA));
    Ok(response)
}

/// A failure ends the body: the reader comes back, and is told by then what is the matter.
fn goes_on(told: Result<Bytes, Failure>) -> Option<Result<Bytes, std::convert::Infallible>> {
    told.ok().map(Ok)
}

fn written(sign: Sign) -> Result<Bytes, Failure> {
    let event = match sign {
        Sign::Nothing => return Ok(Bytes::from_static(b": nothing new\n\n")),
        Sign::Event(event) => event,
    };
    let place = event.place;
    let message = v1::WatchStockResponse { event: Some(*event) };
    let mut bytes = format!("id: {place}\ndata: ").into_bytes();
    // one line, whatever is in it: JSON has no line ends inside its texts
    bytes.extend(json::write(&message).map_err(|fault| Failure::internal(&fault.to_string()))?);
    bytes.extend(b"\n\n");
    Ok(bytes.into())
}

pub(super) fn accepts(headers: &HeaderMap) -> Result<(), Failure> {
    let mut given = headers.get_all(header::ACCEPT).iter().filter_map(|list| list.to_str().ok()).peekable();
    let fits = |media: &str| {
        let media = media.split(';').next().unwrap_or_default().trim();
        ["*/*", "text/*", MEDIA].into_iter().any(|known| media.eq_ignore_ascii_case(known))
    };
    if given.peek().is_none() || given.flat_map(|list| list.split(',')).any(fits) {
        return Ok(());
    }
    Err(Failure::new(Kind::NotAcceptable, format!("what happens is told as {MEDIA}: accept that")))
}

/// The place after which events are wanted. A reader that comes back asks the same address
/// again, so what it says of itself counts before what stands there.
fn place(headers: &HeaderMap, query: Option<&str>) -> Result<Option<i64>, Failure> {
    let refused = |name: &str, given: &str| {
        let given: String = given.chars().take(40).collect();
        let message =
            format!("{given:?} is no place: give the whole number of the last event that you know, or 0");
        Failure::refused(vec![violation(name, ViolationReason::WrongType, message)])
    };
    if let Some(last) = headers.get(LAST_EVENT_ID) {
        let last = String::from_utf8_lossy(last.as_bytes());
        return last.trim().parse().map(Some).map_err(|_| refused("Last-Event-ID", &last));
    }
    let mut pairs =
        query.unwrap_or_default().split('&').map(|pair| pair.split_once('=').unwrap_or((pair, "")));
    let after = pairs.find_map(|(name, value)| (name == "after").then_some(value));
    after.map(|after| after.parse().map_err(|_| refused("after", after))).transpose()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_read_from_the_header_before_the_address() {
        let mut headers = HeaderMap::new();
        assert_eq!(place(&headers, None), Ok(None));
        assert_eq!(place(&headers, Some("x=1&after=17")), Ok(Some(17)));
        for wrong in ["after", "after=", "after=x", "after=1.5", "after=%31", "after=99999999999999999999"] {
            let failure = place(&headers, Some(wrong)).unwrap_err();
            assert_eq!(failure.violations[0].field, "after", "{wrong}");
        }
        headers.insert(LAST_EVENT_ID, "21".parse().unwrap());
        assert_eq!(place(&headers, Some("after=17")), Ok(Some(21)));
        headers.insert(LAST_EVENT_ID, "abc".parse().unwrap());
        assert_eq!(place(&headers, Some("after=17")).unwrap_err().violations[0].field, "Last-Event-ID");
    }

    #[test]
    fn whoever_accepts_something_else_only_is_told() {
        let with = |accept: &str| {
            let mut headers = HeaderMap::new();
            headers.insert(header::ACCEPT, accept.parse().unwrap());
            accepts(&headers).map_err(|failure| failure.kind)
        };
        assert_eq!(accepts(&HeaderMap::new()), Ok(()));
        for fits in ["*/*", "text/event-stream", "application/json, text/*;q=0.1", "Text/Event-Stream"] {
            assert_eq!(with(fits), Ok(()), "{fits}");
        }
        for wrong in ["application/json", "text/html", ""] {
            assert_eq!(with(wrong), Err(Kind::NotAcceptable), "{wrong}");
        }
    }
}
