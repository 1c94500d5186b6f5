//! The server of the shop, as a library so that tests can call its parts.

pub mod json;
