//! The program: flags in, a sheet or a refusal out, and the exit code.

use std::io::{self, Write};
use std::process::ExitCode;

use clap::Parser;
use pennantry_contract::v1;

use crate::ask::{Door, Failure};
use crate::cli::{Cli, Command, Discount, Quote};
use crate::sheet::Style;
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
    let Command::Quote(flags) = Cli::parse().command;
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    let printed = match runtime {
        Ok(runtime) => runtime.block_on(quote(&flags)),
        Err(cause) => not_asked(&format!("the program cannot start: {cause}")),
    };
    // a reader who has seen enough hangs up: that is no fault
    let _ = io::stdout().write_all(printed.out.as_bytes());
    let _ = io::stderr().write_all(printed.err.as_bytes());
    ExitCode::from(printed.code)
}

/// Asks for a quote and prints it.
pub async fn quote(flags: &Quote) -> Printed {
    match asked(flags).await {
        Ok(response) if flags.sheet.json => json(serde_json::to_string(&response)),
        Ok(v1::CalculateQuoteResponse { quote: Some(quote) }) => {
            Printed { out: sheet::render(&quote, style(flags)), ..Printed::default() }
        }
        Ok(v1::CalculateQuoteResponse { quote: None }) => not_asked("the server's answer is empty"),
        Err(Failure::NotAsked(words)) => not_asked(&words),
        Err(Failure::Refused { refusal, left_out }) => {
            let out =
                if flags.sheet.json { json(serde_json::to_string(&refusal)).out } else { String::new() };
            Printed { out, err: refused(&refusal, left_out), code: REFUSED }
        }
    }
}

async fn asked(flags: &Quote) -> Result<v1::CalculateQuoteResponse, Failure> {
    enquiry::check(flags).map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.sheet.server).await?;
    let minor_digits = match flags.order.discount {
        // only the catalogue knows what 5.00 is in minor units
        Some(Discount::Amount { .. }) => Some(door.minor_digits().await?),
        _ => None,
    };
    door.quote(enquiry::fill(flags, minor_digits).map_err(Failure::NotAsked)?).await
}

fn style(flags: &Quote) -> Style {
    let sheet = &flags.sheet;
    Style {
        unit: sheet.show,
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

fn not_asked(words: &str) -> Printed {
    Printed { err: format!("{}\n", sheet::page::clean(words, false)), code: NOT_ASKED, ..Printed::default() }
}

/// Every violation, with the flag that it is about and the field of the contract.
fn refused(refusal: &v1::Refusal, left_out: u32) -> String {
    let mut lines = vec![format!("refused ({})", refusal.reason)];
    if refusal.violations.is_empty() {
        lines.push(format!("  {}", refusal.detail));
    }
    for violation in &refusal.violations {
        let about = match (flags::of(&violation.field), violation.field.as_str()) {
            (Some(flag), field) => format!("{flag} ({field})"),
            (None, "") => "all of it".to_owned(),
            (None, field) => field.to_owned(),
        };
        lines.push(format!("  {about}: {} ({})", violation.message, violation.reason));
    }
    if left_out > 0 {
        lines.push(format!("  and {left_out} more, told when these are mended"));
    }
    let clean = lines.iter().map(|line| sheet::page::clean(line, false) + "\n");
    clean.collect()
}
