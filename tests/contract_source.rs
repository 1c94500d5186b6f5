//! The contract compiled from its source, without any tool outside Cargo.

use std::path::{Path, PathBuf};

use prost_reflect::DescriptorPool;

/// Every file of the contract that is ours, in the order of their names.
pub const FILES: [&str; 8] = [
    "pennantry/v1/catalogue_service.proto",
    "pennantry/v1/money.proto",
    "pennantry/v1/options.proto",
    "pennantry/v1/quote_service.proto",
    "pennantry/v1/report_service.proto",
    "pennantry/v1/reservation.proto",
    "pennantry/v1/reservation_service.proto",
    "pennantry/v1/stock_service.proto",
];

/// A path of the project, from its top.
pub fn top(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().join(path)
}

/// The contract, compiled.
pub struct Source {
    /// The set of all files, comments left out; options of ours and of others kept.
    pub bytes: Vec<u8>,
    /// The set of our own files with their comments, for making code. The options of
    /// others are lost in it, which is why `bytes` is not made from it.
    pub commented: prost_types::FileDescriptorSet,
    /// All files, to look things up in.
    pub pool: DescriptorPool,
}

/// Compiles `proto/`.
pub fn compile() -> Source {
    let compiler = |comments: bool| {
        let mut compiler = protox::Compiler::new([top("proto")]).unwrap();
        compiler.include_imports(true).include_source_info(comments);
        compiler.open_files(FILES).unwrap_or_else(|error| panic!("proto/ does not compile: {error}"));
        compiler
    };
    let bytes = compiler(false).encode_file_descriptor_set();
    let mut commented = compiler(true).file_descriptor_set();
    commented.file.retain(|file| file.package() == "pennantry.v1");
    assert_eq!(commented.file.len(), FILES.len(), "every file of the package is in FILES");
    Source { pool: DescriptorPool::decode(bytes.as_slice()).unwrap(), bytes, commented }
}

/// Every proto file in the folder is compiled: none lies there unread.
#[test]
fn contract_files_are_all_compiled() {
    let mut found: Vec<String> = std::fs::read_dir(top("proto/pennantry/v1"))
        .unwrap()
        .map(|entry| format!("pennantry/v1/{}", entry.unwrap().file_name().to_str().unwrap()))
        .collect();
    found.sort();
    assert_eq!(found, FILES);
}

/// Compares a committed file with what it should hold; with `UPDATE=1` writes it.
pub fn compare(path: &str, fresh: &[u8]) {
    let full = top(path);
    if std::env::var_os("UPDATE").is_some_and(|value| value == "1") {
        std::fs::create_dir_all(full.parent().unwrap()).unwrap();
        // Written only when different, so that nothing is built again for nothing.
        if std::fs::read(&full).ok().as_deref() != Some(fresh) {
            std::fs::write(&full, fresh).unwrap();
        }
        return;
    }
    let committed = std::fs::read(&full).unwrap_or_default();
    assert!(
        committed == fresh,
        "{path} is not what proto/ says{}: run UPDATE=1 cargo test -p pennantry-tests --test house contract, \
         and look at what changed",
        first_difference(&committed, fresh),
    );
}

fn first_difference(committed: &[u8], fresh: &[u8]) -> String {
    let (Ok(committed), Ok(fresh)) = (std::str::from_utf8(committed), std::str::from_utf8(fresh)) else {
        return String::new();
    };
    let mut old = committed.lines();
    let mut new = fresh.lines();
    for line in 1.. {
        match (old.next(), new.next()) {
            (None, None) => break,
            (was, is) if was == is => {}
            (was, is) => {
                return format!(
                    " (line {line}: it has {:?}, wanted {:?})",
                    was.unwrap_or("nothing"),
                    is.unwrap_or("nothing")
                );
            }
        }
    }
    String::new()
}
