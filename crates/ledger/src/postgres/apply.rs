//! Carries a command out: one transaction, tried again inside the deadline.
//!
//! 1. Find the request's row: where it is there, its answer is the answer. Look up what the
//!    command concerns.
//! 2. Write the request's row: who sends the same request at the same time waits here, and then
//!    finds it. Lock and read what is concerned ([`load`](super::load)); then read the clock.
//! 3. Decide. A refusal rolls back, the request's row with it.
//! 4. Write the changes, and the answer into the request's row; commit.
//!
//! What each of these asks goes to the database together ([`unit`](super::unit)), so that a hold
//! waits for it four times; a fifth reads the shelf again.
//!
//! Whatever the database calls a conflict is tried again from the first step, decision and
//! all. A commit whose answer is lost is tried again where it had a request: the first step
//! waits for what may still be running, and then knows. Without a request nobody knows, and
//! that is what is answered.

use std::collections::BTreeSet;
use std::sync::Arc;
use std::time::Instant;

use tokio_postgres::Row;

use super::failure::Failure;
use super::inner::{Inner, back_off, in_time};
use super::load::{self, Concerned};
use super::sql;
use super::unit::{Asked, Sent, Unit};
use super::write::write;
use crate::engine::{Applied, Error};
use crate::rules::{self, Change, Decision, Envelope, Outcome, PieceId, Request};

/// A name that is taken while it is decided that it is free is seen by the next attempt.
const TIMES_TAKEN: u32 = 5;

/// What is known from attempt to attempt.
#[derive(Default)]
struct Attempts {
    tries: u32,
    taken: u32,
    /// Pieces that were found concerned.
    known: BTreeSet<PieceId>,
    /// Whether the same request was running when it was last looked.
    same_running: bool,
    /// Why a commit is doubtful.
    doubtful: Option<String>,
}

/// What an attempt comes to before it is committed.
enum Step {
    /// It was carried out before.
    Found(Box<Outcome>),
    /// It is written and can be committed.
    Written(Box<Decision>),
}

/// Carries a command out.
pub(super) async fn carry_out(
    inner: Arc<Inner>,
    envelope: Envelope,
    deadline: Option<Instant>,
) -> Result<Applied, Error> {
    let begun = Instant::now();
    if deadline.is_some_and(|deadline| deadline <= begun) {
        return Err(Error::Late);
    }
    let ends = deadline.unwrap_or(begun + inner.options.patience);
    let mut attempts = Attempts::default();
    loop {
        let failure = match attempt(&inner, &envelope, ends, &attempts).await {
            Ok(applied) => return Ok(applied),
            Err(failure) => failure,
        };
        // an attempt that had no time for anything says nothing about that
        if !matches!(failure, Failure::Slow(_) | Failure::Queued) {
            attempts.same_running = matches!(failure, Failure::SameRunning);
        }
        match &failure {
            Failure::Final(error) => return Err(error.clone()),
            Failure::Grown(pieces) => attempts.known.extend(pieces.iter().cloned()),
            Failure::Taken(cause) => {
                attempts.taken += 1;
                if attempts.taken >= TIMES_TAKEN {
                    return Err(Error::Fault(cause.clone()));
                }
            }
            Failure::Doubtful(cause) => {
                tracing::warn!(%cause, "a commit is doubtful");
                if envelope.request.is_none() {
                    return Err(Error::Unavailable(format!("nobody knows whether it was done: {cause}")));
                }
                attempts.doubtful = Some(cause.clone());
            }
            other => tracing::debug!(?other, tries = attempts.tries, "a change is tried again"),
        }
        inner.prepare_again(&failure);
        attempts.tries += 1;
        let pause = back_off(attempts.tries);
        if Instant::now() + pause >= ends {
            return Err(given_up(failure, attempts, deadline.is_some()));
        }
        tokio::time::sleep(pause).await;
    }
}

/// What is answered when there is no more time.
fn given_up(failure: Failure, attempts: Attempts, has_deadline: bool) -> Error {
    if let Some(cause) = attempts.doubtful {
        return Error::Unavailable(format!("nobody knows whether it was done: {cause}"));
    }
    if attempts.same_running {
        return Error::InProgress;
    }
    match failure {
        Failure::Final(error) => error,
        Failure::SameRunning => Error::InProgress,
        Failure::Lost(cause) | Failure::Stale(cause) | Failure::Doubtful(cause) => Error::Unavailable(cause),
        Failure::Queued
        | Failure::Slow(_)
        | Failure::Locked(_)
        | Failure::Conflict(_)
        | Failure::Taken(_)
        | Failure::Grown(_) => {
            if has_deadline {
                Error::Late
            } else {
                Error::Busy
            }
        }
    }
}

async fn attempt(
    inner: &Inner,
    envelope: &Envelope,
    ends: Instant,
    attempts: &Attempts,
) -> Result<Applied, Failure> {
    let connection = inner.connection(ends).await?;
    let written = in_time(ends, async {
        let unit = Unit::change(connection, &inner.options, ends);
        let step = step(inner, &unit, envelope, attempts).await;
        Ok((unit, step))
    });
    let (unit, step) = written.await?;
    let step = match step {
        Ok(step) => step,
        Err(failure) => {
            unit.rollback().await;
            return Err(failure);
        }
    };
    match step {
        Step::Found(outcome) => {
            unit.rollback().await;
            // where a commit was doubtful, this is the answer to it
            Ok(Applied { outcome: *outcome, replayed: attempts.doubtful.is_none() })
        }
        Step::Written(decision) => {
            let connection = unit.commit(inner.options.commit).await?;
            let Decision { changes, outcome } = *decision;
            if changes.iter().any(|change| matches!(change, Change::Tell(_))) {
                inner.events.wake();
            }
            inner.shelf.touched(connection, touched(&changes, &outcome)).await;
            Ok(Applied { outcome, replayed: false })
        }
    }
}

async fn step(inner: &Inner, unit: &Unit, envelope: &Envelope, attempts: &Attempts) -> Result<Step, Failure> {
    let request = envelope.request.as_ref();
    let needs = rules::needs(&envelope.command);
    let mut asked: Vec<Asked<'_>> = request.map(find_request).into_iter().collect();
    asked.extend(load::first(&needs));
    let mut sent = if asked.is_empty() { None } else { Some(unit.send(&asked).await?) };
    if let (Some(request), Some(sent)) = (request, &mut sent)
        && let Some(outcome) = answer_of(request, &sent.rows().await?)?
    {
        return Ok(Step::Found(Box::new(outcome)));
    }
    let clock = (inner.options.clock, envelope.at);
    let concerned = Concerned::find(unit, &needs, sent, &attempts.known, clock).await?;

    let mut asked: Vec<Asked<'_>> =
        request.map(|request| add_request(request, envelope.at.0)).into_iter().collect();
    asked.extend(concerned.lock());
    let mut sent = unit.send(&asked).await?;
    if let Some(request) = request
        && !is_added(&mut sent).await?
    {
        // what came behind it has to have gone well, or nothing more can be asked
        sent.rest().await?;
        return match answer(unit, request).await? {
            Some(outcome) => Ok(Step::Found(Box::new(outcome))),
            None => Err(Failure::Conflict("the same request has just been taken back".to_owned())),
        };
    }
    let loaded = concerned.locked(unit, sent).await?;

    let decision = rules::decide(envelope, &loaded.rows, loaded.now).map_err(Error::Refused)?;
    let kept = request.map(|Request { scope, key, .. }| {
        let answer = rules::kept::keep(&decision.outcome);
        Asked::change(
            sql::request::ANSWER,
            vec![Box::new(scope), Box::new(key), Box::new(loaded.now.0), Box::new(answer)],
        )
    });
    write(unit, &decision.changes, kept).await?;
    #[cfg(test)]
    inner.options.before_commit.run(unit).await?;
    Ok(Step::Written(Box::new(decision)))
}

fn find_request(Request { scope, key, .. }: &Request) -> Asked<'_> {
    Asked::look(sql::request::FIND, vec![Box::new(scope), Box::new(key)])
}

fn add_request(Request { scope, key, body }: &Request, at: i64) -> Asked<'_> {
    Asked::change(
        sql::request::ADD,
        vec![Box::new(scope), Box::new(key), Box::new(body.as_slice()), Box::new(at)],
    )
}

/// Whether the request's row was written: then it was not there.
async fn is_added(sent: &mut Sent<'_>) -> Result<bool, Failure> {
    match sent.written().await {
        Err(Failure::Locked(_)) => Err(Failure::SameRunning),
        other => Ok(other? > 0),
    }
}

/// The answer to a request that was carried out.
pub(super) async fn answer(unit: &Unit, request: &Request) -> Result<Option<Outcome>, Failure> {
    let found = unit.query(sql::request::FIND, &[&request.scope, &request.key]).await?;
    answer_of(request, &found)
}

fn answer_of(request: &Request, found: &[Row]) -> Result<Option<Outcome>, Failure> {
    let Some(found) = found.first() else {
        return Ok(None);
    };
    let body: &[u8] = found.try_get(0)?;
    if body != request.body.as_slice() {
        return Err(Error::KeyReused.into());
    }
    let answer: &[u8] = found.try_get(1)?;
    let unreadable = || {
        Error::Fault(format!(
            "the answer kept for the request {:?} of {:?} cannot be read: a newer program wrote it",
            request.key, request.scope
        ))
    };
    Ok(Some(rules::kept::read(answer).ok_or_else(unreadable)?))
}

/// Pieces of which something has changed that the shelf shows.
fn touched(changes: &[Change], outcome: &Outcome) -> BTreeSet<PieceId> {
    let mut pieces = BTreeSet::new();
    for change in changes {
        match change {
            Change::AddPiece(piece) => {
                pieces.insert(piece.id.clone());
            }
            Change::Balance { piece, .. } | Change::Flaws { piece, .. } | Change::Location { piece, .. } => {
                pieces.insert(piece.clone());
            }
            Change::SetLine { line, .. } | Change::AddLine { line, .. } => {
                pieces.insert(line.piece.clone());
            }
            Change::AddReservation(reservation) => {
                pieces.extend(reservation.lines.iter().map(|line| line.piece.clone()));
            }
            _ => {}
        }
    }
    // more time changes no line, but until when a line stands
    if let Some(reservation) = &outcome.reservation {
        pieces.extend(reservation.lines.iter().map(|line| line.piece.clone()));
    }
    pieces
}
