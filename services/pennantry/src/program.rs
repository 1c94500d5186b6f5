//! The program: flags in, a sheet or a refusal out, and the exit code.

use std::io::{self, Write};
use std::process::ExitCode;

use clap::Parser;
use pennantry_contract::v1;

use crate::ask::{Door, Failure};
use crate::cli::{Cli, Command, Discount, Quote};
use crate::flags::typed::{BOLTS, CUT, FACT, HOLD, ORDER, RECEIVE};
use crate::sheet::Style;
use crate::work::{bench, held, orders, receive, shelf, watch};
use crate::{enquiry, flags, sheet};

/// Exit code: refused.
pub const REFUSED: u8 = 1;
/// Exit code: it could not be asked.
pub const NOT_ASKED: u8 = 2;

/// What is printed where, and the exit code.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Printed {
    /// For standard output.
    pub out: String,
    /// For standard error.
    pub err: String,
    /// The exit code.
    pub code: u8,
}

/// Reads the command line and does what it says.
pub fn main() -> ExitCode {
    let command = Cli::parse().command;
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    let printed = match runtime {
        Ok(runtime) => runtime.block_on(run(&command)),
        Err(cause) => not_asked(&format!("the program cannot start: {cause}")),
    };
    // a reader who has seen enough hangs up: that is no fault
    let _ = io::stdout().write_all(printed.out.as_bytes());
    let _ = io::stderr().write_all(printed.err.as_bytes());
    ExitCode::from(printed.code)
}

/// Does what a command says.
pub async fn run(command: &Command) -> Printed {
    let (done, json, about) = match command {
        Command::Quote(flags) => return quote(flags).await,
        Command::Receive(flags) => (receive::run(flags).await, flags.reach.json, RECEIVE),
        Command::Bolts(flags) => (shelf::bolts(flags).await, flags.reach.json, BOLTS),
        Command::Piece(flags) => (shelf::one(flags).await, flags.reach.json, FACT),
        Command::Count(flags) => (shelf::count(flags).await, flags.fact.reach.json, FACT),
        Command::Gone(flags) => (shelf::gone(flags).await, flags.fact.reach.json, FACT),
        Command::Found(flags) => (shelf::found(flags).await, flags.fact.reach.json, FACT),
        Command::Flaw(flags) => (shelf::flaw(flags).await, flags.fact.reach.json, FACT),
        Command::Move(flags) => (shelf::moved(flags).await, flags.fact.reach.json, FACT),
        Command::Reserve(flags) => (held::reserve(flags).await, flags.quote.sheet.json, HOLD),
        Command::Reservations(flags) => (held::list(flags).await, flags.reach.json, HOLD),
        Command::Confirm(flags) => (held::confirm(flags).await, flags.reach.json, HOLD),
        Command::Extend(flags) => (held::extend(flags).await, flags.reach.json, HOLD),
        Command::Release(flags) => (held::release(flags).await, flags.reach.json, HOLD),
        Command::Cancel(flags) => (held::cancel(flags).await, flags.reach.json, HOLD),
        Command::Amend(flags) => (held::amend(flags).await, flags.reach.json, HOLD),
        Command::Cut(flags) => (bench::cut(flags).await, flags.reach.json, CUT),
        Command::Undo(flags) => (bench::undo(flags).await, flags.reach.json, CUT),
        Command::Order(what) => (orders::run(what).await, what.is_json(), ORDER),
        Command::Watch(flags) => {
            let told = watch::run(flags, &mut io::stdout(), &mut io::stderr()).await;
            (told.map(|()| Printed::default()), flags.reach.json, &[][..])
        }
    };
    done.unwrap_or_else(|failure| failed(failure, json, &told_by(about)))
}

/// Asks for a quote and prints it.
pub async fn quote(flags: &Quote) -> Printed {
    match asked(flags).await {
        Ok(response) if flags.sheet.json => json(serde_json::to_string(&response)),
        Ok(v1::CalculateQuoteResponse { quote: Some(quote) }) => {
            Printed { out: sheet::render(&quote, style(flags)), ..Printed::default() }
        }
        Ok(v1::CalculateQuoteResponse { quote: None }) => not_asked("the server's answer is empty"),
        Err(failure) => failed(failure, flags.sheet.json, &flags::of),
    }
}

/// What is printed where there is no answer. `about` says what is typed for a field.
pub(crate) fn failed(failure: Failure, as_json: bool, about: &dyn Fn(&str) -> Option<String>) -> Printed {
    match failure {
        Failure::NotAsked(words) => not_asked(&words),
        Failure::Refused { refusal, left_out } => {
            let out = if as_json { json(serde_json::to_string(&refusal)).out } else { String::new() };
            Printed { out, err: refused(&refusal, left_out, about), code: REFUSED }
        }
    }
}

/// What is typed for a field, by a table of the command's own, by the longest path of it that the
/// field is under, then by that of a quote.
pub(crate) fn told_by(table: &'static [(&'static str, &'static str)]) -> impl Fn(&str) -> Option<String> {
    move |path| flags::under(table, path).or_else(|| flags::of(path))
}

/// Asks for the quote of the flags.
///
/// # Errors
/// Refused, or not asked.
pub(crate) async fn asked(flags: &Quote) -> Result<v1::CalculateQuoteResponse, Failure> {
    enquiry::check(flags).map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.sheet.server).await?;
    let minor_digits = match flags.order.discount {
        // only the catalogue knows what 5.00 is in minor units
        Some(Discount::Amount { .. }) => Some(door.currency().await?.minor_digits),
        _ => None,
    };
    door.quote(enquiry::fill(flags, minor_digits).map_err(Failure::NotAsked)?).await
}

fn style(flags: &Quote) -> Style {
    let sheet = &flags.sheet;
    Style {
        unit: sheet.show.unwrap_or_default(),
        plain: sheet.plain,
        marks: sheet.marks,
        leaflet: sheet.leaflet,
        workings: sheet.workings,
    }
}

/// A message in standard proto3 JSON, in one line: the bytes of the private door.
fn json(written: Result<String, serde_json::Error>) -> Printed {
    match written {
        Ok(line) => Printed { out: format!("{line}\n"), ..Printed::default() },
        Err(cause) => not_asked(&format!("the answer cannot be written as JSON: {cause}")),
    }
}

pub(crate) fn not_asked(words: &str) -> Printed {
    let err = words.lines().map(|line| sheet::page::clean(line, false) + "\n").collect();
    Printed { err, code: NOT_ASKED, ..Printed::default() }
}

/// Every violation, with the flag that it is about and the field of the contract.
fn refused(refusal: &v1::Refusal, left_out: u32, about: &dyn Fn(&str) -> Option<String>) -> String {
    let mut lines = vec![format!("refused ({})", refusal.reason)];
    if refusal.violations.is_empty() {
        lines.push(format!("  {}", refusal.detail));
    }
    for violation in &refusal.violations {
        let whose = match (about(&violation.field), violation.field.as_str()) {
            (Some(flag), field) => format!("{flag} ({field})"),
            (None, "") => "all of it".to_owned(),
            (None, field) => field.to_owned(),
        };
        lines.push(format!("  {whose}: {} ({})", violation.message, violation.reason));
    }
    if left_out > 0 {
        lines.push(format!("  and {left_out} more, told when these are mended"));
    }
    let clean = lines.iter().map(|line| sheet::page::clean(line, false) + "\n");
    clean.collect()
}
