//! Every remedy that names a figure is carried out, and the finding is gone.

use super::*;
use crate::shop::Cord;
use pennantry_measure::Percent;

/// The remedy of a rule.
fn remedy(found: &ChildFinding, rule: &str) -> String {
    let finding = found.findings.iter().find(|finding| finding.rule == rule);
    finding.unwrap_or_else(|| panic!("no {rule} in {found:?}")).remedy.clone()
}

fn has(found: &ChildFinding, rule: &str) -> bool {
    found.findings.iter().any(|finding| finding.rule == rule)
}

/// A string of 6 670 over 6 500 on two fixings at 2 200, that shows 197.5, as the story has it.
fn story(shop: &mut Shop) -> Order {
    let order = small(shop);
    let near = Near { span: Some(mm(6_500)), fixing_height: Some(mm(2_200)), ..order.near.clone() };
    Order {
        count: Some(29),
        gap: mm(20),
        gap_given: true,
        width: mm(6_670),
        drop: Length::from_um(197_500),
        near,
        ..order
    }
}

fn of_story(shop: &Shop, order: &Order) -> ChildFinding {
    // one pennant as long as the whole flagged length: only its length and its drop count here
    found(shop, &Order { count: Some(1), ..order.clone() })
}

#[test]
fn fewest_fixings_and_least_height_end_what_hangs_too_low() {
    let mut shop = shop();
    let order = story(&mut shop);
    let with = |near: Near| of_story(&shop, &Order { near, ..order.clone() });
    let two = with(order.near.clone());
    assert_eq!(two.lowest, Some(mm(1_253)));
    // 1500 + 749 + 197.5, and 1500 + 375 + 197.5 is below 2200
    assert_eq!(
        remedy(&two, "R03"),
        "Fixings 2446.5 mm high or higher end it; at 2200 mm 3 equally spaced fixings do"
    );
    let three = with(Near { fixings: Some(3), ..order.near.clone() });
    assert_eq!((three.lowest, has(&three, "R03")), (Some(mm(1_627)), false));
    let least = Length::from_um(2_446_500);
    let higher = with(Near { fixing_height: Some(least), ..order.near.clone() });
    assert_eq!((higher.lowest, has(&higher, "R03")), (Some(mm(1_500)), false));
    let lower = with(Near { fixing_height: Some(least - Length::from_um(1)), ..order.near.clone() });
    assert!(has(&lower, "R03"));
}

#[test]
fn where_no_number_of_fixings_helps_that_is_said() {
    let mut shop = shop();
    let order = story(&mut shop);
    let near = Near { fixing_height: Some(mm(1_600)), ..order.near.clone() };
    let low = of_story(&shop, &Order { near, ..order });
    assert_eq!(
        remedy(&low, "R03"),
        "Fixings 2446.5 mm high or higher end it; no number of fixings does at 1600 mm"
    );
}

#[test]
fn loose_ends_that_hang_too_low_are_shortened() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    order.tail = mm(220);
    order.near.fixing_height = Some(mm(1_700));
    let low = found(&shop, &order);
    assert_eq!(
        remedy(&low, "R03"),
        "Fixings 1720 mm high or higher end it; at 1700 mm loose ends and loops that hang down at most 200 mm do"
    );
    order.tail = mm(200);
    assert!(!has(&found(&shop, &order), "R03"));
    order.tail = Length::from_um(200_001);
    assert!(has(&found(&shop, &order), "R03"));
}

#[test]
fn loose_ends_loops_and_ties_are_told_how_long_they_may_be() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    order.tail = mm(305);
    order.near.youngest_months = Some(12);
    assert_eq!(remedy(&found(&shop, &order), "R04"), "Loose ends of at most 220 mm end it");
    order.near.jurisdictions = vec![Jurisdiction::Us];
    assert_eq!(remedy(&found(&shop, &order), "R04"), "Loose ends of at most 304.8 mm (12 in) end it");
    order.near.fixings = Some(1);
    assert_eq!(
        remedy(&found(&shop, &order), "R04"),
        "Fix it at both ends, with loose ends of at most 304.8 mm (12 in)"
    );
    order.near.fixings = Some(2);
    order.ends[0] =
        End { style: EndStyle::Loop, perimeter: Some(mm(400)), slips: Some(false), ..End::default() };
    let looped = found(&shop, &order);
    assert_eq!(
        remedy(&looped, "R05"),
        "A loop of at most 355.6 mm (14 in) ends it, or one that parts at 22.2 N or less"
    );
    order.ends[0].breakaway = Some(Force::from_tenths(222));
    assert!(!has(&found(&shop, &order), "R05"));
    order.ends[0].breakaway = Some(Force::from_tenths(223));
    assert!(has(&found(&shop, &order), "R05"));
}

#[test]
fn two_ties_are_told_how_long_they_may_be_by_both_figures() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    order.near.jurisdictions = vec![Jurisdiction::Ca];
    let tie = |tie, apart| End {
        style: EndStyle::Tie,
        tie: Some(tie),
        second_tie: Some(tie),
        ties_apart: mm(apart),
        ..End::default()
    };
    order.ends[0] = tie(mm(111), 0);
    assert_eq!(
        remedy(&found(&shop, &order), "R07"),
        "Two ends of at most 110 mm each end it, or a single one"
    );
    // 440 less 300 leave 70 for each
    order.ends[0] = tie(mm(111), 300);
    assert_eq!(
        remedy(&found(&shop, &order), "R07"),
        "Two ends of at most 70 mm each end it, or a single one"
    );
    order.ends[0] = tie(mm(70), 300);
    assert!(!has(&found(&shop, &order), "R07"));
    order.ends[0] = tie(mm(70), 440);
    assert!(remedy(&found(&shop, &order), "R07").starts_with("No length of the two ends it"));
}

#[test]
fn spans_within_reach_are_told_how_many_fixings_they_need() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    order.width = mm(1_000);
    order.near.span = Some(mm(990));
    order.near.fixing_height = Some(mm(1_000));
    // (1000 + 990) / 6 = 331.7 and / 5 = 398: seven fixings; sqrt(1000^2 - 990^2) / 2 = 70.5, up to 71
    assert_eq!(
        remedy(&found(&shop, &order), "R08"),
        "7 equally spaced fixings end it; so do fixings 1671 mm high or higher, which put it out of reach"
    );
    for (fixings, ended) in [(6, false), (7, true)] {
        order.near.fixings = Some(fixings);
        assert_eq!(has(&found(&shop, &order), "R08"), !ended);
    }
    order.near.fixings = Some(2);
    order.near.fixing_height = Some(mm(1_671));
    assert!(!has(&found(&shop, &order), "R08"));
}

#[test]
fn fixings_that_put_it_out_of_reach_are_fewer_than_those_of_short_spans() {
    let mut shop = shop();
    let order = story(&mut shop);
    let near = Near { youngest_months: Some(8), ..order.near.clone() };
    let order = Order { tail: mm(200), near, ..order };
    // (6670 + 6500) / 35 = 376.3 takes 36 fixings; half of 749 and 197.5 leave 1627 of 2200
    assert_eq!(
        remedy(&of_story(&shop, &order), "R08"),
        "3 equally spaced fixings end it, as they put it out of reach; so do fixings 2446.5 mm high or higher, which \
         put it out of reach"
    );
    let near = Near { fixings: Some(3), ..order.near.clone() };
    assert!(!has(&of_story(&shop, &Order { near, ..order }), "R08"));
}

#[test]
fn an_elastic_is_told_how_long_it_may_be_at_rest() {
    let mut shop = shop();
    let mut order = small(&mut shop);
    shop.bindings[0].cord = Cord::Elastic { thickness: mm(2), stretch: Percent::from_milli(80_000) };
    (order.count, order.width, order.gap, order.gap_given) = (Some(2), mm(90), mm(120), true);
    // 750 / 1.8 = 416.7
    assert_eq!(
        remedy(&found(&shop, &order), "R11"),
        "A flat tape ends it, or a whole string of at most 416 mm at rest"
    );
    order.gap = mm(36);
    assert!(!has(&found(&shop, &order), "R11"));
    order.gap = mm(37);
    assert!(has(&found(&shop, &order), "R11"));
}

#[test]
fn a_long_string_is_told_what_makes_a_caution_of_it() {
    let mut shop = shop();
    let order = Order { count: Some(2), width: mm(300), gap: mm(6_070), ..story(&mut shop) };
    let low = found(&shop, &order);
    assert_eq!(
        remedy(&low, "R26"),
        "A whole string of at most 750 mm ends it. Out of reach it is a caution only: fixings 2446.5 mm high or higher \
         end it; at 2200 mm 3 equally spaced fixings do"
    );
    let near = Near { fixings: Some(3), ..order.near.clone() };
    let high = found(&shop, &Order { near, ..order });
    assert!(rules(&high).contains(&("R26", Outcome::Warn)));
}
