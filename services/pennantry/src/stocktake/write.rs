//! Writing: from pieces on the shelf to a file that is read back as it is.

use pennantry_contract::table::PIECE_KIND;
use pennantry_contract::v1::{self, quantity};

use super::cell;
use super::columns::{COLUMNS, Column};
use crate::sheet::price;
use crate::typed::money::Currency;
use crate::words;

/// A file, and what is not in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// The file.
    pub text: String,
    /// Pieces whose cost was left out: it is that of the whole piece, and some of it is gone.
    pub without_cost: usize,
}

/// Writes pieces as they lie there now; what is promised of them, and whence they came, has no
/// column.
///
/// # Errors
/// A piece cannot be written.
pub fn write(pieces: &[v1::StockPiece], currency: Option<&Currency>) -> Result<Written, String> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let mut without_cost = 0_usize;
    let failed = |cause: csv::Error| format!("the file cannot be written: {cause}");
    writer.write_record(COLUMNS.map(Column::name)).map_err(failed)?;
    for piece in pieces {
        let whole = piece.left == piece.received;
        let cost = piece.cost.as_ref().filter(|_| whole).zip(currency);
        without_cost += usize::from(piece.cost.is_some() && cost.is_none());
        let row = COLUMNS.map(|column| written(column, piece, cost));
        writer.write_record(row).map_err(failed)?;
    }
    let bytes = writer.into_inner().map_err(|cause| format!("the file cannot be written: {cause}"))?;
    let text = String::from_utf8(bytes).map_err(|cause| format!("the file cannot be written: {cause}"))?;
    Ok(Written { text, without_cost })
}

fn written(column: Column, piece: &v1::StockPiece, cost: Option<(&v1::Money, &Currency)>) -> String {
    let left = piece.left.and_then(|left| left.amount);
    match (column, left) {
        (Column::Label, _) => piece.piece_id.clone(),
        (Column::Code, _) => piece.code.clone(),
        (Column::Kind, _) => words::told(&PIECE_KIND, piece.kind).unwrap_or_default(),
        (Column::Length, Some(quantity::Amount::LengthMm(mm))) => cell::written(mm),
        (Column::Count, Some(quantity::Amount::Count(count))) => count.to_string(),
        (Column::Width, _) if piece.width_mm > 0.0 => cell::written(piece.width_mm),
        (Column::Length | Column::Count | Column::Width, _) => String::new(),
        (Column::Lot, _) => piece.lot.clone(),
        (Column::Place, _) => piece.location.clone(),
        (Column::Flaws, _) => {
            let flaw =
                |flaw: &v1::Flaw| format!("{}..{}", cell::written(flaw.from_mm), cell::written(flaw.to_mm));
            piece.flaws.iter().map(flaw).collect::<Vec<_>>().join(" | ")
        }
        (Column::Cost, _) => {
            cost.map_or_else(String::new, |(cost, shop)| price::amount(cost, shop.minor_digits))
        }
        (Column::Supplier, _) => piece.supplier.clone(),
        (Column::Reference, _) => piece.supplier_reference.clone(),
        (Column::Certificates, _) => {
            let escaped = |number: &String| number.replace('\\', "\\\\").replace('|', "\\|");
            piece.certificates.iter().map(escaped).collect::<Vec<_>>().join(" | ")
        }
    }
}
