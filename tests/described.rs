//! What the OpenAPI documents say is what the doors do: valid documents, real answers held
//! against them, and requests made up from them by a tool of the field.

mod made_up;

use std::collections::BTreeMap;
use std::io::Write as _;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};
use std::sync::{Mutex, PoisonError};

use hyper::StatusCode;
use serde::Serialize;
use serde_json::{Value, json};

use crate::contract_source::top;
use crate::doors::{House, Json, Reply};
use crate::tools::{PYTHON, said};
use crate::{bad_input, golden};

/// The documents: of the public door and of the private door.
const DOCUMENTS: [&str; 2] =
    ["crates/contract/src/gen/openapi.json", "crates/contract/src/gen/openapi-private.json"];

/// One exchange over HTTP.
#[derive(Debug, Serialize)]
pub struct Exchange {
    door: &'static str,
    verb: String,
    path: String,
    asked: Option<Value>,
    status: u16,
    media: String,
    headers: BTreeMap<String, String>,
    told: Option<Value>,
}

impl Exchange {
    /// What was asked and what came back.
    pub fn new(is_public: bool, verb: &str, path: &str, asked: &[u8], reply: &Reply) -> Exchange {
        let text =
            |value: &hyper::header::HeaderValue| String::from_utf8_lossy(value.as_bytes()).into_owned();
        let headers = reply.headers.iter().map(|(name, value)| (name.to_string(), text(value)));
        Exchange {
            door: if is_public { "public" } else { "private" },
            verb: verb.to_owned(),
            path: path.split('?').next().unwrap_or_default().to_owned(),
            asked: serde_json::from_slice(asked).ok(),
            status: reply.status.as_u16(),
            media: reply.media.clone(),
            headers: headers.collect(),
            told: serde_json::from_slice(&reply.body).ok(),
        }
    }
}

/// Exchanges, where they are recorded.
#[derive(Debug, Default)]
pub struct Record(Mutex<Option<Vec<Exchange>>>);

impl Record {
    /// Records from now on.
    pub fn begin(&self) {
        *self.0.lock().unwrap_or_else(PoisonError::into_inner) = Some(Vec::new());
    }

    /// Records one.
    pub fn note(&self, exchange: impl FnOnce() -> Exchange) {
        if let Some(list) = self.0.lock().unwrap_or_else(PoisonError::into_inner).as_mut() {
            list.push(exchange());
        }
    }

    /// Holds everything recorded against the documents; gives which calls were answered how, such
    /// as `CalculateQuote 200`.
    pub fn is_as_described(&self) -> Vec<String> {
        let list = self.0.lock().unwrap_or_else(PoisonError::into_inner).take().expect("it was recorded");
        let lines: Vec<String> =
            list.iter().map(|one| serde_json::to_string(one).expect("an exchange is JSON")).collect();
        let documents = DOCUMENTS.map(top);
        let (told, output) = python("answers.py", &documents, &lines.join("\n"));
        assert!(output.status.success(), "{told}{}", said(&output));
        let last: Value =
            serde_json::from_str(told.lines().last().expect("a line")).expect("it ends in JSON");
        assert_eq!(last["exchanges"], list.len(), "{last}");
        serde_json::from_value(last["seen"].clone()).expect("a list")
    }
}

/// Runs a program of `tests/python` and gives what it printed.
pub fn python(program: &str, arguments: &[PathBuf], input: &str) -> (String, Output) {
    let mut child = Command::new(&*PYTHON)
        .arg(top("tests/python").join(program))
        .args(arguments)
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("python runs");
    let mut into = child.stdin.take().expect("an input");
    let text = input.to_owned();
    let writing = std::thread::spawn(move || into.write_all(text.as_bytes()));
    let output = child.wait_with_output().expect("it ends");
    // whoever ends early says why
    let _ = writing.join().expect("no panic");
    (String::from_utf8_lossy(&output.stdout).into_owned(), output)
}

#[test]
fn the_documents_are_openapi_and_a_spoiled_one_is_not() {
    let (told, output) = python("documents.py", &DOCUMENTS.map(top), "");
    assert!(output.status.success(), "{told}{}", said(&output));
    let text = std::fs::read_to_string(top(DOCUMENTS[0])).expect("a document");
    for (was, is) in [
        (r##""$ref": "#/components/schemas/Enquiry""##, r##""$ref": "#/components/schemas/Enquiries""##),
        (r#""type": "boolean""#, r#""type": "bool""#),
        (r#""in": "path""#, r#""in": "road""#),
    ] {
        assert!(text.contains(was), "{was}");
        let spoiled = tempfile::NamedTempFile::new().expect("a file");
        std::fs::write(spoiled.path(), text.replacen(was, is, 1)).expect("it is written");
        let (told, output) = python("documents.py", &[spoiled.path().to_owned()], "");
        assert!(!output.status.success(), "{is} passes: {told}");
    }
}

/// Every case and every bad body, at both doors that speak JSON.
#[tokio::test]
async fn golden_answers_and_refusals_of_bad_bodies_are_as_described() {
    let house = House::demo().await;
    house.record.begin();
    for case in golden::cases().iter().filter(|case| case.plain()) {
        let request = case.request(&house.fabrics);
        for view in ["VIEW_BUYER", "VIEW_SHOP"] {
            let mut asked = request.clone();
            asked["view"] = json!(view);
            asked["workings"] = json!(true);
            house.private_json(&asked).await.answer.ok();
        }
        if !case.private() {
            let told = house.public_json(&request).await.answer;
            if let Some(token) = told.ok().and_then(|quote| quote.token) {
                let ticket = json!({"token": token}).to_string();
                house.post(house.public(), "/v1/quotes/check", ticket.as_bytes()).await;
            }
        }
    }
    for body in bad_input::bodies() {
        house.json(Json::Public, body.as_bytes()).await.answer.ok();
    }
    let shop = json!({"flaggedMm": 6200, "view": "VIEW_SHOP"});
    house.public_json(&shop).await.answer.expect_err("it is the shop's");
    house.post(house.public(), "/v1/quotes/check", br#"{"token":"not one of ours"}"#).await;
    let catalogue = house.get(house.public(), "/v1/catalogue").await;
    let tag = catalogue.headers["etag"].to_str().expect("a tag").to_owned();
    house.get_with(house.public(), "/v1/catalogue", &[("if-none-match", &tag)]).await;
    house.post(house.private(), "/pennantry.v1.CatalogueService/GetCatalogue", b"{}").await;
    let large = vec![b' '; 70_000];
    house.post(house.public(), "/v1/quotes", &large).await;
    house.ask_with("POST", house.public(), "/v1/quotes", &[("content-type", "text/plain")]).await;
    let seen = house.record.is_as_described();
    for wanted in [
        "CalculateQuote 200",
        "CalculateQuote 400",
        "CalculateQuote 403",
        "CalculateQuote 413",
        "CalculateQuote 415",
        "CheckQuote 200",
        "GetCatalogue 200",
        "GetCatalogue 304",
    ] {
        assert!(seen.iter().any(|one| one == wanted), "{wanted} was not seen: {seen:?}");
    }
    house.close().await;
}

/// A hold at the public door from its ticket to its end, and what is refused on the way.
#[tokio::test]
async fn a_hold_at_the_public_door_is_as_described() {
    let house = House::demo().await;
    house.record.begin();
    let (pieces, token) = crate::twins::pieces(&house, &json!({"flaggedMm": 6200})).await;
    let delivery = json!({"pieces": pieces}).to_string();
    house.post(house.private(), "/pennantry.v1.StockService/ReceiveStock", delivery.as_bytes()).await;
    let key = |key: &'static str| [("idempotency-key", key)];
    let send = async |path: &str, body: &Value, headers: &[(&str, &str)]| {
        house.post_with(house.public(), path, body.to_string().as_bytes(), headers).await
    };
    let hold = json!({"token": token, "acknowledgedRuleIds": ["R00"]});
    let taken = send("/v1/reservations", &hold, &key("k1")).await;
    assert_eq!(taken.status, StatusCode::OK, "{taken:?}");
    let again = send("/v1/reservations", &hold, &key("\"k1\"")).await;
    assert_eq!(again.headers["pennantry-replayed"], "true");
    let taken: Value = serde_json::from_slice(&taken.body).expect("a reservation");
    let one = format!("/v1/reservations/{}", taken["reservationId"].as_str().expect("a name"));
    let more = json!({"seconds": 1800});
    let mut told = vec![
        send("/v1/reservations", &json!({"token": token}), &key("k1")).await,
        send("/v1/reservations", &json!({"token": "x"}), &key("k2")).await,
        send("/v1/reservations", &hold, &[]).await,
        house.get(house.public(), &one).await,
        house.get(house.public(), "/v1/reservations/nobodys").await,
        send(&format!("{one}/extend"), &more, &key("k3")).await,
        send(&format!("{one}/extend"), &json!({"seconds": 1801}), &key("k4")).await,
        send(&format!("{one}/confirm"), &json!({"orderReference": "1"}), &key("k5")).await,
        house.ask_with("DELETE", house.public(), &one, &[]).await,
        send(&format!("{one}/extend"), &more, &key("k6")).await,
    ];
    told.extend([house.ask_with("DELETE", house.public(), "/v1/reservations/nobodys", &[]).await]);
    let statuses: Vec<u16> = told.iter().map(|reply| reply.status.as_u16()).collect();
    assert_eq!(statuses, [422, 400, 400, 200, 404, 200, 400, 401, 200, 409, 404]);
    house.record.is_as_described();
    house.close().await;
}

/// Each door gives its own document, which may be kept as long as it is the same.
#[tokio::test]
async fn each_door_gives_its_own_document_as_it_is_committed() {
    let house = House::demo().await;
    let texts = DOCUMENTS.map(|name| std::fs::read(top(name)).expect("a document"));
    for (door, text) in [(house.public(), &texts[0]), (house.private(), &texts[1])] {
        let told = house.get(door, "/openapi.json").await;
        assert_eq!((told.status, told.media.as_str()), (StatusCode::OK, "application/json"));
        assert_eq!(&told.body[..], &text[..]);
        let tag = told.headers["etag"].to_str().expect("a tag").to_owned();
        let again = house.get_with(door, "/openapi.json", &[("if-none-match", &tag)]).await;
        assert_eq!((again.status, again.body.len()), (StatusCode::NOT_MODIFIED, 0));
    }
    let public: Value = serde_json::from_slice(&texts[0]).expect("JSON");
    let text = public.to_string();
    for of_the_shop in ["StockService", "overrideReason", "asOfDate", "discount\"", "supersededById"] {
        assert!(!text.contains(of_the_shop), "{of_the_shop} is told in public");
    }
    house.close().await;
}
