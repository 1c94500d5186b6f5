//! Between whole micrometres and doubles. No cast.

use pennantry_measure::Length;

/// Micrometres in a millimetre.
const MM: f64 = 1_000.0;
/// 2⁵², from which on a double holds nothing but whole numbers.
const WHOLES: f64 = 4_503_599_627_370_496.0;
/// What lies this little above a whole millimetre is that millimetre: sums of doubles are
/// no finer.
const GRAIN: f64 = 1e-6;

/// A whole number as a double, exactly up to 2⁵³.
pub(super) fn real(whole: i64) -> f64 {
    let size = whole.unsigned_abs();
    let half = |bits: u64| f64::from(u32::try_from(bits & 0xffff_ffff).unwrap_or(u32::MAX));
    let size = half(size >> 32) * 4_294_967_296.0 + half(size);
    if whole < 0 { -size } else { size }
}

/// How many there are of something, as a double.
pub(super) fn count(of: usize) -> f64 {
    u32::try_from(of).map_or(f64::from(u32::MAX), f64::from)
}

/// How many there are of something.
pub(super) fn number(of: usize) -> u32 {
    u32::try_from(of).unwrap_or(u32::MAX)
}

/// The nearest whole number; nothing for what is no number or beyond 2⁵¹.
fn whole(value: f64) -> Option<i64> {
    if value.is_nan() || value.abs() >= WHOLES / 2.0 {
        return None;
    }
    // beside 2⁵² the digits of the nearest whole number stand in the low bits as they are
    let digits = (value.abs() + WHOLES).to_bits() & ((1 << 52) - 1);
    let size = i64::try_from(digits).ok()?;
    Some(if value < 0.0 { -size } else { size })
}

/// Micrometres to the nearest millimetre.
pub(super) fn nearest_mm(um: f64) -> Option<Length> {
    whole(um / MM)?.checked_mul(1_000).map(Length::from_um)
}

/// Millimetres up to the next whole one.
pub(super) fn mm_up(mm: f64) -> Option<i64> {
    whole((mm - GRAIN).ceil())
}

/// A quotient that is a finite number; nothing for a division by nought and its like.
pub(super) fn quotient(above: f64, below: f64) -> Option<f64> {
    let value = above / below;
    (below > 0.0 && value.is_finite()).then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn doubles_become_whole_and_back() {
        for n in [0, 1, -1, 4_294_967_296, -999_999_999_999, 1 << 50] {
            assert_eq!(whole(real(n)), Some(n));
        }
        assert_eq!([f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e16].map(whole), [None; 4]);
        assert_eq!(
            (mm_up(6_000.000_000_1), mm_up(6_000.001), mm_up(-0.5)),
            (Some(6_000), Some(6_001), Some(0))
        );
        assert_eq!(nearest_mm(1_499.0), Some(Length::from_mm(1)));
        assert_eq!((quotient(1.0, 0.0), quotient(1.0, -1.0), quotient(f64::MAX, 1e-9)), (None, None, None));
    }
}
