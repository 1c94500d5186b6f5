//! What tests, the benchmark and fuzzers share.

pub mod robust;
