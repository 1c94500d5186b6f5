//! The history as a chain of buckets with and without use.

use super::Distribution;
use super::random::SplitMix64;
use crate::supply::{Error, number};

/// Most buckets of a history.
const MOST_BUCKETS: usize = 4_000;

/// How a bucket follows the one before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Model {
    /// Zero or not by a two-state chain.
    Markov,
    /// Each like any other.
    Independent,
}

/// Use in equal buckets, oldest first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct History {
    /// How many buckets there are.
    buckets: u32,
    /// The uses above nought, in the order of time.
    sizes: Vec<i64>,
    /// The same in the order of size, each once, with how often it was.
    ladder: Vec<(i64, u32)>,
    /// How often which state followed which: `moves[from][to]`, 0 without use, 1 with.
    moves: [[u32; 2]; 2],
    /// The state of the last bucket.
    last: usize,
}

/// Odds of a use in the next bucket, `(with, of)`, after a bucket without and with one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Chain {
    /// After a bucket without use, and after one with.
    pub odds: [(u32, u32); 2],
    /// The state it starts in: 0 without use, 1 with.
    pub from: usize,
}

impl Chain {
    /// The share of buckets with use after `state`.
    pub(super) fn share(&self, state: usize) -> f64 {
        self.odds.get(state).map_or(0.0, |(with, of)| f64::from(*with) / f64::from(*of))
    }
}

/// Shares of sums so far, by cell, of chains that stand at a bucket without use and with.
#[derive(Debug, Clone)]
pub(super) struct Sums([Vec<f64>; 2]);

impl Sums {
    pub(super) fn totals(&self) -> impl Iterator<Item = f64> {
        let [without, with] = &self.0;
        without.iter().zip(with).map(|(a, b)| a + b)
    }
}

impl History {
    /// A history of 2 to 4 000 buckets, each from 0 to 10¹² units. A use that was taken back
    /// belongs to the bucket of the use, so nothing is below nought.
    pub fn new(uses: &[i64]) -> Result<Self, Error> {
        if !(2..=MOST_BUCKETS).contains(&uses.len()) {
            let value = i64::try_from(uses.len()).unwrap_or(i64::MAX);
            return Err(Error::Whole { what: "number of buckets", value, allowed: "2 to 4000" });
        }
        for used in uses {
            number::amount("use of a bucket", *used, 0, "0 to 10^12")?;
        }
        let sizes: Vec<i64> = uses.iter().copied().filter(|used| *used > 0).collect();
        let mut sorted = sizes.clone();
        sorted.sort_unstable();
        let ladder = sorted
            .chunk_by(|a, b| a == b)
            .filter_map(|same| Some((*same.first()?, u32::try_from(same.len()).ok()?)))
            .collect();
        let mut moves = [[0; 2]; 2];
        for pair in uses.windows(2) {
            if let [before, after] = *pair
                && let Some(cell) = moves.get_mut(state(before)).and_then(|row| row.get_mut(state(after)))
            {
                *cell += 1;
            }
        }
        let last = uses.last().map_or(0, |used| state(*used));
        Ok(Self { buckets: u32::try_from(uses.len()).unwrap_or(1), sizes, ladder, moves, last })
    }

    /// How often which state followed which: `[from][to]`, 0 without use, 1 with.
    pub fn moves(&self) -> [[u32; 2]; 2] {
        self.moves
    }

    /// The odds of a model.
    pub fn chain(&self, model: Model) -> Chain {
        let any = (self.demands(), self.buckets);
        let odds = self.moves.map(|[without, with]| match (model, without + with) {
            (Model::Independent, _) | (Model::Markov, 0) => any,
            (Model::Markov, of) => (with, of),
        });
        Chain { odds, from: self.last }
    }

    fn demands(&self) -> u32 {
        u32::try_from(self.sizes.len()).unwrap_or(0)
    }

    /// The greatest length that divides every size; 1 where there are none.
    fn grid(&self) -> i64 {
        self.ladder.iter().fold(0, |so_far, (size, _)| divisor(so_far, *size)).max(1)
    }

    /// How many cells the sums of `length` buckets take, where the convolution stays within
    /// `most` steps.
    pub(super) fn cells(&self, length: u32, most: u64) -> Option<usize> {
        let largest = self.ladder.last().map_or(0, |(size, _)| *size / self.grid());
        let cells = u64::try_from(largest).ok()?.checked_mul(u64::from(length))?.checked_add(1)?;
        let sizes = u64::try_from(self.ladder.len()).ok()? + 2;
        let steps = cells.checked_mul(sizes)?.checked_mul(u64::from(length.max(1)))?;
        if steps > most { None } else { usize::try_from(cells).ok() }
    }

    pub(super) fn start(chain: &Chain, cells: usize) -> Sums {
        let mut sums = Sums([vec![0.0; cells], vec![0.0; cells]]);
        if let Some(nothing) = sums.0.get_mut(chain.from).and_then(|cells| cells.first_mut()) {
            *nothing = 1.0;
        }
        sums
    }

    /// One bucket more.
    pub(super) fn step(&self, chain: &Chain, sums: &Sums) -> Sums {
        let [without, with] = &sums.0;
        let (after_none, after_use) = (chain.share(0), chain.share(1));
        let either = |none: f64, used: f64| {
            without.iter().zip(with).map(|(a, b)| a * none + b * used).collect::<Vec<f64>>()
        };
        let still = either(1.0 - after_none, 1.0 - after_use);
        let used = either(after_none, after_use);
        let mut moved = vec![0.0; used.len()];
        let grid = self.grid();
        for (size, times) in &self.ladder {
            let share = f64::from(*times) / f64::from(self.demands().max(1));
            let cells = usize::try_from(*size / grid).unwrap_or(usize::MAX);
            for (to, from) in moved.iter_mut().skip(cells).zip(&used) {
                *to += share * from;
            }
        }
        Sums([still, moved])
    }

    /// Cells as amounts.
    pub(super) fn spread(&self, cells: &[f64]) -> Result<Distribution, Error> {
        let grid = self.grid();
        let amounts = (0_i64..).map(|cell| cell * grid);
        Distribution::exact(amounts.zip(cells.iter().copied()).collect())
    }

    /// The use of `length` buckets, drawn.
    pub(super) fn draw(&self, chain: &Chain, length: u32, dice: &mut SplitMix64) -> i64 {
        let mut at = chain.from;
        let mut sum = 0;
        for _ in 0..length {
            let (with, of) = chain.odds.get(at).copied().unwrap_or((0, 1));
            at = usize::from(dice.below(of) < with);
            if at == 1 {
                let which = usize::try_from(dice.below(self.demands())).unwrap_or(0);
                sum += self.sizes.get(which).copied().unwrap_or(0);
            }
        }
        sum
    }
}

fn state(used: i64) -> usize {
    usize::from(used > 0)
}

/// Euclid's.
fn divisor(mut a: i64, mut b: i64) -> i64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}
