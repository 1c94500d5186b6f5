//! What a stretch gives, and what so many pieces take of it.

use std::collections::BTreeMap;

use pennantry_measure::{Length, bounds};

use super::{Need, Stretch};
use crate::cutting::{Job, bought_length, charged, length, shortest, washed, whole_repeats};
use crate::shop::{Direction, Lay, Shape, Sold};

/// Longer than any bolt: what is clear beyond counts as so long.
const LONGEST: Length = Length::from_mm(10_000_000);
/// More new cloth than there ever is.
pub(super) const WITHOUT_END: Length = Length::from_um(i64::MAX >> 2);
/// Wider than any loom: a width beyond counts as so wide. Nor is any measure of a piece
/// beyond.
const WIDEST: Length = Length::from_mm(20_000);
/// Pieces with a side below this are not cut; the least letter is ten times as large.
const LEAST_SIDE: Length = Length::from_mm(1);

/// A stretch as it is when it is cut.
#[derive(Debug, Clone, Copy)]
struct Clear {
    /// Width for the plan: washed, the start of a print off.
    width: Length,
    /// Length as it lies on the shelf.
    length: Length,
    remnant: bool,
}

/// How so many pieces are cut off a stretch.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cut {
    /// Length to cut off.
    pub length: Length,
    pub lay: Lay,
    /// What is planned in one layer.
    pub layer: Job,
    /// Planned as a quote does, and not as short as can be.
    pub simple: bool,
}

/// A need and the shelf.
pub(super) struct Gives<'a> {
    need: &'a Need,
    /// The shelf as it is given.
    pub shelf: &'a [Stretch],
    clear: Vec<Clear>,
    /// Pieces wanted.
    pub wanted: u32,
    /// Shortest plans that take a search, by width and pieces.
    known: BTreeMap<(Length, u32), Option<Length>>,
    /// Plans reckoned and sums compared.
    pub steps: u64,
}

impl<'a> Gives<'a> {
    pub(super) fn new(need: &'a Need, shelf: &'a [Stretch]) -> Gives<'a> {
        let nothing = Length::ZERO;
        let clear = |stretch: &Stretch| {
            let width = washed(stretch.width.clamp(nothing, WIDEST), need.shrink_across);
            let width = (width - need.start.clamp(nothing, WIDEST)).min(WIDEST);
            Clear { width, length: stretch.length.clamp(nothing, LONGEST), remnant: stretch.remnant }
        };
        let can = can_be_cut(need);
        let clear = if can { shelf.iter().map(clear).collect() } else { Vec::new() };
        let wanted = need.job.pieces.min(bounds::PIECES.most);
        Gives { need, shelf, clear, wanted, known: BTreeMap::new(), steps: 0 }
    }

    /// The most new cloth that may be taken.
    pub(super) fn charged(&self) -> Length {
        self.need.charged.clamp(Length::ZERO, WITHOUT_END)
    }

    /// Steps in which bolts are cut: the shop's, then none where that is another.
    pub(super) fn cut_steps(&self) -> Vec<Length> {
        let finest = Length::from_um(1);
        match self.need.sold {
            Sold::Bolt { step } if step > finest => vec![step, finest],
            Sold::Bolt { .. } | Sold::Pieces { .. } => vec![finest],
        }
    }

    /// The least length to cut so many pieces off a stretch; none where it does not give
    /// them. More pieces never take less.
    pub(super) fn least(&mut self, at: usize, pieces: u32, step: Length) -> Option<Length> {
        let clear = *self.clear.get(at)?;
        let lays = self.lays(clear, pieces).into_iter().flatten();
        let cuts = lays.filter_map(|lay| self.way(clear, lay, pieces, false, step));
        cuts.map(|cut| cut.length).min()
    }

    /// The simplest way to cut so many pieces off a stretch in the least length.
    pub(super) fn cut(&mut self, at: usize, pieces: u32, step: Length) -> Option<Cut> {
        let least = self.least(at, pieces, step)?;
        let clear = *self.clear.get(at)?;
        // of a remnant whatever fits will do
        let enough = if clear.remnant { clear.length } else { least };
        let lays = self.lays(clear, pieces);
        let ways = [true, false].into_iter().flat_map(|simple| lays.map(|lay| Some((lay?, simple))));
        ways.flatten().find_map(|(lay, simple)| {
            self.way(clear, lay, pieces, simple, step).filter(|cut| cut.length <= enough)
        })
    }

    /// The most pieces, up to those wanted, that a length cut off a stretch gives.
    pub(super) fn most(&mut self, at: usize, wanted: u32, within: Length, step: Length) -> u32 {
        let mut fits = |pieces| self.least(at, pieces, step).is_some_and(|length| length <= within);
        let (mut fitting, mut beyond) = (0, 1);
        while beyond <= wanted && fits(beyond) {
            fitting = beyond;
            beyond = beyond.saturating_mul(2);
        }
        beyond = beyond.min(wanted.saturating_add(1));
        while beyond - fitting > 1 {
            let middle = u32::midpoint(fitting, beyond);
            if fits(middle) {
                fitting = middle;
            } else {
                beyond = middle;
            }
        }
        fitting
    }

    /// What is left of a remnant's area when so many pieces are cut of it; nought where
    /// not one more could be cut of what is left.
    pub(super) fn keeps(&mut self, at: usize, pieces: u32, step: Length) -> i128 {
        let (Some(cut), Some(clear)) = (self.cut(at, pieces, step), self.clear.get(at).copied()) else {
            return 0;
        };
        let rest = Clear { length: clear.length - cut.length, ..clear };
        let one = self.way(rest, Lay::Flat, 1, false, step);
        one.map_or(0, |_| rest.length.wide() * self.width(at).wide())
    }

    /// The area of a stretch.
    pub(super) fn area(&self, at: usize) -> i128 {
        self.clear.get(at).map_or(0, |clear| clear.length.wide() * self.width(at).wide())
    }

    fn width(&self, at: usize) -> Length {
        self.shelf.get(at).map_or(Length::ZERO, |stretch| stretch.width)
    }

    /// The length of new cloth of the full width that so many pieces take, as it is bought.
    pub(super) fn full_bolt(&mut self, pieces: u32) -> Length {
        if pieces == 0 || !can_be_cut(self.need) {
            return Length::ZERO;
        }
        let full = |length| Clear { width: self.need.job.cloth_width, length, remnant: false };
        let (clear, step) = match self.need.sold {
            Sold::Bolt { step } => (full(LONGEST), step),
            Sold::Pieces { length } => (full(length), length),
        };
        self.clear.push(clear);
        let last = self.clear.len() - 1;
        let length = if matches!(self.need.sold, Sold::Pieces { .. }) {
            let holds = self.most(last, pieces, clear.length, step);
            let count = if holds == 0 { 0 } else { pieces.div_ceil(holds) };
            clear.length * i64::from(count)
        } else {
            self.least(last, pieces, step).unwrap_or(Length::ZERO)
        };
        self.clear.pop();
        length
    }

    /// How a stretch may lie: as the quote lays it, then flat.
    fn lays(&self, clear: Clear, pieces: u32) -> [Option<Lay>; 2] {
        let in_pieces = matches!(self.need.sold, Sold::Pieces { .. });
        let flat_only = clear.remnant || in_pieces || self.need.lay == Lay::Flat;
        // a stack of more layers than pieces is not spread
        if flat_only || self.need.lay.layers() > pieces {
            [Some(Lay::Flat), None]
        } else {
            [Some(self.need.lay), Some(Lay::Flat)]
        }
    }

    /// The length of the shortest plan. One that is searched for counts as many steps as it
    /// has pieces, and is searched for once.
    fn shortest(&mut self, layer: &Job) -> Option<Length> {
        self.steps += 1;
        if !is_searched(layer) {
            return shortest(layer);
        }
        let key = (layer.cloth_width, layer.pieces);
        if let Some(known) = self.known.get(&key) {
            return *known;
        }
        self.steps += u64::from(layer.pieces);
        let found = shortest(layer);
        self.known.insert(key, found);
        found
    }

    /// One way to cut so many pieces; none where it takes more than there is.
    fn way(&mut self, clear: Clear, lay: Lay, pieces: u32, simple: bool, step: Length) -> Option<Cut> {
        let (width, lengths) = match lay {
            Lay::Flat => (clear.width, 1),
            Lay::FoldedAcross => (Length::from_um(clear.width.um() / 2), 1),
            Lay::FoldedAlong | Lay::Stacked(_) => (clear.width, i64::from(lay.layers())),
        };
        let outlines = pieces.div_ceil(lay.layers());
        let layer = Job { cloth_width: width, pieces: outlines, ..self.need.job };
        if width < layer.outline.width.min(layer.outline.drop) {
            return None;
        }
        let each = if simple { length(&layer) } else { self.shortest(&layer) }?;
        let along = layer.repeat.along;
        let new_off_bolt = !clear.remnant && matches!(self.need.sold, Sold::Bolt { .. });
        let used = if new_off_bolt { whole_repeats(each, along) * lengths } else { each };
        let needed = bought_length(used + along, self.need.shrink_along) + self.need.squaring;
        if needed > clear.length {
            return None;
        }
        let length = match self.need.sold {
            _ if clear.remnant => needed,
            Sold::Bolt { .. } => charged(needed, Length::ZERO, step).min(clear.length),
            Sold::Pieces { .. } => clear.length,
        };
        Some(Cut { length, lay, layer, simple })
    }
}

/// Whether the shortest plan takes a search, and is not plain rows.
fn is_searched(job: &Job) -> bool {
    let slanted = matches!(job.outline.shape, Shape::Triangle | Shape::Blunt | Shape::Rectangle);
    job.direction == Direction::FourWay || job.direction == Direction::TwoWay && !slanted
}

/// Whether every measure is one that the search is made for. What a quote gives always is.
fn can_be_cut(need: &Need) -> bool {
    let Job { outline, clearance, row_gap, repeat, .. } = need.job;
    let sides = [outline.width, outline.drop];
    let others =
        [outline.detail, outline.flat, clearance, row_gap, repeat.across, repeat.along, need.squaring];
    sides.iter().all(|side| (LEAST_SIDE..=WIDEST).contains(side))
        && others.iter().all(|other| (Length::ZERO..=WIDEST).contains(other))
        && need.job.cloth_width <= WIDEST
}
