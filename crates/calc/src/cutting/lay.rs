//! From what was chosen to the bands of a plan.

use pennantry_measure::Length;

use super::cover::Choice;
use super::rows::{Cut, Unit, alternates};
use super::turns::{Block, column_length};
use super::{Band, Job, Plan, RowKind, TIGHT_HALF_UM, bounds};
use crate::shop::Direction;

/// The plan of a choice: a block, the rows, another block. What comes last is filled in
/// part, so that what is left of the cloth lies together.
pub(super) fn lay(job: &Job, cut: &Cut, choice: &Choice) -> Plan {
    let mut floor =
        Floor { cut, bands: Vec::with_capacity(2), start: 0, end: 0, left: i64::from(cut.pieces) };
    let mut room = -floor.left;
    let [before, behind] = choice.blocks;
    if let Some(block) = before {
        floor.block(&block);
        room += block.count();
    }
    // pairs before plain rows
    for (unit, times) in choice.rows.iter().rev().filter(|(_, times)| *times > 0) {
        floor.rows(unit, i64::from(*times));
        room += i64::from(*times) * i64::from(unit.count);
    }
    if let Some(block) = behind {
        if choice.rows.iter().all(|(_, times)| *times == 0) {
            // sides face sides
            floor.start += (cut.clearance - cut.gap).max(0);
        }
        floor.block(&block);
        room += block.count();
    }
    let zero_tolerance = floor.bands.iter().any(|band| band.half_slack < TIGHT_HALF_UM);
    Plan {
        used: Length::from_um(floor.end),
        bound: bounds::bound(job),
        bands: floor.bands,
        zero_tolerance,
        room: u32::try_from(room).unwrap_or(0),
        steps: u64::from(cut.pieces) + choice.tried,
    }
}

/// The cloth as far as it is laid.
struct Floor<'a> {
    cut: &'a Cut,
    bands: Vec<Band>,
    /// Where the next band starts.
    start: i64,
    /// Where the last piece ends.
    end: i64,
    /// Pieces still to be laid.
    left: i64,
}

impl Floor<'_> {
    /// Takes at most so many of the pieces that are left.
    fn take(&mut self, most: i64) -> i64 {
        let taken = most.min(self.left).max(0);
        self.left -= taken;
        taken
    }

    /// Goes on behind a band of a length.
    fn go_on(&mut self, length: i64) {
        self.start += length + self.cut.gap;
    }

    /// Rows or pairs alike.
    fn rows(&mut self, unit: &Unit, times: i64) {
        let count = i64::from(unit.count).max(1);
        let pieces = self.take(times * count);
        self.lines(unit, pieces, self.start, 0);
        self.go_on(times * (unit.length + self.cut.gap) - self.cut.gap);
    }

    /// So many pieces in rows or pairs, full ones first, then one with the rest.
    fn lines(&mut self, unit: &Unit, pieces: i64, start: i64, half_left: i64) {
        let count = i64::from(unit.count).max(1);
        let (full, rest) = (pieces / count, pieces % count);
        if full > 0 {
            self.line(unit, full, count, start, half_left);
        }
        if rest > 0 {
            self.line(unit, 1, rest, start + full * (unit.length + self.cut.gap), half_left);
        }
    }

    fn line(&mut self, unit: &Unit, rows: i64, per_row: i64, start: i64, half_left: i64) {
        let cut = self.cut;
        let width = |pieces: i64| 2 * cut.width + cut.half_pitch * (pieces - 1);
        let (kind, half_shift, right) = match unit.pair {
            Some(pair) => {
                let (first, second) = (per_row - per_row / 2, per_row / 2);
                let shifted = if second > 0 { pair.half_shift + width(second) } else { 0 };
                (RowKind::Facing, pair.half_shift, width(first).max(shifted))
            }
            None if cut.direction != Direction::OneWay && alternates(cut.outline.shape) => {
                (RowKind::PlainTwoWay, 0, width(per_row))
            }
            None => (RowKind::PlainOneWay, 0, width(per_row)),
        };
        self.bands.push(Band {
            kind,
            rows: whole(rows),
            per_row: whole(per_row),
            start: Length::from_um(start),
            row: Length::from_um(unit.length),
            half_pitch: cut.half_pitch,
            half_slack: 2 * cut.cloth - half_left - right,
            half_left,
            half_shift,
        });
        self.end = self.end.max(start + rows * (unit.length + cut.gap) - cut.gap);
    }

    /// Columns on their side, and the rows beside them. Where it is filled in part, the
    /// last row is, and then some columns hold one piece fewer.
    fn block(&mut self, block: &Block) {
        let cut = self.cut;
        let pieces = self.take(block.count());
        let upright = (pieces - block.columns * block.column).clamp(0, block.rows * block.per_row);
        let missing = block.count() - (block.rows * block.per_row - upright) - pieces;
        let across = 2 * (cut.drop + cut.gap);
        let columns_end = block.columns * across;
        let slack = if block.per_row > 0 {
            2 * cut.cloth - columns_end - 2 * cut.width - cut.half_pitch * (block.per_row - 1)
        } else {
            2 * (cut.cloth + cut.gap) - columns_end
        };
        let full = block.columns - missing;
        for (columns, column, first) in [(full, block.column, 0), (missing, block.column - 1, full)] {
            if columns <= 0 || column <= 0 {
                continue;
            }
            let row = column_length(cut, column);
            self.bands.push(Band {
                kind: RowKind::Sideways,
                rows: whole(columns),
                per_row: whole(column),
                start: Length::from_um(self.start),
                row: Length::from_um(row),
                half_pitch: cut.half_pitch,
                half_slack: slack,
                half_left: first * across,
                half_shift: 0,
            });
            self.end = self.end.max(self.start + row);
        }
        let unit = Unit { pair: None, count: whole(block.per_row), length: cut.drop };
        self.lines(&unit, upright, self.start, columns_end);
        self.go_on(block.length);
    }
}

/// A count of pieces or rows; far below the end of the type.
fn whole(count: i64) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}
