//! Division with a named rounding, and the square root that goes with it.

/// What happens to the part of a division that is not whole.
///
/// All of them work on the magnitude, so a refund mirrors its charge:
/// `round(-x) == -round(x)`.
///
/// | of | up | down | half up | half even |
/// |---|---|---|---|---|
/// | 2.5 | 3 | 2 | 3 | 2 |
/// | 2.4 | 3 | 2 | 2 | 2 |
/// | 3.5 | 4 | 3 | 4 | 4 |
/// | −2.5 | −3 | −2 | −3 | −2 |
///
/// ```
/// use pennantry_measure::{Rounding, divide};
/// // 20 pieces, 9 to a row: a third row is begun, two are full
/// assert_eq!(divide(20, 9, Rounding::Up), 3);
/// assert_eq!(divide(20, 9, Rounding::Down), 2);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rounding {
    /// Away from zero: cloth needed.
    Up,
    /// Towards zero: whole pieces that fit.
    Down,
    /// To the nearest, a half away from zero: lengths promised, money, tax.
    HalfUp,
    /// To the nearest, a half to the even one: a tax, where its office wants it so.
    HalfEven,
}

/// `numerator / denominator` with the rounding named. A zero denominator gives zero.
///
/// The unit is that of the numerator over that of the denominator. Every numerator but
/// the least of the type may be given; products of measures within the bounds stay far
/// from it.
///
/// ```
/// use pennantry_measure::{Rounding, divide};
/// assert_eq!(divide(7, 2, Rounding::Up), 4);
/// assert_eq!(divide(7, 2, Rounding::Down), 3);
/// assert_eq!(divide(-7, 2, Rounding::HalfUp), -4);
/// ```
pub fn divide(numerator: i128, denominator: i128, rounding: Rounding) -> i128 {
    if denominator == 0 {
        return 0;
    }
    let negative = (numerator < 0) != (denominator < 0);
    let n = numerator.unsigned_abs();
    let d = denominator.unsigned_abs();
    let (whole, rest) = parts(n, d);
    let more = match rounding {
        Rounding::Up => rest > 0,
        Rounding::Down => false,
        Rounding::HalfUp => rest >= d - rest,
        Rounding::HalfEven => rest > d - rest || rest == d - rest && whole % 2 == 1,
    };
    let magnitude = if more { whole + 1 } else { whole };
    // numerators stay far below 2^126, so the magnitude fits
    let value = magnitude.cast_signed();
    if negative { -value } else { value }
}

/// Quotient and rest. What fits 64 bits, as nearly all measures do, is divided by one instruction.
fn parts(n: u128, d: u128) -> (u128, u128) {
    match (u64::try_from(n), u64::try_from(d)) {
        (Ok(n), Ok(d)) => ((n / d).into(), (n % d).into()),
        _ => (n / d, n % d),
    }
}

/// The least whole number whose square is not below `square`: a root rounded up, for a
/// distance that must be kept.
///
/// Any number of the type may be given.
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

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const ALL: [Rounding; 4] = [Rounding::Up, Rounding::Down, Rounding::HalfUp, Rounding::HalfEven];

    #[test]
    fn each_rounding_does_what_its_name_says() {
        for (numerator, denominator, up, down, half_up, half_even) in [
            (0, 5, 0, 0, 0, 0),
            (10, 5, 2, 2, 2, 2),
            (11, 5, 3, 2, 2, 2),
            (12, 5, 3, 2, 2, 2),
            (13, 5, 3, 2, 3, 3),
            (5, 2, 3, 2, 3, 2),
            (7, 2, 4, 3, 4, 4),
            (-5, 2, -3, -2, -3, -2),
            (5, -2, -3, -2, -3, -2),
            (-5, -2, 3, 2, 3, 2),
            (1, 2, 1, 0, 1, 0),
            (1, 3, 1, 0, 0, 0),
            (-1, 3, -1, 0, 0, 0),
            (7, 0, 0, 0, 0, 0),
        ] {
            let all = ALL.map(|rounding| divide(numerator, denominator, rounding));
            assert_eq!(all, [up, down, half_up, half_even], "{numerator} / {denominator}");
        }
    }

    /// (5000 + 100) / 300 and (10000 + 150) / 350 are whole numbers: in doubles the
    /// count may come out one short (derived).
    #[test]
    fn an_exact_quotient_is_not_rounded_at_all() {
        assert_eq!(ALL.map(|rounding| divide(5_100, 300, rounding)), [17; 4]);
        assert_eq!(ALL.map(|rounding| divide(10_150, 350, rounding)), [29; 4]);
    }

    #[test]
    fn a_root_up_holds_at_the_ends_of_the_type() {
        assert_eq!([0, 1, 2, 4, 5].map(ceil_sqrt), [0, 1, 2, 2, 3]);
        assert_eq!(ceil_sqrt(u128::MAX), 1 << 64);
    }

    proptest! {
        #[test]
        fn divisions_agree_with_euclid(numerator in -(1_i128 << 100)..(1_i128 << 100), denominator in 1_i128..(1 << 70)) {
            let floor = numerator.div_euclid(denominator);
            let rest = numerator.rem_euclid(denominator);
            let ceiling = floor + i128::from(rest > 0);
            let (out, towards) = if numerator < 0 { (floor, ceiling) } else { (ceiling, floor) };
            prop_assert_eq!(divide(numerator, denominator, Rounding::Up), out);
            prop_assert_eq!(divide(numerator, denominator, Rounding::Down), towards);
            let nearest = match (2 * rest).cmp(&denominator) {
                std::cmp::Ordering::Less => floor,
                std::cmp::Ordering::Greater => ceiling,
                std::cmp::Ordering::Equal => out,
            };
            prop_assert_eq!(divide(numerator, denominator, Rounding::HalfUp), nearest);
            let even = divide(numerator, denominator, Rounding::HalfEven);
            let right = if 2 * rest == denominator { even % 2 == 0 } else { even == nearest };
            prop_assert!(right, "{even}, the nearest is {nearest}");
            prop_assert!((even - nearest).abs() <= 1);
        }

        #[test]
        fn roundings_mirror(numerator in -10_000_i128..=10_000, denominator in 1_i128..=100) {
            for rounding in ALL {
                let value = divide(numerator, denominator, rounding);
                prop_assert_eq!(divide(-numerator, denominator, rounding), -value);
                prop_assert_eq!(divide(numerator, -denominator, rounding), -value);
                prop_assert_eq!(divide(-numerator, -denominator, rounding), value);
            }
        }

        #[test]
        fn a_root_up_is_the_least_that_reaches(root in 0_u128..(1 << 63), below in 0_u128..=3) {
            let square = (root * root).saturating_sub(below);
            let found = ceil_sqrt(square);
            prop_assert!(found * found >= square);
            prop_assert!(found == 0 || (found - 1) * (found - 1) < square);
        }
    }
}
