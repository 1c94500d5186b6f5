//! The one table of bounds: what may be asked at all, whatever the shop.
//!
//! The shop's own least and most, from its catalogue, lie within these. Lengths are
//! given in millimetres here and hold to the micrometre; counts are plain numbers. The
//! figures are the project's own limits, wide of anything that is sewn, so that no
//! product of two measures comes near the end of its type.

use crate::{Force, Length};

/// A least and a most, both allowed, in the unit of what is bounded.
///
/// ```
/// use pennantry_measure::{Length, bounds};
/// assert!(bounds::DIP.holds(Length::ZERO) && bounds::DIP.holds(bounds::DIP.most));
/// assert!(!bounds::DIP.holds(Length::from_um(-1)));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bound<T> {
    /// The least allowed.
    pub least: T,
    /// The most allowed.
    pub most: T,
}

impl<T: PartialOrd + Copy> Bound<T> {
    /// Whether a value lies within; either end does.
    ///
    /// ```
    /// use pennantry_measure::bounds::PENNANTS;
    /// assert!(PENNANTS.holds(1) && PENNANTS.holds(20_000));
    /// assert!(!PENNANTS.holds(0) && !PENNANTS.holds(20_001));
    /// ```
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
/// Foot of a blunt pennant.
pub const FOOT: Bound<Length> = lengths(1, 1_000);
/// Notch of a swallowtail.
pub const NOTCH: Bound<Length> = lengths(1, 1_500);
/// Straight sides of a shield.
pub const SHOULDER: Bound<Length> = lengths(1, 1_500);
/// Rise of a scallop's arc.
pub const RISE: Bound<Length> = lengths(1, 500);
/// Perimeter of a loop.
pub const LOOP: Bound<Length> = lengths(10, 2_000);
/// Force at which a loop parts by design.
pub const BREAKAWAY: Bound<Force> = Bound { least: Force::from_newtons(1), most: Force::from_newtons(500) };
/// Height of fixings.
pub const FIXING_HEIGHT: Bound<Length> = lengths(0, 50_000);
/// Distance to a cot.
pub const COT_DISTANCE: Bound<Length> = lengths(0, 100_000);
/// Free end of a tie.
pub const TIE: Bound<Length> = lengths(10, 2_000);
/// Distance between the roots of two ties.
pub const TIES_APART: Bound<Length> = lengths(0, 2_000);
/// Width of a wall.
pub const WALL_WIDTH: Bound<Length> = lengths(100, 1_000_000);
/// Height of a wall.
pub const WALL_HEIGHT: Bound<Length> = lengths(100, 100_000);
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
/// Jurisdictions looked at.
pub const JURISDICTIONS: Bound<u32> = Bound { least: 0, most: 5 };
/// Fixings.
pub const FIXINGS: Bound<u32> = Bound { least: 1, most: 1_000 };
/// Characters of the reason for a discount.
pub const REASON: Bound<u32> = Bound { least: 3, most: 120 };
/// Minor units of a discount.
pub const DISCOUNT_MINOR: Bound<u32> = Bound { least: 1, most: 100_000_000 };
/// Characters of a ticket.
pub const TICKET_CHARS: usize = 4_000;
/// Enquiries in one call.
pub const ENQUIRIES: Bound<u32> = Bound { least: 1, most: 50 };
/// Pennants up to which every mark is listed.
pub const MARKS_LISTED: u32 = 400;
/// Usable width of cloth on the shelf.
pub const CLOTH_WIDTH: Bound<Length> = lengths(20, 5_000);
/// What one piece on the shelf holds, where it is measured.
pub const PIECE_LENGTH: Bound<Length> = lengths(1, 100_000_000);
/// What one piece on the shelf holds, where it is counted.
pub const PIECE_COUNT: Bound<u32> = Bound { least: 1, most: 100_000_000 };
/// Pieces received in one call.
pub const RECEIVED: Bound<u32> = Bound { least: 1, most: 5_000 };
/// Pieces that are looked through in one call.
pub const CHECKED: Bound<u32> = Bound { least: 1, most: 100 };
/// Flaws of one piece.
pub const FLAWS: Bound<u32> = Bound { least: 0, most: 100 };
/// Certificates of one piece.
pub const CERTIFICATES: Bound<u32> = Bound { least: 0, most: 10 };
/// Parts of one cut.
pub const CUT_PARTS: Bound<u32> = Bound { least: 0, most: 200 };
/// Offcuts of one part of a cut.
pub const OFFCUTS: Bound<u32> = Bound { least: 0, most: 20 };
/// Lines of an order at a supplier.
pub const ORDER_LINES: Bound<u32> = Bound { least: 1, most: 100 };
/// Seconds for which cloth is held.
pub const HOLD_SECONDS: Bound<u32> = Bound { least: 60, most: 1_209_600 };
/// Rules acknowledged.
pub const ACKNOWLEDGED: Bound<u32> = Bound { least: 0, most: 40 };
/// Characters of the identity of a request, of a reservation's, cut's or page's name.
pub const NAME: Bound<u32> = Bound { least: 1, most: 80 };
/// Characters of a label, or of an order's name.
pub const LABEL: Bound<u32> = Bound { least: 1, most: 40 };
/// Characters of a dye lot, a place or a code.
pub const WORD: Bound<u32> = Bound { least: 0, most: 60 };
/// Characters of a supplier's name or reference.
pub const PARTY: Bound<u32> = Bound { least: 0, most: 80 };
/// Characters of a note.
pub const NOTE: Bound<u32> = Bound { least: 0, most: 200 };
/// Characters of the reason for calling something off.
pub const END_REASON: Bound<u32> = Bound { least: 3, most: 200 };
/// Pieces on a page.
pub const PAGE_PIECES: Bound<u32> = Bound { least: 0, most: 1_000 };
/// Reservations on a page.
pub const PAGE_RESERVATIONS: Bound<u32> = Bound { least: 0, most: 500 };
/// Reports on a page.
pub const PAGE_REPORTS: Bound<u32> = Bound { least: 0, most: 400 };
/// Bytes of a request's body.
pub const BODY_BYTES: usize = 64 * 1024;
/// Bytes of a request's body where many pieces are received at once.
pub const RECEIVE_BYTES: usize = 4 * 1024 * 1024;
/// Depth of nesting of a request.
pub const NESTING: u32 = 32;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ends_are_allowed_and_nothing_beyond() {
        let um = Length::from_um(1);
        for bound in [
            LENGTH,
            DIP,
            GAP,
            TAIL,
            WIDTH,
            DROP,
            FOOT,
            NOTCH,
            SHOULDER,
            RISE,
            LOOP,
            FIXING_HEIGHT,
            COT_DISTANCE,
            TIE,
            TIES_APART,
            WALL_WIDTH,
            WALL_HEIGHT,
        ] {
            assert!(bound.least < bound.most);
            assert!(bound.holds(bound.least) && bound.holds(bound.most));
            assert!(!bound.holds(bound.least - um) && !bound.holds(bound.most + um));
        }
    }
}
