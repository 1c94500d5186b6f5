//! The server of the shop, as a library so that tests can call its parts.

pub mod catalogue;
pub mod json;
pub mod clock;
pub mod convert;
pub mod failure;
pub mod service;
