//! A server that keeps what it was sent and gives an answer made by hand: what the program
//! sends and shows is looked at here, whatever the real server has built.

use std::net::SocketAddr;
use std::sync::{Arc, Mutex};

use pennantry_contract::v1;
use pennantry_contract::v1::catalogue_service_server::{CatalogueService, CatalogueServiceServer};
use pennantry_contract::v1::quote_service_server::{QuoteService, QuoteServiceServer};
use tokio_stream::wrappers::TcpListenerStream;
use tonic::{Request, Response, Status};

use super::process::run;

/// What was sent.
type Kept = Arc<Mutex<Vec<v1::Enquiry>>>;

#[derive(Clone)]
struct Fake {
    kept: Kept,
    minor_digits: u32,
    answer: Result<v1::Quote, Status>,
}

#[tonic::async_trait]
impl QuoteService for Fake {
    async fn calculate_quote(
        &self,
        request: Request<v1::CalculateQuoteRequest>,
    ) -> Result<Response<v1::CalculateQuoteResponse>, Status> {
        self.kept.lock().unwrap().push(request.into_inner().enquiry.unwrap());
        self.answer.clone().map(|quote| Response::new(v1::CalculateQuoteResponse { quote: Some(quote) }))
    }

    async fn calculate_quotes(
        &self,
        _: Request<v1::CalculateQuotesRequest>,
    ) -> Result<Response<v1::CalculateQuotesResponse>, Status> {
        Err(Status::unimplemented("not here"))
    }

    async fn check_quote(
        &self,
        _: Request<v1::CheckQuoteRequest>,
    ) -> Result<Response<v1::CheckQuoteResponse>, Status> {
        Err(Status::unimplemented("not here"))
    }
}

#[tonic::async_trait]
impl CatalogueService for Fake {
    async fn get_catalogue(
        &self,
        _: Request<v1::GetCatalogueRequest>,
    ) -> Result<Response<v1::GetCatalogueResponse>, Status> {
        let catalogue = v1::Catalogue { minor_digits: self.minor_digits, ..v1::Catalogue::default() };
        Ok(Response::new(v1::GetCatalogueResponse { catalogue: Some(catalogue) }))
    }
}

async fn fake(minor_digits: u32, answer: Result<v1::Quote, Status>) -> (SocketAddr, Kept) {
    let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let kept = Kept::default();
    let fake = Fake { kept: kept.clone(), minor_digits, answer };
    let server = tonic::transport::Server::builder()
        .add_service(QuoteServiceServer::new(fake.clone()))
        .add_service(CatalogueServiceServer::new(fake))
        .serve_with_incoming(TcpListenerStream::new(listener));
    tokio::spawn(server);
    (address, kept)
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn what_staff_alone_may_say_is_sent() {
    let (address, kept) = fake(3, Ok(v1::Quote::default())).await;
    let flags = "6 m|--discount|2.5|--reason|a friend|--rush|--as-of|2026-11-20|--shelf|--workings";
    let (code, out, err) = run(Some(address), flags).await;
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("no workings in this answer"), "{out}");
    let sent = kept.lock().unwrap().pop().unwrap();
    // three digits are minor in this currency
    let off = v1::discount::Off::MinorUnits(2_500);
    assert_eq!(sent.discount, Some(v1::Discount { off: Some(off), reason: "a friend".to_owned() }));
    assert_eq!((sent.rush, sent.shelf, sent.workings), (Some(true), Some(true), Some(true)));
    assert_eq!(sent.as_of_date.as_deref(), Some("2026-11-20"));
    assert_eq!(sent.view(), v1::View::Shop);
    // more decimals than the currency has: not asked at all
    let (code, _, err) = run(Some(address), "6 m|--discount|2.5555|--reason|a friend").await;
    assert!(code == 2 && err.contains("at most 3"), "{err}");
    assert!(kept.lock().unwrap().is_empty());
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_finding_of_the_answer_is_shown_with_its_remedy() {
    let finding = v1::Finding {
        rule_id: "R99".to_owned(),
        outcome: v1::Outcome::Restrict.into(),
        remedy: "three fixings".to_owned(),
        text: "the cord is too long".to_owned(),
        ..v1::Finding::default()
    };
    let child = v1::ChildFinding {
        outcome: v1::Outcome::Restrict.into(),
        findings: vec![finding],
        ..v1::ChildFinding::default()
    };
    let (address, _) = fake(2, Ok(v1::Quote { child: Some(child), ..v1::Quote::default() })).await;
    let (code, out, _) = run(Some(address), "6 m").await;
    assert_eq!(code, 0);
    assert!(out.contains("RESTRICT R99: the cord is too long\n    what to do: three fixings\n"), "{out}");
}

/// A server that stops, or is busy, has not refused.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_server_that_cannot_answer_now_ends_with_two() {
    for status in [Status::unavailable("stopping"), Status::internal("x"), Status::resource_exhausted("busy")]
    {
        let (address, _) = fake(2, Err(status)).await;
        let (code, out, err) = run(Some(address), "6 m|--json").await;
        assert_eq!((code, out.as_str()), (2, ""), "{err}");
        assert!(err.contains(&address.to_string()), "{err}");
    }
}
