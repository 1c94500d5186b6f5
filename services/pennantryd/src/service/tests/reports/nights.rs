//! Made by itself, night by night: due once a day of the shop, whatever the clock does.
//!
//! Cases of clocks that skip or repeat an hour: published reports of schedulers that skipped a
//! night in March and worked twice in October, or that went on with the old offset; that a job
//! is done once a day, by a key of its own, is common practice. Clock changes: IANA time zone
//! database, 2026f.

use super::*;
use crate::report::nightly::{self, DUE, Made};

const DONE: Made = Made { done: 1, failed: 0 };
const NONE: Made = Made { done: 0, failed: 0 };

async fn round(shop: &Shop) -> Made {
    nightly::round(&shop.service, &shop.stock.ledger, DUE, &never()).await.unwrap()
}

/// A shop whose clock is put by hand.
fn by_hand(instant: &str) -> (Shop, Hand) {
    let hand = Hand::at(instant);
    (open().by(hand.clock(), SALTMERE_LOFT), hand)
}

#[tokio::test]
async fn it_is_due_at_a_quarter_past_three_and_once() {
    let (shop, hand) = by_hand("2026-11-23T12:00:00Z");
    assert_eq!(round(&shop).await, DONE, "the first is made at once");
    for (instant, made) in [
        ("2026-11-24T00:00:00Z", NONE),
        ("2026-11-24T03:14:59.999999Z", NONE),
        ("2026-11-24T03:15:00Z", DONE),
        ("2026-11-24T03:15:00Z", NONE),
        // the clock goes back after the run
        ("2026-11-24T03:05:00Z", NONE),
        ("2026-11-24T03:16:00Z", NONE),
        ("2026-11-23T23:59:00Z", NONE),
        // by a clock that is on the day before it was a day to come: it is made when that comes
        ("2026-11-25T03:14:00Z", DONE),
        ("2026-11-25T04:00:00Z", DONE),
    ] {
        hand.put(instant);
        assert_eq!(round(&shop).await, made, "{instant}");
    }
    assert_eq!(shop.days().await, ["2026-11-25", TODAY, "2026-11-23"]);
}

/// The first report of all, and a clock that goes back just after it.
#[tokio::test]
async fn a_clock_that_goes_back_past_the_first_makes_none_of_the_day_before() {
    let (shop, hand) = by_hand("2026-11-24T03:15:30Z");
    assert_eq!(round(&shop).await, DONE);
    hand.put("2026-11-24T03:05:30Z");
    assert_eq!(round(&shop).await, NONE);
    assert_eq!(shop.days().await, [TODAY]);
}

#[tokio::test]
async fn one_that_is_late_belongs_to_its_day() {
    let (shop, hand) = by_hand("2026-11-23T12:00:00Z");
    assert_eq!(round(&shop).await, DONE);
    // nothing ran from one to five
    hand.put("2026-11-24T05:00:00Z");
    assert_eq!(round(&shop).await, DONE);
    let report = shop.report(json!({})).await.unwrap();
    assert_eq!((report.date.as_str(), report.through_date.as_str()), (TODAY, "2026-11-23"));
    assert_eq!(report.as_of, "2026-11-24T05:00:00Z");
    assert!(report.notes.iter().all(|note| note.code != "MADE_LATER"), "{:?}", report.notes);
}

#[tokio::test]
async fn nights_off_are_made_up_in_order() {
    let (shop, hand) = by_hand("2026-11-21T04:00:00Z");
    shop.stocked().await;
    assert_eq!(round(&shop).await, DONE);
    hand.put("2026-11-24T09:00:00Z");
    assert_eq!(round(&shop).await, Made { done: 3, failed: 0 });
    let mut heads = shop.reports(json!({})).await.unwrap();
    heads.reverse();
    let dates: Vec<&str> = heads.iter().map(|head| head.date.as_str()).collect();
    assert_eq!(dates, ["2026-11-21", "2026-11-22", "2026-11-23", TODAY]);
    // names of runners have the time in them
    assert!(heads.is_sorted_by(|one, next| one.runner < next.runner), "{heads:?}");
    for date in &dates[1..] {
        let report = shop.report(json!({"date": date})).await.unwrap();
        let later = report.notes.iter().any(|note| note.code == "MADE_LATER");
        assert_eq!(later, *date != TODAY, "{date}: {:?}", report.notes);
        let day: jiff::civil::Date = date.parse().unwrap();
        assert_eq!(report.through_date, day.yesterday().unwrap().to_string());
    }
    assert_eq!(round(&shop).await, NONE);
    // after a year only the last fortnight
    hand.put("2027-11-24T09:00:00Z");
    assert_eq!(round(&shop).await, Made { done: 14, failed: 0 });
    let listed = shop.reports(json!({"fromDate": "2026-11-25"})).await.unwrap();
    assert_eq!((listed.len(), listed[13].date.as_str()), (14, "2027-11-11"));
}

/// A server that runs on while the clocks change, and one that is put back an hour and forward
/// three.
#[tokio::test]
async fn the_clocks_change_under_a_server_and_each_day_has_one_at_the_same_time_of_day() {
    for (from, hours, wanted) in [
        (
            "2026-03-27T12:00:00Z",
            80,
            ["2026-03-28T03:15:00Z", "2026-03-29T02:15:00Z", "2026-03-30T02:15:00Z"],
        ),
        (
            "2026-10-23T12:00:00Z",
            80,
            ["2026-10-24T02:15:00Z", "2026-10-25T03:15:00Z", "2026-10-26T03:15:00Z"],
        ),
    ] {
        let (shop, hand) = by_hand(from);
        assert_eq!(round(&shop).await, DONE);
        let mut made = Vec::new();
        for _ in 0..hours * 4 {
            hand.forward(900);
            for _ in 0..round(&shop).await.done {
                made.push(shop.service.now().to_string());
            }
        }
        assert_eq!(made, wanted);
        let days: Vec<&str> = wanted.iter().rev().map(|instant| &instant[..10]).collect();
        let listed = shop.days().await;
        assert_eq!(listed[..3], days, "of those days");
        assert_eq!(listed.len(), 4);
    }
    let (shop, hand) = by_hand("2026-11-23T12:00:00Z");
    assert_eq!(round(&shop).await, DONE);
    for (seconds, made) in [
        (15 * 3_600 + 900, DONE),
        (-3_600, NONE),
        (3 * 3_600, NONE),
        (22 * 3_600, DONE),
        (3 * 3_600, NONE),
        (-3_600, NONE),
        (20 * 3_600, NONE),
        (3 * 3_600, DONE),
    ] {
        hand.forward(seconds);
        assert_eq!(round(&shop).await, made, "{}", shop.service.now());
    }
    assert_eq!(shop.days().await.len(), 4);
}

#[tokio::test]
async fn one_that_failed_is_made_again_after_ten_minutes_and_one_that_was_stopped_never() {
    let (shop, hand) = by_hand("2026-11-24T03:20:00Z");
    shop.begun_elsewhere("2026-11-22", "2026-11-24T03:20:00Z").await;
    shop.call_off("2026-11-22").await.unwrap();
    shop.failed_elsewhere("2026-11-23", "2026-11-24T03:20:00Z").await;
    assert_eq!(round(&shop).await, DONE, "that of today, and neither of them");
    hand.put("2026-11-24T03:29:59Z");
    assert_eq!(round(&shop).await, NONE);
    hand.put("2026-11-24T03:30:00Z");
    assert_eq!(round(&shop).await, DONE);
    let mut states: Vec<(String, v1::BurnReportState)> = Vec::new();
    for head in shop.reports(json!({})).await.unwrap() {
        states.push((head.date.clone(), head.state()));
    }
    let expected = [
        (TODAY, v1::BurnReportState::Done),
        ("2026-11-23", v1::BurnReportState::Done),
        ("2026-11-22", v1::BurnReportState::Cancelled),
    ];
    assert_eq!(states, expected.map(|(date, state)| (date.to_owned(), state)));
    assert_eq!(shop.report(json!({"date": "2026-11-23"})).await.unwrap().date, "2026-11-23");
    for instant in ["2026-11-24T12:00:00Z", "2026-11-25T03:00:00Z"] {
        hand.put(instant);
        assert_eq!(round(&shop).await, NONE, "{instant}");
    }
    assert_eq!(shop.made("2026-11-22", false).await.state(), v1::BurnReportState::Done, "on request it is");
}

#[tokio::test]
async fn what_another_server_has_left_is_gone_on_with_and_what_it_is_at_is_not_waited_for() {
    let (shop, hand) = by_hand("2026-11-24T03:20:00Z");
    shop.begun_elsewhere(TODAY, "2026-11-24T03:20:00Z").await;
    hand.put("2026-11-24T03:20:59Z");
    assert_eq!(round(&shop).await, NONE);
    hand.put("2026-11-24T03:21:00Z");
    assert_eq!(round(&shop).await, DONE);
    let [head] = shop.reports(json!({})).await.unwrap().try_into().unwrap();
    assert_eq!((head.state(), head.start_time.as_str()), (v1::BurnReportState::Done, "2026-11-24T03:20:00Z"));
    // too old to be of use
    shop.begun_elsewhere("2026-11-10", "2026-11-10T03:20:00Z").await;
    shop.begun_elsewhere("2026-11-11", "2026-11-11T03:20:00Z").await;
    assert_eq!(round(&shop).await, Made { done: 13, failed: 0 }, "and what lies between");
    assert_eq!(shop.kept("2026-11-10").await.head.state, ReportState::Running);
    assert_eq!(shop.kept("2026-11-11").await.head.state, ReportState::Done);
}

/// What is asked for by hand comes before what was missed, and that is made up all the same.
#[tokio::test]
async fn a_gap_is_made_up_though_the_report_of_today_is_there() {
    let (shop, hand) = by_hand("2026-11-21T04:00:00Z");
    shop.stocked().await;
    assert_eq!(round(&shop).await, DONE);
    hand.put("2026-11-24T09:00:00Z");
    shop.made("", false).await;
    assert_eq!(round(&shop).await, Made { done: 2, failed: 0 });
    assert_eq!(shop.days().await, [TODAY, "2026-11-23", "2026-11-22", "2026-11-21"]);
    // a new shop that asks for one of long ago has none of before its stock began
    let (shop, hand) = by_hand("2026-11-23T04:00:00Z");
    shop.stocked().await;
    hand.put("2026-11-24T09:00:00Z");
    shop.made("2025-01-01", false).await;
    assert_eq!(round(&shop).await, Made { done: 2, failed: 0 });
    assert_eq!(shop.days().await, [TODAY, "2026-11-23", "2025-01-01"]);
}

/// A clock that is a day ahead and is put right: the real day has its report, and the next one is
/// made anew when it comes.
#[tokio::test]
async fn a_report_of_a_clock_that_was_ahead_is_made_anew_on_its_day() {
    let (shop, hand) = by_hand("2026-11-23T04:00:00Z");
    assert_eq!(round(&shop).await, DONE);
    hand.put("2026-11-25T04:00:00Z");
    assert_eq!(round(&shop).await, Made { done: 2, failed: 0 });
    hand.put("2026-11-24T04:00:00Z");
    assert_eq!(round(&shop).await, DONE, "that of the 24th was made as of the 25th");
    let report = shop.report(json!({})).await.unwrap();
    assert_eq!(
        (report.date.as_str(), report.as_of.as_str()),
        (TODAY, "2026-11-24T04:00:00Z"),
        "none of tomorrow"
    );
    assert_eq!(round(&shop).await, NONE);
    shop.stocked().await;
    hand.put("2026-11-25T04:01:00Z");
    assert_eq!(round(&shop).await, DONE);
    let report = shop.report(json!({})).await.unwrap();
    assert_eq!((report.date.as_str(), report.as_of.as_str()), ("2026-11-25", "2026-11-25T04:01:00Z"));
    assert_eq!(Mm(fabric(&report, "kelp").free_mm), 20_000.0, "as things stand by then");
    assert_eq!(round(&shop).await, NONE);
}

#[tokio::test]
async fn a_server_that_stops_begins_none() {
    let (shop, _) = by_hand("2026-11-24T03:20:00Z");
    let (stopper, stop) = listen::stop();
    stopper.give();
    let made = nightly::round(&shop.service, &shop.stock.ledger, DUE, &stop).await;
    assert_eq!(made, Ok(NONE));
    assert_eq!(shop.days().await, [""; 0]);
}

/// The shop moves to another time zone while its server runs: its days are other ones from then
/// on, and none has two reports.
#[tokio::test]
async fn the_shop_may_change_its_time_zone() {
    let (shop, hand) = by_hand("2026-11-24T10:00:00Z");
    let far = SALTMERE_LOFT.replace("zone = \"Europe/London\"", "zone = \"Pacific/Kiritimati\"");
    assert_eq!(round(&shop).await, DONE);
    // fourteen hours ahead: it is a quarter past three of the day after
    hand.put("2026-11-24T13:14:59Z");
    shop.service.replace_catalogue(catalogue(&far));
    assert_eq!(round(&shop).await, NONE);
    hand.put("2026-11-24T13:15:00Z");
    assert_eq!(round(&shop).await, DONE);
    let report = shop.report(json!({})).await.unwrap();
    assert_eq!((report.date.as_str(), report.zone.as_str()), ("2026-11-25", "Pacific/Kiritimati"));
    // and back: that day is not made twice, and the one after it is not left out
    shop.service.replace_catalogue(catalogue(SALTMERE_LOFT));
    for (instant, made) in [
        ("2026-11-24T13:20:00Z", NONE),
        ("2026-11-25T03:20:00Z", NONE),
        ("2026-11-26T03:14:00Z", NONE),
        ("2026-11-26T03:15:00Z", DONE),
    ] {
        hand.put(instant);
        assert_eq!(round(&shop).await, made, "{instant}");
    }
    assert_eq!(shop.days().await, ["2026-11-26", "2026-11-25", TODAY]);
}
