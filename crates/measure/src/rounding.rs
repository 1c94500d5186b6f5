//! Division with a named rounding, and the square root that goes with it.

/// What happens to the part of a division that is not whole.
///
/// All three work on the magnitude, so a refund mirrors its charge:
/// `round(-x) == -round(x)`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rounding {
    /// Away from zero: cloth needed.
    Up,
    /// Towards zero: whole pieces that fit.
    Down,
    /// To the nearest, a half away from zero: lengths promised, money, tax.
    HalfUp,
}

/// `numerator / denominator` with the rounding named. A zero denominator gives zero.
///
/// ```
/// use pennantry_measure::{Rounding, divide};
/// assert_eq!(divide(7, 2, Rounding::Up), 4);
/// assert_eq!(divide(7, 2, Rounding::Down), 3);
/// assert_eq!(divide(-7, 2, Rounding::HalfUp), -4);
/// ```
pub const fn divide(numerator: i128, denominator: i128, rounding: Rounding) -> i128 {
    if denominator == 0 {
        return 0;
    }
    let negative = (numerator < 0) != (denominator < 0);
    let n = numerator.unsigned_abs();
    let d = denominator.unsigned_abs();
    let whole = n / d;
    let rest = n % d;
    let more = match rounding {
        Rounding::Up => rest > 0,
        Rounding::Down => false,
        Rounding::HalfUp => rest >= d - rest,
    };
    let magnitude = if more { whole + 1 } else { whole };
    // numerators stay far below 2^126, so the magnitude fits
    let value = magnitude.cast_signed();
    if negative { -value } else { value }
}

/// The least whole number whose square is not below `square`.
///
/// ```
/// use pennantry_measure::ceil_sqrt;
/// assert_eq!(ceil_sqrt(144), 12);
/// assert_eq!(ceil_sqrt(145), 13);
/// ```
pub const fn ceil_sqrt(square: u128) -> u128 {
    let root = square.isqrt();
    if root * root == square { root } else { root + 1 }
}
