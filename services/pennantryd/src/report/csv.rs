//! Tables for spreadsheets, as RFC 4180 has them: commas, CRLF, quotes where they are needed.
//!
//! Lengths are metres with every digit of the message, days ISO dates; what is absent is an empty
//! cell, and the column `not_said` tells why. Text that a spreadsheet would work out (it begins
//! with `=`, `+`, `-`, `@`, their full-width twins, a tab or the end of a line, blanks before them or not) gets an
//! apostrophe in front, as OWASP's page "CSV Injection" advises; figures do not. Whoever reads such a file back takes
//! one apostrophe away where apostrophes and blanks are followed by one of those. Else text is as in the message.

use std::cmp::Ordering;

use ::csv::{Terminator, WriterBuilder};
use pennantry_contract::v1::{BurnFabric, BurnReport, Buying, Money};

use super::absent::{Told, seven};
use super::figures::{amount, exact};
use super::words::{class, pressing};

/// Why a table cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum CsvError {
    /// A row was refused.
    #[error("the table cannot be written: {0}; make the report anew")]
    Row(#[from] ::csv::Error),
    /// What was written is no text.
    #[error("the table cannot be written: {0}; make the report anew")]
    Text(String),
}

/// Headers of the table of fabrics; lengths are metres.
const FABRICS: [&str; 31] = [
    "date",
    "code",
    "name",
    "pressing",
    "sentence",
    "free_m",
    "used_in_four_weeks_m",
    "usual_for_these_weeks_m",
    "on_order_m",
    "weeks_left",
    "order_by_date",
    "proposal_m",
    "not_said",
    "on_hand_m",
    "held_m",
    "confirmed_m",
    "short_m",
    "position_m",
    "runs_out_date",
    "reorder_point_m",
    "longest_single_length_m",
    "last_used_date",
    "dead",
    "demand_class",
    "method",
    "supplier",
    "wastage_taken_m",
    "wastage_ends_m",
    "wastage_spoiled_m",
    "wastage_flaws_m",
    "wastage_layout_percent",
];

/// Headers of the table of proposals.
const PROPOSALS: [&str; 9] =
    ["supplier", "their_reference", "code", "name", "metres", "bolts", "order_by_date", "cost", "currency"];

/// One row a fabric, in the order of the report.
///
/// # Errors
/// It cannot be written.
pub fn csv(report: &BurnReport) -> Result<String, CsvError> {
    written(&FABRICS, report.fabrics.iter().map(|fabric| row(report, fabric)))
}

/// One row a proposal, by supplier, then by the day by which it is ordered; of one supplier where one is named.
///
/// # Errors
/// It cannot be written.
pub fn proposals_csv(report: &BurnReport, supplier: Option<&str>) -> Result<String, CsvError> {
    let rows = proposals(report, supplier).into_iter().map(|proposal| {
        let buying = proposal.buying;
        let cost = proposal.cost();
        vec![
            guarded(proposal.supplier()),
            guarded(buying.map(|buying| buying.supplier_reference.as_str()).unwrap_or_default()),
            guarded(&proposal.fabric.code),
            guarded(&proposal.fabric.name),
            metres(proposal.mm),
            buying.and_then(|buying| buying.proposal_bolts).map(|n| n.to_string()).unwrap_or_default(),
            guarded(proposal.fabric.order_by_date.as_deref().unwrap_or_default()),
            cost.map(amount).unwrap_or_default(),
            guarded(cost.map(|cost| cost.currency_code.as_str()).unwrap_or_default()),
        ]
    });
    written(&PROPOSALS, rows)
}

/// What is proposed of a fabric.
#[derive(Debug, Clone, Copy)]
pub(super) struct Proposal<'a> {
    /// The fabric.
    pub fabric: &'a BurnFabric,
    /// Its place in the report, from 1.
    pub place: usize,
    /// How it is bought.
    pub buying: Option<&'a Buying>,
    /// How much. Unit mm.
    pub mm: f64,
}

impl<'a> Proposal<'a> {
    /// Who sells it; empty where that is not known.
    pub(super) fn supplier(&self) -> &'a str {
        self.buying.map(|buying| buying.supplier.as_str()).unwrap_or_default()
    }

    /// What it costs, before tax.
    pub(super) fn cost(&self) -> Option<&'a Money> {
        self.buying.and_then(|buying| buying.proposal_cost.as_ref())
    }
}

/// Proposals by supplier, then by day, name and code.
pub(super) fn proposals<'a>(report: &'a BurnReport, supplier: Option<&str>) -> Vec<Proposal<'a>> {
    let mut found = Vec::new();
    for (place, fabric) in (1_usize..).zip(&report.fabrics) {
        let buying = fabric.detail.as_ref().and_then(|detail| detail.buying.as_ref());
        if let Some(mm) = fabric.proposal_mm {
            found.push(Proposal { fabric, place, buying, mm });
        }
    }
    found.retain(|proposal| supplier.is_none_or(|wanted| proposal.supplier() == wanted));
    found.sort_by(order);
    found
}

fn order(one: &Proposal<'_>, other: &Proposal<'_>) -> Ordering {
    // a day that is not known comes before every other: nobody can say that it has time
    let key = |proposal: &Proposal<'_>| proposal.fabric.order_by_date.clone();
    let suppliers = one.supplier().cmp(other.supplier());
    suppliers
        .then_with(|| key(one).cmp(&key(other)))
        .then_with(|| one.fabric.name.cmp(&other.fabric.name))
        .then_with(|| one.fabric.code.cmp(&other.fabric.code))
}

fn row(report: &BurnReport, fabric: &BurnFabric) -> Vec<String> {
    let detail = fabric.detail.as_ref();
    let buying = detail.and_then(|detail| detail.buying.as_ref());
    let wastage = detail.and_then(|detail| detail.wastage.as_ref());
    let told = seven(report, fabric);
    let length = |mm: Option<f64>| mm.map(metres).unwrap_or_default();
    let day = |iso: Option<&String>| iso.map(|iso| guarded(iso)).unwrap_or_default();
    let mut row = vec![
        guarded(&report.date),
        guarded(&fabric.code),
        guarded(&fabric.name),
        String::from(pressing(fabric.pressing).unwrap_or("Nothing")),
        guarded(&fabric.sentence),
    ];
    row.extend(told.iter().map(|told| match told {
        Told::Length(mm) => metres(*mm),
        Told::Weeks(weeks) => exact(*weeks, 1),
        Told::Day(iso) | Told::Far(iso) => guarded(iso),
        Told::Words(..) => String::new(),
    }));
    row.push(not_said(&told));
    row.extend([
        length(detail.map(|detail| detail.on_hand_mm)),
        length(detail.map(|detail| detail.held_mm)),
        length(detail.map(|detail| detail.confirmed_mm)),
        length(detail.map(|detail| detail.short_mm)),
        length(detail.map(|detail| detail.position_mm)),
        day(detail.and_then(|detail| detail.runs_out_date.as_ref())),
        length(buying.and_then(|buying| buying.reorder_point_mm)),
        length(detail.and_then(|detail| longest(&detail.lots))),
        day(detail.and_then(|detail| detail.last_used_date.as_ref())),
        detail.map(|detail| String::from(if detail.dead { "yes" } else { "no" })).unwrap_or_default(),
        detail.map(|detail| String::from(class(detail.demand_class).0)).unwrap_or_default(),
        guarded(detail.map(|detail| detail.method.as_str()).unwrap_or_default()),
        guarded(buying.map(|buying| buying.supplier.as_str()).unwrap_or_default()),
        length(wastage.map(|wastage| wastage.taken_mm)),
        length(wastage.map(|wastage| wastage.ends_mm)),
        length(wastage.map(|wastage| wastage.spoiled_mm)),
        length(wastage.map(|wastage| wastage.flawed_mm)),
        wastage.and_then(|wastage| wastage.layout_percent).map(|share| exact(share, 1)).unwrap_or_default(),
    ]);
    row
}

/// The longest single length of any lot. Unit mm.
pub(super) fn longest(lots: &[pennantry_contract::v1::BurnLot]) -> Option<f64> {
    lots.iter().map(|lot| lot.longest_mm).max_by(f64::total_cmp)
}

/// Why cells of the seven columns are empty.
fn not_said(told: &[Told; 7]) -> String {
    let named = super::absent::COLUMNS.iter().zip(told).filter_map(|((name, _), told)| match told {
        Told::Words(words, "") => Some(format!("{name}: {words}")),
        Told::Words(words, why) => Some(format!("{name}: {words} ({why})")),
        _ => None,
    });
    named.collect::<Vec<_>>().join("; ")
}

/// Millimetres as metres, every digit.
fn metres(mm: f64) -> String {
    exact(mm / 1000.0, 6)
}

/// Text that no spreadsheet works out.
pub(super) fn guarded(text: &str) -> String {
    let inside = text.trim_start_matches(['\'', ' ']);
    let works = inside
        .starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}']);
    if works { format!("'{text}") } else { String::from(text) }
}

fn written(headers: &[&str], rows: impl Iterator<Item = Vec<String>>) -> Result<String, CsvError> {
    let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(headers)?;
    for row in rows {
        writer.write_record(row)?;
    }
    let bytes = writer.into_inner().map_err(|cause| CsvError::Text(cause.to_string()))?;
    String::from_utf8(bytes).map_err(|cause| CsvError::Text(cause.to_string()))
}
