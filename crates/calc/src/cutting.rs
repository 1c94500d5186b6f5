//! How the pieces lie on the cloth: a plan that can be cut, and how good it is.
//!
//! Across the cloth is `x`, along it `y`. A piece has cut width `w`, cut drop `h`, foot
//! `t` (nought for a triangle, less than `w` for a blunt one), slanted side
//! `S = √((w − t)²/4 + h²)`; the cloth has usable width `W`. Sides keep the clearance `c`
//! from each other, tops and feet the row gap `g`.
//!
//! **Plain rows.** Every piece stands on the same two straight lines across the cloth.
//!
//! | figure | triangles and blunts, head to tail | all others, and one-way cloth |
//! |---|---|---|
//! | pitch `p` | `(w + t)/2 + c S / h`, at most `w + c` | `w + c` |
//! | pieces in a row `k` | `1 + ⌊(W − w) / p⌋` | the same |
//!
//! and `N` pieces take `R = ⌈N / k⌉` rows and `R h + (R − 1) g` of cloth. Head to tail,
//! neighbours face each other with parallel sides, `c S / h` apart along the row and so
//! `c` apart square to the side. With all feet one way the sides of neighbours lean away
//! from each other or are square to the row, so the tops' corners are the nearest points.
//!
//! **Facing pairs** (swallowtail, shield, scallop, where pieces may be turned by half):
//! two rows, foot to foot, the second one shifted so that its feet reach between those of
//! the first. See `pairs` for the lengths.
//!
//! **On their side** (where pieces may be turned by a quarter): columns along the cloth,
//! `h` wide and `g` apart, each with the pitch `p` along the cloth; alone, or with plain
//! rows beside them in the width that they leave. See `turns`.
//!
//! **Prints.** Where every piece is to show the same part of a print, all lie upright,
//! and both pitches go up to the next whole multiple of the repeat.
//!
//! The shortest way to lay `N` pieces in such bands is searched for; see `cover`.
//! The pitch is kept in half micrometres, up to the next: half an odd width is exact,
//! so that with a clearance of nought the last piece fits a cloth that fits it exactly.
//!
//! The formulas are plane geometry. One example: 27 swallowtails 150 wide, 200 deep and
//! notched by 60 on cloth of 1100. A row holds 7 and leaves 50, so a second row can be
//! shifted by 50: a pair of 14 takes `400 − 2 · 60 · 50 / 150 = 360`. Shifted by 75 the
//! second row holds 6, and a pair of 13 takes 340. Both pairs take 700, plain rows 800.

mod bounds;
mod check;
mod cloth;
mod coordinates;
mod cover;
mod lay;
mod pairs;
mod rows;
#[cfg(test)]
mod tests;
mod turns;

use pennantry_measure::{Length, Percent, Rounding, divide};

use crate::outline::{Outline, um};
use crate::shop::{Direction, Repeat};

use cover::Choice;
use rows::Cut;

pub use check::{Fault, validate};
pub(crate) use cloth::washed_repeat;
pub use cloth::{
    Bought, ClothUse, Error, Role, Step, bought_length, change, cloth, notices, washed, whole_repeats,
};
pub use coordinates::{Placed, Way, coordinates};

/// A full row that leaves less than this is noticed: nobody cuts cloth more truly than
/// to a millimetre (common practice, no source). In half micrometres.
const TIGHT_HALF_UM: i64 = 2_000;

/// Plain rows stay where any other plan saves less than this: cloth is seldom cut off
/// in steps below ten centimetres, so less than half of one seldom changes what is
/// charged, and plain rows are marked and cut faster (common practice, no source).
const WORTH_LENGTH: Length = Length::from_mm(50);

/// Plain rows stay where any other plan saves less than one part in this many: cloth is
/// not spread more truly than to a percent of its length (common practice, no source).
const WORTH_SHARE: i64 = 100;

/// What is to be cut out of one cloth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Job {
    /// Usable width.
    pub cloth_width: Length,
    /// How pieces may be turned.
    pub direction: Direction,
    /// The piece.
    pub outline: Outline,
    /// Least distance between the sides of neighbours.
    pub clearance: Length,
    /// Cloth left between rows.
    pub row_gap: Length,
    /// After which lengths the print repeats, where every piece shows the same part of
    /// it: then no piece is turned.
    pub repeat: Repeat,
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
    /// Whether a band fills the cloth to less than a millimetre.
    pub zero_tolerance: bool,
    /// Places that the bands have beyond the pieces.
    pub room: u32,
    /// Pieces placed and checked, and ways tried before.
    pub steps: u64,
}

impl Plan {
    /// The band that leaves the least of the width.
    ///
    /// ```
    /// use pennantry_calc::cutting::{Job, plan};
    /// use pennantry_calc::outline::Outline;
    /// use pennantry_calc::shop::{Direction, Repeat};
    /// use pennantry_measure::Length;
    /// let mm = Length::from_mm;
    /// let job = Job {
    ///     cloth_width: mm(1_045),
    ///     direction: Direction::TwoWay,
    ///     outline: Outline::triangle(mm(190), mm(210)),
    ///     clearance: mm(0),
    ///     row_gap: mm(0),
    ///     repeat: Repeat::default(),
    ///     pieces: 14,
    /// };
    /// let plan = plan(&job)?;
    /// assert_eq!(plan.tightest().map(|band| (band.per_row, band.half_slack)), Some((10, 0)));
    /// # Ok::<(), pennantry_calc::cutting::PlanError>(())
    /// ```
    pub fn tightest(&self) -> Option<&Band> {
        self.bands.iter().min_by_key(|band| band.half_slack)
    }
}

/// Rows that are alike.
///
/// Bands follow each other along the cloth. One that starts where the band before it
/// starts lies beside that: it has `half_left` above nought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Band {
    /// How the rows lie.
    pub kind: RowKind,
    /// How many rows; of facing rows, how many pairs; on their side, how many columns
    /// lie side by side.
    pub rows: u32,
    /// Pieces in each row, in each pair or in each column.
    pub per_row: u32,
    /// Where the first row starts along the cloth.
    pub start: Length,
    /// Length of each row, pair or column along the cloth, up to the micrometre.
    pub row: Length,
    /// From one piece's corner to the next one's, in half micrometres: across the cloth,
    /// or along it where pieces lie on their side.
    pub half_pitch: i64,
    /// Width that a row leaves, or a pair, or what lies side by side in all, in half
    /// micrometres.
    pub half_slack: i64,
    /// Where its first piece starts across the cloth, in half micrometres.
    pub half_left: i64,
    /// How far the second row of a pair is shifted, in half micrometres; otherwise
    /// nought.
    pub half_shift: i64,
}

/// How a row lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowKind {
    /// All feet one way.
    PlainOneWay,
    /// Feet down and up in turn.
    PlainTwoWay,
    /// Two rows foot to foot. The first holds half of the pair's pieces, up; the second
    /// holds the others, turned by half and shifted.
    Facing,
    /// Columns of pieces on their side, tops and feet across the cloth.
    Sideways,
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
    /// From one piece's left corner to the next one's in a plain row, in half
    /// micrometres.
    pub fn half_pitch(&self) -> i64 {
        rows::half_pitch(self)
    }

    /// From the start of one plain row to that of the next.
    ///
    /// ```
    /// use pennantry_calc::cutting::Job;
    /// use pennantry_calc::outline::Outline;
    /// use pennantry_calc::shop::{Direction, Repeat};
    /// use pennantry_measure::Length;
    /// let mm = Length::from_mm;
    /// let job = Job {
    ///     cloth_width: mm(1_100),
    ///     direction: Direction::TwoWay,
    ///     outline: Outline::triangle(mm(190), mm(210)),
    ///     clearance: mm(5),
    ///     row_gap: mm(2),
    ///     repeat: Repeat { across: mm(64), along: mm(80) },
    ///     pieces: 10,
    /// };
    /// // the next multiples of 64 above 195 and of 80 above 212
    /// assert_eq!((job.half_pitch(), job.row_pitch()), (2 * 256_000, mm(240)));
    /// assert_eq!(Job { repeat: Repeat::default(), ..job }.row_pitch(), mm(212));
    /// ```
    pub fn row_pitch(&self) -> Length {
        rows::row_pitch(self)
    }

    /// How many pieces fit side by side; none where the piece is wider than the cloth.
    ///
    /// ```
    /// use pennantry_calc::cutting::Job;
    /// use pennantry_calc::outline::Outline;
    /// use pennantry_calc::shop::{Direction, Repeat};
    /// use pennantry_measure::Length;
    /// let mm = Length::from_mm;
    /// let job = Job {
    ///     cloth_width: mm(1_100),
    ///     direction: Direction::TwoWay,
    ///     outline: Outline::triangle(mm(190), mm(210)),
    ///     clearance: mm(5),
    ///     row_gap: mm(0),
    ///     repeat: Repeat::default(),
    ///     pieces: 10,
    /// };
    /// assert_eq!(job.per_row(), 10);
    /// assert_eq!(Job { clearance: mm(6), ..job }.per_row(), 9);
    /// assert_eq!(Job { direction: Direction::OneWay, ..job }.per_row(), 5);
    /// ```
    pub fn per_row(&self) -> u32 {
        Cut::new(self).per_row
    }

    /// How many pieces a length of the cloth holds in plain rows, whatever the job
    /// asks for.
    pub fn capacity(&self, length: Length) -> u64 {
        let cut = Cut::new(self);
        let (row, gap) = (self.outline.drop.wide(), i128::from(cut.gap));
        let rows = divide(length.wide() + gap, row + gap, Rounding::Down);
        u64::try_from(rows).unwrap_or(0) * u64::from(cut.per_row)
    }
}

/// Plans a job. Plain rows are as many full rows as there are, then one with the rest.
/// Where facing rows or pieces on their side save enough to be worth the marking, the
/// shortest plan is given instead: 50 mm, and one part in a hundred, or more.
/// The plan is rebuilt as coordinates and checked before it is given.
///
/// # Errors
/// [`PlanError::TooWide`] where not even one piece fits across the cloth;
/// [`PlanError::Fault`] where the plan does not stand up to [`validate`].
///
/// ```
/// use pennantry_calc::cutting::{Job, plan};
/// use pennantry_calc::outline::Outline;
/// use pennantry_calc::shop::{Direction, Repeat};
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// let job = Job {
///     cloth_width: mm(1_100),
///     direction: Direction::TwoWay,
///     outline: Outline::triangle(mm(190), mm(210)),
///     clearance: mm(0),
///     row_gap: mm(0),
///     repeat: Repeat::default(),
///     pieces: 27,
/// };
/// let upright = plan(&job)?;
/// assert_eq!((upright.used, upright.room), (mm(630), 3));
/// let rows: Vec<(u32, u32)> = upright.bands.iter().map(|band| (band.rows, band.per_row)).collect();
/// assert_eq!(rows, [(2, 10), (1, 7)]);
/// // on wider cloth six lie side by side on their side: 570 instead of 630
/// let wider = Job { cloth_width: mm(1_350), direction: Direction::FourWay, ..job };
/// assert_eq!(plan(&wider)?.used, mm(570));
/// # Ok::<(), pennantry_calc::cutting::PlanError>(())
/// ```
pub fn plan(job: &Job) -> Result<Plan, PlanError> {
    let cut = Cut::new(job);
    laid(job, &cut, chosen(job, &cut))
}

/// The shortest plan for a job, however little it saves.
///
/// # Errors
/// As [`plan`].
pub fn best(job: &Job) -> Result<Plan, PlanError> {
    let cut = Cut::new(job);
    laid(job, &cut, cover::search(&cut))
}

/// The length that [`best`] uses, without coordinates; none where nothing fits.
///
/// ```
/// use pennantry_calc::cutting::{Job, length, shortest};
/// use pennantry_calc::outline::Outline;
/// use pennantry_calc::shop::{Direction, Repeat};
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// let job = Job {
///     cloth_width: mm(1_100),
///     direction: Direction::FourWay,
///     outline: Outline::triangle(mm(190), mm(210)),
///     clearance: mm(0),
///     row_gap: mm(0),
///     repeat: Repeat::default(),
///     pieces: 50,
/// };
/// // 5 mm are not worth turning every piece by a quarter
/// assert_eq!((shortest(&job), length(&job)), (Some(mm(1_045)), Some(mm(1_050))));
/// assert_eq!(shortest(&Job { cloth_width: mm(180), ..job }), None);
/// ```
pub fn shortest(job: &Job) -> Option<Length> {
    cover::search(&Cut::new(job)).map(|choice| Length::from_um(choice.used))
}

/// The length that [`plan`] uses, without coordinates; none where nothing fits. One
/// piece more can take a shorter length here, where that is what makes the shortest plan
/// worth its marking.
pub fn length(job: &Job) -> Option<Length> {
    chosen(job, &Cut::new(job)).map(|choice| Length::from_um(choice.used))
}

/// Plain rows, or the shortest plan where that is worth it.
fn chosen(job: &Job, cut: &Cut) -> Option<Choice> {
    let Some(plain) = cover::plain(cut) else { return cover::search(cut) };
    let worth = |length: i64| {
        let saved = plain.used - length;
        saved > 0 && saved >= WORTH_LENGTH.um() && saved >= (plain.used + WORTH_SHARE - 1) / WORTH_SHARE
    };
    // what the bound does not leave to be saved need not be looked for
    if !cut.has_choice() || !worth(bounds::bound(job).um()) {
        return Some(plain);
    }
    let best = cover::search(cut).filter(|best| worth(best.used));
    Some(best.unwrap_or(plain))
}

fn laid(job: &Job, cut: &Cut, choice: Option<Choice>) -> Result<Plan, PlanError> {
    let Some(choice) = choice else {
        return Err(TooWide { needed: job.outline.width, usable: job.cloth_width }.into());
    };
    let plan = lay::lay(job, cut, &choice);
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
