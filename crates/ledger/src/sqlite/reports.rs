//! Runs of the report.

use rusqlite::{Connection, OptionalExtension, Row};

use super::Store;
use super::pack::word;
use crate::engine::Error;
use crate::rules::At;
use crate::rules::report::{
    self, Aside, Begin, Begun, Decided, Earlier, Lost, Report, ReportHead, ReportPart, ReportState, Step,
    Written, begin,
};

impl Store {
    /// Begins the report of a day, or says whose it is.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_begin(&self, begin: Begin, now: At) -> Result<Begun, Error> {
        self.write(move |connection| begun(connection, &begin, now)).await
    }

    /// Keeps a part of a run and renews its lease; until when it now lasts.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_step(&self, step: Step, now: At) -> Result<Result<At, Lost>, Error> {
        self.write(move |connection| change(connection, step.day, |row| report::step(row, &step, now))).await
    }

    /// Keeps a run without a part for it, or hands it back: of no seconds nothing is left.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_hold(
        &self,
        day: i32,
        runner: &str,
        seconds: i64,
        now: At,
    ) -> Result<Result<At, Lost>, Error> {
        let runner = runner.to_owned();
        self.write(move |connection| change(connection, day, |row| report::hold(row, &runner, seconds, now)))
            .await
    }

    /// Disowns a run that was begun later than it is now; whether it was.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_disown(&self, day: i32, note: &str, now: At) -> Result<bool, Error> {
        let note = note.to_owned();
        self.write(move |connection| change(connection, day, |row| report::disown(row, &note, now))).await
    }

    /// Ends a run with its report.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_finish(
        &self,
        day: i32,
        runner: &str,
        body: Vec<u8>,
        now: At,
    ) -> Result<Result<(), Lost>, Error> {
        self.report_end(day, runner, report::End::Done(body), now).await
    }

    /// Ends a run that cannot be done, and says why.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_fail(
        &self,
        day: i32,
        runner: &str,
        note: &str,
        now: At,
    ) -> Result<Result<(), Lost>, Error> {
        self.report_end(day, runner, report::End::Failed(note.to_owned()), now).await
    }

    async fn report_end(
        &self,
        day: i32,
        runner: &str,
        how: report::End,
        now: At,
    ) -> Result<Result<(), Lost>, Error> {
        let runner = runner.to_owned();
        self.write(move |connection| change(connection, day, |row| report::end(row, &runner, &how, now)))
            .await
    }

    /// Calls a run off; how it stood before.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_cancel(&self, day: i32, by: &str, now: At) -> Result<Option<ReportState>, Error> {
        let by = by.to_owned();
        self.write(move |connection| change(connection, day, |row| report::cancel(row, &by, now))).await
    }

    /// A run, with its report and its parts.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_get(&self, day: i32) -> Result<Option<Report>, Error> {
        self.see(move |connection| get(connection, day)).await
    }

    /// Runs of some days, the latest first, at most [`Store::MOST`].
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_list(&self, from: i32, to: i32, most: u32) -> Result<Vec<ReportHead>, Error> {
        self.see(move |connection| list(connection, from, to, most)).await
    }

    /// The last run of a day before that is done.
    ///
    /// # Errors
    /// The store cannot be had.
    pub async fn report_last_done(&self, before: i32) -> Result<Option<Report>, Error> {
        self.see(move |connection| last_done(connection, before)).await
    }
}

const HEAD: &str = "SELECT day, state, runner, lease_until, started, finished, done, out_of, zone, note, revision, body \
     FROM report";

fn head(row: &Row<'_>) -> rusqlite::Result<ReportHead> {
    Ok(ReportHead {
        day: row.get(0)?,
        state: word(row, 1, ReportState::read)?,
        runner: row.get(2)?,
        lease_until: At(row.get(3)?),
        started: At(row.get(4)?),
        finished: row.get::<_, Option<i64>>(5)?.map(At),
        done: row.get(6)?,
        of: row.get(7)?,
        zone: row.get(8)?,
        note: row.get(9)?,
        revision: row.get(10)?,
    })
}

fn find(connection: &Connection, day: i32) -> rusqlite::Result<Option<ReportHead>> {
    connection.prepare_cached(&format!("{HEAD} WHERE day = ?1"))?.query_row([day], head).optional()
}

fn parts(connection: &Connection, day: i32) -> rusqlite::Result<Vec<ReportPart>> {
    let mut statement =
        connection.prepare_cached("SELECT code, at, body FROM report_part WHERE day = ?1 ORDER BY code")?;
    let found = statement.query_map([day], |row| {
        Ok(ReportPart { code: row.get(0)?, at: At(row.get(1)?), body: row.get(2)? })
    })?;
    found.collect()
}

fn write(connection: &Connection, written: &Written) -> rusqlite::Result<()> {
    let Written { head, body, anew, part, aside } = written;
    if *anew {
        connection.prepare_cached("DELETE FROM report_part WHERE day = ?1")?.execute([head.day])?;
    }
    let statement = match aside {
        Aside::Leave => None,
        Aside::Put => Some(
            "INSERT OR REPLACE INTO report_earlier (day, started, finished, body) \
             SELECT day, started, finished, body FROM report WHERE day = ?1 AND state = 'done'",
        ),
        Aside::Drop => Some("DELETE FROM report_earlier WHERE day = ?1"),
    };
    if let Some(statement) = statement {
        connection.prepare_cached(statement)?.execute([head.day])?;
    }
    connection
        .prepare_cached(
            "INSERT INTO report (day, state, runner, lease_until, started, finished, done, out_of, zone, note, \
             revision, body) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12) \
             ON CONFLICT (day) DO UPDATE SET state = excluded.state, runner = excluded.runner, \
             lease_until = excluded.lease_until, started = excluded.started, finished = excluded.finished, \
             done = excluded.done, out_of = excluded.out_of, zone = excluded.zone, note = excluded.note, \
             revision = excluded.revision, body = excluded.body",
        )?
        .execute(rusqlite::params![
            head.day,
            head.state.as_str(),
            head.runner,
            head.lease_until.0,
            head.started.0,
            head.finished.map(|at| at.0),
            head.done,
            head.of,
            head.zone,
            head.note,
            head.revision,
            body
        ])?;
    if let Some(part) = part {
        connection
            .prepare_cached(
                "INSERT INTO report_part (day, code, at, body) VALUES (?1, ?2, ?3, ?4) \
                 ON CONFLICT (day, code) DO UPDATE SET at = excluded.at, body = excluded.body",
            )?
            .execute((head.day, &part.code, part.at.0, &part.body))?;
    }
    Ok(())
}

/// Decides on a run as it is, and writes what comes of it.
fn change<T>(
    connection: &Connection,
    day: i32,
    decide: impl FnOnce(Option<&ReportHead>) -> Decided<T>,
) -> rusqlite::Result<T> {
    let (written, told) = decide(find(connection, day)?.as_ref());
    if let Some(written) = &written {
        write(connection, written)?;
    }
    Ok(told)
}

/// Begins a run, or says whose it is.
fn begun(connection: &Connection, ask: &Begin, now: At) -> rusqlite::Result<Begun> {
    match change(connection, ask.day, |row| begin(row, ask, now))? {
        Begun::Mine { .. } => Ok(Begun::Mine { parts: parts(connection, ask.day)? }),
        other => Ok(other),
    }
}

/// A run with what it worked out.
fn get(connection: &Connection, day: i32) -> rusqlite::Result<Option<Report>> {
    let found = connection
        .prepare_cached(&format!("{HEAD} WHERE day = ?1"))?
        .query_row([day], |row| Ok((head(row)?, row.get(11)?)))
        .optional()?;
    let Some((head, body)) = found else { return Ok(None) };
    let earlier = connection
        .prepare_cached("SELECT started, finished, body FROM report_earlier WHERE day = ?1")?
        .query_row([day], |row| {
            Ok(Earlier { started: At(row.get(0)?), finished: At(row.get(1)?), body: row.get(2)? })
        })
        .optional()?;
    Ok(Some(Report { head, body, parts: parts(connection, day)?, earlier }))
}

/// Runs of some days, the latest first.
fn list(connection: &Connection, from: i32, to: i32, most: u32) -> rusqlite::Result<Vec<ReportHead>> {
    connection
        .prepare_cached(&format!("{HEAD} WHERE day BETWEEN ?1 AND ?2 ORDER BY day DESC LIMIT ?3"))?
        .query_map((from, to, most.min(Store::MOST)), head)?
        .collect()
}

/// The last run of a day before of which there is a report that is done.
fn last_done(connection: &Connection, before: i32) -> rusqlite::Result<Option<Report>> {
    let day: Option<i32> = connection
        .prepare_cached(
            "SELECT MAX(day) FROM (SELECT day FROM report WHERE state = 'done' \
             UNION ALL SELECT day FROM report_earlier) WHERE day < ?1",
        )?
        .query_row([before], |row| row.get(0))?;
    match day {
        Some(day) => get(connection, day),
        None => Ok(None),
    }
}

/// Runs that are kept, and whatever is not as it should be: parts of none, and a row that cannot be
/// read.
pub(super) fn verify(connection: &Connection, drift: &mut Vec<String>) -> rusqlite::Result<u64> {
    let mut statement = connection.prepare_cached("SELECT day, state FROM report ORDER BY day")?;
    let mut rows = statement.query([])?;
    let mut many = 0;
    while let Some(row) = rows.next()? {
        let (day, state): (i64, String) = (row.get(0)?, row.get(1)?);
        many += 1;
        if ReportState::read(&state).is_none() {
            drift.push(format!("report of day {day}: \"{state}\" is no state of a run"));
        }
    }
    let mut loose = connection.prepare_cached(
        "SELECT DISTINCT day FROM report_part WHERE day NOT IN (SELECT day FROM report) ORDER BY day",
    )?;
    for day in loose.query_map([], |row| row.get::<_, i64>(0))? {
        drift.push(format!("report of day {}: there are parts of it, and no run", day?));
    }
    Ok(many)
}
