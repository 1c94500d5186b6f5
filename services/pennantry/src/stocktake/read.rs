//! Reading: from the bytes of a file to pieces, or to all that is wrong with it.

use std::collections::BTreeMap;

use csv::{ReaderBuilder, StringRecord};
use pennantry_contract::table::PIECE_KIND;
use pennantry_contract::v1::{self, quantity};

use super::cell::{self, Numbers};
use super::columns::{COLUMNS, Column, UNITS};
use super::{Fault, MOST_BYTES, MOST_PIECES};
use crate::length::to_wire;
use crate::typed::Price;
use crate::words;

/// A piece and where it stands in the file.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its line, from 1.
    pub line: usize,
    /// The piece, but for its cost.
    pub piece: v1::NewPiece,
    /// What it cost; the digits of the currency are the server's to say.
    pub cost: Option<Price>,
}

/// Reads a whole file.
///
/// # Errors
/// Everything that is wrong with it, in the order of its lines.
pub fn read(bytes: &[u8]) -> Result<Vec<Row>, Vec<Fault>> {
    let text = decoded(bytes).map_err(|words| vec![Fault::of_file(words)])?;
    let separator = separator(&text).map_err(|words| vec![Fault::of_file(words)])?;
    let mut lines = Lines::new(&text);
    let mut reader = ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut record = StringRecord::new();
    let mut next = |record: &mut StringRecord| -> Result<Option<usize>, Vec<Fault>> {
        match reader.read_record(record) {
            Ok(true) => Ok(Some(lines.of(record))),
            Ok(false) => Ok(None),
            Err(cause) => {
                Err(vec![Fault::of_file(format!("it cannot be read as comma-separated values: {cause}"))])
            }
        }
    };
    let Some(line) = next(&mut record)? else {
        return Err(vec![Fault::of_file("it is empty: see \"receive --columns\"")]);
    };
    let header = Header::read(line, &record)?;
    let numbers = Numbers { point_may_part_thousands: separator != b',' };
    let (mut rows, mut faults, mut labels) = (Vec::new(), Vec::new(), BTreeMap::new());
    let mut pieces = 0_usize;
    while let Some(line) = next(&mut record)? {
        if record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        pieces += 1;
        match row(line, &header, &record, numbers) {
            Ok(row) => {
                repeated(&row, &mut labels, &mut faults);
                rows.push(row);
            }
            Err(found) => faults.extend(found),
        }
    }
    if pieces > MOST_PIECES {
        faults.push(Fault::of_file(format!(
            "{pieces} pieces are too many for one call, and all of them come or none: at most {MOST_PIECES} in a \
             file, so part it by hand"
        )));
    }
    if pieces == 0 {
        faults.push(Fault::of_file("no piece stands below the headers"));
    }
    if faults.is_empty() { Ok(rows) } else { Err(faults) }
}

/// The text of a file, every line's end as one character.
fn decoded(bytes: &[u8]) -> Result<String, String> {
    let how = "save it as comma-separated values in UTF-8";
    if bytes.len() > MOST_BYTES {
        return Err(format!("it has {} bytes, more than any stock-take: at most {MOST_BYTES}", bytes.len()));
    }
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(format!("it is in UTF-16: {how}"));
    }
    if bytes.starts_with(b"PK\x03\x04") {
        return Err(format!("it is a spreadsheet's own file: {how}"));
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let text = std::str::from_utf8(bytes).map_err(|fault| {
        let before = bytes.get(..fault.valid_up_to()).unwrap_or_default();
        let line = String::from_utf8_lossy(before).matches('\n').count() + 1;
        format!("line {line} is not in UTF-8: {how}")
    })?;
    if text.contains('\0') {
        return Err(format!("it holds bytes that are no text: {how}"));
    }
    Ok(text.replace("\r\n", "\n").replace('\r', "\n"))
}

/// What parts the cells: what the line of headers has.
fn separator(text: &str) -> Result<u8, String> {
    let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let found: Vec<u8> = [b',', b';', b'\t'].into_iter().filter(|by| first.as_bytes().contains(by)).collect();
    match found.as_slice() {
        [] => Ok(b','),
        [one] => Ok(*one),
        _ => Err(format!(
            "the headers are parted in more than one way: {first:?}; part them by commas, semicolons or tabs alone"
        )),
    }
}

/// Where each record begins: the library passes over empty lines and counts them late.
struct Lines<'a> {
    text: &'a [u8],
    at: usize,
    line: usize,
}

impl<'a> Lines<'a> {
    fn new(text: &'a str) -> Lines<'a> {
        Lines { text: text.as_bytes(), at: 0, line: 1 }
    }

    fn of(&mut self, record: &StringRecord) -> usize {
        let start =
            record.position().and_then(|position| usize::try_from(position.byte()).ok()).unwrap_or(self.at);
        while let Some(byte) = self.text.get(self.at) {
            if self.at >= start && *byte != b'\n' {
                break;
            }
            self.line += usize::from(*byte == b'\n');
            self.at += 1;
        }
        self.line
    }
}

/// The columns of a file, in its order.
struct Header {
    columns: Vec<Named>,
}

/// A column as the file names it.
struct Named {
    column: Column,
    header: String,
    unit: Option<&'static str>,
}

impl Header {
    fn read(line: usize, record: &StringRecord) -> Result<Header, Vec<Fault>> {
        let (mut columns, mut faults): (Vec<Named>, Vec<Fault>) = (Vec::new(), Vec::new());
        for (place, cell) in record.iter().enumerate() {
            match named(cell) {
                Err(words) => faults.push(Fault::of_line(line, format!("header {}: {words}", place + 1))),
                Ok(found) if columns.iter().any(|known| known.column == found.column) => {
                    let words = format!("header {}: {:?} stands there twice", place + 1, found.column.name());
                    faults.push(Fault::of_line(line, words));
                }
                Ok(found) => columns.push(found),
            }
        }
        // a header that could not be read may be the one that is missed
        let has = |column| columns.iter().any(|known| known.column == column);
        if faults.is_empty() && !has(Column::Code) {
            faults.push(Fault::of_line(line, "there is no column \"code\""));
        }
        if faults.is_empty() && !has(Column::Length) && !has(Column::Count) {
            faults.push(Fault::of_line(line, "there is no column \"length\" or \"count\""));
        }
        if faults.is_empty() { Ok(Header { columns }) } else { Err(faults) }
    }
}

/// A header: a name, and behind that of a length its unit, if it is said.
fn named(cell: &str) -> Result<Named, String> {
    let header = cell.trim().to_lowercase();
    let (name, unit) =
        header.split_once(' ').map_or((header.as_str(), None), |(name, unit)| (name, Some(unit)));
    let names = COLUMNS.map(Column::name);
    let Some(column) = COLUMNS.into_iter().find(|column| column.name() == name) else {
        let all = names.join(", ");
        return Err(format!(
            "{:?} is no column: they are {all}; leave out whatever else there is",
            cell.trim()
        ));
    };
    let unit = match unit.map(|unit| unit.trim_matches(|c: char| c.is_whitespace() || "()[]".contains(c))) {
        None => None,
        Some(unit) => {
            let known = UNITS.into_iter().find(|known| *known == unit);
            if known.is_none() || !matches!(column, Column::Length | Column::Width) {
                let units = UNITS.join(", ");
                return Err(format!(
                    "{:?} is no column: behind \"length\" and \"width\" may stand one of {units}",
                    cell.trim()
                ));
            }
            known
        }
    };
    Ok(Named { column, header, unit })
}

/// One line.
fn row(line: usize, header: &Header, record: &StringRecord, numbers: Numbers) -> Result<Row, Vec<Fault>> {
    let (cells, columns) = (record.len(), header.columns.len());
    if cells != columns {
        return Err(vec![Fault::of_line(
            line,
            format!(
                "cells: {cells}, headers: {columns}: a comma or semicolon inside a cell needs quotes around the \
                 cell, and an empty cell its separator"
            ),
        )]);
    }
    let mut row = Row { line, piece: v1::NewPiece::default(), cost: None };
    let mut faults = Vec::new();
    let mut amounts = Vec::new();
    for (named, cell) in header.columns.iter().zip(record.iter()) {
        let cell = cell.trim();
        if cell.is_empty() {
            continue;
        }
        if matches!(named.column, Column::Length | Column::Count) {
            amounts.push(named.column);
        }
        if let Err(words) = fill(&mut row, named, cell, numbers) {
            faults.push(Fault::of_cell(line, &named.header, words));
        }
    }
    let code_is_wrong = faults.iter().any(|fault| fault.column.as_deref() == Some("code"));
    if row.piece.code.is_empty() && !code_is_wrong {
        faults.push(Fault::of_cell(line, "code", "it is empty: write the code of the material"));
    }
    match amounts.len() {
        0 => faults.push(Fault::of_line(line, "there is no length and no count: write one of the two")),
        1 => {}
        _ => faults.push(Fault::of_line(line, "there is a length and a count: write one of the two")),
    }
    let beyond = match row.piece.quantity.and_then(|quantity| quantity.amount) {
        Some(quantity::Amount::LengthMm(length)) => row.piece.flaws.iter().find(|flaw| flaw.to_mm > length),
        Some(quantity::Amount::Count(_)) => row.piece.flaws.first(),
        None => None,
    };
    if let Some(flaw) = beyond {
        let words = format!("a flaw that ends at {} is not on the piece", cell::written(flaw.to_mm));
        faults.push(Fault::of_cell(line, "flaws", words));
    }
    if faults.is_empty() { Ok(row) } else { Err(faults) }
}

/// Puts a cell in its place.
fn fill(row: &mut Row, named: &Named, cell: &str, numbers: Numbers) -> Result<(), String> {
    cell::one_line(cell)?;
    let piece = &mut row.piece;
    let amount = |amount| Some(v1::Quantity { amount: Some(amount) });
    match named.column {
        Column::Label => piece.piece_id = cell::label(cell)?,
        Column::Code => piece.code = cell::text(named.column, cell)?,
        Column::Kind => {
            let known = words::value(&PIECE_KIND, &cell.to_lowercase());
            let all = || format!("\"{cell}\" is no kind of piece: {}", words::all(&PIECE_KIND).join(", "));
            piece.kind = known.ok_or_else(all)?;
        }
        Column::Length => {
            let length = cell::held(cell, named.unit, numbers)?;
            piece.quantity = amount(quantity::Amount::LengthMm(to_wire(length)));
        }
        Column::Count => piece.quantity = amount(quantity::Amount::Count(cell::count(cell)?)),
        Column::Width => piece.width_mm = Some(cell::width(cell, named.unit, numbers)?),
        Column::Lot => piece.lot = cell::text(named.column, cell)?,
        Column::Place => piece.location = cell::text(named.column, cell)?,
        Column::Flaws => piece.flaws = cell::flaws(cell, numbers)?,
        Column::Cost => row.cost = Some(cell::cost(cell, numbers)?),
        Column::Supplier => piece.supplier = cell::text(named.column, cell)?,
        Column::Reference => piece.supplier_reference = cell::text(named.column, cell)?,
        Column::Certificates => piece.certificates = cell::certificates(cell)?,
    }
    Ok(())
}

/// A label that stands in the file already.
fn repeated(row: &Row, labels: &mut BTreeMap<String, usize>, faults: &mut Vec<Fault>) {
    let label = &row.piece.piece_id;
    if label.is_empty() {
        return;
    }
    match labels.get(label) {
        Some(first) => {
            let words = format!("\"{label}\" is the label of line {first} already: each piece has its own");
            faults.push(Fault::of_cell(row.line, "label", words));
        }
        None => {
            labels.insert(label.clone(), row.line);
        }
    }
}
