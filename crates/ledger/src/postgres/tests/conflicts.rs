//! A transaction that the database cannot put in an order (40001), for every command there is.

use super::{
    BeforeCommit, CONFLICT, Shop, asked, bolt, command, confirm, done, hold, kelp, mm, receive, release,
};
use crate::engine::FindPieces;
use crate::postgres::{Clock, Options};
use crate::rules::{
    Adjust, Adjustment, Amend, Amount, Cancel, CancelOrder, Command, Cut, Envelope, Extend, NewLine,
    NewOrderLine, Place, Reserve, Sweep, Undo,
};

/// A day of a loft in which every command is carried out with success.
fn day() -> Vec<Envelope> {
    let reserve = |id: &str, length_mm: i64| command(Command::Reserve(hold(id, &[("B1", length_mm)])));
    let one = |piece: &str, length_mm: i64| NewLine {
        piece: piece.into(),
        item: 0,
        amount: mm(length_mm),
        shapes: 4,
        shape_area: 0,
    };
    let flaws = Adjustment::Counted(mm(9_000));
    let lines = vec![NewOrderLine { material: kelp(), amount: mm(20_000) }];
    let over = Reserve { seconds: 1, ..hold("R4", &[("B1", 100)]) };
    let overdue = Envelope {
        at: command(Command::Sweep(Sweep { most: 1 })).at.after_seconds(60),
        ..command(Command::Sweep(Sweep { most: 9 }))
    };
    vec![
        receive(vec![bolt("B1", 10_000), bolt("B2", 5_000)]),
        command(Command::Adjust(Adjust { piece: "B1".into(), what: flaws, note: String::new() })),
        reserve("R1", 1_000),
        command(Command::Extend(Extend { id: "R1".into(), seconds: 1_900, most_seconds: 7_200 })),
        confirm("R1"),
        command(Command::Cut(Cut {
            id: "C1".into(),
            reservation: "R1".into(),
            parts: Vec::new(),
            day: None,
        })),
        command(Command::Undo(Undo { cut: "C1".into() })),
        command(Command::Amend(Amend {
            id: "R1".into(),
            ends: vec![1],
            planned_on: Some(vec![(1, mm(1_000))]),
            lines: vec![one("B2", 1_000)],
            sale: None,
            reason: "a flaw".to_owned(),
        })),
        command(Command::Cancel(Cancel { id: "R1".into(), reason: "called off".to_owned() })),
        reserve("R2", 500),
        release("R2"),
        command(Command::Place(Place {
            id: "O1".into(),
            supplier: "Ropewalk Mill".to_owned(),
            expected_day: 20_800,
            note: String::new(),
            lines,
        })),
        command(Command::CancelOrder(CancelOrder { id: "O1".into(), reason: "late".to_owned() })),
        command(Command::Reserve(over)),
        overdue,
    ]
}

/// Which command it is; one that is new has no place here yet, and this does not compile.
const fn kind(command: &Command) -> usize {
    match command {
        Command::Receive(_) => 0,
        Command::Adjust(_) => 1,
        Command::Reserve(_) => 2,
        Command::Extend(_) => 3,
        Command::Confirm(_) => 4,
        Command::Release(_) => 5,
        Command::Cancel(_) => 6,
        Command::Amend(_) => 7,
        Command::Cut(_) => 8,
        Command::Undo(_) => 9,
        Command::Place(_) => 10,
        Command::CancelOrder(_) => 11,
        Command::Sweep(_) => 12,
    }
}

/// Refused twice each at its commit, every command is done once, as where nothing is in its way.
#[tokio::test(flavor = "multi_thread")]
async fn a_conflict_before_the_commit_of_any_command_changes_nothing_but_the_time_it_takes() {
    let hook = BeforeCommit::new(|before| (before % 3 != 2).then_some(CONFLICT));
    let options = || Options { clock: Clock::Given, ..Options::default() };
    let shop = Shop::with(Options { before_commit: hook.clone(), ..options() }).await;
    let plain = Shop::with(options()).await;
    let (mut seen, mut times) = ([false; 13], 0);
    for (number, envelope) in day().into_iter().enumerate() {
        seen[kind(&envelope.command)] = true;
        times += 3;
        let told = format!("{:?}", envelope.command);
        let envelope = asked(&format!("k{number}"), 1, envelope);
        let answer = done(&shop.store, envelope.clone()).await;
        assert_eq!(hook.times(), times, "{told}");
        assert!(!answer.replayed, "{told}");
        assert_eq!(answer, done(&plain.store, envelope.clone()).await, "{told}");
        // and its answer is kept once
        let again = done(&shop.store, envelope).await;
        assert!(again.replayed && again.outcome == answer.outcome, "{told}");
    }
    assert_eq!(seen, [true; 13], "every command is in it");
    for piece in ["B1", "B2"] {
        let moved = |shop: &Shop| {
            let store = shop.store.clone();
            async move { store.movements(&piece.into(), 0, 100).await.unwrap() }
        };
        assert_eq!(moved(&shop).await, moved(&plain).await);
    }
    let all = FindPieces { empty_too: true, most: 10, ..FindPieces::default() };
    assert_eq!(shop.store.pieces(&all).await, plain.store.pieces(&all).await);
    assert_eq!(shop.store.events(0, 100).await, plain.store.events(0, 100).await);
    let left = shop.store.piece(&"B1".into()).await.unwrap().unwrap();
    assert_eq!((left.left, left.held + left.confirmed), (mm(9_000), Amount::ZERO));
    shop.is_sound().await;
}
