//! What every rule that is kept as data says of itself: what kind it is, where its figure was
//! found, and what breaks it.

/// What kind of rule a finding rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// Law that applies to a decoration as such.
    Law,
    /// A rule for toys or child care, which binds only these.
    Toy,
    /// A rule for something else, taken as a yardstick.
    Analogy,
    /// Official guidance without the force of law.
    Guidance,
    /// The shop's own rule.
    Shop,
}

/// Where the figure of a limit was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// Read in the text that is named, or in an extract of it.
    Read,
    /// Remembered of the text that is named.
    Remembered,
    /// The shop's own.
    Shop,
    /// There is no figure in the rule.
    NoFigure,
}

/// What breaks a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Comparator {
    /// More than it.
    Over,
    /// It, or more.
    AtLeast,
    /// Less than it.
    Under,
}

impl Comparator {
    /// Whether an amount breaks a limit.
    ///
    /// ```
    /// use pennantry_calc::rule::Comparator;
    /// assert!(!Comparator::Over.breaks(440, 440) && Comparator::AtLeast.breaks(440, 440));
    /// assert!(Comparator::Under.breaks(1_499, 1_500) && !Comparator::Under.breaks(1_500, 1_500));
    /// ```
    pub fn breaks<T: PartialOrd + Copy>(self, amount: T, limit: T) -> bool {
        match self {
            Comparator::Over => amount > limit,
            Comparator::AtLeast => amount >= limit,
            Comparator::Under => amount < limit,
        }
    }
}
