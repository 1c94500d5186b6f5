//! Levels of uneven use, which are drawn from a seed.

use super::*;

/// Every third open day or so, to the millimetre, so that no exact way is short enough.
fn shop(share: f64) -> Shop {
    let mut shop = Shop::new(five_days);
    shop.terms = Terms::of(Service::cycle(share).unwrap());
    shop.fabrics = vec![kelp()];
    let (mut all, mut dice) = (0, 7_u64);
    for day in (MONDAY - 728..MONDAY).filter(|day| five_days(*day)) {
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        if (dice >> 33) % 3 == 0 {
            let used = Length::from_mm(400 + i64::try_from((dice >> 40) % 7_001).unwrap());
            all += used.um();
            let of = DayUse { used: Amount(used.um()), ..DayUse::default() };
            shop.day("KELP", day, of);
        }
    }
    shop.day("KELP", MONDAY - 729, DayUse { came: Amount(all + 5_000_000), ..DayUse::default() });
    shop.lies("KELP", 500);
    shop
}

fn point(shop: &Shop) -> Length {
    shop.report("KELP").detail.buying.unwrap().reorder_point.unwrap()
}

#[test]
fn the_same_morning_draws_the_same_and_says_from_what() {
    let shop = shop(0.95);
    let report = shop.report("KELP");
    assert_eq!(report, self::shop(0.95).report("KELP"));
    let note = report.detail.notes.iter().find(|note| note.code == "DRAWN").unwrap();
    // 11 days from a Monday are nine open ones
    assert!(
        note.message
            .starts_with("The reorder point is read from 4000 windows of 9 open days, drawn from the seed "),
        "{}",
        note.message
    );
    assert!(note.message.ends_with(" of 2026-11-30 and KELP."), "{}", note.message);
}

/// What is expected in the window, and a better service for more: half of all windows want less
/// than about the mean, and one in a hundred more than two thirds above it.
#[test]
fn a_better_service_takes_more() {
    let points = [0.5, 0.8, 0.95, 0.99].map(|share| number::real(point(&shop(share)).um()));
    assert!(points.windows(2).all(|pair| pair[0] < pair[1]), "{points:?}");
    let rate = number::real(shop(0.5).report("KELP").detail.rate.unwrap().um());
    assert!((0.8..1.1).contains(&(points[0] / (9.0 * rate))), "{points:?} {rate}");
    assert!(points[3] > 9.0 * rate * 1.4, "{points:?} {rate}");
}

#[test]
fn what_the_catalogue_does_not_say_is_said() {
    let mut shop = shop(0.95);
    shop.fabrics[0].price_per_metre = None;
    let detail = shop.report("KELP").detail;
    assert!(codes(&detail.notes).contains(&"NO_PRICE"));
    assert_eq!((detail.value_class, detail.buying.unwrap().proposal_cost), (None, None));
    shop.fabrics[0].buying = None;
    let (parts, whole) = shop.all();
    assert!(codes(&parts[0].detail.notes).contains(&"NOT_SAID_HOW_BOUGHT"));
    assert!(codes(&whole.notes).contains(&"NOT_SAID_HOW_BOUGHT"));
    assert_eq!((parts[0].proposal, &parts[0].detail.buying), (None, &None));
}

/// Days off known up to Sunday 6 December do not reach over ten days and one.
#[test]
fn a_window_beyond_the_days_off_that_are_known_is_said() {
    let shop = shop(0.95);
    let known = |to| {
        let morning = Morning { known_to: Some(to), ..shop.morning() };
        let report = fabric(&morning, &survey(&morning), "KELP");
        codes(&report.detail.notes).contains(&"DAYS_OFF_NOT_KNOWN")
    };
    assert_eq!((known(MONDAY + 6), known(MONDAY + 10), known(MONDAY + 11)), (true, true, false));
}
