//! What a report says: plain data, parallel to the contract's messages.
//!
//! Lengths are whole micrometres. What lies there, is promised, used or ordered is exact; what
//! is expected is rounded to the nearest millimetre, and what is a level to order by, up to the
//! next. Days are numbered from the first of January 1970. What nobody can say is none, and a
//! note says why.

use pennantry_forecast::demand::class::Class;
use pennantry_forecast::demand::kpi::Abc;
use pennantry_forecast::supply::service::Service;
use pennantry_ledger::rules::At;
use pennantry_measure::{Length, Money};

/// A fabric in a report.
#[derive(Debug, Clone, PartialEq)]
pub struct FabricReport {
    /// Code in the catalogue, or on the shelf where the catalogue has it not.
    pub code: String,
    /// Its name; the code where the catalogue has none.
    pub name: String,
    /// Lies there and is promised to nobody.
    pub free: Length,
    /// Used in the four weeks before the day of the report.
    pub used: Length,
    /// Usual for as many open days at this time of the year.
    pub usual: Option<Length>,
    /// Ordered and still to come.
    pub on_order: Length,
    /// For how many weeks what is free, in full width, will last, deliveries left out.
    pub weeks_left: Option<f64>,
    /// Last day on which an order still comes in time; where an order is late, without that.
    pub order_by: Option<i32>,
    /// What to order.
    pub proposal: Option<Length>,
    /// What needs doing, in a sentence; empty where nothing does.
    pub sentence: String,
    /// How pressing it is.
    pub pressing: Pressing,
    /// How the figures came about.
    pub detail: Detail,
}

/// How pressing something is; the most pressing is the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Pressing {
    /// Nothing is to be done.
    #[default]
    Nothing,
    /// Something should be looked at.
    Look,
    /// Something should be ordered in the next weeks.
    Soon,
    /// Something should be done today.
    Today,
}

/// How the figures of a fabric came about.
#[derive(Debug, Clone, PartialEq)]
pub struct Detail {
    /// As of when the shelf is told.
    pub as_of: At,
    /// What lies there in all.
    pub on_hand: Length,
    /// Held for a while.
    pub held: Length,
    /// Confirmed and not cut yet.
    pub confirmed: Length,
    /// Promised and not there, by holds as well as by what is confirmed.
    pub short: Length,
    /// On hand less held, confirmed and short, with what is on order, in full width.
    pub position: Length,
    /// Kind of demand.
    pub demand_class: Class,
    /// Weeks on average between weeks in which it was used; none before the second of them.
    pub interval: Option<f64>,
    /// Squared coefficient of variation of what a week used, of weeks that did.
    pub size_variation: Option<f64>,
    /// The method that was chosen; empty where there is too little to choose by.
    pub method: String,
    /// Whether the season is in it.
    pub seasonal: bool,
    /// Every method that was tried.
    pub scores: Vec<MethodScore>,
    /// Expected use of an open day.
    pub rate: Option<Length>,
    /// Weeks of the past, the oldest first; the last is the one that runs, up to yesterday.
    pub past: Vec<PastWeek>,
    /// Weeks to come; the first is what is left of the one that runs, today included.
    pub coming: Vec<ComingWeek>,
    /// What is free, evening by evening of open days, as it is expected to go down.
    pub shelf_line: Vec<ShelfDay>,
    /// Day on which it is expected to run out.
    pub runs_out: Option<i32>,
    /// Last day on which the form may offer it, where it is the last of it; yesterday, where it
    /// may not today.
    pub offer_until: Option<i32>,
    /// How it is bought.
    pub buying: Option<Buying>,
    /// Orders on which something is still to come, the earliest first.
    pub orders: Vec<Order>,
    /// Dye lots, the longest single stretch first.
    pub lots: Vec<Lot>,
    /// What was wasted in the last thirteen weeks.
    pub wastage: Wastage,
    /// Whether it lies there and nothing is used of it.
    pub dead: bool,
    /// Last day on which something was used.
    pub last_used: Option<i32>,
    /// Share in what all fabrics used in a year, by value; none where nothing was used, or its
    /// price is not known.
    pub value_class: Option<Abc>,
    /// What is not known, and whatever else should be said.
    pub notes: Vec<Note>,
}

/// How well a method foretold the past.
#[derive(Debug, Clone, PartialEq)]
pub struct MethodScore {
    /// Its usual name.
    pub method: String,
    /// Whether the season was in it.
    pub seasonal: bool,
    /// Root mean squared error of each week foretold, over the root mean squared change from one
    /// week to the next before the test.
    pub rmsse: Option<f64>,
    /// Pinball loss of its upper quantile of the total over the horizon, over the mean week before
    /// the test times the weeks of the horizon.
    pub pinball: Option<f64>,
    /// Mean of value less forecast, over the mean week before the test: above nought where it foretold too little.
    pub bias: Option<f64>,
    /// By what it was chosen: the lowest wins.
    pub score: Option<f64>,
    /// How many weeks it was asked to foretell.
    pub weeks: u32,
}

/// A week of the past.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PastWeek {
    /// Its Monday.
    pub monday: i32,
    /// Used on its days.
    pub used: Length,
    /// Days on which the bench was open.
    pub open_days: u32,
    /// Open days on which there was nothing to use.
    pub out_days: u32,
    /// Whether some of it was written after its day was over.
    pub restated: bool,
}

/// A week to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ComingWeek {
    /// Its Monday.
    pub monday: i32,
    /// Expected use.
    pub expected: Length,
    /// In four weeks of five, at least so much.
    pub low: Length,
    /// In nine weeks of ten, at most so much.
    pub high: Length,
    /// Days on which the bench is open, from today on.
    pub open_days: u32,
}

/// A day of the shelf to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ShelfDay {
    /// The day.
    pub date: i32,
    /// Free in the evening; below nought while more is promised than there is.
    pub free: Length,
    /// What is expected to have come since the day before.
    pub delivery: Length,
}

/// How a fabric is bought, and when.
#[derive(Debug, Clone, PartialEq)]
pub struct Buying {
    /// Who sells it.
    pub supplier: String,
    /// How they call it.
    pub supplier_reference: String,
    /// Calendar days from the order to the shelf.
    pub lead_days: u32,
    /// Length of a bolt as it is sold.
    pub bolt: Length,
    /// Least order.
    pub least: Length,
    /// Whether it cannot be had again.
    pub last_of_it: bool,
    /// When the position is at or below this, it is ordered.
    pub reorder_point: Option<Length>,
    /// What should still be there when an order comes.
    pub safety: Option<Length>,
    /// Up to what is ordered.
    pub order_up_to: Option<Length>,
    /// The service for which the reorder point was worked out.
    pub service: Service,
    /// Bolts in the proposal.
    pub proposal_bolts: Option<u32>,
    /// What they cost, before tax.
    pub proposal_cost: Option<Money>,
}

/// An order on which something is still to come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// Its name.
    pub order_id: String,
    /// Who is to send it.
    pub supplier: String,
    /// Day on which it is expected.
    pub expected: i32,
    /// Still to come.
    pub outstanding: Length,
    /// Days since it should have come; nought where it is not late.
    pub late_days: u32,
}

/// A dye lot on the shelf.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lot {
    /// As the supplier prints it; empty where none is known.
    pub lot: String,
    /// What lies there of it.
    pub on_hand: Length,
    /// The longest single stretch that one cut could have.
    pub longest: Length,
    /// In how many pieces.
    pub pieces: u32,
}

/// What was wasted of a fabric, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct Wastage {
    /// From this day.
    pub from: i32,
    /// To this day.
    pub to: i32,
    /// Taken off pieces and not kept.
    pub taken: Length,
    /// Ends too short to keep, and made straight.
    pub ends: Length,
    /// Cut wrongly, damaged, or otherwise spoiled.
    pub spoiled: Length,
    /// Flaws cut out.
    pub flawed: Length,
    /// Cloth between the shapes, in percent of the area used for them.
    pub layout_percent: Option<f64>,
    /// All of it together, in percent of the area taken.
    pub all_percent: Option<f64>,
}

/// The code of the note that no use is expected any longer.
pub const NOT_USED: &str = "NOT_USED";

/// Something to be said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// For programs: a word in capitals.
    pub code: &'static str,
    /// For people.
    pub message: String,
}

/// What of a fabric is wanted for the whole: to be had of its report, or of a part that was
/// kept of an earlier run.
#[derive(Debug, Clone, PartialEq)]
pub struct Gist {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// How pressing it is.
    pub pressing: Pressing,
    /// Last day on which an order still comes in time.
    pub order_by: Option<i32>,
    /// The method that was chosen; empty where none.
    pub method: String,
    /// Whether the season is in it.
    pub seasonal: bool,
    /// Every method that was tried; none where no use is expected any longer, since what was
    /// foretold of it is no longer looked at.
    pub scores: Vec<MethodScore>,
}

impl FabricReport {
    /// What of it is wanted for the whole.
    pub fn gist(&self) -> Gist {
        Gist {
            code: self.code.clone(),
            name: self.name.clone(),
            pressing: self.pressing,
            order_by: self.order_by,
            method: self.detail.method.clone(),
            seasonal: self.detail.seasonal,
            scores: if self.detail.notes.iter().any(|note| note.code == NOT_USED) {
                Vec::new()
            } else {
                self.detail.scores.clone()
            },
        }
    }
}

/// A report but for its fabrics, and in which order they stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Whole {
    /// Its day.
    pub date: i32,
    /// The last day of which the use is in it: the day before.
    pub through: i32,
    /// The first day of which anything is known.
    pub from: Option<i32>,
    /// As of when the shelf is told.
    pub as_of: At,
    /// The shop's time zone.
    pub zone: String,
    /// The catalogue that it was made with.
    pub catalogue_revision: String,
    /// The places of the fabrics in the list that was given, in the order in which they stand:
    /// first those for which something is to be done, the most pressing first, then the others
    /// by their names.
    pub order: Vec<usize>,
    /// What should be said of the whole.
    pub notes: Vec<Note>,
    /// How well the methods would have foretold the past.
    pub back_test: Option<BackTest>,
    /// Weekly index of the season; empty where there is none.
    pub season: Vec<SeasonWeek>,
}

/// How well the methods would have foretold the past, over all fabrics.
#[derive(Debug, Clone, PartialEq)]
pub struct BackTest {
    /// How many fabrics.
    pub fabrics: u32,
    /// How many weeks each was asked to foretell, at most.
    pub weeks: u32,
    /// Method by method.
    pub rows: Vec<BackTestRow>,
}

/// A method over all fabrics in use: means over those for which it was tried.
#[derive(Debug, Clone, PartialEq)]
pub struct BackTestRow {
    /// Its usual name, with ", with the season" where that was in it.
    pub method: String,
    /// For how many fabrics it was tried.
    pub tried: u32,
    /// For how many it was chosen.
    pub chosen: u32,
    /// Mean root mean squared scaled error.
    pub rmsse: Option<f64>,
    /// Mean pinball loss.
    pub pinball: Option<f64>,
    /// Mean bias.
    pub bias: Option<f64>,
}

/// A week of the season.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeasonWeek {
    /// ISO week, 1 to 53.
    pub week: u8,
    /// Use of that week against that of a usual one.
    pub index: f64,
}
