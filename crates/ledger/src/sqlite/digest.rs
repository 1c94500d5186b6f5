//! What a backup was when it was made: its SHA-256 (FIPS 180-4) in a file beside it, `NAME.sha256`,
//! in the words of `sha256sum`, which checks it as well: `sha256sum --check NAME.sha256`.

use std::fmt::Write as _;
use std::fs::{File, OpenOptions};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

use super::fail;
use super::files::{beside, settle};
use crate::engine::Error;

/// The name of the file with the digest of another one.
pub fn digest_of(file: &Path) -> PathBuf {
    beside(file, ".sha256")
}

/// Bytes that go through, and the digest of them.
pub(super) struct Through<W> {
    to: W,
    sum: Sha256,
}

impl<W: Write> Through<W> {
    pub(super) fn new(to: W) -> Through<W> {
        Through { to, sum: Sha256::new() }
    }

    /// What went through, in hexadecimal.
    pub(super) fn digest(self) -> String {
        let mut text = String::new();
        for byte in self.sum.finalize() {
            let _ = write!(text, "{byte:02x}");
        }
        text
    }
}

impl<W: Write> Write for Through<W> {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        let taken = self.to.write(bytes)?;
        self.sum.update(bytes.get(..taken).unwrap_or_default());
        Ok(taken)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        self.to.flush()
    }
}

/// The digest of a file.
fn read(file: &Path) -> std::io::Result<String> {
    let mut through = Through::new(std::io::sink());
    std::io::copy(&mut File::open(file)?, &mut through)?;
    Ok(through.digest())
}

/// Writes the digest of a file under its name to be, for its owner only.
pub(super) fn write(of: &Path, name: &Path, to: &Path) -> Result<(), Error> {
    let cannot =
        |error: std::io::Error| fail::file("the digest of a backup cannot be written to", to, &error);
    let digest = read(of).map_err(cannot)?;
    let name = name.file_name().unwrap_or_default().to_string_lossy().into_owned();
    // a stale one of something that is no longer there
    let _ = std::fs::remove_file(to);
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(to).map_err(cannot)?;
    writeln!(file, "{digest}  {name}").map_err(cannot)?;
    settle(to)
}

/// The digest that is kept of a file; none where none is.
pub(super) fn kept(of: &Path) -> Result<Option<String>, Error> {
    let beside = digest_of(of);
    let mut text = String::new();
    match File::open(&beside).and_then(|file| file.take(8 * 1024).read_to_string(&mut text)) {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(None),
        other => other
            .map_err(|error| fail::file("the digest of the backup cannot be read from", &beside, &error))?,
    };
    let digest = text.split_whitespace().next().unwrap_or_default().to_ascii_lowercase();
    if digest.len() == 64 && digest.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        return Ok(Some(digest));
    }
    Err(Error::Unfit(format!(
        "{} is not the digest of a file, which is 64 hexadecimal digits and a name: put the one back that was made \
         with the backup, or remove it to go on without",
        beside.display()
    )))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From the published examples of SHA-256: <https://csrc.nist.gov/projects/cryptographic-standards-and-guidelines/example-values>.
    #[test]
    fn the_digest_is_sha_256() {
        let mut through = Through::new(std::io::sink());
        through.write_all(b"abc").expect("it goes through");
        assert_eq!(through.digest(), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
