//! The table of rules: what each looks at, from which age, against which limit, where the
//! limit comes from, and what it says to do.
//!
//! A row stands for all of its jurisdictions. The rules of one identity are tried in the order
//! of the table, and each says at most one thing about one part of an order.

mod cords;
mod parts;
mod place;

use pennantry_measure::{Force, Length, Percent};

use crate::order::Jurisdiction;
use crate::rule::{Basis, Comparator, Origin};

/// Every rule, in the order in which findings are told.
pub const RULES: [&[Rule]; 3] = [place::RULES, cords::RULES, parts::RULES];

/// One row of the table.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Its identity, such as "R04".
    pub id: &'static str,
    /// Whose rule it is.
    pub whose: &'static [Whose],
    /// The ages that it is for.
    pub ages: Ages,
    /// What it looks at.
    pub(super) looks_at: Looks,
    /// When it applies beside that.
    pub(super) when: When,
    /// What is too much, if it has a figure.
    pub limit: Option<Limit>,
    /// A second figure; both have to be broken.
    pub also: Option<Limit>,
    /// What is allowed, in words, where there is no figure, or what to add to it.
    pub(super) allowed: &'static str,
    /// What it says to do.
    pub(super) then: Then,
    /// What kind of rule it is.
    pub basis: Basis,
    /// Where it comes from. A clause is named only where the figure was seen in it.
    pub source: &'static str,
    /// Where its figure was found.
    pub figure: Origin,
}

/// Whose rule it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Whose {
    /// The shop's own, whatever other rules are looked at.
    Everywhere,
    /// Those of one jurisdiction.
    Of(Jurisdiction),
    /// The shop's own, where the rules of the place that it goes to are not known here.
    Elsewhere,
}

/// The ages that a rule is for, in months; where a year begins or ends differs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ages {
    /// Whoever is near, told or not.
    Anybody,
    /// Any child.
    AnyChild,
    /// Under 18 months; in the United States 18 months too.
    Under18,
    /// From there to under 36 months; in Australia 36 months too.
    From18To36,
    /// Under 36 months; in Australia 36 months too.
    Under36,
    /// As for window cords: to 42 months in Europe, else under 36 months.
    WindowCords,
    /// From there to under 14 years.
    From36To14Years,
    /// From 18 months to 8 years, the ninth birthday left out.
    From18To8Years,
    /// From 3 to under 6 years.
    From36To6Years,
}

impl Ages {
    /// Whether a rule for these ages is for a child of so many months; none where there is
    /// no child.
    ///
    /// ```
    /// use pennantry_calc::child::{Ages, Whose};
    /// use pennantry_calc::order::Jurisdiction;
    /// // 18 months: over the first age in Europe, still of it in the United States
    /// assert!(!Ages::Under18.holds(Whose::Of(Jurisdiction::Eu), Some(18)));
    /// assert!(Ages::Under18.holds(Whose::Of(Jurisdiction::Us), Some(18)));
    /// ```
    pub fn holds(self, whose: Whose, months: Option<u32>) -> bool {
        let Some(months) = months else { return self == Ages::Anybody };
        // where nothing is known the wider of the two ends stands
        let first = match whose {
            Whose::Of(Jurisdiction::Us) | Whose::Elsewhere | Whose::Everywhere => 19,
            Whose::Of(_) => 18,
        };
        let second = match whose {
            Whose::Of(Jurisdiction::Au) | Whose::Elsewhere | Whose::Everywhere => 37,
            Whose::Of(_) => 36,
        };
        let cords = match whose {
            Whose::Of(Jurisdiction::Eu | Jurisdiction::Gb) => 43,
            _ => second,
        };
        match self {
            Ages::Anybody | Ages::AnyChild => true,
            Ages::Under18 => months < first,
            Ages::From18To36 => (first..second).contains(&months),
            Ages::Under36 => months < second,
            Ages::WindowCords => months < cords,
            Ages::From36To14Years => (second..168).contains(&months),
            Ages::From18To8Years => (first..108).contains(&months),
            Ages::From36To6Years => (second..72).contains(&months),
        }
    }
}

/// An amount of something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd)]
pub enum Amount {
    /// A length.
    Length(Length),
    /// A force.
    Force(Force),
    /// A share.
    Share(Percent),
}

/// What is too much, or too little.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limit {
    /// What breaks it.
    pub comparator: Comparator,
    /// The limit itself.
    pub amount: Amount,
}

impl Limit {
    /// Whether an amount breaks it; one that is not known does.
    pub fn is_broken(self, amount: Option<Amount>) -> bool {
        amount.is_none_or(|amount| self.comparator.breaks(amount, self.amount))
    }
}

/// What a rule looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Looks {
    /// What was not told.
    Questions,
    /// Whether it hangs in or on a cot or the like.
    AtCot,
    /// Distance to a cot, where it was told.
    CotDistance,
    /// That no distance to a cot was told, where there may be one.
    CotUntold,
    /// The lowest point.
    Lowest,
    /// That no height was told.
    HeightUntold,
    /// The longest loose end.
    Tail,
    /// The largest sewn loop at an end; one that parts at so much or less does not count.
    Loop(Option<Force>),
    /// A loop that can run smaller.
    Noose,
    /// That nobody told whether a loop can.
    NooseUntold,
    /// Two ties at one end, tied together: the loop.
    TiedLoop,
    /// Two ties at one end, tied together: both of them.
    TiedLength,
    /// A span and the wall behind it.
    SpanLoop,
    /// The string of a span.
    SpanString,
    /// Thickness of a round cord or an elastic.
    CordThickness,
    /// An elastic, stretched, and by how much.
    Stretched,
    /// A hard small part that is loose or glued.
    LoosePart,
    /// The pull that a sewn hard small part stood: of those larger or smaller than 6 mm, or
    /// of all.
    SewnPart(Sizes),
    /// A hard small part.
    SmallPart,
    /// Size of a pompom, and the pull that it stood.
    Pompom,
    /// How far a ball or a bead hangs, and its size.
    HangingBall,
    /// A trimming at an end.
    EndTrimming,
    /// The pull that seams of filled pennants stood.
    Seam,
    /// Play value.
    Play,
    /// That a child is so young.
    Young,
    /// The whole string.
    Overall,
}

impl Looks {
    /// Whether it is about each of several things by itself, and not about the string.
    pub(super) fn is_of_each(self) -> bool {
        matches!(
            self,
            Looks::Questions
                | Looks::LoosePart
                | Looks::SewnPart(_)
                | Looks::SmallPart
                | Looks::Pompom
                | Looks::HangingBall
                | Looks::EndTrimming
        )
    }
}

/// Parts by their largest size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sizes {
    /// All.
    Any,
    /// Up to 6 mm.
    UpTo6,
    /// Over 6 mm.
    Over6,
}

/// When a rule applies beside what it looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum When {
    /// Always.
    Always,
    /// Where the string is within reach.
    Reachable,
    /// Where it is a toy.
    Toy,
    /// Where another rule of this identity has said nothing.
    Unless(&'static str),
    /// Where nothing was refused.
    NothingRefused,
    /// The same, where somebody's rules are looked at.
    NothingRefusedBy(Whose),
}

/// What a rule says to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Then {
    /// To answer.
    Ask,
    /// To take care.
    Warn,
    /// To do as the remedy says.
    Restrict,
    /// Not to.
    Refuse,
    /// To do as the remedy says where it is within reach or a toy, else to take care.
    Strict,
    /// The same, whether it is a toy or not.
    RestrictInReach,
    /// Not to where it is within reach, else to do as the remedy says.
    RefuseInReach,
}

/// A row that leaves most at what is usual.
const ROW: Rule = Rule {
    id: "",
    whose: &[],
    ages: Ages::Under36,
    looks_at: Looks::Questions,
    when: When::Always,
    limit: None,
    also: None,
    allowed: "",
    then: Then::Restrict,
    basis: Basis::Toy,
    source: "",
    figure: Origin::NoFigure,
};

const EUROPE: &[Whose] = &[Whose::Of(Jurisdiction::Eu), Whose::Of(Jurisdiction::Gb)];
const EU: &[Whose] = &[Whose::Of(Jurisdiction::Eu)];
const GB: &[Whose] = &[Whose::Of(Jurisdiction::Gb)];
const US: &[Whose] = &[Whose::Of(Jurisdiction::Us)];
const CA: &[Whose] = &[Whose::Of(Jurisdiction::Ca)];
const AU: &[Whose] = &[Whose::Of(Jurisdiction::Au)];
const ELSEWHERE: &[Whose] = &[Whose::Elsewhere];
const EVERYWHERE: &[Whose] = &[Whose::Everywhere];
const ALL: &[Whose] = &[
    Whose::Of(Jurisdiction::Eu),
    Whose::Of(Jurisdiction::Gb),
    Whose::Of(Jurisdiction::Us),
    Whose::Of(Jurisdiction::Ca),
    Whose::Of(Jurisdiction::Au),
    Whose::Elsewhere,
];

const fn limit(comparator: Comparator, amount: Amount) -> Limit {
    Limit { comparator, amount }
}

/// At most so many micrometres.
const fn over_um(um: i64) -> Limit {
    limit(Comparator::Over, Amount::Length(Length::from_um(um)))
}

/// At most so many millimetres.
const fn over(mm: i64) -> Limit {
    over_um(mm * 1_000)
}

/// Less than so many millimetres.
const fn at_least(mm: i64) -> Limit {
    limit(Comparator::AtLeast, Amount::Length(Length::from_mm(mm)))
}

/// So many micrometres or more.
const fn under_um(um: i64) -> Limit {
    limit(Comparator::Under, Amount::Length(Length::from_um(um)))
}

/// So many tenths of a newton or more.
const fn under_n(tenths: u32) -> Limit {
    limit(Comparator::Under, Amount::Force(Force::from_tenths(tenths)))
}

/// At most such a share.
const fn over_share(percent: i64) -> Limit {
    limit(Comparator::Over, Amount::Share(Percent::from_milli(percent * 1_000)))
}
