//! Figures of a row, each worked by hand from invented use; where a value is from a published
//! source, it is named.

use pennantry_forecast::demand::class::Class;
use pennantry_forecast::demand::kpi::Abc;
use pennantry_measure::{Money, Percent};

use super::*;

/// Kelp at 0.50 m from Monday to Friday for a year, 4.00 m left.
fn shop() -> Shop {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 50, 400);
    shop
}

/// Eight open days: Monday to Friday, and Monday to Wednesday, whose evening is ten days on.
#[test]
fn weeks_left_are_calendar_days_to_the_end_over_seven() {
    let report = shop().report("KELP");
    assert!((report.weeks_left.unwrap() - 10.0 / 7.0).abs() < 1e-9);
    assert_eq!(report.detail.runs_out, Some(MONDAY + 9));
    assert_eq!(report.detail.rate, Some(cm(50)));
    // four weeks of five days
    assert_eq!((report.used, report.usual), (cm(1_000), Some(cm(1_000))));
    assert_eq!(report.detail.demand_class, Class::Smooth);
    assert_eq!((report.detail.interval, report.detail.size_variation), (Some(1.0), Some(0.0)));
}

/// 104.00 m a year at 0.50 m a day: 150.00 m last 60 weeks; the two years looked at hold 260.00 m,
/// and 312.00 m are 52.00 m more, 20.8 weeks.
#[test]
fn beyond_two_years_the_mean_week_goes_on() {
    let mut shop = shop();
    shop.lies("KELP", 31_200);
    let weeks = shop.report("KELP").weeks_left.unwrap();
    assert!((weeks - 124.8).abs() < 1e-6, "{weeks}");
}

#[test]
fn the_four_weeks_are_the_28_days_before_the_day() {
    let mut shop = shop();
    for (day, used) in [(MONDAY - 29, 700), (MONDAY - 28, 10), (MONDAY - 1, 20), (MONDAY, 900)] {
        shop.used("KELP", day, used);
    }
    assert_eq!(shop.report("KELP").used, cm(1_030));
}

/// Usual is told for the open days that there were: a week's holiday in the four leaves 15.
#[test]
fn usual_is_for_as_many_open_days() {
    fn open(day: i32) -> bool {
        five_days(day) && !(MONDAY - 14..MONDAY - 7).contains(&day)
    }
    let mut shop = Shop::new(open);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 50, 400);
    let report = shop.report("KELP");
    assert_eq!((report.used, report.usual), (cm(750), Some(cm(750))));
    let week = &report.detail.past[report.detail.past.len() - 2];
    assert_eq!((week.monday, week.open_days, week.used), (MONDAY - 14, 0, Length::ZERO));
    // a closed week is no week of nought: the rate is what it was
    assert_eq!(report.detail.rate, Some(cm(50)));
}

/// 0.70 m a day for twelve weeks; on the last three open days of every second week there was
/// nothing. 17 weeks' use per open day would be 0.49 m; per open day with stock it is 0.70 m.
#[test]
fn days_with_nothing_to_use_are_no_days_of_no_use() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    for week in (1..=12).rev() {
        let monday = MONDAY - 7 * week;
        let days = if week % 2 == 0 { 2 } else { 5 };
        shop.came("KELP", monday, 70 * i64::from(days));
        for day in 0..days {
            shop.used("KELP", monday + day, 70);
        }
    }
    shop.lies("KELP", 0);
    let report = shop.report("KELP");
    let out: Vec<u32> = report.detail.past.iter().map(|week| week.out_days).collect();
    assert_eq!(out, [3, 0, 3, 0, 3, 0, 3, 0, 3, 0, 3, 0]);
    assert_eq!(report.usual, Some(cm(70 * 20)));
    assert_eq!(report.detail.rate, Some(cm(70)));
    assert!(codes(&report.detail.notes).contains(&"WAS_OUT"));
    assert_eq!(report.weeks_left, Some(0.0));
}

/// What is confirmed is not there for anybody else: a day on which all is promised is out.
#[test]
fn a_day_on_which_all_is_confirmed_is_out() {
    let mut shop = Shop::new(five_days);
    shop.came("KELP", MONDAY - 7, 500);
    shop.day("KELP", MONDAY - 7, DayUse { promised: amount(500), ..DayUse::default() });
    shop.day("KELP", MONDAY - 5, DayUse { promised: amount(-200), ..DayUse::default() });
    let week = shop.report("KELP").detail.past[0];
    // what came on Monday was there on it; Tuesday was out; on Wednesday some was free again
    assert_eq!((week.open_days, week.out_days), (5, 1));
}

/// What is cut on a Saturday counts for the Monday after it.
#[test]
fn use_of_a_closed_day_counts_for_the_next_open_one() {
    let mut shop = shop();
    let friday = MONDAY - 3;
    shop.used("KELP", friday + 1, 123);
    let report = shop.report("KELP");
    assert!(codes(&report.detail.notes).contains(&"WAITS_FOR_OPEN_DAY"));
    assert_eq!(report.used, cm(1_123));
    let without = self::shop().report("KELP");
    assert_eq!((report.detail.rate, report.detail.buying), (without.detail.rate, without.detail.buying));
}

/// One festival: 80 m in a week of 2.50 m. It is said, and the rate stays what it was.
#[test]
fn a_one_off_job_is_capped_in_the_rate_and_said() {
    let mut shop = shop();
    shop.came("KELP", MONDAY - 71, 8_000);
    shop.used("KELP", MONDAY - 70, 8_000);
    let report = shop.report("KELP");
    let note = report.detail.notes.iter().find(|note| note.code == "ONE_OFF").unwrap();
    // quartiles and median 2.50: three usual weeks
    assert_eq!(
        note.message,
        "The week of Monday 21 September used 82.50 m, far out of the usual: in the rate it counts as 7.50 m, in the reorder point in full."
    );
    assert!(report.detail.rate.unwrap() < cm(60), "{:?}", report.detail.rate);
}

/// One job among weeks of 2.50 m: however large it is, the reorder point, in which it is in full,
/// does not fall, and stays above the 4.00 m that eight days are expected to take. What the job
/// counts as in the rate, three usual weeks, is two of 52 more than is expected now, and the
/// sizes of the past are scaled by that.
#[test]
fn a_one_off_job_lowers_no_reorder_point() {
    let point = |job: i64| {
        let mut shop = shop();
        if job > 0 {
            shop.came("KELP", MONDAY - 141, job);
            shop.used("KELP", MONDAY - 140, job);
        }
        shop.report("KELP").detail.buying.unwrap().reorder_point.unwrap()
    };
    let least = cm(8 * 50).max(Length::from_um(point(0).um() * 52 / 54));
    let mut last = least;
    for job in [500, 1_000, 3_000, 6_000, 10_000, 30_000, 100_000, 10_000_000] {
        let point = point(job);
        assert!(point >= last, "{job} cm: {point} after {last}");
        last = point;
    }
}

/// What is written late for a day that the last report did not tell of yet, it did not say.
#[test]
fn a_day_that_the_last_report_did_not_tell_is_not_said_to_be_restated() {
    let late = |last_morning: i32| {
        let mut shop = shop();
        shop.used("KELP", MONDAY - 4, 10);
        shop.uses.last_mut().unwrap().of.late_at = Some(At(100));
        shop.last_report = Some((last_morning, At(50)));
        codes(&shop.all().1.notes).contains(&"WRITTEN_LATE")
    };
    assert!(late(MONDAY - 3), "the report of Friday told of Thursday");
    assert!(!late(MONDAY - 4), "that of Thursday did not");
}

/// The module's example.
#[test]
fn waste_is_split_and_told_of_known_areas_only() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.came("KELP", MONDAY - 9, 1_040);
    let m2 = 1_000_000_000_000;
    let day = DayUse {
        used: amount(1_000),
        ends: amount(40),
        used_area: 14 * m2,
        drawn_area: 14 * m2,
        net_area: 11_200_000_000_000,
        ..DayUse::default()
    };
    shop.day("KELP", MONDAY - 8, day);
    let waste = shop.report("KELP").detail.wastage;
    assert_eq!((waste.from, waste.to), (MONDAY - 91, MONDAY - 1));
    assert_eq!((waste.taken, waste.ends, waste.spoiled, waste.flawed), (cm(1_040), cm(40), cm(0), cm(0)));
    assert!((waste.layout_percent.unwrap() - 20.0).abs() < 1e-9);
    // 3.36 of 14.56
    assert!((waste.all_percent.unwrap() - 100.0 * 3.36 / 14.56).abs() < 1e-9);
    for (of, code, layout) in [
        (DayUse { drawn_area: 0, net_area: 0, ..day }, "AREA_NOT_KNOWN", None),
        (DayUse { net_area: 15 * m2, ..day }, "AREA_TOO_GREAT", None),
        (DayUse { drawn_area: 15 * m2, ..day }, "AREA_TOO_GREAT", None),
        (DayUse { drawn_area: 7 * m2, net_area: 5_600_000_000_000, ..day }, "AREA_PARTLY_KNOWN", Some(20.0)),
    ] {
        shop.uses[1].of = of;
        let detail = shop.report("KELP").detail;
        assert_eq!((detail.wastage.layout_percent, detail.wastage.all_percent), (layout, None));
        assert!(codes(&detail.notes).contains(&code));
    }
}

/// Values 200, 5200, 2600, 900, 1100 are C, A, A, B, A: shares before each, the greatest first,
/// are 0, 52, 78, 89 and 98 %.
#[test]
fn classes_by_value_are_of_a_year_at_the_price() {
    let mut shop = Shop::new(five_days);
    for (code, metres) in [("A", 200), ("B", 5_200), ("C", 2_600), ("D", 900), ("E", 1_100), ("F", 0)] {
        shop.fabrics.push(FabricTerms {
            code: code.into(),
            name: code.into(),
            price_per_metre: Some(Rate::from_micro_minor(100_000_000)),
            ..kelp()
        });
        shop.came(code, MONDAY - 400, 999_900);
        shop.used(code, MONDAY - 300, metres * 100);
        // more than a year ago
        shop.used(code, MONDAY - 365, 900_000 - metres * 100);
    }
    let (parts, _) = shop.all();
    let classes: Vec<_> = parts.iter().map(|part| part.detail.value_class).collect();
    assert_eq!(classes, [Some(Abc::C), Some(Abc::A), Some(Abc::A), Some(Abc::B), Some(Abc::A), None]);
}

/// Economic quantity of 52 m a year, 9.50 an order, a quarter of 4.20 to keep: 30.674947122 m
/// (formula of Snyder and Shen, section 3.2). Open on Mondays only, 1.00 m on each: in the 11
/// days from today are two.
#[test]
fn what_is_ordered_at_once_is_the_economic_quantity() {
    let mut shop = Shop::new(|day| day.rem_euclid(7) == 4);
    shop.terms.economic =
        Some(Economic { order_cost: Money::from_minor(950), keeping: Percent::from_milli(25_000) });
    let price = Some(Rate::from_micro_minor(420_000_000));
    shop.fabrics = vec![FabricTerms { price_per_metre: price, ..kelp() }];
    shop.steady("KELP", MONDAY - 364, 100, 200);
    let buying = shop.report("KELP").detail.buying.unwrap();
    assert_eq!(buying.reorder_point, Some(cm(200)));
    assert_eq!(buying.order_up_to, Some(Length::from_mm(2_000 + 30_675)));
}

/// A fill rate of 90 % with lots of 15.00 m lets 1.50 m be wanting in a cycle: of 6.00 m that
/// are certain, 4.50 m.
#[test]
fn a_fill_rate_is_no_cycle_service() {
    let mut shop = Shop::new(six_days);
    shop.terms = Terms { cover_days: 21, ..Terms::of(Service::fill(0.9).unwrap()) };
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 60, 400);
    let buying = shop.report("KELP").detail.buying.unwrap();
    assert_eq!(buying.reorder_point, Some(cm(450)));
    assert_eq!(buying.service.to_string(), "fill rate 90 %");
}

/// Weekly 5.00 m on Mondays in this and 0.00 in none; at 80 % more now, levels are of now.
#[test]
fn levels_follow_the_level_of_now() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.came("KELP", MONDAY - 365, 100_000);
    for day in (MONDAY - 364..MONDAY).filter(|day| five_days(*day)) {
        shop.used("KELP", day, if day < MONDAY - 182 { 50 } else { 100 });
    }
    shop.lies("KELP", 400);
    let report = shop.report("KELP");
    // nine open days at about a metre, although half of all days were of half a metre
    let point = report.detail.buying.unwrap().reorder_point.unwrap();
    assert!(point >= cm(890), "{point}");
    assert!((0.95..1.01).contains(&(number::real(report.detail.rate.unwrap().um()) / 1e6)));
}

#[test]
fn lots_stand_by_their_longest_stretch() {
    let mut shop = shop();
    let piece = shop.standing("KELP").lots[0].pieces[0].clone();
    let lot = |name: &str, longest: i64, pieces: usize| StandLot {
        lot: name.into(),
        longest: amount(longest),
        pieces: vec![Lying { left: amount(150), ..piece.clone() }; pieces],
    };
    shop.standing("KELP").lots = vec![lot("L1", 90, 2), lot("L2", 120, 1), lot("L3", 90, 3)];
    let lots = shop.report("KELP").detail.lots;
    let told: Vec<_> = lots.iter().map(|lot| (lot.lot.as_str(), lot.on_hand, lot.pieces)).collect();
    assert_eq!(told, [("L2", cm(150), 1), ("L1", cm(300), 2), ("L3", cm(450), 3)]);
}

/// An evening's line: what is free, less the day's use, with what came by then; on a Saturday
/// nothing is used, and what comes on one is there on Monday.
#[test]
fn the_shelf_line_goes_down_by_the_day() {
    let mut shop = shop();
    shop.ordered("KELP", "P-8", MONDAY + 5, 500);
    let line = shop.report("KELP").detail.shelf_line;
    let told: Vec<_> = line.iter().take(6).map(|day| (day.date - MONDAY, day.free, day.delivery)).collect();
    let nothing = Length::ZERO;
    let expected = [
        (0, cm(350), nothing),
        (1, cm(300), nothing),
        (2, cm(250), nothing),
        (3, cm(200), nothing),
        (4, cm(150), nothing),
        (7, cm(600), cm(500)),
    ];
    assert_eq!(told, expected);
    assert_eq!(line.len(), 65);
}

#[test]
fn weeks_to_come_begin_with_the_rest_of_this_one() {
    let mut shop = shop();
    shop.today = MONDAY + 3;
    let coming = shop.report("KELP").detail.coming;
    assert_eq!(coming.len(), 13);
    assert_eq!((coming[0].monday, coming[0].open_days, coming[0].expected), (MONDAY, 2, cm(100)));
    assert_eq!((coming[1].monday, coming[1].open_days, coming[1].expected), (MONDAY + 7, 5, cm(250)));
    // always alike: no range
    assert_eq!((coming[1].low, coming[1].high), (cm(250), cm(250)));
}
