//! Buyers: they take, wait, confirm, let go and change their minds.

use pennantry_ledger::rules::{
    Amend, Cancel, Command, Confirm, Extend, NewLine, Release, Reservation, ReservationId, Reserve, Sale,
    State,
};

use super::Shop;
use crate::stock::model::Model;

impl Shop {
    fn new_line(&mut self, model: &Model, like: Option<&Reservation>) -> NewLine {
        let piece = match like {
            Some(like) if !like.lines.is_empty() && self.dice.chance(40) => {
                self.dice.pick(&like.lines).piece.clone()
            }
            _ => self.a_piece(model),
        };
        let free = model.longest(&piece);
        let free = if self.dice.chance(85) { free } else { model.left(&piece) };
        NewLine {
            piece,
            item: u32::try_from(self.dice.between(1, 5)).expect("small"),
            amount: self.around_amount(free),
            shapes: u32::try_from(self.dice.between(0, 12)).expect("small"),
            shape_area: match self.dice.between(1, 100) {
                1 => -1,
                2..=30 => 0,
                _ => self.dice.between(1, 90_000_000_000),
            },
        }
    }

    fn holder(&mut self) -> String {
        (*self.dice.pick(&["wren", "198.51.100.7", "key a", "key b"])).to_owned()
    }

    fn bench(&mut self) -> i64 {
        if self.dice.chance(1) { -1 } else { self.dice.between(0, 90_000) }
    }

    pub(super) fn reserve(&mut self, model: &Model) -> Command {
        let mut holder = self.holder();
        let mut like = None;
        let mut supersedes = None;
        if self.dice.chance(15) {
            let old = self.a_reservation(model, Some(State::Held));
            like = model.reservations.get(&old).cloned();
            if let Some(old) = &like
                && self.dice.chance(92)
            {
                holder.clone_from(&old.holder);
            }
            supersedes = Some(old);
        }
        let lines = if self.dice.chance(1) { 0 } else { self.dice.between(1, 3) };
        let lines = (0..lines).map(|_| self.new_line(model, like.as_ref())).collect();
        let id = match self.dice.between(1, 100) {
            1 => self.a_reservation(model, None),
            _ => ReservationId(self.name("r")),
        };
        Command::Reserve(Reserve {
            id,
            holder,
            most_holds: self.dice.chance(40).then(|| u32::try_from(self.dice.between(0, 12)).expect("small")),
            seconds: match self.dice.between(1, 100) {
                1 => *self.dice.pick(&[0, -1, i64::MIN]),
                2..=40 => self.dice.between(1, 120),
                41..=80 => self.dice.between(60, 1_800),
                _ => self.dice.between(1_800, 86_400),
            },
            quote: self.words(),
            bench_milli_minutes: self.bench(),
            leave_day: self.dice.chance(50).then_some(20_750),
            sold: if self.dice.chance(30) { vec![0, 255, 7] } else { Vec::new() },
            lines,
            supersedes,
        })
    }

    pub(super) fn extend(&mut self, model: &Model) -> Command {
        let id = self.a_reservation(model, Some(State::Held));
        let seconds = match self.dice.between(1, 100) {
            1..=2 => *self.dice.pick(&[0, -7]),
            _ => self.dice.between(1, 3_600),
        };
        let most_seconds = if self.dice.chance(2) { -1 } else { self.dice.between(60, 90_000) };
        Command::Extend(Extend { id, seconds, most_seconds })
    }

    pub(super) fn confirm(&mut self, model: &Model) -> Command {
        let state = if self.dice.chance(85) { Some(State::Held) } else { None };
        let id = self.a_reservation(model, state);
        let known = model.reservations.get(&id).map(|known| known.order_reference.clone());
        let order_reference = match known.filter(|known| !known.is_empty()) {
            Some(known) if self.dice.chance(70) => known,
            _ => format!("S-{}", self.dice.between(1, 9_999)),
        };
        Command::Confirm(Confirm { id, order_reference })
    }

    pub(super) fn release(&mut self, model: &Model) -> Command {
        let state = if self.dice.chance(85) { Some(State::Held) } else { None };
        Command::Release(Release { id: self.a_reservation(model, state) })
    }

    pub(super) fn cancel(&mut self, model: &Model) -> Command {
        Command::Cancel(Cancel { id: self.a_reservation(model, None), reason: self.words() })
    }

    pub(super) fn amend(&mut self, model: &Model) -> Command {
        let id = self.a_reservation(model, None);
        let known = model.reservations.get(&id).cloned();
        let mut ends = Vec::new();
        for line in known.iter().flat_map(|known| &known.lines) {
            let likely = if line.wanted.0 > 0 { 50 } else { 2 };
            if self.dice.chance(likely) {
                ends.push(line.number);
            }
        }
        if self.dice.chance(2) {
            ends.push(9);
        }
        if self.dice.chance(2) {
            ends.extend(ends.clone());
        }
        let least = i64::from(self.dice.chance(80));
        let lines = (0..self.dice.between(least, 2)).map(|_| self.new_line(model, known.as_ref())).collect();
        let sale = self.dice.chance(40).then(|| Sale {
            quote: self.words(),
            bench_milli_minutes: self.bench(),
            leave_day: None,
            sold: vec![1, 2, 3],
        });
        let mut planned_on: Option<Vec<_>> = known.filter(|_| self.dice.chance(60)).map(|known| {
            let open = known.lines.iter().filter(|line| line.wanted.0 > 0);
            open.map(|line| (line.number, line.wanted)).collect()
        });
        // planned on what was so before
        if let Some((_, wanted)) = planned_on.iter_mut().flatten().last()
            && self.dice.chance(5)
        {
            wanted.0 += 1;
        }
        Command::Amend(Amend { id, ends, planned_on, lines, sale, reason: self.words() })
    }
}
