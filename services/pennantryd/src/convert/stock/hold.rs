//! Reading what is to be held, extended, called off, amended and listed.

use pennantry_app::stock::Holds;
use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_ledger::rules::State;
use pennantry_measure::bounds::{self, Bound};

use super::super::enquiry::Reader;
use crate::failure::Failure;
use crate::service::Door;

/// What is to be held, but for its ticket.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// Rules acknowledged, each once.
    pub acknowledged: Vec<String>,
    /// For how many seconds.
    pub seconds: u32,
    /// A hold whose place it takes.
    pub supersedes: Option<String>,
    /// Why staff take it all the same; empty where they do not.
    pub over: String,
}

/// Reads a hold, but for its ticket.
///
/// # Errors
/// Every violation.
pub fn hold(door: Door, holds: &Holds, request_id: &str, wire: &v1::Hold) -> Result<Asked, Failure> {
    let mut reader = Reader::default();
    reader.name_if_any("requestId", request_id, "the request's id");
    reader.token(&wire.token);
    let acknowledged = reader.acknowledged(&wire.acknowledged_rule_ids);
    let seconds = reader.seconds(door, holds, wire.seconds);
    let supersedes =
        reader.name_if_any("supersedesId", &wire.supersedes_id, "the hold that it takes the place of");
    let over = reader.over(door, &wire.override_reason);
    let read = seconds.map(|seconds| Asked { acknowledged, seconds, supersedes, over });
    reader.done(read)
}

/// Reads how much more time a hold is to have.
///
/// # Errors
/// Every violation.
pub fn extension(
    door: Door,
    holds: &Holds,
    wire: &v1::ExtendReservationRequest,
) -> Result<(String, u32), Failure> {
    let mut reader = Reader::default();
    let id = reader.name("reservationId", &wire.reservation_id, "the reservation");
    reader.name_if_any("requestId", &wire.request_id, "the request's id");
    let seconds = wire.extension.as_ref().and_then(|extension| extension.seconds);
    let seconds = reader.seconds(door, holds, seconds);
    let read = id.zip(seconds);
    reader.done(read)
}

/// Reads what a reservation is confirmed for.
///
/// # Errors
/// Every violation.
pub fn confirmation(wire: &v1::ConfirmReservationRequest) -> Result<(String, String), Failure> {
    let mut reader = Reader::default();
    let id = reader.name("reservationId", &wire.reservation_id, "the reservation");
    reader.name_if_any("requestId", &wire.request_id, "the request's id");
    let reference = wire.confirmation.as_ref().map_or("", |confirmation| &confirmation.order_reference);
    let bound = Bound { least: 0, ..bounds::NAME };
    let reference = reader.words("orderReference", reference, bound, "the order's number");
    let read = id.zip(reference);
    reader.done(read)
}

/// Reads why a reservation is called off.
///
/// # Errors
/// Every violation.
pub fn cancellation(wire: &v1::CancelReservationRequest) -> Result<(String, String), Failure> {
    let mut reader = Reader::default();
    let id = reader.name("reservationId", &wire.reservation_id, "the reservation");
    reader.name_if_any("requestId", &wire.request_id, "the request's id");
    let reason = reader.words("reason", &wire.reason, bounds::END_REASON, "the reason");
    let read = id.zip(reason);
    reader.done(read)
}

/// What a reservation is amended to, but for its ticket.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Amended {
    /// Its name.
    pub id: String,
    /// Rules acknowledged, each once.
    pub acknowledged: Vec<String>,
    /// Why staff take it all the same.
    pub over: String,
    /// Why.
    pub reason: String,
}

/// Reads an amendment.
///
/// # Errors
/// Every violation.
pub fn amendment(wire: &v1::AmendReservationRequest) -> Result<Amended, Failure> {
    let mut reader = Reader::default();
    let id = reader.name("reservationId", &wire.reservation_id, "the reservation");
    reader.name_if_any("requestId", &wire.request_id, "the request's id");
    if !wire.token.is_empty() {
        reader.token(&wire.token);
    }
    let acknowledged = reader.acknowledged(&wire.acknowledged_rule_ids);
    if wire.token.is_empty() && !wire.acknowledged_rule_ids.is_empty() {
        let message = "nothing is sold anew, so there is nothing to acknowledge: give the token of another quote, \
                       or leave these out";
        reader.refuse(None, "acknowledgedRuleIds", Why::Contradiction, message.to_owned());
    }
    let over = reader.over(Door::Private, &wire.override_reason);
    let reason = reader.words("reason", &wire.reason, bounds::NOTE, "the reason");
    let read = match (id, reason) {
        (Some(id), Some(reason)) => Some(Amended { id, acknowledged, over, reason }),
        _ => None,
    };
    reader.done(read)
}

/// States that are listed, those held and confirmed where none are said, and how many at most.
///
/// # Errors
/// Every violation.
pub fn listed(wire: &v1::ListReservationsRequest) -> Result<(Vec<State>, u32), Failure> {
    let mut reader = Reader::default();
    if wire.states.len() > 7 {
        let message = format!("{} states are too many: there are seven", wire.states.len());
        reader.refuse(None, "states", Why::TooLong, message);
    }
    let mut states = Vec::new();
    for (place, number) in wire.states.iter().enumerate().take(7) {
        let value = reader.value_at::<v1::ReservationState>(None, &format!("states[{place}]"), Some(*number));
        match value.map(state) {
            Some(Some(state)) => states.push(state),
            Some(None) => {
                let message = "a state is not said: name one, or leave the list empty".to_owned();
                reader.refuse(None, &format!("states[{place}]"), Why::Missing, message);
            }
            None => {}
        }
    }
    let size = reader.count(None, "pageSize", Some(wire.page_size), bounds::PAGE_RESERVATIONS);
    reader.name_if_any("pageToken", &wire.page_token, "the page");
    if states.is_empty() {
        states = vec![State::Held, State::Confirmed];
    }
    let read = size.map(|size| (states, if size == 0 { 100 } else { size }));
    reader.done(read)
}

const fn state(wire: v1::ReservationState) -> Option<State> {
    match wire {
        v1::ReservationState::Unspecified => None,
        v1::ReservationState::Held => Some(State::Held),
        v1::ReservationState::Confirmed => Some(State::Confirmed),
        v1::ReservationState::Cut => Some(State::Cut),
        v1::ReservationState::Released => Some(State::Released),
        v1::ReservationState::Expired => Some(State::Expired),
        v1::ReservationState::Cancelled => Some(State::Cancelled),
        v1::ReservationState::Superseded => Some(State::Superseded),
    }
}

/// Pieces that are listed: code, lot, and how many at most.
///
/// # Errors
/// Every violation.
pub fn listed_pieces(wire: &v1::ListStockRequest) -> Result<u32, Failure> {
    let mut reader = Reader::default();
    reader.words("code", &wire.code, bounds::WORD, "the code");
    reader.words("lot", &wire.lot, bounds::WORD, "the dye lot");
    let size = reader.count(None, "pageSize", Some(wire.page_size), bounds::PAGE_PIECES);
    reader.label("pageToken", &wire.page_token, "a page");
    let read = size.map(|size| if size == 0 { 200 } else { size });
    reader.done(read)
}

impl Reader {
    fn token(&mut self, token: &str) {
        let count = token.chars().count();
        if count == 0 {
            let message = "there is no ticket: give the token of the quote, as it came".to_owned();
            self.refuse(None, "token", Why::Missing, message);
        } else if count > bounds::TICKET_CHARS {
            let most = bounds::TICKET_CHARS;
            let message =
                format!("a ticket of {count} characters is none: give the token of the quote, up to {most}");
            self.refuse(None, "token", Why::TooLong, message);
        }
    }

    fn acknowledged(&mut self, wire: &[String]) -> Vec<String> {
        let most = bounds::ACKNOWLEDGED.most;
        if u32::try_from(wire.len()).unwrap_or(u32::MAX) > most {
            let message = format!("{} rules are too many: acknowledge up to {most}", wire.len());
            self.refuse(None, "acknowledgedRuleIds", Why::TooLong, message);
            return Vec::new();
        }
        let mut read: Vec<String> = Vec::new();
        for (place, rule) in wire.iter().enumerate() {
            let path = format!("acknowledgedRuleIds[{place}]");
            let bound = Bound { least: 1, most: 20 };
            let Some(rule) = self.words(&path, rule, bound, "the rule") else { continue };
            if read.contains(&rule) {
                let message = format!("{rule} is acknowledged already: name each rule once");
                self.refuse(None, &path, Why::Repeated, message);
            } else {
                read.push(rule);
            }
        }
        read
    }

    fn seconds(&mut self, door: Door, holds: &Holds, wire: Option<u32>) -> Option<u32> {
        let most = match door {
            Door::Public => holds.public_most.min(bounds::HOLD_SECONDS.most),
            Door::Private => bounds::HOLD_SECONDS.most,
        };
        let bound = Bound { most, ..bounds::HOLD_SECONDS };
        self.count(None, "seconds", Some(wire.unwrap_or(holds.seconds)), bound)
    }

    fn over(&mut self, door: Door, reason: &str) -> String {
        if reason.is_empty() {
            return String::new();
        }
        if door == Door::Public {
            let message = "overrideReason is said by the shop alone: leave it out here, or hold it at the shop's private door";
            self.refuse(None, "overrideReason", Why::StaffOnly, message.to_owned());
            return String::new();
        }
        self.words("overrideReason", reason, bounds::END_REASON, "the reason").unwrap_or_default()
    }
}
