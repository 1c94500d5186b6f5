//! Speed, measured against a floor in the same run, and instruction counts.
//!
//! ```text
//! cargo run --release -p pennantry-tests --bin bench               the table of the README
//! cargo run --release -p pennantry-tests --bin bench -- stock      the table of the stock
//! cargo run --release -p pennantry-tests --bin bench -- report     that of the nightly report
//! cargo run --release -p pennantry-tests --bin bench   once calc 100   work for an instruction counter
//! ```
//!
//! All figures of the table are processor time, not wall time: C, the calculation
//! alone, and K, reading, converting and writing alone; F, the same stack reading the
//! same request and answering canned bytes of the answer's size, and D, the real door,
//! loaded over real sockets.
//!
//! C and K are told twice: in a loop, where everything is warm, and behind the sockets of
//! the floor, less the floor, where caches are as a server finds them.
//!
//! The allocator of the C library takes no locks while a process has one thread. A server
//! has several, so C and K are measured beside a second thread that does nothing.

mod floor;
mod load;
mod report;
mod shared;
mod stock;
mod work;

use std::process::ExitCode;

use floor::Work;
use work::Bench;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["once", what, times] => once(what, times.parse().unwrap_or(1)),
        ["question"] => question(),
        ["stock"] => stock::table(None),
        ["stock", part] => stock::table(Some(part)),
        ["report"] => report::table(),
        ["serve", "floor"] => floor::serve(Work::Nothing),
        ["serve", "calc"] => floor::serve(Work::Calculate),
        ["serve", "convert"] => floor::serve(Work::Convert),
        ["serve", "door"] => floor::serve(Work::Door),
        _ => load::table(),
    }
}

/// Prints the question, for who loads a server from outside.
fn question() -> ExitCode {
    let Some(bench) = Bench::new(10_000) else { return ExitCode::FAILURE };
    print!("{}", String::from_utf8_lossy(bench.question()));
    ExitCode::SUCCESS
}

/// Does one kind of work so many times, and nothing else: an instruction counter takes
/// the difference of two runs.
fn once(what: &str, times: u32) -> ExitCode {
    let Some(bench) = Bench::new(10_000) else { return ExitCode::FAILURE };
    let mut sum = 0_u64;
    for _ in 0..times {
        sum += match what {
            "calc" => std::hint::black_box(&bench).calculate(),
            "convert" => u64::try_from(std::hint::black_box(&bench).convert()).unwrap_or(0),
            _ => return ExitCode::FAILURE,
        };
    }
    println!("{sum}");
    ExitCode::SUCCESS
}
