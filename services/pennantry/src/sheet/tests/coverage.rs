//! Which fields of an answer stand on the sheet: an answer that has every field of the
//! contract, each with a value of its own, is printed, and every value looked for.

use std::cell::Cell;

use pennantry_contract::table::{Enumeration, Field, Kind, Message, QUOTE};
use serde_json::{Map, Value, json};

use super::super::{Style, render};

/// Fields that a sheet leaves out: codes beside which the words stand; the currency, which
/// stands once for all amounts; how many digits are minor, which is how they are written; and
/// the ticket, which only --json gives. What was asked stands at the head in words.
const LEFT_OUT: &[&str] = &[
    "labour.operations.code",
    "parcel.parts.code",
    "price.cost.beforePoint.currencyCode",
    "price.cost.floor.currencyCode",
    "price.cost.lines.amount.currencyCode",
    "price.cost.lines.code",
    "price.cost.lines.tax.currencyCode",
    "price.cost.net.currencyCode",
    "price.cost.total.currencyCode",
    "price.lines.amount.currencyCode",
    "price.lines.code",
    "price.lines.tax.currencyCode",
    "price.minorDigits",
    "price.perMetre.currencyCode",
    "price.strings.currencyCode",
    "price.tax.included.currencyCode",
    "price.tax.net.currencyCode",
    "token",
];

/// An answer with every field, and the text by which each value is found.
struct Full {
    next: Cell<u32>,
    /// Which member of a oneof, and which value of an enumeration, is filled in.
    member: usize,
}

impl Full {
    fn message(&self, of: &'static Message, path: &str, found: &mut Vec<(String, String)>) -> Value {
        let mut keys = Map::new();
        for field in of.fields {
            if let Some(oneof) = field.oneof {
                let place = of.oneof(oneof).position(|member| member.name == field.name).unwrap();
                if place != self.member.min(of.oneof(oneof).count() - 1) {
                    continue;
                }
            }
            let path = if path.is_empty() {
                field.json_name.to_owned()
            } else {
                format!("{path}.{}", field.json_name)
            };
            let mut value = self.value(field, &path, found);
            if field.repeated {
                value = json!([value, self.value(field, &path, found)]);
            }
            keys.insert(field.json_name.to_owned(), value);
        }
        Value::Object(keys)
    }

    fn value(&self, field: &Field, path: &str, found: &mut Vec<(String, String)>) -> Value {
        self.next.set(self.next.get() + 1);
        let number = self.next.get();
        let (value, text) = match field.kind {
            Kind::Double => (json!(f64::from(number) + 0.125), format!("{number}.125")),
            Kind::Uint32 => (json!(number), number.to_string()),
            Kind::Int64 => (json!(number.to_string()), number.to_string()),
            Kind::Bool => return json!(true),
            Kind::String => (json!(format!("w{number}w")), format!("w{number}w")),
            Kind::Enum(of) => return json!(self.one_of(of)),
            Kind::Message(inner) => return self.message(inner, path, found),
        };
        found.push((path.to_owned(), text));
        value
    }

    fn one_of(&self, of: &'static Enumeration) -> &'static str {
        // never the first, which is not said
        of.values[of.values.len() - 1 - self.member % (of.values.len() - 1)].name
    }
}

/// Paths whose values are not on the sheet.
fn missing(member: usize) -> Vec<String> {
    let mut found = Vec::new();
    // five digits, so that no number is part of another
    let full = Full { next: Cell::new(10_000), member };
    let quote = serde_json::from_value(full.message(&QUOTE, "", &mut found)).unwrap();
    let style = Style { marks: true, leaflet: true, workings: true, ..Style::default() };
    let sheet = render(&quote, style) + &render(&quote, Style::default());
    assert!(found.len() > 200, "{}", found.len());
    let inside = |text: &str| {
        sheet.match_indices(text).any(|(at, _)| {
            let before = sheet[..at].chars().next_back();
            let after = sheet[at + text.len()..].chars().next();
            before.is_none_or(|c| !c.is_ascii_digit()) && after.is_none_or(|c| !c.is_ascii_digit())
        })
    };
    found.into_iter().filter(|(_, text)| !inside(text)).map(|(path, _)| path).collect()
}

#[test]
fn every_figure_of_an_answer_is_on_the_sheet_or_left_out_for_a_reason() {
    // a field is on the sheet where one of six different answers puts it there: a notch is told
    // of a swallowtail alone
    let asked = |path: &String| path.starts_with("understood.");
    let mut all: Vec<String> = missing(0).into_iter().filter(|path| !asked(path)).collect();
    for member in 1..6 {
        let missing = missing(member);
        all.retain(|path| missing.contains(path));
    }
    all.sort();
    all.dedup();
    assert_eq!(all, LEFT_OUT);
}
