//! A hold from its beginning to its end: more time, confirmed, let go, called off.
//!
//! | command | of a hold | confirmed | cut | ended |
//! |---|---|---|---|---|
//! | extend | more time, capped | refused | refused | refused |
//! | confirm | confirmed | as it is, with the same reference | as it is, with the same reference | refused |
//! | release | released | refused | refused | as it is where released or expired |
//! | cancel | cancelled | cancelled | cancelled | as it is where cancelled or expired |
//!
//! What is answered as it is writes no movement and no event.

use super::work::Work;
use crate::rules::{
    Cancel, Confirm, EventKind, Extend, MovementKind, Refusal, Release, Reservation, ReservationId, State,
};

/// Gives a hold more time: so many seconds from now, but never less than it has, and no more than
/// so many from when it was taken.
pub(super) fn extend(work: &mut Work<'_>, command: &Extend) -> Result<(), Refusal> {
    if command.seconds <= 0 {
        return Err(Refusal::BadSeconds(command.seconds));
    }
    let hold = work.held(&command.id)?;
    let most = hold.created.after_seconds(command.most_seconds);
    if most <= hold.expires {
        return Err(Refusal::AsLongAsMayBe(command.id.clone(), most));
    }
    let expires = hold.expires.max(work.now.after_seconds(command.seconds).min(most));
    if expires > hold.expires {
        work.reservation_mut(&command.id)?.expires = expires;
        work.tell(EventKind::Extended).of(&command.id);
    }
    work.answer = Some(command.id.clone());
    Ok(())
}

/// Makes a hold a promise. A hold that a fact has made short cannot be: other cloth is put in its
/// place first.
pub(super) fn confirm(work: &mut Work<'_>, command: &Confirm) -> Result<(), Refusal> {
    let id = &command.id;
    work.answer = Some(id.clone());
    let reservation = work.reservation(id)?;
    let is_so = matches!(reservation.state, State::Confirmed | State::Cut);
    if is_so && reservation.order_reference == command.order_reference {
        return Ok(());
    }
    let lines = work.held(id)?.lines.clone();
    if let Some(line) = lines.iter().find(|line| line.short().is_some()) {
        let (reservation, piece, short) = (id.clone(), line.piece.clone(), line.short());
        let class = work.piece(&piece)?.material.class;
        return Err(Refusal::IsShort { reservation, piece, class, short });
    }
    for line in &lines {
        if line.granted.is_some() {
            work.piece(&line.piece)?;
        }
        work.promise(id, line);
    }
    let now = work.now;
    let reservation = work.reservation_mut(id)?;
    reservation.state = State::Confirmed;
    reservation.confirmed = Some(now);
    reservation.order_reference.clone_from(&command.order_reference);
    work.tell(EventKind::Confirmed).of(id);
    Ok(())
}

/// Lets a hold go.
pub(super) fn release(work: &mut Work<'_>, command: &Release) -> Result<(), Refusal> {
    let reservation = work.reservation(&command.id)?;
    match reservation.state {
        State::Released | State::Expired => {}
        State::Held => {
            over(work, &command.id)?;
            work.end(&command.id, State::Released, MovementKind::Release)?;
            work.tell(EventKind::Released).of(&command.id);
        }
        other => return Err(Refusal::NotNow(command.id.clone(), other)),
    }
    work.answer = Some(command.id.clone());
    Ok(())
}

/// Calls a reservation off. What is cut stays cut and used.
pub(super) fn cancel(work: &mut Work<'_>, command: &Cancel) -> Result<(), Refusal> {
    let reservation: &Reservation = work.reservation(&command.id)?;
    match reservation.state {
        State::Cancelled | State::Expired => {}
        State::Held | State::Confirmed | State::Cut => {
            over(work, &command.id)?;
            work.end(&command.id, State::Cancelled, MovementKind::Release)?;
            work.reservation_mut(&command.id)?.reason.clone_from(&command.reason);
            work.tell(EventKind::Cancelled).of(&command.id).note(&command.reason);
        }
        other => return Err(Refusal::NotNow(command.id.clone(), other)),
    }
    work.answer = Some(command.id.clone());
    Ok(())
}

/// An overdue hold that could not be ended for a piece that is missing is not ended otherwise.
fn over(work: &Work<'_>, id: &ReservationId) -> Result<(), Refusal> {
    let reservation = work.reservation(id)?;
    if reservation.is_overdue(work.now) {
        return Err(Refusal::Expired(id.clone(), reservation.expires));
    }
    Ok(())
}
