//! What tests, the benchmark and fuzzers share.

pub mod client;
pub mod instructions;
pub mod raw;
pub mod robust;
