//! What each day did with each material, in words of its own: not added to command by command, but
//! told from the diary of what happened and from the cuts that still stand. A cut that was taken
//! back is as if it had never been.

use std::collections::BTreeMap;

use pennantry_ledger::rules::{
    Adjustment, At, Class, Command, CutId, DayUse, Envelope, Material, PieceId, Reason, ReservationId, State,
};

use super::{Broken, Fact, Model};

/// A lot of a material on a day.
pub type Day = (Material, String, i32);

/// What happened, day by day, apart from cuts.
#[derive(Debug, Default)]
pub struct Diary {
    came: Vec<(i32, PieceId)>,
    /// So much more or less was found to be so, or is gone, and why.
    otherwise: Vec<(i32, PieceId, i64, Reason)>,
    /// So much more or less is confirmed.
    confirmed: Vec<(i32, PieceId, i64)>,
    /// Something was written for the day after it was over.
    late: Vec<(i32, PieceId, At)>,
    /// What each line of a confirmed reservation has.
    has: BTreeMap<(ReservationId, u32), i64>,
}

/// A line, its piece, and what it has confirmed by now.
pub(super) type Changed = ((ReservationId, u32), PieceId, i64);

impl Diary {
    fn confirm(&mut self, day: i32, changed: &[Changed]) {
        for (name, piece, now) in changed {
            let had = self.has.insert(name.clone(), *now).unwrap_or(0);
            self.confirmed.push((day, piece.clone(), now - had));
        }
    }
}

fn cut_in(command: &Command) -> Option<&CutId> {
    match command {
        Command::Cut(cut) => Some(&cut.id),
        Command::Undo(undo) => Some(&undo.cut),
        _ => None,
    }
}

impl Model {
    /// Writes down what a command did that was carried out.
    pub(super) fn write_diary(&mut self, envelope: &Envelope, mended: &[Changed]) {
        let today = envelope.day;
        let named = cut_in(&envelope.command).and_then(|id| self.cuts.get(id)).cloned();
        let day = if self.is(Broken::Midnight) { today } else { named.as_ref().map_or(today, |cut| cut.day) };
        let mut diary = std::mem::take(&mut self.diary);
        let mut seen: Vec<PieceId> = Vec::new();
        // what came free of holds that are over is given today, whatever the command is about
        diary.confirm(today, mended);
        for (piece, before) in &self.copies.facts {
            for fact in &self.facts[piece][*before..] {
                match *fact {
                    Fact::Came(_) => diary.came.push((day, piece.clone())),
                    Fact::Otherwise(amount) => {
                        let reason = match &envelope.command {
                            Command::Adjust(adjust) => match adjust.what {
                                Adjustment::Gone(_, reason) => reason,
                                _ => Reason::None,
                            },
                            _ => Reason::None,
                        };
                        diary.otherwise.push((day, piece.clone(), amount, reason));
                    }
                    _ => {}
                }
                seen.push(piece.clone());
            }
        }
        self.diary = diary;
        let changed = self.changes_of_confirmed();
        diary = std::mem::take(&mut self.diary);
        seen.extend(changed.iter().map(|(_, piece, _)| piece.clone()));
        diary.confirm(day, &changed);
        if day < today {
            diary.late.extend(seen.into_iter().map(|piece| (day, piece, envelope.at)));
        }
        self.diary = diary;
    }

    /// Lines that have more or less confirmed than is written in the diary.
    pub(super) fn changes_of_confirmed(&self) -> Vec<Changed> {
        let mut changed = Vec::new();
        for id in self.copies.reservations.keys() {
            let Some(it) = self.reservations.get(id) else { continue };
            for line in &it.lines {
                let now = if it.state == State::Confirmed { line.granted.0 } else { 0 };
                let name = (id.clone(), line.number);
                if self.diary.has.get(&name).copied().unwrap_or(0) != now {
                    changed.push((name, line.piece.clone(), now));
                }
            }
        }
        changed
    }

    fn lot_on(&self, day: i32, piece: &PieceId) -> Day {
        let label = &self.labels[piece];
        (label.material.clone(), label.lot.clone(), day)
    }

    /// What each day did with each lot, where it did anything.
    pub fn days(&self) -> BTreeMap<Day, DayUse> {
        let mut days: BTreeMap<Day, DayUse> = BTreeMap::new();
        for (day, piece) in &self.diary.came {
            days.entry(self.lot_on(*day, piece)).or_default().came += self.labels[piece].received;
        }
        for (day, piece, amount, reason) in &self.diary.otherwise {
            let of = days.entry(self.lot_on(*day, piece)).or_default();
            let lost = pennantry_ledger::rules::Amount(-amount);
            match reason {
                Reason::Damaged | Reason::Miscut => of.spoiled += lost,
                Reason::Squaring | Reason::EndBit => of.ends += lost,
                Reason::Flaw => of.flawed += lost,
                _ => of.other -= lost,
            }
        }
        for (day, piece, more) in &self.diary.confirmed {
            days.entry(self.lot_on(*day, piece)).or_default().promised.0 += more;
        }
        self.cuts_that_stand(&mut days);
        for (day, piece, at) in &self.diary.late {
            let of = days.entry(self.lot_on(*day, piece)).or_default();
            of.late_at = of.late_at.max(Some(*at));
        }
        days.retain(|_, of| *of != DayUse::default());
        days
    }

    fn cuts_that_stand(&self, days: &mut BTreeMap<Day, DayUse>) {
        for cut in self.cuts.values().filter(|cut| !cut.undone) {
            let lines = &self.reservations[&cut.reservation].lines;
            let shape =
                |number| lines.iter().find(|line| line.number == number).map_or(0, |line| line.shape_area);
            let mut used_of: Vec<Day> = Vec::new();
            for part in &cut.parts {
                let piece = &self.labels[&part.piece];
                let key = self.lot_on(cut.day, &part.piece);
                let of = days.entry(key.clone()).or_default();
                let used = part.taken - part.spoiled - part.kept;
                of.used += used;
                match part.why {
                    Reason::Squaring | Reason::EndBit if !self.is(Broken::Ends) => of.ends += part.spoiled,
                    Reason::Flaw => of.flawed += part.spoiled,
                    _ => of.spoiled += part.spoiled,
                }
                if used.0 > 0 {
                    used_of.push(key);
                }
                let mut area = used.0 * piece.width.um();
                for name in &part.remnants {
                    let remnant = &self.labels[name];
                    if remnant.width != piece.width && !self.is(Broken::Strips) {
                        of.narrow += remnant.received;
                        area -= remnant.received.0 * remnant.width.um();
                    }
                }
                if piece.material.class != Class::Cloth {
                    continue;
                }
                of.used_area += area;
                let same = cut.parts.iter().filter(|other| other.piece == part.piece);
                if same.clone().all(|other| shape(other.line) > 0) {
                    of.drawn_area += area;
                    of.net_area += i64::from(part.shapes) * shape(part.line);
                }
            }
            used_of.sort();
            used_of.dedup();
            for key in used_of {
                days.entry(key).or_default().cuts += 1;
            }
        }
    }
}
