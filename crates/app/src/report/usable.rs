//! What of the free cloth an order can use.
//!
//! Free metres count a strip as they count the full width. What is ordered comes in the full
//! width and reorder points are of it, so what they are held against is reckoned in it too:
//!
//! ```text
//! usable = free - Σ free of narrow pieces + Σ free of a narrow piece · its width / usable width
//! ```
//!
//! a narrow piece being one of less than the catalogue's usable width; one that is narrower than
//! the least from which the shop cuts any pennant ([`Least`](super::Least)) counts as nothing.
//! Each piece is rounded down to the millimetre. Without a width in the catalogue free and usable
//! are the same.
//!
//! Example: 4.00 m in the full width of 1.10 m, a strip of 0.55 m by 1.00 m and one of 0.05 m by
//! 2.00 m are 7.00 m free and 4.50 m usable.

use pennantry_ledger::rules::Amount;
use pennantry_ledger::stand::Standing;
use pennantry_measure::{Length, Rounding, divide};

use super::FabricTerms;

/// Narrow pieces of a fabric, and what they come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Narrow {
    /// How many of them have something free.
    pub pieces: usize,
    /// What is free of them.
    pub free: Amount,
    /// What of that is left out in reckoning in full width.
    pub lost: Amount,
}

/// Narrow pieces on the shelf.
pub(super) fn narrow(standing: &Standing, terms: Option<&FabricTerms>) -> Narrow {
    let mut narrow = Narrow::default();
    let Some(full) = terms.and_then(|terms| terms.width).filter(|width| *width > Length::ZERO) else {
        return narrow;
    };
    let least = terms.and_then(|terms| terms.least).map_or(Length::ZERO, |least| least.width);
    let pieces = standing.lots.iter().flat_map(|lot| &lot.pieces);
    for piece in pieces.filter(|piece| piece.width < full && piece.free.is_some()) {
        let wide = if piece.width < least { Length::ZERO } else { piece.width };
        let counts = divide(i128::from(piece.free.0) * wide.wide(), full.wide() * 1_000, Rounding::Down);
        let counts = Amount(i64::try_from(counts).unwrap_or(0).saturating_mul(1_000));
        narrow.pieces += 1;
        narrow.free += piece.free;
        narrow.lost += piece.free - counts.min(piece.free);
    }
    // whatever pieces say, no more is lost than is free
    narrow.lost = narrow.lost.min(standing.free.or_none());
    narrow
}
