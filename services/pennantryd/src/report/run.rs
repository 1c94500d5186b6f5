//! Making a report: fabric by fabric, each kept as soon as it is done.
//!
//! A run belongs to one day of the shop and has a lease in the store: of many servers one
//! makes it, and where that one goes away another goes on with what is done. Nothing of it
//! holds up the stock for longer than one short transaction, and the arithmetic has a thread
//! of its own.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex, PoisonError};

use pennantry_app::report::{self, BuyingTerms, FabricTerms, Morning, Survey, Terms, bench_open};
use pennantry_app::restock::ServiceKind;
use pennantry_app::stock::at;
use pennantry_app::{Catalogue, stock};
use pennantry_calc::shop::{FabricRole, Shop};
use pennantry_contract::v1;
use pennantry_forecast::supply::service::Service as Level;
use pennantry_ledger::report::{Begin, Begun, Lost, ReportHead, ReportPart, ReportState, Step};
use pennantry_ledger::rules::{At, Class};
use pennantry_ledger::stand::Stand;
use pennantry_ledger::{DaySum, Error, Ledger};
use prost::Message;
use tokio::sync::watch;
use uuid::Uuid;

use crate::convert::report as convert;
use crate::convert::stock::write::{date as written, time};
use crate::listen::Stop;
use crate::service::Service;

/// For how long a run has its day without a sign of life.
const LEASE_SECONDS: i64 = 60;
/// The service that is reckoned with where the catalogue says nothing of it; nothing is then
/// proposed.
const USUAL: f64 = 0.95;

/// How far a run is.
#[derive(Debug, Clone)]
pub struct Told {
    /// Where it stands.
    pub head: ReportHead,
    /// The fabric that was done last; empty before the first and after the last.
    pub code: String,
}

/// The runs of this server.
#[derive(Debug, Default)]
pub struct Runs(Mutex<BTreeMap<i32, watch::Receiver<Told>>>);

/// What there is of a day's report once it was asked for.
#[derive(Debug)]
pub enum Started {
    /// This server makes it.
    Here(watch::Receiver<Told>),
    /// It is made elsewhere, or it is there.
    There(ReportHead),
}

/// Begins the report of a day, or finds out who makes it. One that failed or was stopped is
/// begun anew where that is wanted.
///
/// # Errors
/// The store cannot be had.
pub async fn start(
    service: &Arc<Service>,
    ledger: &Ledger,
    day: i32,
    anew: Anew,
    stop: &Stop,
) -> Result<Started, Error> {
    if let Some(told) = service.runs.here(day) {
        return Ok(Started::Here(told));
    }
    let catalogue = service.catalogue();
    let runner = format!("{}-{}", std::process::id(), Uuid::now_v7().simple());
    let begin = |fresh| Begin {
        day,
        runner: runner.clone(),
        zone: catalogue.zone.iana_name().unwrap_or("UTC").to_owned(),
        lease_seconds: LEASE_SECONDS,
        fresh,
    };
    let now = at(service.now());
    let mut begun = ledger.report_begin(begin(anew == Anew::Always), now).await?;
    if anew == Anew::Unfinished && matches!(begun, Begun::Failed { .. } | Begun::Cancelled { .. }) {
        begun = ledger.report_begin(begin(true), now).await?;
    }
    let Some(head) = ledger.report_list(day, day, 1).await?.pop() else {
        return Err(Error::Fault(format!("the report of day {day} is begun and not there")));
    };
    let Begun::Mine { parts } = begun else { return Ok(Started::There(head)) };
    let (send, told) = watch::channel(Told { head: head.clone(), code: String::new() });
    service.runs.add(day, told.clone());
    let run = Run {
        service: service.clone(),
        ledger: ledger.clone(),
        catalogue,
        head: ReportHead { runner, ..head },
        told: send,
    };
    let stop = stop.clone();
    tokio::spawn(async move {
        let day = run.head.day;
        let runs = run.service.clone();
        tokio::select! {
            () = run.go(parts) => {}
            // what is done is kept, and whoever runs next goes on
            () = stop.begun() => {
                tracing::info!(day, "a report is broken off: the next start goes on with it");
                runs.runs.remove(day);
            }
        }
    });
    Ok(Started::Here(told))
}

/// When a report that is there already is made anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anew {
    /// Never: what is there is left as it is.
    Never,
    /// Where it failed or was stopped.
    Unfinished,
    /// Always, but not while it is being made.
    Always,
}

impl Runs {
    fn here(&self, day: i32) -> Option<watch::Receiver<Told>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).get(&day).cloned()
    }

    fn add(&self, day: i32, told: watch::Receiver<Told>) {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).insert(day, told);
    }

    fn remove(&self, day: i32) {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).remove(&day);
    }
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
    /// The store cannot be had, or a fault.
    Fault(Error),
}

impl From<Error> for End {
    fn from(error: Error) -> End {
        End::Fault(error)
    }
}

impl Run {
    async fn go(mut self, parts: Vec<ReportPart>) {
        let day = self.head.day;
        let end = self.make(parts).await;
        let now = at(self.service.now());
        match end {
            Ok(()) => {
                self.head.state = ReportState::Done;
                self.head.finished = Some(now);
                tracing::info!(day = %written(day), fabrics = self.head.of, "the burn-rate report is done");
            }
            Err(End::Lost(Lost::Ended(state))) => {
                self.head.state = state;
                self.head.finished = Some(now);
                tracing::warn!(day = %written(day), ?state, "the burn-rate report was stopped");
            }
            Err(End::Lost(lost)) => {
                tracing::warn!(day = %written(day), ?lost, "the burn-rate report is another's now");
            }
            Err(End::Fault(error)) => {
                tracing::error!(day = %written(day), %error, "the burn-rate report failed");
                let note = "the stock could not be read: the server's log says why";
                match self.ledger.report_fail(day, &self.head.runner, note, now).await {
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
        self.service.runs.remove(day);
        self.tell("");
    }

    fn tell(&self, code: &str) {
        self.told.send_replace(Told { head: self.head.clone(), code: code.to_owned() });
    }

    async fn make(&mut self, parts: Vec<ReportPart>) -> Result<(), End> {
        let day = self.head.day;
        let given = Arc::new(Given::read(&self.ledger, &self.catalogue, day, at(self.service.now())).await?);
        let survey = {
            let given = given.clone();
            Arc::new(in_a_thread(move || report::survey(&given.morning())).await?)
        };
        let wanted: BTreeSet<&str> = survey.codes().iter().map(String::as_str).collect();
        let mut fabrics: Vec<v1::BurnFabric> = parts
            .iter()
            .filter(|part| wanted.contains(part.code.as_str()))
            .filter_map(|part| v1::BurnFabric::decode(part.body.as_slice()).ok())
            .collect();
        let kept: BTreeSet<String> = fabrics.iter().map(|fabric| fabric.code.clone()).collect();
        self.head.of = count(survey.codes().len());
        self.head.done = count(kept.len());
        self.tell("");
        for code in survey.codes().iter().filter(|code| !kept.contains(*code)) {
            let (given, survey, wanted) = (given.clone(), survey.clone(), code.clone());
            let fabric = in_a_thread(move || one(&given, &survey, &wanted)).await?;
            self.head.done = self.head.done.saturating_add(1);
            let step = Step {
                day,
                runner: self.head.runner.clone(),
                code: code.clone(),
                body: fabric.encode_to_vec(),
                done: self.head.done,
                of: self.head.of,
                lease_seconds: LEASE_SECONDS,
            };
            match self.ledger.report_step(step, at(self.service.now())).await? {
                Ok(until) => self.head.lease_until = until,
                Err(lost) => return Err(End::Lost(lost)),
            }
            fabrics.push(fabric);
            self.tell(code);
        }
        let gists: Vec<_> = fabrics.iter().map(convert::gist).collect();
        let whole = report::whole(&given.morning(), &survey, &gists);
        let body = convert::whole(&whole, &fabrics, &given.notes).encode_to_vec();
        let now = at(self.service.now());
        let runner = self.head.runner.clone();
        self.ledger.report_finish(day, &runner, body, now).await?.map_err(End::Lost)
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
            last_report: last.map(|report| (report.head.day, report.head.started)),
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
