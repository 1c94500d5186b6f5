//! The calls of the nightly report.

use std::sync::Arc;
use std::time::Duration;

use jiff::civil::Date;
use pennantry_app::day as day_of;
use pennantry_app::stock::at;
use pennantry_contract::reasons::{Kind, ViolationReason};
use pennantry_contract::v1;
use pennantry_ledger::report::{Again, Report, ReportHead, ReportState};
use pennantry_ledger::{Error, Ledger};
use pennantry_measure::bounds;
use prost::Message;
use tokio::sync::mpsc::{Receiver, Sender, channel};
use tokio::sync::watch;
use tokio::time::sleep;

use super::{Caller, Door, Service};
use crate::convert::report as convert;
use crate::convert::stock::refused;
use crate::convert::stock::write::date as written;
use crate::failure::{Failure, violation};
use crate::listen::Stop;
use crate::report::run::{self, Started, Told};

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
        let bound = bounds::LETTERS;
        if request.code.chars().nth(usize::try_from(bound.most).unwrap_or(usize::MAX)).is_some() {
            let message = format!("it is too long: a code has {} to {} characters", bound.least, bound.most);
            return Err(Failure::refused(vec![violation("code", ViolationReason::OutOfRange, message)]));
        }
        let ledger = self.reports()?;
        let failed = |error: Error| unavailable(&error, caller.door);
        let found = match day {
            Some(day) => ledger.report_get(day).await.map_err(failed)?,
            None => ledger.report_last_done(i32::MAX).await.map_err(failed)?,
        };
        let Some(found) = found else {
            let today = day_of(self.catalogue().order_day(self.now())).0;
            if let Some(day) = day.filter(|day| *day > today) {
                let detail = format!(
                    "there is no burn-rate report of {}: that morning is to come, and it is {} by the shop's clock",
                    written(day),
                    written(today)
                );
                return Err(Failure::new(Kind::NotFound, detail));
            }
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
            let message =
                format!("{} is out of range: give {} to {}", request.page_size, bound.least, bound.most);
            violations.push(violation("pageSize", ViolationReason::OutOfRange, message));
        }
        let (Ok(from), Ok(to), true) = (from, to, violations.is_empty()) else {
            return Err(Failure::refused(violations));
        };
        let most = if request.page_size == 0 { USUAL } else { request.page_size };
        let (from, to) = (from.unwrap_or(i32::MIN), to.unwrap_or(i32::MAX));
        let found = self.reports()?.report_list(from, to, most).await;
        let found = found.map_err(|error| unavailable(&error, caller.door))?;
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
        let failed = |error: Error| unavailable(&error, caller.door);
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
        let asked = self.begun(&request.date)?;
        let again = if request.fresh { Again::Always } else { Again::Unfinished };
        let ledger = self.reports()?.clone();
        let started = run::start(self, &ledger, asked, again, stop).await;
        let started = started.map_err(|error| unavailable(&error, caller.door))?;
        Ok(self.signs(started, caller.door, stop))
    }

    /// Tells whoever comes back how far a report is: one that was broken off is gone on with, and
    /// none is begun.
    ///
    /// # Errors
    /// As the contract says; there is none of that day.
    pub async fn follow_burn_report(
        self: &Arc<Self>,
        caller: &Caller,
        date: &str,
        stop: &Stop,
    ) -> Result<Signs, Failure> {
        let asked = self.begun(date)?;
        let ledger = self.reports()?.clone();
        let failed = |error: Error| unavailable(&error, caller.door);
        if ledger.report_list(asked, asked, 1).await.map_err(failed)?.is_empty() {
            let detail = format!(
                "there is no burn-rate report of {}: ask for it as one that was not asked for before, without \
                 Last-Event-ID",
                written(asked)
            );
            return Err(Failure::new(Kind::NotFound, detail));
        }
        let started = run::start(self, &ledger, asked, Again::Never, stop).await.map_err(failed)?;
        Ok(self.signs(started, caller.door, stop))
    }

    /// The day whose report is asked for: today where none is said, none to come.
    fn begun(&self, date: &str) -> Result<i32, Failure> {
        let today = day_of(self.catalogue().order_day(self.now())).0;
        let asked = optional("date", date)?.unwrap_or(today);
        if asked <= today {
            return Ok(asked);
        }
        let message = format!(
            "{date} is to come: a report is of a morning that has been, and today is {} by the shop's clock",
            written(today)
        );
        Err(Failure::refused(vec![violation("date", ViolationReason::OutOfRange, message)]))
    }

    /// What is told of a report from now on until it ends, this server stops or nobody listens.
    fn signs(self: &Arc<Self>, started: Started, door: Door, stop: &Stop) -> Signs {
        let (send, signs) = channel(AHEAD);
        let (service, stop) = (self.clone(), stop.clone());
        tokio::spawn(async move {
            let telling = async {
                if let Err(failure) = tell(&service, started, door, &stop, &send).await {
                    let _ = send.send(Err(failure)).await;
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
        signs
    }
}

type Out = Sender<Result<v1::RunBurnReportResponse, Failure>>;

/// Tells of a report until it ends or nobody listens, whoever makes it meanwhile.
async fn tell(
    service: &Arc<Service>,
    mut started: Started,
    door: Door,
    stop: &Stop,
    send: &Out,
) -> Result<(), Failure> {
    let ledger = service.reports()?;
    let mut last = None;
    loop {
        match started {
            Started::Here(told) => match follow(told, send).await {
                Some(head) if head.state == ReportState::Running => last = Some(head),
                _ => return Ok(()),
            },
            Started::There(head) => {
                let is_news = last.as_ref() != Some(&head);
                if is_news && send.send(Ok(sign(&head, String::new()))).await.is_err() {
                    return Ok(());
                }
                if head.state != ReportState::Running {
                    return Ok(());
                }
                last = Some(head);
            }
        }
        let Some(head) = &last else { return Ok(()) };
        sleep(LOOK).await;
        let failed = |error: Error| unavailable(&error, door);
        let next = ledger.report_list(head.day, head.day, 1).await.map_err(failed)?.pop();
        let next = next.ok_or_else(|| Failure::internal("a report that was there is gone"))?;
        // whoever made it may be gone: then it is made here
        let is_left = next.state == ReportState::Running && next.lease_until <= at(service.now());
        started = if is_left {
            run::start(service, ledger, next.day, Again::Never, stop).await.map_err(failed)?
        } else {
            Started::There(next)
        };
    }
}

/// Why there is no answer; of a report, whoever asks gives no id.
fn unavailable(error: &Error, door: Door) -> Failure {
    match error {
        Error::Unavailable(cause) => {
            tracing::error!(cause, "the stock cannot be had");
            Failure::new(
                Kind::Unavailable,
                "the stock cannot be read or written now: ask for the report again in a moment; it is made once \
                 at most",
            )
        }
        other => refused::error(other, door),
    }
}

fn sign(head: &ReportHead, code: String) -> v1::RunBurnReportResponse {
    v1::RunBurnReportResponse { head: Some(convert::head(head)), code }
}

/// Tells of a run of this server until it ends; how it stood then, unless nobody listens.
async fn follow(mut told: watch::Receiver<Told>, send: &Out) -> Option<ReportHead> {
    loop {
        let now = told.borrow_and_update().clone();
        send.send(Ok(sign(&now.head, now.code))).await.ok()?;
        if told.changed().await.is_err() {
            return Some(now.head);
        }
    }
}

/// The report that was kept.
fn read(found: &Report) -> Result<v1::BurnReport, Failure> {
    let Some((_, body)) = found.done() else {
        let detail = format!("the report of {} {}", written(found.head.day), ended(&found.head));
        return Err(Failure::new(Kind::FailedPrecondition, detail));
    };
    let unreadable =
        |fault: &str| Failure::internal(&format!("a report that was kept cannot be read: {fault}"));
    let report = v1::BurnReport::decode(body).map_err(|fault| unreadable(&fault.to_string()))?;
    if report.date != written(found.head.day) {
        return Err(unreadable(&format!("it says that it is of {:?}", report.date)));
    }
    Ok(report)
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
        Ok(date) if form && date.year() > 0 => Ok(Some(day_of(date).0)),
        _ => {
            let given: String = text.chars().take(40).collect();
            let message = format!("{given:?} is no day: give an ISO date such as 2026-11-30");
            Err(Failure::refused(vec![violation(field, ViolationReason::BadDate, message)]))
        }
    }
}
