//! Taking, expiring, superseding, extending, amending.

use super::make::{
    HOLD, adjust, amend, at, bolt, buttons, cm, confirm, counted, cut, extend, flaw, hold, line, loft, part,
    release, reserve, undo,
};
use super::memory::{Failed, Memory};
use crate::rules::{
    Account, Adjustment, Amend, Amount, At, Class, Command, EventKind, MovementKind, NewLine, Refusal,
    Request, Reserve, Sale, Short, State, Sweep,
};

#[test]
fn what_is_taken_is_held() {
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 100)]);
    let outcome = loft.does(reserve("R", &[("B", 240), ("D", 100), ("B", 50)]), 5);
    let hold = outcome.reservation.unwrap();
    assert_eq!((hold.state, hold.created, hold.expires), (State::Held, at(5), at(5 + HOLD)));
    assert_eq!((hold.confirmed, hold.holder.as_str(), hold.sold), (None, "ada", vec![1, 2]));
    assert_eq!(loft.balance("B"), [300, 290, 0]);
    assert_eq!(loft.balance("D"), [100, 100, 0]);
    let numbers: Vec<_> = hold.lines.iter().map(|l| (l.number, l.planned, l.wanted, l.granted)).collect();
    let full = |number, amount| (number, cm(amount), cm(amount), cm(amount));
    assert_eq!(numbers, [full(1, 240), full(2, 100), full(3, 50)]);
}

#[test]
fn all_or_nothing_and_every_line_that_cannot_be_had_is_named() {
    let mut loft = loft(vec![bolt("B", 300), buttons("X", 5)]);
    loft.does(reserve("R", &[("B", 250)]), 0);
    let before = loft.clone();
    let few = NewLine { amount: Amount(6), ..line("X", 1) };
    let wanted = hold("S", vec![line("B", 40), line("B", 20), few]);
    let refused = loft.run(Command::Reserve(wanted), at(1)).unwrap_err();
    let shorts = vec![
        Short { piece: "B".into(), class: Class::Cloth, wanted: cm(20), free: cm(10) },
        Short { piece: "X".into(), class: Class::Sundry, wanted: Amount(6), free: Amount(5) },
    ];
    assert_eq!(refused, Refusal::Taken(shorts));
    assert_eq!(
        refused.to_string(),
        "200 mm of piece B cannot be had, 100 mm can; 6 of piece X cannot be had, 5 can: take less, or other pieces"
    );
    assert_eq!(loft.reservations, before.reservations);
}

#[test]
fn a_line_needs_one_stretch_between_flaws() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(adjust("B", Adjustment::Flaws(vec![flaw(100, 120)])), 0);
    let refused = |loft: &mut Memory, amount| loft.run(reserve("R", &[("B", amount)]), at(1)).unwrap_err();
    let short = |wanted, free| {
        Refusal::Taken(vec![Short {
            piece: "B".into(),
            class: Class::Cloth,
            wanted: cm(wanted),
            free: cm(free),
        }])
    };
    assert_eq!(refused(&mut loft, 181), short(181, 180));
    loft.does(reserve("R", &[("B", 90)]), 2);
    loft.does(reserve("S", &[("B", 180)]), 3);
    assert_eq!(refused(&mut loft, 11), Refusal::ReservationExists("R".into()));
    let third = loft.run(reserve("T", &[("B", 11)]), at(4)).unwrap_err();
    assert_eq!(third, short(11, 10));
    loft.does(reserve("T", &[("B", 10)]), 4);
    // only the flaw is free
    assert_eq!(loft.balance("B"), [300, 280, 0]);
}

#[test]
fn a_hold_is_over_at_its_instant() {
    for (micros, is_over) in [(-1, false), (0, true), (1, true)] {
        let expires = at(HOLD);
        let now = At(expires.0 + micros);
        let held = || {
            let mut loft = loft(vec![bolt("B", 300), bolt("D", 300)]);
            loft.does(reserve("R", &[("B", 240), ("D", 10)]), 0);
            loft
        };
        let over = Refusal::Expired("R".into(), expires);
        let asks = [
            confirm("R", "77"),
            extend("R", 60, 9_000),
            amend("R", &[1], vec![line("D", 1)]),
            cut("C", "R", vec![]),
            cut("C", "R", vec![part(1, 240)]),
        ];
        for ask in asks {
            let mut loft = held();
            let before = loft.clone();
            let answer = loft.run(ask, now);
            if is_over {
                assert_eq!(answer, Err(over.clone()));
                assert_eq!((loft.reservations, loft.events), (before.reservations, before.events));
            } else {
                assert!(answer.is_ok(), "{answer:?}");
            }
        }
        // its cloth is free for somebody else, on all of its pieces
        let mut loft = held();
        let answer = loft.run(reserve("S", &[("B", 300)]), now);
        loft.check(now);
        assert_eq!(answer.is_ok(), is_over);
        if let Ok(outcome) = answer {
            assert_eq!(outcome.ended, ["R".into()]);
            assert_eq!(loft.state("R"), State::Expired);
            assert_eq!((loft.balance("B"), loft.balance("D")), ([300, 300, 0], [300, 0, 0]));
            let expiry: Vec<_> = loft.movements.iter().filter(|m| m.kind == MovementKind::Expire).collect();
            assert_eq!(expiry.len(), 2);
            assert!(expiry.iter().all(|m| (m.from, m.to) == (Account::Held, Account::Free)));
        }
        // released where it is over, it is expired
        let mut loft = held();
        let state = loft.run(release("R"), now).unwrap().reservation.unwrap().state;
        assert_eq!(state, if is_over { State::Expired } else { State::Released });
        // and swept
        let mut loft = held();
        let swept = loft.run(Command::Sweep(Sweep { most: 5 }), now).unwrap();
        assert_eq!(swept.ended.len(), usize::from(is_over));
    }
}

#[test]
fn a_hold_of_which_a_piece_is_missing_is_left_alone() {
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 300)]);
    loft.does(reserve("R", &[("B", 240), ("D", 10)]), 0);
    let envelope = crate::rules::Envelope {
        id: crate::rules::ChangeId::default(),
        at: at(HOLD),
        day: 1,
        actor: "loft".to_owned(),
        request: None,
        command: counted("B", 300),
    };
    let mut rows = loft.load(&crate::rules::needs(&envelope.command), at(HOLD));
    rows.pieces.remove(&"D".into());
    let decision = crate::rules::decide(&envelope, &rows, at(HOLD)).unwrap();
    assert_eq!(decision.outcome.ended, []);
    assert!(!decision.changes.iter().any(|change| matches!(change, crate::rules::Change::Head { .. })));
}

#[test]
fn expiry_mends_before_the_command_takes() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 200)]), 0);
    loft.does(reserve("S", &[("B", 100)]), 60);
    loft.does(confirm("S", "1"), 61);
    // R loses what is missing, then S
    loft.does(counted("B", 80), 62);
    assert_eq!((loft.lines("R"), loft.lines("S")), (vec![(200, 0)], vec![(100, 80)]));
    loft.does(counted("B", 100), 63);
    assert_eq!((loft.lines("R"), loft.lines("S")), (vec![(200, 0)], vec![(100, 100)]));
    loft.does(counted("B", 250), 64);
    assert_eq!((loft.lines("R"), loft.lines("S")), (vec![(200, 150)], vec![(100, 100)]));
    loft.does(counted("B", 90), 65);
    assert_eq!((loft.lines("R"), loft.lines("S")), (vec![(200, 0)], vec![(100, 90)]));
    loft.does(adjust("B", Adjustment::Found(cm(8))), HOLD - 1);
    let refused = loft.run(reserve("T", &[("B", 1)]), at(HOLD)).unwrap_err();
    assert!(matches!(refused, Refusal::Taken(_)));
}

#[test]
fn holds_of_one_holder_are_limited() {
    let mut loft = loft(vec![bolt("B", 900)]);
    let take = |id: &str, supersedes: Option<&str>| {
        let supersedes = supersedes.map(Into::into);
        Command::Reserve(Reserve { most_holds: Some(2), supersedes, ..hold(id, vec![line("B", 10)]) })
    };
    loft.does(take("R1", None), 0);
    loft.does(take("R2", None), 1);
    assert_eq!(loft.run(take("R3", None), at(2)), Err(Refusal::TooManyHolds(2)));
    // one that takes another's place is no more than there were
    loft.does(take("R3", Some("R2")), 3);
    // somebody else's do not count, nor do confirmed ones, nor those that are over
    loft.does(Command::Reserve(Reserve { holder: "bo".to_owned(), ..hold("B1", vec![line("B", 10)]) }), 3);
    assert_eq!(loft.run(take("R4", None), at(4)), Err(Refusal::TooManyHolds(2)));
    loft.does(confirm("R3", "1"), 4);
    loft.does(take("R4", None), 5);
    assert_eq!(loft.run(take("R5", None), at(HOLD - 1)), Err(Refusal::TooManyHolds(2)));
    loft.does(take("R5", None), HOLD);
}

#[test]
fn a_hold_takes_the_place_of_another() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 280)]), 0);
    let next = |holder: &str, amount| {
        let (holder, supersedes) = (holder.to_owned(), Some("R".into()));
        Command::Reserve(Reserve { holder, supersedes, ..hold("S", vec![line("B", amount)]) })
    };
    assert_eq!(loft.run(next("bo", 10), at(1)), Err(Refusal::NotYours("R".into())));
    assert!(matches!(loft.run(next("ada", 301), at(1)), Err(Refusal::Taken(_))));
    assert_eq!(loft.state("R"), State::Held);
    let outcome = loft.does(next("ada", 300), 2);
    assert_eq!(outcome.ended, ["R".into()]);
    assert_eq!(loft.reservations[&"R".into()].superseded_by, Some("S".into()));
    assert_eq!(outcome.reservation.unwrap().supersedes, Some("R".into()));
    assert_eq!((loft.state("R"), loft.balance("B")), (State::Superseded, [300, 300, 0]));
    assert!(loft.events.iter().any(|event| event.kind == EventKind::Superseded));
}

#[test]
fn more_time_is_capped_and_never_less() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 280)]), 0);
    let expires = |loft: &Memory| loft.reservations[&"R".into()].expires;
    // less than it has: as it is, and nothing is told
    let events = loft.events.len();
    loft.does(extend("R", 10, 3_600), 5);
    assert_eq!((expires(&loft), loft.events.len()), (at(HOLD), events));
    loft.does(extend("R", 1_800, 3_600), 600);
    assert_eq!(expires(&loft), at(2_400));
    loft.does(extend("R", 1_800, 3_600), 2_000);
    assert_eq!(expires(&loft), at(3_600));
    let refused = loft.run(extend("R", 1_800, 3_600), at(2_001));
    assert_eq!(refused, Err(Refusal::AsLongAsMayBe("R".into(), at(3_600))));
    assert_eq!(loft.run(extend("R", 0, 3_600), at(2_001)), Err(Refusal::BadSeconds(0)));
}

#[test]
fn a_short_hold_is_not_confirmed_and_a_mended_one_is() {
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 300)]);
    loft.does(reserve("R", &[("B", 280)]), 0);
    let outcome = loft.does(counted("B", 250), 1);
    assert_eq!(outcome.promises[0].short, cm(30));
    let short =
        Refusal::IsShort { reservation: "R".into(), piece: "B".into(), class: Class::Cloth, short: cm(30) };
    assert_eq!(loft.run(confirm("R", "1"), at(2)), Err(short.clone()));
    assert_eq!(loft.run(cut("C", "R", vec![]), at(2)), Err(short));
    // other cloth in its place mends it
    let outcome = loft.does(amend("R", &[1], vec![line("D", 280)]), 3);
    assert_eq!(outcome.promises.len(), 1);
    assert_eq!((outcome.promises[0].short_before, outcome.promises[0].short), (cm(30), cm(0)));
    assert_eq!(loft.lines("R"), [(0, 0), (280, 280)]);
    assert_eq!((loft.balance("B"), loft.balance("D")), ([250, 0, 0], [300, 280, 0]));
    loft.does(confirm("R", "1"), 4);
    assert_eq!(loft.balance("D"), [300, 0, 280]);
}

#[test]
fn what_is_amended_is_all_there_or_nothing() {
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 100)]);
    loft.does(reserve("R", &[("B", 200), ("B", 50)]), 0);
    loft.does(confirm("R", "1"), 1);
    let fails =
        |loft: &mut Memory, ends: &[u32], lines| loft.run(amend("R", ends, lines), at(2)).unwrap_err();
    assert_eq!(fails(&mut loft, &[3], vec![]), Refusal::NoLine("R".into(), 3));
    assert_eq!(fails(&mut loft, &[1, 1], vec![line("D", 1)]), Refusal::Twice("line 1".to_owned()));
    assert_eq!(fails(&mut loft, &[1, 2], vec![]), Refusal::NothingLeft("R".into()));
    assert_eq!(fails(&mut loft, &[], vec![]), Refusal::Empty);
    assert!(matches!(fails(&mut loft, &[1], vec![line("D", 101)]), Refusal::Taken(_)));
    assert_eq!(loft.lines("R"), [(200, 200), (50, 50)]);
    // what ends can be had by what is added
    loft.does(amend("R", &[1], vec![line("B", 250)]), 3);
    assert_eq!(loft.lines("R"), [(0, 0), (50, 50), (250, 250)]);
    assert_eq!(loft.balance("B"), [300, 0, 300]);
    // the sale alone
    let sale = Sale { quote: "q2".to_owned(), bench_milli_minutes: 7, leave_day: None, sold: vec![9] };
    let reason = "new day".to_owned();
    let amends =
        Amend { id: "R".into(), ends: vec![], planned_on: None, lines: vec![], sale: Some(sale), reason };
    let after = loft.does(Command::Amend(amends), 4).reservation.unwrap();
    assert_eq!((after.quote.as_str(), after.bench_milli_minutes, after.leave_day), ("q2", 7, None));
    assert_eq!((after.sold, after.reason.as_str()), (vec![9], "new day"));
}

/// A plan for lines as they were is not carried out on lines as they are.
#[test]
fn what_was_planned_on_something_else_is_refused() {
    let mut loft = loft(vec![bolt("B", 300), bolt("D", 300)]);
    loft.does(reserve("R", &[("B", 200), ("B", 50)]), 0);
    let planned = |on: &[(u32, i64)]| {
        let Command::Amend(anew) = amend("R", &[1], vec![line("D", 200)]) else { panic!("an amendment") };
        let planned_on = Some(on.iter().map(|(line, wanted)| (*line, cm(*wanted))).collect());
        Command::Amend(Amend { planned_on, ..anew })
    };
    let was = [(1, 200), (2, 50)];
    // 1.20 m of line 1 are cut meanwhile: 2.00 m of D in its place would be too much by those
    loft.does(cut("C", "R", vec![part(1, 120)]), 1);
    let before = (loft.lines("R"), loft.balance("B"), loft.balance("D"));
    for other in [&was[..], &[(1, 80)], &[(1, 80), (2, 50), (3, 1)], &[(2, 50), (1, 80)], &[]] {
        assert_eq!(loft.run(planned(other), at(2)), Err(Refusal::Changed("R".into())), "{other:?}");
    }
    assert_eq!((loft.lines("R"), loft.balance("B"), loft.balance("D")), before);
    loft.does(planned(&[(1, 80), (2, 50)]), 3);
    // a line that is done wants nothing, and a cut that is taken back has it want again
    loft.does(cut("C2", "R", vec![part(2, 50)]), 4);
    let on_three = |on: &[(u32, i64)]| match planned(on) {
        Command::Amend(anew) => Command::Amend(Amend { ends: vec![3], ..anew }),
        other => other,
    };
    loft.does(undo("C2"), 5);
    assert_eq!(loft.run(on_three(&[(3, 200)]), at(6)), Err(Refusal::Changed("R".into())));
    loft.does(on_three(&[(2, 50), (3, 200)]), 7);
}

#[test]
fn nothing_more_wanted_after_something_was_cut_is_cut() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 200), ("B", 50)]), 0);
    loft.does(cut("C", "R", vec![part(1, 200)]), 1);
    loft.does(amend("R", &[2], vec![]), 2);
    assert_eq!((loft.state("R"), loft.balance("B")), (State::Cut, [100, 0, 0]));
}

#[test]
fn what_is_let_go_mends_others() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 100)]), 0);
    loft.does(reserve("S", &[("B", 200)]), 1);
    loft.does(counted("B", 250), 2);
    assert_eq!(loft.lines("S"), [(200, 150)]);
    let outcome = loft.does(release("R"), 3);
    assert_eq!(loft.lines("S"), [(200, 200)]);
    assert_eq!((outcome.promises[0].short_before, outcome.promises[0].short), (cm(50), cm(0)));
    let told: Vec<_> = loft.events.iter().map(|event| event.kind).collect();
    assert_eq!(told[told.len() - 2..], [EventKind::Released, EventKind::Mended]);
}

#[test]
fn a_request_is_carried_out_once() {
    let mut loft = loft(vec![bolt("B", 300)]);
    let request = |body| Some(Request { scope: "ada".to_owned(), key: "k".to_owned(), body: [body; 32] });
    let first = loft.apply(reserve("R", &[("B", 100)]), at(0), request(1)).unwrap();
    let before = loft.clone();
    let again = loft.apply(reserve("R", &[("B", 100)]), at(9), request(1)).unwrap();
    assert_eq!((again.0, again.1), (first.0, true));
    assert_eq!(loft, before);
    assert_eq!(loft.apply(reserve("R2", &[("B", 100)]), at(9), request(2)), Err(Failed::KeyReused));
    // a refusal is not kept
    let other = Some(Request { scope: "ada".to_owned(), key: "k2".to_owned(), body: [3; 32] });
    assert!(loft.apply(reserve("S", &[("B", 201)]), at(9), other.clone()).is_err());
    assert!(loft.apply(reserve("S", &[("B", 201)]), at(HOLD), other).is_ok());
}

#[test]
fn what_cannot_be_taken_is_refused() {
    let mut loft = loft(vec![bolt("B", 300)]);
    let mut fails = |reserve: Reserve| loft.run(Command::Reserve(reserve), at(0)).unwrap_err();
    let one = || hold("R", vec![line("B", 10)]);
    assert_eq!(fails(hold("R", vec![])), Refusal::Empty);
    assert_eq!(fails(Reserve { seconds: 0, ..one() }), Refusal::BadSeconds(0));
    assert_eq!(fails(Reserve { bench_milli_minutes: -1, ..one() }), Refusal::BadBenchTime(-1));
    assert_eq!(fails(hold("R", vec![line("Z", 1)])), Refusal::NoPiece("Z".into()));
    assert_eq!(fails(hold("R", vec![line("B", 0)])), Refusal::BadAmount(Class::Cloth, cm(0)));
    let vast = NewLine { amount: Amount(i64::MAX), ..line("B", 1) };
    assert_eq!(fails(hold("R", vec![vast])), Refusal::BadAmount(Class::Cloth, Amount(i64::MAX)));
    assert_eq!(fails(Reserve { supersedes: Some("Q".into()), ..one() }), Refusal::NoReservation("Q".into()));
}
