//! The covering search: which bands hold the pieces in the least length.
//!
//! **Rows.** Plain rows and facing pairs follow each other as often as they like. With
//! `nᵢ` pieces in one of them and `lᵢ` its length, the least length for `n` pieces is
//!
//! `best(n) = min over i of best(max(0, n − nᵢ)) + lᵢ + g`, `best(0) = 0`,
//!
//! less the last gap. One kind alone is `⌈n / nᵢ⌉ (lᵢ + g)`. With more kinds the table is
//! exact and need not be long: let `b` be the kind with the least length a piece. Among
//! any `n_b` bands of other kinds some hold a multiple of `n_b` together (two of the sums
//! of the first one, two, three … leave the same remainder), and as many `b` hold as much
//! in no more length. So fewer than `n_b` others are needed, and beyond `n_b` times the
//! largest count all further pieces lie in `b`.
//!
//! **Blocks.** Where pieces may lie on their side, up to two blocks of [`turns`] stand
//! before and behind the rows. The first may have any size, the second, which fills what
//! the first leaves, at most [`SECOND`] pieces. All of them are tried, so the result is
//! exact within that family.
//!
//! Of equal lengths the one with fewer kinds of bands wins, plain rows before all others.

use super::rows::{Cut, MAKERS, Unit, plain as plain_row};
use super::turns::{self, Block};
use crate::shop::Direction;

/// Pieces beyond which a block is never the second one, so that the work does not grow
/// with the square of the pieces. A judgement: the second block fills what rows and the
/// first one leave over, which is a few rows.
const SECOND: i64 = 128;

/// Longer than any plan, and far from the end of the type.
const NEVER: i64 = i64::MAX >> 12;

/// What a plan is made of.
#[derive(Debug, Clone)]
pub(super) struct Choice {
    /// Length of cloth it covers, in micrometres.
    pub used: i64,
    /// Rows, each with how often it is laid.
    pub rows: Vec<(Unit, u32)>,
    /// Blocks before and behind the rows.
    pub blocks: [Option<Block>; 2],
    /// Ways tried.
    pub tried: u64,
}

/// Plain rows only; none where a piece is wider than the cloth.
pub(super) fn plain(cut: &Cut) -> Option<Choice> {
    let mut units = Vec::with_capacity(1);
    plain_row(cut, &mut units);
    let unit = *units.first()?;
    let times = cut.pieces.div_ceil(unit.count);
    let used = i64::from(times) * (unit.length + cut.gap) - if times > 0 { cut.gap } else { 0 };
    Some(Choice { used, rows: vec![(unit, times)], blocks: [None; 2], tried: 0 })
}

/// The shortest plan; none where nothing fits.
pub(super) fn search(cut: &Cut) -> Option<Choice> {
    let turned = cut.direction == Direction::FourWay && cut.drop <= cut.cloth;
    if !cut.has_choice() || cut.pieces == 0 && cut.per_row > 0 {
        return plain(cut);
    }
    if cut.per_row == 0 && !turned {
        return None;
    }
    let wanted = i64::from(cut.pieces);
    let rows = Rows::new(cut, wanted);
    let mut found = Found { key: key(rows.cost(wanted), 1), blocks: [None; 2] };
    let mut tried = rows.tried;
    if turned && wanted > 0 {
        tried += with_blocks(cut, &rows, &mut found);
    }
    let held: i64 = found.blocks.iter().flatten().map(Block::count).sum();
    let used = (found.key >> TIE_BITS) - if wanted > 0 { cut.gap } else { 0 };
    Some(Choice { used, rows: rows.taken(wanted - held), blocks: found.blocks, tried })
}

/// Bits of a key that stand for the bands.
const TIE_BITS: u32 = 8;
/// What rows, columns alone, and columns with rows beside count in a tie.
const TIES: [i64; 3] = [1, 2, 3];

/// Lengths in order; equal ones by what they are made of.
fn key(cost: i64, tie: i64) -> i64 {
    (cost << TIE_BITS) | tie
}

fn tie(block: &Block) -> i64 {
    let [_, columns, beside] = TIES;
    if block.rows > 0 { beside } else { columns }
}

/// The best plan so far, the gap behind it in its length.
struct Found {
    key: i64,
    blocks: [Option<Block>; 2],
}

impl Found {
    fn take(&mut self, key: i64, blocks: [Option<Block>; 2]) {
        if key < self.key {
            *self = Found { key, blocks };
        }
    }
}

/// Tries every block before, and one behind, the rows. Gives back how many were tried.
fn with_blocks(cut: &Cut, rows: &Rows, found: &mut Found) -> u64 {
    let wanted = i64::from(cut.pieces);
    let near = wanted.min(SECOND);
    let [row_tie, ..] = TIES;
    let rest_key = |pieces: i64| if pieces > 0 { key(rows.cost(pieces), row_tie) } else { 0 };
    let block_key = |block: &Block| key(block.length + cut.gap, tie(block));

    // the shortest block that holds so many pieces and no more of them
    let places = usize::try_from(near).unwrap_or(0) + 1;
    let mut shortest: Vec<Option<Block>> = vec![None; places];
    let mut tried = turns::visit(cut, near, |block| {
        let place = usize::try_from(block.count().min(near)).ok().and_then(|at| shortest.get_mut(at));
        if let Some(place) =
            place.filter(|place| place.is_none_or(|kept| block_key(block) < block_key(&kept)))
        {
            *place = Some(*block);
        }
        true
    });
    // those that are shorter than every larger one, with their keys, the largest first
    let mut worth: Vec<(i64, i64, Block)> = Vec::with_capacity(places);
    for block in shortest.into_iter().rev().flatten() {
        if worth.last().is_none_or(|(_, _, larger)| block.length < larger.length) {
            worth.push((block.count(), block_key(&block), block));
        }
    }
    // rows or nothing behind so many pieces, and a block behind them
    let behind: Vec<i64> = (0..=near).map(rest_key).collect();
    // two blocks without rows between keep the clearance of sides
    let extra = key((cut.clearance - cut.gap).max(0), 0);
    let mut second: Vec<(i64, Option<Block>)> = Vec::with_capacity(places);
    second.push((key(NEVER, 0), None));
    for pieces in 1..=near {
        let mut best = (key(NEVER, 0), None);
        for (count, own, block) in &worth {
            let rest = usize::try_from(pieces - count).unwrap_or(0);
            let behind = if rest > 0 { behind.get(rest).copied().unwrap_or(0) } else { extra };
            if own + behind < best.0 {
                best = (own + behind, Some(*block));
            }
        }
        second.push(best);
    }
    tried += u64::try_from(worth.len() * places).unwrap_or(0);
    tried += turns::visit(cut, wanted, |block| {
        let own = block_key(block);
        if own >= found.key {
            return false;
        }
        let rest = wanted - block.count();
        found.take(own + rest_key(rest), [Some(*block), None]);
        let place = usize::try_from(rest).ok().filter(|rest| *rest > 0).and_then(|rest| second.get(rest));
        if let Some((behind, last)) = place {
            found.take(own + behind, [Some(*block), *last]);
        }
        true
    });
    tried
}

/// The least length of rows alone, for any number of pieces up to those wanted.
struct Rows {
    units: Vec<Unit>,
    gap: i64,
    /// The kind with the least length a piece, and where the table ends for it.
    bulk: Option<(Unit, i64)>,
    /// Length with the gaps behind, and the kind to lay first, for each number of
    /// pieces. Empty for one kind alone.
    table: Vec<(i64, usize)>,
    tried: u64,
}

impl Rows {
    fn new(cut: &Cut, wanted: i64) -> Rows {
        let mut units = Vec::with_capacity(MAKERS.len() + 1);
        for make in MAKERS {
            make(cut, &mut units);
        }
        let gap = cut.gap;
        let cost = |unit: &Unit| unit.length + gap;
        let lesser =
            |a: &&Unit, b: &&Unit| (cost(a) * i64::from(b.count)).cmp(&(cost(b) * i64::from(a.count)));
        let best = units.iter().min_by(lesser).copied();
        let largest = units.iter().map(|unit| i64::from(unit.count)).max().unwrap_or(0);
        let bulk = best.map(|unit| (unit, i64::from(unit.count) * largest));
        let mut table = Vec::new();
        let mut tried = 0;
        if let (Some((_, end)), true) = (bulk, units.len() > 1) {
            let places = usize::try_from(wanted.min(end)).unwrap_or(0) + 1;
            table.reserve_exact(places);
            table.push((0, 0));
            for pieces in 1..places {
                let mut best = (NEVER, 0);
                for (at, unit) in units.iter().enumerate() {
                    let rest = pieces.saturating_sub(usize::try_from(unit.count).unwrap_or(pieces));
                    let behind = table.get(rest).map_or(NEVER, |(cost, _)| *cost);
                    if behind + cost(unit) < best.0 {
                        best = (behind + cost(unit), at);
                    }
                }
                table.push(best);
            }
            tried = u64::try_from(places * units.len()).unwrap_or(0);
        }
        Rows { units, gap, bulk, table, tried }
    }

    /// How many of the kind with the least length a piece come before the table's rest.
    fn split(&self, pieces: i64) -> (i64, usize) {
        let Some((unit, end)) = self.bulk else { return (0, 0) };
        let count = i64::from(unit.count);
        let last = if self.table.is_empty() { 0 } else { end };
        let times = if pieces > last { (pieces - last + count - 1) / count } else { 0 };
        (times, usize::try_from(pieces - times * count).unwrap_or(0))
    }

    /// The length of so many pieces in rows, with the gap behind each.
    fn cost(&self, pieces: i64) -> i64 {
        let Some((unit, _)) = self.bulk else { return if pieces > 0 { NEVER } else { 0 } };
        let (times, rest) = self.split(pieces);
        let rest = self.table.get(rest).map_or(0, |(cost, _)| *cost);
        times * (unit.length + self.gap) + rest
    }

    /// The rows for so many pieces.
    fn taken(&self, pieces: i64) -> Vec<(Unit, u32)> {
        let mut taken: Vec<(Unit, u32)> = self.units.iter().map(|unit| (*unit, 0)).collect();
        if pieces <= 0 {
            return taken;
        }
        let (times, mut rest) = self.split(pieces);
        if let Some((unit, _)) = self.bulk {
            let own =
                taken.iter_mut().find(|(kind, _)| kind.count == unit.count && kind.length == unit.length);
            if let Some((_, laid)) = own {
                *laid = u32::try_from(times).unwrap_or(u32::MAX);
            }
        }
        while rest > 0 {
            let at = self.table.get(rest).map(|(_, at)| *at);
            let Some((unit, laid)) = at.and_then(|at| taken.get_mut(at)) else { break };
            *laid += 1;
            rest = rest.saturating_sub(usize::try_from(unit.count).unwrap_or(rest));
        }
        taken
    }
}
