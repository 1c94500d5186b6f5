//! Roll-ups against what the movements say.
//!
//! An engine reads what it keeps and what it computes again, as of one instant; here it is said
//! what differs. What is to be put right is a difference that is added, so that it comes out right
//! whatever is written in between. A row that is not there says nought.

#[cfg(test)]
pub(crate) mod story;

use std::collections::{BTreeMap, BTreeSet};

use crate::rules::{DayUse, Material, RollUp};

/// Roll-ups by material, lot and day.
pub(crate) type Days = BTreeMap<(Material, String, i32), DayUse>;

/// A roll-up that does not agree with the movements.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Drift {
    pub material: Material,
    pub lot: String,
    pub day: i32,
    /// As it is kept; none where there is none.
    pub is: Option<DayUse>,
    /// As it should be; none where there should be none.
    pub should: Option<DayUse>,
}

/// Whatever differs, in the order of material, lot and day.
pub(crate) fn drifts(kept: &Days, should: &Days) -> Vec<Drift> {
    let keys: BTreeSet<_> = kept.keys().chain(should.keys()).collect();
    let mut found = Vec::new();
    for key in keys {
        let (is, should) = (kept.get(key).copied(), should.get(key).copied());
        if is.unwrap_or_default() != should.unwrap_or_default() {
            let (material, lot, day) = key.clone();
            found.push(Drift { material, lot, day, is, should });
        }
    }
    found
}

impl Drift {
    /// What has to be added.
    pub(crate) fn mending(&self) -> RollUp {
        let should = self.should.unwrap_or_default();
        let of = should.less(&self.is.unwrap_or_default());
        RollUp { material: self.material.clone(), lot: self.lot.clone(), day: self.day, of }
    }

    /// In words, column by column.
    pub(crate) fn words(&self) -> String {
        let (is, should) = (self.is.unwrap_or_default(), self.should.unwrap_or_default());
        let mut differs: Vec<String> = Vec::new();
        for ((name, is), (_, should)) in is.columns().into_iter().zip(should.columns()) {
            if is != should {
                differs.push(format!("{name} is {is}, but should be {should}"));
            }
        }
        if is.late_at != should.late_at {
            let told =
                |late: Option<crate::rules::At>| late.map_or("never".to_owned(), |at| at.0.to_string());
            differs.push(format!("late_at is {}, but should be {}", told(is.late_at), told(should.late_at)));
        }
        format!("day {} of {}, lot {:?}: {}", self.day, self.material, self.lot, differs.join("; "))
    }
}
