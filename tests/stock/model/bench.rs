//! The bench: what is cut, and what of that is taken back.

use std::collections::{BTreeMap, BTreeSet};

use pennantry_ledger::rules::{
    Amount, At, Class, Cut, CutId, CutPart, CutRow, EventKind, Finish, Flaw, Part, Piece, PieceId, PieceKind,
    Reason, Refusal, Reservation, ReservationId, State, Undo,
};
use pennantry_measure::Length;

use super::shelf::clipped;
use super::{Broken, Done, Fact, Model, Verdict};

/// Flaws after so much was taken off the free end.
fn moved(flaws: &[Flaw], taken: i64) -> Vec<Flaw> {
    let less = |at: Length| Length::from_um((at.um() - taken).max(0));
    let all = flaws.iter().map(|flaw| Flaw { from: less(flaw.from), to: less(flaw.to) });
    all.filter(|flaw| flaw.to > flaw.from).collect()
}

/// Whether rectangles could lie on a rectangle: what can be said of all of them, and of any two.
fn could_lie(all: &[(i128, i128)], length: i128, width: i128) -> bool {
    let cloth: i128 = all.iter().map(|(long, wide)| long * wide).sum();
    let behind: i128 = all.iter().filter(|(_, wide)| wide + wide > width).map(|(long, _)| long).sum();
    let beside: i128 = all.iter().filter(|(long, _)| long + long > length).map(|(_, wide)| wide).sum();
    all.iter().all(|(long, _)| *long <= length)
        && cloth <= length * width
        && behind <= length
        && beside <= width
}

/// What of a part is kept at full width.
fn kept(part: &Part, of: &Piece) -> Amount {
    let full = part.remnants.iter().filter(|remnant| remnant.width == of.width);
    full.map(|remnant| Amount(remnant.length.um())).sum()
}

impl Model {
    /// Everything that speaks against a part, as things stand when its turn comes.
    fn wrong_with_part(&self, known: &Reservation, part: &Part, seen: &mut Vec<PieceId>) -> Vec<Refusal> {
        let Some(line) = known.lines.iter().find(|line| line.number == part.line) else {
            return vec![Refusal::NoLine(known.id.clone(), part.line)];
        };
        let mut wrong = Vec::new();
        if line.wanted.0 == 0 {
            wrong.push(Refusal::NothingToCut(known.id.clone()));
            wrong.push(Refusal::NoLine(known.id.clone(), part.line));
        }
        let name = part.piece.as_ref().unwrap_or(&line.piece);
        let Some(piece) = self.piece(name) else {
            wrong.push(Refusal::NoPiece(name.clone()));
            return wrong;
        };
        if let Some(shapes) = part.shapes.filter(|shapes| *shapes > line.shapes) {
            let (reservation, line, most) = (known.id.clone(), line.number, line.shapes);
            wrong.push(Refusal::TooManyShapes { reservation, line, shapes, most });
        }
        let (id, class, left) = (name.clone(), piece.material.class, piece.left);
        let own = &self.labels[&line.piece].material;
        if piece.material != *own {
            let (is, wanted) = (piece.material.clone(), own.clone());
            wrong.push(Refusal::OtherMaterial { piece: id.clone(), is, wanted });
        }
        if part.taken < Amount(1) || part.taken > Amount::MOST {
            wrong.push(Refusal::BadAmount(class, part.taken));
        }
        if part.spoiled < Amount(0) || part.spoiled > Amount::MOST {
            wrong.push(Refusal::BadAmount(class, part.spoiled));
        }
        if part.taken > left {
            wrong.push(Refusal::MoreThanLies { piece: id.clone(), class, taken: part.taken, left });
        }
        let parts = part.spoiled + kept(part, &piece);
        if parts > part.taken {
            wrong.push(Refusal::PartsDoNotFit { piece: id.clone(), class, taken: part.taken, parts });
        }
        let mut full = 0;
        let mut narrow: Vec<(i128, i128)> = Vec::new();
        for remnant in &part.remnants {
            if remnant.width != piece.width {
                narrow.push((remnant.length.wide(), remnant.width.wide()));
            }
            full += if remnant.width == piece.width { remnant.length.wide() } else { 0 };
            let length = Amount(remnant.length.um());
            if length > part.taken {
                wrong.push(Refusal::RemnantsDoNotFit(id.clone()));
            }
            if length < Amount(1) || length > Amount::MOST {
                wrong.push(Refusal::BadAmount(class, length));
                wrong.push(Refusal::RemnantsDoNotFit(id.clone()));
            }
            if remnant.width > piece.width || remnant.width < Length::from_um(0) {
                wrong.push(Refusal::RemnantsDoNotFit(id.clone()));
                wrong.push(Refusal::BadWidth(remnant.id.clone(), remnant.width));
            }
            if self.labels.contains_key(&remnant.id) && !seen.contains(&remnant.id) {
                wrong.push(Refusal::PieceExists(remnant.id.clone()));
            }
            if seen.contains(&remnant.id) {
                wrong.push(Refusal::Twice(remnant.id.to_string()));
            }
            seen.push(remnant.id.clone());
        }
        let rest = i128::from(part.taken.0) - full;
        if rest < 0 || !could_lie(&narrow, rest, piece.width.wide()) {
            wrong.push(Refusal::RemnantsDoNotFit(id));
        }
        wrong
    }

    pub(super) fn cut_off(&mut self, now: At, cut: &Cut) -> Verdict {
        let mut wrong = Vec::new();
        if self.cuts.contains_key(&cut.id) {
            wrong.push(Refusal::CutExists(cut.id.clone()));
        }
        let (today, day) = (self.today, cut.day.unwrap_or(self.today));
        if !(today - 31..=today).contains(&day) {
            wrong.push(Refusal::BadDay { day, today });
        }
        let known = match self.reservations.get(&cut.reservation) {
            None => {
                wrong.push(Refusal::NoReservation(cut.reservation.clone()));
                return Err(wrong);
            }
            Some(known) => known.clone(),
        };
        match known.state {
            State::Held | State::Confirmed => {}
            State::Expired => wrong.push(Refusal::Expired(known.id.clone(), known.expires)),
            state => wrong.push(Refusal::NotNow(known.id.clone(), state)),
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }
        let parts = if cut.parts.is_empty() {
            wrong.extend(self.short_lines(&known));
            planned(&known)
        } else {
            cut.parts.clone()
        };
        if parts.is_empty() {
            wrong.push(Refusal::NothingToCut(known.id.clone()));
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }

        self.add_cut(CutRow {
            id: cut.id.clone(),
            reservation: cut.reservation.clone(),
            at: now,
            day,
            undone: false,
            parts: Vec::new(),
        });
        let mut done =
            Done { reservation: Some(known.id.clone()), cut: Some(cut.id.clone()), ..Done::default() };
        let mut touched: BTreeSet<PieceId> = BTreeSet::new();
        let mut seen = Vec::new();
        for part in &parts {
            let as_it_is = self.reservations[&known.id].clone();
            let against = self.wrong_with_part(&as_it_is, part, &mut seen);
            if against.is_empty() {
                self.cut_part(now, cut, part, &mut done, &mut touched);
            }
            wrong.extend(against);
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }
        let it = self.reservation(&known.id);
        if it.lines.iter().all(|line| line.wanted.0 == 0) {
            it.state = State::Cut;
        }
        self.settle_all(&touched);
        Ok(done)
    }

    fn cut_part(
        &mut self,
        now: At,
        cut: &Cut,
        part: &Part,
        done: &mut Done,
        touched: &mut BTreeSet<PieceId>,
    ) {
        let spoiled_is_used = self.is(Broken::Spoiled);
        let flaws_stay = self.is(Broken::Flaws);
        let it = self.reservation(&cut.reservation);
        let line = it.lines.iter_mut().find(|line| line.number == part.line).expect("it was looked for");
        let own = line.piece.clone();
        let name = part.piece.clone().unwrap_or_else(|| own.clone());

        let piece = self.piece(&name).expect("it was looked for");
        let kept = kept(part, &piece);
        let used = part.taken - part.spoiled - kept;
        let counts = if spoiled_is_used { used + part.spoiled } else { used };
        let it = self.reservation(&cut.reservation);
        let line = it.lines.iter_mut().find(|line| line.number == part.line).expect("it was looked for");
        let is_done = counts >= line.wanted || part.finish == Finish::Done;
        let rest_of_shapes = if is_done { line.shapes.saturating_sub(line.shapes_cut) } else { 0 };
        let shapes = part.shapes.unwrap_or(rest_of_shapes);
        let served = if is_done { line.wanted } else { counts };
        line.used += used;
        line.spoiled += part.spoiled;
        line.shapes_cut = line.shapes_cut.saturating_add(shapes);
        line.wanted -= served;
        // what comes off another piece takes nothing of what is promised of its own one: of that, only
        // what is no longer wanted goes back
        let stays = if own == name { (line.granted - served).max(Amount(0)) } else { line.granted };
        line.granted = stays.min(line.wanted);

        let left = piece.left.0 - part.taken.0;
        self.fact(&name, Fact::Cut([used.0, part.spoiled.0, kept.0]));
        let after = if flaws_stay { piece.flaws.clone() } else { moved(&piece.flaws, part.taken.0) };
        self.label(&name).flaws = clipped(&after, left);
        for new in &part.remnants {
            let kind = if piece.material.class == Class::Cloth { PieceKind::Remnant } else { piece.kind };
            let remnant = Piece {
                id: new.id.clone(),
                kind,
                width: new.width,
                received: Amount(new.length.um()),
                flaws: Vec::new(),
                parent: Some(name.clone()),
                cut: Some(cut.id.clone()),
                location: new.location.clone(),
                cost_minor: None,
                order: None,
                at: now,
                ..piece.clone()
            };
            self.add_piece(remnant, Fact::CutOff(new.length.um()));
            done.received.push(new.id.clone());
            done.told.push((EventKind::Received, new.id.to_string()));
        }
        self.cut(&cut.id).parts.push(CutPart {
            piece: name.clone(),
            line: part.line,
            taken: part.taken,
            spoiled: part.spoiled,
            why: part.why,
            kept,
            shapes,
            served,
            flaws_before: piece.flaws,
            remnants: part.remnants.iter().map(|remnant| remnant.id.clone()).collect(),
        });
        done.told.push((EventKind::Cut, cut.reservation.to_string()));
        done.pieces.push(name.clone());
        touched.extend([own, name]);
    }

    /// The last cut on a piece that was not taken back: the one that was recorded last, whatever the
    /// clock said.
    fn last_cut(&self, piece: &PieceId) -> Option<&CutId> {
        let stands = |cut: &CutRow| !cut.undone && cut.parts.iter().any(|part| part.piece == *piece);
        self.recorded.iter().rev().find(|id| self.cuts.get(*id).is_some_and(stands))
    }

    pub(super) fn undo(&mut self, now: At, undo: &Undo) -> Verdict {
        let Some(cut) = self.cuts.get(&undo.cut).cloned() else {
            return Err(vec![Refusal::NoCut(undo.cut.clone())]);
        };
        let mut wrong = Vec::new();
        if cut.undone {
            wrong.push(Refusal::AlreadyUndone(cut.id.clone()));
        }
        let until = At(cut.at.0 + Undo::SECONDS * 1_000_000);
        if now > until {
            wrong.push(Refusal::TooLate(cut.id.clone(), until));
        }
        for part in &cut.parts {
            if self.last_cut(&part.piece).is_some_and(|last| *last != cut.id) {
                wrong.push(Refusal::UsedSince(cut.id.clone(), part.piece.clone()));
            }
            for remnant in &part.remnants {
                let it = self.piece(remnant).expect("remnants stay");
                let touched = it.left != it.received || it.held.0 != 0 || it.confirmed.0 != 0;
                if touched || self.last_cut(remnant).is_some() {
                    wrong.push(Refusal::UsedSince(cut.id.clone(), remnant.clone()));
                }
            }
        }
        // nothing holds more than there can be of anything, whatever was found on it since
        let mut there: BTreeMap<&PieceId, i64> = BTreeMap::new();
        for part in cut.parts.iter().rev() {
            let left = there.entry(&part.piece).or_insert_with(|| self.left(&part.piece));
            *left += part.taken.0;
            if *left > Amount::MOST.0 {
                let class = self.labels[&part.piece].material.class;
                wrong.push(Refusal::BadAmount(class, Amount(*left)));
            }
        }
        if self.is(Broken::Undo) {
            wrong.retain(|refusal| !matches!(refusal, Refusal::UsedSince(..)));
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }
        self.cut(&cut.id).undone = true;
        let mut touched: BTreeSet<PieceId> = BTreeSet::new();
        // a reservation of which nothing else was ever cut goes back to what it was cut for, or it
        // would count as cut without a cut
        let it = self.reservation(&cut.reservation);
        let off: i64 = it.lines.iter().map(|line| line.used.0 + line.spoiled.0).sum();
        let by_this: i64 = cut.parts.iter().map(|part| part.taken.0 - part.kept.0).sum();
        if it.state == State::Cut && off == by_this {
            for part in &cut.parts {
                let of = it.lines.iter_mut().filter(|line| line.number == part.line);
                of.for_each(|line| line.past = false);
            }
        }
        for part in cut.parts.iter().rev() {
            self.take_part_back(&cut, part, &mut touched);
        }
        let ends = self.reopen(now, &cut.reservation);
        self.settle_all(&touched);
        let pieces = cut.parts.iter().map(|part| part.piece.clone()).collect();
        let of = cut.reservation.to_string();
        let mut told: Vec<_> = cut.parts.iter().map(|_| (EventKind::Undone, of.clone())).collect();
        told.extend(ends.iter().map(|_| (EventKind::Expired, of.clone())));
        let reservation = Some(cut.reservation);
        Ok(Done { reservation, pieces, cut: Some(cut.id), ends, told, ..Done::default() })
    }

    /// A reservation that was cut whole is live again where it wants something again, unless it
    /// is a hold whose time is over: that one ends here.
    fn reopen(&mut self, now: At, id: &ReservationId) -> Option<ReservationId> {
        self.maybe_live.insert(id.clone());
        let it = self.reservation(id);
        if it.state != State::Cut || it.lines.iter().all(|line| line.wanted.0 == 0) {
            return None;
        }
        it.state = if it.confirmed.is_some() { State::Confirmed } else { State::Held };
        if it.state == State::Held && it.expires <= now {
            self.end(id, State::Expired);
            return Some(id.clone());
        }
        None
    }

    fn take_part_back(&mut self, cut: &CutRow, part: &CutPart, touched: &mut BTreeSet<PieceId>) {
        let used = part.taken - part.spoiled - part.kept;
        self.fact(&part.piece, Fact::Uncut([used.0, part.spoiled.0, part.kept.0]));
        let left = self.left(&part.piece);
        // flaws as they were, unless somebody has looked since: then those that he saw, where
        // they lie now, and those of what was cut off
        let seen = self.labels[&part.piece].flaws.clone();
        let as_cut = clipped(&moved(&part.flaws_before, part.taken.0), left - part.taken.0);
        let flaws = if seen == as_cut {
            part.flaws_before.clone()
        } else {
            let mut both = clipped(&part.flaws_before, part.taken.0);
            for flaw in moved(&seen, -part.taken.0) {
                // one that was cut through is one again
                match both.last_mut() {
                    Some(last) if last.to == flaw.from => last.to = flaw.to,
                    _ => both.push(flaw),
                }
            }
            both
        };
        self.label(&part.piece).flaws = clipped(&flaws, left);
        for remnant in &part.remnants {
            let length = self.left(remnant);
            self.fact(remnant, Fact::WentBack(length));
            self.label(remnant).flaws.clear();
            touched.insert(remnant.clone());
        }
        let it = self.reservation(&cut.reservation);
        let open = matches!(it.state, State::Held | State::Confirmed | State::Cut);
        let line = it.lines.iter_mut().find(|line| line.number == part.line).expect("lines stay");
        // who bought another quote since does not get the cloth of the first one as well
        let wants = open && !line.past;
        line.used -= used;
        line.spoiled -= part.spoiled;
        line.shapes_cut = line.shapes_cut.saturating_sub(part.shapes);
        if wants {
            line.wanted += part.served;
        }
        touched.extend([line.piece.clone(), part.piece.clone()]);
    }
}

/// All that a reservation still wants, each line as it was planned.
fn planned(of: &Reservation) -> Vec<Part> {
    let wanted = of.lines.iter().filter(|line| line.wanted.0 > 0);
    let parts = wanted.map(|line| Part {
        line: line.number,
        piece: None,
        taken: line.wanted,
        spoiled: Amount(0),
        why: Reason::None,
        shapes: None,
        remnants: Vec::new(),
        finish: Finish::WhenEnough,
        note: String::new(),
    });
    parts.collect()
}
