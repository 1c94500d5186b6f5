//! What a level of service is a level of.
//!
//! | name | of what it is the share | other names |
//! |---|---|---|
//! | cycle service | order cycles in which nothing is refused | P1, type 1, CSL |
//! | fill rate | the amount asked for that is served from the shelf | P2, type 2, beta |
//!
//! The two are not the same and mostly far apart: with a lead-time demand of mean 80 and
//! sd 31.62, a reorder point of 120 and lots of 60, 89.7 % of cycles go without a
//! refusal and 97.4 % of the cloth is served. So a bare "95 %" says nothing, and every
//! answer here carries the [`Service`] it was made for. Source: Silver, Pyke and Peterson,
//! *Inventory Management and Production Planning and Scheduling*, 3rd edition, ch. 7 (names P1 and P2);
//! Nahmias, *Production and Operations Analysis*, ch. 5 (names type 1 and type 2).
//! Nothing is rounded.

use std::fmt;

use super::Error;

/// A level of service and what it is a level of: above 0 and below 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Service {
    kind: Kind,
    share: f64,
}

/// What a level of service is a level of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Of order cycles: the share in which nothing is refused.
    Cycle,
    /// Of amounts: the share that is served from the shelf.
    Fill,
}

impl Service {
    /// A cycle service.
    ///
    /// ```
    /// use pennantry_forecast::supply::service::Service;
    /// assert_eq!(Service::cycle(0.95)?.to_string(), "cycle service 95 %");
    /// assert!(Service::cycle(95.0).is_err());
    /// # Ok::<(), pennantry_forecast::supply::Error>(())
    /// ```
    pub fn cycle(share: f64) -> Result<Self, Error> {
        Self::new(Kind::Cycle, "cycle service", share)
    }

    /// A fill rate.
    pub fn fill(share: f64) -> Result<Self, Error> {
        Self::new(Kind::Fill, "fill rate", share)
    }

    fn new(kind: Kind, what: &'static str, share: f64) -> Result<Self, Error> {
        if (LEAST..=MOST).contains(&share) {
            Ok(Self { kind, share })
        } else {
            let allowed = "a share above 0 and below 1, from 0.000001 to 0.999999";
            Err(Error::Figure { what, value: share, allowed })
        }
    }

    /// What it is a level of.
    pub fn kind(self) -> Kind {
        self.kind
    }

    /// The share.
    pub fn share(self) -> f64 {
        self.share
    }
}

/// A millionth: beyond it no history of a shop says anything.
const LEAST: f64 = 1e-6;
/// One less a millionth.
const MOST: f64 = 1.0 - LEAST;

impl fmt::Display for Service {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = match self.kind {
            Kind::Cycle => "cycle service",
            Kind::Fill => "fill rate",
        };
        // to the nearest ten-thousandth of a percent, as many digits as that needs
        let percent = (self.share * 1e6).round() / 1e4;
        write!(f, "{name} {percent} %")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_level_is_a_share_and_has_a_name() {
        for share in [0.0, 1.0, -0.5, 95.0, f64::NAN, f64::INFINITY] {
            assert!(Service::cycle(share).is_err() && Service::fill(share).is_err(), "{share}");
        }
        assert_eq!(Service::fill(0.98).unwrap().to_string(), "fill rate 98 %");
        assert_eq!(Service::cycle(0.9995).unwrap().to_string(), "cycle service 99.95 %");
        assert_ne!(Service::fill(0.9), Service::cycle(0.9));
    }
}
