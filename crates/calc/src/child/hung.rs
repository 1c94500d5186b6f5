//! How a string hangs, for whoever may reach it.

use pennantry_measure::{Length, Rounding, bounds, ceil_sqrt, divide};

const MILLIMETRE: i128 = 1_000;

/// A string on its fixings.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hung {
    /// Height of the fixings, if told.
    pub(super) height: Option<Length>,
    /// String between the first fixing and the last.
    pub(super) string: Length,
    /// Level distance between them, if told and not longer than the string.
    pub(super) level: Option<Length>,
    /// How many fixings: two where it was not told.
    pub(super) fixings: u32,
    /// The whole string, which hangs down where one fixing holds it.
    pub(super) overall: Length,
    /// Drop of the pennants below the binding.
    pub(super) drop: Length,
    /// How far loose ends and loops hang down.
    pub(super) loose: Length,
}

impl Hung {
    /// Spans between so many fixings; a single fixing leaves the string as one.
    fn spans(fixings: u32) -> i128 {
        i128::from(fixings.saturating_sub(1).max(1))
    }

    /// String of one span, up to the micrometre.
    pub(super) fn span_string(&self, fixings: u32) -> Length {
        let string = if fixings < 2 { self.overall } else { self.string };
        um(divide(string.wide(), Hung::spans(fixings), Rounding::Up))
    }

    /// String and level distance of one span together, up to the micrometre: the loop that it
    /// closes with the wall. A distance that is not known counts as the string's own length.
    pub(super) fn span_loop(&self, fixings: u32) -> Length {
        let both = match self.level.filter(|_| fixings >= 2) {
            Some(level) => self.string.wide() + level.wide(),
            None => 2 * if fixings < 2 { self.overall.wide() } else { self.string.wide() },
        };
        um(divide(both, Hung::spans(fixings), Rounding::Up))
    }

    /// How far a span comes down where it is pulled at its middle, up to the millimetre. A
    /// distance that is not known counts as nought; from a single fixing the whole string
    /// hangs down.
    ///
    /// The root is that of the whole string over the whole distance: equal spans have the
    /// same shape.
    pub(super) fn v_drop(&self, fixings: u32) -> Length {
        if fixings < 2 {
            return self.overall;
        }
        let (string, level) = (self.string.wide(), self.level.unwrap_or(Length::ZERO).wide());
        let square = u128::try_from(string * string - level * level).unwrap_or(0);
        let root = i128::try_from(ceil_sqrt(square)).unwrap_or(i128::MAX);
        um(divide(root, 2 * Hung::spans(fixings) * MILLIMETRE, Rounding::Up) * MILLIMETRE)
    }

    /// How far it comes down below so many fixings.
    pub(super) fn depth(&self, fixings: u32) -> Length {
        self.loose.max(self.v_drop(fixings) + self.drop)
    }

    /// The lowest point on so many fixings, down to the millimetre; never below nought.
    pub(super) fn lowest_on(&self, fixings: u32) -> Option<Length> {
        let left = (self.height? - self.depth(fixings)).max(Length::ZERO);
        Some(um(left.wide() / MILLIMETRE * MILLIMETRE))
    }

    /// The lowest point.
    pub(super) fn lowest(&self) -> Option<Length> {
        self.lowest_on(self.fixings)
    }

    /// The least height of the fixings at which the lowest point is at a height, where that
    /// is no more than may be told.
    pub(super) fn least_height(&self, at: Length) -> Option<Length> {
        Some(at + self.depth(self.fixings)).filter(|height| bounds::FIXING_HEIGHT.holds(*height))
    }

    /// The fewest equally spaced fixings for which something holds, more than there are.
    pub(super) fn fewest(&self, holds: impl Fn(&Hung, u32) -> bool) -> Option<u32> {
        (self.fixings.saturating_add(1).max(2)..=bounds::FIXINGS.most).find(|fixings| holds(self, *fixings))
    }

    /// The fewest equally spaced fixings that bring the lowest point up to a height.
    pub(super) fn fewest_for(&self, at: Length) -> Option<u32> {
        self.fewest(|hung, fixings| hung.lowest_on(fixings).is_some_and(|lowest| lowest >= at))
    }
}

fn um(um: i128) -> Length {
    Length::from_um(i64::try_from(um).unwrap_or(i64::MAX))
}
