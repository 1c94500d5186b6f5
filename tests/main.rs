//! Tests of the whole house, as one program.
//!
//! Modules are marked as tests, so that the lints that spare tests spare what the
//! tests share as well.

#[cfg(test)]
mod bad_input;
#[cfg(test)]
mod browser;
#[cfg(test)]
mod calls;
#[cfg(test)]
mod catalogue;
#[cfg(test)]
mod child;
#[cfg(test)]
mod contract_buf;
#[cfg(test)]
mod contract_freeze;
#[cfg(test)]
mod contract_fresh;
#[cfg(test)]
mod contract_openapi;
#[cfg(test)]
mod contract_rules;
#[cfg(test)]
mod contract_source;
#[cfg(test)]
mod contract_tables;
#[cfg(test)]
mod contract_views;
#[cfg(test)]
mod counts;
#[cfg(test)]
mod deploy;
#[cfg(test)]
mod described;
#[cfg(test)]
mod dice;
#[cfg(test)]
mod doors;
#[cfg(test)]
mod foreign;
#[cfg(test)]
mod golden;
#[cfg(test)]
mod instructions;
#[cfg(test)]
mod invariants;
#[cfg(test)]
mod paper;
#[cfg(test)]
mod patch;
#[cfg(test)]
mod paths;
#[cfg(test)]
mod postgres;
#[cfg(test)]
mod properties;
#[cfg(test)]
mod readme;
#[cfg(test)]
mod robust;
#[cfg(test)]
mod stock;
#[cfg(test)]
mod tidy;
#[cfg(test)]
mod tools;
#[cfg(test)]
mod twins;
#[cfg(test)]
mod views;
#[cfg(test)]
mod workings;
