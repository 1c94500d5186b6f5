//! The contract as code.
//!
//! Everything under `src/gen` is generated from `proto/` and committed: messages and
//! services ([`v1`]), their standard proto3 JSON, the descriptor and the [`table`]s made
//! from it. The test `contract_fresh` compares them with `proto/`; run with `UPDATE=1`
//! it writes them. There is no build script and no other tool. Written by hand are the
//! types of the tables and the one table of error [`reasons`].

pub mod reasons;
pub mod table;

/// Messages, services and their JSON, package `pennantry.v1`.
#[allow(clippy::all, clippy::pedantic, reason = "generated code is read in proto/, and fixed there")]
pub mod v1 {
    include!("gen/pennantry.v1.rs");
    include!("gen/pennantry.v1.serde.rs");
}

/// The descriptor: a `google.protobuf.FileDescriptorSet` with every file of the contract
/// and all that they import, options kept, comments left out. For server reflection.
pub const DESCRIPTOR: &[u8] = include_bytes!("gen/descriptor.bin");
