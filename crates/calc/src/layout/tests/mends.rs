//! What a refusal offers is taken up: it has to be accepted.

use super::*;
use crate::order::Hang;

/// The length in millimetres that a refusal offers behind `before`.
fn offered(violation: &Violation, before: &str) -> Length {
    let rest = violation.message.split("ask for").nth(1).and_then(|mend| mend.split(before).nth(1));
    let text = rest.and_then(|rest| rest.split(" mm").next()).unwrap_or_else(|| panic!("{violation}"));
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    um(format!("{whole}{part:0<3}").parse().expect("digits"))
}

/// No room for even one: the length and the tails on offer house all that are asked, a
/// count or a lettering (each came back refused once it was taken up).
#[test]
fn what_is_offered_for_want_of_room_houses_all_that_are_asked() {
    let letters = vec![Some(String::from("A")); 17];
    let hang = |span| AskedLength::Hang(Hang { span, dip: mm(100), swags: 1 });
    let cases = [
        Order { count: Some(6), ..overall(mm(700)) },
        Order { count: Some(6), gap_given: true, ..overall(mm(700)) },
        Order { count: Some(6), gap: mm(-5), gap_given: true, ..overall(mm(700)) },
        Order { count: Some(6), min_gap: Some(mm(15)), leftover: Leftover::Gaps, ..overall(mm(700)) },
        Order { letters: letters.clone(), ..overall(mm(700)) },
        Order { letters, parity: Some(crate::order::Parity::Even), ..overall(mm(700)) },
    ];
    for order in cases {
        let wanted = order.count.unwrap_or(17);
        let least = offered(&refused(&order), "an overall length of ");
        let room = |length| Order { length: Some(AskedLength::Overall(length)), ..order.clone() };
        assert!(solved(&room(least)).count >= wanted, "{order:?}");
        let short = solve(&shop(), &room(least - um(1)));
        assert!(short.is_err() || short.is_ok_and(|found| found.count < wanted), "not the least: {order:?}");
        let binding = Order { length: Some(AskedLength::Binding(mm(700))), ..order.clone() };
        let least = offered(&refused(&binding), "a length of binding of ");
        assert!(
            solved(&Order { length: Some(AskedLength::Binding(least)), ..order.clone() }).count >= wanted
        );
        let hung = Order { length: Some(hang(mm(500))), ..order.clone() };
        let least = offered(&refused(&hung), "a span of ");
        assert!(solved(&Order { length: Some(hang(least)), ..order }).count >= wanted);
    }
}

/// Fewer pennants are no mend where the letters need more.
#[test]
fn no_count_is_offered_that_the_lettering_does_not_fit() {
    let order = |letters| Order {
        count: Some(40),
        letters: vec![Some(String::from("A")); letters],
        leftover: Leftover::Gaps,
        ..flagged(mm(6_200))
    };
    assert!(refused(&order(32)).message.contains("32 pennants or fewer"));
    assert!(!refused(&order(33)).message.contains("or fewer"), "{}", refused(&order(33)));
}

/// A count that neither the length nor the letters fit: both are told, so that nobody
/// mends the one and meets the other.
#[test]
fn letters_that_a_count_does_not_hold_are_told_beside_the_rest() {
    let lettered = |order: Order| Order { letters: vec![Some(String::from("A")); 17], ..order };
    for order in [
        Order { count: Some(6), ..overall(mm(700)) },
        Order { count: Some(6), ..overall(mm(1_400)) },
        Order { count: Some(16), parity: Some(crate::order::Parity::Odd), quantity: 200_000, ..order() },
        Order { count: Some(16), parity: Some(crate::order::Parity::Odd), ..order() },
    ] {
        let alone = solve(&shop(), &order).expect_err("refused").len();
        let found = solve(&shop(), &lettered(order)).expect_err("refused");
        let told = found.iter().filter(|v| v.field == Field::Lettering).count();
        assert_eq!((found.len(), told), (alone + 1, 1), "{found:?}");
        assert!(found.is_sorted_by_key(|violation| violation.field));
    }
}

/// A gap that is given stands, however low the least gap beside it.
#[test]
fn the_least_length_of_a_lettering_is_at_the_gap_given() {
    let order = Order { gap_given: true, min_gap: Some(mm(0)), count: Some(6), ..overall(mm(700)) };
    let order = Order { letters: vec![Some(String::from("A")); 17], ..order };
    let found = solve(&shop(), &order).expect_err("refused");
    // 17 x 190 + 16 x 20
    assert!(found[1].message.contains("a flagged length of 3550 mm or more"), "{found:?}");
    let open = Order { count: None, ..flagged(mm(2_000)) };
    let open = Order { gap_given: true, min_gap: Some(mm(0)), letters: order.letters, ..open };
    let refused = crate::quote::calculate(&shop(), &open, crate::fixture::WHEN).expect_err("refused");
    assert!(format!("{refused:?}").contains("3550 mm or more"), "{refused:?}");
}

/// 20 000 pennants at a pitch of 0.01 mm take 390 mm: less than the shop makes.
#[test]
fn no_length_is_offered_that_the_shop_does_not_make() {
    let fine = Order { gap: um(-189_990), gap_given: true, ..flagged(mm(6_200)) };
    let message = refused(&fine).message;
    assert!(message.ends_with("ask for wider pennants or gaps"), "{message}");
}
