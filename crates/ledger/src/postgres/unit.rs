//! A unit of work: one transaction on one connection.
//!
//! Statements that need nothing of each other's answers are sent one right behind the other
//! ([`Unit::send`]), and the database carries them out in that order: each begins when the one
//! before it has ended, with all its locks. So nothing is locked in another order or seen at an
//! earlier time than where each is waited for; what is spared is the way there and back.
//! Behind one that fails, all others fail without doing anything, so that the first failure in
//! the order of the statements is the one that tells what was wrong.
//!
//! `BEGIN` goes with the first statements, where they only look: were it not carried out, what
//! changes something would be done for good.
//!
//! Whoever lets go of a unit in the middle of something lets go of its connection, which is
//! closed and never used again: nothing that was begun can meet the next borrower.

use std::borrow::Cow;
use std::future::poll_fn;
use std::pin::Pin;
use std::sync::{Mutex, PoisonError};
use std::task::Poll;
use std::time::{Duration, Instant};

use deadpool_postgres::Object;
use tokio_postgres::types::ToSql;
use tokio_postgres::{Error as PgError, Row, Statement};

use super::failure::{Failure, in_commit};
use super::options::Options;
use super::sql;
use crate::engine::Error;

/// Values of a statement.
pub(super) type Values<'a> = &'a [&'a (dyn ToSql + Sync)];
/// A value that a statement has for itself.
pub(super) type Value<'a> = Box<dyn ToSql + Sync + Send + 'a>;

/// A statement that is to be sent.
pub(super) struct Asked<'a> {
    text: &'a str,
    values: Vec<Value<'a>>,
    changes: bool,
}

impl<'a> Asked<'a> {
    /// One that looks, and locks at most.
    pub(super) fn look(text: &'a str, values: Vec<Value<'a>>) -> Asked<'a> {
        Asked { text, values, changes: false }
    }

    /// One that changes something.
    pub(super) fn change(text: &'a str, values: Vec<Value<'a>>) -> Asked<'a> {
        Asked { text, values, changes: true }
    }
}

/// What the database says to a statement: rows to one that looks, how many were written to one
/// that changes.
#[derive(Default)]
struct Answer {
    rows: Vec<Row>,
    written: u64,
}

type Running<'a> = Pin<Box<dyn Future<Output = Result<Answer, PgError>> + Send + 'a>>;

/// The answer to a statement that was sent.
enum Coming<'a> {
    Here(Result<Answer, PgError>),
    Awaited(Running<'a>),
}

impl Coming<'_> {
    async fn answer(self) -> Result<Answer, Failure> {
        Ok(match self {
            Coming::Here(answer) => answer?,
            Coming::Awaited(running) => running.await?,
        })
    }
}

/// Statements that were sent together; their answers are taken in the order of the statements.
/// Answers that nobody takes are passed over.
pub(super) struct Sent<'a> {
    begin: Option<Coming<'a>>,
    coming: std::vec::IntoIter<Coming<'a>>,
}

impl Sent<'_> {
    async fn next(&mut self) -> Result<Answer, Failure> {
        if let Some(begin) = self.begin.take() {
            begin.answer().await?;
        }
        match self.coming.next() {
            Some(coming) => coming.answer().await,
            None => Err(Error::Fault("an answer is taken of which nothing was asked".to_owned()).into()),
        }
    }

    /// The rows of the next one.
    pub(super) async fn rows(&mut self) -> Result<Vec<Row>, Failure> {
        Ok(self.next().await?.rows)
    }

    /// The one number of the next one, which has one row.
    pub(super) async fn number(&mut self) -> Result<i64, Failure> {
        match self.rows().await?.first() {
            Some(row) => Ok(row.try_get(0)?),
            None => Err(Error::Fault("the database says no number where it has to".to_owned()).into()),
        }
    }

    /// How many rows the next one has written.
    pub(super) async fn written(&mut self) -> Result<u64, Failure> {
        Ok(self.next().await?.written)
    }

    /// Waits for all that are left.
    pub(super) async fn rest(mut self) -> Result<(), Failure> {
        while self.coming.len() > 0 {
            self.next().await?;
        }
        Ok(())
    }
}

/// Begins all in this order, before any is waited for.
async fn start(mut running: Vec<Running<'_>>) -> Vec<Coming<'_>> {
    poll_fn(move |context| {
        let started = running.drain(..).map(|mut one| match one.as_mut().poll(context) {
            Poll::Ready(answer) => Coming::Here(answer),
            Poll::Pending => Coming::Awaited(one),
        });
        Poll::Ready(started.collect())
    })
    .await
}

/// A transaction.
pub(super) struct Unit {
    connection: Option<Object>,
    /// What begins it, as long as that was not sent.
    begin: Mutex<Option<Cow<'static, str>>>,
}

impl Unit {
    /// A change that has to be done by an instant.
    pub(super) fn change(connection: Object, options: &Options, ends: Instant) -> Unit {
        let left = ends.saturating_duration_since(Instant::now());
        // a wait for a lock ends before its statement does, and says that it was one
        let lock = options.lock.min(left * 4 / 5);
        Unit::new(connection, sql::begin_change(options.statement.min(left), lock).into())
    }

    /// A look at one state of everything.
    pub(super) fn look(connection: Object) -> Unit {
        Unit::new(connection, sql::BEGIN_LOOK.into())
    }

    /// One that begins so, with its first statement.
    pub(super) fn new(connection: Object, begin: Cow<'static, str>) -> Unit {
        Unit { connection: Some(connection), begin: Mutex::new(Some(begin)) }
    }

    /// One without a transaction, for a single look.
    pub(super) fn single(connection: Object) -> Unit {
        Unit { connection: Some(connection), begin: Mutex::default() }
    }

    fn connection(&self) -> Result<&Object, Failure> {
        self.connection.as_ref().ok_or_else(|| Failure::Lost("the connection was given back".to_owned()))
    }

    fn begin(&self) -> Option<Cow<'static, str>> {
        self.begin.lock().unwrap_or_else(PoisonError::into_inner).take()
    }

    /// Sends statements together.
    pub(super) async fn send<'a>(&'a self, asked: &'a [Asked<'a>]) -> Result<Sent<'a>, Failure> {
        let of = |one: &'a Asked<'a>| {
            let values = one.values.iter().map(|value| {
                let value: &(dyn ToSql + Sync) = value.as_ref();
                value
            });
            (one.text, values.collect(), one.changes)
        };
        self.send_all(asked.iter().map(of).collect()).await
    }

    async fn send_all<'a>(
        &'a self,
        asked: Vec<(&'a str, Vec<&'a (dyn ToSql + Sync)>, bool)>,
    ) -> Result<Sent<'a>, Failure> {
        let connection = self.connection()?;
        // all of them first: one that had to be prepared on the way would come after the next one
        let mut prepared: Vec<Statement> = Vec::with_capacity(asked.len());
        for (text, ..) in &asked {
            prepared.push(connection.prepare_cached(text).await?);
        }
        let mut running: Vec<Running<'a>> = Vec::with_capacity(asked.len() + 1);
        let mut begins = false;
        if !asked.is_empty()
            && let Some(begin) = self.begin()
        {
            if asked.iter().any(|(_, _, changes)| *changes) {
                connection.batch_execute(&begin).await?;
            } else {
                begins = true;
                running.push(Box::pin(async move {
                    connection.batch_execute(&begin).await?;
                    Ok(Answer::default())
                }));
            }
        }
        for ((_, values, changes), statement) in asked.into_iter().zip(prepared) {
            running.push(Box::pin(async move {
                Ok(if changes {
                    let written = connection.execute(&statement, &values).await?;
                    Answer { rows: Vec::new(), written }
                } else {
                    Answer { rows: connection.query(&statement, &values).await?, written: 0 }
                })
            }));
        }
        let mut coming = start(running).await.into_iter();
        Ok(Sent { begin: if begins { coming.next() } else { None }, coming })
    }

    /// Rows of a query.
    pub(super) async fn query(&self, statement: &str, values: Values<'_>) -> Result<Vec<Row>, Failure> {
        self.send_all(vec![(statement, values.to_vec(), false)]).await?.rows().await
    }

    /// The one row of a query, if there is one.
    pub(super) async fn one(&self, statement: &str, values: Values<'_>) -> Result<Option<Row>, Failure> {
        Ok(self.query(statement, values).await?.pop())
    }

    /// The one number of a query that has one row.
    pub(super) async fn number(&self, statement: &str, values: Values<'_>) -> Result<i64, Failure> {
        self.send_all(vec![(statement, values.to_vec(), false)]).await?.number().await
    }

    /// Carries a statement out; how many rows it concerned.
    pub(super) async fn execute(&self, statement: &str, values: Values<'_>) -> Result<u64, Failure> {
        self.send_all(vec![(statement, values.to_vec(), true)]).await?.written().await
    }

    /// Carries out statements that take no values.
    #[cfg(test)]
    pub(super) async fn batch(&self, statements: &str) -> Result<(), Failure> {
        if let Some(begin) = self.begin() {
            self.connection()?.batch_execute(&begin).await?;
        }
        Ok(self.connection()?.batch_execute(statements).await?)
    }

    /// Commits, and gives the connection back. A commit whose answer does not come in time is
    /// doubtful.
    pub(super) async fn commit(mut self, patience: Duration) -> Result<Object, Failure> {
        if self.begin().is_none() {
            let commit = self.connection()?.batch_execute(sql::COMMIT);
            match tokio::time::timeout(patience, commit).await {
                Ok(Ok(())) => {}
                Ok(Err(error)) => return Err(in_commit(error)),
                Err(_) => {
                    return Err(Failure::Doubtful("the commit was not answered in time".to_owned()));
                }
            }
        }
        self.connection.take().ok_or_else(|| Failure::Lost("no connection".to_owned()))
    }

    /// Rolls back, and gives the connection back where it still serves.
    pub(super) async fn rollback(mut self) -> Option<Object> {
        let rolled_back = tokio::time::timeout(
            Duration::from_secs(1),
            self.connection().ok()?.batch_execute(sql::ROLLBACK),
        )
        .await;
        match rolled_back {
            Ok(Ok(())) => self.connection.take(),
            _ => None,
        }
    }

    /// Gives the connection back, after the answer to a single look.
    pub(super) fn end(mut self) -> Option<Object> {
        self.connection.take()
    }
}

impl Drop for Unit {
    fn drop(&mut self) {
        if let Some(connection) = self.connection.take() {
            // out of the pool; closing it ends the transaction
            drop(Object::take(connection));
        }
    }
}
