//! Flags of what is done with reservations, at the counter and at the bench.

use clap::Args;
use pennantry_contract::table;

use super::{Once, Quote, Reach};
use crate::typed::{Amount, Offcut, Span};
use crate::words;

/// Flags of `reserve`.
#[derive(Debug, Args)]
pub struct Reserve {
    /// The ticket of a quote, or - to read it from standard input. Without it the quote is asked
    /// for first, by the flags of "quote".
    #[arg(long, value_name = "TOKEN|-", conflicts_with_all = ["wanted", "Wanted", "Setting", "Pennant", "Finish", "Near", "Ordered"])]
    pub token: Option<String>,
    /// Rules about small children that the buyer has read and acknowledges, with commas between
    /// them, such as R05,R07.
    #[arg(long, value_name = "RULE,RULE,...", value_delimiter = ',')]
    pub acknowledge: Vec<String>,
    /// Why it is taken though a rule or a missing acknowledgement stands in the way. Goes on the
    /// record.
    #[arg(long = "override", value_name = "WORDS")]
    pub override_reason: Option<String>,
    /// For how long, such as 30min or 2d; 15 minutes unless it is said.
    #[arg(long = "for", value_name = "SPAN")]
    pub lasting: Option<Span>,
    /// A hold whose place it takes, in one step.
    #[arg(long, value_name = "RESERVATION")]
    pub instead_of: Option<String>,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// The quote.
    #[command(flatten)]
    pub quote: Quote,
}

/// Flags of `reservations`.
#[derive(Debug, Args)]
pub struct Reservations {
    /// One of them, with what it takes of which piece.
    #[arg(value_name = "RESERVATION", conflicts_with_all = ["state", "short"])]
    pub id: Option<String>,
    /// Those in these states, with commas between them; held and confirmed unless it is said.
    #[arg(long, value_name = "STATE,STATE,...", value_delimiter = ',', value_parser = words::parser(&table::RESERVATION_STATE))]
    pub state: Vec<String>,
    /// Those alone of which a fact took something.
    #[arg(long)]
    pub short: bool,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `confirm`.
#[derive(Debug, Args)]
pub struct Confirm {
    /// The reservation.
    #[arg(value_name = "RESERVATION")]
    pub id: String,
    /// The shop's own number of the order.
    #[arg(long, value_name = "NUMBER")]
    pub order_ref: Option<String>,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `extend`.
#[derive(Debug, Args)]
pub struct Extend {
    /// The reservation.
    #[arg(value_name = "RESERVATION")]
    pub id: String,
    /// For how long from now on, such as 30min or 2d; 15 minutes unless it is said.
    #[arg(long = "for", value_name = "SPAN")]
    pub span: Option<Span>,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `release`.
#[derive(Debug, Args)]
pub struct Release {
    /// The reservation.
    #[arg(value_name = "RESERVATION")]
    pub id: String,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `cancel`.
#[derive(Debug, Args)]
pub struct Cancel {
    /// The reservation.
    #[arg(value_name = "RESERVATION")]
    pub id: String,
    /// Why.
    #[arg(long, value_name = "WORDS")]
    pub because: String,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `amend`.
#[derive(Debug, Args)]
pub struct Amend {
    /// The reservation.
    #[arg(value_name = "RESERVATION")]
    pub id: String,
    /// The ticket of another quote that it is for from now on, or - to read it from standard
    /// input. Without it, only what is missing is planned anew.
    #[arg(long, value_name = "TOKEN|-")]
    pub token: Option<String>,
    /// Rules about small children that are acknowledged, with commas between them.
    #[arg(long, value_name = "RULE,RULE,...", value_delimiter = ',')]
    pub acknowledge: Vec<String>,
    /// Why it is taken though a rule stands in the way. Goes on the record.
    #[arg(long = "override", value_name = "WORDS")]
    pub override_reason: Option<String>,
    /// Why it is amended.
    #[arg(long, value_name = "WORDS")]
    pub because: Option<String>,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `cut`.
#[derive(Debug, Args)]
pub struct Cut {
    /// The reservation.
    #[arg(value_name = "RESERVATION")]
    pub id: String,
    /// The line of the reservation.
    #[arg(long, value_name = "N", requires = "taken")]
    pub line: Option<u32>,
    /// All that came off the piece: a length with its unit, or a plain number of things.
    #[arg(long, value_name = "LENGTH|COUNT", requires = "line")]
    pub taken: Option<Amount>,
    /// How much of that was spoiled.
    #[arg(long, value_name = "LENGTH|COUNT", requires = "line", requires = "why")]
    pub spoiled: Option<Amount>,
    /// Why it was spoiled.
    #[arg(long, value_name = "REASON", requires = "spoiled", value_parser = words::parser(&table::STOCK_REASON))]
    pub why: Option<String>,
    /// An offcut that might be kept; all but its length can be left out. May be said again.
    #[arg(long, value_name = "LABEL=LENGTH*WIDTH@PLACE", requires = "line")]
    pub kept: Vec<Offcut>,
    /// Label of the piece, where it is another one than the line says.
    #[arg(long, value_name = "LABEL", requires = "line")]
    pub piece: Option<String>,
    /// Cut shapes that it gave; all that are left unless it is said.
    #[arg(long, value_name = "N", requires = "line")]
    pub shapes: Option<u32>,
    /// The line is done, however little it took.
    #[arg(long, requires = "line")]
    pub done: bool,
    /// The day on which it was cut, where it is recorded later: up to 31 days ago.
    #[arg(long, value_name = "DATE", default_value = "")]
    pub on: String,
    /// Whatever else there is to say.
    #[arg(long, value_name = "WORDS", requires = "line")]
    pub note: Option<String>,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `undo`.
#[derive(Debug, Args)]
pub struct Undo {
    /// Name of the cut.
    #[arg(value_name = "CUT")]
    pub cut: String,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `watch`.
#[derive(Debug, Args)]
pub struct Watch {
    /// Place of the last event that is known; 0 tells them from the first. From now on unless it
    /// is said.
    #[arg(long, value_name = "PLACE", value_parser = clap::value_parser!(i64).range(0..))]
    pub after: Option<i64>,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}
