//! One cell: text, lengths, flaws, certificates, money.

use pennantry_contract::table::NEW_PIECE;
use pennantry_contract::v1;
use pennantry_measure::Length;
use pennantry_measure::text::hidden;

use super::columns::Column;
use crate::length::{Unit, to_wire, typed};
use crate::typed::{Price, Stretch};

/// How numbers are read in this file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Numbers {
    /// Whether a point before three digits may part thousands: so it does in many places
    /// where spreadsheets do not part cells by commas.
    pub point_may_part_thousands: bool,
}

/// Refuses a cell that goes over more than one line, whatever it holds.
///
/// # Errors
/// It does.
pub fn one_line(cell: &str) -> Result<(), String> {
    if cell.contains('\n') {
        return Err(format!(
            "{:?} goes over more than one line: is a quotation mark not closed?",
            short(cell)
        ));
    }
    Ok(())
}

/// Text of a column: short enough, nothing hidden in it.
///
/// # Errors
/// What is wrong with it.
pub fn text(column: Column, cell: &str) -> Result<String, String> {
    if let Some(hidden) = hidden(cell) {
        return Err(format!("{:?} holds {hidden}, which cannot be seen: leave it out", short(cell)));
    }
    if cell.contains('\u{fffd}') {
        return Err(format!("{:?} holds \u{fffd}, where a letter was lost: write the letter", short(cell)));
    }
    let characters = cell.chars().count();
    if let Some(most) = column.most_characters().filter(|most| characters > *most) {
        return Err(format!("{:?} has {characters} characters: at most {most}", short(cell)));
    }
    Ok(cell.to_owned())
}

/// The beginning of a text that may be long.
fn short(cell: &str) -> String {
    match cell.char_indices().nth(60) {
        Some((end, _)) => format!("{}…", cell.get(..end).unwrap_or_default()),
        None => cell.to_owned(),
    }
}

/// A label: letters, digits, dots and hyphens.
///
/// # Errors
/// What is wrong with it.
pub fn label(cell: &str) -> Result<String, String> {
    if let Some(wrong) = cell.chars().find(|c| !(c.is_ascii_alphanumeric() || matches!(c, '.' | '-'))) {
        return Err(format!(
            "{:?} holds {wrong:?}: a label has letters, digits, dots and hyphens",
            short(cell)
        ));
    }
    text(Column::Label, cell)
}

/// A length, by the unit it has or by that of the header.
///
/// # Errors
/// What is wrong with it.
pub fn length(cell: &str, unit: Option<&str>, numbers: Numbers) -> Result<Length, String> {
    refuse_thousands(cell, numbers)?;
    let has_unit = cell.chars().any(|c| c.is_alphabetic() || "\"'′″’”".contains(c));
    match unit {
        Some(unit) if !has_unit => typed(&format!("{cell} {unit}")),
        _ => typed(cell),
    }
}

/// Refuses a number in which a point may part thousands or decimals: one to three digits,
/// the first not nought, a point, three digits and no more.
fn refuse_thousands(cell: &str, numbers: Numbers) -> Result<(), String> {
    if !numbers.point_may_part_thousands {
        return Ok(());
    }
    for number in cell.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))) {
        let Some((whole, behind)) = number.split_once('.') else { continue };
        let may_be = (1..=3).contains(&whole.len()) && !whole.starts_with('0') && behind.len() == 3;
        if may_be {
            let decimals = behind.trim_end_matches('0');
            let point = if decimals.is_empty() { "" } else { "," };
            return Err(format!(
                "\"{cell}\" can be read as {whole}{behind} or as {whole}{point}{decimals}, for this file is not \
                 parted by commas: write {whole}{behind} or {whole}{point}{decimals}"
            ));
        }
    }
    Ok(())
}

/// How much of what is measured: more than nothing.
///
/// # Errors
/// What is wrong with it.
pub fn held(cell: &str, unit: Option<&str>, numbers: Numbers) -> Result<Length, String> {
    let length = length(cell, unit, numbers)?;
    if length <= Length::ZERO {
        return Err(format!("\"{cell}\": a piece that comes holds more than 0: leave the line out"));
    }
    Ok(length)
}

/// How many of what is counted.
///
/// # Errors
/// What is wrong with it.
pub fn count(cell: &str) -> Result<u32, String> {
    let count: Option<u32> =
        Some(cell).filter(|cell| cell.chars().all(|c| c.is_ascii_digit())).and_then(|c| c.parse().ok());
    count.filter(|count| *count > 0).ok_or_else(|| {
        format!("\"{cell}\" is no count: write a whole number from 1 to {}, in digits alone", u32::MAX)
    })
}

/// A width within the contract's bounds, in millimetres.
///
/// # Errors
/// What is wrong with it.
pub fn width(cell: &str, unit: Option<&str>, numbers: Numbers) -> Result<f64, String> {
    let mm = to_wire(length(cell, unit, numbers)?);
    let bounds = NEW_PIECE.field("widthMm").and_then(|field| Some((field.least?, field.most?)));
    if let Some((least, most)) = bounds.filter(|(least, most)| mm < *least || mm > *most) {
        return Err(format!("\"{cell}\" is out of range: from {least} mm to {most} mm"));
    }
    Ok(mm)
}

/// Flaws with bars between them.
///
/// # Errors
/// What is wrong with the first that cannot be read.
pub fn flaws(cell: &str, numbers: Numbers) -> Result<Vec<v1::Flaw>, String> {
    refuse_thousands(&cell.replace("..", " "), numbers)?;
    let flaws: Vec<v1::Flaw> = cell
        .split('|')
        .map(|flaw| flaw.parse().map(Stretch::to_wire))
        .collect::<Result<_, _>>()
        .map_err(|fault| format!("{fault}; between flaws goes |"))?;
    at_most("flaws", flaws)
}

/// Certificates with bars between them.
///
/// # Errors
/// There are too many, or one is empty or too long.
pub fn certificates(cell: &str) -> Result<Vec<String>, String> {
    let mut all = vec![String::new()];
    let mut letters = cell.chars().peekable();
    while let Some(letter) = letters.next() {
        match (letter, letters.peek()) {
            ('\\', Some(&next @ ('|' | '\\'))) => {
                letters.next();
                push(&mut all, next);
            }
            ('|', _) => all.push(String::new()),
            _ => push(&mut all, letter),
        }
    }
    let all: Vec<String> = all.iter().map(|one| one.trim().to_owned()).collect();
    if all.iter().any(String::is_empty) {
        return Err(format!("{:?} has an empty number before or after a |: leave that | out", short(cell)));
    }
    for one in &all {
        text(Column::Certificates, one)?;
    }
    at_most("certificates", all)
}

fn push(all: &mut [String], letter: char) {
    if let Some(last) = all.last_mut() {
        last.push(letter);
    }
}

/// A list no longer than the contract's.
fn at_most<T>(field: &str, all: Vec<T>) -> Result<Vec<T>, String> {
    let most = NEW_PIECE.field(field).and_then(|field| format!("{:.0}", field.most?).parse().ok());
    match most {
        Some(most) if all.len() > most => Err(format!("{} of them: at most {most}", all.len())),
        _ => Ok(all),
    }
}

/// An amount of money.
///
/// # Errors
/// What is wrong with it.
pub fn cost(cell: &str, numbers: Numbers) -> Result<Price, String> {
    refuse_thousands(cell, numbers)?;
    cell.parse()
}

/// A length as it is written: exact, and read back by anybody.
pub fn written(mm: f64) -> String {
    Unit::Mm.shown(mm)
}
