//! Reservations: taken, given more time, confirmed, let go, called off, amended, over.

use std::collections::BTreeSet;

use pennantry_ledger::rules::{
    Amend, Amount, At, Cancel, Class, Confirm, EventKind, Extend, Line, NewLine, PieceId, Refusal, Release,
    Reservation, ReservationId, Reserve, Short, State,
};

use super::{Broken, Done, Model, Verdict};

const SECOND: i64 = 1_000_000;

fn later(at: At, seconds: i64) -> At {
    At(at.0.saturating_add(seconds.saturating_mul(SECOND)))
}

impl Model {
    /// Holds whose time is over.
    pub(super) fn overdue(&self, now: At) -> Vec<&Reservation> {
        let over = |reservation: &&Reservation| match self.broken {
            Some(Broken::Expiry) => false,
            Some(Broken::Instant) => reservation.expires < now,
            _ => reservation.expires <= now,
        };
        self.live().filter(|reservation| reservation.state == State::Held).filter(over).collect()
    }

    /// Ends a reservation; gives the pieces that it stood on.
    pub(super) fn end(&mut self, id: &ReservationId, state: State) -> BTreeSet<PieceId> {
        let reservation = self.reservation(id);
        reservation.state = state;
        let mut stood_on = BTreeSet::new();
        for line in &mut reservation.lines {
            if line.wanted.0 > 0 {
                stood_on.insert(line.piece.clone());
            }
            line.wanted = Amount(0);
            line.granted = Amount(0);
        }
        stood_on
    }

    pub(super) fn settle_all<'a>(&mut self, pieces: impl IntoIterator<Item = &'a PieceId>) {
        for piece in pieces {
            self.settle(piece);
        }
    }

    /// Adds lines one after the other, each in full; what cannot be had is left out and told.
    fn take(&mut self, id: &ReservationId, lines: &[NewLine]) -> Vec<Short> {
        let mut short = Vec::new();
        for new in lines {
            let reservation = self.reservation(id);
            let number = reservation.lines.iter().map(|line| line.number).max().unwrap_or(0) + 1;
            reservation.lines.push(Line {
                number,
                piece: new.piece.clone(),
                item: new.item,
                planned: new.amount,
                wanted: new.amount,
                granted: new.amount,
                used: Amount(0),
                spoiled: Amount(0),
                shapes: new.shapes,
                shapes_cut: 0,
                shape_area: new.shape_area,
                past: false,
            });
            if !self.all_fit(&new.piece) {
                self.reservation(id).lines.pop();
                short.push(Short {
                    piece: new.piece.clone(),
                    class: self.labels[&new.piece].material.class,
                    wanted: new.amount,
                    free: Amount(self.longest(&new.piece)),
                });
            }
        }
        short
    }

    fn wrong_with(&self, lines: &[NewLine], bench: Option<i64>) -> Vec<Refusal> {
        let mut wrong = Vec::new();
        for line in lines {
            let label = self.labels.get(&line.piece);
            let class = label.map_or(Class::Cloth, |label| label.material.class);
            if line.amount < Amount(1) || line.amount > Amount::MOST {
                wrong.push(Refusal::BadAmount(class, line.amount));
            }
            if line.shape_area < 0 {
                wrong.push(Refusal::BadShapeArea(line.shape_area));
            }
            if label.is_none() {
                wrong.push(Refusal::NoPiece(line.piece.clone()));
            }
        }
        wrong.extend(bench.filter(|time| *time < 0).map(Refusal::BadBenchTime));
        wrong
    }

    /// The reservation, or why there is nothing to be done with it now.
    fn only_in(&self, id: &ReservationId, states: &[State]) -> Result<Reservation, Vec<Refusal>> {
        match self.reservations.get(id) {
            None => Err(vec![Refusal::NoReservation(id.clone())]),
            Some(it) if states.contains(&it.state) => Ok(it.clone()),
            Some(it) if it.state == State::Expired => Err(vec![Refusal::Expired(id.clone(), it.expires)]),
            Some(it) => Err(vec![Refusal::NotNow(id.clone(), it.state)]),
        }
    }

    pub(super) fn reserve(&mut self, now: At, new: &Reserve) -> Verdict {
        let mut wrong = self.wrong_with(&new.lines, Some(new.bench_milli_minutes));
        if self.reservations.contains_key(&new.id) {
            wrong.push(Refusal::ReservationExists(new.id.clone()));
        }
        if new.lines.is_empty() {
            wrong.push(Refusal::Empty);
        }
        if new.seconds < 1 {
            wrong.push(Refusal::BadSeconds(new.seconds));
        }
        let others = self.live().filter(|other| {
            other.state == State::Held
                && other.holder == new.holder
                && other.expires > now
                && Some(&other.id) != new.supersedes.as_ref()
        });
        let others = others.count();
        if let Some(most) = new.most_holds
            && others >= usize::try_from(most).expect("small")
        {
            wrong.push(Refusal::TooManyHolds(most));
        }
        if let Some(old) = &new.supersedes {
            wrong.extend(self.only_in(old, &[State::Held]).err().into_iter().flatten());
            if self.reservations.get(old).is_some_and(|old| old.holder != new.holder) {
                wrong.push(Refusal::NotYours(old.clone()));
            }
        }
        if wrong.iter().any(|it| !matches!(it, Refusal::BadBenchTime(_))) {
            return Err(wrong);
        }

        let mut pieces: BTreeSet<PieceId> = BTreeSet::new();
        let mut told = vec![(EventKind::Held, new.id.to_string())];
        if let Some(old) = &new.supersedes {
            if !self.is(Broken::Supersede) {
                pieces.extend(self.end(old, State::Superseded));
            }
            self.reservation(old).superseded_by = Some(new.id.clone());
            told.push((EventKind::Superseded, old.to_string()));
        }
        self.add_reservation(Reservation {
            id: new.id.clone(),
            state: State::Held,
            holder: new.holder.clone(),
            created: now,
            expires: later(now, new.seconds),
            confirmed: None,
            quote: new.quote.clone(),
            order_reference: String::new(),
            bench_milli_minutes: new.bench_milli_minutes,
            leave_day: new.leave_day,
            sold: new.sold.clone(),
            supersedes: new.supersedes.clone(),
            superseded_by: None,
            reason: String::new(),
            lines: Vec::new(),
        });
        let short = self.take(&new.id, &new.lines);
        if !short.is_empty() {
            wrong.push(Refusal::Taken(short));
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }
        if let Some(old) = new.supersedes.as_ref().filter(|_| self.is(Broken::Supersede)) {
            pieces.extend(self.end(old, State::Superseded));
        }
        pieces.extend(new.lines.iter().map(|line| line.piece.clone()));
        self.settle_all(&pieces);
        let ends = new.supersedes.clone();
        Ok(Done { reservation: Some(new.id.clone()), ends, told, ..Done::default() })
    }

    pub(super) fn extend(&mut self, now: At, extend: &Extend) -> Verdict {
        let mut wrong = Vec::new();
        wrong.extend(
            [extend.seconds, extend.most_seconds].into_iter().filter(|it| *it < 1).map(Refusal::BadSeconds),
        );
        let known = self.only_in(&extend.id, &[State::Held]);
        wrong.extend(known.as_ref().err().cloned().into_iter().flatten());
        let Ok(known) = known else { return Err(wrong) };
        let latest = later(known.created, extend.most_seconds);
        if latest <= known.expires {
            wrong.push(Refusal::AsLongAsMayBe(known.id.clone(), latest));
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }
        let until = later(now, extend.seconds).min(latest).max(known.expires);
        let mut told = Vec::new();
        if until > known.expires {
            self.reservation(&extend.id).expires = until;
            told.push((EventKind::Extended, extend.id.to_string()));
        }
        let unchanged = told.is_empty();
        Ok(Done { unchanged, reservation: Some(known.id), told, ..Done::default() })
    }

    pub(super) fn confirm(&mut self, now: At, confirm: &Confirm) -> Verdict {
        let reservation = Some(confirm.id.clone());
        let known = self.only_in(&confirm.id, &[State::Held, State::Confirmed, State::Cut])?;
        if known.state != State::Held {
            if known.order_reference == confirm.order_reference {
                return Ok(Done { unchanged: true, reservation, ..Done::default() });
            }
            return Err(vec![Refusal::NotNow(known.id, known.state)]);
        }
        let short: Vec<Refusal> = self.short_lines(&known);
        if !short.is_empty() {
            return Err(short);
        }
        let it = self.reservation(&confirm.id);
        it.state = State::Confirmed;
        it.confirmed = Some(now);
        it.order_reference.clone_from(&confirm.order_reference);
        let pieces: BTreeSet<PieceId> = it.lines.iter().map(|line| line.piece.clone()).collect();
        self.settle_all(&pieces);
        let told = vec![(EventKind::Confirmed, confirm.id.to_string())];
        Ok(Done { reservation, told, ..Done::default() })
    }

    /// Each line of a reservation that is short, as a reason to refuse.
    pub(super) fn short_lines(&self, of: &Reservation) -> Vec<Refusal> {
        let short = of.lines.iter().filter(|line| line.wanted > line.granted);
        let told = short.map(|line| Refusal::IsShort {
            reservation: of.id.clone(),
            piece: line.piece.clone(),
            class: self.labels[&line.piece].material.class,
            short: line.wanted - line.granted,
        });
        told.collect()
    }

    pub(super) fn release(&mut self, release: &Release, over: &BTreeSet<ReservationId>) -> Verdict {
        let known = self.only_in(&release.id, &[State::Held, State::Released, State::Expired])?;
        let mut done = Done { reservation: Some(known.id.clone()), ..Done::default() };
        if known.state == State::Held {
            let pieces = self.end(&known.id, State::Released);
            self.settle_all(&pieces);
            done.told.push((EventKind::Released, known.id.to_string()));
        } else {
            done.unchanged = !over.contains(&known.id);
        }
        Ok(done)
    }

    pub(super) fn cancel(&mut self, cancel: &Cancel, over: &BTreeSet<ReservationId>) -> Verdict {
        let live = [State::Held, State::Confirmed, State::Cut];
        let known = self.only_in(
            &cancel.id,
            &[State::Held, State::Confirmed, State::Cut, State::Cancelled, State::Expired],
        )?;
        let mut done = Done { reservation: Some(known.id.clone()), ..Done::default() };
        if live.contains(&known.state) {
            let pieces = self.end(&known.id, State::Cancelled);
            self.reservation(&known.id).reason.clone_from(&cancel.reason);
            self.settle_all(&pieces);
            done.told.push((EventKind::Cancelled, known.id.to_string()));
        } else {
            done.unchanged = !over.contains(&known.id);
        }
        Ok(done)
    }

    pub(super) fn amend(&mut self, amend: &Amend) -> Verdict {
        let mut wrong =
            self.wrong_with(&amend.lines, amend.sale.as_ref().map(|sale| sale.bench_milli_minutes));
        let known = self.only_in(&amend.id, &[State::Held, State::Confirmed]);
        wrong.extend(known.as_ref().err().cloned().into_iter().flatten());
        if amend.ends.is_empty() && amend.lines.is_empty() && amend.sale.is_none() {
            wrong.push(Refusal::Empty);
        }
        let Ok(known) = known else { return Err(wrong) };
        if let Some(planned) = &amend.planned_on {
            let open = known.lines.iter().filter(|line| line.wanted.0 != 0);
            let is: Vec<_> = open.map(|line| (line.number, line.wanted)).collect();
            if is != *planned {
                wrong.push(Refusal::Changed(known.id.clone()));
            }
        }
        for (at, number) in amend.ends.iter().enumerate() {
            if !known.lines.iter().any(|line| line.number == *number && line.wanted.0 > 0) {
                wrong.push(Refusal::NoLine(known.id.clone(), *number));
            }
            if amend.ends[..at].contains(number) {
                wrong.push(Refusal::Twice(number.to_string()));
                wrong.push(Refusal::NoLine(known.id.clone(), *number));
            }
        }
        let goes_on = known.lines.iter().any(|line| line.wanted.0 > 0 && !amend.ends.contains(&line.number));
        let wants = goes_on || !amend.lines.is_empty();
        let was_cut = known.lines.iter().any(|line| line.used.0 > 0 || line.spoiled.0 > 0);
        if !wants && !was_cut {
            wrong.push(Refusal::NothingLeft(known.id.clone()));
        }
        if wrong.iter().any(|it| !matches!(it, Refusal::BadBenchTime(_))) {
            return Err(wrong);
        }

        let it = self.reservation(&amend.id);
        let mut pieces: BTreeSet<PieceId> = amend.lines.iter().map(|line| line.piece.clone()).collect();
        for line in it.lines.iter_mut().filter(|line| amend.ends.contains(&line.number)) {
            line.wanted = Amount(0);
            line.granted = Amount(0);
            pieces.insert(line.piece.clone());
        }
        it.reason.clone_from(&amend.reason);
        if let Some(sale) = &amend.sale {
            // what was finished or given up was sold with the quote before, and stays its own
            for line in it.lines.iter_mut().filter(|line| line.wanted.0 == 0) {
                line.past = true;
            }
            it.quote.clone_from(&sale.quote);
            it.bench_milli_minutes = sale.bench_milli_minutes;
            it.leave_day = sale.leave_day;
            it.sold.clone_from(&sale.sold);
        }
        if !wants {
            it.state = State::Cut;
        }
        let short = self.take(&amend.id, &amend.lines);
        if !short.is_empty() {
            wrong.push(Refusal::Taken(short));
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }
        self.settle_all(&pieces);
        let told = vec![(EventKind::Amended, amend.id.to_string())];
        Ok(Done { reservation: Some(known.id), told, ..Done::default() })
    }
}
