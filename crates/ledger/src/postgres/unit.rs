//! A unit of work: one transaction on one connection.
//!
//! Whoever lets go of a unit in the middle of something lets go of its connection, which is
//! closed and never used again: nothing that was begun can meet the next borrower.

use std::time::{Duration, Instant};

use deadpool_postgres::Object;
use tokio_postgres::Row;
use tokio_postgres::types::ToSql;

use super::failure::{Failure, in_commit};
use super::options::Options;
use super::sql;

/// Values of a statement.
pub(super) type Values<'a> = &'a [&'a (dyn ToSql + Sync)];

/// A transaction.
pub(super) struct Unit {
    connection: Option<Object>,
}

impl Unit {
    /// Begins a change that has to be done by an instant.
    pub(super) async fn change(
        connection: Object,
        options: &Options,
        ends: Instant,
    ) -> Result<Unit, Failure> {
        let left = ends.saturating_duration_since(Instant::now());
        // a wait for a lock ends before its statement does, and says that it was one
        let lock = options.lock.min(left * 4 / 5);
        let begin = sql::begin_change(options.statement.min(left), lock);
        Unit::begin(connection, &begin).await
    }

    /// Begins a look at one state of everything.
    pub(super) async fn look(connection: Object) -> Result<Unit, Failure> {
        Unit::begin(connection, sql::BEGIN_LOOK).await
    }

    /// Begins.
    pub(super) async fn begin(connection: Object, begin: &str) -> Result<Unit, Failure> {
        let unit = Unit { connection: Some(connection) };
        unit.connection()?.batch_execute(begin).await?;
        Ok(unit)
    }

    fn connection(&self) -> Result<&Object, Failure> {
        self.connection.as_ref().ok_or_else(|| Failure::Lost("the connection was given back".to_owned()))
    }

    /// Rows of a query.
    pub(super) async fn query(&self, statement: &str, values: Values<'_>) -> Result<Vec<Row>, Failure> {
        let connection = self.connection()?;
        let prepared = connection.prepare_cached(statement).await?;
        Ok(connection.query(&prepared, values).await?)
    }

    /// The one row of a query, if there is one.
    pub(super) async fn one(&self, statement: &str, values: Values<'_>) -> Result<Option<Row>, Failure> {
        let connection = self.connection()?;
        let prepared = connection.prepare_cached(statement).await?;
        Ok(connection.query_opt(&prepared, values).await?)
    }

    /// The one number of a query that has one row.
    pub(super) async fn number(&self, statement: &str, values: Values<'_>) -> Result<i64, Failure> {
        let connection = self.connection()?;
        let prepared = connection.prepare_cached(statement).await?;
        Ok(connection.query_one(&prepared, values).await?.try_get(0)?)
    }

    /// Carries a statement out; how many rows it concerned.
    pub(super) async fn execute(&self, statement: &str, values: Values<'_>) -> Result<u64, Failure> {
        let connection = self.connection()?;
        let prepared = connection.prepare_cached(statement).await?;
        Ok(connection.execute(&prepared, values).await?)
    }

    /// Carries out statements that take no values.
    #[cfg(test)]
    pub(super) async fn batch(&self, statements: &str) -> Result<(), Failure> {
        Ok(self.connection()?.batch_execute(statements).await?)
    }

    /// Commits, and gives the connection back. A commit whose answer does not come in time is
    /// doubtful.
    pub(super) async fn commit(mut self, patience: Duration) -> Result<Object, Failure> {
        let committed = tokio::time::timeout(patience, self.connection()?.batch_execute(sql::COMMIT)).await;
        match committed {
            Ok(Ok(())) => self.connection.take().ok_or_else(|| Failure::Lost("no connection".to_owned())),
            Ok(Err(error)) => Err(in_commit(error)),
            Err(_) => Err(Failure::Doubtful("the commit was not answered in time".to_owned())),
        }
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
}

impl Drop for Unit {
    fn drop(&mut self) {
        if let Some(connection) = self.connection.take() {
            // out of the pool; closing it ends the transaction
            drop(Object::take(connection));
        }
    }
}
