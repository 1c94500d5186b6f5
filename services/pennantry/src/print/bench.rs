//! What a cut did, and how it is taken back.

use pennantry_contract::v1;

use super::piece::rows;
use super::{Look, promise, replayed, reservation, second};
use crate::sheet::page::Page;

/// A cut that was recorded.
pub fn cut(told: &v1::RecordCutResponse, look: &Look) -> String {
    let mut page = look.page();
    page.heading(&format!("CUT {}", told.cut_id));
    replayed(&mut page, told.replayed);
    page.line(&format!(
        "to take it back, until {}: pennantry undo {}",
        second(&told.undo_until),
        told.cut_id
    ));
    if !told.offcuts.is_empty() {
        page.heading("OFFCUTS");
    }
    for offcut in &told.offcuts {
        let size = format!("{} × {}", look.unit.shown(offcut.length_mm), look.unit.shown(offcut.width_mm));
        let what = if offcut.kept {
            format!("keep {size}: label it {}", offcut.piece_id)
        } else {
            format!("waste {size}")
        };
        page.line(&format!("{what}; it holds {} of the smallest pennant", offcut.holds));
        if !offcut.message.is_empty() {
            page.below(&offcut.message);
        }
    }
    pieces(&mut page, &told.pieces, look);
    promise::changes(&mut page, &told.promises, &told.proposals, look);
    if let Some(one) = &told.reservation {
        reservation::write(&mut page, one, look);
    }
    page.finish()
}

/// A cut that was taken back.
pub fn undone(cut: &str, told: &v1::UndoCutResponse, look: &Look) -> String {
    let mut page = look.page();
    page.heading(&format!("CUT {cut} is taken back"));
    replayed(&mut page, told.replayed);
    pieces(&mut page, &told.pieces, look);
    promise::changes(&mut page, &told.promises, &[], look);
    if let Some(one) = &told.reservation {
        reservation::write(&mut page, one, look);
    }
    page.finish()
}

fn pieces(page: &mut Page, pieces: &[v1::StockPiece], look: &Look) {
    if !pieces.is_empty() {
        page.heading("ON THE SHELF NOW");
        rows(page, pieces, look);
    }
}
