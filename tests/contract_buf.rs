//! The contract as the linter of its format sees it: style, comments, and no breaking
//! change against the first release.
//!
//! The linter comes from npm by the lock file in `tests/npm`, into a folder of its own
//! outside the tree; nothing else is needed by hand but Node.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::LazyLock;

use crate::contract_source::top;

const BASELINE: &str = "tests/golden/contract-baseline.binpb";

/// The linter, installed when it is not there or when the lock file has changed.
static BUF: LazyLock<PathBuf> = LazyLock::new(|| {
    let cache = cache();
    let folder = cache.join("npm");
    let program = folder.join("node_modules/.bin/buf");
    let lock = std::fs::read(top("tests/npm/package-lock.json")).unwrap();
    if program.exists() && std::fs::read(folder.join("package-lock.json")).ok() == Some(lock) {
        return program;
    }
    std::fs::create_dir_all(&cache).unwrap();
    // Installed beside and moved into place whole, so that an install broken off half-way,
    // or two at once, leave nothing that looks finished.
    let fresh = tempfile::tempdir_in(&cache).unwrap();
    for name in ["package.json", "package-lock.json"] {
        std::fs::copy(top("tests/npm").join(name), fresh.path().join(name)).unwrap();
    }
    let install = Command::new("npm")
        .args(["ci", "--ignore-scripts", "--no-audit", "--no-fund"])
        .current_dir(fresh.path())
        .output()
        .unwrap_or_else(|error| panic!("npm is needed for the linter of the contract: {error}"));
    assert!(install.status.success(), "npm ci in tests/npm: {}", said(&install));
    let _ = std::fs::remove_dir_all(&folder);
    if let Err(error) = std::fs::rename(fresh.keep(), &folder) {
        assert!(program.exists(), "nothing was installed at {}: {error}", program.display());
    }
    program
});

/// Where tools of the tests are kept between runs.
fn cache() -> PathBuf {
    let named = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from);
    named("PENNANTRY_CACHE")
        .or_else(|| named("XDG_CACHE_HOME").map(|folder| folder.join("pennantry")))
        .or_else(|| named("HOME").map(|folder| folder.join(".cache/pennantry")))
        .unwrap_or_else(|| panic!("set PENNANTRY_CACHE to a folder for the tools of the tests"))
}

fn said(output: &Output) -> String {
    format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr))
}

fn buf(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(&*BUF).args(arguments).current_dir(folder).output().unwrap()
}

/// A copy of the contract in which one text is another.
fn changed(from: &str, to: &str) -> tempfile::TempDir {
    let copy = tempfile::tempdir().unwrap();
    copy_folder(&top("proto"), copy.path());
    let file = copy.path().join("pennantry/v1/quote_service.proto");
    let text = std::fs::read_to_string(&file).unwrap();
    assert_eq!(text.matches(from).count(), 1, "{from:?} is there once");
    std::fs::write(&file, text.replace(from, to)).unwrap();
    copy
}

fn copy_folder(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap().map(Result::unwrap) {
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy_folder(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).unwrap();
        }
    }
}

#[test]
fn contract_passes_the_linter() {
    let output = buf(&top("proto"), &["lint"]);
    assert!(output.status.success(), "{}", said(&output));
}

#[test]
fn contract_linter_finds_what_it_should() {
    let silent = changed("// The shape of a pennant.\n", "");
    let output = buf(silent.path(), &["lint"]);
    assert!(!output.status.success() && said(&output).contains("non-empty comment"), "{}", said(&output));
    let named = changed("  SHAPE_BLUNT = 2;", "  Blunt = 2;");
    let output = buf(named.path(), &["lint"]);
    assert!(!output.status.success() && said(&output).contains("SHAPE_"), "{}", said(&output));
}

/// The baseline is the first release. `UPDATE=1 BASELINE=1` writes it again, which is
/// right only before that.
#[test]
fn contract_breaks_nothing() {
    let baseline = top(BASELINE);
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| value == "1");
    if set("UPDATE") && set("BASELINE") {
        let path = baseline.to_str().unwrap().to_owned();
        let output = buf(&top("proto"), &["build", "--exclude-source-info", "-o", &path]);
        assert!(output.status.success(), "{}", said(&output));
    }
    let against = baseline.to_str().unwrap();
    let output = buf(&top("proto"), &["breaking", "--against", against]);
    assert!(output.status.success(), "the contract breaks its clients: {}", said(&output));
    // and it would be seen if it did
    let other = changed("double flagged_mm = 2 ", "double flagged_mm = 102 ");
    let output = buf(other.path(), &["breaking", "--against", against]);
    assert!(!output.status.success() && said(&output).contains("flagged_mm"), "{}", said(&output));
}
