//! The command line: what can be typed.

mod held;
mod reach;
mod shelf;
mod values;

use clap::{Args, Parser, Subcommand};
use pennantry_contract::table;
use pennantry_measure::Length;

pub use self::held::{Amend, Cancel, Confirm, Cut, Extend, Release, Reservations, Reserve, Undo, Watch};
pub use self::reach::{Once, Reach};
pub use self::shelf::{
    Bolts, CancelOrder, Fact, Flaw, Gone, HowMuch, Move, OnePiece, Order, Orders, Piece, Place, Receive,
    StockTake,
};
pub use self::values::{Discount, Each, Trimming};
use self::values::{each, number, yes_or_no};
use crate::length::{Unit, typed};
use crate::words;

/// Where the server's private door is unless it is said.
pub const SERVER: &str = "http://127.0.0.1:50051";

/// The staff command line of Pennantry: quotes for fabric bunting made to length, and the
/// shelf that it is cut from.
///
/// Lengths are written with their unit, at the shelf too: 2.4 m, 240 cm, 7 1/2 in, 5 yd; a
/// whole number alone is a count of things. Every command ends with 0 when it is done, 1 when
/// the server refuses it, 2 when it could not be asked. What changes something carries an
/// identity, so where no answer comes it is sent again and done once.
#[derive(Debug, Parser)]
#[command(name = "pennantry", version, about)]
pub struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Ask the shop's server for a quote and print it as a sheet.
    ///
    /// Lengths are written with their unit: 2500 mm, 250 cm, 2.5 m, 7 1/2 in, 20 ft 4 in, 5 yd.
    /// What is not said is the design's. The shop's own view is asked, with costs; --view buyer
    /// leaves them out. Ends with 0 when there is an answer, 1 when it is refused, 2 when it
    /// could not be asked.
    Quote(Box<Quote>),
    /// Put pieces on the shelf: one by flags, or a whole stock-take from a file.
    #[command(display_order = 10)]
    Receive(Box<Receive>),
    /// List what lies on the shelf.
    #[command(display_order = 10)]
    Bolts(Bolts),
    /// Show a piece, what is promised of it, and what was moved.
    #[command(display_order = 10)]
    Piece(OnePiece),
    /// Record a count: so much lies on it. 0 where nothing does.
    #[command(display_order = 11)]
    Count(HowMuch),
    /// Record that so much of a piece is gone.
    #[command(display_order = 11)]
    Gone(Gone),
    /// Record that so much was found that was not on the books.
    #[command(display_order = 11)]
    Found(HowMuch),
    /// Record flaws of a piece.
    #[command(display_order = 11)]
    Flaw(Flaw),
    /// Record where a piece lies now.
    #[command(display_order = 11)]
    Move(Move),
    /// Hold what a quote needs: by its ticket, or asking for the quote first.
    ///
    /// Every flag of "quote" can be typed. Then the total and what was found are printed before
    /// it is held, and the list of what to take from the shelf after.
    #[command(display_order = 20)]
    Reserve(Box<Reserve>),
    /// List reservations, or show one as a list of what to take from the shelf.
    #[command(display_order = 20)]
    Reservations(Reservations),
    /// Make a hold a promise.
    #[command(display_order = 20)]
    Confirm(Confirm),
    /// Give a hold more time.
    #[command(display_order = 20)]
    Extend(Extend),
    /// Let a hold go.
    #[command(display_order = 20)]
    Release(Release),
    /// Call a reservation off, confirmed or cut; what is cut stays cut.
    #[command(display_order = 20)]
    Cancel(Cancel),
    /// Plan what is still to be cut anew on what lies on the shelf now.
    #[command(display_order = 20)]
    Amend(Amend),
    /// Record what the bench has cut: all of it as planned, or one line by flags.
    #[command(display_order = 30)]
    Cut(Box<Cut>),
    /// Take a cut back.
    #[command(display_order = 30)]
    Undo(Undo),
    /// Place, list and call off orders at suppliers.
    #[command(display_order = 40, subcommand)]
    Order(Order),
    /// Tell what happens to stock and reservations, a line an event, until it is stopped.
    #[command(display_order = 50)]
    Watch(Watch),
}

/// Flags of `quote`.
#[derive(Debug, Args)]
pub struct Quote {
    /// The wanted length.
    #[command(flatten, next_help_heading = "The wanted length, said in one way")]
    pub length: Wanted,
    /// How pennants are set.
    #[command(flatten, next_help_heading = "Setting")]
    pub setting: Setting,
    /// The pennant.
    #[command(flatten, next_help_heading = "Pennant")]
    pub pennant: Pennant,
    /// Binding, ends and trimmings.
    #[command(flatten, next_help_heading = "Binding, ends and trimmings")]
    pub finish: Finish,
    /// Who is near.
    #[command(flatten, next_help_heading = "Who is near; what is not told never counts as harmless")]
    pub near: Near,
    /// The order.
    #[command(flatten, next_help_heading = "Order")]
    pub order: Ordered,
    /// Asking and printing.
    #[command(flatten, next_help_heading = "Asking and printing")]
    pub sheet: Sheet,
}

/// The wanted length.
#[derive(Debug, Args)]
pub struct Wanted {
    /// Flagged length: first pennant's edge to last pennant's edge. Needs no quotes: 20 ft 4 in.
    #[arg(value_name = "LENGTH", group = "wanted", num_args = 0..)]
    pub length: Vec<String>,
    /// The same, as a flag.
    #[arg(long, value_name = "LENGTH", group = "wanted", value_parser = typed, allow_hyphen_values = true)]
    pub flagged: Option<Length>,
    /// Flagged length and both tails.
    #[arg(long, value_name = "LENGTH", group = "wanted", value_parser = typed, allow_hyphen_values = true)]
    pub overall: Option<Length>,
    /// Binding in hand: overall length and both turn-unders.
    #[arg(long, value_name = "LENGTH", group = "wanted", value_parser = typed, allow_hyphen_values = true)]
    pub binding: Option<Length>,
    /// Level distance from the first hook to the last.
    #[arg(long, value_name = "LENGTH", group = "wanted", value_parser = typed, allow_hyphen_values = true)]
    pub span: Option<Length>,
    /// With --span: how far each swag hangs below its hooks.
    #[arg(long, value_name = "LENGTH", requires = "span", value_parser = typed, allow_hyphen_values = true)]
    pub dip: Option<Length>,
    /// With --span: how many equal swags.
    #[arg(long, value_name = "N", requires = "span", allow_hyphen_values = true)]
    pub swags: Option<u32>,
}

/// How pennants are set.
#[derive(Debug, Args)]
pub struct Setting {
    /// Code of the design.
    #[arg(long, value_name = "CODE")]
    pub design: Option<String>,
    /// How many pennants.
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub pennants: Option<u32>,
    /// Gap, edge to edge; 0 touches, below 0 overlaps.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub gap: Option<Length>,
    /// Least length of binding free at each end.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub tail: Option<Length>,
    /// Least gap.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub least_gap: Option<Length>,
    /// Greatest gap; what it leaves over goes to the tails.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub greatest_gap: Option<Length>,
    /// Where the length goes that is left over.
    #[arg(long, value_parser = words::parser(&table::LEFTOVER))]
    pub leftover: Option<String>,
    /// Odd puts a pennant in the middle, even a gap.
    #[arg(long, value_parser = words::parser(&table::PARITY))]
    pub parity: Option<String>,
}

/// The pennant.
#[derive(Debug, Args)]
pub struct Pennant {
    /// Its shape.
    #[arg(long, value_parser = words::parser(&table::SHAPE))]
    pub shape: Option<String>,
    /// Width of the finished top edge.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub width: Option<Length>,
    /// Finished drop from the top edge to the tip.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub drop: Option<Length>,
    /// Where width, drop, gap and flagged length are taken.
    #[arg(long, value_parser = words::parser(&table::SIZE_AT))]
    pub size_at: Option<String>,
    /// Blunt: width of the foot.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub foot: Option<Length>,
    /// Swallowtail: how deep the notch is.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub notch: Option<Length>,
    /// Shield: length of the straight sides.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub shoulder: Option<Length>,
    /// Scallop: rise of the arc.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub rise: Option<Length>,
    /// How it is made.
    #[arg(long, value_parser = words::parser(&table::CONSTRUCTION))]
    pub construction: Option<String>,
    /// Code of the fabric for the backs of two-layer pennants.
    #[arg(long, value_name = "CODE")]
    pub backing: Option<String>,
    /// Codes of the fabrics, in order, with commas between them.
    #[arg(long, value_name = "CODE,CODE,...", value_delimiter = ',')]
    pub fabrics: Vec<String>,
    /// The order of the fabrics; listed takes one for each pennant.
    #[arg(long, value_parser = words::parser(&table::RULE))]
    pub colours: Option<String>,
    /// Words to letter, one pennant a letter and a plain one for each space.
    #[arg(long, value_name = "WORDS")]
    pub lettering: Option<String>,
}

/// Binding, ends and trimmings.
#[derive(Debug, Args)]
pub struct Finish {
    /// Code of the binding.
    #[arg(long, value_name = "CODE")]
    pub binding_code: Option<String>,
    /// The ends from the left: one word for both, or two with a comma.
    #[arg(long, value_name = "STYLE,STYLE", value_delimiter = ',', value_parser = words::parser(&table::END_STYLE))]
    pub ends: Vec<String>,
    /// Perimeter of a loop. This and what follows is for both ends; said twice, it is for the
    /// left one, then the right one, and "none" passes over an end.
    #[arg(long = "loop", value_name = "LENGTH", value_parser = each(typed), allow_hyphen_values = true)]
    pub loops: Vec<Each<Length>>,
    /// Whether the loop can run smaller, as a noose does: yes or no.
    #[arg(long, value_name = "YES|NO", value_parser = each(yes_or_no))]
    pub slips: Vec<Each<bool>>,
    /// Force at which it parts by design, in newtons.
    #[arg(long, value_name = "N", value_parser = each(number), allow_hyphen_values = true)]
    pub breakaway: Vec<Each<f64>>,
    /// Length of the free end that is to be tied.
    #[arg(long, value_name = "LENGTH", value_parser = each(typed), allow_hyphen_values = true)]
    pub tie: Vec<Each<Length>>,
    /// Length of a second free end at the same end of the string.
    #[arg(long, value_name = "LENGTH", value_parser = each(typed), allow_hyphen_values = true)]
    pub second_tie: Vec<Each<Length>>,
    /// Distance between the roots of the two free ends.
    #[arg(long, value_name = "LENGTH", value_parser = each(typed), allow_hyphen_values = true)]
    pub ties_apart: Vec<Each<Length>>,
    /// Code of a trimming that hangs from the end.
    #[arg(long, value_name = "CODE", value_parser = each(str::parse::<String>))]
    pub end_trimming: Vec<Each<String>>,
    /// Code of a trimming on each pennant and, after a colon, how many. May be said again.
    #[arg(long, value_name = "CODE[:N]")]
    pub trimming: Vec<Trimming>,
}

/// Who is near.
#[derive(Debug, Args)]
pub struct Near {
    /// Who will be near.
    #[arg(long, value_parser = words::parser(&table::WHO))]
    pub who: Option<String>,
    /// Age of the youngest child in months; 0 for one not yet born.
    #[arg(long, value_name = "MONTHS", allow_hyphen_values = true)]
    pub youngest: Option<u32>,
    /// Where it hangs.
    #[arg(long, value_parser = words::parser(&table::PLACE))]
    pub place: Option<String>,
    /// Height of the fixings above whatever a child can stand on.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub fixing_height: Option<Length>,
    /// How many fixings hold it.
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub fixings: Option<u32>,
    /// Level distance from the first fixing to the last.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub fixing_span: Option<Length>,
    /// Level distance to the nearest place where a child sleeps or plays.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub cot_distance: Option<Length>,
    /// Whose rules to look at, with commas between them.
    #[arg(long, value_name = "WHOSE,WHOSE", value_delimiter = ',', value_parser = words::parser(&table::JURISDICTION))]
    pub rules: Vec<String>,
    /// Venue: width of the wall it hangs on.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub wall_width: Option<Length>,
    /// Venue: height of that wall.
    #[arg(long, value_name = "LENGTH", value_parser = typed, allow_hyphen_values = true)]
    pub wall_height: Option<Length>,
}

/// The order.
#[derive(Debug, Args)]
pub struct Ordered {
    /// How many such strings.
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub quantity: Option<u32>,
    /// Country it is sent to, by its two letters.
    #[arg(long, value_name = "COUNTRY")]
    pub to: Option<String>,
    /// Code of the postal service.
    #[arg(long, value_name = "CODE")]
    pub service: Option<String>,
    /// Day by which it should arrive, such as 2026-12-04.
    #[arg(long, value_name = "DATE")]
    pub by: Option<String>,
    /// Made before all that is promised already, for what the shop charges for that.
    #[arg(long)]
    pub rush: bool,
    /// What staff take off the goods: 10% or an amount such as 5.00.
    #[arg(long, value_name = "PERCENT%|AMOUNT", allow_hyphen_values = true)]
    pub discount: Option<Discount>,
    /// Why, for the line on the bill.
    #[arg(long, value_name = "WORDS", requires = "discount")]
    pub reason: Option<String>,
    /// Ask as of this day, at noon: to look at, without a ticket.
    #[arg(long, value_name = "DATE")]
    pub as_of: Option<String>,
}

/// Asking and printing.
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of its own")]
#[derive(Debug, Args)]
pub struct Sheet {
    /// Where the server's private door is.
    #[arg(long, env = "PENNANTRY_SERVER", value_name = "URL", default_value = SERVER)]
    pub server: String,
    /// Whose view: the buyer's has no costs.
    #[arg(long, default_value = "shop", value_parser = words::parser(&table::VIEW))]
    pub view: String,
    /// Unit in which lengths are shown, none of them shortened: mm unless it is said, and m for
    /// what is taken from the shelf.
    #[arg(long, value_enum)]
    pub show: Option<Unit>,
    /// Every mark, not only the first, the pitch and the last.
    #[arg(long)]
    pub marks: bool,
    /// The leaflet that goes into the parcel.
    #[arg(long)]
    pub leaflet: bool,
    /// How each figure was worked out.
    #[arg(long)]
    pub workings: bool,
    /// Look at what is on the shelf now.
    #[arg(long)]
    pub shelf: bool,
    /// Nothing but ASCII: what is not in it is printed as a question mark.
    #[arg(long)]
    pub plain: bool,
    /// The answer as JSON, in one line, as the private door gives it.
    #[arg(long, conflicts_with_all = ["show", "marks", "leaflet", "plain"])]
    pub json: bool,
}
