//! The seven columns, and what stands in one where the message has no figure.
//!
//! Unknown never reads as harmless: an order-by day that nobody can tell is not one that nobody
//! needs. So what is absent says which it is, and why.

use pennantry_contract::v1::{BurnFabric, BurnReport, DemandClass};

/// What a cell says.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Told {
    /// A length. Unit mm.
    Length(f64),
    /// A number of weeks.
    Weeks(f64),
    /// A day, ISO date.
    Day(String),
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

const NOT_YET: &str = "two weeks of use are needed before anything can be foretold";
const NO_BUYING: &str = "the catalogue does not say how it is bought";
const NOTHING_KNOWN: &str = "no movement has been written yet";
const NOBODY: &str = "its detail says what is missing";

/// The seven figures of a fabric.
pub(super) fn seven(report: &BurnReport, fabric: &BurnFabric) -> [Told; 7] {
    let used = match report.from_date {
        Some(_) => Told::Length(fabric.used_mm),
        None => Told::Words("not known yet", NOTHING_KNOWN),
    };
    [
        Told::Length(fabric.free_mm),
        used,
        fabric.usual_mm.map_or_else(|| unknown(fabric), Told::Length),
        Told::Length(fabric.on_order_mm),
        fabric.weeks_left.map_or_else(|| weeks(fabric), Told::Weeks),
        fabric.order_by_date.clone().map_or_else(|| order(fabric, "none needed"), Told::Day),
        fabric.proposal_mm.map_or_else(|| order(fabric, "nothing"), Told::Length),
    ]
}

/// Whether nobody can say if something should be ordered; then silence is no all-clear.
pub(super) fn unjudged(report: &BurnReport, fabric: &BurnFabric) -> bool {
    let [.., by, _] = seven(report, fabric);
    super::words::pressing(fabric.pressing).is_none()
        && matches!(by, Told::Words(words, _) if words.starts_with("not known"))
}

/// Whether too little is known of a fabric to foretell anything.
pub(super) fn insufficient(fabric: &BurnFabric) -> bool {
    let class = fabric.detail.as_ref().map(|detail| DemandClass::try_from(detail.demand_class));
    matches!(class, Some(Ok(DemandClass::Insufficient)))
}

/// What nobody can say.
pub(super) fn unknown(fabric: &BurnFabric) -> Told {
    if insufficient(fabric) {
        Told::Words("not known yet", NOT_YET)
    } else {
        Told::Words("not known", NOBODY)
    }
}

fn weeks(fabric: &BurnFabric) -> Told {
    let ever = fabric.detail.as_ref().is_some_and(|detail| detail.last_used_date.is_some());
    match (insufficient(fabric), ever || fabric.used_mm > 0.0) {
        (true, true) => Told::Words("not known yet", NOT_YET),
        (_, false) => Told::Words("nothing used so far", ""),
        (false, true) => Told::Words("nothing is used", ""),
    }
}

fn order(fabric: &BurnFabric, none: &'static str) -> Told {
    let buying = fabric.detail.as_ref().and_then(|detail| detail.buying.as_ref());
    match buying {
        None => Told::Words("not known", NO_BUYING),
        Some(buying) if buying.last_of_it => Told::Words("cannot be had again", ""),
        Some(buying) if buying.reorder_point_mm.is_none() => unknown(fabric),
        Some(_) => Told::Words(none, ""),
    }
}
