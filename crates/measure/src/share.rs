//! Shares in percent.

use std::fmt;

/// A share in thousandths of a percent: 20 % is 20 000.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Percent(i64);

impl Percent {
    /// The whole, 100 %.
    pub const WHOLE: Percent = Percent(100_000);

    /// A share from thousandths of a percent.
    pub const fn from_milli(milli: i64) -> Percent {
        Percent(milli)
    }

    /// The share in thousandths of a percent.
    pub const fn milli(self) -> i64 {
        self.0
    }
}

/// `12.5 %`.
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
