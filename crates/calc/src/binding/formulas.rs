//! The formulas of a binding, each by itself: what the tables test and what a reader
//! re-derives by hand.

use pennantry_measure::{Length, MassPerArea, MassPerLength, Percent, Rounding, ceil_sqrt, divide};

use crate::outline::um;
use crate::shop::EndCut;

/// What one join takes off the length of the two pieces that it joins. `raw` is the
/// width of the strip as it lies when it is joined, opened flat.
///
/// | ends | lost |
/// |---|---|
/// | straight | `2 seams` |
/// | mitred | `raw`: the two squares under the 45° seam add up to one |
/// | slanted | `2 √2 seams`, up: each end gives a seam, taken at 45° |
///
/// ```
/// use pennantry_calc::binding::join_loss;
/// use pennantry_calc::shop::EndCut;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(join_loss(EndCut::Straight, mm(50), mm(6)), mm(12));
/// assert_eq!(join_loss(EndCut::Mitred, mm(50), mm(6)), mm(50));
/// assert_eq!(join_loss(EndCut::Slanted, mm(50), mm(6)), Length::from_um(16_971));
/// ```
pub fn join_loss(ends: EndCut, raw: Length, seam: Length) -> Length {
    match ends {
        EndCut::Straight => seam * 2,
        EndCut::Mitred => raw,
        EndCut::Slanted => um(root_up(8 * seam.wide() * seam.wide())),
    }
}

/// What so many pieces of one length give once they are joined:
/// `pieces · length − (pieces − 1) · loss`. No pieces give nothing.
///
/// ```
/// use pennantry_calc::binding::joined;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// // two strips of 1 000, mitred at a width of 50
/// assert_eq!(joined(2, mm(1_000), mm(50)), mm(1_950));
/// ```
pub fn joined(pieces: u32, length: Length, loss: Length) -> Length {
    if pieces == 0 {
        return Length::ZERO;
    }
    length * i64::from(pieces) - loss * (i64::from(pieces) - 1)
}

/// The fewest strips that give a length once they are joined:
/// `⌈(needed − loss) / (usable − loss)⌉`, at least one. None where a join loses all of a
/// strip and one strip does not do.
///
/// ```
/// use pennantry_calc::binding::strips;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// // six strips of 1 000 give 5 750, seven give 6 700
/// assert_eq!(strips(mm(5_750), mm(1_000), mm(50)), Some(6));
/// assert_eq!(strips(mm(5_751), mm(1_000), mm(50)), Some(7));
/// assert_eq!(strips(mm(900), mm(50), mm(50)), None);
/// ```
pub fn strips(needed: Length, usable: Length, loss: Length) -> Option<u32> {
    if needed <= usable {
        return Some(1);
    }
    let gained = usable - loss;
    if gained <= Length::ZERO {
        return None;
    }
    let strips = divide((needed - loss).wide(), gained.wide(), Rounding::Up);
    Some(u32::try_from(strips).unwrap_or(u32::MAX))
}

/// Strip for a binding folded twice, of a finished (visible) width: four times that.
///
/// ```
/// use pennantry_calc::binding::raw_double_fold;
/// use pennantry_measure::Length;
/// assert_eq!(raw_double_fold(Length::from_um(12_500)), Length::from_mm(50));
/// ```
pub fn raw_double_fold(finished: Length) -> Length {
    finished * 4
}

/// Strip for a binding folded once, of a finished width and all its turnings.
///
/// ```
/// use pennantry_calc::binding::raw_single_fold;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(raw_single_fold(mm(19), mm(16)), mm(35));
/// ```
pub fn raw_single_fold(finished: Length, turnings: Length) -> Length {
    finished + turnings
}

/// Width of a bought binding once it is opened, where its turnings meet in the middle:
/// twice its flat width, fold to fold.
///
/// ```
/// use pennantry_calc::binding::opened;
/// use pennantry_measure::Length;
/// assert_eq!(opened(Length::from_mm(25)), Length::from_mm(50));
/// ```
pub fn opened(flat: Length) -> Length {
    flat * 2
}

/// Mass a metre of a strip of cloth, to the nearest microgram.
///
/// ```
/// use pennantry_calc::binding::strip_mass;
/// use pennantry_measure::{Length, MassPerArea, MassPerLength};
/// let cloth = MassPerArea::from_mg_per_m2(120_000);
/// assert_eq!(strip_mass(cloth, Length::from_mm(50)), MassPerLength::from_ug_per_m(6_000_000));
/// ```
pub fn strip_mass(cloth: MassPerArea, raw: Length) -> MassPerLength {
    let fine = divide(i128::from(cloth.mg_per_m2()) * raw.wide(), 1_000, Rounding::HalfUp);
    MassPerLength::from_ug_per_m(i64::try_from(fine).unwrap_or(i64::MAX))
}

/// The most that a square of cloth can give in strips of a width, `side² / width`, down.
/// No way of cutting reaches it.
///
/// ```
/// use pennantry_calc::binding::area_length;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(area_length(mm(1_000), mm(50)), mm(20_000));
/// ```
pub fn area_length(side: Length, width: Length) -> Length {
    rectangle_length(side, side, width)
}

/// The most that a rectangle of cloth can give in strips of a width, `a · b / width`,
/// down.
///
/// ```
/// use pennantry_calc::binding::rectangle_length;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(rectangle_length(mm(500), mm(1_100), mm(50)), mm(11_000));
/// ```
pub fn rectangle_length(one: Length, other: Length, width: Length) -> Length {
    um(divide((one * other).um2(), width.wide(), Rounding::Down))
}

/// Side of the square whose area is that of a strip, `√(length · width)`, up: no
/// smaller square can do.
///
/// ```
/// use pennantry_calc::binding::square_side;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(square_side(mm(20_000), mm(50)), mm(1_000));
/// assert_eq!(square_side(mm(20_001), mm(50)), Length::from_um(1_000_025));
/// ```
pub fn square_side(length: Length, width: Length) -> Length {
    um(root_up((length * width).um2()))
}

/// Length of a cloth so wide whose area is that of a strip, `length · width / across`,
/// up.
///
/// ```
/// use pennantry_calc::binding::rectangle_side;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(rectangle_side(mm(11_000), mm(50), mm(1_100)), mm(500));
/// ```
pub fn rectangle_side(length: Length, width: Length, across: Length) -> Length {
    um(divide((length * width).um2(), across.wide(), Rounding::Up))
}

/// The most that a square can give once it is sewn into a tube, its two seams off:
/// `(side − 2 seams)² / raw`, down. What is cut from it is less: see [`spiral`].
///
/// ```
/// use pennantry_calc::binding::continuous_length;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(continuous_length(mm(720), mm(50), mm(6)), Length::from_um(10_025_280));
/// ```
pub fn continuous_length(side: Length, raw: Length, seam: Length) -> Length {
    let clear = side - seam * 2;
    if clear <= Length::ZERO {
        return Length::ZERO;
    }
    area_length(clear, raw)
}

/// Side of the square whose tube has the area of a strip: `√(length · raw) + 2 seams`,
/// up. What has to be cut may be larger: see [`spiral_side`].
///
/// ```
/// use pennantry_calc::binding::continuous_side;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(continuous_side(mm(20_000), mm(50), mm(6)), mm(1_012));
/// ```
pub fn continuous_side(length: Length, raw: Length, seam: Length) -> Length {
    square_side(length, raw) + seam * 2
}

/// Whole turns and length of the spiral that a square gives, sewn into a tube:
/// `k = ⌊(side − 2 seams) / (√2 · raw)⌋` turns of `√2 · (side − 2 seams)`, the length
/// down. What is left is narrower than a strip.
///
/// ```
/// use pennantry_calc::binding::spiral;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// // 708 / 70.71 = 10.01: ten turns of 1 001.26, where the area would give 10 025
/// assert_eq!(spiral(mm(720), mm(50), mm(6)), (10, Length::from_um(10_012_632)));
/// assert_eq!(spiral(mm(719), mm(50), mm(6)).0, 9);
/// assert_eq!(spiral(mm(12), mm(50), mm(6)), (0, Length::ZERO));
/// ```
pub fn spiral(side: Length, raw: Length, seam: Length) -> (u32, Length) {
    let clear = (side - seam * 2).wide();
    let raw = raw.wide();
    if clear <= 0 || raw <= 0 {
        return (0, Length::ZERO);
    }
    // the most k with 2 k² raw² <= clear²
    let turns = root_down(divide(clear * clear, 2 * raw * raw, Rounding::Down));
    let length = root_down(2 * turns * turns * clear * clear);
    (u32::try_from(turns).unwrap_or(u32::MAX), um(length))
}

/// Side of the least square whose spiral gives a length in whole turns, up.
///
/// With `k` turns the side without its seams is at least `√2 · k · raw`, or they do not
/// fit, and at least `length / (√2 · k)`, or they do not reach. The first grows with `k`,
/// the second falls; they meet at `k = √(length / (2 raw))`. So one of the two whole
/// numbers about that is best.
///
/// ```
/// use pennantry_calc::binding::{spiral, spiral_side};
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// let side = spiral_side(mm(5_600), mm(48), mm(6));
/// // eight turns need 8 x 67.88 and the seams; the area alone would say 530.5
/// assert_eq!(side, Length::from_um(555_059));
/// assert_eq!(spiral(side, mm(48), mm(6)).0, 8);
/// assert!(spiral(side, mm(48), mm(6)).1 >= mm(5_600));
/// assert!(spiral(side - Length::from_um(1), mm(48), mm(6)).1 < mm(5_600));
/// ```
pub fn spiral_side(length: Length, raw: Length, seam: Length) -> Length {
    let (length, raw) = (length.wide().max(1), raw.wide().max(1));
    let clear = |turns: i128| {
        let fits = root_up(2 * turns * turns * raw * raw);
        let reaches = root_up(divide(length * length, 2 * turns * turns, Rounding::Up));
        fits.max(reaches)
    };
    let below = root_down(divide(length, 2 * raw, Rounding::Down));
    let least = clear(below + 1);
    let least = if below > 0 { least.min(clear(below)) } else { least };
    um(least) + seam * 2
}

/// Seams that cross the strip of so many turns, all at 45°: the first seam of the tube
/// once in each turn, the second between one turn and the next.
///
/// ```
/// use pennantry_calc::binding::spiral_seams;
/// assert_eq!(spiral_seams(10), 19);
/// assert_eq!(spiral_seams(0), 0);
/// ```
pub fn spiral_seams(turns: u32) -> u32 {
    turns.saturating_mul(2).saturating_sub(1)
}

/// Strips that a square gives when it is cut from its diagonal outward, both halves of
/// it, and the sum of their lengths along the middle, down: `⌊side / (√2 · raw)⌋` in a
/// half, of `√2 · side − (2 i − 1) · raw`.
///
/// ```
/// use pennantry_calc::binding::half_squares;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// // 14 in each half, where the area would give 20 000
/// assert_eq!(half_squares(mm(1_000), mm(50)), (28, Length::from_um(19_997_979)));
/// ```
pub fn half_squares(side: Length, raw: Length) -> (u32, Length) {
    let (side, raw) = (side.wide(), raw.wide());
    if side <= 0 || raw <= 0 {
        return (0, Length::ZERO);
    }
    let half = root_down(divide(side * side, 2 * raw * raw, Rounding::Down));
    // twice half √2 side, and 1 + 3 + … up to half terms is half²
    let sum = root_down(8 * half * half * side * side) - 2 * half * half * raw;
    (u32::try_from(2 * half).unwrap_or(u32::MAX), um(sum))
}

/// Strips at 45° that reach from edge to edge of a rectangle, and the sum of their
/// lengths, down: `⌊(width − height) / (√2 · raw)⌋` of `√2 · height`.
///
/// ```
/// use pennantry_calc::binding::full_strips;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(full_strips(mm(500), mm(1_100), mm(50)), (8, Length::from_um(5_656_854)));
/// assert_eq!(full_strips(mm(500), mm(500), mm(50)), (0, Length::ZERO));
/// ```
pub fn full_strips(height: Length, width: Length, raw: Length) -> (u32, Length) {
    let (height, beyond, raw) = (height.wide(), (width - height).wide(), raw.wide());
    if height <= 0 || beyond <= 0 || raw <= 0 {
        return (0, Length::ZERO);
    }
    let count = root_down(divide(beyond * beyond, 2 * raw * raw, Rounding::Down));
    let sum = root_down(2 * count * count * height * height);
    (u32::try_from(count).unwrap_or(u32::MAX), um(sum))
}

/// What has to be there before the wash for a length after it: `length / (1 − shrink)`,
/// up.
///
/// ```
/// use pennantry_calc::binding::before_wash;
/// use pennantry_measure::{Length, Percent};
/// let mm = Length::from_mm;
/// assert_eq!(before_wash(mm(960), Percent::from_milli(4_000)), mm(1_000));
/// ```
pub fn before_wash(length: Length, shrink: Percent) -> Length {
    let whole = i128::from(Percent::WHOLE.milli());
    um(divide(length.wide() * whole, left_by(shrink).max(1), Rounding::Up))
}

/// What the wash leaves of a length: `length · (1 − shrink)`, down.
///
/// ```
/// use pennantry_calc::binding::after_wash;
/// use pennantry_measure::{Length, Percent};
/// let mm = Length::from_mm;
/// assert_eq!(after_wash(mm(1_000), Percent::from_milli(4_000)), mm(960));
/// ```
pub fn after_wash(length: Length, shrink: Percent) -> Length {
    let whole = i128::from(Percent::WHOLE.milli());
    um(divide(length.wide() * left_by(shrink).max(0), whole, Rounding::Down))
}

fn left_by(shrink: Percent) -> i128 {
    i128::from(Percent::WHOLE.milli() - shrink.milli())
}

fn root_down(square: i128) -> i128 {
    signed(u128::try_from(square).unwrap_or(0).isqrt())
}

fn root_up(square: i128) -> i128 {
    signed(ceil_sqrt(u128::try_from(square).unwrap_or(0)))
}

fn signed(wide: u128) -> i128 {
    i128::try_from(wide).unwrap_or(i128::MAX)
}
