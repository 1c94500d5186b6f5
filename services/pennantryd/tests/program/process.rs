//! Starting the program, and watching it.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, ChildStdout, Command, Output, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use serde_json::Value;

/// Longer than anything here takes, on a busy machine too.
pub const LONG: Duration = Duration::from_secs(30);

/// The program with flags, in a clean environment.
pub fn program(flags: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_pennantryd"));
    for name in [
        "PUBLIC",
        "PRIVATE",
        "ADMIN",
        "DATA",
        "DATABASE",
        "CATALOGUE",
        "LOG",
        "REFLECTION",
        "DRAIN_SECONDS",
        "STOP_SECONDS",
    ] {
        command.env_remove(format!("PENNANTRY_{name}"));
    }
    command.args(flags);
    command
}

/// Runs to the end: exit code, standard output, standard error.
pub fn run(command: &mut Command) -> (i32, String, String) {
    told(command.output().unwrap())
}

pub fn run_with_input(command: &mut Command, input: &str) -> (i32, String, String) {
    let command = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
    told(child.wait_with_output().unwrap())
}

fn told(output: Output) -> (i32, String, String) {
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

/// A server that runs.
pub struct Server {
    child: Child,
    out: BufReader<ChildStdout>,
    log: Receiver<String>,
    /// The first line on standard output.
    pub first_line: String,
}

impl Server {
    /// Starts it on free ports, and waits until it says where.
    pub fn start(flags: &[&str]) -> (Server, tempfile::TempDir) {
        let folder = tempfile::tempdir().unwrap();
        let data = folder.path().join("data");
        let free = "127.0.0.1:0";
        let serve =
            ["serve", "--public", free, "--private", free, "--admin", free, "--data", data.to_str().unwrap()];
        (Server::spawn(program(&serve).args(flags)), folder)
    }

    pub fn spawn(command: &mut Command) -> Server {
        let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let mut out = BufReader::new(child.stdout.take().unwrap());
        let errors = BufReader::new(child.stderr.take().unwrap());
        let (send, log) = channel();
        std::thread::spawn(move || {
            for line in errors.lines().map_while(Result::ok) {
                let _ = send.send(line);
            }
        });
        let mut first_line = String::new();
        out.read_line(&mut first_line).unwrap();
        Server { child, out, log, first_line }
    }

    /// Where a listener is, without the scheme.
    pub fn address(&self, listener: &str) -> String {
        let line: Value = serde_json::from_str(&self.first_line).unwrap();
        line[listener].as_str().unwrap().strip_prefix("http://").unwrap().to_owned()
    }

    pub fn signal(&self, name: &str) {
        let id = self.child.id().to_string();
        assert!(Command::new("kill").args([&format!("-{name}"), &id]).status().unwrap().success());
    }

    /// Waits for a line of the log that has all of these words.
    pub fn log_says(&self, words: &[&str]) -> String {
        self.log_until(words).pop().unwrap()
    }

    /// Every line of the log up to the one that has all of these words.
    pub fn log_until(&self, words: &[&str]) -> Vec<String> {
        let begun = Instant::now();
        let mut seen = Vec::new();
        while let Ok(line) = self.log.recv_timeout(LONG.saturating_sub(begun.elapsed())) {
            let last = words.iter().all(|word| line.contains(word));
            seen.push(line);
            if last {
                return seen;
            }
        }
        panic!("no line with {words:?} in\n{}", seen.join("\n"));
    }

    /// Waits for its end: the exit code, and what else was on standard output.
    pub fn end(mut self) -> (Option<i32>, String) {
        let begun = Instant::now();
        let status = loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                break status;
            }
            assert!(begun.elapsed() < LONG, "it does not end");
            std::thread::sleep(Duration::from_millis(10));
        };
        let mut rest = String::new();
        self.out.read_to_string(&mut rest).unwrap();
        (status.code(), rest)
    }

    /// Sends bytes on a connection of their own, and leaves it open.
    pub fn say(&self, listener: &str, bytes: &str) -> TcpStream {
        let mut stream = TcpStream::connect(self.address(listener)).unwrap();
        stream.set_read_timeout(Some(LONG)).unwrap();
        stream.write_all(bytes.as_bytes()).unwrap();
        stream
    }

    /// Posts JSON and gives the body that comes back.
    pub fn post(&self, listener: &str, path: &str, body: &Value) -> Value {
        let body = body.to_string();
        let length = body.len();
        let mut stream = self.say(
            listener,
            &format!(
                "POST {path} HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\ncontent-type: application/json\r\n\
                 content-length: {length}\r\n\r\n{body}"
            ),
        );
        let mut reply = String::new();
        stream.read_to_string(&mut reply).unwrap();
        serde_json::from_str(reply.split_once("\r\n\r\n").unwrap().1).unwrap()
    }

    /// Gets a page, whole.
    pub fn get(&self, listener: &str, path: &str) -> String {
        let mut stream = self
            .say(listener, &format!("GET {path} HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\n\r\n"));
        let mut page = String::new();
        stream.read_to_string(&mut page).unwrap();
        page
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // A test that failed half-way leaves nothing running.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
