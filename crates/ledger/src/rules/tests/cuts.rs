//! What the bench has cut.

use super::make::{
    adjust, at, bolt, buttons, cancel, cm, confirm, counted, cut, flaw, line, loft, part, remnant, reserve,
    roll, undo,
};
use super::memory::Memory;
use crate::rules::{
    Account, Adjustment, Amount, Class, Command, EventKind, Finish, MovementKind, Part, PieceKind, Reason,
    Refusal, State,
};

/// Movements of the last change: kind, from, to, hundredths of a metre.
fn last_moves(loft: &Memory) -> Vec<(MovementKind, Account, Account, i64)> {
    let change = loft.movements.last().unwrap().change;
    let moves = loft.movements.iter().filter(|m| m.change == change);
    moves.map(|m| (m.kind, m.from, m.to, m.amount.0 / 10_000)).collect()
}

fn promised() -> Memory {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 240)]), 0);
    loft.does(reserve("S", &[("B", 50)]), 1);
    loft.does(confirm("R", "1"), 2);
    loft.does(confirm("S", "2"), 3);
    loft
}

/// The example of the rules: bolt 3.00 m, promised 2.40 m and 0.50 m.
#[test]
fn worked_example() {
    let mut loft = promised();
    let spoiled = Part { spoiled: cm(20), why: Reason::Miscut, ..part(1, 260) };
    let outcome = loft.does(cut("C", "R", vec![spoiled]), 10);
    assert_eq!(loft.balance("B"), [40, 0, 40]);
    assert_eq!(loft.lines("S"), [(50, 40)]);
    let promise = &outcome.promises[0];
    assert_eq!((promise.reservation.as_str(), promise.short_before, promise.short), ("S", cm(0), cm(10)));
    assert_eq!(outcome.promises.len(), 1);
    assert_eq!((loft.state("R"), loft.state("S")), (State::Cut, State::Confirmed));
    let line = &outcome.reservation.unwrap().lines[0];
    assert_eq!((line.used, line.spoiled, line.shapes_cut), (cm(240), cm(20), 10));
    let row = &outcome.cut.unwrap().parts[0];
    assert_eq!(
        (row.taken, row.spoiled, row.kept, row.served, row.shapes),
        (cm(260), cm(20), cm(0), cm(240), 10)
    );
    assert_eq!(outcome.pieces[0].left, cm(40));
    // the second is made short before the cut takes what it needs from what is free
    assert_eq!(
        last_moves(&loft),
        [
            (MovementKind::Shorten, Account::Confirmed, Account::Free, 10),
            (MovementKind::Cut, Account::Confirmed, Account::Used, 240),
            (MovementKind::Cut, Account::Free, Account::Spoiled, 20),
        ]
    );
    assert_eq!(loft.movements.last().unwrap().reason, Reason::Miscut);
    // a count takes more of it
    let outcome = loft.does(counted("B", 30), 20);
    let promise = &outcome.promises[0];
    assert_eq!((promise.short_before, promise.short), (cm(10), cm(20)));
    assert!(loft.reservations[&"S".into()].is_short());
}

#[test]
fn more_than_lies_is_counted_first() {
    let mut loft = promised();
    loft.does(counted("B", 250), 5);
    let more =
        Refusal::MoreThanLies { piece: "B".into(), class: Class::Cloth, taken: cm(260), left: cm(250) };
    assert_eq!(loft.run(cut("C", "R", vec![part(1, 260)]), at(6)), Err(more));
    loft.does(counted("B", 260), 7);
    loft.does(cut("C", "R", vec![part(1, 260)]), 8);
    assert_eq!((loft.balance("B"), loft.lines("S")), ([0, 0, 0], vec![(50, 0)]));
}

#[test]
fn as_planned() {
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 100)]);
    loft.does(reserve("R", &[("B", 200), ("D", 60), ("B", 50)]), 0);
    let outcome = loft.does(cut("C", "R", vec![]), 1);
    let row = outcome.cut.unwrap();
    let taken: Vec<_> =
        row.parts.iter().map(|p| (p.line, p.piece.as_str(), p.taken, p.used(), p.shapes)).collect();
    assert_eq!(
        taken,
        [(1, "B", cm(200), cm(200), 10), (2, "D", cm(60), cm(60), 10), (3, "B", cm(50), cm(50), 10)]
    );
    let pieces: Vec<_> = outcome.pieces.iter().map(|p| (p.id.as_str(), p.left)).collect();
    assert_eq!(pieces, [("B", cm(50)), ("D", cm(40))]);
    // cut without ever having been confirmed
    assert_eq!((loft.state("R"), outcome.reservation.unwrap().confirmed), (State::Cut, None));
    let told: Vec<_> = loft.events.iter().filter(|e| e.kind == EventKind::Cut).map(|e| e.amount).collect();
    assert_eq!(told, [cm(100), cm(40), cm(50)]);
}

#[test]
fn in_parts() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 200)]), 0);
    loft.does(confirm("R", "1"), 1);
    let first = Part { shapes: Some(4), ..part(1, 80) };
    loft.does(cut("C1", "R", vec![first]), 2);
    assert_eq!((loft.lines("R"), loft.balance("B")), (vec![(120, 120)], [220, 0, 120]));
    assert_eq!(loft.state("R"), State::Confirmed);
    // spoiled cloth serves nothing: the line wants as much as before, out of what is free
    loft.does(cut("C2", "R", vec![Part { spoiled: cm(30), ..part(1, 30) }]), 3);
    assert_eq!((loft.lines("R"), loft.balance("B")), (vec![(120, 120)], [190, 0, 120]));
    let rest = Part { finish: Finish::Done, ..part(1, 110) };
    loft.does(cut("C3", "R", vec![rest]), 4);
    assert_eq!((loft.lines("R"), loft.balance("B")), (vec![(0, 0)], [80, 0, 0]));
    let line = &loft.reservations[&"R".into()].lines[0];
    assert_eq!(
        (line.used, line.spoiled, line.shapes_cut, loft.state("R")),
        (cm(190), cm(30), 10, State::Cut)
    );
    let nothing = loft.run(cut("C4", "R", vec![part(1, 1)]), at(5));
    assert_eq!(nothing, Err(Refusal::NotNow("R".into(), State::Cut)));
}

#[test]
fn spoiled_cloth_makes_the_lowest_in_rank_short_be_it_the_own_line() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 200)]), 0);
    loft.does(reserve("S", &[("B", 100)]), 1);
    loft.does(confirm("S", "2"), 2);
    // nothing is free: R is a hold, and what it spoils it misses
    let outcome = loft.does(cut("C", "R", vec![Part { spoiled: cm(30), ..part(1, 80) }]), 3);
    assert_eq!((loft.lines("R"), loft.lines("S")), (vec![(150, 120)], vec![(100, 100)]));
    assert_eq!(outcome.promises[0].reservation, "R".into());
    // confirmed before S it does not
    let mut loft = super::make::loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 200)]), 0);
    loft.does(reserve("S", &[("B", 100)]), 1);
    loft.does(confirm("R", "1"), 2);
    loft.does(confirm("S", "2"), 3);
    loft.does(cut("C", "R", vec![Part { spoiled: cm(30), ..part(1, 80) }]), 4);
    assert_eq!((loft.lines("R"), loft.lines("S")), (vec![(150, 150)], vec![(100, 70)]));
}

#[test]
fn another_piece_is_cut_instead() {
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 100), roll("T", 500)]);
    loft.does(reserve("R", &[("B", 80)]), 0);
    loft.does(reserve("S", &[("D", 60)]), 1);
    let other = |piece: &str, taken| Part { piece: Some(piece.into()), ..part(1, taken) };
    let tape = loft.on("T").material.clone();
    let wrong = Refusal::OtherMaterial { piece: "T".into(), is: tape, wanted: loft.on("B").material.clone() };
    assert_eq!(loft.run(cut("C", "R", vec![other("T", 10)]), at(2)), Err(wrong));
    assert_eq!(loft.run(cut("C", "R", vec![other("Z", 10)]), at(2)), Err(Refusal::NoPiece("Z".into())));
    // part of it: the line still wants the rest of its own piece
    loft.does(cut("C1", "R", vec![other("D", 30)]), 3);
    assert_eq!(
        (loft.lines("R"), loft.balance("B"), loft.balance("D")),
        (vec![(50, 50)], [300, 50, 0], [70, 60, 0])
    );
    loft.does(cut("C2", "R", vec![other("D", 50)]), 4);
    assert_eq!((loft.lines("R"), loft.lines("S")), (vec![(0, 0)], vec![(60, 20)]));
    assert_eq!((loft.balance("B"), loft.balance("D")), ([300, 0, 0], [20, 20, 0]));
    // naming the own piece is the same as naming none
    let mut loft = super::make::loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 80)]), 0);
    loft.does(cut("C", "R", vec![other("B", 80)]), 1);
    assert_eq!(last_moves(&loft), [(MovementKind::Cut, Account::Held, Account::Used, 80)]);
}

#[test]
fn remnants_are_pieces_of_their_own() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 200)]), 0);
    loft.does(confirm("R", "1"), 1);
    // 2.60 m off, 2.00 m used, a strip beside them, 0.10 m spoiled, half a metre kept whole
    let remnants = vec![remnant("R-1", 50, 1_400), remnant("R-2", 150, 300)];
    let outcome = loft.does(cut("C", "R", vec![Part { spoiled: cm(10), remnants, ..part(1, 260) }]), 2);
    assert_eq!(outcome.received, ["R-1".into(), "R-2".into()]);
    assert_eq!(
        (loft.balance("B"), loft.balance("R-1"), loft.balance("R-2")),
        ([40, 0, 0], [50, 0, 0], [150, 0, 0])
    );
    assert_eq!(
        last_moves(&loft),
        [
            (MovementKind::Cut, Account::Confirmed, Account::Used, 200),
            (MovementKind::Cut, Account::Free, Account::Kept, 50),
            (MovementKind::Cut, Account::Free, Account::Spoiled, 10),
            (MovementKind::Cut, Account::Kept, Account::Free, 50),
            (MovementKind::Cut, Account::Kept, Account::Free, 150),
        ]
    );
    let piece = loft.on("R-2");
    assert_eq!(
        (piece.kind, piece.parent.as_ref(), piece.cut.as_ref()),
        (PieceKind::Remnant, Some(&"B".into()), Some(&"C".into()))
    );
    assert_eq!((piece.lot.as_str(), piece.cost_minor, piece.certificates.len()), ("L1", None, 1));
    assert_eq!((piece.location.as_str(), piece.width.um(), piece.at), ("remnants", 300_000, at(2)));
    // and can be promised
    loft.does(reserve("S", &[("R-2", 150)]), 3);
    // a roll leaves rolls
    let mut loft = super::make::loft(vec![roll("T", 500)]);
    loft.does(reserve("R", &[("T", 200)]), 0);
    loft.does(cut("C", "R", vec![Part { remnants: vec![remnant("T-1", 40, 0)], ..part(1, 240) }]), 1);
    assert_eq!(
        (loft.on("T-1").kind, loft.balance("T"), loft.balance("T-1")),
        (PieceKind::Roll, [260, 0, 0], [40, 0, 0])
    );
}

#[test]
fn flaws_come_nearer_and_are_cut_away() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(adjust("B", Adjustment::Flaws(vec![flaw(10, 20), flaw(90, 110), flaw(200, 210)])), 0);
    loft.does(reserve("R", &[("B", 70)]), 1);
    let outcome = loft.does(cut("C", "R", vec![Part { spoiled: cm(30), ..part(1, 100) }]), 2);
    assert_eq!(loft.on("B").flaws, [flaw(0, 10), flaw(100, 110)]);
    assert_eq!(outcome.cut.unwrap().parts[0].flaws_before.len(), 3);
}

/// 10.90 m with a flaw from 2.40 m to 2.90 m, of which R has 0.40 m and 2.00 m before it and S, which
/// was confirmed later, 7.00 m and a hold 1.00 m behind it. R is cut in two parts, of 0.60 m and
/// 2.50 m: 7.80 m without a flaw are left, and the hold loses 0.20 m. After the first part alone R's
/// second line would not fit before the flaw any longer, and S would have had to give way.
#[test]
fn a_cut_in_parts_takes_from_promises_once_and_from_holds_first() {
    let mut loft = loft(vec![bolt("B", 1_090)]);
    loft.does(adjust("B", Adjustment::Flaws(vec![flaw(240, 290)])), 0);
    loft.does(reserve("R", &[("B", 40), ("B", 200)]), 1);
    loft.does(reserve("S", &[("B", 700)]), 2);
    loft.does(confirm("R", "1"), 3);
    loft.does(confirm("S", "2"), 4);
    loft.does(reserve("H", &[("B", 100)]), 5);
    let parts = vec![
        Part { spoiled: cm(20), why: Reason::Miscut, ..part(1, 60) },
        Part { spoiled: cm(50), why: Reason::Flaw, ..part(2, 250) },
    ];
    let outcome = loft.does(cut("C", "R", parts), 6);
    assert_eq!(loft.on("B").flaws, []);
    assert_eq!((loft.lines("S"), loft.lines("H")), (vec![(700, 700)], vec![(100, 80)]));
    let told: Vec<_> = outcome.promises.iter().map(|it| (it.reservation.as_str(), it.short)).collect();
    assert_eq!(told, [("H", cm(20))]);
    // taken back it is as it was, for all of them
    loft.does(undo("C"), 7);
    assert_eq!(loft.on("B").flaws, [flaw(240, 290)]);
    let all = (loft.lines("R"), loft.lines("S"), loft.lines("H"));
    assert_eq!(all, (vec![(40, 40), (200, 200)], vec![(700, 700)], vec![(100, 100)]));
}

#[test]
fn what_one_part_gives_up_another_may_take() {
    let mut loft = loft(vec![bolt("B", 100)]);
    loft.does(reserve("R", &[("B", 30), ("B", 60)]), 0);
    loft.does(reserve("H", &[("B", 10)]), 1);
    let parts = vec![
        Part { spoiled: cm(20), why: Reason::Miscut, ..part(1, 50) },
        Part { finish: Finish::Done, ..part(2, 40) },
    ];
    let outcome = loft.does(cut("C", "R", parts), 2);
    assert_eq!((outcome.promises, loft.lines("H")), (Vec::new(), vec![(10, 10)]));
    let moves = last_moves(&loft);
    assert_eq!(
        moves,
        [
            (MovementKind::Release, Account::Held, Account::Free, 20),
            (MovementKind::Cut, Account::Held, Account::Used, 30),
            (MovementKind::Cut, Account::Free, Account::Spoiled, 20),
            (MovementKind::Cut, Account::Held, Account::Used, 40),
        ]
    );
}

/// Both are short on the same bolt, and the one that comes after is cut elsewhere: what it still wants
/// of that bolt stays its own, and only the rest goes to the one before it.
#[test]
fn a_cut_off_another_piece_takes_nothing_of_what_is_promised() {
    let mut loft = loft(vec![bolt("B", 120), bolt("E", 100)]);
    loft.does(reserve("F", &[("B", 80)]), 0);
    loft.does(reserve("S", &[("B", 40)]), 1);
    loft.does(confirm("F", "1"), 2);
    loft.does(confirm("S", "2"), 3);
    loft.does(adjust("B", Adjustment::Flaws(vec![flaw(45, 55)])), 4);
    loft.does(counted("B", 85), 5);
    assert_eq!((loft.lines("F"), loft.lines("S")), (vec![(80, 45)], vec![(40, 30)]));
    loft.does(adjust("B", Adjustment::Flaws(Vec::new())), 6);
    assert_eq!((loft.lines("F"), loft.lines("S")), (vec![(80, 55)], vec![(40, 30)]));
    loft.does(cut("C", "S", vec![Part { piece: Some("E".into()), ..part(1, 20) }]), 7);
    assert_eq!((loft.lines("F"), loft.lines("S")), (vec![(80, 65)], vec![(20, 20)]));
    assert_eq!(loft.balance("B"), [85, 0, 85]);
}

#[test]
fn what_cannot_have_been_cut_is_refused() {
    let mut loft = loft(vec![bolt("B", 300), buttons("X", 20), bolt("R-9", 10)]);
    loft.does(reserve("R", &[("B", 200), ("B", 20)]), 0);
    let before = loft.clone();
    let mut fails = |parts: Vec<Part>| loft.run(cut("C", "R", parts), at(1)).unwrap_err();
    let bad = |amount| Refusal::BadAmount(Class::Cloth, amount);
    assert_eq!(fails(vec![part(3, 1)]), Refusal::NoLine("R".into(), 3));
    assert_eq!(fails(vec![part(1, 0)]), bad(cm(0)));
    assert_eq!(fails(vec![part(1, -5)]), bad(cm(-5)));
    assert_eq!(fails(vec![Part { spoiled: cm(-1), ..part(1, 10) }]), bad(cm(-1)));
    let piece = || "B".into();
    let fit = |taken, parts| Refusal::PartsDoNotFit {
        piece: piece(),
        class: Class::Cloth,
        taken: cm(taken),
        parts,
    };
    assert_eq!(fails(vec![Part { spoiled: cm(11), ..part(1, 10) }]), fit(10, cm(11)));
    let vast = Amount(i64::MAX);
    assert_eq!(fails(vec![Part { spoiled: vast, ..part(1, 10) }]), fit(10, vast));
    let kept = |remnants: Vec<_>| vec![Part { spoiled: cm(40), remnants, ..part(1, 100) }];
    assert_eq!(fails(kept(vec![remnant("R-1", 61, 1_400)])), fit(100, cm(101)));
    let remnants = Refusal::RemnantsDoNotFit(piece());
    assert_eq!(fails(kept(vec![remnant("R-1", 10, 1_401)])), remnants);
    assert_eq!(fails(kept(vec![remnant("R-1", 0, 1_400)])), remnants);
    assert_eq!(fails(kept(vec![remnant("R-1", 10, 0)])), remnants);
    assert_eq!(fails(kept(vec![remnant("R-1", 101, 100)])), remnants);
    assert_eq!(fails(kept(vec![remnant("R-1", 100, 800), remnant("R-2", 100, 601)])), remnants);
    assert_eq!(
        fails(kept(vec![remnant("R-1", 10, 700), remnant("R-1", 10, 700)])),
        Refusal::Twice("R-1".to_owned())
    );
    assert_eq!(fails(kept(vec![remnant("R-9", 10, 700)])), Refusal::PieceExists("R-9".into()));
    // a remnant of this cut is not there yet for its next part
    let first = Part { remnants: vec![remnant("R-1", 50, 1_400)], ..part(1, 100) };
    let second = Part { piece: Some("R-1".into()), ..part(2, 20) };
    assert_eq!(fails(vec![first, second]), Refusal::NoPiece("R-1".into()));
    // a line that is done by one part is not cut for by the next
    assert_eq!(fails(vec![part(1, 200), part(1, 10)]), Refusal::NothingToCut("R".into()));
    assert_eq!(loft.run(cut("C", "Q", vec![]), at(1)), Err(Refusal::NoReservation("Q".into())));
    assert_eq!((&loft.pieces, &loft.reservations), (&before.pieces, &before.reservations));
    loft.does(cut("C", "R", vec![part(1, 200)]), 2);
    assert_eq!(loft.run(cut("C", "R", vec![]), at(3)), Err(Refusal::CutExists("C".into())));
}

/// Narrow remnants come out of what is not kept at full width, and out of nothing else.
#[test]
fn narrow_remnants_come_out_of_what_is_left_beside_them() {
    let mut loft = loft(vec![bolt("B", 500)]);
    loft.does(reserve("R", &[("B", 200)]), 0);
    let before = (loft.pieces.clone(), loft.reservations.clone());
    // a metre off a bolt 1.40 m wide
    let off = |remnants: Vec<_>| cut("C", "R", vec![Part { remnants, ..part(1, 100) }]);
    let refused = [
        // nine tenths of it are kept: 90 cm of a narrow one are not in the rest, though all areas fit
        vec![remnant("R-1", 90, 1_400), remnant("R-2", 90, 100)],
        vec![remnant("R-1", 100, 1_400), remnant("R-2", 1, 1)],
        // neither beside nor behind each other, though their areas fit
        vec![remnant("R-1", 60, 750), remnant("R-2", 60, 750)],
        vec![remnant("R-1", 51, 800), remnant("R-2", 51, 601)],
        vec![remnant("R-1", 51, 701), remnant("R-2", 50, 701)],
        // more cloth than there is
        vec![remnant("R-1", 50, 1_399), remnant("R-2", 50, 1_399), remnant("R-3", 5, 100)],
    ];
    for remnants in refused {
        let told = loft.run(off(remnants.clone()), at(1));
        assert_eq!(told, Err(Refusal::RemnantsDoNotFit("B".into())), "{remnants:?}");
    }
    assert_eq!((&loft.pieces, &loft.reservations), (&before.0, &before.1));
    let done = [
        vec![remnant("R-1", 90, 1_400), remnant("R-2", 10, 100)],
        vec![remnant("R-1", 50, 750), remnant("R-2", 50, 750)],
        vec![remnant("R-1", 100, 700), remnant("R-2", 100, 700)],
        vec![remnant("R-1", 100, 1_000), remnant("R-2", 50, 400), remnant("R-3", 50, 400)],
    ];
    for (number, remnants) in done.into_iter().enumerate() {
        let mut loft = loft.clone();
        let outcome = loft.does(off(remnants.clone()), 1);
        assert_eq!(outcome.received.len(), remnants.len(), "{number}");
    }
}

#[test]
fn what_is_cut_stays_cut_when_it_is_called_off() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 200), ("B", 50)]), 0);
    loft.does(confirm("R", "1"), 1);
    loft.does(cut("C", "R", vec![part(1, 200)]), 2);
    loft.does(cancel("R"), 3);
    assert_eq!((loft.balance("B"), loft.state("R")), ([100, 0, 0], State::Cancelled));
    assert_eq!(loft.reservations[&"R".into()].reason, "called off");
    assert_eq!(loft.reservations[&"R".into()].lines[0].used, cm(200));
}

#[test]
fn buttons_are_counted_out() {
    let mut loft = loft(vec![buttons("X", 20)]);
    let few = crate::rules::NewLine { amount: Amount(6), ..line("X", 1) };
    loft.does(Command::Reserve(super::make::hold("R", vec![few])), 0);
    let broken = Part { taken: Amount(7), spoiled: Amount(1), ..part(1, 1) };
    loft.does(cut("C", "R", vec![broken]), 1);
    assert_eq!((loft.on("X").left, loft.state("R")), (Amount(13), State::Cut));
}
