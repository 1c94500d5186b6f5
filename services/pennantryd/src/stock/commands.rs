//! `pennantryd migrate`, `backup`, `restore` and `verify`: looking after the stock by hand.
//!
//! Each says on standard output what it did, and on standard error why it did not. They end
//! with 0 when it is done, with 1 when it is refused or something does not agree, with 2 when
//! it cannot be tried.

use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

use pennantry_ledger::sqlite::Durability;
use pennantry_ledger::{Error, Ledger, Verified, postgres, sqlite};

use super::{Database, FILE, backups, embedded, opened};
use crate::cli::{self, CANNOT_RUN, REFUSED};
use crate::clock::Clock;
use crate::start::make_private;
use crate::telemetry;

/// How long a copy waits for whoever has the file to itself.
const PATIENCE: Duration = Duration::from_secs(10);

/// Why a command did not do what it is for.
pub(crate) enum Fault {
    /// Refused, or something does not agree.
    Refused(String),
    /// It cannot be tried.
    CannotRun(String),
}

pub(crate) type Done = Result<String, Fault>;

pub(crate) fn told(done: Done) -> ExitCode {
    // Whoever has seen enough may close its end.
    match done {
        Ok(words) => {
            let _ = writeln!(io::stdout(), "{words}");
            ExitCode::SUCCESS
        }
        Err(Fault::Refused(words)) => {
            let _ = writeln!(io::stderr(), "{words}");
            ExitCode::from(REFUSED)
        }
        Err(Fault::CannotRun(words)) => {
            let _ = writeln!(io::stderr(), "{words}");
            ExitCode::from(CANNOT_RUN)
        }
    }
}

/// What is unfit is refused; what cannot be had may be there another time.
fn fault(error: Error) -> Fault {
    match error {
        Error::Unfit(words) => Fault::Refused(words),
        other => Fault::CannotRun(other.to_string()),
    }
}

fn begin() -> Result<(), Fault> {
    telemetry::start("warn").map_err(Fault::CannotRun)
}

/// Where a stock is.
pub(crate) enum Kept {
    /// In a data folder.
    Folder(PathBuf),
    /// In a database.
    Database(Database),
}

pub(crate) fn kept(at: &cli::Kept) -> Result<Kept, Fault> {
    match &at.database {
        Some(text) => Database::read(text).map(Kept::Database).map_err(Fault::CannotRun),
        None => Ok(Kept::Folder(at.data.clone())),
    }
}

/// The stock that is there, as it is: a folder without one is not given one, and one of an older
/// program is not brought up to this one while that program may be serving it.
pub(crate) async fn open(kept: &Kept) -> Result<Ledger, Fault> {
    match kept {
        Kept::Folder(data) => {
            let file = data.join(FILE);
            is_there(&file)?;
            let options = sqlite::Options { migrates: false, ..sqlite::Options::default() };
            opened(file, options).await.map_err(fault)
        }
        Kept::Database(database) => postgres::Store::open(database.url(), postgres::Options::default())
            .await
            .map(Ledger::Postgres)
            .map_err(|error| at_database(database, error)),
    }
}

fn is_there(file: &Path) -> Result<(), Fault> {
    if file.is_file() {
        return Ok(());
    }
    Err(Fault::CannotRun(format!(
        "{}: there is no stock: name the data folder of the server with --data",
        file.display()
    )))
}

fn at_database(database: &Database, error: Error) -> Fault {
    let words = |fault: String| format!("--database {database}: {fault}");
    match fault(error) {
        Fault::Refused(fault) => Fault::Refused(words(fault)),
        Fault::CannotRun(fault) => Fault::CannotRun(words(fault)),
    }
}

/// `pennantryd migrate`.
pub async fn migrate(flags: cli::Kept) -> ExitCode {
    told(async { migrated(&kept(&flags)?).await }.await)
}

async fn migrated(kept: &Kept) -> Done {
    begin()?;
    match kept {
        Kept::Folder(data) => {
            make_private(data)
                .map_err(|cause| Fault::CannotRun(format!("--data {}: {cause}", data.display())))?;
            embedded(data, Durability::Full).await.map_err(fault)?.close().await;
            Ok(format!("{}: the schema is up to date", data.join(FILE).display()))
        }
        Kept::Database(database) => {
            let count =
                postgres::migrate(database.url()).await.map_err(|error| at_database(database, error))?;
            Ok(match count {
                0 => format!("{database}: the schema was up to date"),
                1 => format!("{database}: 1 migration carried out, the schema is up to date"),
                many => format!("{database}: {many} migrations carried out, the schema is up to date"),
            })
        }
    }
}

/// `pennantryd backup`.
pub async fn backup(flags: cli::Backup) -> ExitCode {
    told(backed_up(&flags).await)
}

async fn backed_up(flags: &cli::Backup) -> Done {
    begin()?;
    let kept = kept(&flags.kept)?;
    if let Kept::Folder(data) = &kept {
        is_there(&data.join(FILE))?;
    }
    let to = if let Some(to) = &flags.to {
        to.clone()
    } else {
        let folder = flags.kept.data.join(backups::FOLDER);
        if let Kept::Folder(_) = kept {
            make_private(&folder)
                .map_err(|cause| Fault::CannotRun(format!("{}: {cause}", folder.display())))?;
        }
        unused(&folder, "by-hand")
    };
    match &kept {
        Kept::Folder(data) => {
            let (file, to) = (data.join(FILE), to.clone());
            let copied = tokio::task::spawn_blocking(move || sqlite::back_up(&file, &to, PATIENCE)).await;
            copied.map_err(|fault| Fault::CannotRun(fault.to_string()))?.map_err(fault)?;
        }
        Kept::Database(_) => {
            let ledger = open(&kept).await?;
            let done = ledger.backup(&to).await;
            ledger.close().await;
            done.map_err(fault)?;
        }
    }
    Ok(format!("{}: the stock as it is now; pennantryd restore puts it back", to.display()))
}

/// `pennantryd restore`.
pub fn restore(flags: &cli::Restore) -> ExitCode {
    told(restored(&flags.file, &flags.data))
}

fn restored(from: &Path, data: &Path) -> Done {
    begin()?;
    let file = data.join(FILE);
    if !from.is_file() {
        return Err(Fault::CannotRun(format!("{}: there is no such file: name a backup", from.display())));
    }
    make_private(data).map_err(|cause| Fault::CannotRun(format!("--data {}: {cause}", data.display())))?;
    let replaced = file.exists();
    let keep_as = unused(data, "stock-replaced");
    let found = sqlite::restore(from, &file, &keep_as).map_err(fault)?;
    let digest = sqlite::digest_of(from);
    let agrees = if found.digest_agrees {
        format!("it is what {} says", digest.display())
    } else {
        format!(
            "there is no {}, so whether a bit of it has changed since it was made is not known",
            digest.display()
        )
    };
    let brought = match found.migrations {
        0 => String::new(),
        1 => "; 1 migration brought it up to this program".to_owned(),
        many => format!("; {many} migrations brought it up to this program"),
    };
    let (file, from, looked) = (file.display(), from.display(), counted(&found.verified));
    let words = format!("{file}: put back from {from}; {agrees}{brought}; {looked}");
    Ok(if replaced { format!("{words}\nwhat was there is kept as {}", keep_as.display()) } else { words })
}

/// `pennantryd verify`.
pub async fn verify(flags: cli::Kept) -> ExitCode {
    told(verified(&flags).await)
}

async fn verified(flags: &cli::Kept) -> Done {
    begin()?;
    let ledger = open(&kept(flags)?).await?;
    let found = ledger.verify().await;
    ledger.close().await;
    let found = found.map_err(fault)?;
    if found.drift.is_empty() {
        return Ok(format!("all agrees: {}", counted(&found)));
    }
    Err(Fault::Refused(format!(
        "{}\n{} do not agree: {}",
        found.drift.join("\n"),
        found.drift.len(),
        counted(&found)
    )))
}

fn counted(found: &Verified) -> String {
    let Verified { pieces, reservations, movements, events, .. } = found;
    format!("{pieces} pieces, {reservations} reservations, {movements} movements, {events} events looked at")
}

/// A file that is not there yet, named after what it is and the instant; two of one second are
/// numbered.
fn unused(folder: &Path, what: &str) -> PathBuf {
    let stamp = Clock::System.now().strftime("%Y-%m-%dT%H%M%SZ").to_string();
    let name = |number: u32| match number {
        1 => folder.join(format!("{what}-{stamp}.sqlite")),
        _ => folder.join(format!("{what}-{stamp}-{number}.sqlite")),
    };
    (1..100).map(name).find(|file| !file.exists()).unwrap_or_else(|| name(100))
}
