//! `pennantryd ask`: one enquiry through the real door, for trying out and for examples.

use std::io::{self, Read, Write};
use std::net::SocketAddr;
use std::path::Path;
use std::process::ExitCode;
use std::time::Duration;

use axum::body::Bytes;
use http::{Request, StatusCode, header};
use http_body_util::{BodyExt, Full};
use hyper::client::conn::http1;
use hyper_util::rt::TokioIo;
use pennantry_contract::{table, v1};
use serde::Serialize;
use tokio::net::TcpStream;

use crate::cli::{self, CANNOT_RUN, REFUSED, View};
use crate::clock::Clock;
use crate::doors::problem::Problem;
use crate::json;
use crate::serve;
use crate::start::{Config, Running, start};
use crate::telemetry;

/// Asks, prints what comes back, and says by the exit code how it went.
pub async fn run(ask: cli::Ask) -> ExitCode {
    match answer(&ask).await {
        Ok(Told::Quote(text)) => print(&text, ExitCode::SUCCESS),
        Ok(Told::Refused(text, summary)) => {
            let _ = writeln!(io::stderr(), "{summary}");
            print(&text, ExitCode::from(REFUSED))
        }
        Err(fault) => {
            let _ = writeln!(io::stderr(), "{fault}");
            ExitCode::from(CANNOT_RUN)
        }
    }
}

fn print(text: &str, code: ExitCode) -> ExitCode {
    match writeln!(io::stdout(), "{text}") {
        Ok(()) => code,
        Err(_) => ExitCode::from(CANNOT_RUN),
    }
}

enum Told {
    Quote(String),
    Refused(String, String),
}

async fn answer(ask: &cli::Ask) -> Result<Told, String> {
    let enquiry = read(&ask.file).map_err(|cause| {
        format!(
            "{} cannot be read ({cause}): name a file with an enquiry in JSON, or - for standard input",
            ask.file.display()
        )
    })?;
    telemetry::start("warn")?;
    let catalogue = serve::open(ask.catalogue.as_deref()).map_err(|fault| format!("--catalogue {fault}"))?;
    let clock = ask.at.map_or(Clock::System, Clock::Fixed);
    let running = start(Config::local(catalogue, clock)).await.map_err(|fault| fault.to_string())?;
    let told = through_the_door(&running, ask.view, enquiry).await;
    running.stop(Duration::from_secs(5)).await;
    told.map_err(|fault| format!("the server was asked and did not answer: {fault}"))
}

fn read(file: &Path) -> io::Result<Vec<u8>> {
    if file == Path::new("-") {
        let mut enquiry = Vec::new();
        io::stdin().read_to_end(&mut enquiry)?;
        return Ok(enquiry);
    }
    std::fs::read(file)
}

type Fault = Box<dyn std::error::Error + Send + Sync>;

async fn through_the_door(running: &Running, view: View, enquiry: Vec<u8>) -> Result<Told, Fault> {
    let (status, body) = match view {
        View::Buyer => post(running.public(), "/v1/quotes", enquiry).await?,
        View::Shop => {
            let path = "/pennantry.v1.QuoteService/CalculateQuote";
            post(running.private(), path, for_shop(&enquiry)?).await?
        }
    };
    if status != StatusCode::OK {
        let problem: Problem = serde_json::from_slice(&body)?;
        return Ok(Told::Refused(
            pretty(&problem)?,
            format!("refused ({}): {}", problem.reason, problem.detail),
        ));
    }
    let quote = match view {
        View::Buyer => serde_json::from_slice(&body)?,
        View::Shop => serde_json::from_slice::<v1::CalculateQuoteResponse>(&body)?.quote.unwrap_or_default(),
    };
    Ok(Told::Quote(pretty::<v1::Quote>(&quote)?))
}

/// The whole request of the private door, asking for the shop's view unless a view is
/// said. What cannot be read goes as it is: the door says what is wrong with it.
fn for_shop(enquiry: &[u8]) -> Result<Vec<u8>, Fault> {
    let Ok(mut read) = json::read::<v1::Enquiry>(&table::ENQUIRY, enquiry) else {
        return Ok([br#"{"enquiry":"#, enquiry, b"}"].concat());
    };
    if read.view() == v1::View::Unspecified {
        read.set_view(v1::View::Shop);
    }
    Ok(json::write(&v1::CalculateQuoteRequest { enquiry: Some(read) })?)
}

fn pretty<T: Serialize>(message: &T) -> Result<String, Fault> {
    Ok(serde_json::to_string_pretty(message)?)
}

async fn post(at: SocketAddr, path: &str, body: Vec<u8>) -> Result<(StatusCode, Bytes), Fault> {
    let asked = async {
        let (mut client, connection) = http1::handshake(TokioIo::new(TcpStream::connect(at).await?)).await?;
        let connection = tokio::spawn(connection);
        let request = Request::post(path)
            .header(header::HOST, at.to_string())
            .header(header::CONTENT_TYPE, "application/json")
            .body(Full::new(Bytes::from(body)))?;
        let response = client.send_request(request).await?;
        let status = response.status();
        let body = response.into_body().collect().await?.to_bytes();
        connection.abort();
        Ok::<_, Fault>((status, body))
    };
    tokio::time::timeout(Duration::from_secs(30), asked).await?
}
