//! Classes, scores, days, weeks, series and returns.

use proptest::prelude::*;

use super::{PRODUCT_C, WORKED, printed, same, values};
use crate::demand::Error;
use crate::demand::accuracy::{bias, mae, mase, pinball, rmse, rmsse, rmsse_m5};
use crate::demand::class::{Class, class_of, classify, classify_all, croston_suffices, since_first_use};
use crate::demand::days::{Day, Days, Week};
use crate::demand::redate::{Issue, Return, redate};
use crate::demand::series::{Bucket, Series};

/// FPP2's `productC`, FPP3's J06 and the worked series.
#[test]
fn figures_and_classes_of_published_series() {
    let j06 = super::oracle::list(&super::oracle::published()["intermittent"]["J06"]["values"]);
    let found = classify_all(&values(&PRODUCT_C)).unwrap();
    printed(found.interval.unwrap(), "3.272727");
    printed(found.variation.unwrap(), "0.797784");
    assert_eq!((found.demands, found.class), (11, Class::Lumpy));
    let found = classify_all(&j06).unwrap();
    printed(found.interval.unwrap(), "1.789474");
    printed(found.variation.unwrap(), "0.832349");
    assert_eq!((found.demands, found.class), (114, Class::Lumpy));
    let found = classify_all(&values(&WORKED)).unwrap();
    same(found.interval.unwrap(), 3.0);
    same(found.variation.unwrap(), 0.2);
    assert_eq!(found.class, Class::Intermittent);
    // from the first use on: 35 of 11, 204 of 114, 10 of 4
    for (all, interval, class) in [
        (values(&PRODUCT_C), 35.0 / 11.0, Class::Lumpy),
        (j06, 204.0 / 114.0, Class::Lumpy),
        (values(&WORKED), 2.5, Class::Intermittent),
    ] {
        let found = classify(&all).unwrap();
        same(found.interval.unwrap(), interval);
        assert_eq!(found.class, class);
    }
}

/// Syntetos, Boylan and Croston (2005): a border belongs to the lower side.
#[test]
fn borders_of_the_classes() {
    let found = [(1.32, 0.49), (1.33, 0.49), (1.32, 0.50), (1.33, 0.50)].map(|(p, v)| class_of(p, v));
    assert_eq!(found, [Class::Smooth, Class::Intermittent, Class::Erratic, Class::Lumpy]);
    // Kostenko and Hyndman (2006): smooth by the box, and yet past the line
    assert!(!croston_suffices(1.31, 0.49));
    assert!(croston_suffices(1.0, 0.5) && !croston_suffices(1.0, 0.51));
    assert!(croston_suffices(1.25, 0.125) && !croston_suffices(1.25, 0.13) && !croston_suffices(1.34, 0.0));
}

#[test]
fn too_little_has_no_class() {
    for (all, demands) in [(vec![0.0; 9], 0), (vec![0.0, 5.0, 0.0], 1), (vec![7.0], 1)] {
        let found = classify(&all).unwrap();
        assert_eq!((found.class, found.demands, found.variation), (Class::Insufficient, demands, None));
    }
    assert_eq!(classify(&[0.0; 9]).unwrap().interval, None);
    assert_eq!(since_first_use(&[0.0; 3]), &[0.0; 0]);
    assert_eq!(classify(&[]), Err(Error::Empty));
    assert_eq!(classify(&[1.0, -1.0]), Err(Error::Negative { at: 1, amount: -1.0 }));
    // nothing here runs over, however huge one job is
    let found = classify(&[1.0, 9_007_199_254_740_992.0]).unwrap();
    assert!(found.variation.unwrap().is_finite());
}

/// utilsforecast and by hand.
#[test]
fn scores_of_the_worked_series() {
    let (history, actual, forecast) = (values(&WORKED), [0.0, 2.0, 0.0, 1.0], [0.75; 4]);
    same(mae(&actual, &forecast).unwrap(), 0.75);
    printed(rmse(&actual, &forecast).unwrap(), "0.82915619759");
    same(bias(&actual, &forecast).unwrap(), 0.0);
    printed(mase(&history, &actual, &forecast).unwrap().unwrap(), "0.45833333");
    printed(rmsse(&history, &actual, &forecast).unwrap().unwrap(), "0.381356384905");
    printed(rmsse_m5(&history, &actual, &forecast).unwrap().unwrap(), "0.379335404144");
    same(pinball(&actual, &[2.0; 4], 0.9).unwrap(), 0.125);
    for (forecast, wanted) in [(0.0, "1.0027777778"), (3.0, "0.5138888889"), (7.0, "0.4083333333")] {
        printed(pinball(&values(&PRODUCT_C), &[forecast; 36], 0.95).unwrap(), wanted);
    }
}

/// Absolute errors are least for a forecast of nought; squared ones are not.
#[test]
fn mae_rewards_a_forecast_of_nought() {
    let all = values(&PRODUCT_C);
    let mean = [38.0 / 36.0; 36];
    printed(mae(&all, &[0.0; 36]).unwrap(), "1.0556");
    printed(mae(&all, &mean).unwrap(), "1.4784");
    printed(rmse(&all, &[0.0; 36]).unwrap(), "2.560");
    printed(rmse(&all, &mean).unwrap(), "2.333");
}

#[test]
fn a_flat_history_has_no_scale() {
    for history in [vec![4.0; 6], vec![4.0], vec![0.0; 6]] {
        assert_eq!(rmsse(&history, &[1.0], &[2.0]), Ok(None));
        assert_eq!(rmsse_m5(&history, &[1.0], &[2.0]), Ok(None));
        assert_eq!(mase(&history, &[1.0], &[2.0]), Ok(None));
    }
    assert_eq!(rmsse_m5(&[4.0, 0.0], &[4.0], &[4.0]), Ok(Some(0.0)));
    let wrong = Error::Lengths { what: "values and forecasts", first: 1, second: 2 };
    assert_eq!(bias(&[1.0], &[2.0, 3.0]), Err(wrong));
    assert!(matches!(pinball(&[1.0], &[1.0], 1.5), Err(Error::Parameter { name: "q", .. })));
}

fn bucket(amount: i64, open_days: u32, stocked_days: u32) -> Bucket {
    Bucket { amount, open_days, stocked_days }
}

/// 12.6 m over 21 open days, 3 of them out of stock.
#[test]
fn exposure_is_open_days_with_stock() {
    let found = Series::new(&[bucket(12_600, 21, 18)], 21).unwrap();
    same(found.rate().unwrap(), 700.0);
    let observed = found.observed();
    same(observed.values[0], 14_700.0);
    assert_eq!((observed.filled, observed.unseen), (1, 0));
    // and day by day
    let mut days = vec![bucket(600, 1, 1); 18];
    days.extend([bucket(0, 1, 0); 3]);
    days[0].amount += 1_800;
    let found = Series::new(&days, 1).unwrap();
    same(found.rate().unwrap(), 700.0);
    let observed = found.observed();
    assert_eq!((observed.values.len(), observed.unseen), (18, 3));
}

#[test]
fn what_a_bucket_says_by_its_days() {
    let buckets = [
        bucket(50, 5, 5),
        bucket(0, 0, 0),
        bucket(0, 5, 2),
        bucket(0, 5, 3),
        bucket(30, 5, 3),
        bucket(60, 6, 6),
    ];
    let found = Series::new(&buckets, 5).unwrap();
    // 140 used in 19 days with stock
    same(found.rate().unwrap(), 140.0 / 19.0);
    let observed = found.observed();
    assert_eq!(observed.buckets, [0, 3, 4, 5]);
    for (found, wanted) in observed.values.iter().zip([50.0, 0.0, 30.0 + 2.0 * 140.0 / 19.0, 50.0]) {
        same(*found, wanted);
    }
    assert_eq!((observed.filled, observed.unseen), (1, 1));
    // never in stock: no rate, and no bucket is an observation
    let found = Series::new(&[bucket(0, 5, 0), bucket(9, 5, 0)], 5).unwrap();
    assert_eq!((found.rate(), found.observed().values.len(), found.observed().unseen), (None, 0, 2));
}

#[test]
fn series_that_cannot_be_are_refused() {
    let one = |bucket| Series::new(&[bucket], 5).unwrap_err();
    assert_eq!(Series::new(&[], 5), Err(Error::Empty));
    assert_eq!(one(bucket(-1, 5, 5)), Error::Negative { at: 0, amount: -1.0 });
    assert_eq!(one(bucket(1, 0, 0)), Error::UseOnClosed { at: 0 });
    assert_eq!(one(bucket(1, 2, 3)), Error::MoreStockedThanOpen { at: 0, stocked: 3, open: 2 });
    assert_eq!(one(bucket(i64::MAX, 5, 5)), Error::NotExact { at: 0 });
    assert!(matches!(one(bucket(1, 367, 5)), Error::Parameter { name: "open_days", .. }));
    assert!(matches!(Series::new(&[bucket(1, 1, 1)], 0), Err(Error::Parameter { .. })));
    assert!(matches!(Series::of_amounts(&vec![0; 10_001]), Err(Error::TooMany { .. })));
    let said = one(bucket(-1, 5, 5)).to_string();
    assert!(said.contains("entry 0 is -1") && said.contains("the issue they reverse"), "{said}");
}

/// A week from Monday, its days given as open or not.
fn week(first: i64, week: u8, days: [(bool, i64); 7]) -> Vec<Day> {
    let day = |(at, (open, amount)): (i64, (bool, i64))| Day {
        number: first + at,
        week: Week { year: 2026, week },
        open,
        stocked: true,
        amount,
    };
    (0..).zip(days).map(day).collect()
}

/// 420 in a week of five open days: 60 a calendar day, 84 an open day; four uses in five
/// days are an interval of 1.25, in seven one of 1.75.
#[test]
fn closed_days_are_no_observations() {
    let given =
        week(1, 10, [(true, 0), (true, 120), (true, 0), (true, 0), (true, 300), (false, 0), (false, 0)]);
    let days = Days::new(&given).unwrap();
    let used = days.window(7);
    same(used.per_calendar_day.unwrap(), 60.0);
    same(used.per_open_day.unwrap(), 84.0);
    assert_eq!((used.calendar_days, used.open_days, used.stocked_days), (7, 5, 5));
    let given = week(1, 10, [(true, 9), (true, 9), (true, 0), (true, 9), (true, 9), (false, 0), (false, 0)]);
    let (open, numbers) = Days::new(&given).unwrap().open().unwrap();
    assert_eq!(numbers, [1, 2, 3, 4, 5]);
    same(classify(&open.observed().values).unwrap().interval.unwrap(), 1.25);
    let calendar: Vec<f64> = given.iter().map(|day| f64::from(i32::try_from(day.amount).unwrap())).collect();
    same(classify_all(&calendar).unwrap().interval.unwrap(), 1.75);
}

#[test]
fn what_is_dated_on_a_closed_day_goes_to_the_next_open_one() {
    let mut given =
        week(1, 10, [(true, 5), (true, 0), (true, 0), (true, 0), (true, 0), (false, 30), (false, 7)]);
    given.extend(week(
        8,
        11,
        [(true, 1), (true, 0), (true, 0), (true, 0), (true, 0), (false, 4), (false, 0)],
    ));
    let days = Days::new(&given).unwrap();
    assert_eq!(days.waiting(), 4);
    let weekly = days.weekly(5).unwrap();
    assert_eq!(weekly.series.used(), [5.0, 38.0]);
    assert_eq!(weekly.weeks, [Week { year: 2026, week: 10 }, Week { year: 2026, week: 11 }]);
    assert_eq!(days.window(7).sum.to_bits(), 38.0_f64.to_bits());
    assert_eq!(days.window(100).calendar_days, 14);
    let none = days.window(0);
    assert_eq!((none.per_calendar_day, none.per_open_day, none.per_stocked_day), (None, None, None));
}

#[test]
fn days_that_cannot_be_are_refused() {
    let good = week(1, 10, [(true, 1); 7]);
    assert_eq!(Days::new(&[]), Err(Error::Empty));
    let with = |change: &dyn Fn(&mut Vec<Day>)| {
        let mut days = good.clone();
        change(&mut days);
        Days::new(&days).unwrap_err()
    };
    assert_eq!(
        with(&|days| {
            days.remove(3);
        }),
        Error::DayOutOfOrder { at: 3, wanted: 4, found: 5 }
    );
    assert_eq!(with(&|days| days[2].amount = -4), Error::Negative { at: 2, amount: -4.0 });
    assert_eq!(with(&|days| days[2].amount = i64::MAX), Error::NotExact { at: 2 });
    assert_eq!(with(&|days| days[6].week.week = 54), Error::Week { at: 6, year: 2026, week: 54 });
    assert_eq!(with(&|days| days[6].week.week = 9), Error::Week { at: 6, year: 2026, week: 9 });
    let closed = week(1, 10, [(false, 1); 7]);
    let closed = Days::new(&closed).unwrap();
    assert_eq!((closed.open(), closed.waiting()), (Err(Error::Empty), 7));
    assert_eq!(closed.weekly(5).unwrap().series.observed().values.len(), 0);
}

#[test]
fn returns_lower_their_own_issue() {
    let issues = [Issue { name: 'a', day: 1, amount: 100 }, Issue { name: 'b', day: 2, amount: 50 }];
    let returns = [
        Return { issue: 'a', amount: 30 },
        Return { issue: 'b', amount: 40 },
        Return { issue: 'b', amount: 15 },
        Return { issue: 'x', amount: 9 },
    ];
    let found = redate(&issues, &returns).unwrap();
    assert_eq!(found.net.iter().map(|issue| issue.amount).collect::<Vec<_>>(), [70, 0]);
    assert_eq!(found.excess, [Return { issue: 'b', amount: 5 }]);
    assert_eq!(found.unknown, [Return { issue: 'x', amount: 9 }]);
    // all of it back, and no more
    let found = redate(&issues, &[Return { issue: 'a', amount: 100 }]).unwrap();
    assert_eq!((found.net[0].amount, found.excess), (0, vec![]));
    assert_eq!(redate(&[issues[0], issues[0]], &[]), Err(Error::Repeated { at: 1 }));
    let wrong = Return { issue: 'a', amount: -1 };
    assert_eq!(redate(&issues, &[wrong]), Err(Error::Negative { at: 2, amount: -1.0 }));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(20_000) })]

    /// Closed days, wherever they lie, change no open day.
    #[test]
    fn closed_days_may_lie_anywhere(amounts in prop::collection::vec(0_i64..100, 1..20), gaps in prop::collection::vec(0_usize..4, 20)) {
        let mut days = Vec::new();
        for (amount, gap) in amounts.iter().zip(&gaps) {
            let closed = std::iter::repeat_n((false, 0), *gap);
            for (open, amount) in closed.chain([(true, *amount)]) {
                let number = i64::try_from(days.len()).unwrap();
                days.push(Day { number, week: Week { year: 2026, week: 1 }, open, stocked: true, amount });
            }
        }
        let (open, _) = Days::new(&days).unwrap().open().unwrap();
        prop_assert_eq!(open, Series::of_amounts(&amounts).unwrap());
    }

    /// Nothing that was used is lost or made on the way to weeks.
    #[test]
    fn weeks_add_up(days in prop::collection::vec((any::<bool>(), 0_i64..1_000), 1..60), first in 0_usize..7) {
        let given: Vec<Day> = days.iter().enumerate().map(|(at, &(open, amount))| Day {
            number: i64::try_from(at).unwrap(),
            week: Week { year: 2026, week: u8::try_from(1 + (at + first) / 7).unwrap() },
            open,
            stocked: at % 3 != 0,
            amount,
        }).collect();
        let checked = Days::new(&given).unwrap();
        let all: i64 = days.iter().map(|day| day.1).sum();
        let weekly = checked.weekly(5).unwrap();
        let used: i64 = weekly.series.buckets().iter().map(|bucket| bucket.amount).sum();
        prop_assert_eq!(used + checked.waiting(), all);
        // what is seen is finite, never below what was used where days are as usual or fewer
        let observed = weekly.series.observed();
        for (value, at) in observed.values.iter().zip(&observed.buckets) {
            let bucket = weekly.series.buckets()[*at];
            prop_assert!(value.is_finite() && *value >= 0.0);
            prop_assert!(bucket.stocked_days > 5 || *value >= weekly.series.used()[*at]);
        }
    }

    /// A return merged by hand into its issue gives the same history.
    #[test]
    fn a_return_is_as_if_never_issued(amounts in prop::collection::vec(1_i64..1_000, 1..12), picks in prop::collection::vec((0_usize..12, 0_i64..1_500), 0..12)) {
        let issues: Vec<Issue<usize>> =
            amounts.iter().enumerate().map(|(name, &amount)| Issue { name, day: 0, amount }).collect();
        let returns: Vec<Return<usize>> = picks.iter().map(|&(issue, amount)| Return { issue, amount }).collect();
        let found = redate(&issues, &returns).unwrap();
        for issue in &issues {
            let back: i64 = returns.iter().filter(|one| one.issue == issue.name).map(|one| one.amount).sum();
            prop_assert_eq!(found.net[issue.name].amount, (issue.amount - back).max(0));
        }
        let sum = |all: &[Return<usize>]| all.iter().map(|one| one.amount).sum::<i64>();
        let net: i64 = found.net.iter().map(|issue| issue.amount).sum();
        let issued: i64 = amounts.iter().sum();
        prop_assert_eq!(net, issued - (sum(&returns) - sum(&found.excess) - sum(&found.unknown)));
    }

    /// A class is there from two demands on, and a finer unit never changes it.
    #[test]
    fn a_class_does_not_hang_on_the_unit(all in prop::collection::vec(prop_oneof![Just(0_u32), 1_u32..1_000], 1..40)) {
        let coarse: Vec<f64> = all.iter().copied().map(f64::from).collect();
        let fine: Vec<f64> = coarse.iter().map(|value| value * 1_024.0).collect();
        let found = classify(&coarse).unwrap();
        prop_assert_eq!(found, classify(&fine).unwrap());
        prop_assert_eq!(found.class == Class::Insufficient, found.demands < 2);
    }
}
