//! Starting, the catalogue read again, health, and stopping (cases B1 and B2).

use std::os::unix::fs::PermissionsExt;
use std::sync::Arc;
use std::time::{Duration, Instant};

use axum::Router;
use axum::routing::get as on_get;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Notify;
use tokio::time::timeout;

use super::{Caller, LONG, QUOTE, SHORT, ask, config, demo, get, metric, post, quote, server};
use crate::catalogue::{LoadError, SALTMERE_LOFT};
use crate::doors::route::Counted;
use crate::doors::stack;
use crate::listen::{Limits, http1, stop};
use crate::metrics::Metrics;
use crate::service::Service;
use crate::{Config, start};

#[tokio::test]
async fn everything_in_the_way_is_told_at_once() {
    let taken = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let taken = taken.local_addr().map(|address| (address, taken)).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    std::fs::write(&file, "").unwrap();
    let admin = "203.0.113.1:9464".parse().unwrap();
    let wrong = Config { public: taken.0, admin, data: Some(file.join("data")), ..config() };
    let faults = start(wrong).await.unwrap_err().faults;
    assert_eq!(faults.len(), 3, "{faults:?}");
    assert!(faults[0].starts_with("--data ") && faults[0].contains("may write"), "{faults:?}");
    assert!(faults[1].starts_with(&format!("--public {}", taken.0)), "{faults:?}");
    assert!(faults[1].contains("another program listens there"), "{faults:?}");
    assert!(faults[2].starts_with("--admin 203.0.113.1:9464"), "{faults:?}");
}

#[tokio::test]
async fn the_data_folder_is_made_for_its_owner() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("a/b");
    let running = start(Config { data: Some(data.clone()), ..config() }).await.unwrap();
    assert_eq!(std::fs::metadata(&data).unwrap().permissions().mode() & 0o777, 0o700);
    assert!(running.stop(LONG).await);
    let again = start(Config { data: Some(data), ..config() }).await.unwrap();
    assert!(again.stop(LONG).await, "a folder that is there will do");
}

#[tokio::test]
async fn a_good_catalogue_replaces_the_old_one_and_a_bad_one_does_not() {
    let running = server().await;
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("catalogue.toml");
    let revision = async || {
        let reply = ask(running.public(), get("/v1/catalogue")).await;
        reply.json()["revision"].as_str().unwrap().to_owned()
    };
    let before = revision().await;
    std::fs::write(&file, format!("{SALTMERE_LOFT}\n# changed\n")).unwrap();
    let after = running.reload(&file).unwrap();
    assert_ne!(before, after);
    assert_eq!(revision().await, after);
    let wrong = SALTMERE_LOFT
        .replace("width_mm = 190", "width_mm = 1")
        .replace("[[designs]]", "[[designs]]\nnonsense = 1");
    std::fs::write(&file, wrong).unwrap();
    match running.reload(&file) {
        Err(LoadError::Mistakes { mistakes, .. }) => assert!(mistakes.len() > 1, "{mistakes:?}"),
        other => panic!("{other:?}"),
    }
    assert!(running.reload(&folder.path().join("none")).is_err());
    assert_eq!(revision().await, after, "the old one serves on");
    assert_eq!(ask(running.public(), quote()).await.status, 200);
    let reloads = |outcome: &str| format!(r#"pennantry_catalogue_reloads_total{{outcome="{outcome}"}}"#);
    assert_eq!((metric(&running, &reloads("ok")).await, metric(&running, &reloads("failed")).await), (1, 2));
}

#[tokio::test]
async fn the_admin_listener_tells_health_and_metrics() {
    let running = server().await;
    let reply = ask(running.admin(), get("/healthz")).await;
    assert_eq!((reply.status, reply.json()["status"].as_str()), (200, Some("ok")));
    let reply = ask(running.admin(), get("/readyz")).await;
    assert_eq!(
        (reply.status, reply.json()["catalogueRevision"].as_str()),
        (200, Some(demo().revision.as_str()))
    );
    let reply = ask(running.admin(), get("/metrics")).await;
    let text = String::from_utf8(reply.body).unwrap();
    let lines = [
        r#"pennantry_build_info{version="0.1.0"} 1"#,
        "pennantry_calculation_steps_total 0",
        "pennantry_quotes_total 0",
        "pennantry_panics_total 0",
        r#"pennantry_catalogue_reloads_total{outcome="failed"} 0"#,
        // the one that asks
        "pennantry_requests_in_flight 1",
        "# EOF",
    ];
    for line in lines {
        assert!(text.lines().any(|found| found == line), "{line} in\n{text}");
    }
    assert_eq!(ask(running.admin(), get("/v1/catalogue")).await.reason(), "NOT_FOUND");
}

/// Callers who have nothing in flight keep nothing: an idle connection, a silent one and
/// half a head, at each listener, and an HTTP/2 connection that says no more.
#[tokio::test]
async fn nobody_who_asks_nothing_keeps_the_stop() {
    let running = server().await;
    let mut callers = Vec::new();
    for address in [running.public(), running.private(), running.admin()] {
        let mut idle = Caller::to(address).await;
        assert_eq!(idle.ask(get("/nowhere")).await.status, 404);
        let mut half = Caller::to(address).await;
        half.send("GET /v1/catalogue HT").await;
        callers.extend([idle, half, Caller::to(address).await]);
    }
    let mut http2 = Caller::to(running.private()).await;
    http2.send(b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n\0\0\0\x04\0\0\0\0\0").await;
    http2.more().await.expect("the server's settings");
    let public = running.public();
    let begun = Instant::now();
    assert!(running.stop(LONG).await, "nothing was broken off");
    assert!(begun.elapsed() < LONG / 4, "{:?}", begun.elapsed());
    for caller in &mut callers {
        assert!(caller.is_closed_within(LONG).await);
    }
    while timeout(LONG, http2.more()).await.expect("closed").is_some() {}
    assert!(TcpStream::connect(public).await.is_err(), "nobody new is let in");
}

/// What is in flight when the stop comes is finished; meanwhile the server says that it
/// is not ready, and takes nothing new.
#[tokio::test]
async fn what_is_in_flight_is_finished() {
    let running = server().await;
    let (public, private, admin) = (running.public(), running.private(), running.admin());
    let request = quote();
    let (begin, rest) = request.split_at(request.len() - 5);
    let whole = format!("{{\"enquiry\":{QUOTE}}}");
    let twin = post("/pennantry.v1.QuoteService/CalculateQuote", &whole);
    let (twin_begin, twin_rest) = twin.split_at(twin.len() - 5);
    let mut caller = Caller::to(public).await;
    caller.send(begin).await;
    let mut twin_caller = Caller::to(private).await;
    twin_caller.send(twin_begin).await;
    // both heads are read, and the one that asks for the count
    while metric(&running, "pennantry_requests_in_flight").await < 3 {}
    let stopping = tokio::spawn(running.stop(LONG));
    let told_not_ready = async {
        loop {
            let reply = ask(admin, get("/readyz")).await;
            if reply.status == 503 {
                return reply.reason();
            }
        }
    };
    assert_eq!(timeout(LONG, told_not_ready).await.unwrap(), "UNAVAILABLE");
    assert_eq!(ask(admin, get("/healthz")).await.status, 200, "the process is well");
    let closed = async { while TcpStream::connect(public).await.is_ok() {} };
    timeout(LONG, closed).await.expect("nobody new is let in");
    tokio::time::sleep(SHORT * 3).await;
    assert!(!stopping.is_finished(), "it waits for them");
    let reply = caller.ask(rest).await;
    assert_eq!((reply.status, reply.header("connection")), (200, Some("close")));
    assert_eq!(twin_caller.ask(twin_rest).await.status, 200);
    assert!(timeout(LONG, stopping).await.unwrap().unwrap(), "nothing was broken off");
}

/// Whoever shares requests out hears first, and has time: until then everybody is answered.
#[tokio::test]
async fn health_says_that_it_stops_before_anybody_is_refused() {
    use tonic_health::pb::HealthCheckRequest;
    use tonic_health::pb::health_check_response::ServingStatus;
    use tonic_health::pb::health_client::HealthClient;

    let running = server().await;
    let (public, private, admin) = (running.public(), running.private(), running.admin());
    let mut client = HealthClient::new(super::grpc::channel(&running).await);
    let of = |service: &str| HealthCheckRequest { service: service.to_owned() };
    let mut watch = client.watch(of("pennantry.v1.ReservationService")).await.unwrap().into_inner();
    assert_eq!(watch.message().await.unwrap().unwrap().status(), ServingStatus::Serving);
    let told = async {
        let pushed = timeout(LONG, watch.message()).await.expect("told").unwrap().unwrap();
        assert_eq!(pushed.status(), ServingStatus::NotServing, "who watches is told");
        for service in ["", "pennantry.v1.QuoteService", "pennantry.v1.ReservationService"] {
            let status = client.check(of(service)).await.unwrap().into_inner().status();
            assert_eq!(status, ServingStatus::NotServing, "{service:?}");
        }
        for path in ["/readyz", "/readyz/stock"] {
            assert_eq!(ask(admin, get(path)).await.status, 503, "{path}");
        }
        assert_eq!(ask(admin, get("/healthz")).await.status, 200, "the process is well");
        // on connections of their own
        assert_eq!(ask(public, quote()).await.status, 200);
        let list = post("/pennantry.v1.StockService/ListStock", "{}");
        assert_eq!(ask(private, list).await.status, 200);
    };
    tokio::select! {
        () = running.leave(LONG) => panic!("everything above takes less"),
        () = told => {}
    }
    drop(client);
    assert!(running.stop(LONG).await, "nothing is broken off");
    assert!(TcpStream::connect(public).await.is_err(), "only now is nobody let in");
}

#[tokio::test]
async fn the_deadline_ends_what_does_not_end() {
    let running = server().await;
    let mut caller = Caller::to(running.public()).await;
    let request = quote();
    caller.send(&request[..request.len() - 1]).await;
    while metric(&running, "pennantry_requests_in_flight").await < 2 {}
    let begun = Instant::now();
    assert!(!running.stop(SHORT).await, "something was broken off");
    assert!(begun.elapsed() >= SHORT && begun.elapsed() < LONG / 4, "{:?}", begun.elapsed());
    assert!(caller.is_closed_within(LONG).await);
}

/// A handler at work when the stop comes sends its answer, and its connection is closed.
#[tokio::test]
async fn a_handler_at_work_is_waited_for() {
    let config = config();
    let metrics =
        Arc::new(Metrics::new(Arc::new(Service::new(config.catalogue, config.clock, super::keys()))));
    let (begun, go_on) = (Arc::new(Notify::new()), Arc::new(Notify::new()));
    let (tell, wait) = (begun.clone(), go_on.clone());
    let slow = on_get(async move || {
        tell.notify_one();
        wait.notified().await;
        "done"
    });
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let (stopper, stop) = stop();
    let stack = stack(Router::new().route("/slow", slow), Counted::PUBLIC, metrics);
    let serving = tokio::spawn(http1::serve(listener, stack, Arc::new(Limits::default()), stop));
    let mut caller = Caller::to(address).await;
    caller.send(get("/slow")).await;
    begun.notified().await;
    stopper.give();
    tokio::time::sleep(Duration::from_secs(1)).await;
    assert!(!serving.is_finished());
    go_on.notify_one();
    assert_eq!(caller.reply().await.body, b"done");
    timeout(LONG, serving).await.unwrap().unwrap();
}
