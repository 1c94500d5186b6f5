//! The calls of the nightly report are the same by both private doors, its page and files are what
//! the message says, and the public door has none of it.

use base64::prelude::{BASE64_STANDARD, Engine as _};
use hyper::StatusCode;
use pennantry_contract::v1;
use pennantry_contract::v1::report_service_client::ReportServiceClient;
use pennantry_ledger::report::{Again, Begin, Begun};
use pennantry_ledger::rules::At;
use pennantryd::report;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use crate::doors::{House, Refused, Reply};

/// Calls that this compares.
pub const COMPARED: [&str; 3] = [
    "/pennantry.v1.ReportService/GetBurnReport",
    "/pennantry.v1.ReportService/ListBurnReports",
    "/pennantry.v1.ReportService/CancelBurnReport",
];

const RUN: &str = "/pennantry.v1.ReportService/RunBurnReport";
/// The day of the clock that stands still.
const TODAY: &str = "2026-11-24";

type Told = Result<Value, Refused>;

/// A message as JSON; `serde` alone, and not the door's own writer.
fn value<T: serde::Serialize>(message: &T) -> Value {
    serde_json::to_value(message).expect("a message is JSON")
}

async fn grpc(house: &House, name: &str, body: &Value) -> Told {
    let mut client = ReportServiceClient::new(house.channel());
    let refused = |status| House::refusal_of(&status);
    let (get, list, cancel) = (body.clone(), body.clone(), body.clone());
    match name {
        "GetBurnReport" => {
            let asked: v1::GetBurnReportRequest = serde_json::from_value(get).expect("a request");
            client.get_burn_report(asked).await.map(|told| value(told.get_ref())).map_err(refused)
        }
        "ListBurnReports" => {
            let asked: v1::ListBurnReportsRequest = serde_json::from_value(list).expect("a request");
            client.list_burn_reports(asked).await.map(|told| value(told.get_ref())).map_err(refused)
        }
        "CancelBurnReport" => {
            let asked: v1::CancelBurnReportRequest = serde_json::from_value(cancel).expect("a request");
            client.cancel_burn_report(asked).await.map(|told| value(told.get_ref())).map_err(refused)
        }
        other => panic!("{other} is called nowhere"),
    }
}

async fn twin(house: &House, name: &str, body: &Value) -> Told {
    let path = COMPARED.iter().find(|path| path.ends_with(&format!("/{name}"))).expect("a call");
    let reply = house.post(house.private(), path, body.to_string().as_bytes()).await;
    if reply.status == StatusCode::OK {
        assert_eq!(reply.media, "application/json");
        Ok(serde_json::from_slice(&reply.body).expect("a response"))
    } else {
        Err(House::problem(&reply))
    }
}

/// Every sign of a run over gRPC.
async fn run(house: &House, date: &str, fresh: bool) -> Result<Vec<Value>, Refused> {
    let asked = v1::RunBurnReportRequest { date: date.to_owned(), fresh };
    let refused = |status: &tonic::Status| House::refusal_of(status);
    let mut signs = ReportServiceClient::new(house.channel())
        .run_burn_report(asked)
        .await
        .map_err(|status| refused(&status))?
        .into_inner();
    let mut told = Vec::new();
    while let Some(sign) = signs.message().await.map_err(|status| refused(&status))? {
        told.push(value(&sign));
    }
    Ok(told)
}

/// Every sign of a run as `text/event-stream`.
async fn stream(house: &House, query: &str, headers: &[(&str, &str)]) -> Result<Vec<Value>, Refused> {
    let reply = house.get_with(house.private(), &format!("{RUN}{query}"), headers).await;
    if reply.status != StatusCode::OK {
        return Err(House::problem(&reply));
    }
    assert_eq!(reply.media, "text/event-stream");
    assert_eq!(header(&reply, "cache-control"), Some("no-store"));
    let text = String::from_utf8(reply.body.to_vec()).expect("text");
    let mut told = Vec::new();
    for (place, event) in (1..).zip(text.split_terminator("\n\n")) {
        let data = event.strip_prefix(&format!("id: {place}\ndata: ")).unwrap_or_else(|| panic!("{event:?}"));
        told.push(serde_json::from_str(data).expect("one line of JSON"));
    }
    Ok(told)
}

fn header<'a>(reply: &'a Reply, name: &str) -> Option<&'a str> {
    reply.headers.get(name).map(|value| value.to_str().expect("text"))
}

/// How a run stood last.
fn last(told: &[Value]) -> Value {
    told.last().expect("a sign")["head"].clone()
}

/// Somebody else begins a day's report on the store of a house.
async fn begun_elsewhere(house: &House, day: i32) {
    let begin = Begin {
        day,
        runner: "elsewhere".to_owned(),
        zone: "Europe/London".to_owned(),
        revision: String::new(),
        since: At(0),
        lease_seconds: 60,
        again: Again::Never,
    };
    // the instant of the clock that stands still
    let begun = house.ledger().report_begin(begin, At(1_795_514_400_000_000)).await;
    assert!(matches!(begun, Ok(Begun::Mine { .. })), "{begun:?}");
}

#[tokio::test]
async fn the_report_is_the_same_by_both_private_doors() {
    let house = House::demo().await;
    house.record.begin();
    let (mut answered, mut refused) = (0, 0);
    for stage in ["there is none", "there is one", "there is one, and others that are not done"] {
        match stage {
            "there is none" => {}
            "there is one" => {
                run(&house, "", false).await.expect("it is made");
            }
            _ => {
                // the two days before
                begun_elsewhere(&house, 20_780).await;
                begun_elsewhere(&house, 20_779).await;
                grpc(&house, "CancelBurnReport", &json!({"date": "2026-11-22"}))
                    .await
                    .expect("it is stopped");
            }
        }
        for (name, body) in [
            ("GetBurnReport", json!({})),
            ("GetBurnReport", json!({"date": TODAY})),
            ("GetBurnReport", json!({"code": "kelp"})),
            ("GetBurnReport", json!({"code": "kelp", "brief": true, "date": TODAY})),
            ("GetBurnReport", json!({"code": "klep"})),
            ("GetBurnReport", json!({"date": "2026-11-23"})),
            ("GetBurnReport", json!({"date": "2026-11-22"})),
            ("GetBurnReport", json!({"date": "2026-02-30"})),
            ("ListBurnReports", json!({})),
            ("ListBurnReports", json!({"fromDate": "2026-11-23", "toDate": TODAY, "pageSize": 1})),
            ("ListBurnReports", json!({"fromDate": "x", "toDate": "y", "pageSize": 401})),
            ("CancelBurnReport", json!({})),
            ("CancelBurnReport", json!({"date": TODAY})),
            ("CancelBurnReport", json!({"date": "2026-11-21"})),
            ("CancelBurnReport", json!({"date": "2026-11-22"})),
            ("CancelBurnReport", json!({"date": "soon"})),
        ] {
            let one = grpc(&house, name, &body).await;
            let other = twin(&house, name, &body).await;
            assert_eq!(one, other, "{stage}: {name} {body}");
            match one {
                Ok(_) => answered += 1,
                Err(_) => refused += 1,
            }
        }
    }
    assert!(answered >= 14 && refused >= 20, "{answered} answered, {refused} refused");
    let seen = house.record.is_as_described();
    for wanted in ["GetBurnReport 200", "ListBurnReports 200"] {
        assert!(seen.iter().any(|one| one == wanted), "{wanted} was not seen: {seen:?}");
    }
    house.close().await;
}

/// Two servers, since what is stopped is stopped.
#[tokio::test]
async fn one_that_is_being_made_is_stopped_alike() {
    let (one, other) = (House::demo().await, House::demo().await);
    for house in [&one, &other] {
        begun_elsewhere(house, 20_781).await;
    }
    let body = json!({"date": TODAY});
    let stopped = grpc(&one, "CancelBurnReport", &body).await.expect("it is stopped");
    assert_eq!(twin(&other, "CancelBurnReport", &body).await, Ok(stopped.clone()));
    assert_eq!(stopped["head"]["state"], "BURN_REPORT_STATE_CANCELLED");
    // who only comes back to listen does not have it made
    for _ in 0..2 {
        let again = stream(&one, "?fresh=true", &[("last-event-id", "3")]).await.expect("told");
        assert_eq!(again, [json!({"head": stopped["head"], "code": ""})]);
    }
    assert_eq!(last(&stream(&one, "", &[]).await.expect("made"))["state"], "BURN_REPORT_STATE_DONE");
    assert_eq!(last(&run(&other, "", false).await.expect("made"))["state"], "BURN_REPORT_STATE_DONE");
    for house in [one, other] {
        house.close().await;
    }
}

#[tokio::test]
async fn a_run_is_told_alike_by_both_private_doors() {
    let house = House::demo().await;
    let gone =
        stream(&house, "", &[("last-event-id", "1")]).await.expect_err("there is none to come back to");
    assert_eq!(gone.reason, "NOT_FOUND");
    let first = run(&house, "", false).await.expect("it is made");
    let done = last(&first);
    assert_eq!(
        (done["state"].as_str(), done["date"].as_str()),
        (Some("BURN_REPORT_STATE_DONE"), Some(TODAY))
    );
    // one that is there is told in one sign
    let there = [json!({"head": done, "code": ""})];
    assert_eq!(run(&house, TODAY, false).await.expect("told"), there);
    for query in
        ["", "?date=2026-11-24", "?fresh=", "?fresh=false", "?date=&fresh=false", "?date=%32026-11-24"]
    {
        assert_eq!(stream(&house, query, &[]).await.expect("told"), there, "{query}");
    }
    // anew, and not by whoever comes back
    let again = stream(&house, "?fresh=true&date=2026-11-24", &[("last-event-id", "0")]).await.expect("told");
    assert_eq!(again, there);
    let anew = stream(&house, "?fresh=true", &[]).await.expect("made");
    let runner = last(&anew)["runner"].clone();
    assert_ne!(runner, done["runner"]);
    assert_eq!(last(&anew)["state"], "BURN_REPORT_STATE_DONE");
    assert_eq!(last(&run(&house, "", false).await.expect("told")), last(&anew));
    assert_ne!(last(&run(&house, "", true).await.expect("made"))["runner"], runner);
    // refused alike
    for (date, query) in [
        ("2026-11-25", "?date=2026-11-25"),
        ("2026-02-30", "?date=2026-02-30"),
        ("next week", "?date=next+week"),
        ("next week", "?date=next%20week"),
        ("\u{e9}", "?date=%C3%A9"),
    ] {
        let one = run(&house, date, false).await.expect_err("refused");
        let other = stream(&house, query, &[]).await.expect_err("refused");
        assert_eq!(one, other, "{query}");
        assert_eq!(one.violations[0].field, "date", "{query}");
    }
    // what only an address can get wrong
    for (query, fields) in [
        ("?fresh=maybe", vec!["fresh"]),
        ("?fresh=True", vec!["fresh"]),
        ("?fresh=1", vec!["fresh"]),
        ("?date=soon&fresh=1", vec!["date", "fresh"]),
        ("?date=%", vec!["date"]),
        ("?date=%zz", vec!["date"]),
        ("?date=%ff", vec!["date"]),
        ("?fresh=%+1", vec!["fresh"]),
    ] {
        let refused = stream(&house, query, &[]).await.expect_err("refused");
        let found: Vec<&str> = refused.violations.iter().map(|found| found.field.as_str()).collect();
        assert_eq!((found, refused.reason.as_str()), (fields, "INVALID_ENQUIRY"), "{query}");
    }
    let refused = stream(&house, "", &[("accept", "application/json")]).await.expect_err("refused");
    assert_eq!(refused.reason, "NOT_ACCEPTABLE");
    let posted = house.post(house.private(), RUN, b"{}").await;
    assert_eq!((posted.status.as_u16(), header(&posted, "allow")), (405, Some("GET,HEAD")));
    house.close().await;
}

/// Any page could otherwise have a browser begin a run, or read the shop's side by a name of its own.
#[tokio::test]
async fn pages_of_others_begin_nothing_and_read_nothing() {
    let house = House::demo().await;
    let private = house.private();
    for (path, method, headers, status) in [
        (RUN, "HEAD", vec![], 200),
        (RUN, "GET", vec![("sec-fetch-site", "cross-site")], 403),
        (RUN, "GET", vec![("sec-fetch-site", "same-site")], 403),
        (RUN, "GET", vec![("origin", "http://elsewhere.example")], 403),
        (RUN, "GET", vec![("origin", "null")], 403),
        (RUN, "GET", vec![("host", "rebound.example")], 403),
        ("/report", "GET", vec![("host", "rebound.example")], 403),
        ("/report", "GET", vec![("origin", "http://elsewhere.example")], 403),
        ("/pennantry.v1.StockService/WatchStock", "GET", vec![("host", "rebound.example")], 403),
        // a link on a page of others may be followed: it only reads
        ("/report", "GET", vec![("sec-fetch-site", "cross-site")], 404),
    ] {
        let reply = house.ask_with(method, private, path, &headers).await;
        assert_eq!(reply.status.as_u16(), status, "{method} {path} {headers:?}");
        if status == 403 {
            assert_eq!(House::problem(&reply).reason, "VIEW_NOT_PUBLIC", "{headers:?}");
        }
    }
    let listed = grpc(&house, "ListBurnReports", &json!({})).await.expect("listed");
    assert_eq!(listed["reports"], json!([]), "nothing is begun");
    let localhost = format!("localhost:{}", private.port());
    let same = [("host", localhost.as_str()), ("sec-fetch-site", "same-origin")];
    let reply = house.get_with(private, RUN, &same).await;
    assert_eq!(reply.status.as_u16(), 200);
    assert!(text(&reply).contains("BURN_REPORT_STATE_DONE"));
    house.close().await;
}

/// What a browser is told beside a page: nothing may run, nothing is kept, nothing is guessed.
fn guarded(reply: &Reply) {
    assert_eq!(reply.media, "text/html; charset=utf-8");
    assert_eq!(header(reply, "x-content-type-options"), Some("nosniff"));
    assert_eq!(header(reply, "cache-control"), Some("no-store"));
    let html = text(reply);
    let style =
        html.split_once("<style>").and_then(|(_, rest)| rest.split_once("</style>")).expect("a style").0;
    let digest = BASE64_STANDARD.encode(Sha256::digest(style.as_bytes()));
    let policy = header(reply, "content-security-policy").expect("a policy");
    let rules: Vec<&str> = policy.split("; ").collect();
    assert_eq!(rules[0], "default-src 'none'");
    assert!(rules.contains(&format!("style-src 'sha256-{digest}'").as_str()), "{policy}");
    assert!(rules.contains(&"frame-ancestors 'none'") && rules.contains(&"form-action 'none'"), "{policy}");
    assert!(!policy.contains("unsafe") && !policy.contains('*'), "{policy}");
    assert_eq!(html.matches("<style>").count(), 1);
    for asks in ["<script", " style=", "http://", "https://", " onclick", "@import"] {
        assert!(!html.contains(asks), "{asks} on the page");
    }
}

fn text(reply: &Reply) -> String {
    String::from_utf8(reply.body.to_vec()).expect("text")
}

#[tokio::test]
async fn the_page_and_its_files_are_what_the_message_says() {
    let house = House::demo().await;
    let private = house.private();
    // nothing is there yet: in words for a reader, as a problem for a program
    for (path, said) in [("/report", "no burn-rate report yet"), ("/report?date=2026-11-23", "of 2026-11-23")]
    {
        let reply = house.get(private, path).await;
        assert_eq!(reply.status.as_u16(), 404, "{path}");
        guarded(&reply);
        assert!(text(&reply).contains(said), "{}", text(&reply));
    }
    for form in ["csv", "json", "proposals", "text"] {
        let reply = house.get(private, &format!("/report?as={form}")).await;
        assert_eq!(
            (reply.status.as_u16(), House::problem(&reply).reason.as_str()),
            (404, "NOT_FOUND"),
            "{form}"
        );
    }
    let piece = json!({"pieces": [{"code": "kelp", "quantity": {"lengthMm": 12_340}}]});
    let received = "/pennantry.v1.StockService/ReceiveStock";
    let reply = house.post(private, received, piece.to_string().as_bytes()).await;
    assert_eq!(reply.status, StatusCode::OK);
    run(&house, "2026-11-23", false).await.expect("it is made");
    run(&house, "", false).await.expect("it is made");
    begun_elsewhere(&house, 20_779).await;

    let message = grpc(&house, "GetBurnReport", &json!({})).await.expect("it is there")["report"].clone();
    let burn: v1::BurnReport = serde_json::from_value(message.clone()).expect("a report");
    let heads = grpc(&house, "ListBurnReports", &json!({"pageSize": 14})).await.expect("they are listed");
    let heads: v1::ListBurnReportsResponse = serde_json::from_value(heads).expect("heads");
    let page = house.get(private, "/report").await;
    assert_eq!(page.status, StatusCode::OK);
    guarded(&page);
    assert_eq!(text(&page), report::page(&burn, &heads.reports));
    assert!(text(&page).contains("12.34") && header(&page, "content-disposition").is_none());
    for same in
        ["/report?date=2026-11-24", "/report?as=page", "/report?as=page&date=2026-11-24", "/report?date=&as="]
    {
        assert_eq!(text(&house.get(private, same).await), text(&page), "{same}");
    }
    let before = house.get(private, "/report?date=2026-11-23").await;
    guarded(&before);
    assert!(text(&before).contains("23 Nov 2026") && text(&before) != text(&page));
    // one that is not done yet is no page either
    let making = house.get(private, "/report?date=2026-11-22").await;
    assert_eq!(making.status.as_u16(), 404);
    guarded(&making);
    assert!(text(&making).contains("is being made"), "{}", text(&making));

    let csv = "text/csv; charset=utf-8; header=present";
    let proposals = report::proposals_csv(&burn, None).expect("a table");
    let of_none = report::proposals_csv(&burn, Some("no such mill")).expect("a table");
    for (query, media, name, body) in [
        ("as=csv", csv, Some("burn-report-2026-11-24.csv"), report::csv(&burn).expect("a table")),
        ("as=proposals", csv, Some("proposals-2026-11-24.csv"), proposals),
        ("as=proposals&supplier=no+such%20mill", csv, Some("proposals-2026-11-24.csv"), of_none),
        ("as=text", "text/plain; charset=utf-8", None, report::text(&burn)),
    ] {
        let reply = house.get(private, &format!("/report?{query}")).await;
        assert_eq!((reply.status, reply.media.as_str()), (StatusCode::OK, media), "{query}");
        let attached = name.map(|name| format!("attachment; filename=\"{name}\""));
        assert_eq!(header(&reply, "content-disposition"), attached.as_deref(), "{query}");
        assert_eq!(header(&reply, "x-content-type-options"), Some("nosniff"), "{query}");
        assert_eq!(header(&reply, "cache-control"), Some("no-store"), "{query}");
        assert_eq!(text(&reply), body, "{query}");
    }
    let reply = house.get(private, "/report?as=csv&date=2026-11-23").await;
    assert!(header(&reply, "content-disposition").expect("a name").contains("burn-report-2026-11-23.csv"));
    let reply = house.get(private, "/report?as=json").await;
    assert_eq!(reply.media, "application/json");
    assert_eq!(serde_json::from_slice::<Value>(&reply.body).expect("JSON"), message);
    house.close().await;
}

#[tokio::test]
async fn what_no_page_is_asked_by_is_refused_whole() {
    let house = House::demo().await;
    for stage in 0..2 {
        for (query, fields) in [
            ("as=pdf", vec!["as"]),
            ("as=CSV", vec!["as"]),
            ("as=%ff", vec!["as"]),
            ("date=soon", vec!["date"]),
            ("date=2026-02-30&as=csv", vec!["date"]),
            ("date=2026-02-30&as=json", vec!["date"]),
            ("date=2026-02-30&as=text", vec!["date"]),
            ("date=2026-02-30&as=proposals", vec!["date"]),
            ("as=pdf&date=soon", vec!["date", "as"]),
            ("date=%", vec!["date"]),
        ] {
            let reply = house.get(house.private(), &format!("/report?{query}")).await;
            assert_eq!(reply.status.as_u16(), 400, "{query}");
            let refused = House::problem(&reply);
            let found: Vec<&str> = refused.violations.iter().map(|found| found.field.as_str()).collect();
            assert_eq!((found, refused.reason.as_str()), (fields, "INVALID_ENQUIRY"), "{query}");
        }
        let posted = house.post(house.private(), "/report", b"{}").await;
        assert_eq!(
            (posted.status.as_u16(), House::problem(&posted).reason.as_str()),
            (405, "METHOD_NOT_ALLOWED")
        );
        if stage == 0 {
            run(&house, "", false).await.expect("it is made");
        }
    }
    house.close().await;
}

#[tokio::test]
async fn the_public_door_has_none_of_it() {
    let house = House::demo().await;
    run(&house, "", false).await.expect("it is made");
    let paths = COMPARED.into_iter().chain([RUN, "/report", "/report?as=json", "/report?as=csv"]);
    for path in paths {
        let got = house.get(house.public(), path).await;
        let posted = house.post(house.public(), path, b"{}").await;
        for reply in [got, posted] {
            assert_eq!(reply.status.as_u16(), 404, "{path}");
            assert_eq!(House::problem(&reply).reason, "NOT_FOUND", "{path}");
            assert!(!text(&reply).contains("kelp"), "{path}");
        }
    }
    house.close().await;
}
