//! Jobs far out of the usual.
//!
//! One order for a festival is no rate. Its size is capped where the rate is worked, and
//! stands in full where sizes matter: in the variation that makes the class, and in the
//! sizes that lead-time demand is drawn from.
//!
//! | figure | rule |
//! |---|---|
//! | cap | `max(Q₃ + 3 (Q₃ - Q₁), 3 median)` of all sizes above 0: Tukey's outer fence (*Exploratory Data Analysis*, 1977), and three usual jobs where most are alike |
//! | quartiles | linear between order statistics, as `(n - 1) q` counts (Hyndman and Fan's seventh) |
//! | capped are | sizes above the cap, but at most one demand in 20, and one at the least |
//! | otherwise | none: what happens oftener is this fabric's habit and no one-off |
//! | fewer than 5 demands | none: nothing says what is usual |
//!
//! Three usual jobs, one in 20 and 5 are our own figures. Doubles; no rounding.

use super::Error;
use super::number::{check, count};

/// Fewest demands among which one can be out of the usual.
pub const LEAST_DEMANDS: usize = 5;
/// So many demands for each that may be a one-off.
pub const ONE_IN: usize = 20;

/// A size that counts for less in the rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capped {
    /// Which value, from nought.
    pub at: usize,
    /// What was used.
    pub used: f64,
    /// What it counts as.
    pub counts_as: f64,
}

/// Values with one-off jobs capped, and which those are.
///
/// ```
/// use pennantry_forecast::demand::one_off::cap;
/// let (values, capped) = cap(&[4.0, 0.0, 5.0, 6.0, 0.0, 5.0, 90.0])?;
/// // quartiles 5 and 6, median 5: 6 + 3 against 3 · 5
/// assert_eq!((values[6], capped.len()), (15.0, 1));
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn cap(values: &[f64]) -> Result<(Vec<f64>, Vec<Capped>), Error> {
    check(values)?;
    let mut sizes: Vec<f64> = values.iter().copied().filter(|&value| value > 0.0).collect();
    if sizes.len() < LEAST_DEMANDS {
        return Ok((values.to_vec(), Vec::new()));
    }
    sizes.sort_by(f64::total_cmp);
    let [low, middle, high] = [1, 2, 3].map(|quarter| quartile(&sizes, quarter));
    let cap = (high + 3.0 * (high - low)).max(3.0 * middle);
    let above = values.iter().enumerate().filter(|&(_, &value)| value > cap);
    let capped: Vec<Capped> = above.map(|(at, &used)| Capped { at, used, counts_as: cap }).collect();
    if capped.len() > (sizes.len() / ONE_IN).max(1) {
        return Ok((values.to_vec(), Vec::new()));
    }
    Ok((values.iter().map(|value| value.min(cap)).collect(), capped))
}

/// A quartile of sorted sizes.
fn quartile(sorted: &[f64], quarter: usize) -> f64 {
    let place = sorted.len().saturating_sub(1) * quarter;
    let at = |place: usize| sorted.get(place).or(sorted.last()).copied().unwrap_or(0.0);
    let (below, above) = (at(place / 4), at(place / 4 + 1));
    below + (above - below) * count(place % 4) / 4.0
}
