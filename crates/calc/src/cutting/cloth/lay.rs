//! How a cloth lies when it is cut, and which way costs least.
//!
//! | lay | layers | pieces an outline gives | cloth |
//! |---|---|---|---|
//! | flat | 1 | 1 | the plan of all pieces |
//! | folded across, selvedge to selvedge | 2, both upright | 2 | the plan of half the pieces on half the width |
//! | folded along, end to end | 2, the lower one turned by half | 2 | twice the plan of half the pieces |
//! | stacked, `n` lengths | `n`, all upright | `n` | `n` times the plan of an `n`th of the pieces |
//!
//! Half the width is rounded down to the micrometre; half of the pieces, and an `n`th of
//! them, go up to the next whole outline, so a lay may give more pieces than were asked
//! for. Those are spares: fronts and backs that come off a fold come off in pairs.
//!
//! **What is left out.** End to end turns the lower layer upside down: not for one-way
//! cloth, and not where a repeat is kept. Selvedge to selvedge mirrors where the print
//! lies across the cloth: not where a repeat across is kept. A stack of more layers than
//! there are pieces is not spread. Where nothing is left, the cloth lies flat.
//!
//! **A print that is centred.** Where the print begins across the cloth is not known before
//! it is bought, so up to one repeat lies before the first middle: the plan has the usable
//! width less one repeat across. Along the cloth the repeat to find the start is there in
//! any case.
//!
//! **Which one.** `charged · price a metre + (outlines · time an outline + layers ·
//! time a layer) · wage`, in whole numbers of one fraction of a minor unit, so nothing
//! is rounded. A shop lists its lays with the simplest first. Each is held against the
//! best before it and is taken if it saves more than 1 % of that cost and more than
//! 50 mm of the cloth are worth (common practice, no source): nobody folds cloth for a
//! penny.
//!
//! **What is charged.** The length that all layers cover; in whole repeats and one
//! repeat more to find the start of the print, where a repeat is kept; what the wash
//! takes; what squaring the end takes, of the cloth as it is bought; up to the next step
//! in which the cloth is cut off. A stack is bought as one length, so its end is squared
//! once.
//!
//! Worked: 20 pieces of 190 by 210 on a two-way cloth of 1 400. Flat, 13 lie in a row:
//! two rows, 420 mm, 20 outlines. Folded across, 6 outlines lie in a row of 700: ten
//! outlines take two rows, 420 mm as well, and half the cutting.

use pennantry_measure::{Length, Percent};

use super::needs::Need;
use super::wash::{bought_length, washed, washed_repeat, whole_repeats};
use super::{Bought, Role};
use crate::cutting::{Job, charged, length, spares};
use crate::labour::time_of;
use crate::shop::{Allowance, Direction, Driver, Fabric, Lay, Method, Repeat, Shop, Sold};

/// A later lay has to save more than this share of the cost (common practice, no source).
pub(super) const WORTH_SHARE: Percent = Percent::from_milli(1_000);
/// And more than so much of the cloth is worth (common practice, no source).
pub(super) const WORTH_CLOTH: Length = Length::from_mm(50);

/// A fabric as it lies on the table, washed where it is washed, and what is cut from it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Supply<'a> {
    shop: &'a Shop,
    method: &'a Method,
    pub(super) fabric: &'a Fabric,
    /// One flat layer of the whole width; no pieces yet.
    pub(super) flat: Job,
    /// The repeat that is kept.
    pub(super) repeat: Repeat,
}

/// What a number of pieces takes of a cloth in one lay.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Taken {
    /// Pieces cut beyond those needed.
    pub spares: u32,
    pub outlines: u32,
    pub layers: u32,
    /// One layer; of cloth bought in pieces, one bought piece.
    pub layer: Job,
    /// What one layer covers.
    pub each: Length,
    /// What all layers cover.
    pub used: Length,
    /// As it is bought.
    pub charged: Length,
    pub bought: Option<Bought>,
}

impl<'a> Supply<'a> {
    pub(super) fn new(shop: &'a Shop, method: &'a Method, fabric: &'a Fabric, need: &Need) -> Supply<'a> {
        // letters and web do not show the same part of a print
        let repeat = match need.role {
            Role::Pennants => Repeat {
                across: washed_repeat(fabric.repeat.across, fabric.shrink_across),
                along: washed_repeat(fabric.repeat.along, fabric.shrink_along),
            },
            Role::Letters | Role::Web => Repeat::default(),
        };
        Supply { shop, method, fabric, flat: job(method, fabric, need, repeat), repeat }
    }

    /// The lay that costs least among those that the method has, and what it takes; none
    /// where not one piece fits.
    pub(super) fn choose(&self, role: Role, pieces: u32) -> Option<(Lay, Taken)> {
        let in_pieces = matches!(self.fabric.sold, Sold::Pieces { .. });
        let lays: &[Lay] = if in_pieces || role != Role::Pennants { &[] } else { &self.method.lays };
        let mut best: Option<(Lay, Taken, i128)> = None;
        for lay in lays.iter().copied().filter(|lay| self.can(*lay, pieces)) {
            let Some(taken) = self.take(lay, pieces) else { continue };
            let cost = self.cost(&taken);
            if best.as_ref().is_none_or(|(_, _, before)| self.is_worth(*before, cost)) {
                best = Some((lay, taken, cost));
            }
        }
        match best {
            Some((lay, taken, _)) => Some((lay, taken)),
            None => self.take(Lay::Flat, pieces).map(|taken| (Lay::Flat, taken)),
        }
    }

    /// What a number of pieces takes in a lay; none where not one fits.
    pub(super) fn take(&self, lay: Lay, pieces: u32) -> Option<Taken> {
        match self.fabric.sold {
            Sold::Bolt { step } => self.off_a_bolt(lay, pieces, step),
            Sold::Pieces { length } => self.in_pieces(length, pieces),
        }
    }

    /// Cloth charged for a number of pieces in the lay that is best for them; nothing for none.
    pub(super) fn charged(&self, role: Role, pieces: u32) -> Length {
        if pieces == 0 {
            Length::ZERO
        } else {
            self.choose(role, pieces).map_or(Length::ZERO, |(_, t)| t.charged)
        }
    }

    /// Pieces to cut: those needed and the shop's share of spares.
    pub(super) fn wanted(&self, pieces: u32) -> u32 {
        pieces.saturating_add(spares(pieces, self.shop.cloth.spares))
    }

    fn off_a_bolt(&self, lay: Lay, pieces: u32, step: Length) -> Option<Taken> {
        let layers = lay.layers();
        let (width, lengths) = match lay {
            Lay::Flat => (self.flat.cloth_width, 1),
            Lay::FoldedAcross => (Length::from_um(self.flat.cloth_width.um() / 2), 1),
            Lay::FoldedAlong | Lay::Stacked(_) => (self.flat.cloth_width, i64::from(layers)),
        };
        let outlines = self.wanted(pieces).div_ceil(layers);
        let layer = Job { cloth_width: width, pieces: outlines, ..self.flat };
        let each = length(&layer)?;
        let (used, along) = (each * lengths, self.repeat.along);
        let needed = whole_repeats(each, along) * lengths + along;
        let bought = bought_length(needed, self.fabric.shrink_along);
        Some(Taken {
            spares: outlines.saturating_mul(layers).saturating_sub(pieces),
            outlines,
            layers,
            layer,
            each,
            used,
            charged: charged(bought, self.shop.cloth.squaring, step),
            bought: None,
        })
    }

    fn can(&self, lay: Lay, pieces: u32) -> bool {
        let printed = self.repeat != Repeat::default();
        match lay {
            Lay::Flat => true,
            Lay::FoldedAcross => self.repeat.across == Length::ZERO,
            Lay::FoldedAlong => self.flat.direction != Direction::OneWay && !printed,
            Lay::Stacked(layers) => layers <= self.wanted(pieces).max(1),
        }
    }

    /// Cloth and cutting with its allowance, in the smallest fraction of a minor unit that
    /// holds both exactly: one in `60 000 · 10¹²` and the parts of the allowance.
    fn cost(&self, taken: &Taken) -> i128 {
        let time = |driver, count: u32| {
            let one = time_of(self.shop, self.method.construction, driver).milli_minutes();
            i128::from(one) * i128::from(count)
        };
        let milli = time(Driver::Outline, taken.outlines) + time(Driver::Layer, taken.layers);
        let (more, _) = self.allowance();
        self.worth(taken.charged) + more * milli * i128::from(self.shop.bench.wage.micro_minor()) * 1_000_000
    }

    /// What an allowance multiplies and divides work by.
    fn allowance(&self) -> (i128, i128) {
        let whole = i128::from(Percent::WHOLE.milli());
        match self.shop.bench.allowance {
            Allowance::OfWork(share) => (whole + i128::from(share.milli()), whole),
            Allowance::OfShift(share) => (whole, (whole - i128::from(share.milli())).max(1)),
        }
    }

    /// What a length of the cloth is worth, in the same fraction.
    fn worth(&self, length: Length) -> i128 {
        self.allowance().1 * length.wide() * i128::from(self.fabric.price.micro_minor()) * 60_000
    }

    /// Whether a later lay saves enough of the cost of an earlier one.
    fn is_worth(&self, before: i128, after: i128) -> bool {
        let (saved, whole) = (before - after, i128::from(Percent::WHOLE.milli()));
        saved * whole > before * i128::from(WORTH_SHARE.milli()) && saved > self.worth(WORTH_CLOTH)
    }
}

/// What is to be cut from one flat layer of a fabric; no pieces yet.
fn job(method: &Method, fabric: &Fabric, need: &Need, repeat: Repeat) -> Job {
    let pennants = need.role == Role::Pennants;
    // where the middle of a print falls across the cloth is not known before it is bought
    let start = if fabric.centred { repeat.across } else { Length::ZERO };
    Job {
        cloth_width: washed(fabric.usable_width, fabric.shrink_across) - start,
        direction: fabric.direction,
        outline: need.outline,
        clearance: if pennants { method.clearance } else { Length::ZERO },
        row_gap: if pennants { method.row_gap } else { Length::ZERO },
        pieces: 0,
        repeat,
    }
}
