//! Between whole amounts and doubles, and the checks of both. No cast.

use super::Error;

/// The largest amount in units: far above a shop's cloth in micrometres, and small enough
/// that sums of thousands stay in 64 bits and are exact as doubles.
pub(super) const MOST: i64 = 1_000_000_000_000;
/// The same as a double.
pub(super) const MOST_REAL: f64 = 1e12;
/// What lies this little above a whole number is that number: sums of doubles are not
/// finer.
const GRAIN: f64 = 1e-9;
/// 2⁵², from which on a double holds nothing but whole numbers.
const WHOLES: f64 = 4_503_599_627_370_496.0;

/// An amount as a double, exactly up to 2⁵³.
pub(super) fn real(amount: i64) -> f64 {
    let size = amount.unsigned_abs();
    let half = |bits: u64| f64::from(u32::try_from(bits & 0xffff_ffff).unwrap_or(u32::MAX));
    let size = half(size >> 32) * 4_294_967_296.0 + half(size);
    if amount < 0 { -size } else { size }
}

/// How many there are of something, as a double.
pub(super) fn count(of: usize) -> f64 {
    i64::try_from(of).map_or(MOST_REAL, real)
}

/// The least whole number that is not below `level`, up to a billionth of a unit.
pub(super) fn whole_up(what: &'static str, level: f64) -> Result<i64, Error> {
    let up = (level - GRAIN).ceil();
    if !(-MOST_REAL..=MOST_REAL).contains(&up) {
        return Err(Error::Figure { what, value: level, allowed: "-10^12 to 10^12" });
    }
    // beside 2⁵² the digits of a whole number stand in the low bits as they are
    let digits = (up.abs() + WHOLES).to_bits() & ((1 << 52) - 1);
    let size = i64::try_from(digits).unwrap_or(MOST);
    Ok(if up < 0.0 { -size } else { size })
}

/// A figure from nought to 10¹².
pub(super) fn not_negative(what: &'static str, value: f64) -> Result<f64, Error> {
    let good = (0.0..=MOST_REAL).contains(&value);
    if good { Ok(value) } else { Err(Error::Figure { what, value, allowed: "0 to 10^12" }) }
}

/// A figure above nought, from 10⁻⁹ to 10¹².
pub(super) fn positive(what: &'static str, value: f64) -> Result<f64, Error> {
    let good = (1e-9..=MOST_REAL).contains(&value);
    if good { Ok(value) } else { Err(Error::Figure { what, value, allowed: "10^-9 to 10^12" }) }
}

/// An amount from `least` to 10¹²; `allowed` says it in words.
pub(super) fn amount(
    what: &'static str,
    value: i64,
    least: i64,
    allowed: &'static str,
) -> Result<i64, Error> {
    if (least..=MOST).contains(&value) { Ok(value) } else { Err(Error::Whole { what, value, allowed }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_numbers_come_back() {
        for n in [0, 1, -1, 7, 4_294_967_295, 4_294_967_296, -999_999_999_999, MOST, -MOST] {
            assert_eq!(whole_up("n", real(n)), Ok(n));
        }
    }

    #[test]
    fn up_is_up_but_for_a_billionth() {
        assert_eq!(whole_up("n", 109.738), Ok(110));
        assert_eq!(whole_up("n", -0.5), Ok(0));
        assert_eq!(whole_up("n", 6.000_000_000_1), Ok(6));
        assert_eq!(whole_up("n", 6.000_000_01), Ok(7));
        assert!(whole_up("n", f64::NAN).is_err());
        assert!(whole_up("n", 1e13).is_err());
    }

    #[test]
    fn figures_out_of_range_are_named() {
        let error = not_negative("rate", f64::NAN).unwrap_err();
        assert_eq!(error.to_string(), "rate is NaN; allowed is 0 to 10^12");
        assert!(positive("cost", 0.0).is_err());
        assert!(amount("bolt", 0, 1, "1 to 10^12").is_err());
    }
}
