//! What a remedy names is done, at random: the finding is gone, or is what the remedy says.

use proptest::prelude::*;

use super::*;

/// The number that stands in a remedy between two texts.
fn named(remedy: &str, before: &str, after: &str) -> Option<Length> {
    let rest = &remedy[remedy.to_lowercase().find(&before.to_lowercase())? + before.len()..];
    let end = rest.find(|letter: char| !letter.is_ascii_digit() && letter != '.')?;
    let (number, rest) = rest.split_at(end);
    if number.is_empty() {
        return None;
    }
    let (whole, part) = number.split_once('.').unwrap_or((number, ""));
    let um = format!("{whole}{part:0<3}").parse().ok()?;
    rest.starts_with(after).then(|| Length::from_um(um))
}

fn strings() -> impl Strategy<Value = (Shop, Order)> {
    let whose = prop::sample::select(vec![
        vec![Jurisdiction::Eu],
        vec![Jurisdiction::Us],
        vec![Jurisdiction::Ca],
        vec![Jurisdiction::Au],
        Vec::new(),
    ]);
    let places = [Place::Home, Place::ChildRoom, Place::Outdoors, Place::Cot];
    let ends = prop::sample::select(vec![
        End::default(),
        End { style: EndStyle::Loop, slips: Some(false), ..End::default() },
        End { style: EndStyle::Loop, slips: Some(false), perimeter: Some(mm(300)), ..End::default() },
        End { style: EndStyle::Tie, trimming: Some(0), ..End::default() },
    ]);
    let height = prop::option::weighted(0.8, 500_000_i64..4_000_000);
    let hung = (height, prop::option::of(1_u32..=9), prop::option::of(0_i64..=110));
    (0_u32..40, prop::sample::select(places.to_vec()), whose, ends, hung, 1_u32..=80, 0_i64..450_000)
        .prop_map(|(months, place, whose, end, (height, fixings, span), count, tail)| {
            let mut shop = shop();
            let order = small(&mut shop);
            shop.trimmings = vec![trimmed(part())];
            let flagged = i64::from(count) * 100_000 - 20_000;
            let near = Near {
                youngest_months: Some(months),
                place: Some(place),
                fixing_height: height.map(Length::from_um),
                fixings,
                span: span.map(|share| Length::from_um(flagged * share / 100)),
                jurisdictions: whose,
                ..order.near.clone()
            };
            let (ends, tail) = ([end; 2], Length::from_um(tail));
            (shop, Order { count: Some(count), width: mm(80), ends, tail, near, ..order })
        })
}

/// How bad a finding is, and nothing where it is gone.
fn left(shop: &Shop, order: &Order, rule: &str) -> Outcome {
    let found = found(shop, order).findings;
    found.iter().find(|finding| finding.rule == rule).map_or(Outcome::NothingFound, |found| found.outcome)
}

fn with(order: &Order, change: impl FnOnce(&mut Order)) -> Order {
    let mut order = order.clone();
    change(&mut order);
    order
}

/// Loose ends and loops that hang down so far at most.
fn shorter(order: &mut Order, room: Length) {
    if order.ends[0].style == EndStyle::Loop {
        order.ends.iter_mut().for_each(|end| end.perimeter = Some(room * 2));
    } else {
        order.tail = room;
    }
}

/// So many whole pennants fewer that the string is no longer than that.
fn cut_to(order: &mut Order, longest: Length) {
    let fit = (longest.um() - 2 * order.tail.um() + 20_000) / 100_000;
    order.count = Some(u32::try_from(fit).expect("a pennant fits, or it is not named"));
}

/// Everything that a remedy of a rule names, done.
fn done(order: &Order, finding: &Finding) -> Vec<(&'static str, Order, Outcome)> {
    let (rule, remedy) = (finding.rule, finding.remedy.as_str());
    let mut done = Vec::new();
    let caution = if rule == "R26" { Outcome::Warn } else { Outcome::NothingFound };
    let mut say = |what, order, outcome| done.push((what, order, outcome));
    for (before, after) in [
        ("fixings ", " mm high or higher"),
        ("give fixingHeightMm; ", " mm or more ends it"),
        ("any ends it; ", " mm or more is out of reach"),
    ] {
        if let Some(height) = named(remedy, before, after) {
            say("height", with(order, |order| order.near.fixing_height = Some(height)), caution);
        }
    }
    let count = |length: Length| u32::try_from(length.um() / 1_000).expect("a count");
    let room = named(remedy, "hang down at most ", " mm");
    for before in ["mm ", "takes ", "; ", ""] {
        let Some(fixings) = named(remedy, before, " equally spaced fixings").map(count) else { continue };
        if before.is_empty() && !remedy.starts_with(&fixings.to_string()) {
            continue;
        }
        let more = with(order, |order| {
            order.near.fixings = Some(fixings);
            if let Some(room) = room {
                shorter(order, room);
            }
        });
        say("fixings", more.clone(), caution);
        if fixings > order.near.fixings.unwrap_or(2) + 1 && (rule != "R26" || room.is_none()) {
            // and they are the fewest
            let fewer = with(&more, |order| order.near.fixings = Some(fixings - 1));
            say("one fixing less", fewer, finding.outcome);
        }
        break;
    }
    if let Some(room) = room.filter(|_| !remedy.contains("equally spaced")) {
        say("loose ends", with(order, |order| shorter(order, room)), caution);
    }
    if let Some(tail) = named(remedy, "Loose ends of at most ", " mm") {
        let held = |order: &mut Order| (order.tail, order.near.fixings) = (tail, Some(2));
        say("loose ends of it", with(order, held), Outcome::NothingFound);
    }
    let whole = named(remedy, "A whole string of at most ", " mm ends it");
    if let Some(longest) = whole {
        say("whole string", with(order, |order| cut_to(order, longest)), Outcome::NothingFound);
    }
    if let Some(round) = named(remedy, "A loop of at most ", " mm") {
        let smaller = |order: &mut Order| order.ends.iter_mut().for_each(|end| end.perimeter = Some(round));
        say("loop", with(order, smaller), Outcome::NothingFound);
    }
    // where no rules are known there is another question of that rule, which stays
    if let Some(span) = named(remedy, "Give a spanMm of at most ", " mm")
        && !order.near.jurisdictions.is_empty()
    {
        say("span", with(order, |order| order.near.span = Some(span)), Outcome::NothingFound);
    }
    done
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    #[test]
    fn what_a_remedy_names_ends_the_finding((shop, order) in strings()) {
        for finding in found(&shop, &order).findings {
            for (what, after, outcome) in done(&order, &finding) {
                prop_assert!(finding.outcome > outcome || what == "one fixing less" || finding.outcome == Outcome::Warn);
                let left = if finding.rule == "R00" {
                    // another question stays
                    let same = |other: &&Finding| other.text == finding.text;
                    found(&shop, &after).findings.iter().find(same).map_or(Outcome::NothingFound, |found| found.outcome)
                } else {
                    left(&shop, &after, finding.rule)
                };
                // shorter loose ends make a shorter string as well, which may end it
                let better = left < outcome && order.tail > after.tail;
                prop_assert!(left == outcome || better, "{left:?}: {what}, {}: {}", finding.rule, finding.remedy);
                // a height that is told is not then too low
                if what == "height" && finding.rule == "R03u" {
                    prop_assert_eq!(self::left(&shop, &after, "R03"), Outcome::NothingFound);
                }
            }
            prop_assert!(
                order.near.place != Some(Place::Cot) || !finding.remedy.contains(" high or higher"),
                "{finding:?}"
            );
        }
    }

    /// Where more is told, with the best of it, the height that was named gets less, and where
    /// that is not said it does not.
    #[test]
    fn what_telling_would_lower_is_said_and_only_that((shop, order) in strings()) {
        let order = with(&order, |order| order.near.fixing_height = None);
        let height = |order: &Order| {
            let found = found(&shop, order).findings;
            let untold = found.into_iter().find(|finding| finding.rule == "R03u")?;
            let height = named(&untold.remedy, "give fixingHeightMm; ", " mm")
                .or_else(|| named(&untold.remedy, "any ends it; ", " mm"));
            Some((height?, untold.remedy))
        };
        let Some((before, remedy)) = height(&order) else { return Ok(()) };
        let layout = crate::layout::solve(&shop, &order).expect("it can be laid out");
        let hung = facts::Facts::of(&shop, &order, &layout).hung;
        let spanned = with(&order, |order| order.near.span = Some(hung.string));
        let (straight, _) = height(&spanned).expect("a height");
        let (held, _) = height(&with(&order, |order| {
            order.near.fixings = order.near.fixings.or(Some(1_000));
        })).expect("a height");
        prop_assert_eq!(remedy.contains("spanMm"), straight < before && hung.level.is_none(), "{}", remedy);
        prop_assert_eq!(remedy.contains("fixings"), held < before, "{}", remedy);
    }
}
