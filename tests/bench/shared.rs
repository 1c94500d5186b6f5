//! What every benchmark needs: a folder, the middle of some values, and how it ends.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// A folder that goes with the value.
pub struct Folder(PathBuf);

impl Folder {
    /// Makes one, named after what is measured.
    pub fn new(name: &str) -> Result<Folder, String> {
        let folder = std::env::temp_dir().join(format!("pennantry-bench-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).map_err(told)?;
        Ok(Folder(folder))
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// A fault in words.
pub fn told(fault: impl std::fmt::Display) -> String {
    fault.to_string()
}

/// The one in the middle.
pub fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}

/// How a benchmark ends.
pub fn ended(measured: Result<(), String>) -> ExitCode {
    match measured {
        Ok(()) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("the benchmark stopped: {fault}");
            ExitCode::FAILURE
        }
    }
}

/// The server's program, beside this one.
pub fn program() -> Result<PathBuf, String> {
    let bench = std::env::current_exe().map_err(told)?;
    let program = bench.parent().ok_or("no folder")?.join("pennantryd");
    if program.exists() {
        return Ok(program);
    }
    Err(format!("build {} first: cargo build --release -p pennantryd", program.display()))
}
