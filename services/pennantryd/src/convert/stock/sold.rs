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
use pennantry_app::Catalogue;
use pennantry_app::quote::Answer;
use pennantry_app::stock::{Charged, Plan};
use pennantry_contract::v1;
use prost::Message;

use super::super::{answer, ticket as tickets};
use super::promised::{acknowledge, as_promised, charged, days, opened, worked};
use super::write::{metres, numbered};
use crate::failure::Failure;
use crate::service::Door;
use crate::ticket::{Keys, Opened};

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

pub(super) fn notice(code: &str, message: String) -> v1::ReservationNotice {
    v1::ReservationNotice { code: code.to_owned(), message }
}
