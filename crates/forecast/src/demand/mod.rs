//! What a demand history says: how fast a fabric is used, of what kind its demand is,
//! which method foretells it best, and how far off that method has been.
//!
//! | module | from what to what |
//! |---|---|
//! | [`redate`] | returns and cancellations, moved to the day of the issue they reverse |
//! | [`days`] | days with open and closed flags, to open days, weeks and use per window |
//! | [`series`] | use per bucket, with the days on which there was something to use |
//! | [`censored`] | a rate from days of which only "at least so much" is known |
//! | [`class`] | smooth, erratic, intermittent or lumpy |
//! | [`one_off`] | jobs far out of the usual, counted for less in the rate |
//! | [`smooth`], [`intermittent`] | SES, Holt, damped Holt; Croston, SBA, SBJ, TSB, ADIDA, IMAPA |
//! | [`accuracy`] | RMSSE, pinball, bias and their like |
//! | [`season`] | a weekly index pooled over all fabrics |
//! | [`choose`] | the method by class and back-test, and what it foretells |
//! | [`kpi`] | ABC, days of cover, dead stock, wastage |
//!
//! Figures are doubles made of whole numbers of one unit, exact up to 2⁵³. Whatever is
//! not known is `None` or an outcome of its own, never nought, never a number that
//! stands for one.
//!
//! ```
//! use pennantry_forecast::demand::{class, intermittent};
//! // FPP2, section 12.2: 36 months of one product
//! let months = [0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, 3, 1, 0, 0, 1, 0, 1, 0, 0];
//! let months = months.map(f64::from);
//! assert_eq!(class::classify(&months)?.class, class::Class::Lumpy);
//! let croston = intermittent::croston(&months, 0.1, 0.1, None)?.rate();
//! assert!((croston - 0.985).abs() < 0.0005);
//! # Ok::<(), pennantry_forecast::demand::Error>(())
//! ```
//!
//! [`redate`]: crate::demand::redate
//! [`days`]: crate::demand::days
//! [`series`]: crate::demand::series
//! [`censored`]: crate::demand::censored
//! [`class`]: crate::demand::class
//! [`one_off`]: crate::demand::one_off
//! [`smooth`]: crate::demand::smooth
//! [`intermittent`]: crate::demand::intermittent
//! [`accuracy`]: crate::demand::accuracy
//! [`season`]: crate::demand::season
//! [`choose`]: crate::demand::choose
//! [`kpi`]: crate::demand::kpi

pub mod accuracy;
pub mod censored;
pub mod choose;
pub mod class;
pub mod days;
mod error;
pub mod intermittent;
pub mod kpi;
mod number;
pub mod one_off;
pub mod redate;
pub mod season;
pub mod series;
pub mod smooth;

pub use error::Error;

#[cfg(test)]
mod tests;
