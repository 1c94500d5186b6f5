//! Cloth that is bought in pieces of one length, such as fat quarters.
//!
//! Nothing crosses from one bought piece to the next. One of them *holds* the most
//! pieces whose plan is no longer than it is once washed, less one repeat where a repeat
//! is kept, because a piece may start anywhere in the print. Whoever cut it has squared
//! it, so no cloth is spent on that; its size is the real one, measured, never the word
//! it is sold under. `⌈pieces / holds⌉` are bought, laid flat one after the other, and
//! the last one is cut as far as it is needed.
//!
//! Worked: a piece of 18 by 22 in holds six triangles of 9 by 11 in, three to a row;
//! 24 of them take four pieces. On one-way cloth a piece holds four.

use pennantry_measure::{Length, bounds};

use super::Bought;
use super::lay::{Supply, Taken};
use super::wash::washed;
use crate::cutting::{Job, shortest};

impl Supply<'_> {
    /// The length of a bought piece that can be used, along the grain.
    pub(super) fn usable_length(&self, bought: Length) -> Length {
        washed(bought, self.fabric.shrink_along) - self.repeat.along
    }

    pub(super) fn in_pieces(&self, length: Length, pieces: u32) -> Option<Taken> {
        let holds = holds(&self.flat, self.usable_length(length));
        let wanted = self.wanted(pieces);
        let full = wanted.checked_div(holds)?;
        let rest = wanted.checked_rem(holds)?;
        let layer = Job { pieces: wanted.min(holds), ..self.flat };
        let each = shortest(&layer)?;
        let last = if rest == 0 { Length::ZERO } else { shortest(&Job { pieces: rest, ..self.flat })? };
        let count = full.saturating_add(u32::from(rest > 0));
        Some(Taken {
            spares: wanted.saturating_sub(pieces),
            outlines: wanted,
            layers: count,
            layer,
            each,
            used: each * i64::from(full) + last,
            charged: length * i64::from(count),
            bought: Some(Bought { count, holds }),
        })
    }
}

/// The most pieces that a length of one layer holds, as many as one order can take at
/// most. More pieces never take less, so doubling and then halving finds it.
pub(super) fn holds(job: &Job, length: Length) -> u32 {
    let fits = |pieces| shortest(&Job { pieces, ..*job }).is_some_and(|used| used <= length);
    let most = bounds::PIECES.most;
    let (mut fitting, mut beyond) = (0, 1);
    while beyond <= most && fits(beyond) {
        fitting = beyond;
        beyond *= 2;
    }
    beyond = beyond.min(most + 1);
    while beyond - fitting > 1 {
        let middle = u32::midpoint(fitting, beyond);
        if fits(middle) {
            fitting = middle;
        } else {
            beyond = middle;
        }
    }
    fitting
}
