//! Instructions of the calculation (C) and of reading, converting and writing (K), for
//! ten metres in four fabrics, held within 3 % of what is committed in
//! `bench/instructions.txt`; and of each real door (D) against the same stack answering
//! canned bytes (F): the door adds nothing to the work, D <= F + 1.1 (C + K).
//! `UPDATE=1` writes today's counts.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

use pennantry_tests::client::Way;
use pennantry_tests::instructions::{COUNTED, count, question};

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

#[test]
fn instructions_stay_within_three_percent_and_the_doors_add_none() {
    let program = bench_program();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("bench/instructions.txt");
    let asked = question(&program, Way::Json).expect("the benchmark runs");
    assert!(asked.starts_with(b"{"), "the question is printed");
    let counted = count(&program).unwrap_or_else(|fault| panic!("{fault}"));
    let text: String = counted.iter().fold(String::new(), |mut text, (what, each)| {
        let _ = writeln!(text, "{what} {each}");
        text
    });
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, &text).expect("the counts are written");
    }
    let of = |what| counted.iter().find(|(name, _)| *name == what).expect("it is counted").1;
    for (floor, convert, door) in [("floor", "convert", "door"), ("floor-grpc", "convert-grpc", "door-grpc")]
    {
        let work = of("calc") + of(convert);
        assert!(10 * (of(door) - of(floor)) <= 11 * work, "{door} does more than its work:\n{text}");
    }
    let committed = std::fs::read_to_string(&path).expect("bench/instructions.txt");
    assert_eq!(committed.lines().count(), COUNTED.len());
    // the kernel's timing decides how often a server polls, so only C and K are held
    for ((line, (what, now)), (_, way)) in committed.lines().zip(&counted).zip(COUNTED) {
        let before: i64 = line.strip_prefix(what).and_then(|n| n.trim().parse().ok()).expect("a count");
        assert!(
            way.is_some() || (100 * (now - before)).abs() <= 3 * before,
            "{what} takes {now} instructions, committed are {before}: if the change is worth it, run with UPDATE=1 and say why"
        );
    }
}
