//! The rules about paper, as data.
//!
//! A source names a clause only where the figure was read in it; a figure that is only
//! remembered is marked so, and its source names the standard and no clause. All limits
//! are "may not": a measure equal to the limit passes where the comparison is
//! [`Comparator::Over`] or [`Comparator::Under`], and does not where it is
//! [`Comparator::AtLeast`].

use pennantry_measure::{Area, Length, Percent};

use crate::order::Jurisdiction;
use crate::rule::{Basis, Comparator, Origin};
use crate::shop::FireStandard;

/// Identity of a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RuleId {
    /// Offered for children.
    R19,
    /// A public room without an accepted certificate.
    R20,
    /// A public room, pennants over too much of the wall.
    R21,
    /// An offer that lacks what it has to show.
    R22,
    /// A large pennant without a fibre label.
    R23,
    /// A wide bag of thin film.
    R24,
}

impl RuleId {
    /// As it is written.
    ///
    /// ```
    /// use pennantry_calc::paper::RuleId;
    /// assert_eq!(RuleId::R19.code(), "R19");
    /// ```
    pub fn code(self) -> &'static str {
        match self {
            RuleId::R19 => "R19",
            RuleId::R20 => "R20",
            RuleId::R21 => "R21",
            RuleId::R22 => "R22",
            RuleId::R23 => "R23",
            RuleId::R24 => "R24",
        }
    }
}

/// What a rule holds to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limit {
    /// No figure: something is there or is missing.
    Missing,
    /// A certificate of a test by one of these.
    Standards(&'static [FireStandard]),
    /// Pennants, as a share of their wall.
    Wall(Comparator, Percent),
    /// One pennant.
    Pennant(Comparator, Area),
    /// A bag whose opening and whose film both cross their limits.
    Bag {
        /// Length round the opening.
        opening: (Comparator, Length),
        /// Thickness of the film.
        film: (Comparator, Length),
    },
}

/// A rule about paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rule {
    /// Which.
    pub id: RuleId,
    /// Whose.
    pub of: Jurisdiction,
    /// What it holds to.
    pub limit: Limit,
    /// What kind of rule it is.
    pub basis: Basis,
    /// Where the figure was found.
    pub figure: Origin,
    /// Where it comes from.
    pub source: &'static str,
}

/// 216 square inches of 25.4 by 25.4 mm, which are 139 354.56 mm² and nothing beyond.
const FLAG: Area = Area::from_um2(216 * 25_400 * 25_400);

/// The bag of the toy standard of Europe: both figures are remembered.
const EN_71_BAG: Limit = Limit::Bag {
    opening: (Comparator::Over, Length::from_mm(380)),
    film: (Comparator::Under, Length::from_um(38)),
};
const EN_71_SOURCE: &str = "EN 71-1, bags that toys are packed in (remembered)";

/// Every rule, in the order in which findings of one outcome are told.
pub const RULES: &[Rule] = &[
    Rule {
        id: RuleId::R19,
        of: Jurisdiction::Us,
        limit: Limit::Missing,
        basis: Basis::Law,
        figure: Origin::NoFigure,
        source: "15 USC 2063(a)(2) and (a)(5)",
    },
    Rule {
        id: RuleId::R20,
        of: Jurisdiction::Eu,
        limit: Limit::Standards(&[
            FireStandard::Din4102ClassB1,
            FireStandard::En13773Class1,
            FireStandard::En13501ClassB,
        ]),
        basis: Basis::Law,
        figure: Origin::Read,
        source: "rules of member states for decorations in assembly places: DIN 4102-1 B1, EN 13773 class 1 or \
                 EN 13501-1 class B",
    },
    Rule {
        id: RuleId::R20,
        of: Jurisdiction::Gb,
        limit: Limit::Standards(&[FireStandard::Bs5867TypeB, FireStandard::Bs5867TypeC]),
        basis: Basis::Guidance,
        figure: Origin::Read,
        source: "BS 5867-2, type B or C, as venues, insurers and rules of events ask for it; no one law asks it \
                 everywhere",
    },
    Rule {
        id: RuleId::R20,
        of: Jurisdiction::Us,
        limit: Limit::Standards(&[FireStandard::Nfpa701]),
        basis: Basis::Law,
        figure: Origin::Read,
        source: "NFPA 701, as fire codes ask for it of decorations in public rooms",
    },
    Rule {
        id: RuleId::R20,
        of: Jurisdiction::Ca,
        limit: Limit::Standards(&[FireStandard::CanUlcS109]),
        basis: Basis::Law,
        figure: Origin::Remembered,
        source: "CAN/ULC-S109, as fire codes ask for it (remembered)",
    },
    Rule {
        id: RuleId::R20,
        of: Jurisdiction::Au,
        limit: Limit::Standards(&[FireStandard::As1530Part2]),
        basis: Basis::Guidance,
        figure: Origin::Remembered,
        source: "AS 1530.2, as venues ask for it (remembered)",
    },
    Rule {
        id: RuleId::R21,
        of: Jurisdiction::Us,
        limit: Limit::Wall(Comparator::Over, Percent::from_milli(10_000)),
        basis: Basis::Law,
        figure: Origin::Read,
        source: "International Fire Code, section 807 (text of 2012)",
    },
    Rule {
        id: RuleId::R22,
        of: Jurisdiction::Eu,
        limit: Limit::Missing,
        basis: Basis::Law,
        figure: Origin::NoFigure,
        source: "Regulation (EU) 2023/988, Article 19",
    },
    Rule {
        id: RuleId::R23,
        of: Jurisdiction::Us,
        limit: Limit::Pennant(Comparator::Over, FLAG),
        basis: Basis::Law,
        figure: Origin::Read,
        source: "guide of the Federal Trade Commission to the textile rules, 16 CFR 303: flags of more than 216 \
                 square inches",
    },
    Rule {
        id: RuleId::R24,
        of: Jurisdiction::Eu,
        limit: EN_71_BAG,
        basis: Basis::Toy,
        figure: Origin::Remembered,
        source: EN_71_SOURCE,
    },
    Rule {
        id: RuleId::R24,
        of: Jurisdiction::Gb,
        limit: EN_71_BAG,
        basis: Basis::Toy,
        figure: Origin::Remembered,
        source: EN_71_SOURCE,
    },
    Rule {
        id: RuleId::R24,
        of: Jurisdiction::Ca,
        limit: Limit::Bag {
            opening: (Comparator::AtLeast, Length::from_mm(356)),
            film: (Comparator::Under, Length::from_um(19)),
        },
        basis: Basis::Toy,
        figure: Origin::Read,
        source: "Toys Regulations, SOR/2011-17, section 4",
    },
];
