//! What an all-clear rests on, what is no cloth to use, and what a shop's first weeks look like.
//! Invented figures, worked by hand.

use proptest::prelude::*;

use super::*;

fn said(report: &FabricReport, code: &str) -> String {
    report.detail.notes.iter().find(|note| note.code == code).unwrap().message.clone()
}

/// 12.00 m last 20 open days, to Tuesday 22 December; ten days before that is the 12th. The order
/// that is late is not counted on.
#[test]
fn an_all_clear_that_rests_on_a_late_order_says_so() {
    let mut shop = steady_kelp();
    shop.lies("KELP", 1_200);
    shop.ordered("KELP", "P-7", MONDAY - 7, 1_500);
    let report = shop.report("KELP");
    assert_eq!((report.proposal, report.order_by), (None, Some(MONDAY + 12)));
    assert_eq!(
        report.sentence,
        "15.00 m of Kelp from Harbour Cloth, order P-7, is 7 days late: if it does not come, order again by Saturday 12 \
         December, for it is expected to run out on Tuesday 22 December."
    );
    assert_eq!((report.pressing, report.detail.runs_out), (Pressing::Soon, Some(MONDAY + 22)));
    // plenty: the day is far off, and there is time to ask
    shop.lies("KELP", 5_000);
    assert_eq!(shop.report("KELP").pressing, Pressing::Look);
    // 3.00 m, less than an order takes to come: today
    shop.lies("KELP", 300);
    let report = shop.report("KELP");
    assert_eq!((report.pressing, report.order_by), (Pressing::Today, Some(MONDAY)));
    assert!(report.sentence.contains(": if it does not come, order again today, for"), "{}", report.sentence);
}

/// 7.00 m are there till Friday 11 December; 15.00 m come on the 30th day, an order of today on the tenth.
#[test]
fn what_is_on_order_and_comes_too_late_is_no_all_clear() {
    let mut shop = steady_kelp();
    shop.lies("KELP", 200);
    shop.ordered("KELP", "P-7", MONDAY + 30, 1_500);
    let report = shop.report("KELP");
    assert_eq!((report.proposal, report.order_by), (None, Some(MONDAY)));
    assert_eq!(report.pressing, Pressing::Today);
    assert_eq!(
        report.sentence,
        "Ask for what is on order of Kelp to come sooner, or order more today: it is expected to run out on Thursday 3 \
         December, 15.00 m of order P-7 is expected on Wednesday 30 December, and an order of today comes on Thursday 10 \
         December."
    );
}

/// Two weeks before the last day to order it is said, and not before.
#[test]
fn a_day_to_order_by_is_said_two_weeks_ahead() {
    let mut shop = steady_kelp();
    for (left, days) in [(1_320, Some(14)), (1_380, Some(15)), (1_500, Some(18))] {
        shop.lies("KELP", left);
        let report = shop.report("KELP");
        assert_eq!(report.order_by.map(|by| by - MONDAY), days);
        assert_eq!(report.sentence.is_empty(), days > Some(14), "{left}: {}", report.sentence);
    }
}

/// The module's example of `usable`.
#[test]
fn narrow_strips_count_by_their_share_of_the_full_width() {
    let mut shop = steady_kelp();
    shop.fabrics[0].width = Some(Length::from_mm(1_100));
    shop.fabrics[0].least = Some(Least { length: cm(20), width: Length::from_mm(80) });
    shop.lies("KELP", 700);
    let whole = shop.standing("KELP").lots[0].pieces[0].clone();
    let piece = |id: &str, width: i64, free: i64| Lying {
        id: PieceId::from(id),
        width: Length::from_mm(width),
        left: amount(free),
        free: amount(free),
        longest: amount(free),
        ..whole.clone()
    };
    let strips = [piece("B-1", 1_100, 400), piece("R-1", 550, 100), piece("R-2", 50, 200)];
    shop.standing("KELP").lots[0].pieces = strips.to_vec();
    let report = shop.report("KELP");
    assert_eq!((report.free, report.detail.position), (cm(700), cm(450)));
    assert_eq!(
        said(&report, "NARROW"),
        "3.00 m of what is free lies in 2 pieces of less than the full width: weeks left and what is ordered are reckoned \
         with 4.50 m free, in metres of the full width."
    );
    // 7.00 m were above the reorder point of 6.00 m, 4.50 m are not: 16.80 - 4.50 is 12.30
    assert_eq!(report.proposal, Some(cm(1_500)));
    let begins =
        "Order 15.00 m of Kelp today: 7.00 m are free, 3.00 m of that in narrow pieces and 6.00 m is";
    assert!(report.sentence.starts_with(begins), "{}", report.sentence);
    let all = |report: &FabricReport| (report.weeks_left, report.detail.runs_out);
    let narrow = all(&report);
    shop.lies("KELP", 450);
    assert_eq!(all(&shop.report("KELP")), narrow);
    // half a metre in strips that hold no pennant is nothing
    shop.lies("KELP", 50);
    shop.standing("KELP").lots[0].pieces[0].width = Length::from_mm(79);
    let report = shop.report("KELP");
    assert_eq!((report.free, report.weeks_left), (cm(50), Some(0.0)));
    shop.standing("KELP").lots[0].pieces[0].width = Length::from_mm(1_100);
    assert!(shop.report("KELP").weeks_left.unwrap() > 0.0);
}

/// 1.90 m are cut in the weeks before the shelf was counted, and written then: they were there.
#[test]
fn cloth_that_was_cut_before_it_was_counted_was_there() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    for (week, used) in [(5, 40), (4, 50), (3, 60), (2, 40)] {
        shop.used("KELP", MONDAY - 7 * week + 2, used);
    }
    shop.came("KELP", MONDAY - 7, 1_000);
    shop.lies("KELP", 810);
    let report = shop.report("KELP");
    assert!(report.detail.past.iter().all(|week| week.out_days == 0), "{:?}", report.detail.past);
    assert!(!codes(&report.detail.notes).contains(&"WAS_OUT"));
    assert!(
        said(&report, "FEW_WEEKS").contains("1.90 m were used in them"),
        "{}",
        said(&report, "FEW_WEEKS")
    );
    // the sum is right once it was counted: what is then used up is out
    shop.used("KELP", MONDAY - 6, 810);
    shop.lies("KELP", 0);
    let out: Vec<u32> = shop.report("KELP").detail.past.iter().map(|week| week.out_days).collect();
    assert_eq!(out, [0, 0, 0, 0, 3]);
}

/// Nothing was ever there of it: there is nothing to stop.
#[test]
fn an_empty_shop_is_told_to_stop_nothing() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.fabrics[0].buying.as_mut().unwrap().last_of_it = true;
    let report = shop.report("KELP");
    assert_eq!(
        (report.sentence.as_str(), report.pressing, report.detail.offer_until),
        ("", Pressing::Nothing, None)
    );
    // what lies there and does not do for one string is another thing
    shop.lies("KELP", 10);
    assert_eq!(shop.report("KELP").pressing, Pressing::Today);
}

/// Less than an order takes is nothing to use, whether anybody says how it is bought or not.
#[test]
fn what_an_order_takes_is_known_without_terms_of_a_supplier() {
    let mut shop = steady_kelp();
    shop.fabrics[0].buying = None;
    shop.day("KELP", MONDAY - 3, DayUse { other: amount(-385), ..DayUse::default() });
    shop.lies("KELP", 15);
    let report = shop.report("KELP");
    // Friday ends with 0.75 m left and Saturday with 0.15 m: out on neither, for both began with enough
    assert_eq!(report.pressing, Pressing::Today);
    assert!(
        report.sentence.contains("0.15 m are free, an order takes 0.20 m at the least"),
        "{}",
        report.sentence
    );
    shop.today += 2;
    let week = *shop.report("KELP").detail.past.last().unwrap();
    assert_eq!((week.open_days, week.out_days), (2, 2));
}

/// One job of 4.00 m a year ago, and 0.10 m a day: the job and not the rate makes the reorder point.
#[test]
fn a_reorder_point_that_one_job_makes_says_so() {
    let mut shop = Shop::new(six_days);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 10, 300);
    for weeks in [4, 9, 14, 19, 24, 29, 34, 39, 44, 49] {
        shop.came("KELP", MONDAY - 7 * weeks - 1, 400);
        shop.used("KELP", MONDAY - 7 * weeks, 400);
    }
    let report = shop.report("KELP");
    assert!(report.proposal.is_some() && report.weeks_left.unwrap() > 1.0, "{report:?}");
    assert!(
        report.sentence.contains(", most of that kept for large jobs, one of which used 4.10 m in a day"),
        "{}",
        report.sentence
    );
    assert!(said(&report, "REORDER_POINT").ends_with("and one day alone used up to 4.10 m."));
}

#[test]
fn without_an_ordering_table_that_is_what_is_said() {
    let mut shop = steady_kelp();
    shop.fabrics[0].buying = None;
    shop.terms.said = false;
    let (parts, whole) = shop.all();
    assert!(codes(&parts[0].detail.notes).contains(&"NO_ORDERING"));
    assert!(codes(&whole.notes).contains(&"NO_ORDERING"));
    assert!(!codes(&whole.notes).contains(&"NOT_SAID_HOW_BOUGHT"));
}

/// What is dead is foretold by no method any longer: how far off they were is no measure.
#[test]
fn the_means_of_methods_are_of_fabrics_in_use() {
    let mut shop = steady_kelp();
    let with = shop.all().1.back_test.unwrap();
    shop.fabrics.push(FabricTerms { code: "OLD".into(), name: "Old".into(), ..kelp() });
    shop.came("OLD", MONDAY - 600, 9_000);
    for day in (MONDAY - 599..MONDAY - 300).filter(|day| six_days(*day)) {
        shop.used("OLD", day, 20);
    }
    shop.lies("OLD", 500);
    let (parts, whole) = shop.all();
    assert!(parts.iter().any(|part| part.detail.dead && !part.detail.scores.is_empty()));
    assert_eq!(whole.back_test.unwrap(), with);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// The day from which on there is a forecast is the day on which there is one, whenever a
    /// fabric is first used.
    #[test]
    fn a_forecast_is_there_on_the_day_that_was_told(first in 0..7_i32, before in 0..9_i32, asked in 1..50_i32) {
        let mut shop = Shop::new(six_days);
        shop.fabrics = vec![kelp()];
        let first = MONDAY + first;
        shop.came("KELP", first - before, 90_000);
        shop.lies("KELP", 5_000);
        for day in (first..first + 70).filter(|day| six_days(*day)) {
            shop.used("KELP", day, 60);
        }
        let used = if six_days(first) { first } else { first + 1 };
        shop.today = used + asked;
        let morning = shop.report("KELP");
        prop_assert!(morning.detail.method.is_empty());
        let known = codes(&morning.detail.notes);
        let code = ["NEVER_USED", "NOTHING_SEEN", "FEW_WEEKS"].into_iter().find(|code| known.contains(code)).unwrap();
        let told = said(&morning, code);
        let mut there = shop.today;
        while shop.report("KELP").detail.method.is_empty() {
            shop.today += 1;
            there = shop.today;
        }
        let day = words::Said { day: there, today: used + asked };
        prop_assert!(told.contains(&format!("from {day} on at the earliest")), "{told}: {day}");
    }
}
