//! What is written and told once a command is decided: whatever of the working set differs from
//! the rows that were read.
//!
//! A piece has one balance and a reservation one head, however often they were changed on the way.
//! A promise is told of where what is missing of it is other than it was before the command: what
//! was taken on the way and given back is on the movements, and nothing to tell.

use super::work::Work;
use crate::rules::roll::roll;
use crate::rules::{Amount, Change, Decision, EventKind, Line, Piece, Promise, Reservation};

impl Work<'_> {
    /// What is written, and what is told.
    pub fn finish(mut self) -> Decision {
        self.settle();
        self.mend();
        self.promises();
        self.outcome.pieces =
            self.answer_pieces.iter().filter_map(|id| self.pieces.get(id).cloned()).collect();
        self.outcome.reservation = self.answer.as_ref().and_then(|id| self.reservations.get(id).cloned());
        self.outcome.order = self.answer_order.as_ref().and_then(|id| self.orders.get(id).cloned());
        let mut changes = Vec::new();
        self.piece_changes(&mut changes);
        self.reservation_changes(&mut changes);
        changes.append(&mut self.cuts);
        self.order_changes(&mut changes);
        let days = roll(&self.moves, &self.pieces, self.drawn().as_ref());
        changes.extend(self.moves.into_iter().map(Change::Move));
        changes.extend(self.events.into_iter().map(Change::Tell));
        changes.extend(days.into_iter().map(Change::Roll));
        Decision { changes, outcome: self.outcome }
    }

    /// Whose promises are other than they were: those of lines that were there and of lines that
    /// are, in reservations that hold cloth after it.
    fn promises(&mut self) {
        let mut promises = Vec::new();
        for reservation in self.reservations.values().filter(|reservation| reservation.state.is_live()) {
            let was = self.rows.reservations.get(&reservation.id);
            for line in &reservation.lines {
                let before = was.and_then(|was| was.lines.iter().find(|was| was.number == line.number));
                let short_before = before.map_or(Amount::ZERO, Line::short);
                if line.short() != short_before {
                    promises.push(Promise {
                        reservation: reservation.id.clone(),
                        state: reservation.state,
                        line: line.number,
                        piece: line.piece.clone(),
                        short_before,
                        short: line.short(),
                    });
                }
            }
        }
        for promise in &promises {
            let kind =
                if promise.short > promise.short_before { EventKind::Shortened } else { EventKind::Mended };
            self.tell(kind).of(&promise.reservation).on(&promise.piece).amount(promise.short);
        }
        self.outcome.promises = promises;
    }

    fn piece_changes(&self, changes: &mut Vec<Change>) {
        let balance = |piece: &Piece| [piece.left, piece.held, piece.confirmed];
        let known = || self.pieces.values().filter_map(|is| Some((self.rows.pieces.get(&is.id)?, is)));
        let new = self.pieces.values().filter(|piece| !self.rows.pieces.contains_key(&piece.id));
        changes.extend(new.cloned().map(Change::AddPiece));
        for (was, is) in known().filter(|(was, is)| balance(was) != balance(is)) {
            changes.push(Change::Balance { piece: is.id.clone(), was: balance(was), is: balance(is) });
        }
        for (_, is) in known().filter(|(was, is)| was.flaws != is.flaws) {
            changes.push(Change::Flaws { piece: is.id.clone(), flaws: is.flaws.clone() });
        }
        for (_, is) in known().filter(|(was, is)| was.location != is.location) {
            changes.push(Change::Location { piece: is.id.clone(), location: is.location.clone() });
        }
    }

    fn reservation_changes(&self, changes: &mut Vec<Change>) {
        let known =
            || self.reservations.values().filter_map(|is| Some((self.rows.reservations.get(&is.id)?, is)));
        let new = self.reservations.values().filter(|is| !self.rows.reservations.contains_key(&is.id));
        changes.extend(new.cloned().map(Change::AddReservation));
        let head = |reservation: &Reservation| Reservation { lines: Vec::new(), ..reservation.clone() };
        for (was, is) in known().filter(|(was, is)| head(was) != head(is)) {
            changes.push(Change::Head { id: is.id.clone(), was: was.state, is: Box::new(is.clone()) });
        }
        let mut set = Vec::new();
        for (was, is) in known() {
            for line in &is.lines {
                let (reservation, line) = (is.id.clone(), line.clone());
                match was.lines.iter().find(|was| was.number == line.number) {
                    None => changes.push(Change::AddLine { reservation, line }),
                    Some(was) if *was != line => set.push(Change::SetLine { reservation, line }),
                    Some(_) => {}
                }
            }
        }
        changes.append(&mut set);
    }

    fn order_changes(&self, changes: &mut Vec<Change>) {
        for is in self.orders.values() {
            let Some(was) = self.rows.orders.get(&is.id) else {
                changes.push(Change::AddOrder(is.clone()));
                continue;
            };
            for (was, line) in was.lines.iter().zip(&is.lines).filter(|(was, is)| was.received != is.received)
            {
                let received =
                    Change::OrderReceived { id: is.id.clone(), line: was.number, received: line.received };
                changes.push(received);
            }
            if was.state != is.state || was.note != is.note {
                let (state, note) = (is.state, is.note.clone());
                changes.push(Change::OrderState { id: is.id.clone(), state, note });
            }
        }
    }
}
