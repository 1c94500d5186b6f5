//! What has length and no shape: binding, cord, elastic.
//!
//! Each *run* is cut in one piece: the binding of one string, or a piece between two joins,
//! as long as [`binding`](crate::binding) says it is bought. Part rolls and offcuts are
//! remnants, and come before full rolls. In this order:
//! 1. the least length is missing;
//! 2. all of one dye lot, or of the fewest that give most;
//! 3. the least length off full rolls;
//! 4. the fewest rolls and offcuts cut into;
//! 5. the least offcut cut into, by its length; then those that stand first.
//!
//! New length is never more than what the runs add up to, and so than a quote charges.
//!
//! **Runs alike**, as the strings of one order are: a stretch gives `⌊length / run⌋`, and the
//! choice is exact, by the same table as that of remnants. **Runs of several lengths:** the
//! longest first, each off the shortest remnant that holds it, then off the shortest roll;
//! that is then bettered by trying all other ways, up to [`MOST_TRIED`] of them and
//! [`MOST_RUNS`] runs.
//!
//! ```
//! use pennantry_calc::shelf::{Stretch, lengths};
//! use pennantry_measure::Length;
//! let m = |m: i64| Length::from_mm(1_000 * m);
//! let roll = |piece, remnant, length| Stretch { piece, lot: 1, remnant, width: Length::ZERO, length };
//! // three strings of 6 m: two off the part roll of 13 m, one off the full roll; the 5 m
//! // give none
//! let shelf = [roll(0, false, m(25)), roll(1, true, m(5)), roll(2, true, m(13))];
//! let found = lengths(&[m(6), m(6), m(6)], &shelf);
//! let takes: Vec<_> = found.takes.iter().map(|take| (take.stretch, take.runs.len(), take.length)).collect();
//! assert_eq!(takes, [(2, 2, m(12)), (0, 1, m(6))]);
//! assert_eq!((found.new_length, found.missing.len()), (m(6), 0));
//! ```

use std::cmp::Reverse;

use pennantry_measure::{Length, Rounding, divide};

use super::Stretch;
use super::remnants::{Item, cover};

/// Ways tried for runs of several lengths.
pub const MOST_TRIED: u64 = 5_000;
/// Runs of several lengths for which other ways are tried.
pub const MOST_RUNS: usize = 60;

/// What runs are cut off.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunsPlan {
    /// What to cut: off remnants first, then off full rolls, each in the order of the shelf.
    pub takes: Vec<RunTake>,
    /// How many dye lots that is.
    pub lots: usize,
    /// Length off full rolls.
    pub new_length: Length,
    /// Places of the runs for which nothing is long enough any more.
    pub missing: Vec<usize>,
    /// What those add up to.
    pub short: Length,
    /// Ways tried and sums compared.
    pub steps: u64,
}

/// What to cut off one roll.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunTake {
    /// Its place in the list of stretches.
    pub stretch: usize,
    /// Length to cut off in all.
    pub length: Length,
    /// Places of the runs that it gives.
    pub runs: Vec<usize>,
    /// Whether that is all of it.
    pub whole: bool,
}

/// A run: its length, and its place in the list.
type Run = (Length, usize);
/// For each run where it comes from, in the order of the runs.
type Where = Vec<Option<usize>>;
/// What makes one way better than another: length missing, new length, rolls, offcut.
type Key = (Length, Length, usize, Length);

/// Which rolls the runs are cut off: see this module's rules. A run of no length needs
/// nothing. A width is not looked at.
pub fn lengths(runs: &[Length], rolls: &[Stretch]) -> RunsPlan {
    // so long that no sum of them overflows, and far longer than any cord
    let most = i64::try_from(runs.len().saturating_add(rolls.len())).map_or(0, |all| i64::MAX / (all + 1));
    let cut = |length: Length| length.min(Length::from_um(most));
    let clear = |roll: &Stretch| Stretch { length: cut(roll.length), ..*roll };
    let rolls: &[Stretch] = &rolls.iter().map(clear).collect::<Vec<_>>();
    let listed = runs.iter().map(|length| cut(*length)).zip(0..).filter(|(length, _)| *length > Length::ZERO);
    let mut order: Vec<Run> = listed.collect();
    order.sort_by_key(|(length, place)| (Reverse(*length), *place));
    let mut steps = 0;
    let mut lots: Vec<(usize, Vec<usize>)> = Vec::new();
    for (at, roll) in rolls.iter().enumerate().filter(|(_, roll)| roll.length > Length::ZERO) {
        match lots.iter_mut().find(|(lot, _)| *lot == roll.lot) {
            Some((_, places)) => places.push(at),
            None => lots.push((roll.lot, vec![at])),
        }
    }
    let mut singles: Vec<(Key, Where, Vec<usize>)> = Vec::with_capacity(lots.len());
    for (_, places) in lots {
        let (key, found) = serve(&order, rolls, &places, &mut steps);
        singles.push((key, found, places));
    }
    // stable: of equal ones the first stays first
    singles.sort_by_key(|(key, _, _)| *key);
    let (mut key, mut found) = match singles.first() {
        Some((key, found, _)) => (*key, found.clone()),
        None => (Key::default(), vec![None; order.len()]),
    };
    let mut places: Vec<usize> = singles.first().map_or(Vec::new(), |(_, _, places)| places.clone());
    for (_, _, more) in singles.iter().skip(1) {
        if key.0 == Length::ZERO {
            break;
        }
        places.extend(more);
        places.sort_unstable();
        let joined = serve(&order, rolls, &places, &mut steps);
        if joined.0.0 < key.0 {
            (key, found) = joined;
        }
    }
    told(&order, rolls, &found, steps)
}

fn serve(runs: &[Run], rolls: &[Stretch], places: &[usize], steps: &mut u64) -> (Key, Where) {
    let alike = runs.first().map(|first| first.0) == runs.last().map(|last| last.0);
    let found =
        if alike { all_alike(runs, rolls, places, steps) } else { fitted(runs, rolls, places, steps) };
    (key(runs, rolls, &found), found)
}

fn key(runs: &[Run], rolls: &[Stretch], found: &[Option<usize>]) -> Key {
    let mut touched = Vec::new();
    let mut key = Key::default();
    for ((length, _), at) in runs.iter().zip(found) {
        let Some((at, roll)) = at.and_then(|at| Some((at, rolls.get(at)?))) else {
            key.0 += *length;
            continue;
        };
        key.1 += if roll.remnant { Length::ZERO } else { *length };
        touched.push(at);
    }
    touched.sort_unstable();
    touched.dedup();
    let cut_into = touched.iter().filter_map(|at| rolls.get(*at)).filter(|roll| roll.remnant);
    (key.0, key.1, touched.len(), cut_into.map(|roll| roll.length).sum())
}

/// Runs of one length: remnants, then rolls, each as full as it goes.
fn all_alike(runs: &[Run], rolls: &[Stretch], places: &[usize], steps: &mut u64) -> Where {
    let length = runs.first().map_or(Length::from_um(1), |(length, _)| *length);
    let mut found = Vec::with_capacity(runs.len());
    for remnant in [true, false] {
        let mut items = Vec::new();
        for at in places {
            let Some(roll) = rolls.get(*at).filter(|roll| roll.remnant == remnant) else { continue };
            let most = divide(roll.length.wide(), length.wide(), Rounding::Down);
            let weight = if remnant { roll.length.wide() } else { 0 };
            items.push(Item { at: *at, most: u32::try_from(most).unwrap_or(u32::MAX), weight });
        }
        let left = u32::try_from(runs.len() - found.len()).unwrap_or(u32::MAX);
        for item in cover(&items, left, steps) {
            let count = usize::try_from(item.most).unwrap_or(usize::MAX).min(runs.len() - found.len());
            found.extend(std::iter::repeat_n(Some(item.at), count));
        }
    }
    found.resize(runs.len(), None);
    found
}

/// Runs of several lengths.
fn fitted(runs: &[Run], rolls: &[Stretch], places: &[usize], steps: &mut u64) -> Where {
    // the shortest first, remnants before full rolls
    let mut order: Vec<(usize, Length, bool)> =
        places.iter().filter_map(|at| rolls.get(*at).map(|roll| (*at, roll.length, roll.remnant))).collect();
    order.sort_by_key(|(at, length, remnant)| (!remnant, *length, *at));
    let mut room = order.clone();
    let mut first: Where = Vec::with_capacity(runs.len());
    for (length, _) in runs {
        let fitting = room.iter_mut().filter(|(_, left, _)| *left >= *length);
        let nearest = fitting.min_by_key(|(at, left, remnant)| (!*remnant, *left, *at));
        *steps += 1;
        first.push(nearest.map(|(at, left, _)| {
            *left = *left - *length;
            *at
        }));
    }
    if runs.len() > MOST_RUNS {
        return first;
    }
    let best = (key(runs, rolls, &first), first);
    let mut search = Search { runs, rolls, room: order, found: vec![None; runs.len()], best, tried: 0 };
    search.go_on(0, Length::ZERO, Length::ZERO);
    *steps += search.tried;
    search.best.1
}

/// Every way to cut runs of several lengths, the longest first.
struct Search<'a> {
    runs: &'a [Run],
    rolls: &'a [Stretch],
    /// Stretch, what is left of it, and whether it is a remnant.
    room: Vec<(usize, Length, bool)>,
    found: Where,
    best: (Key, Where),
    tried: u64,
}

impl Search<'_> {
    /// Places the run `at` and those behind it, with so much missing and new before them.
    fn go_on(&mut self, at: usize, missing: Length, new: Length) {
        // no way onward is better than the best
        if self.tried >= MOST_TRIED || (missing, new) > (self.best.0.0, self.best.0.1) {
            return;
        }
        self.tried += 1;
        let Some((length, _)) = self.runs.get(at).copied() else {
            let key = key(self.runs, self.rolls, &self.found);
            if key < self.best.0 {
                self.best = (key, self.found.clone());
            }
            return;
        };
        // a run like the one before it comes off the same stretch or a later one
        let alike =
            at.checked_sub(1).filter(|before| self.runs.get(*before).is_some_and(|run| run.0 == length));
        let before = alike.and_then(|before| self.found.get(before).copied());
        let from = match before {
            Some(Some(stretch)) => self.room.iter().position(|(other, _, _)| *other == stretch).unwrap_or(0),
            Some(None) => self.room.len(),
            None => 0,
        };
        for place in from..self.room.len() {
            let Some((stretch, left, remnant)) = self.room.get(place).copied() else { break };
            if left < length {
                continue;
            }
            self.set(at, place, Some(stretch), left - length);
            self.go_on(at + 1, missing, new + if remnant { Length::ZERO } else { length });
            self.set(at, place, None, left);
        }
        self.go_on(at + 1, missing + length, new);
    }

    fn set(&mut self, at: usize, place: usize, stretch: Option<usize>, left: Length) {
        if let (Some(found), Some(room)) = (self.found.get_mut(at), self.room.get_mut(place)) {
            *found = stretch;
            room.1 = left;
        }
    }
}

fn told(runs: &[Run], rolls: &[Stretch], found: &[Option<usize>], steps: u64) -> RunsPlan {
    let mut plan = RunsPlan {
        takes: Vec::new(),
        lots: 0,
        new_length: Length::ZERO,
        missing: Vec::new(),
        short: Length::ZERO,
        steps,
    };
    let mut lots: Vec<usize> = Vec::new();
    for ((length, run), at) in runs.iter().zip(found) {
        let Some((at, roll)) = at.and_then(|at| Some((at, rolls.get(at)?))) else {
            plan.missing.push(*run);
            plan.short += *length;
            continue;
        };
        lots.push(roll.lot);
        if !roll.remnant {
            plan.new_length += *length;
        }
        match plan.takes.iter_mut().find(|take| take.stretch == at) {
            Some(take) => {
                take.length += *length;
                take.runs.push(*run);
            }
            None => {
                plan.takes.push(RunTake { stretch: at, length: *length, runs: vec![*run], whole: false });
            }
        }
    }
    let order = |take: &RunTake| (rolls.get(take.stretch).is_none_or(|roll| !roll.remnant), take.stretch);
    plan.takes.sort_by_key(order);
    for take in &mut plan.takes {
        take.runs.sort_unstable();
        take.whole = rolls.get(take.stretch).is_some_and(|roll| roll.length == take.length);
    }
    plan.missing.sort_unstable();
    lots.sort_unstable();
    lots.dedup();
    plan.lots = lots.len();
    plan
}
