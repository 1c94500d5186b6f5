//! Days, and on which of them the shop is open.
//!
//! A [`Day`] is a number; any fixed day may be 0 (1970-01-01, say), so long as one caller
//! counts from one day. Lead times are calendar days, use happens on open days alone:
//! the list of open days goes between them. Nothing is rounded.

use super::Error;

/// Most open days in one list: about ten years.
pub const MOST_DAYS: usize = 4_000;

/// A calendar day by its number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(pub i32);

impl Day {
    /// How many days later this is than `other`; below nought when it is earlier.
    pub fn since(self, other: Self) -> i64 {
        i64::from(self.0) - i64::from(other.0)
    }

    /// This day and `days` more; stays at the last number there is.
    pub fn plus(self, days: u32) -> Self {
        Self(self.0.saturating_add_unsigned(days))
    }

    /// This day less `days`; stays at the first number there is.
    pub fn minus(self, days: u32) -> Self {
        Self(self.0.saturating_sub_unsigned(days))
    }
}

/// The days on which the shop is open, in order, as far as they are known.
///
/// ```
/// use pennantry_forecast::supply::day::{Day, OpenDays};
/// // Thursday, Friday, then Monday
/// let open = OpenDays::new(vec![Day(3), Day(4), Day(7)])?;
/// assert_eq!(open.on_or_after(Day(5)), Some(Day(7)));
/// assert_eq!(open.on_or_before(Day(6)), Some(Day(4)));
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenDays(Vec<Day>);

impl OpenDays {
    /// A list of open days: at least one, at most [`MOST_DAYS`], each later than the one
    /// before it.
    pub fn new(days: Vec<Day>) -> Result<Self, Error> {
        if days.is_empty() {
            return Err(Error::Empty { what: "open day" });
        }
        if days.len() > MOST_DAYS {
            let value = i64::try_from(days.len()).unwrap_or(i64::MAX);
            return Err(Error::Whole { what: "number of open days", value, allowed: "1 to 4000" });
        }
        let out_of_order = days.windows(2).find(|pair| pair.first() >= pair.last());
        match out_of_order.and_then(|pair| pair.last()) {
            Some(day) => Err(Error::Whole {
                what: "open day",
                value: i64::from(day.0),
                allowed: "a day after the one before it in the list",
            }),
            None => Ok(Self(days)),
        }
    }

    /// The open days from `day` on.
    pub fn from(&self, day: Day) -> &[Day] {
        self.0.get(self.0.partition_point(|open| *open < day)..).unwrap_or_default()
    }

    /// The first open day that is not before `day`, as far as days are known.
    pub fn on_or_after(&self, day: Day) -> Option<Day> {
        self.from(day).first().copied()
    }

    /// The last open day that is not after `day`, as far as days are known.
    pub fn on_or_before(&self, day: Day) -> Option<Day> {
        let after = self.0.partition_point(|open| *open <= day);
        self.0.get(..after).and_then(<[Day]>::last).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_that_are_no_lists_of_days_are_refused() {
        assert_eq!(OpenDays::new(Vec::new()).unwrap_err().to_string(), "no open day; give at least one");
        assert!(OpenDays::new(vec![Day(2), Day(2)]).is_err());
        assert!(OpenDays::new(vec![Day(2), Day(1)]).is_err());
        let many = (0..4_001).map(Day).collect();
        assert!(OpenDays::new(many).is_err());
    }

    #[test]
    fn neighbours_are_found_or_unknown() {
        let open = OpenDays::new(vec![Day(3), Day(4), Day(7)]).unwrap();
        assert_eq!((open.on_or_after(Day(7)), open.on_or_after(Day(8))), (Some(Day(7)), None));
        assert_eq!((open.on_or_before(Day(3)), open.on_or_before(Day(2))), (Some(Day(3)), None));
        assert_eq!(open.from(Day(4)), [Day(4), Day(7)]);
        assert_eq!((Day(5).since(Day(7)), Day(5).plus(3), Day(5).minus(6)), (-2, Day(8), Day(-1)));
    }
}
