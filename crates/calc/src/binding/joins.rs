//! Where the joins fall when pieces follow each other off the rolls, or strip after
//! strip, into string after string.
//!
//! A string is filled from its left cut end. Whatever is left of the last piece comes
//! first, where it brings a join to a good place; what does not is set aside. A piece is
//! cut shorter where that brings its join behind a pennant. Each join takes its loss off
//! the piece on its left.

use pennantry_measure::{Rounding, bounds, divide};

use super::JoinPlace;
use crate::layout::Layout;
use crate::outline::um;
use crate::shop::Join;

/// Joins beyond this many are refused, as pieces of cloth are.
pub(super) const MOST_JOINS: u32 = bounds::PIECES.most;

/// Strings to fill, in micrometres as they are sewn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Strings {
    /// Cut length of one.
    pub cut: i128,
    /// The first one's number.
    pub first: u32,
    /// How many.
    pub count: u32,
    /// Least piece.
    pub least: i128,
    /// Least distance of a join from the middle.
    pub off_middle: i128,
    /// The pennants of one.
    pub pennants: Pennants,
}

/// Where the pennants of a string sit, from its left cut end.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pennants {
    /// Middle of the first, in half micrometres.
    pub first: i128,
    /// Width at the top edge, in micrometres.
    pub width: i128,
    /// Pitch, in micrometres, as a fraction.
    pub pitch: (i128, i128),
    /// How many.
    pub count: u32,
}

/// What a run of pieces gave.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Run {
    /// Pieces of stock opened.
    pub opened: u32,
    /// Pieces that lie in strings.
    pub pieces: u32,
    /// Joins.
    pub joins: u32,
    /// Taken off the last piece of stock.
    pub last: i128,
    /// The first joins, up to [`bounds::MARKS_LISTED`].
    pub places: Vec<JoinPlace>,
    /// Joins that show.
    pub shows: Blemish,
    /// Joins that are near the middle.
    pub near: Blemish,
    /// Joins with a piece that is too short.
    pub short: Blemish,
    /// Joins placed and strings filled.
    pub steps: u64,
}

/// Joins that are not as they should be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Blemish {
    /// How many.
    pub count: u32,
    /// The first of them.
    pub first: Option<JoinPlace>,
}

impl Blemish {
    fn note(&mut self, place: JoinPlace) {
        self.count += 1;
        self.first.get_or_insert(place);
    }
}

/// Why strings cannot be filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unfilled {
    /// A join loses all of a piece.
    NothingLeft,
    /// It takes more joins than [`MOST_JOINS`].
    TooMany,
}

/// A place for a join, and the pennant that hides it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Spot {
    pub at: i128,
    pub behind: Option<u32>,
}

/// Both ends allowed.
type Range = (i128, i128);

impl Strings {
    pub(super) fn new(layout: &Layout, join: &Join, first: u32, count: u32) -> Strings {
        let left = layout.first.left_from_end.wide();
        Strings {
            cut: layout.binding_cut.wide(),
            first,
            count,
            least: join.least_piece.wide(),
            off_middle: join.off_middle.wide(),
            pennants: Pennants {
                first: 2 * left + layout.top_width.wide(),
                width: layout.top_width.wide(),
                pitch: (layout.pitch.numerator, layout.pitch.denominator),
                count: layout.count,
            },
        }
    }

    /// Fills all strings from pieces of one length, `loss` off at each join. Where a
    /// string is no longer than a piece there is nothing to place, and it takes no time.
    pub(super) fn fill(&self, stock: i128, loss: i128) -> Result<Run, Unfilled> {
        if self.count == 0 {
            return Ok(Run::default());
        }
        if self.cut > stock {
            return self.fill_each(stock, loss);
        }
        let per = divide(stock, self.cut.max(1), Rounding::Down).max(1);
        let opened = divide(self.count.into(), per, Rounding::Up);
        let in_last = i128::from(self.count) - (opened - 1) * per;
        Ok(Run {
            opened: u32::try_from(opened).unwrap_or(u32::MAX),
            pieces: self.count,
            last: in_last * self.cut,
            steps: 1,
            ..Run::default()
        })
    }

    /// The same string by string.
    pub(super) fn fill_each(&self, stock: i128, loss: i128) -> Result<Run, Unfilled> {
        if self.cut > stock && loss >= stock {
            return Err(Unfilled::NothingLeft);
        }
        let mut run = Run::default();
        let mut rest = 0;
        for string in self.first..self.first.saturating_add(self.count) {
            run.steps += 1;
            let mut from = Spot { at: 0, behind: None };
            if rest < self.cut {
                // what is left joins on where that is a good join, and is set aside where not
                let carried = if self.cut > stock { self.good(from, rest - loss) } else { None };
                if let Some(spot) = carried {
                    self.note(&mut run, string, from.at, spot)?;
                    from = spot;
                }
                run.opened += 1;
                rest = stock;
            }
            while self.cut - from.at > rest {
                let spot = self.spot(from, rest - loss);
                self.note(&mut run, string, from.at, spot)?;
                from = spot;
                run.opened += 1;
                rest = stock;
            }
            rest -= self.cut - from.at;
        }
        run.last = stock - rest;
        run.pieces = run.joins + self.count;
        Ok(run)
    }

    fn note(&self, run: &mut Run, string: u32, from: i128, spot: Spot) -> Result<(), Unfilled> {
        if run.joins == MOST_JOINS {
            return Err(Unfilled::TooMany);
        }
        run.joins += 1;
        run.steps += 1;
        let place = JoinPlace { string, at: um(spot.at), behind: spot.behind };
        if run.joins <= bounds::MARKS_LISTED {
            run.places.push(place);
        }
        if spot.behind.is_none() {
            run.shows.note(place);
        }
        if (2 * spot.at - self.cut).abs() < 2 * self.off_middle {
            run.near.note(place);
        }
        // the piece to the right ends at the next join, which looks left by itself
        if spot.at - from < self.least || self.cut - spot.at < self.least {
            run.short.note(place);
        }
        Ok(())
    }

    /// Where a piece that starts at a join and is so long is joined on: at a good place;
    /// where there is none, behind a pennant near the middle; where there is none, so that
    /// both pieces are long enough; else wherever it must.
    pub(super) fn spot(&self, from: Spot, piece: i128) -> Spot {
        if let Some(spot) = self.good(from, piece) {
            return spot;
        }
        let shown = |at: i128| Spot { at, behind: self.pennants.over(at, None).map(|(_, place)| place) };
        if let Some(kept) = self.kept(from, piece) {
            let off = self.off_middle(kept).into_iter().flatten().next();
            let hidden = self.pennants.hide([Some(kept), None], from.behind);
            return hidden.unwrap_or(shown(off.unwrap_or(kept).1));
        }
        let (low, high) = (from.at + 1, (from.at + piece).min(self.cut - 1));
        let any = Some((low, high)).filter(|range| range.0 <= range.1);
        self.pennants.hide([any, None], from.behind).unwrap_or(shown(high))
    }

    /// Behind a pennant that does not hide the join before, off the middle, both pieces long
    /// enough; as near that pennant's middle as can be, and of equally good places the one
    /// that cuts off least.
    pub(super) fn good(&self, from: Spot, piece: i128) -> Option<Spot> {
        let kept = self.kept(from, piece)?;
        self.pennants.hide(self.off_middle(kept), from.behind)
    }

    /// Places that leave a piece long enough on both sides.
    fn kept(&self, from: Spot, piece: i128) -> Option<Range> {
        let least = self.least.max(1);
        let (low, high) = (from.at + least, (from.at + piece).min(self.cut - least));
        Some((low, high)).filter(|range| range.0 <= range.1)
    }

    /// What of a range is far enough from the middle, right of it and left of it.
    fn off_middle(&self, (low, high): Range) -> [Option<Range>; 2] {
        let right = divide(self.cut + 2 * self.off_middle, 2, Rounding::Up);
        let left = (self.cut - 2 * self.off_middle).div_euclid(2);
        [(low.max(right), high), (low, high.min(left))].map(|range| Some(range).filter(|r| r.0 <= r.1))
    }
}

impl Pennants {
    /// The best place within two ranges, the one to the right first, behind a pennant
    /// after another one.
    fn hide(&self, ranges: [Option<Range>; 2], after: Option<u32>) -> Option<Spot> {
        let mut best: Option<(i128, Spot)> = None;
        for (low, high) in ranges.into_iter().flatten() {
            // its middle, where that can be had to the micrometre
            if let Some(place) = self.last_by(high).filter(|place| Some(*place) > after) {
                let at = self.middle(place).div_euclid(2);
                if at >= low {
                    return Some(Spot { at, behind: Some(place) });
                }
            }
            for at in [high, low] {
                let Some((off, place)) = self.over(at, after) else { continue };
                if best.is_none_or(|(least, _)| off < least) {
                    best = Some((off, Spot { at, behind: Some(place) }));
                }
            }
        }
        best.map(|(_, spot)| spot)
    }

    /// Of the pennants after another one, the one over a place whose middle is nearest, and
    /// how far it is off in half micrometres.
    fn over(&self, at: i128, after: Option<u32>) -> Option<(i128, u32)> {
        let left = self.last_by(at);
        let right = left.map_or(Some(0), |place| place.checked_add(1)).filter(|place| *place < self.count);
        let near = left.into_iter().chain(right).filter(|place| Some(*place) > after);
        let off = near.map(|place| ((2 * at - self.middle(place)).abs(), place)).min();
        off.filter(|(off, _)| *off <= self.width)
    }

    /// Middle of a pennant in half micrometres, down.
    fn middle(&self, place: u32) -> i128 {
        let (numerator, denominator) = self.pitch;
        self.first + (2 * i128::from(place) * numerator).div_euclid(denominator.max(1))
    }

    /// The last pennant whose middle, down to the micrometre, is not beyond a place.
    fn last_by(&self, at: i128) -> Option<u32> {
        let (numerator, denominator) = self.pitch;
        // middle < 2 at + 2, a whole number above what is rounded down
        let room = 2 * at + 2 - self.first;
        if room <= 0 || self.count == 0 {
            return None;
        }
        if numerator <= 0 {
            return Some(0);
        }
        let place = (room * denominator.max(1) - 1).div_euclid(2 * numerator);
        Some(u32::try_from(place).unwrap_or(u32::MAX).min(self.count - 1))
    }
}
