//! The nightly report: asked for, given, listed, stopped, and made by itself.

mod asked;
mod broken_off;
mod nights;
mod windows;

use std::sync::atomic::{AtomicI64, Ordering};

use pennantry_contract::reasons::Kind;
use pennantry_ledger::report::{Again, Begin, Begun, Report, ReportState};
use pennantry_ledger::rules::At;

use super::*;
use crate::convert::stock::write::numbered;
use crate::listen::{self, Stop};
use crate::report::{csv, page, text};

/// The day of [`NOW`] in London.
const TODAY: &str = "2026-11-24";
/// Cloth of the demo shop.
const CLOTH: usize = 14;

type Sign = v1::RunBurnReportResponse;

/// A day as it is numbered.
fn numbered_day(date: &str) -> i32 {
    numbered(date).unwrap()
}

/// A signal that is not given for as long as a test runs.
fn never() -> Stop {
    let (stopper, stop) = listen::stop();
    // dropping it would give the signal
    std::mem::forget(stopper);
    stop
}

/// A clock that is put forward and back.
#[derive(Clone, Copy)]
struct Hand(&'static AtomicI64);

impl Hand {
    fn at(instant: &str) -> Hand {
        let hand = Hand(Box::leak(Box::default()));
        hand.put(instant);
        hand
    }

    fn put(self, instant: &str) {
        self.0.store(instant.parse::<Timestamp>().unwrap().as_microsecond(), Ordering::SeqCst);
    }

    fn forward(self, seconds: i64) {
        self.0.fetch_add(seconds * 1_000_000, Ordering::SeqCst);
    }

    fn clock(self) -> Clock {
        Clock::ByHand(self.0)
    }
}

impl Shop {
    async fn run(&self, date: &str, fresh: bool) -> Result<Vec<Sign>, Failure> {
        let request = v1::RunBurnReportRequest { date: date.to_owned(), fresh };
        let mut signs = self.service.run_burn_report(&staff(), &request, &never()).await?;
        let mut told = Vec::new();
        while let Some(sign) = signs.recv().await {
            told.push(sign?);
        }
        Ok(told)
    }

    /// Has the report of a day made, and says how it ended.
    async fn made(&self, date: &str, fresh: bool) -> v1::BurnReportHead {
        self.run(date, fresh).await.unwrap().pop().unwrap().head.unwrap()
    }

    async fn report(&self, request: Value) -> Result<v1::BurnReport, Failure> {
        let request = read(request);
        self.service.get_burn_report(&staff(), &request).await.map(|got| got.report.unwrap())
    }

    async fn reports(&self, request: Value) -> Result<Vec<v1::BurnReportHead>, Failure> {
        self.service.list_burn_reports(&staff(), &read(request)).await.map(|listed| listed.reports)
    }

    /// Days of all reports, the latest first.
    async fn days(&self) -> Vec<String> {
        self.reports(json!({})).await.unwrap().into_iter().map(|head| head.date).collect()
    }

    async fn call_off(&self, date: &str) -> Result<v1::BurnReportHead, Failure> {
        let request = v1::CancelBurnReportRequest { date: date.to_owned() };
        self.service.cancel_burn_report(&staff(), &request).await.map(|told| told.head.unwrap())
    }

    /// What is kept of a day's report.
    async fn kept(&self, date: &str) -> Report {
        self.stock.ledger.report_get(numbered_day(date)).await.unwrap().expect("it is kept")
    }

    /// Another server, of which nothing else is seen, begins the report of a day at an instant.
    async fn begun_elsewhere(&self, date: &str, instant: &str) {
        let begin = Begin {
            day: numbered_day(date),
            runner: format!("elsewhere-{date}"),
            zone: "Europe/London".to_owned(),
            revision: self.service.catalogue().revision.clone(),
            since: At(0),
            lease_seconds: 60,
            again: Again::Never,
        };
        let begun = self.stock.ledger.report_begin(begin, micros(instant)).await.unwrap();
        assert_eq!(begun, Begun::Mine { parts: Vec::new() });
    }

    /// It fails there.
    async fn failed_elsewhere(&self, date: &str, instant: &str) {
        self.begun_elsewhere(date, instant).await;
        let (day, runner) = (numbered_day(date), format!("elsewhere-{date}"));
        let failed = self.stock.ledger.report_fail(day, &runner, "a disk was full", micros(instant)).await;
        assert_eq!(failed.unwrap(), Ok(()));
    }
}

fn micros(instant: &str) -> At {
    At(instant.parse::<Timestamp>().unwrap().as_microsecond())
}

fn fabric<'a>(report: &'a v1::BurnReport, code: &str) -> &'a v1::BurnFabric {
    report.fabrics.iter().find(|fabric| fabric.code == code).unwrap_or_else(|| panic!("{code} is in it"))
}
