//! The schema: made by a command of its own, checked whenever the store is opened, only ever
//! going forward.
//!
//! `schema_version` has a row for each migration that was run, with a digest of its text
//! (FNV-1a, 64 bits, over the text with line ends as `\n`), and a row of version 0 that is
//! locked while migrating: of two at once, one migrates and the other waits and then finds
//! nothing to do.

use std::time::Duration;

use tokio_postgres::{Client, NoTls};

use super::failure::{Failure, in_words};
use super::inner::{back_off, config};
use super::sql;
use crate::engine::Error;

/// Every migration, in order; its version is its place from 1.
pub(super) const MIGRATIONS: [&str; 8] = [
    include_str!("../../migrations/postgres/0001_stock.sql"),
    include_str!("../../migrations/postgres/0002_days.sql"),
    include_str!("../../migrations/postgres/0003_reports.sql"),
    include_str!("../../migrations/postgres/0004_looks.sql"),
    include_str!("../../migrations/postgres/0005_sales.sql"),
    include_str!("../../migrations/postgres/0006_runs.sql"),
    include_str!("../../migrations/postgres/0007_turns.sql"),
    include_str!("../../migrations/postgres/0008_writing.sql"),
];

/// How often migrating is begun anew when somebody else is at it.
const TRIES: u32 = 40;

/// Brings the database up to this program, and says how many migrations that took.
///
/// # Errors
/// [`Error::Unfit`] where it was made by a newer program or its migrations were edited,
/// [`Error::Unavailable`] where it cannot be had.
pub async fn migrate(url: &str) -> Result<u32, Error> {
    let mut tries = 0;
    loop {
        let failure = match try_migrate(url).await {
            Ok(count) => return Ok(count),
            Err(failure) => failure,
        };
        tries += 1;
        match failure {
            Failure::Final(error) => return Err(error),
            // two who make the first table at once: one of them is told so in one of these ways
            again if tries < TRIES => tracing::debug!(?again, "migrating is tried again"),
            again => return Err(again.into_error()),
        }
        tokio::time::sleep(back_off(tries)).await;
    }
}

async fn try_migrate(url: &str) -> Result<u32, Failure> {
    let (mut client, connection) = tokio::time::timeout(Duration::from_secs(10), config(url)?.connect(NoTls))
        .await
        .map_err(|_| Failure::Lost("connecting took too long".to_owned()))?
        .map_err(|error| Failure::Lost(format!("no connection to the database: {}", in_words(&error))))?;
    let line = tokio::spawn(connection);
    let migrated = run(&mut client).await;
    drop(client);
    // ends once what is left has been said
    let _ = line.await;
    migrated
}

async fn run(client: &mut Client) -> Result<u32, Failure> {
    client.batch_execute(sql::schema::CREATE).await.map_err(racing)?;
    client.execute(sql::schema::ADD_FIRST, &[]).await.map_err(racing)?;
    client.batch_execute(sql::BEGIN_LONG_CHANGE).await?;
    client.query(sql::schema::LOCK_FIRST, &[]).await?;
    let done = versions(client).await?;
    if let Unfit::Newer(words) | Unfit::Edited(words) = judge(&done) {
        return Err(Error::Unfit(words).into());
    }
    let mut count = 0;
    for (version, text) in (1_i64..).zip(MIGRATIONS) {
        if done.iter().any(|(known, _)| *known == version) {
            continue;
        }
        client.batch_execute(text).await?;
        client.execute(sql::schema::ADD, &[&version, &digest(text)]).await?;
        count += 1;
    }
    client.batch_execute(sql::COMMIT).await?;
    Ok(count)
}

/// What making the first table says when somebody else makes it just then.
fn racing(error: tokio_postgres::Error) -> Failure {
    match error.code().map(tokio_postgres::error::SqlState::code) {
        Some("23505" | "42P07" | "XX000" | "42710") => Failure::Conflict(in_words(&error)),
        _ => Failure::from(error),
    }
}

async fn versions(client: &Client) -> Result<Vec<(i64, String)>, Failure> {
    let rows = client.query(sql::schema::ALL, &[]).await?;
    rows.iter().map(|row| Ok((row.try_get(0)?, row.try_get(1)?))).collect()
}

/// How a database stands to this program.
#[derive(Debug, PartialEq, Eq)]
enum Unfit {
    /// All is there.
    No,
    /// Migrations are to be run.
    Older(String),
    /// A newer program made it.
    Newer(String),
    /// What was run is not what this program has.
    Edited(String),
}

fn judge(done: &[(i64, String)]) -> Unfit {
    let mut known = 0;
    for (version, text) in (1_i64..).zip(MIGRATIONS) {
        known = version;
        let Some((_, found)) = done.iter().find(|(done, _)| *done == version) else {
            continue;
        };
        let meant = digest(text);
        if *found != meant {
            return Unfit::Edited(format!(
                "migration {version} of the stock was run from another text (digest {found}, here {meant}): use the \
                 program that made this database, or restore a copy from before"
            ));
        }
    }
    let newest = done.iter().map(|(version, _)| *version).max().unwrap_or(0);
    if newest > known {
        return Unfit::Newer(format!(
            "the stock in the database is of version {newest}, made by a newer program; this one knows versions up to \
             {known}: use the newer program"
        ));
    }
    if newest < known {
        return Unfit::Older(format!(
            "the stock in the database is of version {newest}, this program needs {known}: run pennantryd migrate"
        ));
    }
    Unfit::No
}

/// Refuses a database that this program may not write to.
pub(super) async fn check(client: &Client) -> Result<(), Failure> {
    let done = match versions(client).await {
        Err(Failure::Final(Error::Fault(cause))) if cause.contains("42P01") => {
            return Err(Error::Unfit(
                "the database has no stock in it yet: run pennantryd migrate, or name another database"
                    .to_owned(),
            )
            .into());
        }
        other => other?,
    };
    match judge(&done) {
        Unfit::No => Ok(()),
        Unfit::Older(words) | Unfit::Newer(words) | Unfit::Edited(words) => Err(Error::Unfit(words).into()),
    }
}

/// FNV-1a of 64 bits over a text, whatever its line ends.
fn digest(text: &str) -> String {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    for byte in text.replace("\r\n", "\n").bytes() {
        hash = (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
    }
    format!("{hash:016x}")
}

#[cfg(test)]
mod tests {
    use super::{MIGRATIONS, Unfit, digest, judge};

    #[test]
    fn digest_is_fnv_1a_and_blind_to_line_ends() {
        // published test values of FNV-1a, 64 bits
        assert_eq!(digest(""), "cbf29ce484222325");
        assert_eq!(digest("a"), "af63dc4c8601ec8c");
        assert_eq!(digest("foobar"), "85944171f73967e8");
        assert_eq!(digest("a\r\nb"), digest("a\nb"));
        assert_ne!(digest("a\rb"), digest("ab"));
    }

    #[test]
    fn databases_of_other_programs_are_told_apart() {
        let now: Vec<(i64, String)> = (1_i64..).zip(MIGRATIONS.map(digest)).collect();
        assert_eq!(judge(&now), Unfit::No);
        let Unfit::Older(words) = judge(&[]) else { panic!("older") };
        assert!(words.contains("version 0") && words.contains("pennantryd migrate"), "{words}");
        let mut newer = now.clone();
        newer.push((99, "0".to_owned()));
        let Unfit::Newer(words) = judge(&newer) else { panic!("newer") };
        assert!(words.contains("version 99"), "{words}");
        let edited = vec![(1, digest("something else"))];
        let Unfit::Edited(words) = judge(&edited) else { panic!("edited") };
        assert!(words.contains("migration 1") && words.contains(&digest("something else")), "{words}");
    }
}
