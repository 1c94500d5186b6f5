//! How the pieces lie on the cloth: a plan that can be cut, and how good it is.
//!
//! Across the cloth is `x`, along it `y`. So far there are plain rows: every piece of a
//! row stands on the same two straight lines across the cloth. With cut width `w`, cut
//! drop `h`, side `S = √(w²/4 + h²)`, usable width `W`, clearance `c`, row gap `g`:
//!
//! | figure | two-way cloth | one-way cloth |
//! |---|---|---|
//! | pitch `p` | `w/2 + c S / h` | `w + c` |
//! | pieces in a row `k` | `1 + ⌊(W − w) / p⌋` | the same |
//!
//! and `N` pieces take `R = ⌈N / k⌉` rows and `R h + (R − 1) g` of cloth.
//!
//! *Two ways*: points up and down in turn. Neighbours face each other with parallel
//! sides, `c S / h` apart along the row and so `c` apart square to the side.
//! *One way*: all points alike. The sides of neighbours lean away from each other, so
//! the nearest points are the two base corners; they are `c` apart, and nothing else of
//! the two pieces is nearer.
//!
//! The pitch is kept in half micrometres, up to the next: half an odd width is exact,
//! so that with a clearance of nought the last piece fits a cloth that fits it exactly.
//!
//! **Bounds.** Nothing lies closer than the longest of three lengths, rounded down:
//! - the cloth's area, `N A / W` with `A = w h / 2`;
//! - for pieces that lie upright or turned by half, with `c` between neighbours,
//!   `N h (w/2 + c) / (W − w/2 + c)`. Derived: along every line across the cloth the
//!   pieces and the gaps between them add up; the cloth left of the first piece
//!   averages at least `w/4` because its side leans, the cloth right of the last piece
//!   likewise; so `L (W − w/2 + c) ≥ N (A + c h)`;
//! - one drop.

mod cloth;
mod coordinates;
#[cfg(test)]
mod tests;

use pennantry_measure::{Length, Percent, Rounding, divide};

use crate::outline::{Outline, spread, um};
use crate::shop::Direction;

pub use cloth::{
    Bought, ClothUse, Error, Role, Step, bought_length, change, cloth, notices, washed, whole_repeats,
};
pub use coordinates::{Fault, Placed, coordinates, validate};

/// A full row that leaves less than this is noticed: nobody cuts cloth more truly than
/// to a millimetre (common practice, no source). In half micrometres.
const TIGHT_HALF_UM: i64 = 2_000;

/// What is to be cut out of one cloth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Job {
    /// Usable width.
    pub cloth_width: Length,
    /// Whether pieces may lie head to tail.
    pub direction: Direction,
    /// The piece.
    pub outline: Outline,
    /// Least distance between neighbours in a row.
    pub clearance: Length,
    /// Cloth left between rows.
    pub row_gap: Length,
    /// Pieces to cut.
    pub pieces: u32,
}

/// A plan for a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// Length of cloth it covers.
    pub used: Length,
    /// Length below which no plan can get, rounded down.
    pub bound: Length,
    /// Rows alike, from the start of the cloth.
    pub bands: Vec<Band>,
    /// Whether full rows fill the cloth to less than a millimetre.
    pub zero_tolerance: bool,
    /// Places that the rows have beyond the pieces.
    pub room: u32,
    /// Pieces placed and checked.
    pub steps: u64,
}

/// Rows that are alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Band {
    /// How the rows lie.
    pub kind: RowKind,
    /// How many rows.
    pub rows: u32,
    /// Pieces in each row.
    pub per_row: u32,
    /// Where the first row starts along the cloth.
    pub start: Length,
    /// Length of each row along the cloth.
    pub row: Length,
    /// From one piece's left corner to the next one's, in half micrometres.
    pub half_pitch: i64,
    /// Width that a row leaves, in half micrometres.
    pub half_slack: i64,
}

/// How a row lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowKind {
    /// All points one way.
    PlainOneWay,
    /// Points up and down in turn.
    PlainTwoWay,
}

/// A piece that is wider than its cloth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a piece {needed} wide does not fit on {usable} of usable width")]
pub struct TooWide {
    /// Width of the piece.
    pub needed: Length,
    /// Usable width of the cloth.
    pub usable: Length,
}

/// Why there is no plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum PlanError {
    /// The piece is wider than the cloth.
    #[error(transparent)]
    TooWide(#[from] TooWide),
    /// The plan did not stand up to being rebuilt: a fault of the program.
    #[error(transparent)]
    Fault(#[from] Fault),
}

impl Job {
    /// From one piece's left corner to the next one's, in half micrometres.
    pub fn half_pitch(&self) -> i64 {
        let width = self.outline.width;
        match self.direction {
            Direction::OneWay => (width + self.clearance).um() * 2,
            // twice w/2 + c S / h
            Direction::TwoWay | Direction::FourWay => {
                (width + spread(width, self.outline.drop, self.clearance)).um()
            }
        }
    }

    /// How many pieces fit side by side; none where the piece is wider than the cloth.
    ///
    /// ```
    /// use pennantry_calc::cutting::Job;
    /// use pennantry_calc::outline::Outline;
    /// use pennantry_calc::shop::Direction;
    /// use pennantry_measure::Length;
    /// let mm = Length::from_mm;
    /// let job = Job {
    ///     cloth_width: mm(1_100),
    ///     direction: Direction::TwoWay,
    ///     outline: Outline::triangle(mm(190), mm(210)),
    ///     clearance: mm(5),
    ///     row_gap: mm(0),
    ///     pieces: 10,
    /// };
    /// assert_eq!(job.per_row(), 10);
    /// assert_eq!(Job { clearance: mm(6), ..job }.per_row(), 9);
    /// assert_eq!(Job { direction: Direction::OneWay, ..job }.per_row(), 5);
    /// ```
    pub fn per_row(&self) -> u32 {
        let room = (self.cloth_width - self.outline.width).wide() * 2;
        if room < 0 {
            return 0;
        }
        let more = divide(room, i128::from(self.half_pitch()), Rounding::Down);
        u32::try_from(more + 1).unwrap_or(u32::MAX)
    }

    /// How many pieces a length of the cloth holds in plain rows, whatever the job
    /// asks for.
    pub fn capacity(&self, length: Length) -> u64 {
        let (row, gap) = (self.outline.drop, self.row_gap);
        let rows = divide((length + gap).wide(), (row + gap).wide(), Rounding::Down);
        u64::try_from(rows).unwrap_or(0) * u64::from(self.per_row())
    }

    /// The length of so many rows, with the gaps between them.
    fn length_of(&self, rows: u32) -> Length {
        let gaps = i64::from(rows.saturating_sub(1));
        self.outline.drop * i64::from(rows) + self.row_gap * gaps
    }

    /// The length below which no plan can get.
    fn bound(&self) -> Length {
        if self.pieces == 0 {
            return Length::ZERO;
        }
        let (w, h) = (self.outline.width.wide(), self.outline.drop.wide());
        let (cloth, clear) = (self.cloth_width.wide(), self.clearance.wide());
        let pieces = i128::from(self.pieces);
        let area = divide(pieces * w * h, 2 * cloth, Rounding::Down);
        let margins = divide(pieces * h * (w + 2 * clear), 2 * cloth - w + 2 * clear, Rounding::Down);
        um(area.max(margins)).max(self.outline.drop)
    }
}

/// Plans a job in plain rows: as many full rows as there are, then one with the rest.
/// The plan is rebuilt as coordinates and checked before it is given.
///
/// # Errors
/// [`PlanError::TooWide`] where not even one piece fits across the cloth;
/// [`PlanError::Fault`] where the plan does not stand up to [`validate`].
///
/// ```
/// use pennantry_calc::cutting::{Job, plan};
/// use pennantry_calc::outline::Outline;
/// use pennantry_calc::shop::Direction;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// let job = Job {
///     cloth_width: mm(1_100),
///     direction: Direction::TwoWay,
///     outline: Outline::triangle(mm(190), mm(210)),
///     clearance: mm(0),
///     row_gap: mm(0),
///     pieces: 27,
/// };
/// let plan = plan(&job)?;
/// assert_eq!((plan.used, plan.room), (mm(630), 3));
/// let rows: Vec<(u32, u32)> = plan.bands.iter().map(|band| (band.rows, band.per_row)).collect();
/// assert_eq!(rows, [(2, 10), (1, 7)]);
/// # Ok::<(), pennantry_calc::cutting::PlanError>(())
/// ```
pub fn plan(job: &Job) -> Result<Plan, PlanError> {
    let per_row = job.per_row();
    if per_row == 0 {
        return Err(TooWide { needed: job.outline.width, usable: job.cloth_width }.into());
    }
    let (full, rest) = (job.pieces / per_row, job.pieces % per_row);
    let band = |rows, per_row: u32, start| {
        let half_pitch = job.half_pitch();
        let taken = job.outline.width.um() * 2 + half_pitch * i64::from(per_row - 1);
        let kind = match job.direction {
            Direction::OneWay => RowKind::PlainOneWay,
            Direction::TwoWay | Direction::FourWay => RowKind::PlainTwoWay,
        };
        let half_slack = job.cloth_width.um() * 2 - taken;
        Band { kind, rows, per_row, start, row: job.outline.drop, half_pitch, half_slack }
    };
    let mut bands = Vec::with_capacity(2);
    if full > 0 {
        bands.push(band(full, per_row, Length::ZERO));
    }
    let zero_tolerance = bands.first().is_some_and(|band| band.half_slack < TIGHT_HALF_UM);
    if rest > 0 {
        let start = if full > 0 { job.length_of(full) + job.row_gap } else { Length::ZERO };
        bands.push(band(1, rest, start));
    }
    let plan = Plan {
        used: job.length_of(full + u32::from(rest > 0)),
        bound: job.bound(),
        bands,
        zero_tolerance,
        room: if rest > 0 { per_row - rest } else { 0 },
        steps: u64::from(job.pieces),
    };
    validate(&plan, job)?;
    Ok(plan)
}

/// Cloth charged: what the plan uses and what squaring the end takes, up to the next
/// step in which the cloth is cut off.
///
/// ```
/// use pennantry_calc::cutting::charged;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(charged(Length::from_um(1_140_800), mm(0), mm(100)), mm(1_200));
/// assert_eq!(charged(mm(1_150), mm(50), mm(100)), mm(1_200));
/// ```
pub fn charged(used: Length, squaring: Length, step: Length) -> Length {
    let needed = used + squaring;
    // a cloth without a step is cut to the micrometre
    let step = step.max(Length::from_um(1));
    um(divide(needed.wide(), step.wide(), Rounding::Up) * step.wide())
}

/// Spare pieces: a share of those needed, up to the next whole piece.
///
/// ```
/// use pennantry_calc::cutting::spares;
/// use pennantry_measure::Percent;
/// assert_eq!(spares(29, Percent::from_milli(5_000)), 2);
/// assert_eq!(spares(20, Percent::from_milli(5_000)), 1);
/// ```
pub fn spares(pieces: u32, share: Percent) -> u32 {
    let part = i128::from(pieces) * i128::from(share.milli());
    let spares = divide(part, i128::from(Percent::WHOLE.milli()), Rounding::Up);
    u32::try_from(spares).unwrap_or(0)
}

/// How far a used length is above its bound, in tenths of a percent, half up.
///
/// ```
/// use pennantry_calc::cutting::above_bound_tenths;
/// use pennantry_measure::Length;
/// assert_eq!(above_bound_tenths(Length::from_mm(630), Length::from_mm(536)), 175);
/// ```
pub fn above_bound_tenths(used: Length, bound: Length) -> i64 {
    let tenths = divide((used - bound).wide() * 1_000, bound.wide(), Rounding::HalfUp);
    i64::try_from(tenths).unwrap_or(i64::MAX)
}
