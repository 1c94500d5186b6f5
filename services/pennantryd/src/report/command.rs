//! `pennantryd report`: the report of a morning on standard output, for a timer or by hand.
//!
//! It works on the store itself, whether a server has that open or not: of the two, whichever
//! is first makes the report, and the other waits for it. How far it is goes to standard error.
//! Without `--date`, which is how a timer runs it, mornings that were missed are made up as a server
//! does it. Told to stop, it hands back what it has begun.

use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;
use std::sync::Arc;

use jiff::civil::Time;
use pennantry_app::stock::{Holds, Stock};
use pennantry_contract::reasons::Kind;
use pennantry_contract::v1;
use pennantry_ledger::Ledger;
use tokio::signal::unix::{SignalKind, signal};

use super::{csv, nightly, page, proposals_csv, text};
use crate::cli::{self, As};
use crate::clock::Clock;
use crate::failure::Failure;
use crate::listen::{self, Stop};
use crate::service::{Caller, Door, Service};
use crate::stock::commands::{Done, Fault, kept, open, told};
use crate::ticket::Keys;
use crate::{json, serve, telemetry};

/// `pennantryd report`.
pub async fn run(flags: cli::Report) -> ExitCode {
    told(made(&flags).await)
}

async fn made(flags: &cli::Report) -> Done {
    telemetry::start("warn").map_err(Fault::CannotRun)?;
    let catalogue = serve::open(flags.catalogue.as_deref())
        .map_err(|fault| Fault::CannotRun(format!("--catalogue {fault}")))?;
    let keys = Keys::fresh().map_err(|fault| Fault::CannotRun(fault.to_string()))?;
    let ledger = open(&kept(&flags.kept)?).await?;
    let service = Arc::new(Service::new(catalogue, Clock::System, keys));
    service.open_stock(Stock::new(ledger.clone(), Holds::default()));
    let (stopper, stop) = listen::stop();
    let report = tokio::select! {
        report = report(&service, &ledger, flags, &stop) => report.map_err(fault),
        () = told_to_stop() => {
            stopper.give();
            service.runs.over().await;
            let words = "stopped: what is worked out is kept, and whoever makes it next goes on with it";
            Err(Fault::CannotRun(words.to_owned()))
        }
    };
    ledger.close().await;
    let report = report?;
    let cannot = |fault: super::CsvError| Fault::CannotRun(fault.to_string());
    let out = match flags.form {
        As::Text => text(&report),
        As::Page => page(&report, &[]),
        As::Csv => csv(&report).map_err(cannot)?,
        As::Proposals => proposals_csv(&report, None).map_err(cannot)?,
        As::Json => {
            let bytes = json::write(&report).map_err(|fault| Fault::CannotRun(fault.to_string()))?;
            String::from_utf8(bytes).map_err(|fault| Fault::CannotRun(fault.to_string()))?
        }
    };
    Ok(out.trim_end().to_owned())
}

/// Waits for a signal to stop; for ever, where none can be received.
async fn told_to_stop() {
    tokio::select! {
        () = received(SignalKind::terminate()) => {}
        () = received(SignalKind::interrupt()) => {}
    }
}

async fn received(kind: SignalKind) {
    match signal(kind) {
        Ok(mut signal) => {
            signal.recv().await;
        }
        Err(_) => std::future::pending().await,
    }
}

/// Makes up for mornings that were missed; what is in the way is told, and today's is made all the
/// same.
async fn make_up(service: &Arc<Service>, ledger: &Ledger, stop: &Stop) {
    match nightly::round(service, ledger, Time::midnight(), stop).await {
        Ok(made) if made.failed > 0 => tracing::warn!(made.failed, "mornings could not be made up"),
        Ok(_) => {}
        Err(error) => tracing::warn!(%error, "mornings could not be made up"),
    }
}

async fn report(
    service: &Arc<Service>,
    ledger: &Ledger,
    flags: &cli::Report,
    stop: &Stop,
) -> Result<v1::BurnReport, Failure> {
    // in the order of the days, unless the one of today is to be made in any case
    if flags.date.is_empty() && !flags.fresh {
        make_up(service, ledger, stop).await;
    }
    let caller =
        Caller { door: Door::Private, actor: "pennantryd".to_owned(), address: None, deadline: None };
    let asked = v1::RunBurnReportRequest { date: flags.date.clone(), fresh: flags.fresh };
    let mut signs = service.run_burn_report(&caller, &asked, stop).await?;
    let mut last = v1::BurnReportHead::default();
    let shown = io::stderr().is_terminal();
    while let Some(sign) = signs.recv().await {
        if let Some(head) = sign?.head {
            if shown {
                let _ = write!(io::stderr(), "\r{} of {} fabrics", head.done, head.of);
            }
            last = head;
        }
    }
    if shown {
        let _ = writeln!(io::stderr());
    }
    if flags.date.is_empty() && flags.fresh {
        make_up(service, ledger, stop).await;
    }
    let asked = v1::GetBurnReportRequest { date: last.date, ..v1::GetBurnReportRequest::default() };
    let found = service.get_burn_report(&caller, &asked).await?;
    found.report.ok_or_else(|| Failure::internal("a response without its only field"))
}

fn fault(failure: Failure) -> Fault {
    let of_flags: Vec<String> = failure
        .violations
        .iter()
        .map(|violation| format!("--{}: {}", violation.field, violation.message))
        .collect();
    let words = if of_flags.is_empty() { failure.detail } else { of_flags.join("\n") };
    match failure.kind {
        Kind::Internal | Kind::Unavailable | Kind::DeadlineExceeded => Fault::CannotRun(words),
        _ => Fault::Refused(words),
    }
}
