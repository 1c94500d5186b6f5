//! The work that is measured: C, the calculation alone; K, reading, converting and
//! writing alone, both on the ten-metre question in four fabrics.

use jiff::Timestamp;
use pennantry_contract::{table, v1};
use pennantryd::app::Catalogue;
use pennantryd::app::quote::{self, Answer, Enquiry};
use pennantryd::convert::{answer, enquiry, ticket};
use pennantryd::ticket::Keys;
use pennantryd::{catalogue, json};

/// The question: ten metres in four fabrics of the demo shop.
pub const QUESTION: &[u8] = br#"{"flaggedMm":10000,"colourOrder":{"rule":"RULE_REPEAT","fabricCodes":["FABRICS"]},"destination":{"countryCode":"GB"}}"#;

/// Everything that stands still while the work is repeated.
pub struct Bench {
    catalogue: Catalogue,
    question: Vec<u8>,
    wire: v1::Enquiry,
    enquiry: Enquiry,
    answer: Answer,
    keys: Keys,
    now: Timestamp,
}

impl Bench {
    /// The demo shop, but without its own longest length, and its question for one length.
    pub fn new(flagged_mm: u32) -> Option<Bench> {
        let text = catalogue::SALTMERE_LOFT.replace("most_mm = 100000", "most_mm = 2000000");
        let catalogue: Catalogue = catalogue::open(&text).ok()?.into();
        let fabrics: Vec<String> = catalogue
            .shop
            .fabrics
            .iter()
            .filter(|f| f.usable_width.um() == 1_100_000)
            .take(4)
            .map(|f| format!("\"{}\"", f.code))
            .collect();
        let text = std::str::from_utf8(QUESTION)
            .ok()?
            .replace("10000", &flagged_mm.to_string())
            .replace("\"FABRICS\"", &fabrics.join(","));
        let question = text.into_bytes();
        let wire: v1::Enquiry = json::read(&table::ENQUIRY, &question).ok()?;
        let enquiry = enquiry::read(&wire).enquiry;
        let now = "2026-11-24T10:00:00Z".parse().ok()?;
        let answer = quote::answer(&catalogue, &enquiry, now).ok()?;
        Some(Bench { catalogue, question, wire, enquiry, answer, keys: Keys::fresh().ok()?, now })
    }

    /// The question as bytes.
    pub fn question(&self) -> &[u8] {
        &self.question
    }

    /// The answer as bytes.
    pub fn reply(&self) -> Vec<u8> {
        let mut quote = answer::write(&self.catalogue, &self.wire, &self.answer, v1::View::Buyer);
        if ticket::seal(&mut quote, &self.answer, &self.keys).is_err() {
            return Vec::new();
        }
        json::write(&quote).unwrap_or_default()
    }

    /// C: the calculation alone.
    pub fn calculate(&self) -> u64 {
        quote::answer(&self.catalogue, &self.enquiry, self.now).map_or(0, |a| a.quote.steps)
    }

    /// K: reading, converting and writing alone.
    pub fn convert(&self) -> usize {
        let Ok(wire) = json::read::<v1::Enquiry>(&table::ENQUIRY, &self.question) else { return 0 };
        let read = enquiry::read(&wire);
        let mut quote = answer::write(&self.catalogue, &wire, &self.answer, v1::View::Buyer);
        if ticket::seal(&mut quote, &self.answer, &self.keys).is_err() {
            return 0;
        }
        json::write(&quote).map_or(0, |bytes| bytes.len()) + read.violations.len()
    }
}
