//! Findings in words.

use super::Outcome;
use super::facts::Question;
use super::judge::Seen;
use super::rules::{Amount, Limit, Looks, Rule};
use crate::order::Jurisdiction;
use crate::rule::Comparator;

/// What the whole can say and what it cannot.
pub(super) fn scope(jurisdictions: &[Jurisdiction], country: &str) -> String {
    const CLEARS_NOTHING: &str = "They clear nothing: local rules and competent people decide, and whatever was not told \
                                  counts as the worse.";
    let named: Vec<&str> = jurisdictions.iter().map(|jurisdiction| name(*jurisdiction)).collect();
    let known = Jurisdiction::of_country(country).is_some();
    if !named.is_empty() && !known {
        return format!(
            "No rules of the place that it goes to ({country}) are known here: rules of the shop's own were looked at, \
             those kept here for {}, and no others. {CLEARS_NOTHING}",
            named.join(", ")
        );
    }
    if named.is_empty() {
        return format!(
            "No rules of the place that it goes to ({country}) are known here: only rules of the shop's own were looked \
             at. {CLEARS_NOTHING}"
        );
    }
    format!(
        "Looked at by the rules shown, those kept here for {}, and by no others. {CLEARS_NOTHING}",
        named.join(", ")
    )
}

fn name(jurisdiction: Jurisdiction) -> &'static str {
    match jurisdiction {
        Jurisdiction::Eu => "the European Union",
        Jurisdiction::Gb => "Great Britain",
        Jurisdiction::Us => "the United States",
        Jurisdiction::Ca => "Canada",
        Jurisdiction::Au => "Australia",
    }
}

/// What was not told.
pub(super) fn untold(question: Question) -> &'static str {
    match question {
        Question::Anything => "not told who is near",
        Question::Who => "not told whether a child is near",
        Question::Age => "not told how old the youngest child is",
        Question::ChildOrNot => "told that no child is near, and the age of one",
        Question::NoChildThere => "told that no child is near, in a place for children",
        Question::NoChildByCot => "told that no child is near, and the distance to where one sleeps or plays",
        Question::Span => "the span told is longer than the string",
        Question::Rules => "the rules of the place that it goes to are not known here",
    }
}

/// What was measured.
pub(super) fn measured(rule: &Rule, seen: &Seen) -> String {
    let about = &seen.about;
    let Some(limit) = rule.limit else { return about.clone() };
    let first = told(limit, seen.amount);
    let second = rule.also.map(|also| told(also, seen.other));
    match (rule.looks_at, second) {
        (Looks::HangingBall, Some(size)) => format!("{about}: hangs {first}, largest size {size}"),
        (Looks::Pompom, Some(pull)) => format!("{about}: largest size {first}, {pull}"),
        (_, Some(second)) => format!("{about}: {first}, {second}"),
        (_, None) => format!("{about}: {first}"),
    }
}

fn told(limit: Limit, amount: Option<Amount>) -> String {
    match (amount, limit.amount) {
        (Some(amount), _) => spoken(amount),
        (None, Amount::Force(_)) => String::from("no pull test"),
        (None, _) => String::from("not told"),
    }
}

/// An amount with its unit.
pub(super) fn spoken(amount: Amount) -> String {
    match amount {
        Amount::Length(length) => length.to_string(),
        Amount::Force(force) => format!("stood a pull of {force}"),
        Amount::Share(share) => format!("{share} longer"),
    }
}

/// What is allowed, of what was seen: each question has an answer of its own.
pub(super) fn allowed_by(rule: &Rule, seen: &Seen) -> String {
    let allowed = match seen.question {
        Some(Question::Span) => "a span no longer than the string between the outer fixings",
        Some(Question::Rules) => "rules of the place that it goes to, known here",
        Some(Question::ChildOrNot | Question::NoChildThere | Question::NoChildByCot) => {
            "one answer to whether a child is near"
        }
        Some(Question::Anything | Question::Who | Question::Age) | None => return limit(rule),
    };
    allowed.to_owned()
}

/// What is allowed.
pub(super) fn limit(rule: &Rule) -> String {
    let Some(limit) = rule.limit else { return rule.allowed.to_owned() };
    let first = allowed(limit);
    let more = match rule.also {
        Some(also) => format!(", or {}", allowed(also)),
        None if rule.allowed.is_empty() => String::new(),
        None => format!(" ({})", rule.allowed),
    };
    format!("{first}{more}")
}

fn allowed(limit: Limit) -> String {
    let amount = match limit.amount {
        Amount::Length(length) => length.to_string(),
        Amount::Force(force) => format!("a pull of {force}"),
        Amount::Share(share) => format!("{share} longer"),
    };
    match limit.comparator {
        Comparator::Over => format!("at most {amount}"),
        Comparator::AtLeast => format!("less than {amount}"),
        Comparator::Under => format!("{amount} or more"),
    }
}

/// A finding in plain words.
pub(super) fn text(rule: &Rule, outcome: Outcome, seen: &Seen) -> String {
    if let Some(question) = seen.question {
        return asked(question).to_owned();
    }
    let about = &seen.about;
    let plain = match rule.looks_at {
        Looks::Questions => asked(Question::Anything),
        Looks::AtCot => {
            "Do not hang it in, on, across or tied to a cot, playpen or pram: a child can get the string round the neck"
        }
        Looks::CotDistance if outcome == Outcome::Refuse => {
            "It hangs within reach and close to where a child sleeps or plays: do not hang it there"
        }
        Looks::CotDistance => {
            "It hangs close to where a child sleeps or plays, and may come down into it: hang it further away"
        }
        Looks::CotUntold => "Tell how far it is from any cot: until then it counts as close to one",
        Looks::Lowest => {
            "A small child can reach it: hang it higher, counted from whatever a child can stand on, or on more fixings"
        }
        Looks::HeightUntold => {
            "Tell how high the fixings are above whatever a child can stand on, furniture too: until then it counts as \
             within reach"
        }
        Looks::Tail => {
            "A loose end as long as this can go round a small child's neck: shorten it, or tie it up"
        }
        Looks::Loop(_) => "A small child's head can go through a loop of this size: make it smaller",
        Looks::Noose => "A loop that runs smaller closes round whatever is in it: use one that is sewn fast",
        Looks::NooseUntold => {
            "Tell whether the loop can run smaller, as a noose does: until then nobody can say"
        }
        Looks::TiedLoop | Looks::TiedLength => {
            "Tied together, the two ends make a loop that a small child's head can go through: shorten them"
        }
        Looks::SpanLoop | Looks::SpanString => {
            "Within reach, the string between two fixings makes a loop with the wall: use more fixings, or hang it out \
             of reach"
        }
        Looks::CordThickness => "A cord as thin as this cuts in: use a thicker one, or a flat tape",
        Looks::Stretched => {
            "An elastic that gets as long as this can be pulled round a small child: use a tape instead"
        }
        Looks::LoosePart => {
            return format!("{about}: it comes off and is small enough to choke on. Leave it out");
        }
        Looks::SewnPart(_) => {
            return format!(
                "{about}: small enough to choke on, and not known to stay on when it is pulled. Have it tested, or \
                 leave it out"
            );
        }
        Looks::SmallPart => {
            return format!("{about}: a small part on what counts as a toy. It needs a warning on its label");
        }
        Looks::Pompom => {
            return format!(
                "{about}: a small pompom that is not known to stay on. Have it tested, or leave it out"
            );
        }
        Looks::HangingBall => {
            return format!(
                "{about}: small, and hanging so that it reaches a child's throat. Sew it on flat, or leave it out"
            );
        }
        Looks::EndTrimming => {
            return format!(
                "{about}: at a loose end within reach it catches, and the end makes a noose. Leave it out there"
            );
        }
        Looks::Seam => {
            "The filling may come out where a seam gives way, and it chokes: have the seams tested"
        }
        Looks::Play => {
            "A child would play with it, so it may have to meet every rule for toys: it is not sold as bunting before \
             somebody competent has looked at it"
        }
        Looks::Young => {
            "A string can strangle. An adult hangs it, out of reach and away from any cot, takes it down whole and puts it \
             away, and never leaves it hanging by one end"
        }
        Looks::Overall => {
            "A string as long as this can go round a small child's neck wherever a child gets hold of it: hang it out of \
             reach"
        }
    };
    plain.to_owned()
}

fn asked(question: Question) -> &'static str {
    match question {
        Question::Anything => {
            "Tell who will be near, how old the youngest child is, and where and how high it hangs"
        }
        Question::Who => {
            "Tell whether a child will be near, or is expected, and how old: until then it is looked at as for a newborn"
        }
        Question::Age => {
            "Tell how old the youngest child is, 0 months if not yet born: until then it is looked at so"
        }
        Question::ChildOrNot => {
            "Say which of the two it is: it is looked at as if a child of that age were near"
        }
        Question::NoChildThere => {
            "Say whether it is a place for children all the same: it is looked at as if a newborn were near"
        }
        Question::NoChildByCot => {
            "Say whether a child sleeps or plays there all the same: it is looked at as if a newborn were near"
        }
        Question::Span => {
            "A string does not fit over a span longer than itself: measure both again. Until then it is looked at as if \
             the span were not known"
        }
        Question::Rules => {
            "Ask somebody who knows the rules of the place that it goes to, or name the jurisdictions to look at"
        }
    }
}
