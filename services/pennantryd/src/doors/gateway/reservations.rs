//! Reservations at the public door.

use axum::extract::rejection::PathRejection;
use axum::extract::{Path, Request, State};
use axum::response::Response;
use http::HeaderValue;
use pennantry_contract::reasons::Kind;
use pennantry_contract::{table, v1};

use crate::doors::buyer::Seen;
use crate::doors::carry::{self, Told};
use crate::doors::{Calls, Refusal, answer, key, part};
use crate::failure::Failure;

/// Characters of a reservation's name at most.
const NAME_CHARS: usize = 80;

type Named = Result<Path<String>, PathRejection>;

/// The name in a path. What cannot be one is nobody's.
fn named(path: Named) -> Result<String, Failure> {
    let is_name = |name: &str| {
        let plain = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit();
        (1..=NAME_CHARS).contains(&name.len()) && name.bytes().all(plain)
    };
    path.ok()
        .map(|Path(name)| name)
        .filter(|name| is_name(name))
        .ok_or_else(|| Failure::new(Kind::NotFound, "there is no such reservation: look at its name again"))
}

/// A reservation as a buyer sees it.
fn seen(reservation: Option<v1::Reservation>) -> Result<Response, Refusal> {
    let reservation = part(reservation)?;
    let whole = serde_json::to_value(&reservation).map_err(|fault| Failure::internal(&fault.to_string()))?;
    answer(&Seen::new(&table::RESERVATION, &whole))
}

/// The same, and whether it is the answer to a request that had been carried out before.
pub(in crate::doors) fn marked<T: Told>(told: &T, mut response: Response) -> Response {
    if told.replayed() {
        response.headers_mut().insert(key::REPLAYED, HeaderValue::from_static("true"));
    }
    response
}

pub(super) async fn create(State(calls): State<Calls>, request: Request) -> Result<Response, Refusal> {
    const NAME: &str = "CreateReservation";
    let caller = calls.caller(&request);
    let key = key::needed(request.headers());
    let hold = calls.read(&table::HOLD, None, request).await?;
    let request_id = key?;
    let _turn = calls.running.turn(NAME, &request_id, &caller).await?;
    let asked = v1::CreateReservationRequest { request_id, hold: Some(hold) };
    let call = || calls.service.create_reservation(&caller, &asked);
    let told = Box::pin(carry::out_once(&calls.metrics, NAME, &caller, call)).await?;
    Ok(marked(&told, seen(told.reservation.clone())?))
}

pub(super) async fn get(
    State(calls): State<Calls>,
    path: Named,
    request: Request,
) -> Result<Response, Refusal> {
    let caller = calls.caller(&request);
    let asked = v1::GetReservationRequest { reservation_id: named(path)? };
    let call = calls.service.get_reservation(&caller, &asked);
    seen(carry::out(&calls.metrics, "GetReservation", &caller, call).await?.reservation)
}

pub(super) async fn extend(
    State(calls): State<Calls>,
    path: Named,
    request: Request,
) -> Result<Response, Refusal> {
    const NAME: &str = "ExtendReservation";
    let caller = calls.caller(&request);
    let key = key::needed(request.headers());
    let reservation_id = named(path)?;
    let extension = calls.read(&table::EXTENSION, None, request).await?;
    let request_id = key?;
    let _turn = calls.running.turn(NAME, &request_id, &caller).await?;
    let asked = v1::ExtendReservationRequest { reservation_id, request_id, extension: Some(extension) };
    let call = || calls.service.extend_reservation(&caller, &asked);
    let told = Box::pin(carry::out_once(&calls.metrics, NAME, &caller, call)).await?;
    Ok(marked(&told, seen(told.reservation.clone())?))
}

/// Confirming is for whoever has taken the money, so it needs to be known who asks. Until
/// storefronts have keys, this door cannot tell.
pub(super) async fn confirm(
    State(calls): State<Calls>,
    path: Named,
    request: Request,
) -> Result<Response, Refusal> {
    let key = key::needed(request.headers());
    named(path)?;
    let _: v1::Confirmation = calls.read(&table::CONFIRMATION, None, request).await?;
    key?;
    let detail = "a reservation is confirmed by the shop itself, and this door does not know who asks: \
                  confirm it at the private door (ConfirmReservation)";
    Err(Failure::new(Kind::Unauthenticated, detail).into())
}

pub(super) async fn release(
    State(calls): State<Calls>,
    path: Named,
    request: Request,
) -> Result<Response, Refusal> {
    const NAME: &str = "ReleaseReservation";
    let caller = calls.caller(&request);
    let request_id = key::given(request.headers())?.unwrap_or_default();
    let asked = v1::ReleaseReservationRequest { reservation_id: named(path)?, request_id };
    let _turn = match asked.request_id.as_str() {
        "" => None,
        key => Some(calls.running.turn(NAME, key, &caller).await?),
    };
    let call = || calls.service.release_reservation(&caller, &asked);
    let told = Box::pin(carry::out_once(&calls.metrics, NAME, &caller, call)).await?;
    Ok(marked(&told, seen(told.reservation.clone())?))
}
