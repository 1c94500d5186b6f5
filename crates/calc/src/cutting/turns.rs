//! Pieces on their side: columns along the cloth, and plain rows beside them.
//!
//! Where pieces may be turned by a quarter, `x` columns of pieces on their side lie side
//! by side, tops and feet across the cloth, each `h` wide and `g` apart; at most
//! `⌊(W + g) / (h + g)⌋` fit. A column of `n` takes `w + (n − 1) p` of length. Beside
//! `x` columns there is `W − x (h + g)` of width for plain rows. A block of length `l`
//! holds
//!
//! `x (1 + ⌊(l − w) / p⌋) + k ⌊(l + g) / (h + g)⌋`
//!
//! pieces, with `k` in each of its plain rows. Only lengths at which a column or the rows
//! are full are worth trying. Two blocks of the same `x` are never better than one, as
//! the sides of the last and the first piece keep the clearance too.

use super::rows::Cut;

/// Ways tried at the most, over all `x`; beyond a hundred thousand pieces of common
/// sizes.
const MOST_TRIED: u64 = 1_000_000;

/// Columns of pieces on their side, and plain rows beside them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Block {
    /// Columns side by side.
    pub columns: i64,
    /// Pieces in each column.
    pub column: i64,
    /// Plain rows beside them.
    pub rows: i64,
    /// Pieces in each of these rows.
    pub per_row: i64,
    /// Length along the cloth, in micrometres.
    pub length: i64,
}

impl Block {
    /// Pieces that it holds.
    pub(super) fn count(&self) -> i64 {
        self.columns * self.column + self.per_row * self.rows
    }
}

/// Length along the cloth of a column, up to the micrometre.
pub(super) fn column_length(cut: &Cut, column: i64) -> i64 {
    half_up(2 * cut.width + (column - 1) * cut.half_pitch)
}

fn half_up(half_um: i64) -> i64 {
    (half_um + 1).div_euclid(2)
}

/// Shows every block that may be worth it, for each number of columns from the shortest
/// to the first that holds all pieces wanted, or until the answer is no. Gives back how
/// many were tried.
pub(super) fn visit(cut: &Cut, wanted: i64, mut see: impl FnMut(&Block) -> bool) -> u64 {
    let across = (cut.drop + cut.gap).max(1);
    let most = if cut.drop > cut.cloth { 0 } else { (cut.cloth + cut.gap) / across };
    let mut tried = 0;
    for columns in (1..=most).rev() {
        let per_row = cut.row_in(2 * (cut.cloth - columns * across));
        // room for another column, and none for a row
        if per_row == 0 && columns < most {
            continue;
        }
        let mut block = Block { columns, column: 0, rows: 0, per_row, length: 0 };
        let mut half_next = 2 * cut.width;
        let mut next_row = if per_row > 0 { cut.drop } else { i64::MAX };
        while block.count() < wanted && tried < MOST_TRIED {
            let next_column = half_up(half_next);
            block.length = next_column.min(next_row);
            if next_column == block.length {
                block.column += 1;
                half_next += cut.half_pitch;
            }
            if next_row == block.length {
                block.rows += 1;
                next_row += across;
            }
            tried += 1;
            // rows alone are plain rows, fewer columns alone are a lesser block
            let worth = block.column > 0 && (block.rows > 0 || columns == most);
            if worth && !see(&block) {
                break;
            }
        }
    }
    tried
}
