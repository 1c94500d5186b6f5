//! Price points: where a price is moved to.
//!
//! Endings come again after every step: with 95 and a step of 100 they are 0.95, 1.95, …
//! An amount on one of them stays. Between two, it goes up, or to the nearer one, from the
//! middle up. Nothing is moved to nought or below, and nought stays. Whether such prices
//! sell better is a matter of taste: that they look smaller where the first digit changes is
//! published (Thomas and Morwitz, 2005), that they earn more is not certain.
//!
//! What the goods come to at the shop's floor is a floor here too: no price ends below it, be
//! it moved down, moved up or on a point already. It goes to the first point that is not.

use pennantry_measure::Money;

use crate::shop::{Point, PointMode};

/// An amount moved to a price point that is not below a floor.
///
/// ```
/// use pennantry_calc::price::to_point;
/// use pennantry_calc::shop::{Point, PointMode};
/// use pennantry_measure::Money;
/// let up = Point { mode: PointMode::Up, step: 100, endings: vec![95] };
/// let moved = |minor: i64| to_point(&up, Money::from_minor(minor), None).minor();
/// assert_eq!([2_341, 2_395, 2_396, 10].map(moved), [2_395, 2_395, 2_495, 95]);
/// ```
pub fn to_point(point: &Point, amount: Money, floor: Option<Money>) -> Money {
    let minor = amount.minor();
    if minor < 0 {
        // a refund mirrors its charge
        return -to_point(point, -amount, floor);
    }
    let floor = floor.map_or(0, Money::minor);
    let least = minor.max(floor);
    if least == 0 {
        return amount;
    }
    let moved = match (point.mode, lower(point, minor)) {
        (PointMode::Nearest, Some(down)) if minor - down < upper(point, minor) - minor && down >= floor => {
            down
        }
        _ => upper(point, least),
    };
    Money::from_minor(moved)
}

/// The least price point that is not below an amount.
fn upper(point: &Point, minor: i64) -> i64 {
    let step = point.step.max(1);
    let start = minor.div_euclid(step) * step;
    let ending = point.endings.iter().find(|ending| start + **ending >= minor);
    match (ending, point.endings.first()) {
        (Some(ending), _) => start + ending,
        (None, Some(first)) => start + step + first,
        (None, None) => minor,
    }
}

/// The greatest price point above nought that is not above an amount.
fn lower(point: &Point, minor: i64) -> Option<i64> {
    let step = point.step.max(1);
    let start = minor.div_euclid(step) * step;
    let ending = point.endings.iter().rev().find(|ending| start + **ending <= minor);
    let found = match ending {
        Some(ending) => start + ending,
        None => start - step + point.endings.last()?,
    };
    (found > 0).then_some(found)
}
