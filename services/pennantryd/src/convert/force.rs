//! Newtons on the wire, tenths of a newton inside: read here alone.

use pennantry_measure::Force;

use super::length::{Fault, read as thousandths};

/// Reads newtons, by the rule of lengths: at most one decimal, and no force below nought.
///
/// ```
/// use pennantryd::convert::force::read;
/// use pennantryd::convert::length::Fault;
/// assert_eq!(read(44.5).unwrap().tenths(), 445);
/// assert_eq!(read(44.55), Err(Fault::TooFine));
/// assert_eq!(read(-1.0), Err(Fault::TooLarge));
/// ```
///
/// # Errors
/// See [`Fault`].
pub fn read(newtons: f64) -> Result<Force, Fault> {
    // thousandths of a newton are read as those of a millimetre are
    let milli = thousandths(newtons)?.um();
    if milli % 100 != 0 {
        return Err(Fault::TooFine);
    }
    u32::try_from(milli / 100).map(Force::from_tenths).map_err(|_| Fault::TooLarge)
}
