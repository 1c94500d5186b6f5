//! What is wrong, missing or absurd: there is a report all the same, without a figure that nobody
//! can know.

use pennantry_forecast::demand::class::Class;
use proptest::prelude::*;

use super::*;

/// Every double of a report is a finite number.
pub fn finite(report: &FabricReport) {
    let detail = &report.detail;
    let mut figures = vec![
        report.weeks_left,
        detail.interval,
        detail.size_variation,
        detail.wastage.layout_percent,
        detail.wastage.all_percent,
    ];
    for score in &detail.scores {
        figures.extend([score.rmsse, score.pinball, score.bias, score.score]);
    }
    for figure in figures.into_iter().flatten() {
        assert!(figure.is_finite(), "{report:?}");
    }
}

fn check(shop: &Shop) -> FabricReport {
    let (parts, whole) = shop.all();
    parts.iter().for_each(finite);
    assert_eq!(whole.order.len(), parts.len());
    shop.report("KELP")
}

#[test]
fn nothing_at_all_is_known() {
    let mut shop = Shop::new(five_days);
    let (parts, whole) = shop.all();
    assert_eq!((parts.len(), whole.from), (0, None));
    assert_eq!(codes(&whole.notes), ["NO_HISTORY"]);
    shop.fabrics = vec![kelp()];
    let report = check(&shop);
    assert_eq!((report.free, report.used, report.usual), (Length::ZERO, Length::ZERO, None));
    assert_eq!((report.weeks_left, report.order_by, report.proposal), (None, None, None));
    assert_eq!(report.detail.demand_class, Class::Insufficient);
    assert!(codes(&report.detail.notes).contains(&"NO_HISTORY"));
    // nor of a code that nobody knows
    assert!(codes(&shop.report("NONE").detail.notes).contains(&"NO_HISTORY"));
}

#[test]
fn one_day_is_no_week() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.today = MONDAY + 2;
    shop.came("KELP", MONDAY + 1, 500);
    shop.used("KELP", MONDAY + 1, 120);
    shop.lies("KELP", 380);
    let report = check(&shop);
    assert_eq!((report.used, report.weeks_left, report.proposal), (cm(120), None, None));
    let note = report.detail.notes.iter().find(|note| note.code == "FEW_WEEKS").unwrap();
    assert_eq!(
        note.message,
        "No whole week of it is known yet; a forecast takes 8 weeks since the first use, with use in 2 of them, so there \
         is one from Monday 25 January 2027 on at the earliest: 1.20 m were used so far."
    );
    assert_eq!(report.detail.past.len(), 1);
}

/// Seven weeks of 1.00 and 3.00 m in turn from the first use: 4 and 3 of them, 13.00 m; 6.50 m last
/// 6.5 / 3 weeks at the most, 6.5 / (13 / 7) at the mean.
#[test]
fn seven_weeks_are_too_few_and_eight_are_not() {
    let shop = |weeks: i32| {
        let mut shop = Shop::new(five_days);
        shop.fabrics = vec![kelp()];
        shop.came("KELP", MONDAY - 7 * weeks, 10_000);
        for week in 1..=weeks {
            shop.used("KELP", MONDAY - 7 * week, if week % 2 == 0 { 300 } else { 100 });
        }
        shop.lies("KELP", 650);
        check(&shop)
    };
    let report = shop(7);
    assert_eq!((report.weeks_left, report.usual, report.detail.rate), (None, None, None));
    assert_eq!(report.detail.buying.as_ref().unwrap().reorder_point, None);
    assert!(report.detail.coming.is_empty() && report.detail.shelf_line.is_empty());
    let note = report.detail.notes.iter().find(|note| note.code == "FEW_WEEKS").unwrap();
    assert_eq!(
        note.message,
        "Only 7 weeks since its first use are known; a forecast takes 8 weeks since the first use, with use in 2 of them, so \
         there is one from Monday 7 December on at the earliest: 13.00 m were used in them; what is free lasts 2.2 weeks at the most that one used, 3.5 at their mean."
    );
    let report = shop(8);
    assert!(report.weeks_left.is_some() && !report.detail.method.is_empty());
    // the four weeks before the last four are fewer than eight
    assert_eq!(report.usual, None);
    assert!(codes(&report.detail.notes).contains(&"NO_USUAL"));
}

#[test]
fn what_is_never_used_has_no_weeks_left() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.came("KELP", MONDAY - 100, 500);
    shop.day("KELP", MONDAY - 50, DayUse { other: amount(-20), ..DayUse::default() });
    shop.lies("KELP", 480);
    let report = check(&shop);
    // what a count took away is no use
    assert_eq!((report.used, report.weeks_left, report.proposal), (Length::ZERO, None, None));
    assert_eq!(report.usual, Some(Length::ZERO));
    assert!(codes(&report.detail.notes).contains(&"NEVER_USED"));
    assert!(!report.detail.dead);
}

#[test]
fn one_huge_job_is_no_rate() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.came("KELP", MONDAY - 90, 99_000_000);
    shop.used("KELP", MONDAY - 80, 98_000_000);
    shop.lies("KELP", 400);
    let report = check(&shop);
    assert_eq!((report.weeks_left, report.proposal), (None, None));
    assert!(codes(&report.detail.notes).contains(&"FEW_USES"));
}

#[test]
fn a_day_below_nought_is_none_used_and_said() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 50, 400);
    let plain = check(&shop);
    shop.day("KELP", MONDAY - 5, DayUse { used: amount(-300), ..DayUse::default() });
    let report = check(&shop);
    assert_eq!((report.used, report.detail.rate), (plain.used, plain.detail.rate));
    let note = report.detail.notes.iter().find(|note| note.code == "USED_BELOW_NOUGHT").unwrap();
    assert!(note.message.starts_with("On 1 day from Wednesday 25 November to"), "{}", note.message);
}

#[test]
fn days_to_come_are_left_out_and_said() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 50, 400);
    let plain = check(&shop);
    // today's are not yet in, and are nothing to be said
    shop.used("KELP", MONDAY, 70);
    assert_eq!(check(&shop), plain);
    shop.used("KELP", MONDAY + 1, 90);
    shop.used("KELP", i32::MAX, 90);
    let (parts, whole) = shop.all();
    assert_eq!(parts, [plain]);
    let note = whole.notes.iter().find(|note| note.code == "DAYS_TO_COME").unwrap();
    assert!(note.message.starts_with("2 days of a fabric"), "{}", note.message);
}

#[test]
fn a_day_before_the_first_movement_has_nothing_to_tell() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 50, 400);
    shop.today = MONDAY - 1_000;
    let (parts, whole) = shop.all();
    assert_eq!((whole.from, parts[0].used), (None, Length::ZERO));
    assert!(codes(&whole.notes).contains(&"NO_HISTORY"));
}

#[test]
fn days_written_late_are_counted_once() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 50, 400);
    shop.steady("TERN", MONDAY - 364, 50, 400);
    let late = |at| DayUse { used: amount(1), late_at: Some(At(at)), ..DayUse::default() };
    for (code, day, at) in [
        ("KELP", MONDAY - 10, 60),
        ("TERN", MONDAY - 10, 70),
        ("TERN", MONDAY - 12, 80),
        ("TERN", MONDAY - 20, 40),
    ] {
        shop.day(code, day, late(at));
    }
    let notes = |shop: &Shop| shop.all().1.notes;
    // a first report restates nothing
    assert!(!codes(&notes(&shop)).contains(&"WRITTEN_LATE"));
    shop.last_report = Some((MONDAY, At(50)));
    let note = notes(&shop).into_iter().find(|note| note.code == "WRITTEN_LATE").unwrap();
    assert_eq!(
        note.message,
        "2 days were written late since the last report: what that one said of them is no longer so."
    );
    let restated = shop.report("TERN").detail.past.iter().filter(|week| week.restated).count();
    assert_eq!(restated, 2);
}

/// A bench that never opens, terms that cannot be, an absurd day.
#[test]
fn absurd_terms_leave_figures_out() {
    let mut shop = Shop::new(|_| false);
    shop.fabrics = vec![kelp()];
    shop.came("KELP", MONDAY - 100, 5_000);
    shop.used("KELP", MONDAY - 50, 500);
    let report = check(&shop);
    assert_eq!((report.weeks_left, report.detail.rate, report.proposal), (None, None, None));

    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 50, 400);
    let good = shop.fabrics[0].buying.clone().unwrap();
    for bad in [
        BuyingTerms { lead_days: u32::MAX, ..good.clone() },
        BuyingTerms { lead_days: 5_000, ..good.clone() },
        BuyingTerms { bolt: Length::ZERO, ..good.clone() },
        BuyingTerms { bolt: Length::from_um(i64::MAX), ..good.clone() },
        BuyingTerms { least: Length::from_um(-1), ..good.clone() },
    ] {
        shop.fabrics[0].buying = Some(bad.clone());
        let report = check(&shop);
        assert_eq!(report.proposal, None, "{bad:?}");
        let notes = codes(&report.detail.notes);
        assert!(notes.contains(&"NOT_WORKED"), "{bad:?} {notes:?}");
        assert_eq!(report.detail.rate, Some(cm(50)));
    }
    shop.fabrics[0].buying = Some(BuyingTerms { lead_days: 0, ..good });
    assert!(check(&shop).detail.buying.unwrap().reorder_point.is_some());
    for today in [i32::MIN, i32::MIN + 5_000, -5_000_000, i32::MAX - 5, i32::MAX] {
        shop.today = today;
        check(&shop);
    }
}

/// Each part says as of when its shelf is told.
#[test]
fn a_part_is_as_of_its_own_shelf() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 50, 400);
    let first = survey(&shop.morning());
    let uses = shop.uses.clone();
    shop.stand.at = At(9_000);
    shop.lies("KELP", 100);
    shop.lies("NEW", 100);
    assert_eq!(shop.uses, uses);
    let morning = shop.morning();
    let later = fabric(&morning, &first, "KELP");
    assert_eq!((later.detail.as_of, later.free), (At(9_000), cm(100)));
    // and one that was not there in the survey is told as far as it can be
    assert_eq!(fabric(&morning, &first, "NEW").free, cm(100));
    let whole = whole(&morning, &first, &[]);
    assert!(codes(&whole.notes).contains(&"NOT_DONE"));
}

fn any_amount() -> impl Strategy<Value = Amount> {
    prop_oneof![
        4 => (0..1_000_i64).prop_map(amount),
        1 => (-1_000..0_i64).prop_map(amount),
        1 => prop_oneof![Just(i64::MAX), Just(i64::MIN), Just(1), any::<i64>()].prop_map(Amount),
    ]
}

fn any_use() -> impl Strategy<Value = DayUse> {
    (proptest::array::uniform8(any_amount()), proptest::array::uniform3(any_amount()), any::<bool>())
        .prop_map(
            |(
                [came, used, spoiled, ends, flawed, other, promised, narrow],
                [used_area, drawn, net],
                late,
            )| DayUse {
                came,
                used,
                spoiled,
                ends,
                flawed,
                other,
                promised,
                narrow,
                cuts: 1,
                used_area: used_area.0,
                drawn_area: drawn.0,
                net_area: net.0,
                late_at: late.then_some(At(5_000)),
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Whatever is written, there is a report, and its figures are numbers.
    #[test]
    fn there_is_always_a_report(
        days in proptest::collection::vec((-400..30_i32, any_use()), 0..80),
        standing in proptest::array::uniform6(any_amount()),
        orders in proptest::collection::vec((-40..40_i32, any_amount(), any_amount()), 0..4),
        terms in (0..40_u32, 0..40_u32, 0..40_u32, 0..2_000_i64, any::<bool>(), any::<bool>()),
    ) {
        let mut shop = Shop::new(five_days);
        shop.last_report = Some((MONDAY, At(1)));
        let (lead_days, review_days, cover_days, bolt, last_of_it, fill) = terms;
        let service = if fill { Service::fill(0.9) } else { Service::cycle(0.9) };
        shop.terms = Terms { review_days, cover_days, ..Terms::of(service.unwrap()) };
        shop.fabrics = vec![kelp()];
        let buying = shop.fabrics[0].buying.as_mut().unwrap();
        (buying.lead_days, buying.last_of_it, buying.bolt) = (lead_days, last_of_it, cm(bolt));
        for (day, of) in days {
            shop.day("KELP", MONDAY + day, of);
        }
        let one = shop.standing("KELP");
        [one.on_hand, one.held, one.confirmed, one.short, one.held_short, one.free] = standing;
        for (day, ordered, received) in orders {
            shop.ordered("KELP", "P-1", MONDAY + day, 0);
            let line = shop.standing("KELP").open.last_mut().unwrap();
            (line.ordered, line.received) = (ordered, received);
        }
        check(&shop);
    }
}
