//! Rows and columns of characters.

use unicode_width::UnicodeWidthStr;

/// A canvas; a cell holds what is printed there, nothing where a wide letter reaches in.
#[derive(Debug)]
pub struct Canvas {
    rows: Vec<Vec<String>>,
}

impl Canvas {
    /// An empty canvas.
    pub fn new(columns: usize, rows: usize) -> Canvas {
        Canvas { rows: vec![vec![String::from(" "); columns]; rows] }
    }

    /// Fills cells from one column up to another.
    pub fn span(&mut self, row: usize, from: usize, to: usize, with: char) {
        for column in from..to {
            self.put(row, column, with.to_string());
        }
    }

    /// One cell.
    pub fn end(&mut self, row: usize, column: usize, with: char) {
        self.put(row, column, with.to_string());
    }

    /// Words, a character a cell.
    pub fn words(&mut self, row: usize, column: usize, words: &str) {
        for (place, c) in words.chars().enumerate() {
            self.put(row, column + place, c.to_string());
        }
    }

    /// A letter in the middle of some columns, free at both sides where there is room.
    pub fn letter(&mut self, row: usize, (from, to): (usize, usize), letter: &str) {
        let width = letter.width().max(1);
        let at = from + (to - from).saturating_sub(width) / 2;
        if width > to - from {
            return;
        }
        let free = to - from >= width + 2;
        let (left, right) = if free { (at.saturating_sub(1), at + width + 1) } else { (at, at + width) };
        self.span(row, left.max(from), right.min(to), ' ');
        self.put(row, at, letter.to_owned());
        for reached in at + 1..at + width {
            self.put(row, reached, String::new());
        }
    }

    /// A number under some columns, where none is too near.
    pub fn number(&mut self, row: usize, (from, to): (usize, usize), number: i64) {
        let digits = number.to_string();
        let at = (from + (to - from) / 2).saturating_sub(digits.len() / 2);
        let columns = at.saturating_sub(1)..at + digits.len() + 1;
        let is_free = |column: usize| self.cell(row, column).is_none_or(|cell| cell == " ");
        let fits = self.cell(row, at + digits.len() - 1).is_some();
        if fits && columns.into_iter().all(is_free) {
            self.words(row, at, &digits);
        }
    }

    /// The rows as lines.
    pub fn lines(&self) -> Vec<String> {
        self.rows.iter().map(|row| row.concat().trim_end().to_owned()).collect()
    }

    fn cell(&self, row: usize, column: usize) -> Option<&str> {
        self.rows.get(row).and_then(|row| row.get(column)).map(String::as_str)
    }

    /// What lies outside is not drawn.
    fn put(&mut self, row: usize, column: usize, with: String) {
        if let Some(cell) = self.rows.get_mut(row).and_then(|row| row.get_mut(column)) {
            *cell = with;
        }
    }
}
