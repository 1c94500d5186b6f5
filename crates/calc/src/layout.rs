//! Where the pennants of one string sit.
//!
//! Whatever of count, gap, tails and length is not said is solved for.
//!
//! | figure | formula |
//! |---|---|
//! | flagged length of `n` pennants | `F = n w + (n − 1) g` |
//! | overall length | `F + 2 tails` |
//! | binding cut | `overall + 2 turn-unders` |
//! | most that fit a room `R` | `⌊(R + g) / (w + g)⌋` |
//! | gap that fills it | `(R − n w) / (n − 1)` |
//! | as seen, insertion `a`, drop `h` at the top | width `w − v a/h`, drop `h − a`, gap `g + v a/h` |
//!
//! where `v` is how much of the width leans away on the way down: all of a triangle's, a
//! blunt one's but for its foot, none where sides are straight.
//!
//! These are identities of a row of equal pieces (derived). The room is what the asked
//! length leaves for the flags: all of a flagged length; of an overall length what the
//! least tails leave; of a binding in hand what turn-unders and least tails leave; of a
//! hang its curve and a knot at each end, less tails that are never shorter than a knot.
//!
//! | said | solved for |
//! |---|---|
//! | a length | the most pennants that fit with at least the least tails |
//! | a count, or a lettering | the length, at the gap given or usual and the least tails |
//! | a length and a count, the rest to the gaps | the gap |
//! | a length and a count, the rest to the tails | the tails, at the usual gap; the gap, where the usual one does not fit |
//! | a length, a count and a gap | the tails |
//!
//! Where the rest goes to the gaps, the count is that whose gap comes nearest to the
//! one given or usual within the least and the greatest; the least is that gap itself
//! unless said. What a greatest gap leaves goes to the tails.
//!
//! Everything is worked exactly, in whole parts of a micrometre, and rounded once where
//! it is told: to the nearest micrometre, a half up, as these lengths are promised. So
//! sums of told figures may be a micrometre off; marks never add that up, because each
//! is rounded by itself.

mod formulas;
mod frame;
mod marks;
mod refuse;
mod search;
#[cfg(test)]
mod tests;

use pennantry_measure::{Length, Percent};

use self::formulas::nearest;
use self::frame::{Frame, Setting};
use self::search::Search;
use crate::hang::{self, HangLayout};
use crate::notice::{Code, Notice};
use crate::order::{AskedLength, Field, Order, Violation};
use crate::outline::Finished;
use crate::shop::{Shape, Shop, SizeAt};

pub use self::formulas::{Size, body_length, exact_gap, fit_count, to_binding_edge, to_top_edge};

/// Where the pennants of one string sit. Lengths are to the nearest micrometre.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// Pennants.
    pub count: u32,
    /// Gap, edge to edge at the top edge; of a single pennant, the gap it would have.
    pub gap: Length,
    /// First pennant's edge to last pennant's edge, at the top edge.
    pub flagged: Length,
    /// Flagged length and both tails.
    pub overall: Length,
    /// Overall length and both turn-unders.
    pub binding_cut: Length,
    /// Binding free at each end, finished.
    pub tail: Length,
    /// Width of a finished pennant at the top edge.
    pub top_width: Length,
    /// Drop of a finished pennant from the top edge, insertion and all.
    pub top_drop: Length,
    /// What the shape has beside width and drop, of the finished size at the top edge.
    pub top_detail: Length,
    /// Width as seen below the binding.
    pub visible_width: Length,
    /// Drop as seen below the binding.
    pub visible_drop: Length,
    /// Gap as seen below the binding.
    pub visible_gap: Length,
    /// Flagged length as seen below the binding.
    pub visible_flagged: Length,
    /// How far the finished flagged length may be off.
    pub tolerance: Length,
    /// From one pennant's left edge to the next's.
    pub pitch: Pitch,
    /// One pennant fewer and one more, where they can be had, in this order.
    pub alternatives: Vec<Alternative>,
    /// Every pennant from the left, up to [`bounds::MARKS_LISTED`](pennantry_measure::bounds::MARKS_LISTED); none beyond.
    pub marks: Vec<Mark>,
    /// The first pennant.
    pub first: Mark,
    /// The last pennant.
    pub last: Mark,
    /// How it hangs, where a hang was asked.
    pub hang: Option<HangLayout>,
    /// What to look at.
    pub notices: Vec<Notice>,
    /// Settings worked out and pennants marked: the same for the same order, always.
    pub steps: u64,
}

/// A pitch in micrometres, exactly: a fraction in its lowest terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pitch {
    /// Micrometres.
    pub numerator: i128,
    /// In so many parts; above nought.
    pub denominator: i128,
}

/// What tells strings of pennants apart, however they were asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spacing {
    /// Pennants.
    pub count: u32,
    /// Gap at the top edge.
    pub gap: Length,
    /// Binding free at each end.
    pub tail: Length,
    /// The finished pennant at its top edge.
    pub finished: Finished,
}

impl Layout {
    /// How its pennants are set.
    pub fn spacing(&self, shape: Shape) -> Spacing {
        Spacing { count: self.count, gap: self.gap, tail: self.tail, finished: self.finished(shape) }
    }

    /// The finished pennant at its top edge.
    pub fn finished(&self, shape: Shape) -> Finished {
        Finished { shape, width: self.top_width, drop: self.top_drop, detail: self.top_detail }
    }
}

impl Pitch {
    /// To the nearest micrometre, a half up.
    ///
    /// ```
    /// use pennantry_calc::layout::Pitch;
    /// use pennantry_measure::Length;
    /// // 190 mm and a gap of 690 mm / 28
    /// let pitch = Pitch { numerator: 1_502_500, denominator: 7 };
    /// assert_eq!(pitch.nearest(), Length::from_um(214_643));
    /// ```
    pub fn nearest(self) -> Length {
        nearest(self.numerator, self.denominator)
    }
}

/// The same string with another count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Alternative {
    /// Pennants.
    pub count: u32,
    /// The gap at the top edge that goes with it.
    pub gap: Length,
    /// The flagged length at the top edge that goes with it.
    pub flagged: Length,
    /// The tail that goes with it.
    pub tail: Length,
}

/// The top edge of one pennant, each end rounded by itself to the bench grain, a half
/// away from the middle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Mark {
    /// Left edge from the middle of the binding, below nought to the left.
    pub left: Length,
    /// Right edge from the middle of the binding.
    pub right: Length,
    /// Left edge from the left cut end of the binding.
    pub left_from_end: Length,
    /// Right edge from the left cut end of the binding.
    pub right_from_end: Length,
}

/// Solves a checked order for whatever it does not say.
///
/// The order's shape, bounds and limits are taken as checked.
///
/// # Errors
/// All of what cannot stand, in the order of the fields:
/// - [`Field::Drop`], does not fit: the binding would hide all of the drop;
/// - the length's field, does not fit: no room for one pennant, or for two where an even
///   count is asked;
/// - the length's field, out of range: room for more than [`bounds::PENNANTS`](pennantry_measure::bounds::PENNANTS);
/// - [`Field::Count`], contradiction: not of the asked parity; or
///   [`Field::Count`] or [`Field::Tail`]: longer than the length that is asked too. The
///   values that would mend it are named;
/// - [`Field::Count`] or [`Field::Lettering`], out of range: the length that comes out
///   is not one that the shop makes;
/// - [`Field::Quantity`], out of range: more than [`bounds::PIECES`](pennantry_measure::bounds::PIECES).
///
/// # Example
/// 6.2 m of flags 190 mm wide, usually 20 mm apart, take 29 pennants; what is left
/// widens the gaps to 24.643 mm (see the module's formulas):
/// `⌊6 220 / 210⌋ = 29`, `(6 200 − 29 · 190) / 28 = 24.642 857`.
pub fn solve(shop: &Shop, order: &Order) -> Result<Layout, Vec<Violation>> {
    let frame = Frame::new(shop, order).map_err(|violation| vec![violation])?;
    let mut search = Search::new(&frame);
    let setting = search.choose()?;
    let alternatives = search.alternatives(setting);
    let alternatives = alternatives.iter().map(|setting| alternative(&frame, *setting)).collect();
    Ok(told(&frame, setting, alternatives, search.steps))
}

/// How the pennants of an order are set, without marks and all else that [`solve`] tells.
///
/// # Errors
/// As [`solve`].
pub fn spacing(shop: &Shop, order: &Order) -> Result<Spacing, Vec<Violation>> {
    let frame = Frame::new(shop, order).map_err(|violation| vec![violation])?;
    let setting = Search::new(&frame).choose()?;
    let finished = Finished {
        shape: order.shape,
        width: frame.told(frame.width + frame.widening),
        drop: frame.top_drop,
        detail: top_detail(&frame),
    };
    Ok(Spacing { count: setting.count, gap: frame.top_gap(setting), tail: frame.tail_of(setting), finished })
}

fn alternative(frame: &Frame, setting: Setting) -> Alternative {
    Alternative {
        count: setting.count,
        gap: frame.top_gap(setting),
        flagged: frame.told(frame.top_flags(setting)),
        tail: frame.tail_of(setting),
    }
}

/// The setting in told figures.
fn told(frame: &Frame, setting: Setting, alternatives: Vec<Alternative>, steps: u64) -> Layout {
    let (shop, order) = (frame.shop, frame.order);
    let flagged = frame.told(frame.top_flags(setting));
    let overall = frame.told(setting.overall);
    let binding_cut = overall + shop.bench.turn_under * 2;
    let pitch = frame.pitch(setting);
    let top_width = frame.told(frame.width + frame.widening);
    let marked = marks::mark(frame, setting, binding_cut);
    let hang = match order.length {
        Some(AskedLength::Hang(hang)) => Some(hang::hang_up(
            hang,
            shop.bench.knot,
            setting.count,
            pitch.numerator,
            pitch.denominator,
            top_width,
            frame.top_drop,
        )),
        _ => None,
    };
    Layout {
        count: setting.count,
        gap: frame.top_gap(setting),
        flagged,
        overall,
        binding_cut,
        tail: frame.tail_of(setting),
        top_width,
        top_drop: frame.top_drop,
        top_detail: top_detail(frame),
        visible_width: frame.told(frame.width + frame.widening - frame.hidden),
        visible_drop: frame.top_drop - frame.insertion,
        visible_gap: frame.gap_beyond(setting, frame.hidden - frame.widening),
        visible_flagged: frame.told(frame.top_flags(setting) - frame.hidden),
        tolerance: tolerance(shop, flagged),
        pitch,
        alternatives,
        marks: marked.all,
        first: marked.first,
        last: marked.last,
        notices: notices(frame, setting, hang.as_ref()),
        hang,
        steps: steps + marked.steps,
    }
}

/// Straight sides seen from the binding's edge go on up to the top edge; a foot, a notch
/// and an arc are the same from wherever the drop is taken.
fn top_detail(frame: &Frame) -> Length {
    let order = frame.order;
    match (order.shape, order.size_at) {
        (Shape::Shield, SizeAt::BindingEdge) => order.detail + frame.insertion,
        _ => order.detail,
    }
}

/// The larger of the shop's least tolerance and its share of the flagged length, to the
/// nearest micrometre.
fn tolerance(shop: &Shop, flagged: Length) -> Length {
    let share = flagged.wide() * i128::from(shop.bench.tolerance_share.milli());
    shop.bench.tolerance.max(nearest(share, Percent::WHOLE.milli().into()))
}

fn notices(frame: &Frame, setting: Setting, hang: Option<&HangLayout>) -> Vec<Notice> {
    let mut notices = Vec::new();
    let gap = frame.top_gap(setting);
    if setting.count > 1 && frame.tops_meet(setting) {
        let apart = nearest(frame.widening, frame.scale);
        let message = if gap < Length::ZERO {
            format!(
                "the tops overlap by {} inside the binding, where the cloth lies double and is bulky to sew: \
                 a gap of more than {apart} keeps them apart",
                -gap
            )
        } else {
            format!(
                "the tops touch inside the binding, where all that stands beyond the finished sides overlaps and is \
                 bulky to sew: a gap of more than {apart} keeps them apart"
            )
        };
        notices.push(Notice::about(Code::TopsOverlap, Field::Gap, message));
    }
    if let Some(greatest) = frame.order.max_gap.filter(|_| setting.capped) {
        notices.push(Notice::about(
            Code::GapCapped,
            Field::MaxGap,
            format!(
                "the greatest gap of {greatest} does not fill the length: what is left makes each tail {} and not {}",
                frame.tail_of(setting),
                frame.tail
            ),
        ));
    }
    let behind = hang.map_or(0, |hang| hang.hooks.iter().filter(|hook| !hook.in_gap).count());
    if behind > 0 {
        let hooks = if behind == 1 { String::from("1 hook") } else { format!("{behind} hooks") };
        notices.push(Notice::about(
            Code::HookBehindPennant,
            Field::Swags,
            format!(
                "{hooks} between the ends would take the string behind a pennant: ask for fewer swags or a wider gap, \
                 or fix the string there from behind"
            ),
        ));
    }
    notices
}
