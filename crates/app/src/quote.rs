//! Answering an enquiry.

use jiff::Timestamp;
use jiff::civil::Date;
use pennantry_calc::order::{Asked, Field, Order, Reason, Violation, check};
use pennantry_calc::quote::{self, Quote};

use crate::{Catalogue, day};

/// What is asked, and what is asked of the calendar.
#[derive(Debug, Clone, Default)]
pub struct Enquiry {
    /// What is to be made.
    pub asked: Asked,
    /// Day by which it should arrive.
    pub wanted: Option<Date>,
    /// Day as of which it is worked, at noon; now, where none is said.
    pub as_of: Option<Date>,
    /// Fields that were said but could not be read.
    pub unreadable: Vec<Field>,
}

/// The answer.
#[derive(Debug, Clone)]
pub struct Answer {
    /// The order as understood.
    pub order: Order,
    /// What it comes to.
    pub quote: Quote,
    /// The shop's day on which it was asked.
    pub ordered: Date,
    /// Instant from which it holds no longer.
    pub expires: Timestamp,
    /// Whether the day was said: then it is to look at, and promises nothing.
    pub as_of: bool,
}

/// Why there is no answer.
#[derive(Debug, thiserror::Error)]
pub enum Error {
    /// Every violation, in the order of the fields.
    #[error("{} violation(s)", .0.len())]
    Refused(Vec<Violation>),
    /// A fault of the program; the cause is for the log.
    #[error("{0}")]
    Fault(String),
}

/// Answers one enquiry on a catalogue, at an instant, or at noon of the day as of which it is
/// asked.
///
/// Geometry is not begun while a field is in doubt: an enquiry with anything
/// unreadable is only checked.
///
/// # Errors
/// [`Error::Refused`] with every violation at once.
pub fn answer(catalogue: &Catalogue, enquiry: &Enquiry, now: Timestamp) -> Result<Answer, Error> {
    let mut found = Vec::new();
    let calendar = |cause: jiff::Error| Error::Fault(cause.to_string());
    let now = match enquiry.as_of {
        Some(date) => catalogue.noon(date).map_err(calendar)?,
        None => now,
    };
    let ordered = catalogue.order_day(now);
    if let Some(wanted) = enquiry.wanted
        && wanted < ordered
    {
        found.push(Violation::new(
            Field::WantedDate,
            Reason::PastDate,
            format!("{wanted} has passed: today is {ordered} at the shop; give a later day, or leave it out"),
        ));
    }
    let asked = Asked { wanted: enquiry.wanted.map(day), ..enquiry.asked.clone() };
    let order = match check(&catalogue.shop, &asked, &enquiry.unreadable) {
        Ok(order) => order,
        Err(more) => {
            found.extend(more);
            return Err(Error::Refused(found));
        }
    };
    if !found.is_empty() || !enquiry.unreadable.is_empty() {
        return Err(Error::Refused(found));
    }
    match quote::calculate(&catalogue.shop, &order, catalogue.when(now)) {
        Ok(quote) => {
            let expires = catalogue.expires(ordered).map_err(calendar)?;
            Ok(Answer { order, quote, ordered, expires, as_of: enquiry.as_of.is_some() })
        }
        Err(quote::Error::Refused(found)) => Err(Error::Refused(found)),
        Err(quote::Error::Fault(fault)) => Err(Error::Fault(fault)),
    }
}
