//! The stock of a server: where it is kept, whether it is there, and who may reach it.

use std::net::{Ipv4Addr, SocketAddr};
use std::time::Duration;

use pennantry_contract::v1;
use pennantry_contract::v1::stock_service_client::StockServiceClient;
use tokio::net::{TcpListener, TcpStream};
use tokio::time::{sleep, timeout};
use tonic::Code;
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_check_response::ServingStatus;
use tonic_health::pb::health_client::HealthClient;

use super::grpc::channel;
use super::postgres::{Database as Given, Server};
use super::{LONG, ask, config, get, metric, post, quote, server};
use crate::catalogue::SALTMERE_LOFT;
use crate::stock::{Database, FILE, Stock};
use crate::{Config, Running, start};

const LIST: &str = "/pennantry.v1.StockService/ListStock";

async fn health(running: &Running, service: &str) -> ServingStatus {
    let mut client = HealthClient::new(channel(running).await);
    let request = HealthCheckRequest { service: service.to_owned() };
    client.check(request).await.unwrap().into_inner().status()
}

async fn until_told(running: &Running, status: ServingStatus) {
    let told = async {
        while health(running, "pennantry.v1.ReservationService").await != status {
            sleep(Duration::from_millis(50)).await;
        }
    };
    timeout(LONG, told).await.expect("told in time");
}

async fn readiness(running: &Running) -> [u16; 2] {
    [
        ask(running.admin(), get("/readyz")).await.status,
        ask(running.admin(), get("/readyz/stock")).await.status,
    ]
}

/// Quotes are answered, and health says what is so.
async fn quotes_only(running: &Running) {
    assert_eq!(ask(running.public(), quote()).await.status, 200);
    assert_eq!(readiness(running).await, [200, 503]);
    for (service, status) in [
        ("", ServingStatus::Serving),
        ("pennantry.v1.QuoteService", ServingStatus::Serving),
        ("pennantry.v1.CatalogueService", ServingStatus::Serving),
        ("pennantry.v1.ReservationService", ServingStatus::NotServing),
        ("pennantry.v1.StockService", ServingStatus::NotServing),
    ] {
        assert_eq!(health(running, service).await, status, "{service}");
    }
    let reply = ask(running.private(), post(LIST, "{}")).await;
    assert_eq!((reply.status, reply.reason().as_str()), (503, "UNAVAILABLE"));
    assert_eq!(reply.header("retry-after"), Some("5"));
    assert_eq!(metric(running, "pennantry_stock_ready").await, 0);
}

#[tokio::test]
async fn the_stock_goes_with_a_server_that_keeps_nothing() {
    let running = server().await;
    assert_eq!(readiness(&running).await, [200, 200]);
    assert_eq!(health(&running, "pennantry.v1.StockService").await, ServingStatus::Serving);
    assert_eq!(metric(&running, "pennantry_stock_ready").await, 1);
    let folder = running.folder().expect("a folder").to_owned();
    assert!(folder.join(FILE).is_file());
    assert!(running.stop(LONG).await);
    assert!(!folder.exists(), "it is left over");
}

#[tokio::test]
async fn the_stock_is_kept_in_the_data_folder_and_let_go_of() {
    let data = tempfile::tempdir().unwrap();
    let at = || Config { data: Some(data.path().to_owned()), ..config() };
    for _ in 0..2 {
        let running = start(at()).await.unwrap();
        assert_eq!(readiness(&running).await, [200, 200]);
        assert!(running.stop(LONG).await);
        let left: Vec<_> =
            std::fs::read_dir(data.path()).unwrap().map(|file| file.unwrap().file_name()).collect();
        assert!(
            left.iter().any(|name| name == FILE)
                && left.iter().all(|name| !name.to_str().unwrap().ends_with("-wal")),
            "{left:?}"
        );
    }
}

#[tokio::test]
async fn a_file_that_is_none_of_ours_is_refused_at_start() {
    let data = tempfile::tempdir().unwrap();
    std::fs::write(data.path().join(FILE), "a letter to the harbour master, not a database at all").unwrap();
    let faults = start(Config { data: Some(data.path().to_owned()), ..config() }).await.unwrap_err().faults;
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(faults[0].starts_with("--data ") && faults[0].contains("not a database"), "{faults:?}");
    assert!(
        std::fs::read_to_string(data.path().join(FILE)).unwrap().starts_with("a letter"),
        "it is left alone"
    );
}

/// Until it is known who asks, whoever reaches the private side could change the stock.
#[tokio::test]
async fn the_private_side_serves_this_machine_alone() {
    for address in ["0.0.0.0:0", "[::]:0", "192.0.2.7:0"] {
        let private: SocketAddr = address.parse().unwrap();
        let faults = start(Config { private, ..config() }).await.unwrap_err().faults;
        let told = faults.iter().find(|fault| fault.contains("asks nobody who they are yet"));
        assert!(told.is_some_and(|told| told.starts_with(&format!("--private {private}"))), "{faults:?}");
    }
    let open = Config { private: "0.0.0.0:0".parse().unwrap(), stock: Stock::None, ..config() };
    let running = start(open).await.expect("without a stock it tells prices, as before");
    quotes_only(&running).await;
    for address in ["127.0.0.1:0", "127.0.0.2:0"] {
        assert!(start(Config { private: address.parse().unwrap(), ..config() }).await.is_ok(), "{address}");
    }
}

/// Many pieces come in one call; every other call stays as small as before.
#[tokio::test]
async fn only_a_delivery_may_be_large() {
    const PLAIN: usize = 64 * 1024;
    const ROOMY: usize = 4 * 1024 * 1024;
    let running = server().await;
    let channel = channel(&running).await;
    let mut client = StockServiceClient::new(channel);
    let long = |bytes: usize| "x".repeat(bytes);
    for (bytes, too_large) in [(PLAIN * 2, false), (ROOMY - 100, false), (ROOMY + 1, true)] {
        let request = v1::ReceiveStockRequest { order_id: long(bytes), ..Default::default() };
        let told = client.receive_stock(request).await.unwrap_err();
        assert_eq!(told.code() == Code::OutOfRange, too_large, "{bytes}: {told:?}");
        assert!(!too_large || told.message().contains("4194304"), "{told:?}");
        let body = format!("{{\"orderId\":\"{}\"}}", long(bytes));
        let reply = ask(running.private(), post("/pennantry.v1.StockService/ReceiveStock", &body)).await;
        assert_eq!(reply.status == 413, too_large, "{bytes}: {}", reply.status);
    }
    for (bytes, too_large) in [(PLAIN - 100, false), (PLAIN + 1, true), (ROOMY + 1, true)] {
        let request = v1::AdjustStockRequest { note: long(bytes), ..Default::default() };
        let told = client.adjust_stock(request).await.unwrap_err();
        assert_eq!(told.code() == Code::OutOfRange, too_large, "{bytes}: {told:?}");
        assert!(!too_large || told.message().contains("65536"), "{told:?}");
        // a body as long as that is not read to its end, and the connection breaks under it
        if bytes > PLAIN * 2 {
            continue;
        }
        let body = format!("{{\"note\":\"{}\"}}", long(bytes));
        let reply = ask(running.private(), post("/pennantry.v1.StockService/AdjustStock", &body)).await;
        assert_eq!(reply.status == 413, too_large, "{bytes}: {}", reply.status);
    }
}

fn at(url: &str) -> Config {
    Config { stock: Stock::Postgres(Database::read(url).unwrap()), ..config() }
}

/// Passes on what comes, to a port.
async fn pass_on(listener: TcpListener, port: u16) {
    while let Ok((mut from, _)) = listener.accept().await {
        tokio::spawn(async move {
            let mut to = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).await.unwrap();
            let _ = tokio::io::copy_bidirectional(&mut from, &mut to).await;
        });
    }
}

#[tokio::test]
async fn without_its_database_a_server_answers_quotes_until_it_is_there() {
    let given = tokio::task::spawn_blocking(Given::new).await.unwrap();
    pennantry_ledger::postgres::migrate(&given.url()).await.unwrap();
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    drop(listener);
    let running = start(at(&given.url_by(address.port()))).await.expect("it starts");
    quotes_only(&running).await;
    let passing = tokio::spawn(pass_on(TcpListener::bind(address).await.unwrap(), given.port()));
    until_told(&running, ServingStatus::Serving).await;
    assert_eq!(readiness(&running).await, [200, 200]);
    assert!(running.stop(LONG).await);
    passing.abort();
}

#[tokio::test]
async fn a_database_that_stops_takes_no_quotes_with_it() {
    let server = tokio::task::spawn_blocking(Server::start).await.unwrap();
    let given = Given::on(server.port());
    let url = given.url();
    pennantry_ledger::postgres::migrate(&url).await.unwrap();
    let running = start(at(&url)).await.unwrap();
    assert_eq!(readiness(&running).await, [200, 200]);
    assert_eq!(ask(running.private(), post(LIST, "{}")).await.status, 200);
    tokio::task::spawn_blocking(move || drop(server)).await.unwrap();
    until_told(&running, ServingStatus::NotServing).await;
    quotes_only(&running).await;
    running.stop(LONG).await;
}

#[tokio::test]
async fn a_database_that_was_not_made_ready_is_refused_at_start() {
    let given = tokio::task::spawn_blocking(Given::new).await.unwrap();
    let faults = start(at(&given.url())).await.unwrap_err().faults;
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(
        faults[0].starts_with("--database postgres://127.0.0.1:") && faults[0].contains("migrate"),
        "{faults:?}"
    );
}

/// A repeat is answered as the first time, whatever the shop has ceased to sell in between.
#[tokio::test]
async fn a_repeat_is_not_judged_by_a_catalogue_that_came_after_it() {
    let (running, folder) = (server().await, tempfile::tempdir().unwrap());
    let file = folder.path().join("catalogue.toml");
    let ochre = "\n[[fabrics]]\ncode = \"ochre\"\nname = \"Ochre\"\nswatch = \"#c08a2d\"\nfibre = \"cotton\"\n\
                 usable_width_mm = 1100\ndirection = \"two-way\"\nprice_per_metre = \"11.00\"\ncut_step_mm = 100\n\
                 grams_per_m2 = 140\nthickness_mm = 0.25\n";
    std::fs::write(&file, format!("{SALTMERE_LOFT}{ochre}")).unwrap();
    running.reload(&file).unwrap();
    let asked = [
        ("ReceiveStock", r#"{"requestId":"ID","pieces":[{"code":"ochre","quantity":{"lengthMm":4000}}]}"#),
        (
            "PlaceOrder",
            r#"{"requestId":"ID","supplier":"Holm Bank Weavers","expectedDate":"2026-12-18","lines":[{"code":"ochre","quantity":{"lengthMm":4000}}]}"#,
        ),
    ];
    let send = async |(call, body): (&str, &str), id: &str| {
        let path = format!("/pennantry.v1.StockService/{call}");
        ask(running.private(), post(&path, &body.replace("ID", id))).await
    };
    let mut first = Vec::new();
    for call in asked {
        let reply = send(call, "first").await;
        assert_eq!(reply.status, 200, "{}", reply.json());
        first.push(reply.json());
    }
    std::fs::write(&file, SALTMERE_LOFT).unwrap();
    running.reload(&file).unwrap();
    for (call, first) in asked.into_iter().zip(first) {
        let (again, another) = (send(call, "first").await, send(call, "second").await);
        assert_eq!((again.status, &again.json()["replayed"]), (200, &serde_json::json!(true)));
        for key in ["pieceIds", "order"] {
            assert_eq!(again.json()[key], first[key], "{}", call.0);
        }
        assert_eq!((another.status, another.reason().as_str()), (400, "INVALID_ENQUIRY"));
        // the identity of another request is not covered up by what is wrong with this one
        let other = send((call.0, &call.1.replace("4000", "5000")), "first").await;
        assert_eq!((other.status, other.reason().as_str()), (422, "KEY_REUSED"));
    }
    assert!(running.stop(LONG).await);
}
