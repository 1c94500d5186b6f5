//! Returns and cancellations, moved to the issue they reverse.
//!
//! Cloth issued and brought back was not used. Booked as a negative on the day it came
//! back, it would make a day of negative demand, which corrupts Croston's method without a
//! word: sizes are taken where `y > 0` and intervals where `y ≠ 0`. So a return lowers its
//! own issue, on the day of that issue, and history is restated.
//!
//! What comes back beyond what was issued, or against no issue that is known, cannot be
//! demand of any day. It is reported and left out.
//!
//! Whole numbers; nothing is rounded.

use std::collections::BTreeMap;

use super::Error;

/// Cloth taken for a job, by the name of the movement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Issue<K> {
    /// Its name; one name, one issue.
    pub name: K,
    /// The day.
    pub day: i64,
    /// How much, 0 or more.
    pub amount: i64,
}

/// Cloth brought back, or a job called off, and which issue it reverses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Return<K> {
    /// The issue it reverses.
    pub issue: K,
    /// How much, 0 or more.
    pub amount: i64,
}

/// Issues after their returns.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Redated<K> {
    /// What is left of each issue, in the order they were given; never below nought.
    pub net: Vec<Issue<K>>,
    /// What came back beyond its issue: the issue's name, and how much too much.
    pub excess: Vec<Return<K>>,
    /// Returns whose issue is not among those given.
    pub unknown: Vec<Return<K>>,
}

/// Lowers each issue by what came back of it.
///
/// An issue named twice is refused as [`Error::Repeated`]; amounts below nought as
/// [`Error::Negative`], issues counted first.
///
/// ```
/// use pennantry_forecast::demand::redate::{Issue, Return, redate};
/// let issues = [Issue { name: 7, day: 100, amount: 3_200 }];
/// let back = [Return { issue: 7, amount: 450 }];
/// assert_eq!(redate(&issues, &back)?.net[0], Issue { name: 7, day: 100, amount: 2_750 });
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn redate<K: Ord + Copy>(issues: &[Issue<K>], returns: &[Return<K>]) -> Result<Redated<K>, Error> {
    let amounts = issues.iter().map(|issue| issue.amount).chain(returns.iter().map(|back| back.amount));
    for (at, amount) in amounts.enumerate() {
        if amount < 0 {
            return Err(Error::Negative { at, amount: super::number::exact(amount).unwrap_or(f64::MIN) });
        }
    }
    let mut places = BTreeMap::new();
    for (at, issue) in issues.iter().enumerate() {
        if places.insert(issue.name, at).is_some() {
            return Err(Error::Repeated { at });
        }
    }
    let mut back = vec![0_i64; issues.len()];
    let mut unknown = Vec::new();
    for one in returns {
        match places.get(&one.issue).and_then(|&at| back.get_mut(at)) {
            Some(sum) => *sum = sum.saturating_add(one.amount),
            None => unknown.push(*one),
        }
    }
    let mut net = Vec::with_capacity(issues.len());
    let mut excess = Vec::new();
    for (issue, back) in issues.iter().zip(back) {
        net.push(Issue { amount: (issue.amount - back).max(0), ..*issue });
        if back > issue.amount {
            excess.push(Return { issue: issue.name, amount: back - issue.amount });
        }
    }
    Ok(Redated { net, excess, unknown })
}
