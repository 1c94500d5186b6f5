//! Flags of what is done at the shelf: pieces, and orders at suppliers.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use pennantry_contract::table;
use pennantry_measure::Length;

use super::{Once, Reach};
use crate::length::typed;
use crate::typed::{OrderLine, Price, Stretch};
use crate::words;

/// Flags of `receive`.
#[derive(Debug, Args)]
pub struct Receive {
    /// One piece.
    #[command(flatten, next_help_heading = "One piece")]
    pub piece: Piece,
    /// Many pieces.
    #[command(flatten, next_help_heading = "Many pieces")]
    pub sheet: StockTake,
    /// Name of the order at a supplier that they fill.
    #[arg(long, value_name = "ORDER")]
    pub on_order: Option<String>,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten, next_help_heading = "Asking and printing")]
    pub reach: Reach,
}

/// One piece that comes.
#[derive(Debug, Args)]
pub struct Piece {
    /// Code of the fabric, binding or trimming in the catalogue.
    #[arg(value_name = "CODE", required_unless_present_any = ["from", "columns"], requires = "amount")]
    pub code: Option<String>,
    /// How much it holds: a length with its unit, or a plain number of things.
    #[arg(value_name = "LENGTH|COUNT", num_args = 1..)]
    pub amount: Vec<String>,
    /// Dye lot, as the supplier prints it.
    #[arg(long, requires = "code")]
    pub lot: Option<String>,
    /// Usable width of cloth; that of the fabric unless it is said.
    #[arg(long, value_name = "LENGTH", requires = "code", value_parser = typed, allow_hyphen_values = true)]
    pub width: Option<Length>,
    /// Its label; a new one unless it is said.
    #[arg(long, requires = "code")]
    pub label: Option<String>,
    /// What kind of piece it is; what is usual for the material unless it is said.
    #[arg(long, requires = "code", value_parser = words::parser(&table::PIECE_KIND))]
    pub kind: Option<String>,
    /// Where it lies.
    #[arg(long, requires = "code")]
    pub place: Option<String>,
    /// What it cost in all, without tax that comes back.
    #[arg(long, value_name = "AMOUNT", requires = "code")]
    pub cost: Option<Price>,
    /// Who it came from.
    #[arg(long, requires = "code")]
    pub supplier: Option<String>,
    /// How the supplier calls it.
    #[arg(long, requires = "code")]
    pub reference: Option<String>,
    /// Number of a certificate that came with it. May be said again.
    #[arg(long, requires = "code")]
    pub certificate: Vec<String>,
    /// A flaw, from the free end. May be said again.
    #[arg(long, value_name = "FROM..TO", requires = "code")]
    pub flaw: Vec<Stretch>,
}

/// Many pieces that come.
#[derive(Debug, Args)]
pub struct StockTake {
    /// A file of comma-separated values, one piece a line, or - for standard input. All lines
    /// are checked first; then up to 5 000 pieces come in one call, all of them or none.
    #[arg(long, value_name = "FILE|-", conflicts_with_all = ["Piece", "columns"])]
    pub from: Option<PathBuf>,
    /// With --from: read and check the file here, and ask nobody. Codes, labels that are taken
    /// and the order are for the server to judge.
    #[arg(long, requires = "from", conflicts_with = "Piece")]
    pub check: bool,
    /// With --from: say on standard error how far it is, which is said anyway at a terminal.
    #[arg(long, requires = "from", conflicts_with = "Piece")]
    pub progress: bool,
    /// Say which columns such a file may have.
    #[arg(long, conflicts_with_all = ["Piece", "on_order", "json"])]
    pub columns: bool,
}

/// Flags of `bolts`.
#[derive(Debug, Args)]
pub struct Bolts {
    /// Code of a material; all of them unless it is said.
    #[arg(value_name = "CODE")]
    pub code: Option<String>,
    /// A dye lot alone.
    #[arg(long)]
    pub lot: Option<String>,
    /// Pieces on which nothing lies any longer, too.
    #[arg(long)]
    pub empty: bool,
    /// As comma-separated values that "receive --from" reads.
    #[arg(long, conflicts_with_all = ["empty", "json", "show", "plain"])]
    pub csv: bool,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `piece`.
#[derive(Debug, Args)]
pub struct OnePiece {
    /// Label of the piece.
    pub label: String,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// What is said of every fact about a piece.
#[derive(Debug, Args)]
pub struct Fact {
    /// Whatever else there is to say.
    #[arg(long, value_name = "WORDS")]
    pub note: Option<String>,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `count` and `found`.
#[derive(Debug, Args)]
pub struct HowMuch {
    /// Label of the piece.
    pub label: String,
    /// A length with its unit, or a plain number of things.
    #[arg(value_name = "LENGTH|COUNT", num_args = 1.., required = true)]
    pub amount: Vec<String>,
    /// The rest.
    #[command(flatten)]
    pub fact: Fact,
}

/// Flags of `gone`.
#[derive(Debug, Args)]
pub struct Gone {
    /// Label of the piece.
    pub label: String,
    /// A length with its unit, or a plain number of things.
    #[arg(value_name = "LENGTH|COUNT", num_args = 1.., required = true)]
    pub amount: Vec<String>,
    /// Why.
    #[arg(long, value_name = "REASON", value_parser = words::parser(&table::STOCK_REASON))]
    pub why: String,
    /// The rest.
    #[command(flatten)]
    pub fact: Fact,
}

/// Flags of `flaw`.
#[derive(Debug, Args)]
pub struct Flaw {
    /// Label of the piece.
    pub label: String,
    /// A flaw, from the free end of the piece as it lies now, beside those that are known.
    #[arg(value_name = "FROM..TO", required_unless_present = "none")]
    pub flaws: Vec<Stretch>,
    /// These are all of its flaws: what was known before is none.
    #[arg(long)]
    pub all: bool,
    /// It has none, or none any longer.
    #[arg(long, conflicts_with_all = ["flaws", "all"])]
    pub none: bool,
    /// The rest.
    #[command(flatten)]
    pub fact: Fact,
}

/// Flags of `move`.
#[derive(Debug, Args)]
pub struct Move {
    /// Label of the piece.
    pub label: String,
    /// Where it lies now.
    #[arg(num_args = 1.., required = true)]
    pub place: Vec<String>,
    /// The rest.
    #[command(flatten)]
    pub fact: Fact,
}

/// What is done with orders at suppliers.
#[derive(Debug, Subcommand)]
pub enum Order {
    /// Place an order; what is received on it fills it.
    Place(Place),
    /// List the orders on which something is to come.
    List(Orders),
    /// Call off what has not come of an order.
    Cancel(CancelOrder),
}

impl Order {
    /// Whether the answer is wanted as JSON.
    pub fn is_json(&self) -> bool {
        match self {
            Order::Place(flags) => flags.fact.reach.json,
            Order::List(flags) => flags.reach.json,
            Order::Cancel(flags) => flags.reach.json,
        }
    }
}

/// Flags of `order place`.
#[derive(Debug, Args)]
pub struct Place {
    /// Who is to send it.
    pub supplier: String,
    /// Day on which it is expected, such as 2026-12-04.
    #[arg(long, value_name = "DATE")]
    pub by: String,
    /// What is ordered: a code, = and a length with its unit or a plain number. May be said again.
    #[arg(long, value_name = "CODE=LENGTH|COUNT", required = true)]
    pub line: Vec<OrderLine>,
    /// Name of the order; a new one unless it is said.
    #[arg(long, value_name = "ORDER")]
    pub name: Option<String>,
    /// The rest.
    #[command(flatten)]
    pub fact: Fact,
}

/// Flags of `order list`.
#[derive(Debug, Args)]
pub struct Orders {
    /// Those on which nothing is to come any longer, too.
    #[arg(long)]
    pub closed: bool,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}

/// Flags of `order cancel`.
#[derive(Debug, Args)]
pub struct CancelOrder {
    /// Name of the order.
    #[arg(value_name = "ORDER")]
    pub order: String,
    /// Why.
    #[arg(long, value_name = "WORDS")]
    pub because: Option<String>,
    /// Doing it once.
    #[command(flatten)]
    pub once: Once,
    /// Asking and printing.
    #[command(flatten)]
    pub reach: Reach,
}
