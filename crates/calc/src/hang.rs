//! How a string hangs: the curve between its hooks, and which gap takes each hook.
//!
//! Equal pennants on a binding are an even load along the string, so each swag is a
//! catenary. With span `l`, dip `f` and `u = l / 2a`:
//!
//! | figure | formula |
//! |---|---|
//! | `u` | the root of `f / l = sinh²(u/2) / u`, which is `f = a (cosh u − 1)` |
//! | length of the curve | `l · sinh u / u` |
//! | height above the lowest point, `t` along the string from it | `t² / (√(a² + t²) + a)` |
//!
//! Source: the textbook catenary (Karnovsky and Lebed, *Advanced Methods of
//! Structural Analysis*, chapter 5). Hooks are level; the binding does not stretch.
//!
//! Only `+ - * /` and the square root are the machine's own; everything else comes
//! from `libm`, so the same hang gives the same bits anywhere. Curves are rounded
//! once, to the nearest micrometre, because a length is promised.

use pennantry_measure::{Length, Rounding, divide};

use crate::double::{digits, float};
use crate::order::Hang;

#[cfg(test)]
#[expect(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "checks in doubles against another method; lengths there are far below 2^53"
)]
mod tests;

/// Newton's steps at most. Every start below is settled within ten; the cap only
/// makes the end certain.
const STEPS: u32 = 64;

/// Standard gravity, 9.806 65 m/s², in hundred-thousandths (3rd General Conference
/// on Weights and Measures, 1901).
const GRAVITY: i128 = 980_665;

/// How a string hangs between its hooks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HangLayout {
    /// Along the curve of all swags, first hook to last.
    pub curve: Length,
    /// Binding kept at each end for the knot.
    pub knot: Length,
    /// Lowest tip below the hooks, at most: as if a pennant hung at the very lowest
    /// point of a swag. Its drop counts from the upper fold of the binding.
    pub lowest_tip: Length,
    /// The hooks between the first and the last, from the left.
    pub hooks: Vec<Hook>,
}

/// One hook between the first and the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hook {
    /// Where it takes the string, along the binding from its middle; to the left is
    /// below nought.
    pub at: Length,
    /// Whether that is bare binding, and not behind a pennant.
    pub in_gap: bool,
    /// How far that is from the equal division of the curve; to the left is below
    /// nought, so `at - shift` is the equal division.
    pub shift: Length,
}

/// Length along one level swag, rounded to the nearest micrometre.
///
/// Never below the span, and never shorter for more dip. No dip gives the span; no
/// span gives the dip down and up again. Lengths below nought count as nought.
///
/// ```
/// use pennantry_calc::hang::curve;
/// use pennantry_measure::Length;
/// // a span of 10 m that dips by 1 m: 2.6 % more than the span
/// assert_eq!(curve(Length::from_mm(10_000), Length::from_mm(1_000)), Length::from_um(10_261_869));
/// assert_eq!(curve(Length::from_mm(10_000), Length::ZERO), Length::from_mm(10_000));
/// ```
pub fn curve(span: Length, dip: Length) -> Length {
    total_curve(Hang { span, dip, swags: 1 })
}

/// Length along all swags of a hang, rounded once to the nearest micrometre.
///
/// The swags are equal: each has the span divided by their number, which need not be
/// whole, and the full dip. No swags count as one.
///
/// ```
/// use pennantry_calc::hang::total_curve;
/// use pennantry_calc::order::Hang;
/// use pennantry_measure::Length;
/// let hang = Hang { span: Length::from_mm(12_000), dip: Length::from_mm(250), swags: 4 };
/// assert_eq!(total_curve(hang), Length::from_um(12_219_415));
/// ```
pub fn total_curve(hang: Hang) -> Length {
    let span = hang.span.max(Length::ZERO);
    let swags = f64::from(hang.swags.max(1));
    let dip = float(hang.dip);
    if span == Length::ZERO {
        return whole(2.0 * dip * swags);
    }
    let each = float(span) / swags;
    // only what the curve has beyond the span is inexact, and it keeps all its digits
    // however small it is: the sum can neither fall below the span nor fall for more dip
    span + whole(float(span) * beyond(half_width(dip / each)))
}

/// Height of a swag's string below its hooks, `along` the string from either hook,
/// rounded to the nearest micrometre.
///
/// Nought at both hooks and beyond them, the dip in the middle.
///
/// ```
/// use pennantry_calc::hang::{curve, sag_at};
/// use pennantry_measure::Length;
/// let (span, dip) = (Length::from_mm(10_000), Length::from_mm(1_000));
/// assert_eq!(sag_at(span, dip, Length::ZERO), Length::ZERO);
/// let middle = Length::from_um(curve(span, dip).um() / 2);
/// assert_eq!(sag_at(span, dip, middle), dip);
/// ```
pub fn sag_at(span: Length, dip: Length, along: Length) -> Length {
    if dip <= Length::ZERO || along <= Length::ZERO {
        return Length::ZERO;
    }
    let (span, dip) = (float(span), float(dip));
    let (a, half) = if span > 0.0 {
        let u = half_width(dip / span);
        (span / (2.0 * u), span * (1.0 + beyond(u)) / 2.0)
    } else {
        (0.0, dip)
    };
    let from_lowest = libm::fabs(float(along) - half);
    let rise = from_lowest * from_lowest / ((a * a + from_lowest * from_lowest).sqrt() + a);
    // 0/0 only where a swag without span is taken at its lowest point
    if rise.is_nan() { whole(dip) } else { whole(dip - rise) }
}

/// Level pull of one swag on its hooks in millinewtons, `H = W l / 8 f`, rounded to
/// the nearest, a half up; none for a string without dip, which would pull without
/// limit, and none for a figure beyond the type.
///
/// `mass_mg` is the mass of the whole swag in milligrams, `W` its weight under
/// standard gravity. This is the parabola's form (statics of cables under an even load,
/// from memory): a little above the catenary's `W a / S`, by 2 % at a dip of an eighth
/// of the span. Wind and people who pull come on top.
///
/// ```
/// use pennantry_calc::hang::pull_mn;
/// use pennantry_measure::Length;
/// let ten_metres = Length::from_mm(10_000);
/// // 250 g that dip by half a metre pull with 6.1 N, and by 100 mm with 30.6 N
/// assert_eq!(pull_mn(ten_metres, Length::from_mm(500), 250_000), Some(6_129));
/// assert_eq!(pull_mn(ten_metres, Length::from_mm(100), 250_000), Some(30_646));
/// assert_eq!(pull_mn(ten_metres, Length::ZERO, 250_000), None);
/// ```
pub fn pull_mn(span: Length, dip: Length, mass_mg: i64) -> Option<i64> {
    if dip <= Length::ZERO {
        return None;
    }
    // mg x 1e-6 kg x 9.80665 m/s2 x 1000 mN: the tens meet in 1e8
    let numerator = (i128::from(mass_mg) * GRAVITY).checked_mul(span.wide())?;
    let pull = divide(numerator, 8 * 100_000_000 * dip.wide(), Rounding::HalfUp);
    i64::try_from(pull).ok()
}

/// How a string of `count` pennants hangs.
///
/// The pitch is `pitch_num / pitch_den` micrometres, exactly; `top_width` and
/// `top_drop` are those at the top edge; all along the binding counts from its
/// middle, which hangs in the middle of the hang.
///
/// The hooks between divide the curve equally. Each is moved to the centre of the
/// nearest gap if there are gaps, if that is no further than half a pitch, and if a
/// swag is longer than a pitch, so that no two hooks meet. Of two gaps equally near it
/// takes the one further out; from the very middle, the right one. A hook beyond the
/// pennants stays where it is, on bare binding; so does one that cannot be moved.
///
/// Both places of a hook are rounded to the nearest micrometre by themselves, so a
/// hang mirrors itself; `lowest_tip` is an upper bound.
///
/// ```
/// use pennantry_calc::hang::hang_up;
/// use pennantry_calc::order::Hang;
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// // 6 m without dip in two swags; 29 pennants 190 wide, one every 210, the fifteenth
/// // on the middle: the middle hook goes to the gap beside it, half a pitch away
/// let hang = Hang { span: mm(6_000), dip: mm(0), swags: 2 };
/// let hung = hang_up(hang, mm(120), 29, 210_000, 1, mm(190), mm(210));
/// assert_eq!(hung.hooks.len(), 1);
/// assert_eq!(hung.hooks[0].at, mm(105));
/// assert!(hung.hooks[0].in_gap);
/// assert_eq!(hung.lowest_tip, mm(210));
/// ```
pub fn hang_up(
    hang: Hang,
    knot: Length,
    count: u32,
    pitch_num: i128,
    pitch_den: i128,
    top_width: Length,
    top_drop: Length,
) -> HangLayout {
    let curve = total_curve(hang);
    let string = Pennants { count: i128::from(count), pitch_num, pitch_den, width: top_width.wide() };
    let swags = i128::from(hang.swags);
    let hooks =
        (1..swags).map(|hook| string.hook(curve.wide() * (2 * hook - swags), 2 * swags, curve, swags));
    HangLayout { curve, knot, lowest_tip: hang.dip.max(Length::ZERO) + top_drop, hooks: hooks.collect() }
}

/// The pennants of a string about its middle, exactly.
struct Pennants {
    count: i128,
    pitch_num: i128,
    pitch_den: i128,
    width: i128,
}

impl Pennants {
    /// The hook for the equal division at `num / den` micrometres from the middle.
    fn hook(&self, num: i128, den: i128, curve: Length, swags: i128) -> Hook {
        let ideal = nearest(num, den);
        let side = if num < 0 { -1 } else { 1 };
        let away = num.abs();
        let Some(halves) = self.nearest_gap(away, den) else {
            return Hook { at: ideal, in_gap: self.is_beyond(away, den), shift: Length::ZERO };
        };
        // how far the hook is from the gap's centre, over 2 den pitch_den
        let far = (2 * away * self.pitch_den - halves * self.pitch_num * den).abs();
        let room = curve.wide() * self.pitch_den > self.pitch_num * swags;
        if room && far <= self.pitch_num * den {
            let at = nearest(side * halves * self.pitch_num, 2 * self.pitch_den);
            return Hook { at, in_gap: true, shift: at - ideal };
        }
        let gap = self.pitch_num - self.width * self.pitch_den;
        let in_gap = self.is_beyond(away, den) || far <= gap * den;
        Hook { at: ideal, in_gap, shift: Length::ZERO }
    }

    /// How many half pitches from the middle lies the centre of the gap nearest to
    /// `away / den`; none where there are no gaps. Centres lie on odd numbers of half
    /// pitches where the count is odd, on even ones where it is even.
    fn nearest_gap(&self, away: i128, den: i128) -> Option<i128> {
        let gaps = self.pitch_den > 0 && self.pitch_num > self.width * self.pitch_den;
        if self.count < 2 || !gaps {
            return None;
        }
        let (num, den) = (away * self.pitch_den, den * self.pitch_num);
        let halves = if self.count % 2 == 0 {
            2 * divide(num, den, Rounding::HalfUp)
        } else {
            2 * divide(num, den, Rounding::Down) + 1
        };
        Some(halves.min(self.count - 2))
    }

    /// Whether `away / den` from the middle lies beyond the outer pennants.
    fn is_beyond(&self, away: i128, den: i128) -> bool {
        let pitches = (self.count - 1) * self.pitch_num;
        2 * away * self.pitch_den >= (pitches + self.width * self.pitch_den) * den
    }
}

/// `num / den` micrometres, a half away from the middle.
fn nearest(num: i128, den: i128) -> Length {
    Length::from_um(i64::try_from(divide(num, den, Rounding::HalfUp)).unwrap_or(i64::MAX))
}

/// The `u` at which a catenary dips by `ratio` of its span.
///
/// `sinh²(u/2)/u` rises ever more steeply, so Newton's steps from above the root fall
/// onto it, and a start below it is above after one step. Shallow swags start from
/// `a = l²/8f + f/6`, which is right to the fourth order (derived); deeper ones from
/// `2 ln 4f/l`, which is above the root wherever the dip is at least the span.
fn half_width(ratio: f64) -> f64 {
    if ratio <= 0.0 {
        return 0.0;
    }
    let mut u = if ratio < 1.0 { 1.0 / (0.25 / ratio + ratio / 3.0) } else { 2.0 * libm::log(4.0 * ratio) };
    for _ in 0..STEPS {
        let sinh = libm::sinh(u / 2.0);
        let dip = sinh * sinh / u;
        let slope = (libm::sinh(u) / 2.0 - dip) / u;
        let next = u - (dip - ratio) / slope;
        // within a unit or two of the last place: nothing more to gain
        if libm::fabs(next - u) <= 4.0 * f64::EPSILON * u {
            return next;
        }
        u = next;
    }
    u
}

/// `sinh u / u − 1`: what a catenary has beyond its span, as a share of it.
fn beyond(u: f64) -> f64 {
    if u >= 1.0 {
        return (libm::sinh(u) - u) / u;
    }
    // u²/3! + u⁴/5! + … + u¹⁸/19!, from the inside out: the difference above would
    // lose the digits that a shallow swag is made of
    let square = u * u;
    let mut sum = 1.0;
    for term in (1..9).rev() {
        let n = f64::from(2 * term);
        sum = 1.0 + sum * square / ((n + 2.0) * (n + 3.0));
    }
    sum * square / 6.0
}

/// A double to the nearest micrometre, within what a length may be.
fn whole(um: f64) -> Length {
    Length::from_um(i64::try_from(digits(libm::round(um))).unwrap_or(i64::MAX))
}
