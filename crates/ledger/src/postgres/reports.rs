//! Runs of the report. The row of a day is locked while it is decided on, and the clock is read
//! after that; whoever writes it first where there was none makes the others begin anew.

use tokio_postgres::Row;

use super::Store;
use super::failure::Failure;
use super::load::instant;
use super::options::Clock;
use super::row::Columns;
use super::sql;
use super::unit::Unit;
use crate::engine::Error;
use crate::rules::At;
use crate::rules::report::{
    self, Aside, Begin, Begun, Decided, Earlier, Lost, Report, ReportHead, ReportPart, ReportState, Step,
    Written, begin,
};

impl Store {
    /// Begins the report of a day, or says whose it is; the database's clock judges leases.
    pub async fn report_begin(&self, begin: Begin, now: At) -> Result<Begun, Error> {
        let clock = (self.inner.options.clock, now);
        self.short_change(move |unit| {
            let begin = begin.clone();
            Box::pin(async move { begun(unit, &begin, clock).await })
        })
        .await
    }

    /// Keeps a part of a run and renews its lease; until when it now lasts.
    pub async fn report_step(&self, step: Step, now: At) -> Result<Result<At, Lost>, Error> {
        let clock = (self.inner.options.clock, now);
        self.short_change(move |unit| {
            let step = step.clone();
            Box::pin(
                async move { change(unit, step.day, clock, |row, now| report::step(row, &step, now)).await },
            )
        })
        .await
    }

    /// Keeps a run without a part for it, or hands it back: of no seconds nothing is left.
    pub async fn report_hold(
        &self,
        day: i32,
        runner: &str,
        seconds: i64,
        now: At,
    ) -> Result<Result<At, Lost>, Error> {
        let (runner, clock) = (runner.to_owned(), (self.inner.options.clock, now));
        self.short_change(move |unit| {
            let runner = runner.clone();
            Box::pin(async move {
                change(unit, day, clock, |row, now| report::hold(row, &runner, seconds, now)).await
            })
        })
        .await
    }

    /// Disowns a run that was begun later than it is now; whether it was.
    pub async fn report_disown(&self, day: i32, note: &str, now: At) -> Result<bool, Error> {
        let (note, clock) = (note.to_owned(), (self.inner.options.clock, now));
        self.short_change(move |unit| {
            let note = note.clone();
            Box::pin(
                async move { change(unit, day, clock, |row, now| report::disown(row, &note, now)).await },
            )
        })
        .await
    }

    /// Ends a run with its report.
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
        let (runner, clock) = (runner.to_owned(), (self.inner.options.clock, now));
        self.short_change(move |unit| {
            let (runner, how) = (runner.clone(), how.clone());
            Box::pin(async move {
                change(unit, day, clock, |row, now| report::end(row, &runner, &how, now)).await
            })
        })
        .await
    }

    /// Calls a run off; how it stood before.
    pub async fn report_cancel(&self, day: i32, by: &str, now: At) -> Result<Option<ReportState>, Error> {
        let (by, clock) = (by.to_owned(), (self.inner.options.clock, now));
        self.short_change(move |unit| {
            let by = by.clone();
            Box::pin(async move { change(unit, day, clock, |row, now| report::cancel(row, &by, now)).await })
        })
        .await
    }

    /// A run, with its report and its parts.
    pub async fn report_get(&self, day: i32) -> Result<Option<Report>, Error> {
        self.look(move |unit| Box::pin(get(unit, day))).await
    }

    /// Runs of some days, the latest first.
    pub async fn report_list(&self, from: i32, to: i32, most: u32) -> Result<Vec<ReportHead>, Error> {
        self.look(move |unit| Box::pin(list(unit, from, to, most))).await
    }

    /// The last run of a day before that is done.
    pub async fn report_last_done(&self, before: i32) -> Result<Option<Report>, Error> {
        self.look(move |unit| Box::pin(last_done(unit, before))).await
    }
}

fn head(of: &mut Columns<'_>) -> Result<ReportHead, Failure> {
    Ok(ReportHead {
        day: of.number()?,
        state: of.word(ReportState::read)?,
        runner: of.take()?,
        lease_until: of.at()?,
        started: of.at()?,
        finished: of.take::<Option<i64>>()?.map(At),
        done: of.number()?,
        of: of.number()?,
        zone: of.take()?,
        note: of.take()?,
        revision: of.take()?,
    })
}

async fn parts(unit: &Unit, day: i32) -> Result<Vec<ReportPart>, Failure> {
    let part = |row: &Row| {
        let mut of = Columns::of(row);
        Ok(ReportPart { code: of.take()?, at: of.at()?, body: of.take()? })
    };
    unit.query(sql::reports::PARTS, &[&i64::from(day)]).await?.iter().map(part).collect()
}

async fn write(unit: &Unit, written: &Written, is_there: bool) -> Result<(), Failure> {
    let Written { head, body, anew, part, aside } = written;
    let day = i64::from(head.day);
    if *anew {
        unit.execute(sql::reports::DROP_PARTS, &[&day]).await?;
    }
    match aside {
        Aside::Leave => {}
        Aside::Put => {
            unit.execute(sql::reports::PUT_ASIDE, &[&day]).await?;
        }
        Aside::Drop => {
            unit.execute(sql::reports::DROP_ASIDE, &[&day]).await?;
        }
    }
    let statement = if is_there { sql::reports::SET } else { sql::reports::ADD };
    let rows = unit
        .execute(
            statement,
            &[
                &day,
                &head.state.as_str(),
                &head.runner,
                &head.lease_until.0,
                &head.started.0,
                &head.finished.map(|at| at.0),
                &i64::from(head.done),
                &i64::from(head.of),
                &head.zone,
                &head.note,
                &head.revision,
                body,
            ],
        )
        .await?;
    if rows != 1 {
        return Err(Failure::Conflict("somebody else has just begun the report of that day".to_owned()));
    }
    if let Some(part) = part {
        unit.execute(sql::reports::PUT_PART, &[&day, &part.code, &part.at.0, &part.body]).await?;
    }
    Ok(())
}

/// Decides on a run as it is, and writes what comes of it.
async fn change<T>(
    unit: &Unit,
    day: i32,
    clock: (Clock, At),
    decide: impl FnOnce(Option<&ReportHead>, At) -> Decided<T>,
) -> Result<T, Failure> {
    let row = unit.one(sql::reports::LOCK, &[&i64::from(day)]).await?;
    let row = row.map(|row| head(&mut Columns::of(&row))).transpose()?;
    let now = instant(unit, clock).await?;
    let (written, told) = decide(row.as_ref(), now);
    if let Some(written) = &written {
        write(unit, written, row.is_some()).await?;
    }
    Ok(told)
}

/// Begins a run, or says whose it is.
async fn begun(unit: &Unit, ask: &Begin, clock: (Clock, At)) -> Result<Begun, Failure> {
    match change(unit, ask.day, clock, |row, now| begin(row, ask, now)).await? {
        Begun::Mine { .. } => Ok(Begun::Mine { parts: parts(unit, ask.day).await? }),
        other => Ok(other),
    }
}

/// A run with what it worked out.
async fn get(unit: &Unit, day: i32) -> Result<Option<Report>, Failure> {
    let Some(row) = unit.one(sql::reports::FIND, &[&i64::from(day)]).await? else { return Ok(None) };
    let mut of = Columns::of(&row);
    let (head, body) = (head(&mut of)?, of.take()?);
    let earlier = unit.one(sql::reports::ASIDE, &[&i64::from(day)]).await?;
    let earlier = earlier.map(|row| {
        let mut of = Columns::of(&row);
        Ok::<_, Failure>(Earlier { started: of.at()?, finished: of.at()?, body: of.take()? })
    });
    Ok(Some(Report { head, body, parts: parts(unit, day).await?, earlier: earlier.transpose()? }))
}

/// Runs of some days, the latest first.
async fn list(unit: &Unit, from: i32, to: i32, most: u32) -> Result<Vec<ReportHead>, Failure> {
    let found = unit.query(sql::reports::LIST, &[&i64::from(from), &i64::from(to), &i64::from(most)]).await?;
    found.iter().map(|row| head(&mut Columns::of(row))).collect()
}

/// The last run of a day before of which there is a report that is done.
async fn last_done(unit: &Unit, before: i32) -> Result<Option<Report>, Failure> {
    let Some(row) = unit.one(sql::reports::LAST_DONE, &[&i64::from(before)]).await? else { return Ok(None) };
    let day: Option<i64> = row.try_get(0)?;
    match day.and_then(|day| i32::try_from(day).ok()) {
        Some(day) => get(unit, day).await,
        None => Ok(None),
    }
}

/// Runs that are kept, and parts of none.
pub(super) async fn verify(unit: &Unit, drift: &mut Vec<String>) -> Result<u64, Failure> {
    for row in unit.query(sql::reports::LOOSE, &[]).await? {
        let day: i64 = row.try_get(0)?;
        drift.push(format!("report of day {day}: there are parts of it, and no run"));
    }
    Ok(u64::try_from(unit.number(sql::reports::COUNT, &[]).await?).unwrap_or(0))
}
