//! `receive`: one piece by flags, or a stock-take from a file.

use std::io::{self, IsTerminal, Read, Write};
use std::path::Path;
use std::time::Instant;

use pennantry_contract::reasons::Kind;
use pennantry_contract::{table, v1};

use super::{done, line, stock};
use crate::ask::{Door, Failure};
use crate::cli::{Piece, Receive};
use crate::length::to_wire;
use crate::print::piece::{header, number_of};
use crate::print::{Look, order, promise};
use crate::program::{NOT_ASKED, Printed};
use crate::sheet::page::{Page, Side, clean};
use crate::stocktake::{self, Row};
use crate::typed::amount::told;
use crate::typed::{Amount, Stretch};
use crate::words;

/// Does what the flags say.
///
/// # Errors
/// Refused, or not asked.
pub async fn run(flags: &Receive) -> Result<Printed, Failure> {
    if flags.sheet.columns {
        return Ok(done(stocktake::documented()));
    }
    let progress = Progress::new(flags.sheet.from.is_some(), flags.sheet.progress);
    let rows = match &flags.sheet.from {
        None => vec![one(&flags.piece)?],
        Some(path) => {
            let bytes = bytes(path)?;
            progress.say(&format!("{} bytes read", bytes.len()));
            match stocktake::read(&bytes) {
                Ok(rows) => rows,
                Err(faults) => return Ok(faulty(path, &faults)),
            }
        }
    };
    progress.say(&format!("{} checked", number_of(rows.len())));
    if flags.sheet.check {
        let words = format!(
            "{} can be read; codes, labels that are taken and the currency are for the server to judge\n",
            number_of(rows.len())
        );
        return Ok(done(words));
    }
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.reach.server).await?;
    let pieces = priced(&rows, &door, flags.sheet.from.is_some()).await?;
    let order_id = flags.on_order.clone().unwrap_or_default();
    let request = v1::ReceiveStockRequest { request_id: id.clone(), pieces, order_id };
    progress.say("sent in one call, waiting for the answer");
    let sent = |channel, request| async move { stock(channel).receive_stock(request).await };
    let answer = match door.change(&id, request.clone(), sent).await {
        Ok(answer) => answer,
        Err(failure) if flags.sheet.from.is_some() => {
            let failure = with_everything(failure, &door, &request.pieces, &progress).await;
            return Err(in_lines(failure, flags, &rows));
        }
        Err(failure) => return Err(failure),
    };
    progress.say("done");
    if flags.reach.json {
        return Ok(done(line(serde_json::to_string(&answer))?));
    }
    Ok(done(received(&answer, &request.pieces, &rows, flags)))
}

/// The piece of the flags.
fn one(flags: &Piece) -> Result<Row, Failure> {
    let amount = Amount::of_words(&flags.amount).map_err(Failure::NotAsked)?;
    let kind = flags.kind.as_ref().and_then(|kind| words::value(&table::PIECE_KIND, kind));
    let text = |said: &Option<String>| said.clone().unwrap_or_default();
    let piece = v1::NewPiece {
        piece_id: text(&flags.label),
        code: text(&flags.code),
        kind: kind.unwrap_or_default(),
        quantity: Some(amount.to_wire()),
        width_mm: flags.width.map(to_wire),
        lot: text(&flags.lot),
        flaws: flags.flaw.iter().copied().map(Stretch::to_wire).collect(),
        location: text(&flags.place),
        cost: None,
        supplier: text(&flags.supplier),
        supplier_reference: text(&flags.reference),
        certificates: flags.certificate.clone(),
    };
    Ok(Row { line: 1, piece, cost: flags.cost.clone() })
}

/// The file, or standard input, and no more of it than is read.
fn bytes(path: &Path) -> Result<Vec<u8>, Failure> {
    let most = u64::try_from(stocktake::MOST_BYTES).unwrap_or(u64::MAX).saturating_add(1);
    let mut bytes = Vec::new();
    let read = if path.as_os_str() == "-" {
        io::stdin().lock().take(most).read_to_end(&mut bytes)
    } else {
        std::fs::File::open(path).and_then(|file| file.take(most).read_to_end(&mut bytes))
    };
    match read {
        Ok(_) => Ok(bytes),
        Err(cause) => Err(Failure::NotAsked(format!("--from: {} cannot be read: {cause}", path.display()))),
    }
}

/// Everything that is wrong with a file: nothing of it was sent.
fn faulty(path: &Path, faults: &[stocktake::Fault]) -> Printed {
    let mut err = String::new();
    for fault in faults {
        err += &clean(&fault.to_string(), false);
        err.push('\n');
    }
    let count = faults.len();
    let many = if count == 1 { "1 fault".to_owned() } else { format!("{count} faults") };
    err += &clean(&format!("{}: {many}; nothing was sent", path.display()), false);
    err.push('\n');
    Printed { err, code: NOT_ASKED, ..Printed::default() }
}

/// The pieces with what they cost, in the shop's own minor units.
async fn priced(rows: &[Row], door: &Door, of_file: bool) -> Result<Vec<v1::NewPiece>, Failure> {
    let mut pieces: Vec<v1::NewPiece> = rows.iter().map(|row| row.piece.clone()).collect();
    if rows.iter().all(|row| row.cost.is_none()) {
        return Ok(pieces);
    }
    let shop = door.currency().await?;
    let mut faults = Vec::new();
    for (row, piece) in rows.iter().zip(&mut pieces) {
        match row.cost.as_ref().map(|cost| cost.to_wire(&shop)).transpose() {
            Ok(cost) => piece.cost = cost,
            Err(words) if of_file => {
                faults.push(stocktake::Fault::of_cell(row.line, "cost", words).to_string());
            }
            Err(words) => faults.push(format!("--cost: {words}")),
        }
    }
    if faults.is_empty() {
        Ok(pieces)
    } else {
        Err(Failure::NotAsked(faults.join("\n") + "\nnothing was sent"))
    }
}

/// A refusal of a file with everything that the server finds in it: what was refused names what came
/// first, and one label that is taken. Nothing was put on the shelf, and looking puts nothing there.
async fn with_everything(
    failure: Failure,
    door: &Door,
    pieces: &[v1::NewPiece],
    progress: &Progress,
) -> Failure {
    let Failure::Refused { refusal, left_out } = failure else { return failure };
    if !LOOKED_THROUGH.contains(&refusal.reason.as_str()) {
        return Failure::Refused { refusal, left_out };
    }
    progress.say("refused; looking it through for everything that is wrong");
    match everything(door, pieces).await {
        Ok(found) if !found.is_empty() => {
            // what is not about a piece is told in the refusal alone
            let others = refusal.violations.into_iter().filter(|told| index(&told.field).is_none());
            let violations = found.into_iter().chain(others).collect();
            Failure::Refused { refusal: v1::Refusal { violations, ..refusal }, left_out: 0 }
        }
        _ => Failure::Refused { refusal, left_out },
    }
}

/// Refusals that pieces may be the reason of.
const LOOKED_THROUGH: [&str; 2] = [Kind::InvalidEnquiry.as_str(), Kind::FailedPrecondition.as_str()];
/// Pieces that are looked through in one call.
const IN_ONE_LOOK: usize = 100;

async fn everything(door: &Door, pieces: &[v1::NewPiece]) -> Result<Vec<v1::FieldViolation>, Failure> {
    let mut all = Vec::new();
    for (before, some) in (0..).step_by(IN_ONE_LOOK).zip(pieces.chunks(IN_ONE_LOOK)) {
        let request = v1::CheckDeliveryRequest { pieces: some.to_vec() };
        let told = door.look(|channel| async move { stock(channel).check_delivery(request).await }).await?;
        all.extend(told.violations.into_iter().map(|mut violation| {
            if let Some((index, rest)) = index(&violation.field) {
                violation.field = format!("pieces[{}]{rest}", before + index);
            }
            violation
        }));
    }
    Ok(all)
}

/// Which piece a path such as `pieces[17].quantity.lengthMm` is about, and what of it.
fn index(path: &str) -> Option<(usize, &str)> {
    let (index, rest) = path.strip_prefix("pieces[")?.split_once(']')?;
    Some((index.parse().ok()?, rest))
}

/// A refusal with lines and columns of the file in place of entries of the request.
fn in_lines(failure: Failure, flags: &Receive, rows: &[Row]) -> Failure {
    match failure {
        Failure::Refused { mut refusal, left_out } if !flags.reach.json => {
            for violation in &mut refusal.violations {
                if let Some(place) = place(&violation.field, rows) {
                    violation.field = place;
                }
            }
            Failure::Refused { refusal, left_out }
        }
        other => other,
    }
}

/// Line and column of a path such as `pieces[17].quantity.lengthMm`.
fn place(path: &str, rows: &[Row]) -> Option<String> {
    let (index, rest) = index(path)?;
    let row = rows.get(index)?;
    let field = rest.trim_start_matches('.').split(['.', '[']).next().unwrap_or_default();
    let column = stocktake::COLUMNS.into_iter().find(|column| column.field() == field);
    let name = match column {
        Some(stocktake::Column::Length) => "length or count",
        Some(column) => column.name(),
        None => return Some(format!("line {}", row.line)),
    };
    Some(format!("line {}, {name}", row.line))
}

/// What was put on the shelf; labels that are new have to be written on the pieces.
fn received(
    answer: &v1::ReceiveStockResponse,
    pieces: &[v1::NewPiece],
    rows: &[Row],
    flags: &Receive,
) -> String {
    let look = Look::of(&flags.reach);
    let mut page = Page::new(look.plain);
    page.heading(&format!("{} on the shelf", number_of(answer.piece_ids.len())));
    if answer.replayed {
        page.line("this had been done before, and is the first answer: nothing was done again");
    }
    let of_file = flags.sheet.from.is_some();
    let mut table = vec![header([if of_file { "line" } else { "" }, "label", "code", "lot", "holds"])];
    for ((label, piece), row) in answer.piece_ids.iter().zip(pieces).zip(rows) {
        // of a file those alone that have a label nobody knows yet
        if piece.piece_id.is_empty() || !of_file {
            let line = if of_file { row.line.to_string() } else { String::new() };
            let lot = if piece.lot.is_empty() { "-".to_owned() } else { piece.lot.clone() };
            table.push(vec![
                line,
                label.clone(),
                piece.code.clone(),
                lot,
                told(piece.quantity.as_ref(), look.unit),
            ]);
        }
    }
    if table.len() > 1 {
        if pieces.iter().any(|piece| piece.piece_id.is_empty()) {
            page.line("labels that are new, to be written on the pieces:");
        }
        page.table(&[Side::Right, Side::Left, Side::Left, Side::Left, Side::Right], &table);
    }
    promise::changes(&mut page, &answer.promises, &[], &look);
    if let Some(filled) = &answer.order {
        order::write(&mut page, filled, &look);
    }
    page.finish()
}

/// How far it is, on standard error.
struct Progress {
    shown: bool,
    since: Instant,
}

impl Progress {
    fn new(of_file: bool, wanted: bool) -> Progress {
        Progress { shown: of_file && (wanted || io::stderr().is_terminal()), since: Instant::now() }
    }

    fn say(&self, words: &str) {
        if self.shown {
            let millis = self.since.elapsed().as_millis();
            // nobody who reads it is no fault
            let _ = writeln!(io::stderr(), "{}.{:03} s: {words}", millis / 1_000, millis % 1_000);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_of_the_contract_is_a_line_and_a_column() {
        let rows: Vec<Row> =
            [2, 5].map(|line| Row { line, piece: v1::NewPiece::default(), cost: None }).into();
        for (path, told) in [
            ("pieces[0].lot", Some("line 2, lot")),
            ("pieces[1].quantity.lengthMm", Some("line 5, length or count")),
            ("pieces[1].flaws[0].fromMm", Some("line 5, flaws")),
            ("pieces[1].pieceId", Some("line 5, label")),
            ("pieces[1]", Some("line 5")),
            ("pieces[2].lot", None),
            ("orderId", None),
        ] {
            assert_eq!(place(path, &rows).as_deref(), told, "{path}");
        }
    }
}
