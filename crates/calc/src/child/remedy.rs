//! What would end a finding, worked out.

use pennantry_measure::{Length, Rounding, bounds, divide};

use super::facts::{Facts, Question};
use super::hung::Hung;
use super::judge::Seen;
use super::rules::{Amount, Limit, Looks, RULES, Rule, Whose};
use super::words;
use crate::order::Place;
use crate::shop::Cord;

/// Said of whatever hangs where no height and no number of fixings helps.
const NOTHING_AT_COT: &str = "no height and no number of fixings does there: do not hang it there";
/// Said of a string that is shorter than the shop makes one with such ends and pennants.
const NOT_MADE: &str = "would end it, and the shop makes none so short with such loose ends and pennants";
/// What helps a hang whose swags come too low.
const LESS_DIP: &str = "a hang of less dip, asked anew,";

/// What would end what a rule finds.
pub(super) fn remedy(facts: &Facts<'_>, rule: &Rule, whose: Whose, seen: &Seen) -> String {
    let length = match rule.limit.map(|limit| limit.amount) {
        Some(Amount::Length(length)) => length,
        _ => Length::ZERO,
    };
    let allowed = words::limit(rule);
    match rule.looks_at {
        Looks::Questions => answer(facts, seen),
        Looks::AtCot => String::from(
            "Nothing ends it there: hang it somewhere else, out of reach and 1000 mm or more from any cot",
        ),
        Looks::CotDistance => format!("Hang it {length} or more from the cot, measured level"),
        Looks::CotUntold => String::from("Give cotDistanceMm; 1000 mm or more ends it"),
        Looks::Lowest => lift(facts, length),
        Looks::HeightUntold => {
            let at = facts.out_of_reach(whose);
            // out of doors a height that is told is no finding of its own
            let anyhow = facts.near.place == Some(Place::Outdoors);
            let (once, less) = (lower_once_told(facts), less_once_told(facts));
            match (facts.hung.least_height(at), once) {
                (Some(height), _) if anyhow => {
                    format!("Give fixingHeightMm: any ends it; {height} or more is out of reach{less}")
                }
                (None, _) if anyhow => String::from("Give fixingHeightMm: any ends it"),
                (Some(height), _) => format!("Give fixingHeightMm; {height} or more ends it{less}"),
                (None, Some(told)) => {
                    format!("Give fixingHeightMm; as it hangs no height ends it, unless {told} too")
                }
                (None, None) => String::from("Give fixingHeightMm; as it hangs no height ends it"),
            }
        }
        Looks::Tail if facts.hung.fixings < 2 => {
            format!("Fix it at both ends, with loose ends of {allowed}")
        }
        Looks::Tail => format!("Loose ends of {allowed} end it"),
        Looks::Loop(parts) => match parts {
            Some(force) => format!("A loop of {allowed} ends it, or one that parts at {force} or less"),
            None => format!("A loop of {allowed} ends it"),
        },
        Looks::Noose => String::from("A loop that is sewn fast, so that it cannot run smaller, ends it"),
        Looks::NooseUntold => String::from("Give slips: false ends it, where the loop is sewn fast"),
        Looks::TiedLoop | Looks::TiedLength => shorter_ties(facts, rule, whose),
        Looks::SpanLoop | Looks::SpanString => more_fixings(facts, rule, whose),
        Looks::CordThickness => format!("A cord of {allowed} ends it, or a flat tape"),
        Looks::Stretched => shorter_elastic(facts, length),
        Looks::LoosePart => String::from(
            "Leaving it out ends it, or one that is sewn on and tested, or one too large for the small-parts cylinder",
        ),
        Looks::SewnPart(_) => {
            format!(
                "A pull test ends it, with {allowed}, or leaving it out, or one too large for the small-parts cylinder"
            )
        }
        Looks::SmallPart => String::from("A label that warns of small parts ends it, or leaving it out"),
        Looks::Pompom => format!("A pompom of {allowed} ends it, or leaving it out"),
        Looks::HangingBall => {
            format!("Sewing it on so that it hangs {} ends it, or leaving it out", less(rule.limit))
        }
        Looks::EndTrimming if facts.is_at_cot() => {
            format!("Leaving it out at the end ends it; {NOTHING_AT_COT}")
        }
        Looks::EndTrimming => format!(
            "Leaving it out at the end ends it; {}",
            lower_first(&lift(facts, facts.out_of_reach(whose)))
        ),
        Looks::Seam => format!("A seam test ends it, with {allowed}, or a design that is not filled"),
        Looks::Play => {
            String::from("Leaving out whatever has play value ends it; nothing that is said on a label does")
        }
        Looks::Young => String::from("Nothing ends it: the words go with the string"),
        Looks::Overall => longest_string(facts, whose, length),
    }
}

fn answer(facts: &Facts<'_>, seen: &Seen) -> String {
    let text = match seen.question {
        Some(Question::Span) => {
            return format!(
                "Give a spanMm of at most {}, which is the string between the outer fixings, or order a longer string",
                facts.hung.string
            );
        }
        Some(Question::Rules) => "Give near.jurisdictions, or an answer from somebody competent there",
        Some(Question::Age) => "Give near.youngestMonths",
        Some(Question::ChildOrNot | Question::NoChildThere | Question::NoChildByCot) => {
            "Give near.who again, and near.youngestMonths with a child"
        }
        Some(Question::Anything | Question::Who) | None => {
            "Give near.who, and near.youngestMonths with a child"
        }
    };
    text.to_owned()
}

/// What may be told of how it hangs that can bring it up, as a sentence ends: nothing where
/// loose ends hang lower whatever is told, or where one fixing holds it.
fn lower_once_told(facts: &Facts<'_>) -> Option<&'static str> {
    let hung = &facts.hung;
    let depth = hung.depth(hung.fixings);
    // as good as it can get: a string drawn straight, and as many fixings as may be told
    let straight = Hung { level: Some(hung.string), ..*hung };
    let span = hung.level.is_none() && straight.depth(hung.fixings) < depth;
    let fixings = facts.near.fixings.is_none() && hung.depth(bounds::FIXINGS.most) < depth;
    match (fixings, span) {
        (true, true) => Some("fixings and spanMm are told"),
        (true, false) => Some("fixings are told"),
        (false, true) => Some("spanMm is told"),
        (false, false) => None,
    }
}

/// That a figure can get less, once more is told of how it hangs.
fn less_once_told(facts: &Facts<'_>) -> String {
    lower_once_told(facts).map_or_else(String::new, |told| format!(", perhaps less once {told}"))
}

/// The height of the fixings that brings the lowest point up to a height.
fn higher(facts: &Facts<'_>, at: Length) -> String {
    let less = less_once_told(facts);
    facts.hung.least_height(at).map_or_else(
        || format!("No height up to {} ends it as it hangs", bounds::FIXING_HEIGHT.most),
        |least| format!("Fixings {least} high or higher end it{less}"),
    )
}

/// What brings the lowest point up to a height: fixings, heights, shorter ends, or none. The
/// fixings of a hang are those of its swags, so of them no number is named.
fn lift(facts: &Facts<'_>, at: Length) -> String {
    let hung = &facts.hung;
    let Some(height) = hung.height else {
        return String::from("telling the height may end it");
    };
    let higher = higher(facts, at);
    // loose ends that hang too low, whatever the fixings do
    let room = height - at;
    let short = hung.loose > room;
    let below = hung.v_drop(hung.fixings) + hung.drop > room;
    if facts.is_hang && below {
        return if room < hung.drop {
            format!("{higher}; no hang does at {height}")
        } else if short {
            format!(
                "{higher}; at {height} it takes {LESS_DIP} and loose ends and loops that hang down at most {room}"
            )
        } else {
            format!("{higher}; {LESS_DIP} comes down less")
        };
    }
    let fewest = Hung { loose: hung.loose.min(room.max(Length::ZERO)), ..*hung }.fewest_for(at);
    match (below, fewest) {
        _ if room < Length::ZERO || below && fewest.is_none() => {
            format!("{higher}; no number of fixings does at {height}")
        }
        (true, Some(fixings)) if short => format!(
            "{higher}; at {height} it takes {fixings} equally spaced fixings, and loose ends and loops that hang down at \
             most {room}"
        ),
        (true, Some(fixings)) => format!("{higher}; at {height} {fixings} equally spaced fixings do"),
        _ => format!("{higher}; at {height} loose ends and loops that hang down at most {room} do"),
    }
}

/// How long two ties may be, by every row of the rule.
fn shorter_ties(facts: &Facts<'_>, rule: &Rule, whose: Whose) -> String {
    let apart = facts.ends.iter().map(|(end, _)| end.ties_apart).max().unwrap_or(Length::ZERO);
    let rows =
        RULES.iter().copied().flatten().filter(|row| {
            row.id == rule.id && row.whose.contains(&whose) && facts.is_of_age(row.ages, whose)
        });
    let both = rows.filter_map(|row| match row.limit.map(|limit| limit.amount) {
        Some(Amount::Length(limit)) if row.looks_at == Looks::TiedLoop => Some(limit - apart),
        Some(Amount::Length(limit)) => Some(limit),
        _ => None,
    });
    let each = um(both.min().unwrap_or(Length::ZERO).wide() / 2);
    if !bounds::TIE.holds(each) {
        return String::from("No length of the two ends it: make them nearer to each other, or use one");
    }
    format!("Two ends of at most {each} each end it, or a single one")
}

/// The fewest fixings whose spans are short enough, or that put it out of reach, and the height
/// that does.
fn more_fixings(facts: &Facts<'_>, rule: &Rule, whose: Whose) -> String {
    if facts.is_at_cot() {
        return String::from("Nothing ends it there: do not hang it there");
    }
    let hung = &facts.hung;
    let reach = facts.out_of_reach(whose);
    if facts.is_hang {
        // swags of the same dip are as long however many they are
        let may = hung.height.is_some_and(|height| height - reach >= hung.drop);
        return if may { lift(facts, reach) } else { higher(facts, reach) };
    }
    let short = |hung: &Hung, fixings: u32| {
        let span = match rule.looks_at {
            Looks::SpanString => hung.span_string(fixings),
            _ => hung.span_loop(fixings),
        };
        rule.limit.is_none_or(|limit| !limit.is_broken(Some(Amount::Length(span))))
    };
    let high = |hung: &Hung, fixings: u32| hung.lowest_on(fixings).is_some_and(|lowest| lowest >= reach);
    let fixings = match hung.fewest(|hung, fixings| short(hung, fixings) || high(hung, fixings)) {
        Some(fixings) if short(hung, fixings) => format!("{fixings} equally spaced fixings end it"),
        Some(fixings) => format!("{fixings} equally spaced fixings end it, as they put it out of reach"),
        None => format!("No number of fixings up to {} ends it", bounds::FIXINGS.most),
    };
    match hung.least_height(reach) {
        Some(height) => {
            format!("{fixings}; so do fixings {height} high or higher, which put it out of reach")
        }
        None => fixings,
    }
}

/// How long an elastic may be at rest, down to the millimetre, where one so short is made.
fn shorter_elastic(facts: &Facts<'_>, limit: Length) -> String {
    let Cord::Elastic { stretch, .. } = facts.cord else { return String::new() };
    let whole = i128::from(100_000 + stretch.milli());
    let most = um(divide(limit.wide() * 100_000, whole * 1_000, Rounding::Down) * 1_000);
    if most < facts.shortest {
        return format!("A flat tape ends it; a whole string of at most {most} at rest {NOT_MADE}");
    }
    format!("A flat tape ends it, or a whole string of at most {most} at rest")
}

/// How long the whole string may be, where one so short is made, and what makes a caution of it.
fn longest_string(facts: &Facts<'_>, whose: Whose, limit: Length) -> String {
    let shorter = if limit < facts.shortest {
        format!("A whole string of at most {limit} {NOT_MADE}")
    } else {
        format!("A whole string of at most {limit} ends it")
    };
    if facts.is_at_cot() {
        return format!("{shorter}; {NOTHING_AT_COT}");
    }
    if !facts.is_reachable(whose) {
        return format!("{shorter}; out of reach, as it hangs, it is a caution");
    }
    if facts.hung.height.is_none() {
        return format!("{shorter}; out of reach it is a caution: tell the height");
    }
    let reached = lower_first(&lift(facts, facts.out_of_reach(whose)));
    format!("{shorter}. Out of reach it is a caution only: {reached}")
}

fn less(limit: Option<Limit>) -> String {
    match limit.map(|limit| limit.amount) {
        Some(amount) => format!("less than {}", words::spoken(amount)),
        None => String::from("less"),
    }
}

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

fn um(um: i128) -> Length {
    Length::from_um(i64::try_from(um).unwrap_or(i64::MAX))
}
