//! `pennantryd serve`: the server as a process, with its signals.

use std::io::{self, Write};
use std::path::Path;
use std::process::ExitCode;
use std::time::Duration;

use pennantry_app::Catalogue;
use tokio::signal::unix::{Signal, SignalKind, signal};

use crate::catalogue::{self, LoadError, SALTMERE_LOFT};
use crate::cli::{self, CANNOT_RUN};
use crate::clock::Clock;
use crate::listen::Limits;
use crate::start::{Config, Running, start};
use crate::stock::{Database, Stock};
use crate::telemetry;

/// Serves until it is told to stop.
pub async fn run(serve: cli::Serve) -> ExitCode {
    if let Err(fault) = telemetry::start(&serve.log) {
        return cannot_run(&fault);
    }
    let catalogue = match open(serve.catalogue.as_deref()) {
        Ok(catalogue) => catalogue,
        Err(fault) => return cannot_run(&format!("--catalogue {fault}")),
    };
    let stock = match serve.database.as_deref().map(Database::read).transpose() {
        Ok(database) => database.map_or(Stock::Embedded, Stock::Postgres),
        Err(fault) => return cannot_run(&fault),
    };
    let mut signals = match Signals::listen() {
        Ok(signals) => signals,
        Err(cause) => return cannot_run(&format!("signals cannot be received: {cause}")),
    };
    let revision = catalogue.revision.clone();
    let config = Config {
        public: serve.public,
        private: serve.private,
        admin: serve.admin,
        data: Some(serve.data),
        stock,
        catalogue,
        clock: Clock::System,
        limits: Limits::default(),
        reflection: serve.reflection,
    };
    let running = match start(config).await {
        Ok(running) => running,
        Err(fault) => return cannot_run(&fault.to_string()),
    };
    tracing::info!(version = env!("CARGO_PKG_VERSION"), catalogue = revision, "serving");
    announce(&running);
    while signals.next().await == Told::Reload {
        reload(&running, serve.catalogue.as_deref());
        reload_keys(&running);
    }
    let patience = [serve.drain_seconds, serve.stop_seconds].map(Duration::from_secs);
    stop(running, patience, &mut signals).await
}

fn cannot_run(fault: &str) -> ExitCode {
    // Standard error may be closed; the exit code says it too.
    let _ = writeln!(io::stderr(), "{fault}");
    ExitCode::from(CANNOT_RUN)
}

/// The catalogue of a file, or the demo shop.
pub(crate) fn open(file: Option<&Path>) -> Result<Catalogue, String> {
    let loaded = match file {
        Some(file) => catalogue::load(file).map_err(|fault| fault.to_string())?,
        None => catalogue::open(SALTMERE_LOFT)
            .map_err(|mistakes| mistakes.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))?,
    };
    Ok(loaded.into())
}

/// The one line on standard output.
fn announce(running: &Running) {
    let [public, private, admin] = [running.public(), running.private(), running.admin()];
    let line =
        format!(r#"{{"public":"http://{public}","private":"http://{private}","admin":"http://{admin}"}}"#);
    let mut out = io::stdout().lock();
    if let Err(cause) = writeln!(out, "{line}").and_then(|()| out.flush()) {
        tracing::warn!(%cause, addresses = line, "the addresses could not be printed");
    }
}

fn reload(running: &Running, file: Option<&Path>) {
    let Some(file) = file else {
        return tracing::warn!(
            "nothing to read again: the demo shop is in force; name a file with --catalogue"
        );
    };
    match running.reload(file) {
        Ok(revision) => tracing::info!(file = %file.display(), revision, "catalogue in force"),
        Err(LoadError::Mistakes { mistakes, .. }) => {
            for mistake in &mistakes {
                tracing::error!(file = %file.display(), %mistake, "mistake in the catalogue");
            }
            tracing::error!(file = %file.display(), mistakes = mistakes.len(), "the catalogue in force stays");
        }
        Err(fault) => tracing::error!(%fault, "the catalogue in force stays"),
    }
}

fn reload_keys(running: &Running) {
    match running.reload_keys() {
        Ok(count) => tracing::info!(count, "ticket keys in force"),
        Err(fault) => tracing::error!(fault, "the ticket keys in force stay"),
    }
}

async fn stop(running: Running, [delay, deadline]: [Duration; 2], signals: &mut Signals) -> ExitCode {
    tracing::info!(drain_seconds = delay.as_secs(), seconds = deadline.as_secs(), "stopping");
    let again = async { while signals.next().await == Told::Reload {} };
    let over = async {
        running.leave(delay).await;
        running.stop(deadline).await
    };
    tokio::select! {
        finished = over => {
            if finished {
                tracing::info!("stopped");
            } else {
                tracing::warn!("stopped at the deadline: requests were broken off");
            }
            ExitCode::SUCCESS
        }
        () = again => {
            tracing::warn!("told twice: stopped at once");
            ExitCode::FAILURE
        }
    }
}

#[derive(Debug, PartialEq, Eq)]
enum Told {
    Stop,
    Reload,
}

struct Signals {
    terminate: Signal,
    interrupt: Signal,
    hangup: Signal,
}

impl Signals {
    fn listen() -> io::Result<Signals> {
        Ok(Signals {
            terminate: signal(SignalKind::terminate())?,
            interrupt: signal(SignalKind::interrupt())?,
            hangup: signal(SignalKind::hangup())?,
        })
    }

    async fn next(&mut self) -> Told {
        tokio::select! {
            _ = self.terminate.recv() => Told::Stop,
            _ = self.interrupt.recv() => Told::Stop,
            _ = self.hangup.recv() => Told::Reload,
        }
    }
}
