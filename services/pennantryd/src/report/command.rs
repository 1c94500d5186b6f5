//! `pennantryd report`: the report of a morning on standard output, for a timer or by hand.
//!
//! It works on the store itself, whether a server has that open or not: of the two, whichever
//! is first makes the report, and the other waits for it. How far it is goes to standard error.

use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;
use std::sync::Arc;

use pennantry_app::stock::{Holds, Stock};
use pennantry_contract::reasons::Kind;
use pennantry_contract::v1;

use super::{csv, page, proposals_csv, text};
use crate::cli::{self, As};
use crate::clock::Clock;
use crate::failure::Failure;
use crate::listen;
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
    let report = report(&service, flags).await;
    ledger.close().await;
    let report = report.map_err(fault)?;
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

async fn report(service: &Arc<Service>, flags: &cli::Report) -> Result<v1::BurnReport, Failure> {
    let caller =
        Caller { door: Door::Private, actor: "pennantryd".to_owned(), address: None, deadline: None };
    let asked = v1::RunBurnReportRequest { date: flags.date.clone(), fresh: flags.fresh };
    // nobody gives the signal: who stops the program leaves the rest to the next run
    let (_stopper, stop) = listen::stop();
    let mut signs = service.run_burn_report(&caller, &asked, &stop).await?;
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
