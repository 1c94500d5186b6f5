//! Of what kind a demand is.
//!
//! Two figures decide, both of buckets that are observations:
//!
//! | figure | formula | definition taken |
//! |---|---|---|
//! | interval `p` | `n / k` | buckets over buckets with demand, counted from the first demand on, the gap at the end included |
//! | variation `v` | `σ² / μ²` of sizes above 0 | population variance: divided by `k` |
//!
//! Other definitions are about (the mean of intervals with or without the first, the
//! sample variance) and can flip a class near a border; a closed day counted as a bucket
//! flips it too. Which one is meant is therefore written here, and nowhere left open.
//!
//! Classes are those of Syntetos, Boylan and Croston, "On the categorization of demand
//! patterns", *Journal of the Operational Research Society* 56 (2005) 495-503; on a border
//! the lower one is taken:
//!
//! | | `v <= 0.49` | `v > 0.49` |
//! |---|---|---|
//! | `p <= 1.32` | smooth | erratic |
//! | `p > 1.32` | intermittent | lumpy |
//!
//! Fewer than two demands have no class. Doubles; no rounding.

use super::Error;
use super::number::{check, count, mean, quotient};

/// The border of the interval.
pub const INTERVAL: f64 = 1.32;
/// The border of the variation.
pub const VARIATION: f64 = 0.49;
/// Fewest demands that have a class.
pub const LEAST_DEMANDS: usize = 2;

/// The kind of a demand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// Fewer than two demands: nothing can be said.
    Insufficient,
    /// Often and alike.
    Smooth,
    /// Often, of very different sizes.
    Erratic,
    /// Seldom, alike when it comes.
    Intermittent,
    /// Seldom, of very different sizes.
    Lumpy,
}

/// The figures of a demand, and its class.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shape {
    /// Buckets looked at.
    pub buckets: usize,
    /// Those with demand.
    pub demands: usize,
    /// `n / k`; nothing without a demand.
    pub interval: Option<f64>,
    /// Squared coefficient of variation of the sizes; nothing below two demands.
    pub variation: Option<f64>,
    /// What they make of it.
    pub class: Class,
}

/// The values from the first demand on; none of them where there is no demand.
pub fn since_first_use(values: &[f64]) -> &[f64] {
    let first = values.iter().position(|&value| value > 0.0).unwrap_or(values.len());
    values.get(first..).unwrap_or_default()
}

/// The class of a demand, from its first use on.
///
/// # Errors
/// No values, too many, or one that is negative or not finite.
pub fn classify(values: &[f64]) -> Result<Shape, Error> {
    check(values)?;
    Ok(figures(since_first_use(values)))
}

/// The same over all values given, buckets before the first use counted too, as `n / k`
/// is printed in most tables.
///
/// # Errors
/// As [`classify`].
pub fn classify_all(values: &[f64]) -> Result<Shape, Error> {
    check(values)?;
    Ok(figures(values))
}

fn figures(values: &[f64]) -> Shape {
    let sizes: Vec<f64> = values.iter().copied().filter(|&value| value > 0.0).collect();
    let interval = quotient(count(values.len()), count(sizes.len()));
    let variation = if sizes.len() < LEAST_DEMANDS { None } else { squared_variation(&sizes) };
    let class = match (interval, variation) {
        (Some(interval), Some(variation)) => class_of(interval, variation),
        _ => Class::Insufficient,
    };
    Shape { buckets: values.len(), demands: sizes.len(), interval, variation, class }
}

/// `σ² / μ²` as the mean of `(x / μ - 1)²`, which cannot run over.
fn squared_variation(sizes: &[f64]) -> Option<f64> {
    let middle = mean(sizes)?;
    let squares = sizes.iter().map(|size| (size / middle - 1.0) * (size / middle - 1.0));
    quotient(squares.sum(), count(sizes.len()))
}

/// The class of an interval and a variation.
///
/// ```
/// use pennantry_forecast::demand::class::{Class, class_of};
/// assert_eq!(class_of(1.32, 0.49), Class::Smooth);
/// assert_eq!(class_of(1.33, 0.50), Class::Lumpy);
/// ```
pub fn class_of(interval: f64, variation: f64) -> Class {
    match (interval > INTERVAL, variation > VARIATION) {
        (false, false) => Class::Smooth,
        (false, true) => Class::Erratic,
        (true, false) => Class::Intermittent,
        (true, true) => Class::Lumpy,
    }
}

/// Whether Croston's method is at least as good as the Syntetos-Boylan approximation by
/// mean squared error: `v <= 2 - 3 p / 2`, the line of Kostenko and Hyndman, "A note on
/// the categorization of demand patterns", *JORS* 57 (2006) 1256-1257 (formula from
/// memory). It cuts the box of the classes: `p` 1.31 and `v` 0.49 are smooth, and yet on
/// the side of the approximation.
pub fn croston_suffices(interval: f64, variation: f64) -> bool {
    variation <= 2.0 - 1.5 * interval
}
