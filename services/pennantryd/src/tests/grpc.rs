//! The private gRPC as a client sees it.

use pennantry_contract::v1;
use pennantry_contract::v1::catalogue_service_client::CatalogueServiceClient;
use pennantry_contract::v1::quote_service_client::QuoteServiceClient;
use tokio::time::timeout;
use tokio_stream::StreamExt;
use tonic::transport::{Channel, Endpoint};
use tonic::{Code, Status};
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_check_response::ServingStatus;
use tonic_health::pb::health_client::HealthClient;
use tonic_reflection::pb::v1::ServerReflectionRequest;
use tonic_reflection::pb::v1::server_reflection_client::ServerReflectionClient;
use tonic_reflection::pb::v1::server_reflection_request::MessageRequest;
use tonic_reflection::pb::v1::server_reflection_response::MessageResponse;
use tonic_types::StatusExt;

use super::{LONG, ask, config, metric, post, server};
use crate::doors::status::{DOMAIN, status};
use crate::failure::{Failure, violation};
use crate::{Config, Running, start};
use pennantry_contract::reasons::{Kind, ViolationReason};

pub(super) async fn channel(running: &Running) -> Channel {
    Endpoint::from_shared(format!("http://{}", running.private())).unwrap().connect().await.unwrap()
}

fn enquiry(flagged_mm: f64) -> v1::Enquiry {
    v1::Enquiry { length: Some(v1::enquiry::Length::FlaggedMm(flagged_mm)), ..v1::Enquiry::default() }
}

fn one(enquiry: v1::Enquiry) -> v1::CalculateQuoteRequest {
    v1::CalculateQuoteRequest { enquiry: Some(enquiry) }
}

fn reason(status: &Status) -> String {
    let details = status.get_error_details();
    let info = details.error_info().expect("a reason");
    assert_eq!(info.domain, DOMAIN);
    info.reason.clone()
}

#[tokio::test]
async fn calls_are_answered_counted_and_have_an_id() {
    let running = server().await;
    let channel = channel(&running).await;
    let mut client = QuoteServiceClient::new(channel.clone());
    let mut request = tonic::Request::new(one(enquiry(6200.0)));
    request.metadata_mut().insert("x-request-id", "mine".parse().unwrap());
    let response = client.calculate_quote(request).await.unwrap();
    assert_eq!(response.metadata().get("x-request-id").unwrap(), "mine");
    let refused = client.calculate_quote(one(enquiry(1.0))).await.unwrap_err();
    assert_eq!((refused.code(), reason(&refused).as_str()), (Code::InvalidArgument, "INVALID_ENQUIRY"));
    assert!(refused.metadata().contains_key("x-request-id"));
    let several = v1::CalculateQuotesRequest { enquiries: vec![enquiry(6200.0), enquiry(1.0)] };
    assert_eq!(client.calculate_quotes(several).await.unwrap().into_inner().outcomes.len(), 2);
    let catalogue =
        CatalogueServiceClient::new(channel).get_catalogue(v1::GetCatalogueRequest {}).await.unwrap();
    assert!(!catalogue.into_inner().catalogue.unwrap().designs.is_empty());
    let counted = |code: u8| {
        format!(r#"pennantry_requests_total{{door="grpc",route="CalculateQuote",status="{code}"}}"#)
    };
    assert_eq!((metric(&running, &counted(0)).await, metric(&running, &counted(3)).await), (1, 1));
}

/// What is wrong is told in the same words by gRPC and by JSON, whatever is in them
/// (case B22 of the operators' list).
#[tokio::test]
async fn violations_come_through_unharmed_and_as_by_json() {
    let running = server().await;
    let mut client = QuoteServiceClient::new(channel(&running).await);
    let code = "50 % crème – £\n%0A\"";
    let wrong = v1::Enquiry { design_code: Some(code.to_owned()), quantity: Some(0), ..enquiry(1.0) };
    let refused = client.calculate_quote(one(wrong)).await.unwrap_err();
    let details = refused.get_error_details();
    let told = &details.bad_request().unwrap().field_violations;
    assert!(told.iter().any(|found| found.description.contains("50 % crème – £")), "{told:?}");
    let body =
        serde_json::json!({"enquiry": {"designCode": code, "quantity": 0, "flaggedMm": 1}}).to_string();
    let problem =
        ask(running.private(), post("/pennantry.v1.QuoteService/CalculateQuote", &body)).await.problem();
    assert_eq!(problem["detail"], refused.message());
    assert_eq!(problem["reason"], reason(&refused));
    let listed = problem["violations"].as_array().unwrap();
    assert_eq!(listed.len(), told.len());
    for (json, grpc) in listed.iter().zip(told) {
        assert_eq!(
            (&json["field"], &json["reason"], &json["message"]),
            (&grpc.field.clone().into(), &grpc.reason.clone().into(), &grpc.description.clone().into())
        );
    }
}

/// The text of a status travels in a header: it is encoded there, and cut.
#[test]
fn a_detail_goes_through_a_header_and_back() {
    let detail = "50 % crème – £\r\nx-evil: 1";
    let sent = status(Failure::new(Kind::NotFound, detail)).into_http::<()>();
    assert!(sent.headers().get("x-evil").is_none());
    assert_eq!(Status::from_header_map(sent.headers()).unwrap().message(), detail);
    let long = status(Failure::new(Kind::NotFound, "£".repeat(10_000)));
    assert_eq!(long.message().chars().count(), 1_000);
}

/// Clients take 8 KiB of headers; what does not fit is counted, not lost in silence.
#[test]
fn details_fit_into_a_header() {
    let message = "x".repeat(300);
    let listed =
        |count| (0..count).map(|_| violation("a.b", ViolationReason::TooLong, message.clone())).collect();
    let sent = status(Failure::refused(listed(100))).into_http::<()>();
    let bytes: usize =
        sent.headers().iter().map(|(name, value)| name.as_str().len() + value.len() + 32).sum();
    assert!(bytes < 8 * 1024, "{bytes}");
    let status = Status::from_header_map(sent.headers()).unwrap();
    let details = status.get_error_details();
    let told = details.bad_request().unwrap().field_violations.len();
    let left_out: usize = details.error_info().unwrap().metadata["violationsLeftOut"].parse().unwrap();
    assert!(told > 10 && told + left_out == 100, "{told} and {left_out}");
    let few = crate::doors::status::status(Failure::refused(listed(10)));
    assert_eq!(few.get_error_details().bad_request().unwrap().field_violations.len(), 10);
}

#[tokio::test]
async fn a_message_over_the_limit_is_too_large() {
    let running = server().await;
    let mut client = QuoteServiceClient::new(channel(&running).await);
    let long = v1::Enquiry { lettering: Some("a".repeat(64 * 1024)), ..enquiry(6200.0) };
    let refused = client.calculate_quote(one(long)).await.unwrap_err();
    assert_eq!((refused.code(), reason(&refused).as_str()), (Code::OutOfRange, "TOO_LARGE"));
    assert!(refused.message().contains("65536"), "{refused:?}");
    assert!(client.calculate_quote(one(enquiry(6200.0))).await.is_ok(), "the connection goes on");
}

/// Bytes that are no message of the contract are the caller's mistake. The library would
/// call them an internal error.
#[tokio::test]
async fn bytes_that_are_no_message_are_told_as_the_callers() {
    let running = server().await;
    let channel = channel(&running).await;
    // field 1 with a length beyond the end; a text that is not UTF-8 (designCode is field
    // 1 of the enquiry, which is field 1); no message at all
    let bodies: [&[u8]; 3] = [b"\0\0\0\0\x02\x0a\x7f", b"\0\0\0\0\x05\x0a\x03\x0a\x01\xff", b""];
    for body in bodies {
        let request = http::Request::post(format!(
            "http://{}/pennantry.v1.QuoteService/CalculateQuote",
            running.private()
        ))
        .header("content-type", "application/grpc")
        .header("te", "trailers")
        .body(tonic::body::Body::new(http_body_util::Full::new(bytes::Bytes::from_static(body))))
        .unwrap();
        let response = tower::ServiceExt::oneshot(channel.clone(), request).await.unwrap();
        let refused = Status::from_header_map(response.headers()).expect("a status");
        assert_eq!(
            (refused.code(), reason(&refused).as_str()),
            (Code::InvalidArgument, "UNREADABLE"),
            "{body:?}"
        );
    }
}

#[tokio::test]
async fn health_is_told_of_each_service_and_of_the_whole() {
    let running = server().await;
    let mut client = HealthClient::new(channel(&running).await);
    for service in ["", "pennantry.v1.QuoteService", "pennantry.v1.CatalogueService"] {
        let request = HealthCheckRequest { service: service.to_owned() };
        let told = client.check(request).await.unwrap().into_inner();
        assert_eq!(told.status(), ServingStatus::Serving, "{service}");
    }
    let request = HealthCheckRequest { service: "no.Such".to_owned() };
    assert_eq!(client.check(request).await.unwrap_err().code(), Code::NotFound);
}

/// As case B2 of the operators' list: a watcher is told of the stop, and does not keep it.
#[tokio::test]
async fn a_watcher_of_health_is_told_of_the_stop_and_let_go() {
    let running = server().await;
    let mut client = HealthClient::new(channel(&running).await);
    let request = HealthCheckRequest { service: "pennantry.v1.QuoteService".to_owned() };
    let mut watch = client.watch(request).await.unwrap().into_inner();
    let next = watch.next().await.unwrap().unwrap();
    assert_eq!(next.status(), ServingStatus::Serving);
    let begun = std::time::Instant::now();
    let stopping = tokio::spawn(running.stop(LONG));
    let next = timeout(LONG, watch.next()).await.unwrap().unwrap().unwrap();
    assert_eq!(next.status(), ServingStatus::NotServing);
    assert!(timeout(LONG, watch.next()).await.unwrap().is_none_or(|end| end.is_err()), "it ends");
    assert!(stopping.await.unwrap() && begun.elapsed() < LONG / 2);
}

async fn services_told(running: &Running) -> Result<Vec<String>, Status> {
    let asked = ServerReflectionRequest {
        host: String::new(),
        message_request: Some(MessageRequest::ListServices(String::new())),
    };
    let mut client = ServerReflectionClient::new(channel(running).await);
    let mut answers = client.server_reflection_info(tokio_stream::once(asked)).await?.into_inner();
    let answer = answers.next().await.expect("an answer")?;
    match answer.message_response {
        Some(MessageResponse::ListServicesResponse(list)) => {
            Ok(list.service.into_iter().map(|service| service.name).collect())
        }
        other => panic!("{other:?}"),
    }
}

#[tokio::test]
async fn reflection_is_off_unless_it_is_asked_for() {
    let off = server().await;
    assert_eq!(services_told(&off).await.unwrap_err().code(), Code::Unimplemented);
    let on = start(Config { reflection: true, ..config() }).await.unwrap();
    let told = services_told(&on).await.unwrap();
    for service in ["pennantry.v1.QuoteService", "pennantry.v1.CatalogueService", "grpc.health.v1.Health"] {
        assert!(told.iter().any(|found| found == service), "{service} in {told:?}");
    }
    let mut older = tonic_reflection::pb::v1alpha::server_reflection_client::ServerReflectionClient::new(
        channel(&on).await,
    );
    assert!(older.server_reflection_info(tokio_stream::empty()).await.is_ok());
}

#[tokio::test]
async fn a_method_that_is_not_there_is_unimplemented() {
    let running = server().await;
    let request =
        http::Request::post(format!("http://{}/pennantry.v1.QuoteService/NoSuch", running.private()))
            .header("content-type", "application/grpc")
            .body(tonic::body::Body::empty())
            .unwrap();
    let response = tower::ServiceExt::oneshot(channel(&running).await, request).await.unwrap();
    assert_eq!(Status::from_header_map(response.headers()).unwrap().code(), Code::Unimplemented);
}
