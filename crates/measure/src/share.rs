//! Shares in percent.

use std::fmt;

/// A share in thousandths of a percent: 20 % is 20 000.
///
/// ```
/// use pennantry_measure::{Money, Percent, Rounding};
/// // a mark-up of 12.5 % on 40.00
/// let markup = Percent::from_milli(12_500);
/// assert_eq!(markup.to_string(), "12.5 %");
/// let up = Money::from_minor(4_000).scaled(markup.milli().into(), Percent::WHOLE.milli().into(), Rounding::HalfUp);
/// assert_eq!(up, Money::from_minor(500));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Percent(i64);

impl Percent {
    /// The whole, 100 %.
    pub const WHOLE: Percent = Percent(100_000);

    /// A share from thousandths of a percent.
    ///
    /// ```
    /// # use pennantry_measure::Percent;
    /// assert_eq!(Percent::from_milli(100_000), Percent::WHOLE);
    /// ```
    pub const fn from_milli(milli: i64) -> Percent {
        Percent(milli)
    }

    /// The share in thousandths of a percent, exactly.
    ///
    /// ```
    /// # use pennantry_measure::Percent;
    /// assert_eq!(Percent::WHOLE.milli(), 100_000);
    /// ```
    pub const fn milli(self) -> i64 {
        self.0
    }
}

/// Percent with as many decimals as it takes, and the sign: `12.5 %`, `-3 %`. Exact.
impl fmt::Display for Percent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let milli = self.0.unsigned_abs();
        let (whole, rest) = (milli / 1_000, milli % 1_000);
        if rest == 0 {
            return write!(f, "{sign}{whole} %");
        }
        write!(f, "{sign}{whole}.{} %", format!("{rest:03}").trim_end_matches('0'))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_shows_the_decimals_it_takes() {
        for (milli, shown) in [
            (0, "0 %"),
            (1, "0.001 %"),
            (20_000, "20 %"),
            (12_500, "12.5 %"),
            (2_050, "2.05 %"),
            (-3_000, "-3 %"),
            (-250, "-0.25 %"),
        ] {
            assert_eq!(Percent::from_milli(milli).to_string(), shown);
        }
    }
}
