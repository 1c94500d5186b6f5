//! The table of the README, in one run, and its picture.

use std::path::Path;
use std::process::ExitCode;

use pennantry_tests::client::Way;
use pennantry_tests::instructions;

use crate::growth::{Size, catalogues, lengths};
use crate::load::{Door, ROUNDS};
use crate::shared::{ended, told};
use crate::{begin, picture};

/// Measures everything, prints it, and draws it where that is asked.
pub fn table(drawn: Option<&Path>) -> ExitCode {
    ended(measure(drawn))
}

/// Instructions of C, K, F and D, where they could be counted.
type Counts = Option<[[i64; 4]; 2]>;

fn measure(drawn: Option<&Path>) -> Result<(), String> {
    // The allocator of the C library takes no locks while a process has one thread. A server has
    // several, so C and K are measured beside a second thread, kept until the end.
    let (idle, waits) = std::sync::mpsc::channel::<()>();
    let second = std::thread::spawn(move || waits.recv());
    let doors = [Door::measure(Way::Json)?, Door::measure(Way::Grpc)?];
    let (by_length, by_catalogue) = (lengths()?, catalogues()?);
    drop(idle);
    let _ = second.join();
    print_doors(&doors, counts());
    print_growth(&by_length, &by_catalogue);
    let (start, memory) = begin::measure()?;
    println!("\nFrom start to the first answer {start:.1} ms, memory when idle {memory:.0} MB.");
    if let Some(path) = drawn {
        std::fs::write(path, picture::draw(&doors, &by_length)).map_err(told)?;
        println!("\ndrawn: {}", path.display());
    }
    Ok(())
}

fn counts() -> Counts {
    let program = std::env::current_exe().ok()?;
    match instructions::count(&program) {
        Ok(counted) => {
            let of = |name| counted.iter().find(|(what, _)| *what == name).map_or(0, |(_, count)| *count);
            let c = of("calc");
            Some([
                [of("floor"), c, of("convert"), of("door")],
                [of("floor-grpc"), c, of("convert-grpc"), of("door-grpc")],
            ])
        }
        Err(fault) => {
            eprintln!("instructions are not counted: {fault}");
            None
        }
    }
}

fn print_doors(doors: &[Door; 2], counts: Counts) {
    let [json, grpc] = doors;
    println!(
        "Ten metres in four fabrics: {} bytes asked and {} answered in JSON, {} and {} over gRPC.\n",
        json.bytes[0], json.bytes[1], grpc.bytes[0], grpc.bytes[1]
    );
    println!(
        "| processor µs a request, median of {ROUNDS} rounds | JSON, behind sockets | in a loop | instructions | gRPC, behind sockets | in a loop | instructions |"
    );
    println!("|---|---|---|---|---|---|---|");
    let count = |door: usize, what: usize| {
        counts.and_then(|counts| counts.get(door)?.get(what).copied()).map_or_else(String::new, grouped)
    };
    let row = |name: &str, what: usize, micros: [[Option<f64>; 2]; 2]| {
        let cells = micros.into_iter().enumerate().map(|(door, [cold, warm])| {
            format!("{} | {} | {}", figure(cold), figure(warm), count(door, what))
        });
        println!("| {name} | {} |", cells.collect::<Vec<_>>().join(" | "));
    };
    let each = |of: fn(&Door) -> [Option<f64>; 2]| [of(json), of(grpc)];
    row(
        "F the floor: the same stack, taking the same request, answering canned bytes of that size",
        0,
        each(|d| [Some(d.floor), None]),
    );
    row("C the calculation alone", 1, each(|d| d.calculate.map(Some)));
    row("K reading, converting and writing alone", 2, each(|d| d.convert.map(Some)));
    row("D the door", 3, each(|d| [Some(d.whole), None]));
    let ratios = |door: usize, of: &Door| {
        let [cold, warm] = of.ratios();
        let counted = counts.and_then(|counts| counts.get(door).copied());
        let counted = counted.map_or_else(String::new, |[f, c, k, d]| format!("{:.2}", ratio(d - f, c + k)));
        format!("**{cold:.2}** | {warm:.2} | {counted}")
    };
    println!("| (D - F) / (C + K), goal 1.1 | {} | {} |", ratios(0, json), ratios(1, grpc));
    println!("\n| answers a second, four clients on the same processors | JSON | gRPC |");
    println!("|---|---|---|");
    for (place, name) in [(0_usize, "the floor"), (1, "the door")] {
        let rate = |door: &Door| door.rates.get(place).map_or_else(String::new, |rate| grouped_rate(*rate));
        println!("| {name} | {} | {} |", rate(json), rate(grpc));
    }
}

fn print_growth(by_length: &[Size], by_catalogue: &[Size]) {
    println!("\n| length | C, µs | K, µs | bytes answered |");
    println!("|---|---|---|---|");
    for size in by_length {
        let metres = f64::from(size.of) / 1_000.0;
        println!(
            "| {metres} m | {:.1} | {:.1} | {} |",
            size.calculate,
            size.convert,
            grouped_size(size.bytes)
        );
    }
    println!(
        "\n(Less than 20 cm: pennants 60 mm wide.)\n\n| fabrics in the catalogue | C, µs | K, µs | read in, ms |"
    );
    println!("|---|---|---|---|");
    for size in by_catalogue {
        let fabrics = i64::from(size.of);
        println!("| {} | {:.1} | {:.1} | {:.1} |", grouped(fabrics), size.calculate, size.convert, size.read);
    }
}

fn figure(micros: Option<f64>) -> String {
    micros.map_or_else(String::new, |micros| format!("{micros:.1}"))
}

fn ratio(over: i64, under: i64) -> f64 {
    // counts of some hundred thousand are exact in a double
    let of = |count: i64| i32::try_from(count).map_or(f64::NAN, f64::from);
    of(over) / of(under)
}

fn grouped_size(count: usize) -> String {
    grouped(i64::try_from(count).unwrap_or(i64::MAX))
}

fn grouped_rate(rate: f64) -> String {
    format!("{rate:.0}").parse().map_or_else(|_| String::new(), grouped)
}

/// Digits in threes, as the README writes them.
fn grouped(count: i64) -> String {
    let digits = count.to_string();
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(' ');
        }
        text.push(digit);
    }
    text
}
