//! The work that is measured: C, the calculation alone; K, reading, converting and
//! writing alone, both on the ten-metre question in four fabrics.

use jiff::Timestamp;
use pennantry_contract::{table, v1};
use pennantry_tests::client::Way;
use pennantryd::app::Catalogue;
use pennantryd::app::quote::{self, Answer, Enquiry};
use pennantryd::convert::{answer, enquiry, ticket};
use pennantryd::ticket::Keys;
use pennantryd::{catalogue, json};
use prost::Message;

/// The question: ten metres in four fabrics of the demo shop.
pub const QUESTION: &[u8] = br#"{"flaggedMm":10000,"colourOrder":{"rule":"RULE_REPEAT","fabricCodes":["FABRICS"]},"destination":{"countryCode":"GB"}}"#;

/// The demo shop without its own shortest and longest length, and with so many fabrics more.
pub fn shop(more: u32) -> String {
    let fabric = |place: u32| {
        format!(
            "\n[[fabrics]]\ncode = \"cloth-{place}\"\nname = \"Cloth {place}\"\nswatch = \"#3f6b4f\"\n\
             fibre = \"cotton\"\nusable_width_mm = 1100\ndirection = \"two-way\"\nprice_per_metre = \"11.00\"\n\
             cut_step_mm = 100\ngrams_per_m2 = 140\nthickness_mm = 0.25\n"
        )
    };
    let more: String = (0..more).map(fabric).collect();
    let open = catalogue::SALTMERE_LOFT.replace("least_mm = 500\n", "least_mm = 50\n");
    open.replace("most_mm = 100000\n", "most_mm = 2000000\n") + &more
}

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
        Bench::of(flagged_mm, &shop(0))
    }

    /// The same of another catalogue.
    pub fn of(flagged_mm: u32, text: &str) -> Option<Bench> {
        let catalogue: Catalogue = catalogue::open(text).ok()?.into();
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
        // a pennant of the design's own width does not go on less than that
        let small = r#"{"pennant":{"widthMm":60,"dropMm":80},"#;
        let text = if flagged_mm < 200 { text.replacen('{', small, 1) } else { text };
        let question = text.into_bytes();
        let wire: v1::Enquiry = json::read(&table::ENQUIRY, &question).ok()?;
        let enquiry = enquiry::read(&wire).enquiry;
        let now = "2026-11-24T10:00:00Z".parse().ok()?;
        let answer = quote::answer(&catalogue, &enquiry, now).ok()?;
        Some(Bench { catalogue, question, wire, enquiry, answer, keys: Keys::fresh().ok()?, now })
    }

    /// The answer as bytes.
    pub fn reply(&self) -> Vec<u8> {
        self.written(&self.wire).and_then(|quote| json::write(&quote).ok()).unwrap_or_default()
    }

    /// Fabrics of the catalogue.
    pub fn fabrics(&self) -> usize {
        self.catalogue.shop.fabrics.len()
    }

    /// The question as a message of gRPC.
    pub fn message(&self) -> Vec<u8> {
        v1::CalculateQuoteRequest { enquiry: Some(self.wire.clone()) }.encode_to_vec()
    }

    /// The answer as a message of gRPC.
    pub fn answered(&self) -> Vec<u8> {
        self.written(&self.wire)
            .map_or_else(Vec::new, |quote| v1::CalculateQuoteResponse { quote: Some(quote) }.encode_to_vec())
    }

    /// The question, one way.
    pub fn asked(&self, way: Way) -> Vec<u8> {
        match way {
            Way::Json => self.question.clone(),
            Way::Grpc => self.message(),
        }
    }

    /// The answer put into the words of the contract, with its ticket.
    fn written(&self, wire: &v1::Enquiry) -> Option<v1::Quote> {
        let mut quote = answer::write(&self.catalogue, wire, &self.answer, v1::View::Buyer);
        ticket::seal(&mut quote, &self.answer, &self.keys).ok()?;
        Some(quote)
    }

    /// C: the calculation alone.
    pub fn calculate(&self) -> u64 {
        quote::answer(&self.catalogue, &self.enquiry, self.now).map_or(0, |a| a.quote.steps)
    }

    /// K: reading, converting and writing alone, in JSON.
    pub fn convert(&self) -> usize {
        let Ok(wire) = json::read::<v1::Enquiry>(&table::ENQUIRY, &self.question) else { return 0 };
        let read = enquiry::read(&wire);
        let Some(quote) = self.written(&wire) else { return 0 };
        json::write(&quote).map_or(0, |bytes| bytes.len()) + read.violations.len()
    }

    /// The same over gRPC, of a message as it comes in.
    pub fn convert_message(&self, message: &[u8]) -> usize {
        let Ok(v1::CalculateQuoteRequest { enquiry: Some(wire) }) = Message::decode(message) else {
            return 0;
        };
        let read = enquiry::read(&wire);
        let Some(quote) = self.written(&wire) else { return 0 };
        v1::CalculateQuoteResponse { quote: Some(quote) }.encode_to_vec().len() + read.violations.len()
    }
}
