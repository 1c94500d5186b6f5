//! A page of text, never wider than [`WIDTH`] columns.
//!
//! Columns are counted as a terminal does (Unicode Standard Annex 11, by the library
//! `unicode-width`). Whatever comes from the server is cleaned first: a control character
//! could move the reader's cursor, so it is printed as a question mark.

use pennantry_measure::text::is_hidden;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// Columns of a page.
pub const WIDTH: usize = 100;
/// Columns of a label.
const LABEL: usize = 18;
/// Columns between two cells.
const BETWEEN: usize = 2;

/// A page being written.
#[derive(Debug, Default)]
pub struct Page {
    text: String,
    plain: bool,
}

/// How a column of a table stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// At its left.
    Left,
    /// At its right, as numbers do.
    Right,
}

impl Page {
    /// An empty page; a plain one has nothing but ASCII in it.
    pub fn new(plain: bool) -> Page {
        Page { text: String::new(), plain }
    }

    /// What was written.
    pub fn finish(self) -> String {
        self.text
    }

    /// A heading, an empty line before it.
    pub fn heading(&mut self, words: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.put(0, words);
    }

    /// Words, indented and broken where they are too long.
    pub fn line(&mut self, words: &str) {
        self.put(2, words);
    }

    /// Words that belong to the line above.
    pub fn below(&mut self, words: &str) {
        self.put(4, words);
    }

    /// A line as it is, such as one of a drawing.
    pub fn drawn(&mut self, line: &str) {
        let line = clean(line, self.plain);
        self.text.push_str("  ");
        self.text.push_str(&line);
        self.end();
    }

    /// Labels with their values, two in a line where they fit.
    pub fn pairs(&mut self, all: &[(&str, String)]) {
        let half = (WIDTH - 2) / 2;
        let mut held: Option<String> = None;
        for (label, value) in all {
            let cell = clean(&format!("{label:<LABEL$}{value}"), self.plain);
            match held.take() {
                Some(left) if cell.width() <= half => {
                    let pad = half.saturating_sub(left.width());
                    self.put(2, &format!("{left}{}{cell}", " ".repeat(pad)));
                }
                Some(left) => {
                    self.put(2, &left);
                    held = self.hold(cell, half);
                }
                None => held = self.hold(cell, half),
            }
        }
        if let Some(left) = held {
            self.put(2, &left);
        }
    }

    /// Keeps a cell for the left half, or writes it where it is too wide for that.
    fn hold(&mut self, cell: String, half: usize) -> Option<String> {
        if cell.width() + BETWEEN <= half {
            return Some(cell);
        }
        self.put(2, &cell);
        None
    }

    /// Words and an amount, the amounts one under the other.
    pub fn amount(&mut self, words: &str, amount: &str) {
        let amount = clean(amount, self.plain);
        let room = WIDTH.saturating_sub(2 + BETWEEN + amount.width().max(14));
        let mut lines = wrapped(&clean(words, self.plain), room);
        let last = lines.pop().unwrap_or_default();
        for line in lines {
            self.put(2, &line);
        }
        let pad = (WIDTH - 2).saturating_sub(last.width() + amount.width());
        self.text.push_str("  ");
        self.text.push_str(&last);
        self.text.push_str(&" ".repeat(pad));
        self.text.push_str(&amount);
        self.end();
    }

    /// A table. A last cell that does not fit beside the others goes below them.
    pub fn table(&mut self, sides: &[Side], rows: &[Vec<String>]) {
        let rows: Vec<Vec<String>> =
            rows.iter().map(|row| row.iter().map(|cell| clean(cell, self.plain)).collect()).collect();
        let width = |column: usize| {
            rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.width()).max().unwrap_or_default()
        };
        let widths: Vec<usize> = (0..sides.len()).map(width).collect();
        for row in &rows {
            let mut line = String::new();
            for (place, (cell, (side, width))) in row.iter().zip(sides.iter().zip(&widths)).enumerate() {
                let is_last = place + 1 == row.len();
                if is_last && 2 + line.width() + cell.width() > WIDTH {
                    self.put(2, line.trim_end());
                    line = format!("    {cell}");
                    continue;
                }
                let pad = " ".repeat(width.saturating_sub(cell.width()));
                let (before, after) = match side {
                    Side::Left => (cell, &pad),
                    Side::Right => (&pad, cell),
                };
                line.push_str(before);
                line.push_str(after);
                line.push_str("  ");
            }
            self.put(2, line.trim_end());
        }
    }

    /// Writes words from an indent on, two columns deeper where they go on.
    fn put(&mut self, indent: usize, words: &str) {
        let words = clean(words, self.plain);
        if words.width() + indent <= WIDTH {
            self.text.push_str(&" ".repeat(indent));
            self.text.push_str(&words);
            self.end();
            return;
        }
        for (place, line) in wrapped(&words, WIDTH - indent - 2).iter().enumerate() {
            let deeper = if place == 0 { 0 } else { 2 };
            self.text.push_str(&" ".repeat(indent + deeper));
            self.text.push_str(line);
            self.end();
        }
    }

    fn end(&mut self) {
        let kept = self.text.trim_end_matches(' ').len();
        self.text.truncate(kept);
        self.text.push('\n');
    }
}

/// Text without characters that cannot be seen; plain text has nothing but ASCII.
pub fn clean(text: &str, plain: bool) -> String {
    let mut clean = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            // marks that turn the direction of writing move text as well
            c if is_hidden(c) => clean.push('?'),
            c if !plain || c.is_ascii() => clean.push(c),
            '×' => clean.push('x'),
            '±' => clean.push_str("+-"),
            '─' | '–' | '−' => clean.push('-'),
            '├' | '┤' => clean.push('|'),
            '\u{2018}' | '\u{2019}' => clean.push('\''),
            '\u{201c}' | '\u{201d}' => clean.push('"'),
            // as wide as it was, so that columns stay
            _ => clean.push_str(&"?".repeat(c.width().unwrap_or(1))),
        }
    }
    clean
}

/// Lines of at most so many columns, broken between words; a word that is wider is cut.
/// Spaces at the beginning of the text stay.
fn wrapped(text: &str, room: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split_inclusive(' ') {
        if !line.trim().is_empty() && line.width() + word.trim_end().width() > room {
            lines.push(line.trim_end().to_owned());
            line.clear();
        }
        for c in word.chars() {
            line.push(c);
            if line.trim_end().width() > room {
                line.pop();
                lines.push(line.trim_end().to_owned());
                line = c.to_string();
            }
        }
    }
    lines.push(line.trim_end().to_owned());
    lines
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn page(write: impl Fn(&mut Page)) -> String {
        let mut page = Page::new(false);
        write(&mut page);
        page.finish()
    }

    #[test]
    fn pairs_stand_two_in_a_line_where_they_fit() {
        let told = page(|page| {
            let wide = "x".repeat(60);
            page.pairs(&[("a", "1".into()), ("b", "2".into()), ("wide", wide), ("c", "3".into())]);
        });
        let lines: Vec<&str> = told.lines().collect();
        assert_eq!(lines[0], format!("  a{}1{}b{}2", " ".repeat(17), " ".repeat(30), " ".repeat(17)));
        assert!(lines[1].starts_with("  wide              xxx"));
        assert_eq!(lines[2], format!("  c{}3", " ".repeat(17)));
        assert_eq!(lines.len(), 3);
    }

    #[test]
    fn amounts_end_at_the_same_column() {
        let told = page(|page| {
            page.amount("Goods", "77.39");
            page.amount(&"long words ".repeat(20), "-0.05");
            page.amount("Delivery", "1234567.8901");
        });
        let ends: Vec<usize> =
            told.lines().filter(|line| line.ends_with(char::is_numeric)).map(str::len).collect();
        assert_eq!(ends, [WIDTH, WIDTH, WIDTH]);
    }

    #[test]
    fn what_moves_a_cursor_is_a_question_mark() {
        assert_eq!(clean("a\u{1b}[2Jb\nc\u{202e}d", false), "a?[2Jb?c?d");
        assert_eq!(clean("Zoë × ½", false), "Zoë × ½");
        assert_eq!(clean("Zoë × ½ ±", true), "Zo? x ? +-");
    }

    #[test]
    fn a_last_cell_that_does_not_fit_goes_below() {
        let told = page(|page| {
            let long = "y".repeat(90);
            page.table(
                &[Side::Right, Side::Left],
                &[vec!["1".into(), "z".into()], vec!["1000000".into(), long]],
            );
        });
        let lines: Vec<&str> = told.lines().collect();
        assert_eq!(lines[0], "        1  z");
        assert_eq!(lines[1], "  1000000");
        assert_eq!(lines[2], format!("      {}", "y".repeat(90)));
    }

    proptest! {
        #[test]
        fn no_line_is_wider_than_the_page_and_no_letter_is_lost(text in "[a-zÀ-ž漢字 ]{0,400}") {
            let told = page(|page| {
                page.line(&text);
                page.below(&text);
                page.heading(&text);
                page.pairs(&[("label", text.clone()), ("other", text.clone())]);
                page.amount(&text, "1.00");
                page.table(&[Side::Left, Side::Right], &[vec![text.clone(), text.clone()]]);
            });
            for line in told.lines() {
                prop_assert!(line.width() <= WIDTH, "{} columns: {line}", line.width());
            }
            let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).count();
            let more = letters("labelother1.00");
            prop_assert_eq!(letters(&told), 8 * letters(&text) + more);
        }
    }
}
