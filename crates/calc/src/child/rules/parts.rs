//! Rules about parts, fillings and play, and what is said after everything else.

use super::{
    ALL, AU, Ages, CA, ELSEWHERE, EU, EUROPE, GB, Looks, ROW, Rule, Sizes, Then, US, When, Whose, at_least,
    place, under_n, under_um,
};
use crate::order::Jurisdiction;
use crate::rule::{Basis, Origin};

const ISO_PULL: &str = "ISO 8124-1, from memory: pull test of parts of toys";
const EN_PULL: &str = "EN 71-1, from memory: pull test of parts of toys";
const CPSC_PULL: &str = "US use-and-abuse tests for toys, from memory";
const POMPOMS: &str = "Pompom rules of ASTM F963 and ISO 8124-1, from memory";
const BALLS: &str = "EN 71-1:2005+A8:2009, Annex A, an extract: small balls of toys";
const CATCHES: &str =
    "EN 71-1:2005+A8:2009, clause 5.4, an extract: knots, bows and beads count as attachments of a cord";
const SHOP_PULL: &str = "The shop's own figure, after rules of other places";
const PLAY: &str = "a decoration has no play value";

const LOOSE: Rule = Rule {
    id: "R12",
    looks_at: Looks::LoosePart,
    allowed: "no loose or glued part that goes into the small-parts cylinder",
    then: Then::Refuse,
    ..ROW
};
const SEWN: Rule = Rule { id: "R12", looks_at: Looks::SewnPart(Sizes::Any), ..ROW };
const SEAM: Rule = Rule { id: "R17", looks_at: Looks::Seam, ..ROW };
const TOY: Rule =
    Rule { id: "R18", ages: Ages::AnyChild, looks_at: Looks::Play, allowed: PLAY, basis: Basis::Law, ..ROW };

pub(super) const RULES: &[Rule] = &[
    Rule {
        whose: EUROPE,
        source: "EN 71-1, from memory: the small-parts cylinder",
        figure: Origin::Remembered,
        ..LOOSE
    },
    Rule {
        whose: US,
        source: "16 CFR 1501.2 and 1501.4: the small-parts cylinder",
        figure: Origin::Read,
        ..LOOSE
    },
    Rule {
        whose: CA,
        source: "SOR/2011-17, section 7: the small-parts cylinder",
        figure: Origin::Read,
        ..LOOSE
    },
    Rule {
        whose: AU,
        source: "Consumer Goods (Toys for Children up to and including 36 Months of Age) Safety Standard 2023, which \
                 takes the small-parts tests of others",
        ..LOOSE
    },
    Rule { whose: ELSEWHERE, source: "The shop's own rule", basis: Basis::Shop, ..LOOSE },
    Rule {
        whose: EUROPE,
        looks_at: Looks::SewnPart(Sizes::UpTo6),
        limit: Some(under_n(500)),
        source: EN_PULL,
        figure: Origin::Remembered,
        ..SEWN
    },
    Rule {
        whose: EUROPE,
        looks_at: Looks::SewnPart(Sizes::Over6),
        limit: Some(under_n(900)),
        source: EN_PULL,
        figure: Origin::Remembered,
        ..SEWN
    },
    Rule {
        whose: US,
        ages: Ages::Under18,
        limit: Some(under_n(445)),
        source: CPSC_PULL,
        figure: Origin::Remembered,
        ..SEWN
    },
    Rule {
        whose: US,
        ages: Ages::From18To36,
        limit: Some(under_n(667)),
        source: CPSC_PULL,
        figure: Origin::Remembered,
        ..SEWN
    },
    Rule {
        whose: CA,
        limit: Some(under_n(900)),
        source: "SOR/2019-97, section 2, and SOR/2016-152, section 16: small parts of window coverings and cribs",
        figure: Origin::Read,
        ..SEWN
    },
    Rule { whose: AU, limit: Some(under_n(700)), source: ISO_PULL, figure: Origin::Remembered, ..SEWN },
    Rule {
        whose: ELSEWHERE,
        limit: Some(under_n(900)),
        basis: Basis::Shop,
        source: SHOP_PULL,
        figure: Origin::Shop,
        ..SEWN
    },
    place::LABEL,
    Rule {
        id: "R14",
        whose: ALL,
        looks_at: Looks::Pompom,
        limit: Some(under_um(44_500)),
        also: Some(under_n(700)),
        source: POMPOMS,
        figure: Origin::Remembered,
        ..ROW
    },
    Rule {
        id: "R15",
        whose: ALL,
        looks_at: Looks::HangingBall,
        limit: Some(at_least(30)),
        also: Some(under_um(44_500)),
        source: BALLS,
        figure: Origin::Read,
        ..ROW
    },
    Rule {
        id: "R16",
        whose: ALL,
        looks_at: Looks::EndTrimming,
        when: When::Reachable,
        allowed: "nothing at a loose end that can catch",
        then: Then::Warn,
        source: CATCHES,
        ..ROW
    },
    Rule {
        whose: EUROPE,
        limit: Some(under_n(700)),
        source: "EN 71-1, from memory: seams of filled toys",
        figure: Origin::Remembered,
        ..SEAM
    },
    Rule {
        whose: US,
        ages: Ages::Under18,
        limit: Some(under_n(445)),
        source: "16 CFR 1500.51: seams of toys, 10 lbf",
        figure: Origin::Read,
        ..SEAM
    },
    Rule {
        whose: US,
        ages: Ages::From18To36,
        limit: Some(under_n(667)),
        source: CPSC_PULL,
        figure: Origin::Remembered,
        ..SEAM
    },
    Rule { whose: CA, limit: Some(under_n(700)), source: SHOP_PULL, figure: Origin::Shop, ..SEAM },
    Rule {
        whose: ELSEWHERE,
        limit: Some(under_n(700)),
        basis: Basis::Shop,
        source: SHOP_PULL,
        figure: Origin::Shop,
        ..SEAM
    },
    Rule {
        whose: AU,
        limit: Some(under_n(700)),
        source: "ISO 8124-1, from memory: seams of filled toys",
        figure: Origin::Remembered,
        ..SEAM
    },
    Rule {
        whose: EU,
        source: "Directive 2009/48/EC, Annex I, and from August 2030 Regulation (EU) 2025/2509, Annex I: decorations \
                 without play value are no toys",
        ..TOY
    },
    Rule { whose: GB, source: "SI 2011/1881, Schedule 1: decorations for festivities are no toys", ..TOY },
    Rule { whose: US, source: "16 CFR 1200.2: what is primarily for children of 12 years or younger", ..TOY },
    Rule {
        whose: &[Whose::Of(Jurisdiction::Ca)],
        source: "SOR/2011-17: what is for use by a child under 14 years in learning or play is a toy",
        ..TOY
    },
    Rule {
        whose: AU,
        source: "Consumer Goods (Toys for Children up to and including 36 Months of Age) Safety Standard 2023: playthings",
        ..TOY
    },
    Rule { whose: ELSEWHERE, source: "The shop's own rule", basis: Basis::Shop, ..TOY },
    place::YOUNG_IN_EUROPE,
    place::YOUNG,
    place::LONG,
];
