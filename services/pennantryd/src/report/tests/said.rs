//! What is said where a figure is absent, and of the whole: unknown never reads as harmless, and
//! what would help is named.

use pennantry_contract::v1::{BurnDetail, BurnFabric, BurnNote, BurnReport, DemandClass, PastWeek};

use super::page::{all, read, words};
use super::shop;

/// The fabric that a change makes of Lamp Oil, the only one of its report.
fn only(change: impl FnOnce(&mut BurnFabric, &mut BurnDetail)) -> BurnReport {
    let mut fabric = shop::fabric(&shop::SKETCHES[3]);
    let mut detail = fabric.detail.take().expect("a detail");
    change(&mut fabric, &mut detail);
    BurnReport { fabrics: vec![BurnFabric { detail: Some(detail), ..fabric }], ..shop::bare() }
}

fn note(code: &str, message: &str) -> BurnNote {
    BurnNote { code: code.into(), message: message.into() }
}

fn cells(report: &BurnReport) -> Vec<String> {
    all(&read(report), "table.first td").into_iter().map(words).take(7).collect()
}

fn lede(report: &BurnReport) -> String {
    words(all(&read(report), "p.lede")[0])
}

/// More weeks do not help where the catalogue does not say how a fabric is bought; the lede names
/// what does.
#[test]
fn what_waiting_does_not_help_is_said_with_what_does() {
    for (code, cell, told) in [
        (
            "NOT_SAID_HOW_BOUGHT",
            "no [[supplies]]",
            "until the catalogue has a [[supplies]] entry for each: lamp-oil.",
        ),
        ("NO_ORDERING", "no [ordering]", "until the catalogue has an [ordering] table."),
    ] {
        let report = only(|_, detail| {
            detail.buying = None;
            detail.notes = vec![note(code, "The catalogue does not say.")];
        });
        assert_eq!(cells(&report)[5..], [cell, cell]);
        assert!(lede(&report).ends_with(told), "{}", lede(&report));
        let orders = words(all(&read(&report), "#order p")[0]);
        assert!(orders.ends_with(told) && !orders.contains("yet"), "{orders}");
    }
}

/// No two reasons stand behind the same words.
#[test]
fn the_same_words_have_the_same_reason() {
    let mut report = shop::first_week();
    report.fabrics.extend(shop::usual().fabrics);
    for code in ["NOT_SAID_HOW_BOUGHT", "NO_ORDERING"] {
        report.fabrics.extend(
            only(|_, detail| {
                detail.buying = None;
                detail.notes = vec![note(code, "The catalogue does not say.")];
            })
            .fabrics,
        );
    }
    let html = read(&report);
    let why = words(all(&html, "p.why")[0]);
    let quoted: Vec<&str> =
        why.split('\u{201c}').skip(1).filter_map(|part| part.split('\u{201d}').next()).collect();
    let mut once = quoted.clone();
    once.sort_unstable();
    once.dedup();
    assert!(once.len() >= 5 && once.len() == quoted.len(), "{quoted:?}");
}

/// What is in use no longer needs no order; what cannot be had again and is foretold by nobody is
/// not judged.
#[test]
fn dead_cloth_needs_none_and_the_last_of_it_is_judged_by_a_forecast() {
    let dead = shop::usual().fabrics.remove(2);
    let report = BurnReport { fabrics: vec![dead], ..shop::bare() };
    assert_eq!(cells(&report)[4..], ["nothing is used", "not used", "not used"]);
    let why = words(all(&read(&report), "p.why")[0]);
    assert!(why.contains("\u{201c}not used\u{201d}: no use is expected, and so none is needed"), "{why}");
    let last = |method: &str| {
        let report = only(|_, detail| {
            detail.method = method.into();
            detail.buying.as_mut().expect("bought").last_of_it = true;
        });
        lede(&report)
    };
    assert!(
        last("").starts_with("Nobody can say yet what has to be ordered, of one fabric."),
        "{}",
        last("")
    );
    assert_eq!(last("SES (0.1)"), "Nothing has to be done today. Nothing for 1 of one fabric.");
}

#[test]
fn empty_shelves_are_counted_in_the_lede() {
    let report = only(|fabric, _| fabric.free_mm = 0.0);
    assert!(lede(&report).ends_with(" Of one fabric nothing is free."), "{}", lede(&report));
}

/// Early days last until the first forecast, whatever class the demand has by then, and say from
/// when on: eight weeks from the Monday of the week of the first use.
#[test]
fn early_days_last_until_there_is_a_forecast() {
    let week = |monday: &str, used_mm| PastWeek {
        monday: monday.into(),
        used_mm,
        open_days: 5,
        ..Default::default()
    };
    let mut report = shop::first_week();
    for fabric in &mut report.fabrics {
        let detail = fabric.detail.as_mut().expect("a detail");
        detail.demand_class = DemandClass::Smooth.into();
        detail.past = vec![week("2026-11-16", 0.0), week("2026-11-23", 700.0), week("2026-11-30", 500.0)];
    }
    let told = words(all(&read(&report), "p.early")[0]);
    // used from the week of 23 November on: the eighth ends on Sunday 17 January
    assert!(told.contains("the first is there from Mon 18 Jan 2027 on at the earliest"), "{told}");
    report.fabrics[0].detail.as_mut().expect("a detail").method = "SES (0.1)".into();
    assert_eq!(all(&read(&report), "p.early").len(), 0);
}

/// A day more than half a year off is no day; the tables keep it.
#[test]
fn a_day_to_order_by_that_is_far_off_is_not_told_as_a_day() {
    for (by, told) in [("2027-06-07", "Mon 7 Jun 2027"), ("2027-06-08", "not for half a year")] {
        let report = only(|fabric, _| fabric.order_by_date = Some(by.into()));
        assert_eq!(cells(&report)[5], told);
        assert!(crate::report::csv(&report).expect("a table").contains(&format!(",{by},")));
    }
}

/// From what a level is drawn is for who works it after, and stands where they look.
#[test]
fn the_seed_of_a_draw_stands_one_click_deeper() {
    let report = only(|_, detail| {
        detail.notes = vec![note("DRAWN", "drawn from the seed 7"), note("REORDER_POINT", "for ten days")];
    });
    let html = read(&report);
    let notes: Vec<String> = all(&html, "p.note").into_iter().map(words).collect();
    assert_eq!(notes, ["for ten days"]);
    let deeper: String = all(&html, "article details").into_iter().map(words).collect();
    assert!(deeper.contains("drawn from the seed 7"));
}

/// Why there is no season is said once, in the words of its note.
#[test]
fn a_missing_season_has_one_reason() {
    let mut report = shop::usual();
    report.season.clear();
    report.notes = vec![note("NO_SEASON", "No season is in this report: nothing tells one from chance.")];
    let told = words(all(&read(&report), "#methods")[0]);
    assert!(told.contains("nothing tells one from chance") && !told.contains("two years"), "{told}");
}
