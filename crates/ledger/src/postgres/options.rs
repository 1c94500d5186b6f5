//! How the database is used: how many connections, how long anything may take.

use std::time::Duration;

/// Limits and clock. Every wait has an end.
#[derive(Debug, Clone)]
pub struct Options {
    /// Connections of this server, at most.
    pub connections: usize,
    /// Units of work that may wait for one of them; one more is refused as
    /// [`Busy`](crate::Error::Busy).
    pub waiting: usize,
    /// How long a unit of work may take where its caller names no deadline.
    pub patience: Duration,
    /// How long one statement may run, at most.
    pub statement: Duration,
    /// How long one statement may wait for a row that somebody else has locked, before the
    /// whole is begun anew.
    pub lock: Duration,
    /// How long a transaction may be left alone before the database ends it.
    pub idle: Duration,
    /// How long connecting may take.
    pub connect: Duration,
    /// How long the answer to a commit is waited for.
    pub commit: Duration,
    /// Whose clock judges.
    pub clock: Clock,
    /// From which age on the shelf in memory is read again when somebody looks at it.
    pub shelf_age: Duration,
    /// How often the database is asked for events of other servers while somebody waits.
    pub poll: Duration,
    /// What is put in the way of a commit.
    #[cfg(test)]
    pub(super) before_commit: super::tests::BeforeCommit,
}

impl Default for Options {
    fn default() -> Options {
        Options {
            connections: 10,
            waiting: 512,
            patience: Duration::from_secs(10),
            statement: Duration::from_secs(10),
            lock: Duration::from_secs(3),
            idle: Duration::from_secs(15),
            connect: Duration::from_secs(3),
            commit: Duration::from_secs(10),
            clock: Clock::Database,
            shelf_age: Duration::from_secs(5),
            poll: Duration::from_millis(200),
            #[cfg(test)]
            before_commit: super::tests::BeforeCommit::default(),
        }
    }
}

/// Whose clock judges whether a hold is over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Clock {
    /// The database's, read once all rows are locked: servers whose clocks differ agree.
    #[default]
    Database,
    /// The command's own instant, for a run in lock-step with the other engine.
    Given,
}
