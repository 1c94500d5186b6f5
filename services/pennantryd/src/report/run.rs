//! Making a report: fabric by fabric, each kept as soon as it is done.
//!
//! A run belongs to one day of the shop and has a lease in the store: of many servers one
//! makes it, and where that one goes away another goes on with what is done. Nothing of it
//! holds up the stock for longer than one short transaction, the arithmetic has a thread of its
//! own, and a server makes one report at a time.
//!
//! A run has a task of its own from before it is begun: whoever asked for it only listens, and
//! may hang up at any time. A store that cannot be had for a while is waited for.

use std::collections::BTreeSet;
use std::pin::pin;
use std::sync::Arc;
use std::time::Duration;

use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use pennantry_app::report::{self, BuyingTerms, FabricTerms, Morning, Survey, Terms, bench_open};
use pennantry_app::restock::ServiceKind;
use pennantry_app::stock::at;
use pennantry_app::{Catalogue, stock};
use pennantry_calc::shop::{FabricRole, Shop};
use pennantry_contract::v1;
use pennantry_forecast::supply::service::Service as Level;
use pennantry_ledger::report::{Again, Begin, Begun, Lost, ReportHead, ReportPart, ReportState, Step};
use pennantry_ledger::rules::{At, Class};
use pennantry_ledger::stand::Stand;
use pennantry_ledger::{DaySum, Error, Ledger};
use prost::Message;
use tokio::sync::{Semaphore, SemaphorePermit, oneshot, watch};
use tokio::time::sleep;
use uuid::Uuid;

use super::runs::patiently;
use crate::convert::report as convert;
use crate::convert::stock::write::{date as written, time};
use crate::listen::Stop;
use crate::service::Service;

/// For how long a run has its day without a sign of life.
const LEASE_SECONDS: i64 = 60;
/// How often a run that waits its turn gives one.
const SIGN: Duration = Duration::from_secs(10);
/// The service that is reckoned with where the catalogue says nothing of it; nothing is then
/// proposed.
const USUAL: f64 = 0.95;
/// What is told of a run that waits for another of this server.
const WAITS: &str = "it waits its turn: this server makes one report at a time";

/// How far a run is.
#[derive(Debug, Clone)]
pub struct Told {
    /// Where it stands.
    pub head: ReportHead,
    /// The fabric that was done last; empty before the first and after the last.
    pub code: String,
}

/// What there is of a day's report once it was asked for.
#[derive(Debug)]
pub enum Started {
    /// This server makes it.
    Here(watch::Receiver<Told>),
    /// It is made elsewhere, or it is there.
    There(ReportHead),
}

/// Begins the report of a day, or finds out who makes it. One that has ended is begun anew where
/// that is wanted; so is, unless nothing that ended is wanted anew, one that was begun before its
/// own day, by a clock that was ahead.
///
/// # Errors
/// The store cannot be had.
pub async fn start(
    service: &Arc<Service>,
    ledger: &Ledger,
    day: i32,
    again: Again,
    stop: &Stop,
) -> Result<Started, Error> {
    let (send, started) = oneshot::channel();
    let (service, ledger, stop) = (service.clone(), ledger.clone(), stop.clone());
    tokio::spawn(async move {
        let begun = begin(&service, &ledger, day, again).await;
        let (started, run) = match begun {
            Ok((started, run)) => (Ok(started), run),
            Err(error) => (Err(error), None),
        };
        // nobody may listen any longer: it is made all the same
        let _ = send.send(started);
        if let Some((run, parts)) = run {
            run.until(stop, parts).await;
        }
    });
    started.await.unwrap_or_else(|_| Err(Error::Fault("the task of a report ended".to_owned())))
}

async fn begin(
    service: &Arc<Service>,
    ledger: &Ledger,
    day: i32,
    again: Again,
) -> Result<(Started, Option<(Run, Vec<ReportPart>)>), Error> {
    // one that was called off meanwhile, or that another has taken, is nobody's here
    if let (Some(head), Some(told)) = (head(ledger, day).await?, service.runs.here(day))
        && head.state == ReportState::Running
        && told.borrow().head.runner == head.runner
    {
        return Ok((Started::Here(told), None));
    }
    let catalogue = service.catalogue();
    let runner = format!("{}-{}", std::process::id(), Uuid::now_v7().simple());
    let begin = Begin {
        day,
        runner: runner.clone(),
        zone: catalogue.zone.iana_name().unwrap_or("UTC").to_owned(),
        revision: catalogue.revision.clone(),
        since: day_begins(day, &catalogue.zone),
        lease_seconds: LEASE_SECONDS,
        again,
    };
    let begun = ledger.report_begin(begin, at(service.now())).await?;
    let Some(head) = head(ledger, day).await? else {
        return Err(Error::Fault(format!("the report of day {day} is begun and not there")));
    };
    let Begun::Mine { parts } = begun else { return Ok((Started::There(head), None)) };
    let head = ReportHead { runner, ..head };
    let (send, told) = watch::channel(Told { head: head.clone(), code: String::new() });
    service.runs.add(day, told.clone());
    let run = Run { service: service.clone(), ledger: ledger.clone(), catalogue, head, told: send };
    Ok((Started::Here(told), Some((run, parts))))
}

/// Where the report of a day stands.
async fn head(ledger: &Ledger, day: i32) -> Result<Option<ReportHead>, Error> {
    Ok(ledger.report_list(day, day, 1).await?.pop())
}

/// The instant at which a day of the shop begins.
pub(crate) fn day_begins(day: i32, zone: &TimeZone) -> At {
    let begins = Date::constant(1970, 1, 1)
        .checked_add(day.days())
        .ok()
        .and_then(|date| date.to_zoned(zone.clone()).ok());
    begins.map_or(At(i64::MIN), |begins| at(begins.timestamp()))
}

struct Run {
    service: Arc<Service>,
    ledger: Ledger,
    catalogue: Arc<Catalogue>,
    head: ReportHead,
    told: watch::Sender<Told>,
}

/// Why a run ended before it was done.
enum End {
    /// Another has it, or it was stopped.
    Lost(Lost),
    /// Something went wrong, in words for whoever asks for the report.
    Fault(&'static str, Error),
}

const UNREAD: &str = "the stock could not be read: the server's log says why";
const UNWRITTEN: &str = "the report could not be written: the server's log says why";
const UNDONE: &str = "the report could not be worked out: the server's log says why";

impl Run {
    /// Makes it, or hands it back at the stop.
    async fn until(self, stop: Stop, parts: Vec<ReportPart>) {
        let (day, runner) = (self.head.day, self.head.runner.clone());
        let (service, ledger) = (self.service.clone(), self.ledger.clone());
        // whoever waits for the end waits until it is handed back
        let told = self.told.clone();
        tokio::select! {
            () = self.go(parts) => {}
            // what is done is kept, and whoever runs next goes on
            () = stop.begun() => {
                tracing::info!(day, "a report is broken off: the next start goes on with it");
                if let Err(error) = ledger.report_hold(day, &runner, 0, at(service.now())).await {
                    tracing::warn!(%error, "it is not handed back: its lease ends by itself");
                }
            }
        }
        service.runs.remove(day, &runner);
        drop(told);
    }

    async fn go(mut self, parts: Vec<ReportPart>) {
        let (day, runner) = (self.head.day, self.head.runner.clone());
        let service = self.service.clone();
        let end = match self.turn(&service.runs.turn).await {
            Ok(turn) => {
                let end = self.make(parts).await;
                drop(turn);
                end
            }
            Err(end) => Err(end),
        };
        let now = at(self.service.now());
        match end {
            Ok(()) => {
                self.head.state = ReportState::Done;
                self.head.finished = Some(now);
                tracing::info!(day = %written(day), fabrics = self.head.of, "the burn-rate report is done");
            }
            Err(End::Lost(Lost::Ended(ReportState::Done))) => {
                tracing::info!(day = %written(day), "another has done the burn-rate report meanwhile");
            }
            Err(End::Lost(Lost::Ended(state))) => {
                self.head.state = state;
                self.head.finished = Some(now);
                tracing::warn!(day = %written(day), ?state, "the burn-rate report was stopped");
            }
            Err(End::Lost(lost)) => {
                tracing::warn!(day = %written(day), ?lost, "the burn-rate report is another's now");
            }
            Err(End::Fault(note, error)) => {
                tracing::error!(day = %written(day), %error, note, "the burn-rate report failed");
                match self.ledger.report_fail(day, &runner, note, now).await {
                    Ok(_) => {
                        self.head.state = ReportState::Failed;
                        self.head.finished = Some(now);
                        note.clone_into(&mut self.head.note);
                    }
                    Err(error) => tracing::error!(%error, "nor can it be written down that it failed"),
                }
            }
        }
        // as it is kept: by whom it was stopped, who has it now
        if let Ok(Some(head)) = self.ledger.report_list(day, day, 1).await.map(|mut heads| heads.pop()) {
            self.head = head;
        }
        // whoever hears that it is over may ask for it anew at once
        self.service.runs.remove(day, &runner);
        self.tell("");
    }

    fn tell(&self, code: &str) {
        self.told.send_replace(Told { head: self.head.clone(), code: code.to_owned() });
    }

    /// Waits until no other report of this server is made; meanwhile the run stays this one's, and
    /// whoever asks is told what it waits for.
    async fn turn<'a>(&mut self, turn: &'a Semaphore) -> Result<SemaphorePermit<'a>, End> {
        if let Ok(turn) = turn.try_acquire() {
            return Ok(turn);
        }
        WAITS.clone_into(&mut self.head.note);
        self.tell("");
        // in the order in which they were asked for
        let mut next = pin!(turn.acquire());
        loop {
            let permit = tokio::select! {
                permit = next.as_mut() => permit.ok(),
                () = sleep(SIGN) => None,
            };
            let held = patiently!({
                let now = at(self.service.now());
                self.ledger.report_hold(self.head.day, &self.head.runner, LEASE_SECONDS, now)
            });
            let held = held.map_err(|error| End::Fault(UNWRITTEN, error))?;
            self.head.lease_until = held.map_err(End::Lost)?;
            if let Some(permit) = permit {
                self.head.note.clear();
                return Ok(permit);
            }
        }
    }

    async fn make(&mut self, parts: Vec<ReportPart>) -> Result<(), End> {
        let (day, runner) = (self.head.day, self.head.runner.clone());
        let given = patiently!(Given::read(&self.ledger, &self.catalogue, day, at(self.service.now())));
        let given = Arc::new(given.map_err(|error| End::Fault(UNREAD, error))?);
        let undone = |error| End::Fault(UNDONE, error);
        let survey = {
            let given = given.clone();
            Arc::new(in_a_thread(move || report::survey(&given.morning())).await.map_err(undone)?)
        };
        let wanted: BTreeSet<&str> = survey.codes().iter().map(String::as_str).collect();
        let mut fabrics: Vec<v1::BurnFabric> = parts
            .iter()
            .filter(|part| wanted.contains(part.code.as_str()))
            .filter_map(|part| {
                // what cannot be read, or is of another fabric, is worked out again
                let fabric = v1::BurnFabric::decode(part.body.as_slice()).ok();
                fabric.filter(|fabric| fabric.code == part.code)
            })
            .collect();
        let kept: BTreeSet<String> = fabrics.iter().map(|fabric| fabric.code.clone()).collect();
        self.head.of = count(survey.codes().len());
        self.head.done = count(kept.len());
        self.tell("");
        for code in survey.codes().iter().filter(|code| !kept.contains(*code)) {
            let (given, survey, wanted) = (given.clone(), survey.clone(), code.clone());
            let fabric = in_a_thread(move || one(&given, &survey, &wanted)).await.map_err(undone)?;
            self.head.done = self.head.done.saturating_add(1);
            let step = Step {
                day,
                runner: runner.clone(),
                code: code.clone(),
                body: fabric.encode_to_vec(),
                done: self.head.done,
                of: self.head.of,
                lease_seconds: LEASE_SECONDS,
            };
            let stepped = patiently!(self.ledger.report_step(step.clone(), at(self.service.now())));
            let stepped = stepped.map_err(|error| End::Fault(UNWRITTEN, error))?;
            self.head.lease_until = stepped.map_err(End::Lost)?;
            fabrics.push(fabric);
            self.tell(code);
        }
        let gists: Vec<_> = fabrics.iter().map(convert::gist).collect();
        let whole = report::whole(&given.morning(), &survey, &gists);
        let body = convert::whole(&whole, &fabrics, &given.notes).encode_to_vec();
        let finished =
            patiently!(self.ledger.report_finish(day, &runner, body.clone(), at(self.service.now())));
        finished.map_err(|error| End::Fault(UNWRITTEN, error))?.map_err(End::Lost)
    }
}

fn one(given: &Given, survey: &Survey, code: &str) -> v1::BurnFabric {
    let made = report::fabric(&given.morning(), survey, code);
    let currency = &given.shop.currency;
    convert::fabric(&made, &|amount| v1::Money {
        currency_code: currency.clone(),
        minor_units: amount.minor(),
    })
}

fn count(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// Arithmetic in a thread of its own, so that it keeps no caller waiting.
async fn in_a_thread<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, Error> {
    tokio::task::spawn_blocking(work)
        .await
        .map_err(|fault| Error::Fault(format!("a report's thread ended: {fault}")))
}

/// Everything that is known on a morning.
struct Given {
    today: i32,
    zone: String,
    revision: String,
    shop: Arc<Shop>,
    open: Box<dyn Fn(i32) -> bool + Send + Sync>,
    terms: Terms,
    fabrics: Vec<FabricTerms>,
    uses: Vec<DaySum>,
    stand: Stand,
    last_report: Option<(i32, At)>,
    /// What this server adds.
    notes: Vec<v1::BurnNote>,
}

impl Given {
    async fn read(ledger: &Ledger, catalogue: &Catalogue, day: i32, now: At) -> Result<Given, Error> {
        let uses = ledger.day_uses(Class::Cloth, i32::MIN, day.saturating_sub(1)).await?;
        let stand = ledger.stand(now).await?;
        let last = ledger.report_last_done(day).await?;
        let shop = catalogue.shop.clone();
        let mut notes = Vec::new();
        if catalogue.when(stock::instant(now)).today.0 > day {
            notes.push(v1::BurnNote {
                code: "MADE_LATER".to_owned(),
                message: format!(
                    "This report was made at {} and not on its morning: what lies there, is promised and is on \
                     order is told as of then.",
                    time(now)
                ),
            });
        }
        let calendar = shop.clone();
        Ok(Given {
            today: day,
            zone: catalogue.zone.iana_name().unwrap_or("UTC").to_owned(),
            revision: catalogue.revision.clone(),
            open: Box::new(move |day| bench_open(&calendar.calendar, day)),
            terms: terms(catalogue)?,
            fabrics: fabrics(catalogue),
            shop,
            uses,
            stand,
            last_report: last.and_then(|report| Some((report.head.day, report.done()?.0))),
            notes,
        })
    }

    fn morning(&self) -> Morning<'_> {
        Morning {
            today: self.today,
            zone: &self.zone,
            catalogue_revision: &self.revision,
            open: &*self.open,
            known_to: Some(self.shop.calendar.known_to.0),
            terms: &self.terms,
            fabrics: &self.fabrics,
            uses: &self.uses,
            stand: &self.stand,
            last_report: self.last_report,
        }
    }
}

/// How levels are worked out in a shop.
pub(crate) fn terms(catalogue: &Catalogue) -> Result<Terms, Error> {
    let unfit =
        |fault: pennantry_forecast::supply::Error| Error::Fault(format!("the service level: {fault}"));
    let Some(ordering) = catalogue.restock.ordering else {
        return Ok(Terms { said: false, ..Terms::of(Level::cycle(USUAL).map_err(unfit)?) });
    };
    let share = f64::from(i32::try_from(ordering.level.milli()).unwrap_or(0)) / 100_000.0;
    let level = match ordering.service {
        ServiceKind::Cycle => Level::cycle(share),
        ServiceKind::Fill => Level::fill(share),
    };
    Ok(Terms { cover_days: ordering.cover_days, ..Terms::of(level.map_err(unfit)?) })
}

/// The cloth of a shop, and how it is bought.
pub(crate) fn fabrics(catalogue: &Catalogue) -> Vec<FabricTerms> {
    let shop = &catalogue.shop;
    let says = catalogue.restock.ordering.is_some();
    let places = shop.fabrics.iter().enumerate();
    let cloth = places.filter(|(_, fabric)| fabric.role == FabricRole::Cloth);
    cloth
        .map(|(place, fabric)| FabricTerms {
            code: fabric.code.clone(),
            name: fabric.name.clone(),
            width: Some(fabric.usable_width),
            price_per_metre: Some(fabric.price),
            least: report::least(shop, place),
            buying: catalogue.restock.of(&fabric.code).filter(|_| says).map(|supply| BuyingTerms {
                supplier: supply.supplier.clone(),
                supplier_reference: supply.reference.clone(),
                lead_days: supply.lead_days,
                bolt: supply.bolt,
                least: supply.least,
                last_of_it: supply.last_of_it,
            }),
        })
        .collect()
}
