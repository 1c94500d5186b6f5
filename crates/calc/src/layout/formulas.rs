//! The formulas of a layout, each by itself: what the tables test and what a reader
//! re-derives by hand.

use pennantry_measure::{Length, Rounding, divide};

/// A pennant's width and drop, and the gap to its neighbour, all at one edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Width.
    pub width: Length,
    /// Drop.
    pub drop: Length,
    /// Gap.
    pub gap: Length,
}

/// How many pennants fit a flagged length: `⌊(body + gap) / (width + gap)⌋` in whole
/// micrometres, so that an exact multiple is never lost.
///
/// None fit where the body is shorter than one width; none are counted where width and
/// gap together are nought or less, which would hang all of them in one place.
///
/// ```
/// use pennantry_calc::layout::fit_count;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// // 2 520 / 210 is 12 exactly; a micrometre less holds 11
/// assert_eq!(fit_count(mm(2_500), mm(190), mm(20)), 12);
/// assert_eq!(fit_count(mm(2_500) - Length::from_um(1), mm(190), mm(20)), 11);
/// ```
pub fn fit_count(body: Length, width: Length, gap: Length) -> u32 {
    u32::try_from(fit(body.wide(), width.wide(), gap.wide())).unwrap_or(u32::MAX)
}

/// The same in any unit of length.
pub(super) fn fit(body: i128, width: i128, gap: i128) -> i128 {
    if width + gap <= 0 {
        return 0;
    }
    divide(body + gap, width + gap, Rounding::Down).max(0)
}

/// The flagged length of a count: `count · width + (count − 1) · gap`, exactly. No
/// pennants have no length.
///
/// ```
/// use pennantry_calc::layout::body_length;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// assert_eq!(body_length(9, mm(190), mm(20)), mm(1_870));
/// ```
pub fn body_length(count: u32, width: Length, gap: Length) -> Length {
    if count == 0 {
        return Length::ZERO;
    }
    width * i64::from(count) + gap * (i64::from(count) - 1)
}

/// The gap at which a count fills a flagged length, `(body − count · width) / (count − 1)`,
/// to the nearest micrometre, a half up; below nought where they overlap. One pennant
/// has no gap.
///
/// ```
/// use pennantry_calc::layout::exact_gap;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// // 690 mm shared out over 28 gaps
/// assert_eq!(exact_gap(mm(6_200), 29, mm(190)), Some(Length::from_um(24_643)));
/// assert_eq!(exact_gap(mm(6_200), 1, mm(190)), None);
/// ```
pub fn exact_gap(body: Length, count: u32, width: Length) -> Option<Length> {
    let gaps = count.checked_sub(1).filter(|gaps| *gaps > 0)?;
    let rest = body.wide() - width.wide() * i128::from(count);
    Some(nearest(rest, gaps.into()))
}

/// Sizes as seen at the binding's edge, from those at the top edge that `insertion`
/// hides: with drop `h` and insertion `a` the width is `w (1 − a/h)`, the drop `h − a`
/// and the gap `g + w a/h`, each to the nearest micrometre.
///
/// None where the binding would hide all of the drop.
///
/// ```
/// use pennantry_calc::layout::{Size, to_binding_edge};
/// use pennantry_measure::Length;
/// let (mm, um) = (Length::from_mm, Length::from_um);
/// let top = Size { width: mm(190), drop: mm(210), gap: mm(20) };
/// let seen = Size { width: um(178_690), drop: um(197_500), gap: um(31_310) };
/// assert_eq!(to_binding_edge(top, um(12_500)), Some(seen));
/// ```
pub fn to_binding_edge(top: Size, insertion: Length) -> Option<Size> {
    if top.drop <= insertion {
        return None;
    }
    let (hidden, drop) = (widening(top, insertion), top.drop.wide());
    Some(Size {
        width: nearest(top.width.wide() * drop - hidden, drop),
        drop: top.drop - insertion,
        gap: nearest(top.gap.wide() * drop + hidden, drop),
    })
}

/// Sizes at the top edge, from those seen at the binding's edge: with drop `d` and
/// insertion `a` the width is `v (d + a) / d`, the drop `d + a` and the gap `g − v a/d`,
/// each to the nearest micrometre.
///
/// None where there is no drop to go by.
///
/// ```
/// use pennantry_calc::layout::{Size, to_top_edge};
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// // 200 x 200 as seen and touching: 10 deep in the binding the tops overlap by 10
/// let seen = Size { width: mm(200), drop: mm(200), gap: mm(0) };
/// let top = Size { width: mm(210), drop: mm(210), gap: mm(-10) };
/// assert_eq!(to_top_edge(seen, mm(10)), Some(top));
/// ```
pub fn to_top_edge(seen: Size, insertion: Length) -> Option<Size> {
    if seen.drop <= Length::ZERO {
        return None;
    }
    let (more, drop) = (widening(seen, insertion), seen.drop.wide());
    Some(Size {
        width: nearest(seen.width.wide() * drop + more, drop),
        drop: seen.drop + insertion,
        gap: nearest(seen.gap.wide() * drop - more, drop),
    })
}

/// How much wider a triangle is at its top edge than at the binding's edge, times its
/// drop: `w a`, to be divided by the drop at the edge that `w` was taken at.
pub(super) fn widening(at: Size, insertion: Length) -> i128 {
    at.width.wide() * insertion.wide()
}

/// `numerator / denominator` micrometres to the nearest, a half away from nought: a
/// length promised.
pub(super) fn nearest(numerator: i128, denominator: i128) -> Length {
    length(divide(numerator, denominator, Rounding::HalfUp))
}

/// Whole micrometres as a length; what is beyond the type, and so beyond every bound,
/// stays at its end.
pub(super) fn length(um: i128) -> Length {
    Length::from_um(i64::try_from(um).unwrap_or(if um < 0 { i64::MIN } else { i64::MAX }))
}
