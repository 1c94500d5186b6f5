//! From an answer to its ticket, and from a ticket to what it promises.

use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp};
use pennantry_app::quote::Answer;
use pennantry_app::{Catalogue, day, first_instant};
use pennantry_calc::shop::TaxPoint;
use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_measure::bounds::TICKET_CHARS;
use pennantry_measure::{Length, Percent};

use super::length;
use super::words::DISCOUNT;
use crate::failure::{Failure, violation};
use crate::ticket::{self, Discounted, Keys, Opened, Promise};

/// Code of the notice that there is no ticket for a question of such length.
const TOO_LARGE: &str = "TOO_LARGE_FOR_TICKET";
/// Code of the notice that an answer as of a day is to look at.
const AS_OF: &str = "AS_OF";

/// Puts identity, expiry and token into an answer that is otherwise whole. One as of a day
/// that was said has the identity it would have on that day, and promises nothing: whoever
/// asks for a day years ahead would else hold a price for years.
///
/// # Errors
/// A fault of the program.
pub fn seal(quote: &mut v1::Quote, answer: &Answer, keys: &Keys) -> Result<(), Failure> {
    let promise = promise(quote, answer);
    let sealed = ticket::seal(&promise, keys).map_err(|fault| Failure::internal(&fault.to_string()))?;
    quote.quote_id = Some(sealed.quote_id);
    if answer.as_of {
        quote.notices.push(v1::Notice {
            code: AS_OF.to_owned(),
            field: "asOfDate".to_owned(),
            message: format!(
                "worked as of {} to look at: it promises nothing and has no ticket; leave asOfDate out for one that \
                 holds",
                answer.ordered
            ),
        });
        return Ok(());
    }
    quote.expire_time = Some(answer.expires.to_string());
    match sealed.token {
        Ok(token) => quote.token = Some(token),
        Err(chars) => quote.notices.push(v1::Notice {
            code: TOO_LARGE.to_owned(),
            field: "token".to_owned(),
            message: format!(
                "there is no ticket: it would have {chars} characters and may have {TICKET_CHARS}; what takes most \
                 of them is a long list of colours: give it as a repeat or a mirror, or keep the question \
                 and ask it again"
            ),
        }),
    }
    Ok(())
}

/// What an answer promises: the same whoever asked, and in whichever view.
fn promise(quote: &v1::Quote, answer: &Answer) -> Promise {
    let price = quote.price.as_ref();
    let total = price.and_then(|price| price.total.clone()).unwrap_or_default();
    let dates = quote.dates.as_ref();
    Promise {
        understood: quote.understood.clone().map(|enquiry| v1::Enquiry {
            view: None,
            workings: None,
            shelf: None,
            discount: None,
            as_of_date: None,
            ..enquiry
        }),
        catalogue_revision: quote.catalogue_revision.clone(),
        order_date: answer.ordered.to_string(),
        expire_second: answer.expires.as_second(),
        currency_code: total.currency_code,
        minor_digits: price.map_or(0, |price| price.minor_digits),
        total_minor_units: total.minor_units,
        leave_date: dates.map(|dates| dates.leave_date.clone()).unwrap_or_default(),
        arrive_to: dates.and_then(|dates| dates.arrive_to.clone()).unwrap_or_default(),
        child_outcome: quote.child.as_ref().map_or(0, |child| child.outcome),
        tax_milli: Some(milli(answer.quote.worked.price.tax.map(|tax| tax.rate))),
        discount: price.and_then(discounted),
        charged_um: charged(quote),
    }
}

/// Cloth charged, in the order of the answer, that of the binding last.
fn charged(quote: &v1::Quote) -> Vec<i64> {
    use v1::binding_use::Supply;
    let binding = match quote.binding.as_ref().and_then(|binding| binding.supply.as_ref()) {
        Some(Supply::Straight(cut)) => Some(cut.charged_mm),
        Some(Supply::Bias(cut)) => Some(cut.charged_mm),
        _ => None,
    };
    let all = quote.fabrics.iter().map(|fabric| fabric.charged_mm).chain(binding);
    // it was written from whole micrometres
    all.map(|mm| length::read(mm).map_or(0, Length::um)).collect()
}

/// What staff took off, as it stands among the lines: another reason is another promise.
fn discounted(price: &v1::Price) -> Option<Discounted> {
    let line = price.lines.iter().find(|line| line.code == DISCOUNT)?;
    let minor_units = line.amount.as_ref().map_or(0, |amount| amount.minor_units);
    Some(Discounted { minor_units, text: line.text.clone() })
}

/// A rate in thousandths of a percent, nought where there is none.
fn milli(rate: Option<Percent>) -> u32 {
    u32::try_from(rate.unwrap_or_default().milli()).unwrap_or(u32::MAX)
}

/// The token of a ticket that can be looked at.
///
/// # Errors
/// There is none, or it is longer than any.
pub fn token(ticket: &v1::Ticket) -> Result<&str, Failure> {
    let refused = |why, message| Err(Failure::refused(vec![violation("token", why, message)]));
    let count = ticket.token.chars().count();
    if count == 0 {
        return refused(
            Why::Missing,
            "there is no ticket: give the token of the quote, as it came".to_owned(),
        );
    }
    if count > TICKET_CHARS {
        return refused(
            Why::TooLong,
            format!(
                "a ticket of {count} characters is none: give the token of the quote, up to {TICKET_CHARS}"
            ),
        );
    }
    Ok(&ticket.token)
}

/// What there is to say about a ticket, opened or not, at an instant.
pub fn check(catalogue: &Catalogue, opened: Option<Opened>, now: Timestamp) -> v1::QuoteCheck {
    let not_ours = || v1::QuoteCheck {
        fault: Some(v1::TicketFault::NotOurs.into()),
        summary:
            "this is no ticket of this shop, or not a whole one: charge nothing on it, and ask for a quote"
                .to_owned(),
        ..v1::QuoteCheck::default()
    };
    let Some(Opened { quote_id, promise }) = opened else { return not_ours() };
    let Ok(expires) = Timestamp::from_second(promise.expire_second) else { return not_ours() };
    // what a newer program found about children, and this one does not know, is not to be sold on
    if v1::Outcome::try_from(promise.child_outcome).is_err() {
        return not_ours();
    }
    // nobody quotes on a day that is still to come
    let today = catalogue.order_day(now);
    if !promise.order_date.parse::<Date>().is_ok_and(|ordered| ordered <= today) {
        return not_ours();
    }
    // half-open: at that instant it holds no longer
    let valid = now < expires;
    let said = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    let new_tax = new_tax(catalogue, &promise, today);
    v1::QuoteCheck {
        valid,
        tax_changed: new_tax.is_some(),
        fault: if valid { None } else { Some(v1::TicketFault::Expired.into()) },
        summary: summary(catalogue, &promise, expires, valid, new_tax),
        quote_id: Some(quote_id),
        expire_time: Some(expires.to_string()),
        total: Some(v1::Money {
            currency_code: promise.currency_code,
            minor_units: promise.total_minor_units,
        }),
        order_date: Some(promise.order_date),
        leave_date: said(&promise.leave_date),
        arrive_to: said(&promise.arrive_to),
        child_outcome: promise.child_outcome,
        catalogue_changed: promise.catalogue_revision != catalogue.revision,
        catalogue_revision: Some(promise.catalogue_revision),
        // a newer program may have words for things that this one has none for
        understood: promise.understood.filter(|understood| serde_json::to_vec(understood).is_ok()),
    }
}

/// The rate of the tax that an order of today has, where it is another one than was quoted.
pub(super) fn new_tax(catalogue: &Catalogue, promise: &Promise, today: Date) -> Option<Percent> {
    let quoted = promise.tax_milli?;
    let tax = catalogue.shop.pricing.tax.as_ref();
    // nothing leaves before it is ordered
    let leaves = promise.leave_date.parse().map_or(today, |leaves: Date| leaves.max(today));
    let point = match tax.map(|tax| tax.point) {
        Some(TaxPoint::Leave) => leaves,
        _ => today,
    };
    let rate = tax.and_then(|tax| tax.rate_on(day(point)));
    (milli(rate) != quoted).then(|| rate.unwrap_or_default())
}

/// One line for whoever charges. No word of the buyer's is in it.
fn summary(
    catalogue: &Catalogue,
    promise: &Promise,
    expires: Timestamp,
    valid: bool,
    new_tax: Option<Percent>,
) -> String {
    let total = amount(promise, promise.total_minor_units);
    let asked = &promise.order_date;
    let until = last_moment(catalogue, expires);
    if !valid {
        return format!(
            "{total} was promised on {asked} and held until {until}: charge nothing on it, and ask for a new quote"
        );
    }
    let days = match (promise.leave_date.as_str(), promise.arrive_to.as_str()) {
        ("", _) => "no day said for leaving".to_owned(),
        (leaves, "") => format!("leaves on {leaves}"),
        (leaves, arrives) => format!("leaves on {leaves}, arrives by {arrives}"),
    };
    let outcome = v1::Outcome::try_from(promise.child_outcome).unwrap_or(v1::Outcome::Unspecified);
    let off = promise.discount.as_ref().map_or_else(String::new, |off| {
        format!(", with {} in it ({})", amount(promise, off.minor_units), off.text)
    });
    let tax = match (new_tax, promise.tax_milli) {
        (Some(rate), Some(quoted)) => {
            let quoted = Percent::from_milli(quoted.into());
            format!(
                "the tax was quoted at {quoted} and is {rate} now: ask again before anything is charged; "
            )
        }
        _ => String::new(),
    };
    format!(
        "{tax}{total} in all{off}, promised on {asked}, holds until {until}; {days}; {}",
        about_children(outcome)
    )
}

/// What an outcome comes to in a word. None of them clears anything.
pub(super) fn about_children(outcome: v1::Outcome) -> &'static str {
    match outcome {
        v1::Outcome::Unspecified => {
            "nobody has looked at small children near it, which clears nothing: local rules and competent people decide"
        }
        v1::Outcome::NothingFound => {
            "the rules looked at found nothing about small children, which clears nothing: local rules and competent people decide"
        }
        v1::Outcome::Warn => {
            "there is a caution about small children to pass on: local rules and competent people decide"
        }
        v1::Outcome::Ask => {
            "an answer about small children is missing: ask before it is made; local rules and competent people decide"
        }
        v1::Outcome::Restrict => {
            "near small children only as its remedies say: local rules and competent people decide"
        }
        v1::Outcome::Refuse => {
            "not for the use near small children that was told: local rules and competent people decide"
        }
    }
}

/// The end of a quote in words: mostly the end of a day at the shop.
pub(super) fn last_moment(catalogue: &Catalogue, expires: Timestamp) -> String {
    let last = catalogue.order_day(expires.saturating_sub(SignedDuration::from_nanos(1)).unwrap_or(expires));
    match last.tomorrow().and_then(|next| first_instant(next, &catalogue.zone)) {
        Ok(midnight) if midnight == expires => format!("the end of {last} at the shop"),
        // the shop has moved to another zone since
        _ => expires.to_string(),
    }
}

/// `77.39 GBP`, in the digits it was promised in.
pub(super) fn amount(promise: &Promise, minor: i64) -> String {
    // no currency has more than 4 (ISO 4217)
    let digits = usize::try_from(promise.minor_digits).ok().filter(|digits| *digits <= 9).unwrap_or(0);
    let sign = if minor < 0 { "-" } else { "" };
    // with a nought before the point
    let text = format!("{:0>width$}", minor.unsigned_abs(), width = digits.saturating_add(1));
    let (major, rest) = text.split_at(text.len().saturating_sub(digits));
    let point = if rest.is_empty() { "" } else { "." };
    format!("{sign}{major}{point}{rest} {}", promise.currency_code)
}
