//! The generated code of the contract is what `proto/` says.
//!
//! `UPDATE=1` writes it. Change `proto/` and write before changing code that uses the
//! new names: these tests are built together with the code they generate.

use prost::Message as _;

use crate::contract_source::{Source, compare, compile};
use crate::contract_tables;

const FOLDER: &str = "crates/contract/src/gen";
const HEAD: &str =
    "// Generated from proto/ by tests/contract_fresh.rs (UPDATE=1 cargo test); never edited by hand.\n";

/// Messages and services, as prost and tonic have them.
fn messages(source: &Source) -> String {
    let folder = tempfile::tempdir().unwrap();
    tonic_prost_build::configure().out_dir(folder.path()).compile_fds(source.commented.clone()).unwrap();
    let code = std::fs::read_to_string(folder.path().join("pennantry.v1.rs")).unwrap();
    format!("{HEAD}{code}")
}

/// Standard proto3 JSON: lowerCamelCase, zeros printed, presence kept, unknown keys refused.
fn json(source: &Source) -> String {
    let written = pbjson_build::Builder::new()
        .register_descriptors(&source.commented.encode_to_vec())
        .unwrap()
        .emit_fields()
        // The option of ours is read by tables, never sent.
        .exclude([".pennantry.v1.FieldRule", ".pennantry.v1.Audience"])
        .generate(&[".pennantry"], |_| Ok(Vec::new()))
        .unwrap();
    let [(_, code)] = <[_; 1]>::try_from(written).unwrap_or_else(|_| panic!("one package, one file"));
    tidy(&String::from_utf8(code).unwrap())
}

fn tidy(code: &str) -> String {
    let parsed = syn::parse_file(code).unwrap_or_else(|error| panic!("generated code: {error}"));
    format!("{HEAD}{}", prettyplease::unparse(&parsed))
}

#[test]
fn contract_fresh_code() {
    let source = compile();
    compare(&format!("{FOLDER}/pennantry.v1.rs"), messages(&source).as_bytes());
    compare(&format!("{FOLDER}/pennantry.v1.serde.rs"), json(&source).as_bytes());
}

#[test]
fn contract_fresh_descriptor() {
    compare(&format!("{FOLDER}/descriptor.bin"), &compile().bytes);
}

#[test]
fn contract_fresh_tables() {
    let code = tidy(&contract_tables::emit(&compile().pool));
    compare(&format!("{FOLDER}/tables.rs"), code.as_bytes());
}
