//! Every state against every command. Rows are states, columns commands; each cell says what is
//! answered. Written by hand from the rules, not from the program.
//!
//! In a cell: a state, where the command is carried out and the reservation stands there after it;
//! `same`, where it is answered as it is and nothing is written; otherwise why it is refused.

use super::make::{
    HOLD, amend, at, bolt, cancel, confirm, counted, cut, extend, hold, line, loft, part, release, reserve,
    undo,
};
use super::memory::Memory;
use crate::rules::{Command, Refusal, Reserve};

/// A loft in which reservation `R` (0.50 m of B, which has 2.00 m) stands in a state, and the
/// second at which it is looked at.
fn standing(state: &str) -> (Memory, i64) {
    let mut loft = loft(vec![bolt("A", 300), bolt("B", 200)]);
    loft.does(reserve("R", &[("B", 50)]), 0);
    let mut then = |command, seconds| {
        loft.does(command, seconds);
    };
    let mut now = 60;
    match state {
        "held" => {}
        "held, short" => then(counted("B", 30), 10),
        "held, part cut" => then(cut("C", "R", vec![part(1, 20)]), 10),
        "held, over" => now = HOLD,
        "confirmed" => then(confirm("R", "77"), 10),
        "confirmed, short" => {
            then(confirm("R", "77"), 10);
            then(counted("B", 30), 20);
        }
        "confirmed, part cut" => {
            then(confirm("R", "77"), 10);
            then(cut("C", "R", vec![part(1, 20)]), 20);
        }
        "cut" => {
            then(confirm("R", "77"), 10);
            then(cut("C", "R", vec![]), 20);
        }
        "cut, never confirmed" => then(cut("C", "R", vec![]), 20),
        "released" => then(release("R"), 10),
        "expired" => {
            now = HOLD + 5;
            then(Command::Sweep(crate::rules::Sweep { most: 9 }), HOLD + 1);
        }
        "cancelled" => then(cancel("R"), 10),
        "cancelled, cut" => {
            then(confirm("R", "77"), 10);
            then(cut("C", "R", vec![]), 20);
            then(cancel("R"), 30);
        }
        "superseded" => then(Command::Reserve(superseding("S")), 10),
        other => panic!("{other}"),
    }
    (loft, now)
}

fn superseding(id: &str) -> Reserve {
    Reserve { supersedes: Some("R".into()), ..hold(id, vec![line("B", 60)]) }
}

fn command(name: &str) -> Command {
    match name {
        "extend" => extend("R", HOLD, 2 * HOLD),
        "confirm 77" => confirm("R", "77"),
        "confirm 78" => confirm("R", "78"),
        "release" => release("R"),
        "cancel" => cancel("R"),
        "amend" => amend("R", &[1], vec![line("A", 50)]),
        "cut" => cut("C2", "R", vec![]),
        "cut part" => cut("C2", "R", vec![part(1, 10)]),
        "undo" => undo("C"),
        "supersede" => Command::Reserve(superseding("S2")),
        "take again" => reserve("R", &[("A", 10)]),
        other => panic!("{other}"),
    }
}

fn refusal(refusal: &Refusal) -> &'static str {
    match refusal {
        Refusal::NotNow(..) => "not now",
        Refusal::Expired(..) => "over",
        Refusal::IsShort { .. } => "short",
        Refusal::NoLine(..) => "no line",
        Refusal::NoCut(..) => "no cut",
        Refusal::ReservationExists(..) => "exists",
        other => panic!("{other:?}"),
    }
}

const COLUMNS: [&str; 11] = [
    "extend",
    "confirm 77",
    "confirm 78",
    "release",
    "cancel",
    "amend",
    "cut",
    "cut part",
    "undo",
    "supersede",
    "take again",
];

#[rustfmt::skip]
const TABLE: [(&str, [&str; 11]); 14] = [
    // state                 extend     confirm 77   confirm 78   release     cancel       amend        cut        cut part     undo         supersede     take again
    ("held",                 ["held",    "confirmed", "confirmed", "released", "cancelled", "held",      "cut",     "held",      "no cut",    "superseded", "exists"]),
    ("held, short",          ["held",    "short",     "short",     "released", "cancelled", "held",      "short",   "held",      "no cut",    "taken",      "exists"]),
    ("held, part cut",       ["held",    "confirmed", "confirmed", "released", "cancelled", "held",      "cut",     "held",      "held",      "superseded", "exists"]),
    ("held, over",           ["over",    "over",      "over",      "expired",  "expired",   "over",      "over",    "over",      "no cut",    "over",       "exists"]),
    ("confirmed",            ["not now", "same",      "not now",   "not now",  "cancelled", "confirmed", "cut",     "confirmed", "no cut",    "not now",    "exists"]),
    ("confirmed, short",     ["not now", "same",      "not now",   "not now",  "cancelled", "confirmed", "short",   "confirmed", "no cut",    "not now",    "exists"]),
    ("confirmed, part cut",  ["not now", "same",      "not now",   "not now",  "cancelled", "confirmed", "cut",     "confirmed", "confirmed", "not now",    "exists"]),
    ("cut",                  ["not now", "same",      "not now",   "not now",  "cancelled", "not now",   "not now", "not now",   "confirmed", "not now",    "exists"]),
    ("cut, never confirmed", ["not now", "not now",   "not now",   "not now",  "cancelled", "not now",   "not now", "not now",   "held",      "not now",    "exists"]),
    ("released",             ["not now", "not now",   "not now",   "same",     "not now",   "not now",   "not now", "not now",   "no cut",    "not now",    "exists"]),
    ("expired",              ["over",    "over",      "over",      "same",     "same",      "over",      "over",    "over",      "no cut",    "over",       "exists"]),
    ("cancelled",            ["not now", "not now",   "not now",   "not now",  "same",      "not now",   "not now", "not now",   "no cut",    "not now",    "exists"]),
    ("cancelled, cut",       ["not now", "not now",   "not now",   "not now",  "same",      "not now",   "not now", "not now",   "cancelled", "not now",    "exists"]),
    ("superseded",           ["not now", "not now",   "not now",   "not now",  "not now",   "not now",   "not now", "not now",   "no cut",    "not now",    "exists"]),
];

#[test]
fn every_state_meets_every_command() {
    for (state, expected) in TABLE {
        for (name, expected) in COLUMNS.into_iter().zip(expected) {
            let (mut loft, now) = standing(state);
            let before = loft.clone();
            let answer = loft.run(command(name), at(now));
            loft.check(at(now));
            loft.follows(&before);
            let got = match &answer {
                Ok(_) if loft.events == before.events => "same",
                Ok(_) => loft.state("R").as_str(),
                Err(Refusal::Taken(_)) => "taken",
                Err(refused) => refusal(refused),
            };
            assert_eq!(got, expected, "{state}: {name}: {answer:?}");
            if answer.is_err() {
                loft.changes = before.changes;
                assert_eq!(loft, before, "{state}: {name}: a refusal writes nothing");
            }
            // what was answered is what is there
            if let Ok(outcome) = &answer
                && name != "supersede"
            {
                assert_eq!(
                    outcome.reservation.as_ref(),
                    loft.reservations.get(&"R".into()),
                    "{state}: {name}"
                );
            }
        }
    }
}

/// Commands that may come again without a key: the second time the answer is the same, and nothing
/// is written.
#[test]
fn repeats_change_nothing() {
    for (state, name) in [
        ("held", "confirm 77"),
        ("held", "release"),
        ("held", "cancel"),
        ("held, over", "release"),
        ("held, over", "cancel"),
        ("confirmed", "cancel"),
        ("cut", "cancel"),
    ] {
        let (mut loft, now) = standing(state);
        let first = loft.run(command(name), at(now)).unwrap();
        let before = loft.clone();
        let second = loft.run(command(name), at(now + 1)).unwrap();
        assert_eq!(second.reservation, first.reservation, "{state}: {name}");
        assert_eq!((&loft.movements, &loft.events), (&before.movements, &before.events), "{state}: {name}");
    }
}

/// A hold that is over is told from one that was swept by nothing but the event.
#[test]
fn whether_it_was_swept_is_not_seen() {
    for name in COLUMNS {
        let (mut over, _) = standing("held, over");
        let (mut swept, _) = standing("expired");
        let (one, other) = (over.run(command(name), at(HOLD + 5)), swept.run(command(name), at(HOLD + 5)));
        let told = |answer: Result<crate::rules::Outcome, Refusal>| answer.map(|outcome| outcome.reservation);
        assert_eq!(told(one), told(other), "{name}");
    }
}
