//! Which cloth on the shelf an order is cut from.
//!
//! A quote charges for a plan on new cloth of the full width. When the order is promised,
//! the shop looks at what lies there: remnants of odd sizes, and bolts of several dye
//! lots with something promised or flawed in them. This module says what to cut where.
//! It knows nothing of how stock is kept: it is given clear [`Stretch`]es, with nothing
//! promised in them and no flaw, and gives back what to [`Take`] off each.
//!
//! # What a stretch gives
//!
//! A stretch `w` wide and `l` long, as it lies on the shelf, is planned by the search of
//! [`cutting`](crate::cutting) on its own width, which is first washed, and on which up to
//! one repeat is lost where a print is centred. Of `n` pieces with a plan `u` long it takes
//!
//! | stretch | lay | length cut off | rounding |
//! |---|---|---|---|
//! | remnant | flat | `(u + repeat) / (1 − loss) + squaring` | up |
//! | bolt | flat, or as the quote lays it, with `m` lengths | `(m ⌈u⌉ + repeat) / (1 − loss) + squaring`, up to a whole step, but not beyond the stretch | up |
//! | new bought piece, such as a fat quarter | flat | all of it, if `(u + repeat) / (1 − loss)` fits | |
//!
//! with `⌈u⌉` in whole repeats. A remnant is used to the last micrometre, a bolt is cut in
//! the steps in which the cloth is charged. Of two ways to cut a bolt the one that takes
//! less is taken; of equal ones the lay of the quote. Plain rows stay, as in a quote, where
//! nothing is gained by anything else. A stretch holds the most pieces whose shortest plan
//! takes no more than its length.
//!
//! # Which stretches
//!
//! In this order:
//! 1. nothing is missing;
//! 2. the fewest dye lots, for lots side by side do not match;
//! 3. the least new cloth, and never more than the quote charges;
//! 4. the fewest stretches cut into;
//! 5. the least remnant cloth cut into, by area, so that the larger remnants stay whole;
//! 6. those that stand first in the list.
//!
//! So all remnants of a lot come before its bolts, but one that saves no step of new cloth
//! stays where it is. Pieces off bolts come off one bolt where one can give them all.
//! Where whole steps off several bolts come to more than is charged, bolts are cut to the
//! micrometre. Where the shelf does not give all pieces within what is charged, the answer
//! is the most pieces, with what is [`missing`](ShelfPlan::missing), how much of a full
//! bolt that would take, and whether the shelf gives it [`over`](ShelfPlan::over) the charge.
//!
//! A bolt as wide as the quote reckoned, with as much clear length as is charged, always
//! gives all: the plan of the quote is one of its ways. So nothing is missing while such a
//! bolt is there, and one dye lot does.
//!
//! # How far it looks
//!
//! Every answer is capped by steps, never by time. Within these caps the choice is exact
//! for points 1 to 3 where pieces off bolts come off one bolt, and for 4 and 5 among remnants
//! that are cut as full as they go, but for one, which is the one that so keeps most.
//!
//! | search | exact up to | beyond |
//! |---|---|---|
//! | remnants of a set of lots | `remnants · pieces` of 200 000 | the largest first, the least that does last |
//! | several bolts | 64 bolts, 2 000 pieces, a million sums | the same |
//! | sets of two lots or more | 200 sets and a million steps, those that give most first | all lots |
//!
//! More stock never makes more pieces missing while the search over bolts is exact and no
//! cut is dearer by the gap between rows than by its squaring.
//!
//! # Worked example
//!
//! 27 triangles 190 by 210, two-way, no clearance, on cloth of 1 100 without squaring, in
//! steps of 10: ten to a row, so the quote charges three rows, 630. On the shelf lie a
//! remnant 450 long and a bolt. The remnant holds `⌊450 / 210⌋ = 2` rows, 20 pieces, and
//! 420 are cut off. The other 7 take one row of the bolt, 210. That row has room for 10, so
//! 17 off the remnant would do; but those take two rows too, and nothing more is kept.
//!
//! ```
//! use pennantry_calc::cutting::Job;
//! use pennantry_calc::outline::Outline;
//! use pennantry_calc::shelf::{Need, Stretch, plan};
//! use pennantry_calc::shop::{Direction, Lay, Repeat, Sold};
//! use pennantry_measure::{Length, Percent};
//! let mm = Length::from_mm;
//! let need = Need {
//!     job: Job {
//!         cloth_width: mm(1_100),
//!         direction: Direction::TwoWay,
//!         outline: Outline::triangle(mm(190), mm(210)),
//!         clearance: mm(0),
//!         row_gap: mm(0),
//!         repeat: Repeat::default(),
//!         pieces: 27,
//!     },
//!     lay: Lay::Flat,
//!     charged: mm(630),
//!     sold: Sold::Bolt { step: mm(10) },
//!     squaring: mm(0),
//!     start: mm(0),
//!     shrink_across: Percent::from_milli(0),
//!     shrink_along: Percent::from_milli(0),
//! };
//! let stretch = |piece, remnant, length| Stretch { piece, lot: 7, remnant, width: mm(1_100), length };
//! let shelf = [stretch(1, false, mm(20_000)), stretch(2, true, mm(450))];
//! let found = plan(&need, &shelf)?;
//! assert_eq!((found.missing, found.lots, found.new_cloth), (0, 1, mm(210)));
//! let takes: Vec<_> = found.takes.iter().map(|take| (take.stretch, take.pieces, take.length)).collect();
//! assert_eq!(takes, [(1, 20, mm(420)), (0, 7, mm(210))]);
//! # Ok::<(), pennantry_calc::cutting::PlanError>(())
//! ```
//!
//! The order of these wishes, and the figures in the table of caps, are the project's own;
//! remnants first, and one dye lot on one string, are common practice.

mod bolts;
mod choose;
mod gives;
mod lengths;
mod remnants;
#[cfg(test)]
mod tests;
mod useful;

use pennantry_measure::{Length, Percent};

use crate::cutting::{ClothUse, Job, Plan, PlanError, best, plan as simplest, spares, washed};
use crate::shop::{Lay, Shop, Sold};
use gives::Gives;

pub use lengths::{RunTake, RunsPlan, lengths};
pub use useful::{LEAST_HELD, MOST_COUNTED, Useful, useful};

/// A clear stretch of cloth on the shelf: nothing promised in it, no flaw. One bolt may
/// give several.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// The caller's number of the bolt, the remnant or the bought piece.
    pub piece: usize,
    /// The caller's number of the dye lot.
    pub lot: usize,
    /// Whether it is a remnant, and so no new cloth.
    pub remnant: bool,
    /// Usable width, before it is washed.
    pub width: Length,
    /// Length, before it is washed.
    pub length: Length,
}

/// What is to be cut from one fabric.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Need {
    /// One flat layer of the full width, as it is when it is cut; its pieces are all that
    /// are wanted, the shop's share of spares among them.
    pub job: Job,
    /// How the quote lays the cloth.
    pub lay: Lay,
    /// What the quote charges: the most new cloth that may be taken.
    pub charged: Length,
    /// How the cloth is sold. Off a bolt, in which step; a new piece is taken whole.
    pub sold: Sold,
    /// Cloth spent on squaring the end of each length; nought for cloth bought in pieces.
    pub squaring: Length,
    /// Width that is lost to find the middle of a print.
    pub start: Length,
    /// What the width loses in the wash.
    pub shrink_across: Percent,
    /// What the length loses in the wash.
    pub shrink_along: Percent,
}

/// What to cut off the shelf for a need.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShelfPlan {
    /// What to cut: off remnants first, then off new cloth, each in the order of the shelf.
    pub takes: Vec<Take>,
    /// How many dye lots that is.
    pub lots: usize,
    /// What is cut off bolts, and new pieces that are opened, in length.
    pub new_cloth: Length,
    /// What the quote charges.
    pub charged: Length,
    /// Pieces for which there is no cloth, or none within what is charged.
    pub missing: u32,
    /// The length of a full bolt that those would take, as it is bought; nought where a full
    /// bolt is too narrow for one.
    pub short: Length,
    /// Where the shelf would give what is missing, but in more new cloth than is charged:
    /// how much more.
    pub over: Option<Length>,
    /// Plans reckoned and sums compared: the same for the same question, always.
    pub steps: u64,
}

/// What to cut off one stretch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Take {
    /// Its place in the list of stretches.
    pub stretch: usize,
    /// Length to cut off, as it lies on the shelf.
    pub length: Length,
    /// Pieces that it gives. A lay of several layers may give a few more than are wanted.
    pub pieces: u32,
    /// Whether that is all of the stretch.
    pub whole: bool,
    /// How the cloth lies.
    pub lay: Lay,
    /// What is planned in one layer, as it is when it is cut.
    pub job: Job,
    /// The plan of one layer.
    pub plan: Plan,
}

impl Need {
    /// What a quote needs of a fabric; none where the shop has no such fabric.
    ///
    /// The pieces are those needed and the shop's share of spares. What a fold or a stack
    /// gives beyond that is no part of the need: it comes of how the cloth lay.
    pub fn new(shop: &Shop, used: &ClothUse) -> Option<Need> {
        let fabric = shop.fabrics.get(used.fabric)?;
        // letters and web do not keep a repeat, and so nothing is lost on its start
        let start = if fabric.centred { used.job.repeat.across } else { Length::ZERO };
        let pieces = used.pieces.saturating_add(spares(used.pieces, shop.cloth.spares));
        let cloth_width = washed(fabric.usable_width, fabric.shrink_across) - start;
        Some(Need {
            job: Job { cloth_width, pieces, ..used.job },
            lay: used.lay,
            charged: used.charged,
            sold: fabric.sold,
            squaring: match fabric.sold {
                Sold::Bolt { .. } => shop.cloth.squaring,
                Sold::Pieces { .. } => Length::ZERO,
            },
            start,
            shrink_across: fabric.shrink_across,
            shrink_along: fabric.shrink_along,
        })
    }
}

/// Which stretches a need is cut from: see the rules of this module.
///
/// # Errors
/// A plan that does not stand up to [`validate`](crate::cutting::validate): a fault of the
/// program.
pub fn plan(need: &Need, shelf: &[Stretch]) -> Result<ShelfPlan, PlanError> {
    let mut gives = Gives::new(need, shelf);
    let chosen = choose::choose(&mut gives);
    let mut takes = Vec::with_capacity(chosen.remnants.len() + chosen.bolts.len());
    let mut lots = Vec::new();
    let (mut missing, mut new_cloth) = (chosen.missing, Length::ZERO);
    for (at, pieces) in chosen.remnants.iter().chain(&chosen.bolts) {
        let (Some(stretch), Some(cut)) = (shelf.get(*at), gives.cut(*at, *pieces, chosen.step)) else {
            // never: what was chosen can be cut
            missing = missing.saturating_add(*pieces);
            continue;
        };
        let plan = if cut.simple { simplest(&cut.layer)? } else { best(&cut.layer)? };
        gives.steps += plan.steps;
        if !stretch.remnant {
            new_cloth += cut.length;
        }
        if !lots.contains(&stretch.lot) {
            lots.push(stretch.lot);
        }
        takes.push(Take {
            stretch: *at,
            length: cut.length,
            pieces: cut.layer.pieces.saturating_mul(cut.lay.layers()),
            whole: cut.length == stretch.length,
            lay: cut.lay,
            job: cut.layer,
            plan,
        });
    }
    Ok(ShelfPlan {
        takes,
        lots: lots.len(),
        new_cloth,
        charged: need.charged,
        missing,
        short: gives.full_bolt(missing),
        over: chosen.over,
        steps: gives.steps,
    })
}

/// Several needs of one fabric, such as pennants and letters, in the order in which they
/// are given: each from what those before it leave. All in one dye lot where one does, in
/// the one that takes the least new cloth, then the fewest cuts; otherwise each for itself.
///
/// # Errors
/// As [`plan`].
pub fn plans(needs: &[Need], shelf: &[Stretch]) -> Result<Vec<ShelfPlan>, PlanError> {
    let apart = in_turn(needs, shelf)?;
    if needs.len() < 2 || lots_of(&apart, shelf).len() < 2 {
        return Ok(apart);
    }
    let mut lots: Vec<usize> = Vec::new();
    for stretch in shelf.iter().filter(|stretch| stretch.length > Length::ZERO) {
        if !lots.contains(&stretch.lot) {
            lots.push(stretch.lot);
        }
    }
    let mut found: Option<((Length, usize), Vec<ShelfPlan>)> = None;
    for lot in lots.into_iter().take(choose::MOST_SETS) {
        // places stay as they are
        let cleared = shelf.iter().map(|stretch| {
            let length = if stretch.lot == lot { stretch.length } else { Length::ZERO };
            Stretch { length, ..*stretch }
        });
        let cleared: Vec<Stretch> = cleared.collect();
        let all = in_turn(needs, &cleared)?;
        let key =
            (all.iter().map(|plan| plan.new_cloth).sum(), all.iter().map(|plan| plan.takes.len()).sum());
        let better = found.as_ref().is_none_or(|(before, _)| key < *before);
        if all.iter().all(|plan| plan.missing == 0) && better {
            found = Some((key, all));
        }
    }
    Ok(found.map_or(apart, |(_, all)| all))
}

fn in_turn(needs: &[Need], shelf: &[Stretch]) -> Result<Vec<ShelfPlan>, PlanError> {
    let mut rest = shelf.to_vec();
    let mut all = Vec::with_capacity(needs.len());
    for need in needs {
        let found = plan(need, &rest)?;
        rest = left(&rest, &found);
        all.push(found);
    }
    Ok(all)
}

fn lots_of(plans: &[ShelfPlan], shelf: &[Stretch]) -> Vec<usize> {
    let takes = plans.iter().flat_map(|plan| &plan.takes);
    let mut lots: Vec<usize> = takes.filter_map(|take| Some(shelf.get(take.stretch)?.lot)).collect();
    lots.sort_unstable();
    lots.dedup();
    lots
}

/// The shelf once a plan is cut: the same stretches in the same places, each shorter by
/// what was cut off it.
///
/// ```
/// use pennantry_calc::shelf::{ShelfPlan, Stretch, left};
/// use pennantry_measure::Length;
/// let shelf = [Stretch { piece: 0, lot: 0, remnant: true, width: Length::ZERO, length: Length::from_mm(5) }];
/// let nothing = ShelfPlan {
///     takes: Vec::new(),
///     lots: 0,
///     new_cloth: Length::ZERO,
///     charged: Length::ZERO,
///     missing: 0,
///     short: Length::ZERO,
///     over: None,
///     steps: 0,
/// };
/// assert_eq!(left(&shelf, &nothing), shelf);
/// ```
pub fn left(shelf: &[Stretch], plan: &ShelfPlan) -> Vec<Stretch> {
    let mut rest = shelf.to_vec();
    for take in &plan.takes {
        if let Some(stretch) = rest.get_mut(take.stretch) {
            stretch.length = Length::from_um(stretch.length.um().saturating_sub(take.length.um()));
        }
    }
    rest
}
