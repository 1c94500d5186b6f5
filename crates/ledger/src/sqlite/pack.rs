//! Small lists kept in one column, and columns read back into the rules' types.

use pennantry_measure::Length;
use rusqlite::types::Type;

use crate::rules::{Class, Flaw, Material};

/// Flaws as text: `from-to` in micrometres, with a blank between two.
///
/// Two flaws of a centimetre at one and at three metres are `1000000-1010000 3000000-3010000`.
pub(super) fn flaws(flaws: &[Flaw]) -> String {
    let each: Vec<String> = flaws.iter().map(|flaw| format!("{}-{}", flaw.from.um(), flaw.to.um())).collect();
    each.join(" ")
}

/// Flaws read back.
pub(super) fn read_flaws(text: &str) -> Option<Vec<Flaw>> {
    text.split_ascii_whitespace()
        .map(|flaw| {
            let (from, to) = flaw.split_once('-')?;
            Some(Flaw { from: Length::from_um(from.parse().ok()?), to: Length::from_um(to.parse().ok()?) })
        })
        .collect()
}

/// Texts as one text: the bytes of each, counted, before it. Any text may be in it.
///
/// `["A1", "b, c"]` is `2:A1 4:b, c `.
pub(super) fn texts<'a>(texts: impl Iterator<Item = &'a str>) -> String {
    let mut packed = String::new();
    for text in texts {
        packed.push_str(&text.len().to_string());
        packed.push(':');
        packed.push_str(text);
        packed.push(' ');
    }
    packed
}

/// Texts read back.
pub(super) fn read_texts(mut packed: &str) -> Option<Vec<String>> {
    let mut texts = Vec::new();
    while !packed.is_empty() {
        let (length, rest) = packed.split_once(':')?;
        let (text, rest) = rest.split_at_checked(length.parse().ok()?)?;
        texts.push(text.to_owned());
        packed = rest.strip_prefix(' ')?;
    }
    Some(texts)
}

/// A column that holds what no program of ours wrote.
fn unreadable(column: usize, text: &str) -> rusqlite::Error {
    rusqlite::Error::FromSqlConversionFailure(column, Type::Text, format!("\"{text}\" means nothing").into())
}

/// A column of a row as text, read by a function of the rules.
pub(super) fn word<T>(
    row: &rusqlite::Row<'_>,
    column: usize,
    read: impl FnOnce(&str) -> Option<T>,
) -> rusqlite::Result<T> {
    let text = row.get_ref(column)?.as_str()?;
    read(text).ok_or_else(|| unreadable(column, text))
}

/// A material from its class and, in the column after it, its code.
pub(super) fn material(row: &rusqlite::Row<'_>, column: usize) -> rusqlite::Result<Material> {
    Ok(Material { class: word(row, column, Class::read)?, code: row.get(column + 1)? })
}

/// A text column as a name.
pub(super) fn name<T>(row: &rusqlite::Row<'_>, column: usize, make: fn(String) -> T) -> rusqlite::Result<T> {
    row.get(column).map(make)
}

/// A text column that may be empty as a name.
pub(super) fn maybe_name<T>(
    row: &rusqlite::Row<'_>,
    column: usize,
    make: fn(String) -> T,
) -> rusqlite::Result<Option<T>> {
    Ok(row.get::<_, Option<String>>(column)?.map(make))
}

/// A number that is never below nought.
pub(super) fn count(row: &rusqlite::Row<'_>, column: usize) -> rusqlite::Result<u64> {
    let number: i64 = row.get(column)?;
    u64::try_from(number).map_err(|_| rusqlite::Error::IntegralValueOutOfRange(column, number))
}
