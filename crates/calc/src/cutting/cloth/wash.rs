//! What cloth loses when it is washed before it is cut, and prints that repeat.
//!
//! | figure | formula | rounding |
//! |---|---|---|
//! | width, or length of a bought piece, once washed | `bought · (1 − loss)` | down: what is there |
//! | repeat of a print, once washed | `repeat · (1 − loss)` | up: a step that is needed |
//! | length to buy | `used / (1 − loss)` | up: what is needed |
//! | change in the wash | `(after − before) / before` | half up: what was measured |
//! | length in whole repeats | `⌈length / repeat⌉ · repeat` | up |
//!
//! A loss is made good by division: 3 m that lose 5 % are bought as 3.158 m, and 3.15 m
//! would come out short. Across and along are two losses, each with its own figure.
//! The change as a share of the length before the wash, below nought where the cloth
//! shrinks: ISO 5077, which measures what ISO 6330 washes.

use pennantry_measure::{Length, Percent, Rounding, divide};

use crate::outline::um;

fn whole() -> i128 {
    i128::from(Percent::WHOLE.milli())
}

/// What a measure of a cloth comes to once it is washed, down to the micrometre.
///
/// ```
/// use pennantry_calc::cutting::washed;
/// use pennantry_measure::{Length, Percent};
/// let width = washed(Length::from_mm(1_120), Percent::from_milli(10_000));
/// assert_eq!(width, Length::from_mm(1_008));
/// ```
pub fn washed(bought: Length, loss: Percent) -> Length {
    let left = whole() - i128::from(loss.milli());
    um(divide(bought.wide() * left, whole(), Rounding::Down))
}

/// What the repeat of a print comes to: it shrinks with its cloth. Up to the micrometre,
/// so that a length in whole repeats is not short.
pub(crate) fn washed_repeat(repeat: Length, loss: Percent) -> Length {
    let left = whole() - i128::from(loss.milli());
    um(divide(repeat.wide() * left, whole(), Rounding::Up))
}

/// The length to buy so that a length is there once it is washed, up to the micrometre.
/// The catalogue keeps losses below 100 %; one that is not counts as a thousandth of a
/// percent below it.
///
/// ```
/// use pennantry_calc::cutting::bought_length;
/// use pennantry_measure::{Length, Percent};
/// let bought = bought_length(Length::from_mm(3_000), Percent::from_milli(5_000));
/// assert_eq!(bought, Length::from_um(3_157_895));
/// ```
pub fn bought_length(used: Length, loss: Percent) -> Length {
    let left = (whole() - i128::from(loss.milli())).max(1);
    um(divide(used.wide() * whole(), left, Rounding::Up))
}

/// The change that a wash makes, as measured on a swatch before and after it: below
/// nought where the cloth shrinks, to the nearest thousandth of a percent. None where
/// nothing was measured before.
///
/// ```
/// use pennantry_calc::cutting::change;
/// use pennantry_measure::{Length, Percent};
/// let swatch = change(Length::from_mm(500), Length::from_mm(480));
/// assert_eq!(swatch, Some(Percent::from_milli(-4_000)));
/// ```
pub fn change(before: Length, after: Length) -> Option<Percent> {
    if before <= Length::ZERO {
        return None;
    }
    let share = divide((after - before).wide() * whole(), before.wide(), Rounding::HalfUp);
    Some(Percent::from_milli(i64::try_from(share).unwrap_or(i64::MAX)))
}

/// A length up to the next whole repeat of a print; as it is where nothing repeats.
///
/// ```
/// use pennantry_calc::cutting::whole_repeats;
/// use pennantry_measure::Length;
/// let cm = |cm: i64| Length::from_mm(cm * 10);
/// assert_eq!(whole_repeats(cm(230), cm(64)), cm(256));
/// assert_eq!(whole_repeats(cm(230), cm(0)), cm(230));
/// ```
pub fn whole_repeats(length: Length, repeat: Length) -> Length {
    if repeat <= Length::ZERO {
        return length;
    }
    um(divide(length.wide(), repeat.wide(), Rounding::Up) * repeat.wide())
}
