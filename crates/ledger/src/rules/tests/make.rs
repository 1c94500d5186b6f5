//! Short ways to write things down. Lengths are given in hundredths of a metre.

use pennantry_measure::Length;

use super::memory::Memory;
use crate::rules::{
    Adjust, Adjustment, Amend, Amount, At, Cancel, Class, Command, Confirm, Cut, Extend, Finish, Flaw,
    Material, NewLine, NewPiece, NewRemnant, Part, Piece, PieceKind, Reason, Receive, Release, Reserve, Undo,
};

pub const T0: At = At(1_780_000_000_000_000);
/// The area of a shape here: a fifth of a square metre.
pub const SHAPE: i64 = 200_000_000_000;
/// How long holds are for here.
pub const HOLD: i64 = 1_800;

pub fn at(seconds: i64) -> At {
    T0.after_seconds(seconds)
}

pub fn cm(cm: i64) -> Amount {
    Amount(cm * 10_000)
}

pub fn flaw(from: i64, to: i64) -> Flaw {
    Flaw { from: cm(from).length(), to: cm(to).length() }
}

pub fn kelp() -> Material {
    Material { class: Class::Cloth, code: "KELP".to_owned() }
}

/// A bolt of Kelp, 1.40 m wide.
pub fn bolt(id: &str, holds: i64) -> NewPiece {
    NewPiece {
        id: id.into(),
        kind: PieceKind::Bolt,
        material: kelp(),
        lot: "L1".to_owned(),
        width: Length::from_mm(1_400),
        amount: cm(holds),
        flaws: Vec::new(),
        location: "rack".to_owned(),
        cost_minor: Some(2_100),
        supplier: "Harbour Cloth".to_owned(),
        supplier_reference: "HC-9".to_owned(),
        certificates: vec!["C-1".to_owned()],
    }
}

pub fn roll(id: &str, holds: i64) -> NewPiece {
    let material = Material { class: Class::Binding, code: "TAPE".to_owned() };
    NewPiece { kind: PieceKind::Roll, material, width: Length::ZERO, ..bolt(id, holds) }
}

pub fn buttons(id: &str, many: i64) -> NewPiece {
    let material = Material { class: Class::Sundry, code: "BUTTON".to_owned() };
    NewPiece { kind: PieceKind::Box, material, width: Length::ZERO, amount: Amount(many), ..bolt(id, 1) }
}

pub fn receive(pieces: Vec<NewPiece>) -> Command {
    Command::Receive(Receive { pieces, order: None })
}

pub fn line(piece: &str, amount: i64) -> NewLine {
    NewLine { piece: piece.into(), item: 1, amount: cm(amount), shapes: 10, shape_area: SHAPE }
}

pub fn hold(id: &str, lines: Vec<NewLine>) -> Reserve {
    Reserve {
        id: id.into(),
        holder: "ada".to_owned(),
        most_holds: None,
        seconds: HOLD,
        quote: "q".to_owned(),
        bench_milli_minutes: 12_000,
        leave_day: Some(20_010),
        sold: vec![1, 2],
        lines,
        supersedes: None,
    }
}

pub fn reserve(id: &str, lines: &[(&str, i64)]) -> Command {
    Command::Reserve(hold(id, lines.iter().map(|(piece, amount)| line(piece, *amount)).collect()))
}

pub fn extend(id: &str, seconds: i64, most_seconds: i64) -> Command {
    Command::Extend(Extend { id: id.into(), seconds, most_seconds })
}

pub fn confirm(id: &str, reference: &str) -> Command {
    Command::Confirm(Confirm { id: id.into(), order_reference: reference.to_owned() })
}

pub fn release(id: &str) -> Command {
    Command::Release(Release { id: id.into() })
}

pub fn cancel(id: &str) -> Command {
    Command::Cancel(Cancel { id: id.into(), reason: "called off".to_owned() })
}

pub fn amend(id: &str, ends: &[u32], lines: Vec<NewLine>) -> Command {
    Command::Amend(Amend {
        id: id.into(),
        ends: ends.to_vec(),
        planned_on: None,
        lines,
        sale: None,
        reason: "other cloth".to_owned(),
    })
}

pub fn part(line: u32, taken: i64) -> Part {
    Part {
        line,
        piece: None,
        taken: cm(taken),
        spoiled: cm(0),
        why: Reason::None,
        shapes: None,
        remnants: Vec::new(),
        finish: Finish::WhenEnough,
        note: String::new(),
    }
}

pub fn remnant(id: &str, length: i64, width_mm: i64) -> NewRemnant {
    NewRemnant {
        id: id.into(),
        length: cm(length).length(),
        width: Length::from_mm(width_mm),
        location: "remnants".to_owned(),
    }
}

pub fn cut(id: &str, reservation: &str, parts: Vec<Part>) -> Command {
    Command::Cut(Cut { id: id.into(), reservation: reservation.into(), parts, day: None })
}

pub fn undo(cut: &str) -> Command {
    Command::Undo(Undo { cut: cut.into() })
}

pub fn adjust(piece: &str, what: Adjustment) -> Command {
    Command::Adjust(Adjust { piece: piece.into(), what, note: "looked".to_owned() })
}

pub fn counted(piece: &str, amount: i64) -> Command {
    adjust(piece, Adjustment::Counted(cm(amount)))
}

/// A loft with these pieces on its shelf.
pub fn loft(pieces: Vec<NewPiece>) -> Memory {
    let mut memory = Memory::default();
    memory.run(receive(pieces), T0).unwrap();
    memory
}

impl Memory {
    /// Carries a command out that is not refused.
    pub fn does(&mut self, command: Command, seconds: i64) -> crate::rules::Outcome {
        let outcome = self.run(command, at(seconds)).unwrap();
        self.check(at(seconds));
        outcome
    }

    pub fn on(&self, piece: &str) -> &Piece {
        &self.pieces[&piece.into()]
    }

    /// Left, held and confirmed, in hundredths of a metre.
    pub fn balance(&self, piece: &str) -> [i64; 3] {
        let piece = self.on(piece);
        [piece.left, piece.held, piece.confirmed].map(|amount| amount.0 / 10_000)
    }

    /// What each line wants and was granted, in hundredths of a metre.
    pub fn lines(&self, reservation: &str) -> Vec<(i64, i64)> {
        let lines = &self.reservations[&reservation.into()].lines;
        lines.iter().map(|line| (line.wanted.0 / 10_000, line.granted.0 / 10_000)).collect()
    }

    pub fn state(&self, reservation: &str) -> crate::rules::State {
        self.reservations[&reservation.into()].state
    }
}
