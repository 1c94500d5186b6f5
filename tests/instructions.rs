//! Instructions of the calculation (C) and of reading, converting and writing (K), for
//! ten metres in four fabrics, counted by callgrind and held within 3 % of what is
//! committed in `bench/instructions.txt`. A count, unlike a time, is the same on a busy
//! machine. `UPDATE=1` writes the counts of today.

use std::path::{Path, PathBuf};
use std::process::Command;

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

/// Instructions of one run of the work.
fn instructions(program: &Path, what: &str, times: u32) -> i64 {
    let out = tempfile::tempdir().expect("a folder for the counter's file");
    let output = Command::new("valgrind")
        .arg("--tool=callgrind")
        .arg(format!("--callgrind-out-file={}", out.path().join("out").display()))
        .arg(program)
        .args(["once", what, &times.to_string()])
        .output()
        .expect("valgrind is needed to count instructions: install the package valgrind");
    let text = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{text}");
    let line = text.lines().find(|line| line.contains("Collected :")).expect("callgrind says what it collected");
    line.rsplit(' ').next().and_then(|n| n.parse().ok()).expect("a count")
}

#[test]
fn instructions_stay_within_three_percent() {
    let program = bench_program();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("bench/instructions.txt");
    let mut counted = String::new();
    for what in ["calc", "convert"] {
        let each = (instructions(&program, what, 101) - instructions(&program, what, 1)) / 100;
        counted.push_str(&format!("{what} {each}\n"));
    }
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, &counted).expect("the counts are written");
    }
    let committed = std::fs::read_to_string(&path).expect("bench/instructions.txt");
    for (line, now) in committed.lines().zip(counted.lines()) {
        let number = |line: &str| line.split(' ').nth(1).and_then(|n| n.parse::<f64>().ok()).expect("a count");
        let ratio = number(now) / number(line);
        assert!(
            (0.97..=1.03).contains(&ratio),
            "{now} instructions, committed are {line}: if the change is worth it, run with UPDATE=1 and say why"
        );
    }
    assert_eq!(committed.lines().count(), 2);
}
