//! Holds whose time is over.

use super::work::Work;
use crate::rules::{At, EventKind, MovementKind, Refusal, ReservationId, State};

/// Ends every overdue hold of which all pieces are there, the longest overdue first, and gives
/// what they held to whoever is short of it.
///
/// An engine puts all pieces of such a hold into the rows. Where a hold came to stand on one of
/// them while they were being read, a piece of it may be missing: it is left alone, holds on for
/// now, and is ended by the next command that meets it.
pub(super) fn end_overdue(work: &mut Work<'_>) -> Result<(), Refusal> {
    let mut overdue: Vec<(At, ReservationId)> = work
        .reservations
        .values()
        .filter(|reservation| reservation.is_overdue(work.now))
        .filter(|reservation| {
            let mut standing = reservation.lines.iter().filter(|line| line.wanted.is_some());
            standing.all(|line| work.pieces.contains_key(&line.piece))
        })
        .map(|reservation| (reservation.expires, reservation.id.clone()))
        .collect();
    overdue.sort();
    for (_, id) in overdue {
        work.end(&id, State::Expired, MovementKind::Expire)?;
        work.tell(EventKind::Expired).of(&id);
        work.outcome.ended.push(id);
    }
    work.mend();
    Ok(())
}
