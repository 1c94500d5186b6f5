//! Tools that come from npm and `PyPI` by the lock files in `tests/npm` and `tests/python`, each
//! into a folder of its own outside the tree; nothing else is needed by hand but Node and Python.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::LazyLock;

use crate::contract_source::top;

/// The folder with the tools from npm.
pub static NPM: LazyLock<PathBuf> = LazyLock::new(|| {
    installed("npm", &top("tests/npm/package-lock.json"), |folder| {
        std::fs::copy(top("tests/npm/package.json"), folder.join("package.json")).unwrap();
        let mut install = Command::new("npm");
        install.args(["ci", "--ignore-scripts", "--no-audit", "--no-fund"]).current_dir(folder);
        run(install, "npm");
    })
});

/// A Python with the packages from `PyPI`.
pub static PYTHON: LazyLock<PathBuf> = LazyLock::new(|| {
    let lock = top("tests/python/requirements.txt");
    let folder = installed("python", &lock, |folder| {
        let mut venv = Command::new("python3");
        venv.args(["-m", "venv"]).arg(folder.join("venv"));
        run(venv, "python3 with venv");
        let mut install = Command::new(folder.join("venv/bin/python"));
        install.args(["-m", "pip", "install", "--quiet", "--require-hashes", "--no-deps", "-r"]).arg(&lock);
        run(install, "pip");
    });
    folder.join("venv/bin/python")
});

/// The folder of what a lock file holds, made when it is not there or when the file has changed.
fn installed(name: &str, lock: &Path, install: impl FnOnce(&Path)) -> PathBuf {
    let cache = cache();
    let folder = cache.join(name);
    let wanted = std::fs::read(lock).unwrap();
    let file = lock.file_name().unwrap();
    let is_there = || std::fs::read(folder.join(file)).ok().as_ref() == Some(&wanted);
    if is_there() {
        return folder;
    }
    std::fs::create_dir_all(&cache).unwrap();
    // Installed beside and moved into place whole, so that an install broken off half-way,
    // or two at once, leave nothing that looks finished.
    let fresh = tempfile::tempdir_in(&cache).unwrap();
    std::fs::copy(lock, fresh.path().join(file)).unwrap();
    install(fresh.path());
    let _ = std::fs::remove_dir_all(&folder);
    if let Err(error) = std::fs::rename(fresh.keep(), &folder) {
        assert!(is_there(), "nothing was installed at {}: {error}", folder.display());
    }
    folder
}

fn run(mut command: Command, what: &str) {
    let done = command.output();
    let done = done.unwrap_or_else(|error| panic!("{what} is needed for tools of the tests: {error}"));
    assert!(done.status.success(), "{command:?}: {}", said(&done));
}

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
