//! What comes, and what is found to be so.

use super::make::{
    adjust, at, bolt, buttons, cm, confirm, counted, flaw, kelp, loft, receive, reserve, roll,
};
use super::memory::Memory;
use crate::rules::{
    Account, Adjustment, Amount, Class, EventKind, Flaw, Material, MovementKind, NewPiece, PieceKind, Reason,
    Refusal, State,
};
use pennantry_measure::Length;

#[test]
fn pieces_come_all_or_none() {
    let mut loft = Memory::default();
    let mut fails = |pieces: Vec<NewPiece>| loft.run(receive(pieces), at(0)).unwrap_err();
    assert_eq!(fails(vec![]), Refusal::Empty);
    assert_eq!(fails(vec![bolt("B", 1), bolt("B", 2)]), Refusal::Twice("B".to_owned()));
    assert_eq!(fails(vec![bolt("A", 1), bolt("B", 0)]), Refusal::BadAmount(Class::Cloth, cm(0)));
    let over = Amount(Amount::MOST.0 + 1);
    assert_eq!(
        fails(vec![NewPiece { amount: over, ..bolt("B", 1) }]),
        Refusal::BadAmount(Class::Cloth, over)
    );
    let narrow = NewPiece { width: Length::from_mm(-1), ..bolt("B", 1) };
    assert_eq!(fails(vec![narrow]), Refusal::BadWidth("B".into(), Length::from_mm(-1)));
    let flawed = |flaws| vec![NewPiece { flaws, ..bolt("B", 100) }];
    for flaws in [
        vec![flaw(10, 10)],
        vec![flaw(-1, 10)],
        vec![flaw(90, 101)],
        vec![flaw(50, 60), flaw(10, 20)],
        vec![flaw(10, 30), flaw(20, 40)],
    ] {
        assert_eq!(fails(flawed(flaws)), Refusal::BadFlaws("B".into()));
    }
    let spotted = NewPiece { flaws: vec![flaw(0, 1)], ..buttons("X", 20_000) };
    assert_eq!(fails(vec![spotted]), Refusal::BadFlaws("X".into()));
    assert_eq!(loft.pieces.len(), 0);

    let whole =
        vec![NewPiece { flaws: vec![flaw(10, 20), flaw(20, 100)], ..bolt("B", 100) }, roll("T", 5_000)];
    let outcome = loft.does(receive(whole), 1);
    assert_eq!(outcome.received, ["B".into(), "T".into()]);
    let bolt = loft.on("B");
    assert_eq!(
        (bolt.kind, &bolt.material, bolt.received, bolt.at),
        (PieceKind::Bolt, &kelp(), cm(100), at(1))
    );
    assert_eq!(
        (bolt.cost_minor, bolt.supplier.as_str(), bolt.parent.as_ref()),
        (Some(2_100), "Harbour Cloth", None)
    );
    let moves: Vec<_> = loft.movements.iter().map(|m| (m.kind, m.from, m.to, m.amount)).collect();
    let came = |amount| (MovementKind::Receive, Account::Supplier, Account::Free, cm(amount));
    assert_eq!(moves, [came(100), came(5_000)]);
    assert_eq!(
        loft.run(receive(vec![super::make::bolt("B", 1)]), at(2)),
        Err(Refusal::PieceExists("B".into()))
    );
}

#[test]
fn a_count_takes_from_the_lowest_in_rank_and_gives_back() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("H", &[("B", 100)]), 0);
    loft.does(reserve("K", &[("B", 100)]), 1);
    loft.does(confirm("K", "1"), 2);
    // ten short of what is promised: the hold loses, although it came first
    let outcome = loft.does(counted("B", 190), 3);
    assert_eq!((loft.lines("H"), loft.lines("K")), (vec![(100, 90)], vec![(100, 100)]));
    let promise = &outcome.promises[0];
    assert_eq!(
        (promise.state, promise.line, promise.short_before, promise.short),
        (State::Held, 1, cm(0), cm(10))
    );
    assert_eq!(outcome.pieces[0].left, cm(190));
    let moves: Vec<_> = loft.movements[loft.movements.len() - 2..]
        .iter()
        .map(|m| (m.kind, m.from, m.to, m.amount.0 / 10_000, m.reservation.is_some(), m.reason))
        .collect();
    assert_eq!(
        moves,
        [
            (MovementKind::Shorten, Account::Held, Account::Free, 10, true, Reason::None),
            (MovementKind::Count, Account::Free, Account::Elsewhere, 110, false, Reason::Count),
        ]
    );
    let told: Vec<_> = loft.events.iter().map(|event| (event.kind, event.amount)).collect();
    assert_eq!(told[told.len() - 2..], [(EventKind::Adjusted, cm(190)), (EventKind::Shortened, cm(10))]);
    // down to nought, and back up
    loft.does(counted("B", 0), 4);
    assert_eq!((loft.lines("H"), loft.lines("K")), (vec![(100, 0)], vec![(100, 0)]));
    loft.does(counted("B", 130), 5);
    assert_eq!((loft.lines("H"), loft.lines("K")), (vec![(100, 30)], vec![(100, 100)]));
    // what is on the books: told, nothing moved
    let before = loft.clone();
    loft.does(counted("B", 130), 6);
    assert_eq!((loft.movements.len(), loft.events.len()), (before.movements.len(), before.events.len() + 1));
}

#[test]
fn losses_and_finds() {
    let mut loft = loft(vec![bolt("B", 300), buttons("X", 20)]);
    let mut fails = |piece: &str, what| loft.run(adjust(piece, what), at(0)).unwrap_err();
    let more =
        Refusal::MoreThanLies { piece: "B".into(), class: Class::Cloth, taken: cm(301), left: cm(300) };
    assert_eq!(fails("B", Adjustment::Gone(cm(301), Reason::Lost)), more);
    let bad = |amount| Refusal::BadAmount(Class::Cloth, amount);
    assert_eq!(fails("B", Adjustment::Gone(cm(0), Reason::Lost)), bad(cm(0)));
    assert_eq!(fails("B", Adjustment::Found(cm(0))), bad(cm(0)));
    let beyond = Amount(Amount::MOST.0 - cm(300).0 + 1);
    assert_eq!(fails("B", Adjustment::Found(beyond)), bad(beyond));
    assert_eq!(fails("B", Adjustment::Counted(cm(-1))), bad(cm(-1)));
    let over = Amount(Amount::MOST.0 + 1);
    assert_eq!(fails("B", Adjustment::Counted(over)), bad(over));
    assert_eq!(fails("Z", Adjustment::Found(cm(1))), Refusal::NoPiece("Z".into()));
    let spots = Adjustment::Flaws(vec![flaw(0, 1)]);
    assert_eq!(fails("X", spots), Refusal::BadFlaws("X".into()));

    loft.does(adjust("X", Adjustment::Gone(Amount(3), Reason::Sample)), 1);
    loft.does(adjust("X", Adjustment::Found(Amount(1))), 2);
    assert_eq!(loft.on("X").left, Amount(18));
    let last = |n: usize| &loft.movements[loft.movements.len() - n];
    assert_eq!(
        (last(2).kind, last(2).reason, last(2).to),
        (MovementKind::Adjust, Reason::Sample, Account::Elsewhere)
    );
    assert_eq!(
        (last(1).kind, last(1).reason, last(1).from),
        (MovementKind::Adjust, Reason::Found, Account::Elsewhere)
    );
    assert_eq!(last(1).note, "looked");
    loft.does(adjust("B", Adjustment::Moved("window".to_owned())), 3);
    assert_eq!(loft.on("B").location, "window");
    // as much as there may be
    loft.does(adjust("B", Adjustment::Counted(Amount::MOST)), 4);
    assert_eq!(loft.on("B").left, Amount::MOST);
}

#[test]
fn what_is_gone_is_gone_at_the_far_end() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(adjust("B", Adjustment::Flaws(vec![flaw(100, 120), flaw(250, 260)])), 0);
    loft.does(adjust("B", Adjustment::Gone(cm(45), Reason::SentBack)), 1);
    assert_eq!(loft.on("B").flaws, [flaw(100, 120), flaw(250, 255)]);
    loft.does(counted("B", 250), 2);
    assert_eq!(loft.on("B").flaws, [flaw(100, 120)]);
    loft.does(adjust("B", Adjustment::Found(cm(50))), 3);
    assert_eq!(loft.on("B").flaws, [flaw(100, 120)]);
    loft.does(counted("B", 0), 4);
    assert_eq!(loft.on("B").flaws, []);
}

/// Two who look along a bolt each tell of what they see, and neither takes the other's away.
#[test]
fn a_flaw_more_leaves_the_others() {
    let mut loft = loft(vec![bolt("B", 300), buttons("X", 20)]);
    let more = |flaws: &[Flaw]| adjust("B", Adjustment::MoreFlaws(flaws.to_vec()));
    loft.does(more(&[flaw(100, 120)]), 0);
    loft.does(more(&[flaw(250, 260), flaw(20, 30)]), 1);
    assert_eq!(loft.on("B").flaws, [flaw(20, 30), flaw(100, 120), flaw(250, 260)]);
    // what is told again changes nothing; what meets is one
    loft.does(more(&[flaw(100, 120)]), 2);
    assert_eq!(loft.on("B").flaws.len(), 3);
    loft.does(more(&[flaw(30, 40), flaw(110, 255)]), 3);
    assert_eq!(loft.on("B").flaws, [flaw(20, 40), flaw(100, 260)]);
    let bad = Err(Refusal::BadFlaws("B".into()));
    for flaws in [&[flaw(290, 301)][..], &[flaw(50, 50)], &[flaw(60, 50)], &[flaw(-1, 5)]] {
        assert_eq!(loft.run(more(flaws), at(4)), bad, "{flaws:?}");
    }
    assert_eq!(loft.run(more(&[]), at(4)), Err(Refusal::Empty));
    let counted = adjust("X", Adjustment::MoreFlaws(vec![flaw(0, 1)]));
    assert_eq!(loft.run(counted, at(4)), Err(Refusal::BadFlaws("X".into())));
    assert_eq!(loft.on("B").flaws, [flaw(20, 40), flaw(100, 260)]);
    // who lies across it is short, as by any flaw
    loft.does(reserve("R", &[("B", 60)]), 5);
    assert_eq!(loft.lines("R"), [(60, 60)]);
    loft.does(more(&[flaw(70, 80), flaw(270, 280)]), 6);
    assert_eq!(loft.lines("R"), [(60, 30)]);
}

#[test]
fn a_flaw_takes_from_who_lies_across_it() {
    let mut loft = loft(vec![bolt("B", 300)]);
    loft.does(reserve("R", &[("B", 200)]), 0);
    loft.does(reserve("S", &[("B", 100)]), 1);
    // stretches of 1.00 m and 1.90 m: R was first and gets 1.90 m, S fits into the metre
    let outcome = loft.does(adjust("B", Adjustment::Flaws(vec![flaw(100, 110)])), 2);
    assert_eq!((loft.lines("R"), loft.lines("S")), (vec![(200, 190)], vec![(100, 100)]));
    assert_eq!(outcome.promises.len(), 1);
    // it was none
    let outcome = loft.does(adjust("B", Adjustment::Flaws(vec![])), 3);
    assert_eq!((loft.lines("R"), loft.lines("S")), (vec![(200, 200)], vec![(100, 100)]));
    assert_eq!(outcome.promises[0].short, cm(0));
}

#[test]
fn materials_have_names() {
    let material = Material { class: Class::Binding, code: "TAPE".to_owned() };
    assert_eq!(material.to_string(), "binding TAPE");
}
