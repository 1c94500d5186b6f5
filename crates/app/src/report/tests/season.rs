//! A season shared by all fabrics, and a back-test over them. Invented use.

use super::*;

/// Twelve fabrics for three years: in weeks 20 to 29 thrice as much as otherwise, each fabric on
/// another weekday and of another size, now and then a little more or less.
fn shop(today: i32) -> Shop {
    let mut shop = Shop::new(five_days);
    shop.today = today;
    for number in 0..12_i32 {
        let code = format!("F{number:02}");
        shop.fabrics.push(FabricTerms { code: code.clone(), name: code.clone(), ..kelp() });
        let mut all = 0;
        for day in (today - 3 * 364..today).filter(|day| five_days(*day)) {
            let week = words::date(day).iso_week_date().week();
            let wobble = i64::from((day * 7 + number * 13).rem_euclid(11));
            let each = (20 + 5 * i64::from(number) + wobble) * if (20..30).contains(&week) { 3 } else { 1 };
            shop.used(&code, day, each);
            all += each;
        }
        shop.came(&code, today - 3 * 364 - 1, all + 500);
        shop.lies(&code, 500);
    }
    shop
}

#[test]
fn a_season_is_seen_used_and_told() {
    // Monday 18 May 2026, of ISO week 21
    let today = MONDAY - 196;
    let shop = shop(today);
    let (parts, whole) = shop.all();
    assert_eq!(whole.season.len(), 53);
    let index = |week: usize| whole.season[week - 1].index;
    // 42 weeks of one and ten of three make 72 over 52: 0.722 and 2.167; six harmonics of a curve with
    // two steps go up to a tenth of the step beyond it
    assert!((index(25) - 2.167).abs() < 0.2, "{}", index(25));
    assert!((index(5) - 0.722).abs() < 0.15, "{}", index(5));
    let seasonal = parts.iter().filter(|part| part.detail.seasonal).count();
    assert!(seasonal >= 10, "{seasonal}");
    // three weeks of those before were ordinary, one was of the season: 3 and 3 against 4
    let part = &parts[0];
    let usual = number::real(part.usual.unwrap().um());
    let used = number::real(part.used.um());
    assert!((usual / used - 1.0).abs() < 0.1, "{usual} {used}");
    // what is ordered today has to last in the season
    let coming = &part.detail.coming;
    assert!(coming[1].expected > coming[12].expected * 2, "{coming:?}");
    let back_test = whole.back_test.unwrap();
    assert_eq!(back_test.fabrics, 12);
    assert!(back_test.rows.iter().any(|row| row.method.ends_with(", with the season") && row.chosen >= 1));
    let chosen: u32 = back_test.rows.iter().map(|row| row.chosen).sum();
    assert_eq!(chosen, 12);
    assert!(back_test.weeks > 0 && back_test.rows.iter().all(|row| row.tried > 0));
}

/// One year shows no season: nothing is told of one.
#[test]
fn a_first_year_has_no_season() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 200, 50, 400);
    let (parts, whole) = shop.all();
    assert_eq!(whole.season, []);
    assert!(codes(&whole.notes).contains(&"NO_SEASON"));
    assert!(codes(&parts[0].detail.notes).contains(&"FIRST_YEAR"));
    assert!(!parts[0].detail.seasonal);
}

/// A season that is told and in no forecast is said to be so: of this shop a year and six weeks are
/// known, which leaves too few weeks from which a season could be tried.
#[test]
fn a_season_that_is_not_used_is_said() {
    let mut shop = shop(MONDAY - 196);
    let from = shop.today - 7 * 55;
    let opening: i64 = 1_000_000;
    shop.uses.retain(|row| row.day >= from);
    for code in shop.fabrics.iter().map(|fabric| fabric.code.clone()).collect::<Vec<_>>() {
        shop.came(&code, from - 1, opening);
    }
    let (parts, whole) = shop.all();
    assert_eq!(whole.season.len(), 53);
    assert!(parts.iter().all(|part| !part.detail.seasonal));
    let note = whole.notes.iter().find(|note| note.code == "SEASON_NOT_USED").unwrap();
    assert!(note.message.contains("no forecast uses it"), "{}", note.message);
    // nor is it in what is usual: the open days of four weeks at the mean of the 51 known before them
    let weeks = from..shop.today - 28;
    let used = shop.uses.iter().filter(|row| row.code == "F00" && weeks.contains(&row.day));
    let used: i64 = used.map(|row| row.of.used.0).sum();
    let usual = parts[0].usual.unwrap().um();
    assert!((usual - used * 20 / 255).abs() <= 1_000, "{usual} {used}");
    // and where one is used, it is not
    assert!(!codes(&self::shop(MONDAY - 196).all().1.notes).contains(&"SEASON_NOT_USED"));
}

/// What is written below nought in the back-test foretold too much.
#[test]
fn bias_is_value_less_forecast() {
    let mut shop = Shop::new(five_days);
    shop.fabrics = vec![kelp()];
    shop.came("KELP", MONDAY - 365, 100_000);
    for (week, monday) in (0..52_i64).zip((MONDAY - 364..MONDAY).step_by(7)) {
        // more every week: whatever smooths lags behind and foretells too little
        shop.used("KELP", monday, 100 + 10 * week);
    }
    shop.lies("KELP", 5_000);
    let scores = shop.report("KELP").detail.scores;
    assert!(scores.iter().any(|score| score.method.starts_with("SES")));
    assert!(scores.iter().all(|score| score.bias.unwrap() > 0.0), "{scores:?}");
}
