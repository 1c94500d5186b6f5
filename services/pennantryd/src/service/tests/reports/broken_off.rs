//! Broken off and gone on with, by whom, and how often it is made where many would.

use pennantry_ledger::postgres;
use pennantry_ledger::report::ReportPart;

use super::*;
use crate::report::run::{self, Started};

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
    shop.service.runs.over().await;
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
    // a server that stops hands it back: nobody waits for its lease to be over
    let other = shop.later("2026-11-24T10:00:01Z", SALTMERE_LOFT);
    let broken = shop.kept(TODAY).await.head;
    let last = other.made(TODAY, false).await;
    assert_eq!((last.state(), last.done, last.of), (v1::BurnReportState::Done, broken.of, broken.of));
    assert_eq!(last.end_time.as_deref(), Some("2026-11-24T10:00:01Z"));
    assert!(last.runner != broken.runner, "another");
    let whole = other.kept(TODAY).await;
    for part in &kept {
        assert!(whole.parts.contains(part), "{} is worked again", part.code);
    }
    assert_eq!(whole.parts.len(), CLOTH);
    let report = other.report(json!({})).await.unwrap();
    assert_eq!(report.as_of, "2026-11-24T10:00:01Z");
    for (code, as_of, free) in [("bell-buoy", NOW, 1_000.0), ("sea-glass", "2026-11-24T10:00:01Z", 2_000.0)] {
        let fabric = fabric(&report, code);
        assert_eq!(fabric.detail.as_ref().unwrap().as_of, as_of, "{code} says as of when");
        assert_eq!(Mm(fabric.free_mm), free, "{code}");
    }
    // what changes afterwards is in the next one
    receive_both(&shop, "3").await;
    assert_eq!(other.report(json!({})).await.unwrap(), report);
}

/// Its day is its own for a minute after its last sign of life; who waits for it goes on with it
/// once nobody else does.
#[tokio::test]
async fn who_waits_for_one_that_is_left_goes_on_with_it() {
    let shop = open();
    shop.begun_elsewhere(TODAY, NOW).await;
    let hand = Hand::at("2026-11-24T10:00:59Z");
    let other = shop.by(hand.clock(), SALTMERE_LOFT);
    let request = v1::RunBurnReportRequest { date: TODAY.to_owned(), fresh: false };
    let mut signs = other.service.run_burn_report(&staff(), &request, &never()).await.unwrap();
    let first = signs.recv().await.unwrap().unwrap().head.unwrap();
    assert_eq!(first.runner, format!("elsewhere-{TODAY}"));
    hand.forward(1);
    let mut last = first.clone();
    while let Some(sign) = signs.recv().await {
        last = sign.unwrap().head.unwrap();
    }
    assert_eq!(
        (last.state(), last.end_time.as_deref()),
        (v1::BurnReportState::Done, Some("2026-11-24T10:01:00Z"))
    );
    assert!(last.runner != first.runner, "another");
}

/// Whoever hangs up, at whatever moment, leaves no run that nobody makes, and a report that was
/// done is there all the time.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn whoever_hangs_up_stops_nothing() {
    let shop = open();
    shop.made("", false).await;
    let request = v1::RunBurnReportRequest { date: TODAY.to_owned(), fresh: true };
    let before = shop.kept(TODAY).await.head.runner;
    for tries in 0..40_u64 {
        let (stop, caller) = (never(), staff());
        let asked = shop.service.run_burn_report(&caller, &request, &stop);
        let mut asked = Box::pin(asked);
        // looked at once, left alone for a little, and dropped wherever it is by then
        std::future::poll_fn(|cx| {
            let _ = asked.as_mut().poll(cx);
            std::task::Poll::Ready(())
        })
        .await;
        tokio::time::sleep(std::time::Duration::from_micros(tries * 40)).await;
        drop(asked);
        assert!(shop.report(json!({})).await.is_ok(), "the morning has one");
    }
    shop.service.runs.over().await;
    // the last of the tasks may not have begun its run yet
    for _ in 0..200 {
        let head = shop.kept(TODAY).await.head;
        if head.state == ReportState::Done && head.runner != before {
            return;
        }
        tokio::time::sleep(std::time::Duration::from_millis(25)).await;
    }
    panic!("left: {:?}", shop.kept(TODAY).await.head);
}

/// One that was called off is not joined: whoever asks for it next has it made.
#[tokio::test]
async fn one_that_was_called_off_is_made_for_whoever_asks_next() {
    let shop = open();
    for fresh in [false, true] {
        let request = v1::RunBurnReportRequest { date: TODAY.to_owned(), fresh };
        let mut signs = shop.service.run_burn_report(&staff(), &request, &never()).await.unwrap();
        let first = signs.recv().await.unwrap().unwrap().head.unwrap();
        let off = shop.call_off(TODAY).await.unwrap();
        assert_eq!(off.runner, first.runner);
        // at once, while the one that was called off does not know of it yet
        let last = shop.made(TODAY, fresh).await;
        assert_eq!(last.state(), v1::BurnReportState::Done);
        assert!(last.runner != first.runner);
    }
    shop.service.runs.over().await;
    assert_eq!(shop.kept(TODAY).await.head.state, ReportState::Done);
}

/// What is called off or fails while it is made anew takes nothing away.
#[tokio::test]
async fn the_report_that_is_there_stays_until_the_next_one_is_done() {
    let shop = open();
    shop.made("", false).await;
    let old = shop.report(json!({})).await.unwrap();
    let request = v1::RunBurnReportRequest { date: TODAY.to_owned(), fresh: true };
    let mut signs = shop.service.run_burn_report(&staff(), &request, &never()).await.unwrap();
    signs.recv().await.unwrap().unwrap();
    assert_eq!(shop.report(json!({"date": TODAY})).await.as_ref(), Ok(&old), "while it is made");
    shop.call_off(TODAY).await.unwrap();
    shop.service.runs.over().await;
    assert_eq!(shop.kept(TODAY).await.head.state, ReportState::Cancelled);
    assert_eq!(shop.report(json!({"date": TODAY})).await.as_ref(), Ok(&old));
    assert_eq!(shop.report(json!({})).await.as_ref(), Ok(&old));
    let hour = shop.later("2026-11-24T11:00:00Z", SALTMERE_LOFT);
    hour.made(TODAY, false).await;
    assert_eq!(shop.report(json!({})).await.unwrap().as_of, "2026-11-24T11:00:00Z");
}

/// Of many days that are asked for at once a server makes one after the other, and says so.
#[tokio::test]
async fn a_server_makes_one_report_at_a_time() {
    let shop = open();
    let mut asked = Vec::new();
    for day in 10..20 {
        let request = v1::RunBurnReportRequest { date: format!("2026-11-{day}"), fresh: false };
        asked.push(shop.service.run_burn_report(&staff(), &request, &never()).await.unwrap());
    }
    // one that waits can be called off
    let off = shop.call_off("2026-11-19").await.unwrap();
    assert_eq!((off.done, off.of), (0, 0));
    let mut have_waited = 0;
    for mut signs in asked {
        let (mut waited, mut last) = (false, None);
        while let Some(sign) = signs.recv().await {
            let head = sign.unwrap().head.unwrap();
            waited |= head.note.contains("one report at a time");
            last = Some(head);
        }
        let last = last.unwrap();
        let is_off = last.date == off.date;
        assert_eq!(last.state() == v1::BurnReportState::Cancelled, is_off, "{last:?}");
        assert!(is_off || last.note.is_empty(), "{last:?}");
        have_waited += u32::from(waited);
    }
    assert!(have_waited >= 5, "{have_waited}");
    assert_eq!(shop.kept("2026-11-19").await.parts, []);
}

/// By another catalogue nothing of it is gone on with.
#[tokio::test]
async fn by_another_catalogue_it_is_begun_anew() {
    let shop = open();
    broken_off(&shop, 2).await;
    let text = SALTMERE_LOFT.replace("name = \"Bell Buoy\"", "name = \"Bell Buoy II\"");
    let text = if text == SALTMERE_LOFT { SALTMERE_LOFT.to_owned() + "\n# another text\n" } else { text };
    let other = shop.later("2026-11-24T10:00:02Z", &text);
    assert_ne!(other.service.catalogue().revision, shop.service.catalogue().revision);
    other.made(TODAY, false).await;
    let kept = other.kept(TODAY).await;
    assert!(kept.parts.iter().all(|part| part.at == micros("2026-11-24T10:00:02Z")), "all of it");
    assert_eq!(kept.head.revision, other.service.catalogue().revision);
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
            let started = run::start(&service, &ledger, date, Again::Never, &stop).await.unwrap();
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
