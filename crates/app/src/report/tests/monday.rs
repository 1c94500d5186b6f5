//! Reorder point 6.00, available 4.00, 15.00 ordered on Monday, ten days: no second proposal on
//! any morning till it comes, lateness flagged, a part delivery of 5.00 leaves 10.00 on order.
//! Invented figures, worked by hand: eleven days from a Monday are ten open ones, 6.00 m; three weeks
//! are 18, 10.80 m more to order up to.

use super::*;

#[test]
fn reorder_point_six_available_four_fifteen_ordered_on_monday() {
    let mut shop = steady_kelp();
    let monday = shop.report("KELP");
    let buying = monday.detail.buying.clone().unwrap();
    assert_eq!(buying.reorder_point, Some(cm(600)));
    assert_eq!(buying.order_up_to, Some(cm(1_680)));
    assert_eq!((monday.free, monday.proposal, buying.proposal_bolts), (cm(400), Some(cm(1_500)), Some(3)));
    assert_eq!(monday.pressing, Pressing::Today);
    assert_eq!(
        monday.sentence,
        "Order 15.00 m of Kelp today: 4.00 m are free and 6.00 m is the reorder point; it is expected to run out \
         on Monday 7 December, and an order of today comes on Thursday 10 December."
    );
    // 15.00 m at 9.60 a metre
    assert_eq!(buying.proposal_cost.unwrap().minor(), 14_400);

    // ten days from Monday is a Thursday
    shop.ordered("KELP", "P-7", MONDAY + 10, 1_500);
    let mut left = 400;
    let mut mornings = 0;
    for morning in MONDAY + 1..MONDAY + 20 {
        let yesterday = morning - 1;
        // on the fourteenth day 5.00 m of it come
        if yesterday == MONDAY + 13 {
            shop.came("KELP", yesterday, 500);
            left += 500;
            shop.standing("KELP").open[0].received = amount(500);
        }
        let used = if six_days(yesterday) { left.min(60) } else { 0 };
        if used > 0 {
            shop.used("KELP", yesterday, used);
            left -= used;
        }
        shop.today = morning;
        shop.lies("KELP", left);
        let report = shop.report("KELP");
        let came = morning > MONDAY + 13;
        let on_order = if came { 1_000 } else { 1_500 };
        assert_eq!(report.proposal, None, "day {morning}: {report:?}");
        assert_eq!((report.free, report.on_order), (cm(left), cm(on_order)));
        assert_eq!(report.detail.position, cm(left + on_order));
        let late = morning - (MONDAY + 10);
        let order = &report.detail.orders[0];
        assert_eq!(order.late_days, u32::try_from(late.max(0)).unwrap());
        assert_eq!(order.outstanding, cm(on_order));
        if late > 0 {
            let metres = if came { "10.00" } else { "15.00" };
            let days = if late == 1 { "1 day".to_owned() } else { format!("{late} days") };
            let late = format!(
                "{metres} m of Kelp from Harbour Cloth, order P-7, is {days} late: if it does not come, order again"
            );
            assert!(report.sentence.starts_with(&late), "{}", report.sentence);
            // it stands in the row by when that is
            assert!(report.order_by.is_some_and(|by| by >= morning), "{report:?}");
            assert_eq!(report.pressing, Pressing::Today, "{report:?}");
        }
        mornings += 1;
    }
    assert_eq!(mornings, 19);
}

/// A second order follows only when the position, and not what is free, is down to six metres.
#[test]
fn what_is_on_order_counts_until_it_is_cancelled() {
    let mut shop = steady_kelp();
    shop.ordered("KELP", "P-7", MONDAY - 3, 1_500);
    assert_eq!(shop.report("KELP").proposal, None);
    shop.standing("KELP").open.clear();
    assert_eq!(shop.report("KELP").proposal, Some(cm(1_500)));
}

/// The position is on hand less held, less confirmed and not cut, less short, and what is on order.
#[test]
fn the_position_is_what_is_there_and_coming_less_what_is_promised() {
    let mut shop = steady_kelp();
    shop.lies("KELP", 1_000);
    let standing = shop.standing("KELP");
    (standing.held, standing.confirmed, standing.free) = (amount(150), amount(250), amount(600));
    (standing.short, standing.held_short) = (amount(30), amount(20));
    shop.ordered("KELP", "P-7", MONDAY + 2, 300);
    let report = shop.report("KELP");
    let detail = &report.detail;
    assert_eq!(
        (detail.on_hand, detail.held, detail.confirmed, detail.short),
        (cm(1_000), cm(150), cm(250), cm(50))
    );
    assert_eq!(report.free, detail.on_hand - detail.held - detail.confirmed);
    assert_eq!(detail.position, cm(1_000 - 150 - 250 - 50 + 300));
    // 8.50 are above 6.00: nothing is ordered, and what is promised and not there is said
    assert_eq!(report.proposal, None);
    assert_eq!(report.pressing, Pressing::Today);
    assert_eq!(
        report.sentence,
        "0.50 m of Kelp is promised and not there: 3.00 m of order P-7 is expected on Wednesday 2 December."
    );
    // 3.00 less on order: the position is 5.50, and 16.80 - 5.50 is 11.30: three bolts
    shop.standing("KELP").open.clear();
    let report = shop.report("KELP");
    assert_eq!(report.proposal, Some(cm(1_500)));
    assert_eq!(
        report.sentence,
        "Order 15.00 m of Kelp today: 6.00 m are free, 0.50 m is promised and not there and 6.00 m is the reorder point."
    );
}

#[test]
fn a_proposal_is_whole_bolts_and_the_least_order() {
    let mut shop = steady_kelp();
    for (bolt, least, proposed, bolts) in [
        (500, 0, 1_500, 3),
        (500, 2_000, 2_000, 4),
        (700, 0, 1_400, 2),
        (1, 0, 1_280, 1_280),
        (4_572, 0, 4_572, 1),
    ] {
        let buying = shop.fabrics[0].buying.as_mut().unwrap();
        (buying.bolt, buying.least) = (cm(bolt), cm(least));
        let report = shop.report("KELP");
        assert_eq!(report.proposal, Some(cm(proposed)), "{bolt} {least}");
        assert_eq!(report.detail.buying.unwrap().proposal_bolts, Some(bolts));
    }
}

/// 4.00 m, 0.60 m a day: 3.40, 2.80, 2.20, 1.60, 1.00, 0.40 in the evenings of Monday to Saturday;
/// on the Monday after, 0.40 in the morning, still above 0.20: the last day.
#[test]
fn the_last_of_it_gets_no_proposal_but_the_day_the_form_must_stop() {
    let mut shop = steady_kelp();
    shop.fabrics[0].buying.as_mut().unwrap().last_of_it = true;
    let report = shop.report("KELP");
    assert_eq!((report.proposal, report.order_by), (None, None));
    assert_eq!(report.detail.offer_until, Some(MONDAY + 7));
    assert_eq!(report.pressing, Pressing::Soon);
    assert_eq!(
        report.sentence,
        "Stop offering Kelp after Monday 7 December: 4.00 m are free, and it is the last of it."
    );
    shop.lies("KELP", 15);
    let report = shop.report("KELP");
    assert_eq!((report.proposal, report.detail.offer_until), (None, Some(MONDAY - 1)));
    assert_eq!(report.pressing, Pressing::Today);
    assert_eq!(
        report.sentence,
        "Stop offering Kelp today: 0.15 m are free, it is the last of it, and an order takes 0.20 m at the least."
    );
}

/// 12.00 m and 0.60 m a day, safety stock nought: 11.40 on Monday, nought on the twentieth open
/// day, a Tuesday; an order takes ten days.
#[test]
fn the_day_by_which_to_order_is_told_ahead() {
    let mut shop = steady_kelp();
    shop.lies("KELP", 1_200);
    let report = shop.report("KELP");
    let out = MONDAY + 22;
    assert_eq!(report.detail.buying.as_ref().unwrap().safety, Some(Length::ZERO));
    assert_eq!(report.detail.runs_out, Some(out));
    // the Saturday before the Sunday that lies ten days before ... the last open day not after it
    assert_eq!(report.order_by, Some(out - 10));
    assert_eq!(report.proposal, None);
    assert_eq!(
        (report.pressing, report.sentence.as_str()),
        (
            Pressing::Soon,
            "Order Kelp by Saturday 12 December: no amount is proposed yet, for 12.00 m are free and 6.00 m is the reorder point."
        )
    );
    // Monday 0 to Tuesday 22, all of it: 23 days
    assert!((report.weeks_left.unwrap() - 23.0 / 7.0).abs() < 1e-9);
}
