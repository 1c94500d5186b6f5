//! How every figure of an answer is worked out: names, formulas, rounding and sources,
//! so that anybody can do the sums again.
//!
//! A working names a figure by its path in the answer. What a formula needs beside the
//! answer's own figures is written down before it: constants of the shop (`shop.`) and
//! figures on the way (`via.`), kept exactly, as fractions where they have no end. A
//! formula is only written down where it gives what the answer says; a figure that is
//! chosen by a search, read from the catalogue or worked in doubles stands as it is,
//! without a formula, and its source says which of these it is.
//!
//! The grammar is that of [`formula`]. A value that is empty is a rule for every entry
//! of a list: `layout.positions.marks[i].leftMm` is worked out for each `i` from 0.

mod bench;
mod child;
mod cloth;
mod formula;
mod layout;
mod materials;
mod outline;
mod price;
mod sending;
mod sheet;

use pennantry_app::Catalogue;
use pennantry_app::quote::Answer;
use pennantry_contract::v1;
use pennantry_measure::Percent;

use self::sheet::Sheet;

/// The workings of an answer that is written in its view already.
pub fn write(catalogue: &Catalogue, given: &Answer, answer: &v1::Quote) -> Vec<v1::Working> {
    let Ok(value) = serde_json::to_value(answer) else { return Vec::new() };
    let (shop, order, worked) = (&*catalogue.shop, &given.order, &given.quote.worked);
    let mut sheet = Sheet::new(value);
    layout::write(&mut sheet, shop, order, answer);
    cloth::write(&mut sheet, shop, order, worked);
    materials::write(&mut sheet, shop, order, worked);
    bench::write(&mut sheet, shop, order, worked);
    sending::write(&mut sheet, shop, order, worked);
    let view = answer.understood.as_ref().map_or(v1::View::Buyer, v1::Enquiry::view);
    price::write(&mut sheet, shop, order, worked, view);
    child::write(&mut sheet, answer);
    sheet.rest(told)
}

/// Unit and source of a figure that stands as it is.
fn told(name: &str) -> (&'static str, &'static str) {
    let unit = if name.ends_with("Mm") {
        "mm"
    } else if name.ends_with("Grams") || name.ends_with("grams") {
        "g"
    } else if name.ends_with("inutes") {
        "min"
    } else if name.ends_with("Percent") || name.ends_with("percent") {
        "%"
    } else if name.ends_with("minorUnits") {
        "minor"
    } else {
        ""
    };
    let source = match name.split(['.', '[']).next().unwrap_or("") {
        "layout" => "chosen by the search of the layout",
        "fabrics" => "chosen by the search for a plan, which is rebuilt as coordinates and checked",
        "binding" => "chosen by the search for joins, or read from the catalogue",
        "parcel" => "chosen among the shop's services, formats and bands",
        "dates" => "an order of its own, worked in the same way",
        "price" => "the shop's price",
        "child" => "how low it hangs by what was told of its ends and fixings",
        _ => "read from the catalogue",
    };
    (unit, source)
}

/// Thousandths as a decimal number.
fn decimal(thousandths: i64) -> String {
    let sign = if thousandths < 0 { "-" } else { "" };
    let (whole, part) = (thousandths.unsigned_abs() / 1_000, thousandths.unsigned_abs() % 1_000);
    let text = format!("{sign}{whole}.{part:03}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn percent(share: Percent) -> String {
    decimal(share.milli())
}
