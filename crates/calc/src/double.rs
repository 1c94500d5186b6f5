//! Between lengths and doubles, for the few curves that need one: the hang of a string,
//! the arc of a scallop. No cast: both ways are exact up to 2⁵² micrometres.

use pennantry_measure::Length;

/// 2⁵², from which on a double holds nothing but whole numbers.
const WHOLES: f64 = 4_503_599_627_370_496.0;

/// A length as a double, exactly up to 2⁵³ micrometres; below nought it is nought.
pub(crate) fn float(length: Length) -> f64 {
    let um = length.um().max(0).unsigned_abs();
    let half = |bits: u64| f64::from(u32::try_from(bits & 0xffff_ffff).unwrap_or(u32::MAX));
    half(um >> 32) * 4_294_967_296.0 + half(um)
}

/// A whole double as a whole number. Below nought is nought; what is above 2⁵², and not
/// a number, stays at 2⁵², which is far beyond every bound.
pub(crate) fn digits(whole: f64) -> i128 {
    let whole = if whole < WHOLES { whole.max(0.0) } else { WHOLES - 1.0 };
    // beside 2⁵² the digits of a whole number stand in the low bits as they are
    i128::from((whole + WHOLES).to_bits() & ((1 << 52) - 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_numbers_come_back_and_the_rest_stays_in_range() {
        for um in [0_i64, 1, 7, 4_294_967_295, 4_294_967_296, 2_000_000_000_000] {
            assert_eq!(digits(float(Length::from_um(um))), i128::from(um));
        }
        assert_eq!(float(Length::from_um(-1)).to_bits(), 0.0_f64.to_bits());
        assert_eq!((digits(-3.0), digits(f64::NAN), digits(1e300)), (0, (1 << 52) - 1, (1 << 52) - 1));
    }
}
