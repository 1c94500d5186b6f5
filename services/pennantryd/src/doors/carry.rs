//! Carrying a call of the stock out: inside its caller's time, and counted.

use std::future::Future;
use std::time::{Duration, Instant};

use pennantry_contract::reasons::Kind;
use pennantry_contract::v1;
use tokio::time::{sleep, timeout_at};

use crate::failure::Failure;
use crate::metrics::Metrics;
use crate::service::Caller;

/// Before a request that is being carried out elsewhere is tried again.
const AGAIN: Duration = Duration::from_millis(50);
const AGAIN_MOST: Duration = Duration::from_millis(800);

/// An answer of the stock.
pub trait Told {
    /// Whether the call changes something.
    const CHANGES: bool;

    /// Whether it had been done before, and this is the first answer.
    fn replayed(&self) -> bool;
}

macro_rules! told {
    ($($reads:ident)+; $($direct:ident)+; $($inside:ident)+) => {
        $(impl Told for v1::$reads {
            const CHANGES: bool = false;
            fn replayed(&self) -> bool {
                false
            }
        })+
        $(impl Told for v1::$direct {
            const CHANGES: bool = true;
            fn replayed(&self) -> bool {
                self.replayed
            }
        })+
        $(impl Told for v1::$inside {
            const CHANGES: bool = true;
            fn replayed(&self) -> bool {
                self.reservation.as_ref().is_some_and(|reservation| reservation.replayed)
            }
        })+
    };
}

told! {
    CheckDeliveryResponse ListStockResponse GetPieceResponse ListOrdersResponse GetReservationResponse ListReservationsResponse
        GetBurnReportResponse ListBurnReportsResponse CancelBurnReportResponse;
    ReceiveStockResponse AdjustStockResponse RecordCutResponse UndoCutResponse PlaceOrderResponse
        CancelOrderResponse;
    CreateReservationResponse ExtendReservationResponse ConfirmReservationResponse
        ReleaseReservationResponse CancelReservationResponse AmendReservationResponse
}

/// Carries a call out while its caller waits. What was begun goes on when they no longer do.
///
/// # Errors
/// Those of the call, and `DEADLINE_EXCEEDED`.
pub async fn out<T: Told>(
    metrics: &Metrics,
    name: &'static str,
    caller: &Caller,
    call: impl Future<Output = Result<T, Failure>>,
) -> Result<T, Failure> {
    let told = match caller.deadline {
        Some(deadline) => {
            timeout_at(deadline.into(), call).await.unwrap_or_else(|_| Err(too_slow(T::CHANGES)))
        }
        None => call.await,
    };
    if T::CHANGES {
        metrics.commanded(name, outcome(&told));
    }
    told
}

/// Carries a request out that has an id: while the same one is being carried out elsewhere,
/// it waits and asks again.
///
/// # Errors
/// Those of the call; `ABORTED` where it is still being carried out when the time is over.
pub async fn out_once<T, F>(
    metrics: &Metrics,
    name: &'static str,
    caller: &Caller,
    call: impl Fn() -> F,
) -> Result<T, Failure>
where
    T: Told,
    F: Future<Output = Result<T, Failure>>,
{
    let mut pause = AGAIN;
    let mut running = None;
    loop {
        let told = out(metrics, name, caller, call()).await;
        let in_time = caller.deadline.is_none_or(|deadline| Instant::now() + pause < deadline);
        match (told, running) {
            (Err(failure), _) if failure.kind == Kind::Aborted && in_time => {
                running = Some(failure);
                sleep(pause).await;
            }
            // the last try had no time for anything, which says nothing new
            (Err(failure), Some(before)) if failure.kind == Kind::DeadlineExceeded => return Err(before),
            (told, _) => return told,
        }
        pause = (pause * 2).min(AGAIN_MOST);
    }
}

fn outcome<T: Told>(told: &Result<T, Failure>) -> &'static str {
    match told {
        Ok(told) if told.replayed() => "REPLAYED",
        Ok(_) => "DONE",
        Err(failure) => failure.kind.as_str(),
    }
}

fn too_slow(changes: bool) -> Failure {
    let detail = if changes {
        "the time that was given is over, and whether it was done is not known: sent again with the same \
         request id it is done once at most; a request without one has to be looked for on the shelf first"
    } else {
        "the time that was given is over: send it again and wait longer"
    };
    Failure::new(Kind::DeadlineExceeded, detail)
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;
    use std::sync::atomic::{AtomicU32, Ordering};

    use super::*;
    use crate::catalogue::{SALTMERE_LOFT, open};
    use crate::clock::Clock;
    use crate::service::{Door, Service};
    use crate::ticket::Keys;

    fn metrics() -> Metrics {
        let catalogue = open(SALTMERE_LOFT).unwrap().into();
        Metrics::new(Arc::new(Service::new(catalogue, Clock::System, Keys::fresh().unwrap())))
    }

    fn caller(patience: Duration) -> Caller {
        let deadline = Some(Instant::now() + patience);
        Caller { door: Door::Private, actor: "bench".to_owned(), address: None, deadline }
    }

    fn line(outcome: &str, count: u32) -> String {
        format!("pennantry_stock_commands_total{{call=\"UndoCut\",outcome=\"{outcome}\"}} {count}\n")
    }

    #[tokio::test]
    async fn who_has_no_more_time_is_told_and_counted() {
        let metrics = metrics();
        let caller = caller(Duration::from_millis(20));
        let told: Result<v1::UndoCutResponse, _> =
            out(&metrics, "UndoCut", &caller, std::future::pending()).await;
        let failure = told.unwrap_err();
        assert_eq!(failure.kind, Kind::DeadlineExceeded);
        assert!(failure.detail.contains("same request id"), "{}", failure.detail);
        let told: Result<v1::ListStockResponse, _> =
            out(&metrics, "ListStock", &caller, std::future::pending()).await;
        assert!(!told.unwrap_err().detail.contains("request id"), "nothing was to be done");
        let text = metrics.text().unwrap();
        assert!(text.contains(&line("DEADLINE_EXCEEDED", 1)) && !text.contains("ListStock"), "{text}");
    }

    #[tokio::test]
    async fn a_request_with_an_id_waits_for_itself() {
        let metrics = metrics();
        let tries = AtomicU32::new(0);
        let call = async || match tries.fetch_add(1, Ordering::Relaxed) {
            0..3 => Err(Failure::new(Kind::Aborted, "the same request is being carried out")),
            _ => Ok(v1::UndoCutResponse { replayed: true, ..Default::default() }),
        };
        let told = out_once(&metrics, "UndoCut", &caller(Duration::from_secs(20)), call).await;
        assert!(told.unwrap().replayed);
        let text = metrics.text().unwrap();
        assert!(text.contains(&line("REPLAYED", 1)) && text.contains(&line("ABORTED", 3)), "{text}");
        let never = async || Err::<v1::UndoCutResponse, _>(Failure::new(Kind::Aborted, "still"));
        let told = out_once(&metrics, "UndoCut", &caller(Duration::from_millis(120)), never).await;
        assert_eq!(told.unwrap_err().kind, Kind::Aborted);
    }

    /// A last try that has no time left does not hide that the request is being carried out.
    #[tokio::test]
    async fn what_is_running_is_said_to_be_where_the_time_ends() {
        let metrics = metrics();
        let tries = AtomicU32::new(0);
        let call = async || match tries.fetch_add(1, Ordering::Relaxed) {
            0 => Err::<v1::UndoCutResponse, _>(Failure::new(Kind::Aborted, "still")),
            _ => std::future::pending().await,
        };
        let told = out_once(&metrics, "UndoCut", &caller(Duration::from_millis(200)), call).await;
        assert_eq!(told.unwrap_err().kind, Kind::Aborted);
        assert_eq!(tries.load(Ordering::Relaxed), 2);
    }
}
