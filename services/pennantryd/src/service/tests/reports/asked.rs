//! Asked for: made, given, listed, called off.

use super::*;

#[tokio::test]
async fn it_is_made_and_told_until_it_is_done_and_given_whole_by_code_and_brief() {
    let shop = open();
    shop.stocked().await;
    let told = shop.run("", false).await.unwrap();
    let heads: Vec<&v1::BurnReportHead> = told.iter().map(|sign| sign.head.as_ref().unwrap()).collect();
    let last = heads[heads.len() - 1];
    assert_eq!((last.state(), last.date.as_str()), (v1::BurnReportState::Done, TODAY));
    assert_eq!(usize::try_from(last.done).unwrap(), CLOTH);
    assert_eq!((last.done, last.start_time.as_str()), (last.of, NOW));
    assert_eq!((last.end_time.as_deref(), last.note.as_str()), (Some(NOW), ""));
    assert!(!last.runner.is_empty());
    for (sign, next) in told.iter().zip(&told[1..]) {
        let (head, after) = (sign.head.as_ref().unwrap(), next.head.as_ref().unwrap());
        assert!(head.state() == v1::BurnReportState::Running && head.end_time.is_none(), "{head:?}");
        assert!(head.done <= after.done && head.runner == last.runner, "{head:?} {after:?}");
    }
    let codes: Vec<&str> =
        told.iter().map(|sign| sign.code.as_str()).filter(|code| !code.is_empty()).collect();
    assert!(codes.is_sorted() && !codes.is_empty(), "{codes:?}");
    assert_eq!((told[0].code.as_str(), told[told.len() - 1].code.as_str()), ("", ""));
    assert_eq!(shop.reports(json!({})).await.unwrap(), std::slice::from_ref(last), "as it was told");

    let whole = shop.report(json!({})).await.unwrap();
    assert_eq!((whole.date.as_str(), whole.through_date.as_str()), (TODAY, "2026-11-23"));
    assert_eq!((whole.as_of.as_str(), whole.zone.as_str()), (NOW, "Europe/London"));
    assert_eq!(whole.catalogue_revision, shop.service.catalogue().revision);
    assert_eq!(whole.fabrics.len(), CLOTH);
    assert_eq!(shop.report(json!({"date": TODAY})).await.unwrap(), whole);
    let kelp = fabric(&whole, "kelp");
    assert_eq!(Mm(kelp.free_mm), 20_000.0);
    assert_eq!(Mm(kelp.detail.as_ref().unwrap().on_hand_mm), 20_000.0);

    let only = shop.report(json!({"code": "kelp"})).await.unwrap();
    assert_eq!(only.fabrics, std::slice::from_ref(kelp));
    assert_eq!(
        v1::BurnReport { fabrics: Vec::new(), ..only },
        v1::BurnReport { fabrics: Vec::new(), ..whole.clone() }
    );
    let brief = shop.report(json!({"brief": true})).await.unwrap();
    let mut without = whole.clone();
    without.fabrics.iter_mut().for_each(|fabric| fabric.detail = None);
    assert_eq!(brief, without);
    assert_eq!(shop.report(json!({"code": "kelp", "brief": true})).await.unwrap().fabrics.len(), 1);
    for (code, hint) in [("kelpp", true), ("bosun-25", false), ("zzzzzzzzzzzz", false), ("KELP", true)] {
        let refused = shop.report(json!({"code": code})).await.unwrap_err();
        assert_eq!(refused.kind, Kind::NotFound, "{code}");
        assert!(refused.detail.contains(code) && refused.detail.contains(TODAY), "{refused:?}");
        assert_eq!(refused.detail.contains("did you mean \"kelp\"?"), hint, "{refused:?}");
    }
    let long = shop.report(json!({"code": "x".repeat(61)})).await.unwrap_err();
    assert_eq!((long.kind, long.violations[0].reason.as_str()), (Kind::InvalidEnquiry, "OUT_OF_RANGE"));
    assert_eq!(shop.report(json!({"code": "x".repeat(60)})).await.unwrap_err().kind, Kind::NotFound);
    shop.adds_up().await;
}

#[tokio::test]
async fn one_that_is_done_is_left_as_it_is_unless_it_is_wanted_anew() {
    let shop = open();
    let first = shop.made("", false).await;
    shop.stocked().await;
    let again = shop.run(TODAY, false).await.unwrap();
    assert_eq!(
        again,
        [Sign { head: Some(first.clone()), code: String::new() }],
        "one sign, of what is there"
    );
    assert_eq!(Mm(fabric(&shop.report(json!({})).await.unwrap(), "kelp").free_mm), 0.0);
    let hour = shop.later("2026-11-24T11:00:00Z", SALTMERE_LOFT);
    let anew = hour.made(TODAY, true).await;
    assert_eq!(anew.state(), v1::BurnReportState::Done);
    assert_eq!(anew.start_time, "2026-11-24T11:00:00Z");
    assert!(anew.runner != first.runner);
    assert_eq!(Mm(fabric(&shop.report(json!({})).await.unwrap(), "kelp").free_mm), 20_000.0);
    assert_eq!(shop.days().await, [TODAY], "one a day");
}

/// Whoever hears that it is over may ask for it anew at once, and is not told of the old one.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn anew_is_anew_however_soon_it_is_asked() {
    let shop = open();
    let mut runners = Vec::new();
    for _ in 0..20 {
        runners.push(shop.made("", true).await.runner);
    }
    let count = runners.len();
    runners.sort();
    runners.dedup();
    assert_eq!(runners.len(), count);
}

#[tokio::test]
async fn they_are_listed_the_latest_first_within_what_is_asked() {
    let shop = open();
    let first = numbered_day(TODAY) - 449;
    for day in first..=first + 449 {
        let date = crate::convert::stock::write::date(day);
        shop.begun_elsewhere(&date, NOW).await;
    }
    let dates =
        |heads: Vec<v1::BurnReportHead>| -> Vec<String> { heads.into_iter().map(|head| head.date).collect() };
    for (size, count) in [(0, 60), (1, 1), (2, 2), (60, 60), (399, 399), (400, 400)] {
        let listed = dates(shop.reports(json!({"pageSize": size})).await.unwrap());
        assert_eq!((listed.len(), listed[0].as_str()), (count, TODAY), "{size}");
        assert!(listed.is_sorted_by(|one, next| one > next), "{size}");
    }
    let some = async |from: &str, to: &str| {
        dates(shop.reports(json!({"fromDate": from, "toDate": to})).await.unwrap())
    };
    assert_eq!(some("2026-11-22", "").await, [TODAY, "2026-11-23", "2026-11-22"]);
    assert_eq!(some("2026-11-20", "2026-11-21").await, ["2026-11-21", "2026-11-20"]);
    assert_eq!(some("2026-11-23", "2026-11-23").await, ["2026-11-23"]);
    assert_eq!(some("2026-11-23", "2026-11-22").await, [""; 0], "no day is both after and before");
    assert_eq!(some("2026-11-25", "").await, [""; 0]);
    let refused = shop
        .reports(json!({"fromDate": "yesterday", "toDate": "2026-02-29", "pageSize": 401}))
        .await
        .unwrap_err();
    let fields: Vec<(&str, &str)> =
        refused.violations.iter().map(|found| (found.field.as_str(), found.reason.as_str())).collect();
    assert_eq!(fields, [("fromDate", "BAD_DATE"), ("toDate", "BAD_DATE"), ("pageSize", "OUT_OF_RANGE")]);
    assert!(refused.violations[2].message.contains("0 to 400"), "{refused:?}");
}

#[tokio::test]
async fn what_is_no_day_is_refused_in_every_field() {
    let shop = open();
    for bad in [
        "2026-02-30",
        "2026-13-01",
        "2026-00-10",
        "2026-1-1",
        "20261124",
        "24.11.2026",
        "tomorrow",
        " 2026-11-24",
        "2026-11-24 ",
        "2026-11-24T00:00Z",
        "2026-W48-2",
        "+2026-1-24",
        "-026-11-24",
        "2026-11-2\u{664}",
        "0",
        "-",
        "0000-01-01",
        "0000-12-31",
    ] {
        let refusals = [
            ("date", shop.report(json!({"date": bad})).await.unwrap_err()),
            ("date", shop.run(bad, false).await.unwrap_err()),
            ("date", shop.call_off(bad).await.unwrap_err()),
            ("fromDate", shop.reports(json!({"fromDate": bad})).await.unwrap_err()),
            ("toDate", shop.reports(json!({"toDate": bad})).await.unwrap_err()),
        ];
        for (field, refused) in refusals {
            assert_eq!(refused.kind, Kind::InvalidEnquiry, "{bad}");
            let [found] = refused.violations.as_slice() else { panic!("{bad}: {refused:?}") };
            assert_eq!((found.field.as_str(), found.reason.as_str()), (field, "BAD_DATE"), "{bad}");
            assert!(found.message.contains("2026-11-30"), "says how: {found:?}");
        }
    }
    let long = "2".repeat(100_000);
    let refused = shop.run(&long, false).await.unwrap_err();
    assert!(refused.violations[0].message.len() < 200, "what is given is not given back whole");
    assert_eq!(shop.days().await, [""; 0], "nothing is begun");
}

#[tokio::test]
async fn a_morning_to_come_has_no_report_and_any_that_has_been_may() {
    let shop = open();
    let refused = shop.run("2026-11-25", true).await.unwrap_err();
    let [found] = refused.violations.as_slice() else { panic!("{refused:?}") };
    assert_eq!((found.field.as_str(), found.reason.as_str()), ("date", "OUT_OF_RANGE"));
    assert!(found.message.contains("2026-11-25") && found.message.contains(TODAY), "{found:?}");
    assert_eq!(shop.run("9999-12-31", false).await.unwrap_err().kind, Kind::InvalidEnquiry);
    let refused = shop.report(json!({"date": "2026-11-25"})).await.unwrap_err();
    assert_eq!(refused.kind, Kind::NotFound);
    assert!(
        refused.detail.contains("is to come") && !refused.detail.contains("RunBurnReport"),
        "{refused:?}"
    );
    assert_eq!(shop.days().await, [""; 0]);
    // in London it is the next day already half an hour before midnight in UTC
    let summer = shop.later("2026-07-01T23:30:00Z", SALTMERE_LOFT);
    assert_eq!(summer.made("", false).await.date, "2026-07-02");
    assert_eq!(summer.made("2026-07-02", false).await.date, "2026-07-02");
    assert_eq!(summer.run("2026-07-03", false).await.unwrap_err().kind, Kind::InvalidEnquiry);
    // made after its morning, and says so
    for date in ["2026-11-23", "0001-01-01"] {
        assert_eq!(shop.made(date, false).await.state(), v1::BurnReportState::Done);
        let report = shop.report(json!({"date": date})).await.unwrap();
        assert_eq!(report.date, date);
        let said =
            report.notes.iter().find(|note| note.code == "MADE_LATER").unwrap_or_else(|| panic!("{date}"));
        assert!(said.message.contains(NOW), "{said:?}");
    }
    shop.made(TODAY, false).await;
    let notes = shop.report(json!({"date": TODAY})).await.unwrap().notes;
    assert!(notes.iter().all(|note| note.code != "MADE_LATER"), "{notes:?}");
    // the latest is that of the last day, whenever each was made
    assert_eq!(shop.report(json!({})).await.unwrap().date, TODAY);
}

#[tokio::test]
async fn where_there_is_none_it_is_said_how_one_is_had() {
    let shop = open();
    let refused = shop.report(json!({})).await.unwrap_err();
    assert_eq!(refused.kind, Kind::NotFound);
    for said in ["no burn-rate report yet", "03:15", "RunBurnReport", "pennantryd report"] {
        assert!(refused.detail.contains(said), "{said} in {}", refused.detail);
    }
    let refused = shop.report(json!({"date": "2026-11-23", "code": "kelp"})).await.unwrap_err();
    assert!(refused.kind == Kind::NotFound && refused.detail.contains("of 2026-11-23"), "{refused:?}");
    assert_eq!(shop.reports(json!({})).await.unwrap(), []);
    // one that is being made, failed or was stopped is not the latest, and asked for says how it stands
    shop.begun_elsewhere("2026-11-22", NOW).await;
    shop.failed_elsewhere("2026-11-23", NOW).await;
    assert_eq!(shop.report(json!({})).await.unwrap_err().kind, Kind::NotFound);
    for (date, said) in [("2026-11-22", "is being made: 0 of 0"), ("2026-11-23", "failed (a disk was full)")]
    {
        let refused = shop.report(json!({"date": date})).await.unwrap_err();
        assert_eq!(refused.kind, Kind::FailedPrecondition);
        assert!(refused.detail.contains(date) && refused.detail.contains(said), "{refused:?}");
    }
}

/// Nothing ever moved: nobody knows anything, which is not the same as nothing.
#[tokio::test]
async fn without_any_movement_every_figure_that_nobody_has_is_absent() {
    let shop = open();
    shop.made("", false).await;
    let report = shop.report(json!({})).await.unwrap();
    assert_eq!(
        (report.fabrics.len(), report.from_date.as_ref(), report.back_test.as_ref()),
        (CLOTH, None, None)
    );
    assert!(report.season.is_empty());
    assert!(report.notes.iter().any(|note| note.code == "NO_HISTORY"), "{:?}", report.notes);
    for fabric in &report.fabrics {
        let detail = fabric.detail.as_ref().unwrap();
        assert_eq!(detail.demand_class(), v1::DemandClass::Insufficient, "{}", fabric.code);
        assert!(fabric.usual_mm.is_none() && fabric.weeks_left.is_none(), "{fabric:?}");
        assert!(
            detail.coming.is_empty() && detail.rate_mm.is_none() && detail.runs_out_date.is_none(),
            "{fabric:?}"
        );
        assert!(!detail.notes.is_empty(), "{} says why", fabric.code);
    }
    let short = text(&report);
    assert!(short.contains("0.00 m free, nothing known of any use yet, 0.00 m on order."), "{short}");
    for (form, text) in [("text", short), ("page", page(&report, &[])), ("csv", csv(&report).unwrap())] {
        for odd in ["NaN", "inf ", "null", "None)", "Some(", "undefined", "{}"] {
            assert!(!text.contains(odd), "{odd} in the {form}:\n{text}");
        }
    }
}

#[tokio::test]
async fn one_that_is_being_made_can_be_called_off_and_nothing_else() {
    let shop = open();
    let refused = shop.call_off("").await.unwrap_err();
    assert_eq!(refused.violations[0].reason, "MISSING");
    let refused = shop.call_off(TODAY).await.unwrap_err();
    assert!(refused.kind == Kind::NotFound && refused.detail.contains(TODAY), "{refused:?}");
    shop.made(TODAY, false).await;
    let before = shop.kept(TODAY).await;
    let refused = shop.call_off(TODAY).await.unwrap_err();
    assert!(refused.kind == Kind::FailedPrecondition && refused.detail.contains("is done"), "{refused:?}");
    assert_eq!(shop.kept(TODAY).await, before);

    // one that this server makes: it is called off before it has come to its first fabric
    let request = v1::RunBurnReportRequest { date: TODAY.to_owned(), fresh: true };
    let mut signs = shop.service.run_burn_report(&staff(), &request, &never()).await.unwrap();
    let called_off = shop.call_off(TODAY).await.unwrap();
    assert_eq!((called_off.state(), called_off.note.as_str()), (v1::BurnReportState::Cancelled, "counter"));
    assert_eq!(called_off.end_time.as_deref(), Some(NOW));
    let mut last = None;
    while let Some(sign) = signs.recv().await {
        last = sign.unwrap().head;
    }
    assert_eq!(last, Some(called_off.clone()), "whoever waited is told the same");
    let there = shop.report(json!({"date": TODAY})).await.unwrap();
    assert_eq!(there.date, TODAY, "the one that was to be replaced is there still");
    let refused = shop.call_off(TODAY).await.unwrap_err();
    assert!(refused.kind == Kind::FailedPrecondition && refused.detail.contains("stopped"), "{refused:?}");
    // whoever comes back to listen begins nothing
    let mut signs = shop.service.follow_burn_report(&staff(), TODAY, &never()).await.unwrap();
    assert_eq!(signs.recv().await.unwrap().unwrap().head, Some(called_off));
    assert_eq!(signs.recv().await, None);
    let refused = shop.service.follow_burn_report(&staff(), "2026-11-23", &never()).await.unwrap_err();
    assert!(refused.kind == Kind::NotFound && refused.detail.contains("2026-11-23"), "{refused:?}");
    // on request it is made anew
    assert_eq!(shop.made(TODAY, false).await.state(), v1::BurnReportState::Done);
    // and so is one that failed
    shop.failed_elsewhere("2026-11-23", NOW).await;
    let made = shop.made("2026-11-23", false).await;
    assert_eq!((made.state(), made.note.as_str()), (v1::BurnReportState::Done, ""));
    // one that another server makes
    shop.begun_elsewhere("2026-11-22", NOW).await;
    let called_off = shop.call_off("2026-11-22").await.unwrap();
    assert_eq!(
        (called_off.state(), called_off.runner.as_str()),
        (v1::BurnReportState::Cancelled, "elsewhere-2026-11-22")
    );
}

#[tokio::test]
async fn without_the_stock_there_is_none() {
    let shop = open();
    let closed =
        Service::new(catalogue(SALTMERE_LOFT), Clock::Fixed(NOW.parse().unwrap()), shop.keys.clone());
    let closed = Arc::new(closed);
    let run = v1::RunBurnReportRequest::default();
    let kinds = [
        closed.run_burn_report(&staff(), &run, &never()).await.unwrap_err().kind,
        closed.get_burn_report(&staff(), &v1::GetBurnReportRequest::default()).await.unwrap_err().kind,
        closed.list_burn_reports(&staff(), &v1::ListBurnReportsRequest::default()).await.unwrap_err().kind,
        closed.cancel_burn_report(&staff(), &read(json!({"date": TODAY}))).await.unwrap_err().kind,
    ];
    assert_eq!(kinds, [Kind::Unavailable; 4]);
}
