//! Outcomes as bytes.

use proptest::collection::vec;
use proptest::prelude::*;

use crate::rules::{
    Amount, At, Class, CutPart, CutRow, Flaw, Line, Material, Order, OrderLine, OrderState, Outcome, Piece,
    PieceKind, Promise, Reason, Reservation, State, kept,
};
use pennantry_measure::Length;

fn amount() -> impl Strategy<Value = Amount> {
    prop_oneof![any::<i64>(), -200..200_i64, Just(i64::MIN), Just(i64::MAX)].prop_map(Amount)
}

fn text() -> impl Strategy<Value = String> {
    prop_oneof![Just(String::new()), "\\PC{0,9}", "[a-z]{130}"]
}

fn material() -> impl Strategy<Value = Material> {
    (0..3_usize, text()).prop_map(|(class, code)| Material { class: Class::ALL[class], code })
}

fn flaws() -> impl Strategy<Value = Vec<Flaw>> {
    vec((any::<i64>(), any::<i64>()), 0..4).prop_map(|flaws| {
        flaws
            .into_iter()
            .map(|(from, to)| Flaw { from: Length::from_um(from), to: Length::from_um(to) })
            .collect()
    })
}

prop_compose! {
    fn piece()(
        (id, lot, location, supplier, supplier_reference) in (text(), text(), text(), text(), text()),
        (kind, material, width, flaws) in (0..4_usize, material(), any::<i64>(), flaws()),
        (received, left, held, confirmed) in (amount(), amount(), amount(), amount()),
        (parent, cut, order, cost_minor) in
            (any::<Option<u8>>(), any::<Option<u8>>(), any::<Option<u8>>(), any::<Option<i64>>()),
        (certificates, at) in (vec(text(), 0..3), any::<i64>()),
    ) -> Piece {
        let name = |number: u8| format!("n{number}");
        Piece {
            id: id.as_str().into(), kind: PieceKind::ALL[kind], material, lot, width: Length::from_um(width),
            received, left, held, confirmed, flaws, parent: parent.map(|n| name(n).as_str().into()),
            cut: cut.map(|n| name(n).as_str().into()), location, cost_minor, supplier, supplier_reference,
            certificates, order: order.map(|n| name(n).as_str().into()), at: At(at),
        }
    }
}

prop_compose! {
    fn line()(
        (number, item, shapes, shapes_cut, shape_area, past) in any::<(u32, u32, u32, u32, i64, bool)>(),
        piece in text(),
        (planned, wanted, granted, used, spoiled) in (amount(), amount(), amount(), amount(), amount()),
    ) -> Line {
        let piece = piece.as_str().into();
        Line { number, piece, item, planned, wanted, granted, used, spoiled, shapes, shapes_cut, shape_area, past }
    }
}

prop_compose! {
    fn reservation()(
        (id, holder, quote, order_reference, reason) in (text(), text(), text(), text(), text()),
        (state, created, expires, confirmed) in (0..7_usize, any::<i64>(), any::<i64>(), any::<Option<i64>>()),
        (bench_milli_minutes, leave_day, sold) in (any::<i64>(), any::<Option<i32>>(), vec(any::<u8>(), 0..300)),
        (supersedes, superseded_by) in (proptest::option::of(text()), proptest::option::of(text())),
        lines in vec(line(), 0..4),
    ) -> Reservation {
        Reservation {
            id: id.as_str().into(), state: State::ALL[state], holder, created: At(created), expires: At(expires),
            confirmed: confirmed.map(At), quote, order_reference, bench_milli_minutes, leave_day, sold,
            supersedes: supersedes.map(|id| id.as_str().into()),
            superseded_by: superseded_by.map(|id| id.as_str().into()), reason, lines,
        }
    }
}

prop_compose! {
    fn cut()(
        (id, reservation, at, day, undone) in (text(), text(), any::<i64>(), any::<i32>(), any::<bool>()),
        parts in vec((text(), any::<(u32, u32)>(), 0..13_usize, vec(amount(), 4), flaws(), vec(text(), 0..3)), 0..3),
    ) -> CutRow {
        let parts = parts.into_iter().map(|(piece, (line, shapes), why, amounts, flaws_before, remnants)| CutPart {
            piece: piece.as_str().into(), line, taken: amounts[0], spoiled: amounts[1], why: Reason::ALL[why], kept: amounts[2], shapes,
            served: amounts[3], flaws_before, remnants: remnants.iter().map(|id| id.as_str().into()).collect(),
        }).collect();
        CutRow { id: id.as_str().into(), reservation: reservation.as_str().into(), at: At(at), day, undone, parts }
    }
}

prop_compose! {
    fn order()(
        (id, supplier, note) in (text(), text(), text()),
        (state, at, expected_day) in (0..3_usize, any::<i64>(), any::<i32>()),
        lines in vec((any::<u32>(), material(), amount(), amount()), 0..3),
    ) -> Order {
        let lines = lines.into_iter().map(|(number, material, ordered, received)| {
            OrderLine { number, material, ordered, received }
        }).collect();
        Order { id: id.as_str().into(), supplier, state: OrderState::ALL[state], at: At(at), expected_day, note, lines }
    }
}

prop_compose! {
    fn outcome()(
        (at, received, ended) in (any::<i64>(), vec(text(), 0..3), vec(text(), 0..3)),
        pieces in vec(piece(), 0..3),
        reservation in proptest::option::of(reservation()),
        (cut, order) in (proptest::option::of(cut()), proptest::option::of(order())),
        promises in vec((text(), 0..7_usize, any::<u32>(), text(), amount(), amount()), 0..3),
    ) -> Outcome {
        let promises = promises.into_iter().map(|(reservation, state, line, piece, short_before, short)| Promise {
            reservation: reservation.as_str().into(), state: State::ALL[state], line, piece: piece.as_str().into(),
            short_before, short,
        }).collect();
        Outcome {
            at: At(at), received: received.iter().map(|id| id.as_str().into()).collect(), pieces, reservation, cut,
            order, promises, ended: ended.iter().map(|id| id.as_str().into()).collect(),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_kept_is_read(outcome in outcome()) {
        prop_assert_eq!(kept::read(&kept::keep(&outcome)), Some(outcome));
    }

    /// Whatever is read is what its own bytes would be: one form for each outcome. Bytes are made
    /// of kept outcomes by changing, leaving out and adding some.
    #[test]
    fn no_bytes_panic_and_each_outcome_has_one_form(
        outcome in outcome(),
        hits in vec((any::<prop::sample::Index>(), any::<u8>()), 0..4),
        cut_off in any::<prop::sample::Index>(),
        whole in any::<bool>(),
    ) {
        let mut bytes = kept::keep(&outcome);
        for (place, byte) in hits {
            let place = place.index(bytes.len());
            bytes[place] = byte;
        }
        if !whole {
            bytes.truncate(cut_off.index(bytes.len()));
        }
        if let Some(read) = kept::read(&bytes).filter(|_| bytes[0] == kept::VERSION) {
            prop_assert_eq!(kept::keep(&read), bytes);
        }
    }

    #[test]
    fn random_bytes_are_no_outcome_or_one(mut bytes in vec(any::<u8>(), 0..200), is_version in any::<bool>()) {
        if is_version && let Some(first) = bytes.first_mut() {
            *first = kept::VERSION;
        }
        if let Some(read) = kept::read(&bytes).filter(|_| bytes[0] == kept::VERSION) {
            prop_assert_eq!(kept::keep(&read), bytes);
        }
    }
}

/// Stores of the first version are read for good: these bytes were written down when it was made.
#[test]
fn the_first_version_is_read_for_good() {
    let promise = Promise {
        reservation: "S".into(),
        state: State::Confirmed,
        line: 1,
        piece: "B".into(),
        short_before: Amount(0),
        short: Amount(100_000),
    };
    let order = Order {
        id: "O".into(),
        supplier: "H".to_owned(),
        state: OrderState::Filled,
        at: At(-1),
        expected_day: -64,
        note: "é".to_owned(),
        lines: vec![],
    };
    let outcome = Outcome {
        at: At(64),
        received: vec!["R-1".into()],
        order: Some(order),
        promises: vec![promise],
        ended: vec!["T".into(), String::new().as_str().into()],
        ..Outcome::default()
    };
    let bytes: &[u8] = &[
        1, // version
        128, 1, // at: 128 as a whole number
        1, 3, b'R', b'-', b'1', // received
        0, 0, 0, // pieces, reservation, cut
        1, 1, b'O', 1, b'H', 1, 1, 127, 2, 0xc3, 0xa9, 0, // order
        1, 1, b'S', 1, 1, 1, b'B', 0, 192, 154, 12, // promises: 200 000 = 12 * 2^14 + 26 * 2^7 + 64
        2, 1, b'T', 0, // ended
    ];
    assert_eq!(kept::read(bytes), Some(outcome.clone()));
    // later versions write these the same, but for their number
    let mut now = bytes.to_vec();
    now[0] = kept::VERSION;
    assert_eq!(kept::keep(&outcome), now);
}

/// What the second version added is not known in the first: a cut of the second of January 1970, in
/// UTC, with a part of which two micrometres were spoiled.
#[test]
fn what_version_two_added_is_not_known_in_version_one() {
    let at = 2 * i64::from(86_400) * 1_000_000 - 1;
    let part = CutPart {
        piece: "B".into(),
        line: 1,
        taken: Amount(5),
        spoiled: Amount(2),
        why: Reason::None,
        kept: Amount(0),
        shapes: 3,
        served: Amount(3),
        flaws_before: vec![],
        remnants: vec!["M".into()],
    };
    let cut = CutRow {
        id: "C".into(),
        reservation: "R".into(),
        at: At(at),
        day: 1,
        undone: true,
        parts: vec![part],
    };
    let outcome = Outcome { cut: Some(cut), ..Outcome::default() };
    let mut bytes = vec![1, 0, 0, 0, 0, 1, 1, b'C', 1, b'R'];
    let mut rest = u64::try_from(at).unwrap() * 2;
    while rest >= 128 {
        bytes.push(u8::try_from(rest & 127).unwrap() | 128);
        rest >>= 7;
    }
    bytes.push(u8::try_from(rest).unwrap());
    bytes.extend([1, 1, 1, b'B', 1, 10, 4, 0, 3, 6, 0, 1, 1, b'M', 0, 0, 0]);
    assert_eq!(kept::read(&bytes), Some(outcome.clone()));
    assert_eq!(kept::read(&kept::keep(&outcome)), Some(outcome));
}

#[test]
fn what_is_not_an_outcome_is_not_read() {
    let empty = kept::keep(&Outcome::default());
    assert_eq!(empty, [3, 0, 0, 0, 0, 0, 0, 0, 0]);
    assert_eq!(kept::read(&[]), None);
    assert_eq!(kept::read(&[4, 0, 0, 0, 0, 0, 0, 0, 0]), None, "a later version");
    assert_eq!(kept::read(&[0, 0, 0, 0, 0, 0, 0, 0, 0]), None, "no version");
    assert_eq!(kept::read(&[1, 0, 0, 0, 0, 0, 0, 0]), None, "too short");
    assert_eq!(kept::read(&[1, 0, 0, 0, 0, 0, 0, 0, 0, 0]), None, "too long");
    assert_eq!(kept::read(&[1, 128, 0, 0, 0, 0, 0, 0, 0, 0]), None, "a number with a byte that says nothing");
    assert_eq!(kept::read(&[1, 0, 0, 0, 2, 0, 0, 0, 0]), None, "neither there nor missing");
    let many = [1, 0, 255, 255, 255, 255, 255, 255, 255, 255, 255, 1];
    assert_eq!(kept::read(&many), None, "more pieces than there are bytes");
    let beyond = [1, 255, 255, 255, 255, 255, 255, 255, 255, 255, 2, 0, 0, 0, 0, 0, 0, 0];
    assert_eq!(kept::read(&beyond), None, "a number of 65 bits");
}
