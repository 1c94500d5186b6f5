//! Between the contract and the domain: the only place where both are known.
//!
//! [`enquiry`] reads what is asked, [`answer`] writes what it comes to,
//! [`catalogue`] what the shop offers, [`length`] the millimetres of both.

pub mod answer;
pub mod catalogue;
pub mod enquiry;
pub mod fields;
pub mod force;
pub mod length;
pub mod words;
pub mod workings;
