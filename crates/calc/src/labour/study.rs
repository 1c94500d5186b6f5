//! From a stop-watch, a table or a machine to the time of an operation.

use pennantry_measure::{BenchTime, Percent, Rounding, divide};

use super::milli;
use crate::shop::Allowance;

/// The standard time of what was observed: `observed · rating`, the normal time, and the
/// allowance on top, up to the next thousandth of a minute.
///
/// A rating says how the observed pace compares with the one to plan by: 120 % is a fast
/// hand whose times are stretched. Both readings of an allowance are published, see
/// [`Allowance`]. A share of the shift of 100 % or more counts as a thousandth of a percent
/// below it: the catalogue lets none through.
///
/// ```
/// use pennantry_calc::labour::standard_time;
/// use pennantry_calc::shop::Allowance;
/// use pennantry_measure::{BenchTime, Percent};
/// let (percent, minutes) = (Percent::from_milli, BenchTime::from_milli_minutes);
/// let fifteen = percent(15_000);
/// let standard = |allowance| standard_time(minutes(10_000), Percent::WHOLE, allowance);
/// assert_eq!(standard(Allowance::OfWork(fifteen)), minutes(11_500));
/// assert_eq!(standard(Allowance::OfShift(fifteen)), minutes(11_765)); // 10 / 0.85
/// // 0.60 minutes at a rating of 80 %, 10 and 20 % on top
/// let rated = standard_time(minutes(600), percent(80_000), Allowance::OfWork(percent(30_000)));
/// assert_eq!(rated, minutes(624));
/// ```
pub fn standard_time(observed: BenchTime, rating: Percent, allowance: Allowance) -> BenchTime {
    let whole = i128::from(Percent::WHOLE.milli());
    // in hundred-thousandths of a thousandth
    let normal = i128::from(observed.milli_minutes()).saturating_mul(rating.milli().into());
    milli(match allowance {
        Allowance::OfWork(share) => {
            let more = whole + i128::from(share.milli());
            divide(normal.saturating_mul(more), whole * whole, Rounding::Up)
        }
        Allowance::OfShift(share) => {
            let left = (whole - i128::from(share.milli())).max(1);
            divide(normal, left, Rounding::Up)
        }
    })
}

/// Time given in TMU, the unit of tables of predetermined times: 0.0006 minutes each, up
/// to the next thousandth of a minute.
///
/// ```
/// use pennantry_calc::labour::from_tmu;
/// assert_eq!(from_tmu(400).milli_minutes(), 240);
/// ```
pub fn from_tmu(tmu: u32) -> BenchTime {
    milli(divide(i128::from(tmu) * 6, 10, Rounding::Up))
}

/// Time for which the needle of a machine moves, at so many stitches a minute: up to the
/// next thousandth of a minute. A speed of nought counts as one stitch a minute.
///
/// Hands decide the pace at the bench; this is only the least that a seam can take, to
/// hold a time against that was measured or guessed. On binding, a third to a half of a
/// machine's speed is usual (common practice, no source).
///
/// ```
/// use pennantry_calc::labour::needle_time;
/// use pennantry_calc::thread::stitches;
/// use pennantry_measure::Length;
/// // 16.370 m of seam in stitches of 2.5 mm, 800 a minute
/// let seam = stitches(Length::from_mm(16_370), Length::from_um(2_500));
/// assert_eq!(needle_time(seam, 800).milli_minutes(), 8_185);
/// ```
pub fn needle_time(stitches: u64, per_minute: u32) -> BenchTime {
    milli(divide(i128::from(stitches) * 1_000, per_minute.max(1).into(), Rounding::Up))
}
