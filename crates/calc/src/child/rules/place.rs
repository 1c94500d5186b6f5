//! Rules about who is near, where it hangs and how high, and for whoever is very young.

use super::{ALL, AU, Ages, EUROPE, EVERYWHERE, Looks, ROW, Rule, Then, US, When, Whose, over, under_um};
use crate::order::Jurisdiction;
use crate::rule::{Basis, Origin};

const BY_THE_SHOP: &str = "The shop's own rule";
const NEAR_A_COT: &str = "The shop's own figure, rounded up from a 3 ft that is remembered of US guidance on cords of \
                          baby monitors";

pub(super) const RULES: &[Rule] = &[
    Rule {
        id: "R00",
        whose: EVERYWHERE,
        ages: Ages::Anybody,
        looks_at: Looks::Questions,
        allowed: "who is near, how old and where has to be told",
        then: Then::Ask,
        basis: Basis::Shop,
        source: BY_THE_SHOP,
        ..ROW
    },
    Rule {
        id: "R01",
        whose: EVERYWHERE,
        ages: Ages::Anybody,
        looks_at: Looks::AtCot,
        allowed: "nothing in, on, across or tied to a cot, crib, playpen, pram or the like",
        then: Then::Refuse,
        basis: Basis::Guidance,
        source: "CPSC Document 5024 (take such strings out before a child can push up); 16 CFR 1501.2(a) and the \
                 warnings of SOR/2018-186, which are for toys and playpens; beyond them the shop's own rule",
        ..ROW
    },
    Rule {
        id: "R02",
        whose: ALL,
        looks_at: Looks::CotDistance,
        limit: Some(under_um(1_000_000)),
        then: Then::RefuseInReach,
        basis: Basis::Guidance,
        source: NEAR_A_COT,
        figure: Origin::Shop,
        ..ROW
    },
    Rule {
        id: "R02u",
        whose: ALL,
        looks_at: Looks::CotUntold,
        allowed: "1000 mm or more from any cot, told",
        basis: Basis::Guidance,
        source: NEAR_A_COT,
        figure: Origin::Shop,
        ..ROW
    },
    Rule {
        id: "R03",
        whose: EUROPE,
        ages: Ages::WindowCords,
        looks_at: Looks::Lowest,
        limit: Some(under_um(1_500_000)),
        basis: Basis::Analogy,
        source: "EN 13120:2009+A1:2014 as trade pages give it: cords of window coverings",
        figure: Origin::Read,
        ..ROW
    },
    Rule {
        id: "R03",
        whose: AU,
        ages: Ages::WindowCords,
        looks_at: Looks::Lowest,
        limit: Some(under_um(1_600_000)),
        basis: Basis::Analogy,
        source: "Competition and Consumer (Corded Internal Window Coverings) Safety Standard 2014, section 6(1)(a)",
        figure: Origin::Read,
        ..ROW
    },
    Rule {
        id: "R03",
        whose: &[Whose::Of(Jurisdiction::Us), Whose::Of(Jurisdiction::Ca), Whose::Elsewhere],
        ages: Ages::WindowCords,
        looks_at: Looks::Lowest,
        limit: Some(under_um(1_600_000)),
        basis: Basis::Analogy,
        source: "The shop's own figure: no height is known of rules there",
        figure: Origin::Shop,
        ..ROW
    },
    Rule {
        id: "R03u",
        whose: ALL,
        ages: Ages::WindowCords,
        looks_at: Looks::HeightUntold,
        allowed: "out of reach, told",
        basis: Basis::Analogy,
        source: "The shop's own rule: a height that is not known is within reach",
        ..ROW
    },
];

/// What is said of whoever is very young, after everything else.
pub(super) const YOUNG: Rule = Rule {
    id: "R25",
    whose: EVERYWHERE,
    looks_at: Looks::Young,
    when: When::NothingRefused,
    allowed: "the words that go with every string near a child under 3 years",
    then: Then::Warn,
    basis: Basis::Shop,
    source: "The shop's own rule, after one of the European Union for its own market",
    ..ROW
};

/// The same, where the rules of the European Union are looked at, which ask for it.
pub(super) const YOUNG_IN_EUROPE: Rule = Rule {
    when: When::NothingRefusedBy(Whose::Of(Jurisdiction::Eu)),
    basis: Basis::Law,
    source: "Regulation (EU) 2023/988, Articles 9(7) and 19(d)",
    ..YOUNG
};

/// The whole string, after everything else.
pub(super) const LONG: Rule = Rule {
    id: "R26",
    whose: EVERYWHERE,
    looks_at: Looks::Overall,
    limit: Some(over(750)),
    then: Then::RestrictInReach,
    basis: Basis::Shop,
    source: "The shop's own rule; its yardstick is the 750 mm that EN 71-1:2005+A8:2009, clause 5.4 e), has for toys \
             strung across a cot",
    figure: Origin::Shop,
    ..ROW
};

/// A small part on what is a toy, from 3 to under 6 years.
pub(super) const LABEL: Rule = Rule {
    id: "R13",
    whose: US,
    ages: Ages::From36To6Years,
    looks_at: Looks::SmallPart,
    when: When::Toy,
    allowed: "a small-parts warning on the label",
    then: Then::Warn,
    source: "US rules for labels of toys with small parts, from memory",
    figure: Origin::Remembered,
    ..ROW
};
