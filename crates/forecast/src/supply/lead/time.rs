//! How long a supplier takes, in the buckets of the history.

use super::random::SplitMix64;
use crate::supply::Error;

/// Longest lead time in buckets.
const LONGEST: u32 = 400;
/// Most lead times seen.
const MOST_SEEN: usize = 10_000;

/// Lead times as they were seen, each as likely as any other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeadTimes {
    /// Sorted; not empty.
    seen: Vec<u32>,
}

impl LeadTimes {
    /// One length, always; from 0 to 400 buckets.
    pub fn fixed(length: u32) -> Result<Self, Error> {
        Self::seen(&[length])
    }

    /// The lengths that were seen, at least one, each from 0 to 400 buckets.
    pub fn seen(lengths: &[u32]) -> Result<Self, Error> {
        if lengths.is_empty() {
            return Err(Error::Empty { what: "lead time" });
        }
        if lengths.len() > MOST_SEEN {
            let value = i64::try_from(lengths.len()).unwrap_or(i64::MAX);
            return Err(Error::Whole { what: "number of lead times", value, allowed: "1 to 10000" });
        }
        if let Some(long) = lengths.iter().find(|length| **length > LONGEST) {
            let allowed = "0 to 400 buckets; take longer buckets";
            return Err(Error::Whole { what: "lead time", value: i64::from(*long), allowed });
        }
        let mut seen = lengths.to_vec();
        seen.sort_unstable();
        Ok(Self { seen })
    }

    /// The longest.
    pub fn longest(&self) -> u32 {
        self.seen.last().copied().unwrap_or(0)
    }

    fn count(&self) -> u32 {
        u32::try_from(self.seen.len()).unwrap_or(1)
    }

    /// The share of this length.
    pub(super) fn share(&self, length: u32) -> f64 {
        let before = |bound: u32| self.seen.partition_point(|seen| *seen < bound);
        let times = before(length.saturating_add(1)) - before(length);
        f64::from(u32::try_from(times).unwrap_or(0)) / f64::from(self.count())
    }

    /// One of them.
    pub(super) fn draw(&self, dice: &mut SplitMix64) -> u32 {
        if self.seen.len() == 1 {
            return self.longest();
        }
        let at = usize::try_from(dice.below(self.count())).unwrap_or(0);
        self.seen.get(at).copied().unwrap_or(0)
    }

    /// Mean and sd of the lengths; the sd is that of a sample (divided by one less than
    /// there are), and 0 where only one was seen.
    pub fn mean_and_sd(&self) -> (f64, f64) {
        let n = f64::from(self.count());
        let mean = self.seen.iter().map(|length| f64::from(*length)).sum::<f64>() / n;
        let squares =
            self.seen.iter().map(|length| (f64::from(*length) - mean) * (f64::from(*length) - mean));
        let squares = squares.sum::<f64>();
        (mean, if self.seen.len() < 2 { 0.0 } else { (squares / (n - 1.0)).sqrt() })
    }
}
