//! How to read the label of a spool. A catalogue gives thread by its mass, in tex.
//!
//! | on the label | tex, grams a kilometre |
//! |---|---|
//! | metric ticket, `Tkt 120` | `3 000 / ticket` |
//! | metric count and plies, `Nm 80/2` | `1 000 · plies / count` |
//!
//! A ticket is three times the metric count of the whole thread (clothing technology
//! course, 2013), so it falls as the thread gets thicker. A cotton ticket is another
//! number and is not read here.

use pennantry_measure::{MassPerLength, Rounding, divide};

/// Mass of a thread by its metric ticket, to the nearest microgram a metre. A ticket of
/// nought says nothing and gives no mass.
///
/// ```
/// use pennantry_calc::thread::tex_of_ticket;
/// use pennantry_measure::MassPerLength;
/// // Tkt 75 is tex 40
/// assert_eq!(tex_of_ticket(75), MassPerLength::from_ug_per_m(40_000));
/// ```
pub fn tex_of_ticket(ticket: u32) -> MassPerLength {
    tex(3_000_000, ticket)
}

/// Mass of a thread by its metric count, the metres in a gram of one ply, and its plies, to
/// the nearest microgram a metre. A count of nought says nothing and gives no mass.
///
/// ```
/// use pennantry_calc::thread::{tex_of_count, tex_of_ticket};
/// // Nm 80/2 is Tkt 120
/// assert_eq!(tex_of_count(80, 2), tex_of_ticket(120));
/// ```
pub fn tex_of_count(count: u32, plies: u32) -> MassPerLength {
    tex(1_000_000 * i128::from(plies), count)
}

fn tex(numerator: i128, denominator: u32) -> MassPerLength {
    let micrograms = divide(numerator, denominator.into(), Rounding::HalfUp);
    MassPerLength::from_ug_per_m(i64::try_from(micrograms).unwrap_or(i64::MAX))
}
