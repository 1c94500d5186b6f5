//! The calls of the nightly report.

use std::sync::Arc;
use std::time::Duration;

use jiff::civil::Date;
use pennantry_app::day;
use pennantry_app::stock::at;
use pennantry_contract::reasons::{Kind, ViolationReason};
use pennantry_contract::v1;
use pennantry_ledger::report::{Report, ReportHead, ReportState};
use pennantry_ledger::{Error, Ledger};
use pennantry_measure::bounds;
use prost::Message;
use tokio::sync::mpsc::{Receiver, Sender, channel};
use tokio::sync::watch;
use tokio::time::sleep;

use super::{Caller, Service};
use crate::convert::report as convert;
use crate::convert::stock::refused;
use crate::convert::stock::write::date as written;
use crate::failure::{Failure, violation};
use crate::listen::Stop;
use crate::report::run::{self, Anew, Started, Told};

/// Reports on a page where nothing is said.
const USUAL: u32 = 60;
/// How often it is looked how far a report is that another server makes.
const LOOK: Duration = Duration::from_millis(500);
/// Signs kept for a reader that has not taken them yet.
const AHEAD: usize = 16;

/// What a run tells.
pub type Signs = Receiver<Result<v1::RunBurnReportResponse, Failure>>;

impl Service {
    fn reports(&self) -> Result<&Ledger, Failure> {
        self.stock().map(|stock| &stock.ledger)
    }

    /// Gives a report that is done.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn get_burn_report(
        &self,
        caller: &Caller,
        request: &v1::GetBurnReportRequest,
    ) -> Result<v1::GetBurnReportResponse, Failure> {
        let day = optional("date", &request.date)?;
        let ledger = self.reports()?;
        let failed = |error: Error| refused::error(&error, caller.door);
        let found = match day {
            Some(day) => ledger.report_get(day).await.map_err(failed)?,
            None => ledger.report_last_done(i32::MAX).await.map_err(failed)?,
        };
        let Some(found) = found else {
            let which = day.map_or_else(|| "yet".to_owned(), |day| format!("of {}", written(day)));
            let detail = format!(
                "there is no burn-rate report {which}: it is made at {} by the shop's clock, and now by \
                 RunBurnReport or `pennantryd report`",
                crate::report::nightly::DUE
            );
            return Err(Failure::new(Kind::NotFound, detail));
        };
        let mut report = read(&found)?;
        if !request.code.is_empty() {
            let found = report.fabrics.iter().position(|fabric| fabric.code == request.code);
            let Some(found) = found else {
                let known = report.fabrics.iter().map(|fabric| fabric.code.as_str());
                let meant = crate::json::hint::nearest(&request.code, known);
                let hint = meant.map_or_else(String::new, |meant| format!(": did you mean \"{meant}\"?"));
                let detail = format!("the report of {} has no fabric {:?}{hint}", report.date, request.code);
                return Err(Failure::new(Kind::NotFound, detail));
            };
            report.fabrics = vec![report.fabrics.swap_remove(found)];
        }
        if request.brief {
            for fabric in &mut report.fabrics {
                fabric.detail = None;
            }
        }
        Ok(v1::GetBurnReportResponse { report: Some(report) })
    }

    /// Lists reports.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn list_burn_reports(
        &self,
        caller: &Caller,
        request: &v1::ListBurnReportsRequest,
    ) -> Result<v1::ListBurnReportsResponse, Failure> {
        let (from, to) = (optional("fromDate", &request.from_date), optional("toDate", &request.to_date));
        let mut violations = Vec::new();
        for found in [&from, &to].into_iter().filter_map(|found| found.as_ref().err()) {
            violations.extend(found.violations.iter().cloned());
        }
        let bound = bounds::PAGE_REPORTS;
        if !bound.holds(request.page_size) {
            let message = format!("{} is out of range: give {} to {}", request.page_size, bound.least, bound.most);
            violations.push(violation("pageSize", ViolationReason::OutOfRange, message));
        }
        let (Ok(from), Ok(to), true) = (from, to, violations.is_empty()) else {
            return Err(Failure::refused(violations));
        };
        let most = if request.page_size == 0 { USUAL } else { request.page_size };
        let (from, to) = (from.unwrap_or(i32::MIN), to.unwrap_or(i32::MAX));
        let found = self.reports()?.report_list(from, to, most).await;
        let found = found.map_err(|error| refused::error(&error, caller.door))?;
        Ok(v1::ListBurnReportsResponse { reports: found.iter().map(convert::head).collect() })
    }

    /// Stops a report that is being made.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn cancel_burn_report(
        &self,
        caller: &Caller,
        request: &v1::CancelBurnReportRequest,
    ) -> Result<v1::CancelBurnReportResponse, Failure> {
        let Some(day) = optional("date", &request.date)? else {
            let message = "the day is not said: give an ISO date such as 2026-11-30".to_owned();
            return Err(Failure::refused(vec![violation("date", ViolationReason::Missing, message)]));
        };
        let ledger = self.reports()?;
        let failed = |error: Error| refused::error(&error, caller.door);
        let was = ledger.report_cancel(day, &caller.actor, at(self.now())).await.map_err(failed)?;
        let there = ledger.report_list(day, day, 1).await.map_err(failed)?.pop();
        match (was, there) {
            (Some(ReportState::Running), Some(head)) => {
                Ok(v1::CancelBurnReportResponse { head: Some(convert::head(&head)) })
            }
            (Some(_), Some(head)) => Err(Failure::new(
                Kind::FailedPrecondition,
                format!("the report of {} is not being made: it {}", written(day), ended(&head)),
            )),
            _ => Err(Failure::new(
                Kind::NotFound,
                format!("there is no burn-rate report of {}: nothing is to be stopped", written(day)),
            )),
        }
    }

    /// Makes the report of a day, and tells how far it is. Whoever hangs up stops nothing.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn run_burn_report(
        self: &Arc<Self>,
        caller: &Caller,
        request: &v1::RunBurnReportRequest,
        stop: &Stop,
    ) -> Result<Signs, Failure> {
        let today = day(self.catalogue().order_day(self.now())).0;
        let asked = optional("date", &request.date)?.unwrap_or(today);
        if asked > today {
            let message = format!(
                "{} is to come: a report is of a morning that has been, and today is {} by the shop's clock",
                request.date,
                written(today)
            );
            return Err(Failure::refused(vec![violation("date", ViolationReason::OutOfRange, message)]));
        }
        let anew = if request.fresh { Anew::Always } else { Anew::Unfinished };
        let ledger = self.reports()?.clone();
        let started = run::start(self, &ledger, asked, anew, stop).await;
        let started = started.map_err(|error| refused::error(&error, caller.door))?;
        let (send, signs) = channel(AHEAD);
        let (stop, door) = (stop.clone(), caller.door);
        tokio::spawn(async move {
            let telling = async {
                match started {
                    Started::Here(told) => follow(told, &send).await,
                    Started::There(head) => {
                        if let Err(error) = look(&ledger, head, &send).await {
                            let _ = send.send(Err(refused::error(&error, door))).await;
                        }
                    }
                }
            };
            tokio::select! {
                biased;
                () = stop.begun() => {
                    let detail = "this server is stopping: ask another, or in a moment, and it goes on";
                    let _ = send.try_send(Err(Failure::new(Kind::Unavailable, detail)));
                }
                () = telling => {}
            }
        });
        Ok(signs)
    }
}

/// Tells of a run of this server until it ends or nobody listens.
async fn follow(
    mut told: watch::Receiver<Told>,
    send: &Sender<Result<v1::RunBurnReportResponse, Failure>>,
) {
    loop {
        let now = told.borrow_and_update().clone();
        let sign = v1::RunBurnReportResponse { head: Some(convert::head(&now.head)), code: now.code };
        if send.send(Ok(sign)).await.is_err() || told.changed().await.is_err() {
            return;
        }
    }
}

/// Tells of a report that is made elsewhere, or that is there.
async fn look(
    ledger: &Ledger,
    mut head: ReportHead,
    send: &Sender<Result<v1::RunBurnReportResponse, Failure>>,
) -> Result<(), Error> {
    let mut last = None;
    loop {
        if last.as_ref() != Some(&head) {
            let sign = v1::RunBurnReportResponse { head: Some(convert::head(&head)), code: String::new() };
            if send.send(Ok(sign)).await.is_err() {
                return Ok(());
            }
        }
        if head.state != ReportState::Running {
            return Ok(());
        }
        sleep(LOOK).await;
        let next = ledger.report_list(head.day, head.day, 1).await?.pop();
        last = Some(std::mem::replace(
            &mut head,
            next.ok_or_else(|| Error::Fault("a report that was there is gone".to_owned()))?,
        ));
    }
}

/// The report that was kept.
fn read(found: &Report) -> Result<v1::BurnReport, Failure> {
    if found.head.state != ReportState::Done {
        let detail = format!("the report of {} {}", written(found.head.day), ended(&found.head));
        return Err(Failure::new(Kind::FailedPrecondition, detail));
    }
    v1::BurnReport::decode(found.body.as_slice())
        .map_err(|fault| Failure::internal(&format!("a report that was kept cannot be read: {fault}")))
}

/// How a report ended, in words.
fn ended(head: &ReportHead) -> String {
    let because = if head.note.is_empty() { String::new() } else { format!(" ({})", head.note) };
    match head.state {
        ReportState::Running => format!("is being made: {} of {} fabrics are done", head.done, head.of),
        ReportState::Done => "is done".to_owned(),
        ReportState::Failed => format!("failed{because}: make it again"),
        ReportState::Cancelled => format!("was stopped{because}: make it again"),
    }
}

/// A day, where one is given.
pub(crate) fn optional(field: &str, text: &str) -> Result<Option<i32>, Failure> {
    if text.is_empty() {
        return Ok(None);
    }
    let form = text.len() == 10 && text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'-');
    match text.parse::<Date>() {
        Ok(date) if form => Ok(Some(day(date).0)),
        _ => {
            let given: String = text.chars().take(40).collect();
            let message = format!("{given:?} is no day: give an ISO date such as 2026-11-30");
            Err(Failure::refused(vec![violation(field, ViolationReason::BadDate, message)]))
        }
    }
}
