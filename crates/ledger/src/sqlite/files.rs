//! Files beside the stock's file.

use std::ffi::OsString;
use std::fs::File;
use std::path::{Path, PathBuf};

use super::fail;
use crate::engine::Error;

/// What SQLite keeps beside a file while it is open.
pub(super) const COMPANIONS: [&str; 3] = ["-wal", "-shm", "-journal"];

/// The path with something added to its name.
pub(super) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(ending);
    PathBuf::from(name)
}

/// Waits until the disk has a file and its name.
pub(super) fn settle(path: &Path) -> Result<(), Error> {
    let wait = |path: &Path| File::open(path).and_then(|file| file.sync_all());
    wait(path).map_err(|error| fail::file("the disk did not take", path, &error))?;
    settle_folder(path)
}

/// Waits until the disk has the names in the folder of a file.
pub(super) fn settle_folder(path: &Path) -> Result<(), Error> {
    #[cfg(unix)]
    {
        let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        File::open(folder)
            .and_then(|file| file.sync_all())
            .map_err(|error| fail::file("the disk did not take the names in", folder, &error))?;
    }
    #[cfg(not(unix))]
    let _ = path;
    Ok(())
}

/// Removes a file and what SQLite keeps beside it, as far as it is there.
pub(super) fn remove(path: &Path) {
    let _ = std::fs::remove_file(path);
    for ending in COMPANIONS {
        let _ = std::fs::remove_file(beside(path, ending));
    }
}
