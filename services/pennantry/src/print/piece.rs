//! Pieces: a table of many, all there is to say of one.

use pennantry_contract::{table, v1};

use super::{Look, or_dash, promise, replayed, reservation, second};
use crate::sheet::counted;
use crate::sheet::page::{Page, Side};
use crate::typed::amount::{is_some, told};
use crate::words;

/// The list of what lies on the shelf.
pub fn list(pieces: &[v1::StockPiece], as_of: &str, look: &Look) -> String {
    let mut page = look.page();
    page.heading(&format!("SHELF as of {}", second(as_of)));
    if pieces.is_empty() {
        page.line("nothing lies there that was asked for");
        return page.finish();
    }
    rows(&mut page, pieces, look);
    page.line(&number_of(pieces.len()));
    page.finish()
}

/// A number of pieces in words.
pub fn number_of(pieces: usize) -> String {
    u32::try_from(pieces)
        .map_or_else(|_| format!("{pieces} pieces"), |count| counted(count, "piece", "pieces"))
}

/// A line a piece.
pub fn rows(page: &mut Page, pieces: &[v1::StockPiece], look: &Look) {
    let mut rows = vec![header(["label", "code", "lot", "left", "free", "longest", "lies", ""])];
    for piece in pieces {
        rows.push(vec![
            piece.piece_id.clone(),
            piece.code.clone(),
            or_dash(&piece.lot),
            told(piece.left.as_ref(), look.unit),
            told(piece.free.as_ref(), look.unit),
            told(piece.longest.as_ref(), look.unit),
            or_dash(&piece.location),
            besides(piece, look),
        ]);
    }
    let (left, right) = (Side::Left, Side::Right);
    page.table(&[left, left, left, right, right, right, left, left], &rows);
}

/// The head of a table.
pub fn header<const N: usize>(words: [&str; N]) -> Vec<String> {
    words.into_iter().map(str::to_owned).collect()
}

/// What is not usual of a piece: what it is, what is promised of it, its flaws, a width.
fn besides(piece: &v1::StockPiece, look: &Look) -> String {
    let mut parts = Vec::new();
    if piece.kind() == v1::PieceKind::Remnant {
        parts.push(format!("remnant {} wide", look.unit.shown(piece.width_mm)));
    }
    for (amount, what) in [(&piece.held, "held"), (&piece.confirmed, "confirmed")] {
        if is_some(amount.as_ref()) {
            parts.push(format!("{} {what}", told(amount.as_ref(), look.unit)));
        }
    }
    if let Ok(flaws @ 1..) = u32::try_from(piece.flaws.len()) {
        parts.push(counted(flaws, "flaw", "flaws"));
    }
    parts.join(", ")
}

/// One piece, what is promised of it and its history.
pub fn one(told: &v1::GetPieceResponse, look: &Look) -> String {
    let mut page = look.page();
    if let Some(piece) = &told.piece {
        whole(&mut page, piece, look);
    }
    page.heading("PROMISED OF IT");
    if told.reservations.is_empty() {
        page.line("nothing");
    }
    reservation::rows(&mut page, &told.reservations, look);
    page.heading("MOVED, the first one first");
    movements(&mut page, &told.movements, look);
    page.finish()
}

/// All that is known of a piece.
fn whole(page: &mut Page, piece: &v1::StockPiece, look: &Look) {
    let amount = |of: &Option<v1::Quantity>| told(of.as_ref(), look.unit);
    page.heading(&format!("PIECE {}", piece.piece_id));
    let kind = words::told(&table::PIECE_KIND, piece.kind).unwrap_or_else(|| "piece".to_owned());
    let mut pairs = vec![
        ("material", format!("{kind} of {}", piece.code)),
        ("dye lot", or_dash(&piece.lot)),
        ("lies", or_dash(&piece.location)),
        ("left", amount(&piece.left)),
        ("free", amount(&piece.free)),
        ("held", amount(&piece.held)),
        ("confirmed", amount(&piece.confirmed)),
        ("longest cut", amount(&piece.longest)),
        ("came with", amount(&piece.received)),
    ];
    if piece.width_mm > 0.0 {
        pairs.push(("width", look.unit.shown(piece.width_mm)));
    }
    pairs.push(("came", or_dash(&second(&piece.receive_time))));
    for (label, value) in [("on order", &piece.order_id), ("cut from", &piece.parent_id)] {
        pairs.extend(value.as_ref().map(|value| (label, value.clone())));
    }
    for (label, value) in [("supplier", &piece.supplier), ("reference", &piece.supplier_reference)] {
        if !value.is_empty() {
            pairs.push((label, value.clone()));
        }
    }
    pairs.extend(piece.cost.as_ref().map(|cost| ("cost", look.money(cost))));
    if !piece.certificates.is_empty() {
        pairs.push(("certificates", piece.certificates.join(", ")));
    }
    page.pairs(&pairs);
    for flaw in &piece.flaws {
        let (from, to) = (look.unit.shown(flaw.from_mm), look.unit.shown(flaw.to_mm));
        page.line(&format!("flaw from {from} to {to}, from the free end"));
    }
}

fn movements(page: &mut Page, movements: &[v1::StockMovement], look: &Look) {
    let mut rows = Vec::new();
    for moved in movements {
        let mut why = Vec::new();
        why.extend(moved.reservation_id.as_ref().map(|id| format!("for {id}")));
        why.extend(moved.cut_id.as_ref().map(|id| format!("by cut {id}")));
        why.extend(words::told(&table::STOCK_REASON, moved.reason));
        if !moved.note.is_empty() {
            why.push(moved.note.clone());
        }
        rows.push(vec![
            second(&moved.time),
            moved.kind.clone(),
            told(moved.quantity.as_ref(), look.unit),
            format!("{} to {}", moved.from, moved.to),
            or_dash(&moved.actor),
            why.join(", "),
        ]);
    }
    let (left, right) = (Side::Left, Side::Right);
    page.table(&[left, left, right, left, left, left], &rows);
}

/// A fact that was recorded of a piece, and what it does to promises.
pub fn adjusted(told: &v1::AdjustStockResponse, look: &Look) -> String {
    let mut page = look.page();
    page.heading("RECORDED");
    replayed(&mut page, told.replayed);
    if let Some(piece) = &told.piece {
        rows(&mut page, std::slice::from_ref(piece), look);
    }
    promise::changes(&mut page, &told.promises, &told.proposals, look);
    page.finish()
}
