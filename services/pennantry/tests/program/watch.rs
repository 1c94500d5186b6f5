//! `watch`: events, and on from the last place.

use clap::Parser;
use pennantry::cli::{Cli, Command};
use pennantry_contract::reasons::Kind;
use serde_json::{Value, json};

use super::process::command;
use super::script::{Script, refusal};

fn event(place: i64) -> Value {
    json!({"event": {
        "place": place.to_string(), "time": "2026-11-24T10:00:00Z", "actor": "staff", "kind": "shortened",
        "reservationId": "r-7", "pieceId": "K-12", "quantity": {"lengthMm": 400.0}, "note": "counted\u{7}",
    }})
}

fn over() -> tonic::Status {
    refusal(Kind::InvalidEnquiry, "no", &[("after", "OUT_OF_RANGE", "no such place")])
}

/// The stream breaks behind its last event, as when a server stops.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn it_goes_on_after_the_last_place_and_ends_with_a_refusal() {
    let script = Script::default()
        .with("WatchStock", Ok(json!([event(41), event(42)])))
        .with("WatchStock", Err(refusal(Kind::Unavailable, "starting", &[])))
        .with("WatchStock", Ok(json!([event(43)])))
        .with("WatchStock", Err(over()));
    let (code, out, err) = command(Some(script.serve().await), "watch|--after|40", "").await;
    assert_eq!(code, 1);
    let line = |place| {
        format!(
            "{place}  2026-11-24T10:00:00Z  shortened  reservation r-7  piece K-12  0.4 m  by staff  - counted?\n"
        )
    };
    assert_eq!(out, line(41) + &line(42) + &line(43));
    let after: Vec<Value> = script.sent("WatchStock").into_iter().map(|sent| sent["after"].clone()).collect();
    assert_eq!(after, ["40", "42", "42", "43"]);
    assert!(err.contains("going on after place 42\n") && err.contains("going on after place 43\n"), "{err}");
    assert!(err.ends_with("refused (INVALID_ENQUIRY)\n  after: no such place (OUT_OF_RANGE)\n"), "{err}");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn an_event_is_a_line_of_json() {
    let script =
        Script::default().with("WatchStock", Ok(json!([event(1), event(2)]))).with("WatchStock", Err(over()));
    let (code, out, _) = command(Some(script.serve().await), "watch|--json", "").await;
    assert_eq!(code, 1);
    let lines: Vec<Value> = out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(lines[0], event(1)["event"]);
    assert_eq!(
        (&lines[1]["place"], &lines[2]["reason"], lines.len()),
        (&json!("2"), &json!("INVALID_ENQUIRY"), 3)
    );
    assert!(script.sent("WatchStock")[0]["after"].is_null());
}

/// From now on, and nothing came yet: what happens while nobody listens is lost, and said so.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn without_a_place_it_says_that_something_may_be_missed() {
    let script = Script::default().with("WatchStock", Ok(json!([]))).with("WatchStock", Err(over()));
    let (code, out, err) = command(Some(script.serve().await), "watch", "").await;
    assert_eq!((code, out.as_str()), (1, ""));
    assert!(err.contains("no place is known; --after 0 tells all\n"), "{err}");
    // a server without this call is no server to wait for
    let (code, _, err) = command(Some(Script::default().serve().await), "watch", "").await;
    assert!(code == 2 && err.contains("without this call"), "{err}");
    let (code, _, err) = command(None, "watch|--after|-1", "").await;
    assert!(code == 2 && err.contains("-1"), "{err}");
}

/// Takes so many bytes and no more, as a pipe whose reader has gone.
struct Closing(usize);

impl std::io::Write for Closing {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        if self.0 == 0 {
            return Err(std::io::ErrorKind::BrokenPipe.into());
        }
        self.0 = self.0.saturating_sub(bytes.len());
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn it_ends_when_nobody_reads_any_longer() {
    let script = Script::default().with("WatchStock", Ok(json!([event(1), event(2), event(3)])));
    let server = script.serve().await.to_string();
    let words = ["pennantry", "watch", "--server", &server];
    let Command::Watch(flags) = Cli::try_parse_from(words).unwrap().command else {
        panic!("another command")
    };
    let mut told = Vec::new();
    let done = pennantry::work::watch::run(&flags, &mut Closing(1), &mut told).await;
    assert!(done.is_ok() && told.is_empty(), "{done:?}");
    assert_eq!(script.calls(), ["WatchStock"]);
}
