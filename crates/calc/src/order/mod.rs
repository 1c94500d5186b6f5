//! What is asked, and the checked order that comes of it.

mod check;
mod detail;
mod ends;
mod near;
#[cfg(test)]
mod tests;

use std::fmt;

use pennantry_measure::{Length, Money, Percent};

use crate::shop::{Construction, Day, Shape, SizeAt};

pub use check::{check, construction_name};
pub use detail::{limits as detail_limits, shape_name};
pub use ends::{AskedEnd, End, EndStyle};
pub use near::{Jurisdiction, Near, Place, Who};

/// A field of an order, in the order in which violations are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Field {
    /// The whole order.
    Whole,
    /// Code of the design.
    Design,
    /// Flagged length.
    Flagged,
    /// Overall length.
    Overall,
    /// Binding in hand.
    BindingLength,
    /// Span of a hang.
    Span,
    /// Dip of a hang.
    Dip,
    /// Swags of a hang.
    Swags,
    /// Pennants.
    Count,
    /// Gap.
    Gap,
    /// Least tail.
    Tail,
    /// Where the rest goes.
    Leftover,
    /// Odd or even.
    Parity,
    /// Least gap.
    MinGap,
    /// Greatest gap.
    MaxGap,
    /// Shape.
    Shape,
    /// Width.
    Width,
    /// Drop.
    Drop,
    /// Where sizes are taken.
    SizeAt,
    /// Width of a blunt pennant's foot.
    Foot,
    /// Depth of a swallowtail's notch.
    Notch,
    /// Straight sides of a shield.
    Shoulder,
    /// Rise of a scallop's arc.
    Rise,
    /// Construction.
    Construction,
    /// Fabric of the backs.
    Backing,
    /// Rule of the colours.
    ColourRule,
    /// All fabrics.
    Fabrics,
    /// One fabric, by its place in the list.
    Fabric(u32),
    /// Lettering.
    Lettering,
    /// Code of the binding.
    Binding,
    /// Something about an end, by its place in the list.
    End(u32, EndPart),
    /// One trimming, by its place in the list.
    Trimming(u32),
    /// Quantity.
    Quantity,
    /// Something about who is near.
    Near(NearPart),
    /// Country it is sent to.
    Country,
    /// Code of the postal service.
    Service,
    /// Day wanted.
    WantedDate,
    /// What staff take off: how much.
    Discount(DiscountPart),
    /// Whether it goes before all that is promised.
    Rush,
}

/// What is said of a discount.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DiscountPart {
    /// All of it.
    Whole,
    /// A share.
    Percent,
    /// An amount.
    Minor,
    /// Why.
    Reason,
}

/// What is asked of an end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EndPart {
    /// How it is finished.
    Style,
    /// Perimeter of a loop.
    Perimeter,
    /// Whether the loop can run smaller.
    Slips,
    /// Force at which it parts.
    Breakaway,
    /// Length of the free end that is to be tied.
    Tie,
    /// Length of a second free end.
    SecondTie,
    /// Distance between the roots of the two.
    TiesApart,
    /// Code of a trimming that hangs from it.
    Trimming,
}

/// What is told about who is near.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NearPart {
    /// Who.
    Who,
    /// Age of the youngest child.
    Months,
    /// Where.
    Place,
    /// Height of the fixings.
    FixingHeight,
    /// How many fixings.
    Fixings,
    /// First fixing to last.
    Span,
    /// Distance to a cot.
    CotDistance,
    /// Whose rules, all of them.
    Jurisdictions,
    /// Whose rules, by their place in the list.
    Jurisdiction(u32),
    /// Width of the wall.
    WallWidth,
    /// Height of the wall.
    WallHeight,
}

/// Why a field cannot stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// Something that has to be said was not.
    Missing,
    /// Below the least or above the most.
    OutOfRange,
    /// No such code in the catalogue.
    UnknownCode,
    /// Said more often than it may be.
    Repeated,
    /// Clashes with what else was said.
    Contradiction,
    /// Does not fit where it has to.
    DoesNotFit,
    /// Not offered by this shop or design.
    NotOffered,
    /// A day that has passed.
    PastDate,
    /// Holds a character that cannot be lettered.
    BadText,
}

/// One thing wrong with one field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Violation {
    /// The field.
    pub field: Field,
    /// Why.
    pub reason: Reason,
    /// What is wrong, with which value, what is allowed, what to do next.
    pub message: String,
}

impl Violation {
    /// A violation.
    pub fn new(field: Field, reason: Reason, message: impl Into<String>) -> Violation {
        Violation { field, reason, message: message.into() }
    }
}

impl fmt::Display for Violation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}: {}", self.field, self.message)
    }
}

/// What is asked, in measures but not yet checked against a shop. Every number is
/// already within the bounds of `pennantry_measure::bounds`.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Asked {
    /// Code of the design.
    pub design: Option<String>,
    /// Wanted length.
    pub length: Option<AskedLength>,
    /// Wanted count.
    pub count: Option<u32>,
    /// Wanted gap.
    pub gap: Option<Length>,
    /// Least tail.
    pub tail: Option<Length>,
    /// Where the rest goes.
    pub leftover: Option<Leftover>,
    /// Odd or even.
    pub parity: Option<Parity>,
    /// Least gap.
    pub min_gap: Option<Length>,
    /// Greatest gap.
    pub max_gap: Option<Length>,
    /// Shape.
    pub shape: Option<Shape>,
    /// Width.
    pub width: Option<Length>,
    /// Drop.
    pub drop: Option<Length>,
    /// Where sizes are taken.
    pub size_at: Option<SizeAt>,
    /// Width of a blunt pennant's foot.
    pub foot: Option<Length>,
    /// Depth of a swallowtail's notch.
    pub notch: Option<Length>,
    /// Straight sides of a shield.
    pub shoulder: Option<Length>,
    /// Rise of a scallop's arc.
    pub rise: Option<Length>,
    /// Construction.
    pub construction: Option<Construction>,
    /// Code of the fabric of the backs.
    pub backing: Option<String>,
    /// Rule of the colours.
    pub rule: Option<ColourRule>,
    /// Codes of the fabrics; empty for the design's.
    pub fabrics: Vec<String>,
    /// The lettering, cut into what a reader sees as single characters.
    pub letters: Vec<String>,
    /// Code of the binding.
    pub binding: Option<String>,
    /// The ends, from the left; one for both, or none for plain ones.
    pub ends: Vec<AskedEnd>,
    /// Codes of the trimmings, and how many of each on a pennant.
    pub trimmings: Vec<(String, u32)>,
    /// Strings.
    pub quantity: Option<u32>,
    /// Who will be near, and where it hangs.
    pub near: Near,
    /// Country it is sent to, ISO 3166-1.
    pub country: Option<String>,
    /// Code of the postal service.
    pub service: Option<String>,
    /// Day by which it should arrive.
    pub wanted: Option<Day>,
    /// What staff take off.
    pub discount: Option<Discount>,
    /// Whether it goes before all that is promised.
    pub rush: bool,
}

/// What staff take off the goods, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Discount {
    /// How much.
    pub off: Off,
    /// Why, for the line on the bill.
    pub reason: String,
}

/// How much is taken off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Off {
    /// A share of the goods with the minimum charge.
    Share(Percent),
    /// An amount, as prices are written.
    Amount(Money),
}

/// A wanted length, said in one way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AskedLength {
    /// First pennant's edge to last pennant's edge.
    Flagged(Length),
    /// Flagged length and both tails.
    Overall(Length),
    /// Overall length and both turn-unders.
    Binding(Length),
    /// Hook to hook.
    Hang(Hang),
}

impl AskedLength {
    /// The field that says it.
    pub fn field(self) -> Field {
        match self {
            AskedLength::Flagged(_) => Field::Flagged,
            AskedLength::Overall(_) => Field::Overall,
            AskedLength::Binding(_) => Field::BindingLength,
            AskedLength::Hang(_) => Field::Span,
        }
    }

    /// What was measured: the length itself, the span of a hang.
    pub fn measured(self) -> Length {
        match self {
            AskedLength::Flagged(length) | AskedLength::Overall(length) | AskedLength::Binding(length) => {
                length
            }
            AskedLength::Hang(hang) => hang.span,
        }
    }

    /// How it is spoken of in messages.
    pub fn spoken(self) -> &'static str {
        match self {
            AskedLength::Flagged(_) => "a flagged length",
            AskedLength::Overall(_) => "an overall length",
            AskedLength::Binding(_) => "a length of binding",
            AskedLength::Hang(_) => "a span",
        }
    }
}

/// A string between two hooks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hang {
    /// Level distance, first hook to last.
    pub span: Length,
    /// How far each swag hangs below its hooks.
    pub dip: Length,
    /// Equal swags.
    pub swags: u32,
}

/// Where the length that is left over goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leftover {
    /// To both tails alike.
    Tails,
    /// To all gaps alike.
    Gaps,
}

/// Whether the count is odd or even.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Parity {
    /// Odd: a pennant in the middle.
    Odd,
    /// Even: a gap in the middle.
    Even,
}

impl Parity {
    /// Whether a count has it.
    pub fn holds(self, count: u32) -> bool {
        count.is_multiple_of(2) == (self == Parity::Even)
    }
}

/// Which fabric hangs where.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ColourRule {
    /// First to last, again and again from the left.
    Repeat,
    /// The same from both ends inward.
    MirrorEnds,
    /// The same from the middle outward.
    MirrorCentre,
    /// As listed, one entry a pennant.
    Listed,
}

/// A checked order: everything said or stood in, nothing that clashes in itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// Place of the design.
    pub design: usize,
    /// Wanted length, if said.
    pub length: Option<AskedLength>,
    /// Wanted count, if said.
    pub count: Option<u32>,
    /// The gap as given or usual, at the size basis.
    pub gap: Length,
    /// Whether the gap was given, and so may not be changed.
    pub gap_given: bool,
    /// Least tail.
    pub tail: Length,
    /// Whether the tail was given.
    pub tail_given: bool,
    /// Where the rest goes.
    pub leftover: Leftover,
    /// Odd or even, if said.
    pub parity: Option<Parity>,
    /// Least gap, if said.
    pub min_gap: Option<Length>,
    /// Greatest gap, if said.
    pub max_gap: Option<Length>,
    /// Shape.
    pub shape: Shape,
    /// Width at the size basis.
    pub width: Length,
    /// Drop at the size basis.
    pub drop: Length,
    /// The size basis.
    pub size_at: SizeAt,
    /// What its shape has beside width and drop, at the size basis: see
    /// [`Shape`].
    pub detail: Length,
    /// Construction.
    pub construction: Construction,
    /// Place of the fabric of the backs, if one of its own.
    pub backing: Option<usize>,
    /// Rule of the colours.
    pub rule: ColourRule,
    /// Places of the fabrics, in order.
    pub fabrics: Vec<usize>,
    /// The letters, `None` for a space between words; empty for no lettering.
    pub letters: Vec<Option<String>>,
    /// Place of the binding.
    pub binding: usize,
    /// The ends, from the left.
    pub ends: [End; 2],
    /// Places of the trimmings, and how many of each on a pennant.
    pub trimmings: Vec<(usize, u32)>,
    /// Strings.
    pub quantity: u32,
    /// Who will be near, where it hangs, and whose rules are looked at.
    pub near: Near,
    /// Country it is sent to, ISO 3166-1.
    pub country: String,
    /// Place of the postal service, if one was asked for.
    pub service: Option<usize>,
    /// Day by which it should arrive, if said.
    pub wanted: Option<Day>,
    /// What staff take off, if anything.
    pub discount: Option<Discount>,
    /// Whether it goes before all that is promised.
    pub rush: bool,
}
