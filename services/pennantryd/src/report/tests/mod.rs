//! What the report looks like, read back.
//!
//! Where `PENNANTRY_LOOK` names a folder, every kind of page is written there, to be looked at.

mod drawing;
mod least;
mod page;
mod said;
mod shop;
mod tables;
