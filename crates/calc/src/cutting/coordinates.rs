//! A plan as coordinates.

use super::rows::alternates;
use super::{Band, Job, Plan, RowKind};

/// Where one piece lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placed {
    /// Where it starts across the cloth, in half micrometres.
    pub x2: i64,
    /// Where it starts along the cloth, in half micrometres.
    pub y2: i64,
    /// How it is turned.
    pub way: Way,
}

/// How a piece is turned. Every outline is alike left and right, so there are four ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Its top comes first along the cloth, its foot last.
    Upright,
    /// Turned by half: its foot comes first.
    Turned,
    /// On its side: its top lies left, its foot right.
    FootRight,
    /// On its side: its foot lies left, its top right.
    FootLeft,
}

impl Way {
    /// Whether it lies on its side.
    pub fn sideways(self) -> bool {
        matches!(self, Way::FootRight | Way::FootLeft)
    }

    /// Whether its foot lies further along the cloth, or across it, than its top.
    pub fn foot_last(self) -> bool {
        matches!(self, Way::Upright | Way::FootRight)
    }

    fn opposite(self) -> Way {
        match self {
            Way::Upright => Way::Turned,
            Way::Turned => Way::Upright,
            Way::FootRight => Way::FootLeft,
            Way::FootLeft => Way::FootRight,
        }
    }
}

/// A row or a column of pieces, evenly apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Line {
    /// Its first piece.
    pub first: Placed,
    /// From one piece to the next, along the cloth where they lie on their side.
    pub step: i64,
    /// Pieces.
    pub count: u32,
    /// Whether each piece is turned the other way than the one before it.
    pub turns: bool,
}

impl Line {
    /// A piece of it, counted from nought.
    pub(super) fn piece(&self, at: u32) -> Placed {
        let by = i64::from(at) * self.step;
        let Placed { x2, y2, way } = self.first;
        let way = if self.turns && at % 2 == 1 { way.opposite() } else { way };
        if way.sideways() { Placed { x2, y2: y2 + by, way } } else { Placed { x2: x2 + by, y2, way } }
    }
}

/// The rows and columns of a plan in the order of its bands.
pub(super) fn lines<'a>(plan: &'a Plan, job: &'a Job) -> impl Iterator<Item = Line> + 'a {
    let gap = job.row_pitch() - job.outline.drop;
    let pitches = (gap.um(), job.outline.drop.um());
    let turns = alternates(job.outline.shape);
    plan.bands.iter().flat_map(move |band| {
        let each = if band.kind == RowKind::Facing { 2 } else { 1 };
        (0..band.rows).flat_map(move |row| (0..each).map(move |of| line(band, row, of == 1, pitches, turns)))
    })
}

/// A row of a band, the second one of a pair, or a column; `gap` and `drop` in
/// micrometres.
fn line(band: &Band, row: u32, second: bool, (gap, drop): (i64, i64), turns: bool) -> Line {
    let start = 2 * band.start.um();
    let y2 = start + 2 * i64::from(row) * (band.row.um() + gap);
    let (first, count, turns) = match band.kind {
        RowKind::PlainOneWay => (Placed { x2: band.half_left, y2, way: Way::Upright }, band.per_row, false),
        RowKind::PlainTwoWay => (Placed { x2: band.half_left, y2, way: Way::Upright }, band.per_row, true),
        RowKind::Facing if second => {
            let x2 = band.half_left + band.half_shift;
            let y2 = y2 + 2 * (band.row.um() - drop);
            (Placed { x2, y2, way: Way::Turned }, band.per_row / 2, false)
        }
        RowKind::Facing => {
            let first = band.per_row - band.per_row / 2;
            (Placed { x2: band.half_left, y2, way: Way::Upright }, first, false)
        }
        RowKind::Sideways => {
            let x2 = band.half_left + 2 * i64::from(row) * (drop + gap);
            (Placed { x2, y2: start, way: Way::FootRight }, band.per_row, turns)
        }
    };
    Line { first, step: band.half_pitch, count, turns }
}

/// Every piece of a plan, band by band from the start of the cloth; each row from its
/// left, each column from its start.
///
/// ```
/// use pennantry_calc::cutting::{Job, Placed, Way, coordinates, plan};
/// use pennantry_calc::outline::Outline;
/// use pennantry_calc::shop::{Direction, Repeat};
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// let job = Job {
///     cloth_width: mm(300),
///     direction: Direction::TwoWay,
///     outline: Outline::triangle(mm(190), mm(210)),
///     clearance: mm(0),
///     row_gap: mm(2),
///     repeat: Repeat::default(),
///     pieces: 3,
/// };
/// let plan = plan(&job)?;
/// let placed: Vec<Placed> = coordinates(&plan, &job).collect();
/// assert_eq!(placed[1], Placed { x2: 190_000, y2: 0, way: Way::Turned });
/// assert_eq!(placed[2], Placed { x2: 0, y2: 424_000, way: Way::Upright });
/// # Ok::<(), pennantry_calc::cutting::PlanError>(())
/// ```
pub fn coordinates<'a>(plan: &'a Plan, job: &'a Job) -> impl Iterator<Item = Placed> + 'a {
    lines(plan, job).flat_map(|line| (0..line.count).map(move |at| line.piece(at)))
}
