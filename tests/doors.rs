//! A real server in this process, and clients for each of its doors.

use std::net::SocketAddr;
use std::time::Duration;

use bytes::Bytes;
use http_body_util::{BodyExt, Full};
use hyper::client::conn::http1;
use hyper::{HeaderMap, Request, StatusCode};
use hyper_util::rt::TokioIo;
use pennantry_contract::v1;
use pennantry_contract::v1::catalogue_service_client::CatalogueServiceClient;
use pennantry_contract::v1::quote_service_client::QuoteServiceClient;
use pennantry_ledger::Ledger;
use pennantryd::Running;
use serde_json::Value;
use tokio::net::TcpStream;
use tonic::transport::{Channel, Endpoint};
use tonic_types::StatusExt;

use crate::catalogue;
use crate::described::{Exchange, Record};

/// The instant at which every case is asked: ten in the morning in London.
pub const NOW: &str = "2026-11-24T10:00:00Z";

/// Longer than anything here takes.
const LONG: Duration = Duration::from_mins(1);

/// A quote, or why there is none.
pub type Answer = Result<v1::Quote, Refused>;

/// A refusal, the same for every door.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// Reason of the whole.
    pub reason: String,
    /// It in words.
    pub detail: String,
    /// Every violation.
    pub violations: Vec<v1::FieldViolation>,
}

/// What came back over HTTP.
#[derive(Debug)]
pub struct Reply {
    /// The status.
    pub status: StatusCode,
    /// The kind of body.
    pub media: String,
    /// Every header.
    pub headers: HeaderMap,
    /// The body.
    pub body: Bytes,
}

/// What came back from a door that speaks JSON.
#[derive(Debug)]
pub struct Told {
    /// The answer it means.
    pub answer: Answer,
    /// The status.
    pub status: StatusCode,
    /// The body as it came.
    pub body: Bytes,
}

/// A door that speaks JSON.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Json {
    /// `POST /v1/quotes` at the public listener.
    Public,
    /// `POST /pennantry.v1.QuoteService/CalculateQuote` at the private one.
    Private,
}

impl Json {
    /// Both of them.
    pub const BOTH: [Json; 2] = [Json::Public, Json::Private];
}

/// A server on free ports with its clients.
#[derive(Debug)]
pub struct House {
    running: Running,
    grpc: Channel,
    /// Codes of the catalogue's fabrics, in order.
    pub fabrics: Vec<String>,
    /// All that random orders choose from.
    pub stock: crate::dice::Stock,
    /// What goes over HTTP, where it is recorded.
    pub record: Record,
}

impl House {
    /// A server on the demo catalogue.
    pub async fn demo() -> House {
        House::open(catalogue::demo()).await
    }

    /// A server on a catalogue.
    pub async fn open(text: &str) -> House {
        House::at(catalogue::start(text).await).await
    }

    /// A server on the demo catalogue whose stock is in a database.
    pub async fn shared(database: &crate::postgres::Database) -> House {
        pennantry_ledger::postgres::migrate(&database.url())
            .await
            .expect("an empty database takes the schema");
        let database = pennantryd::stock::Database::read(&database.url()).expect("its address");
        let stock = pennantryd::stock::Stock::Postgres(database);
        House::at(catalogue::start_on(catalogue::demo(), stock).await).await
    }

    async fn at(running: Running) -> House {
        let address = format!("http://{}", running.private());
        let endpoint = Endpoint::from_shared(address).expect("an address");
        let grpc = endpoint.connect().await.expect("the private door opens");
        let mut house = House {
            running,
            grpc,
            fabrics: Vec::new(),
            stock: crate::dice::Stock::default(),
            record: Record::default(),
        };
        house.stock = catalogue::stock(&house.catalogue().await);
        house.fabrics = house.stock.fabrics.clone();
        house
    }

    /// Stops the server.
    pub async fn close(self) {
        // open connections would be waited for
        drop(self.grpc);
        self.running.stop(Duration::from_secs(10)).await;
    }

    /// Where the public door is.
    pub fn public(&self) -> SocketAddr {
        self.running.public()
    }

    /// Where the private door is.
    pub fn private(&self) -> SocketAddr {
        self.running.private()
    }

    /// The catalogue, over gRPC.
    pub async fn catalogue(&self) -> v1::Catalogue {
        let mut client = CatalogueServiceClient::new(self.grpc.clone());
        let given = client.get_catalogue(v1::GetCatalogueRequest {}).await.expect("a catalogue");
        given.into_inner().catalogue.expect("a catalogue")
    }

    /// The connection of gRPC.
    pub fn channel(&self) -> Channel {
        self.grpc.clone()
    }

    /// Quotes, over gRPC.
    pub fn quotes(&self) -> QuoteServiceClient<Channel> {
        QuoteServiceClient::new(self.grpc.clone())
    }

    /// Asks over gRPC.
    pub async fn grpc(&self, enquiry: &v1::Enquiry) -> Answer {
        let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry.clone()) };
        match self.quotes().calculate_quote(request).await {
            Ok(response) => Ok(response.into_inner().quote.expect("a quote")),
            Err(status) => Err(House::refusal_of(&status)),
        }
    }

    /// Asks at the public door.
    pub async fn public_json(&self, enquiry: &Value) -> Told {
        self.json(Json::Public, enquiry.to_string().as_bytes()).await
    }

    /// Asks the JSON twin of the gRPC call.
    pub async fn private_json(&self, enquiry: &Value) -> Told {
        let request = serde_json::json!({"enquiry": enquiry});
        self.json(Json::Private, request.to_string().as_bytes()).await
    }

    /// Sends a body to a door that speaks JSON, as it is.
    pub async fn json(&self, door: Json, body: &[u8]) -> Told {
        let reply = match door {
            Json::Public => self.post(self.public(), "/v1/quotes", body).await,
            Json::Private => {
                self.post(self.private(), "/pennantry.v1.QuoteService/CalculateQuote", body).await
            }
        };
        let answer = if reply.status == StatusCode::OK {
            assert_eq!(reply.media, "application/json", "{door:?}");
            Ok(match door {
                Json::Public => serde_json::from_slice(&reply.body).expect("a quote"),
                Json::Private => {
                    let response: v1::CalculateQuoteResponse =
                        serde_json::from_slice(&reply.body).expect("a response");
                    response.quote.expect("a quote")
                }
            })
        } else {
            Err(House::problem(&reply))
        };
        Told { answer, status: reply.status, body: reply.body }
    }

    /// Posts JSON.
    pub async fn post(&self, to: SocketAddr, path: &str, body: &[u8]) -> Reply {
        self.post_with(to, path, body, &[]).await
    }

    /// Posts JSON, with headers.
    pub async fn post_with(
        &self,
        to: SocketAddr,
        path: &str,
        body: &[u8],
        headers: &[(&str, &str)],
    ) -> Reply {
        let mut request =
            Request::post(path).header("host", to.to_string()).header("content-type", "application/json");
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let request = request.body(Full::new(Bytes::copy_from_slice(body))).expect("a request");
        let reply = send(to, request).await;
        self.record.note(|| Exchange::new(to == self.public(), "POST", path, body, &reply));
        reply
    }

    /// Gets a page.
    pub async fn get(&self, from: SocketAddr, path: &str) -> Reply {
        self.get_with(from, path, &[]).await
    }

    /// Gets a page, with headers.
    pub async fn get_with(&self, from: SocketAddr, path: &str, headers: &[(&str, &str)]) -> Reply {
        self.ask_with("GET", from, path, headers).await
    }

    /// Asks by a method without a body, with headers; a host among them is named instead.
    pub async fn ask_with(
        &self,
        method: &str,
        from: SocketAddr,
        path: &str,
        headers: &[(&str, &str)],
    ) -> Reply {
        let mut request = Request::builder().method(method).uri(path);
        if headers.iter().all(|(name, _)| *name != "host") {
            request = request.header("host", from.to_string());
        }
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let reply = send(from, request.body(Full::new(Bytes::new())).expect("a request")).await;
        self.record.note(|| Exchange::new(from == self.public(), method, path, &[], &reply));
        reply
    }

    /// Follows a stream of JSON until so many signs have come, or it ends.
    pub async fn signs(&self, path: &str, ask: &Value, most: usize) -> Result<Value, Refused> {
        let text = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
        let pairs = ask.as_object().into_iter().flatten();
        let query: Vec<String> = pairs.map(|(key, value)| format!("{key}={}", text(value))).collect();
        let to = self.private();
        let request = Request::get(format!("{path}?{}", query.join("&"))).header("host", to.to_string());
        let stream = TcpStream::connect(to).await.expect("the door is open");
        let (mut sender, connection) = http1::handshake(TokioIo::new(stream)).await.expect("HTTP/1.1");
        let carried = tokio::spawn(connection);
        let request = request.body(Full::new(Bytes::new())).expect("a request");
        let mut response = sender.send_request(request).await.expect("an answer");
        let (status, headers) = (response.status(), response.headers().clone());
        let media = headers.get("content-type").map(|value| value.to_str().expect("text").to_owned());
        let (mut body, mut signs) = (Vec::new(), Vec::new());
        while signs.len() < most
            && let Some(frame) = tokio::time::timeout(LONG, response.frame()).await.expect("in time")
        {
            body.extend_from_slice(frame.expect("a part").data_ref().map_or(&[][..], Bytes::as_ref));
            let text = String::from_utf8_lossy(&body);
            let whole = text.rsplit_once("\n\n").map_or("", |(whole, _)| whole);
            let data = whole.lines().filter_map(|line| line.strip_prefix("data: "));
            signs = data.map(|data| serde_json::from_str::<Value>(data).expect("JSON")).take(most).collect();
        }
        carried.abort();
        let reply = Reply { status, media: media.unwrap_or_default(), headers, body: body.into() };
        self.record.note(|| Exchange::new(false, "GET", path, &[], &reply));
        if status == StatusCode::OK {
            Ok(serde_json::json!({ "signs": signs }))
        } else {
            Err(House::problem(&reply))
        }
    }

    /// The stock behind the doors.
    pub fn ledger(&self) -> Ledger {
        self.running.service().stock().expect("it is open").ledger.clone()
    }

    /// A counter of the third door.
    pub async fn metric(&self, name: &str) -> u64 {
        let page = self.get(self.running.admin(), "/metrics").await;
        let text = String::from_utf8(page.body.to_vec()).expect("metrics are text");
        let line = text.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(' '));
        line.unwrap_or_else(|| panic!("no {name} in\n{text}")).trim().parse().expect("a whole number")
    }

    /// Nothing that was asked so far reached the geometry, and a good order still does.
    pub async fn has_taken_no_step_and_still_answers(&self) {
        let steps = "pennantry_calculation_steps_total";
        assert_eq!(self.metric(steps).await, 0, "bad input was calculated with");
        let answer = self.public_json(&serde_json::json!({"flaggedMm": 6200})).await.answer;
        assert!(answer.is_ok(), "{answer:?}");
        assert!(self.metric(steps).await > 0, "the counter does not count");
    }

    /// What a gRPC status says.
    pub fn refusal_of(status: &tonic::Status) -> Refused {
        let details = status.get_error_details();
        let reason = details.error_info().map_or_else(String::new, |info| info.reason.clone());
        let violations = details.bad_request().map_or(&[][..], |bad| &bad.field_violations);
        Refused {
            reason,
            detail: status.message().to_owned(),
            violations: violations.iter().map(told).collect(),
        }
    }

    /// What a problem over HTTP says (RFC 9457).
    pub fn problem(reply: &Reply) -> Refused {
        assert_eq!(reply.media, "application/problem+json", "{reply:?}");
        let problem: Value = serde_json::from_slice(&reply.body).expect("a problem is JSON");
        assert_eq!(problem["status"], reply.status.as_u16(), "{problem}");
        assert!(problem["title"].as_str().is_some_and(|title| !title.is_empty()), "{problem}");
        let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
        let listed = problem["violations"].as_array().map_or(&[][..], Vec::as_slice);
        let violations = listed.iter().map(|violation| v1::FieldViolation {
            field: text(&violation["field"]),
            reason: text(&violation["reason"]),
            message: text(&violation["message"]),
        });
        Refused {
            reason: text(&problem["reason"]),
            detail: text(&problem["detail"]),
            violations: violations.collect(),
        }
    }
}

/// One request on a connection of its own.
async fn send(to: SocketAddr, request: Request<Full<Bytes>>) -> Reply {
    let stream = TcpStream::connect(to).await.expect("the door is open");
    let (mut sender, connection) = http1::handshake(TokioIo::new(stream)).await.expect("HTTP/1.1");
    let carried = tokio::spawn(connection);
    let response = sender.send_request(request).await.expect("an answer");
    let status = response.status();
    let headers = response.headers().clone();
    let media = headers.get("content-type").map(|value| value.to_str().expect("text").to_owned());
    let body = response.into_body().collect().await.expect("a body").to_bytes();
    drop(sender);
    carried.abort();
    Reply { status, media: media.unwrap_or_default(), headers, body }
}

fn told(violation: &tonic_types::FieldViolation) -> v1::FieldViolation {
    v1::FieldViolation {
        field: violation.field.clone(),
        reason: violation.reason.clone(),
        message: violation.description.clone(),
    }
}
