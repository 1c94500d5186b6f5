//! What a report is made from: everything that is known on a morning.

use pennantry_calc::shop::Calendar;
use pennantry_forecast::supply::service::Service;
use pennantry_ledger::DaySum;
use pennantry_ledger::rules::At;
use pennantry_ledger::stand::Stand;
use pennantry_measure::{Length, Money, Percent, Rate};

use super::Least;

/// A morning on which a report is made. Days are numbered from the first of January 1970.
#[derive(Clone, Copy)]
pub struct Morning<'a> {
    /// The day of the report: what was used on earlier days is in it.
    pub today: i32,
    /// The shop's time zone, by its name.
    pub zone: &'a str,
    /// The catalogue that it is made with.
    pub catalogue_revision: &'a str,
    /// Whether the bench is open on a day, past or to come. Asked once a day: see
    /// [`bench_open`] for the one of a catalogue.
    pub open: &'a (dyn Fn(i32) -> bool + Sync),
    /// Last day for which days off are known; none where all are.
    pub known_to: Option<i32>,
    /// How levels are worked out.
    pub terms: &'a Terms,
    /// The catalogue's cloth.
    pub fabrics: &'a [FabricTerms],
    /// What each day did with each cloth, from the very first day on: what lies there on a
    /// day is the sum of all days up to it. In any order.
    pub uses: &'a [DaySum],
    /// How the shop stands with each material, and as of when. May be newer for one part of a
    /// report than for another.
    pub stand: &'a Stand,
    /// As of when the last report that is done was made; none where this is the first.
    pub last_report: Option<(i32, At)>,
}

/// How levels are worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Terms {
    /// The service that a reorder point is to give.
    pub service: Service,
    /// Days from one look at the shelf to the next.
    pub review_days: u32,
    /// Calendar days whose expected use is ordered at once, where [`Terms::economic`] does not
    /// say otherwise.
    pub cover_days: u32,
    /// What an order and keeping cloth cost, where that decides how much is ordered at once.
    pub economic: Option<Economic>,
    /// Whether the catalogue says how well the shop wants to be served; without that nothing is
    /// proposed, whatever it says of suppliers.
    pub said: bool,
}

impl Terms {
    /// A service, a look every night, four weeks' use at once.
    pub const fn of(service: Service) -> Terms {
        Terms { service, review_days: 1, cover_days: 28, economic: None, said: true }
    }
}

/// What an order and keeping cloth cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Economic {
    /// What an order costs, whatever its size.
    pub order_cost: Money,
    /// What keeping costs in a year, as a share of the price.
    pub keeping: Percent,
}

/// A cloth of the catalogue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FabricTerms {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// Its usable width, where one is given.
    pub width: Option<Length>,
    /// What a metre costs the shop, before tax, where that is known: its value, and what an
    /// order of it costs.
    pub price_per_metre: Option<Rate>,
    /// The least cloth that a string takes of it: with less than that free, nothing can be sold
    /// of it. None where that is not known.
    pub least: Option<Least>,
    /// How it is bought, where the catalogue says so.
    pub buying: Option<BuyingTerms>,
}

/// How a fabric is bought.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BuyingTerms {
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
}

/// Whether anybody works at the bench on a day, by a catalogue's calendar; after the last day
/// for which days off are known, by its ordinary week.
///
/// ```
/// use pennantry_app::report::bench_open;
/// use pennantry_calc::shop::{Calendar, Day, Person};
/// use pennantry_measure::BenchTime;
/// let (shut, hour) = (BenchTime::ZERO, BenchTime::from_milli_minutes(60_000));
/// let person = Person { name: "Ada".into(), week: [hour, hour, hour, hour, hour, shut, shut], off: vec![] };
/// let calendar = Calendar {
///     people: vec![person],
///     closed: vec![Day(20_781)],
///     known_to: Day(21_000),
///     cut_off: 0,
///     rest_days: 0,
///     load: vec![],
///     rush: None,
/// };
/// // Monday 23 November 2026, a Tuesday on which the shop is closed, and a Saturday
/// assert_eq!([20_780, 20_781, 20_785].map(|day| bench_open(&calendar, day)), [true, false, false]);
/// ```
pub fn bench_open(calendar: &Calendar, day: i32) -> bool {
    pennantry_calc::dates::works(calendar, pennantry_calc::shop::Day(day))
}
