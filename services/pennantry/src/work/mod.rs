//! What each command does: asks, and prints what came back.

pub mod bench;
pub mod held;
pub mod orders;
pub mod receive;
pub mod shelf;
pub mod watch;

use std::io::Read;

use pennantry_contract::v1;
use pennantry_contract::v1::reservation_service_client::ReservationServiceClient;
use pennantry_contract::v1::stock_service_client::StockServiceClient;
use serde_json::Error;
use tonic::transport::Channel;

use crate::ask::{Door, Failure};
use crate::print::Look;
use crate::program::Printed;

/// Characters that are read of standard input at most where a ticket is expected.
const MOST_TOKEN: u64 = 64 * 1024;

fn stock(channel: Channel) -> StockServiceClient<Channel> {
    StockServiceClient::new(channel)
}

fn reservations(channel: Channel) -> ReservationServiceClient<Channel> {
    ReservationServiceClient::new(channel)
}

/// A message of the contract as one line of standard JSON.
fn line(written: Result<String, Error>) -> Result<String, Failure> {
    written
        .map(|line| line + "\n")
        .map_err(|cause| Failure::NotAsked(format!("the answer cannot be written as JSON: {cause}")))
}

/// What is printed when it is done.
fn done(out: String) -> Printed {
    Printed { out, ..Printed::default() }
}

/// What the answer does not hold although it must.
fn empty() -> Failure {
    Failure::NotAsked("the server's answer is empty".to_owned())
}

/// A ticket as it was typed, or from standard input for a hyphen.
///
/// # Errors
/// Standard input cannot be read.
fn token(typed: &str) -> Result<String, Failure> {
    if typed != "-" {
        return Ok(typed.to_owned());
    }
    let mut text = String::new();
    let read = std::io::stdin().lock().take(MOST_TOKEN).read_to_string(&mut text);
    read.map_err(|cause| Failure::NotAsked(format!("--token -: standard input cannot be read: {cause}")))?;
    Ok(text.trim().to_owned())
}

/// The look with what money is in, if the server says it: a total in minor units is better
/// than none after something was changed.
async fn with_currency(mut look: Look, door: &Door) -> Look {
    look.currency = door.currency().await.ok();
    look
}

/// A look for amounts that hold money only where a total is there.
async fn look_of(look: Look, door: &Door, reservation: Option<&v1::Reservation>) -> Look {
    match reservation.and_then(|one| one.total.as_ref()) {
        Some(_) => with_currency(look, door).await,
        None => look,
    }
}
