//! What a stock needs.
//!
//! | module | answers |
//! |---|---|
//! | [`normal`](crate::supply::normal), [`counts`](crate::supply::counts) | the distributions behind the formulas |
//! | [`service`](crate::supply::service) | what a service level is a level of: cycles or amounts |
//! | [`lead`](crate::supply::lead) | demand in a lead time: exactly, or by a seeded bootstrap |
//! | [`safety`](crate::supply::safety) | safety stock, reorder point, order-up-to level |
//! | [`lot`](crate::supply::lot) | how much at once: economic quantity, bolts and minimums, one-off buys |
//! | [`policy`](crate::supply::policy) | reorder point and quantity together |
//! | [`day`](crate::supply::day), [`position`](crate::supply::position), [`project`](crate::supply::project) | open days, what is there and coming, how it goes down |
//! | [`propose`](crate::supply::propose) | what to order of one fabric, by when, or why nothing |
//!
//! Amounts of stock are whole units of the caller's (centimetres, say) and stay whole:
//! `i64`, added exactly. Only statistics are `f64`. A level that comes out of a statistic
//! becomes whole by rounding up. No figure that leaves is infinite or not a number: what
//! cannot be computed is an [`Error`](crate::supply::Error) that says which value and what is allowed.

pub mod counts;
pub mod day;
mod error;
pub mod lead;
pub mod lot;
pub mod normal;
mod number;
pub mod policy;
pub mod position;
pub mod project;
pub mod propose;
pub mod safety;
pub mod service;

#[cfg(test)]
mod tests;

pub use error::Error;
