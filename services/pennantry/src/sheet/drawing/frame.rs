//! Which parts of a string are drawn, at which scale, and at which columns.

use pennantry_measure::{Rounding, divide};

/// Columns of a drawing: a page less its indent.
pub const MOST: i64 = 96;
/// Columns that a pennant has where gaps allow it, and where they are narrow.
const PENNANT: (i64, i64) = (8, 16);
/// Columns that a pennant has at least where the whole string is drawn.
const LEAST: i64 = 4;
/// Rows that a drop has at most; each is two columns tall.
const ROWS: i64 = 12;
/// Columns from one pennant to the next at most, so that some fit beside a break.
const PITCH: i64 = 20;
/// Columns of a tail at most; a longer one is broken, and so many of it stay at each side.
const TAIL: (i64, i64) = (16, 4);
/// Micrometres of a millimetre: scales are whole ones.
const STEP: i64 = 1_000;

/// A string, in micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Strung {
    /// Pennants.
    pub count: i64,
    /// Width of one, at the top edge.
    pub width: i64,
    /// Drop of one.
    pub drop: i64,
    /// First edge to last edge.
    pub flagged: i64,
    /// Binding free at the left.
    pub tail: i64,
    /// All of it.
    pub overall: i64,
}

impl Strung {
    /// The left edge of a pennant, from 0, to the nearest micrometre: exact along the string.
    pub fn left_of(&self, place: i64) -> i64 {
        let between = i128::from(self.flagged - self.width) * i128::from(place);
        let at = divide(between, i128::from((self.count - 1).max(1)), Rounding::HalfUp);
        self.tail.saturating_add(i64::try_from(at).unwrap_or(i64::MAX))
    }

    fn pitch(&self) -> i64 {
        if self.count > 1 { (self.flagged - self.width) / (self.count - 1) } else { 0 }
    }

    fn gap(&self) -> i64 {
        self.pitch() - self.width
    }

    fn right_tail(&self) -> i64 {
        self.overall - self.tail - self.flagged
    }
}

/// A part of the string that is drawn to scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Window {
    /// Where it begins on the string. Unit µm.
    pub from: i64,
    /// Where it ends. Unit µm.
    pub to: i64,
    /// Its first column.
    pub column: usize,
}

impl Window {
    fn at(&self, um: i64, scale: i64) -> usize {
        let steps = divide((um - self.from).into(), scale.into(), Rounding::HalfUp);
        self.column + usize::try_from(steps).unwrap_or(0)
    }

    /// The column after its last.
    pub fn end_column(&self, scale_um: i64) -> usize {
        self.at(self.to, scale_um).max(self.column + 1)
    }
}

/// Where something is left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Break {
    /// Its first column.
    pub column: usize,
    /// What it says.
    pub words: String,
}

/// What is drawn where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Frame {
    /// What one column stands for. Unit µm.
    pub scale_um: i64,
    /// The parts, from the left.
    pub windows: Vec<Window>,
    /// What is between them.
    pub breaks: Vec<Break>,
    /// Pennants drawn at the left and at the right of a break in the middle; all of them at
    /// the left where there is none.
    pub sides: (i64, i64),
}

impl Frame {
    /// The column in which something at this place of the string begins.
    pub fn column(&self, um: i64) -> Option<usize> {
        let inside = self.windows.iter().find(|window| window.from <= um && um < window.to);
        inside.map(|window| window.at(um, self.scale_um))
    }

    /// The column after that in which something at this place ends.
    pub fn column_end(&self, um: i64) -> Option<usize> {
        let inside = self.windows.iter().find(|window| window.from < um && um <= window.to);
        inside.map(|window| window.at(um, self.scale_um))
    }

    /// Columns of all of it.
    pub fn columns(&self) -> usize {
        self.windows.last().map_or(0, |window| window.end_column(self.scale_um))
    }

    /// The pennants that are drawn, from 0.
    pub fn drawn(&self, count: i64) -> impl Iterator<Item = i64> + use<> {
        let (left, right) = self.sides;
        (0..left).chain((count - right)..count)
    }
}

/// Chooses scale and breaks; nothing where the string has no extent.
pub fn choose(string: &Strung) -> Option<Frame> {
    let sound = string.count > 0
        && string.width > 0
        && string.drop > 0
        && string.tail >= 0
        && string.right_tail() >= 0
        && string.flagged >= string.width
        && string.overall > 0;
    if !sound {
        return None;
    }
    let scale = scale(string);
    if string.overall <= MOST * scale {
        return Some(whole(string, scale));
    }
    let wide = up(string.overall, MOST);
    let gap = string.gap();
    let is_seen =
        string.width >= LEAST * wide && (gap <= 0 || gap * 4 >= wide * 3) && string.drop <= 2 * ROWS * wide;
    if is_seen {
        return Some(whole(string, wide));
    }
    Some(broken(string, scale))
}

/// The scale at which a gap and a slope are seen, and a drop does not fill the screen.
fn scale(string: &Strung) -> i64 {
    let (usual, most) = PENNANT;
    let gap = string.gap();
    let usual = up(string.width, usual);
    // a column for the gap, unless that makes the pennants too wide
    let narrow = if gap > 0 { usual.min(gap / STEP * STEP).max(up(string.width, most)) } else { usual };
    narrow.max(up(string.drop, 2 * ROWS)).max(up(string.pitch(), PITCH))
}

/// A length over so many columns, up to a whole millimetre.
fn up(um: i64, columns: i64) -> i64 {
    let each = divide(um.into(), i128::from(columns) * i128::from(STEP), Rounding::Up);
    i64::try_from(each).unwrap_or(i64::MAX / STEP).max(1) * STEP
}

fn whole(string: &Strung, scale_um: i64) -> Frame {
    let all = Window { from: 0, to: string.overall, column: 0 };
    Frame { scale_um, windows: vec![all], breaks: Vec::new(), sides: (string.count, 0) }
}

fn broken(string: &Strung, scale: i64) -> Frame {
    let (most, kept) = TAIL;
    let tail_columns = |tail: i64| if tail > most * scale { most } else { tail / scale + 1 };
    let room = MOST - 2 - tail_columns(string.tail) - tail_columns(string.right_tail());
    let words = |left_out: i64| format!("~ {left_out} more ~");
    let for_words = i64::try_from(words(string.count).len()).unwrap_or(MOST);
    let side = ((room - for_words) / 2 * scale / string.pitch().max(1)).max(1);
    let margin = string.gap().max(0);
    let mut pieces = Vec::new();
    let mut from = 0;
    if string.tail > most * scale {
        pieces.push(Piece::Part(0, kept * scale));
        pieces.push(Piece::Cut("~ tail ~".to_owned()));
        from = string.tail - kept * scale;
    }
    let is_cut = 2 * side < string.count;
    if is_cut {
        pieces.push(Piece::Part(from, string.left_of(side - 1) + string.width + margin));
        pieces.push(Piece::Cut(words(string.count - 2 * side)));
        from = string.left_of(string.count - side) - margin;
    }
    if string.right_tail() > most * scale {
        pieces.push(Piece::Part(from, string.tail + string.flagged + kept * scale));
        pieces.push(Piece::Cut("~ tail ~".to_owned()));
        from = string.overall - kept * scale;
    }
    pieces.push(Piece::Part(from, string.overall));
    let sides = if is_cut { (side, side) } else { (string.count, 0) };
    laid(scale, pieces, sides)
}

/// What follows on another from the left.
enum Piece {
    /// A part from one place of the string to another.
    Part(i64, i64),
    /// A break with its words.
    Cut(String),
}

fn laid(scale_um: i64, pieces: Vec<Piece>, sides: (i64, i64)) -> Frame {
    let mut frame = Frame { scale_um, windows: Vec::new(), breaks: Vec::new(), sides };
    let mut column = 0;
    for piece in pieces {
        match piece {
            Piece::Part(from, to) => {
                let window = Window { from, to, column };
                column = window.end_column(scale_um);
                frame.windows.push(window);
            }
            Piece::Cut(words) => {
                let width = words.len();
                frame.breaks.push(Break { column, words });
                column += width;
            }
        }
    }
    frame
}
