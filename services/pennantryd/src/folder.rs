//! Folders that go when whoever made them does.

use std::io;
use std::path::{Path, PathBuf};

use uuid::Uuid;

use crate::start::make_private;

/// A folder for its owner alone, with all that is in it, until this is dropped.
#[derive(Debug)]
pub struct Folder(PathBuf);

impl Folder {
    /// Makes one where the system keeps what is not to last.
    ///
    /// # Errors
    /// It cannot be made.
    pub fn make() -> io::Result<Folder> {
        let folder = std::env::temp_dir().join(format!("pennantryd-{}", Uuid::now_v7()));
        make_private(&folder).map(|()| Folder(folder))
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        if let Err(cause) = std::fs::remove_dir_all(&self.0) {
            tracing::warn!(%cause, folder = %self.0.display(), "a temporary folder is left over");
        }
    }
}
