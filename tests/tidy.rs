//! Rules of the house that a compiler does not know.

mod dependencies;
mod sources;
mod tree;

use std::path::{Path, PathBuf};
use std::process::Command;

/// The top of the tree.
fn top() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().expect("the tests lie one folder below the top").to_path_buf()
}

/// Every file that is or would be committed, from the top, in the order of names.
fn files() -> Vec<String> {
    let listed = Command::new("git")
        .args(["ls-files", "--cached", "--others", "--exclude-standard", "-z"])
        .current_dir(top())
        .output()
        .expect("git lists the files");
    assert!(listed.status.success(), "git ls-files: {}", String::from_utf8_lossy(&listed.stderr));
    let text = String::from_utf8(listed.stdout).expect("names of files are UTF-8");
    let mut names: Vec<String> =
        text.split('\0').filter(|name| !name.is_empty()).map(str::to_owned).collect();
    names.sort();
    names.dedup();
    // a file deleted but not yet committed is still listed
    names.retain(|name| top().join(name).is_file());
    assert!(names.len() > 20, "only {} files listed: is this a checkout?", names.len());
    names
}

/// The text of a file, or nothing where it is not text.
fn text(name: &str) -> Option<String> {
    let bytes = std::fs::read(top().join(name)).expect("a listed file can be read");
    String::from_utf8(bytes).ok()
}

/// Whether a file is Rust.
fn is_rust(name: &str) -> bool {
    Path::new(name).extension().is_some_and(|ending| ending == "rs")
}

/// Fails with every complaint, one a line.
fn none(what: &str, complaints: &[String]) {
    assert!(complaints.is_empty(), "{what}:\n{}", complaints.join("\n"));
}
