//! Amounts and instants.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Neg, Sub, SubAssign};

use pennantry_measure::Length;

use super::Class;

/// How much of a material: whole micrometres of what is measured, single things of what is
/// counted. Never a fraction, so sums are exact.
///
/// ```
/// use pennantry_ledger::rules::Amount;
/// use pennantry_measure::Length;
/// let bolt = Amount::of_length(Length::from_mm(3_000));
/// assert_eq!(bolt - Amount::of_length(Length::from_mm(2_600)), Amount(400_000));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Amount(pub i64);

impl Amount {
    /// Nothing.
    pub const ZERO: Amount = Amount(0);
    /// The most that one piece may hold: a hundred kilometres, or as many things as that has
    /// micrometres. Sums of millions of pieces stay within the type.
    pub const MOST: Amount = Amount(100_000_000_000);

    /// A length.
    pub const fn of_length(length: Length) -> Amount {
        Amount(length.um())
    }

    /// As a length.
    pub const fn length(self) -> Length {
        Length::from_um(self.0)
    }

    /// Whether there is any.
    pub const fn is_some(self) -> bool {
        self.0 > 0
    }

    /// As a person reads it, where it is of such a class: a length, or a number.
    ///
    /// ```
    /// use pennantry_ledger::rules::{Amount, Class};
    /// assert_eq!(Amount(2_500).shown(Class::Binding).to_string(), "2.5 mm");
    /// assert_eq!(Amount(2_500).shown(Class::Sundry).to_string(), "2500");
    /// ```
    pub const fn shown(self, class: Class) -> Shown {
        Shown(self, class)
    }

    /// The amount, or nothing where it is below nought.
    pub fn or_none(self) -> Amount {
        self.max(Amount::ZERO)
    }
}

impl Add for Amount {
    type Output = Amount;
    fn add(self, other: Amount) -> Amount {
        Amount(self.0.saturating_add(other.0))
    }
}

impl Sub for Amount {
    type Output = Amount;
    fn sub(self, other: Amount) -> Amount {
        Amount(self.0.saturating_sub(other.0))
    }
}

impl Neg for Amount {
    type Output = Amount;
    fn neg(self) -> Amount {
        Amount(self.0.saturating_neg())
    }
}

impl AddAssign for Amount {
    fn add_assign(&mut self, other: Amount) {
        *self = *self + other;
    }
}

impl SubAssign for Amount {
    fn sub_assign(&mut self, other: Amount) {
        *self = *self - other;
    }
}

impl Sum for Amount {
    fn sum<I: Iterator<Item = Amount>>(amounts: I) -> Amount {
        amounts.fold(Amount::ZERO, Add::add)
    }
}

/// An amount as a person reads it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shown(Amount, Class);

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.1 {
            Class::Cloth | Class::Binding => self.0.length().fmt(f),
            Class::Sundry => self.0.0.fmt(f),
        }
    }
}

/// An instant: microseconds from the first of January 1970, UTC.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct At(pub i64);

impl At {
    /// The instant so many seconds later.
    pub const fn after_seconds(self, seconds: i64) -> At {
        At(self.0.saturating_add(seconds.saturating_mul(1_000_000)))
    }
}

/// The date and time in UTC, to the second, and the fraction where there is one:
/// `2026-11-30 16:05:00 UTC`.
///
/// Days are counted in years of March to February, four hundred of which have 146 097 days: the
/// Gregorian calendar, also before it was brought in.
///
/// ```
/// use pennantry_ledger::rules::At;
/// assert_eq!(At(0).to_string(), "1970-01-01 00:00:00 UTC");
/// assert_eq!(At(951_782_400_500_000).to_string(), "2000-02-29 00:00:00.5 UTC");
/// ```
impl fmt::Display for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (day, within) = (self.0.div_euclid(DAY), self.0.rem_euclid(DAY));
        let (seconds, fraction) = (within / 1_000_000, within % 1_000_000);
        let (hour, minute, second) = (seconds / 3_600, seconds / 60 % 60, seconds % 60);
        let (year, month, date) = civil(day);
        write!(f, "{year:04}-{month:02}-{date:02} {hour:02}:{minute:02}:{second:02}")?;
        if fraction > 0 {
            write!(f, ".{}", format!("{fraction:06}").trim_end_matches('0'))?;
        }
        f.write_str(" UTC")
    }
}

/// A numbered day as a person reads it: `2026-11-30`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Day(pub i32);

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, date) = civil(i64::from(self.0));
        write!(f, "{year:04}-{month:02}-{date:02}")
    }
}

const DAY: i64 = 86_400_000_000;

/// Year, month and date of a day numbered from the first of January 1970.
fn civil(day: i64) -> (i64, i64, i64) {
    // from the first of March of the year 0, 719 468 days earlier
    let from_march = day + 719_468;
    let (centuries, within) = (from_march.div_euclid(146_097), from_march.rem_euclid(146_097));
    // each fourth year has a day more, each hundredth not, the four-hundredth has
    let year = (within - within / 1_460 + within / 36_524 - within / 146_096) / 365;
    let in_year = within - (365 * year + year / 4 - year / 100);
    // five months from March have 153 days
    let month = (5 * in_year + 2) / 153;
    let date = in_year - (153 * month + 2) / 5 + 1;
    let (year, month) = (centuries * 400 + year, month + 3);
    if month > 12 { (year + 1, month - 12, date) } else { (year, month, date) }
}
