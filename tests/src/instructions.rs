//! Instructions, counted by callgrind. A count, unlike a time, is the same on a busy machine.

use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::process::{Command, Stdio};

use crate::client::{Client, Way};

/// What is counted: how the benchmark names it, and the way in of what is a server.
pub const COUNTED: [(&str, Option<Way>); 7] = [
    ("calc", None),
    ("convert", None),
    ("floor", Some(Way::Json)),
    ("door", Some(Way::Json)),
    ("convert-grpc", None),
    ("floor-grpc", Some(Way::Grpc)),
    ("door-grpc", Some(Way::Grpc)),
];

/// Instructions a request of each of [`COUNTED`], by the difference of a long and a short run of the
/// benchmark's program.
///
/// # Errors
/// The counter is missing or breaks off.
pub fn count(bench: &Path) -> Result<Vec<(&'static str, i64)>, String> {
    let mut counted = Vec::new();
    for (what, way) in COUNTED {
        let each = match way {
            None => (work(bench, what, 101)? - work(bench, what, 1)?) / 100,
            Some(way) => (server(bench, what, way, 220)? - server(bench, what, way, 20)?) / 200,
        };
        counted.push((what, each));
    }
    Ok(counted)
}

/// The question that the benchmark asks one way.
///
/// # Errors
/// The benchmark prints none.
pub fn question(bench: &Path, way: Way) -> Result<Vec<u8>, String> {
    let word = match way {
        Way::Json => "json",
        Way::Grpc => "grpc",
    };
    let printed = Command::new(bench).args(["question", word]).output().map_err(|fault| fault.to_string())?;
    if printed.stdout.is_empty() { Err(String::from("no question is printed")) } else { Ok(printed.stdout) }
}

fn callgrind(bench: &Path) -> Command {
    let mut command = Command::new("valgrind");
    command.args(["--tool=callgrind", "--callgrind-out-file=/dev/null"]).arg(bench);
    command
}

fn missing(fault: &std::io::Error) -> String {
    format!("instructions are counted by callgrind, of the package valgrind: {fault}")
}

fn collected(text: &str) -> Result<i64, String> {
    let line = text.lines().find(|line| line.contains("Collected :"));
    line.and_then(|line| line.rsplit(' ').next())
        .and_then(|count| count.parse().ok())
        .ok_or_else(|| format!("callgrind does not say what it collected: {text}"))
}

/// Instructions of one run of the work.
fn work(bench: &Path, what: &str, times: u32) -> Result<i64, String> {
    let output = callgrind(bench)
        .args(["once", what, &times.to_string()])
        .output()
        .map_err(|fault| missing(&fault))?;
    let text = String::from_utf8_lossy(&output.stderr);
    if output.status.success() { collected(&text) } else { Err(text.into_owned()) }
}

/// Instructions of a server that answers so many requests on one connection.
fn server(bench: &Path, what: &str, way: Way, requests: u32) -> Result<i64, String> {
    let question = question(bench, way)?;
    let mut child = callgrind(bench)
        .args(["serve", what])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .map_err(|fault| missing(&fault))?;
    let asked = (|| {
        let mut line = String::new();
        let out = child.stdout.take().ok_or("no output")?;
        BufReader::new(out).read_line(&mut line).map_err(|fault| fault.to_string())?;
        let port = line.trim().parse().map_err(|_| format!("no port: {line}"))?;
        let mut client = Client::connect(way, port)?;
        (0..requests).try_for_each(|_| client.ask(&question).map(drop))
    })();
    // a job in the background may have been told to ignore interrupts, but not this
    let stopped = Command::new("kill").args(["-TERM", &child.id().to_string()]).status();
    let mut text = String::new();
    if let Some(mut err) = child.stderr.take() {
        err.read_to_string(&mut text).map_err(|fault| fault.to_string())?;
    }
    child.wait().map_err(|fault| fault.to_string())?;
    asked?;
    stopped.map_err(|fault| fault.to_string())?;
    collected(&text)
}
