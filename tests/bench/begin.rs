//! From the start of the program to its first answer, and what it holds when idle.

use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use pennantry_tests::client::{QUOTES, connect, exchange};

use crate::load::first_line;
use crate::shared::{Folder, program, told};

const STARTS: usize = 5;

/// Milliseconds from start to the first answer, the least of some, and megabytes when idle.
pub fn measure() -> Result<(f64, f64), String> {
    let program = program()?;
    let data = Folder::new("start")?;
    let question = br#"{"flaggedMm":6200}"#;
    let mut least = Duration::MAX;
    let mut memory = f64::NAN;
    for _ in 0..STARTS {
        let begun = Instant::now();
        let mut child = Command::new(&program)
            .args(["serve", "--public", "127.0.0.1:0", "--private", "127.0.0.1:0", "--admin", "127.0.0.1:0"])
            .arg("--data")
            .arg(data.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(told)?;
        let line = first_line(&mut child)?;
        let port = line.split("127.0.0.1:").nth(1).and_then(|rest| rest.split('"').next());
        let port = port.and_then(|n| n.parse().ok()).ok_or("no address")?;
        let answered = connect(port).and_then(|mut stream| exchange(&mut stream, QUOTES, question));
        least = least.min(begun.elapsed());
        std::thread::sleep(Duration::from_millis(500));
        let status = std::fs::read_to_string(format!("/proc/{}/status", child.id())).unwrap_or_default();
        let _ = child.kill();
        let _ = child.wait();
        answered?;
        memory = resident(&status).ok_or("no memory is told")?;
    }
    Ok((least.as_secs_f64() * 1e3, memory))
}

/// Resident memory in megabytes (proc(5): `VmRSS`, in units of 1 024 bytes).
fn resident(status: &str) -> Option<f64> {
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"))?;
    let kib: f64 = line.trim().strip_suffix("kB")?.trim().parse().ok()?;
    Some(kib * 1_024.0 / 1e6)
}
