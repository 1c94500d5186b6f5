//! Which dye lots, and what of each.
//!
//! One lot is tried after the other, then sets of two, three and so on, those first that
//! give most by themselves, and last all of them. A set is left out where even all that
//! its lots give by themselves is not enough. The first size at which a set gives
//! everything is the fewest lots; of such sets the one is taken with the least new cloth,
//! then the fewest stretches, then the least remnant cloth, then the one that came first.

use pennantry_measure::Length;

use super::bolts;
use super::gives::{Gives, WITHOUT_END};
use super::remnants::{Item, cover};

/// Sets of two lots or more that are tried, and lots for several needs.
pub(super) const MOST_SETS: usize = 200;

/// Steps after which no other set of two lots or more is tried.
const MOST_STEPS: u64 = 1_000_000;

/// What was chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Chosen {
    /// Remnants, and pieces of each.
    pub remnants: Vec<(usize, u32)>,
    /// Bolts or new pieces, and pieces of each.
    pub bolts: Vec<(usize, u32)>,
    /// The step in which bolts are cut.
    pub step: Length,
    /// Pieces for which there is no cloth.
    pub missing: u32,
    /// How much more than the charge the missing ones would take, where there is cloth.
    pub over: Option<Length>,
}

/// Stretches of some lots.
struct Set {
    remnants: Vec<Item>,
    bolts: Vec<usize>,
}

/// What a set gives.
struct Served {
    /// Pieces to come off remnants.
    of_remnants: u32,
    off: bolts::Off,
    missing: u32,
}

pub(super) fn choose(gives: &mut Gives) -> Chosen {
    let within = gives.charged();
    let steps = gives.cut_steps();
    let finest = steps.last().copied().unwrap_or(Length::from_um(1));
    let lots = by_lot(gives);
    let mut given = Vec::with_capacity(lots.len());
    for step in &steps {
        let singles: Vec<&Set> = lots.iter().collect();
        if let Some(chosen) = best_of(gives, &singles, within, *step, &mut given, u64::MAX) {
            return chosen;
        }
    }
    for sets in larger(&lots, &given, gives.wanted) {
        let sets: Vec<&Set> = sets.iter().collect();
        for step in &steps {
            if let Some(chosen) = best_of(gives, &sets, within, *step, &mut Vec::new(), MOST_STEPS) {
                return chosen;
            }
        }
    }
    let all = joined(lots.iter());
    for step in steps {
        if let Some(chosen) = best_of(gives, &[&all], within, step, &mut Vec::new(), u64::MAX) {
            return chosen;
        }
    }
    let served = serve(gives, &all, within, finest);
    let beyond = serve(gives, &all, WITHOUT_END, finest);
    let over = (beyond.missing == 0).then(|| beyond.off.new_cloth - within);
    if over.is_some_and(|over| over <= Length::ZERO) {
        // beyond its caps the search may find more with more room
        return detailed(gives, &all, beyond, finest);
    }
    Chosen { over, ..detailed(gives, &all, served, finest) }
}

/// The stretches of each lot that give a piece, lots in the order in which they come.
fn by_lot(gives: &mut Gives) -> Vec<Set> {
    let mut lots: Vec<(usize, Set)> = Vec::new();
    let any = Length::from_um(i64::MAX);
    let shelf = gives.shelf;
    for (at, stretch) in shelf.iter().enumerate() {
        let most = if stretch.remnant { gives.wanted } else { gives.wanted.min(1) };
        let most = gives.most(at, most, any, Length::from_um(1));
        if most == 0 {
            continue;
        }
        let place = lots.iter().position(|(lot, _)| *lot == stretch.lot).unwrap_or(lots.len());
        if place == lots.len() {
            lots.push((stretch.lot, Set { remnants: Vec::new(), bolts: Vec::new() }));
        }
        let Some((_, set)) = lots.get_mut(place) else { continue };
        if stretch.remnant {
            set.remnants.push(Item { at, most, weight: gives.area(at) });
        } else {
            set.bolts.push(at);
        }
    }
    lots.into_iter().map(|(_, set)| set).collect()
}

/// All remnants, and as little new cloth as they leave to be cut; then as few pieces of
/// remnants as that cloth leaves to be cut.
fn serve(gives: &mut Gives, set: &Set, within: Length, step: Length) -> Served {
    let wanted = gives.wanted;
    let of_remnants = set.remnants.iter().fold(0_u32, |sum, item| sum.saturating_add(item.most)).min(wanted);
    let rest = wanted - of_remnants;
    let off = bolts::off(gives, &set.bolts, rest, within, step);
    let room = off.cuts.iter().fold(0_u32, |sum, (_, count)| sum.saturating_add(*count));
    let missing = rest - off.given;
    Served { of_remnants: wanted.saturating_sub(room).min(of_remnants), off, missing }
}

fn detailed(gives: &mut Gives, set: &Set, served: Served, step: Length) -> Chosen {
    let chosen = cover(&set.remnants, served.of_remnants, &mut gives.steps);
    let remnants = counts(gives, &chosen, served.of_remnants, step);
    // what a remnant gives beyond its share need not come off a bolt
    let of_remnants = remnants.iter().fold(0_u32, |sum, (_, count)| sum.saturating_add(*count));
    let mut left = (gives.wanted - served.missing).saturating_sub(of_remnants);
    let mut bolts = served.off.cuts;
    for (_, count) in &mut bolts {
        *count = left.min(*count);
        left -= *count;
    }
    bolts.retain(|(_, count)| *count > 0);
    Chosen { remnants, bolts, step, missing: served.missing, over: None }
}

/// How many pieces to cut of each chosen remnant: as many as it gives. But where fewer are
/// wanted, and it makes the rest of one large enough to be cut into again, that one is cut
/// short: the one that so keeps most, of equal ones the first. What the others then give
/// beyond all that is wanted stays on the last ones.
fn counts(gives: &mut Gives, chosen: &[Item], wanted: u32, step: Length) -> Vec<(usize, u32)> {
    let total = chosen.iter().fold(0_u32, |sum, item| sum.saturating_add(item.most));
    let excess = total.saturating_sub(wanted);
    let mut short = None;
    let mut most_kept = 0;
    for item in chosen.iter().filter(|item| excess > 0 && item.most > excess) {
        let kept = gives.keeps(item.at, item.most - excess, step);
        if kept > most_kept {
            (short, most_kept) = (Some(item.at), kept);
        }
    }
    let mut all = Vec::with_capacity(chosen.len());
    for item in chosen {
        let mut count = item.most;
        if short == Some(item.at) {
            // as many as the shorter length gives
            let length = gives.cut(item.at, count - excess, step).map_or(Length::ZERO, |cut| cut.length);
            count = gives.most(item.at, count, length, step).max(count - excess);
        }
        all.push((item.at, count));
    }
    // never more than are wanted in all: the last ones give less
    let over = all.iter().map(|(_, count)| *count).fold(0_u32, u32::saturating_add);
    let mut over = over.saturating_sub(gives.wanted);
    for (_, count) in all.iter_mut().rev() {
        let less = over.min(count.saturating_sub(1));
        *count -= less;
        over -= less;
    }
    all
}

/// The best among sets that give everything; none where none does. Notes in `given` how
/// many pieces each of them gives.
fn best_of(
    gives: &mut Gives,
    sets: &[&Set],
    within: Length,
    step: Length,
    given: &mut Vec<u32>,
    most_steps: u64,
) -> Option<Chosen> {
    given.clear();
    let mut complete: Vec<(&Set, Served)> = Vec::new();
    for set in sets {
        if gives.steps > most_steps {
            break;
        }
        let served = serve(gives, set, within, step);
        given.push(gives.wanted - served.missing);
        if served.missing == 0 {
            complete.push((set, served));
        }
    }
    let least = complete.iter().map(|(_, served)| served.off.new_cloth).min()?;
    let mut best: Option<((usize, i128), Chosen)> = None;
    for (set, served) in complete.into_iter().filter(|(_, served)| served.off.new_cloth == least) {
        let chosen = detailed(gives, set, served, step);
        let area = chosen.remnants.iter().map(|(at, _)| gives.area(*at)).sum::<i128>();
        let key = (chosen.remnants.len() + chosen.bolts.len(), area);
        if best.as_ref().is_none_or(|(before, _)| key < *before) {
            best = Some((key, chosen));
        }
    }
    best.map(|(_, chosen)| chosen)
}

/// Sets of two lots or more, by how many they are, as many as are tried.
fn larger(lots: &[Set], given: &[u32], wanted: u32) -> Vec<Vec<Set>> {
    let mut order: Vec<(u32, &Set)> = given.iter().copied().zip(lots).collect();
    // stable: of equal ones the first stays first
    order.sort_by_key(|(given, _)| std::cmp::Reverse(*given));
    let mut sizes = Vec::new();
    let mut left = MOST_SETS;
    for size in 2..order.len() {
        let most: u64 = order.iter().take(size).map(|(given, _)| u64::from(*given)).sum();
        if most < u64::from(wanted) {
            continue;
        }
        let mut sets = Vec::new();
        let mut places: Option<Vec<usize>> = Some((0..size).collect());
        while let Some(now) = places.filter(|_| left > 0) {
            let of = now.iter().filter_map(|place| order.get(*place)).map(|(_, set)| *set);
            sets.push(joined(of));
            left -= 1;
            places = next(now, order.len());
        }
        sizes.push(sets);
        if left == 0 {
            break;
        }
    }
    sizes
}

/// The next choice of as many places among so many, in the order of a word list.
fn next(mut places: Vec<usize>, of: usize) -> Option<Vec<usize>> {
    let size = places.len();
    let movable = (0..size).rev().find(|at| places.get(*at).is_some_and(|place| *place < of - size + at))?;
    let first = places.get(movable)? + 1;
    for (place, value) in places.iter_mut().skip(movable).zip(first..) {
        *place = value;
    }
    Some(places)
}

/// Several sets as one, in the order of the shelf.
fn joined<'a>(sets: impl Iterator<Item = &'a Set>) -> Set {
    let mut all = Set { remnants: Vec::new(), bolts: Vec::new() };
    for set in sets {
        all.remnants.extend(&set.remnants);
        all.bolts.extend(&set.bolts);
    }
    all.remnants.sort_by_key(|item| item.at);
    all.bolts.sort_unstable();
    all
}
