//! What holds of whole families of orders, each a mistake that was once made of one of them.

use super::*;
use crate::order::{AskedLength, Hang};
use crate::shop::Filling;

fn finding<'a>(found: &'a ChildFinding, rule: &str) -> &'a Finding {
    let finding = found.findings.iter().find(|finding| finding.rule == rule);
    finding.unwrap_or_else(|| panic!("no {rule} in {found:?}"))
}

#[test]
fn no_child_beside_anything_that_tells_of_one_is_asked_again() {
    let mut shop = shop();
    let order = small(&mut shop);
    let near = Near { jurisdictions: vec![Jurisdiction::Gb], who: Some(Who::NoChild), ..Near::default() };
    for (near, measured) in [
        (Near { youngest_months: Some(0), ..near.clone() }, "the age of one"),
        (Near { place: Some(Place::ChildRoom), ..near.clone() }, "in a place for children"),
        (Near { place: Some(Place::Childcare), ..near.clone() }, "in a place for children"),
        (Near { cot_distance: Some(mm(0)), ..near.clone() }, "the distance to where one sleeps or plays"),
        (Near { cot_distance: Some(mm(200)), place: Some(Place::Home), ..near.clone() }, "sleeps or plays"),
        (
            Near { cot_distance: Some(mm(90_000)), place: Some(Place::Venue), ..near.clone() },
            "sleeps or plays",
        ),
        (Near { cot_distance: Some(mm(90_000)), place: Some(Place::Outdoors), ..near.clone() }, "or plays"),
    ] {
        let found = found(&shop, &Order { near: near.clone(), ..order.clone() });
        let asked = finding(&found, "R00");
        assert_eq!(asked.outcome, Outcome::Ask, "{near:?}");
        assert!(asked.measured.contains(measured), "{asked:?}");
        assert_eq!(asked.limit, "one answer to whether a child is near");
        // looked at as for a newborn
        let close = near.cot_distance.is_some_and(|distance| distance < mm(1_000));
        assert_eq!(found.findings.iter().any(|finding| finding.rule == "R02"), close, "{near:?}");
        let young = found.findings.iter().any(|finding| finding.rule == "R25");
        assert!(young || found.outcome == Outcome::Refuse, "{near:?}");
    }
}

/// A hang of so many swags near a child of 8 months, with hooks so high.
fn hang(order: &Order, dip: i64, swags: u32, height: Option<i64>, tail: i64) -> Order {
    let span = mm(3_000);
    let near = Near {
        youngest_months: Some(8),
        place: Some(Place::Home),
        fixing_height: height.map(mm),
        fixings: Some(swags + 1),
        span: Some(span),
        ..order.near.clone()
    };
    let length = Some(AskedLength::Hang(Hang { span, dip: mm(dip), swags }));
    Order { length, count: None, tail: mm(tail), near, ..order.clone() }
}

#[test]
fn no_number_of_fixings_is_named_for_a_hang() {
    let mut shop = shop();
    let order = small(&mut shop);
    let mut looked_at = 0;
    for (dip, swags) in [(400, 1), (400, 2), (200, 3), (50, 12)] {
        for height in [None, Some(1_000), Some(1_550), Some(1_620), Some(1_900), Some(2_100)] {
            for tail in [100, 305] {
                let asked = hang(&order, dip, swags, height, tail);
                for finding in found(&shop, &asked).findings {
                    assert!(!finding.remedy.contains(" equally spaced fixings"), "{finding:?}");
                    assert!(!finding.remedy.contains("number of fixings"), "{finding:?}");
                    looked_at += 1;
                    if !finding.remedy.ends_with("a hang of less dip, asked anew, comes down less") {
                        continue;
                    }
                    let flatter = found(&shop, &hang(&order, dip / 2, swags, height, tail));
                    assert!(flatter.lowest > found(&shop, &asked).lowest, "{finding:?}");
                }
            }
        }
    }
    assert!(looked_at > 100, "only {looked_at} findings");
    let low = found(&shop, &hang(&order, 400, 1, Some(1_900), 100));
    for rule in ["R03", "R08"] {
        let remedy = &finding(&low, rule).remedy;
        assert!(remedy.ends_with("end it; a hang of less dip, asked anew, comes down less"), "{remedy}");
        let height = low.lowest.expect("it was told");
        // the height that is named lifts what is too low up to 1500
        let least = mm(1_900 + 1_500) - height;
        assert!(remedy.starts_with(&format!("Fixings {least} high")), "{remedy} for {height}");
    }
}

#[test]
fn at_a_cot_no_height_and_no_number_of_fixings_is_named() {
    let mut shop = shop();
    shop.trimmings = vec![trimmed(part())];
    for whose in Jurisdiction::ALL {
        for height in [None, Some(mm(500)), Some(mm(9_000))] {
            let mut order = small(&mut shop);
            order.width = mm(1_000);
            order.ends[0].trimming = Some(0);
            order.near.place = Some(Place::Cot);
            order.near.jurisdictions = vec![whose];
            (order.near.youngest_months, order.near.fixing_height) = (Some(8), height);
            let found = found(&shop, &order);
            let told = |rule| finding(&found, rule).remedy.as_str();
            assert_eq!(told("R08"), "Nothing ends it there: do not hang it there");
            for rule in ["R16", "R26"] {
                assert!(
                    told(rule)
                        .ends_with("no height and no number of fixings does there: do not hang it there"),
                    "{}",
                    told(rule)
                );
            }
        }
    }
}

#[test]
fn what_is_refused_asks_for_no_acknowledgement() {
    let mut shop = shop();
    let order = small(&mut shop);
    let worse = |change: fn(&mut Near)| {
        let mut near = Near { youngest_months: Some(8), fixing_height: None, ..order.near.clone() };
        change(&mut near);
        found(&shop, &Order { tail: mm(305), width: mm(2_000), near, ..order.clone() })
    };
    let refused =
        [worse(|near| near.place = Some(Place::Cot)), worse(|near| near.cot_distance = Some(mm(10)))];
    for found in refused {
        assert_eq!(found.outcome, Outcome::Refuse);
        assert!(found.findings.iter().any(|finding| finding.outcome == Outcome::Restrict));
        assert!(found.acknowledge.is_empty(), "{found:?}");
    }
    assert!(!worse(|_| ()).acknowledge.is_empty());
}

/// Invariant 6 where no rules are known: what was not told or tested has not passed.
#[test]
fn elsewhere_what_is_not_told_or_tested_is_found_by_the_shops_own_rules() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    shop.designs[0].filling = Some(Filling { seam: None });
    let button = Part { kind: PartKind::Hard, fits_cylinder: None, ..part() };
    shop.trimmings = vec![trimmed(button)];
    order.trimmings = vec![(0, 1)];
    order.ends[0] = End { style: EndStyle::Loop, slips: Some(false), ..End::default() };
    (order.near.fixing_height, order.near.span) = (None, None);
    for country in ["NZ", "NO", "CH", "JP"] {
        // naming other rules takes none of them away
        for named in [Vec::new(), vec![Jurisdiction::Us], Jurisdiction::ALL.to_vec()] {
            order.country = country.to_owned();
            order.near.jurisdictions.clone_from(&named);
            let found = found(&shop, &order);
            for rule in ["R03u", "R05", "R08", "R12", "R17"] {
                let own = found
                    .findings
                    .iter()
                    .find(|finding| finding.rule == rule && finding.jurisdiction.is_none());
                let own = own.unwrap_or_else(|| panic!("{country} {named:?}: no {rule}"));
                assert_eq!(own.outcome, Outcome::Restrict, "{own:?}");
                assert!(rule == "R03u" || (own.basis, own.figure) == (Basis::Shop, Origin::Shop), "{own:?}");
            }
            assert_eq!(found.findings.iter().any(|finding| finding.rule == "R00"), named.is_empty());
            assert!(
                found.scope.contains(&format!("No rules of the place that it goes to ({country})")),
                "{}",
                found.scope
            );
        }
    }
    // tested and told, they are gone
    shop.designs[0].filling = Some(Filling { seam: Some(Force::from_newtons(70)) });
    shop.trimmings[0].part.pull = Some(Force::from_newtons(90));
    order.ends[0].perimeter = Some(mm(355));
    order.near.jurisdictions = Vec::new();
    let found = found(&shop, &order);
    let gone = ["R05", "R12", "R17"];
    assert!(!found.findings.iter().any(|finding| gone.contains(&finding.rule)), "{found:?}");
}

#[test]
fn words_for_the_young_are_law_in_the_union_only() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    let mut basis = |whose: Vec<Jurisdiction>| {
        order.near.jurisdictions = whose;
        let found = found(&shop, &order);
        assert_eq!(found.findings.iter().filter(|finding| finding.rule == "R25").count(), 1);
        let young = finding(&found, "R25");
        (young.basis, young.source.contains("2023/988"))
    };
    for whose in Jurisdiction::ALL {
        let eu = whose == Jurisdiction::Eu;
        assert_eq!(basis(vec![whose]), (if eu { Basis::Law } else { Basis::Shop }, eu), "{whose:?}");
    }
    assert_eq!(basis(Vec::new()), (Basis::Shop, false));
    assert_eq!(basis(vec![Jurisdiction::Eu, Jurisdiction::Gb]), (Basis::Law, true));
}

/// The titles as their registers of statutes give them.
#[test]
fn statutes_stand_under_their_full_titles() {
    let mut looked_at = 0;
    for rule in RULES.iter().copied().flatten() {
        for (starts, title) in [
            (
                "Competition and Consumer",
                "Competition and Consumer (Corded Internal Window Coverings) Safety Standard 2014",
            ),
            (
                "Consumer Goods",
                "Consumer Goods (Toys for Children up to and including 36 Months of Age) Safety Standard 2023",
            ),
        ] {
            if rule.source.contains(starts) {
                assert!(rule.source.starts_with(title), "{}: {}", rule.id, rule.source);
                looked_at += 1;
            }
        }
        // a title is no claim, and nothing else may sound like one
        let said = rule.source.replace("Safety Standard", "");
        assert!(!said.to_lowercase().contains("safe"), "{}: {said}", rule.id);
    }
    assert_eq!(looked_at, 5);
}

#[test]
fn a_string_shorter_than_the_shop_makes_is_no_remedy() {
    let mut shop = shop();
    let order = Order { count: Some(10), gap: mm(20), gap_given: true, ..small(&mut shop) };
    let elastic = crate::shop::Cord::Elastic {
        thickness: mm(2),
        stretch: pennantry_measure::Percent::from_milli(75_000),
    };
    shop.bindings[0].cord = elastic;
    for (least, tail, made, at_rest) in [
        (50, 100, true, true),
        (428, 100, true, true),
        (429, 100, true, false),
        (750, 100, true, false),
        (751, 100, false, false),
        (50, 164, true, true),
        (50, 165, true, false),
        (50, 325, true, false),
        (50, 326, false, false),
    ] {
        shop.least = mm(least);
        let found = found(&shop, &Order { tail: mm(tail), ..order.clone() });
        let (long, stretched) = (&finding(&found, "R26").remedy, &finding(&found, "R11").remedy);
        assert_eq!(long.starts_with("A whole string of at most 750 mm ends it"), made, "{long}");
        assert_eq!(stretched.ends_with("a whole string of at most 428 mm at rest"), at_rest, "{stretched}");
        assert!(made || long.contains("makes none so short"), "{long}");
        assert!(at_rest || stretched.contains("makes none so short"), "{stretched}");
    }
}

#[test]
fn each_question_has_a_limit_of_its_own() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    order.near.span = Some(mm(101));
    assert_eq!(
        finding(&found(&shop, &order), "R00").limit,
        "a span no longer than the string between the outer fixings"
    );
    order.near.span = None;
    order.near.jurisdictions = Vec::new();
    assert_eq!(finding(&found(&shop, &order), "R00").limit, "rules of the place that it goes to, known here");
    order.near.jurisdictions = vec![Jurisdiction::Gb];
    order.near.who = None;
    assert_eq!(finding(&found(&shop, &order), "R00").limit, "who is near, how old and where has to be told");
}

#[test]
fn out_of_doors_any_height_that_is_told_ends_the_question() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    (order.near.place, order.near.fixing_height) = (Some(Place::Outdoors), None);
    let untold = found(&shop, &order);
    assert_eq!(
        finding(&untold, "R03u").remedy,
        "Give fixingHeightMm: any ends it; 1600 mm or more is out of reach"
    );
    for height in [0, 1, 1_600, 50_000] {
        order.near.fixing_height = Some(mm(height));
        assert!(!found(&shop, &order).findings.iter().any(|finding| finding.rule.starts_with("R03")));
    }
}
