//! Broken off and gone on with, by whom, and how often it is made where many would.

use pennantry_ledger::postgres;
use pennantry_ledger::report::ReportPart;

use super::*;
use crate::report::run::{self, Anew, Started};

/// A server that stops as soon as so many fabrics are done.
async fn broken_off(shop: &Shop, done: u32) -> Vec<ReportPart> {
    let (stopper, stop) = listen::stop();
    let request = v1::RunBurnReportRequest { date: TODAY.to_owned(), fresh: false };
    let mut signs = shop.service.run_burn_report(&staff(), &request, &stop).await.unwrap();
    let mut end = None;
    let mut stopper = Some(stopper);
    while let Some(sign) = signs.recv().await {
        match sign {
            Ok(sign) if sign.head.as_ref().unwrap().done >= done => drop(stopper.take()),
            Ok(_) => {}
            Err(failure) => end = Some(failure),
        }
    }
    let end = end.expect("it says that it stops");
    assert_eq!(end.kind, Kind::Unavailable);
    let kept = shop.kept(TODAY).await;
    assert_eq!(kept.head.state, ReportState::Running);
    let parts = u32::try_from(kept.parts.len()).unwrap();
    assert!(parts >= done && parts < kept.head.of && kept.head.done == parts, "{:?}", kept.head);
    assert_eq!(shop.report(json!({"date": TODAY})).await.unwrap_err().kind, Kind::FailedPrecondition);
    kept.parts
}

/// Cloth of the code that is done first, and of the one that is done last.
async fn receive_both(shop: &Shop, piece: &str) {
    shop.receive(json!([
        {"pieceId": format!("A-{piece}"), "code": "bell-buoy", "quantity": length(1_000.0)},
        {"pieceId": format!("Z-{piece}"), "code": "sea-glass", "quantity": length(1_000.0)},
    ]))
    .await;
}

#[tokio::test]
async fn what_was_done_is_kept_and_not_worked_again_and_the_rest_is_told_as_it_is_by_then() {
    let shop = open();
    receive_both(&shop, "1").await;
    let kept = broken_off(&shop, 2).await;
    receive_both(&shop, "2").await;
    // its day is its own for a minute after its last sign of life
    let hand = Hand::at("2026-11-24T10:00:59Z");
    let other = shop.by(hand.clock(), SALTMERE_LOFT);
    let request = v1::RunBurnReportRequest { date: TODAY.to_owned(), fresh: false };
    let mut signs = other.service.run_burn_report(&staff(), &request, &never()).await.unwrap();
    let first = signs.recv().await.unwrap().unwrap().head.unwrap();
    assert_eq!(first.state(), v1::BurnReportState::Running);
    assert_eq!(usize::try_from(first.done).unwrap(), kept.len());
    // who waits for it goes on with it once nobody else does
    hand.forward(1);
    let mut last = first.clone();
    while let Some(sign) = signs.recv().await {
        last = sign.unwrap().head.unwrap();
    }
    assert_eq!((last.state(), last.done, last.of), (v1::BurnReportState::Done, first.of, first.of));
    assert_eq!(last.end_time.as_deref(), Some("2026-11-24T10:01:00Z"));
    assert!(last.runner != first.runner, "another");
    let whole = other.kept(TODAY).await;
    for part in &kept {
        assert!(whole.parts.contains(part), "{} is worked again", part.code);
    }
    assert_eq!(whole.parts.len(), CLOTH);
    let report = other.report(json!({})).await.unwrap();
    assert_eq!(report.as_of, "2026-11-24T10:01:00Z");
    for (code, as_of, free) in [("bell-buoy", NOW, 1_000.0), ("sea-glass", "2026-11-24T10:01:00Z", 2_000.0)] {
        let fabric = fabric(&report, code);
        assert_eq!(fabric.detail.as_ref().unwrap().as_of, as_of, "{code} says as of when");
        assert_eq!(Mm(fabric.free_mm), free, "{code}");
    }
    // what changes afterwards is in the next one
    receive_both(&shop, "3").await;
    assert_eq!(other.report(json!({})).await.unwrap(), report);
}

/// Days of another time zone are other days: nothing of them is gone on with.
#[tokio::test]
async fn in_another_time_zone_it_is_begun_anew() {
    let shop = open();
    broken_off(&shop, 2).await;
    let text = SALTMERE_LOFT.replace("zone = \"Europe/London\"", "zone = \"Europe/Paris\"");
    let other = shop.later("2026-11-24T10:01:00Z", &text);
    assert_eq!(other.made(TODAY, false).await.start_time, "2026-11-24T10:01:00Z");
    let kept = other.kept(TODAY).await;
    assert!(kept.parts.iter().all(|part| part.at == micros("2026-11-24T10:01:00Z")), "all of it");
    assert_eq!((kept.parts.len(), kept.head.zone.as_str()), (CLOTH, "Europe/Paris"));
    assert_eq!(other.report(json!({})).await.unwrap().zone, "Europe/Paris");
}

/// A run whose lease is over and that another has taken writes nothing any longer, and
/// whoever waits for it is told how the other one ends.
#[tokio::test]
async fn one_that_another_has_taken_over_is_left_to_it() {
    let shop = open();
    let request = v1::RunBurnReportRequest { date: TODAY.to_owned(), fresh: false };
    let mut signs = shop.service.run_burn_report(&staff(), &request, &never()).await.unwrap();
    // before it has done anything, a minute has gone by elsewhere
    shop.begun_elsewhere(TODAY, "2026-11-24T10:01:00Z").await;
    let ledger = shop.stock.ledger.clone();
    let mut told = Vec::new();
    while let Some(sign) = signs.recv().await {
        let head = sign.unwrap().head.unwrap();
        let theirs =
            head.runner == format!("elsewhere-{TODAY}") && head.state() == v1::BurnReportState::Running;
        told.push(head);
        if theirs {
            let (day, runner) = (numbered_day(TODAY), format!("elsewhere-{TODAY}"));
            let body = prost::Message::encode_to_vec(&v1::BurnReport {
                date: TODAY.to_owned(),
                ..Default::default()
            });
            ledger.report_finish(day, &runner, body, micros("2026-11-24T10:01:30Z")).await.unwrap().unwrap();
        }
    }
    let last = &told[told.len() - 1];
    assert_eq!(
        (last.state(), last.end_time.as_deref()),
        (v1::BurnReportState::Done, Some("2026-11-24T10:01:30Z"))
    );
    assert_eq!(last.runner, format!("elsewhere-{TODAY}"));
    assert_eq!(shop.kept(TODAY).await.parts, [], "nothing of the first is written");
}

/// Of several servers on one store one makes it, and all of them tell of the same one.
async fn one_of_many(servers: Vec<Arc<Service>>) {
    let date = numbered_day(TODAY);
    let asks = servers.iter().map(|service| {
        let (service, stop) = (service.clone(), never());
        tokio::spawn(async move {
            let ledger = service.stock().unwrap().ledger.clone();
            let started = run::start(&service, &ledger, date, Anew::Never, &stop).await.unwrap();
            let here = matches!(started, Started::Here(_));
            let request = v1::RunBurnReportRequest { date: TODAY.to_owned(), fresh: false };
            let mut signs = service.run_burn_report(&staff(), &request, &stop).await.unwrap();
            let mut last = None;
            while let Some(sign) = signs.recv().await {
                last = sign.unwrap().head;
            }
            (here, last.unwrap())
        })
    });
    let mut ended = Vec::new();
    for ask in asks.collect::<Vec<_>>() {
        ended.push(ask.await.unwrap());
    }
    assert_eq!(ended.iter().filter(|(here, _)| *here).count(), 1, "one makes it");
    for (_, head) in &ended {
        assert_eq!(head, &ended[0].1, "all are told the same");
        assert_eq!(head.state(), v1::BurnReportState::Done);
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn of_many_servers_on_one_file_one_makes_it() {
    let shop = open();
    shop.stocked().await;
    let servers = (0..5).map(|_| shop.later(NOW, SALTMERE_LOFT).service).collect();
    one_of_many(servers).await;
    assert_eq!(shop.kept(TODAY).await.parts.len(), CLOTH);
    shop.adds_up().await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn of_many_servers_on_one_database_one_makes_it() {
    let given = tokio::task::spawn_blocking(crate::tests::postgres::Database::new).await.unwrap();
    postgres::migrate(&given.url()).await.unwrap();
    let mut servers = Vec::new();
    for _ in 0..4 {
        let store = postgres::Store::open(&given.url(), postgres::Options::default()).await.unwrap();
        let stock = Stock::new(Ledger::Postgres(store), Holds::default());
        let clock = Clock::Fixed(NOW.parse().unwrap());
        let service = Service::new(catalogue(SALTMERE_LOFT), clock, Keys::fresh().unwrap());
        servers.push(Arc::new(service.with_stock(stock)));
    }
    let ledger = servers[0].stock().unwrap().ledger.clone();
    one_of_many(servers.clone()).await;
    let kept = ledger.report_get(numbered_day(TODAY)).await.unwrap().unwrap();
    assert_eq!((kept.parts.len(), kept.head.state), (CLOTH, ReportState::Done));
    // and the same once more from an embedded store: nothing in it depends on the engine
    let request = v1::GetBurnReportRequest::default();
    let one = servers[1].get_burn_report(&staff(), &request).await.unwrap().report.unwrap();
    let shop = open();
    shop.made("", false).await;
    let mut other = shop.report(json!({})).await.unwrap();
    // the clock of the database tells when it looked
    other.as_of.clone_from(&one.as_of);
    for (there, here) in one.fabrics.iter().zip(&mut other.fabrics) {
        here.detail.as_mut().unwrap().as_of.clone_from(&there.detail.as_ref().unwrap().as_of);
    }
    assert_eq!(one, other);
    for service in servers {
        service.stock().unwrap().ledger.close().await;
    }
}
