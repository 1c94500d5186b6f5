//! The bench: cuts as planned, cuts that went wrong, remnants, and cuts taken back.

use pennantry_ledger::rules::{
    Class, Command, Cut, CutId, Finish, Line, NewRemnant, Part, PieceId, Reason, State, Undo,
};
use pennantry_measure::Length;

use super::{MM, Shop};
use crate::stock::model::Model;

impl Shop {
    pub(super) fn cut(&mut self, model: &Model) -> Command {
        let state = if self.dice.chance(60) { Some(State::Confirmed) } else { None };
        let reservation = self.a_reservation(model, state);
        let known = model.reservations.get(&reservation).cloned();
        let mut parts = Vec::new();
        if self.dice.chance(65) {
            for line in known.iter().flat_map(|known| &known.lines) {
                if line.wanted.0 > 0 && self.dice.chance(70) || self.dice.chance(2) {
                    let part = self.part(model, line);
                    parts.push(part);
                }
            }
            if self.dice.chance(3)
                && let Some(mut part) = parts.last().cloned()
            {
                part.remnants.clear();
                part.line = if self.dice.chance(50) { part.line } else { 9 };
                parts.push(part);
            }
        }
        let id = match self.cuts.last() {
            Some((last, _)) if self.dice.chance(1) => last.clone(),
            _ => CutId(self.name("c")),
        };
        let today = self.today();
        let day = match self.dice.between(1, 100) {
            1..=80 => None,
            81..=97 => Some(today - i32::try_from(self.dice.between(0, 5)).expect("small")),
            98 => Some(today - 31),
            99 => Some(today - 32),
            _ => Some(today + 1),
        };
        Command::Cut(Cut { id, reservation, parts, day })
    }

    /// Another piece of the same material, or rarely of any.
    fn other_piece(&mut self, model: &Model, line: &Line) -> Option<PieceId> {
        if !self.dice.chance(20) {
            return self.dice.chance(10).then(|| line.piece.clone());
        }
        if self.dice.chance(3) {
            return Some(PieceId::from("no such piece"));
        }
        let own = model.piece(&line.piece)?.material;
        for _ in 0..8 {
            let other = self.a_piece(model);
            if model.piece(&other).is_some_and(|piece| piece.material == own && piece.left.0 > 0) {
                return Some(other);
            }
        }
        Some(self.a_piece(model))
    }

    fn part(&mut self, model: &Model, line: &Line) -> Part {
        let other = self.other_piece(model, line);
        let piece = model.piece(other.as_ref().unwrap_or(&line.piece));
        let left = piece.as_ref().map_or(0, |piece| piece.left.0);
        let wanted = line.wanted.0.max(1);
        let used = match self.dice.between(1, 100) {
            1..=55 => wanted,
            56..=85 => self.dice.between(1, wanted),
            86..=92 => wanted + self.dice.between(1, 40 * MM),
            _ => self.dice.between(0, wanted / 2),
        };
        let mut taken = used;
        let mut spoiled = 0;
        if self.dice.chance(30) {
            spoiled = self.dice.between(1, 1 + wanted / 3);
            taken += spoiled;
        }
        let mut remnants = Vec::new();
        if let Some(piece) = piece.as_ref().filter(|piece| piece.material.class != Class::Sundry)
            && self.dice.chance(30)
        {
            for _ in 0..self.dice.between(1, 2) {
                let full = piece.width.um() == 0 || self.dice.chance(60);
                let length = self.dice.between(1, 1 + left / 5);
                if full {
                    taken += length;
                }
                let (length, width) = if full {
                    (length, piece.width.um())
                } else {
                    let most = if self.dice.chance(90) { used.max(1) } else { taken + 9 };
                    (self.dice.between(1, most), self.dice.between(1, piece.width.um()))
                };
                remnants.push(NewRemnant {
                    id: self.new_piece_name("R"),
                    length: Length::from_um(length),
                    width: Length::from_um(width),
                    location: self.words(),
                });
            }
        }
        self.wreck(model, &mut remnants);
        if self.dice.chance(96) && taken > left && left > 0 && remnants.is_empty() {
            taken = left;
            spoiled = spoiled.min(left);
        }
        let mut part = Part {
            line: line.number,
            piece: other,
            taken: pennantry_ledger::rules::Amount(taken),
            spoiled: pennantry_ledger::rules::Amount(spoiled),
            why: *self.dice.pick(&[Reason::None, Reason::Miscut, Reason::Flaw, Reason::Squaring]),
            shapes: self.dice.chance(30).then(|| u32::try_from(self.dice.between(0, 6)).expect("small")),
            remnants,
            finish: if self.dice.chance(15) { Finish::Done } else { Finish::WhenEnough },
            note: self.words(),
        };
        match self.dice.between(1, 200) {
            1..=3 => part.taken = self.around_amount(left),
            4..=6 => part.spoiled = self.around_amount(taken),
            _ => {}
        }
        part
    }

    /// Spoils a list of remnants, rarely.
    fn wreck(&mut self, model: &Model, remnants: &mut Vec<NewRemnant>) {
        let Some(first) = remnants.first().cloned() else { return };
        match self.dice.between(1, 60) {
            1 => remnants.push(first),
            2 => remnants[0].id = self.a_piece(model),
            3 => remnants[0].length = Length::from_um(*self.dice.pick(&[0, -1, i64::MAX])),
            4 => remnants[0].width = first.width + Length::from_um(1),
            _ => {}
        }
    }

    pub(super) fn undo(&mut self, model: &Model) -> Command {
        let cut = match self.dice.between(1, 100) {
            1..=2 => CutId::from("no such cut"),
            3..=10 if !self.cuts.is_empty() => self.dice.pick(&self.cuts).0.clone(),
            _ => {
                let done = self.cuts.iter().rev().filter(|(id, _)| model.cuts.contains_key(id));
                let last: Vec<&CutId> = done.map(|(id, _)| id).take(4).collect();
                if last.is_empty() { CutId::from("none yet") } else { (*self.dice.pick(&last)).clone() }
            }
        };
        Command::Undo(Undo { cut })
    }
}
