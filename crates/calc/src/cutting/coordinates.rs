//! A plan as coordinates, and the check of them.
//!
//! The check knows nothing of how the plan was made: it takes the places of the pieces
//! as a cutter would draw them and measures.

use pennantry_measure::{Length, ceil_sqrt};

use super::{Job, Plan, RowKind};

/// Where one piece lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placed {
    /// Its left corner across the cloth, in half micrometres.
    pub x2: i64,
    /// Where it starts along the cloth, in micrometres.
    pub y: i64,
    /// Whether its base lies at its start and its tip further along the cloth;
    /// otherwise it is turned by half.
    pub up: bool,
}

/// What is wrong with a plan. Pieces are counted from nought, row by row.
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
    /// A piece is nearer to the one before it in its row than the clearance.
    #[error("piece {piece} is too near to the one before it in its row")]
    TooNear {
        /// The piece.
        piece: u64,
    },
    /// A row starts before the row before it and the row gap end.
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

/// Every piece of a plan, row by row from the start of the cloth, each row from its
/// left.
///
/// ```
/// use pennantry_calc::cutting::{Job, Placed, coordinates, plan};
/// use pennantry_calc::outline::Outline;
/// use pennantry_calc::shop::Direction;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// let job = Job {
///     cloth_width: mm(300),
///     direction: Direction::TwoWay,
///     outline: Outline::triangle(mm(190), mm(210)),
///     clearance: mm(0),
///     row_gap: mm(2),
///     pieces: 3,
/// };
/// let plan = plan(&job)?;
/// let placed: Vec<Placed> = coordinates(&plan, &job).collect();
/// assert_eq!(placed[1], Placed { x2: 190_000, y: 0, up: false });
/// assert_eq!(placed[2], Placed { x2: 0, y: 212_000, up: true });
/// # Ok::<(), pennantry_calc::cutting::PlanError>(())
/// ```
pub fn coordinates<'a>(plan: &'a Plan, job: &'a Job) -> impl Iterator<Item = Placed> + 'a {
    plan.bands.iter().flat_map(move |band| {
        let step = (band.row + job.row_gap).um();
        (0..band.rows).flat_map(move |row| {
            let y = band.start.um() + i64::from(row) * step;
            (0..band.per_row).map(move |place| Placed {
                x2: i64::from(place) * band.half_pitch,
                y,
                up: band.kind == RowKind::PlainOneWay || place % 2 == 0,
            })
        })
    })
}

/// Measures a plan by its coordinates: every piece within the cloth, neighbours in a
/// row at least the clearance apart, rows at least the row gap apart, as many pieces as
/// the job asks for, the last one ending where the plan says. One pass over the pieces,
/// in whole numbers throughout.
///
/// Each piece is measured against the one before it in its row. That clears those
/// further back too: two steps to the right, each clear of the neighbour, come to a
/// width and twice the clearance along the row, or more.
///
/// # Errors
/// The first [`Fault`] met.
pub fn validate(plan: &Plan, job: &Job) -> Result<(), Fault> {
    let piece = Piece::new(job);
    let right_edge = job.cloth_width.wide() * 2;
    let mut count: u64 = 0;
    let mut ends = Length::ZERO;
    let mut row_start: Option<i64> = None;
    // the last one in the same row
    let mut last: Option<Placed> = None;
    for placed in coordinates(plan, job) {
        let end = Length::from_um(placed.y) + job.outline.drop;
        let right = i128::from(placed.x2) + 2 * piece.width;
        if placed.x2 < 0 || right > right_edge || placed.y < 0 || end > plan.used {
            return Err(Fault::Outside { piece: count });
        }
        if row_start != Some(placed.y) {
            let clear = |start: i64| Length::from_um(start) + job.outline.drop + job.row_gap;
            if row_start.is_some_and(|start| Length::from_um(placed.y) < clear(start)) {
                return Err(Fault::RowTooNear { piece: count });
            }
            row_start = Some(placed.y);
            last = None;
        }
        if last.is_some_and(|last| !piece.apart(last, placed)) {
            return Err(Fault::TooNear { piece: count });
        }
        last = Some(placed);
        ends = ends.max(end);
        count += 1;
    }
    if count != u64::from(job.pieces) {
        return Err(Fault::Count { placed: count, wanted: job.pieces });
    }
    if ends != plan.used {
        return Err(Fault::Used { ends, used: plan.used });
    }
    Ok(())
}

/// What is the same for every piece of a job, in half micrometres both ways.
struct Piece {
    /// Its width in micrometres, which is half its width here.
    width: i128,
    /// Its drop here.
    drop: i128,
    /// The clearance here.
    clearance: i128,
    /// The clearance times the length of a side here, up.
    clearance_side: i128,
}

impl Piece {
    fn new(job: &Job) -> Piece {
        let (width, drop) = (job.outline.width.wide(), job.outline.drop.wide() * 2);
        let clearance = job.clearance.wide() * 2;
        let square = (clearance * clearance * (width * width + drop * drop)).unsigned_abs();
        let clearance_side = i128::try_from(ceil_sqrt(square)).unwrap_or(i128::MAX);
        Piece { width, drop, clearance, clearance_side }
    }

    /// The three corners, `(across, along)`.
    fn corners(&self, placed: Placed) -> [(i128, i128); 3] {
        let (left, start) = (i128::from(placed.x2), i128::from(placed.y) * 2);
        let (base, tip) = if placed.up { (start, start + self.drop) } else { (start + self.drop, start) };
        [(left, base), (left + 2 * self.width, base), (left + self.width, tip)]
    }

    /// Whether `right` lies to the right of `left` with the clearance between them:
    /// wholly beyond its right corner, or wholly beyond its right side, square to it.
    /// Either is enough.
    fn apart(&self, left: Placed, right: Placed) -> bool {
        if i128::from(right.x2) - i128::from(left.x2) >= 2 * self.width + self.clearance {
            return true;
        }
        let [_, corner, tip] = self.corners(left);
        let (from, to) = if left.up { (corner, tip) } else { (tip, corner) };
        let side = (to.0 - from.0, to.1 - from.1);
        // the cross product is the distance times the length of the side
        let beyond = |at: (i128, i128)| side.1 * (at.0 - from.0) - side.0 * (at.1 - from.1);
        self.corners(right).into_iter().all(|at| beyond(at) >= self.clearance_side)
    }
}
