//! Tests of the whole house, as one program.
//!
//! Modules are marked as tests, so that the lints that spare tests spare what the
//! tests share as well.

#[cfg(test)]
mod contract_buf;
#[cfg(test)]
mod contract_freeze;
#[cfg(test)]
mod contract_fresh;
#[cfg(test)]
mod contract_rules;
#[cfg(test)]
mod contract_source;
#[cfg(test)]
mod contract_tables;
#[cfg(test)]
mod contract_views;
#[cfg(test)]
mod tidy;
#[cfg(test)]
mod views;
#[cfg(test)]
mod instructions;
#[cfg(test)]
mod readme;
