//! Cuts taken back.

use super::make::{
    HOLD, adjust, amend, at, bolt, cancel, cm, confirm, counted, cut, flaw, line, loft, part, remnant,
    reserve, undo,
};
use super::memory::Memory;
use crate::rules::{Adjustment, Amend, At, Command, EventKind, Finish, Part, Refusal, Sale, State, Undo};

/// A bolt with flaws, promised to two, and a cut of the first that spoils, keeps and makes the
/// second short.
fn cut_once() -> (Memory, Memory) {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(adjust("B", Adjustment::Flaws(vec![flaw(5, 6), flaw(270, 290)])), 0);
    loft.does(reserve("R", &[("B", 150)]), 1);
    loft.does(reserve("S", &[("B", 90)]), 2);
    loft.does(confirm("R", "1"), 3);
    let before = loft.clone();
    let remnants = vec![remnant("R-1", 20, 1_400), remnant("R-2", 100, 200)];
    loft.does(cut("C", "R", vec![Part { spoiled: cm(105), remnants, ..part(1, 275) }]), 10);
    assert_eq!((loft.lines("S"), loft.state("R")), (vec![(90, 10)], State::Cut));
    assert_eq!(loft.on("B").flaws, [flaw(0, 15)]);
    (before, loft)
}

#[test]
fn all_is_as_it_was_but_for_what_is_on_record() {
    let (before, mut loft) = cut_once();
    let outcome = loft.does(undo("C"), 20);
    assert_eq!(loft.on("B"), before.on("B"));
    assert_eq!(loft.reservations, before.reservations);
    assert!(outcome.cut.unwrap().undone && loft.cuts[&"C".into()].undone);
    assert_eq!(outcome.reservation.as_ref(), before.reservations.get(&"R".into()));
    assert_eq!((loft.balance("R-1"), loft.balance("R-2")), ([0, 0, 0], [0, 0, 0]));
    let told: Vec<_> = loft.events.iter().rev().map(|event| (event.kind, event.amount)).take(2).collect();
    assert_eq!(told, [(EventKind::Mended, cm(0)), (EventKind::Undone, cm(300))]);
    assert_eq!(loft.run(undo("C"), at(21)), Err(Refusal::AlreadyUndone("C".into())));
    assert_eq!(loft.run(undo("D"), at(21)), Err(Refusal::NoCut("D".into())));
}

#[test]
fn within_ten_minutes() {
    let cut_at = at(10);
    let until = cut_at.after_seconds(Undo::SECONDS);
    assert_eq!(until, at(610));
    for (micros, in_time) in [(-1, true), (0, true), (1, false)] {
        let (_, mut loft) = cut_once();
        let answer = loft.run(undo("C"), At(until.0 + micros));
        assert_eq!(answer.is_ok(), in_time, "{answer:?}");
        if !in_time {
            assert_eq!(answer, Err(Refusal::TooLate("C".into(), until)));
        }
    }
}

#[test]
fn not_once_something_was_done_with_what_it_left() {
    let used = |piece: &str| Err(Refusal::UsedSince("C".into(), piece.into()));
    // a remnant is promised
    let (_, mut loft) = cut_once();
    loft.does(reserve("T", &[("R-1", 20)]), 11);
    assert_eq!(loft.run(undo("C"), at(12)), used("R-1"));
    // and let go again
    loft.does(super::make::release("T"), 13);
    loft.does(undo("C"), 14);
    // counted to less
    let (_, mut loft) = cut_once();
    loft.does(counted("R-2", 99), 11);
    assert_eq!(loft.run(undo("C"), at(12)), used("R-2"));
    // cut itself, and that taken back
    let (_, mut loft) = cut_once();
    loft.does(reserve("T", &[("R-2", 10)]), 11);
    loft.does(cut("C2", "T", vec![]), 12);
    assert_eq!(loft.run(undo("C"), at(13)), used("R-2"));
    loft.does(counted("R-2", 100), 14);
    assert_eq!(loft.run(undo("C"), at(15)), used("R-2"));
    loft.does(counted("R-2", 90), 16);
    loft.does(undo("C2"), 17);
    loft.does(cancel("T"), 18);
    loft.does(undo("C"), 19);
    // another cut followed on the piece
    let (_, mut loft) = cut_once();
    loft.does(cut("C2", "S", vec![part(1, 10)]), 11);
    assert_eq!(loft.run(undo("C"), at(12)), used("B"));
    loft.does(undo("C2"), 13);
    loft.does(undo("C"), 14);
}

#[test]
fn a_remnant_wanted_by_a_short_line_is_not_untouched() {
    let (_, mut loft) = cut_once();
    loft.does(reserve("T", &[("R-1", 20)]), 11);
    // flaws all over it: T has nothing of it but wants it
    loft.does(adjust("R-1", Adjustment::Flaws(vec![flaw(0, 20)])), 12);
    assert_eq!(loft.balance("R-1"), [20, 0, 0]);
    assert_eq!(loft.run(undo("C"), at(13)), Err(Refusal::UsedSince("C".into(), "R-1".into())));
}

#[test]
fn what_was_found_since_stays_found() {
    let (_, mut loft) = cut_once();
    // 0.20 m more than thought, and a flaw that nobody had seen
    loft.does(counted("B", 45), 11);
    loft.does(adjust("B", Adjustment::Flaws(vec![flaw(0, 15), flaw(30, 31)])), 12);
    loft.does(undo("C"), 13);
    assert_eq!(loft.balance("B"), [320, 90, 150]);
    assert_eq!(loft.on("B").flaws, [flaw(5, 6), flaw(270, 290), flaw(305, 306)]);
}

#[test]
fn where_the_reservation_stands_after_it() {
    let take = || {
        let mut loft = loft(vec![bolt("B", 300), bolt("D", 300)]);
        loft.does(reserve("R", &[("B", 150), ("D", 10)]), 0);
        loft
    };
    // never confirmed: held again, within its time
    let mut loft = take();
    loft.does(cut("C", "R", vec![]), HOLD - 100);
    loft.does(undo("C"), HOLD - 1);
    assert_eq!(
        (loft.state("R"), loft.balance("B"), loft.lines("R")),
        (State::Held, [300, 150, 0], vec![(150, 150), (10, 10)])
    );
    // and over, after it
    let mut loft = take();
    loft.does(cut("C", "R", vec![]), HOLD - 100);
    let outcome = loft.does(undo("C"), HOLD);
    assert_eq!(
        (loft.state("R"), loft.balance("B"), outcome.ended),
        (State::Expired, [300, 0, 0], vec!["R".into()])
    );
    // part cut, and expired since
    let mut loft = take();
    loft.does(cut("C", "R", vec![part(1, 100)]), HOLD - 100);
    let outcome = loft.does(undo("C"), HOLD);
    assert_eq!(
        (loft.state("R"), loft.balance("B"), outcome.ended),
        (State::Expired, [300, 0, 0], vec!["R".into()])
    );
    assert_eq!(loft.lines("R"), [(0, 0), (0, 0)]);
    // called off: the cloth is free
    let mut loft = take();
    loft.does(confirm("R", "1"), 1);
    loft.does(cut("C", "R", vec![]), 2);
    loft.does(cancel("R"), 3);
    loft.does(undo("C"), 4);
    assert_eq!(
        (loft.state("R"), loft.balance("B"), loft.balance("D")),
        (State::Cancelled, [300, 0, 0], [300, 0, 0])
    );
    assert_eq!(loft.reservations[&"R".into()].lines[0].used, cm(0));
}

#[test]
fn a_line_wants_again_what_the_cut_served_and_no_more() {
    // two cuts for one line off two pieces; the first one is taken back
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 300)]);
    loft.does(reserve("R", &[("B", 150)]), 0);
    let off = |piece: &str, taken| Part { piece: Some(piece.into()), ..part(1, taken) };
    loft.does(cut("C1", "R", vec![off("D", 60)]), 1);
    loft.does(cut("C2", "R", vec![off("B", 50)]), 2);
    assert_eq!(loft.lines("R"), [(40, 40)]);
    loft.does(undo("C1"), 3);
    assert_eq!((loft.lines("R"), loft.balance("D")), (vec![(100, 100)], [300, 0, 0]));
    // done with less, and taken back
    loft.does(cut("C3", "R", vec![Part { finish: Finish::Done, ..off("D", 90) }]), 4);
    assert_eq!((loft.lines("R"), loft.state("R")), (vec![(0, 0)], State::Cut));
    loft.does(undo("C3"), 5);
    assert_eq!((loft.lines("R"), loft.state("R")), (vec![(100, 100)], State::Held));
    // amended in between: what took its place stays
    loft.does(cut("C4", "R", vec![off("B", 30)]), 6);
    loft.does(amend("R", &[1], vec![line("D", 70)]), 7);
    loft.does(undo("C4"), 8);
    assert_eq!(loft.lines("R"), [(30, 30), (70, 70)]);
}

/// 1.10 m held and 0.40 m of it cut; then another quote is sold, which needs 0.50 m. The cut taken
/// back, its cloth is free: the buyer has what the second quote needs, once.
#[test]
fn nothing_is_wanted_again_for_a_sale_whose_place_another_took() {
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 300)]);
    loft.does(reserve("R", &[("B", 110), ("D", 20)]), 0);
    // line 2 is cut whole, and so ends with no amend
    loft.does(cut("C", "R", vec![part(1, 40), part(2, 20)]), 1);
    let other = Sale { quote: "Q2".to_owned(), bench_milli_minutes: 1, leave_day: None, sold: vec![2] };
    let Command::Amend(anew) = amend("R", &[1], vec![line("B", 50)]) else { panic!("an amend") };
    loft.does(Command::Amend(Amend { sale: Some(other), ..anew }), 2);
    assert_eq!(loft.lines("R"), [(0, 0), (0, 0), (50, 50)]);
    loft.does(undo("C"), 3);
    assert_eq!(loft.lines("R"), [(0, 0), (0, 0), (50, 50)]);
    assert_eq!(
        (loft.balance("B"), loft.balance("D"), loft.state("R")),
        ([300, 50, 0], [300, 0, 0], State::Held)
    );
    let used = |line: usize| loft.reservations[&"R".into()].lines[line].used;
    assert_eq!((used(0), used(1)), (cm(0), cm(0)));
    // a cut for the sale that holds is wanted again
    loft.does(cut("E", "R", vec![]), 4);
    assert_eq!(loft.state("R"), State::Cut);
    loft.does(undo("E"), 5);
    assert_eq!((loft.lines("R"), loft.state("R")), (vec![(0, 0), (0, 0), (50, 50)], State::Held));
}

/// A sale of which nothing is left to be cut is not opened again by a cut for the one before.
#[test]
fn a_sale_that_is_cut_stays_cut_where_a_cut_for_the_one_before_is_taken_back() {
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 300)]);
    loft.does(reserve("R", &[("B", 110)]), 0);
    loft.does(cut("C", "R", vec![part(1, 40)]), 1);
    let other = Sale { quote: "Q2".to_owned(), bench_milli_minutes: 1, leave_day: None, sold: vec![2] };
    let Command::Amend(anew) = amend("R", &[1], vec![line("D", 50)]) else { panic!("an amend") };
    loft.does(Command::Amend(Amend { sale: Some(other), ..anew }), 2);
    loft.does(cut("E", "R", vec![]), 3);
    loft.does(undo("C"), 4);
    assert_eq!((loft.lines("R"), loft.state("R")), (vec![(0, 0), (0, 0)], State::Cut));
    assert_eq!((loft.balance("B"), loft.balance("D")), ([300, 0, 0], [250, 0, 0]));
}

/// Another sale that needs nothing more leaves the first one's cut all there is: taken back, the line
/// wants again, for a reservation that is cut has a cut.
#[test]
fn a_cut_that_is_all_there_is_of_a_reservation_is_wanted_again() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 110)]), 0);
    loft.does(cut("C", "R", vec![part(1, 40)]), 1);
    let other = Sale { quote: "Q2".to_owned(), bench_milli_minutes: 1, leave_day: None, sold: vec![2] };
    let Command::Amend(anew) = amend("R", &[1], vec![]) else { panic!("an amend") };
    loft.does(Command::Amend(Amend { sale: Some(other), ..anew }), 2);
    assert_eq!(loft.state("R"), State::Cut);
    loft.does(undo("C"), 3);
    assert_eq!((loft.lines("R"), loft.state("R")), (vec![(40, 40)], State::Held));
}

#[test]
fn two_parts_off_one_piece() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(adjust("B", Adjustment::Flaws(vec![flaw(95, 105), flaw(220, 221)])), 0);
    loft.does(reserve("R", &[("B", 90), ("B", 80)]), 1);
    loft.does(confirm("R", "1"), 2);
    let before = loft.clone();
    loft.does(
        cut(
            "C",
            "R",
            vec![Part { spoiled: cm(10), ..part(1, 100) }, Part { spoiled: cm(50), ..part(2, 130) }],
        ),
        3,
    );
    assert_eq!(loft.balance("B"), [70, 0, 0]);
    loft.does(undo("C"), 4);
    assert_eq!((loft.on("B"), &loft.reservations), (before.on("B"), &before.reservations));
}

#[test]
fn others_are_mended_by_rank() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("S", &[("B", 100)]), 0);
    loft.does(confirm("S", "2"), 1);
    loft.does(reserve("R", &[("B", 200)]), 2);
    loft.does(cut("C", "R", vec![Part { spoiled: cm(50), ..part(1, 250) }]), 3);
    assert_eq!((loft.lines("S"), loft.state("R")), (vec![(100, 50)], State::Cut));
    // less lies there than thought: S, confirmed first, gets its metre, R what is over
    loft.does(counted("B", 20), 4);
    loft.does(undo("C"), 5);
    assert_eq!((loft.lines("S"), loft.lines("R")), (vec![(100, 100)], vec![(200, 170)]));
}
