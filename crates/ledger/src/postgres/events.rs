//! Events: placed once they are committed, read in the order of their places.
//!
//! Two changes that run at once may be committed in any order, so nothing that is known while
//! writing can say which event comes first for a reader. Whoever reads places what is there:
//! the one row of `event_places` is locked, events without a place get the next ones in the
//! order in which they were written, and only then is anything read. An event that is committed later
//! gets a later place, so whoever reads on from a place misses none.

use std::time::{Duration, Instant};

use tokio::sync::{Mutex, watch};

use super::failure::Failure;
use super::inner::{Inner, in_time};
use super::unit::Unit;
use super::{row, sql};
use crate::engine::Placed;

/// Events placed at a time.
const BATCH: i64 = 500;

/// What is known of events without asking the database.
#[derive(Debug)]
pub(super) struct Events {
    /// How many changes of this server have told something.
    told: watch::Sender<u64>,
    /// When the database was asked last, after how many of those, and what it said.
    asked: Mutex<Option<Asked>>,
}

#[derive(Debug, Clone, Copy)]
struct Asked {
    at: Instant,
    told: u64,
    last: i64,
    waiting: bool,
}

impl Events {
    pub(super) fn new() -> Events {
        Events { told: watch::Sender::new(0), asked: Mutex::new(None) }
    }

    /// A change of this server has told something.
    pub(super) fn wake(&self) {
        self.told.send_modify(|told| *told = told.wrapping_add(1));
    }
}

/// Gives places to events that have none.
pub(super) async fn place(inner: &Inner, ends: Instant) -> Result<(), Failure> {
    loop {
        let unit = Unit::look(inner.connection(ends).await?);
        let waiting: bool = match unit.one(sql::event::WAITING, &[]).await? {
            Some(found) => found.try_get(0)?,
            None => false,
        };
        let connection = unit.commit(inner.options.commit).await?;
        if !waiting {
            return Ok(());
        }
        let unit = Unit::change(connection, &inner.options, ends);
        let placed = match place_batch(&unit).await {
            Ok(placed) => placed,
            Err(failure) => {
                unit.rollback().await;
                return Err(failure);
            }
        };
        drop(unit.commit(inner.options.commit).await?);
        if placed < BATCH {
            return Ok(());
        }
    }
}

async fn place_batch(unit: &Unit) -> Result<i64, Failure> {
    let mut last = unit.number(sql::event::LOCK_LAST, &[]).await?;
    let found = unit.query(sql::event::UNPLACED, &[&BATCH]).await?;
    let mut changes: Vec<&[u8]> = Vec::with_capacity(found.len());
    let mut numbers: Vec<i64> = Vec::with_capacity(found.len());
    let mut places: Vec<i64> = Vec::with_capacity(found.len());
    for event in &found {
        last += 1;
        changes.push(event.try_get(0)?);
        numbers.push(event.try_get(1)?);
        places.push(last);
    }
    if !places.is_empty() {
        unit.execute(sql::event::PLACE, &[&changes, &numbers, &places]).await?;
        unit.execute(sql::event::SET_LAST, &[&last]).await?;
    }
    Ok(i64::try_from(places.len()).unwrap_or(BATCH))
}

/// Events after a place.
pub(super) async fn after(unit: &Unit, place: i64, most: u32) -> Result<Vec<Placed>, Failure> {
    unit.query(sql::event::AFTER, &[&place, &i64::from(most)]).await?.iter().map(row::placed).collect()
}

/// Waits until there may be events after a place. A change of this server wakes at once; those
/// of others are asked for, once for all who wait.
pub(super) async fn wait(inner: &Inner, after: i64, most: Duration) {
    let ends = Instant::now() + most;
    let mut told = inner.events.told.subscribe();
    loop {
        let seen = *told.borrow_and_update();
        // no longer than is waited for, whatever becomes of the database
        let left = ends.saturating_duration_since(Instant::now()).max(inner.options.poll);
        let asked = tokio::time::timeout(left, ask(inner, seen)).await.ok().flatten();
        if asked.is_some_and(|asked| asked.waiting || asked.last > after) {
            return;
        }
        let now = Instant::now();
        if now >= ends {
            return;
        }
        let pause = inner.options.poll.min(ends - now);
        // whichever comes first; then it is looked again
        let _ = tokio::time::timeout(pause, told.changed()).await;
    }
}

/// What the database says, or said just now.
async fn ask(inner: &Inner, told: u64) -> Option<Asked> {
    let mut asked = inner.events.asked.lock().await;
    let fresh = inner.options.poll / 2;
    if let Some(known) = *asked
        && known.told == told
        && known.at.elapsed() < fresh
    {
        return Some(known);
    }
    let now = Instant::now();
    let ends = now + inner.options.patience;
    let found = in_time(ends, look(inner, ends)).await.ok()?;
    let answer = Asked { at: now, told, last: found.0, waiting: found.1 };
    *asked = Some(answer);
    Some(answer)
}

async fn look(inner: &Inner, ends: Instant) -> Result<(i64, bool), Failure> {
    let unit = Unit::look(inner.connection(ends).await?);
    let last = unit.number(sql::event::LAST, &[]).await?;
    let waiting = match unit.one(sql::event::WAITING, &[]).await? {
        Some(found) => found.try_get(0)?,
        None => false,
    };
    drop(unit.commit(inner.options.commit).await?);
    Ok((last, waiting))
}
