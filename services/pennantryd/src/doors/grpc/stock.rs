//! The calls of the stock and of reservations over gRPC.

use std::convert::Infallible;
use std::future::Future;
use std::pin::Pin;
use std::task::{Context, Poll};

use http::{Request, Response};
use pennantry_contract::v1;
use pennantry_contract::v1::report_service_server::ReportService;
use pennantry_contract::v1::reservation_service_server::ReservationService;
use pennantry_contract::v1::stock_service_server::{StockService, StockServiceServer};
use tokio_stream::wrappers::ReceiverStream;
use tokio_stream::{Stream, StreamExt};
use tonic::Status;
use tonic::body::Body;
use tonic::server::NamedService;
use tower::Service as TowerService;

use super::{Calls, told};
use crate::doors::caller::{self, Until};
use crate::doors::carry::{self, Told};
use crate::doors::status::status;
use crate::doors::watch::{self, Sign, Terms};
use crate::failure::Failure;
use crate::service::Caller;

impl Calls {
    async fn carry<T: Told>(
        &self,
        name: &'static str,
        caller: &Caller,
        call: impl Future<Output = Result<T, Failure>>,
    ) -> Result<tonic::Response<T>, Status> {
        told(carry::out(&self.metrics, name, caller, call).await)
    }
}

macro_rules! served {
    ($service:ident { $($call:ident $name:literal $asked:ident $told:ident;)+ } $($rest:tt)*) => {
        #[tonic::async_trait]
        impl $service for Calls {
            $(
                async fn $call(
                    &self,
                    request: tonic::Request<v1::$asked>,
                ) -> Result<tonic::Response<v1::$told>, Status> {
                    let caller = caller::of_call(&request);
                    self.carry($name, &caller, self.service.$call(&caller, request.get_ref())).await
                }
            )+
            $($rest)*
        }
    };
}

served! {
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

served! {
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

    type WatchStockStream = Pin<Box<dyn Stream<Item = Result<v1::WatchStockResponse, Status>> + Send>>;

    async fn watch_stock(
        &self,
        request: tonic::Request<v1::WatchStockRequest>,
    ) -> Result<tonic::Response<Self::WatchStockStream>, Status> {
        let until = request.extensions().get::<Until>().filter(|until| until.given).map(|until| until.at);
        let terms = Terms { beat: self.limits.beat, until, stop: self.stop.clone() };
        let watch = watch::begin(&self.service, &self.metrics, request.get_ref().after, terms).await;
        let signs = ReceiverStream::new(watch.map_err(status)?.signs);
        // the connection has signs of life of its own
        let events = signs.filter_map(|sign| match sign {
            Ok(Sign::Event(event)) => Some(Ok(v1::WatchStockResponse { event: Some(*event) })),
            Ok(Sign::Nothing) => None,
            Err(failure) => Some(Err(status(failure))),
        });
        Ok(tonic::Response::new(Box::pin(events)))
    }
}

served! {
    ReportService {
        get_burn_report "GetBurnReport" GetBurnReportRequest GetBurnReportResponse;
        cancel_burn_report "CancelBurnReport" CancelBurnReportRequest CancelBurnReportResponse;
        list_burn_reports "ListBurnReports" ListBurnReportsRequest ListBurnReportsResponse;
    }

    type RunBurnReportStream =
        Pin<Box<dyn Stream<Item = Result<v1::RunBurnReportResponse, Status>> + Send>>;

    async fn run_burn_report(
        &self,
        request: tonic::Request<v1::RunBurnReportRequest>,
    ) -> Result<tonic::Response<Self::RunBurnReportStream>, Status> {
        let caller = caller::of_call(&request);
        let signs = self.service.run_burn_report(&caller, request.get_ref(), &self.stop).await;
        let signs = ReceiverStream::new(signs.map_err(status)?);
        Ok(tonic::Response::new(Box::pin(signs.map(|sign| sign.map_err(status)))))
    }
}

/// Whether many pieces come in a call.
pub(super) fn is_roomy(path: &str) -> bool {
    matches!(path, "/pennantry.v1.StockService/ReceiveStock" | "/pennantry.v1.StockService/CheckDelivery")
}

type Stocks = StockServiceServer<Calls>;

/// The service of the stock, which takes large messages for two of its calls only. The
/// library has one limit for all calls of a service: so there are two of it.
#[derive(Debug, Clone)]
pub(super) struct TwoSizes {
    pub plain: Stocks,
    pub roomy: Stocks,
}

impl NamedService for TwoSizes {
    const NAME: &'static str = Stocks::NAME;
}

impl TowerService<Request<Body>> for TwoSizes {
    type Response = Response<Body>;
    type Error = Infallible;
    type Future = <Stocks as TowerService<Request<Body>>>::Future;

    fn poll_ready(&mut self, _cx: &mut Context<'_>) -> Poll<Result<(), Infallible>> {
        // Both always are.
        Poll::Ready(Ok(()))
    }

    fn call(&mut self, request: Request<Body>) -> Self::Future {
        let sized = if is_roomy(request.uri().path()) { &mut self.roomy } else { &mut self.plain };
        sized.call(request)
    }
}
