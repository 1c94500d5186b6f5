//! Mornings of a shop, in centimetres.

use proptest::prelude::*;

use super::*;
use crate::supply::day::OpenDays;
use crate::supply::position::Overdue;
use crate::supply::tests::many;

fn levels() -> Levels {
    let service = Service::cycle(0.95).unwrap();
    Levels { reorder_point: 600, order_up_to: 1_900, safety: 100, service }
}

fn every_day() -> OpenDays {
    OpenDays::new((0..80).map(Day).collect()).unwrap()
}

fn outlook(today: i32, rate: f64) -> Outlook {
    Outlook::level(Day(today), &every_day(), rate).unwrap()
}

fn fabric<'a>(available: i64, lines: &'a [OrderLine], outlook: &'a Outlook) -> Fabric<'a> {
    Fabric {
        shelf: Shelf { on_hand: available, ..Shelf::default() },
        lines,
        last_of_it: None,
        outlook: Some(outlook),
        levels: Some(levels()),
        lead: Some(10),
        lot: Some(Lot::new(500, 1_000).unwrap()),
    }
}

/// Reorder point 6.00, available 4.00: 15.00 is proposed on Monday and ordered, for ten days
/// on. No morning proposes a second order until it has come. From the eleventh day on the
/// line is late, each morning by a day more. 5.00 of it come: 10.00 are on order, still late,
/// still no second proposal. The rest comes: nothing is late.
#[test]
fn ordered_on_monday() {
    let monday = 0;
    let before = propose(Day(monday), &fabric(400, &[], &outlook(monday, 12.0))).unwrap();
    let Answer::Order(order) = before.answer else { panic!("{before:?}") };
    assert_eq!((order.need, order.amount, order.bolts), (1_500, 1_500, 3));

    let mut line = OrderLine { expected: Some(Day(10)), ordered: order.amount, received: 0, cancelled: 0 };
    let mut on_hand = 400;
    // twelve a day are used, and what is proposed each morning is looked at
    for today in 0..=13 {
        let outlook = outlook(today, 12.0);
        let lines = [line];
        let morning = propose(Day(today), &fabric(on_hand, &lines, &outlook)).unwrap();
        assert_eq!(morning.answer, Answer::Covered, "morning {today}");
        assert_eq!(morning.position.total(), on_hand + 1_500);
        let late = u32::try_from(today - 10).ok().filter(|days| *days > 0);
        let flagged: Vec<_> =
            late.map(|days| Overdue { line: 0, on_order: 1_500, days: Some(days) }).into_iter().collect();
        assert_eq!(morning.position.overdue, flagged, "morning {today}");
        // while it is expected the shelf does not run out within the ten days; late, it is
        // no longer counted on and the shelf runs out when the last of it is used
        let expected = if late.is_some() { on_hand } else { on_hand + 1_500 };
        let left = (expected + 11) / 12;
        assert_eq!(morning.runs_out, Some(when(today + i32::try_from(left).unwrap() - 1)), "morning {today}");
        on_hand -= 12;
    }

    // a part delivery on the fourteenth morning, four days late
    line.received = 500;
    on_hand += 500;
    let lines = [line];
    let fourteenth = outlook(14, 12.0);
    let part = propose(Day(14), &fabric(on_hand, &lines, &fourteenth)).unwrap();
    assert_eq!(part.position.on_order, 1_000);
    assert_eq!(part.position.overdue, [Overdue { line: 0, on_order: 1_000, days: Some(4) }]);
    // 4.00 less fourteen days of 0.12, and 5.00: 7.32 is above the reorder point by itself
    assert_eq!((on_hand, part.answer), (732, Answer::Enough));
    // and 5.90 is not, but with 10.00 on order it is covered
    let used = propose(Day(14), &fabric(590, &lines, &fourteenth)).unwrap();
    assert_eq!(used.answer, Answer::Covered);

    line.received = 1_500;
    let lines = [line];
    let whole = propose(Day(14), &fabric(on_hand + 1_000, &lines, &fourteenth)).unwrap();
    assert_eq!((whole.position.on_order, whole.position.overdue.len(), whole.answer), (0, 0, Answer::Enough));
}

/// A day that is known, or the end of what is.
fn when(day: i32) -> When {
    if day < 80 { When::On(Day(day)) } else { When::NotBy(Day(79)) }
}

/// Cancelled, the rest leaves the position, and the next morning proposes again.
#[test]
fn a_cancelled_order_is_proposed_anew() {
    let line = OrderLine { expected: Some(Day(10)), ordered: 1_500, received: 500, cancelled: 1_000 };
    let lines = [line];
    let outlook = outlook(12, 12.0);
    let proposal = propose(Day(12), &fabric(400, &lines, &outlook)).unwrap();
    assert!(matches!(proposal.answer, Answer::Order(order) if order.amount == 1_500));
    assert_eq!(proposal.position.overdue, []);
}

/// At the reorder point it is ordered, a centimetre above it not.
#[test]
fn the_reorder_point_itself_orders() {
    let outlook = outlook(0, 12.0);
    let answer = |available| propose(Day(0), &fabric(available, &[], &outlook)).unwrap().answer;
    assert_eq!(answer(601), Answer::Enough);
    // 13.00 to the level, in bolts of 5.00: 15.00; in time until the shelf is under 1.00 in the
    // evening of day 41
    assert_eq!(answer(600), Answer::Order(Order { amount: 1_500, bolts: 3, need: 1_300 }));
    let order_by = |available| propose(Day(0), &fabric(available, &[], &outlook)).unwrap().order_by;
    assert_eq!(order_by(600), Some(OrderBy::By(Day(31))));
    // a day's use more is a day later, and it is told though nothing is proposed
    assert_eq!(order_by(612), Some(OrderBy::By(Day(32))));
    // short of what is promised: the need is larger
    let mut short = fabric(0, &[], &outlook);
    short.shelf.short = 250;
    let proposal = propose(Day(0), &short).unwrap();
    let Answer::Order(order) = proposal.answer else { panic!("nothing proposed") };
    assert_eq!((order.need, order.amount), (2_150, 2_500));
    let too_late = OrderBy::TooLate { ordered: Day(0), arrives: Day(10), falls: Day(0) };
    assert_eq!(proposal.order_by, Some(too_late));
}

/// Under the level by less than a least order: the least order.
#[test]
fn a_small_need_becomes_the_least_order() {
    let outlook = outlook(0, 12.0);
    let mut fabric = fabric(600, &[], &outlook);
    fabric.levels = Some(Levels { order_up_to: 650, ..levels() });
    let Answer::Order(order) = propose(Day(0), &fabric).unwrap().answer else { panic!("nothing proposed") };
    assert_eq!((order.need, order.amount, order.bolts), (50, 1_000, 2));
}

/// 4.00 at 0.12 a day: the morning of day 25 begins with 1.00, the next with 0.88.
#[test]
fn of_the_last_of_it_nothing_is_ordered_and_the_offer_ends() {
    let outlook = outlook(0, 12.0);
    let offer = |available, least, known: bool| {
        let mut fabric = fabric(available, &[], &outlook);
        fabric.last_of_it = Some(least);
        fabric.outlook = fabric.outlook.filter(|_| known);
        let proposal = propose(Day(0), &fabric).unwrap();
        assert_eq!(proposal.order_by, None, "there is nothing to order");
        proposal.answer
    };
    assert_eq!(offer(400, 100, true), Answer::LastOfIt(Offer::Until(Day(25))));
    assert_eq!(offer(400, 101, true), Answer::LastOfIt(Offer::Until(Day(24))));
    assert_eq!(offer(99, 100, true), Answer::LastOfIt(Offer::Stop));
    assert_eq!(offer(50_000, 100, true), Answer::LastOfIt(Offer::NotBy(Day(79))));
    assert_eq!(offer(400, 100, false), Answer::LastOfIt(Offer::Unknown));
    assert_eq!(offer(99, 100, false), Answer::LastOfIt(Offer::Stop));
    let mut wrong = fabric(400, &[], &outlook);
    wrong.last_of_it = Some(0);
    assert!(propose(Day(0), &wrong).is_err());
}

/// A missing figure is named, and what is known is told all the same.
#[test]
fn what_is_not_known_is_said() {
    let outlook = outlook(0, 12.0);
    let full = fabric(400, &[], &outlook);
    let rows = [
        (Fabric { levels: None, ..full.clone() }, Missing::Levels),
        (Fabric { outlook: None, ..full.clone() }, Missing::Use),
        (Fabric { lot: None, ..full.clone() }, Missing::Lot),
        (Fabric { lead: None, ..full.clone() }, Missing::Lead),
        (Fabric { levels: None, outlook: None, ..full }, Missing::Levels),
    ];
    for (fabric, missing) in rows {
        let proposal = propose(Day(0), &fabric).unwrap();
        assert_eq!(proposal.answer, Answer::Unknown(missing));
        assert_eq!(proposal.position.available, 400);
        assert_eq!(proposal.runs_out.is_none(), fabric.outlook.is_none());
        let known = fabric.levels.is_some() && fabric.outlook.is_some() && fabric.lead.is_some();
        assert_eq!(proposal.order_by.is_some(), known);
    }
}

#[test]
fn levels_and_days_that_contradict_are_refused() {
    let outlook = outlook(0, 12.0);
    let with = |levels| Fabric { levels: Some(levels), ..fabric(400, &[], &outlook) };
    let error = propose(Day(0), &with(Levels { order_up_to: 600, ..levels() })).unwrap_err();
    assert_eq!(
        error.to_string(),
        "level to order up to is 600; allowed is above the reorder point, up to 10^12"
    );
    assert!(propose(Day(0), &with(Levels { reorder_point: -1, ..levels() })).is_err());
    assert!(propose(Day(0), &with(Levels { safety: -1, ..levels() })).is_err());
    let error = propose(Day(1), &fabric(400, &[], &outlook)).unwrap_err();
    assert_eq!(error.to_string(), "first day of the outlook is 0; allowed is today");
}

proptest! {
    #![proptest_config(many())]

    /// Nothing is proposed above the reorder point; what is proposed brings the position to
    /// the level or above it, in whole bolts, and by less than a bolt or a least order too far.
    #[test]
    fn proposals_keep_to_their_levels(
        on_hand in 0_i64..3_000, promised in 0_i64..1_000, ordered in 1_i64..3_000, received in 0_i64..3_000,
        expected in prop::option::of(-10_i32..20), reorder_point in 0_i64..1_500, above in 1_i64..1_500,
        bolt in 1_i64..700, least in 0_i64..1_500, rate in 0.0_f64..60.0,
    ) {
        let outlook = outlook(0, rate);
        let lines = [OrderLine { expected: expected.map(Day), ordered, received, cancelled: 0 }];
        let fabric = Fabric {
            shelf: Shelf { on_hand, confirmed: promised, ..Shelf::default() },
            levels: Some(Levels { reorder_point, order_up_to: reorder_point + above, ..levels() }),
            lot: Some(Lot::new(bolt, least).unwrap()),
            ..fabric(0, &lines, &outlook)
        };
        let proposal = propose(Day(0), &fabric).unwrap();
        let position = on_hand - promised + (ordered - received).max(0);
        prop_assert_eq!(proposal.position.total(), position);
        match proposal.answer {
            Answer::Order(order) => {
                prop_assert!(position <= reorder_point);
                prop_assert_eq!(order.need, reorder_point + above - position);
                let after = position + order.amount;
                prop_assert!(after >= reorder_point + above && order.amount >= least);
                prop_assert!(order.amount % bolt == 0 && order.amount / bolt == order.bolts);
                prop_assert!(order.amount - bolt < order.need.max(least));
                // and ordering it proposes no more
                let both = [lines[0], OrderLine { expected: Some(Day(10)), ordered: order.amount, received: 0, cancelled: 0 }];
                let again = propose(Day(0), &Fabric { lines: &both, ..fabric }).unwrap();
                prop_assert_eq!(again.answer, Answer::Covered);
            }
            Answer::Covered => prop_assert!(position > reorder_point && on_hand - promised <= reorder_point),
            Answer::Enough => prop_assert!(on_hand - promised > reorder_point),
            other => prop_assert!(false, "{other:?}"),
        }
    }
}
