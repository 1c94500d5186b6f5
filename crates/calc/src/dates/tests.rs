use super::*;
use crate::fixture;
use crate::shop::{Booked, Person};

mod properties;
mod table;

/// Tuesday 24 November 2026.
const TUESDAY: Day = Day(20_781);

fn minutes(minutes: i64) -> BenchTime {
    BenchTime::from_milli_minutes(minutes * 1_000)
}

fn on(today: Day) -> When {
    When { today, late: false }
}

fn late(today: Day) -> When {
    When { today, late: true }
}

fn booked(day: Day, time: i64) -> Booked {
    Booked { day, time: minutes(time) }
}

fn person(week: [i64; 7], off: &[Day]) -> Person {
    Person { name: String::from("Ada"), week: week.map(minutes), off: off.to_vec() }
}

/// Mondays to Fridays.
const WEEKDAYS: [i64; 7] = [300, 300, 300, 300, 300, 0, 0];

/// One person with 300 minutes on weekdays, nothing booked, no rest.
fn calendar() -> Calendar {
    Calendar { people: vec![person(WEEKDAYS, &[])], ..fixture::shop().calendar }
}

/// A carrier of weekdays.
fn service(least: u32, most: u32) -> Service {
    let mut service = fixture::shop().services.swap_remove(0);
    service.transit = (least, most);
    service.week = [true, true, true, true, true, false, false];
    service
}

fn found(calendar: &Calendar, service: &Service, time: i64, when: When, wanted: Day) -> Dates {
    dates(calendar, Some(service), minutes(time), when, Some(wanted)).expect("dates")
}

/// The bench alone.
fn done(calendar: &Calendar, time: i64, when: When) -> (Day, Day) {
    let found = dates(calendar, None, minutes(time), when, None).expect("dates");
    (found.first, found.done)
}

#[test]
fn the_capacity_of_a_day_is_of_all_who_are_in() {
    let mut calendar = calendar();
    // Bea works Tuesdays and Saturdays, and is off today
    calendar.people.push(person([0, 100, 0, 0, 0, 50, 0], &[TUESDAY, TUESDAY + 5]));
    assert_eq!(done(&calendar, 300, on(TUESDAY)), (TUESDAY, TUESDAY));
    assert_eq!(done(&calendar, 301, on(TUESDAY)), (TUESDAY, TUESDAY + 1));
    // Saturday is a working day for her alone, so an order may wait for her
    assert_eq!(done(&calendar, 1_250, on(TUESDAY)), (TUESDAY, TUESDAY + 4));
    assert_eq!(done(&calendar, 1_251, on(TUESDAY)), (TUESDAY, TUESDAY + 6));
    // next Tuesday both are in: 400 minutes
    assert_eq!(done(&calendar, 400, on(TUESDAY + 7)), (TUESDAY + 7, TUESDAY + 7));
    assert_eq!(done(&calendar, 401, on(TUESDAY + 7)), (TUESDAY + 7, TUESDAY + 8));
    // a closed day is closed for all
    calendar.closed = vec![TUESDAY + 7];
    assert_eq!(done(&calendar, 1, on(TUESDAY + 7)), (TUESDAY + 8, TUESDAY + 8));
}

#[test]
fn lateness_moves_the_first_day_on_from_a_working_day_only() {
    let saturday = TUESDAY + 4;
    let calendar = calendar();
    assert_eq!(done(&calendar, 300, late(TUESDAY)), (TUESDAY + 1, TUESDAY + 1));
    assert_eq!(done(&calendar, 300, late(TUESDAY + 3)), (TUESDAY + 6, TUESDAY + 6));
    assert_eq!(done(&calendar, 300, late(saturday)), done(&calendar, 300, on(saturday)));
}

#[test]
fn load_is_worked_from_its_day_on_and_runs_over() {
    let mut calendar = calendar();
    // of a month ago nothing is left, of Monday 100, the rest counts from its day
    calendar.load = vec![booked(TUESDAY - 30, 200), booked(TUESDAY - 1, 400), booked(TUESDAY + 2, 500)];
    // free: 200 today, 300 tomorrow, nothing on Thursday, 100 on Friday
    assert_eq!(done(&calendar, 200, on(TUESDAY)), (TUESDAY, TUESDAY));
    assert_eq!(done(&calendar, 201, on(TUESDAY)), (TUESDAY, TUESDAY + 1));
    assert_eq!(done(&calendar, 500, on(TUESDAY)), (TUESDAY, TUESDAY + 1));
    assert_eq!(done(&calendar, 501, on(TUESDAY)), (TUESDAY, TUESDAY + 3));
    assert_eq!(done(&calendar, 600, on(TUESDAY)), (TUESDAY, TUESDAY + 3));
    assert_eq!(done(&calendar, 601, on(TUESDAY)), (TUESDAY, TUESDAY + 6));
    // after the cut-off the load is still worked today
    assert_eq!(done(&calendar, 200, late(TUESDAY)), (TUESDAY + 1, TUESDAY + 1));
    // load of a day off waits for the next working day
    calendar.load = vec![booked(TUESDAY + 4, 300)];
    assert_eq!(done(&calendar, 1, on(TUESDAY + 4)), (TUESDAY + 6, TUESDAY + 7));
    // a rushed order does not wait for any of it
    let rushed = dates_before_all(&calendar, None, minutes(300), on(TUESDAY + 4), None).expect("dates");
    assert_eq!((rushed.first, rushed.done), (TUESDAY + 6, TUESDAY + 6));
    // nor does load below nought give time
    calendar.load = vec![booked(TUESDAY, -1_000)];
    assert_eq!(done(&calendar, 301, on(TUESDAY)), (TUESDAY, TUESDAY + 1));
}

#[test]
fn an_order_of_no_time_is_done_on_its_first_day() {
    let mut calendar = calendar();
    calendar.load = vec![booked(TUESDAY, 5_000)];
    for time in [0, -1] {
        assert_eq!(done(&calendar, time, on(TUESDAY)), (TUESDAY, TUESDAY));
        assert_eq!(done(&calendar, time, late(TUESDAY)), (TUESDAY + 1, TUESDAY + 1));
    }
}

#[test]
fn a_parcel_counts_in_the_days_of_its_carrier() {
    let arrives = |service: &Service, today: Day| {
        dates(&calendar(), Some(service), minutes(1), on(today), None).expect("dates").arrives
    };
    let friday = TUESDAY + 3;
    assert_eq!(arrives(&service(1, 2), TUESDAY), Some((TUESDAY + 1, TUESDAY + 2)));
    assert_eq!(arrives(&service(1, 2), friday), Some((friday + 3, friday + 4)));
    assert_eq!(arrives(&service(0, 0), friday), Some((friday, friday)));
    // said the wrong way round
    assert_eq!(arrives(&service(2, 1), TUESDAY), Some((TUESDAY + 1, TUESDAY + 2)));
    // the carrier is off on the posting day: Monday is its day 0
    let mut off = service(1, 2);
    off.closed = vec![friday];
    assert_eq!(arrives(&off, friday), Some((friday + 4, friday + 5)));
    off.transit = (0, 1);
    assert_eq!(arrives(&off, friday), Some((friday + 3, friday + 4)));
    // the shop is closed on Wednesday, the carrier is not, and the reverse
    let mut calendar = calendar();
    calendar.rest_days = 1;
    calendar.closed = vec![TUESDAY + 1];
    let mut carrier = service(1, 1);
    carrier.closed = vec![TUESDAY + 3];
    let found = found(&calendar, &carrier, 1, on(TUESDAY), TUESDAY + 6);
    assert_eq!((found.done, found.leaves), (TUESDAY, TUESDAY + 2));
    assert_eq!((found.arrives, found.kept), (Some((TUESDAY + 6, TUESDAY + 6)), Some(true)));
}

#[test]
fn the_wanted_day_is_kept_when_the_latest_arrival_is_by_then() {
    let (calendar, service) = (calendar(), service(1, 2));
    let thursday = TUESDAY + 2;
    let kept = |when, wanted| {
        let found = found(&calendar, &service, 88, when, wanted);
        (found.kept, found.order_by)
    };
    assert_eq!(kept(on(TUESDAY), thursday), (Some(true), Some(TUESDAY)));
    assert_eq!(kept(on(TUESDAY), thursday - 1), (Some(false), None));
    // before the cut-off it would have been kept: that is over
    assert_eq!(kept(late(TUESDAY), thursday), (Some(false), None));
    // by Monday is to order by Thursday, by Sunday no later than Wednesday
    assert_eq!(kept(on(TUESDAY), TUESDAY + 6), (Some(true), Some(TUESDAY + 2)));
    assert_eq!(kept(on(TUESDAY), TUESDAY + 5), (Some(true), Some(TUESDAY + 1)));
    // in the past
    assert_eq!(kept(on(TUESDAY), TUESDAY - 900), (Some(false), None));
    // without a service, or a wanted day, nothing is said
    let none = dates(&calendar, None, minutes(88), on(TUESDAY), Some(thursday)).expect("dates");
    assert_eq!((none.kept, none.order_by, none.arrives), (None, None, None));
    let none = dates(&calendar, Some(&service), minutes(88), on(TUESDAY), None).expect("dates");
    assert_eq!((none.kept, none.order_by), (None, None));
}

/// What is promised for today is worked today: asked again tomorrow, it is in nobody's way.
#[test]
fn the_last_day_to_order_counts_the_load_on_its_day() {
    let (mut calendar, service) = (calendar(), service(1, 1));
    calendar.load = vec![booked(TUESDAY, 300)];
    let (thursday, wednesday) = (TUESDAY + 2, TUESDAY + 1);
    let today = found(&calendar, &service, 300, on(TUESDAY), thursday);
    assert_eq!((today.done, today.kept, today.order_by), (wednesday, Some(true), Some(wednesday)));
    let tomorrow = found(&calendar, &service, 300, on(wednesday), thursday);
    assert_eq!((tomorrow.done, tomorrow.kept), (wednesday, Some(true)));
    // what today cannot hold is in the way of tomorrow's order too
    calendar.load = vec![booked(TUESDAY, 301)];
    assert_eq!(found(&calendar, &service, 300, on(wednesday), thursday).kept, Some(false));
    // and a month later nothing is left of it
    let month = TUESDAY + 28;
    assert_eq!(found(&calendar, &service, 300, on(month), month + 1).done, month);
}

#[test]
fn days_beyond_what_is_known_are_an_estimate() {
    let (mut calendar, service) = (calendar(), service(1, 2));
    let told = |calendar: &Calendar, wanted| {
        let found = found(calendar, &service, 88, on(TUESDAY), wanted);
        (found.estimated, found.order_by_estimated)
    };
    calendar.known_to = TUESDAY + 2;
    assert_eq!(told(&calendar, TUESDAY + 2), (false, false));
    // sure to arrive by Thursday; up to when to order is not
    assert_eq!(told(&calendar, TUESDAY + 3), (false, true));
    calendar.known_to = TUESDAY + 1;
    assert_eq!(told(&calendar, TUESDAY + 1), (true, false), "not kept, so there is no day to order by");
    let bench = |calendar: &Calendar| {
        dates(calendar, None, minutes(301), on(TUESDAY), None).expect("dates").estimated
    };
    assert!(!bench(&calendar));
    calendar.known_to = TUESDAY;
    assert!(bench(&calendar));
}

#[test]
fn a_bench_that_never_opens_has_no_day() {
    let to = TUESDAY + 1_099;
    let ask = |calendar: &Calendar, time| dates(calendar, None, minutes(time), on(TUESDAY), None);
    let mut calendar = calendar();
    calendar.people = vec![person([0; 7], &[])];
    assert_eq!(ask(&calendar, 1), Err(NoDay::Closed { from: TUESDAY, to }));
    assert_eq!(ask(&calendar, 0), Err(NoDay::Closed { from: TUESDAY, to }));
    assert_eq!(working_day_after(&calendar, TUESDAY, 0), None);
    assert_eq!(most_time_by(&calendar, None, on(TUESDAY), TUESDAY + 10), BenchTime::ZERO);
    calendar.people = Vec::new();
    assert_eq!(ask(&calendar, 1), Err(NoDay::Closed { from: TUESDAY, to }));
    // closed for all of the horizon, and for all but its last day
    calendar.people = vec![person([300; 7], &[])];
    calendar.closed = (0..1_100).map(|day| TUESDAY + day).collect();
    assert_eq!(ask(&calendar, 1), Err(NoDay::Closed { from: TUESDAY, to }));
    calendar.closed.pop();
    assert_eq!(ask(&calendar, 1).map(|found| found.done), Ok(to));
    assert_eq!(ask(&calendar, 301), Err(NoDay::Booked { to }));
    calendar.rest_days = 1;
    assert_eq!(ask(&calendar, 1), Err(NoDay::Rest { done: to, to }));
    // only today, and that is over
    calendar.closed = (1..1_100).map(|day| TUESDAY + day).collect();
    let now = dates(&calendar, None, minutes(1), late(TUESDAY), None);
    assert_eq!(now, Err(NoDay::Closed { from: TUESDAY + 1, to }));
    let message = now.expect_err("closed").to_string();
    assert_eq!(message, "the bench has no working day from 2026-11-25 to 2029-11-27");
}

#[test]
fn a_bench_that_is_booked_for_years_has_no_day() {
    let mut calendar = calendar();
    calendar.people = vec![person([300; 7], &[])];
    let to = TUESDAY + 1_099;
    let ask = |calendar: &Calendar, time| dates(calendar, None, minutes(time), on(TUESDAY), None);
    // 1 100 days of 300 minutes, of which 88 are left
    calendar.load = vec![booked(TUESDAY, 1_100 * 300 - 88)];
    assert_eq!(ask(&calendar, 88).map(|found| found.done), Ok(to));
    assert_eq!(ask(&calendar, 89), Err(NoDay::Booked { to }));
    assert_eq!(most_time_by(&calendar, None, on(TUESDAY), Day(1_000_000)), minutes(88));
    // however much it is
    let most = BenchTime::from_milli_minutes(i64::MAX);
    calendar.load = vec![Booked { day: TUESDAY, time: most }; 400];
    calendar.people = vec![Person { week: [most; 7], ..person([0; 7], &[]) }; 3];
    assert_eq!(ask(&calendar, 1).map(|found| found.done), Ok(TUESDAY + 133));
    // 400 loads on three people: one on the 134th day, which leaves the order two thirds of it
    let whole = dates(&calendar, None, most, on(TUESDAY), None);
    assert_eq!(whole.map(|found| found.done), Ok(TUESDAY + 133));
    assert_eq!(most_time_by(&calendar, None, on(TUESDAY), Day(1_000_000)), most);
}

#[test]
fn a_service_that_never_carries_brings_nothing() {
    let mut never = service(1, 2);
    never.week = [false; 7];
    let error = dates(&calendar(), Some(&never), minutes(1), on(TUESDAY), Some(TUESDAY + 9));
    let to = TUESDAY + 1_099;
    assert_eq!(error, Err(NoDay::Carrier { from: TUESDAY, to }));
    assert_eq!(most_time_by(&calendar(), Some(&never), on(TUESDAY), TUESDAY + 9), BenchTime::ZERO);
    let forever = service(1, u32::MAX);
    let error = dates(&calendar(), Some(&forever), minutes(1), on(TUESDAY), None);
    assert_eq!(error, Err(NoDay::Carrier { from: TUESDAY, to }));
    let mut calendar = calendar();
    calendar.rest_days = u32::MAX;
    let error = dates(&calendar, None, minutes(1), on(TUESDAY), None);
    assert_eq!(error, Err(NoDay::Rest { done: TUESDAY, to }));
}

/// However far the wanted day lies, the search starts from its end.
#[test]
fn a_wanted_day_far_off_takes_few_steps() {
    let (mut calendar, service) = (calendar(), service(1, 2));
    // 30 December 9999, a Thursday
    let wanted = Day(2_932_895);
    let far = found(&calendar, &service, 88, on(TUESDAY), wanted);
    assert_eq!(far.order_by, Some(wanted - 2));
    assert!(far.order_by_estimated && !far.estimated);
    assert!(far.steps < 12, "{}", far.steps);
    // a usual one: 1 day at the bench and 1 to leave, 2 and 2 to arrive; back again 3 to post
    // and 1 to be done, on a Wednesday that has 150 of its 300 free
    calendar.load = (0..400).map(|at| booked(TUESDAY + at, 150)).collect();
    let usual = found(&calendar, &service, 88, on(TUESDAY), TUESDAY + 10);
    assert_eq!((usual.steps, usual.order_by), (11, Some(TUESDAY + 8)));
}

#[test]
fn the_most_time_is_what_is_free_until_the_last_day_to_be_done() {
    let (mut calendar, service) = (calendar(), service(1, 2));
    calendar.load = vec![booked(TUESDAY, 180)];
    calendar.rest_days = 1;
    let most = |when, wanted| most_time_by(&calendar, Some(&service), when, wanted);
    // to arrive on Monday it leaves on Thursday and is done on Wednesday: 120 + 300
    assert_eq!(most(on(TUESDAY), TUESDAY + 6), minutes(420));
    assert_eq!(most(late(TUESDAY), TUESDAY + 6), minutes(300));
    assert_eq!(most(on(TUESDAY), TUESDAY + 3), minutes(120));
    assert_eq!(most(late(TUESDAY), TUESDAY + 3), minutes(0));
    assert_eq!(most(on(TUESDAY), TUESDAY + 2), minutes(0));
    assert_eq!(most(on(TUESDAY), Day(i32::MIN)), minutes(0));
    let rushed = most_time_before_all(&calendar, Some(&service), on(TUESDAY), TUESDAY + 6);
    assert_eq!(rushed, minutes(600));
}

/// What does not leave within the horizon is no date, so no time is told for it.
#[test]
fn the_most_time_ends_with_the_horizon() {
    let mut calendar = calendar();
    calendar.people = vec![person([300; 7], &[])];
    calendar.rest_days = 2;
    let mut service = service(1, 2);
    let most = most_time_by(&calendar, Some(&service), on(TUESDAY), Day(2_932_895));
    assert_eq!(most, minutes(1_098 * 300));
    let ask = |time| dates(&calendar, Some(&service), time, on(TUESDAY), None).map(|found| found.leaves);
    let (done, to) = (TUESDAY + 1_098, TUESDAY + 1_099);
    assert_eq!(ask(most), Ok(to));
    assert_eq!(ask(most + BenchTime::from_milli_minutes(1)), Err(NoDay::Rest { done, to }));
    // a carrier that stops for years after that changes nothing
    service.closed = (2_200..6_000).map(|day| TUESDAY + day).collect();
    assert_eq!(most_time_by(&calendar, Some(&service), on(TUESDAY), TUESDAY + 5_000), most);
    let far = found(&calendar, &service, 88, on(TUESDAY), TUESDAY + 5_000);
    assert_eq!((far.kept, far.order_by), (Some(true), Some(TUESDAY)), "a day that keeps it, if not the last");
}
