//! What is done beside the doors while a server runs, all of it until the stop.

use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use jiff::Timestamp;
use pennantry_app::Catalogue;
use pennantry_app::stock::{Holds, Stock, at};
use pennantry_ledger::rules::{ChangeId, Command, Envelope, State, Sweep};
use pennantry_ledger::{Error, FindReservations, Ledger};
use tokio::time::{sleep, timeout};
use tonic_health::ServingStatus;
use tonic_health::server::HealthReporter;
use uuid::Uuid;

use super::{Database, backups, shared};
use crate::clock::Clock;
use crate::doors::grpc;
use crate::listen::Stop;
use crate::metrics::Metrics;
use crate::report::nightly;
use crate::service::Service;

/// Who ends overdue holds, for the record.
const ACTOR: &str = "pennantryd";
/// How often overdue holds are ended. Nobody waits for it: a hold that is over holds nothing,
/// swept or not.
const SWEEP: Duration = Duration::from_secs(5);
/// How many at once.
const SWEPT: u32 = 100;
/// How often it is looked whether the store is there, and how long that may take.
const LOOK: Duration = Duration::from_secs(2);
const PATIENCE: Duration = Duration::from_secs(2);
/// How often what quotes look at is read anew.
const REFRESH: Duration = Duration::from_secs(5);
/// How often holds are counted, and how far.
const COUNT: Duration = Duration::from_secs(15);
const COUNTED: u32 = 1_000;
/// How often it is looked whether a copy is due; also when first.
const BACKUP: Duration = Duration::from_mins(1);
/// How often it is looked whether a burn-rate report is due; also when first.
const REPORT: Duration = Duration::from_mins(1);
/// After a copy that could not be made.
const BACKUP_AGAIN: Duration = Duration::from_mins(10);

/// What looks after the stock.
#[derive(Debug)]
pub(crate) struct Keeper {
    pub service: Arc<Service>,
    pub metrics: Arc<Metrics>,
    pub health: HealthReporter,
    pub clock: Clock,
    /// The database, where the stock is in one.
    pub database: Option<Database>,
    pub stop: Stop,
    /// That it is told that the server is about to stop, after which its health says nothing else.
    pub leaving: Stop,
}

impl Keeper {
    /// Looks after the stock until the stop.
    pub async fn run(self) {
        let stop = self.stop.clone();
        let at_work = async {
            let stock = self.opened().await;
            tokio::join!(
                self.look(&stock.ledger),
                self.sweep(&stock.ledger),
                self.refresh(&stock),
                self.count(&stock.ledger),
            );
        };
        tokio::select! {
            () = stop.begun() => {}
            () = at_work => {}
        }
    }

    /// Makes a copy of the stock every night, until the stop. A copy that is begun is finished.
    pub async fn back_up(
        service: Arc<Service>,
        metrics: Arc<Metrics>,
        clock: Clock,
        folder: PathBuf,
        stop: Stop,
    ) {
        let mut wait = BACKUP;
        while goes_on(&stop, wait).await {
            let Ok(stock) = service.stock() else { continue };
            let zone = service.catalogue().zone.clone();
            wait = match backups::make(&stock.ledger, &folder, clock.now(), &zone).await {
                Ok(None) => BACKUP,
                Ok(Some(file)) => {
                    metrics.backed_up(true);
                    tracing::info!(file = %file.display(), "the stock is backed up");
                    match backups::prune(&folder) {
                        Ok(removed) => removed.iter().for_each(|file| {
                            tracing::info!(file = %file.display(), "an old backup is removed");
                        }),
                        Err(cause) => tracing::warn!(%cause, folder = %folder.display(), "old backups stay"),
                    }
                    BACKUP
                }
                Err(error) => {
                    metrics.backed_up(false);
                    tracing::error!(%error, "the stock is not backed up");
                    BACKUP_AGAIN
                }
            };
        }
    }

    /// Makes the burn-rate report of every night, until the stop.
    pub async fn report(service: Arc<Service>, metrics: Arc<Metrics>, stop: Stop) {
        while goes_on(&stop, REPORT).await {
            let Ok(stock) = service.stock() else { continue };
            match nightly::round(&service, &stock.ledger, nightly::DUE, &stop).await {
                Ok(made) => metrics.reported(made),
                Err(error) => quietly(&error, "the burn-rate report could not be looked after"),
            }
        }
        // what anybody asked for, too, is handed back before the stock is let go of
        service.runs.over().await;
    }

    /// The stock, once it can be had.
    async fn opened(&self) -> Stock {
        loop {
            if let Ok(stock) = self.service.stock() {
                return stock.clone();
            }
            sleep(LOOK).await;
            let Some(database) = &self.database else { continue };
            match shared(database).await {
                Ok(Some(ledger)) => {
                    tracing::info!(%database, "the stock is there");
                    self.service.open_stock(Stock::new(ledger, Holds::default()));
                }
                Ok(None) => {}
                Err(fault) => tracing::error!(fault, "the stock cannot be used: nothing can be held"),
            }
        }
    }

    /// Tells whether the store is there.
    async fn look(&self, ledger: &Ledger) {
        let mut told = None;
        loop {
            let found = is_ready(ledger).await;
            let ready = found.is_ok();
            if told != Some(ready) && !self.leaving.has_begun() {
                match &found {
                    Ok(()) if told.is_some() => tracing::info!("the stock is there again"),
                    Ok(()) => {}
                    Err(cause) => tracing::error!(%cause, "the stock cannot be had: nothing can be held"),
                }
                let status = if ready { ServingStatus::Serving } else { ServingStatus::NotServing };
                grpc::report_stock(&self.health, status).await;
                self.metrics.stock_ready(ready);
                told = Some(ready);
            }
            sleep(LOOK).await;
        }
    }

    /// Ends overdue holds.
    async fn sweep(&self, ledger: &Ledger) {
        loop {
            let now = self.clock.now();
            let envelope = Envelope {
                id: ChangeId(Uuid::now_v7().into_bytes()),
                at: at(now),
                day: self.service.catalogue().when(now).today.0,
                actor: ACTOR.to_owned(),
                request: None,
                command: Command::Sweep(Sweep { most: SWEPT }),
            };
            match ledger.apply(envelope, None).await {
                // more may be overdue than were asked for at once
                Ok(applied)
                    if applied.outcome.ended.len() >= usize::try_from(SWEPT).unwrap_or(usize::MAX) =>
                {
                    continue;
                }
                Ok(applied) => {
                    let ended = applied.outcome.ended.len();
                    if ended > 0 {
                        tracing::debug!(ended, "overdue holds are over");
                    }
                }
                Err(error) => quietly(&error, "overdue holds are not ended"),
            }
            sleep(SWEEP).await;
        }
    }

    /// Reads anew what quotes look at; in a database others change it, too.
    async fn refresh(&self, stock: &Stock) {
        loop {
            if let Ledger::Postgres(_) = stock.ledger
                && let Err(error) = stock.ledger.read_shelf().await
            {
                quietly(&error, "the shelf in memory is not up to date");
            }
            let catalogue = self.service.catalogue();
            if let Err(error) = stock.refresh(&catalogue, self.clock.now()).await {
                quietly(&error, "what quotes look at is not up to date");
            }
            sleep(REFRESH).await;
        }
    }

    /// Counts what is held, for the metrics.
    async fn count(&self, ledger: &Ledger) {
        let find =
            FindReservations { states: vec![State::Held], most: COUNTED, ..FindReservations::default() };
        loop {
            match ledger.reservations(&find).await {
                Ok(held) => self.metrics.held(held.len()),
                Err(error) => quietly(&error, "holds are not counted"),
            }
            sleep(COUNT).await;
        }
    }
}

/// Reads what quotes look at, so that the first one sees it. Whether the store is there.
pub(crate) async fn begin(stock: &Stock, catalogue: &Catalogue, now: Timestamp) -> bool {
    match timeout(PATIENCE, stock.refresh(catalogue, now)).await {
        Ok(Ok(())) => is_ready(&stock.ledger).await.is_ok(),
        Ok(Err(error)) => {
            quietly(&error, "what quotes look at could not be read");
            false
        }
        Err(_) => false,
    }
}

/// Whether the store is there, within a short time.
///
/// # Errors
/// It is not.
pub(crate) async fn is_ready(ledger: &Ledger) -> Result<(), Error> {
    let late = || Error::Unavailable(format!("no answer within {} s", PATIENCE.as_secs()));
    timeout(PATIENCE, ledger.ready()).await.unwrap_or_else(|_| Err(late()))
}

/// That the store is away is told once, by [`Keeper::look`]; what else fails, every time.
fn quietly(error: &Error, what: &str) {
    if matches!(error, Error::Unavailable(_) | Error::Busy | Error::Late) {
        tracing::debug!(%error, "{what}");
    } else {
        tracing::error!(%error, "{what}");
    }
}

/// Waits; whether there was no stop meanwhile.
async fn goes_on(stop: &Stop, wait: Duration) -> bool {
    tokio::select! {
        () = stop.begun() => false,
        () = sleep(wait) => true,
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;
    use std::sync::atomic::{AtomicI64, Ordering};

    use pennantry_ledger::sqlite::Durability;

    use super::*;
    use crate::catalogue::{self, SALTMERE_LOFT};
    use crate::listen::stop;
    use crate::stock::embedded;
    use crate::ticket::Keys;

    /// How often a copy was made, or was not.
    fn counted(metrics: &Metrics, outcome: &str) -> u32 {
        let name = format!("stock_backups_total{{outcome=\"{outcome}\"}} ");
        let text = metrics.text().unwrap();
        let line = text.lines().find_map(|line| line.split_once(&name)).unwrap_or_else(|| panic!("{text}"));
        line.1.parse().unwrap()
    }

    /// Waits, by a clock that jumps while nothing is done, until copies were made, or were not, so often.
    async fn until(metrics: &Metrics, outcome: &str, times: u32) {
        let told = async {
            while counted(metrics, outcome) < times {
                sleep(Duration::from_secs(1)).await;
            }
        };
        timeout(Duration::from_hours(2), told).await.expect("within two hours of that clock");
    }

    fn copies(folder: &Path) -> Vec<String> {
        let files = std::fs::read_dir(folder).unwrap();
        let mut names: Vec<String> =
            files.map(|file| file.unwrap().file_name().into_string().unwrap()).collect();
        names.retain(|name| name.ends_with(".sqlite"));
        names.sort();
        names
    }

    /// Nobody does anything: every night a copy is made, the last fourteen are kept, and one that could
    /// not be made is made once it can be.
    #[tokio::test(start_paused = true)]
    async fn copies_are_made_by_themselves() {
        let data = tempfile::tempdir().unwrap();
        let folder = data.path().join(backups::FOLDER);
        let now: &'static AtomicI64 = Box::leak(Box::new(AtomicI64::new(0)));
        let set = |instant: &str| {
            now.store(instant.parse::<Timestamp>().unwrap().as_microsecond(), Ordering::Relaxed);
        };
        set("2026-11-24T10:00:00Z");
        let clock = Clock::ByHand(now);
        let ledger = embedded(data.path(), Durability::Off).await.unwrap();
        let service =
            Service::new(catalogue::open(SALTMERE_LOFT).unwrap().into(), clock, Keys::fresh().unwrap())
                .with_stock(Stock::new(ledger.clone(), Holds::default()));
        let service = Arc::new(service);
        let metrics = Arc::new(Metrics::new(service.clone()));
        let (stopper, stop) = stop();
        let at_work =
            tokio::spawn(Keeper::back_up(service, metrics.clone(), clock, folder.clone(), stop.clone()));
        // the night before was missed, since nothing ran
        until(&metrics, "ok", 1).await;
        assert_eq!(copies(&folder), ["stock-2026-11-24.sqlite"]);
        // not again, and not before the next is due
        set("2026-11-25T03:39:59Z");
        sleep(Duration::from_hours(1)).await;
        assert_eq!((counted(&metrics, "ok"), counted(&metrics, "failed")), (1, 0));
        for day in 25..=30 {
            set(&format!("2026-11-{day}T03:40:00Z"));
            until(&metrics, "ok", day - 23).await;
        }
        // a disk on which there is no room, say: here the folder cannot be written to, being none
        std::fs::rename(&folder, data.path().join("away")).unwrap();
        std::fs::write(&folder, "in the way").unwrap();
        set("2026-12-01T04:00:00Z");
        until(&metrics, "failed", 2).await;
        std::fs::remove_file(&folder).unwrap();
        std::fs::rename(data.path().join("away"), &folder).unwrap();
        until(&metrics, "ok", 8).await;
        for day in 2..=12 {
            set(&format!("2026-12-{day:02}T03:40:00Z"));
            until(&metrics, "ok", day + 7).await;
        }
        let left = copies(&folder);
        assert_eq!(left.len(), 14, "{left:?}");
        assert_eq!(
            (left[0].as_str(), left[13].as_str()),
            ("stock-2026-11-29.sqlite", "stock-2026-12-12.sqlite")
        );
        stopper.give();
        at_work.await.unwrap();
        ledger.close().await;
    }
}
