//! Asking the private door over gRPC, and what comes back when there is no answer.
//!
//! What changes something is sent with an identity, and where no answer comes it is sent
//! again with the same one, after each of [`PAUSES`]: the server does it once.

use std::future::Future;
use std::time::Duration;

use pennantry_contract::reasons::Kind;
use pennantry_contract::v1;
use pennantry_contract::v1::catalogue_service_client::CatalogueServiceClient;
use pennantry_contract::v1::quote_service_client::QuoteServiceClient;
use tonic::transport::{Channel, Endpoint};
use tonic::{Code, Status};
use tonic_types::StatusExt;

use crate::typed::money::Currency;

/// How long the way to the server may take.
const CONNECT: Duration = Duration::from_secs(5);
/// How long an answer may take: the server gives itself less.
const CALL: Duration = Duration::from_secs(30);
/// How long to wait before a change is sent again that got no answer.
pub const PAUSES: [Duration; 3] =
    [Duration::from_millis(200), Duration::from_secs(1), Duration::from_secs(3)];

/// A connection that is silent for so long is asked whether it is there.
const PING: Duration = Duration::from_secs(30);
const PONG: Duration = Duration::from_secs(20);

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Failure {
    /// The server refuses what is asked.
    Refused {
        /// Reason, words and violations, as the contract has them.
        refusal: v1::Refusal,
        /// How many violations the server left out because they travel in a header.
        left_out: u32,
    },
    /// It could not be asked, in words that say what to do.
    NotAsked(String),
}

/// The way to a server's private door.
#[derive(Debug, Clone)]
pub struct Door {
    channel: Channel,
    address: String,
}

impl Door {
    /// Connects.
    ///
    /// # Errors
    /// The address cannot be used, or nobody answers there.
    pub async fn connect(server: &str) -> Result<Door, Failure> {
        let address = if server.contains("://") { server.to_owned() } else { format!("http://{server}") };
        if !address.starts_with("http://") {
            let how = "write http:// and where the private door is; TLS is not spoken here yet";
            return Err(Failure::NotAsked(format!("--server: {server} cannot be used: {how}")));
        }
        let endpoint = Endpoint::from_shared(address.clone()).map_err(|_| {
            Failure::NotAsked(format!(
                "--server: {server} is no address: write one such as {}",
                crate::cli::SERVER
            ))
        })?;
        // a server that went away without a word is noticed while a stream waits for it
        let endpoint = endpoint.http2_keep_alive_interval(PING).keep_alive_timeout(PONG);
        match endpoint.connect_timeout(CONNECT).timeout(CALL).connect().await {
            Ok(channel) => Ok(Door { channel, address }),
            Err(_) => Err(Failure::NotAsked(format!(
                "no server answers at {address}: start one with \"pennantryd serve\", or say where it is with \
                 --server or PENNANTRY_SERVER"
            ))),
        }
    }

    /// Asks for one quote; the whole response, as it is written in JSON.
    ///
    /// # Errors
    /// Refused, or broken off.
    pub async fn quote(&self, enquiry: v1::Enquiry) -> Result<v1::CalculateQuoteResponse, Failure> {
        let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
        let told = QuoteServiceClient::new(self.channel.clone()).calculate_quote(request).await;
        told.map(tonic::Response::into_inner).map_err(|status| self.failure(&status))
    }

    /// What amounts of the shop are in, by the catalogue in force.
    ///
    /// # Errors
    /// Refused, or broken off.
    pub async fn currency(&self) -> Result<Currency, Failure> {
        let request = v1::GetCatalogueRequest {};
        let told = CatalogueServiceClient::new(self.channel.clone()).get_catalogue(request).await;
        let told = told.map_err(|status| self.failure(&status))?.into_inner();
        let catalogue = told.catalogue.ok_or_else(|| {
            Failure::NotAsked(format!("{} gives no catalogue, so the currency is not known", self.address))
        })?;
        Ok(Currency { code: catalogue.currency_code, minor_digits: catalogue.minor_digits })
    }

    /// Asks for something and changes nothing.
    ///
    /// # Errors
    /// Refused, or broken off.
    pub async fn look<T, F>(&self, call: impl FnOnce(Channel) -> F) -> Result<T, Failure>
    where
        F: Future<Output = Result<tonic::Response<T>, Status>>,
    {
        let told = call(self.channel.clone()).await;
        told.map(tonic::Response::into_inner).map_err(|status| self.failure(&status))
    }

    /// Opens a stream; what ends it stays a status.
    ///
    /// # Errors
    /// Refused, or broken off.
    pub async fn stream<T, F>(&self, call: impl FnOnce(Channel) -> F) -> Result<tonic::Streaming<T>, Status>
    where
        F: Future<Output = Result<tonic::Response<tonic::Streaming<T>>, Status>>,
    {
        call(self.channel.clone()).await.map(tonic::Response::into_inner)
    }

    /// Changes something by a request that holds this identity, and sends it again, just the
    /// same, where no answer came.
    ///
    /// # Errors
    /// Refused, or broken off every time: then what is said names the identity, with which
    /// it can be sent once more.
    pub async fn change<R: Clone, T, F>(
        &self,
        id: &str,
        request: R,
        call: impl Fn(Channel, R) -> F,
    ) -> Result<T, Failure>
    where
        F: Future<Output = Result<tonic::Response<T>, Status>>,
    {
        let mut pauses = PAUSES.iter();
        loop {
            let status = match call(self.channel.clone(), request.clone()).await {
                Ok(told) => return Ok(told.into_inner()),
                Err(status) => status,
            };
            if !may_pass(&status) {
                return Err(self.failure(&status));
            }
            let Some(pause) = pauses.next() else {
                return Err(match self.failure(&status) {
                    Failure::NotAsked(words) => Failure::NotAsked(format!(
                        "{words}\nasked {} times; whether it was done is not known: the same command with \
                         --request-id {id} does it once",
                        PAUSES.len() + 1
                    )),
                    refused @ Failure::Refused { .. } => refused,
                });
            };
            tokio::time::sleep(*pause).await;
        }
    }

    /// What a status means that ended a stream.
    pub fn failure(&self, status: &Status) -> Failure {
        failure(status, &self.address)
    }
}

/// Whether the same request may get an answer later. A status without a reason of ours was
/// made on the way; with one, the server says that it stops, or that it was not quick enough.
pub fn may_pass(status: &Status) -> bool {
    match status.get_error_details().error_info() {
        Some(info) => {
            let passing = [Kind::Unavailable, Kind::DeadlineExceeded, Kind::Aborted];
            Kind::from_reason(&info.reason).is_some_and(|kind| passing.contains(&kind))
        }
        // a connection that breaks is unknown or unavailable, the time-out of this side cancelled
        None => matches!(
            status.code(),
            Code::Unavailable | Code::DeadlineExceeded | Code::Cancelled | Code::Unknown | Code::Aborted
        ),
    }
}

/// What a status means. A refusal is a status with a reason of ours that is about what was
/// asked; the rest could not be asked now, or not there.
fn failure(status: &Status, address: &str) -> Failure {
    let details = status.get_error_details();
    let Some(info) = details.error_info() else {
        let what = match status.code() {
            Code::Unimplemented => "what answers there is no Pennantry, or one without this call",
            Code::DeadlineExceeded | Code::Cancelled => "no answer came in time",
            _ => "the answer broke off",
        };
        return Failure::NotAsked(format!(
            "{address}: {what} ({}): see that --server names the private door",
            status.message()
        ));
    };
    let kind = Kind::ALL.iter().find(|kind| kind.as_str() == info.reason);
    let elsewhere = [
        Kind::Internal,
        Kind::Unavailable,
        Kind::DeadlineExceeded,
        Kind::Cancelled,
        Kind::ResourceExhausted,
        Kind::Unauthenticated,
    ];
    if kind.is_none_or(|kind| elsewhere.contains(kind)) {
        return Failure::NotAsked(format!("{address}: {} ({})", status.message(), info.reason));
    }
    let told = details.bad_request().map_or(&[][..], |bad| &bad.field_violations);
    let violations = told.iter().map(|violation| v1::FieldViolation {
        field: violation.field.clone(),
        reason: violation.reason.clone(),
        message: violation.description.clone(),
    });
    let refusal = v1::Refusal {
        reason: info.reason.clone(),
        detail: status.message().to_owned(),
        violations: violations.collect(),
    };
    let left_out = info.metadata.get("violationsLeftOut").and_then(|count| count.parse().ok()).unwrap_or(0);
    Failure::Refused { refusal, left_out }
}

#[cfg(test)]
mod tests {
    use std::collections::HashMap;
    use std::sync::atomic::{AtomicUsize, Ordering};

    use tonic_types::ErrorDetails;

    use super::*;

    fn status(kind: Kind) -> Status {
        let mut details = ErrorDetails::new();
        details.set_error_info(kind.as_str(), "pennantry", HashMap::new());
        Status::with_error_details(kind.grpc_code(), "words", details)
    }

    /// Exit code 1 is for what was asked; 2 for a server that cannot answer now.
    #[test]
    fn every_kind_of_failure_is_a_refusal_or_not_asked() {
        let refused: Vec<&str> = Kind::ALL
            .iter()
            .filter(|kind| matches!(failure(&status(**kind), "a"), Failure::Refused { .. }))
            .map(|kind| kind.as_str())
            .collect();
        let expected = [
            "INVALID_ENQUIRY",
            "UNREADABLE",
            "VIEW_NOT_PUBLIC",
            "NOT_FOUND",
            "METHOD_NOT_ALLOWED",
            "NOT_ACCEPTABLE",
            "FAILED_PRECONDITION",
            "ABORTED",
            "TOO_LARGE",
            "UNSUPPORTED_MEDIA",
            "KEY_REUSED",
        ];
        assert_eq!(refused, expected);
    }

    #[test]
    fn a_status_of_somebody_else_was_not_asked() {
        for code in [Code::Unimplemented, Code::InvalidArgument, Code::Unknown, Code::DeadlineExceeded] {
            let told = failure(&Status::new(code, "words"), "http://there");
            let Failure::NotAsked(words) = told else { panic!("{code:?}: {told:?}") };
            assert!(words.contains("http://there") && words.contains("--server"), "{words}");
        }
    }

    #[test]
    fn violations_that_were_left_out_are_counted() {
        let mut details = ErrorDetails::new();
        let metadata = HashMap::from([("violationsLeftOut".to_owned(), "7".to_owned())]);
        details.set_error_info("INVALID_ENQUIRY", "pennantry", metadata);
        let status = Status::with_error_details(Code::InvalidArgument, "words", details);
        assert!(matches!(failure(&status, "a"), Failure::Refused { left_out: 7, .. }));
    }

    fn door() -> Door {
        let channel = Endpoint::from_static("http://127.0.0.1:1").connect_lazy();
        Door { channel, address: "http://there".to_owned() }
    }

    /// What happened to so many tries of a change, and what was sent.
    async fn changed(answers: Vec<Result<&'static str, Status>>) -> (Result<&'static str, Failure>, usize) {
        let sent = AtomicUsize::new(0);
        let told = door()
            .change("mine", "request", |_, request| {
                assert_eq!(request, "request");
                let answer = answers[sent.fetch_add(1, Ordering::SeqCst)].clone();
                async move { answer.map(tonic::Response::new) }
            })
            .await;
        (told, sent.into_inner())
    }

    /// Time stands still but for the pauses.
    #[tokio::test(start_paused = true)]
    async fn a_change_is_sent_again_until_there_is_an_answer() {
        let passing = || Err(status(Kind::Unavailable));
        let since = tokio::time::Instant::now();
        let told = changed(vec![passing(), Err(Status::unknown("broken")), passing(), Ok("done")]).await;
        assert_eq!(told, (Ok("done"), 4));
        assert_eq!(since.elapsed(), PAUSES.iter().sum());
        assert_eq!(changed(vec![Ok("done")]).await, (Ok("done"), 1));
        let (told, sent) = changed(vec![passing(), passing(), passing(), passing()]).await;
        let Err(Failure::NotAsked(words)) = told else { panic!("{told:?}") };
        assert!(sent == 4 && words.contains("whether it was done is not known"), "{words}");
        assert!(words.contains("--request-id mine does it once"), "{words}");
        // somebody else was quicker, every time: that is a refusal
        let quicker = || Err(status(Kind::Aborted));
        let (told, sent) = changed(vec![quicker(), quicker(), quicker(), quicker()]).await;
        assert!(matches!(told, Err(Failure::Refused { .. })) && sent == 4, "{told:?}");
    }

    #[tokio::test(start_paused = true)]
    async fn what_will_not_pass_is_sent_once() {
        for kind in Kind::ALL {
            let passing = [Kind::Unavailable, Kind::DeadlineExceeded, Kind::Aborted].contains(kind);
            assert_eq!(may_pass(&status(*kind)), passing, "{}", kind.as_str());
            if !passing {
                let (told, sent) = changed(vec![Err(status(*kind))]).await;
                assert!(told.is_err() && sent == 1, "{}", kind.as_str());
            }
        }
        for code in [Code::Unimplemented, Code::InvalidArgument, Code::Internal, Code::ResourceExhausted] {
            assert!(!may_pass(&Status::new(code, "words")), "{code:?}");
        }
    }
}
