//! The catalogue as a file on disk.

use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use super::{Loaded, Mistake, open};

/// Bytes of a catalogue file at most: 500 fabrics take about an eighth of it.
pub const MOST_BYTES: u64 = 1024 * 1024;

/// Why there is no catalogue in a file.
#[derive(Debug, thiserror::Error)]
pub enum LoadError {
    /// The file cannot be read.
    #[error("{} cannot be read ({cause}): name a catalogue file that this program may read", path.display())]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// Why.
        #[source]
        cause: io::Error,
    },
    /// The file is larger than any catalogue.
    #[error("{} is larger than {MOST_BYTES} bytes, the most a catalogue may have: is it the right file?", path.display())]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// The file is not text.
    #[error("{}, line {line}: this is not UTF-8 text: save the file as UTF-8", path.display())]
    NotText {
        /// The file.
        path: PathBuf,
        /// The line of the first byte that is not.
        line: usize,
    },
    /// The file is text with mistakes in it.
    #[error("{} has {}", path.display(), told(mistakes))]
    Mistakes {
        /// The file.
        path: PathBuf,
        /// All of them, in the order of the lines.
        mistakes: Vec<Mistake>,
    },
}

fn told(mistakes: &[Mistake]) -> String {
    let lines: Vec<String> = mistakes.iter().map(Mistake::to_string).collect();
    format!("{}:\n{}", count(mistakes.len(), "mistake"), lines.join("\n"))
}

fn count(count: usize, thing: &str) -> String {
    if count == 1 { format!("1 {thing}") } else { format!("{count} {thing}s") }
}

/// Reads a catalogue from a file.
///
/// # Errors
/// See [`LoadError`].
pub fn load(path: impl AsRef<Path>) -> Result<Loaded, LoadError> {
    let path = path.as_ref().to_owned();
    let bytes = match bytes(&path) {
        Ok(bytes) => bytes,
        Err(cause) => return Err(LoadError::Unreadable { path, cause }),
    };
    if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > MOST_BYTES {
        return Err(LoadError::TooLarge { path });
    }
    match std::str::from_utf8(&bytes) {
        Ok(text) => open(text).map_err(|mistakes| LoadError::Mistakes { path, mistakes }),
        Err(fault) => {
            let before = bytes.iter().take(fault.valid_up_to());
            let line = 1 + before.filter(|byte| **byte == b'\n').count();
            Err(LoadError::NotText { path, line })
        }
    }
}

/// The file's bytes, one more than the most at most.
fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(MOST_BYTES + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// What there is to say about a catalogue file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Report {
    /// Lines to print: what was read, or every mistake and then how many.
    pub lines: Vec<String>,
    /// Whether the file can be put in force.
    pub passed: bool,
}

/// Looks a catalogue file through.
pub fn check(path: impl AsRef<Path>) -> Report {
    match load(path) {
        Ok(loaded) => {
            let shop = &loaded.shop;
            let line = format!(
                "{}: {}, {}, {}, {}, {}, revision {}",
                shop.name,
                count(shop.designs.len(), "design"),
                count(shop.fabrics.len(), "fabric"),
                count(shop.bindings.len(), "binding"),
                count(shop.trimmings.len(), "trimming"),
                count(shop.methods.len(), "method"),
                loaded.revision
            );
            Report { lines: vec![line], passed: true }
        }
        Err(LoadError::Mistakes { path, mistakes }) => {
            let mut lines: Vec<String> = mistakes.iter().map(Mistake::to_string).collect();
            lines.push(format!("{} in {}", count(mistakes.len(), "mistake"), path.display()));
            Report { lines, passed: false }
        }
        Err(other) => Report { lines: vec![other.to_string()], passed: false },
    }
}
