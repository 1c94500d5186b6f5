//! Marks for the bench, each rounded by itself from its exact place.

use pennantry_measure::{Length, Rounding, bounds, divide};

use super::Mark;
use super::formulas::length;
use super::frame::{Frame, Setting};
use crate::shop::Grain;

/// The marks of a string.
pub(super) struct Marked {
    pub all: Vec<Mark>,
    pub first: Mark,
    pub last: Mark,
    pub steps: u64,
}

/// Marks a string on its binding.
///
/// The middle of the flags is the middle of the binding. A left edge lies at
/// `−F/2 + i · pitch` from it and a right edge one width further; from the left cut end
/// it is half the cut more.
pub(super) fn mark(frame: &Frame, setting: Setting, binding_cut: Length) -> Marked {
    let ruler = Ruler::new(frame, setting, binding_cut);
    let last = i128::from(setting.count) - 1;
    let (first_mark, last_mark) = (ruler.mark(0), ruler.mark(last));
    if setting.count > bounds::MARKS_LISTED {
        return Marked { all: Vec::new(), first: first_mark, last: last_mark, steps: 2 };
    }
    let all = (0..=last).map(|place| ruler.mark(place)).collect();
    Marked { all, first: first_mark, last: last_mark, steps: setting.count.into() }
}

/// Places along the binding, as numerators over one denominator.
struct Ruler {
    /// What a numerator is over, for whole grains.
    denominator: i128,
    /// Left edge of the first pennant.
    start: i128,
    pitch: i128,
    width: i128,
    /// Half of the cut.
    middle: i128,
    /// Half micrometres of a grain: a sixteenth of an inch is 3 175.
    halves: i128,
}

impl Ruler {
    fn new(frame: &Frame, setting: Setting, binding_cut: Length) -> Ruler {
        let gaps = (i128::from(setting.count) - 1).max(1);
        let halves = match frame.shop.bench.grain {
            Grain::Millimetre => 2_000,
            Grain::SixteenthInch => 3_175,
        };
        Ruler {
            denominator: halves * gaps * frame.scale,
            start: -frame.top_flags(setting) * gaps,
            pitch: 2 * (setting.flags - frame.width),
            width: 2 * gaps * (frame.width + frame.widening),
            middle: binding_cut.wide() * gaps * frame.scale,
            halves,
        }
    }

    fn mark(&self, place: i128) -> Mark {
        let left = self.start + place * self.pitch;
        let right = left + self.width;
        Mark {
            left: self.rounded(left),
            right: self.rounded(right),
            left_from_end: self.rounded(self.middle + left),
            right_from_end: self.rounded(self.middle + right),
        }
    }

    /// To the nearest grain, a half away from nought, and that to the nearest micrometre.
    fn rounded(&self, numerator: i128) -> Length {
        let halves = divide(numerator, self.denominator, Rounding::HalfUp) * self.halves;
        // half a micrometre goes away from nought, too
        length(halves.midpoint(halves.signum()))
    }
}
