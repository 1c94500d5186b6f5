//! What each rule finds.

use pennantry_measure::{Force, Length, Rounding, divide};

use super::facts::{Facts, Question};
use super::rules::{Amount, Looks, RULES, Rule, Sizes, Then, When, Whose};
use super::{Finding, Outcome, remedy, words};
use crate::order::{EndStyle, Jurisdiction, Place};
use crate::shop::{Cord, Fixed, PartKind};

/// Something that a rule looks at.
#[derive(Debug, Clone)]
pub(super) struct Seen {
    /// What it is.
    pub(super) about: String,
    /// How much of it; none where that is not known, or where the rule has no figure.
    pub(super) amount: Option<Amount>,
    /// How much of what the second figure is about.
    pub(super) other: Option<Amount>,
    /// What was not told, where it is about that.
    pub(super) question: Option<Question>,
}

/// Every finding, in the order of the rules and of jurisdictions within each.
pub(super) fn findings(facts: &Facts<'_>) -> Vec<Finding> {
    let mut found: Vec<(Whose, String, Finding)> = Vec::new();
    for rule in RULES.iter().copied().flatten() {
        for whose in rule.whose {
            if applies(facts, rule, *whose, &found) {
                look(facts, rule, *whose, &mut found);
            }
        }
    }
    let mut found: Vec<Finding> = found.into_iter().map(|(_, _, finding)| finding).collect();
    // rows of one rule stand apart where their figures differ
    let order = |id: &str| RULES.iter().copied().flatten().position(|rule| rule.id == id);
    found.sort_by_key(|finding| (order(finding.rule), finding.jurisdiction));
    found
}

fn applies(facts: &Facts<'_>, rule: &Rule, whose: Whose, found: &[(Whose, String, Finding)]) -> bool {
    let looked_at = whose == Whose::Everywhere || facts.looked.contains(&whose);
    // while nothing is told there is one thing to say
    if !looked_at || !facts.is_of_age(rule.ages, whose) || !facts.told && rule.looks_at != Looks::Questions {
        return false;
    }
    let nothing_refused = || !found.iter().any(|(_, _, finding)| finding.outcome == Outcome::Refuse);
    match rule.when {
        When::Always => true,
        When::Reachable => facts.is_reachable(whose),
        When::Toy => facts.is_toy,
        When::Unless(id) => !found.iter().any(|(other, _, finding)| *other == whose && finding.rule == id),
        When::NothingRefused => nothing_refused(),
        When::NothingRefusedBy(whose) => facts.looked.contains(&whose) && nothing_refused(),
    }
}

fn look(facts: &Facts<'_>, rule: &Rule, whose: Whose, found: &mut Vec<(Whose, String, Finding)>) {
    for seen in seen(facts, rule.looks_at) {
        let broken = rule.limit.is_none_or(|limit| limit.is_broken(seen.amount))
            && rule.also.is_none_or(|limit| limit.is_broken(seen.other));
        // rows of one rule that say the same of the same thing say it once
        let about = if rule.looks_at.is_of_each() { seen.about.clone() } else { String::new() };
        let said = found
            .iter()
            .any(|(other, said_of, finding)| *other == whose && finding.rule == rule.id && *said_of == about);
        if !broken || said {
            continue;
        }
        let outcome = outcome(facts, rule.then, whose);
        let finding = Finding {
            rule: rule.id,
            jurisdiction: jurisdiction(whose),
            outcome,
            text: words::text(rule, outcome, &seen),
            measured: words::measured(rule, &seen),
            limit: words::allowed_by(rule, &seen),
            source: rule.source,
            remedy: remedy::remedy(facts, rule, whose, &seen),
            basis: rule.basis,
            figure: rule.figure,
        };
        found.push((whose, about, finding));
    }
}

fn jurisdiction(whose: Whose) -> Option<Jurisdiction> {
    match whose {
        Whose::Of(jurisdiction) => Some(jurisdiction),
        Whose::Everywhere | Whose::Elsewhere => None,
    }
}

fn outcome(facts: &Facts<'_>, then: Then, whose: Whose) -> Outcome {
    let either = |worse: bool, then: Outcome, other: Outcome| if worse { then } else { other };
    let reachable = facts.is_reachable(whose);
    match then {
        Then::Ask => Outcome::Ask,
        Then::Warn => Outcome::Warn,
        Then::Restrict => Outcome::Restrict,
        Then::Refuse => Outcome::Refuse,
        Then::Strict => either(reachable || facts.is_toy, Outcome::Restrict, Outcome::Warn),
        Then::RestrictInReach => either(reachable, Outcome::Restrict, Outcome::Warn),
        Then::RefuseInReach => either(reachable, Outcome::Refuse, Outcome::Restrict),
    }
}

/// What there is of what a rule looks at.
fn seen(facts: &Facts<'_>, looks_at: Looks) -> Vec<Seen> {
    let near = facts.near;
    let at_cot = near.place == Some(Place::Cot);
    match looks_at {
        Looks::Questions => facts.questions.iter().copied().map(question).collect(),
        Looks::AtCot => plain(at_cot, "in, on, across or tied to a cot or the like"),
        Looks::CotDistance => {
            let told = near.cot_distance.filter(|_| !at_cot);
            told.map(|distance| of("distance to the cot", distance)).into_iter().collect()
        }
        Looks::CotUntold => {
            let may_be = matches!(near.place, None | Some(Place::ChildRoom | Place::Childcare));
            plain(may_be && near.cot_distance.is_none(), "distance to a cot: not told")
        }
        Looks::Lowest => {
            let looked = !at_cot && near.place != Some(Place::Outdoors);
            let lowest = facts.hung.lowest().filter(|_| looked);
            lowest.map(|lowest| of("lowest point", lowest)).into_iter().collect()
        }
        Looks::HeightUntold => {
            plain(near.fixing_height.is_none() && !at_cot, "height of the fixings: not told")
        }
        Looks::Tail => vec![of("longest loose end", facts.tail)],
        Looks::Loop(parts) => fixed_loop(facts, parts),
        Looks::Noose | Looks::NooseUntold => {
            let told = (looks_at == Looks::Noose).then_some(true);
            let loops = facts.ends.iter().any(|(end, _)| end.style == EndStyle::Loop && end.slips == told);
            let about = if told.is_some() { "a loop that slips" } else { "whether a loop slips: not told" };
            plain(loops, about)
        }
        Looks::TiedLoop | Looks::TiedLength => tied(facts, looks_at == Looks::TiedLoop),
        Looks::SpanLoop => vec![of("a span and the wall", facts.hung.span_loop(facts.hung.fixings))],
        Looks::SpanString => vec![of("string of a span", facts.hung.span_string(facts.hung.fixings))],
        Looks::CordThickness => match facts.cord {
            Cord::Tape => Vec::new(),
            Cord::Round { thickness } | Cord::Elastic { thickness, .. } => {
                vec![of("thickness of the cord", thickness)]
            }
        },
        Looks::Stretched => stretched(facts),
        Looks::Seam => {
            let seam = facts.filling.map(|filling| pulled("seams of the pennants", filling.seam));
            seam.into_iter().collect()
        }
        Looks::Play => plain(facts.is_toy, "it has play value"),
        Looks::Young => plain(true, "a child under 3 years"),
        Looks::Overall => vec![of("the whole string", facts.hung.overall)],
        Looks::LoosePart
        | Looks::SewnPart(_)
        | Looks::SmallPart
        | Looks::Pompom
        | Looks::HangingBall
        | Looks::EndTrimming => parts(facts, looks_at),
    }
}

fn of(about: &str, length: Length) -> Seen {
    Seen { about: about.to_owned(), amount: Some(Amount::Length(length)), other: None, question: None }
}

fn pulled(about: &str, pull: Option<Force>) -> Seen {
    Seen { about: about.to_owned(), amount: pull.map(Amount::Force), other: None, question: None }
}

fn plain(there: bool, about: &str) -> Vec<Seen> {
    let seen = there.then(|| Seen { about: about.to_owned(), amount: None, other: None, question: None });
    seen.into_iter().collect()
}

fn question(question: Question) -> Seen {
    let about = words::untold(question).to_owned();
    Seen { about, amount: None, other: None, question: Some(question) }
}

/// The largest loop that does not run smaller; one whose size is not told is the largest.
fn fixed_loop(facts: &Facts<'_>, parts: Option<Force>) -> Vec<Seen> {
    let excused = |force: Option<Force>| force.zip(parts).is_some_and(|(force, parts)| force <= parts);
    let loops = facts
        .ends
        .iter()
        .filter(|(end, _)| end.style == EndStyle::Loop && end.slips != Some(true) && !excused(end.breakaway));
    let sizes: Vec<Option<Length>> = loops.map(|(end, _)| end.perimeter).collect();
    let untold = sizes.iter().any(Option::is_none);
    let largest = sizes.iter().flatten().max().copied().filter(|_| !untold);
    let seen = Seen {
        about: String::from("loop at an end"),
        amount: largest.map(Amount::Length),
        other: None,
        question: None,
    };
    if sizes.is_empty() { Vec::new() } else { vec![seen] }
}

/// Two ties at one end, the longest pair: with the distance between their roots, a loop.
fn tied(facts: &Facts<'_>, loops: bool) -> Vec<Seen> {
    let pairs = facts.ends.iter().filter(|(end, _)| end.style == EndStyle::Tie).filter_map(|(end, loose)| {
        let both = end.tie.unwrap_or(*loose) + end.second_tie?;
        Some(if loops { both + end.ties_apart } else { both })
    });
    pairs.max().map(|longest| of("two ends tied together", longest)).into_iter().collect()
}

/// An elastic as long as it gets, up to the millimetre, and by how much that is.
fn stretched(facts: &Facts<'_>) -> Vec<Seen> {
    let Cord::Elastic { stretch, .. } = facts.cord else { return Vec::new() };
    let whole = i128::from(100_000 + stretch.milli());
    let mm = divide(facts.hung.overall.wide() * whole, 100_000 * 1_000, Rounding::Up);
    let length = Length::from_mm(i64::try_from(mm).unwrap_or(i64::MAX / 1_000));
    vec![Seen { other: Some(Amount::Share(stretch)), ..of("the elastic stretched", length) }]
}

/// Trimmings, each by its name.
fn parts(facts: &Facts<'_>, looks_at: Looks) -> Vec<Seen> {
    const SIX: Length = Length::from_mm(6);
    let hanging = facts.parts.iter().filter_map(|hanging| {
        let part = hanging.part;
        let hard = part.kind == PartKind::Hard;
        let sewn = part.fixed == Fixed::Sewn;
        let pull = || pulled(hanging.name, part.pull);
        let plain = || Seen { amount: None, ..pull() };
        match looks_at {
            Looks::LoosePart => (hard && part.is_small() && !sewn).then(plain),
            Looks::SewnPart(sizes) => {
                let of_size = match sizes {
                    Sizes::Any => true,
                    Sizes::UpTo6 => part.largest <= SIX,
                    Sizes::Over6 => part.largest > SIX,
                };
                (hard && part.is_small() && sewn && of_size).then(pull)
            }
            Looks::SmallPart => (hard && part.is_small()).then(plain),
            Looks::Pompom => (part.kind == PartKind::Pompom)
                .then(|| Seen { other: part.pull.map(Amount::Force), ..of(hanging.name, part.largest) }),
            Looks::HangingBall => (hard || part.kind == PartKind::Ball).then(|| Seen {
                other: Some(Amount::Length(part.largest)),
                ..of(hanging.name, hanging.hangs)
            }),
            Looks::EndTrimming => hanging.at_end.then(plain),
            _ => None,
        }
    });
    hanging.collect()
}
