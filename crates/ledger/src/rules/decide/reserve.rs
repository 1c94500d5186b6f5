//! Cloth taken for a buyer: every line in full, or nothing.
//!
//! A line is had where it fits into its piece beside everything that is granted of it already, the
//! lines before it among that ([`settle`](crate::rules::settle)). So a promise never makes another
//! one shorter. Where lines cannot be had, all of them are named, each with the longest clear
//! length that one cut could have.

use super::receive::is_some_amount;
use super::work::Work;
use crate::rules::settle;
use crate::rules::{
    Amount, EventKind, Line, MovementKind, NewLine, Refusal, Reservation, ReservationId, Reserve, Short,
    State,
};

/// Takes a hold.
pub(super) fn reserve(work: &mut Work<'_>, command: &Reserve) -> Result<(), Refusal> {
    if work.reservations.contains_key(&command.id) {
        return Err(Refusal::ReservationExists(command.id.clone()));
    }
    if command.lines.is_empty() {
        return Err(Refusal::Empty);
    }
    if command.seconds <= 0 {
        return Err(Refusal::BadSeconds(command.seconds));
    }
    is_bench_time(command.bench_milli_minutes)?;
    if let Some(before) = &command.supersedes {
        may_supersede(work, before, &command.holder)?;
    }
    if let Some(most) = command.most_holds {
        let others = work.rows.holds.saturating_sub(u32::from(command.supersedes.is_some()));
        if others >= most {
            return Err(Refusal::TooManyHolds(most));
        }
    }
    if let Some(before) = &command.supersedes {
        work.end(before, State::Superseded, MovementKind::Release)?;
        work.reservation_mut(before)?.superseded_by = Some(command.id.clone());
        work.tell(EventKind::Superseded).of(before);
        work.outcome.ended.push(before.clone());
    }
    let hold =
        Reservation { created: work.now, expires: work.now.after_seconds(command.seconds), ..hold(command) };
    work.reservations.insert(command.id.clone(), hold);
    take(work, &command.id, &command.lines)?;
    work.tell(EventKind::Held).of(&command.id);
    work.answer = Some(command.id.clone());
    Ok(())
}

/// Takes lines for a reservation, each in full.
pub(super) fn take(work: &mut Work<'_>, id: &ReservationId, lines: &[NewLine]) -> Result<(), Refusal> {
    let mut taken = Vec::new();
    for wanted in lines {
        let piece = work.piece(&wanted.piece)?;
        is_some_amount(piece.material.class, wanted.amount)?;
        if wanted.shape_area < 0 {
            return Err(Refusal::BadShapeArea(wanted.shape_area));
        }
        let stretches = settle::stretches(piece);
        let class = piece.material.class;
        let mut granted: Vec<Amount> =
            work.claims(&wanted.piece).iter().map(|(_, claim)| claim.granted).collect();
        granted.push(wanted.amount);
        if settle::fit(&stretches, &granted).is_none() {
            granted.pop();
            let free = settle::longest_beside(&stretches, &granted);
            taken.push(Short { piece: wanted.piece.clone(), class, wanted: wanted.amount, free });
            continue;
        }
        let reservation = work.reservation_mut(id)?;
        let number = reservation.lines.iter().map(|line| line.number).max().unwrap_or(0).saturating_add(1);
        reservation.lines.push(Line {
            number,
            piece: wanted.piece.clone(),
            item: wanted.item,
            planned: wanted.amount,
            wanted: wanted.amount,
            granted: Amount::ZERO,
            used: Amount::ZERO,
            spoiled: Amount::ZERO,
            shapes: wanted.shapes,
            shapes_cut: 0,
            shape_area: wanted.shape_area,
            past: false,
        });
        work.grant(&(id.clone(), number), wanted.amount, MovementKind::Reserve);
    }
    if taken.is_empty() { Ok(()) } else { Err(Refusal::Taken(taken)) }
}

/// Whether there can be so much bench time.
pub(super) fn is_bench_time(milli_minutes: i64) -> Result<(), Refusal> {
    if milli_minutes >= 0 { Ok(()) } else { Err(Refusal::BadBenchTime(milli_minutes)) }
}

/// Only a hold whose time is not over, and only by its own holder; whoever else asks is not told
/// where it stands.
fn may_supersede(work: &Work<'_>, before: &ReservationId, holder: &str) -> Result<(), Refusal> {
    if work.reservation(before)?.holder != holder {
        return Err(Refusal::NotYours(before.clone()));
    }
    work.held(before).map(|_| ())
}

fn hold(command: &Reserve) -> Reservation {
    Reservation {
        id: command.id.clone(),
        state: State::Held,
        holder: command.holder.clone(),
        created: crate::rules::At::default(),
        expires: crate::rules::At::default(),
        confirmed: None,
        quote: command.quote.clone(),
        order_reference: String::new(),
        bench_milli_minutes: command.bench_milli_minutes,
        leave_day: command.leave_day,
        sold: command.sold.clone(),
        supersedes: command.supersedes.clone(),
        superseded_by: None,
        reason: String::new(),
        lines: Vec::new(),
    }
}
