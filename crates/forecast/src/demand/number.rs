//! Between whole numbers and doubles, and what every list of values has to be.

use super::Error;

/// 2⁵³: up to here a double holds every whole number.
pub(super) const EXACT: i64 = 9_007_199_254_740_992;
/// The same as a double.
pub(super) const EXACT_FLOAT: f64 = 9_007_199_254_740_992.0;
/// Most values that are worked on at once: 27 years of days.
pub const MOST: usize = 10_000;

/// A whole number as a double, where that is exact.
pub(super) fn exact(value: i64) -> Option<f64> {
    let size = value.unsigned_abs();
    if size > EXACT.unsigned_abs() {
        return None;
    }
    let half = |bits: u64| u32::try_from(bits & 0xffff_ffff).map_or(0.0, f64::from);
    let float = half(size >> 32) * 4_294_967_296.0 + half(size);
    Some(if value < 0 { -float } else { float })
}

/// A count as a double. Counts here are of lists, and those are at most [`MOST`] long.
pub(super) fn count(of: usize) -> f64 {
    u32::try_from(of).map_or(f64::from(u32::MAX), f64::from)
}

/// A list is neither empty nor too long, and every value finite, not negative and exact.
pub(super) fn check(values: &[f64]) -> Result<(), Error> {
    if values.is_empty() {
        return Err(Error::Empty);
    }
    if values.len() > MOST {
        return Err(Error::TooMany { given: values.len(), most: MOST });
    }
    for (at, &value) in values.iter().enumerate() {
        // not a number compares with nothing, so it fails here too
        if value < 0.0 {
            return Err(Error::Negative { at, amount: value });
        }
        if !(0.0..=EXACT_FLOAT).contains(&value) {
            return Err(Error::NotExact { at });
        }
    }
    Ok(())
}

/// A parameter is in its range, both ends allowed, and above nought where that is asked.
pub(super) fn within(
    name: &'static str,
    value: f64,
    (low, high): (f64, f64),
    allowed: &'static str,
) -> Result<(), Error> {
    if value >= low && value <= high { Ok(()) } else { Err(Error::Parameter { name, value, allowed }) }
}

/// A smoothing constant: above 0 and at most 1.
pub(super) fn smoothing(name: &'static str, value: f64) -> Result<(), Error> {
    within(name, value, (f64::MIN_POSITIVE, 1.0), "above 0 and at most 1")
}

/// A quotient that is a finite number; nothing for a division by nought and its like.
pub(super) fn quotient(above: f64, below: f64) -> Option<f64> {
    let value = above / below;
    (below > 0.0 && value.is_finite()).then_some(value)
}

/// The mean of a list that is not empty.
pub(super) fn mean(values: &[f64]) -> Option<f64> {
    quotient(values.iter().sum(), count(values.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_numbers_are_exact_or_refused() {
        let ends = [(0, 0.0), (1, 1.0), (-7, -7.0), (4_294_967_296, 4_294_967_296.0), (EXACT, EXACT_FLOAT)];
        for (whole, float) in ends {
            assert_eq!(exact(whole).map(f64::to_bits), Some(f64::to_bits(float)));
        }
        assert_eq!((exact(EXACT + 1), exact(i64::MIN), exact(i64::MAX)), (None, None, None));
    }

    #[test]
    fn lists_are_checked() {
        assert_eq!(check(&[]), Err(Error::Empty));
        assert_eq!(check(&vec![0.0; MOST + 1]), Err(Error::TooMany { given: MOST + 1, most: MOST }));
        assert_eq!(check(&[1.0, -0.5]), Err(Error::Negative { at: 1, amount: -0.5 }));
        assert_eq!(check(&[f64::NAN]), Err(Error::NotExact { at: 0 }));
        assert_eq!(check(&[0.0, f64::INFINITY]), Err(Error::NotExact { at: 1 }));
        assert_eq!(check(&[f64::NEG_INFINITY]), Err(Error::Negative { at: 0, amount: f64::NEG_INFINITY }));
        assert_eq!(check(&[0.0, EXACT_FLOAT]), Ok(()));
    }
}
