//! Tools that come from npm by the lock file in `tests/npm`, into a folder of their own outside
//! the tree; nothing else is needed by hand but Node.

use std::path::PathBuf;
use std::process::{Command, Output};
use std::sync::LazyLock;

use crate::contract_source::top;

/// The folder with the tools, installed when it is not there or when the lock file has changed.
pub static NPM: LazyLock<PathBuf> = LazyLock::new(|| {
    let cache = cache();
    let folder = cache.join("npm");
    let lock = std::fs::read(top("tests/npm/package-lock.json")).unwrap();
    let is_there = || std::fs::read(folder.join("package-lock.json")).ok().as_ref() == Some(&lock);
    if folder.join("node_modules").exists() && is_there() {
        return folder;
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
        .unwrap_or_else(|error| panic!("npm is needed for tools of the tests: {error}"));
    assert!(install.status.success(), "npm ci in tests/npm: {}", said(&install));
    let _ = std::fs::remove_dir_all(&folder);
    if let Err(error) = std::fs::rename(fresh.keep(), &folder) {
        assert!(is_there(), "nothing was installed at {}: {error}", folder.display());
    }
    folder
});

/// Where tools of the tests are kept between runs.
fn cache() -> PathBuf {
    let named = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from);
    named("PENNANTRY_CACHE")
        .or_else(|| named("XDG_CACHE_HOME").map(|folder| folder.join("pennantry")))
        .or_else(|| named("HOME").map(|folder| folder.join(".cache/pennantry")))
        .unwrap_or_else(|| panic!("set PENNANTRY_CACHE to a folder for the tools of the tests"))
}

/// All that a program said.
pub fn said(output: &Output) -> String {
    format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr))
}
