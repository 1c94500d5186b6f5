//! What is said, word by word, and what stands first.

use super::*;

/// At the reorder point itself an order is due, and by when: 6.00 m less 0.60 m a day is nothing
/// in the evening of the tenth open day, a Thursday ten days on: today's order is there in the
/// morning. A safety stock would have it earlier.
#[test]
fn an_order_has_a_day_and_its_reasons() {
    let mut shop = steady_kelp();
    shop.lies("KELP", 600);
    let report = shop.report("KELP");
    assert_eq!((report.order_by, report.pressing), (Some(MONDAY), Pressing::Today));
    // a longer look ahead: the reorder point is that of 25 days, the order by a later day
    shop.terms.review_days = 15;
    let report = shop.report("KELP");
    let point = report.detail.buying.as_ref().unwrap().reorder_point.unwrap();
    assert_eq!(point, cm(22 * 60));
    shop.lies("KELP", 1_000);
    let report = shop.report("KELP");
    // 10.00 m are used up on the seventeenth open day, a Friday; ten days before it is a Tuesday
    assert_eq!((report.order_by, report.pressing), (Some(MONDAY + 8), Pressing::Soon));
    assert_eq!(
        report.sentence,
        "Order 15.00 m of Kelp by Tuesday 8 December: 10.00 m are free and 13.20 m is the reorder point."
    );
}

#[test]
fn an_order_beside_what_is_on_order_says_so() {
    let mut shop = steady_kelp();
    shop.lies("KELP", 100);
    shop.ordered("KELP", "P-7", MONDAY - 1, 200);
    let report = shop.report("KELP");
    assert_eq!(
        report.sentence,
        "Order 15.00 m of Kelp today: 1.00 m is free, 2.00 m is on order and 6.00 m is the reorder point; \
         it is expected to run out on Tuesday 1 December, and an order of today comes on Thursday 10 December."
    );
    let late = report.detail.notes.iter().find(|note| note.code == "LATE").unwrap();
    assert_eq!(late.message, "2.00 m of Kelp from Harbour Cloth, order P-7, is 1 day late.");
}

#[test]
fn several_late_orders_are_one_sentence() {
    let mut shop = steady_kelp();
    shop.lies("KELP", 5_000);
    shop.ordered("KELP", "P-7", MONDAY - 3, 1_500);
    shop.ordered("KELP", "P-8", MONDAY - 2, 500);
    let report = shop.report("KELP");
    assert_eq!(
        report.sentence,
        "15.00 m of Kelp from Harbour Cloth, order P-7, is 3 days late, and another order is late too: if they do not come, order \
         again by Wednesday 24 February 2027, for it is expected to run out on Saturday 6 March 2027."
    );
    // plenty is there: it can wait
    assert_eq!(report.pressing, Pressing::Look);
    shop.ordered("KELP", "P-9", MONDAY - 1, 500);
    assert_eq!(
        shop.report("KELP").sentence,
        "15.00 m of Kelp from Harbour Cloth, order P-7, is 3 days late, and 2 more orders are late too: if they do not come, \
         order again by Wednesday 24 February 2027, for it is expected to run out on Saturday 6 March 2027."
    );
    // one that is expected today is not late
    shop.standing("KELP").open.clear();
    shop.ordered("KELP", "P-9", MONDAY, 500);
    assert_eq!(shop.report("KELP").sentence, "");
}

#[test]
fn an_empty_shelf_is_said_with_what_is_coming() {
    let mut shop = steady_kelp();
    shop.lies("KELP", 10);
    shop.ordered("KELP", "P-7", MONDAY + 3, 1_500);
    let report = shop.report("KELP");
    assert_eq!(
        report.sentence,
        "Of Kelp, 0.10 m are free, an order takes 0.20 m at the least: 15.00 m of order P-7 is expected on Thursday 3 December."
    );
    assert_eq!(report.pressing, Pressing::Look);
    // nobody says how it is bought: nothing can be proposed, and it is said all the same
    shop.fabrics[0].buying = None;
    shop.lies("KELP", 0);
    shop.standing("KELP").open.clear();
    let report = shop.report("KELP");
    assert_eq!(
        report.sentence,
        "Order Kelp today, or take it off the form: nothing is free and nothing is on order; no amount is proposed, for the \
         catalogue has no [[supplies]] entry for it."
    );
    assert_eq!((report.pressing, report.proposal), (Pressing::Today, None));
}

/// 1.00 m at 0.60 m a day runs out on Tuesday; 15.00 m come on Friday, and an order of today on
/// the Thursday after.
#[test]
fn running_out_before_it_comes_is_said() {
    let mut shop = steady_kelp();
    shop.lies("KELP", 100);
    shop.ordered("KELP", "P-7", MONDAY + 4, 1_500);
    assert_eq!(
        shop.report("KELP").sentence,
        "Kelp is expected to run out on Tuesday 1 December, and there is more on Friday 4 December."
    );
}

#[test]
fn dead_and_unknown_cloth_is_to_be_looked_at() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.came("KELP", MONDAY - 400, 1_430);
    shop.used("KELP", MONDAY - 209, 200);
    shop.lies("KELP", 1_230);
    let report = shop.report("KELP");
    assert!(report.detail.dead);
    // 209 days before 30 November 2026 is 5 May, a Tuesday
    assert_eq!(report.sentence, "12.30 m of Kelp is there, and none was used since Tuesday 5 May.");
    assert_eq!((report.pressing, report.weeks_left, report.proposal), (Pressing::Look, None, None));
    // 179 days are not enough
    shop.used("KELP", MONDAY - 179, 10);
    assert!(!shop.report("KELP").detail.dead);

    shop.came("OLD-7", MONDAY - 20, 300);
    shop.lies("OLD-7", 300);
    let report = shop.report("OLD-7");
    assert_eq!((report.name.as_str(), report.pressing), ("OLD-7", Pressing::Look));
    assert_eq!(report.sentence, "3.00 m of OLD-7 is there, and the catalogue has it not.");
    assert_eq!(report.detail.buying, None);
}

/// The most pressing first, of those the earliest by; the rest by name.
#[test]
fn rows_stand_by_how_pressing_they_are() {
    let mut shop = steady_kelp();
    for (code, name, left) in [("A", "Zinnia", 9_000), ("B", "Anchor", 9_000), ("C", "Tern", 9_000)] {
        shop.fabrics.push(FabricTerms { code: code.into(), name: name.into(), ..kelp() });
        shop.steady(code, MONDAY - 364, 60, left);
    }
    shop.ordered("C", "P-1", MONDAY - 2, 500);
    let (parts, whole) = shop.all();
    let names: Vec<_> = whole.order.iter().map(|at| parts[*at].name.as_str()).collect();
    assert_eq!(names, ["Kelp", "Tern", "Anchor", "Zinnia"]);
}

/// Used every eighth week, eight times: six such intervals are 336 days; a year on it is dead,
/// and the weeks after the last use lengthen no interval.
#[test]
fn seldom_used_is_not_dead_yet() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.came("KELP", MONDAY - 800, 5_000);
    let last = MONDAY - 294;
    for time in 0..8 {
        shop.used("KELP", last - 56 * time, 100);
    }
    shop.lies("KELP", 4_200);
    assert!(!shop.report("KELP").detail.dead);
    shop.today = last + 335;
    assert!(!shop.report("KELP").detail.dead);
    shop.today = last + 336;
    assert!(shop.report("KELP").detail.dead);
}

/// Days on which there was nothing to use are no days on which nobody wanted it.
#[test]
fn an_empty_shelf_is_not_idle() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.came("KELP", MONDAY - 365, 13_000);
    for day in (MONDAY - 364..MONDAY - 200).filter(|day| five_days(*day)) {
        shop.used("KELP", day, 50);
    }
    let used =
        50 * i64::try_from((MONDAY - 364..MONDAY - 200).filter(|day| five_days(*day)).count()).unwrap();
    shop.day("KELP", MONDAY - 200, DayUse { other: amount(used - 13_000), ..DayUse::default() });
    shop.lies("KELP", 0);
    let report = shop.report("KELP");
    assert!(report.proposal.is_some(), "{report:?}");
    assert!(!codes(&report.detail.notes).contains(&"NOT_USED"));
}

/// Of what is as pressing, the earliest to be ordered stands first, and what has no day last; of
/// what is not pressing, the name decides alone.
#[test]
fn the_earliest_to_be_ordered_stands_first() {
    let gist = |name: &str, pressing, order_by| Gist {
        code: name.to_lowercase(),
        name: name.to_owned(),
        pressing,
        order_by,
        method: String::new(),
        seasonal: false,
        scores: Vec::new(),
    };
    let parts = [
        gist("Anchor", Pressing::Nothing, Some(MONDAY + 9)),
        gist("Buoy", Pressing::Soon, None),
        gist("Cleat", Pressing::Soon, Some(MONDAY + 5)),
        gist("Davit", Pressing::Soon, Some(MONDAY + 3)),
        gist("Eyelet", Pressing::Nothing, Some(MONDAY + 1)),
        gist("Fid", Pressing::Today, Some(MONDAY)),
        gist("Davit", Pressing::Soon, Some(MONDAY + 3)),
    ];
    let shop = Shop::new(five_days);
    let morning = shop.morning();
    let whole = whole(&morning, &survey(&morning), &parts);
    assert_eq!(whole.order, [5, 3, 6, 2, 1, 0, 4]);
    assert_eq!(whole.back_test, None);
}
