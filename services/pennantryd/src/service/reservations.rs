//! The calls of reservations.

use pennantry_contract::v1;

use super::{Caller, Service};
use crate::failure::Failure;

impl Service {
    /// Takes from the shelf what a quote needs.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn create_reservation(
        &self,
        caller: &Caller,
        request: &v1::CreateReservationRequest,
    ) -> Result<v1::CreateReservationResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Gives a reservation.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn get_reservation(
        &self,
        caller: &Caller,
        request: &v1::GetReservationRequest,
    ) -> Result<v1::GetReservationResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Gives a hold more time.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn extend_reservation(
        &self,
        caller: &Caller,
        request: &v1::ExtendReservationRequest,
    ) -> Result<v1::ExtendReservationResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Makes a hold a promise.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn confirm_reservation(
        &self,
        caller: &Caller,
        request: &v1::ConfirmReservationRequest,
    ) -> Result<v1::ConfirmReservationResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Lets a hold go.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn release_reservation(
        &self,
        caller: &Caller,
        request: &v1::ReleaseReservationRequest,
    ) -> Result<v1::ReleaseReservationResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Calls a reservation off.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn cancel_reservation(
        &self,
        caller: &Caller,
        request: &v1::CancelReservationRequest,
    ) -> Result<v1::CancelReservationResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Plans a reservation anew.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn amend_reservation(
        &self,
        caller: &Caller,
        request: &v1::AmendReservationRequest,
    ) -> Result<v1::AmendReservationResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }

    /// Lists reservations.
    ///
    /// # Errors
    /// As the contract says.
    pub async fn list_reservations(
        &self,
        caller: &Caller,
        request: &v1::ListReservationsRequest,
    ) -> Result<v1::ListReservationsResponse, Failure> {
        let _ = (caller, request);
        Err(Failure::internal("not there yet"))
    }
}
