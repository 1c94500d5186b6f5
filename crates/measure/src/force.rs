//! Forces.

use std::fmt;

/// A force in tenths of a newton: 44.5 N are 445.
///
/// ```
/// use pennantry_measure::Force;
/// let pull = Force::from_tenths(445);
/// assert!(pull < Force::from_newtons(50));
/// assert_eq!(pull.to_string(), "44.5 N");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Force(u32);

impl Force {
    /// A force from tenths of a newton.
    ///
    /// ```
    /// # use pennantry_measure::Force;
    /// assert_eq!(Force::from_tenths(250), Force::from_newtons(25));
    /// ```
    pub const fn from_tenths(tenths: u32) -> Force {
        Force(tenths)
    }

    /// A force from whole newtons.
    ///
    /// ```
    /// # use pennantry_measure::Force;
    /// assert_eq!(Force::from_newtons(90).tenths(), 900);
    /// ```
    pub const fn from_newtons(newtons: u32) -> Force {
        Force(newtons * 10)
    }

    /// The force in tenths of a newton, exactly.
    ///
    /// ```
    /// # use pennantry_measure::Force;
    /// assert_eq!(Force::from_tenths(445).tenths(), 445);
    /// ```
    pub const fn tenths(self) -> u32 {
        self.0
    }
}

/// Newtons with a decimal where it takes one: `44.5 N`, `90 N`. Exact.
impl fmt::Display for Force {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 % 10 {
            0 => write!(f, "{} N", self.0 / 10),
            rest => write!(f, "{}.{rest} N", self.0 / 10),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_force_shows_the_decimal_it_takes() {
        for (tenths, shown) in [(0, "0 N"), (1, "0.1 N"), (445, "44.5 N"), (900, "90 N"), (5_000, "500 N")] {
            assert_eq!(Force::from_tenths(tenths).to_string(), shown);
        }
    }
}
