//! The private gRPC, on tonic's own server.

mod stock;
mod time;

use std::any::Any;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};
use std::time::{Duration, Instant};

use http::{Request, Response};
use pennantry_contract::reasons::Kind;
use pennantry_contract::v1::catalogue_service_server::{CatalogueService, CatalogueServiceServer};
use pennantry_contract::v1::quote_service_server::{QuoteService, QuoteServiceServer};
use pennantry_contract::v1::report_service_server::ReportServiceServer;
use pennantry_contract::v1::reservation_service_server::ReservationServiceServer;
use pennantry_contract::v1::stock_service_server::StockServiceServer;
use pennantry_contract::{DESCRIPTOR, v1};
use tokio::sync::mpsc;
use tokio::time::timeout;
use tokio_stream::StreamExt;
use tokio_stream::wrappers::ReceiverStream;
use tonic::Status;
use tonic::body::Body;
use tonic::codec::CompressionEncoding;
use tonic::server::NamedService;
use tonic::transport::Server;
use tonic_health::ServingStatus;
use tonic_health::server::HealthReporter;
use tower::layer::util::{Identity, Stack};
use tower::{Layer, Service as TowerService};
use tower_http::catch_panic::{CatchPanic, ResponseForPanic};

use super::caller::Until;
use super::request_id;
use super::route::Counted;
use super::stack::words;
use super::status::{failure, status};
use crate::failure::Failure;
use crate::listen::private::Held;
use crate::listen::{Limits, Stop};
use crate::metrics::Metrics;
use crate::service::{Door, Service};

/// Streams at the same time on one connection.
const STREAMS: u32 = 128;
/// Calls at work at the same time on one connection; more wait.
const CALLS: usize = 64;
/// Bytes of an answer: what clients read by default.
const ANSWER_BYTES: usize = 4 * 1024 * 1024;
/// Bytes of a report: of 400 fabrics with all that is behind them it is some 4 MiB, and a client
/// that reads less by default may ask for it in brief or fabric by fabric.
const REPORT_BYTES: usize = 16 * 1024 * 1024;
/// How messages may be packed (`grpc-encoding`).
const GZIP: CompressionEncoding = CompressionEncoding::Gzip;
/// A connection that is silent for so long is asked whether it is there.
const PING: Duration = Duration::from_mins(1);
const PONG: Duration = Duration::from_secs(20);
const HEADER_BYTES: u32 = 16 * 1024;

/// The services of the contract, one method a call.
#[derive(Debug, Clone)]
struct Calls {
    service: Arc<Service>,
    metrics: Arc<Metrics>,
    limits: Arc<Limits>,
    stop: Stop,
}

fn told<T>(told: Result<T, Failure>) -> Result<tonic::Response<T>, Status> {
    told.map(tonic::Response::new).map_err(status)
}

#[tonic::async_trait]
impl QuoteService for Calls {
    async fn calculate_quote(
        &self,
        request: tonic::Request<v1::CalculateQuoteRequest>,
    ) -> Result<tonic::Response<v1::CalculateQuoteResponse>, Status> {
        told(self.service.calculate_quote(Door::Private, request.get_ref()))
    }

    async fn calculate_quotes(
        &self,
        request: tonic::Request<v1::CalculateQuotesRequest>,
    ) -> Result<tonic::Response<v1::CalculateQuotesResponse>, Status> {
        told(self.service.calculate_quotes(Door::Private, request.get_ref()))
    }

    async fn check_quote(
        &self,
        request: tonic::Request<v1::CheckQuoteRequest>,
    ) -> Result<tonic::Response<v1::CheckQuoteResponse>, Status> {
        told(self.service.check_quote(Door::Private, request.get_ref()))
    }
}

#[tonic::async_trait]
impl CatalogueService for Calls {
    async fn get_catalogue(
        &self,
        request: tonic::Request<v1::GetCatalogueRequest>,
    ) -> Result<tonic::Response<v1::GetCatalogueResponse>, Status> {
        told(self.service.get_catalogue(Door::Private, request.get_ref()))
    }
}

type Quotes = QuoteServiceServer<Calls>;
type Catalogues = CatalogueServiceServer<Calls>;
type Reservations = ReservationServiceServer<Calls>;
type Stocks = StockServiceServer<Calls>;
type Reports = ReportServiceServer<Calls>;

/// Names of the services, for health.
pub const SERVICES: [&str; 2] = [Quotes::NAME, Catalogues::NAME];
/// Names of the services that need the stock.
pub const OF_STOCK: [&str; 3] = [Reservations::NAME, Stocks::NAME, Reports::NAME];

/// Says of every service that needs no stock, and of the whole, whether it serves.
pub async fn report(health: &HealthReporter, serving: ServingStatus) {
    for service in SERVICES.into_iter().chain([""]) {
        health.set_service_status(service, serving).await;
    }
}

/// Says of the services that need the stock whether they serve.
pub async fn report_stock(health: &HealthReporter, serving: ServingStatus) {
    for service in OF_STOCK {
        health.set_service_status(service, serving).await;
    }
}

/// Serves the connections that come in, until the stop; then finishes what is in flight.
///
/// # Errors
/// The reflection service cannot read the descriptor: a fault of the program.
pub async fn serve(
    service: Arc<Service>,
    incoming: mpsc::Receiver<Held>,
    health: HealthReporter,
    reflection: bool,
    metrics: Arc<Metrics>,
    limits: Arc<Limits>,
    stop: Stop,
) -> Result<(), Box<dyn std::error::Error + Send + Sync>> {
    let (most, receive) = (limits.body_bytes, limits.receive_bytes);
    let calls = Calls { service, metrics: metrics.clone(), limits: limits.clone(), stop: stop.clone() };
    // The library holds what is unpacked against the same limit as what is not packed.
    let quotes = Quotes::new(calls.clone())
        .accept_compressed(GZIP)
        .max_decoding_message_size(most)
        .max_encoding_message_size(ANSWER_BYTES);
    let catalogues = Catalogues::new(calls.clone())
        .accept_compressed(GZIP)
        .max_decoding_message_size(most)
        .max_encoding_message_size(ANSWER_BYTES);
    let reservations = Reservations::new(calls.clone())
        .accept_compressed(GZIP)
        .max_decoding_message_size(most)
        .max_encoding_message_size(ANSWER_BYTES);
    // Of all answers a report alone is large enough for packing it to be worth the time.
    let reports = Reports::new(calls.clone())
        .accept_compressed(GZIP)
        .send_compressed(GZIP)
        .max_decoding_message_size(most)
        .max_encoding_message_size(REPORT_BYTES);
    let stocks = |most| {
        Stocks::new(calls.clone())
            .accept_compressed(GZIP)
            .max_decoding_message_size(most)
            .max_encoding_message_size(ANSWER_BYTES)
    };
    let stocks = stock::TwoSizes { plain: stocks(most), roomy: stocks(receive) };
    let health = tonic_health::server::HealthService::from_health_reporter(health);
    let health = tonic_health::pb::health_server::HealthServer::new(health).max_decoding_message_size(most);
    let mut router = server(metrics, limits)
        .add_service(quotes)
        .add_service(catalogues)
        .add_service(reservations)
        .add_service(stocks)
        .add_service(reports)
        .add_service(health);
    if reflection {
        // Clients of either version are about.
        router = router.add_service(reflected().build_v1()?).add_service(reflected().build_v1alpha()?);
    }
    let incoming = ReceiverStream::new(incoming).map(Ok::<_, std::convert::Infallible>);
    router.serve_with_incoming_shutdown(incoming, stop.begun()).await?;
    Ok(())
}

/// The library's server with what is around every call, and no services yet.
pub fn server(metrics: Arc<Metrics>, limits: Arc<Limits>) -> Server<Stack<Around, Identity>> {
    Server::builder()
        // The library's own, which also heeds what the caller gives, answers CANCELLED:
        // ours comes first.
        .timeout(limits.call.saturating_add(Duration::from_secs(1)))
        .concurrency_limit_per_connection(CALLS)
        .max_concurrent_streams(STREAMS)
        .http2_keepalive_interval(Some(PING))
        .http2_keepalive_timeout(Some(PONG))
        .http2_max_header_list_size(HEADER_BYTES)
        .layer(Around { metrics, limits })
}

fn reflected() -> tonic_reflection::server::Builder<'static> {
    tonic_reflection::server::Builder::configure()
        .register_encoded_file_descriptor_set(DESCRIPTOR)
        .register_encoded_file_descriptor_set(tonic_health::pb::FILE_DESCRIPTOR_SET)
}

/// What is around every call: the request's id, the count, the catch for panics, and the
/// library's own statuses in the words of the contract.
#[derive(Debug, Clone)]
pub struct Around {
    metrics: Arc<Metrics>,
    limits: Arc<Limits>,
}

impl<S> Layer<S> for Around {
    type Service = Surrounded<S>;

    fn layer(&self, inner: S) -> Surrounded<S> {
        Surrounded { inner: CatchPanic::custom(inner, Panicked(self.metrics.clone())), around: self.clone() }
    }
}

/// A call with what is around it.
#[derive(Debug, Clone)]
pub struct Surrounded<S> {
    inner: CatchPanic<S, Panicked>,
    around: Around,
}

impl<S> TowerService<Request<Body>> for Surrounded<S>
where
    S: TowerService<Request<Body>, Response = Response<Body>>,
    S::Future: Send + 'static,
{
    type Response = Response<Body>;
    type Error = S::Error;
    type Future = Pin<Box<dyn Future<Output = Result<Response<Body>, S::Error>> + Send>>;

    fn poll_ready(&mut self, cx: &mut Context<'_>) -> Poll<Result<(), S::Error>> {
        self.inner.poll_ready(cx)
    }

    fn call(&mut self, mut request: Request<Body>) -> Self::Future {
        let Around { metrics, limits } = self.around.clone();
        let roomy = stock::is_roomy(request.uri().path());
        let most = if roomy { limits.receive_bytes } else { limits.body_bytes };
        let given =
            time::given(request.headers()).map(time::to_answer_in).filter(|given| *given < limits.call);
        let call = given.unwrap_or(limits.call);
        request.extensions_mut().insert(Until { at: Instant::now() + call, given: given.is_some() });
        let id = request_id::of(request.headers());
        let route = Counted::GRPC.routes.name(request.uri().path());
        let in_flight = metrics.begin();
        let answer = self.inner.call(request);
        Box::pin(async move {
            let mut response = match timeout(call, answer).await {
                Ok(answer) => in_our_words(answer?.map(Body::new), most),
                Err(_) => status(too_slow(call)).into_http(),
            };
            let code = response.extensions().get::<Status>().map_or(tonic::Code::Ok, Status::code);
            Counted::GRPC.answered(&metrics, route, number(code));
            tracing::debug!(door = "grpc", route, ?code, request = ?id, "answered");
            response.headers_mut().insert(request_id::HEADER, id);
            drop(in_flight);
            Ok(response)
        })
    }
}

fn number(code: tonic::Code) -> u16 {
    u16::try_from(i32::from(code)).unwrap_or_default()
}

fn too_slow(limit: Duration) -> Failure {
    let seconds = limit.as_secs_f32();
    Failure::new(
        Kind::DeadlineExceeded,
        format!("the call took longer than {seconds} s: send it again, faster"),
    )
}

fn in_our_words(response: Response<Body>, most: usize) -> Response<Body> {
    let made_by_library = response.extensions().get::<Status>().and_then(|status| failure(status, most));
    match made_by_library {
        Some(failure) => status(failure).into_http(),
        None => response,
    }
}

#[derive(Debug, Clone)]
struct Panicked(Arc<Metrics>);

impl ResponseForPanic for Panicked {
    type ResponseBody = Body;

    fn response_for_panic(&mut self, panic: Box<dyn Any + Send + 'static>) -> Response<Body> {
        self.0.panicked();
        status(Failure::internal(words(panic.as_ref()))).into_http()
    }
}

#[cfg(test)]
mod tests {
    use axum::routing::post;
    use pennantry_contract::v1::quote_service_client::QuoteServiceClient;
    use tokio::net::TcpListener;
    use tokio_stream::wrappers::TcpListenerStream;
    use tonic::service::Routes;
    use tonic_types::StatusExt;

    use super::*;
    use crate::catalogue::{SALTMERE_LOFT, open};
    use crate::clock::Clock;
    use crate::ticket::Keys;

    /// As case B36 of the operators' list: a fault costs one call, not the connection.
    #[tokio::test]
    async fn a_panic_and_a_call_without_end_are_told_and_the_connection_goes_on() {
        let service = Arc::new(Service::new(
            open(SALTMERE_LOFT).unwrap().into(),
            Clock::System,
            Keys::fresh().unwrap(),
        ));
        let metrics = Arc::new(Metrics::new(service));
        let broken = post(async || -> Response<Body> { panic!("the secret cause") });
        let endless = post(async || std::future::pending::<Response<Body>>().await);
        let mut routes = Routes::default();
        let router = std::mem::take(routes.axum_router_mut())
            .route("/pennantry.v1.QuoteService/CalculateQuote", broken)
            .route("/pennantry.v1.QuoteService/CalculateQuotes", endless);
        *routes.axum_router_mut() = router;
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = listener.local_addr().unwrap();
        let limits = Arc::new(Limits { call: Duration::from_millis(100), ..Limits::default() });
        let around = Around { metrics: metrics.clone(), limits };
        let server = Server::builder().layer(around).add_routes(routes);
        tokio::spawn(server.serve_with_incoming(TcpListenerStream::new(listener)));

        let mut client = QuoteServiceClient::connect(format!("http://{address}")).await.unwrap();
        let reason = |status: &Status| status.get_error_details().error_info().unwrap().reason.clone();
        for _ in 0..2 {
            let told = client.calculate_quote(v1::CalculateQuoteRequest::default()).await.unwrap_err();
            assert_eq!((told.code(), reason(&told).as_str()), (tonic::Code::Internal, "INTERNAL"));
            assert!(!told.message().contains("secret") && told.metadata().contains_key("x-request-id"));
            let told = client.calculate_quotes(v1::CalculateQuotesRequest::default()).await.unwrap_err();
            assert_eq!(
                (told.code(), reason(&told).as_str()),
                (tonic::Code::DeadlineExceeded, "DEADLINE_EXCEEDED")
            );
        }
        assert!(metrics.text().unwrap().contains("pennantry_panics_total 2\n"));
        assert_eq!(metrics.in_flight(), 0);
    }
}
