//! From an order to what it takes and costs.
//!
//! The modules stand in the order of the work: [`order`] (checked), [`layout`] and
//! [`hang`] (where each pennant sits), [`colours`] (which fabric where),
//! [`outline`] and [`cutting`] (the cloth, by a plan that cuts it), [`binding`],
//! [`thread`] and [`sundries`], [`labour`] (bench time), [`dates`] and [`ways`], [`mass`],
//! [`parcel`] and [`customs`], [`price`], [`child`] and [`paper`], and [`quote`], which does
//! all of it.
//! [`shop`] is what the catalogue says, in these measures.
//!
//! Nothing here reads a clock, a file or a hidden state, and every search is capped
//! by its steps: the same order at the same shop gives the same bits anywhere.

pub mod binding;
pub mod child;
pub mod colours;
pub mod customs;
pub mod cutting;
pub mod dates;
mod double;
#[cfg(test)]
pub(crate) mod fixture;
pub mod hang;
pub mod labour;
pub mod layout;
pub mod mass;
pub mod notice;
pub mod order;
pub mod outline;
pub mod paper;
pub mod parcel;
pub mod price;
pub mod quote;
pub mod rule;
pub mod shelf;
pub mod shop;
pub mod sundries;
#[cfg(test)]
pub(crate) mod table;
pub mod thread;
pub mod ways;
