//! The check of a plan by its coordinates.
//!
//! The check knows nothing of how the plan was made: it takes the places of the pieces
//! as a cutter would draw them and measures, in whole numbers throughout and in one pass.
//! Within a row or a column each piece is measured against the two before it, which
//! clears those further back too. A row or column must start behind all that lies
//! before it, or beside it; a row of turned pieces may also reach between the feet of
//! the row before, where every piece of the one is measured against every piece of the
//! other that is near.
//!
//! Sides keep the clearance from sides, whatever band they belong to, and so do feet that
//! reach between feet; all else keeps the row gap.

mod facing;

use pennantry_measure::{Length, ceil_sqrt};

use super::coordinates::{Line, Placed, Way, lines};
use super::rows::{alternates, direction, foot};
use super::{Job, Plan};
use crate::shop::Direction;
use facing::Facing;

/// What is wrong with a plan. Pieces are counted from nought, band by band.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// It does not place as many pieces as the job asks for.
    #[error("the plan places {placed} pieces, {wanted} are wanted")]
    Count {
        /// Pieces placed.
        placed: u64,
        /// Pieces wanted.
        wanted: u32,
    },
    /// A piece lies beyond an edge of the cloth.
    #[error("piece {piece} lies beyond the edge of the cloth")]
    Outside {
        /// The piece.
        piece: u64,
    },
    /// A piece is turned as the cloth does not allow.
    #[error("piece {piece} is turned as the cloth does not allow")]
    Turned {
        /// The piece.
        piece: u64,
    },
    /// A piece shows another part of the print than the first one.
    #[error("piece {piece} shows another part of the print than the first one")]
    OffPrint {
        /// The piece.
        piece: u64,
    },
    /// A piece is nearer to one before it in its row than the clearance.
    #[error("piece {piece} is too near to the one before it in its row")]
    TooNear {
        /// The piece.
        piece: u64,
    },
    /// A row starts before what lies before it and the gap between them end.
    #[error("the row of piece {piece} starts too near to the row before it")]
    RowTooNear {
        /// The row's first piece.
        piece: u64,
    },
    /// The pieces do not end where the plan says.
    #[error("the pieces end at {ends}, the plan says {used}")]
    Used {
        /// Where the last one ends.
        ends: Length,
        /// What the plan says.
        used: Length,
    },
}

/// Measures a plan by its coordinates: every piece within the cloth and turned as it may
/// be, neighbours in a row at least the clearance apart, rows at least the row gap apart,
/// facing rows apart, every piece on the same part of a print that matters, as many pieces
/// as the job asks for, the last one ending where the plan says.
///
/// # Errors
/// The first [`Fault`] met.
pub fn validate(plan: &Plan, job: &Job) -> Result<(), Fault> {
    let piece = Piece::new(job);
    let gaps = Gaps::new(job);
    let mut facing: Option<Facing> = None;
    let mut laid = Laid::default();
    let mut count: u64 = 0;
    let mut ends = 0;
    let mut before: Option<Line> = None;
    let mut first: Option<Placed> = None;
    let (right_edge, end_edge) = (2 * job.cloth_width.um(), 2 * plan.used.um());
    for line in lines(plan, job) {
        if line.count == 0 {
            continue;
        }
        let head = count;
        let mut area = Area::of(&piece, line.first);
        // the last one and the one before it in the same line
        let (mut last, mut last_but_one): (Option<Placed>, Option<Placed>) = (None, None);
        for at in 0..line.count {
            let placed = line.piece(at);
            if !piece.may_lie(placed.way) {
                return Err(Fault::Turned { piece: count });
            }
            let own = Area::of(&piece, placed);
            if own.left < 0 || own.start < 0 || own.right > right_edge || own.end > end_edge {
                return Err(Fault::Outside { piece: count });
            }
            if !piece.on_print(*first.get_or_insert(placed), placed) {
                return Err(Fault::OffPrint { piece: count });
            }
            let near = last.is_some_and(|last| !piece.apart(last, placed))
                || last_but_one.is_some_and(|other| !piece.clear(other, placed));
            if near {
                return Err(Fault::TooNear { piece: count });
            }
            area.hold(&own);
            (last_but_one, last) = (last, Some(placed));
            count += 1;
        }
        ends = ends.max(area.end);
        let sideways = line.first.way.sideways();
        let beyond = || {
            before.is_some_and(|before| {
                area.start >= before.first.y2
                    && facing.get_or_insert_with(|| Facing::new(job)).apart(&before, &line)
            })
        };
        if !laid.add(&area, sideways, &gaps, beyond) {
            return Err(Fault::RowTooNear { piece: head });
        }
        before = Some(line);
    }
    if count != u64::from(job.pieces) {
        return Err(Fault::Count { placed: count, wanted: job.pieces });
    }
    let ends = Length::from_um((ends + 1).div_euclid(2));
    if ends != plan.used {
        return Err(Fault::Used { ends, used: plan.used });
    }
    Ok(())
}

/// What is the same for every piece of a job, in half micrometres.
struct Piece {
    direction: Direction,
    width: i64,
    drop: i64,
    /// What two neighbours need along their row, corner to corner.
    straight: i64,
    /// For neighbours head to tail: the square to a slanted side, in micrometres, and
    /// what it must come to.
    slanted: Option<(i128, i128, i128)>,
    /// What the print takes, across and along.
    repeat: (i64, i64),
}

impl Piece {
    fn new(job: &Job) -> Piece {
        let outline = &job.outline;
        let (w, h, t) = (outline.width.wide(), outline.drop.wide(), foot(outline).wide());
        let slanted = alternates(outline.shape).then(|| {
            let (across, along) = (2 * h, w - t);
            let twice = 2 * job.clearance.wide();
            let square = (twice * twice * (across * across + along * along)).unsigned_abs();
            let root = i128::try_from(ceil_sqrt(square)).unwrap_or(i128::MAX);
            (across, along, 2 * h * (w + t) + root)
        });
        Piece {
            direction: direction(job),
            width: 2 * outline.width.um(),
            drop: 2 * outline.drop.um(),
            straight: 2 * (outline.width + job.clearance).um(),
            slanted,
            repeat: (2 * job.repeat.across.um(), 2 * job.repeat.along.um()),
        }
    }

    fn may_lie(&self, way: Way) -> bool {
        match self.direction {
            Direction::OneWay => way == Way::Upright,
            Direction::TwoWay => !way.sideways(),
            Direction::FourWay => true,
        }
    }

    /// Whether a piece shows the same part of the print as the first one.
    fn on_print(&self, first: Placed, placed: Placed) -> bool {
        let alike = |repeat: i64, by: i64| repeat <= 0 || by % repeat == 0;
        alike(self.repeat.0, placed.x2 - first.x2) && alike(self.repeat.1, placed.y2 - first.y2)
    }

    /// From one piece to a later one of its row or column: along it, and square to it
    /// towards the foot of an upright piece.
    fn from(one: Placed, other: Placed) -> (i64, i64) {
        let (across, along) = (other.x2 - one.x2, other.y2 - one.y2);
        if one.way.sideways() { (along, across) } else { (across, along) }
    }

    /// Whether a piece is wholly beyond another, with the clearance between them.
    fn clear(&self, one: Placed, other: Placed) -> bool {
        one.way.sideways() == other.way.sideways() && Piece::from(one, other).0 >= self.straight
    }

    /// Whether neighbours keep the clearance: one wholly beyond the other's corner, or,
    /// head to tail, wholly beyond its slanted side. Either is enough.
    fn apart(&self, one: Placed, other: Placed) -> bool {
        if self.clear(one, other) {
            return true;
        }
        let Some((across, along, needed)) = self.slanted else { return false };
        let (by, aside) = Piece::from(one, other);
        let aside = if one.way.foot_last() { aside } else { -aside };
        let head_to_tail =
            one.way.sideways() == other.way.sideways() && one.way.foot_last() != other.way.foot_last();
        // the product is the distance times the length of the square
        head_to_tail && by >= 0 && across * i128::from(by) + along * i128::from(aside) >= needed
    }
}

/// The rectangle that a piece or a line takes, in half micrometres.
#[derive(Debug, Clone, Copy)]
struct Area {
    left: i64,
    right: i64,
    start: i64,
    end: i64,
}

impl Area {
    fn of(piece: &Piece, placed: Placed) -> Area {
        let (across, along) =
            if placed.way.sideways() { (piece.drop, piece.width) } else { (piece.width, piece.drop) };
        Area { left: placed.x2, right: placed.x2 + across, start: placed.y2, end: placed.y2 + along }
    }

    fn hold(&mut self, other: &Area) {
        self.left = self.left.min(other.left);
        self.right = self.right.max(other.right);
        self.start = self.start.min(other.start);
        self.end = self.end.max(other.end);
    }
}

/// What lies between lines, in half micrometres.
struct Gaps {
    /// The row gap.
    row: i64,
    /// Where sides face sides: the greater of row gap and clearance.
    sides: i64,
}

impl Gaps {
    fn new(job: &Job) -> Gaps {
        let row = 2 * job.row_gap.um();
        Gaps { row, sides: row.max(2 * job.clearance.um()) }
    }
}

/// Where lines end, one way or the other: those that stand, and those on their side.
#[derive(Debug, Clone, Copy)]
struct Ends {
    standing: i64,
    sideways: i64,
}

impl Ends {
    /// Before all cloth, however wide the gap.
    const NONE: Ends = Ends { standing: i64::MIN / 2, sideways: i64::MIN / 2 };

    fn hold(&mut self, end: i64, sideways: bool) {
        let own = if sideways { &mut self.sideways } else { &mut self.standing };
        *own = (*own).max(end);
    }

    fn join(&mut self, other: Ends) {
        self.hold(other.standing, false);
        self.hold(other.sideways, true);
    }

    /// Whether a line that starts here keeps its gaps.
    fn clear(&self, start: i64, to_standing: i64, to_sideways: i64) -> bool {
        start >= self.standing + to_standing && start >= self.sideways + to_sideways
    }
}

/// The lines so far. They lie in levels along the cloth, one behind the other; within a
/// level in stacks, side by side; within a stack one behind the other again.
struct Laid {
    /// Along the cloth: all lines, those of the levels before, those of this stack.
    all: Ends,
    below: Ends,
    stack: Ends,
    /// Across the cloth: the stacks of this level before this one, and this one.
    left: Ends,
    right: Ends,
}

impl Default for Laid {
    fn default() -> Laid {
        Laid { all: Ends::NONE, below: Ends::NONE, stack: Ends::NONE, left: Ends::NONE, right: Ends::NONE }
    }
}

impl Laid {
    /// Adds a line; not where it comes too near to those before. `beyond` says that its
    /// pieces are clear of those of the line before by measure, whatever their areas.
    fn add(&mut self, area: &Area, sideways: bool, gaps: &Gaps, beyond: impl FnOnce() -> bool) -> bool {
        // along the cloth the sides of pieces on their side face each other, across it
        // the sides of those that stand
        let along =
            |ends: &Ends| ends.clear(area.start, gaps.row, if sideways { gaps.sides } else { gaps.row });
        let across =
            |ends: &Ends| ends.clear(area.left, if sideways { gaps.row } else { gaps.sides }, gaps.row);
        if along(&self.all) {
            self.below = self.all;
            self.stack = Ends::NONE;
            self.left = Ends::NONE;
            self.right = Ends::NONE;
        } else if along(&self.below) && across(&self.left) && along(&self.stack) {
            // behind the others of its stack
        } else if along(&self.below) && across(&self.left) && across(&self.right) {
            self.left.join(self.right);
            self.stack = Ends::NONE;
            self.right = Ends::NONE;
        } else if !(along(&self.below) && across(&self.left) && beyond()) {
            return false;
        }
        self.all.hold(area.end, sideways);
        self.stack.hold(area.end, sideways);
        self.right.hold(area.right, sideways);
        true
    }
}
