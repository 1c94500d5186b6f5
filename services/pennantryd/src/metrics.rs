//! What is counted, for `/metrics`.

use std::fmt;
use std::sync::Arc;

use pennantry_app::stock::at;
use pennantry_ledger::Ledger;
use prometheus_client::collector::Collector;
use prometheus_client::encoding::text;
use prometheus_client::encoding::{DescriptorEncoder, EncodeLabelSet, EncodeMetric};
use prometheus_client::metrics::counter::{ConstCounter, Counter};
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::gauge::{ConstGauge, Gauge};
use prometheus_client::metrics::info::Info;
use prometheus_client::registry::{Registry, Unit};

use crate::report::nightly::Made;
use crate::service::Service;

/// Labels of an answered request.
#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Answered {
    door: &'static str,
    route: &'static str,
    status: u16,
}

/// Labels of a call that was to change the stock.
#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Commanded {
    call: &'static str,
    outcome: &'static str,
}

/// Labels of a catalogue that was read again.
#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Reload {
    outcome: &'static str,
}

/// The counters. One of these belongs to one running server.
#[derive(Debug)]
pub struct Metrics {
    registry: Registry,
    answered: Family<Answered, Counter>,
    reloads: Family<Reload, Counter>,
    commanded: Family<Commanded, Counter>,
    backups: Family<Reload, Counter>,
    reports: Family<Reload, Counter>,
    ready: Gauge,
    held: Gauge,
    in_flight: Gauge,
    watching: Gauge,
    panics: Counter,
}

impl Metrics {
    /// Counters at zero, and those that the service keeps.
    pub fn new(service: Arc<Service>) -> Metrics {
        let mut registry = Registry::with_prefix("pennantry");
        let (answered, reloads, commanded) = (Family::default(), Family::default(), Family::default());
        let (in_flight, watching, panics) = (Gauge::default(), Gauge::default(), Counter::default());
        let build = Info::new([("version", env!("CARGO_PKG_VERSION"))]);
        registry.register("build", "The program", build);
        registry.register("requests", REQUESTS, Family::clone(&answered));
        registry.register("requests_in_flight", "Requests not yet answered", Gauge::clone(&in_flight));
        registry.register("panics", "Requests that ended in a fault of the program", Counter::clone(&panics));
        registry.register("catalogue_reloads", "Catalogues read again, by outcome", Family::clone(&reloads));
        let (backups, ready, held) = (Family::default(), Gauge::default(), Gauge::default());
        let reports = Family::default();
        registry.register(
            "stock_backups",
            "Copies of the stock at night, by outcome",
            Family::clone(&backups),
        );
        registry.register(
            "burn_reports",
            "Burn-rate reports that this server made of itself, by outcome",
            Family::clone(&reports),
        );
        registry.register(
            "stock_ready",
            "Whether the stock could be had when it was last looked: 1 or 0",
            Gauge::clone(&ready),
        );
        registry.register(
            "stock_holds",
            "Holds that stand, counted every 15 s up to 1 000",
            Gauge::clone(&held),
        );
        registry.register("stock_commands", COMMANDS, Family::clone(&commanded));
        registry.register(
            "stock_watches",
            "Readers who are told what happens to the stock",
            Gauge::clone(&watching),
        );
        registry.register_collector(Box::new(Kept { service }));
        // A series that is there at zero can be watched before the first of its kind.
        for outcome in ["ok", "failed"] {
            drop(reloads.get_or_create(&Reload { outcome }));
            drop(reports.get_or_create(&Reload { outcome }));
            drop(backups.get_or_create(&Reload { outcome }));
        }
        Metrics {
            registry,
            answered,
            reloads,
            commanded,
            backups,
            reports,
            ready,
            held,
            in_flight,
            watching,
            panics,
        }
    }

    /// Counts a request as begun until what comes back is dropped.
    pub fn begin(&self) -> InFlight {
        self.in_flight.inc();
        InFlight { gauge: self.in_flight.clone() }
    }

    /// Requests not yet answered.
    pub fn in_flight(&self) -> i64 {
        self.in_flight.get()
    }

    /// Counts an answer.
    pub fn answered(&self, door: &'static str, route: &'static str, status: u16) {
        self.answered.get_or_create(&Answered { door, route, status }).inc();
    }

    /// Counts a request that ended in a panic.
    pub fn panicked(&self) {
        self.panics.inc();
    }

    /// Counts a call that was to change the stock, and what came of it.
    pub fn commanded(&self, call: &'static str, outcome: &'static str) {
        self.commanded.get_or_create(&Commanded { call, outcome }).inc();
    }

    /// Counts a copy of the stock.
    pub fn backed_up(&self, ok: bool) {
        self.backups.get_or_create(&Reload { outcome: if ok { "ok" } else { "failed" } }).inc();
    }

    /// Counts reports.
    pub fn reported(&self, made: Made) {
        for (outcome, count) in [("ok", made.done), ("failed", made.failed)] {
            self.reports.get_or_create(&Reload { outcome }).inc_by(u64::from(count));
        }
    }

    /// Whether the stock can be had.
    pub fn stock_ready(&self, ready: bool) {
        self.ready.set(i64::from(ready));
    }

    /// How many holds there are.
    pub fn held(&self, count: usize) {
        self.held.set(i64::try_from(count).unwrap_or(i64::MAX));
    }

    /// Counts a reader of what happens until what comes back is dropped.
    pub fn watching(&self) -> Watching {
        self.watching.inc();
        Watching { gauge: self.watching.clone() }
    }

    /// Counts a catalogue that was read again.
    pub fn reloaded(&self, ok: bool) {
        self.reloads.get_or_create(&Reload { outcome: if ok { "ok" } else { "failed" } }).inc();
    }

    /// All of it in the text format.
    ///
    /// # Errors
    /// A metric that cannot be written: a fault of the program.
    pub fn text(&self) -> Result<String, fmt::Error> {
        let mut text = String::new();
        text::encode(&mut text, &self.registry)?;
        Ok(text)
    }
}

const REQUESTS: &str = "Answered requests by door, route and status: an HTTP status, or at the door grpc the number of the gRPC code";

const COMMANDS: &str = "Calls that were to change the stock: DONE, REPLAYED (the first answer, nothing changed), or the reason why not";

/// A reader of what happens.
#[derive(Debug)]
pub struct Watching {
    gauge: Gauge,
}

impl Drop for Watching {
    fn drop(&mut self) {
        self.gauge.dec();
    }
}

/// A request that is being answered.
#[derive(Debug)]
pub struct InFlight {
    gauge: Gauge,
}

impl Drop for InFlight {
    fn drop(&mut self) {
        self.gauge.dec();
    }
}

/// What the service counts by itself.
#[derive(Debug)]
struct Kept {
    service: Arc<Service>,
}

impl Collector for Kept {
    fn encode(&self, mut encoder: DescriptorEncoder) -> Result<(), fmt::Error> {
        let kept = [
            ("calculation_steps", "Steps of geometry taken; bad input takes none", self.service.steps()),
            ("quotes", "Quotes given", self.service.quotes()),
        ];
        for (name, help, value) in kept {
            let counter = ConstCounter::new(value);
            counter.encode(encoder.encode_descriptor(name, help, None, counter.metric_type())?)?;
        }
        match self.service.stock().map(|stock| &stock.ledger) {
            Ok(Ledger::Sqlite(store)) => {
                let tally = store.tally();
                let counted = [
                    ("stock_changes", "Commands that the embedded stock has answered", tally.commands),
                    ("stock_commits", "Commits that they shared", tally.commits),
                    ("stock_queue_full", "Commands refused since too many waited", tally.refused),
                ];
                for (name, help, value) in counted {
                    let counter = ConstCounter::new(value);
                    counter.encode(encoder.encode_descriptor(name, help, None, counter.metric_type())?)?;
                }
            }
            Ok(ledger @ Ledger::Postgres(_)) => {
                let age = at(self.service.now()).0.saturating_sub(ledger.shelf().at.0).max(0) / 1_000_000;
                let gauge = ConstGauge::new(age);
                let (name, help) = ("stock_shelf_age", "How long ago the shelf in memory was read");
                gauge.encode(encoder.encode_descriptor(
                    name,
                    help,
                    Some(&Unit::Seconds),
                    gauge.metric_type(),
                )?)?;
            }
            Err(_) => {}
        }
        Ok(())
    }
}
