//! An answer of the ledger, held against what it should be.

use std::collections::{BTreeMap, BTreeSet};

use pennantry_ledger::rules::{
    Amount, At, Command, CutRow, Envelope, EventKind, Outcome, PieceId, Promise, Refusal, Reservation,
    ReservationId, State,
};
use pennantry_ledger::{Applied, Error};

use super::{Copies, Done, Model};

/// A line, by its reservation and number.
type LineName = (ReservationId, u32);

/// Fails with words where two things differ.
fn same<T: PartialEq + std::fmt::Debug>(what: &str, told: &T, expected: &T) -> Result<(), String> {
    if told == expected { Ok(()) } else { Err(format!("{what}: told {told:?}\n  expected {expected:?}")) }
}

/// Whether two refusals say the same. Which text a name given twice is told by is not looked
/// at, nor what an amount is of where the piece is not known.
fn says(told: &Refusal, ours: &Refusal) -> bool {
    match (told, ours) {
        (Refusal::Twice(_), Refusal::Twice(_)) => true,
        (Refusal::BadAmount(_, told), Refusal::BadAmount(_, ours)) => told == ours,
        _ => told == ours,
    }
}

fn kind_of(refusal: &Refusal) -> String {
    let words = format!("{refusal:?}");
    words.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default().to_owned()
}

fn name_of(command: &Command) -> String {
    let words = format!("{command:?}");
    words.split('(').next().unwrap_or_default().to_owned()
}

impl Model {
    /// Carries a command out, and says where the ledger's answer is not what it should be.
    ///
    /// # Errors
    /// What is told and what was expected.
    pub fn judge(&mut self, envelope: &Envelope, answer: &Result<Applied, Error>) -> Result<(), String> {
        self.copies = Copies::default();
        if let Some(request) = &envelope.request
            && let Some((body, first)) = self.answers.get(&(request.scope.clone(), request.key.clone()))
        {
            let expected = if *body == request.body {
                Ok(Applied { outcome: first.clone(), replayed: true })
            } else {
                Err(Error::KeyReused)
            };
            let word = if expected.is_ok() { "replayed" } else { "key reused" };
            *self.tally.entry(word.to_owned()).or_default() += 1;
            return same("the answer to a repeated request", answer, &expected);
        }

        let must = self.must_end(envelope);
        let ended: BTreeSet<ReservationId> = match answer {
            Ok(applied) => self.told_to_end(envelope, &applied.outcome, &must)?,
            Err(_) => must.clone(),
        };
        let mut touched = BTreeSet::new();
        for id in &ended {
            touched.extend(self.end(id, State::Expired));
        }
        self.settle_all(&touched);
        let mended = self.changes_of_confirmed();

        self.today = envelope.day;
        let verdict = self.decide(envelope.at, &envelope.command, &ended);
        let name = name_of(&envelope.command);
        match (answer, verdict) {
            (Err(Error::Refused(told)), Err(wrong)) if wrong.iter().any(|ours| says(told, ours)) => {
                *self.tally.entry(format!("{name} {}", kind_of(told))).or_default() += 1;
                self.put_back();
                Ok(())
            }
            (Ok(applied), Ok(done)) => {
                let missing: Vec<_> = must.difference(&ended).collect();
                if !missing.is_empty() && !done.unchanged {
                    return Err(format!("overdue holds not ended: {missing:?}"));
                }
                self.check(envelope, &done, &ended, &applied.outcome)?;
                self.write_diary(envelope, &mended);
                let word = if done.unchanged { " unchanged" } else { "" };
                *self.tally.entry(format!("{name}{word}")).or_default() += 1;
                self.keep(envelope, done, &ended, applied);
                Ok(())
            }
            (told, Ok(done)) => Err(format!("told {told:?}\n  expected it to be carried out: {done:?}")),
            (told, Err(wrong)) => Err(format!("told {told:?}\n  expected it to be refused: {wrong:?}")),
        }
    }

    fn keep(&mut self, envelope: &Envelope, done: Done, ended: &BTreeSet<ReservationId>, applied: &Applied) {
        self.told.extend(done.told);
        self.told.extend(ended.iter().map(|id| (EventKind::Expired, id.to_string())));
        let promises = applied.outcome.promises.iter();
        self.told.extend(promises.map(|promise| {
            let less = promise.short < promise.short_before;
            (if less { EventKind::Mended } else { EventKind::Shortened }, promise.reservation.to_string())
        }));
        if let Some(request) = &envelope.request {
            let key = (request.scope.clone(), request.key.clone());
            self.answers.insert(key, (request.body, applied.outcome.clone()));
        }
        for id in self.copies.reservations.keys() {
            if !matches!(self.reservations[id].state, State::Held | State::Confirmed) {
                self.maybe_live.remove(id);
            }
        }
    }

    /// Pieces that a command names, itself or by the reservations and cuts that it names; and
    /// those reservations.
    pub(super) fn named(&self, command: &Command) -> (BTreeSet<PieceId>, BTreeSet<ReservationId>) {
        let mut pieces = BTreeSet::new();
        let mut reservations = BTreeSet::new();
        match command {
            Command::Adjust(adjust) => drop(pieces.insert(adjust.piece.clone())),
            Command::Reserve(reserve) => {
                pieces.extend(reserve.lines.iter().map(|line| line.piece.clone()));
                reservations.extend(reserve.supersedes.clone());
            }
            Command::Extend(it) => drop(reservations.insert(it.id.clone())),
            Command::Confirm(it) => drop(reservations.insert(it.id.clone())),
            Command::Release(it) => drop(reservations.insert(it.id.clone())),
            Command::Cancel(it) => drop(reservations.insert(it.id.clone())),
            Command::Amend(amend) => {
                pieces.extend(amend.lines.iter().map(|line| line.piece.clone()));
                reservations.insert(amend.id.clone());
            }
            Command::Cut(cut) => {
                pieces.extend(cut.parts.iter().filter_map(|part| part.piece.clone()));
                reservations.insert(cut.reservation.clone());
            }
            Command::Undo(undo) => {
                if let Some(cut) = self.cuts.get(&undo.cut) {
                    reservations.insert(cut.reservation.clone());
                    pieces.extend(cut.parts.iter().map(|part| part.piece.clone()));
                    pieces.extend(cut.parts.iter().flat_map(|part| part.remnants.clone()));
                }
            }
            Command::Receive(_) | Command::Place(_) | Command::CancelOrder(_) | Command::Sweep(_) => {}
        }
        for id in &reservations {
            let lines = self.reservations.get(id).map_or(&[][..], |known| &known.lines);
            pieces.extend(lines.iter().map(|line| line.piece.clone()));
        }
        (pieces, reservations)
    }

    /// Overdue holds that stand on one of these pieces.
    fn overdue_on(&self, now: At, pieces: &BTreeSet<PieceId>) -> BTreeSet<ReservationId> {
        let on = |hold: &&Reservation| {
            hold.lines.iter().any(|line| line.wanted.0 > 0 && pieces.contains(&line.piece))
        };
        self.overdue(now).into_iter().filter(on).map(|hold| hold.id.clone()).collect()
    }

    /// Overdue holds that have to be ended with a command.
    fn must_end(&self, envelope: &Envelope) -> BTreeSet<ReservationId> {
        let (pieces, named) = self.named(&envelope.command);
        let mut must = self.overdue_on(envelope.at, &pieces);
        let overdue = self.overdue(envelope.at);
        must.extend(overdue.iter().map(|hold| hold.id.clone()).filter(|id| named.contains(id)));
        if let Command::Sweep(sweep) = &envelope.command {
            // the longest overdue first; among those of one instant any
            let mut instants: Vec<At> = overdue.iter().map(|hold| hold.expires).collect();
            instants.sort();
            let most = usize::try_from(sweep.most).expect("small");
            if let Some(last) = instants.get(most) {
                must.extend(overdue.iter().filter(|it| it.expires < *last).map(|hold| hold.id.clone()));
            } else {
                must.extend(overdue.iter().map(|hold| hold.id.clone()));
            }
        }
        must
    }

    /// The overdue holds that the ledger says it ended, where it may have.
    fn told_to_end(
        &self,
        envelope: &Envelope,
        outcome: &Outcome,
        must: &BTreeSet<ReservationId>,
    ) -> Result<BTreeSet<ReservationId>, String> {
        let mut told: BTreeSet<ReservationId> = outcome.ended.iter().cloned().collect();
        same("ended, each once", &outcome.ended.len(), &told.len())?;
        // what the command itself ends is looked at when it is carried out
        match &envelope.command {
            Command::Reserve(reserve) => told.retain(|id| Some(id) != reserve.supersedes.as_ref()),
            Command::Undo(undo) => {
                let own = self.cuts.get(&undo.cut).and_then(|cut| self.reservations.get(&cut.reservation));
                let own = own.filter(|own| own.state == State::Cut);
                told.retain(|id| own.is_none_or(|own| own.id != *id));
            }
            _ => {}
        }
        // what may be ended: whatever is reached from what has to be
        let (mut pieces, _) = self.named(&envelope.command);
        let mut may = must.clone();
        if matches!(&envelope.command, Command::Sweep(sweep) if sweep.most > 0) {
            may.extend(self.overdue(envelope.at).into_iter().map(|hold| hold.id.clone()));
        }
        loop {
            let before = may.len();
            for id in &may {
                pieces.extend(self.reservations[id].lines.iter().map(|line| line.piece.clone()));
            }
            may.extend(self.overdue_on(envelope.at, &pieces));
            if may.len() == before {
                break;
            }
        }
        let wrong: Vec<_> = told.difference(&may).collect();
        if wrong.is_empty() { Ok(told) } else { Err(format!("ended, and may not be: {wrong:?}")) }
    }

    fn check(
        &self,
        envelope: &Envelope,
        done: &Done,
        ended: &BTreeSet<ReservationId>,
        outcome: &Outcome,
    ) -> Result<(), String> {
        same("the instant", &outcome.at, &envelope.at)?;
        same("what came", &outcome.received, &done.received)?;
        let expected = done.reservation.as_ref().map(|id| self.reservations[id].clone());
        same("the reservation", &outcome.reservation, &expected)?;
        let expected: Option<CutRow> = done.cut.as_ref().map(|id| self.cuts[id].clone());
        same("the cut", &outcome.cut, &expected)?;
        let mut expected = done.order.as_ref().map(|id| self.orders[id].clone());
        if let (Some(ours), Some(told)) = (&mut expected, &outcome.order) {
            // what is noted with an order that is called off is nobody's rule
            ours.note.clone_from(&told.note);
        }
        same("the order", &outcome.order, &expected)?;
        let told: BTreeSet<&PieceId> = outcome.pieces.iter().map(|piece| &piece.id).collect();
        same("the pieces told of", &told, &done.pieces.iter().collect())?;
        for piece in &outcome.pieces {
            same("a piece", &Some(piece), &self.piece(&piece.id).as_ref())?;
        }
        let gone: BTreeSet<ReservationId> = outcome.ended.iter().cloned().collect();
        let expected = ended.iter().chain(&done.ends).cloned().collect();
        same("those ended", &gone, &expected)?;
        self.check_promises(envelope, outcome)
    }

    /// Promises that a fact changed: those told of against what they were and are.
    fn check_promises(&self, envelope: &Envelope, outcome: &Outcome) -> Result<(), String> {
        // of the reservation that is cut for or amended only what it is in the end is compared:
        // what it wants changes with the command itself
        let own = match &envelope.command {
            Command::Cut(cut) => Some(&cut.reservation),
            Command::Undo(undo) => self.cuts.get(&undo.cut).map(|cut| &cut.reservation),
            Command::Amend(amend) => Some(&amend.id),
            _ => None,
        };
        let mut told: BTreeMap<LineName, (Amount, Promise)> = BTreeMap::new();
        for promise in &outcome.promises {
            let line = (promise.reservation.clone(), promise.line);
            let first = told.get(&line).map_or(promise.short_before, |(first, _)| *first);
            told.insert(line, (first, promise.clone()));
        }
        told.retain(|line, (first, promise)| Some(&line.0) == own || *first != promise.short);
        for (line, (_, promise)) in &told {
            let it = &self.reservations[&line.0];
            let row = it.lines.iter().find(|row| row.number == line.1);
            let row = row.ok_or_else(|| format!("a promise of no line: {promise:?}"))?;
            same("what a promise lacks", &promise.short, &(row.wanted - row.granted))?;
            same("of which piece", &promise.piece, &row.piece)?;
            same("where it stands", &promise.state, &it.state)?;
        }
        let mut expected = BTreeMap::new();
        for (id, before) in &self.copies.reservations {
            let (Some(before), after) = (before, &self.reservations[id]) else { continue };
            let live = |it: &Reservation| matches!(it.state, State::Held | State::Confirmed);
            if Some(id) == own || !live(before) || !live(after) {
                continue;
            }
            for (was, is) in before.lines.iter().zip(&after.lines) {
                let (was_short, is_short) = (was.wanted - was.granted, is.wanted - is.granted);
                if was_short != is_short {
                    expected.insert((id.clone(), is.number), (was_short, is_short));
                }
            }
        }
        told.retain(|line, _| Some(&line.0) != own);
        let told = told.into_iter().map(|(line, (first, promise))| (line, (first, promise.short))).collect();
        same("promises that changed", &told, &expected)
    }
}
