//! Copies as of one instant, and putting one back.

use std::fs::{File, OpenOptions};
use std::io::Read;
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::backup::{Backup, StepResult};
use rusqlite::{Connection, OpenFlags};

use super::files::{COMPANIONS, beside, remove, settle, settle_folder};
use super::{connect, digest, fail, migrate, verify};
use crate::engine::{Error, Verified};

/// Copies a store that any program may have open into a file that is not there yet, as it is: one of
/// an older program stays one, and is brought up to this one where it is put back.
///
/// The copy is made in one step under one read lock, into a file beside the one asked for;
/// it is looked through, waited for until the disk has it, and only then given its name. Its
/// digest goes into a file beside it.
///
/// # Errors
/// [`Error::Unfit`] where it is not one of stock, of a newer program or made by other migrations, or
/// where there is a file; otherwise as it cannot be read or written.
pub fn back_up(from: &Path, to: &Path, patience: Duration) -> Result<(), Error> {
    connect::is_file(from)?;
    connect::is_file(to)?;
    if to.exists() {
        return Err(there(to));
    }
    has_stock(from, patience)?;
    let part = fresh(to)?;
    let made_digest = beside(&part, ".sha256");
    let made = copy(from, &part, patience)
        .and_then(|()| whole(&part))
        .and_then(|()| settle(&part))
        .and_then(|()| digest::write(&part, to, &made_digest));
    // a second name, where a name that is taken is refused; the first one goes after
    let named = made.and_then(|()| {
        std::fs::hard_link(&part, to).map_err(|error| match error.kind() {
            std::io::ErrorKind::AlreadyExists => there(to),
            _ => fail::file("the backup cannot be given its name", to, &error),
        })
    });
    remove(&part);
    // only once the name is ours: the digest of somebody else's backup stays as it is
    let named = named.and_then(|()| {
        let digest = digest::digest_of(to);
        std::fs::rename(&made_digest, &digest)
            .map_err(|error| fail::file("the digest of the backup cannot be given its name", &digest, &error))
    });
    let _ = std::fs::remove_file(&made_digest);
    named?;
    settle_folder(to)
}

/// Refuses what is no stock that this program knows.
fn has_stock(from: &Path, patience: Duration) -> Result<(), Error> {
    let connection = connect::reading(from, patience).map_err(fail::reading)?;
    match migrate::check(&connection, migrate::MIGRATIONS, &from.display().to_string())? {
        0 => Err(Error::Unfit(format!("{} has no stock in it", from.display()))),
        _ => Ok(()),
    }
}

fn there(to: &Path) -> Error {
    Error::Unfit(format!(
        "{} is there already, and a backup replaces nothing: name another file",
        to.display()
    ))
}

/// An empty file beside another one, for its owner only.
fn fresh(to: &Path) -> Result<PathBuf, Error> {
    let part = beside(to, &format!(".{}.part", std::process::id()));
    remove(&part);
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(&part).map_err(|error| fail::file("a copy cannot be begun at", &part, &error))?;
    Ok(part)
}

fn copy(from: &Path, part: &Path, patience: Duration) -> Result<(), Error> {
    let source = connect::reading(from, patience).map_err(fail::reading)?;
    let mut target = connect::bare(part, OpenFlags::SQLITE_OPEN_READ_WRITE).map_err(fail::reading)?;
    let step = {
        let backup = Backup::new(&source, &mut target).map_err(fail::reading)?;
        backup.step(-1).map_err(fail::reading)?
    };
    match step {
        StepResult::Done => Ok(()),
        other => Err(Error::Unavailable(format!("the copy was not finished: {other:?}"))),
    }
}

/// Looks whether a file nobody else has open is whole, and can be served as it is.
fn whole(part: &Path) -> Result<(), Error> {
    let connection = connect::bare(part, OpenFlags::SQLITE_OPEN_READ_WRITE).map_err(fail::reading)?;
    connection.pragma_update_and_check(None, "journal_mode", "WAL", |_| Ok(())).map_err(fail::reading)?;
    let said: String =
        connection.query_row("PRAGMA integrity_check", [], |row| row.get(0)).map_err(fail::reading)?;
    if said != "ok" {
        return Err(Error::Unfit(format!("the copy {} is not whole: {said}", part.display())));
    }
    let mut broken = connection.prepare("PRAGMA foreign_key_check").map_err(fail::reading)?;
    if broken.exists([]).map_err(fail::reading)? {
        return Err(Error::Unfit(format!(
            "the copy {} has rows that name what is not there",
            part.display()
        )));
    }
    Ok(())
}

/// A backup that was put back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Restored {
    /// What was looked at.
    pub verified: Verified,
    /// Whether it was compared with a digest that lies beside it.
    pub digest_agrees: bool,
    /// How many migrations brought it up to this program.
    pub migrations: usize,
}

/// Puts a backup in the place of a store that nobody has open, and keeps what was there under
/// another name, which the caller chooses (with a date, say) and which must not be taken.
///
/// The backup is copied beside the store, for its owner only, and looked through before anything is
/// replaced: as long as it says, the same as when its digest was written where one lies beside it,
/// whole, of a schema that is known; brought up to this program's, every balance recomputed.
///
/// # Errors
/// [`Error::Unfit`] where the backup is not whole or not of stock, where something in it does not
/// agree, where the store is open, or where the other name is taken.
pub fn restore(from: &Path, to: &Path, keep_as: &Path) -> Result<Restored, Error> {
    connect::is_file(from)?;
    connect::is_file(to)?;
    if keep_as.exists() {
        return Err(Error::Unfit(format!(
            "{} is there already: name another file to keep the old stock in",
            keep_as.display()
        )));
    }
    let part = fresh(to)?;
    let ready = ready_copy(from, &part);
    let done = ready.and_then(|restored| replace(&part, to, keep_as).map(|()| restored));
    remove(&part);
    done
}

fn ready_copy(from: &Path, part: &Path) -> Result<Restored, Error> {
    let digest = digest::kept(from)?;
    let has_log = std::fs::metadata(beside(from, "-wal")).is_ok_and(|log| log.len() > 0);
    if has_log {
        if digest.is_some() {
            return Err(Error::Unfit(format!(
                "{} has been written since its digest was, and has a log beside it: put another backup back, or \
                 remove {} to go on without",
                from.display(),
                digest::digest_of(from).display()
            )));
        }
        copy(from, part, Duration::from_secs(10))?;
    } else {
        let is = bytes(from, part)?;
        if digest.as_ref().is_some_and(|digest| *digest != is) {
            return Err(Error::Unfit(format!(
                "{} is not what it was when its digest was written: its SHA-256 is {is}, {} says {}; put another \
                 backup back",
                from.display(),
                digest::digest_of(from).display(),
                digest.unwrap_or_default()
            )));
        }
        is_as_long_as_it_says(from, part)?;
    }
    whole(part)?;
    let connection = connect::bare(part, OpenFlags::SQLITE_OPEN_READ_WRITE).map_err(fail::reading)?;
    let had = migrate::check(&connection, migrate::MIGRATIONS, &from.display().to_string())?;
    if had == 0 {
        return Err(Error::Unfit(format!("{} has no stock in it", from.display())));
    }
    connect::migrated(&connection, from)?;
    let verified = verify::verify(&connection)?;
    if !verified.drift.is_empty() {
        return Err(Error::Unfit(format!(
            "{} is not put back, since it does not agree with itself: {}",
            from.display(),
            verified.drift.join("; ")
        )));
    }
    drop(connection);
    settle(part)?;
    let migrations = migrate::MIGRATIONS.len().saturating_sub(had);
    Ok(Restored { verified, digest_agrees: digest.is_some(), migrations })
}

/// Copies nothing but the file, so that a backup on a disk that cannot be written will do; its
/// digest.
fn bytes(from: &Path, part: &Path) -> Result<String, Error> {
    let cannot = |error: std::io::Error| fail::file("the backup cannot be copied from", from, &error);
    let target = OpenOptions::new().write(true).truncate(true).open(part);
    let mut through =
        digest::Through::new(target.map_err(|error| fail::file("a copy cannot be made at", part, &error))?);
    let mut source = File::open(from).map_err(cannot)?;
    std::io::copy(&mut source, &mut through).map_err(cannot)?;
    Ok(through.digest())
}

/// SQLite takes what is missing of a last page for noughts. The header says how many pages there
/// are and how long each is: bytes 28 and 16 of <https://www.sqlite.org/fileformat2.html>.
fn is_as_long_as_it_says(from: &Path, part: &Path) -> Result<(), Error> {
    let cannot = |error: std::io::Error| fail::file("the copy cannot be read from", part, &error);
    let mut file = File::open(part).map_err(cannot)?;
    let is = file.metadata().map_err(cannot)?.len();
    let mut header = [0_u8; 100];
    // what has no header is told of where it is opened
    if is < 100 || file.read_exact(&mut header).is_err() || !header.starts_with(b"SQLite format 3\0") {
        return Ok(());
    }
    let number = |at: usize| {
        header.get(at..at + 4).map_or(0, |four| four.iter().fold(0, |all, byte| all << 8 | u64::from(*byte)))
    };
    // the number of pages holds where it was written with the last change
    if number(24) != number(92) || number(28) == 0 {
        return Ok(());
    }
    let page = match number(14) & 0xffff {
        1 => 65_536,
        page => page,
    };
    let says = page.saturating_mul(number(28));
    if is == says {
        return Ok(());
    }
    Err(Error::Unfit(format!(
        "{} is {is} bytes long and says that it has {says}: it was cut short or added to; put another backup back",
        from.display()
    )))
}

/// Gives the copy the store's name. The old file is locked until that is done, and never
/// missing: it has a second name before the first one is given away.
fn replace(part: &Path, to: &Path, keep_as: &Path) -> Result<(), Error> {
    let renamed =
        |error: std::io::Error| fail::file("the stock's file cannot be renamed to", keep_as, &error);
    let lock = if to.exists() { alone(to)? } else { None };
    if to.exists() {
        std::fs::hard_link(to, keep_as).map_err(renamed)?;
    }
    for ending in COMPANIONS {
        let companion = beside(to, ending);
        if companion.exists() {
            std::fs::rename(&companion, beside(keep_as, ending)).map_err(renamed)?;
        }
    }
    std::fs::rename(part, to).map_err(|error| fail::file("the backup cannot be renamed to", to, &error))?;
    settle_folder(to)?;
    drop(lock);
    Ok(())
}

/// A lock on a store that nobody else has open, with its log worked into it. None where the
/// file is none that SQLite can read: then nobody can serve it either.
fn alone(to: &Path) -> Result<Option<Connection>, Error> {
    let locked = connect::bare(to, OpenFlags::SQLITE_OPEN_READ_WRITE).and_then(|connection| {
        connection.busy_timeout(Duration::from_millis(500))?;
        // leaving the log is possible only where no other connection has the file open
        connection.pragma_update_and_check(None, "journal_mode", "DELETE", |_| Ok(()))?;
        // only then, since whoever is alone for good leaves a journal where it lies
        connection.pragma_update_and_check(None, "locking_mode", "EXCLUSIVE", |_| Ok(()))?;
        connection.execute_batch("BEGIN EXCLUSIVE")?;
        Ok(connection)
    });
    match locked {
        Ok(connection) => Ok(Some(connection)),
        Err(error) if fail::is_busy(&error) => {
            Err(Error::Unfit(format!("{} is open in another process: stop the server first", to.display())))
        }
        Err(error) => match fail::reading(error) {
            Error::Unfit(_) => Ok(None),
            other => Err(other),
        },
    }
}
