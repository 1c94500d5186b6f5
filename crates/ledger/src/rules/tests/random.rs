//! Random commands, good and bad, against an engine in memory; every invariant after each.

use proptest::collection::vec;
use proptest::prelude::*;

use super::make::{T0, bolt, buttons, cm, flaw, hold, line, part, remnant, roll};
use super::memory::{Failed, Memory};
use crate::rules::{
    Adjust, Adjustment, Amend, Amount, At, Cancel, CancelOrder, Command, Confirm, Cut, Extend, Finish,
    NewLine, NewOrderLine, NewPiece, Part, Place, Reason, Receive, Release, Request, Reserve, Sale, State,
    Sweep, Undo, kept,
};

/// Names are few, so that commands meet.
fn piece() -> impl Strategy<Value = String> {
    prop_oneof![
        8 => prop::sample::select(vec!["A", "B"]).prop_map(str::to_owned),
        2 => prop::sample::select(vec!["T", "X", "D", "R-0", "R-1", "R-2", "none"]).prop_map(str::to_owned),
    ]
}

fn reservation() -> impl Strategy<Value = String> {
    (0..5_u8).prop_map(|number| format!("R{number}"))
}

fn cut_name() -> impl Strategy<Value = String> {
    (0..6_u8).prop_map(|number| format!("C{number}"))
}

fn order() -> impl Strategy<Value = String> {
    prop::sample::select(vec!["O", "P"]).prop_map(str::to_owned)
}

/// Hundredths of a metre, sometimes nonsense.
fn amount() -> impl Strategy<Value = Amount> {
    prop_oneof![
        20 => (1..60_i64).prop_map(cm),
        10 => (40..200_i64).prop_map(cm),
        2 => (1..9_i64).prop_map(Amount),
        1 => (-3..1_i64).prop_map(cm),
        1 => prop::sample::select(vec![i64::MIN, i64::MAX, Amount::MOST.0, Amount::MOST.0 + 1]).prop_map(Amount),
    ]
}

fn flaws() -> impl Strategy<Value = Vec<crate::rules::Flaw>> {
    vec((0..60_i64, 1..25_i64), 0..4).prop_map(|gaps| {
        let mut end = 0;
        let next = |(gap, long): (i64, i64)| {
            let from = end + gap;
            end = from + long;
            flaw(from, end)
        };
        gaps.into_iter().map(next).collect()
    })
}

fn new_piece() -> impl Strategy<Value = NewPiece> {
    (piece(), amount(), flaws(), 0..3_u8).prop_map(|(id, amount, flaws, kind)| {
        let piece = match kind {
            0 => roll(&id, 1),
            1 => buttons(&id, 1),
            _ => bolt(&id, 1),
        };
        NewPiece { amount, flaws: if kind == 1 { Vec::new() } else { flaws }, ..piece }
    })
}

fn new_line() -> impl Strategy<Value = NewLine> {
    let piece = prop_oneof![9 => prop::sample::select(vec!["A", "B"]).prop_map(str::to_owned), 1 => piece()];
    let amount = prop_oneof![9 => (30..150_i64).prop_map(cm), 3 => (1..30_i64).prop_map(cm), 1 => amount()];
    (piece, amount).prop_map(|(piece, amount)| NewLine { amount, ..line(&piece, 1) })
}

fn cut_part() -> impl Strategy<Value = Part> {
    let spoiled = prop_oneof![3 => Just(cm(0)), 1 => (1..40_i64).prop_map(cm)];
    let remnants = vec((0..3_u8, 1..60_i64, prop::sample::select(vec![1_400, 1_400, 300, 0, 2_000])), 0..3);
    (
        1..4_u32,
        proptest::option::weighted(0.3, piece()),
        amount(),
        spoiled,
        remnants,
        any::<bool>(),
        any::<bool>(),
    )
        .prop_map(|(line, piece, taken, spoiled, remnants, done, keeps)| Part {
            piece: piece.map(|id| id.as_str().into()),
            taken,
            spoiled,
            why: Reason::Flaw,
            remnants: if keeps {
                remnants.iter().map(|(n, long, wide)| remnant(&format!("R-{n}"), *long, *wide)).collect()
            } else {
                Vec::new()
            },
            finish: if done { Finish::Done } else { Finish::WhenEnough },
            ..part(line, 1)
        })
}

fn adjustment() -> impl Strategy<Value = Adjustment> {
    prop_oneof![
        3 => (30..330_i64).prop_map(|amount| Adjustment::Counted(cm(amount))),
        1 => amount().prop_map(Adjustment::Counted),
        2 => amount().prop_map(|amount| Adjustment::Gone(amount, Reason::Damaged)),
        2 => amount().prop_map(Adjustment::Found),
        3 => flaws().prop_map(Adjustment::Flaws),
        2 => flaws().prop_map(Adjustment::MoreFlaws),
        1 => Just(Adjustment::Moved("window".to_owned())),
    ]
}

fn reserve() -> impl Strategy<Value = Reserve> {
    let most = proptest::option::weighted(0.2, 1..3_u32);
    let seconds = prop_oneof![1 => -1..1_i64, 20 => 20..200_i64];
    (
        reservation(),
        any::<bool>(),
        most,
        seconds,
        vec(new_line(), 0..4),
        proptest::option::weighted(0.35, reservation()),
    )
        .prop_map(|(id, is_ada, most_holds, seconds, lines, supersedes)| Reserve {
            holder: if is_ada { "ada" } else { "bo" }.to_owned(),
            most_holds,
            seconds,
            supersedes: supersedes.map(|id| id.as_str().into()),
            ..hold(&id, lines)
        })
}

/// A day before today, or rarely one that cannot be; [`aim`] makes it one of the shop's.
fn cut_day() -> impl Strategy<Value = Option<i32>> {
    prop_oneof![6 => Just(None), 3 => (-3..=0).prop_map(Some), 1 => (-40..=1).prop_map(Some)]
}

fn command() -> impl Strategy<Value = Command> {
    let sale = Sale { quote: "q2".to_owned(), bench_milli_minutes: 3, leave_day: None, sold: vec![] };
    prop_oneof![
        2 => (vec(new_piece(), 0..3), proptest::option::weighted(0.3, order())).prop_map(|(pieces, order)| {
            Command::Receive(Receive { pieces, order: order.map(|id| id.as_str().into()) })
        }),
        5 => (piece(), adjustment()).prop_map(|(piece, what)| {
            Command::Adjust(Adjust { piece: piece.as_str().into(), what, note: String::new() })
        }),
        10 => reserve().prop_map(Command::Reserve),
        2 => (reservation(), 0..400_i64).prop_map(|(id, seconds)| {
            Command::Extend(Extend { id: id.as_str().into(), seconds, most_seconds: 500 })
        }),
        6 => (reservation(), 0..2_u8).prop_map(|(id, reference)| {
            Command::Confirm(Confirm { id: id.as_str().into(), order_reference: reference.to_string() })
        }),
        2 => reservation().prop_map(|id| Command::Release(Release { id: id.as_str().into() })),
        2 => reservation().prop_map(|id| {
            Command::Cancel(Cancel { id: id.as_str().into(), reason: "r".to_owned() })
        }),
        4 => (reservation(), vec(1..4_u32, 0..2), vec(new_line(), 0..2), any::<bool>()).prop_map(
            move |(id, ends, lines, sells)| {
                let sale = sells.then(|| sale.clone());
                let (id, reason) = (id.as_str().into(), "r".to_owned());
                Command::Amend(Amend { id, ends, planned_on: None, lines, sale, reason })
            }
        ),
        10 => (cut_name(), reservation(), vec(cut_part(), 0..3), cut_day()).prop_map(|(id, reservation, parts, day)| {
            Command::Cut(Cut { id: id.as_str().into(), reservation: reservation.as_str().into(), parts, day })
        }),
        4 => cut_name().prop_map(|cut| Command::Undo(Undo { cut: cut.as_str().into() })),
        1 => (order(), vec((0..3_u8, amount()), 0..3)).prop_map(|(id, lines)| {
            let of = |(kind, amount)| NewOrderLine { material: [bolt("", 1), roll("", 1), buttons("", 1)]
                [usize::from(kind)].material.clone(), amount };
            let lines = lines.into_iter().map(of).collect();
            Command::Place(Place { id: id.as_str().into(), supplier: "s".to_owned(), expected_day: 1,
                note: String::new(), lines })
        }),
        1 => order().prop_map(|id| {
            Command::CancelOrder(CancelOrder { id: id.as_str().into(), reason: "r".to_owned() })
        }),
        1 => (0..3_u32).prop_map(|most| Command::Sweep(Sweep { most })),
    ]
}

/// A command, how many microseconds after the one before, whether it has a key, and luck.
type Step = (Command, i64, Option<u8>, u8);

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let later =
        prop_oneof![4 => 1..3_i64, 4 => Just(7_000_000_i64), 1 => Just(95_000_000), 1 => Just(601_000_000)];
    vec((command(), later, proptest::option::weighted(0.2, 0..40_u8), any::<u8>()), 1..60)
}

/// Aims a command at something it can be carried out on, unless luck has it otherwise.
fn aim(loft: &Memory, mut command: Command, luck: u8) -> Command {
    if let Command::Cut(Cut { day: Some(day), .. }) = &mut command {
        *day += super::memory::DAY + loft.day;
    }
    if luck >= 210 {
        return command;
    }
    let luck = usize::from(luck);
    let one_of = |states: &[State]| {
        let there: Vec<_> = loft.reservations.values().filter(|r| states.contains(&r.state)).collect();
        there.get(luck % there.len().max(1)).copied()
    };
    let live = [State::Held, State::Confirmed];
    match command {
        Command::Reserve(mut reserve) => {
            reserve.id = format!("R{}", loft.reservations.len()).as_str().into();
            if let (Some(_), Some(before)) = (&reserve.supersedes, one_of(&[State::Held])) {
                reserve.supersedes = Some(before.id.clone());
                reserve.holder.clone_from(&before.holder);
            }
            reserve.lines.truncate(2);
            Command::Reserve(reserve)
        }
        Command::Receive(mut receive) => {
            for (number, piece) in receive.pieces.iter_mut().enumerate() {
                piece.id = format!("P{}", loft.pieces.len() + number).as_str().into();
                piece.flaws.retain(|flaw| Amount::of_length(flaw.to) <= piece.amount);
            }
            Command::Receive(receive)
        }
        Command::Extend(mut extend) => {
            extend.id = one_of(&[State::Held]).map_or(extend.id, |to| to.id.clone());
            Command::Extend(extend)
        }
        Command::Confirm(mut confirm) => {
            confirm.id = one_of(&[State::Held]).map_or(confirm.id, |to| to.id.clone());
            Command::Confirm(confirm)
        }
        Command::Release(mut release) => {
            release.id = one_of(&[State::Held]).map_or(release.id, |to| to.id.clone());
            Command::Release(release)
        }
        Command::Cancel(mut cancel) => {
            let states = [State::Held, State::Confirmed, State::Cut];
            cancel.id = one_of(&states).map_or(cancel.id, |to| to.id.clone());
            Command::Cancel(cancel)
        }
        Command::Amend(mut amend) => {
            if let Some(to) = one_of(&live) {
                amend.id = to.id.clone();
                let wanted = to.lines.iter().filter(|line| line.wanted.is_some()).map(|line| line.number);
                let many = amend.ends.len();
                amend.ends = wanted.take(many).collect();
                amend.planned_on = amend.lines.is_empty().then(|| to.wants().collect());
            }
            Command::Amend(amend)
        }
        Command::Cut(mut cut) => {
            cut.id = format!("C{}", loft.cuts.len()).as_str().into();
            if let Some(to) = one_of(&live) {
                cut.reservation = to.id.clone();
                let wanted: Vec<_> = to.lines.iter().filter(|line| line.wanted.is_some()).collect();
                for (part, line) in cut.parts.iter_mut().zip(wanted.iter().cycle()) {
                    part.line = line.number;
                    let piece = part.piece.as_ref().unwrap_or(&line.piece);
                    if let Some(piece) = loft.pieces.get(piece) {
                        part.taken = part.taken.min(piece.left);
                        part.spoiled = part.spoiled.min(part.taken);
                    }
                    for remnant in &mut part.remnants {
                        let name = remnant.id.as_str().to_owned();
                        remnant.id = format!("{name}.{}", loft.pieces.len()).as_str().into();
                        remnant.length = remnant.length.min((part.taken - part.spoiled).length());
                    }
                    part.remnants.truncate(luck % 3);
                }
            }
            Command::Cut(cut)
        }
        Command::Undo(mut undo) => {
            let made: Vec<_> = loft.cuts.values().filter(|cut| !cut.undone).collect();
            let last = made.iter().max_by_key(|cut| (cut.at, &cut.id));
            undo.cut = last.map_or(undo.cut, |cut| cut.id.clone());
            Command::Undo(undo)
        }
        other => other,
    }
}

/// What is seen of one run, so that the test can tell that it reached something.
fn run(steps: Vec<Step>, flaws: Vec<crate::rules::Flaw>) -> (Memory, u32, u32) {
    let mut loft = Memory::default();
    let mut now = T0;
    let start = vec![bolt("A", 300), NewPiece { flaws, ..bolt("B", 300) }, roll("T", 900), buttons("X", 40)];
    loft.run(super::make::receive(start), now).unwrap();
    let (mut done, mut refused) = (0, 0);
    for (command, later, key, luck) in steps {
        now = At(now.0 + later);
        // days are some minutes long here, so that much is taken back after midnight
        loft.day = i32::try_from((now.0 - T0.0) / 240_000_000).unwrap();
        let command = aim(&loft, command, luck);
        let request = key.map(|key| Request { scope: "s".to_owned(), key: key.to_string(), body: [0; 32] });
        let before = loft.clone();
        let answer = loft.apply(command.clone(), now, request.clone());
        match &answer {
            Ok((outcome, replayed)) => {
                done += 1;
                loft.check(now);
                loft.follows(&before);
                assert_eq!(kept::read(&kept::keep(outcome)).as_ref(), Some(outcome));
                if *replayed {
                    assert_eq!(loft, before);
                }
                // the same request again gets the same answer and writes nothing
                if request.is_some() {
                    let then = loft.clone();
                    let again = loft.apply(command, At(now.0 + 1), request);
                    assert_eq!(again, Ok((outcome.clone(), true)));
                    assert_eq!(loft, then);
                }
            }
            Err(Failed::Refused(refusal)) => {
                refused += 1;
                let (is, was) = (Memory { changes: 0, ..loft.clone() }, Memory { changes: 0, ..before });
                assert_eq!(is, was, "{refusal:?} wrote something");
                assert!(refusal.to_string().len() > 20);
            }
            Err(Failed::KeyReused) => panic!("bodies are all the same here"),
        }
    }
    (loft, done, refused)
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 2_500,
        failure_persistence: None,
        max_shrink_iters: 20_000,
        ..ProptestConfig::default()
    })]

    #[test]
    fn invariants_hold_after_every_command(steps in steps(), flaws in flaws()) {
        let within = flaws.into_iter().filter(|flaw| flaw.to <= cm(300).length()).collect();
        run(steps, within);
    }
}

/// That the random commands reach what they are to reach: over a fixed set of runs every kind of
/// event and of movement occurs, and neither answers nor refusals are rare.
#[test]
fn random_commands_reach_everything() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let (mut events, mut moves, mut all_done, mut all_refused) =
        (std::collections::BTreeMap::new(), std::collections::BTreeMap::new(), 0, 0);
    for _ in 0..400 {
        let steps = steps().new_tree(&mut runner).unwrap().current();
        let (loft, done, refused) = run(steps, vec![flaw(100, 110)]);
        (all_done, all_refused) = (all_done + done, all_refused + refused);
        for event in loft.events {
            *events.entry(event.kind).or_insert(0) += 1;
        }
        for movement in loft.movements {
            *moves.entry(movement.kind).or_insert(0) += 1;
        }
    }
    for kind in crate::rules::EventKind::ALL {
        assert!(events.get(&kind).copied().unwrap_or(0) > 5, "{kind:?}: {events:?}");
    }
    for kind in crate::rules::MovementKind::ALL {
        assert!(moves.get(&kind).copied().unwrap_or(0) > 5, "{kind:?}: {moves:?}");
    }
    println!("{all_done} done, {all_refused} refused, {events:?}, {moves:?}");
    assert!(all_done * 4 > all_refused, "{all_done} done, {all_refused} refused");
}
