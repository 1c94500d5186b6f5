//! What happens to the stock, told by both private doors.

use std::time::{Duration, Instant};

use pennantry_contract::v1;
use pennantry_contract::v1::stock_service_client::StockServiceClient;
use pennantry_ledger::rules::{
    Adjust, Adjustment, Amount, ChangeId, Class, Command, Envelope, Material, NewPiece, PieceKind, Receive,
};
use tokio::time::timeout;
use tokio_stream::StreamExt;
use tonic::{Code, Streaming};

use super::{Caller, LONG, SHORT, ask, config, get, metric, post, server, server_with};
use crate::listen::Limits;
use crate::stock::Stock;
use crate::{Config, Running, start};

const PATH: &str = "/pennantry.v1.StockService/WatchStock";

async fn apply(running: &Running, command: Command) {
    let envelope = Envelope {
        id: ChangeId(uuid::Uuid::now_v7().into_bytes()),
        at: pennantry_app::stock::at(running.service().now()),
        day: 20_781,
        actor: "bench".to_owned(),
        request: None,
        command,
    };
    running.service().stock().unwrap().ledger.apply(envelope, None).await.unwrap();
}

/// Puts a piece on the shelf: cloth by the micrometre, anything else by the thing.
async fn receive(running: &Running, id: &str, class: Class, amount: i64) {
    let piece = NewPiece {
        id: id.into(),
        kind: if class == Class::Sundry { PieceKind::Box } else { PieceKind::Bolt },
        material: Material { class, code: "kelp".to_owned() },
        lot: String::new(),
        width: pennantry_measure::Length::from_mm(if class == Class::Sundry { 0 } else { 1_500 }),
        amount: Amount(amount),
        flaws: Vec::new(),
        location: "shelf 1".to_owned(),
        cost_minor: None,
        supplier: String::new(),
        supplier_reference: String::new(),
        certificates: Vec::new(),
    };
    apply(running, Command::Receive(Receive { pieces: vec![piece], order: None })).await;
}

async fn count(running: &Running, id: &str, amount: i64) {
    let what = Adjustment::Counted(Amount(amount));
    apply(running, Command::Adjust(Adjust { piece: id.into(), what, note: "counted".to_owned() })).await;
}

async fn client(running: &Running) -> StockServiceClient<tonic::transport::Channel> {
    StockServiceClient::connect(format!("http://{}", running.private())).await.unwrap()
}

async fn watch(running: &Running, after: Option<i64>) -> Streaming<v1::WatchStockResponse> {
    client(running).await.watch_stock(v1::WatchStockRequest { after }).await.unwrap().into_inner()
}

async fn next(stream: &mut Streaming<v1::WatchStockResponse>) -> v1::StockEvent {
    let told = timeout(LONG, stream.next()).await.expect("told in time").expect("not the end");
    told.unwrap().event.unwrap()
}

/// Reads on until some words have come, and gives all that has.
async fn until(caller: &mut Caller, words: &str) -> String {
    let read = async {
        loop {
            let text = String::from_utf8_lossy(&caller.read).into_owned();
            if text.contains(words) {
                return text;
            }
            caller.more().await.unwrap_or_else(|| panic!("it ended without {words:?}: {text}"));
        }
    };
    timeout(LONG, read).await.expect("told in time")
}

fn with(header: &str) -> String {
    get(PATH).replacen("host: localhost", &format!("host: localhost\r\n{header}"), 1)
}

#[tokio::test]
async fn events_are_told_once_in_order_and_as_they_happen() {
    let running = server().await;
    receive(&running, "B-1", Class::Cloth, 3_000_000).await;
    receive(&running, "N-1", Class::Sundry, 40).await;
    let mut from_first = watch(&running, Some(0)).await;
    let mut from_now = watch(&running, None).await;
    let (one, two) = (next(&mut from_first).await, next(&mut from_first).await);
    assert_eq!((one.place, one.kind.as_str(), one.piece_id.as_deref()), (1, "received", Some("B-1")));
    assert_eq!((one.actor.as_str(), one.time.as_str()), ("bench", "2026-11-24T10:00:00Z"));
    assert_eq!(one.quantity.unwrap().amount, Some(v1::quantity::Amount::LengthMm(3000.0)));
    assert_eq!((two.place, two.quantity.unwrap().amount), (2, Some(v1::quantity::Amount::Count(40))));
    count(&running, "B-1", 2_500_000).await;
    for stream in [&mut from_first, &mut from_now] {
        let event = next(stream).await;
        assert_eq!((event.place, event.kind.as_str(), event.note.as_str()), (3, "adjusted", "counted"));
        assert_eq!(event.quantity.unwrap().amount, Some(v1::quantity::Amount::LengthMm(2500.0)));
    }
    assert_eq!(next(&mut watch(&running, Some(2)).await).await.place, 3);
    let watched = async |count| while metric(&running, "pennantry_stock_watches").await != count {};
    timeout(LONG, watched(2)).await.expect("the third has gone");
    drop((from_first, from_now));
    timeout(LONG, watched(0)).await.expect("nobody is told any longer");
}

#[tokio::test]
async fn the_stream_of_json_goes_on_where_it_was_left() {
    let running = server().await;
    for (id, amount) in [("B-1", 1), ("B-2", 2), ("B-3", 3)] {
        receive(&running, id, Class::Cloth, amount * 1_000_000).await;
    }
    let mut caller = Caller::to(running.private()).await;
    caller.send(get(&format!("{PATH}?after=0"))).await;
    let text = until(&mut caller, "\"pieceId\":\"B-3\"").await;
    for header in [
        "HTTP/1.1 200",
        "content-type: text/event-stream\r\n",
        "cache-control: no-store\r\n",
        "x-request-id: ",
    ] {
        assert!(text.contains(header), "{header} in {text}");
    }
    assert!(text.contains("retry: 2000\nid: 0\n\n"), "{text}");
    assert!(
        text.contains("id: 1\ndata: {\"event\":{\"place\":\"1\",\"time\":\"2026-11-24T10:00:00Z\","),
        "{text}"
    );
    assert!(
        text.contains("\"quantity\":{\"lengthMm\":1000.0}")
            || text.contains("\"quantity\":{\"lengthMm\":1000}"),
        "{text}"
    );
    assert_eq!(text.matches("\ndata: ").count(), 3, "{text}");
    // whoever comes back says where it was, whatever the address says
    let mut caller = Caller::to(running.private()).await;
    caller.send(with("last-event-id: 2").replacen(PATH, &format!("{PATH}?after=0"), 1)).await;
    let text = until(&mut caller, "\"pieceId\":\"B-3\"").await;
    assert!(text.contains("retry: 2000\nid: 2\n\n") && text.matches("\ndata: ").count() == 1, "{text}");
    // from now on
    let mut caller = Caller::to(running.private()).await;
    caller.send(get(PATH)).await;
    until(&mut caller, "id: 3\n\n").await;
    receive(&running, "B-4", Class::Cloth, 1).await;
    let text = until(&mut caller, "id: 4\ndata: ").await;
    assert_eq!(text.matches("\ndata: ").count(), 1, "{text}");
}

#[tokio::test]
async fn what_cannot_be_watched_is_told_alike() {
    let running = server().await;
    receive(&running, "B-1", Class::Cloth, 1).await;
    for after in ["2", "-1", "x"] {
        let reply = ask(running.private(), get(&format!("{PATH}?after={after}"))).await;
        assert_eq!((reply.status, reply.problem()["violations"][0]["field"].as_str()), (400, Some("after")));
    }
    assert_eq!(ask(running.private(), with("last-event-id: 2")).await.status, 400);
    let reply = ask(running.private(), with("accept: application/json")).await;
    assert_eq!((reply.status, reply.reason().as_str()), (406, "NOT_ACCEPTABLE"));
    let reply = ask(running.private(), post(PATH, "{}")).await;
    assert_eq!((reply.status, reply.header("allow")), (405, Some("GET,HEAD")));
    assert_eq!(ask(running.public(), get(PATH)).await.status, 404, "the public is told nothing");
    let ahead =
        client(&running).await.watch_stock(v1::WatchStockRequest { after: Some(2) }).await.unwrap_err();
    assert_eq!(
        (ahead.code(), ahead.message().contains("the last one is at 1")),
        (Code::InvalidArgument, true)
    );
    let without = start(Config { stock: Stock::None, ..config() }).await.unwrap();
    let reply = ask(without.private(), get(PATH)).await;
    assert_eq!((reply.status, reply.header("retry-after")), (503, Some("5")));
}

#[tokio::test]
async fn where_nothing_happens_there_are_signs_of_life() {
    let running = server_with(Limits { beat: Duration::from_millis(20), ..Limits::default() }).await;
    let mut caller = Caller::to(running.private()).await;
    caller.send(get(PATH)).await;
    until(&mut caller, ": nothing new\n\n").await;
    caller.read.clear();
    let text = until(&mut caller, ": nothing new\n\n").await;
    assert!(!text.contains("data:"), "{text}");
}

/// Streams end by themselves at the stop, so that nothing has to be broken off.
#[tokio::test]
async fn streams_end_at_the_stop() {
    let running = server().await;
    receive(&running, "B-1", Class::Cloth, 1).await;
    let mut stream = watch(&running, Some(0)).await;
    assert_eq!(next(&mut stream).await.place, 1);
    let mut caller = Caller::to(running.private()).await;
    caller.send(get(&format!("{PATH}?after=0"))).await;
    until(&mut caller, "id: 1\ndata: ").await;
    let begun = Instant::now();
    let stopping = tokio::spawn(running.stop(LONG));
    assert!(timeout(LONG, stream.next()).await.expect("the end").is_none(), "without a failure");
    until(&mut caller, "\r\n0\r\n\r\n").await;
    drop(stream);
    assert!(stopping.await.unwrap(), "nothing was broken off");
    assert!(begun.elapsed() < LONG / 4, "{:?}", begun.elapsed());
}

/// A reader who takes nothing holds up nobody, and misses nothing.
#[tokio::test]
async fn a_slow_reader_holds_up_nobody() {
    const COUNT: i64 = 3_000;
    let running = server().await;
    receive(&running, "B-1", Class::Cloth, 1).await;
    let mut slow = Caller::to(running.private()).await;
    slow.send(get(&format!("{PATH}?after=1"))).await;
    until(&mut slow, "id: 1\n\n").await;
    for turn in 1..=COUNT {
        count(&running, "B-1", turn * 1_000_000).await;
    }
    let text = until(&mut slow, &format!("id: {}\ndata: ", COUNT + 1)).await;
    let places: Vec<i64> = text
        .lines()
        .zip(text.lines().skip(1))
        .filter(|(_, data)| data.starts_with("data: "))
        .map(|(id, _)| id.strip_prefix("id: ").unwrap().parse().unwrap())
        .collect();
    assert_eq!(places, (2..=COUNT + 1).collect::<Vec<i64>>());
}

#[tokio::test]
async fn a_watch_ends_when_its_callers_time_does() {
    let running = server().await;
    let mut request = tonic::Request::new(v1::WatchStockRequest::default());
    // as another client sends it: this one would end the call by itself
    request.metadata_mut().insert("grpc-timeout", "300m".parse().unwrap());
    let begun = Instant::now();
    let mut stream = client(&running).await.watch_stock(request).await.unwrap().into_inner();
    let end = timeout(LONG, stream.next()).await.unwrap().unwrap().unwrap_err();
    assert_eq!(end.code(), Code::DeadlineExceeded);
    assert!(begun.elapsed() + Duration::from_millis(10) >= SHORT, "{:?}", begun.elapsed());
}
