//! Duties on paper: what has to be on file, on a label or in the offer.
//!
//! These rules are about papers and never about children: what is found here changes
//! nothing of the child finding, and the other way round. Each rule is a line of
//! [`rules::RULES`] with its limit, its source, and where its figure was found.
//!
//! | rule | asks | of |
//! |---|---|---|
//! | R19 | a file for children's products, where it is offered for children | US |
//! | R20 | a certificate of a fire test for every cloth, in a public room | all |
//! | R21 | pennants on at most 10 % of their wall, in a public room | US |
//! | R22 | what an offer has to show | EU |
//! | R23 | a fibre label on a large pennant | US |
//! | R24 | a bag that is narrow, or whose film is thick | EU, GB, CA |
//!
//! What is not known is missing: no certificate on file is none, a cloth that was treated
//! was not tested, a match held to a strip is no certificate, a wall whose size was not
//! told is too small, and a place that was not told may be a public room.
//!
//! **Areas** are of the finished pennant at its top edge, insertion and all, so a little
//! more than is seen: `pennants × strings × area`, compared with `10 × area > wall` in whole
//! square micrometres, where nothing is rounded. Example: 8 pennants of 25 000 mm² are
//! 200 000 mm², exactly a tenth of a wall of 2 000 by 1 000 mm, which passes.

mod areas;
mod bags;
mod fire;
mod leaflet;
mod offer;
pub mod rules;
mod scope;
#[cfg(test)]
mod tests;

use std::cmp::Reverse;

use pennantry_measure::Area;

use crate::order::{Jurisdiction, Order};
use crate::quote::Worked;
use crate::shop::Shop;

pub use leaflet::leaflet;
pub use rules::{Rule, RuleId};

/// What was found about duties on paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paper {
    /// The worst outcome of all findings.
    pub outcome: Outcome,
    /// Every finding, the worst first, then in the order of the rules.
    pub findings: Vec<Finding>,
    /// Area of all pennants of all strings, insertion and all.
    pub pennants: Area,
    /// What this can say and what it cannot.
    pub scope: String,
}

/// What a finding says to do; the worst stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Nothing found by these rules.
    NothingFound,
    /// A paper, label or text is due.
    Duty,
    /// Only as the remedy says.
    Restrict,
    /// Not to be offered there.
    Refuse,
}

/// One duty on paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule.
    pub rule: &'static Rule,
    /// What it says to do.
    pub outcome: Outcome,
    /// What was found.
    pub told: Told,
}

/// A finding in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// What was measured or is missing.
    pub measured: String,
    /// What is allowed or wanted.
    pub limit: String,
    /// What would end it.
    pub remedy: String,
    /// The finding in plain words.
    pub text: String,
}

/// What a rule looks at.
#[derive(Debug, Clone, Copy)]
struct Case<'c> {
    shop: &'c Shop,
    order: &'c Order,
    worked: &'c Worked,
}

/// Looks an order through for duties on paper.
pub fn paperwork(shop: &Shop, order: &Order, worked: &Worked) -> Paper {
    let case = Case { shop, order, worked };
    let mut findings: Vec<Finding> = rules::RULES
        .iter()
        .filter(|rule| case.is_under(rule))
        .filter_map(|rule| {
            let (outcome, told) = look(&case, rule)?;
            Some(Finding { rule, outcome, told })
        })
        .collect();
    // the table is in the order of the rules, which a stable sort keeps
    findings.sort_by_key(|finding| Reverse(finding.outcome));
    let outcome = findings.first().map_or(Outcome::NothingFound, |worst| worst.outcome);
    Paper { outcome, findings, pennants: areas::pennants(&case), scope: scope::scope(&case) }
}

/// What one rule finds.
fn look(case: &Case<'_>, rule: &Rule) -> Option<(Outcome, Told)> {
    match rule.id {
        RuleId::R19 => offer::children(case),
        RuleId::R20 => fire::certificates(case, rule),
        RuleId::R21 => areas::of_the_wall(case, rule),
        RuleId::R22 => offer::shown(case),
        RuleId::R23 => areas::of_one(case, rule),
        RuleId::R24 => bags::bags(case, rule),
    }
}

impl Case<'_> {
    /// Whether a rule is looked at: it is one of those that are asked for, or, where it is
    /// about the offer, of the country that the order goes to.
    fn is_under(&self, rule: &Rule) -> bool {
        let sent = rule.id == RuleId::R22 && Jurisdiction::of_country(&self.order.country) == Some(rule.of);
        sent || self.order.near.jurisdictions.contains(&rule.of)
    }

    /// Whether it hangs where the public comes; none where that was not told.
    fn is_public(&self) -> Option<bool> {
        self.order.near.place.map(crate::order::Place::is_public)
    }
}

/// `one, two and three`.
fn listed(entries: &[String]) -> String {
    match entries.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, before)) => format!("{} and {last}", before.join(", ")),
    }
}
