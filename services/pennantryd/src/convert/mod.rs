//! Between the contract and the domain: the only place where both are known.
//!
//! [`staff`] keeps what the shop alone may say out at the public door, [`enquiry`] reads what is asked, [`answer`] writes what it comes to,
//! [`ticket`] seals and opens it, [`events`] tells what happens to stock, [`catalogue`] what the shop offers,
//! [`stock`] reads and writes what is on the shelf, [`length`] the millimetres of both.

pub mod answer;
pub mod catalogue;
pub mod enquiry;
pub mod events;
pub mod fields;
pub mod force;
pub mod length;
pub mod report;
pub mod staff;
pub mod stock;
pub mod ticket;
pub mod words;
pub mod workings;
