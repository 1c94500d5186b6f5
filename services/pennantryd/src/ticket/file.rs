//! The keys in the data folder.
//!
//! One file, [`FILE`], for its owner alone. The first start makes it; every change writes a
//! new file beside it and puts that in its place, so that whoever reads it reads a whole one.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Write};
use std::os::unix::fs::{MetadataExt, OpenOptionsExt, PermissionsExt, fchown};
use std::path::Path;

use jiff::civil::Date;
use uuid::Uuid;

use super::keys::{MOST, new_word};
use super::{Fault, Keys};

/// Name of the file.
pub const FILE: &str = "ticket-keys";
/// The file that a rotation writes, and by which two of them do not meet.
const NEXT: &str = "ticket-keys.next";
/// Bytes of the file at most.
const MOST_BYTES: u64 = 64 * 1024;
const MODE: u32 = 0o600;
/// What the group and all others may do.
const OTHERS: u32 = 0o077;

const HEAD: &str = "\
# Keys of this shop's tickets, the newest first: it seals, all of them open. Whoever has one
# can make tickets that this shop takes for its own: keep this file to yourself.
# Servers that answer for one shop need the same file. `pennantryd keys rotate` puts a new key
# on top. Take the lowest out once the one above it is older than a quote holds.
";

/// Reads the keys of a data folder.
///
/// # Errors
/// What is wrong with the file, and what to do, in words for the operator.
pub fn load(folder: &Path) -> Result<Keys, String> {
    text(folder).and_then(|text| read(folder, &text))
}

/// Reads the keys of a data folder; makes one first where there is none.
///
/// # Errors
/// As [`load`], and where the file cannot be made.
pub fn load_or_make(folder: &Path, today: Date) -> Result<Keys, String> {
    let file = folder.join(FILE);
    if !file.try_exists().map_err(|cause| cannot_be(&file, "read", &cause))? {
        let beside = folder.join(format!("{FILE}.{}", Uuid::now_v7()));
        let word = new_word().map_err(|fault| told(&file, fault))?;
        let made = write_new(&beside, &format!("{HEAD}{word} since {today}\n"));
        // A link does not replace what another server has made meanwhile: its key stands.
        let linked = made.and_then(|()| fs::hard_link(&beside, &file));
        let removed = fs::remove_file(&beside);
        match linked {
            Err(cause) if cause.kind() != io::ErrorKind::AlreadyExists => {
                return Err(cannot_be(&file, "made", &cause));
            }
            _ => removed.and_then(|()| keep(folder)).map_err(|cause| cannot_be(&file, "made", &cause))?,
        }
    }
    load(folder)
}

/// Puts a new key on top of those that are there. What else the file says stays.
///
/// # Errors
/// As [`load`], and where there are as many keys as there may be, another rotation is under
/// way, or the file cannot be written.
pub fn rotate(folder: &Path, today: Date) -> Result<Keys, String> {
    let (file, next) = (folder.join(FILE), folder.join(NEXT));
    let word = new_word().map_err(|fault| told(&file, fault))?;
    // What is read is read while no other rotation can begin.
    if let Err(cause) = write_new(&next, "") {
        return Err(match cause.kind() {
            io::ErrorKind::AlreadyExists => format!(
                "{} is there: keys are being rotated by somebody else, or that broke off; if nobody is at it, remove that file",
                next.display()
            ),
            _ => cannot_be(&next, "made", &cause),
        });
    }
    let turned = turn(folder, &format!("{word} since {today}"));
    if turned.is_err() {
        // What went wrong is told; a file that stays is told by the next rotation.
        let _ = fs::remove_file(&next);
    }
    turned
}

fn turn(folder: &Path, line: &str) -> Result<Keys, String> {
    let (file, next) = (folder.join(FILE), folder.join(NEXT));
    let old = text(folder)?;
    if read(folder, &old)?.count() >= MOST {
        return Err(told(&file, Fault::TooMany));
    }
    let new = with_line(&old, line);
    let keys = read(folder, &new)?;
    let written = File::options().write(true).open(&next).and_then(|mut opened| {
        // Whoever rotates, the server goes on reading it.
        let before = fs::metadata(&file)?;
        let made = opened.metadata()?;
        if (made.uid(), made.gid()) != (before.uid(), before.gid()) {
            fchown(&opened, Some(before.uid()), Some(before.gid()))?;
        }
        opened.write_all(new.as_bytes())?;
        opened.sync_all()
    });
    written
        .and_then(|()| fs::rename(&next, &file))
        .and_then(|()| keep(folder))
        .map_err(|cause| cannot_be(&file, "written", &cause))?;
    Ok(keys)
}

/// The text with a line before its first key.
fn with_line(old: &str, line: &str) -> String {
    let says_nothing = |text: &&str| text.trim().is_empty() || text.trim_start().starts_with('#');
    let above = old.lines().take_while(says_nothing).count();
    let (before, after) = (old.lines().take(above), old.lines().skip(above));
    before.chain([line]).chain(after).flat_map(|line| [line, "\n"]).collect()
}

fn text(folder: &Path) -> Result<String, String> {
    let file = folder.join(FILE);
    let opened = File::open(&file).and_then(|opened| Ok((opened.metadata()?, opened)));
    let (about, opened) = opened.map_err(|cause| cannot_be(&file, "read", &cause))?;
    let mode = about.permissions().mode() & 0o777;
    if mode & OTHERS != 0 {
        return Err(format!(
            "{} is open to others (mode {mode:o}): they could make tickets; give it to its owner alone, \
             chmod 600, and if somebody may have read it, put new keys in",
            file.display()
        ));
    }
    let mut bytes = Vec::new();
    opened.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(|cause| cannot_be(&file, "read", &cause))?;
    if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > MOST_BYTES {
        return Err(format!(
            "{} has more than {MOST_BYTES} bytes: it is no file of keys; put the right one there",
            file.display()
        ));
    }
    String::from_utf8(bytes).map_err(|_| format!("{} is not text: put the right file there", file.display()))
}

fn read(folder: &Path, text: &str) -> Result<Keys, String> {
    Keys::read(text).map_err(|fault| told(&folder.join(FILE), fault))
}

fn told(file: &Path, fault: Fault) -> String {
    format!(
        "{}: {fault}; mend it, or put it back from where you keep a copy (without it, tickets given so far are lost)",
        file.display()
    )
}

fn cannot_be(file: &Path, what: &str, cause: &io::Error) -> String {
    format!("{} cannot be {what} ({cause}): it belongs to the user that runs this program", file.display())
}

/// Makes a file that is not there yet, for its owner alone, and has it on the disk.
fn write_new(path: &Path, text: &str) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).mode(MODE).open(path)?;
    file.write_all(text.as_bytes())?;
    file.sync_all()
}

/// Has the names in a folder on the disk.
fn keep(folder: &Path) -> io::Result<()> {
    File::open(folder)?.sync_all()
}
