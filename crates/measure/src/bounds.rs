//! The one table of bounds: what may be asked at all, whatever the shop.
//!
//! The shop's own least and most, from its catalogue, lie within these.

use crate::Length;

/// A least and a most, both allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bound<T> {
    /// The least allowed.
    pub least: T,
    /// The most allowed.
    pub most: T,
}

impl<T: PartialOrd + Copy> Bound<T> {
    /// Whether a value lies within.
    pub fn holds(&self, value: T) -> bool {
        self.least <= value && value <= self.most
    }
}

const fn lengths(least_mm: i64, most_mm: i64) -> Bound<Length> {
    Bound { least: Length::from_mm(least_mm), most: Length::from_mm(most_mm) }
}

/// A wanted length, however it is said, and a span.
pub const LENGTH: Bound<Length> = lengths(50, 2_000_000);
/// Dip of a swag.
pub const DIP: Bound<Length> = lengths(0, 100_000);
/// A gap, or a least or greatest gap.
pub const GAP: Bound<Length> = lengths(-1_000, 2_000);
/// A tail.
pub const TAIL: Bound<Length> = lengths(0, 10_000);
/// Width of a pennant.
pub const WIDTH: Bound<Length> = lengths(20, 1_000);
/// Drop of a pennant.
pub const DROP: Bound<Length> = lengths(20, 1_500);
/// Perimeter of a loop.
pub const LOOP: Bound<Length> = lengths(10, 2_000);
/// Height of fixings.
pub const FIXING_HEIGHT: Bound<Length> = lengths(0, 50_000);
/// Distance to a cot.
pub const COT_DISTANCE: Bound<Length> = lengths(0, 100_000);
/// Pennants on one string.
pub const PENNANTS: Bound<u32> = Bound { least: 1, most: 20_000 };
/// Pieces in one order.
pub const PIECES: Bound<u32> = Bound { least: 1, most: 200_000 };
/// Swags between the outer hooks.
pub const SWAGS: Bound<u32> = Bound { least: 1, most: 200 };
/// Strings in one order.
pub const QUANTITY: Bound<u32> = Bound { least: 1, most: 10_000 };
/// Fabrics in one colour order.
pub const FABRICS: Bound<u32> = Bound { least: 1, most: 26 };
/// Letters and spaces of a lettering.
pub const LETTERS: Bound<u32> = Bound { least: 1, most: 60 };
/// Trimmings of one kind on a pennant.
pub const PER_PENNANT: Bound<u32> = Bound { least: 1, most: 20 };
/// Age in months.
pub const MONTHS: Bound<u32> = Bound { least: 0, most: 216 };
/// Fixings.
pub const FIXINGS: Bound<u32> = Bound { least: 1, most: 1_000 };
/// Enquiries in one call.
pub const ENQUIRIES: Bound<u32> = Bound { least: 1, most: 50 };
/// Pennants up to which every mark is listed.
pub const MARKS_LISTED: u32 = 400;
/// Bytes of a request's body.
pub const BODY_BYTES: usize = 64 * 1024;
/// Depth of nesting of a request.
pub const NESTING: u32 = 32;
