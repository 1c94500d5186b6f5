//! A long walk of commands by dice: after it, and on the way, everything agrees.

use super::*;
use crate::rules::{
    Adjust, Adjustment, Amend, Cancel, CutId, Extend, Flaw, Refusal, ReservationId, Sweep, Undo,
};

/// A small generator of numbers (the multiplier is Knuth's for 64 bits), the same every time.
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: u64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        i64::try_from((self.0 >> 33) % most).expect("small")
    }

    fn one_of(&mut self, most: usize) -> usize {
        usize::try_from(self.below(u64::try_from(most.max(1)).expect("small"))).expect("small")
    }
}

/// Names of what is there; the latest of each kind are asked for, so that the dice meet them again.
#[derive(Default)]
struct Names {
    pieces: Vec<String>,
    reservations: Vec<String>,
    cuts: Vec<String>,
}

fn pick(dice: &mut Dice, names: &[String]) -> String {
    let late = names.len().saturating_sub(6);
    let latest = names.get(late..).unwrap_or_default();
    latest.get(dice.one_of(latest.len())).cloned().unwrap_or_else(|| "none".to_owned())
}

fn next(dice: &mut Dice, names: &Names, turn: i32) -> Command {
    let piece = pick(dice, &names.pieces);
    let reservation = ReservationId(pick(dice, &names.reservations));
    let adjust =
        |piece: &str, what| Command::Adjust(Adjust { piece: piece.into(), what, note: String::new() });
    match dice.below(20) {
        0 => {
            let name = format!("B{turn}");
            receive(vec![bolt(&name, cm(300 + dice.below(900)))])
        }
        1 => adjust(&piece, Adjustment::Counted(cm(dice.below(800)))),
        2 => adjust(&piece, Adjustment::Gone(cm(1 + dice.below(60)), Reason::Damaged)),
        3 => adjust(&piece, Adjustment::Found(cm(1 + dice.below(60)))),
        4 => {
            let from = dice.below(200);
            let flaw = Flaw { from: cm(from).length(), to: cm(from + 1 + dice.below(20)).length() };
            adjust(&piece, Adjustment::Flaws(vec![flaw]))
        }
        5 => adjust(&piece, Adjustment::Flaws(Vec::new())),
        6 => Command::Extend(Extend { id: reservation, seconds: 900, most_seconds: 3_600 }),
        7 => release(reservation.as_str()),
        8 => Command::Cancel(Cancel { id: reservation, reason: "called off".into() }),
        9 | 10 => confirm(reservation.as_str()),
        11..=13 => {
            let (name, remnant) = (format!("C{turn}"), format!("M{turn}"));
            let taken = 8 + dice.below(120);
            let kept = (dice.below(2) == 0).then(|| 1 + dice.below(6));
            let kept = kept.map(|kept| (remnant.as_str(), cm(kept)));
            cut(&name, reservation.as_str(), cm(taken), cm(dice.below(10).min(taken / 4)), kept)
        }
        14 => Command::Undo(Undo { cut: CutId(pick(dice, &names.cuts)) }),
        15 => Command::Amend(Amend {
            id: reservation,
            ends: vec![1],
            planned_on: None,
            lines: vec![NewLine {
                piece: piece.as_str().into(),
                item: 1,
                amount: cm(1 + dice.below(80)),
                shapes: 2,
                shape_area: 0,
            }],
            sale: None,
            reason: "another lot".into(),
        }),
        16 => Command::Sweep(Sweep { most: 10 }),
        _ => {
            let name = format!("R{turn}");
            let other = pick(dice, &names.pieces);
            let lines =
                [(piece.as_str(), cm(1 + dice.below(120))), (other.as_str(), cm(1 + dice.below(120)))];
            let mut command = reserve(&name, &lines);
            if let Command::Reserve(reserve) = &mut command {
                reserve.supersedes = (dice.below(5) == 0).then_some(reservation);
                reserve.most_holds = (dice.below(3) == 0).then_some(40);
            }
            command
        }
    }
}

#[tokio::test]
async fn a_walk_by_dice_leaves_nothing_that_disagrees() {
    let mut refused = std::collections::BTreeMap::<String, u32>::new();
    let mut done = std::collections::BTreeMap::<String, u32>::new();
    for seed in 0..4 {
        let loft = Loft::new();
        let (mut dice, mut names, mut now) = (Dice(seed), Names::default(), NOON);
        for turn in 0..600 {
            // mostly some seconds on, now and then ten minutes, and sometimes back
            now = now.after_seconds(match dice.below(20) {
                0 => 600,
                1 => -30,
                other => other,
            });
            let command = next(&mut dice, &names, turn);
            let kind = format!("{command:?}").split('(').next().unwrap_or_default().to_owned();
            match loft.store.apply(at(now, command.clone()), None).await {
                Ok(applied) => {
                    names.pieces.extend(applied.outcome.received.into_iter().map(|piece| piece.0));
                    match command {
                        Command::Reserve(reserve) => names.reservations.push(reserve.id.0),
                        Command::Cut(cut) => names.cuts.push(cut.id.0),
                        _ => {}
                    }
                    *done.entry(kind).or_default() += 1;
                }
                Err(Error::Refused(refusal)) => {
                    assert_ne!(refusal, Refusal::Empty, "{command:?}");
                    *refused.entry(kind).or_default() += 1;
                }
                Err(other) => panic!("seed {seed}, turn {turn}, {command:?}: {other:?}"),
            }
            if turn % 60 == 59 {
                let verified = loft.store.verify().await.expect("looked through");
                assert_eq!(verified.drift, Vec::<String>::new(), "seed {seed}, turn {turn}");
                let read = loft.store.read_shelf().await.expect("a look");
                assert_eq!(loft.store.shelf().materials, read.materials, "seed {seed}, turn {turn}");
            }
        }
    }
    // the dice reached every kind
    for kind in [
        "Receive", "Adjust", "Reserve", "Extend", "Confirm", "Release", "Cancel", "Amend", "Cut", "Undo",
        "Sweep",
    ] {
        assert!(done.get(kind).is_some_and(|many| *many > 5), "{kind}: {done:?}, refused {refused:?}");
    }
}
