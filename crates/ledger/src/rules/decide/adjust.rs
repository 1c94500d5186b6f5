//! What is so with a piece. A fact is never refused for what was promised: it is written down,
//! and what it takes from promises is said.
//!
//! What is gone, or found to be less, is taken to be missing at the far end: flaws stay where they
//! are, seen from the free end, and those beyond the new end are gone with it. What is found is
//! added there.

use super::receive::are_flaws;
use super::work::{Shift, Work};
use crate::rules::{
    Account, Adjust, Adjustment, Amount, EventKind, Flaw, MovementKind, PieceId, Reason, Refusal,
};

/// Records what is so with a piece.
pub(super) fn adjust(work: &mut Work<'_>, command: &Adjust) -> Result<(), Refusal> {
    let id = &command.piece;
    let piece = work.piece(id)?;
    let (left, class) = (piece.left, piece.material.class);
    let bad = |amount: Amount| Refusal::BadAmount(class, amount);
    match &command.what {
        Adjustment::Counted(counted) => {
            if *counted < Amount::ZERO || *counted > Amount::MOST {
                return Err(bad(*counted));
            }
            to(work, command, *counted, MovementKind::Count, Reason::Count);
        }
        Adjustment::Gone(gone, reason) => {
            if !gone.is_some() {
                return Err(bad(*gone));
            }
            if *gone > left {
                return Err(Refusal::MoreThanLies { piece: id.clone(), class, taken: *gone, left });
            }
            to(work, command, left - *gone, MovementKind::Adjust, *reason);
        }
        Adjustment::Found(found) => {
            if !found.is_some() || *found > Amount::MOST - left {
                return Err(bad(*found));
            }
            to(work, command, left + *found, MovementKind::Adjust, Reason::Found);
        }
        Adjustment::Flaws(flaws) => {
            if !are_flaws(flaws, left, class) {
                return Err(Refusal::BadFlaws(id.clone()));
            }
            work.fact(id, flaws.clone());
        }
        Adjustment::MoreFlaws(more) => {
            if more.is_empty() {
                return Err(Refusal::Empty);
            }
            if !are_flaws(&joined(more), left, class) || more.iter().any(|flaw| flaw.to <= flaw.from) {
                return Err(Refusal::BadFlaws(id.clone()));
            }
            let all: Vec<Flaw> = piece.flaws.iter().chain(more).copied().collect();
            work.fact(id, joined(&all));
        }
        Adjustment::Moved(location) => {
            if let Some(piece) = work.pieces.get_mut(id) {
                piece.location.clone_from(location);
            }
        }
    }
    let left = work.piece(id)?.left;
    work.tell(EventKind::Adjusted).on(id).amount(left).note(&command.note);
    work.answer_piece(id);
    Ok(())
}

/// So much lies on it now.
fn to(work: &mut Work<'_>, command: &Adjust, is: Amount, kind: MovementKind, reason: Reason) {
    let id: &PieceId = &command.piece;
    let Some(piece) = work.pieces.get(id) else { return };
    let (left, flaws) = (piece.left, piece.flaws.clone());
    let less = Shift {
        reason,
        note: &command.note,
        ..Shift::of(kind, id, Account::Free, Account::Elsewhere, left - is)
    };
    if is < left {
        work.fact(id, within(flaws, is));
    }
    work.shift(&less);
    work.shift(&Shift { from: Account::Elsewhere, to: Account::Free, amount: is - left, ..less });
}

/// Flaws one after the other, those that overlap or touch as one.
fn joined(flaws: &[Flaw]) -> Vec<Flaw> {
    let mut sorted = flaws.to_vec();
    sorted.sort_by_key(|flaw| (flaw.from, flaw.to));
    let mut joined: Vec<Flaw> = Vec::with_capacity(sorted.len());
    for flaw in sorted {
        match joined.last_mut() {
            Some(last) if flaw.from <= last.to => last.to = last.to.max(flaw.to),
            _ => joined.push(flaw),
        }
    }
    joined
}

/// Flaws as far as they lie within so much.
pub(super) fn within(flaws: Vec<Flaw>, left: Amount) -> Vec<Flaw> {
    let end = left.length();
    let inside = flaws.into_iter().filter(|flaw| flaw.from < end);
    inside.map(|flaw| Flaw { to: flaw.to.min(end), ..flaw }).collect()
}
