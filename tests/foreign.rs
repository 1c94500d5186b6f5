//! Clients that nobody here wrote: Google's for gRPC in Python with stubs made on the spot, plain
//! HTTP, and a page of another origin in a browser. The same questions get the same answers.

use std::time::Duration;

use pennantry_contract::v1::report_service_client::ReportServiceClient;
use pennantry_contract::{table, v1};
use pennantryd::service::Door;
use pennantryd::{Config, Running, json as door_json, start};
use serde_json::{Value, json};
use tonic::codec::CompressionEncoding;

use crate::contract_source::top;
use crate::doors::House;
use crate::tools::said;
use crate::{browser, catalogue, described, golden};

/// How many questions are asked.
const QUESTIONS: usize = 50;
const STOP: Duration = Duration::from_secs(10);

/// The questions, each with what it is to be answered, worked out without a door.
fn questions() -> Vec<Value> {
    let service = catalogue::service(catalogue::demo());
    let fabrics = catalogue::stock(&catalogue::of(&service)).fabrics;
    let cases = golden::cases();
    let asked = cases.iter().filter(|case| case.plain() && !case.private()).take(QUESTIONS);
    let questions: Vec<Value> = asked
        .map(|case| {
            let request = case.request(&fabrics);
            let text = request.to_string();
            let enquiry: v1::Enquiry = door_json::read(&table::ENQUIRY, text.as_bytes()).expect("an enquiry");
            let asked = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
            let told = match service.calculate_quote(Door::Public, &asked) {
                Ok(told) => {
                    let quote = told.quote.expect("a quote");
                    serde_json::from_slice(&door_json::write(&quote).expect("JSON")).expect("JSON")
                }
                Err(failure) => {
                    json!({"reason": failure.kind.as_str(), "violations": failure.violations})
                }
            };
            json!({"name": case.name, "asked": request, "told": told})
        })
        .collect();
    assert_eq!(questions.len(), QUESTIONS);
    let answered = questions.iter().filter(|one| one["told"]["quoteId"].is_string()).count();
    assert!(answered > 30 && answered < QUESTIONS, "{answered} are answered");
    questions
}

/// A server with a stock that tells its contract to whoever asks.
async fn server() -> Running {
    let local = Config::local(catalogue::open(catalogue::demo()), catalogue::clock());
    let running = start(Config { reflection: true, ..local }).await.expect("the server starts");
    // tickets are to be those of the questions
    running.service().replace_keys(catalogue::keys());
    running
}

/// Writes what a client is told, and gives the file.
fn given(running: &Running) -> tempfile::NamedTempFile {
    let file = tempfile::NamedTempFile::new().expect("a file");
    let told = json!({
        "private": running.private().to_string(),
        "public": running.public().to_string(),
        "proto": top("proto"),
        "questions": questions(),
    });
    std::fs::write(file.path(), told.to_string()).expect("it is written");
    file
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn standard_clients_in_python_are_served_at_both_doors() {
    let running = server().await;
    let given = given(&running);
    let file = given.path().to_owned();
    let told = tokio::task::spawn_blocking(move || described::python("clients.py", &[file], "")).await;
    let (told, output) = told.expect("no panic");
    running.stop(STOP).await;
    assert!(output.status.success(), "{}", said(&output));
    let parts: Vec<&str> = told.lines().filter_map(|line| line.split(": ").next()).collect();
    let wanted = [
        "questions over gRPC",
        "questions over HTTP",
        "several at once",
        "health",
        "reflection",
        "deadlines",
        "keep-alive",
        "large",
        "compressed",
    ];
    assert_eq!(parts, wanted, "{told}");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_page_of_another_origin_asks_and_keeps_every_digit() {
    let running = server().await;
    let given = given(&running);
    let file = given.path().display().to_string();
    browser::drive("origin.mjs", running, &[("PENNANTRY_QUESTIONS", file)]).await;
}

/// A report is the one answer that is sent packed, and only to who says that they take it so.
#[tokio::test]
async fn a_report_is_packed_for_who_takes_it() {
    let house = House::demo().await;
    let mut plain = ReportServiceClient::new(house.channel());
    let mut packed = ReportServiceClient::new(house.channel()).accept_compressed(CompressionEncoding::Gzip);
    let run = plain.run_burn_report(v1::RunBurnReportRequest::default()).await;
    let mut signs = run.expect("it begins").into_inner();
    while signs.message().await.expect("a sign").is_some() {}
    let ask = v1::GetBurnReportRequest::default;
    let one = plain.get_burn_report(ask()).await.expect("a report");
    let other = packed.get_burn_report(ask()).await.expect("a report");
    let coding = |told: &tonic::Response<v1::GetBurnReportResponse>| {
        told.metadata().get("grpc-encoding").map(|coding| coding.to_str().expect("text").to_owned())
    };
    assert_eq!((coding(&one), coding(&other).as_deref()), (None, Some("gzip")));
    assert_eq!(one.get_ref(), other.get_ref());
    drop((signs, plain, packed));
    house.close().await;
}
