//! Which rows a command needs.
//!
//! Only what the command itself names; an engine closes that as [`Needs`] says: lines on a piece
//! bring their reservations, a reservation its lines' pieces, a cut its reservation and pieces. New
//! names are among them, to see that they are new.

use std::collections::BTreeSet;

use crate::rules::{Command, Needs, PieceId};

/// What a command needs to see. Names are in order, none twice; some may be of things that are
/// not to be there yet.
pub fn needs(command: &Command) -> Needs {
    let mut needs = Needs::default();
    let mut pieces: BTreeSet<PieceId> = BTreeSet::new();
    match command {
        Command::Receive(receive) => {
            pieces.extend(receive.pieces.iter().map(|piece| piece.id.clone()));
            needs.orders.extend(receive.order.clone());
        }
        Command::Adjust(adjust) => {
            pieces.insert(adjust.piece.clone());
        }
        Command::Reserve(reserve) => {
            pieces.extend(reserve.lines.iter().map(|line| line.piece.clone()));
            needs.reservations.push(reserve.id.clone());
            needs.reservations.extend(reserve.supersedes.clone());
            needs.holder = reserve.most_holds.map(|_| reserve.holder.clone());
        }
        Command::Extend(extend) => needs.reservations.push(extend.id.clone()),
        Command::Confirm(confirm) => needs.reservations.push(confirm.id.clone()),
        Command::Release(release) => needs.reservations.push(release.id.clone()),
        Command::Cancel(cancel) => needs.reservations.push(cancel.id.clone()),
        Command::Amend(amend) => {
            pieces.extend(amend.lines.iter().map(|line| line.piece.clone()));
            needs.reservations.push(amend.id.clone());
        }
        Command::Cut(cut) => {
            for part in &cut.parts {
                pieces.extend(part.piece.clone());
                pieces.extend(part.remnants.iter().map(|remnant| remnant.id.clone()));
            }
            needs.reservations.push(cut.reservation.clone());
            needs.cuts.push(cut.id.clone());
        }
        Command::Undo(undo) => needs.cuts.push(undo.cut.clone()),
        Command::Place(place) => needs.orders.push(place.id.clone()),
        Command::CancelOrder(cancel) => needs.orders.push(cancel.id.clone()),
        Command::Sweep(sweep) => needs.overdue = sweep.most,
    }
    needs.pieces = pieces.into_iter().collect();
    needs.reservations.sort();
    needs.reservations.dedup();
    needs
}
