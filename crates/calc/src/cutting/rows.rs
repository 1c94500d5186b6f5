//! A job as the search sees it, and plain rows.

use pennantry_measure::{Length, Rounding, divide};

use super::Job;
use super::pairs::Pair;
use crate::outline::{Outline, spread, um};
use crate::shop::{Direction, Shape};

/// A job in micrometres, what follows from it worked out once.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cut {
    /// The piece.
    pub outline: Outline,
    /// Its width.
    pub width: i64,
    /// Its drop.
    pub drop: i64,
    /// Usable width of the cloth.
    pub cloth: i64,
    /// Between sides.
    pub clearance: i64,
    /// Between the rows, however that comes about.
    pub gap: i64,
    /// From one piece's corner to the next one's, in half micrometres.
    pub half_pitch: i64,
    /// Pieces in a plain row.
    pub per_row: u32,
    /// How pieces may be turned in this job.
    pub direction: Direction,
    /// Pieces to cut.
    pub pieces: u32,
}

impl Cut {
    pub(super) fn new(job: &Job) -> Cut {
        let mut cut = Cut {
            outline: job.outline,
            width: job.outline.width.um(),
            drop: job.outline.drop.um(),
            cloth: job.cloth_width.um(),
            clearance: job.clearance.um(),
            gap: (row_pitch(job) - job.outline.drop).um(),
            half_pitch: half_pitch(job),
            per_row: 0,
            direction: direction(job),
            pieces: job.pieces,
        };
        cut.per_row = u32::try_from(cut.row_in(2 * cut.cloth)).unwrap_or(u32::MAX);
        cut
    }

    /// Pieces of a plain row in a width of half micrometres.
    pub(super) fn row_in(&self, half_width: i64) -> i64 {
        let room = half_width - 2 * self.width;
        if room < 0 { 0 } else { 1 + room / self.half_pitch.max(1) }
    }

    /// Whether there are other bands than plain rows.
    pub(super) fn has_choice(&self) -> bool {
        match self.direction {
            Direction::OneWay => false,
            Direction::TwoWay => faces(self.outline.shape),
            Direction::FourWay => true,
        }
    }
}

/// Rows that the search may repeat as often as it likes, one after the other.
#[derive(Debug, Clone, Copy)]
pub(super) struct Unit {
    /// A pair, or else a plain row.
    pub pair: Option<Pair>,
    /// Pieces in it.
    pub count: u32,
    /// Its length along the cloth.
    pub length: i64,
}

/// Makes rows for a job: kinds that come later stand in this list.
pub(super) const MAKERS: [fn(&Cut, &mut Vec<Unit>); 2] = [plain, super::pairs::pairs];

/// The plain row, where a piece fits across the cloth.
pub(super) fn plain(cut: &Cut, units: &mut Vec<Unit>) {
    if cut.per_row > 0 {
        units.push(Unit { pair: None, count: cut.per_row, length: cut.drop });
    }
}

/// A print that must show alike on every piece keeps them all upright.
pub(super) fn direction(job: &Job) -> Direction {
    if printed(job) { Direction::OneWay } else { job.direction }
}

/// Whether every piece shows the same part of a print.
pub(super) fn printed(job: &Job) -> bool {
    job.repeat.across > Length::ZERO || job.repeat.along > Length::ZERO
}

/// Whether neighbours of a row lie head to tail where they may: the sides are slanted
/// from top to foot.
pub(super) fn alternates(shape: Shape) -> bool {
    match shape {
        Shape::Triangle | Shape::Blunt => true,
        Shape::Swallowtail | Shape::Shield | Shape::Scallop | Shape::Rectangle => false,
    }
}

/// Whether two rows of the shape gain by lying foot to foot.
pub(super) fn faces(shape: Shape) -> bool {
    match shape {
        Shape::Swallowtail | Shape::Shield | Shape::Scallop => true,
        Shape::Triangle | Shape::Blunt | Shape::Rectangle => false,
    }
}

/// Width of the foot of a shape with slanted sides.
pub(super) fn foot(outline: &Outline) -> Length {
    if outline.shape == Shape::Blunt { outline.detail } else { Length::ZERO }
}

pub(super) fn half_pitch(job: &Job) -> i64 {
    let (outline, clearance) = (&job.outline, job.clearance);
    let straight = (outline.width + clearance).um() * 2;
    match direction(job) {
        Direction::OneWay => multiple(outline.width + clearance, job.repeat.across).um() * 2,
        Direction::TwoWay | Direction::FourWay if alternates(outline.shape) => {
            let foot = foot(outline);
            // twice (w + t)/2 + c S / h; very flat pieces are as well off upright
            let slanted = outline.width + foot + spread(outline.width - foot, outline.drop, clearance);
            slanted.um().min(straight)
        }
        Direction::TwoWay | Direction::FourWay => straight,
    }
}

pub(super) fn row_pitch(job: &Job) -> Length {
    multiple(job.outline.drop + job.row_gap, job.repeat.along)
}

/// The least whole multiple of a repeat that holds a length; without a repeat, the
/// length.
fn multiple(length: Length, repeat: Length) -> Length {
    if repeat <= Length::ZERO {
        return length;
    }
    um(divide(length.wide(), repeat.wide(), Rounding::Up) * repeat.wide())
}
