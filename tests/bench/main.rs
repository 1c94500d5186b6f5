//! Speed, measured against a floor in the same run, and instruction counts.
//!
//! ```text
//! cargo run --release -p pennantry-tests --bin bench               the table of the README
//! cargo run --release -p pennantry-tests --bin bench -- draw FILE  the same, and its picture
//! cargo run --release -p pennantry-tests --bin bench -- stock      the table of the stock
//! cargo run --release -p pennantry-tests --bin bench -- report     that of the nightly report
//! cargo run --release -p pennantry-tests --bin bench   once calc 100   work for an instruction counter
//! ```
//!
//! All figures of the table are processor time, not wall time: C, the calculation
//! alone, and K, reading, converting and writing alone; F, the same stack taking the
//! same request and answering canned bytes of the answer's size, and D, the real door,
//! loaded over real sockets, for the public JSON and for the private gRPC.
//!
//! C and K are told twice: in a loop, where everything is warm, and behind the sockets of
//! the floor, less the floor, where caches are as a server finds them.

mod begin;
mod floor;
mod growth;
mod load;
mod picture;
mod report;
mod shared;
mod stock;
mod table;
mod work;

use std::io::Write;
use std::path::Path;
use std::process::ExitCode;

use pennantry_tests::client::Way;
use work::Bench;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["once", what, times] => once(what, times.parse().unwrap_or(1)),
        ["question", "json"] => question(Way::Json),
        ["question", "grpc"] => question(Way::Grpc),
        ["stock"] => stock::table(None),
        ["stock", part] => stock::table(Some(part)),
        ["report"] => report::table(),
        ["serve", what] => floor::serve(what),
        ["draw", path] => table::table(Some(Path::new(path))),
        [] => table::table(None),
        _ => unknown(),
    }
}

fn unknown() -> ExitCode {
    eprintln!("no such benchmark: nothing, draw FILE, stock, or report");
    ExitCode::FAILURE
}

/// Prints the question, for who loads a server from outside.
fn question(way: Way) -> ExitCode {
    let Some(bench) = Bench::new(10_000) else { return ExitCode::FAILURE };
    let printed = std::io::stdout().lock().write_all(&bench.asked(way));
    if printed.is_ok() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// Does one kind of work so many times, and nothing else: an instruction counter takes
/// the difference of two runs.
fn once(what: &str, times: u32) -> ExitCode {
    let Some(bench) = Bench::new(10_000) else { return ExitCode::FAILURE };
    let message = bench.asked(Way::Grpc);
    let mut sum = 0_u64;
    for _ in 0..times {
        sum += match what {
            "calc" => std::hint::black_box(&bench).calculate(),
            "convert" => u64::try_from(std::hint::black_box(&bench).convert()).unwrap_or(0),
            "convert-grpc" => {
                u64::try_from(std::hint::black_box(&bench).convert_message(&message)).unwrap_or(0)
            }
            _ => return ExitCode::FAILURE,
        };
    }
    println!("{sum}");
    ExitCode::SUCCESS
}
