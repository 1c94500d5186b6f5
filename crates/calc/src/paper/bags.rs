//! R24: bags that a child could pull over its head.

use pennantry_measure::Length;

use super::rules::{Limit, Rule};
use super::{Case, Outcome, Told, listed};
use crate::rule::Comparator;
use crate::shop::Sundry;
use crate::sundries::UsedKind;

/// Words that make a sundry a bag, whatever figures it has.
const BAG_WORDS: [&str; 5] = ["bag", "bags", "sack", "pouch", "sleeve"];

/// Whether a sundry is a bag. One that has a figure of a bag is one, and so is one that its
/// code or its name calls so.
fn is_bag(sundry: &Sundry) -> bool {
    let named = super::offer::has_word(&sundry.name, &BAG_WORDS);
    sundry.bag_opening.is_some()
        || sundry.bag_film.is_some()
        || named
        || super::offer::has_word(&sundry.code, &BAG_WORDS)
}

/// R24: every bag in the parcel. A figure that is not known crosses its limit.
pub(super) fn bags(case: &Case<'_>, rule: &Rule) -> Option<(Outcome, Told)> {
    let Limit::Bag { opening, film } = rule.limit else { return None };
    let crosses = |measure: Option<Length>, (comparison, limit): (Comparator, Length)| {
        measure.is_none_or(|measure| comparison.breaks(measure, limit))
    };
    let used = case.worked.used.iter().filter_map(|used| match used.kind {
        UsedKind::Sundry(place) => case.shop.sundries.get(place),
        UsedKind::Trimming(_) => None,
    });
    let too_thin: Vec<String> = used
        .filter(|sundry| is_bag(sundry))
        .filter(|sundry| crosses(sundry.bag_opening, opening) && crosses(sundry.bag_film, film))
        .map(told)
        .collect();
    if too_thin.is_empty() {
        return None;
    }
    let (narrow, least) = (allowed(opening), film.1);
    Some((
        Outcome::Restrict,
        Told {
            measured: listed(&too_thin),
            limit: format!("an opening of {narrow} round, or film of {least} or more"),
            remedy: format!(
                "pack it in a bag of {narrow} round its opening, or of film of at least {least} with a printed word \
                 of warning about suffocation, or in no bag"
            ),
            text: String::from(
                "A wide bag of thin film can suffocate a child who pulls it over the head. The rule binds toys; here \
                 it is a yardstick, and local rules and competent people decide.",
            ),
        },
    ))
}

/// A bag with its figures.
fn told(bag: &Sundry) -> String {
    let or_unknown = |figure: Option<Length>| {
        figure.map_or_else(|| String::from("which was not told"), |figure| figure.to_string())
    };
    format!("{}: opening round {}, film {}", bag.name, or_unknown(bag.bag_opening), or_unknown(bag.bag_film))
}

/// What an opening may be.
fn allowed((comparison, limit): (Comparator, Length)) -> String {
    match comparison {
        Comparator::Over => format!("at most {limit}"),
        Comparator::AtLeast => format!("less than {limit}"),
        Comparator::Under => format!("at least {limit}"),
    }
}
