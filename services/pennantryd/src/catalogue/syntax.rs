//! From text to TOML, with as much as can be read of a text that is not quite TOML.

use std::collections::BTreeMap;

use toml::Spanned;
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
    let lines: Vec<&str> = text.split('\n').collect();
    let mut faults = BTreeMap::new();
    for error in &errors {
        faults.entry(notes.line(error.span().map_or(0, |span| span.start))).or_insert(error);
    }
    *mended = without(&lines, &faults);
    let heading = |line: &usize| content(&lines, *line).trim_start().starts_with('[');
    // without a heading, what is below it would be read as part of the table above
    let confined = !faults.keys().any(heading);
    let again = if confined { DeTable::parse(mended).ok() } else { None };
    if again.is_some() {
        for (line, error) in faults {
            notes.take_out(line, told(&lines, line, error, "mend this line"));
        }
    } else if let Some((line, error)) = faults.into_iter().next() {
        let next = "mend this line and check again: what is below it could not be read";
        notes.take_out(line, told(&lines, line, error, next));
    }
    again.map(Spanned::into_inner)
}

/// What stands on a line, counted from 1.
fn content<'i>(lines: &[&'i str], line: usize) -> &'i str {
    line.checked_sub(1).and_then(|place| lines.get(place)).copied().unwrap_or_default()
}

/// The text with everything else in its place: the lines with faults become spaces.
fn without(lines: &[&str], faults: &BTreeMap<usize, &Error>) -> String {
    let kept = lines.iter().zip(1..).map(|(content, line)| {
        if faults.contains_key(&line) { " ".repeat(content.len()) } else { (*content).to_owned() }
    });
    kept.collect::<Vec<_>>().join("\n")
}

fn told(lines: &[&str], line: usize, error: &Error, next: &str) -> String {
    let content = match short(content(lines, line)) {
        empty if empty.is_empty() => "an empty line".to_owned(),
        content => content,
    };
    match error.message() {
        "duplicate key" => format!("{content}: this name is given twice: keep one of the two; {next}"),
        fault => format!("{content}: this is not TOML ({fault}): {next}"),
    }
}
