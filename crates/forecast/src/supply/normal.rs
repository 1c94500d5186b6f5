//! The unit normal distribution and its loss.
//!
//! | figure | formula |
//! |---|---|
//! | density | `phi(x) = exp(-x^2 / 2) / sqrt(2 pi)` |
//! | share below | `Phi(x) = erfc(-x / sqrt 2) / 2` |
//! | quantile | the `z` with `Phi(z) = p` |
//! | loss | `G(k) = phi(k) - k (1 - Phi(k))`: what is wanting beyond `k` sd, on average |
//! | inverse of the loss | the `k` with `G(k) = g` |
//!
//! Source: Snyder and Shen, *Fundamentals of Supply Chain Theory*, 2nd edition, app. C;
//! Silver, Pyke and Peterson, *Inventory Management and Production Planning and
//! Scheduling*, 3rd edition, app. B. A mean `m` and an sd `s` enter as `x = (v - m) / s`; what is
//! wanting is then `s G(x)`.
//!
//! `exp` and `erfc` are libm's, so these figures have the same bits on every machine. The
//! quantile starts from `statrs`, whose last bits need not; its start is first brought to
//! a grid of 2⁻²⁰, and a step of Halley's method on libm's `erfc`, which cubes what it is
//! off by, then takes it to the last bits of a double. Rounding is that of `f64`; the tests hold the
//! figures to 1e-9 of scipy 1.17.1.
//!
//! Example: `G(1.25) = 0.050587`, so a reorder point 1.25 sd above the mean leaves five
//! hundredths of an sd unserved in a cycle.

use libm::{erfc, exp};
use statrs::function::erf::erfc_inv;

use super::Error;

/// `sqrt(2 pi)`.
const ROOT_OF_TWO_PI: f64 = 2.506_628_274_631_000_5;
/// The grid onto which a start is brought.
const GRID: f64 = 1_048_576.0;
/// Halvings of the bracket of an inverse: more than the bits of a double.
const HALVINGS: u32 = 100;

/// The density at `x`.
pub fn density(x: f64) -> f64 {
    exp(-0.5 * x * x) / ROOT_OF_TWO_PI
}

/// The share below `x`.
///
/// ```
/// use pennantry_forecast::supply::normal::below;
/// assert!((below(1.959963984540054) - 0.975).abs() < 1e-15);
/// ```
pub fn below(x: f64) -> f64 {
    0.5 * erfc(-x / core::f64::consts::SQRT_2)
}

/// The share above `x`, exact where `1 - below(x)` would not be.
pub fn above(x: f64) -> f64 {
    below(-x)
}

/// The `z` below which the share `p` lies; `p` is from 10⁻¹² to 1 - 10⁻¹².
///
/// ```
/// use pennantry_forecast::supply::normal::quantile;
/// assert!((quantile(0.95)? - 1.6448536269514722).abs() < 1e-14);
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn quantile(p: f64) -> Result<f64, Error> {
    if !(1e-12..=1.0 - 1e-12).contains(&p) {
        return Err(Error::Figure {
            what: "share below a quantile",
            value: p,
            allowed: "10^-12 to 1 - 10^-12",
        });
    }
    // the lower half, where the share below is exact; the upper is its mirror
    let share = p.min(1.0 - p);
    let start = (-core::f64::consts::SQRT_2 * erfc_inv(2.0 * share) * GRID).round() / GRID;
    let step = (below(start) - share) / density(start);
    let z = start - step / (1.0 + 0.5 * start * step);
    Ok(if p <= 0.5 { z } else { -z })
}

/// The unit loss at `k`: the mean of what a unit normal figure exceeds `k` by.
///
/// ```
/// use pennantry_forecast::supply::normal::loss;
/// assert!((loss(1.0) - 0.0833154705876862).abs() < 1e-15);
/// assert!((loss(-1.0) - (1.0 + loss(1.0))).abs() < 1e-15);
/// ```
pub fn loss(k: f64) -> f64 {
    let size = k.abs();
    // nothing is left of it at 39 sd, where the density is below the least double
    let beyond = (density(size) - size * above(size)).max(0.0);
    if k < 0.0 { size + beyond } else { beyond }
}

/// The `k` with this unit loss; the loss is from 10⁻¹² to 10⁶.
///
/// ```
/// use pennantry_forecast::supply::normal::loss_inverse;
/// assert!((loss_inverse(0.05)? - 1.25558172).abs() < 1e-8);
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn loss_inverse(g: f64) -> Result<f64, Error> {
    if !(1e-12..=1e6).contains(&g) {
        return Err(Error::Figure { what: "unit normal loss", value: g, allowed: "10^-12 to 10^6" });
    }
    // G falls from above g at -g - 1, where it is above g + 1, to nothing at 8
    let (mut low, mut high) = (-g - 1.0, 8.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if loss(middle) > g {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(0.5 * (low + high))
}
