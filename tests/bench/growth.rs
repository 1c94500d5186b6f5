//! How the work grows with the length of a string and with the size of the catalogue.

use std::time::Instant;

use pennantryd::catalogue;

use crate::load::own_time;
use crate::shared::median;
use crate::work::{Bench, shop};

/// Lengths in millimetres.
const LENGTHS: [u32; 8] = [100, 500, 2_000, 10_000, 50_000, 200_000, 1_000_000, 2_000_000];
/// Fabrics beside those of the demo shop.
/// The most that a catalogue may have are 500.
const FABRICS: [u32; 4] = [0, 85, 235, 485];
const ROUNDS: usize = 5;

/// What one size takes.
#[derive(Debug)]
pub struct Size {
    /// The length in millimetres, or the fabrics.
    pub of: u32,
    /// Microseconds of the calculation.
    pub calculate: f64,
    /// Microseconds of reading, converting and writing, in JSON.
    pub convert: f64,
    /// Bytes of the answer.
    pub bytes: usize,
    /// Milliseconds of reading the catalogue.
    pub read: f64,
}

impl Size {
    fn measure(of: u32, bench: &Bench, read: f64) -> Result<Size, String> {
        let mut rounds = [const { Vec::new() }; 2];
        for _ in 0..ROUNDS {
            rounds[0].push(own_time(|| bench.calculate())?);
            rounds[1].push(own_time(|| bench.convert())?);
        }
        let [calculate, convert] = rounds.map(median);
        Ok(Size { of, calculate, convert, bytes: bench.reply().len(), read })
    }
}

/// By length.
pub fn lengths() -> Result<Vec<Size>, String> {
    let of = |mm| {
        let bench = Bench::new(mm).ok_or_else(|| format!("{mm} mm have no answer"))?;
        Size::measure(mm, &bench, f64::NAN)
    };
    LENGTHS.into_iter().map(of).collect()
}

/// By the size of the catalogue, ten metres each.
pub fn catalogues() -> Result<Vec<Size>, String> {
    let of = |more| {
        let text = shop(more);
        let mut reads = Vec::new();
        for _ in 0..ROUNDS {
            let begun = Instant::now();
            catalogue::open(&text).map_err(|mistakes| format!("{mistakes:?}"))?;
            reads.push(begun.elapsed().as_secs_f64() * 1e3);
        }
        let bench = Bench::of(10_000, &text).ok_or("the question has no answer")?;
        let fabrics = u32::try_from(bench.fabrics()).unwrap_or(u32::MAX);
        Size::measure(fabrics, &bench, median(reads))
    };
    FABRICS.into_iter().map(of).collect()
}
