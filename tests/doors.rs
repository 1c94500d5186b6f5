//! A real server in this process, and clients for each of its doors.

use bytes::Bytes;
use http_body_util::{BodyExt, Full};
use hyper::client::conn::http1;
use hyper::{Request, StatusCode};
use hyper_util::rt::TokioIo;
use pennantry_contract::v1;
use pennantry_contract::v1::quote_service_client::QuoteServiceClient;
use serde_json::Value;
use tokio::net::TcpStream;
use tonic::transport::{Channel, Endpoint};
use tonic_types::StatusExt;

use crate::catalogue;

/// The instant at which every case is asked: ten in the morning in London.
pub const NOW: &str = "2026-11-24T10:00:00Z";

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
    /// The body.
    pub body: Bytes,
}

/// What came back from a door that speaks JSON.
#[derive(Debug)]
pub struct Told {
    /// The answer it means.
    pub told: Answer,
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

    /// What is put before the path of a field: the private body is the whole request.
    pub fn prefix(self) -> &'static str {
        match self {
            Json::Public => "",
            Json::Private => "enquiry.",
        }
    }
}

/// A server on free ports with its clients.
#[derive(Debug)]
pub struct House {
    running: pennantryd::Running,
    grpc: Channel,
    /// Codes of the catalogue's fabrics, in order.
    pub fabrics: Vec<String>,
    /// All that random orders choose from.
    pub stock: crate::dice::Stock,
}

impl House {
    /// A server on the demo catalogue.
    pub async fn demo() -> House {
        House::open(catalogue::demo()).await
    }

    /// A server on a catalogue.
    pub async fn open(text: &str) -> House {
        let running = catalogue::start(text, NOW).await;
        let endpoint = Endpoint::from_shared(format!("http://{}", running.private())).expect("an address");
        let grpc = endpoint.connect().await.expect("the private door opens");
        let mut client = CatalogueServiceClient::new(grpc.clone());
        let given = client.get_catalogue(v1::GetCatalogueRequest {}).await.expect("a catalogue").into_inner();
        let stock = catalogue::stock(&given.catalogue.expect("a catalogue"));
        House { running, grpc, fabrics: stock.fabrics.clone(), stock }
    }
}
