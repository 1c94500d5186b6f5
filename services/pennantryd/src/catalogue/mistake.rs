//! Mistakes in a catalogue file, and the lines that they are on.

use std::fmt;

use pennantry_measure::text::is_hidden;

/// One mistake in a catalogue file.
///
/// ```
/// use pennantryd::catalogue::Mistake;
/// let mistake = Mistake { line: 12, path: "fabrics[2].code".to_owned(), message: "…".to_owned() };
/// assert_eq!(mistake.to_string(), "line 12, fabrics[2].code: …");
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mistake {
    /// Its line, counted from 1. What is missing is told on the line of the table that it
    /// belongs to, a missing table on line 1.
    pub line: usize,
    /// The key, such as `fabrics[2].usable_width_mm`, entries counted from 0; empty where
    /// the line is not TOML.
    pub path: String,
    /// What is wrong, with the value found, what is allowed and what to do.
    pub message: String,
}

impl fmt::Display for Mistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.path.is_empty() {
            return write!(f, "line {}: {}", self.line, self.message);
        }
        write!(f, "line {}, {}: {}", self.line, self.path, self.message)
    }
}

/// Mistakes as they are found in a text.
#[derive(Debug)]
pub(super) struct Notes<'i> {
    text: &'i str,
    line_starts: Vec<usize>,
    found: Vec<Mistake>,
    /// Lines were taken out because they are not TOML: what seems to be missing may have
    /// stood there.
    in_part: bool,
}

impl<'i> Notes<'i> {
    pub(super) fn new(text: &'i str) -> Notes<'i> {
        let after_breaks = text.bytes().zip(1..).filter(|(byte, _)| *byte == b'\n').map(|(_, next)| next);
        Notes {
            text,
            line_starts: std::iter::once(0).chain(after_breaks).collect(),
            found: Vec::new(),
            in_part: false,
        }
    }

    /// The line of a place in the text, counted from 1.
    pub(super) fn line(&self, at: usize) -> usize {
        self.line_starts.partition_point(|start| *start <= at)
    }

    /// What stands at a span, on one line and shortened to be quoted.
    pub(super) fn quote(&self, span: std::ops::Range<usize>) -> String {
        short(self.text.get(span).unwrap_or_default())
    }

    pub(super) fn note(&mut self, at: usize, path: &str, message: String) {
        let line = self.line(at);
        self.found.push(Mistake { line, path: path.to_owned(), message });
    }

    /// Notes that something is not there, unless it may be on a line that was taken out.
    pub(super) fn note_absence(&mut self, at: usize, path: &str, message: String) {
        if !self.in_part {
            self.note(at, path, message);
        }
    }

    /// Notes a mistake on a line that is therefore not looked at any further.
    pub(super) fn take_out(&mut self, line: usize, message: String) {
        self.in_part = true;
        self.found.push(Mistake { line, path: String::new(), message });
    }

    /// All of them, in the order of the lines.
    pub(super) fn into_mistakes(self) -> Vec<Mistake> {
        let mut found = self.found;
        found.sort_by_key(|mistake| mistake.line);
        found
    }
}

/// The start of a text: its first line, at most 60 characters, and none of those that do
/// something to a screen.
pub(super) fn short(text: &str) -> String {
    const MOST: usize = 60;
    let line = text.trim().lines().next().unwrap_or_default().trim_end();
    let mut short: String =
        line.chars().take(MOST).map(|c| if is_hidden(c) { '\u{fffd}' } else { c }).collect();
    if line.chars().count() > MOST || line.len() < text.trim().len() {
        short.push('…');
    }
    short
}
