//! Rules about loose ends, loops, spans and cords.

use pennantry_measure::Force;

use super::{
    ALL, AU, Ages, CA, ELSEWHERE, EUROPE, Looks, ROW, Rule, Then, US, When, Whose, at_least, over,
    over_share, over_um, under_um,
};
use crate::order::Jurisdiction;
use crate::rule::{Basis, Origin};

/// 8, 12 and 14 in.
const IN_8: i64 = 203_200;
const IN_12: i64 = 304_800;
const IN_14: i64 = 355_600;
const PARTS_EN: Looks = Looks::Loop(Some(Force::from_newtons(25)));
/// 5 lbf.
const PARTS_US: Looks = Looks::Loop(Some(Force::from_tenths(222)));
const NORTH_AMERICA_AND_AUSTRALIA: &[Whose] =
    &[Whose::Of(Jurisdiction::Us), Whose::Of(Jurisdiction::Ca), Whose::Of(Jurisdiction::Au)];

const EN_CORDS: &str = "EN 71-1:2005+A8:2009, clause 5.4, an extract: cords of toys";
const EN_NEWS: &str = "EN 71-1:2011 as a summary of July 2011 gives it: cords of toys from 18 to 36 months";
const ASTM: &str = "ASTM F963, from memory: cords of toys";
const ISO: &str = "ISO 8124-1, from memory: cords of toys";
const CA_ENDS: &str = "SOR/2019-97, section 5: cords of window coverings";
const CA_SPANS: &str = "SOR/2019-97, section 6: cords of window coverings";
const CA_LOOPS: &str = "SOR/2019-97, section 7: cords of window coverings";
const CA_TIES: &str = "SOR/2019-97, section 8: cords of window coverings that can be tied together";
const AU_LOOPS: &str = "Competition and Consumer (Corded Internal Window Coverings) Safety Standard 2014, section 6(1)(a): a \
                        loop 220 mm long, read as half the way round";
const BY_THE_SHOP: &str = "The shop's own figure, after rules of other places and other goods";

const TAIL: Rule = Rule { id: "R04", looks_at: Looks::Tail, then: Then::Strict, ..ROW };
const LOOP: Rule = Rule { id: "R05", then: Then::Strict, ..ROW };
const NOOSE: Rule = Rule {
    id: "R06",
    whose: ALL,
    looks_at: Looks::Noose,
    allowed: "no loop that can run smaller",
    basis: Basis::Analogy,
    source: "The shop's own rule: a loop that runs smaller is a noose, whatever its size",
    ..ROW
};
const TIED: Rule = Rule { id: "R07", looks_at: Looks::TiedLoop, then: Then::Strict, ..ROW };
const SPAN: Rule = Rule {
    id: "R08",
    looks_at: Looks::SpanLoop,
    when: When::Reachable,
    basis: Basis::Analogy,
    source: BY_THE_SHOP,
    figure: Origin::Shop,
    ..ROW
};

pub(super) const RULES: &[Rule] = &[
    // loose ends
    Rule {
        whose: EUROPE,
        ages: Ages::Under18,
        limit: Some(over(220)),
        source: EN_CORDS,
        figure: Origin::Read,
        ..TAIL
    },
    Rule {
        whose: EUROPE,
        ages: Ages::From18To36,
        limit: Some(over(300)),
        source: EN_NEWS,
        figure: Origin::Read,
        ..TAIL
    },
    Rule {
        whose: US,
        ages: Ages::Under18,
        limit: Some(over_um(IN_12)),
        allowed: "12 in",
        source: ASTM,
        figure: Origin::Remembered,
        ..TAIL
    },
    Rule {
        whose: CA,
        limit: Some(over(220)),
        basis: Basis::Analogy,
        source: CA_ENDS,
        figure: Origin::Read,
        ..TAIL
    },
    Rule {
        whose: AU,
        ages: Ages::Under18,
        limit: Some(over(220)),
        source: ISO,
        figure: Origin::Remembered,
        ..TAIL
    },
    Rule {
        whose: AU,
        ages: Ages::From18To36,
        limit: Some(over(220)),
        basis: Basis::Analogy,
        source: BY_THE_SHOP,
        figure: Origin::Shop,
        ..TAIL
    },
    Rule {
        id: "R04w",
        whose: EUROPE,
        ages: Ages::From18To36,
        when: When::Unless("R04"),
        limit: Some(over(220)),
        then: Then::Warn,
        source: EN_NEWS,
        figure: Origin::Read,
        ..TAIL
    },
    Rule {
        id: "R04a",
        whose: US,
        ages: Ages::From18To8Years,
        when: When::Reachable,
        limit: Some(over_um(IN_8)),
        allowed: "8 in",
        then: Then::Warn,
        basis: Basis::Analogy,
        source: "16 CFR part 1260: operating cords of custom window coverings",
        figure: Origin::Read,
        ..TAIL
    },
    // loops
    Rule {
        whose: EUROPE,
        looks_at: PARTS_EN,
        limit: Some(over(380)),
        source: EN_CORDS,
        figure: Origin::Read,
        ..LOOP
    },
    Rule {
        whose: US,
        ages: Ages::Under18,
        looks_at: PARTS_US,
        limit: Some(over_um(IN_14)),
        allowed: "14 in",
        source: ASTM,
        figure: Origin::Remembered,
        ..LOOP
    },
    Rule {
        whose: US,
        ages: Ages::From18To36,
        looks_at: PARTS_US,
        limit: Some(over(440)),
        basis: Basis::Analogy,
        source: BY_THE_SHOP,
        figure: Origin::Shop,
        ..LOOP
    },
    Rule {
        whose: CA,
        looks_at: Looks::Loop(None),
        limit: Some(over(440)),
        basis: Basis::Analogy,
        source: CA_LOOPS,
        figure: Origin::Read,
        ..LOOP
    },
    Rule {
        whose: AU,
        ages: Ages::Under18,
        looks_at: PARTS_EN,
        limit: Some(over(360)),
        source: ISO,
        figure: Origin::Remembered,
        ..LOOP
    },
    Rule {
        whose: AU,
        ages: Ages::From18To36,
        looks_at: PARTS_EN,
        limit: Some(at_least(440)),
        basis: Basis::Analogy,
        source: AU_LOOPS,
        figure: Origin::Read,
        ..LOOP
    },
    Rule {
        whose: ELSEWHERE,
        looks_at: Looks::Loop(None),
        limit: Some(over(355)),
        basis: Basis::Shop,
        source: BY_THE_SHOP,
        figure: Origin::Shop,
        ..LOOP
    },
    Rule { then: Then::Refuse, ..NOOSE },
    Rule { ages: Ages::From36To14Years, then: Then::Warn, ..NOOSE },
    Rule { looks_at: Looks::NooseUntold, then: Then::Ask, ..NOOSE },
    Rule { looks_at: Looks::NooseUntold, ages: Ages::From36To14Years, then: Then::Warn, ..NOOSE },
    // two ties at one end
    Rule {
        whose: EUROPE,
        limit: Some(over(380)),
        basis: Basis::Analogy,
        source: "The shop's own figure, that of a sewn loop: EN 71-1:2014+A1:2018 has a rule for two cords of one toy, \
                 whose figure was not seen",
        figure: Origin::Shop,
        ..TIED
    },
    Rule {
        whose: US,
        ages: Ages::Under18,
        limit: Some(over_um(IN_14)),
        allowed: "14 in",
        source: ASTM,
        figure: Origin::Remembered,
        ..TIED
    },
    Rule {
        whose: CA,
        looks_at: Looks::TiedLength,
        limit: Some(over(220)),
        basis: Basis::Analogy,
        source: CA_TIES,
        figure: Origin::Read,
        ..TIED
    },
    Rule {
        whose: CA,
        limit: Some(over(440)),
        basis: Basis::Analogy,
        source: CA_TIES,
        figure: Origin::Read,
        ..TIED
    },
    Rule {
        whose: AU,
        ages: Ages::Under18,
        limit: Some(over(360)),
        source: ISO,
        figure: Origin::Remembered,
        ..TIED
    },
    // spans
    Rule { whose: EUROPE, limit: Some(over(380)), ..SPAN },
    Rule { whose: US, ages: Ages::Under18, limit: Some(over_um(IN_14)), allowed: "14 in", ..SPAN },
    Rule { whose: US, ages: Ages::From18To36, limit: Some(over(440)), ..SPAN },
    Rule {
        whose: CA,
        looks_at: Looks::SpanString,
        limit: Some(over(220)),
        source: CA_SPANS,
        figure: Origin::Read,
        ..SPAN
    },
    Rule { whose: CA, limit: Some(over(440)), source: CA_LOOPS, figure: Origin::Read, ..SPAN },
    Rule { whose: AU, limit: Some(at_least(440)), source: AU_LOOPS, figure: Origin::Read, ..SPAN },
    Rule { whose: ELSEWHERE, limit: Some(over(355)), basis: Basis::Shop, ..SPAN },
    // what the cord is
    Rule {
        id: "R10",
        whose: EUROPE,
        looks_at: Looks::CordThickness,
        limit: Some(under_um(1_500)),
        source: EN_CORDS,
        figure: Origin::Read,
        ..ROW
    },
    Rule {
        id: "R10",
        whose: NORTH_AMERICA_AND_AUSTRALIA,
        looks_at: Looks::CordThickness,
        limit: Some(under_um(1_500)),
        then: Then::Warn,
        basis: Basis::Analogy,
        source: BY_THE_SHOP,
        figure: Origin::Shop,
        ..ROW
    },
    Rule {
        id: "R11",
        whose: EUROPE,
        looks_at: Looks::Stretched,
        limit: Some(over(750)),
        source: "EN 71-1:2005+A8:2009, clause 5.4 e), an extract: toys strung across a cot",
        figure: Origin::Read,
        ..ROW
    },
    Rule {
        id: "R11",
        whose: CA,
        looks_at: Looks::Stretched,
        limit: Some(over(750)),
        also: Some(over_share(75)),
        source: "SOR/2011-17, section 41: elastics across a carriage, crib or playpen",
        figure: Origin::Read,
        ..ROW
    },
];
