//! The report but for its fabrics: their order, how well the methods did, what is to be said.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::number::{count, number, quotient};
use super::survey::Survey;
use super::told::{BackTest, BackTestRow, Gist, MethodScore, Note, Pressing, SeasonWeek, Whole};
use super::words::several;
use super::{FabricTerms, Morning};

/// Weeks that an index has a figure for.
const ISO_WEEKS: std::ops::RangeInclusive<u8> = 1..=53;
/// Days of the first year and the week after it, in which no season can be told.
const YEAR: i32 = 371;

/// Puts a report together: where each fabric stands in it, and what is said of them all.
pub fn whole(morning: &Morning<'_>, survey: &Survey, parts: &[Gist]) -> Whole {
    let index = &survey.index;
    let season = ISO_WEEKS.map(|week| SeasonWeek { week, index: index.factor(week) });
    let from = survey.first_day().filter(|first| *first < morning.today);
    let mut notes = survey.notes.clone();
    match from {
        None => notes.push(Note {
            code: "NO_HISTORY",
            message: "Nothing of any cloth came or went before this day: there is nothing to tell from yet."
                .to_owned(),
        }),
        Some(first) if index.is_flat() => {
            let young = morning.today.saturating_sub(first) < YEAR;
            let why = if young { "no more than a year is known" } else { "nothing tells one from chance" };
            notes.push(Note { code: "NO_SEASON", message: format!("No season is in this report: {why}.") });
        }
        Some(_) => notes.extend(unused(parts)),
    }
    notes.extend(late(survey));
    notes.extend(unsaid(morning, parts));
    Whole {
        date: morning.today,
        through: morning.today.saturating_sub(1),
        from,
        as_of: morning.stand.at,
        zone: morning.zone.to_owned(),
        catalogue_revision: morning.catalogue_revision.to_owned(),
        order: order(parts),
        notes,
        back_test: back_test(parts),
        season: if index.is_flat() { Vec::new() } else { season.collect() },
    }
}

/// A season that is told and in no forecast.
fn unused(parts: &[Gist]) -> Option<Note> {
    if parts.iter().any(|part| part.seasonal) {
        return None;
    }
    let tried = parts.iter().any(|part| part.scores.iter().any(|score| score.seasonal));
    let why = if tried {
        "the back-test was not better with it for any fabric"
    } else {
        "it was not known at enough of the weeks from which the back-test looks ahead"
    };
    Some(Note {
        code: "SEASON_NOT_USED",
        message: format!("A season is seen over all fabrics, and no forecast uses it: {why}."),
    })
}

/// The most pressing first, of those the earliest to be ordered; names, then codes, decide.
fn order(parts: &[Gist]) -> Vec<usize> {
    let mut order: Vec<(usize, &Gist)> = parts.iter().enumerate().collect();
    order.sort_by_key(|(_, part)| {
        let by = part.order_by.filter(|_| part.pressing > Pressing::Nothing).unwrap_or(i32::MAX);
        (Reverse(part.pressing), by, &part.name, &part.code)
    });
    order.into_iter().map(|(at, _)| at).collect()
}

fn late(survey: &Survey) -> Option<Note> {
    let mut days: Vec<i32> =
        survey.known.values().flat_map(|known| known.history.late.iter().copied()).collect();
    days.sort_unstable();
    days.dedup();
    let count = u64::try_from(days.len()).ok().filter(|count| *count > 0)?;
    let was = if count == 1 { "was" } else { "were" };
    Some(Note {
        code: "WRITTEN_LATE",
        message: format!(
            "{} {was} written late since the last report: what that one said of them is no longer so.",
            several(count, "day")
        ),
    })
}

/// Cloth of the catalogue for which it does not say how it is bought, or which was left out.
fn unsaid(morning: &Morning<'_>, parts: &[Gist]) -> Vec<Note> {
    let mut notes = Vec::new();
    if !morning.terms.said {
        let message =
            "The catalogue has no [ordering] table, so nothing is proposed for any fabric.".to_owned();
        notes.push(Note { code: "NO_ORDERING", message });
    }
    let without = morning.fabrics.iter().filter(|fabric| fabric.buying.is_none());
    let without: Vec<&str> = without.map(|fabric: &FabricTerms| fabric.code.as_str()).collect();
    if morning.terms.said && !without.is_empty() {
        notes.push(Note {
            code: "NOT_SAID_HOW_BOUGHT",
            message: format!(
                "The catalogue has no [[supplies]] entry for these, so nothing is proposed for them: {}.",
                without.join(", ")
            ),
        });
    }
    let missing = morning.fabrics.iter().filter(|fabric| parts.iter().all(|part| part.code != fabric.code));
    let missing: Vec<&str> = missing.map(|fabric| fabric.code.as_str()).collect();
    if !missing.is_empty() {
        let message = format!("These are not in this report: {}.", missing.join(", "));
        notes.push(Note { code: "NOT_DONE", message });
    }
    notes
}

/// Sums of a method over fabrics.
#[derive(Default)]
struct Sums {
    tried: usize,
    chosen: usize,
    figures: [Vec<f64>; 3],
}

fn back_test(parts: &[Gist]) -> Option<BackTest> {
    let tested = |score: &&MethodScore| score.score.is_some();
    let mut methods: BTreeMap<(bool, &str), Sums> = BTreeMap::new();
    let (mut fabrics, mut weeks) = (0, 0);
    for part in parts {
        let mut any = false;
        for score in part.scores.iter().filter(tested) {
            any = true;
            weeks = weeks.max(score.weeks);
            let sums = methods.entry((score.seasonal, &score.method)).or_default();
            sums.tried += 1;
            sums.chosen += usize::from(score.method == part.method && score.seasonal == part.seasonal);
            for (all, one) in sums.figures.iter_mut().zip([score.rmsse, score.pinball, score.bias]) {
                all.extend(one.filter(|one| one.is_finite()));
            }
        }
        fabrics += usize::from(any);
    }
    let row = |((seasonal, method), sums): (&(bool, &str), &Sums)| {
        let [rmsse, pinball, bias] = &sums.figures;
        let mean = |all: &Vec<f64>| quotient(all.iter().sum(), count(all.len()));
        BackTestRow {
            method: if *seasonal { format!("{method}, with the season") } else { (*method).to_owned() },
            tried: number(sums.tried),
            chosen: number(sums.chosen),
            rmsse: mean(rmsse),
            pinball: mean(pinball),
            bias: mean(bias),
        }
    };
    let rows: Vec<BackTestRow> = methods.iter().map(row).collect();
    (fabrics > 0).then(|| BackTest { fabrics: number(fabrics), weeks, rows })
}
