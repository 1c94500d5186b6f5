//! Four hundred fabrics, two years of days.

use std::time::Instant;

use super::*;

/// Prints how long it took; what it asserts is that all of them are there and foretold. The time
/// itself is measured by whoever looks: `cargo test --release -p pennantry-app speed -- --nocapture`.
#[test]
fn four_hundred_fabrics_of_two_years_are_done() {
    let mut shop = Shop::new(five_days);
    let mut dice = 7_u64;
    let mut roll = |below: u64| {
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (dice >> 33) % below
    };
    for number in 0..400_u64 {
        let code = format!("F{number:03}");
        shop.fabrics.push(FabricTerms { code: code.clone(), name: code.clone(), ..kelp() });
        let mut all = 0;
        for day in MONDAY - 728..MONDAY {
            // from every other day to every twelfth
            if five_days(day) && roll(2 + number % 11) == 0 {
                let used = 20 + i64::try_from(roll(600)).unwrap();
                all += used;
                shop.used(&code, day, used);
            }
        }
        shop.came(&code, MONDAY - 729, all + 900);
        shop.lies(&code, 900);
    }
    let morning = shop.morning();
    let begun = Instant::now();
    let survey = survey(&morning);
    let surveyed = begun.elapsed();
    let parts: Vec<_> = survey.codes().iter().map(|code| fabric(&morning, &survey, code)).collect();
    let done = begun.elapsed();
    println!("{} rows: survey {surveyed:?}, with all fabrics {done:?}", shop.uses.len());
    assert_eq!(parts.len(), 400);
    assert!(parts.iter().all(|part| part.weeks_left.is_some() && part.detail.buying.is_some()));
    let levels = parts.iter().filter(|part| part.detail.buying.as_ref().unwrap().reorder_point.is_some());
    assert_eq!(levels.count(), 400);
}
