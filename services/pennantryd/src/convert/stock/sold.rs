//! What is sold with a reservation: from a ticket and today's catalogue to what the reservation
//! keeps of it.
//!
//! The ticket is opened, and the enquiry in it worked anew on the catalogue in force, at the
//! instant it is taken; a wanted day that has passed since is dropped. The price stands as it was
//! promised. So does the day of leaving where it is taken on the day it was quoted; on a later
//! day it is put off as far as the bench needs, and that is said. Cloth is bounded by what the
//! ticket charges, and what another catalogue charges instead is said.
//!
//! What is kept is a protobuf of its own, with messages of the contract in it, opaque to the
//! ledger. A number once used keeps its meaning.

use jiff::Timestamp;
use jiff::civil::Date;
use pennantry_app::quote::{self, Answer, Error};
use pennantry_app::stock::{Charged, Plan, Wanted, needs};
use pennantry_app::{Catalogue, day};
use pennantry_calc::child::Outcome;
use pennantry_contract::reasons::{Kind, ViolationReason as Why};
use pennantry_contract::v1;
use pennantry_measure::Length;
use prost::Message;

use super::super::{answer, enquiry, ticket as tickets};
use super::write::{date, metres, numbered};
use crate::failure::{Failure, violation};
use crate::service::Door;
use crate::ticket::{Keys, Opened, open};

/// What a reservation keeps of what was sold.
#[derive(Clone, PartialEq, prost::Message)]
pub struct Sold {
    /// The enquiry as it was understood.
    #[prost(message, optional, tag = "1")]
    pub understood: Option<v1::Enquiry>,
    /// Revision of the catalogue that it was quoted from.
    #[prost(string, tag = "2")]
    pub quoted_revision: String,
    /// Revision of the catalogue that it was taken on.
    #[prost(string, tag = "3")]
    pub taken_revision: String,
    /// The shop's day on which it was quoted, ISO date.
    #[prost(string, tag = "4")]
    pub order_date: String,
    /// What was promised for all of it.
    #[prost(message, optional, tag = "5")]
    pub total: Option<v1::Money>,
    /// How many digits of amounts are minor.
    #[prost(uint32, tag = "6")]
    pub minor_digits: u32,
    /// The lines of the price, where they add up to what was promised; else one line of that.
    #[prost(message, repeated, tag = "7")]
    pub lines: Vec<v1::PriceLine>,
    /// Day it is to leave; empty where none was said.
    #[prost(string, tag = "8")]
    pub leave_date: String,
    /// Last day it is to arrive; empty where none was said.
    #[prost(string, tag = "9")]
    pub arrive_to: String,
    /// What was found about small children.
    #[prost(message, optional, tag = "10")]
    pub child: Option<v1::ChildFinding>,
    /// Duties on paper.
    #[prost(message, optional, tag = "11")]
    pub paperwork: Option<v1::Paperwork>,
    /// The leaflet, a line each.
    #[prost(string, repeated, tag = "12")]
    pub leaflet: Vec<String>,
    /// Rules that were acknowledged.
    #[prost(string, repeated, tag = "13")]
    pub acknowledged: Vec<String>,
    /// Why staff took it though a rule stood in the way; empty where none did.
    #[prost(string, tag = "14")]
    pub override_reason: String,
    /// Rules that stood in the way.
    #[prost(string, repeated, tag = "15")]
    pub overridden: Vec<String>,
    /// What to know of it.
    #[prost(message, repeated, tag = "16")]
    pub notices: Vec<v1::ReservationNotice>,
    /// In one line.
    #[prost(string, tag = "17")]
    pub summary: String,
    /// What its lines are for.
    #[prost(message, repeated, tag = "18")]
    pub items: Vec<SoldItem>,
}

/// What lines are for.
#[derive(Clone, PartialEq, Eq, prost::Message)]
pub struct SoldItem {
    /// Number, from nought.
    #[prost(uint32, tag = "1")]
    pub number: u32,
    /// Code of the material.
    #[prost(string, tag = "2")]
    pub code: String,
    /// What it is for.
    #[prost(string, tag = "3")]
    pub purpose: String,
}

impl Sold {
    /// From what the ledger keeps; what is no such thing is nothing.
    pub fn read(bytes: &[u8]) -> Sold {
        Sold::decode(bytes).unwrap_or_default()
    }
}

/// Who sells on which catalogue, and when.
#[derive(Debug, Clone, Copy)]
pub struct Selling<'a> {
    /// The catalogue in force.
    pub catalogue: &'a Catalogue,
    /// The same, with what is booked at the bench.
    pub booked: &'a Catalogue,
    /// Keys of tickets.
    pub keys: &'a Keys,
    /// Through which door.
    pub door: Door,
    /// The instant.
    pub now: Timestamp,
}

/// What is to be sold.
#[derive(Debug)]
pub struct Sale {
    /// What it comes to today.
    pub answer: Answer,
    /// Identity of the quote.
    pub quote_id: String,
    /// What was charged of each cloth.
    pub charged: Vec<Charged>,
    /// Numbered day on which it is to leave.
    pub leave_day: Option<i32>,
    /// What the reservation keeps, but for what its lines are for and what is not kept in stock.
    kept: Sold,
}

impl Sale {
    /// What the reservation keeps, from what it is taken from.
    pub fn sold(&self, plan: &Plan) -> Vec<u8> {
        let mut sold = self.kept.clone();
        sold.items = plan
            .uses
            .iter()
            .map(|used| SoldItem {
                number: used.item,
                code: used.material.code.clone(),
                purpose: used.purpose.clone(),
            })
            .collect();
        let absent: Vec<&str> =
            plan.uses.iter().filter(|used| !used.kept).map(|used| used.name.as_str()).collect();
        if !absent.is_empty() {
            let message =
                format!("the shop keeps no stock of {}: nothing is reserved of it", absent.join(", "));
            sold.notices.push(notice("NOT_KEPT", message));
        }
        sold.encode_to_vec()
    }
}

/// What is to be sold by a ticket, with what was acknowledged.
///
/// # Errors
/// - the ticket is none of ours, not whole, or over; an acknowledgement is missing, or is of a
///   rule that was not found: violations;
/// - it cannot be sold, or made as it was: as things stand.
pub fn sale(
    selling: &Selling<'_>,
    token: &str,
    acknowledged: &[String],
    over: &str,
) -> Result<Sale, Failure> {
    let Opened { quote_id, promise } = opened(selling, token)?;
    let answer = worked(selling, promise.understood.as_ref())?;
    let overridden = acknowledge(&answer, selling.door, acknowledged, over)?;
    let shop = &*selling.catalogue.shop;
    let understood = promise.understood.clone().unwrap_or_default();
    let told = answer::write(selling.catalogue, &understood, &answer, v1::View::Buyer);
    let mut notices = Vec::new();
    let charged = charged(selling.catalogue, &answer, &promise, &mut notices)?;
    let (leave_date, arrive_to) = days(&answer, &promise, &told, &mut notices);
    let price = told.price.unwrap_or_default();
    let total =
        v1::Money { currency_code: promise.currency_code.clone(), minor_units: promise.total_minor_units };
    let lines =
        if price.total.as_ref() == Some(&total) { price.lines } else { vec![as_promised(&promise, &total)] };
    if let Some(rate) = tickets::new_tax(selling.catalogue, &promise, answer.ordered) {
        let message =
            format!("the tax is {rate} now and was another when it was quoted: the price stands as promised");
        notices.push(notice("TAX_CHANGED", message));
    }
    if !overridden.is_empty() {
        let message = format!("taken by staff although {} stood in the way", overridden.join(", "));
        notices.push(notice("OVERRIDDEN", message));
    }
    let design = shop.designs.get(answer.order.design).map_or("", |design| design.code.as_str());
    let leaves = match leave_date.as_str() {
        "" => "no day said for leaving".to_owned(),
        day => format!("leaves on {day}"),
    };
    let arrives = if arrive_to.is_empty() { String::new() } else { format!(", arrives by {arrive_to}") };
    let outcome = told.child.as_ref().map(v1::ChildFinding::outcome).unwrap_or_default();
    let strings = answer.order.quantity;
    let summary = format!(
        "{strings} × \"{design}\", {} pennants over {}; {} in all, promised on {}; {leaves}{arrives}; {}",
        answer.quote.worked.layout.count,
        metres(answer.quote.worked.layout.flagged),
        tickets::amount(&promise, promise.total_minor_units),
        promise.order_date,
        tickets::about_children(outcome)
    );
    Ok(Sale {
        quote_id,
        charged,
        leave_day: numbered(&leave_date),
        kept: Sold {
            understood: promise.understood,
            quoted_revision: promise.catalogue_revision,
            taken_revision: selling.catalogue.revision.clone(),
            order_date: promise.order_date,
            total: Some(total),
            minor_digits: promise.minor_digits,
            lines,
            leave_date,
            arrive_to,
            child: told.child,
            paperwork: told.paperwork,
            leaflet: told.leaflet,
            acknowledged: acknowledged.to_vec(),
            override_reason: over.to_owned(),
            overridden,
            notices,
            summary,
            items: Vec::new(),
        },
        answer,
    })
}

/// What a reservation was sold by, worked on the catalogue in force; none where that cannot be
/// done any longer.
pub fn again(selling: &Selling<'_>, sold: &Sold) -> Option<Answer> {
    worked(selling, sold.understood.as_ref()).ok()
}

fn notice(code: &str, message: String) -> v1::ReservationNotice {
    v1::ReservationNotice { code: code.to_owned(), message }
}

fn opened(selling: &Selling<'_>, token: &str) -> Result<Opened, Failure> {
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
fn worked(selling: &Selling<'_>, understood: Option<&v1::Enquiry>) -> Result<Answer, Failure> {
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
fn acknowledge(
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
fn charged(
    catalogue: &Catalogue,
    answer: &Answer,
    promise: &crate::ticket::Promise,
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
fn days(
    answer: &Answer,
    promise: &crate::ticket::Promise,
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

fn as_promised(promise: &crate::ticket::Promise, total: &v1::Money) -> v1::PriceLine {
    v1::PriceLine {
        code: "AS_PROMISED".to_owned(),
        text: format!("as promised on {}", promise.order_date),
        amount: Some(total.clone()),
        ..v1::PriceLine::default()
    }
}
