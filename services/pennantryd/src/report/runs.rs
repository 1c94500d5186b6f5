//! The runs of this server, one at a time, and patience with a store that cannot be had.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use pennantry_ledger::Error;
use tokio::sync::{Semaphore, watch};
use tokio::time::sleep;

use super::run::Told;

/// For how long a store that cannot be had is waited for, and how long between two tries.
const PATIENCE: Duration = Duration::from_mins(2);
const FIRST_WAIT: Duration = Duration::from_millis(250);
const LONGEST_WAIT: Duration = Duration::from_secs(5);
/// The runs of this server.
#[derive(Debug)]
pub struct Runs {
    begun: Mutex<BTreeMap<i32, watch::Receiver<Told>>>,
    pub(super) turn: Semaphore,
}

impl Default for Runs {
    fn default() -> Runs {
        Runs { begun: Mutex::default(), turn: Semaphore::new(1) }
    }
}

impl Runs {
    /// A run of this server that still is at it.
    pub(super) fn here(&self, day: i32) -> Option<watch::Receiver<Told>> {
        let begun = self.begun.lock().unwrap_or_else(PoisonError::into_inner);
        begun.get(&day).filter(|told| told.has_changed().is_ok()).cloned()
    }

    pub(super) fn add(&self, day: i32, told: watch::Receiver<Told>) {
        self.begun.lock().unwrap_or_else(PoisonError::into_inner).insert(day, told);
    }

    /// A run is over; one of the same day that was begun since stays.
    pub(super) fn remove(&self, day: i32, runner: &str) {
        let mut begun = self.begun.lock().unwrap_or_else(PoisonError::into_inner);
        if begun.get(&day).is_some_and(|told| told.borrow().head.runner == runner) {
            begun.remove(&day);
        }
    }

    /// Waits until no run of this server is left: after the signal to stop, each is handed back.
    pub async fn over(&self) {
        let left = || {
            let begun = self.begun.lock().unwrap_or_else(PoisonError::into_inner);
            begun.iter().next().map(|(day, told)| (*day, told.clone()))
        };
        while let Some((day, mut told)) = left() {
            while told.changed().await.is_ok() {}
            let runner = told.borrow().head.runner.clone();
            self.remove(day, &runner);
        }
    }
}

/// Whether an error may pass: the store is away, full, or somebody else is at it.
const fn may_pass(error: &Error) -> bool {
    matches!(error, Error::Unavailable(_) | Error::Busy | Error::Late | Error::InProgress)
}

/// Patience with the store: what it could not do is tried again for a while.
#[derive(Debug)]
pub(super) struct Patience {
    until: Instant,
    wait: Duration,
}

impl Patience {
    pub(super) fn new() -> Patience {
        Patience { until: Instant::now() + PATIENCE, wait: FIRST_WAIT }
    }

    /// Whether it is worth trying again.
    pub(super) fn has(&self, error: &Error) -> bool {
        may_pass(error) && Instant::now() + self.wait < self.until
    }

    /// Waits before the next try, each time for longer.
    pub(super) async fn wait(&mut self, error: Error) {
        tracing::warn!(%error, "the burn-rate report waits for the stock");
        sleep(self.wait).await;
        self.wait = self.wait.saturating_mul(2).min(LONGEST_WAIT);
    }
}

/// Tries again what the store could not do, for a while. A macro, since no bound says of what a
/// closure that waits gives back that it can go from thread to thread.
macro_rules! patiently {
    ($work:expr) => {{
        let mut patience = $crate::report::runs::Patience::new();
        loop {
            match $work.await {
                Err(error) if patience.has(&error) => patience.wait(error).await,
                told => break told,
            }
        }
    }};
}
pub(super) use patiently;

#[cfg(test)]
mod tests {
    use super::*;

    #[tokio::test]
    async fn what_may_pass_is_tried_again_and_what_may_not_is_told_at_once() {
        let mut tries = 0;
        let mut next = || {
            tries += 1;
            let told = match tries {
                1 => Err(Error::Unavailable("the disk is full".to_owned())),
                2 => Err(Error::Busy),
                tries => Ok(tries),
            };
            std::future::ready(told)
        };
        assert_eq!(patiently!(next()), Ok(3));
        let fault = Error::Fault("a row cannot be read".to_owned());
        let mut tries = 0;
        let mut next = || {
            tries += 1;
            std::future::ready(Err::<(), _>(fault.clone()))
        };
        assert_eq!(patiently!(next()), Err(fault.clone()));
        assert_eq!(tries, 1);
    }
}
