//! From text to TOML, with as much as can be read of a text that is not quite TOML.

use std::collections::BTreeMap;

use toml::de::{DeTable, Error};

use super::mistake::{Notes, short};

/// Reads a text as TOML and notes every line that is not.
///
/// Where the faults stay on their lines, such as a text without quotes or a key given
/// twice, the rest is read as if those lines were empty. Where they do not, such as a list
/// that is never closed, nothing below can be trusted: only the first fault is noted, and
/// there is no table.
pub(super) fn read<'i>(text: &'i str, mended: &'i mut String, notes: &mut Notes<'_>) -> Option<DeTable<'i>> {
    let (table, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        return Some(table.into_inner());
    }
    let first_on_line = first_on_each_line(&errors, notes);
    *mended = without_lines(text, &first_on_line);
    let heading = |line: &usize| nth_line(text, *line).trim_start().starts_with('[');
    // without a heading, what is below it would be read as part of the table above
    let confined = !first_on_line.keys().any(heading);
    let again = if confined { DeTable::parse(mended).ok() } else { None };
    match again {
        Some(table) => {
            for (line, error) in first_on_line {
                notes.take_out(line, told(text, line, error, "mend this line"));
            }
            Some(table.into_inner())
        }
        None => {
            if let Some((line, error)) = first_on_line.into_iter().next() {
                let next = "mend this line and check again: what is below it could not be read";
                notes.take_out(line, told(text, line, error, next));
            }
            None
        }
    }
}

fn first_on_each_line<'e>(errors: &'e [Error], notes: &Notes<'_>) -> BTreeMap<usize, &'e Error> {
    let mut first = BTreeMap::new();
    for error in errors {
        first.entry(notes.line(error.span().map_or(0, |span| span.start))).or_insert(error);
    }
    first
}

fn nth_line(text: &str, line: usize) -> &str {
    text.split('\n').nth(line.saturating_sub(1)).unwrap_or_default()
}

/// The text with the same places for everything else: lines become spaces.
fn without_lines(text: &str, lines: &BTreeMap<usize, &Error>) -> String {
    let kept = text.split('\n').zip(1..).map(|(content, line)| {
        if lines.contains_key(&line) { " ".repeat(content.len()) } else { content.to_owned() }
    });
    kept.collect::<Vec<_>>().join("\n")
}

fn told(text: &str, line: usize, error: &Error, next: &str) -> String {
    let content = match short(nth_line(text, line)) {
        empty if empty.is_empty() => "an empty line".to_owned(),
        content => content,
    };
    match error.message() {
        "duplicate key" => format!("{content}: this name is given twice: keep one of the two; {next}"),
        fault => format!("{content}: this is not TOML ({fault}): {next}"),
    }
}
