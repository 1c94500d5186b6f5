//! So many pieces off new cloth: off one bolt where one can give them, else off several.
//!
//! **One.** The bolt that takes the least; of equal ones the one whose cut has room for the
//! most, then the first.
//!
//! **Several.** Bolt `i` is worth cutting at its levels, the counts `mᵢⱼ` above which it
//! takes another length `lᵢⱼ`. The least of (length, bolts) for `n` pieces from bolt `i` on is
//!
//! `best(i, n) = min(best(i + 1, n), min over j of best(i + 1, max(0, n − mᵢⱼ)) + (lᵢⱼ, 1))`.
//!
//! Where not even the most pieces come within the most length, the answer is the largest
//! `n` that does. Beyond the caps the bolts that give most come first, each as full as the
//! length left allows, and the last piece is cut where it takes least.

use pennantry_measure::Length;

use super::gives::Gives;

/// Caps of the exact search.
const MOST_BOLTS: usize = 64;
const MOST_PIECES: u32 = 2_000;
const MOST_SUMS: usize = 1_000_000;

/// Cuts off new cloth.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Off {
    /// Stretch and pieces, as many as its cut has room for up to all that are wanted.
    pub cuts: Vec<(usize, u32)>,
    /// What they take.
    pub new_cloth: Length,
    /// Of the pieces asked for, how many they give.
    pub given: u32,
}

/// So many pieces off these bolts within a length.
pub(super) fn off(gives: &mut Gives, bolts: &[usize], pieces: u32, within: Length, step: Length) -> Off {
    if pieces == 0 {
        return Off::default();
    }
    if let Some(one) = off_one(gives, bolts, pieces, within, step) {
        return one;
    }
    let mut cuts = off_several(gives, bolts, pieces, within, step);
    cuts.sort_unstable();
    let given: u32 = cuts.iter().map(|(_, count)| count).sum();
    let mut new_cloth = Length::ZERO;
    let mut room = gives.wanted.saturating_sub(given);
    for (at, count) in &mut cuts {
        let length = gives.least(*at, *count, step).unwrap_or(Length::ZERO);
        new_cloth += length;
        let most = gives.most(*at, *count + room, length, step);
        room -= most.saturating_sub(*count);
        *count = most;
    }
    Off { cuts, new_cloth, given: given.min(pieces) }
}

fn off_one(gives: &mut Gives, bolts: &[usize], pieces: u32, within: Length, step: Length) -> Option<Off> {
    let mut found: Option<(Length, u32, usize)> = None;
    for at in bolts {
        let Some(length) = gives.least(*at, pieces, step).filter(|length| *length <= within) else {
            continue;
        };
        if found.is_some_and(|(before, _, _)| length > before) {
            continue;
        }
        let most = gives.most(*at, gives.wanted, length, step);
        if found.is_none_or(|(before, room, _)| length < before || most > room) {
            found = Some((length, most, *at));
        }
    }
    found.map(|(length, most, at)| Off { cuts: vec![(at, most)], new_cloth: length, given: pieces })
}

/// A count of pieces above which a bolt takes another length, and the length up to it.
type Level = (u32, Length);

fn off_several(
    gives: &mut Gives,
    bolts: &[usize],
    pieces: u32,
    within: Length,
    step: Length,
) -> Vec<(usize, u32)> {
    let full = bolts.iter().map(|at| (gives.most(*at, pieces, within, step), *at));
    let full: Vec<(u32, usize)> = full.filter(|(most, _)| *most > 0).collect();
    if full.len() > MOST_BOLTS || pieces > MOST_PIECES {
        return largest_first(gives, full, pieces, within, step);
    }
    let mut all: Vec<(usize, Vec<Level>)> = Vec::with_capacity(full.len());
    for (most, at) in &full {
        let mut levels = Vec::new();
        let mut count = 0;
        while count < *most {
            let Some(length) = gives.least(*at, count + 1, step) else { break };
            count = gives.most(*at, *most, length, step).max(count + 1);
            levels.push((count, length));
        }
        all.push((*at, levels));
    }
    let places = usize::try_from(pieces).unwrap_or(0) + 1;
    let sums = all.iter().map(|(_, levels)| levels.len() + 1).sum::<usize>() * places;
    if sums > MOST_SUMS {
        return largest_first(gives, full, pieces, within, step);
    }
    gives.steps += u64::try_from(sums).unwrap_or(u64::MAX);
    exactly(&all, places, within)
}

type Key = (Length, u32);
const NEVER: Key = (Length::from_um(i64::MAX), 0);

fn exactly(bolts: &[(usize, Vec<Level>)], places: usize, within: Length) -> Vec<(usize, u32)> {
    // row after row from the last bolt to the first; with each sum the pieces cut of the bolt
    let mut none = vec![(NEVER, 0); places];
    if let Some(first) = none.first_mut() {
        *first = ((Length::ZERO, 0), 0);
    }
    let mut rows: Vec<Vec<(Key, u32)>> = vec![none];
    for (_, levels) in bolts.iter().rev() {
        let Some(behind) = rows.last() else { break };
        let row = (0..places).map(|pieces| best_of(behind, levels, pieces)).collect();
        rows.push(row);
    }
    let first = rows.last().into_iter().flatten().enumerate();
    let mut left = first.filter(|(_, (key, _))| key.0 <= within).map(|(pieces, _)| pieces).max().unwrap_or(0);
    let mut cuts = Vec::new();
    for ((at, _), row) in bolts.iter().zip(rows.iter().rev()) {
        let count = row.get(left).map_or(0, |(_, count)| *count);
        if left > 0 && count > 0 {
            let taken = usize::try_from(count).unwrap_or(left).min(left);
            cuts.push((*at, u32::try_from(taken).unwrap_or(count)));
            left -= taken;
        }
    }
    cuts
}

/// The best with some of this bolt, or with none of it; of equal ones some of it.
fn best_of(behind: &[(Key, u32)], levels: &[Level], pieces: usize) -> (Key, u32) {
    let before = |pieces: usize| behind.get(pieces).map_or(NEVER, |(key, _)| *key);
    let mut best = (before(pieces), 0);
    for (count, length) in levels {
        let (rest, bolts) = before(pieces.saturating_sub(usize::try_from(*count).unwrap_or(usize::MAX)));
        if rest == NEVER.0 {
            continue;
        }
        let key = (rest + *length, bolts + 1);
        if key < best.0 || key == best.0 && best.1 == 0 {
            best = (key, *count);
        }
    }
    best
}

fn largest_first(
    gives: &mut Gives,
    mut full: Vec<(u32, usize)>,
    pieces: u32,
    within: Length,
    step: Length,
) -> Vec<(usize, u32)> {
    full.sort_by_key(|(most, at)| (std::cmp::Reverse(*most), *at));
    let (mut left, mut room) = (pieces, within);
    let mut cuts = Vec::new();
    for (place, (_, at)) in full.iter().enumerate() {
        let count = gives.most(*at, left, room, step);
        if count < left {
            if let Some(length) = gives.least(*at, count, step).filter(|_| count > 0) {
                room = room - length;
                left -= count;
                cuts.push((*at, count));
            }
            continue;
        }
        // any of those that are left may give the last pieces
        let mut last = (room, *at);
        for (_, other) in full.iter().skip(place) {
            if let Some(length) = gives.least(*other, left, step).filter(|length| *length < last.0) {
                last = (length, *other);
            }
        }
        cuts.push((last.1, left));
        break;
    }
    cuts
}
