//! A folder for one measurement.

use std::path::{Path, PathBuf};

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
