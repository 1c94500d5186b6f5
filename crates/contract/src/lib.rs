//! The contract as code.
//!
//! Everything under `src/gen` is generated from `proto/` and committed: messages and
//! services ([`v1`]), their standard proto3 JSON, the descriptor, the [`table`]s and the
//! OpenAPI documents made from it. The tests `contract_fresh` and `contract_openapi` compare
//! them with `proto/`; run with `UPDATE=1` they write them. There is no build script and no other tool. Written by hand are the
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

/// What the public door answers, as OpenAPI 3.1.
pub const OPENAPI: &str = include_str!("gen/openapi.json");

/// What the JSON of the private door answers, as OpenAPI 3.1.
pub const OPENAPI_PRIVATE: &str = include_str!("gen/openapi-private.json");
