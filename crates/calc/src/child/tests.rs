//! Findings at the fixture shop. The worked cases of the reference are asked at the public
//! door, from `tests/golden/child.toml`.

mod carried;
mod families;
mod properties;
mod remedies;

use pennantry_measure::{Force, Length};

use super::hung::Hung;
use super::rules::{Amount, Looks};
use super::*;
use crate::fixture::{mm, order, part, shop};
use crate::order::{End, EndStyle, Near, Place, Who};
use crate::rule::Comparator;
use crate::shop::{Fixed, Part, PartKind, Shape, Shop, SizeAt, Trimming};
use pennantry_measure::{Mass, Money};

/// A string of one pennant 100 wide that shows 100, with loose ends of 100, near a child of
/// 24 months in the European Union, out of reach: nothing of it is over a limit.
fn small(shop: &mut Shop) -> Order {
    shop.least = mm(50);
    let near = Near {
        who: Some(Who::Child),
        youngest_months: Some(24),
        place: Some(Place::ChildRoom),
        fixing_height: Some(mm(2_000)),
        fixings: Some(2),
        span: Some(mm(100)),
        cot_distance: Some(mm(5_000)),
        jurisdictions: vec![Jurisdiction::Eu],
        ..Near::default()
    };
    Order {
        count: Some(1),
        tail: mm(100),
        shape: Shape::Rectangle,
        width: mm(100),
        drop: mm(100),
        size_at: SizeAt::BindingEdge,
        near,
        ..order()
    }
}

fn found(shop: &Shop, order: &Order) -> ChildFinding {
    let layout = crate::layout::solve(shop, order).expect("it can be laid out");
    find(shop, order, &layout)
}

fn rules(found: &ChildFinding) -> Vec<(&'static str, Outcome)> {
    found.findings.iter().map(|finding| (finding.rule, finding.outcome)).collect()
}

fn trimmed(part: Part) -> Trimming {
    Trimming {
        code: String::from("button"),
        name: String::from("Button"),
        price: Money::ZERO,
        mass: Mass::ZERO,
        thickness: mm(4),
        part,
    }
}

#[test]
fn spans_come_down_by_the_v_that_they_are_pulled_to() {
    // the worked figures of the safety reference, 2.4 and case 70
    for (string, level, drop) in [
        (2_100, 2_000, 321),
        (2_050, 2_000, 225),
        (3_100, 3_000, 391),
        (1_005, 1_000, 51),
        (2_005, 2_000, 71),
        (2_000, 2_000, 0),
        // derived: straight down and up again
        (2_000, 0, 1_000),
    ] {
        let hung = hung(string, Some(level));
        assert_eq!(hung.v_drop(2), mm(drop), "{string} over {level}");
        // derived: a span of half the string over half the distance has half the drop
        assert_eq!(hung.v_drop(3), mm(drop / 2 + drop % 2), "{string} over {level}, in two");
    }
    // a distance that is not known is the worst of all
    assert_eq!(hung(2_000, None).v_drop(2), mm(1_000));
    assert_eq!(hung(2_000, None).span_loop(2), mm(4_000));
    assert_eq!(hung(2_000, Some(1_900)).span_loop(3), mm(1_950));
    // on one fixing all of it hangs down
    assert_eq!(hung(2_000, Some(1_900)).v_drop(1), mm(2_200));
}

fn hung(string: i64, level: Option<i64>) -> Hung {
    Hung {
        height: Some(mm(2_000)),
        string: mm(string),
        level: level.map(mm),
        fixings: 2,
        overall: mm(string + 200),
        drop: mm(250),
        loose: mm(100),
    }
}

#[test]
fn the_lowest_point_goes_down_to_the_millimetre_and_no_further_than_the_floor() {
    let at = |um: i64, loose: i64| {
        Hung { height: Some(Length::from_um(um)), loose: mm(loose), ..hung(2_100, Some(2_000)) }.lowest()
    };
    assert_eq!(at(2_000_000, 100), Some(mm(1_429)));
    assert_eq!(at(2_000_999, 100), Some(mm(1_429)));
    assert_eq!(at(1_999_999, 100), Some(mm(1_428)));
    assert_eq!(at(2_000_000, 600), Some(mm(1_400)));
    assert_eq!(at(500_000, 100), Some(mm(0)));
    assert_eq!(Hung { height: None, ..hung(2_100, Some(2_000)) }.lowest(), None);
}

#[test]
fn what_is_far_below_every_limit_leaves_the_words_for_the_young() {
    let mut shop = shop();
    let order = small(&mut shop);
    let found = found(&shop, &order);
    assert_eq!(rules(&found), [("R25", Outcome::Warn)]);
    assert_eq!((found.lowest, found.outcome), (Some(mm(1_900)), Outcome::Warn));
    assert!(found.acknowledge.is_empty());
    assert!(found.scope.contains("the European Union") && found.scope.contains("clear nothing"));
}

#[test]
fn nothing_told_is_a_question_and_no_clearance() {
    let mut shop = shop();
    let order =
        Order { near: Near { jurisdictions: vec![Jurisdiction::Gb], ..Near::default() }, ..small(&mut shop) };
    let found = found(&shop, &order);
    assert_eq!(rules(&found), [("R00", Outcome::Ask)]);
    assert_eq!(found.findings[0].measured, "not told who is near");
    assert_eq!((found.acknowledge.as_slice(), found.lowest), (["R00"].as_slice(), None));
}

#[test]
fn acknowledgements_name_each_rule_once() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    order.near.fixing_height = None;
    order.near.cot_distance = None;
    order.near.youngest_months = None;
    order.near.jurisdictions = Jurisdiction::ALL.to_vec();
    let found = found(&shop, &order);
    assert_eq!(found.acknowledge, ["R02u", "R03u", "R00"]);
    assert_eq!(found.findings.len(), 5 + 5 + 1 + 1);
}

/// The rule table's own note: a limit read in a text names it, one that is remembered says
/// so and names no clause, and one of the shop's own says that.
#[test]
fn a_source_names_no_clause_for_a_figure_that_was_not_seen_in_it() {
    let clauses = ["clause", "section", "Article", "Annex", "CFR", "4.14", "5.24", "1500."];
    let mut looked_at = 0;
    for rule in RULES.iter().copied().flatten() {
        let source = rule.source;
        match rule.figure {
            Origin::Remembered => {
                assert!(source.contains("from memory"), "{}: {source}", rule.id);
                assert!(!clauses.iter().any(|clause| source.contains(clause)), "{}: {source}", rule.id);
            }
            Origin::Shop => {
                assert!(source.starts_with("The shop's own"), "{}: {source}", rule.id);
                // R26 names where its yardstick was seen
                let names = clauses.iter().any(|clause| source.contains(clause));
                assert!(!names || rule.id == "R26", "{}: {source}", rule.id);
            }
            Origin::Read => {
                assert!(
                    !source.contains("memory") && !source.contains("The shop's own"),
                    "{}: {source}",
                    rule.id
                );
                assert!(rule.limit.is_some() || rule.id == "R12", "{} has no figure", rule.id);
            }
            Origin::NoFigure => assert!(rule.limit.is_none(), "{} has a figure", rule.id),
        }
        assert!(!source.is_empty() && !rule.whose.is_empty() && rule.id.starts_with('R'));
        looked_at += 1;
    }
    assert!(looked_at > 60, "only {looked_at} rows");
}

/// The shop's own figures are those that the rule table lists as such.
#[test]
fn the_shops_own_figures_are_told_as_such() {
    let origin = |id: &str, whose: Jurisdiction, months: u32| {
        let of = Whose::Of(whose);
        let row = RULES
            .iter()
            .copied()
            .flatten()
            .find(|rule| rule.id == id && rule.whose.contains(&of) && rule.ages.holds(of, Some(months)));
        row.map(|row| row.figure)
    };
    for (id, whose, months, figure) in [
        ("R02", Jurisdiction::Eu, 12, Origin::Shop),
        ("R03", Jurisdiction::Eu, 12, Origin::Read),
        ("R03", Jurisdiction::Us, 12, Origin::Shop),
        ("R03", Jurisdiction::Ca, 12, Origin::Shop),
        ("R03", Jurisdiction::Au, 12, Origin::Read),
        ("R04", Jurisdiction::Eu, 12, Origin::Read),
        ("R04", Jurisdiction::Us, 12, Origin::Remembered),
        ("R04", Jurisdiction::Ca, 12, Origin::Read),
        ("R04", Jurisdiction::Au, 12, Origin::Remembered),
        ("R04", Jurisdiction::Au, 24, Origin::Shop),
        ("R05", Jurisdiction::Us, 24, Origin::Shop),
        ("R05", Jurisdiction::Au, 24, Origin::Read),
        ("R07", Jurisdiction::Gb, 12, Origin::Shop),
        ("R07", Jurisdiction::Ca, 12, Origin::Read),
        ("R08", Jurisdiction::Us, 12, Origin::Shop),
        ("R08", Jurisdiction::Ca, 12, Origin::Read),
        ("R10", Jurisdiction::Au, 12, Origin::Shop),
        ("R11", Jurisdiction::Ca, 12, Origin::Read),
    ] {
        assert_eq!(origin(id, whose, months), Some(figure), "{id} {whose:?} at {months}");
    }
}

/// Every limit at itself and a micrometre, or a tenth of a newton, to either side.
#[test]
fn each_limit_breaks_on_its_own_side_only() {
    let mut tried = 0;
    for limit in RULES.iter().copied().flatten().flat_map(|rule| [rule.limit, rule.also]).flatten() {
        let around = |step: i64| match limit.amount {
            Amount::Length(length) => Amount::Length(length + Length::from_um(step)),
            Amount::Force(force) => Amount::Force(Force::from_tenths(
                force.tenths().checked_add_signed(step.try_into().unwrap()).unwrap(),
            )),
            Amount::Share(share) => {
                Amount::Share(pennantry_measure::Percent::from_milli(share.milli() + step))
            }
        };
        let broken = [-1, 0, 1].map(|step| limit.is_broken(Some(around(step))));
        let wanted = match limit.comparator {
            Comparator::Over => [false, false, true],
            Comparator::AtLeast => [false, true, true],
            Comparator::Under => [true, false, false],
        };
        assert_eq!(broken, wanted, "{limit:?}");
        assert!(limit.is_broken(None), "what is not known breaks it");
        tried += 1;
    }
    assert!(tried > 45, "only {tried} limits");
}

#[test]
fn only_loops_in_australia_and_hanging_balls_fail_at_their_limit() {
    for rule in RULES.iter().copied().flatten() {
        let Some(limit) = rule.limit else { continue };
        let equal_fails = limit.comparator == Comparator::AtLeast;
        let loops = matches!(rule.looks_at, Looks::Loop(_) | Looks::SpanLoop);
        let australian = loops && rule.whose == [Whose::Of(Jurisdiction::Au)] && rule.figure == Origin::Read;
        assert_eq!(equal_fails, australian || rule.looks_at == Looks::HangingBall, "{}", rule.id);
    }
}

#[test]
fn each_trimming_is_told_by_its_name() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    let glued = Part { kind: PartKind::Hard, fits_cylinder: None, fixed: Fixed::Glued, ..part() };
    shop.trimmings = vec![trimmed(glued), Trimming { name: "Bell".into(), ..trimmed(glued) }];
    order.trimmings = vec![(0, 1), (1, 2)];
    let found = found(&shop, &order);
    assert_eq!(rules(&found), [("R12", Outcome::Refuse), ("R12", Outcome::Refuse)]);
    assert!(found.findings[0].text.starts_with("Button:") && found.findings[1].text.starts_with("Bell:"));
}

#[test]
fn a_loop_or_a_shorter_tie_holds_the_string_further_out() {
    let mut shop = shop();
    let order = small(&mut shop);
    let string = |ends: [End; 2]| {
        let order = Order { ends, ..order.clone() };
        let layout = crate::layout::solve(&shop, &order).expect("it can be laid out");
        facts::Facts::of(&shop, &order, &layout).hung.string
    };
    let plain = End::default();
    let looped = End { style: EndStyle::Loop, perimeter: Some(mm(60)), ..plain };
    let tie = |length| End { style: EndStyle::Tie, tie: length, ..plain };
    assert_eq!(string([plain; 2]), mm(100));
    assert_eq!(string([looped, plain]), mm(200));
    assert_eq!(string([looped; 2]), mm(300));
    assert_eq!(string([tie(None), plain]), mm(100));
    assert_eq!(string([tie(Some(mm(60))), plain]), mm(140));
    assert_eq!(string([tie(Some(mm(500))), plain]), mm(100));
}
