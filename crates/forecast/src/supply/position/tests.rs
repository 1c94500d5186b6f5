//! Sums of what is there and coming, by hand.

use proptest::prelude::*;

use super::*;
use crate::supply::tests::many;

const NEW: OrderLine = OrderLine { expected: Some(Day(10)), ordered: 1_500, received: 0, cancelled: 0 };

#[test]
fn promises_and_shortage_come_off_what_is_there() {
    let shelf = Shelf { on_hand: 1_000, held: 150, confirmed: 300, short: 50 };
    assert_eq!(shelf.available(), Ok(500));
    let promised = Shelf { on_hand: 0, held: 0, confirmed: 0, short: 70 };
    assert_eq!(promised.available(), Ok(-70));
    let error = Shelf { held: -1, ..shelf }.available().unwrap_err();
    assert_eq!(error.to_string(), "held is -1; allowed is 0 to 10^12");
}

#[test]
fn what_came_and_what_was_cancelled_is_not_on_order() {
    let left = |received, cancelled| OrderLine { received, cancelled, ..NEW }.on_order();
    assert_eq!(
        (left(0, 0), left(500, 0), left(500, 400), left(0, 1_500)),
        (Ok(1_500), Ok(1_000), Ok(600), Ok(0))
    );
    // more came than was ordered
    assert_eq!((left(1_520, 0), left(1_200, 400)), (Ok(0), Ok(0)));
    let error = left(0, 1_501).unwrap_err();
    assert_eq!(error.to_string(), "cancelled is 1501; allowed is at most what was ordered");
    assert!(OrderLine { ordered: 0, ..NEW }.on_order().is_err() && left(-1, 0).is_err());
}

#[test]
fn a_line_is_late_from_the_day_after_and_until_it_has_come() {
    let late = |today, line| Position::on(Day(today), &Shelf::default(), &[line]).unwrap();
    assert_eq!(late(10, NEW).overdue, []);
    assert_eq!(late(10, NEW).coming, [Delivery { day: Day(10), amount: 1_500 }]);
    let one = late(11, NEW);
    assert_eq!(one.overdue, [Overdue { line: 0, on_order: 1_500, days: Some(1) }]);
    assert_eq!((one.coming, one.on_order), (vec![], 1_500));
    let part = late(13, OrderLine { received: 500, ..NEW });
    assert_eq!(part.overdue, [Overdue { line: 0, on_order: 1_000, days: Some(3) }]);
    assert_eq!(late(13, OrderLine { received: 1_500, ..NEW }).overdue, []);
    // a new day takes the flag off
    assert_eq!(late(13, OrderLine { expected: Some(Day(20)), ..NEW }).overdue, []);
    // no day at all: counted, flagged, not projected
    let unknown = late(13, OrderLine { expected: None, ..NEW });
    assert_eq!((unknown.overdue[0].days, unknown.total(), unknown.coming.len()), (None, 1_500, 0));
}

#[test]
fn what_comes_is_in_the_order_of_days() {
    let on = |day| OrderLine { expected: Some(Day(day)), ordered: i64::from(day), received: 0, cancelled: 0 };
    let position = Position::on(Day(1), &Shelf::default(), &[on(9), on(3), on(5)]).unwrap();
    assert_eq!(position.coming.iter().map(|one| one.day.0).collect::<Vec<_>>(), [3, 5, 9]);
    assert!(Position::on(Day(1), &Shelf::default(), &vec![NEW; 1_001]).is_err());
}

fn lines() -> impl Strategy<Value = Vec<OrderLine>> {
    let line = (prop::option::of(-20_i32..20), 1_i64..5_000, 0_i64..6_000, 0.0_f64..1.0);
    let line = line.prop_map(|(day, ordered, received, share)| {
        let cancelled = if share < 0.7 { 0 } else { ordered / 2 };
        OrderLine { expected: day.map(Day), ordered, received, cancelled }
    });
    prop::collection::vec(line, 0..6)
}

proptest! {
    #![proptest_config(many())]

    /// Everything that is on order is either coming or flagged, and never both.
    #[test]
    fn on_order_is_coming_or_flagged(lines in lines(), on_hand in 0_i64..5_000, short in 0_i64..5_000) {
        let shelf = Shelf { on_hand, short, ..Shelf::default() };
        let position = Position::on(Day(0), &shelf, &lines).unwrap();
        let coming: i64 = position.coming.iter().map(|one| one.amount).sum();
        let flagged: i64 = position.overdue.iter().map(|one| one.on_order).sum();
        prop_assert_eq!(coming + flagged, position.on_order);
        prop_assert!(position.coming.iter().all(|one| one.day >= Day(0) && one.amount > 0));
        prop_assert_eq!(position.total(), on_hand - short + position.on_order);
    }

    /// What comes moves from on order to on hand and leaves the position as it is.
    #[test]
    fn a_delivery_leaves_the_position_as_it_is(ordered in 1_i64..5_000, part in 0_i64..5_000, on_hand in 0_i64..5_000) {
        let part = part.min(ordered);
        let line = OrderLine { ordered, ..NEW };
        let before = Position::on(Day(0), &Shelf { on_hand, ..Shelf::default() }, &[line]).unwrap();
        let shelf = Shelf { on_hand: on_hand + part, ..Shelf::default() };
        let after = Position::on(Day(0), &shelf, &[OrderLine { received: part, ..line }]).unwrap();
        prop_assert_eq!(before.total(), after.total());
    }
}
