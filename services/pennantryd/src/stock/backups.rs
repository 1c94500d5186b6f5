//! The copy of every night.
//!
//! At 03:40 of the shop's clock the embedded stock is copied into `backups/` of the data
//! folder, as `stock-2026-11-30.sqlite`, and the last fourteen of these are kept (choices of
//! this program, no source), each with its digest beside it. A night that was missed, since the
//! server did not run, is made up for a minute after it runs again. What has another name is never
//! touched.

use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use pennantry_ledger::sqlite::digest_of;
use pennantry_ledger::{Error, Ledger};

use crate::start::make_private;

/// The folder in the data folder.
pub const FOLDER: &str = "backups";
/// When the copy is due, by the shop's clock: before the roads are awake, and clear of the
/// hours that clocks skip or repeat.
const DUE: Time = Time::constant(3, 40, 0, 0);
/// How many are kept.
const KEPT: usize = 14;

/// The night whose copy is the latest that is due.
fn night(now: Timestamp, zone: &TimeZone) -> Date {
    let local = zone.to_datetime(now);
    if local.time() >= DUE { local.date() } else { local.date().saturating_sub(1.day()) }
}

fn name(night: Date) -> String {
    format!("stock-{night}.sqlite")
}

/// The night that a file is the copy of, by its name; none where it is not one of these.
fn night_of(file: &str) -> Option<Date> {
    let night = file.strip_prefix("stock-")?.strip_suffix(".sqlite")?.parse().ok()?;
    (name(night) == file).then_some(night)
}

/// Makes the copy that is due, unless it is there. The file made, if one was.
///
/// # Errors
/// It cannot be made.
pub async fn make(
    ledger: &Ledger,
    folder: &Path,
    now: Timestamp,
    zone: &TimeZone,
) -> Result<Option<PathBuf>, Error> {
    let to = folder.join(name(night(now, zone)));
    if to.exists() {
        return Ok(None);
    }
    let cannot = |cause: io::Error| Error::Unavailable(format!("{}: {cause}", folder.display()));
    make_private(folder).map_err(cannot)?;
    match ledger.backup(&to).await {
        Ok(()) => Ok(Some(to)),
        // another server on the same folder was quicker
        Err(_) if to.exists() => Ok(None),
        Err(error) => Err(error),
    }
}

/// Removes all but the latest copies. What was removed.
///
/// # Errors
/// The folder cannot be read, or a file not removed.
pub fn prune(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut nights = BTreeSet::new();
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        let night = entry.file_name().to_str().and_then(night_of);
        if entry.file_type()?.is_file() {
            nights.extend(night);
        }
    }
    let mut removed = Vec::new();
    for night in nights.into_iter().rev().skip(KEPT) {
        let file = folder.join(name(night));
        std::fs::remove_file(&file)?;
        match std::fs::remove_file(digest_of(&file)) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            _ => {}
        }
        removed.push(file);
    }
    Ok(removed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stock::embedded;
    use pennantry_ledger::sqlite::Durability;

    fn london() -> TimeZone {
        TimeZone::get("Europe/London").unwrap()
    }

    #[test]
    fn the_night_is_the_shops() {
        let night = |instant: &str| night(instant.parse().unwrap(), &london()).to_string();
        assert_eq!(night("2026-11-30T03:39:59Z"), "2026-11-29");
        assert_eq!(night("2026-11-30T03:40:00Z"), "2026-11-30");
        assert_eq!(night("2026-11-30T23:59:59Z"), "2026-11-30");
        // an hour earlier by the world's clock in summer
        assert_eq!(
            (night("2026-07-01T02:39:59Z"), night("2026-07-01T02:40:00Z")),
            ("2026-06-30".to_owned(), "2026-07-01".to_owned())
        );
    }

    #[tokio::test]
    async fn a_copy_a_night_and_the_last_fourteen_are_kept() {
        let data = tempfile::tempdir().unwrap();
        let ledger = embedded(data.path(), Durability::Off).await.unwrap();
        let folder = data.path().join(FOLDER);
        let others =
            ["stock-2026-1-1.sqlite", "stock-2026-01-01.sqlite.old", "by-hand.sqlite", "stock-.sqlite"];
        std::fs::create_dir(&folder).unwrap();
        for other in others {
            std::fs::write(folder.join(other), "mine").unwrap();
        }
        std::fs::create_dir(folder.join("stock-2020-01-01.sqlite")).unwrap();
        let first: Timestamp = "2026-11-01T04:00:00Z".parse().unwrap();
        for day in 0..20_i64 {
            let now = first + (day * 24).hours();
            let made = make(&ledger, &folder, now, &london()).await.unwrap().expect("a copy");
            assert!(std::fs::metadata(&made).unwrap().len() > 0);
            assert_eq!(make(&ledger, &folder, now + 1.hour(), &london()).await, Ok(None), "once a night");
            let removed = prune(&folder).unwrap();
            assert_eq!(removed.len(), usize::from(day >= 14), "{removed:?}");
        }
        let mut left: Vec<String> = std::fs::read_dir(&folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .filter(|name| name.starts_with("stock-2026-11"))
            .collect();
        left.sort();
        // each with its digest, which goes with it
        assert!(left.iter().skip(1).step_by(2).all(|name| name.ends_with(".sqlite.sha256")), "{left:?}");
        left.retain(|name| name.ends_with(".sqlite"));
        assert_eq!(
            (left.len(), left[0].as_str(), left[13].as_str()),
            (14, "stock-2026-11-07.sqlite", "stock-2026-11-20.sqlite")
        );
        for other in others {
            assert_eq!(std::fs::read_to_string(folder.join(other)).unwrap(), "mine");
        }
        assert!(folder.join("stock-2020-01-01.sqlite").is_dir());
        ledger.close().await;
    }
}
