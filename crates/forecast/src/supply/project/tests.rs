//! The line of the shelf, by hand.

use proptest::prelude::*;

use super::*;
use crate::supply::position::{OrderLine, Shelf};
use crate::supply::tests::many;

/// Open on every day but each sixth and seventh, from day 0, a Monday.
fn weeks(weeks: i32) -> OpenDays {
    OpenDays::new((0..7 * weeks).filter(|day| day % 7 < 5).map(Day).collect()).unwrap()
}

fn position(available: i64, coming: &[(i32, i64)]) -> Position {
    let lines: Vec<OrderLine> = coming
        .iter()
        .map(|(day, ordered)| OrderLine {
            expected: Some(Day(*day)),
            ordered: *ordered,
            received: 0,
            cancelled: 0,
        })
        .collect();
    Position::on(Day(0), &Shelf { on_hand: available, ..Shelf::default() }, &lines).unwrap()
}

fn level(today: i32, rate: f64) -> Outlook {
    Outlook::level(Day(today), &weeks(6), rate).unwrap()
}

fn closings(line: &Line, days: usize) -> Vec<f64> {
    line.points.iter().take(days).map(|point| point.closing).collect()
}

/// The example of the module, in centimetres: the sixth open day is day 7, a Monday.
#[test]
fn the_shelf_goes_down_and_up_with_what_comes() {
    let line = Line::project(&position(400, &[(7, 100)]), &level(0, 30.0));
    assert_eq!(closings(&line, 6), [370.0, 340.0, 310.0, 280.0, 250.0, 320.0]);
    // 500 at 30 a day: the seventeenth open day, a Tuesday three weeks and a day on
    assert_eq!(line.runs_out(), When::On(Day(22)));
    let ends: Vec<f64> = line.points[16..18].iter().flat_map(|point| [point.closing, point.unmet]).collect();
    assert_eq!(ends, [0.0, 10.0, 0.0, 30.0]);
    assert_eq!(line.back(), Some(When::NotBy(Day(39))));
}

/// 1840 on hand less 260 promised at 36.5 a day are 43.3 days (days of cover): the shelf runs
/// out on the 44th open day.
#[test]
fn it_runs_out_on_the_day_that_the_cover_ends() {
    let open = OpenDays::new((0..100).map(Day).collect()).unwrap();
    let outlook = Outlook::level(Day(0), &open, 36.5).unwrap();
    assert_eq!(Line::project(&position(1_580, &[]), &outlook).runs_out(), When::On(Day(43)));
    // the evening on which exactly nothing is left counts
    let outlook = Outlook::level(Day(0), &open, 0.1).unwrap();
    assert_eq!(Line::project(&position(3, &[]), &outlook).runs_out(), When::On(Day(29)));
}

#[test]
fn a_saturdays_delivery_is_there_on_monday() {
    let line = Line::project(&position(100, &[(5, 50)]), &level(0, 10.0));
    assert_eq!(closings(&line, 6), [90.0, 80.0, 70.0, 60.0, 50.0, 90.0]);
    assert_eq!((line.points[5].day, line.points[5].opening), (Day(7), 100.0));
}

/// Use that finds nothing is lost: what comes after a gap starts from nought. What was short
/// is made good first.
#[test]
fn a_gap_does_not_eat_what_comes_after_it() {
    let line = Line::project(&position(20, &[(3, 40)]), &level(0, 10.0));
    assert_eq!(closings(&line, 5), [10.0, 0.0, 0.0, 30.0, 20.0]);
    assert_eq!((line.runs_out(), line.back()), (When::On(Day(1)), Some(When::On(Day(3)))));
    let unmet: Vec<f64> = line.points.iter().take(4).map(|point| point.unmet).collect();
    assert_eq!(unmet, [0.0, 0.0, 10.0, 0.0]);
    let short = Shelf { short: 25, ..Shelf::default() };
    let lines = [OrderLine { expected: Some(Day(1)), ordered: 40, received: 0, cancelled: 0 }];
    let line = Line::project(&Position::on(Day(0), &short, &lines).unwrap(), &level(0, 10.0));
    assert_eq!(closings(&line, 3), [-25.0, 5.0, 0.0]);
    assert_eq!(line.runs_out(), When::On(Day(0)));
}

#[test]
fn late_lines_are_not_counted_on() {
    let shelf = Shelf { on_hand: 20, ..Shelf::default() };
    let line = |expected| OrderLine { expected, ordered: 400, received: 0, cancelled: 0 };
    for expected in [Some(Day(-1)), None] {
        let position = Position::on(Day(0), &shelf, &[line(expected)]).unwrap();
        assert_eq!(position.total(), 420);
        assert_eq!(Line::project(&position, &level(0, 10.0)).runs_out(), When::On(Day(1)));
    }
}

#[test]
fn no_use_runs_out_on_no_day() {
    let line = Line::project(&position(20, &[]), &level(0, 0.0));
    assert_eq!((line.runs_out(), line.back()), (When::NotBy(Day(39)), None));
    assert_eq!(line.order_by(&level(0, 0.0), 5, 10), OrderBy::NotBy(Day(39)));
    assert_eq!(line.offers(20), Some(When::NotBy(Day(39))));
}

/// 100 at 10 a day from Monday: under 25 in the evening of day 9, the eighth open day, a
/// Wednesday. Five days before it is a Friday; seven before it a Wednesday; four, a Saturday,
/// so the Friday before that.
#[test]
fn the_last_day_to_order_is_open_and_comes_in_time() {
    let outlook = level(0, 10.0);
    let line = Line::project(&position(100, &[]), &outlook);
    assert_eq!(line.falls_under(25), When::On(Day(9)));
    // exactly at a floor is not under it
    assert_eq!((line.falls_under(20), line.falls_under(21)), (When::On(Day(10)), When::On(Day(9))));
    assert_eq!(line.falls_under(0), When::On(Day(11)));
    let by = |lead| line.order_by(&outlook, lead, 25);
    assert_eq!((by(5), by(7), by(4)), (OrderBy::By(Day(4)), OrderBy::By(Day(2)), OrderBy::By(Day(4))));
    assert_eq!((by(0), by(9)), (OrderBy::By(Day(9)), OrderBy::By(Day(0))));
    // ten days from Monday is a Thursday, a day too late
    let too_late = OrderBy::TooLate { ordered: Day(0), arrives: Day(10), falls: Day(9) };
    assert_eq!(by(10), too_late);
}

/// The report of a Sunday: an order goes out on Monday at the soonest.
#[test]
fn nobody_orders_on_a_closed_day() {
    let outlook = level(6, 10.0);
    let shelf = Shelf { on_hand: 30, ..Shelf::default() };
    let line = Line::project(&Position::on(Day(6), &shelf, &[]).unwrap(), &outlook);
    assert_eq!(line.falls_under(5), When::On(Day(9)));
    assert_eq!(line.order_by(&outlook, 2, 5), OrderBy::By(Day(7)));
    // three days before Wednesday is the Sunday itself; from Monday it takes until Thursday
    let too_late = OrderBy::TooLate { ordered: Day(7), arrives: Day(10), falls: Day(9) };
    assert_eq!(line.order_by(&outlook, 3, 5), too_late);
    // five days from Monday is a Saturday: there on the Monday after
    let later = OrderBy::TooLate { ordered: Day(7), arrives: Day(14), falls: Day(9) };
    assert_eq!(line.order_by(&outlook, 5, 5), later);
}

/// 100 at 10 a day: the morning of day 8 begins with 40, that of day 9 with 30.
#[test]
fn an_offer_ends_with_the_last_morning_that_has_enough() {
    let line = Line::project(&position(100, &[]), &level(0, 10.0));
    assert_eq!((line.offers(40), line.offers(41)), (Some(When::On(Day(8))), Some(When::On(Day(7)))));
    assert_eq!((line.offers(100), line.offers(101)), (Some(When::On(Day(0))), None));
}

#[test]
fn outlooks_that_say_nothing_are_refused() {
    let open = weeks(1);
    assert!(Outlook::level(Day(0), &open, f64::NAN).is_err());
    assert!(Outlook::level(Day(0), &open, -1.0).is_err());
    assert!(Outlook::level(Day(5), &open, 1.0).is_err(), "no open day is known from then on");
    assert!(Outlook::new(Day(0), &open, &[]).is_err());
    assert_eq!(Outlook::new(Day(0), &open, &[1.0, 2.0]).unwrap().last(), Day(1));
}

proptest! {
    #![proptest_config(many())]

    /// What is there at first and what came is what was taken and what is left.
    #[test]
    fn nothing_is_lost_or_made(
        available in 0_i64..2_000, coming in prop::collection::vec((0_i32..30, 1_i64..500), 0..4), rate in 0.0_f64..120.0,
    ) {
        let line = Line::project(&position(available, &coming), &level(0, rate));
        let came: i64 = coming.iter().map(|(_, amount)| amount).sum();
        let taken: f64 = line.points.iter().map(|point| rate - point.unmet).sum();
        let left = line.points.last().unwrap().closing;
        let all = f64::from(i32::try_from(available + came).unwrap());
        prop_assert!((all - taken - left).abs() < 1e-6);
        prop_assert!(line.points.iter().all(|point| point.closing >= 0.0 && point.unmet >= 0.0 && point.closing.is_finite()));
    }

    /// Ordered on the last day it comes in time, and on the next open day it does not.
    #[test]
    fn the_last_day_to_order_is_the_last(available in 0_i64..2_000, rate in 1.0_f64..120.0, lead in 0_u32..30, floor in 0_i64..300) {
        let outlook = level(0, rate);
        let line = Line::project(&position(available, &[]), &outlook);
        let comes = |ordered: Day| weeks(20).on_or_after(ordered.plus(lead)).unwrap();
        match (line.falls_under(floor), line.order_by(&outlook, lead, floor)) {
            (When::On(falls), OrderBy::By(day)) => {
                prop_assert!(comes(day) <= falls && weeks(6).on_or_after(day) == Some(day));
                let next = weeks(20).on_or_after(day.plus(1)).unwrap();
                prop_assert!(comes(next) > falls);
            }
            (When::On(falls), OrderBy::TooLate { ordered, falls: told, .. }) => {
                prop_assert_eq!((ordered, told), (Day(0), falls));
                prop_assert!(comes(ordered) > falls);
            }
            (When::NotBy(last), OrderBy::NotBy(told)) => prop_assert_eq!(last, told),
            (falls, by) => prop_assert!(false, "{falls:?} and {by:?}"),
        }
    }

    /// More cloth, or less use, never runs out sooner.
    #[test]
    fn more_cloth_lasts_longer(available in 0_i64..2_000, more in 0_i64..500, rate in 1.0_f64..120.0, less in 0.0_f64..1.0) {
        let day = |available, rate| match Line::project(&position(available, &[]), &level(0, rate)).runs_out() {
            When::On(day) => day,
            When::NotBy(_) => Day(i32::MAX),
        };
        prop_assert!(day(available + more, rate) >= day(available, rate));
        prop_assert!(day(available, rate * less) >= day(available, rate));
    }
}
