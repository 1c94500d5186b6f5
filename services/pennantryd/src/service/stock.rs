//! The calls of the stock.

use pennantry_contract::v1;

use super::{Caller, Service};
use crate::failure::Failure;

impl Service {
    /// Puts pieces on the shelf.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn receive_stock(
        &self,
        caller: &Caller,
        request: &v1::ReceiveStockRequest,
    ) -> Result<v1::ReceiveStockResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Records what is so with a piece.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn adjust_stock(
        &self,
        caller: &Caller,
        request: &v1::AdjustStockRequest,
    ) -> Result<v1::AdjustStockResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Lists pieces.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn list_stock(
        &self,
        caller: &Caller,
        request: &v1::ListStockRequest,
    ) -> Result<v1::ListStockResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Gives a piece and its history.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn get_piece(
        &self,
        caller: &Caller,
        request: &v1::GetPieceRequest,
    ) -> Result<v1::GetPieceResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Records what the bench has cut.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn record_cut(
        &self,
        caller: &Caller,
        request: &v1::RecordCutRequest,
    ) -> Result<v1::RecordCutResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Takes a cut back.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn undo_cut(
        &self,
        caller: &Caller,
        request: &v1::UndoCutRequest,
    ) -> Result<v1::UndoCutResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Places an order at a supplier.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn place_order(
        &self,
        caller: &Caller,
        request: &v1::PlaceOrderRequest,
    ) -> Result<v1::PlaceOrderResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Lists orders at suppliers.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn list_orders(
        &self,
        caller: &Caller,
        request: &v1::ListOrdersRequest,
    ) -> Result<v1::ListOrdersResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Calls an order off.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn cancel_order(
        &self,
        caller: &Caller,
        request: &v1::CancelOrderRequest,
    ) -> Result<v1::CancelOrderResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }
}
