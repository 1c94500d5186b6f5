//! What is wrong with a file, place by place.

use std::fmt;

/// What is wrong with a cell, a line or the whole file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The line of the file, from 1; none where it is about all of it.
    pub line: Option<usize>,
    /// Header of the column; none where it is about the whole line.
    pub column: Option<String>,
    /// What is wrong, with which value, and what is allowed.
    pub words: String,
}

impl Fault {
    /// About the whole file.
    pub fn of_file(words: impl Into<String>) -> Fault {
        Fault { line: None, column: None, words: shown(&words.into()) }
    }

    /// About a whole line.
    pub fn of_line(line: usize, words: impl Into<String>) -> Fault {
        Fault { line: Some(line), column: None, words: shown(&words.into()) }
    }

    /// About a cell.
    pub fn of_cell(line: usize, column: &str, words: impl Into<String>) -> Fault {
        Fault { line: Some(line), column: Some(shown(column)), words: shown(&words.into()) }
    }
}

/// Characters of words at most: a cell may hold a whole file after a quotation mark.
const MOST: usize = 600;

/// Words that quote a file, on a terminal: nothing in them that it would act upon, and not too many.
fn shown(words: &str) -> String {
    let mut shown = String::with_capacity(words.len().min(MOST));
    for letter in words.chars().take(MOST) {
        if letter.is_control() {
            shown.extend(letter.escape_default());
        } else {
            shown.push(letter);
        }
    }
    if words.chars().nth(MOST).is_some() {
        shown.push('…');
    }
    shown
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.line, &self.column) {
            (Some(line), Some(column)) => write!(f, "line {line}, {column}: {}", self.words),
            (Some(line), None) => write!(f, "line {line}: {}", self.words),
            (None, _) => f.write_str(&self.words),
        }
    }
}
