//! How much at once.
//!
//! | module | question |
//! |---|---|
//! | here | what a need becomes at a supplier who sells bolts and has a least order |
//! | [`economic`] | what quantity costs least over the year, and what another costs |
//! | [`newsvendor`] | how much of something that is bought once |
//!
//! A need is rounded **up** to whole bolts and to the least order: less would leave the shelf
//! under its level. A quantity that only has to cost little is rounded to whichever
//! neighbour costs less ([`economic`]).
//!
//! Example: bolts of 5 m, least order 10 m. A need of 3 m becomes 10 m, one of 11 m 15 m.
//! Source: arithmetic.

pub mod economic;
pub mod newsvendor;

use super::{Error, number};

/// How a supplier sells a fabric: whole bolts, and at least so much at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lot {
    bolt: i64,
    least: i64,
}

impl Lot {
    /// Bolts of `bolt` units, 1 to 10¹², and a least order of `least` units, 0 to 10¹². Cloth
    /// by the unit is a bolt of 1.
    pub fn new(bolt: i64, least: i64) -> Result<Self, Error> {
        number::amount("bolt length", bolt, 1, "1 to 10^12")?;
        number::amount("least order", least, 0, "0 to 10^12")?;
        Ok(Self { bolt, least })
    }

    /// The least amount that can be ordered and is not below `need`; nought for a need of
    /// nought or below.
    ///
    /// ```
    /// use pennantry_forecast::supply::lot::Lot;
    /// let lot = Lot::new(500, 1_000)?;
    /// assert_eq!((lot.round(300)?, lot.round(1_100)?, lot.round(1_500)?), (1_000, 1_500, 1_500));
    /// assert_eq!(lot.round(0)?, 0);
    /// # Ok::<(), pennantry_forecast::supply::Error>(())
    /// ```
    pub fn round(&self, need: i64) -> Result<i64, Error> {
        if need <= 0 {
            return Ok(0);
        }
        // a position may be below nought by several shelves; a bolt more is still 64 bits
        let most = 4 * number::MOST;
        if need > most {
            return Err(Error::Whole { what: "need", value: need, allowed: "up to 4 * 10^12" });
        }
        let wanted = need.max(self.least);
        let over = wanted % self.bolt;
        Ok(if over == 0 { wanted } else { wanted - over + self.bolt })
    }

    /// How many bolts an amount is; a bolt begun is a bolt.
    pub fn bolts(&self, amount: i64) -> i64 {
        let amount = amount.max(0);
        amount / self.bolt + i64::from(amount % self.bolt != 0)
    }

    /// The amounts that can be ordered on either side of a quantity: the greatest not above it
    /// and the least not below; one and the same at the bottom.
    pub(super) fn beside(&self, quantity: f64) -> Result<(i64, i64), Error> {
        let up = self.round(number::whole_up("quantity", quantity)?.max(1))?;
        let down = up - self.bolt;
        let fits = down > 0 && down >= self.least;
        Ok((if fits && number::real(up) > quantity { down } else { up }, up))
    }
}
