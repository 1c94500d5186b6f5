//! What the bench has cut.
//!
//! Of what is taken off a piece, some may be spoiled and some kept as remnants; the rest is used:
//!
//! ```text
//! used = taken - spoiled - kept        kept: remnants of the piece's full width
//! ```
//!
//! (Narrower remnants come out of what is not kept at full width: they make nothing less.) A line is done once it
//! used as much as it wanted, or where that is said; otherwise it goes on wanting the rest.
//!
//! A cut that is recorded later than it was made counts for the day on which it was, with all that
//! it moves; that day has to be one of the [`Cut::DAYS`] before today.
//!
//! A cut is a fact: it is refused only where it cannot have happened. Cloth it needs beyond what
//! its own line has of the piece comes out of what is free, and where that is too little those
//! lowest in rank are short by it. What comes off another piece takes nothing of what a line has
//! of its own one: of that, only what is no longer wanted goes back.
//!
//! Bolt 3.00 m, promised 2.40 m and 0.50 m. Cut 2.60 m for the first, 0.20 m of it spoiled: 0.40 m
//! lies there, and the second is short by 0.10 m.

use std::collections::BTreeSet;

use pennantry_measure::Length;

use super::receive::{add, is_some_amount};
use super::work::{LineKey, Shift, Work, account_of};
use crate::rules::{
    Account, Amount, Class, Cut, CutPart, CutRow, EventKind, Finish, Flaw, Line, MovementKind, NewRemnant,
    Part, Piece, PieceId, PieceKind, Reason, Refusal, State,
};

/// Records a cut.
pub(super) fn cut(work: &mut Work<'_>, command: &Cut) -> Result<(), Refusal> {
    if work.rows.cuts.contains_key(&command.id) {
        return Err(Refusal::CutExists(command.id.clone()));
    }
    let today = work.today();
    let day = command.day.unwrap_or(today);
    if day > today || today.saturating_sub(day) > Cut::DAYS {
        return Err(Refusal::BadDay { day, today });
    }
    work.day = day;
    let lines = work.live(&command.reservation)?.lines.clone();
    let parts =
        if command.parts.is_empty() { planned(work, command, &lines)? } else { command.parts.clone() };
    let mut named: BTreeSet<&PieceId> = BTreeSet::new();
    for remnant in parts.iter().flat_map(|part| &part.remnants) {
        if work.rows.pieces.contains_key(&remnant.id) {
            return Err(Refusal::PieceExists(remnant.id.clone()));
        }
        if !named.insert(&remnant.id) {
            return Err(Refusal::Twice(remnant.id.to_string()));
        }
    }
    let mut rows = Vec::with_capacity(parts.len());
    for part in &parts {
        rows.push(one(work, command, part)?);
    }
    let reservation = work.reservation_mut(&command.reservation)?;
    if reservation.lines.iter().all(|line| !line.wanted.is_some()) {
        reservation.state = State::Cut;
    }
    let (id, reservation) = (command.id.clone(), command.reservation.clone());
    work.answer = Some(reservation.clone());
    work.add_cut(CutRow { id, reservation, at: work.now, day, undone: false, parts: rows });
    Ok(())
}

/// All that is still wanted, cut as it was planned.
fn planned(work: &Work<'_>, command: &Cut, lines: &[Line]) -> Result<Vec<Part>, Refusal> {
    let mut parts = Vec::new();
    for line in lines.iter().filter(|line| line.wanted.is_some()) {
        if line.short().is_some() {
            return Err(Refusal::IsShort {
                reservation: command.reservation.clone(),
                piece: line.piece.clone(),
                class: work.piece(&line.piece)?.material.class,
                short: line.short(),
            });
        }
        parts.push(Part {
            line: line.number,
            piece: None,
            taken: line.wanted,
            spoiled: Amount::ZERO,
            why: Reason::None,
            shapes: None,
            remnants: Vec::new(),
            finish: Finish::WhenEnough,
            note: String::new(),
        });
    }
    if parts.is_empty() { Err(Refusal::NothingToCut(command.reservation.clone())) } else { Ok(parts) }
}

/// One part of a cut: what came off one piece for one line.
fn one(work: &mut Work<'_>, command: &Cut, part: &Part) -> Result<CutPart, Refusal> {
    let reservation = work.reservation(&command.reservation)?;
    let account = account_of(reservation.state);
    let line = reservation.lines.iter().find(|line| line.number == part.line).cloned();
    let line = line.ok_or_else(|| Refusal::NoLine(command.reservation.clone(), part.line))?;
    if !line.wanted.is_some() {
        return Err(Refusal::NothingToCut(command.reservation.clone()));
    }
    let piece = pieces(work, part, &line)?;
    let kept = fits(&piece, part)?;
    let used = part.taken - part.spoiled - kept;
    let done = part.finish == Finish::Done || used >= line.wanted;
    let wanted = if done { Amount::ZERO } else { line.wanted - used };
    let shapes = part.shapes.unwrap_or(if done { line.shapes.saturating_sub(line.shapes_cut) } else { 0 });
    if shapes > line.shapes {
        let (reservation, line, most) = (command.reservation.clone(), line.number, line.shapes);
        return Err(Refusal::TooManyShapes { reservation, line, shapes, most });
    }

    // what the line has of this piece goes into the cut; had it more than it still wants, that is free
    let here = piece.id == line.piece;
    let granted = match (here, done) {
        (false, _) => Amount::ZERO,
        (true, true) => line.granted.min(part.taken),
        (true, false) => line.granted.min(used),
    };
    let key: LineKey = (command.reservation.clone(), line.number);
    if let Some(line) = work.line_mut(&key) {
        line.granted -= granted;
        line.used += used;
        line.spoiled += part.spoiled;
        line.shapes_cut = line.shapes_cut.saturating_add(shapes);
    }
    work.grant(&key, (line.granted - granted).min(wanted), MovementKind::Release);
    if let Some(line) = work.line_mut(&key) {
        line.wanted = wanted;
    }
    work.touch(&line.piece);

    // others are made to fit into what the last part leaves ([`Work::settle`])
    work.fact(&piece.id, moved(&piece.flaws, part.taken));
    let mut own = granted;
    for (to, amount) in [(Account::Used, used), (Account::Kept, kept), (Account::Spoiled, part.spoiled)] {
        let of_own = own.min(amount);
        own -= of_own;
        let reason = if to == Account::Spoiled { part.why } else { Reason::None };
        let off = Shift {
            reservation: Some(&command.reservation),
            cut: Some(&command.id),
            reason,
            note: &part.note,
            ..Shift::of(MovementKind::Cut, &piece.id, account, to, of_own)
        };
        work.shift(&off);
        work.shift(&Shift { from: Account::Free, amount: amount - of_own, ..off });
    }
    let left = work.piece(&piece.id)?.left;
    work.tell(EventKind::Cut).of(&command.reservation).on(&piece.id).amount(left).note(&part.note);
    for remnant in &part.remnants {
        keep_remnant(work, command, &piece, remnant);
    }
    work.answer_piece(&piece.id);
    Ok(CutPart {
        piece: piece.id,
        line: line.number,
        taken: part.taken,
        spoiled: part.spoiled,
        why: part.why,
        kept,
        shapes,
        served: line.wanted - wanted,
        flaws_before: piece.flaws,
        remnants: part.remnants.iter().map(|remnant| remnant.id.clone()).collect(),
    })
}

/// The piece that was cut: the line's own, or another one of the same material that was there
/// before this cut.
fn pieces(work: &Work<'_>, part: &Part, line: &Line) -> Result<Piece, Refusal> {
    let own = work.piece(&line.piece)?;
    let Some(other) = &part.piece else { return Ok(own.clone()) };
    if !work.rows.pieces.contains_key(other) {
        return Err(Refusal::NoPiece(other.clone()));
    }
    let piece = work.piece(other)?;
    if piece.material != own.material {
        let (is, wanted) = (piece.material.clone(), own.material.clone());
        return Err(Refusal::OtherMaterial { piece: other.clone(), is, wanted });
    }
    Ok(piece.clone())
}

/// Whether a part can have been cut off a piece, and how much of it is kept at full width.
fn fits(piece: &Piece, part: &Part) -> Result<Amount, Refusal> {
    let class = piece.material.class;
    if part.taken > piece.left {
        let (id, taken, left) = (piece.id.clone(), part.taken, piece.left);
        return Err(Refusal::MoreThanLies { piece: id, class, taken, left });
    }
    is_some_amount(class, part.taken)?;
    if part.spoiled < Amount::ZERO {
        return Err(Refusal::BadAmount(class, part.spoiled));
    }
    let taken = part.taken.length();
    let mut kept = Amount::ZERO;
    let mut narrow: Vec<&NewRemnant> = Vec::new();
    for remnant in &part.remnants {
        let is_full = remnant.width == piece.width || class != Class::Cloth;
        let has_width = remnant.width.um() > 0 || (is_full && remnant.width.um() == 0);
        let within = remnant.length.um() > 0 && remnant.length <= taken && remnant.width <= piece.width;
        if !has_width || !within {
            return Err(Refusal::RemnantsDoNotFit(piece.id.clone()));
        }
        if is_full {
            kept += Amount::of_length(remnant.length);
        } else {
            narrow.push(remnant);
        }
    }
    let parts = part.spoiled + kept;
    if parts > part.taken {
        return Err(Refusal::PartsDoNotFit { piece: piece.id.clone(), class, taken: part.taken, parts });
    }
    if !lie_within(&narrow, (part.taken - kept).length(), piece.width) {
        return Err(Refusal::RemnantsDoNotFit(piece.id.clone()));
    }
    Ok(kept)
}

/// Whether remnants can lie beside or behind each other on so much cloth, as far as that is seen
/// without laying them out: none is longer, they have no more cloth together, those wider than half of
/// it lie behind each other, and those longer than half of it beside each other.
fn lie_within(remnants: &[&NewRemnant], length: Length, width: Length) -> bool {
    let sum = |of: &dyn Fn(&NewRemnant) -> i128| -> i128 { remnants.iter().map(|remnant| of(remnant)).sum() };
    let (long, wide) = (length.wide(), width.wide());
    let area = sum(&|remnant| remnant.length.wide() * remnant.width.wide());
    let behind = sum(&|remnant| if remnant.width.wide() * 2 > wide { remnant.length.wide() } else { 0 });
    let beside = sum(&|remnant| if remnant.length.wide() * 2 > long { remnant.width.wide() } else { 0 });
    remnants.iter().all(|remnant| remnant.length <= length)
        && area <= long * wide
        && behind <= long
        && beside <= wide
}

/// Flaws after so much was cut off the free end.
fn moved(flaws: &[Flaw], taken: Amount) -> Vec<Flaw> {
    let off = taken.length();
    let there = flaws.iter().filter(|flaw| flaw.to > off);
    there.map(|flaw| Flaw { from: flaw.from.max(off) - off, to: flaw.to - off }).collect()
}

/// A remnant goes on the shelf as a piece of its own, of the same lot and with the same papers.
fn keep_remnant(work: &mut Work<'_>, command: &Cut, parent: &Piece, remnant: &NewRemnant) {
    let kind = match parent.material.class {
        Class::Cloth => PieceKind::Remnant,
        Class::Binding => PieceKind::Roll,
        Class::Sundry => PieceKind::Box,
    };
    let length = Amount::of_length(remnant.length);
    let piece = Piece {
        id: remnant.id.clone(),
        kind,
        width: remnant.width,
        received: length,
        left: Amount::ZERO,
        held: Amount::ZERO,
        confirmed: Amount::ZERO,
        flaws: Vec::new(),
        parent: Some(parent.id.clone()),
        cut: Some(command.id.clone()),
        location: remnant.location.clone(),
        cost_minor: None,
        order: None,
        at: work.now,
        ..parent.clone()
    };
    let came = Shift {
        reservation: Some(&command.reservation),
        cut: Some(&command.id),
        ..Shift::of(MovementKind::Cut, &remnant.id, Account::Kept, Account::Free, length)
    };
    add(work, piece, &came);
}
