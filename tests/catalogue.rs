//! The demo catalogue, and servers and services on it.

use std::sync::Arc;

use pennantry_contract::v1;
use pennantryd::clock::Clock;
use pennantryd::service::{Door, Service};
use pennantryd::stock::Stock as Kept;
use pennantryd::ticket::Keys;
use pennantryd::{Config, Running, catalogue};

use crate::dice::Stock;
use crate::doors::NOW;

/// The demo catalogue's text.
pub fn demo() -> &'static str {
    catalogue::SALTMERE_LOFT
}

/// The clock that stands still for every test.
pub fn clock() -> Clock {
    Clock::Fixed(NOW.parse().expect("an instant"))
}

/// Keys that stay the same from run to run: one of 32 times the byte 7.
pub fn keys() -> Keys {
    Keys::read("BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwc").expect("a key")
}

/// A catalogue from its text; every mistake is told.
pub fn open(text: &str) -> pennantry_app::Catalogue {
    match catalogue::open(text) {
        Ok(loaded) => loaded.into(),
        Err(mistakes) => {
            panic!("{}", mistakes.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))
        }
    }
}

/// The service behind the doors, without doors.
pub fn service(text: &str) -> Arc<Service> {
    Arc::new(Service::new(open(text), clock(), keys()))
}

/// What a service offers.
pub fn of(service: &Service) -> v1::Catalogue {
    let given = service.get_catalogue(Door::Private, &v1::GetCatalogueRequest {});
    given.expect("a catalogue").catalogue.expect("a catalogue")
}

/// What random orders choose from.
pub fn stock(catalogue: &v1::Catalogue) -> Stock {
    Stock {
        designs: catalogue.designs.iter().map(|design| design.code.clone()).collect(),
        fabrics: catalogue.fabrics.iter().map(|fabric| fabric.code.clone()).collect(),
        bindings: catalogue.bindings.iter().map(|binding| binding.code.clone()).collect(),
        trimmings: catalogue.trimmings.iter().map(|trimming| trimming.code.clone()).collect(),
        services: catalogue.services.iter().map(|service| service.code.clone()).collect(),
    }
}

/// A server on free ports with this catalogue.
pub async fn start(text: &str) -> Running {
    pennantryd::start(Config::local(open(text), clock())).await.expect("the server starts")
}

/// The same with its stock kept elsewhere.
pub async fn start_on(text: &str, stock: Kept) -> Running {
    let config = Config { stock, ..Config::local(open(text), clock()) };
    pennantryd::start(config).await.expect("the server starts")
}
