//! What is worked once for all fabrics: their weeks, the season they share, their value.
//!
//! The season is pooled over all fabrics ([`season`]): of all whole weeks, for what is foretold, and
//! once more for each week of the back-test, of the weeks before it alone. The value of a fabric is
//! what was used of it in a year (364 days) at its price of today, to the nearest minor unit.
//!
//! [`season`]: pennantry_forecast::demand::season

use std::collections::{BTreeMap, BTreeSet};

use pennantry_forecast::demand::Error;
use pennantry_forecast::demand::choose::{MOST_HORIZON, MOST_ORIGINS};
use pennantry_forecast::demand::kpi::{Abc, abc};
use pennantry_forecast::demand::season::{self, Index, pooled, rolling};
use pennantry_ledger::DaySum;
use pennantry_ledger::rules::{Class, Material};
use pennantry_measure::{Length, Rounding};

use super::almanac::Almanac;
use super::history::{Given, History};
use super::told::Note;
use super::words::several;
use super::{FabricTerms, Morning};

/// Weeks before each of which the season is told as it was known then: those of the back-test, and
/// the half-year before whose errors it looks at.
const TESTED_WEEKS: usize = MOST_ORIGINS + MOST_HORIZON;

/// What is worked once for all fabrics.
#[derive(Debug, Clone)]
pub struct Survey {
    pub(super) almanac: Almanac,
    pub(super) known: BTreeMap<String, Known>,
    /// Of all whole weeks.
    pub(super) index: Index,
    /// As it was known before each week of the back-test, those of no season left out.
    pub(super) tested: Vec<Index>,
    pub(super) notes: Vec<Note>,
    codes: Vec<String>,
}

/// What is known of a fabric.
#[derive(Debug, Clone, Default)]
pub(super) struct Known {
    pub history: History,
    pub value_class: Option<Abc>,
}

impl Survey {
    /// The fabrics that are to be done, by their codes: those of the catalogue, and what else of
    /// cloth lies on the shelf, is on order or is promised and not there.
    pub fn codes(&self) -> &[String] {
        &self.codes
    }

    /// The first day of which anything is known.
    pub fn first_day(&self) -> Option<i32> {
        self.known.values().filter_map(|known| known.history.first).min()
    }
}

/// Looks at all fabrics at once.
pub fn survey(morning: &Morning<'_>) -> Survey {
    let almanac = Almanac::of(morning);
    let mut rows: BTreeMap<&str, Vec<&DaySum>> = BTreeMap::new();
    for row in morning.uses {
        rows.entry(&row.code).or_default().push(row);
    }
    let terms: BTreeMap<&str, &FabricTerms> =
        morning.fabrics.iter().map(|fabric| (fabric.code.as_str(), fabric)).collect();
    let mut later = 0_u64;
    let mut known = BTreeMap::new();
    for (code, mut rows) in rows {
        rows.sort_by_key(|row| row.day);
        let to_come = rows.iter().filter(|row| row.day > morning.today).count();
        later = later.saturating_add(u64::try_from(to_come).unwrap_or(u64::MAX));
        let least = terms.get(code).and_then(|terms| terms.least).map_or(Length::ZERO, |least| least.length);
        let given = Given { almanac: &almanac, least, last_report: morning.last_report };
        let history = History::of(&rows, &given);
        known.insert(code.to_owned(), Known { history, value_class: None });
    }
    let mut notes = Vec::new();
    if later > 0 {
        let rows = several(later, "day");
        notes.push(Note {
            code: "DAYS_TO_COME",
            message: format!(
                "{rows} of a fabric are written for days after that of the report; they are left out."
            ),
        });
    }
    let (index, tested) = match seasons(&known) {
        Ok(both) => both,
        Err(error) => {
            let message = format!("There is no season in this report: {error}.");
            notes.push(Note { code: "NO_SEASON", message });
            (Index::flat(), Vec::new())
        }
    };
    value(&mut known, &terms);
    let codes = codes(morning);
    Survey { almanac, known, index, tested, notes, codes }
}

fn codes(morning: &Morning<'_>) -> Vec<String> {
    let listed = morning.fabrics.iter().map(|fabric| fabric.code.as_str());
    let there = morning.stand.materials.iter().filter(|(material, standing)| {
        let some = [standing.on_hand, standing.short, standing.held_short];
        let any = some.iter().any(|amount| amount.is_some()) || !standing.open.is_empty();
        material.class == Class::Cloth && any
    });
    let all: BTreeSet<&str> = listed.chain(there.map(|(material, _)| material.code.as_str())).collect();
    all.into_iter().map(str::to_owned).collect()
}

fn seasons(known: &BTreeMap<String, Known>) -> Result<(Index, Vec<Index>), Error> {
    let weekly = known.values().filter_map(|known| known.history.weekly.as_ref());
    let histories: Vec<season::History<'_>> =
        weekly.map(|weekly| season::History { series: &weekly.series, weeks: &weekly.weeks }).collect();
    Ok((pooled(&histories, None)?, rolling(&histories, TESTED_WEEKS)?))
}

fn value(known: &mut BTreeMap<String, Known>, terms: &BTreeMap<&str, &FabricTerms>) {
    let priced = known.iter_mut().filter_map(|(code, known)| {
        let price = terms.get(code.as_str())?.price_per_metre?;
        let value = price.per_metre(known.history.year.length(), Rounding::HalfUp).minor();
        (known.history.year.is_some()).then_some((known, value.max(0)))
    });
    let (fabrics, values): (Vec<_>, Vec<_>) = priced.unzip();
    // values below nought were left out, and nothing else is refused
    let classes = abc(&values).unwrap_or_default();
    for (known, class) in fabrics.into_iter().zip(classes) {
        known.value_class = Some(class);
    }
}

/// The material that a code is of.
pub(super) fn cloth(code: &str) -> Material {
    Material { class: Class::Cloth, code: code.to_owned() }
}
