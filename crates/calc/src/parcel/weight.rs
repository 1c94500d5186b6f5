//! What a parcel counts for on the scales, and the band that it falls into.

use pennantry_measure::{Length, Mass, Rounding, divide};

use crate::shop::{Band, SideRounding, Volumetric};

/// Micrometres of a centimetre.
const CENTIMETRE: i128 = 10_000;
/// Cubic micrometres of a cubic centimetre.
const CUBIC_CENTIMETRE: i128 = 1_000_000_000_000;
/// Milligrams of a kilogram.
const KILOGRAM: i128 = 1_000_000;
/// Milligrams of a gram.
const GRAM: i128 = 1_000;

/// Why a mass falls into no band.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum BandError {
    /// It is nought or less.
    #[error("{0} is no mass of a parcel")]
    NoMass(Mass),
    /// It is over all of them.
    #[error("{mass} is over the {most} of the last band")]
    Over {
        /// The mass.
        mass: Mass,
        /// The greatest of any band.
        most: Mass,
    },
}

/// What a size counts for, in any order of its sides, taken up to the step; nought where
/// size does not count.
///
/// The four knobs in their turn: sides rounded to whole centimetres; nought where their
/// product is not over the threshold; a kilogram for every `divisor` cubic centimetres;
/// up to the next step (without a step, to the next gram). What is on a step stays
/// there: the one rounding of the mass is that last one. A roll counts as the box that
/// holds it.
///
/// ```
/// use pennantry_calc::parcel::volumetric;
/// use pennantry_calc::shop::{SideRounding, Volumetric};
/// use pennantry_measure::{Length, Mass};
/// let cm = |cm: i64| Length::from_mm(10 * cm);
/// let knobs = Volumetric {
///     divisor: 5_000,
///     sides: SideRounding::Exact,
///     step: Mass::from_grams(500),
///     threshold: 0,
///     step_real: false,
/// };
/// // 60 000 / 5 000 = 12 kg exactly; 2 625 / 5 000 = 0.525 kg, up to 1.0
/// assert_eq!(volumetric(&knobs, [cm(50), cm(40), cm(30)]), Mass::from_grams(12_000));
/// assert_eq!(volumetric(&knobs, [cm(35), cm(25), cm(3)]), Mass::from_grams(1_000));
/// ```
pub fn volumetric(knobs: &Volumetric, size: [Length; 3]) -> Mass {
    let side = |side: Length| {
        let um = side.wide().max(0);
        match knobs.sides {
            SideRounding::Exact => um,
            SideRounding::Nearest => divide(um, CENTIMETRE, Rounding::HalfUp) * CENTIMETRE,
            SideRounding::Up => divide(um, CENTIMETRE, Rounding::Up) * CENTIMETRE,
        }
    };
    let volume = size.into_iter().map(side).fold(1, i128::saturating_mul);
    if volume <= i128::from(knobs.threshold) * CUBIC_CENTIMETRE {
        return Mass::ZERO;
    }
    let step = step(knobs.step);
    let a_step = i128::from(knobs.divisor) * CUBIC_CENTIMETRE * step;
    let steps = divide(volume.saturating_mul(KILOGRAM), a_step, Rounding::Up);
    narrow(steps.saturating_mul(step))
}

/// What a parcel counts for: what it weighs, up to the next gram or, where the carrier
/// does that, to the next step; or what its size counts for, where that is more.
pub fn counted(real: Mass, knobs: Option<&Volumetric>, size: [Length; 3]) -> Mass {
    let up = |step: i128| narrow(divide(i128::from(real.mg()), step, Rounding::Up).saturating_mul(step));
    match knobs {
        None => up(GRAM),
        Some(knobs) => {
            let real = up(if knobs.step_real { step(knobs.step) } else { GRAM });
            real.max(volumetric(knobs, size))
        }
    }
}

/// The first band that holds a mass, by its place. A band goes up to and including its
/// greatest mass; the mass is taken up to the next gram first.
///
/// ```
/// use pennantry_calc::parcel::{BandError, band};
/// use pennantry_calc::shop::Band;
/// use pennantry_measure::{Mass, Money};
/// let bands = [100, 250].map(|grams| Band {
///     format: 0,
///     most: Mass::from_grams(grams),
///     price: Money::from_minor(grams),
/// });
/// assert_eq!(band(&bands, Mass::from_grams(100)), Ok(0));
/// assert_eq!(band(&bands, Mass::from_mg(100_001)), Ok(1));
/// let over = BandError::Over { mass: Mass::from_grams(251), most: Mass::from_grams(250) };
/// assert_eq!(band(&bands, Mass::from_grams(251)), Err(over));
/// ```
pub fn band(bands: &[Band], mass: Mass) -> Result<usize, BandError> {
    if mass <= Mass::ZERO {
        return Err(BandError::NoMass(mass));
    }
    let mass = counted(mass, None, [Length::ZERO; 3]);
    bands.iter().position(|band| mass <= band.most).ok_or_else(|| {
        let most = bands.iter().map(|band| band.most).max().unwrap_or_default();
        BandError::Over { mass, most }
    })
}

/// A step in milligrams, a gram where there is none.
fn step(step: Mass) -> i128 {
    if step > Mass::ZERO { i128::from(step.mg()) } else { GRAM }
}

fn narrow(mg: i128) -> Mass {
    Mass::from_mg(i64::try_from(mg).unwrap_or(i64::MAX))
}
