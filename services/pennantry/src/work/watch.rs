//! `watch`: a line an event, and on from the last place where the way breaks.

use std::io::Write;
use std::time::Duration;

use pennantry_contract::v1;
use tonic::Status;

use super::{line, stock};
use crate::ask::{Door, Failure, may_pass};
use crate::cli::Watch;
use crate::print::{Look, event};

/// How long to wait before the way is looked for again; the last one over and over.
const PAUSES: [Duration; 4] =
    [Duration::from_millis(200), Duration::from_secs(1), Duration::from_secs(3), Duration::from_secs(10)];

/// Why the telling stopped for now.
enum Stopped {
    /// Nobody reads any longer.
    NobodyReads,
    /// The server ended it, or the way broke.
    Broken(String),
    /// It makes no sense to ask again.
    Over(Failure),
}

/// Tells events until nobody reads them, or the server will not tell them.
///
/// # Errors
/// Refused, or not asked.
pub async fn run(flags: &Watch, out: &mut impl Write, err: &mut impl Write) -> Result<(), Failure> {
    let mut door = Some(Door::connect(&flags.reach.server).await?);
    let mut after = flags.after;
    let mut tried = 0_usize;
    loop {
        let before = after;
        let stopped = match door.take() {
            Some(door) => tell(&door, flags, &mut after, out).await,
            None => match Door::connect(&flags.reach.server).await {
                Ok(found) => tell(&found, flags, &mut after, out).await,
                Err(Failure::NotAsked(words)) => Stopped::Broken(words),
                Err(refused) => Stopped::Over(refused),
            },
        };
        let why = match stopped {
            Stopped::NobodyReads => return Ok(()),
            Stopped::Over(failure) => return Err(failure),
            Stopped::Broken(why) => why,
        };
        // an event that came means that the server is well
        tried = if after == before { tried } else { 0 };
        let pause = PAUSES.get(tried).or(PAUSES.last()).copied().unwrap_or_default();
        tried = tried.saturating_add(1);
        let on = match after {
            Some(place) => format!("going on after place {place}"),
            None => {
                "what happens until then is not told, for no place is known; --after 0 tells all".to_owned()
            }
        };
        let _ = writeln!(err, "{}; {on}", crate::sheet::page::clean(&why, false));
        tokio::time::sleep(pause).await;
    }
}

async fn tell(door: &Door, flags: &Watch, after: &mut Option<i64>, out: &mut impl Write) -> Stopped {
    let request = v1::WatchStockRequest { after: *after };
    let broken = |status: &Status| match door.failure(status) {
        Failure::NotAsked(words) if may_pass(status) => Stopped::Broken(words),
        failure => Stopped::Over(failure),
    };
    let called = door.stream(|channel| async move { stock(channel).watch_stock(request).await }).await;
    let mut events = match called {
        Ok(events) => events,
        Err(status) => return broken(&status),
    };
    let look = Look::of(&flags.reach);
    loop {
        let told = match events.message().await {
            Ok(Some(told)) => told,
            Ok(None) => return Stopped::Broken("the server ended its telling".to_owned()),
            Err(status) => return broken(&status),
        };
        let Some(event) = &told.event else { continue };
        let text = if flags.reach.json {
            match line(serde_json::to_string(event)) {
                Ok(line) => line,
                Err(failure) => return Stopped::Over(failure),
            }
        } else {
            event::line(event, &look)
        };
        if out.write_all(text.as_bytes()).and_then(|()| out.flush()).is_err() {
            return Stopped::NobodyReads;
        }
        *after = Some(event.place);
    }
}
