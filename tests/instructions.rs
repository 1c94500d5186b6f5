//! Instructions of the calculation (C) and of reading, converting and writing (K), for
//! ten metres in four fabrics, counted by callgrind and held within 3 % of what is
//! committed in `bench/instructions.txt`; and of the real door (D) against the same stack
//! answering canned bytes (F): the door adds nothing to the work, D <= F + 1.2 (C + K). A
//! count, unlike a time, is the same on a busy machine. `UPDATE=1` writes today's counts.

use std::fmt::Write as _;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

fn bench_program() -> PathBuf {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let output = Command::new(cargo)
        .args(["build", "--release", "--locked", "-p", "pennantry-tests", "--bin", "bench"])
        .args(["--message-format", "json"])
        .current_dir(root)
        .output()
        .expect("cargo runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let text = String::from_utf8_lossy(&output.stdout);
    let program = text
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter(|message| message["target"]["name"] == "bench")
        .find_map(|message| message["executable"].as_str().map(PathBuf::from));
    program.expect("cargo names the program that it built")
}

fn callgrind(program: &Path, out: &Path) -> Command {
    let mut command = Command::new("valgrind");
    command
        .arg("--tool=callgrind")
        .arg(format!("--callgrind-out-file={}", out.join("out").display()))
        .arg(program);
    command
}

fn collected(text: &str) -> i64 {
    let line = text.lines().find(|line| line.contains("Collected :"));
    let line = line.unwrap_or_else(|| panic!("callgrind says what it collected: {text}"));
    line.rsplit(' ').next().and_then(|n| n.parse().ok()).expect("a count")
}

/// Instructions of one run of the work.
fn instructions(program: &Path, what: &str, times: u32) -> i64 {
    let out = tempfile::tempdir().expect("a folder for the counter's file");
    let output = callgrind(program, out.path())
        .args(["once", what, &times.to_string()])
        .output()
        .expect("valgrind is needed to count instructions: install the package valgrind");
    let text = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{text}");
    collected(&text)
}

/// Instructions of a server that answers so many requests on one connection.
fn server_instructions(program: &Path, what: &str, requests: u32, question: &[u8]) -> i64 {
    let out = tempfile::tempdir().expect("a folder for the counter's file");
    let mut child = callgrind(program, out.path())
        .args(["serve", what])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("valgrind runs");
    let mut line = String::new();
    BufReader::new(child.stdout.take().expect("output")).read_line(&mut line).expect("a line");
    let mut stream =
        TcpStream::connect(("127.0.0.1", line.trim().parse().expect("a port"))).expect("connected");
    let head = format!(
        "POST /v1/quotes HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n",
        question.len()
    );
    for _ in 0..requests {
        stream.write_all(head.as_bytes()).and_then(|()| stream.write_all(question)).expect("sent");
        let mut reader = BufReader::new(&stream);
        let mut length = 0;
        loop {
            let mut line = String::new();
            reader.read_line(&mut line).expect("a line of the head");
            assert!(!line.starts_with("HTTP/1.1") || line.contains(" 200 "), "{line}");
            if let Some(value) = line.to_ascii_lowercase().strip_prefix("content-length:") {
                length = value.trim().parse().expect("a length");
            }
            if line.trim().is_empty() {
                break;
            }
        }
        let mut body = vec![0; length];
        reader.read_exact(&mut body).expect("the body");
    }
    // a background job may have been told to ignore interrupts, but not this
    let told = Command::new("kill").args(["-TERM", &child.id().to_string()]).status();
    assert!(told.expect("kill runs").success());
    let output = child.wait_with_output().expect("it ends");
    collected(&String::from_utf8_lossy(&output.stderr))
}

#[test]
fn instructions_stay_within_three_percent_and_the_door_adds_none() {
    let program = bench_program();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("bench/instructions.txt");
    let question = Command::new(&program).arg("question").output().expect("the benchmark runs").stdout;
    assert!(question.starts_with(b"{"), "the question is printed");
    let mut counted = Vec::new();
    for what in ["calc", "convert"] {
        counted.push((what, (instructions(&program, what, 101) - instructions(&program, what, 1)) / 100));
    }
    for what in ["floor", "door"] {
        let of = |requests| server_instructions(&program, what, requests, &question);
        counted.push((what, (of(220) - of(20)) / 200));
    }
    let text: String = counted.iter().fold(String::new(), |mut text, (what, each)| {
        let _ = writeln!(text, "{what} {each}");
        text
    });
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, &text).expect("the counts are written");
    }
    let [(_, c), (_, k), (_, f), (_, d)] = counted[..] else { panic!("four counts") };
    assert!(10 * (d - f) <= 12 * (c + k), "the door does more than its work:\n{text}");
    let committed = std::fs::read_to_string(&path).expect("bench/instructions.txt");
    assert_eq!(committed.lines().count(), 4);
    // the kernel's timing decides how often a server polls, so only C and K are held
    for (line, (what, now)) in committed.lines().zip(&counted).take(2) {
        let before: i64 = line.strip_prefix(what).and_then(|n| n.trim().parse().ok()).expect("a count");
        assert!(
            (100 * (now - before)).abs() <= 3 * before,
            "{what} takes {now} instructions, committed are {before}: if the change is worth it, run with UPDATE=1 and say why"
        );
    }
}
