//! The seven columns, and what stands in one where the message has no figure.
//!
//! Unknown never reads as harmless: an order-by day that nobody can tell is not one that nobody
//! needs. So what is absent says which it is, and why; two reasons never share their words.

use jiff::ToSpan;
use jiff::civil::Date;
use pennantry_contract::v1::{BurnDetail, BurnFabric, BurnReport};

use super::figures::day;

/// What a cell says.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Told {
    /// A length. Unit mm.
    Length(f64),
    /// A number of weeks.
    Weeks(f64),
    /// A day, ISO date.
    Day(String),
    /// A day that is too far off to be told as one, ISO date.
    Far(String),
    /// Nothing is there: in words, and why where that is not plain.
    Words(&'static str, &'static str),
}

/// Heading and unit of the seven columns.
pub(super) const COLUMNS: [(&str, &str); 7] = [
    ("Free", "m"),
    ("Used in four weeks", "m"),
    ("Usual for these weeks", "m"),
    ("On order", "m"),
    ("Weeks left", "weeks"),
    ("Order by", ""),
    ("Proposal", "m"),
];

/// Weeks ahead from which a day to order by is not told as a day: what is foretold is not so fine.
const FAR_WEEKS: i64 = 26;
/// What stands for such a day, and why.
pub(super) const FAR: (&str, &str) = (
    "not for half a year",
    "the day by which to order is more than 26 weeks off, and no forecast is so fine",
);
/// Whole weeks from the first use on that a forecast takes.
const FORECAST_WEEKS: i64 = 8;

const NOT_YET: &str = "a forecast takes 8 weeks since the first use of a fabric, with use in 2 of them; its detail says from \
     which day on there is one";
const NOT_USUAL: &str = "what is usual takes 8 whole weeks before the last four";
const NO_SUPPLIES: &str = "the catalogue has no [[supplies]] entry for the fabric, so nothing can be proposed; waiting changes nothing";
const NO_ORDERING: &str =
    "the catalogue has no [ordering] table, so nothing can be proposed; waiting changes nothing";
const NOTHING_KNOWN: &str = "no movement has been written yet";
const NO_USE: &str = "no use is expected, and so none is needed";
const NOBODY: &str = "its detail says what is missing";

/// The seven figures of a fabric.
pub(super) fn seven(report: &BurnReport, fabric: &BurnFabric) -> [Told; 7] {
    let used = match report.from_date {
        Some(_) => Told::Length(fabric.used_mm),
        None => Told::Words("nothing known", NOTHING_KNOWN),
    };
    [
        Told::Length(fabric.free_mm),
        used,
        fabric.usual_mm.map_or(Told::Words("too early", NOT_USUAL), Told::Length),
        Told::Length(fabric.on_order_mm),
        fabric.weeks_left.map_or_else(|| weeks(fabric), Told::Weeks),
        fabric.order_by_date.as_ref().map_or_else(|| order(fabric, "none needed"), |by| order_by(report, by)),
        fabric.proposal_mm.map_or_else(|| order(fabric, "nothing"), Told::Length),
    ]
}

fn order_by(report: &BurnReport, by: &str) -> Told {
    let far = day(&report.date).and_then(|today| today.checked_add(FAR_WEEKS.weeks()).ok());
    match (day(by), far) {
        (Some(day), Some(far)) if day > far => Told::Far(by.to_owned()),
        _ => Told::Day(by.to_owned()),
    }
}

/// Whether anybody can say if something should be ordered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Judged {
    /// Yes.
    Yes,
    /// Not yet: with more weeks of use somebody can.
    Waits,
    /// No amount of waiting helps: the catalogue does not say how the fabric is bought.
    NoSupplies,
    /// Nor here: it does not say how well the shop wants to be served.
    NoOrdering,
}

/// Whether anybody can say; where something is said, somebody could.
pub(super) fn judged(fabric: &BurnFabric) -> Judged {
    if super::words::pressing(fabric.pressing).is_some() || idle(fabric) {
        return Judged::Yes;
    }
    match fabric.detail.as_ref().and_then(|detail| detail.buying.as_ref()) {
        None if says(fabric, "NO_ORDERING") => Judged::NoOrdering,
        None if says(fabric, "NOT_SAID_HOW_BOUGHT") => Judged::NoSupplies,
        Some(buying) if foretold(fabric) && (buying.last_of_it || buying.reorder_point_mm.is_some()) => {
            Judged::Yes
        }
        _ => Judged::Waits,
    }
}

fn detail(fabric: &BurnFabric) -> Option<&BurnDetail> {
    fabric.detail.as_ref()
}

fn says(fabric: &BurnFabric, code: &str) -> bool {
    detail(fabric).is_some_and(|detail| detail.notes.iter().any(|note| note.code == code))
}

/// Whether there is a forecast of it.
pub(super) fn foretold(fabric: &BurnFabric) -> bool {
    detail(fabric).is_some_and(|detail| !detail.method.is_empty())
}

/// Whether it was in use and is no longer.
pub(super) fn idle(fabric: &BurnFabric) -> bool {
    detail(fabric).is_some_and(|detail| detail.dead) || says(fabric, "NOT_USED")
}

/// Whether too little is known of a fabric to foretell anything.
pub(super) fn early(fabric: &BurnFabric) -> bool {
    !foretold(fabric) && !idle(fabric)
}

/// The Monday from which on there is a forecast, if something is used in one more week where it
/// was in one alone; none where nothing was used yet, or enough weeks are known.
pub(super) fn from_day(report: &BurnReport, fabric: &BurnFabric) -> Option<Date> {
    let today = day(&report.date)?;
    let detail = detail(fabric).filter(|_| early(fabric))?;
    let since = detail.past.iter().skip_while(|week| week.used_mm <= 0.0);
    let weeks = since.clone().filter_map(|week| Some((week, day(&week.monday)?)));
    let over = weeks.clone().filter(|(_, monday)| (today - *monday).get_days() >= 7);
    // as the reckoning has it: a week that was closed, or out of stock for most of it, is none
    let seen = over.filter(|(week, _)| {
        week.open_days > 0 && (week.used_mm > 0.0 || week.out_days.saturating_mul(2) <= week.open_days)
    });
    weeks.clone().next()?;
    let more = FORECAST_WEEKS.checked_sub(i64::try_from(seen.count()).ok()?).filter(|more| *more > 0)?;
    let monday = today.checked_sub(i64::from(today.weekday().to_monday_zero_offset()).days()).ok()?;
    monday.checked_add(more.weeks()).ok()
}

/// What nobody can say.
pub(super) fn unknown(fabric: &BurnFabric) -> Told {
    if idle(fabric) {
        Told::Words("not used", NO_USE)
    } else if foretold(fabric) {
        Told::Words("not known", NOBODY)
    } else {
        Told::Words("not known yet", NOT_YET)
    }
}

fn weeks(fabric: &BurnFabric) -> Told {
    let ever = detail(fabric).is_some_and(|detail| detail.last_used_date.is_some()) || fabric.used_mm > 0.0;
    match (early(fabric), ever) {
        (true, true) => Told::Words("not known yet", NOT_YET),
        (_, false) => Told::Words("nothing used so far", ""),
        (false, true) => Told::Words("nothing is used", ""),
    }
}

fn order(fabric: &BurnFabric, none: &'static str) -> Told {
    let buying = detail(fabric).and_then(|detail| detail.buying.as_ref());
    match buying {
        Some(buying) if buying.last_of_it => Told::Words("cannot be had again", ""),
        _ if idle(fabric) => unknown(fabric),
        None if says(fabric, "NO_ORDERING") => Told::Words("no [ordering]", NO_ORDERING),
        None if says(fabric, "NOT_SAID_HOW_BOUGHT") => Told::Words("no [[supplies]]", NO_SUPPLIES),
        None => Told::Words("not in the catalogue", ""),
        Some(buying) if buying.reorder_point_mm.is_none() => unknown(fabric),
        Some(_) => Told::Words(none, ""),
    }
}

/// Why there is nothing to say of how it is bought.
pub(super) fn bought(fabric: &BurnFabric) -> &'static str {
    if says(fabric, "NO_ORDERING") {
        "not known: the catalogue has no [ordering] table"
    } else if says(fabric, "NOT_SAID_HOW_BOUGHT") {
        "not known: the catalogue has no [[supplies]] entry for it"
    } else {
        "not known: the catalogue has it not"
    }
}
