//! What is found about small children, by the rules of a table.
//!
//! A string of bunting is a cord with parts on it, and nothing here says that one will do no
//! harm: what is looked at is whether figures are over the limits of rules for toys, for
//! window cords and for places where children sleep, taken as yardsticks where they do not
//! bind. The rules are data, in `child/rules`: each names its source, and whether its
//! figure was read there, remembered, or is the shop's own. Local rules and competent people
//! decide.
//!
//! **Unknown is never harmless.** An unknown height is within reach, unknown fixings are one
//! span, an unknown distance in a child's room is near a cot, an untested part has failed,
//! and an age that is not told is that of a child not yet born.
//!
//! **Height.** Heights count from whatever a child can stand on. The lowest point is
//!
//! ```text
//! lowest = min(fixing height − longest loose end, fixing height − V drop − visible drop)
//! ```
//!
//! down to the whole millimetre. The *V drop* is how far a span comes down where it is pulled
//! at its middle: with string `s` and level distance `g`, `√(s² − g²) / 2`, up to the whole
//! millimetre (derived: two right-angled triangles). A string on `n` fixings has `n − 1` equal
//! spans. For a string of 2 100 over 2 000 the drop is 321, and a pennant of 250 below fixings
//! at 2 000 comes down to 1 429.
//!
//! **Comparing.** Equal passes and more fails, but for loops in Australia, where equal fails,
//! and for heights and distances, where less fails. Inches are 25.4 mm exactly.

mod facts;
mod hung;
mod judge;
mod remedy;
mod rules;
#[cfg(test)]
mod tests;
mod words;

use pennantry_measure::Length;

use crate::layout::Layout;
use crate::order::{Jurisdiction, Order};
use crate::rule::{Basis, Origin};
use crate::shop::Shop;

pub use rules::{Ages, Amount, Limit, RULES, Rule, Whose};

/// What a finding says to do; the worst stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Nothing found by these rules.
    NothingFound,
    /// A caution to pass on.
    Warn,
    /// An answer is missing.
    Ask,
    /// Only as the remedy says.
    Restrict,
    /// Not for this use.
    Refuse,
}

/// What was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChildFinding {
    /// The worst outcome of all.
    pub outcome: Outcome,
    /// Every finding, the worst first, then in the order of the rules.
    pub findings: Vec<Finding>,
    /// Lowest point above whatever a child can stand on; none where no height was told.
    pub lowest: Option<Length>,
    /// Whose rules were looked at; empty where none are known for where it goes.
    pub jurisdictions: Vec<Jurisdiction>,
    /// What this can say and what it cannot.
    pub scope: String,
    /// Rules that need a word of acknowledgement; none where it is refused, as none helps there.
    pub acknowledge: Vec<&'static str>,
}

/// What one rule found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule's identity.
    pub rule: &'static str,
    /// Whose rule it is; none where it is the shop's own, for everywhere.
    pub jurisdiction: Option<Jurisdiction>,
    /// What it says to do.
    pub outcome: Outcome,
    /// What it is, in plain words.
    pub text: String,
    /// What was measured, in words with its unit.
    pub measured: String,
    /// What is allowed, in words with its unit.
    pub limit: String,
    /// Where the limit comes from.
    pub source: &'static str,
    /// What would end it, or that nothing here does.
    pub remedy: String,
    /// What kind of rule it is.
    pub basis: Basis,
    /// Where the figure was found.
    pub figure: Origin,
}

/// Looks at an order by every rule that applies to it.
pub fn find(shop: &Shop, order: &Order, layout: &Layout) -> ChildFinding {
    let facts = facts::Facts::of(shop, order, layout);
    let mut findings = judge::findings(&facts);
    // the order of the rules and of jurisdictions stays within each outcome
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.outcome));
    let outcome = findings.first().map_or(Outcome::NothingFound, |worst| worst.outcome);
    let mut acknowledge: Vec<&'static str> = Vec::new();
    for finding in &findings {
        let asks = matches!(finding.outcome, Outcome::Restrict | Outcome::Ask);
        if asks && outcome != Outcome::Refuse && !acknowledge.contains(&finding.rule) {
            acknowledge.push(finding.rule);
        }
    }
    ChildFinding {
        outcome,
        findings,
        lowest: facts.hung.lowest(),
        jurisdictions: order.near.jurisdictions.clone(),
        scope: words::scope(&order.near.jurisdictions, &order.country),
        acknowledge,
    }
}
