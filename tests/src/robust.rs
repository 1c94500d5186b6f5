//! What holds of any bytes that come in at a door or out of a file: nothing panics, nothing is
//! refused without words, and what is taken is answered whole.
//!
//! Each [`Target`] is one way in. An ordinary test gives it what is kept in `tests/corpus`, and
//! changes of that; the programs in `tests/fuzz` give it whatever a fuzzer comes upon that sees
//! which branches are taken. They run by hand.

use std::sync::LazyLock;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use hmac::{Hmac, KeyInit, Mac};
use pennantry::stocktake;
use pennantry_contract::{table, v1};
use pennantry_measure::written;
use pennantryd::clock::Clock;
use pennantryd::failure::Failure;
use pennantryd::service::{Door, Service};
use pennantryd::ticket::{Keys, SEALED};
use pennantryd::{catalogue, json};
use prost::Message;
use sha2::Sha256;

/// One way in.
#[derive(Debug, Clone, Copy)]
pub struct Target {
    /// Its name, which is that of its file in `tests/corpus`.
    pub name: &'static str,
    /// Whether all holds for some bytes, or what does not.
    pub hold: fn(&[u8]) -> Result<(), String>,
    /// Most bytes that a fuzzer gives it.
    pub most: usize,
}

/// All ways in.
pub const TARGETS: [Target; 6] = [
    Target { name: "json", hold: json, most: 1_000 },
    Target { name: "protobuf", hold: protobuf, most: 400 },
    Target { name: "length", hold: length, most: 60 },
    Target { name: "catalogue", hold: catalogue, most: 60_000 },
    Target { name: "ticket", hold: ticket, most: 1_000 },
    Target { name: "csv", hold: csv, most: 4_000 },
];

/// A target by its name.
pub fn target(name: &str) -> Option<Target> {
    TARGETS.into_iter().find(|target| target.name == name)
}

const KEY: [u8; 32] = [7; 32];

/// The demo shop on a morning that stands still, where it can be had.
static SHOP: LazyLock<Option<Service>> = LazyLock::new(|| shop(catalogue::SALTMERE_LOFT));

fn shop(text: &str) -> Option<Service> {
    let clock = Clock::Fixed("2026-11-24T10:00:00Z".parse().ok()?);
    let keys = Keys::read(&URL_SAFE_NO_PAD.encode(KEY)).ok()?;
    Some(Service::new(catalogue::open(text).ok()?.into(), clock, keys))
}

fn demo() -> Result<&'static Service, String> {
    SHOP.as_ref().ok_or_else(|| "the demo shop cannot be opened".to_owned())
}

fn told(holds: bool, what: impl FnOnce() -> String) -> Result<(), String> {
    if holds { Ok(()) } else { Err(what()) }
}

/// Words for a person: some, not too many, nothing that a terminal would act upon.
fn words(text: &str) -> Result<(), String> {
    told(!text.trim().is_empty(), || "there are no words".to_owned())?;
    told(text.len() <= 4_000, || format!("{} bytes of words", text.len()))?;
    told(!text.chars().any(|letter| letter.is_control() && letter != '\n'), || format!("{text:?}"))
}

fn refused(failure: &Failure) -> Result<(), String> {
    words(&failure.detail)?;
    told(failure.kind != pennantry_contract::reasons::Kind::Internal, || failure.detail.clone())?;
    failure.violations.iter().try_for_each(|violation| {
        words(&violation.message).map_err(|fault| format!("{}: {fault}", violation.field))
    })
}

/// An enquiry is answered at both doors or refused; an answer survives being written, and what was
/// understood, asked again, is the same quote.
fn asked(service: &Service, enquiry: &v1::Enquiry) -> Result<(), String> {
    for door in [Door::Public, Door::Private] {
        let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry.clone()) };
        let quote = match service.calculate_quote(door, &request) {
            Err(failure) => {
                refused(&failure)?;
                continue;
            }
            Ok(response) => response.quote.ok_or("an answer without a quote")?,
        };
        let written = json::write(&quote).map_err(|fault| format!("it cannot be written: {fault}"))?;
        let read: v1::Quote = serde_json::from_slice(&written)
            .map_err(|fault| format!("what is written cannot be read: {fault}"))?;
        told(read == quote, || "what is written reads otherwise".to_owned())?;
        // what is the shop's own business a buyer's view leaves out
        let of_the_shop = enquiry.discount.is_some() || enquiry.as_of_date.is_some();
        if of_the_shop && enquiry.view() != v1::View::Shop {
            continue;
        }
        let again = v1::CalculateQuoteRequest { enquiry: quote.understood.clone() };
        match service.calculate_quote(door, &again) {
            Ok(again) => {
                let id = again.quote.map(|quote| quote.quote_id).unwrap_or_default();
                told(id == quote.quote_id, || "what was understood is another quote".to_owned())?;
            }
            Err(failure) => return Err(format!("what was understood is refused: {}", failure.detail)),
        }
    }
    Ok(())
}

/// The body of `POST /v1/quotes`.
fn json(bytes: &[u8]) -> Result<(), String> {
    match json::read::<v1::Enquiry>(&table::ENQUIRY, bytes) {
        Err(fault) => words(&fault.message),
        Ok(enquiry) => asked(demo()?, &enquiry),
    }
}

/// The message of a `CalculateQuote` over gRPC.
fn protobuf(bytes: &[u8]) -> Result<(), String> {
    match v1::CalculateQuoteRequest::decode(bytes) {
        Err(_) => Ok(()),
        Ok(request) => asked(demo()?, &request.enquiry.unwrap_or_default()),
    }
}

/// A length as a person types it.
fn length(bytes: &[u8]) -> Result<(), String> {
    let Ok(text) = std::str::from_utf8(bytes) else { return Ok(()) };
    match written::length(text) {
        Err(fault) => words(&fault.to_string()),
        Ok(length) => {
            told(length.um().abs() <= written::MOST.um(), || format!("{} um is too long", length.um()))?;
            let um = length.um();
            let sign = if um < 0 { "-" } else { "" };
            let again = format!("{sign}{}.{:03} mm", um.abs() / 1_000, um.abs() % 1_000);
            let read = written::length(&again);
            told(read == Ok(length), || format!("{again:?} is {read:?}, and was {um} um"))
        }
    }
}

/// A catalogue file; one that can be put in force answers.
fn catalogue(bytes: &[u8]) -> Result<(), String> {
    let Ok(text) = std::str::from_utf8(bytes) else { return Ok(()) };
    if let Err(mistakes) = catalogue::open(text) {
        told(!mistakes.is_empty(), || "refused without a mistake".to_owned())?;
        return mistakes.iter().try_for_each(|mistake| words(&mistake.to_string()));
    }
    let service = shop(text).ok_or("opened once and not twice")?;
    let catalogue = service.get_catalogue(Door::Public, &v1::GetCatalogueRequest {});
    catalogue.map_err(|failure| failure.detail)?;
    let length = v1::enquiry::Length::FlaggedMm(6_200.0);
    asked(&service, &v1::Enquiry { length: Some(length), ..v1::Enquiry::default() })
}

/// A ticket that somebody brings: bytes as its text, and bytes as a promise under the shop's seal.
fn ticket(bytes: &[u8]) -> Result<(), String> {
    let service = demo()?;
    let sealed = seal(bytes).ok_or("nothing can be sealed")?;
    for token in [String::from_utf8_lossy(bytes).into_owned(), sealed] {
        let request = v1::CheckQuoteRequest { ticket: Some(v1::Ticket { token }) };
        match service.check_quote(Door::Public, &request) {
            Err(failure) => refused(&failure)?,
            Ok(response) => {
                let check = response.check.ok_or("an answer without a finding")?;
                let written = json::write(&check).map_err(|fault| fault.to_string())?;
                // the promise may hold any number, and not every reader reads the last bit of each
                let read = serde_json::from_slice::<v1::QuoteCheck>(&written);
                told(read.is_ok(), || format!("what is written cannot be read: {read:?}"))?;
            }
        }
    }
    Ok(())
}

/// A token of any promise, as only the shop can make one.
fn seal(promise: &[u8]) -> Option<String> {
    let keys = Keys::read(&URL_SAFE_NO_PAD.encode(KEY)).ok()?;
    let ticket = [[1].as_slice(), keys.newest()?.id().as_slice(), promise].concat();
    let mac = Hmac::<Sha256>::new_from_slice(&KEY).ok()?.chain_update(SEALED).chain_update(&ticket);
    Some([ticket.as_slice(), &mac.finalize().into_bytes()].map(|part| URL_SAFE_NO_PAD.encode(part)).join("."))
}

/// A file of pieces, as a stock-take brings it.
fn csv(bytes: &[u8]) -> Result<(), String> {
    match stocktake::read(bytes) {
        Ok(_) => Ok(()),
        Err(faults) => {
            told(!faults.is_empty(), || "refused without a fault".to_owned())?;
            faults.iter().try_for_each(|fault| words(&fault.to_string()))
        }
    }
}

/// What a fuzzer and the tests begin with, for a way in.
pub fn seeds(name: &str) -> Vec<Vec<u8>> {
    let texts = |texts: &[&str]| texts.iter().map(|text| text.as_bytes().to_vec()).collect();
    match name {
        "json" => texts(&ENQUIRIES),
        "protobuf" => requests().map(|request| request.encode_to_vec()).collect(),
        "ticket" => requests().filter_map(|request| promise(&request)).collect(),
        "length" => texts(&LENGTHS),
        "catalogue" => vec![catalogue::SALTMERE_LOFT.as_bytes().to_vec()],
        "csv" => texts(&FILES),
        _ => Vec::new(),
    }
}

fn requests() -> impl Iterator<Item = v1::CalculateQuoteRequest> {
    let enquiries = ENQUIRIES.iter().filter_map(|text| json::read(&table::ENQUIRY, text.as_bytes()).ok());
    enquiries.map(|enquiry| v1::CalculateQuoteRequest { enquiry: Some(enquiry) })
}

/// The promise within the token of an answer.
fn promise(request: &v1::CalculateQuoteRequest) -> Option<Vec<u8>> {
    let quote = demo().ok()?.calculate_quote(Door::Public, request).ok()?.quote?;
    let ticket = URL_SAFE_NO_PAD.decode(quote.token?.split_once('.')?.0).ok()?;
    Some(ticket.get(9..)?.to_vec())
}

/// Enquiries with every kind of field.
const ENQUIRIES: [&str; 7] = [
    include_str!("../golden/story.json"),
    include_str!("../golden/pencil.json"),
    r#"{"hang":{"spanMm":5000,"dipMm":250.5,"swagCount":2},"fit":{"leftover":"LEFTOVER_TAILS","parity":"PARITY_ODD","minGapMm":5,"maxGapMm":40}}"#,
    r#"{"finish":{"ends":[{"style":"END_STYLE_LOOP","loopMm":60,"slips":false},{}],"trimmings":[{"code":"POMPOM","perPennant":1}]},"flaggedMm":3000,"quantity":3,"view":"VIEW_SHOP"}"#,
    r#"{"overallMm":3200,"lettering":"ANNA & OLE","near":{"jurisdictions":["JURISDICTION_GB"],"who":"WHO_NO_CHILD","place":"PLACE_HOME","fixings":4,"fixingHeightMm":2200,"spanMm":900},"destination":{"countryCode":"DE","postalCode":"10115"}}"#,
    r#"{"bindingMm":4200,"tailMm":0,"pennant":{"shape":"SHAPE_SWALLOWTAIL","widthMm":150,"dropMm":200,"notchMm":50},"construction":"CONSTRUCTION_DOUBLE_TURNED","backing":"quay-stone","rush":true,"shelf":true,"workings":true}"#,
    r#"{"pennantCount":40,"gapMm":25,"colourOrder":{"rule":"RULE_MIRROR_CENTRE","fabricCodes":["kelp","lamp-oil"]},"discount":{"percent":10,"reason":"fair"},"wantedDate":"2026-12-04","bindingCode":"bosun-25"}"#,
];

/// Lengths of every kind that is read, and some that are not.
const LENGTHS: [&str; 14] = [
    "2500",
    "250 cm",
    "2,5 m",
    "2 500 mm",
    "7 in.",
    "7''",
    "7-1/2 in",
    "7½\"",
    "3′ 4½″",
    "1 yd 6 in",
    "2 m 50 cm",
    "−20 mm",
    "2,500 m",
    "7 1/2",
];

/// Files of a stock-take, good and bad.
const FILES: [&str; 4] = [
    "label,code,kind,length,width,lot,place,flaws,cost,supplier,reference,certificates\n\
     L-107,kelp,remnant,12.4 m,112 cm,0417,\"rack B, second shelf\",1.2 m..1.25 m | 3 m..3.1 m,86.40,Hollin Mill,HM 2231,T-1182 | T-1183\n",
    "code;length;count\nkelp;10,5 m;\nbone-button;;250\n",
    "\u{feff}code\tlength\r\nkelp\t3 yd\r\n\r\nlamp-oil\t3 1/2\r\n",
    "code,length\nnobody,-1\n,\"\n",
];
