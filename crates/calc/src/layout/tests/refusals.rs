use super::*;
use crate::order::{Hang, Parity, Reason};
use crate::shop::{Construction, SizeAt};

/// Checks field and reason, and that the message names all of these.
fn check(order: &Order, field: Field, reason: Reason, names: &[&str]) {
    let violation = refused(order);
    assert_eq!((violation.field, violation.reason), (field, reason), "{violation}");
    for name in names {
        assert!(violation.message.contains(name), "no {name}: {violation}");
    }
}

#[test]
fn count_and_gap_and_tails_that_clash_name_what_would_mend_them() {
    let nine =
        Order { count: Some(9), gap_given: true, tail: mm(306), tail_given: true, ..binding(mm(2_500)) };
    let mends = [
        "306 mm",
        "2502 mm or more",
        "8 pennants or fewer",
        "a gap of 19.75 mm or less",
        "tails of 305 mm or less",
    ];
    check(&nine, Field::Tail, Reason::Contradiction, &mends);
    check(&Order { tail_given: false, ..nine }, Field::Count, Reason::Contradiction, &mends);
    let order = Order { count: Some(185), gap: mm(400), gap_given: true, ..flagged(mm(60_000)) };
    check(&order, Field::Count, Reason::Contradiction, &["108750 mm", "102 pennants", "135.054 mm or less"]);
    assert!(!refused(&order).message.contains("tails"), "a flagged length has none");
}

#[test]
fn a_count_that_would_overlap_by_itself_is_refused() {
    // 27 touching take 5 130; 26 take 4 940
    let order = Order { count: Some(27), leftover: Leftover::Gaps, ..flagged(mm(5_000)) };
    check(&order, Field::Count, Reason::Contradiction, &["5130 mm or more", "26 pennants or fewer"]);
    assert!(!refused(&order).message.contains("-5"), "no overlap is offered");
    // unless it was said
    let meant = Order { min_gap: Some(mm(-10)), ..order.clone() };
    assert_eq!(solved(&meant).gap, um(-5_000));
    let meant = Order { gap: mm(-5), ..order };
    assert_eq!(solved(&meant).gap, um(-5_000));
}

#[test]
fn a_least_gap_is_not_undercut() {
    let order = Order {
        count: Some(29),
        min_gap: Some(mm(25)),
        gap: mm(25),
        leftover: Leftover::Gaps,
        ..flagged(mm(6_200))
    };
    check(
        &order,
        Field::Count,
        Reason::Contradiction,
        &["6210 mm or more", "28 pennants or fewer", "a least gap of 24.642 mm or less"],
    );
}

#[test]
fn a_count_of_the_wrong_parity_names_its_neighbours() {
    let nine = Order { count: Some(9), parity: Some(Parity::Even), ..binding(mm(2_500)) };
    check(&nine, Field::Count, Reason::Contradiction, &["8 or 10"]);
    let one = Order { count: Some(1), ..nine };
    check(&one, Field::Count, Reason::Contradiction, &["ask for 2, "]);
}

#[test]
fn no_room_names_the_least_length() {
    let none = ["one pennant", "790 mm or more", "tails of 165 mm or less"];
    check(&overall(mm(520)), Field::Overall, Reason::DoesNotFit, &none);
    check(
        &binding(mm(540)),
        Field::BindingLength,
        Reason::DoesNotFit,
        &["810 mm or more", "tails of 165 mm or less"],
    );
    // a width of 600 on 500 of flags
    let wide = Order { width: mm(600), ..flagged(mm(500)) };
    check(&wide, Field::Flagged, Reason::DoesNotFit, &["600 mm or more"]);
    let even = Order { parity: Some(Parity::Even), ..overall(mm(999)) };
    check(&even, Field::Overall, Reason::DoesNotFit, &["two pennants", "1000 mm or more"]);
    assert_eq!(solved(&Order { length: Some(AskedLength::Overall(mm(1_000))), ..even }).count, 2);
    let hang = |span| Hang { span: mm(span), dip: mm(100), swags: 1 };
    let hung = Order { length: Some(AskedLength::Hang(hang(500))), ..order() };
    // the curve has to be 790 - 240 = 550: 50 mm more than the span takes less span
    check(&hung, Field::Span, Reason::DoesNotFit, &["between tails of 300 mm", "or more"]);
}

#[test]
fn a_least_span_is_the_least() {
    let hang = Hang { span: mm(700), dip: mm(0), swags: 1 };
    let hung = Order { length: Some(AskedLength::Hang(hang)), tail: mm(500), ..order() };
    check(&hung, Field::Span, Reason::DoesNotFit, &["950 mm or more", "tails of 375 mm or less"]);
}

#[test]
fn a_drop_that_the_binding_hides_is_refused() {
    let order = Order { drop: um(12_500), count: Some(9), ..order() };
    check(&order, Field::Drop, Reason::DoesNotFit, &["more than 12.5 mm"]);
    assert_eq!(solved(&Order { drop: um(12_501), ..order.clone() }).visible_drop, um(1));
    let seen = Order { size_at: SizeAt::BindingEdge, ..order };
    assert_eq!(solved(&seen).top_drop, mm(25));
}

#[test]
fn what_a_count_comes_to_must_be_made_here() {
    let long = Order { count: Some(477), ..order() };
    // 477 x 190 + 476 x 20 = 100 150
    check(&long, Field::Count, Reason::OutOfRange, &["100150 mm", "476 pennants or fewer"]);
    assert_eq!(solved(&Order { count: Some(476), ..order() }).flagged, mm(99_940));
    let short = Order { count: Some(1), tail: mm(50), ..order() };
    // 190 and 100 are less than 500; two are 400 and 100
    check(&short, Field::Count, Reason::OutOfRange, &["290 mm", "500 mm", "2 pennants or more"]);
    assert_eq!(solved(&Order { count: Some(2), ..short }).overall, mm(500));
    let letter = Order { letters: vec![Some(String::from("A"))], tail: mm(0), ..order() };
    check(&letter, Field::Lettering, Reason::OutOfRange, &["190 mm", "3 pennants or more"]);
}

#[test]
fn more_than_the_bounds_is_refused() {
    let mut shop = shop();
    shop.most = mm(2_000_000);
    let fine = Order { width: mm(20), gap: mm(0), gap_given: true, ..flagged(mm(400_020)) };
    let found = solve(&shop, &fine).expect_err("20 001 fit");
    assert_eq!((found[0].field, found[0].reason), (Field::Flagged, Reason::OutOfRange));
    assert!(found[0].message.contains("20001") && found[0].message.contains("400000 mm"), "{}", found[0]);
    let fine = Order { length: Some(AskedLength::Flagged(mm(400_000))), ..fine };
    assert_eq!(solve(&shop, &fine).expect("it fits").count, 20_000);
    let many =
        Order { count: Some(100), quantity: 1_001, construction: Construction::DoubleTurned, ..order() };
    check(&many, Field::Quantity, Reason::OutOfRange, &["200200 pieces", "200000", "1000 strings"]);
    assert_eq!(solved(&Order { quantity: 1_000, ..many }).count, 100);
}

#[test]
fn every_violation_is_told_at_once() {
    let order = Order { count: Some(200), parity: Some(Parity::Odd), gap_given: true, ..flagged(mm(6_200)) };
    let found = solve(&shop(), &order).expect_err("two faults");
    assert_eq!(found.len(), 2, "{found:?}");
    assert!(found[1].message.contains("29 pennants or fewer"), "of the parity too: {}", found[1]);
}

/// The shop makes up to 100 m; a swag of 60 m on a span of 5 takes over 120.
#[test]
fn a_hang_is_held_to_the_shops_most_by_its_curve() {
    let hung = |span, dip| {
        let hang = Hang { span: mm(span), dip: mm(dip), swags: 1 };
        solve(&shop(), &Order { length: Some(AskedLength::Hang(hang)), ..order() })
    };
    let found = hung(5_000, 60_000).unwrap_err();
    assert_eq!((found.len(), found[0].field, found[0].reason), (1, Field::Dip, Reason::OutOfRange));
    for said in ["60000 mm", "5000 mm", "100000 mm", "lesser dip"] {
        assert!(found[0].message.contains(said), "{}", found[0].message);
    }
    assert!(hung(5_000, 45_000).is_ok());
    assert!(hung(100_000, 0).is_ok());
    assert!(hung(100_000, 1_000).is_err());
}
