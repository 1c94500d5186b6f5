//! A cut taken back: it was not made, or not so.
//!
//! Only within [`Undo::SECONDS`] of it, only while the remnants it left lie there as they came, and
//! only where no other cut followed on the same piece. What a count or a look at the flaws found
//! since stays found: the cut's amounts are moved back, and its flaws come back in front of those
//! that are there now.
//!
//! What it moves counts for the day of the cut: that day is then as if the cut had not been made.
//!
//! The reservation wants again what the cut had served, but on lines of a sale whose place another
//! took. One that was cut is confirmed again, or held
//! where it never was confirmed; where its time was over in between it is expired instead. One that
//! was called off stays so, and the cloth is free.

use super::adjust::within;
use super::work::{Shift, Work};
use crate::rules::{
    Account, Amount, CutId, CutPart, CutRow, EventKind, Flaw, MovementKind, PieceId, Reason, Refusal,
    ReservationId, State, Undo,
};

/// Takes a cut back.
pub(super) fn undo(work: &mut Work<'_>, command: &Undo) -> Result<(), Refusal> {
    let cut = work.rows.cuts.get(&command.cut).ok_or_else(|| Refusal::NoCut(command.cut.clone()))?;
    if cut.undone {
        return Err(Refusal::AlreadyUndone(cut.id.clone()));
    }
    work.day = cut.day;
    let until = cut.at.after_seconds(Undo::SECONDS);
    if work.now > until {
        return Err(Refusal::TooLate(cut.id.clone(), until));
    }
    for part in &cut.parts {
        is_last_on(work, &cut.id, &part.piece)?;
        for remnant in &part.remnants {
            is_untouched(work, &cut.id, remnant)?;
        }
    }
    let wants = reopen(work, cut)?;
    for part in cut.parts.iter().rev() {
        put_back(work, cut, part, wants)?;
    }
    work.answer = Some(cut.reservation.clone());
    work.undo_cut(CutRow { undone: true, ..cut.clone() });
    Ok(())
}

fn is_last_on(work: &Work<'_>, cut: &CutId, piece: &PieceId) -> Result<(), Refusal> {
    work.piece(piece)?;
    if work.rows.last_cut.get(piece) == Some(cut) {
        return Ok(());
    }
    Err(Refusal::UsedSince(cut.clone(), piece.clone()))
}

fn is_untouched(work: &Work<'_>, cut: &CutId, remnant: &PieceId) -> Result<(), Refusal> {
    let piece = work.piece(remnant)?;
    let is_as_it_came = piece.left == piece.received && piece.free() == piece.left;
    if is_as_it_came && work.claims(remnant).is_empty() && !work.rows.last_cut.contains_key(remnant) {
        return Ok(());
    }
    Err(Refusal::UsedSince(cut.clone(), remnant.clone()))
}

/// Where the reservation stands once the cut is taken back, and whether it wants again what the
/// cut had served.
fn reopen(work: &mut Work<'_>, cut: &CutRow) -> Result<bool, Refusal> {
    let now = work.now;
    let id: &ReservationId = &cut.reservation;
    let reservation = work.reservation_mut(id)?;
    if reservation.state.is_live() {
        return Ok(!reservation.is_overdue(now));
    }
    // where the cut is all that there is of it, it is as it was before: a reservation of nothing is none
    let all: Amount = reservation.lines.iter().map(|line| line.used + line.spoiled).sum();
    let taken: Amount = cut.parts.iter().map(|part| part.used() + part.spoiled).sum();
    if reservation.state == State::Cut && all == taken {
        for line in &mut reservation.lines {
            line.past &= !cut.parts.iter().any(|part| part.line == line.number);
        }
    }
    let is_past = |number| reservation.lines.iter().any(|line| line.number == number && line.past);
    let served: Amount = cut.parts.iter().filter(|part| !is_past(part.line)).map(|part| part.served).sum();
    if reservation.state != State::Cut || !served.is_some() {
        return Ok(false);
    }
    reservation.state = if reservation.confirmed.is_some() { State::Confirmed } else { State::Held };
    if reservation.is_overdue(now) {
        reservation.state = State::Expired;
        work.tell(EventKind::Expired).of(id);
        work.outcome.ended.push(id.clone());
        return Ok(false);
    }
    Ok(true)
}

fn put_back(work: &mut Work<'_>, cut: &CutRow, part: &CutPart, wants: bool) -> Result<(), Refusal> {
    let key = (cut.reservation.clone(), part.line);
    let line = work.line_mut(&key).ok_or_else(|| Refusal::NoLine(cut.reservation.clone(), part.line))?;
    line.used -= part.used();
    line.spoiled -= part.spoiled;
    line.shapes_cut = line.shapes_cut.saturating_sub(part.shapes);
    if wants && !line.past {
        line.wanted += part.served;
    }
    let own = line.piece.clone();
    work.touch(&own);

    let piece = work.piece(&part.piece)?;
    let (class, left, flaws) =
        (piece.material.class, piece.left + part.taken, put_flaws_back(&piece.flaws, part));
    if left > Amount::MOST {
        return Err(Refusal::BadAmount(class, left));
    }
    let back = |piece, from, to, amount| Shift {
        reservation: Some(&cut.reservation),
        cut: Some(&cut.id),
        ..Shift::of(MovementKind::Undo, piece, from, to, amount)
    };
    let parts = [(Account::Used, part.used()), (Account::Kept, part.kept), (Account::Spoiled, part.spoiled)];
    for (from, amount) in parts {
        let reason = if from == Account::Spoiled { part.why } else { Reason::None };
        work.shift(&Shift { reason, ..back(&part.piece, from, Account::Free, amount) });
    }
    for remnant in &part.remnants {
        let there = work.piece(remnant)?.left;
        work.shift(&back(remnant, Account::Free, Account::Kept, there));
        work.fact(remnant, Vec::new());
    }
    work.fact(&part.piece, within(flaws, left));
    work.tell(EventKind::Undone).of(&cut.reservation).on(&part.piece).amount(left);
    work.answer_piece(&part.piece);
    Ok(())
}

/// The flaws of what was cut off, then those that are there now. Where a flaw was cut through, its
/// two halves are one again.
fn put_flaws_back(now: &[Flaw], part: &CutPart) -> Vec<Flaw> {
    let off = part.taken.length();
    let was_cut_through = part.flaws_before.iter().any(|flaw| flaw.from < off && off < flaw.to);
    let mut flaws = within(part.flaws_before.clone(), part.taken);
    for flaw in now {
        let flaw = Flaw { from: flaw.from + off, to: flaw.to + off };
        match flaws.last_mut() {
            Some(last) if was_cut_through && last.to == off && flaw.from == off => last.to = flaw.to,
            _ => flaws.push(flaw),
        }
    }
    flaws
}
