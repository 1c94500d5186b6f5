//! A ticket held against today's catalogue: whether it can be sold, which cloth it charged, and
//! when it leaves.

use jiff::Timestamp;
use jiff::civil::Date;
use pennantry_app::quote::{self, Answer, Error};
use pennantry_app::stock::{Charged, Wanted, needs};
use pennantry_app::{Catalogue, day};
use pennantry_calc::child::Outcome;
use pennantry_contract::reasons::{Kind, ViolationReason as Why};
use pennantry_contract::v1;
use pennantry_measure::Length;

use super::super::{enquiry, ticket as tickets};
use super::sold::{Selling, notice};
use super::write::{date, metres, numbered};
use crate::failure::{Failure, violation};
use crate::service::Door;
use crate::ticket::{Opened, Promise, open};

pub(super) fn opened(selling: &Selling<'_>, token: &str) -> Result<Opened, Failure> {
    let refused = |why, message: String| Err(Failure::refused(vec![violation("token", why, message)]));
    let not_ours = || {
        let message = "this is no ticket of this shop, or not a whole one: give the token of a quote as it came, or \
                       ask for a new quote";
        refused(Why::BadText, message.to_owned())
    };
    let Some(opened) = open(token, selling.keys) else { return not_ours() };
    let promise = &opened.promise;
    let today = selling.catalogue.order_day(selling.now);
    let Ok(expires) = Timestamp::from_second(promise.expire_second) else { return not_ours() };
    if !promise.order_date.parse::<Date>().is_ok_and(|ordered| ordered <= today) {
        return not_ours();
    }
    // half-open: at that instant it holds no longer
    if selling.now >= expires {
        let until = tickets::last_moment(selling.catalogue, expires);
        let message = format!("the quote of {} held until {until}: ask for a new one", promise.order_date);
        return refused(Why::PastDate, message);
    }
    Ok(opened)
}

/// The enquiry of a ticket on today's catalogue.
pub(super) fn worked(selling: &Selling<'_>, understood: Option<&v1::Enquiry>) -> Result<Answer, Failure> {
    let mut asked = understood.cloned().unwrap_or_default();
    let today = selling.catalogue.order_day(selling.now);
    let passed = |wanted: &str| wanted.parse::<Date>().is_ok_and(|wanted| wanted < today);
    if asked.wanted_date.as_deref().is_some_and(passed) {
        asked.wanted_date = None;
    }
    let read = enquiry::read(&asked);
    match quote::answer(selling.booked, &read.enquiry, selling.now) {
        Ok(answer) => Ok(answer),
        Err(Error::Fault(cause)) => Err(Failure::internal(&cause)),
        Err(Error::Refused(found)) => {
            let mut told: Vec<String> =
                read.violations.into_iter().map(|violation| violation.message).collect();
            told.extend(found.into_iter().map(|violation| violation.message));
            let detail = format!(
                "what was quoted cannot be made any longer as the catalogue is now: {}; ask for a new quote",
                told.join("; ")
            );
            Err(Failure::new(Kind::FailedPrecondition, detail))
        }
    }
}

/// Whether what was found about small children lets it be sold; the rules that staff set
/// aside.
pub(super) fn acknowledge(
    answer: &Answer,
    door: Door,
    acknowledged: &[String],
    over: &str,
) -> Result<Vec<String>, Failure> {
    let child = &answer.quote.child;
    let by_staff = door == Door::Private && !over.is_empty();
    let found = |rule: &str| child.findings.iter().find(|finding| finding.rule == rule);
    let mut violations = Vec::new();
    for (place, rule) in acknowledged.iter().enumerate() {
        if found(rule).is_none() {
            let message = format!(
                "{rule} was not found for this quote, so there is nothing to acknowledge: leave it out"
            );
            violations.push(violation(&format!("acknowledgedRuleIds[{place}]"), Why::Contradiction, message));
        }
    }
    let open: Vec<&str> = child
        .acknowledge
        .iter()
        .filter(|rule| !acknowledged.iter().any(|given| given == **rule))
        .copied()
        .collect();
    if !by_staff {
        for rule in &open {
            let words = found(rule).map_or(String::new(), |finding| {
                format!(
                    "{} ({}, allowed {}); {}",
                    finding.text, finding.measured, finding.limit, finding.remedy
                )
            });
            let message = format!("{rule} must be read and acknowledged: {words}");
            violations.push(violation("acknowledgedRuleIds", Why::Missing, message));
        }
    }
    if !violations.is_empty() {
        return Err(Failure::refused(violations));
    }
    let mut aside: Vec<String> = open.iter().map(|rule| (*rule).to_owned()).collect();
    if child.outcome == Outcome::Refuse {
        let refusing: Vec<_> =
            child.findings.iter().filter(|finding| finding.outcome == Outcome::Refuse).collect();
        if !by_staff {
            let told: Vec<String> = refusing
                .iter()
                .map(|finding| format!("{}: {}; {}", finding.rule, finding.text, finding.remedy))
                .collect();
            let next = match door {
                Door::Public => "ask for what its remedies say, or ask the shop",
                Door::Private => {
                    "ask for what its remedies say, or give overrideReason, which goes on the record"
                }
            };
            let detail = format!("it is not sold for this use: {}; {next}", told.join("; "));
            return Err(Failure::new(Kind::FailedPrecondition, detail));
        }
        for finding in refusing {
            if !aside.iter().any(|rule| rule == finding.rule) {
                aside.push(finding.rule.to_owned());
            }
        }
    }
    Ok(aside)
}

/// What the ticket charges of each cloth; what today's catalogue would charge is said.
pub(super) fn charged(
    catalogue: &Catalogue,
    answer: &Answer,
    promise: &Promise,
    notices: &mut Vec<v1::ReservationNotice>,
) -> Result<Vec<Charged>, Failure> {
    let changed = promise.catalogue_revision != catalogue.revision;
    let items = needs(&catalogue.shop, &answer.order, &answer.quote.worked);
    let cloth: Vec<_> =
        items.iter().filter(|item| matches!(item.wanted, Wanted::Cloth(_) | Wanted::Across { .. })).collect();
    if promise.charged_um.is_empty() {
        if changed {
            let message = "quoted from another catalogue: its ticket does not say what cloth it charged, so today's \
                           bounds what is taken; the price stands as promised";
            notices.push(notice(ANOTHER, message.to_owned()));
        }
        return Ok(Vec::new());
    }
    if promise.charged_um.len() != cloth.len() {
        let detail = "what was quoted is cut from other cloths as the catalogue is now: ask for a new quote";
        return Err(Failure::new(Kind::FailedPrecondition, detail));
    }
    let mut differs = Vec::new();
    let mut charged = Vec::with_capacity(cloth.len());
    for (item, um) in cloth.iter().zip(&promise.charged_um) {
        let then = Length::from_um(*um);
        if then != item.charged {
            let (code, purpose) = (&item.material.code, &item.purpose);
            differs.push(format!(
                "{} of \"{code}\" for {purpose}, {} as it is now",
                metres(then),
                metres(item.charged)
            ));
        }
        charged.push(Charged {
            code: item.material.code.clone(),
            purpose: item.purpose.clone(),
            charged: then,
        });
    }
    if changed {
        let message = match differs.as_slice() {
            [] => "quoted from another catalogue: the cloth is the same; the price stands as promised"
                .to_owned(),
            _ => format!(
                "quoted from another catalogue, which charged {}; the price stands as promised",
                differs.join(", ")
            ),
        };
        notices.push(notice(ANOTHER, message));
    }
    Ok(charged)
}

/// Code of the notice that it was quoted from another catalogue.
const ANOTHER: &str = "SOLD_FROM_ANOTHER_CATALOGUE";

/// The days that are promised: those of the ticket; taken on a later day, no earlier than the
/// bench can.
pub(super) fn days(
    answer: &Answer,
    promise: &Promise,
    told: &v1::Quote,
    notices: &mut Vec<v1::ReservationNotice>,
) -> (String, String) {
    let as_promised = (promise.leave_date.clone(), promise.arrive_to.clone());
    let (Some(today), false) = (told.dates.as_ref(), promise.order_date == answer.ordered.to_string()) else {
        return as_promised;
    };
    let later = |now: &str, then: &str| numbered(now) > numbered(then);
    if !later(&today.leave_date, &promise.leave_date) {
        return as_promised;
    }
    let arrives = today.arrive_to.clone().unwrap_or_default();
    let arrive = if later(&arrives, &promise.arrive_to) { arrives } else { promise.arrive_to.clone() };
    let message = format!(
        "quoted on {} to leave on {}: taken on {}, it leaves on {}",
        promise.order_date,
        if promise.leave_date.is_empty() { "no day" } else { &promise.leave_date },
        date(day(answer.ordered).0),
        today.leave_date
    );
    notices.push(notice("LEAVES_LATER", message));
    (today.leave_date.clone(), arrive)
}

pub(super) fn as_promised(promise: &Promise, total: &v1::Money) -> v1::PriceLine {
    v1::PriceLine {
        code: "AS_PROMISED".to_owned(),
        text: format!("as promised on {}", promise.order_date),
        amount: Some(total.clone()),
        ..v1::PriceLine::default()
    }
}
