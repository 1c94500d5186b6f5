//! A hundred want 0.30 m each of the last 10.00 m at once, half of them by JSON at the public
//! door, half by gRPC at the private one: 33 get it, and 0.10 m is left.

use std::io::BufReader;
use std::io::Write;
use std::sync::Barrier;

use serde_json::{Value, json};
use tokio::net::TcpSocket;

use super::super::process::LONG;
use super::postgres::Database;
use super::wire::{Call, Caller, Told, answer, request};
use super::{Shop, deliver, hold, ticket};

#[test]
fn invariant_08_the_last_metre_of_the_embedded_stock_is_sold_once() {
    is_sold_once(&Shop::embedded());
}

#[test]
fn invariant_08_the_last_metre_of_the_shared_stock_is_sold_once() {
    is_sold_once(&Shop::shared(Database::new()));
}

fn is_sold_once(shop: &Shop) {
    let server = shop.serve();
    let mut caller = Caller::json(&server.address("private"));
    deliver(&mut caller, "last", 10_000, 400_000);
    let token = ticket(&server);
    let start = Barrier::new(100);
    let told: Vec<Told> = std::thread::scope(|scope| {
        let callers: Vec<_> = (0_u8..100)
            .map(|number| {
                let (public, private) = (server.address("public"), server.address("private"));
                let (start, token) = (&start, &token);
                scope.spawn(move || {
                    if number % 2 == 0 {
                        by_json(&public, number, token, start)
                    } else {
                        by_grpc(&private, number, token, start)
                    }
                })
            })
            .collect();
        callers.into_iter().map(|caller| caller.join().unwrap()).collect()
    });
    let held = told.iter().filter(|told| matches!(told, Told::Done(_))).count();
    for told in &told {
        match told {
            Told::Done(_) => {}
            Told::Refused(why) => assert!(why.contains("missing is"), "{why}"),
            Told::Nothing => panic!("a caller got no answer"),
        }
    }
    // by hand: 33 x 0.30 m = 9.90 m
    assert_eq!(held, 33);
    let pieces = caller.done(Call::ListStock, &json!({"code": "kelp"}));
    let piece = &pieces["pieces"][0];
    let mm = |field: &str| piece[field]["lengthMm"].as_f64().unwrap();
    assert_eq!((mm("left"), mm("held"), mm("free")), (10_000.0, 9_900.0, 100.0), "{piece}");
    shop.agrees();
}

/// At the public door, each from an address of its own, since one caller has few holds at once.
fn by_json(address: &str, number: u8, token: &str, start: &Barrier) -> Told {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    let stream = runtime.block_on(async {
        let socket = TcpSocket::new_v4().unwrap();
        socket.bind(([127, 0, 1, number + 1], 0).into()).unwrap();
        socket.connect(address.parse().unwrap()).await.unwrap()
    });
    let mut stream = stream.into_std().unwrap();
    stream.set_nonblocking(false).unwrap();
    stream.set_read_timeout(Some(LONG * 2)).unwrap();
    let key = format!("idempotency-key: last-{number}\r\n");
    let asked = request("/v1/reservations", &key, &hold(token));
    start.wait();
    stream.write_all(asked.as_bytes()).unwrap();
    let (status, body): (u16, Value) = answer(&mut BufReader::new(stream)).unwrap();
    match status {
        200 | 201 => Told::Done(body),
        409 => Told::Refused(body["detail"].as_str().unwrap().to_owned()),
        other => panic!("{other}: {body}"),
    }
}

fn by_grpc(address: &str, number: u8, token: &str, start: &Barrier) -> Told {
    let mut caller = Caller::grpc(address);
    start.wait();
    caller.ask(Call::CreateReservation, &json!({"requestId": format!("last-{number}"), "hold": hold(token)}))
}
