//! The measures of one order in whole parts of a micrometre, so that all that follows
//! is exact.

use pennantry_measure::Length;

use super::Pitch;
use super::formulas::{Size, nearest, widening};
use crate::hang;
use crate::order::{AskedLength, Field, Hang, Order, Reason, Violation};
use crate::shop::{Binding, Shape, Shop, SizeAt};

/// What is fixed before anything is solved for.
///
/// Fields of type `i128` are in parts of a micrometre, [`Frame::scale`] to one. Width,
/// gaps and flags are those at the order's size basis: a pitch is the same at both
/// edges, and the flags at the top edge are longer by [`Frame::widening`].
pub(super) struct Frame<'a> {
    pub shop: &'a Shop,
    pub order: &'a Order,
    /// The drop in micrometres: what every conversion between the edges divides by.
    pub scale: i128,
    pub width: i128,
    pub gap: i128,
    pub min_gap: Option<i128>,
    pub max_gap: Option<i128>,
    /// How much wider a pennant is at the top edge than at the size basis.
    pub widening: i128,
    /// How much wider it is at the top edge than at the binding's edge.
    pub hidden: i128,
    pub insertion: Length,
    pub top_drop: Length,
    /// Least tail: as asked, and no shorter than a knot where it hangs.
    pub tail: Length,
    /// Flags at the top edge and both least tails, where a length is asked.
    pub overall: Option<i128>,
}

/// One way to set the pennants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Setting {
    pub count: u32,
    /// Flagged length at the size basis, in parts.
    pub flags: i128,
    /// Overall length, in parts.
    pub overall: i128,
    pub rule: Rule,
    /// Whether the greatest gap left something over.
    pub capped: bool,
}

/// What takes the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rule {
    /// The tails, at the gap given or usual.
    Tails,
    /// The gaps.
    Gaps,
}

impl<'a> Frame<'a> {
    /// The frame of an order.
    ///
    /// # Errors
    /// What leaves nothing to be set: a drop that the binding hides, a pitch of nought, a
    /// hang whose curve is longer than anything the shop makes.
    pub fn new(shop: &'a Shop, order: &'a Order) -> Result<Frame<'a>, Violation> {
        let insertion = shop.bindings.get(order.binding).map_or(Length::ZERO, Binding::insertion);
        let at_top = order.size_at == SizeAt::TopEdge;
        let least_drop = if at_top { insertion } else { Length::ZERO };
        if order.drop <= least_drop {
            return Err(Violation::new(
                Field::Drop,
                Reason::DoesNotFit,
                format!(
                    "a drop of {} does not show: {insertion} of it sits in the binding; ask for more than {least_drop}, or for a narrower binding",
                    order.drop
                ),
            ));
        }
        if order.width + order.gap <= Length::ZERO || order.width <= Length::ZERO {
            return Err(Violation::new(
                Field::Gap,
                Reason::Contradiction,
                format!(
                    "a gap of {} would hang pennants {} wide on top of each other: give more than {}",
                    order.gap, order.width, -order.width
                ),
            ));
        }
        if let Some(AskedLength::Hang(hang)) = order.length {
            within(shop, hang)?;
        }
        let scale = order.drop.wide();
        let parts = |length: Length| length.wide() * scale;
        // only what leans gets wider on its way up
        let leaning = match order.shape {
            Shape::Triangle => order.width,
            Shape::Blunt => order.width - order.detail,
            Shape::Swallowtail | Shape::Shield | Shape::Scallop | Shape::Rectangle => Length::ZERO,
        };
        let hidden = widening(Size { width: leaning, drop: order.drop, gap: order.gap }, insertion);
        let widening = if at_top { 0 } else { hidden };
        let (knot, turn_under) = (shop.bench.knot, shop.bench.turn_under);
        let tail = match order.length {
            Some(AskedLength::Hang(_)) => order.tail.max(knot),
            _ => order.tail,
        };
        let overall = order.length.map(|length| match length {
            AskedLength::Flagged(flagged) => parts(flagged) + widening + 2 * parts(tail),
            AskedLength::Overall(overall) => parts(overall),
            AskedLength::Binding(cut) => parts(cut - turn_under * 2),
            AskedLength::Hang(hang) => parts(hang::total_curve(hang) + knot * 2),
        });
        Ok(Frame {
            shop,
            order,
            scale,
            width: parts(order.width),
            gap: parts(order.gap),
            min_gap: order.min_gap.map(parts),
            max_gap: order.max_gap.map(parts),
            widening,
            hidden,
            insertion,
            top_drop: if at_top { order.drop } else { order.drop + insertion },
            tail,
            overall,
        })
    }

    /// What the asked length leaves for the flags at the size basis.
    pub fn room(&self) -> Option<i128> {
        self.overall.map(|overall| overall - self.widening - 2 * self.tail.wide() * self.scale)
    }

    /// Flags of `count` at a gap.
    pub fn flags(&self, count: i128, gap: i128) -> i128 {
        count * self.width + (count - 1) * gap
    }

    /// The least gap that a spread may come to: as said; else none below nought, or below
    /// the gap itself where that was wanted below nought.
    pub fn floor_gap(&self) -> i128 {
        self.min_gap.unwrap_or(self.gap.min(0))
    }

    /// Flags at the top edge.
    pub fn top_flags(&self, setting: Setting) -> i128 {
        setting.flags + self.widening
    }

    /// The tail.
    pub fn tail_of(&self, setting: Setting) -> Length {
        nearest(setting.overall - self.top_flags(setting), 2 * self.scale)
    }

    /// The gap at the top edge.
    pub fn top_gap(&self, setting: Setting) -> Length {
        self.gap_beyond(setting, -self.widening)
    }

    /// The gap at the size basis and `more` parts.
    pub fn gap_beyond(&self, setting: Setting, more: i128) -> Length {
        let (rest, gaps) = self.gaps(setting);
        nearest(rest + more * gaps, gaps * self.scale)
    }

    /// Whether the top edges touch or overlap, to the last part.
    pub fn tops_meet(&self, setting: Setting) -> bool {
        let (rest, gaps) = self.gaps(setting);
        rest <= self.widening * gaps
    }

    /// All gaps together and their number; of one pennant the gap it would have.
    fn gaps(&self, setting: Setting) -> (i128, i128) {
        let count = i128::from(setting.count);
        if count < 2 { (self.gap, 1) } else { (setting.flags - count * self.width, count - 1) }
    }

    /// The pitch.
    pub fn pitch(&self, setting: Setting) -> Pitch {
        let (rest, gaps) = self.gaps(setting);
        let (numerator, denominator) = (rest + self.width * gaps, gaps * self.scale);
        let common = greatest_common_divisor(numerator, denominator);
        Pitch { numerator: numerator / common, denominator: denominator / common }
    }

    /// Parts as a length that is promised: to the nearest micrometre, a half up.
    pub fn told(&self, parts: i128) -> Length {
        nearest(parts, self.scale)
    }
}

/// A span may be short and its string long: a hang is held to the shop's most by its curve.
fn within(shop: &Shop, hang: Hang) -> Result<(), Violation> {
    let curve = hang::total_curve(hang);
    if curve <= shop.most {
        return Ok(());
    }
    Err(Violation::new(
        Field::Dip,
        Reason::OutOfRange,
        format!(
            "a dip of {} on a span of {} takes a string of {curve}, and {} makes none above {}: ask for a lesser dip, or for a shorter span",
            hang.dip, hang.span, shop.name, shop.most
        ),
    ))
}

/// Euclid's, and never nought.
fn greatest_common_divisor(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.abs(), b.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}
