//! `reserve`, `reservations`, `confirm`, `extend`, `release`, `cancel`, `amend`.

use pennantry_contract::{table, v1};

use super::{done, empty, line, look_of, reservations, token, with_currency};
use crate::ask::{Door, Failure};
use crate::cli::{Amend, Cancel, Confirm, Extend, Reach, Release, Reservations, Reserve};
use crate::flags::typed::HOLD;
use crate::length::Unit;
use crate::print::{Look, reservation};
use crate::program::{Printed, asked};
use crate::sheet::{self, Style};
use crate::words;

/// Reservations a page.
const PAGE: u32 = 500;

/// Holds what a quote needs. Where the quote is asked first, its head is printed whatever becomes
/// of the hold.
///
/// # Errors
/// Refused, or not asked.
pub async fn reserve(flags: &Reserve) -> Result<Printed, Failure> {
    let sheet = &flags.quote.sheet;
    let reach = Reach {
        server: sheet.server.clone(),
        show: sheet.show.unwrap_or(Unit::M),
        plain: sheet.plain,
        json: sheet.json,
    };
    let Some(typed) = &flags.token else {
        let quote = asked(&flags.quote).await?.quote.ok_or_else(empty)?;
        let style = Style { unit: sheet.show.unwrap_or_default(), plain: sheet.plain, ..Style::default() };
        let head = if sheet.json { String::new() } else { sheet::before_holding(&quote, style) };
        let Some(token) = quote.token.filter(|token| !token.is_empty()) else {
            let words =
                "this quote has no ticket, so nothing can be held: leave out --as-of, and see its notices";
            return Ok(Printed { out: head, ..crate::program::not_asked(words) });
        };
        return Ok(match hold(flags, token, &reach).await {
            Ok(printed) if sheet.json => printed,
            Ok(printed) => Printed { out: format!("{head}\n{}", printed.out), ..printed },
            Err(failure) => {
                let failed = crate::program::failed(failure, sheet.json, &crate::program::told_by(HOLD));
                Printed { out: head + &failed.out, ..failed }
            }
        });
    };
    hold(flags, token(typed)?, &reach).await
}

async fn hold(flags: &Reserve, token: String, reach: &Reach) -> Result<Printed, Failure> {
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let hold = v1::Hold {
        token,
        acknowledged_rule_ids: flags.acknowledge.clone(),
        seconds: flags.lasting.map(|span| span.seconds),
        supersedes_id: flags.instead_of.clone().unwrap_or_default(),
        override_reason: flags.override_reason.clone().unwrap_or_default(),
    };
    let door = Door::connect(&reach.server).await?;
    let request = v1::CreateReservationRequest { request_id: id.clone(), hold: Some(hold) };
    let sent = |channel, request| async move { reservations(channel).create_reservation(request).await };
    let told = door.change(&id, request, sent).await?;
    let json = line(serde_json::to_string(&told))?;
    shown(&door, told.reservation, json, reach).await
}

/// One reservation, or its answer as JSON.
async fn shown(
    door: &Door,
    one: Option<v1::Reservation>,
    json: String,
    reach: &Reach,
) -> Result<Printed, Failure> {
    if reach.json {
        return Ok(done(json));
    }
    let one = one.ok_or_else(empty)?;
    let look = look_of(Look::of(reach), door, Some(&one)).await;
    Ok(done(reservation::one(&one, &look)))
}

/// Lists reservations to the end, or shows one.
///
/// # Errors
/// Refused, or not asked.
pub async fn list(flags: &Reservations) -> Result<Printed, Failure> {
    let door = Door::connect(&flags.reach.server).await?;
    if let Some(id) = &flags.id {
        let request = v1::GetReservationRequest { reservation_id: id.clone() };
        let told =
            door.look(|channel| async move { reservations(channel).get_reservation(request).await }).await?;
        let json = line(serde_json::to_string(&told))?;
        return shown(&door, told.reservation, json, &flags.reach).await;
    }
    let states: Vec<i32> =
        flags.state.iter().filter_map(|word| words::value(&table::RESERVATION_STATE, word)).collect();
    let mut all = v1::ListReservationsResponse::default();
    loop {
        let request = v1::ListReservationsRequest {
            states: states.clone(),
            short_only: flags.short,
            page_size: PAGE,
            page_token: all.next_page_token.clone(),
        };
        let told = door
            .look(|channel| async move { reservations(channel).list_reservations(request).await })
            .await?;
        all.reservations.extend(told.reservations);
        if !told.next_page_token.is_empty() && told.next_page_token == all.next_page_token {
            return Err(Failure::NotAsked("the server gives the same page again and again".to_owned()));
        }
        all.next_page_token = told.next_page_token;
        if all.next_page_token.is_empty() {
            break;
        }
    }
    if flags.reach.json {
        return Ok(done(line(serde_json::to_string(&all))?));
    }
    let look = with_currency(Look::of(&flags.reach), &door).await;
    Ok(done(reservation::list(&all.reservations, &look)))
}

/// Makes a hold a promise.
///
/// # Errors
/// Refused, or not asked.
pub async fn confirm(flags: &Confirm) -> Result<Printed, Failure> {
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.reach.server).await?;
    let order_reference = flags.order_ref.clone().unwrap_or_default();
    let request = v1::ConfirmReservationRequest {
        reservation_id: flags.id.clone(),
        request_id: id.clone(),
        confirmation: Some(v1::Confirmation { order_reference }),
    };
    let sent = |channel, request| async move { reservations(channel).confirm_reservation(request).await };
    let told = door.change(&id, request, sent).await?;
    let json = line(serde_json::to_string(&told))?;
    shown(&door, told.reservation, json, &flags.reach).await
}

/// Gives a hold more time.
///
/// # Errors
/// Refused, or not asked.
pub async fn extend(flags: &Extend) -> Result<Printed, Failure> {
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.reach.server).await?;
    let request = v1::ExtendReservationRequest {
        reservation_id: flags.id.clone(),
        request_id: id.clone(),
        extension: Some(v1::Extension { seconds: flags.span.map(|span| span.seconds) }),
    };
    let sent = |channel, request| async move { reservations(channel).extend_reservation(request).await };
    let told = door.change(&id, request, sent).await?;
    let json = line(serde_json::to_string(&told))?;
    shown(&door, told.reservation, json, &flags.reach).await
}

/// Lets a hold go.
///
/// # Errors
/// Refused, or not asked.
pub async fn release(flags: &Release) -> Result<Printed, Failure> {
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.reach.server).await?;
    let request = v1::ReleaseReservationRequest { reservation_id: flags.id.clone(), request_id: id.clone() };
    let sent = |channel, request| async move { reservations(channel).release_reservation(request).await };
    let told = door.change(&id, request, sent).await?;
    let json = line(serde_json::to_string(&told))?;
    shown(&door, told.reservation, json, &flags.reach).await
}

/// Calls a reservation off.
///
/// # Errors
/// Refused, or not asked.
pub async fn cancel(flags: &Cancel) -> Result<Printed, Failure> {
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.reach.server).await?;
    let request = v1::CancelReservationRequest {
        reservation_id: flags.id.clone(),
        request_id: id.clone(),
        reason: flags.because.clone(),
    };
    let sent = |channel, request| async move { reservations(channel).cancel_reservation(request).await };
    let told = door.change(&id, request, sent).await?;
    let json = line(serde_json::to_string(&told))?;
    shown(&door, told.reservation, json, &flags.reach).await
}

/// Plans a reservation anew.
///
/// # Errors
/// Refused, or not asked.
pub async fn amend(flags: &Amend) -> Result<Printed, Failure> {
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let token = flags.token.as_deref().map(token).transpose()?;
    let door = Door::connect(&flags.reach.server).await?;
    let request = v1::AmendReservationRequest {
        reservation_id: flags.id.clone(),
        request_id: id.clone(),
        token: token.unwrap_or_default(),
        acknowledged_rule_ids: flags.acknowledge.clone(),
        override_reason: flags.override_reason.clone().unwrap_or_default(),
        reason: flags.because.clone().unwrap_or_default(),
    };
    let sent = |channel, request| async move { reservations(channel).amend_reservation(request).await };
    let told = door.change(&id, request, sent).await?;
    let json = line(serde_json::to_string(&told))?;
    shown(&door, told.reservation, json, &flags.reach).await
}
