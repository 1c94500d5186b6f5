//! What is on the shelf for a quote, and what is missing, in words.

use jiff::Timestamp;
use pennantry_app::Catalogue;
use pennantry_app::stock::{AmendError, Lack, Plan, Use};
use pennantry_contract::reasons::Kind;
use pennantry_contract::v1;
use pennantry_ledger::rules::Amount;

use super::super::length::write as mm;
use super::goods::name;
use super::write::{date, metres, quantity, spoken};
use crate::failure::Failure;
use crate::service::Door;

/// What is on the shelf, in a view.
pub fn write(plan: &Plan, as_of: Timestamp, expected: Option<i32>, view: v1::View) -> v1::Shelf {
    v1::Shelf {
        available: plan.is_whole(),
        as_of: as_of.to_string(),
        expected_date: expected.map(date),
        uses: if view == v1::View::Shop { plan.uses.iter().map(used).collect() } else { Vec::new() },
    }
}

fn used(used: &Use) -> v1::ShelfUse {
    let class = used.material.class;
    let takes = used.takes.iter().map(|take| v1::ShelfTake {
        piece_id: take.piece.to_string(),
        lot: take.lot.clone(),
        remnant: take.remnant,
        quantity: Some(quantity(class, take.amount)),
        shapes: take.shapes,
    });
    v1::ShelfUse {
        code: used.material.code.clone(),
        purpose: used.purpose.clone(),
        available: used.kept && !used.missing.is_some(),
        not_kept: !used.kept,
        takes: takes.collect(),
        missing: Some(quantity(class, used.missing)),
        new_mm: mm(used.new),
        charged_mm: mm(used.charged),
        lot_count: used.lots,
    }
}

/// That the shelf cannot be looked at.
pub fn unknown() -> v1::Notice {
    v1::Notice {
        code: "SHELF_UNKNOWN".to_owned(),
        field: "shelf".to_owned(),
        message: "what is on the shelf is not known here: the stock is not open on this server; ask the shop"
            .to_owned(),
    }
}

/// Why nothing is held: what is missing, from where it could come, and when.
pub fn missing(plan: &Plan, expected: Option<i32>, door: Door) -> Failure {
    let lacking: Vec<&Use> = plan.uses.iter().filter(|used| used.missing.is_some()).collect();
    let told: Vec<String> = lacking
        .iter()
        .map(|used| match door {
            Door::Public => format!("\"{}\"", used.name),
            Door::Private => {
                let there: Amount = used.takes.iter().map(|take| take.amount).sum();
                let class = used.material.class;
                let over = used.over.map_or_else(String::new, |over| {
                    format!(
                        ", which the shelf would give in {} more new cloth than was charged",
                        metres(over)
                    )
                });
                format!(
                    "{} of \"{}\" for {} ({} of it would be there{over})",
                    spoken(class, used.missing),
                    used.material.code,
                    used.purpose,
                    spoken(class, there)
                )
            }
        })
        .collect();
    let (next, told) = (
        match (expected, door) {
            (Some(day), _) => format!("all of it is expected on {}: ask again then, or choose something else", date(day)),
            (None, Door::Public) => "choose something else, or ask the shop".to_owned(),
            (None, Door::Private) => {
                "nothing that would fill it is on order in time: place an order, receive more, or quote other cloth"
                    .to_owned()
            }
        },
        told.join(", "),
    );
    Failure::new(
        Kind::FailedPrecondition,
        format!("not all of it is on the shelf: missing is {told}; {next}"),
    )
}

/// Why nothing is amended.
pub fn not_amended(catalogue: &Catalogue, error: &AmendError) -> Option<Failure> {
    match error {
        AmendError::Hold(_) => None,
        AmendError::NothingMissing => {
            let detail = "nothing of it is missing, so there is nothing to plan anew: give the token of another quote, \
                          or leave it as it is";
            Some(Failure::new(Kind::FailedPrecondition, detail))
        }
        AmendError::Nothing(lacks) => {
            let told: Vec<String> = lacks.iter().map(|lack| of(catalogue, lack)).collect();
            let detail = format!(
                "nothing on the shelf makes it good: {}; receive more, or amend it to another quote",
                told.join("; ")
            );
            Some(Failure::new(Kind::FailedPrecondition, detail))
        }
    }
}

fn of(catalogue: &Catalogue, lack: &Lack) -> String {
    let material = pennantry_ledger::rules::Material { class: lack.class, code: lack.code.clone() };
    format!(
        "line {} wants {} of \"{}\", of which {} is missing",
        lack.line,
        spoken(lack.class, lack.wanted),
        name(&catalogue.shop, &material),
        spoken(lack.class, lack.missing)
    )
}
