//! A server that gives the answers of a script, call by call, and keeps what it was sent.
//!
//! Requests and answers are written as JSON, so a test reads as the contract does. A call for
//! which the script has nothing more is answered in a way that ends every test.

use std::collections::{BTreeMap, VecDeque};
use std::net::SocketAddr;
use std::pin::Pin;
use std::sync::{Arc, Mutex};

use pennantry_contract::reasons::Kind;
use pennantry_contract::v1;
use pennantry_contract::v1::catalogue_service_server::{CatalogueService, CatalogueServiceServer};
use pennantry_contract::v1::quote_service_server::{QuoteService, QuoteServiceServer};
use pennantry_contract::v1::reservation_service_server::{ReservationService, ReservationServiceServer};
use pennantry_contract::v1::stock_service_server::{StockService, StockServiceServer};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use tokio_stream::Stream;
use tokio_stream::wrappers::TcpListenerStream;
use tonic::{Request, Response, Status};
use tonic_types::{ErrorDetails, FieldViolation, StatusExt};

/// An answer, or what there is instead.
pub type Answer = Result<Value, Status>;

#[derive(Default)]
struct Inner {
    answers: BTreeMap<&'static str, VecDeque<Answer>>,
    sent: Vec<(&'static str, Value)>,
}

/// The script and what was sent.
#[derive(Clone, Default)]
pub struct Script(Arc<Mutex<Inner>>);

impl Script {
    /// One more answer to a call, such as `ReceiveStock`.
    pub fn with(self, call: &'static str, answer: Answer) -> Script {
        self.0.lock().unwrap().answers.entry(call).or_default().push_back(answer);
        self
    }

    /// What was sent to a call, the first one first.
    pub fn sent(&self, call: &str) -> Vec<Value> {
        let inner = self.0.lock().unwrap();
        inner.sent.iter().filter(|(of, _)| *of == call).map(|(_, request)| request.clone()).collect()
    }

    /// The calls, in their order.
    pub fn calls(&self) -> Vec<&'static str> {
        self.0.lock().unwrap().sent.iter().map(|(call, _)| *call).collect()
    }

    /// Serves it.
    pub async fn serve(&self) -> SocketAddr {
        let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = listener.local_addr().unwrap();
        let server = tonic::transport::Server::builder()
            .add_service(QuoteServiceServer::new(self.clone()))
            .add_service(CatalogueServiceServer::new(self.clone()))
            .add_service(StockServiceServer::new(self.clone()))
            .add_service(ReservationServiceServer::new(self.clone()))
            .serve_with_incoming(TcpListenerStream::new(listener));
        tokio::spawn(server);
        address
    }

    fn next(&self, call: &'static str, request: &impl Serialize) -> Answer {
        let mut inner = self.0.lock().unwrap();
        inner.sent.push((call, serde_json::to_value(request).unwrap()));
        let answer = inner.answers.get_mut(call).and_then(VecDeque::pop_front);
        answer.unwrap_or_else(|| Err(Status::unimplemented(format!("the script has no {call} any more"))))
    }

    fn answer<Q: Serialize, A: DeserializeOwned>(
        &self,
        call: &'static str,
        request: Request<Q>,
    ) -> Result<Response<A>, Status> {
        let answer = self.next(call, &request.into_inner())?;
        Ok(Response::new(serde_json::from_value(answer).expect("the script is of the contract")))
    }
}

/// A refusal with violations: field, reason, message of each.
pub fn refusal(kind: Kind, detail: &str, violations: &[(&str, &str, &str)]) -> Status {
    let mut details = ErrorDetails::new();
    details.set_error_info(kind.as_str(), "pennantry", std::collections::HashMap::new());
    let told = violations.iter().map(|(field, reason, description)| FieldViolation {
        field: (*field).to_owned(),
        reason: (*reason).to_owned(),
        description: (*description).to_owned(),
        localized_message: None,
    });
    let told: Vec<FieldViolation> = told.collect();
    if !told.is_empty() {
        details.set_bad_request(told);
    }
    Status::with_error_details(kind.grpc_code(), detail, details)
}

/// A catalogue in pounds.
pub fn pounds() -> Value {
    json!({"catalogue": {"currencyCode": "GBP", "minorDigits": 2}})
}

/// A service whose calls are all answered by the script.
macro_rules! scripted {
    ($service:ident { $($method:ident $call:literal $request:ident $response:ident;)+ } $($more:tt)*) => {
        #[tonic::async_trait]
        impl $service for Script {
            $(async fn $method(
                &self,
                request: Request<v1::$request>,
            ) -> Result<Response<v1::$response>, Status> {
                self.answer($call, request)
            })+

            $($more)*
        }
    };
}

scripted! {
    QuoteService {
        calculate_quote "CalculateQuote" CalculateQuoteRequest CalculateQuoteResponse;
        calculate_quotes "CalculateQuotes" CalculateQuotesRequest CalculateQuotesResponse;
        check_quote "CheckQuote" CheckQuoteRequest CheckQuoteResponse;
    }
}

scripted! {
    CatalogueService {
        get_catalogue "GetCatalogue" GetCatalogueRequest GetCatalogueResponse;
    }
}

scripted! {
    ReservationService {
        create_reservation "CreateReservation" CreateReservationRequest CreateReservationResponse;
        get_reservation "GetReservation" GetReservationRequest GetReservationResponse;
        extend_reservation "ExtendReservation" ExtendReservationRequest ExtendReservationResponse;
        confirm_reservation "ConfirmReservation" ConfirmReservationRequest ConfirmReservationResponse;
        release_reservation "ReleaseReservation" ReleaseReservationRequest ReleaseReservationResponse;
        cancel_reservation "CancelReservation" CancelReservationRequest CancelReservationResponse;
        amend_reservation "AmendReservation" AmendReservationRequest AmendReservationResponse;
        list_reservations "ListReservations" ListReservationsRequest ListReservationsResponse;
    }
}

/// Events, then how the stream ends.
type Events = Pin<Box<dyn Stream<Item = Result<v1::WatchStockResponse, Status>> + Send>>;

scripted! {
    StockService {
        receive_stock "ReceiveStock" ReceiveStockRequest ReceiveStockResponse;
        check_delivery "CheckDelivery" CheckDeliveryRequest CheckDeliveryResponse;
        adjust_stock "AdjustStock" AdjustStockRequest AdjustStockResponse;
        list_stock "ListStock" ListStockRequest ListStockResponse;
        get_piece "GetPiece" GetPieceRequest GetPieceResponse;
        record_cut "RecordCut" RecordCutRequest RecordCutResponse;
        undo_cut "UndoCut" UndoCutRequest UndoCutResponse;
        place_order "PlaceOrder" PlaceOrderRequest PlaceOrderResponse;
        list_orders "ListOrders" ListOrdersRequest ListOrdersResponse;
        cancel_order "CancelOrder" CancelOrderRequest CancelOrderResponse;
    }

    type WatchStockStream = Events;

    /// The answer is a list of events; behind the last one the stream breaks.
    async fn watch_stock(&self, request: Request<v1::WatchStockRequest>) -> Result<Response<Events>, Status> {
        let answer = self.next("WatchStock", &request.into_inner())?;
        let events: Vec<v1::WatchStockResponse> = serde_json::from_value(answer).expect("events");
        let ended = Err(refusal(Kind::Unavailable, "stopping", &[]));
        let told: Vec<_> = events.into_iter().map(Ok).chain([ended]).collect();
        Ok(Response::new(Box::pin(tokio_stream::iter(told))))
    }
}
