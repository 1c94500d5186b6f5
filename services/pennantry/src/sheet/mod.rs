//! The answer as a sheet for a person at the bench or at the counter.
//!
//! Every figure is one of the answer, in the unit that was asked and never shortened. What
//! the answer does not hold is left out, or said where its absence could be misread.

mod bench;
mod child;
mod cloth;
pub mod drawing;
mod layout;
mod materials;
mod notes;
pub mod page;
mod parcel;
pub mod price;
mod shelf;

use pennantry_contract::{table, v1};

use self::page::Page;
use crate::length::Unit;
use crate::words;

/// How a sheet is printed.
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of its own, and none excludes another")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Style {
    /// Unit of its lengths.
    pub unit: Unit,
    /// Nothing but ASCII.
    pub plain: bool,
    /// Every mark.
    pub marks: bool,
    /// The leaflet too.
    pub leaflet: bool,
    /// The workings too.
    pub workings: bool,
}

/// The sheet of an answer.
pub fn render(quote: &v1::Quote, style: Style) -> String {
    let mut page = Page::new(style.plain);
    headline(&mut page, quote, style);
    layout::write(&mut page, quote, style);
    cloth::write(&mut page, quote, style);
    materials::write(&mut page, quote, style);
    bench::write(&mut page, quote, style);
    parcel::write(&mut page, quote, style);
    price::write(&mut page, quote);
    child::write(&mut page, quote, style);
    shelf::write(&mut page, quote, style);
    notes::write(&mut page, quote, style);
    page.finish()
}

/// The head of a sheet, what was found about small children, and what to look at: what a
/// person has to know before it is held.
pub fn before_holding(quote: &v1::Quote, style: Style) -> String {
    let mut page = Page::new(style.plain);
    headline(&mut page, quote, style);
    child::write(&mut page, quote, style);
    shelf::write(&mut page, quote, style);
    notes::write(&mut page, quote, style);
    page.finish()
}

/// How many pennants, at what gap, how long, for how much; then what is made.
fn headline(page: &mut Page, quote: &v1::Quote, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    if let Some(layout) = &quote.layout {
        let count = counted(layout.pennant_count, "pennant", "pennants");
        let flagged = mm(layout.flagged_mm);
        // one pennant has no gap
        let gap =
            if layout.pennant_count > 1 { format!(", gap {}", mm(layout.gap_mm)) } else { String::new() };
        let words = format!("{count}{gap}, flagged {flagged}, overall {}", mm(layout.overall_mm));
        page.heading(&words);
    }
    let price = quote.price.as_ref();
    if let Some((price, total)) = price.and_then(|price| Some((price, price.total.as_ref()?))) {
        let amount = price::amount(total, price.minor_digits);
        page.line(&format!("total {} {amount}", total.currency_code));
    }
    if let Some(asked) = &quote.understood {
        page.line(&made(asked));
        if let Some(words) = &asked.lettering {
            page.line(&format!("lettering \"{words}\""));
        }
    }
    page.line(&format!("small children: {}", child::in_short(quote)));
    let mut identity = vec![format!("catalogue {}", quote.catalogue_revision)];
    identity.extend(quote.quote_id.as_ref().map(|id| format!("quote {id}")));
    identity.extend(quote.expire_time.as_ref().map(|time| format!("holds until {time}")));
    page.line(&identity.join(", "));
}

/// Design, construction, shape, quantity, destination.
fn made(asked: &v1::Enquiry) -> String {
    let pennant = asked.pennant.as_ref();
    let told = |of, value: Option<i32>| value.and_then(|value| words::told(of, value));
    let mut parts = Vec::new();
    parts.extend(asked.design_code.as_ref().map(|code| format!("design {code}")));
    parts.extend(told(&table::CONSTRUCTION, asked.construction));
    parts.extend(told(&table::SHAPE, pennant.and_then(|pennant| pennant.shape)));
    parts.extend(asked.quantity.map(|count| counted(count, "string", "strings")));
    parts.extend(asked.destination.as_ref().map(|to| format!("to {}", to.country_code)));
    parts.extend(asked.rush.filter(|rush| *rush).map(|_| "as a rush".to_owned()));
    parts.extend(asked.as_of_date.as_ref().map(|day| format!("as of {day}")));
    parts.join(", ")
}

/// A count with its word.
pub(crate) fn counted(count: u32, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {many}") }
}

#[cfg(test)]
mod tests;
