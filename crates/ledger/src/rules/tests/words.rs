//! What each refusal says: what, which value, what is there, and what to do next.

use super::make::{at, cm, kelp};
use crate::rules::{Amount, At, Class, Material, OrderState, Refusal, Short, State};
use pennantry_measure::Length;

fn check(refusal: &Refusal, expected: &str) {
    assert_eq!(refusal.to_string(), expected);
}

/// Every refusal, its words in full.
#[test]
fn every_refusal_in_words() {
    let tape = Material { class: Class::Binding, code: "TAPE".to_owned() };
    let new = "already: give the new one another name";
    check(&Refusal::PieceExists("B".into()), &format!("there is a piece B {new}"));
    check(&Refusal::ReservationExists("R".into()), &format!("there is a reservation R {new}"));
    check(&Refusal::CutExists("C".into()), &format!("there is a cut C {new}"));
    check(&Refusal::OrderExists("O".into()), &format!("there is an order O {new}"));
    check(&Refusal::NoPiece("B".into()), "there is no piece B: check the name on its label");
    check(&Refusal::NoReservation("R".into()), "there is no reservation R: check its name");
    check(&Refusal::NoCut("C".into()), "there is no cut C: check its name");
    check(&Refusal::NoOrder("O".into()), "there is no order O: check its name");
    check(
        &Refusal::NoLine("R".into(), 3),
        "reservation R has no line 3 that is still to be cut: look at its lines and name one",
    );
    let short = |piece: &str, class, wanted, free| Short { piece: piece.into(), class, wanted, free };
    check(
        &Refusal::Taken(vec![
            short("B", Class::Cloth, cm(20), cm(10)),
            short("X", Class::Sundry, Amount(6), Amount(5)),
        ]),
        "200 mm of piece B cannot be had, 100 mm can; 6 of piece X cannot be had, 5 can: take less, or other pieces",
    );
    check(
        &Refusal::OtherMaterial { piece: "T".into(), is: tape.clone(), wanted: kelp() },
        "piece T is binding TAPE, but cloth KELP is wanted: take a piece of cloth KELP, or amend the reservation",
    );
    check(
        &Refusal::Expired("R".into(), At(1_780_000_000_000_000)),
        "the time of reservation R was over at 2026-05-28 20:26:40 UTC: take a new one, if the stock is still there",
    );
    for (state, next) in [
        (State::Held, "confirm it or let it go"),
        (State::Confirmed, "amend it or call it off"),
        (State::Cut, "call it off, or take its cut back within ten minutes"),
        (State::Released, "take a new one"),
        (State::Expired, "take a new one"),
        (State::Cancelled, "take a new one"),
        (State::Superseded, "go on with the one that took its place"),
    ] {
        let expected = format!("reservation R is {}, so this cannot be done: {next}", state.as_str());
        check(&Refusal::NotNow("R".into(), state), &expected);
    }
    check(
        &Refusal::IsShort { reservation: "R".into(), piece: "B".into(), class: Class::Cloth, short: cm(30) },
        "reservation R is short by 300 mm on piece B: put other stock in its place first",
    );
    check(
        &Refusal::AsLongAsMayBe("R".into(), at(3_600)),
        "reservation R may be held until 2026-05-28 21:26:40 UTC at most: confirm it, or take a new one after that",
    );
    check(
        &Refusal::TooManyHolds(2),
        "at most 2 may be held at once: confirm one, let one go, or wait until one is over",
    );
    check(
        &Refusal::NotYours("R".into()),
        "reservation R is held by somebody else: only its own holder can put another in its place",
    );
    check(
        &Refusal::MoreThanLies { piece: "B".into(), class: Class::Cloth, taken: cm(260), left: cm(250) },
        "2600 mm is to come off piece B, but only 2500 mm lies on it: where more lies there, count it first and \
         record the count",
    );
    check(
        &Refusal::PartsDoNotFit {
            piece: "X".into(),
            class: Class::Sundry,
            taken: Amount(3),
            parts: Amount(4),
        },
        "3 came off piece X, but 4 of it is said to be spoiled or kept: measure again what was taken, what is spoiled \
         and what is kept",
    );
    check(
        &Refusal::RemnantsDoNotFit("B".into()),
        "the remnants do not fit on what came off piece B, narrow ones beside those of its full width: measure \
         them again; each has a length above nought, and of cloth a width",
    );
    check(
        &Refusal::NothingToCut("R".into()),
        "nothing is left to cut for reservation R there: look at its lines and what they still want",
    );
    check(
        &Refusal::TooLate("C".into(), at(600)),
        "cut C could be taken back until 2026-05-28 20:36:40 UTC: now count the piece, and record what is spoiled or \
         found",
    );
    check(&Refusal::AlreadyUndone("C".into()), "cut C was taken back before: there is nothing to do");
    check(
        &Refusal::UsedSince("C".into(), "B".into()),
        "cut C cannot be taken back, for piece B was cut, promised or counted since: take that back first, or count \
         the pieces",
    );
    for (state, next) in [
        (OrderState::Open, "wait until it has come"),
        (OrderState::Filled, "all of it has come, so nothing can be called off"),
        (OrderState::Cancelled, "receive what came without it, or place a new one"),
    ] {
        let expected = format!("order O is {}: {next}", state.as_str());
        check(&Refusal::OrderNotNow("O".into(), state), &expected);
    }
    check(
        &Refusal::NotOrdered("O".into(), tape),
        "order O has no line of binding TAPE: receive that without it, or on the order it is of",
    );
    check(
        &Refusal::BadAmount(Class::Cloth, cm(-1)),
        "-10 mm is not an amount that can be here: it is above nought, or nought where nothing may be left, and at \
         most 100000000 mm",
    );
    check(
        &Refusal::BadAmount(Class::Sundry, Amount(0)),
        "0 is not an amount that can be here: it is above nought, or nought where nothing may be left, and at most \
         100000000000",
    );
    check(
        &Refusal::BadWidth("B".into(), Length::from_mm(-1)),
        "piece B cannot be -1 mm wide: give its usable width, or nought where it has none",
    );
    check(&Refusal::BadSeconds(0), "a hold cannot last 0 seconds: give one second or more");
    check(&Refusal::BadBenchTime(-5), "-5 thousandths of a minute is not a bench time: give nought or more");
    check(
        &Refusal::BadShapeArea(-1),
        "-1 square micrometres is not the area of a shape: give it, or nought where it is not known",
    );
    check(
        &Refusal::TooManyShapes { reservation: "R".into(), line: 2, shapes: 11, most: 10 },
        "11 shapes are said to have come of a cut for line 2 of reservation R, which is for 10: count those for this \
         line, and leave the number out where all of them came of it",
    );
    // numbered from the first of January 1970, as POSIX counts: 20 787 days are 1 795 996 800 seconds
    check(
        &Refusal::BadDay { day: 20_788, today: 20_787 },
        "a cut is recorded for 2026-12-01, and today is 2026-11-30: give today, or one of the 31 days before it",
    );
    check(
        &Refusal::BadFlaws("B".into()),
        "the flaws of piece B do not lie on it one after the other: give each from where to where, in order from the \
         free end, none empty, none over another, none beyond what lies there; what is counted has none",
    );
    check(&Refusal::Empty, "there is nothing in it: name at least one thing to be done");
    check(
        &Refusal::NothingLeft("R".into()),
        "nothing of reservation R would be left: release a hold, or cancel what is confirmed",
    );
    check(
        &Refusal::Changed("R".into()),
        "what reservation R wants has changed since this was planned: look at it and plan it again",
    );
    check(&Refusal::Twice("R-1".to_owned()), "R-1 is named twice: name it once");
}

/// Instants of other calendars' writers: POSIX gives seconds since the epoch for these, among them
/// both ends of a leap day, of a century without one and of one with it.
#[test]
fn instants_in_words() {
    for (seconds, expected) in [
        (0, "1970-01-01 00:00:00 UTC"),
        (-1, "1969-12-31 23:59:59 UTC"),
        (951_782_399, "2000-02-28 23:59:59 UTC"),
        (951_868_800, "2000-03-01 00:00:00 UTC"),
        (1_000_000_000, "2001-09-09 01:46:40 UTC"),
        (2_147_483_647, "2038-01-19 03:14:07 UTC"),
        (4_107_542_399, "2100-02-28 23:59:59 UTC"),
        (4_107_542_400, "2100-03-01 00:00:00 UTC"),
        (253_402_300_799, "9999-12-31 23:59:59 UTC"),
        (-2_203_891_200, "1900-03-01 00:00:00 UTC"),
    ] {
        assert_eq!(At(seconds * 1_000_000).to_string(), expected);
    }
    assert_eq!(At(1).to_string(), "1970-01-01 00:00:00.000001 UTC");
    // the ends of the type have words too
    assert!(
        At(i64::MIN).to_string().starts_with('-') && At(i64::MAX).to_string().starts_with("294247-01-10")
    );
}
